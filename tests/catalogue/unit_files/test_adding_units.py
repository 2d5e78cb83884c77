"""Unit files in the catalogue: taken in whole or not at all, and shown again with nothing lost."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from sqlite_utils import Database

from catalogue.faults import UnitFileErrors
from catalogue.lookup import part_texts, unit_texts
from catalogue.seed import load_seed
from catalogue.store import open_store
from catalogue.unit_files.adding import add_unit_file
from catalogue.unit_files.reading import read_unit_text
from catalogue.unit_files.writing import unit_yaml
from schema.unit import unit_from
from tests.command import dump, unit_files

OWN = """\
unit: wren-1
kind: damper
oil: LV-9
source: the workshop, from the unit itself
shafts:
  rod: LV-8
places:
  cap:
    kind: face_gland
    groove_depth: 1.31 ±0.04 mm
    runs_on: rod
    notes: worn
    parts:
      - LV-1
      - {part: QV-5704, quantity: 2, renew: inspect}
  seal:
    kind: rod_gland
    parts:
      - LV-1
parts:
  LV-1:
    kind: o_ring
    size: AS568-214
    material: nbr
    hardness_shore_a: "70.0"
    maker: Someone
    superseded_by: LV-2
    notes: a note
  LV-2:
    kind: o_ring
    inside_diameter: 24,99 ±0,25 mm
    cross_section: 3.53 mm
  LV-8:
    kind: shaft
  LV-9:
    kind: fluid
"""


def add(db: Database, text: str) -> Any:
    """Take a unit in from its text."""
    return add_unit_file(db, read_unit_text(text, name="wren.yaml"))


def shown(db: Database, unit: str) -> dict[str, Any]:
    """The texts of a unit as its file would tell them."""
    return unit_texts(db.conn, unit, own_parts_only=True)


def faults(db: Database, text: str) -> str:
    """The refusal of a text, which changes nothing."""
    before = dump(db)
    with pytest.raises(UnitFileErrors) as caught:
        add(db, text)
    assert dump(db) == before
    return str(caught.value)


def test_a_new_unit_comes_back_as_it_was_told(db: Database) -> None:
    """Every text of the file is kept letter for letter, those of its own parts too."""
    added = add(db, OWN)
    assert (added.unit, added.new, added.places) == ("wren-1", True, 2)
    told = read_unit_text(OWN).texts
    assert shown(db, "WREN-1") == told
    assert list(shown(db, "wren-1")["places"]) == ["cap", "seal"]
    assert part_texts(db.conn, "LV-1")["material"] == "nbr"
    row = db.execute("SELECT material, source FROM part WHERE part_number = 'LV-1'").fetchone()
    assert tuple(row) == ("NBR", "unit wren-1")


def test_all_parts_it_names_come_with_it(db: Database) -> None:
    """For a check, the parts of the catalogue that a unit names stand beside its own."""
    add(db, OWN)
    texts = unit_texts(db.conn, "wren-1")
    assert set(texts["parts"]) == {"LV-1", "LV-2", "LV-8", "LV-9", "QV-5704"}
    assert unit_from(texts).head.unit == "wren-1"


def test_the_same_file_again_changes_nothing(db: Database) -> None:
    """Taking in what is there already writes nothing."""
    add(db, OWN)
    before = dump(db)
    again = add(db, OWN)
    assert (again.new, again.changes) == (False, ())
    assert dump(db) == before


def test_a_unit_is_replaced_wholly_and_what_changed_is_told(db: Database) -> None:
    """What the new file does not tell is gone; every difference is told by its path."""
    add(db, OWN)
    text = OWN.replace("    notes: worn\n", "").replace("1.31 ±0.04 mm", "1.30 ±0.04 mm")
    text = text.replace("quantity: 2, renew: inspect", "quantity: 3").replace("oil: LV-9", "stroke: 50 mm")
    changed = add(db, text)
    assert list(map(str, changed.changes)) == [
        "oil: LV-9 -> nothing",
        "places.cap.groove_depth: 1.31 ±0.04 mm -> 1.30 ±0.04 mm",
        "places.cap.notes: worn -> nothing",
        "places.cap.parts: LV-1, 2 x QV-5704 (inspect) -> LV-1, 3 x QV-5704",
        "stroke: nothing -> 50 mm",
    ]
    assert shown(db, "wren-1") == read_unit_text(text).texts


def test_another_order_of_the_places_is_a_change(db: Database) -> None:
    """The places stand in the order of the work, so that order is told and kept."""
    add(db, OWN)
    head, rest = OWN.split("places:\n")
    places, parts = rest.split("parts:\n  LV-1:")
    first, second = places.split("  seal:\n")
    text = f"{head}places:\n  seal:\n{second}{first}parts:\n  LV-1:{parts}"
    assert list(map(str, add(db, text).changes)) == ["order of the places: cap, seal -> seal, cap"]
    assert list(shown(db, "wren-1")["places"]) == ["seal", "cap"]


def test_its_own_part_may_change_with_it(db: Database) -> None:
    """A part that came with this unit and with no other follows its file."""
    add(db, OWN)
    changed = add(db, OWN.replace("size: AS568-214", "size: AS568-215"))
    assert list(map(str, changed.changes)) == ["parts.LV-1.size: AS568-214 -> AS568-215"]
    assert part_texts(db.conn, "LV-1")["size"] == "AS568-215"


def test_a_part_of_another_does_not_change(db: Database) -> None:
    """A part of the workshop's stock, or of another unit, must be the same in the file."""
    stock = "unit: u\nkind: damper\nparts:\n  QV-1207: {kind: o_ring, size: AS568-216}\n"
    told = faults(db, stock)
    assert "line 4, column 3: parts.QV-1207.description: the catalogue has this part otherwise" in told
    assert "To do: take the part out of the file, or give it a number of its own" in told
    add(db, OWN)
    other = OWN.replace("wren-1", "wren-2")
    assert add(db, other).new
    told = faults(db, other.replace("3.53 mm", "3.50 mm"))
    assert "parts.LV-2.cross_section: the catalogue has this part otherwise" in told
    assert "with cross_section: 3.53 mm (given: '3.50 mm')" in told
    assert "the catalogue spells it LV-2" in faults(db, other.replace("LV-2", "lv-2"))


