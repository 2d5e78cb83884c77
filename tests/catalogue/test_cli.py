"""The command line: what a person types, what comes back, and with which exit status."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pytest

from catalogue.answer import answer_schema
from tests.examples import END_CAP

OPTIONS = [
    *("--material", "NBR", "--hardness", "70", "--gland", "piston", "--bore", "36 H7 mm"),
    *("--groove", "30.36 ±0.01 mm", "--land", "36 g6 mm", "--width", "5.0 +0.2/0 mm"),
    *("--motion", "static", "--medium", "liquid", "--pressure", "2.5 MPa", "--from", "one_side"),
    *("--temperature", "-10..60 degC", "--fluid", "mineral_oil"),
]


@pytest.fixture(name="question_file")
def _question_file(tmp_path: Path) -> Path:
    """A question file that fits."""
    path = tmp_path / "question.json"
    path.write_text(json.dumps(END_CAP), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("part", "place", "status", "word"),
    [
        pytest.param("QV-1207", "whinchat-216/end-cap", 0, "FITS", id="fits"),
        pytest.param("QV-1112", "whinchat-216/end-cap", 3, "DOES NOT FIT", id="too thin"),
        pytest.param("QV-1504", "whinchat-216/end-cap", 3, "DOES NOT FIT", id="wrong rubber"),
        pytest.param("QV-1011", "dunlin-165/main-piston", 4, "NOT PROVEN", id="wide drawing"),
        pytest.param("qv-1207", "WHINCHAT-216/END-CAP", 0, "FITS", id="names in any case"),
        pytest.param("217", "whinchat-216/end-cap", 4, "NOT PROVEN", id="a size without material"),
    ],
)
def test_exit_status_and_first_word_tell_the_verdict(
    run: Any, part: str, place: str, status: int, word: str
) -> None:
    """The verdict is a word in the report and a status for the shell."""
    ran = run("check", part, place)
    assert (ran.status, ran.err) == (status, "")
    assert ran.out.split("\n\n")[1].splitlines()[0].endswith(word)


def test_three_ways_to_ask_give_the_same_answer(run: Any, question_file: Path) -> None:
    """Options, a question file and standard names lead to the same findings."""
    by_options = json.loads(run("check", "217", *OPTIONS, "--json").out)
    by_file = json.loads(run("check", "--question", str(question_file), "--json").out)
    assert by_options == by_file


def test_a_question_can_come_by_standard_input(
    run: Any, monkeypatch: pytest.MonkeyPatch, question_file: Path
) -> None:
    """A dash reads the question from standard input."""
    monkeypatch.setattr(sys, "stdin", io.StringIO(question_file.read_text(encoding="utf-8")))
    assert run("check", "--question", "-").status == 0


def test_a_measured_size_replaces_the_drawn_one(run: Any) -> None:
    """An option leads over the catalogue: the worn groove is judged, not the drawn one."""
    drawn = run("check", "QV-1011", "dunlin-165/main-piston")
    measured = run(
        *("check", "QV-1011", "dunlin-165/main-piston", "--bore", "25.43 ±U0.01 mm"),
        *("--groove", "22.56 ±U0.01 mm", "--land", "25.31 ±U0.01 mm"),
    )
    assert (drawn.status, measured.status) == (4, 0)
    assert "as measured" in " ".join(measured.out.split())


def test_the_answer_follows_its_published_schema(run: Any, question_file: Path) -> None:
    """Every key of the answer and of each finding is in the schema, and none that it requires is missing."""
    found = json.loads(run("check", "--question", str(question_file), "--json").out)
    schema = answer_schema()
    assert set(schema["required"]) <= set(found) <= set(schema["properties"])
    item = schema["properties"]["findings"]["items"]
    for finding in found["findings"]:
        assert set(finding) == set(item["properties"]) == set(item["required"])
    assert json.loads(run("schema", "answer").out) == schema


def test_inches_change_the_report_and_not_the_verdict(run: Any) -> None:
    """Lengths in inches are the same findings, written otherwise."""
    metric = run("check", "QV-1207", "whinchat-216/end-cap", "--all")
    inch = run("check", "QV-1207", "whinchat-216/end-cap", "--all", "--in", "in")
    assert (metric.status, inch.status) == (0, 0)
    assert "0.009 to 0.050 mm" in metric.out
    assert "0.0004 to 0.0020 in" in inch.out


def test_explain_shows_the_equation_with_its_numbers(run: Any) -> None:
    """The smallest handbook squeeze is written out: section 3.429 in a depth of 2.8375 mm."""
    ran = run("check", "QV-1207", "whinchat-216/end-cap", "--explain")
    assert "100 × (3.429 - 2.8375) / 3.429 = 17.2" in " ".join(ran.out.split())


@pytest.mark.parametrize("width", ["40", "60", "200"])
def test_no_line_is_wider_than_the_terminal(run: Any, monkeypatch: pytest.MonkeyPatch, width: str) -> None:
    """Narrow terminals wrap and wide ones stop at 100 columns."""
    monkeypatch.setenv("COLUMNS", width)
    lines = run("check", "QV-1112", "whinchat-216/end-cap", "--all").out.splitlines()
    assert max(map(len, lines)) <= min(int(width), 100)


def test_a_pipe_gets_no_colour(run: Any) -> None:
    """Output that is not a terminal carries no colour codes."""
    assert "\x1b" not in run("check", "QV-1207", "whinchat-216/end-cap").out


def test_a_terminal_gets_colour_unless_it_says_no(run: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal gets colour; NO_COLOR takes it away and leaves the words."""
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    from catalogue.cli.check import style

    assert style().colour
    monkeypatch.setenv("NO_COLOR", "1")
    assert not style().colour


