"""``borebook rebuild``: a unit of the catalogue or of a file, as drawn and as measured."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from catalogue.unit_answer import unit_answer_schema
from tests.command import UNIT_PATHS

UNIT = """\
unit: sandpiper-45
kind: damper
fluid: mineral_oil
temperature: -10..60 degC
places:
  end-cap:
    kind: piston_gland
    motion: static
    medium: liquid
    pressure: 2.5 MPa
    pressure_from: one_side
    bore_diameter: 36 H7 mm
    groove_diameter: 30.36 ±0.01 mm
    land_diameter: 36 g6 mm
    groove_width: 5.0 +0.2/0 mm
    runs_on: body bore
    parts:
      - {part: LV-1, renew: inspect}
  main-piston:
    kind: piston_gland
    motion: reciprocating
    medium: liquid
    pressure: 1.5 MPa
    pressure_from: both_sides
    bore_diameter: 36 H7 mm
    groove_diameter: 30.9 ±0.05 mm
    land_diameter: 35.9 ±0.02 mm
    groove_width: 4.0 +0.25/0 mm
    runs_on: body bore
    parts:
      - LV-2
parts:
  LV-1: {kind: o_ring, size: AS568-217, material: NBR, hardness_shore_a: 70}
  LV-2: {kind: o_ring, inside_diameter: 30.0 ±0.3 mm, cross_section: 3.0 ±0.09 mm, material: NBR,
    hardness_shore_a: 70}
"""


@pytest.fixture(name="unit_file")
def _unit_file(tmp_path: Path) -> Path:
    path = tmp_path / "sandpiper-45.yaml"
    path.write_text(UNIT, encoding="utf-8")
    return path


def found(run: Any, *arguments: str) -> dict[str, Any]:
    """The JSON answer of a run."""
    answer: dict[str, Any] = json.loads(run("rebuild", *arguments, "--json").out)
    return answer


@pytest.mark.parametrize("unit", [path.stem for path in UNIT_PATHS])
def test_every_demo_unit_is_checked_place_by_place(run: Any, unit: str) -> None:
    """A unit of the catalogue gives every place of its file one verdict, and the worst of them as its own."""
    answer = found(run, unit)
    statuses = [one["answer"]["verdict"] for one in answer["places"]]
    statuses += [one["status"] for one in answer["unit_findings"]]
    worst = next(one for one in ("does not fit", "not proven", "fits") if one in statuses)
    assert answer["verdict"] == worst
    assert sum(len(names) for names in answer["groups"].values()) == len(answer["places"]) > 12


@pytest.mark.parametrize("unit", [path.stem for path in UNIT_PATHS])
def test_the_answer_on_a_unit_follows_its_published_schema(run: Any, unit: str) -> None:
    """What --json prints is what borebook schema unit-answer promises."""
    jsonschema.validate(found(run, unit), unit_answer_schema())
    assert json.loads(run("schema", "unit-answer").out) == unit_answer_schema()


@pytest.mark.parametrize("unit", [path.stem for path in UNIT_PATHS])
def test_a_unit_file_and_the_catalogue_give_the_same_answer(run: Any, unit: str) -> None:
    """The round trip through the catalogue changes no verdict and no number."""
    path = next(one for one in UNIT_PATHS if one.stem == unit)
    assert found(run, str(path)) == found(run, unit)


def test_what_was_measured_settles_what_was_not_proven(run: Any, unit_file: Path, tmp_path: Path) -> None:
    """The piston that drawn limits leave open is proven by a micrometer, in the exit status too."""
    assert run("rebuild", str(unit_file)).status == 4
    measured = tmp_path / "today.yaml"
    measured.write_text(
        "end-cap:\n  LV-1:\n    cross_section: 3.52 mm by calliper on rubber\n"
        "main-piston:\n"
        "  groove_diameter: 30.86 mm by micrometer\n"
        "  land_diameter: 35.90 mm by micrometer\n"
        "  LV-2:\n    cross_section: 3.00 mm by calliper on rubber\n"
        "body bore:\n  bore_diameter: 36.010 mm by bore gauge\n",
        encoding="utf-8",
    )
    ran = run("rebuild", str(unit_file), "--measured", str(measured))
    assert (ran.status, ran.err) == (0, "")
    assert "as measured" in ran.out
    assert "may stay" in ran.out


def test_a_unit_of_the_demo_is_not_closed_with_a_worn_shaft(run: Any, tmp_path: Path) -> None:
    """As the README of the demo says: two places are open as drawn, and a worn shaft refuses the unit."""
    drawn = found(run, "wryneck-185")
    assert drawn["groups"]["not proven"] == ["can-wiper", "main-piston"]
    assert drawn["groups"]["does not fit"] == []
    measured = tmp_path / "today.yaml"
    measured.write_text("damper shaft:\n  shaft_diameter: 0.3731 in by micrometer\n", "utf-8")
    ran = run("rebuild", "wryneck-185", "--measured", str(measured))
    assert ran.status == 3
    assert "Do not close it as listed: wear of the damper shaft." in ran.out


def test_measured_values_are_asked_for_and_kept(
    run: Any, unit_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Prompts take a text that can be read, ask again after one that cannot, and keep what was told."""
    keep = tmp_path / "kept.yaml"
    floor = iter(["tall", "3.086 mm by micrometer", "30.86 mm by micrometer"])

    def typed(text: str, **_: object) -> str:
        return next(floor) if "groove diameter" in text else ""

    monkeypatch.setattr("click.prompt", typed)
    ran = run("rebuild", str(unit_file), "--ask", "--keep", str(keep))
    assert "'tall'" in ran.err
    assert "cannot be the size that is drawn" in ran.err  # and what was typed before it is not lost
    assert "30.86 mm by micrometer" in keep.read_text("utf-8")
    again = run("rebuild", str(unit_file), "--measured", str(keep))
    assert (again.status, again.out) == (ran.status, ran.out)


