"""What the command line says to a person who stumbles: in the words that were typed, and what to do."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.command import Ran
from tests.examples import END_CAP, FACE, ROD

OPTIONS = [
    *("--material", "NBR", "--hardness", "70", "--bore", "36 H7 mm", "--groove", "30.36 ±0.01 mm"),
    *("--land", "36 g6 mm", "--width", "5.0 +0.2/0 mm", "--motion", "static", "--medium", "liquid"),
    *("--pressure", "2.5 MPa", "--from", "one_side", "--temperature", "-10..60 degC"),
    *("--fluid", "mineral_oil"),
]


def asked(run: Any, folder: Path, question: dict[str, Any], *options: str) -> Ran:
    """Check a question given as a file."""
    path = folder / "question.json"
    path.write_text(json.dumps(question), encoding="utf-8")
    ran: Ran = run("check", "--question", str(path), *options)
    return ran


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        pytest.param(
            ["208", "--gland", "rod", "--bore", "16 mm"],
            "--bore belongs to a piston gland; this is a rod gland"
            " (rod glands take --shaft, --groove, --throat, --width)",
            id="another gland's option",
        ),
        pytest.param(
            ["208", "--gland", "rod", "--shaft", "20 mm", "--groove", "18 mm"],
            "--groove: is not larger than --shaft (20 mm)",
            id="two sizes that contradict",
        ),
        pytest.param(["QV-1207", "whinchat-216/end-cap", "--shaft", "9 mm"], "--shaft belongs", id="place"),
        pytest.param(["--section", "3 mm", "--gland", "rod"], "--inside-diameter: is missing", id="missing"),
        pytest.param(["208"], "Allowed: rod, piston, face", id="no gland"),
        pytest.param(["208", "--gland", "rod", "--shaft", ""], "--shaft: is empty", id="empty"),
        pytest.param(["208", "--gland", "rod", "--shaft=  "], "--shaft: is empty", id="blank"),
        pytest.param(["", "--gland", "rod"], "an argument is empty", id="empty ring"),
        pytest.param(["208", "--shaft", "16 mm", "--shaft", "17 mm"], "--shaft: is given twice", id="twice"),
        pytest.param(
            ["208", "--limit", "fill=ninety", "--limit", "fill=eighty-five"],
            "fill is given twice",
            id="limit",
        ),
        pytest.param(["208", "--shaft", "--bore", "3 mm"], "--shaft: has no value", id="a forgotten value"),
        pytest.param(["208", "--gland", "rod", "--fluid", "petrol"], "see borebook names fluids", id="fluid"),
        pytest.param(["G25", "--gland", "rod"], "Near: JIS-G25", id="a code without its standard"),
        pytest.param(["a\udcff"], "argument 2 has bytes in it that are not UTF-8", id="no text"),
    ],
)
def test_a_refusal_speaks_of_the_options_that_were_typed(run: Any, arguments: list[str], told: str) -> None:
    """A message names the option, is short enough to read, and never the path in a question file."""
    ran = run("check", *arguments)
    assert (ran.status, ran.out) == (2, "")
    assert told in ran.err
    assert "place." not in ran.err
    assert max(map(len, ran.err.splitlines())) < 200


def test_a_question_file_keeps_its_paths(run: Any, tmp_path: Path) -> None:
    """What stands in a file is told by where it stands there; what was typed beside it, by its option."""
    question = {**END_CAP, "place": {**END_CAP["place"], "bore_diameter": "36"}}
    ran = asked(run, tmp_path, question, "--width", "5")
    assert "place.bore_diameter: the unit is missing" in ran.err
    assert "--width: the unit is missing" in ran.err


@pytest.mark.parametrize(
    ("text", "told"),
    [
        pytest.param('{"part": {"size": "214", "size": "215"}}', "stands twice", id="a key twice"),
        pytest.param('{"part": {"size": "\\ud800"}}', "half of a character", id="a lone surrogate"),
    ],
)
def test_a_question_file_that_says_two_things_is_refused(
    run: Any, tmp_path: Path, text: str, told: str
) -> None:
    """Neither a key that stands twice nor half a character is passed over."""
    path = tmp_path / "question.json"
    path.write_text(text, encoding="utf-8")
    ran = run("check", "--question", str(path))
    assert (ran.status, told in ran.err) == (2, True)


@pytest.mark.parametrize("gland", ["piston", "piston gland", "Piston-Gland", "piston_gland"])
@pytest.mark.parametrize(("ring", "kind"), [("217", "O-ring"), ("-217", "O ring"), ("AS568-217", "o_ring")])
def test_the_words_of_the_program_are_understood(run: Any, gland: str, ring: str, kind: str) -> None:
    """Rings and glands may be named as the report names them, and a size as the trade writes it."""
    assert run("check", ring, "--kind", kind, "--gland", gland, *OPTIONS).status == 0


def test_a_four_lobed_ring_is_understood(run: Any) -> None:
    """The name in the report is a name that can be typed."""
    ran = run("check", "217", "--kind", "four-lobed ring", "--gland", "piston", *OPTIONS)
    assert ran.out.startswith("four-lobed ring AS568-217")


def test_a_negative_number_stays_a_value(run: Any) -> None:
    """-5 after an option is its value, not a size."""
    ran = run(
        "check", "-217", "--gland", "piston", *OPTIONS, "--swell-low", "-5", "--swell-high", "0", "--json"
    )
    assert "swell" not in " ".join(json.loads(ran.out)["not_asked"])


@pytest.mark.parametrize(
    ("code", "near"), [("2-214", "AS568-214"), ("AS 569-214", "AS568-214"), ("G25", "JIS-G25")]
)
def test_a_size_written_otherwise_gets_a_hint(run: Any, code: str, near: str) -> None:
    """A code that is nearly one is answered with the one it may be."""
    ran = run("size", code)
    assert (ran.status, ran.err.rstrip().endswith(f"Near: {near}")) == (2, True)


def test_a_dash_size_is_a_size(run: Any) -> None:
    """-214 is no option."""
    assert run("size", "-214").out == run("size", "214").out


def test_what_is_still_needed_is_listed_once_by_option(run: Any) -> None:
    """A question with one size asks for all the rest in one list, and its findings take a line each."""
    ran = run("check", "208", "--gland", "rod", "--shaft", "15.97 mm by micrometer")
    needed = ran.out.split("Still needed:\n")[1].split("\n\n")[0]
    options = [line.split()[0] for line in needed.splitlines() if line.startswith("  --")]
    assert {"--groove", "--throat", "--width", "--motion", "--medium", "--pressure", "--hardness"} < set(
        options
    )
    assert {"--material", "--temperature", "--fluid"} < set(options)
    assert len(options) == len(set(options))
    assert "borebook names fluids" in needed
    assert "At stake: too full" in ran.out
    assert "Why: missing" not in ran.out


def test_nothing_is_asked_for_where_nothing_is_missing(run: Any, tmp_path: Path) -> None:
    """A complete question gets no list of what to give."""
    for question in (END_CAP, ROD, FACE):
        assert "Still needed" not in asked(run, tmp_path, question).out


def test_the_words_of_every_option_are_listed(run: Any) -> None:
    """Every list that the help of check names exists, and lists all that the schema allows."""
    from catalogue.options import FIELDS
    from schema.service import PRESSURE_SIDES

    listed = run("names").out
    for field in FIELDS:
        if field.word_list:
            assert f"\n{field.word_list}:\n" in f"\n{listed}"
    assert all(f"  {side} " in run("names", "from").out for side in PRESSURE_SIDES)


def test_limits_say_where_they_are_the_default(run: Any) -> None:
    """One rule has several defaults; each says for which gland."""
    found = " ".join(run("names", "limits").out.split())
    assert "peripheral_compression=up-to-two: default for rod glands" in found
    assert "section_in_groove=three-quarters: default for all glands (reciprocating)" in found


@pytest.mark.parametrize("width", ["40", "80", "200"])
@pytest.mark.parametrize(
    "command",
    [
        ["names"],
        ["units"],
        ["units", "whinchat-216"],
        ["parts"],
        ["parts", "--number", "QV-1005"],
        ["size", "214", "BS4518-0545-30"],
        ["limits", "25", "H7", "g6"],
    ],
    ids=lambda command: " ".join(command),
)
def test_no_list_is_wider_than_the_terminal(
    run: Any, monkeypatch: pytest.MonkeyPatch, command: list[str], width: str
) -> None:
    """Lists wrap in narrow terminals and stop at 100 columns in wide ones."""
    monkeypatch.setenv("COLUMNS", width)
    assert max(map(len, run(*command).out.splitlines())) <= min(int(width), 100)


def test_a_search_that_finds_nothing_says_why(run: Any) -> None:
    """The word without a match is named; words that never meet are told with what each finds."""
    assert "no part has 'banana'" in run("parts", "nbr", "banana").err
    assert "each by itself finds: 'fkm' 11" in run("parts", "fkm", "nitrile").err


def test_a_picture_is_told(run: Any, tmp_path: Path) -> None:
    """Standard error says where the picture is."""
    path = tmp_path / "gland.svg"
    assert str(path) in run("check", "QV-1207", "whinchat-216/end-cap", "--picture", str(path)).err


def test_a_picture_needs_its_folder(run: Any, tmp_path: Path) -> None:
    """A missing folder is named, before anything is worked out."""
    ran = run("check", "QV-1207", "whinchat-216/end-cap", "--picture", str(tmp_path / "no" / "gland.svg"))
    assert (ran.status, ran.out) == (2, "")
    assert "there is no folder" in ran.err


def test_a_picture_that_cannot_be_written_is_told(run: Any, tmp_path: Path) -> None:
    """A folder in the place of the file gives a message."""
    path = tmp_path / "gland.svg"
    path.mkdir()
    ran = run("check", "QV-1207", "whinchat-216/end-cap", "--picture", str(path))
    assert (ran.status, "cannot be written" in ran.err) == (1, True)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_told(catalogue: Path) -> None:
    """Output that cannot be written ends as a message and status 1, without a traceback."""
    command = [sys.executable, "-m", "catalogue", "units", "--catalogue", str(catalogue)]
    with Path("/dev/full").open("w") as full:
        ran = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert ran.returncode == 1
    assert ran.stderr == "borebook: the output cannot be used: No space left on device\n"


def test_the_demo_ends_with_commands_that_work(tmp_path: Path) -> None:
    """Each command that the demo names at its end runs as it is printed, from where it was called."""
    command = Path(sys.executable).parent / "borebook"
    if not command.exists():
        pytest.skip("the command is not installed")
    (tmp_path / "bin").mkdir()
    shutil.copy(command, tmp_path / "bin" / "borebook")
    environment = {
        **{name: value for name, value in os.environ.items() if name != "BOREBOOK_CATALOGUE"},
        "XDG_DATA_HOME": str(tmp_path / "data"),
        "HOME": str(tmp_path),
        "PATH": "/usr/bin:/bin",
    }

    def shell(text: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["sh", "-c", text], cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
        )

    for demo in ("bin/borebook demo", "bin/borebook demo --catalogue 'my own.sqlite'"):
        printed = shell(demo).stdout.split("Next:\n")[1].splitlines()
        commands = [line.strip() for line in printed if line.startswith("  ")]
        assert len(commands) == 4
        # The unit of the demo has a place that does not fit.
        assert [shell(one).returncode for one in commands] == [0, 0, 3, 0]
        assert all(one.startswith("bin/borebook ") for one in commands)


def test_an_unknown_place_does_not_blame_a_standard_size(run: Any) -> None:
    """214 is a size of a standard: only the place is refused. Where both are unknown, both are told."""
    ran = run("check", "214", "whinchat-216/nowhere")
    assert (ran.status, "part" in ran.err, "this place is not in the catalogue" in ran.err) == (
        2,
        False,
        True,
    )
    both = run("check", "QV-99999", "whinchat-216/nowhere")
    assert "this part number is not" in both.err
    assert "this place is not" in both.err
