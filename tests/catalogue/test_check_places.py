"""``borebook check`` of places that are no glands, from the catalogue and from a question file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from catalogue.answer import answer_schema


def test_a_place_alone_is_checked_with_all_parts_on_its_list(run: Any) -> None:
    """Without a part the place's own list is taken, and the question names it."""
    ran = run("check", "whinchat-216/shaft-bushing")
    assert ran.status == 0
    assert "QV-5301" in ran.out and "FITS" in ran.out


def test_a_gland_alone_is_checked_with_the_ring_on_its_list(run: Any) -> None:
    """A gland is a place like any other; a size told of its ring belongs to the one on the list."""
    ran = run("check", "whinchat-216/shaft-seal")
    assert ran.status == 0
    assert "O-ring QV-1202" in ran.out
    thin = run("check", "whinchat-216/shaft-seal", "--section", "3.2 mm by calliper on rubber")
    assert thin.status != 0
    assert "QV-1202" in thin.out


def test_a_part_takes_the_stead_of_the_one_of_its_kind(run: Any) -> None:
    """Another bushing is judged instead of the one on the list, and this one is not proven here."""
    assert run("check", "QV-5301", "whinchat-216/shaft-bushing").status == 0
    other = run("check", "QV-5303", "whinchat-216/shaft-bushing")
    assert other.status == 4
    assert "QV-5303" in other.out and "QV-5301" not in other.out


def test_a_measured_size_is_set_by_its_name(run: Any) -> None:
    """A worn shaft changes the verdict, and the answer says it was measured."""
    ran = run(
        "check", "whinchat-216/shaft-bushing", "--set", "shaft_diameter=15.60 mm by micrometer", "--json"
    )
    answer = json.loads(ran.out)
    assert ran.status == 3
    assert any("micrometer" in text for text in answer["taken"])
    assert set(answer) <= set(answer_schema()["properties"])


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        pytest.param(["--set", "shaft_diametr=16 mm"], "shaft_diameter", id="unknown field"),
        pytest.param(["--set", "shaft_diameter"], "a name and a text", id="no text"),
        pytest.param(
            ["--set", "shaft_diameter=16 mm", "--set", "shaft_diameter=17 mm"], "given twice", id="twice"
        ),
        pytest.param(["--set", "QV-9999.length=12 mm"], "no such part", id="part that is not there"),
        pytest.param(["--picture", "p.svg"], "no picture of", id="picture"),
    ],
)
def test_what_cannot_be_used_is_told(
    run: Any, arguments: list[str], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The message names the field or the option."""
    monkeypatch.chdir(tmp_path)
    ran = run("check", "whinchat-216/shaft-bushing", *arguments)
    assert (ran.status, ran.out) == (2, "")
    assert told in ran.err


def test_a_place_without_a_catalogue_comes_from_a_question_file(run: Any, tmp_path: Path) -> None:
    """Place and parts of any kind are told in the sections of a question file."""
    question = tmp_path / "q.json"
    given = {
        "place": {
            "kind": "bushing_seat",
            "housing_bore": "18 H7 mm",
            "shaft_diameter": "16 f7 mm",
            "seat_length": "12.5 ±0.2 mm",
            "metal": "steel",
        },
        "parts": [
            {
                "kind": "plain_bushing",
                "style": "wrapped",
                "inside_diameter": "16 mm",
                "outside_diameter": "18 mm",
                "wall": "0.980..1.005 mm",
                "length": "12 ±0.25 mm",
            }
        ],
        "service": {"temperature": "-10..60 degC"},
    }
    question.write_text(json.dumps(given), encoding="utf-8")
    answer = json.loads(run("check", "--question", str(question), "--json").out)
    clearance = next(one for one in answer["findings"] if "clearance as fitted" in one["quantity"])
    assert (clearance["status"], clearance["unit"]) == ("fits", "mm")


def test_a_slip_in_a_question_file_is_told_at_its_path(run: Any, tmp_path: Path) -> None:
    """Every wrong field is told, in the words of the file."""
    question = tmp_path / "q.json"
    given = {
        "place": {"kind": "bushing_seat", "housing_bore": "18"},
        "part": {"kind": "plain_bushing", "wal": "1 mm"},
    }
    question.write_text(json.dumps(given), encoding="utf-8")
    ran = run("check", "--question", str(question))
    assert ran.status == 2
    assert "place.housing_bore" in ran.err and "part.wal" in ran.err


def test_equations_are_shown_with_their_numbers(run: Any) -> None:
    """--explain shows the equation of each quantity with both ends put in."""
    ran = run("check", "whinchat-216/shaft-bushing", "--explain")
    assert "smallest:" in ran.out and "largest:" in ran.out


@pytest.mark.parametrize("whose", ["QV-5901", "qv-5901", "bearing"])
def test_one_part_of_several_is_set_by_its_number_or_kind(run: Any, whose: str) -> None:
    """A worn bearing among three parts is judged as measured, and the others stay as they are."""
    drawn = json.loads(run("check", "garganey-190/lower-eyelet", "--json").out)
    worn = f"{whose}.outside_diameter=18.93 mm by micrometer"
    ran = run("check", "garganey-190/lower-eyelet", "--set", worn, "--json")
    answer = json.loads(ran.out)
    seats = [one for one in answer["findings"] if one["quantity"].startswith("clearance of the bearing in")]
    assert (drawn["verdict"], ran.status) == ("fits", 4)
    assert [one["status"] for one in seats] == ["not proven"]


def test_a_field_of_a_part_that_is_not_there_changes_no_other(run: Any) -> None:
    """A number with a slip in it is refused by that number, also where the place takes one part only."""
    ran = run("check", "whinchat-216/shaft-bushing", "--set", "QV-9999.length=11.9 mm by calliper")
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith("borebook: QV-9999: no such part")


def test_the_ring_of_a_gland_is_set_by_its_number_too(run: Any) -> None:
    """NUMBER.field means the same for a gland as for any other place."""
    section = "cross_section=3.52 mm by calliper on rubber"
    by_number = run("check", "whinchat-216/shaft-seal", "--set", f"QV-1202.{section}", "--json")
    by_part = run("check", "whinchat-216/shaft-seal", "--set", f"part.{section}", "--json")
    assert by_number.status == 4
    assert by_number.out == by_part.out


@pytest.mark.parametrize(
    ("sections", "told"),
    [
        ({"service": [1]}, "service:"),
        ({"choices": 3}, "choices:"),
        ({"part": ["x"]}, "part:"),
        ({"part": {"part_number": 5}}, "part.part_number:"),
        ({"part": {"part_number": ["x"]}}, "part.part_number:"),
        ({"parts": [{"kind": "screw"}]}, "parts:"),
        ({"choices": {"squeeze": "inch-handbook"}}, "choices.squeeze:"),
    ],
)
def test_what_is_laid_over_a_place_must_have_its_shape(
    run: Any, tmp_path: Path, sections: dict[str, Any], told: str
) -> None:
    """A section of another shape, or one that would be passed over, is told by its name."""
    question = tmp_path / "q.json"
    place = {"unit": "garganey-190", "place": "can-ring"}
    question.write_text(json.dumps({"place": place, **sections}), encoding="utf-8")
    ran = run("check", "--question", str(question))
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.startswith(f"borebook: {told}")