@pytest.mark.parametrize(
    ("text", "line", "told"),
    [
        pytest.param("end-cup:\n  bore_diameter: 36 mm\n", 1, "Near: end-cap|near: end-cap", id="place"),
        pytest.param("end-cap:\n  bore_diametr: 36 mm\n", 2, "bore_diameter", id="field"),
        pytest.param("end-cap:\n  bore_diameter: 36\n", 2, "unit", id="no unit"),
        pytest.param("end-cap:\n  LV-9:\n    cross_section: 3 mm\n", 2, "no such part", id="part"),
        pytest.param("end-cap:\n  LV-1:\n    cross_section: thick\n", 3, "thick", id="field of a part"),
        pytest.param("- end-cap\n", 1, "named places", id="a list"),
        pytest.param("end-cap: 36 mm\n", 1, "named fields", id="a text"),
        pytest.param("end-cap:\n  bore_diameter: 36 mm\n  bore_diameter: 37 mm\n", 3, "twice", id="twice"),
        pytest.param("body bore:\n  groove_width: 4 mm\n", 2, "only its diameter", id="of a shared bore"),
        pytest.param("end-cap:\n  bore_diameter: 1.417 mm\n", 2, "is the unit right", id="inches as mm"),
        pytest.param("body bore:\n  bore_diameter: 360 mm\n", 2, "is the unit right", id="a digit more"),
        pytest.param(
            "end-cap:\n  LV-1:\n    cross_section: 1.78 mm by calliper on rubber\n",
            3,
            "cannot be the size that is drawn",
            id="another ring",
        ),
        pytest.param(
            "end-cap:\n  groove_width: 5.1 mm by calliper\nbody bore:\n  bore_diameter: 36.01 mn\n",
            4,
            "36.01 mn",
            id="a shared bore that cannot be read",
        ),
        pytest.param(
            "body bore:\n  bore-diameter:\n    a: 36.01 mm\n", 2, "only its diameter", id="a nested bore"
        ),
        pytest.param("end-cap:\n  LV-1: 3.52 mm\n", 2, "there is no such field", id="a part without fields"),
    ],
)
def test_a_measurement_that_cannot_be_used_is_told_with_its_line(
    run: Any, unit_file: Path, tmp_path: Path, text: str, line: int, told: str
) -> None:
    """Nothing is judged by half of what was measured."""
    measured = tmp_path / "today.yaml"
    measured.write_text(text, encoding="utf-8")
    ran = run("rebuild", str(unit_file), "--measured", str(measured))
    assert (ran.status, ran.out) == (2, "")
    assert f"today.yaml, line {line}," in ran.err
    assert any(one in ran.err for one in told.split("|"))
    assert ran.err.count("today.yaml, line") == 1