def test_a_part_of_the_stock_may_be_described_as_it_is(db: Database) -> None:
    """A file that stands alone, with all parts described, is taken in and comes back as it was."""
    text = unit_yaml(unit_texts(db.conn, "whinchat-216"))
    assert len(read_unit_text(text).texts["parts"]) > 20
    before = part_texts(db.conn, "QV-1207")
    add(db, text)
    assert shown(db, "whinchat-216") == read_unit_text(text).texts
    assert part_texts(db.conn, "QV-1207") == before


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("- LV-1\n", "- LV-7\n", "places.seal.parts.0: this part is not in the catalogue"),
        ("oil: LV-9", "oil: LV-7", "line 3, column 6: oil: this part is not in the catalogue"),
        ("rod: LV-8", "rod: LV-7", "shafts.rod: this part is not in the catalogue"),
        ("superseded_by: LV-2", "superseded_by: LV-7", "parts.LV-1.superseded_by: this part is neither in"),
        ("AS568-214", "AS568-060", "parts.LV-1.size: AS568 has no such size"),
        ("unit: wren-1\n", "", "line 1, column 1: unit: is missing (name of the unit)"),
        ("kind: damper\n", "", "line 1, column 1: kind: is missing (what kind of unit it is)"),
        ("kind: damper\n", "kind: car\n", "line 2, column 7: kind: this is not one of the words it may be"),
        ("unit: wren-1", "unit: wren/1", "line 1, column 7: unit: a name has no / in it"),
        ("    notes: worn\n", "    unit: other\n", "places.cap.unit: there is no such field"),
        ("    notes: a note\n", "    part_number: other\n", "parts.LV-1.part_number: there is no such field"),
        ("runs_on: rod", "loaded_by: rod", "places.cap.loaded_by: this is not a gas chamber of the unit"),
    ],
)
def test_a_file_with_a_fault_changes_nothing(db: Database, old: str, new: str, told: str) -> None:
    """A fault is told with its line and path, and the catalogue stays as it was."""
    head, found, tail = OWN.rpartition(old) if old == "- LV-1\n" else OWN.partition(old)
    assert found
    assert told in faults(db, head + new + tail)