def test_a_picture_is_written(run: Any, tmp_path: Path) -> None:
    """``--picture`` writes an SVG that says the verdict."""
    path = tmp_path / "gland.svg"
    assert run("check", "QV-1207", "whinchat-216/end-cap", "--picture", str(path)).status == 0
    wide = path.read_text(encoding="utf-8")
    assert "Fits" in wide
    assert run("check", "QV-1207", "whinchat-216/end-cap", "--picture", str(path), "--narrow").status == 0
    narrow = path.read_text(encoding="utf-8")
    assert "narrow-layout" in narrow
    assert "narrow-layout" not in wide


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        pytest.param(["check", "QV-1208x", "whinchat-216/end-cap"], "Near: QV-1208", id="unknown part"),
        pytest.param(
            ["check", "QV-1207", "whinchat-216/endcap"], "Near: whinchat-216/end-cap", id="unknown place"
        ),
        pytest.param(["check", "QV-1207", "whinchat-216"], "place", id="a unit is no place"),
        pytest.param(["check", "QV-5301", "whinchat-216/end-cap"], "not checked", id="a bushing is no ring"),
        pytest.param(
            ["check", "QV-1207", "whinchat-216/shaft-bushing"],
            "an O-ring does not go into a",
            id="a seat is no gland",
        ),
        pytest.param(["check"], "no ring is named", id="nothing asked"),
        pytest.param(
            ["check", "217", "--gland", "rod", "--shaft", "16"], "the unit is missing", id="no unit"
        ),
        pytest.param(["check", "217", "--gland", "rod", "--shaft", "3 m"], "absurd", id="a 3 m shaft"),
        pytest.param(["check", "217", "--gland", "rod", "--shaft", "-3 mm"], "not negative", id="negative"),
        pytest.param(["check", "217", "--gland", "rod", "--shaft", "nan mm"], "cannot use 'nan'", id="nan"),
        pytest.param(["check", "217", "--gland", "box"], "--gland", id="no such gland"),
        pytest.param(["check", "999", "--gland", "rod"], "AS568 has no such size", id="no such size"),
        pytest.param(
            ["check", "217", *OPTIONS, "--decide-by", "hope"], "Allowed: iso14253-1-u2", id="no such rule"
        ),
        pytest.param(["check", "217", *OPTIONS, "--squeeze-by", "inch"], "Near: inch", id="no such guidance"),
        pytest.param(["check", "217", *OPTIONS, "--limit", "fill"], "fill=eighty-five", id="half a limit"),
        pytest.param(["check", "217", *OPTIONS, "--without", "hope"], "Allowed: stretch", id="no such layer"),
        pytest.param(["check", "217", *OPTIONS, "--picture", "gland.png"], "SVG", id="no SVG"),
        pytest.param(["check", "217", *OPTIONS, "--narrow"], "no picture", id="narrow without picture"),
        pytest.param(["check", "--question", "nowhere.json"], "nowhere.json", id="no such file"),
        pytest.param(["limits", "25", "H"], "H", id="no class"),
        pytest.param(["limits", "25 H7", "g6"], "no tolerance", id="a nominal size has no class"),
        pytest.param(["limits", "0", "H7"], "size", id="size zero"),
        pytest.param(["size", "spam"], "size code", id="no size code"),
        pytest.param(["units", "whinchat"], "Near: whinchat-216", id="unknown unit"),
        pytest.param(["parts", "--kind", "rings"], "kind", id="unknown kind"),
        pytest.param(["names", "colours"], "there is no such list", id="unknown list"),
        pytest.param(["chek"], "Near: check", id="unknown command"),
        pytest.param(["check", "--colour"], "--colour", id="unknown option"),
    ],
)
def test_input_that_cannot_be_used_ends_with_status_2_and_a_reason(
    run: Any, arguments: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The reason names what was given and what would be right, on standard error, without a traceback."""
    monkeypatch.chdir(tmp_path)
    ran = run(*arguments)
    assert ran.status == 2
    assert told in ran.err
    assert "Traceback" not in ran.err
    assert ran.out == ""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        pytest.param("", "is not JSON", id="empty"),
        pytest.param("{", "line 1, column 2", id="cut off"),
        pytest.param("[]", "holds no object", id="a list"),
        pytest.param('{"parts": {}}', "Near: part", id="a misspelt section"),
        pytest.param('{"part": 3}', "a section holds named fields", id="a section that is a number"),
        pytest.param(
            '{"part": {"size": 214}, "place": {"kind": "rod"}, "x": 1}', "no such section", id="extra"
        ),
        pytest.param('{"part": {"inside_diameter": 3}}', "part.inside_diameter", id="a number for a length"),
        pytest.param('{"part": {"size": null}, "place": null}', "part", id="nulls"),
        pytest.param("[" * 100_000, "is not JSON", id="nested without end"),
    ],
)
def test_a_bad_question_file_is_told_by_field_or_line(run: Any, tmp_path: Path, text: str, told: str) -> None:
    """A question file that cannot be used is refused with the place of the fault."""
    path = tmp_path / "question.json"
    path.write_text(text, encoding="utf-8")
    ran = run("check", "--question", str(path))
    assert ran.status == 2
    assert told in ran.err


def test_a_binary_question_file_is_refused(run: Any, tmp_path: Path) -> None:
    """Bytes that are no text are refused, not shown."""
    path = tmp_path / "question.json"
    path.write_bytes(b"\xff\xfe\x00\x80")
    ran = run("check", "--question", str(path))
    assert (ran.status, "not UTF-8" in ran.err) == (2, True)


def test_every_fault_of_a_question_is_told_at_once(run: Any) -> None:
    """Three faults give three lines."""
    ran = run("check", "217", "--gland", "rod", "--shaft", "16", "--width", "x", "--fluid", "petrol")
    fields = ("--shaft", "--width", "--fluid")
    assert [field for field in fields if field in ran.err] == list(fields)


def test_without_a_catalogue_a_place_cannot_be_looked_up(run: Any, tmp_path: Path) -> None:
    """The message says where it looked and how to make one."""
    ran = run("check", "QV-1207", "whinchat-216/end-cap", "--catalogue", str(tmp_path / "none.sqlite"))
    assert ran.status == 1
    assert "borebook demo" in ran.err


def test_without_a_catalogue_a_standard_size_still_works(run: Any, tmp_path: Path) -> None:
    """A size code and options need no catalogue."""
    assert run("check", "217", *OPTIONS, "--catalogue", str(tmp_path / "none.sqlite")).status == 0


def test_the_demo_leaves_another_catalogue_alone(run: Any, tmp_path: Path) -> None:
    """A catalogue that is not the demo is refused and stays as it was."""
    from catalogue.store import all_or_nothing, open_store

    path = tmp_path / "mine.sqlite"
    db = open_store(path, write=True)
    with all_or_nothing(db):
        db.conn.execute(
            "INSERT INTO part (part_number, kind, description, source)"
            " VALUES ('MINE-1', 'o_ring', 'mine', 'me')"
        )
    db.close()
    before = path.read_bytes()
    ran = run("demo", "--catalogue", str(path))
    assert ran.status == 1
    assert "not the demo" in ran.err
    assert path.read_bytes() == before


def test_limits_as_json_have_the_documented_keys(run: Any) -> None:
    """25 H7/g6: pressfit project page, +21/0 and -7/-20, clearance 7 to 41."""
    found = json.loads(run("limits", "25", "H7", "g6", "--json").out)
    assert [(one["class"], one["lower_um"], one["upper_um"]) for one in found["classes"]] == [
        ("H7", 0, 21),
        ("g6", -20, -7),
    ]
    assert found["fit"]["clearance_min_um"] == 7
    assert found["fit"]["clearance_max_um"] == 41


def test_limits_of_one_class_have_no_fit(run: Any) -> None:
    """A single class makes no fit."""
    assert json.loads(run("limits", "8", "js7", "--json").out)["fit"] is None


def test_a_size_from_memory_would_say_so(run: Any) -> None:
    """Every size prints how well its figures are confirmed."""
    assert "[two published sources]" in run("size", "214").out
    assert "[size without printed tolerance]" in run("size", "BS4518-0545-30").out


def test_units_and_parts_are_listed(run: Any) -> None:
    """The demo has at least three units and 150 parts."""
    assert len(json.loads(run("units", "--json").out)) >= 3
    assert len(json.loads(run("parts", "--json").out)) >= 150
    places = json.loads(run("units", "whinchat-216", "--json").out)
    assert {"place": "end-cap", "parts": ["QV-1207"]}.items() <= {
        key: value for one in places if one["place"] == "end-cap" for key, value in one.items()
    }.items()


def test_a_part_is_shown_with_its_sizes_and_places(run: Any) -> None:
    """One part's record names the places that take it."""
    assert "used in whinchat-216/end-cap" in run("parts", "--number", "QV-1207").out