@pytest.mark.parametrize(
    ("arguments", "status", "told"),
    [
        pytest.param(["whinchat-612"], 2, "whinchat-216", id="unknown unit"),
        pytest.param(["absent.yaml"], 2, "cannot be read", id="no such file"),
        pytest.param(["whinchat-216", "--sheet", "sheet.pdf"], 2, "HTML", id="sheet as PDF"),
        pytest.param(["whinchat-216", "--sheet", "no/where.html"], 2, "no folder", id="no such folder"),
        pytest.param(["whinchat-216", "--decide-by", "toss"], 2, "iso14253-1-u2", id="unknown rule"),
        pytest.param(
            ["whinchat-216", "--measured", "absent.yaml"], 2, "cannot be read", id="no measurements"
        ),
    ],
)
def test_what_cannot_be_used_ends_with_a_reason(
    run: Any, arguments: list[str], status: int, told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The message says what is wrong; nothing is written."""
    monkeypatch.chdir(tmp_path)
    ran = run("rebuild", *arguments)
    assert (ran.status, ran.out) == (status, "")
    assert told in ran.err
    assert list(tmp_path.iterdir()) == []


def test_the_sheet_is_written_beside_the_answer(run: Any, unit_file: Path, tmp_path: Path) -> None:
    """The sheet is one file that names the unit and its number."""
    sheet = tmp_path / "sheet.html"
    ran = run("rebuild", str(unit_file), "--sheet", str(sheet), "--number", "R-17")
    assert str(sheet) in ran.err
    page = sheet.read_text("utf-8")
    assert page.startswith("<!DOCTYPE html>") and "sandpiper-45" in page and "R-17" in page


def test_lengths_are_told_in_inches_where_asked(run: Any, unit_file: Path) -> None:
    """The same findings, written otherwise."""
    metric, inch = (run("rebuild", str(unit_file), "--all", "--in", unit) for unit in ("mm", "in"))
    assert metric.status == inch.status
    assert " mm;" in metric.out and " in;" in inch.out


def test_all_shows_every_finding_of_every_place(run: Any, unit_file: Path) -> None:
    """Findings that fit are told too, each with its source."""
    short, whole = run("rebuild", str(unit_file)), run("rebuild", str(unit_file), "--all")
    assert whole.out.count("Source:") > short.out.count("Source:") + 20


def test_measurements_that_were_kept_are_not_lost(run: Any, unit_file: Path, tmp_path: Path) -> None:
    """A file of another day is written over only where it was read first; an empty one is not written."""
    kept = tmp_path / "today.yaml"
    assert "was not written" in run("rebuild", str(unit_file), "--keep", str(kept)).err
    assert not kept.exists()
    text = "body bore:\n  bore_diameter: 36.010 mm by bore gauge\n"
    kept.write_text(text, encoding="utf-8")
    ran = run("rebuild", str(unit_file), "--keep", str(kept))
    assert (ran.status, ran.out) == (2, "")
    assert "there already" in ran.err
    assert kept.read_text(encoding="utf-8") == text
    again = run("rebuild", str(unit_file), "--measured", str(kept), "--keep", str(kept))
    assert again.status in (0, 4)
    assert kept.read_text(encoding="utf-8") == text