def test_a_broken_part_of_the_stock_is_told_where_it_is_named(db: Database) -> None:
    """What is wrong with a part of the catalogue is told at the place that takes it."""
    db.execute("UPDATE part_value SET text = 'AS568-999' WHERE part_number = 'QV-1207' AND field = 'size'")
    text = OWN.replace("- LV-1\n", "- QV-1207\n", 1)
    assert (
        "line 14, column 9: places.cap.parts.0: QV-1207 as the catalogue has it cannot be used: size"
        in faults(db, text)
    )


def test_an_empty_catalogue_takes_a_file_that_stands_alone(tmp_path: Path) -> None:
    """Nothing but the file is needed where it describes every part that it names."""
    text = OWN.replace("      - {part: QV-5704, quantity: 2, renew: inspect}\n", "")
    with closing(open_store(tmp_path / "new.sqlite", write=True)) as db:
        add(db, text)
        assert shown(db, "wren-1") == read_unit_text(text).texts


# -- generated units -------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Database]:
    """A catalogue with the demo, to which generated units are added."""
    with closing(open_store(tmp_path_factory.mktemp("units") / "c.sqlite", write=True)) as db:
        load_seed(db)
        yield db


PLACES = [place for file in unit_files().values() for place in file.texts["places"].values()]
WORDS = st.text("abc éß:#-'\"{}[],&*!|>%@=~01", min_size=1, max_size=12).map(str.strip).filter(bool)
LABELS = WORDS.filter(lambda text: "/" not in text)


@st.composite
def a_place(draw: st.DrawFn) -> dict[str, Any]:
    """A place of the demo with some of its fields and parts left out, and words of its own."""
    whole = draw(st.sampled_from(PLACES))
    kept = draw(st.sets(st.sampled_from(sorted(whole))))
    place = {name: text for name, text in whole.items() if name == "kind" or name in kept}
    place.pop("loaded_by", None)
    if "parts" in place:
        place["parts"] = draw(st.permutations(place["parts"]))[: draw(st.integers(1, 3))]
    if draw(st.booleans()):
        place["notes"] = draw(WORDS)
    return place


@st.composite
def a_unit(draw: st.DrawFn) -> dict[str, Any]:
    """A unit of such places, with parts of its own that are those of the demo under other numbers."""
    names = draw(st.lists(LABELS, max_size=5, unique_by=str.lower))
    unit: dict[str, Any] = {"unit": draw(LABELS), "kind": "damper", "notes": draw(WORDS)}
    unit["places"] = {name: draw(a_place()) for name in names}
    if draw(st.booleans()):
        unit |= {"stroke": "50 +0.5/0 mm", "shafts": {draw(LABELS): "QV-6001"}, "oil": "QV-6101"}
    own = draw(
        st.lists(st.sampled_from(["QV-1207", "QV-4001", "QV-5301", "QV-6102"]), max_size=2, unique=True)
    )
    unit["parts"] = {f"MY {draw(WORDS)} {number}": {"copy": number} for number in own}
    return unit


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(unit=a_unit())
def test_no_unit_loses_anything(demo: Database, unit: dict[str, Any]) -> None:
    """Any unit that is taken in comes back equal: as texts, as a file, and as what is built of it."""
    for number, copy in unit["parts"].items():
        unit["parts"][number] = part_texts(demo.conn, copy["copy"]) | {"description": number}
    read = read_unit_text(unit_yaml(unit))
    assert read.faults == ()
    try:
        with demo.atomic():
            try:
                add_unit_file(demo, read)
            except UnitFileErrors:
                assume(False)  # what is left of a place contradicts itself
            kept = shown(demo, unit["unit"])
            assert kept == read.texts
            assert list(kept.get("places", ())) == list(unit["places"])
            assert read_unit_text(unit_yaml(kept)).texts == read.texts
            told = unit_from({**read.texts, "parts": unit_texts(demo.conn, unit["unit"]).get("parts", {})})
            assert told == unit_from(unit_texts(demo.conn, unit["unit"]))
            raise _Undo
    except _Undo:
        pass


class _Undo(Exception):
    """Takes a generated unit out again."""
