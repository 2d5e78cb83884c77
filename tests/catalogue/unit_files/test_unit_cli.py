"""``borebook unit``: what it prints, what it writes, how it ends."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from catalogue.unit_files.reading import read_unit_file
from tests.command import SEED, Ran

WHINCHAT = SEED / "units" / "whinchat-216.yaml"
Run = Callable[..., Ran]


@pytest.fixture
def own(tmp_path: Path, catalogue: Path) -> Path:
    """A copy of the demo catalogue, to be changed."""
    path = tmp_path / "own.sqlite"
    path.write_bytes(catalogue.read_bytes())
    return path


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    """The demo unit with four faults of four kinds."""
    text = WHINCHAT.read_text("utf-8")
    for old, new in (
        ("notes: First unit to open", "notes: first: open"),
        ("damper shaft: QV-6001", "damper shaft: QV-6901"),
        ("groove_diameter: 22.11 ±0.02 mm", "groove_diameter: 15.11 ±0.02 mm"),
        ("    corner_radius: 0.4 mm", "    corner_radios: 0.4 mm"),
    ):
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / "broken.yaml"
    path.write_text(text, "utf-8")
    return path


def places(file: Path) -> int:
    """How many places a unit file tells."""
    return len(read_unit_file(file).texts["places"])


def test_check_of_a_good_file(run: Run) -> None:
    """A file without a fault ends with 0 and says what it describes."""
    ran = run("unit", "check", str(WHINCHAT))
    assert (ran.status, ran.err) == (0, "")
    assert f"whinchat-216.yaml describes whinchat-216: {places(WHINCHAT)} places, no fault" in ran.out


def test_check_tells_what_is_lacking(run: Run, tmp_path: Path) -> None:
    """A place that tells little is no fault, and is named with what it lacks."""
    file = tmp_path / "little.yaml"
    file.write_text(
        "unit: wren-1\nkind: damper\nplaces:\n  seal:\n    kind: rod_gland\n    parts: [QV-1207]\n", "utf-8"
    )
    ran = run("unit", "check", str(file))
    assert ran.status == 0
    told = " ".join(ran.out.split())
    assert "line 4, places.seal: not proven for want of" in told
    assert "groove diameter" in told
    assert "not asked, since it is not told: travel of the shaft against metal" in told
    assert "The fields of a place: borebook names rod_gland." in told


def test_what_cannot_be_read_is_told_once(run: Run, tmp_path: Path) -> None:
    """That a file which is not there tells no unit either is no news."""
    assert "1 fault" in run("unit", "check", str(tmp_path / "none.yaml")).out
    empty = tmp_path / "empty.yaml"
    empty.write_text("", "utf-8")
    assert "1 fault" in run("unit", "check", str(empty)).out


def test_a_near_name_is_offered_in_words(run: Run, tmp_path: Path) -> None:
    """What to do is said, also where only a near name is known; an example is not told twice."""
    file = tmp_path / "slips.yaml"
    file.write_text(
        "unit: wren-1\nkind: damper\nplaces:\n  seal:\n    kind: rod_gland\n    seat_dept: 1 mm\n"
        "    groove_widht: 4 mm\n  cap:\n    kind: seal\n",
        "utf-8",
    )
    told = " ".join(run("unit", "check", str(file)).out.split())
    assert "To do: write the one that is meant; near: groove_width" in told
    assert "for example rod_gland" not in told


def test_check_tells_sizes_without_a_tolerance(run: Run, tmp_path: Path) -> None:
    """A size without tolerance proves nothing: it is named before the rebuild; 0 mm is nothing to measure."""
    file = tmp_path / "bare.yaml"
    text = WHINCHAT.read_text("utf-8").replace("depth: 7.0 ±0.2 mm", "depth: 7.0 mm")
    file.write_text(
        text.replace("    depth: 7.0 mm", "    depth: 7.0 mm\n    clamped_thickness: 0 mm"), "utf-8"
    )
    ran = run("unit", "check", str(file))
    told = " ".join(ran.out.split())
    assert "places.bleed-port: not proven for want of tolerance of the thread depth" in told
    assert "clamped" not in told


def test_check_of_a_broken_file(run: Run, broken: Path) -> None:
    """Every fault is told with its line, not only the first; the status is 2."""
    ran = run("unit", "check", str(broken))
    assert ran.status == 2
    text = broken.read_text("utf-8").splitlines()
    lines = [
        next(at for at, line in enumerate(text, start=1) if word in line)
        for word in ("first: open", "QV-6901", "corner_radios", "15.11")
    ]
    for line in lines:
        assert f"broken.yaml, line {line}, column" in ran.out
    assert ran.out.endswith("4 faults\n")


def test_check_as_json(run: Run, broken: Path) -> None:
    """Faults come as JSON with line, column, path, problem and remedy."""
    ran = run("unit", "check", str(broken), "--json")
    found = json.loads(ran.out)
    assert (ran.status, found["unit"], len(found["faults"])) == (2, "whinchat-216", 4)
    last = found["faults"][-1]
    assert (last["path"], last["given"]) == ("places.shaft-seal.groove_diameter", "15.11 ±0.02 mm")
    assert last["mend"] == "groove_diameter above shaft_diameter"


def test_check_without_a_catalogue(run: Run, tmp_path: Path) -> None:
    """Where there is no catalogue, parts that the file does not describe are told as missing, not made up."""
    none = tmp_path / "none.sqlite"
    ran = run("unit", "check", str(WHINCHAT), "--catalogue", str(none))
    assert ran.status == 2
    assert "this part is not in a catalogue (there is none at" in " ".join(ran.out.split())
    assert not none.exists()


def test_check_of_no_file(run: Run) -> None:
    """A file that is not there is told by name."""
    ran = run("unit", "check", "nowhere.yaml")
    assert ran.status == 2
    assert "nowhere.yaml, line 1, column 1: the file cannot be read" in ran.out


def test_add_and_show(run: Run, own: Path, tmp_path: Path) -> None:
    """A unit that was shown, changed and added is shown as it was changed."""
    file = tmp_path / "w.yaml"
    assert run("unit", "show", "whinchat-216", "--to", str(file), "--catalogue", str(own)).status == 0
    assert read_unit_file(file).texts == read_unit_file(WHINCHAT).texts
    same = run("unit", "add", str(file), "--catalogue", str(own))
    assert "says the same already: nothing was changed" in same.out
    file.write_text(
        file.read_text("utf-8").replace("corner_radius: 0.4 mm", "corner_radius: 0.5 mm"), "utf-8"
    )
    added = run("unit", "add", str(file), "--catalogue", str(own))
    assert added.status == 0
    assert "whinchat-216 was replaced in" in added.out
    assert "1 change\n  places.end-cap.corner_radius: 0.4 mm -> 0.5 mm\n" in added.out
    shown = run("unit", "show", "Whinchat-216", "--catalogue", str(own))
    assert shown.out == file.read_text("utf-8")


def test_add_of_a_new_unit(run: Run, own: Path, tmp_path: Path) -> None:
    """A unit of a new name stands beside the others."""
    file = tmp_path / "new.yaml"
    file.write_text(WHINCHAT.read_text("utf-8").replace("unit: whinchat-216", "unit: wren-1"), "utf-8")
    ran = run("unit", "add", str(file), "--catalogue", str(own))
    assert ran.out == f"wren-1 is new in {own}: {places(file)} places\n"
    assert "wren-1" in run("units", "--catalogue", str(own)).out


def test_add_of_a_broken_file(run: Run, own: Path, broken: Path) -> None:
    """A file with faults changes nothing, ends with 2 and tells all of them."""
    before = own.read_bytes()
    ran = run("unit", "add", str(broken), "--catalogue", str(own))
    assert ran.status == 2
    assert "borebook: 4 faults; nothing was changed." in ran.err
    assert ran.err.count("broken.yaml, line") == 4
    assert own.read_bytes() == before


def test_a_broken_file_makes_no_catalogue(run: Run, broken: Path, tmp_path: Path) -> None:
    """Where there is no catalogue, a file that cannot be used does not make an empty one."""
    none = tmp_path / "none.sqlite"
    ran = run("unit", "add", str(broken), "--catalogue", str(none))
    assert ran.status == 2
    assert not none.exists()


def test_show_with_parts_stands_alone(run: Run, tmp_path: Path) -> None:
    """With its parts a unit can be taken into another catalogue, which need not have any."""
    file, other = tmp_path / "alone.yaml", tmp_path / "other.sqlite"
    assert run("unit", "show", "dunlin-165", "--with-parts", "--to", str(file)).status == 0
    ran = run("unit", "add", str(file), "--catalogue", str(other))
    assert (ran.err, ran.out) == ("", f"dunlin-165 is new in {other}: {places(file)} places\n")


def test_show_writes_over_no_file(run: Run, tmp_path: Path) -> None:
    """A file that is there, with its comments, is not written over."""
    file = tmp_path / "mine.yaml"
    file.write_text("# mine\n", "utf-8")
    ran = run("unit", "show", "dunlin-165", "--to", str(file))
    assert (ran.status, file.read_text("utf-8")) == (2, "# mine\n")
    assert "--to: this file is there already" in ran.err


def test_show_of_an_unknown_unit(run: Run) -> None:
    """A unit that is not known is told with near ones."""
    ran = run("unit", "show", "dunlin-156")
    assert ran.status == 2
    assert "Near: dunlin-165" in ran.err


def test_schema_is_printed(run: Run) -> None:
    """The JSON Schema of a unit file is printed as JSON."""
    assert json.loads(run("schema", "unit").out)["title"] == "borebook unit file"


CONTRADICTIONS = """\
unit: wren-1
kind: damper
places:
  face:
    kind: face_gland
    pressure_from: one_side
    parts: [LV-1]
  cap:
    kind: rod_gland
    shaft_diameter: 16 mm
    groove_diameter: 12 mm
    swell_low_percent: 5
    swell_high_percent: 1
parts:
  LV-1: {kind: o_ring, size: AS568-214}
  LV-2: {kind: o_ring, inside_diameter: 3 mm, cross_section: 20 mm}
"""


def test_contradictions_are_told_where_they_stand(run: Run, tmp_path: Path) -> None:
    """Fields of a place, a service or a part that contradict each other are told with their lines."""
    file = tmp_path / "odd.yaml"
    file.write_text(CONTRADICTIONS, "utf-8")
    found = json.loads(run("unit", "check", str(file), "--json").out)["faults"]
    assert [(one["line"], one["path"]) for one in found] == [
        (6, "places.face.pressure_from"),
        (11, "places.cap.groove_diameter"),
        (12, "places.cap.swell_low_percent"),
        (16, "parts.LV-2.cross_section"),
    ]
