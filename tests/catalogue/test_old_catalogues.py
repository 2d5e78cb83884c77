"""A catalogue that an older version made is brought up to date and keeps all that it held."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.lookup import part, part_record, part_texts, place, unit_texts
from catalogue.migrations import STEPS
from catalogue.store import open_store
from schema.errors import StoreError

# Rows of every table of the first version, as that version wrote them.
FIRST_VERSION = """
BEGIN;
INSERT INTO part VALUES ('R-1', 'o_ring', 'A ring', 'Someone', 'NBR', 70.0, 'AS568-217', 'published_twice',
    'the table', 'R-2', 'a note', 'sheets/parts.csv');
INSERT INTO part VALUES ('R-2', 'o_ring', '', NULL, NULL, NULL, NULL, 'given', 'as given', NULL, NULL, 's');
INSERT INTO part VALUES ('V-1', 'valve_fitting', '', NULL, 'steel', NULL, NULL, NULL, NULL, NULL, NULL, 's');
INSERT INTO part_dimension VALUES ('R-1', 'cross_section', '0.139 ±0.004 in', 'length', 3.53, 3.43, 3.63,
    'standard', NULL, NULL);
INSERT INTO part_dimension VALUES ('R-2', 'cross_section', '2,40 ±U0,09 mm', 'length', 2.4, 2.4, 2.4,
    'measured', 0.045, NULL);
INSERT INTO part_dimension VALUES ('V-1', 'thread', 'M8x1', 'thread', NULL, NULL, NULL, 'drawn', NULL, NULL);
INSERT INTO unit VALUES ('wren-1', 'damper', 'A unit', 'Someone', 'mineral_oil', '-10..60 degC', -10, 60,
    'old', 'sheets/units.csv');
INSERT INTO unit VALUES ('wren-2', 'damper', '', NULL, NULL, NULL, NULL, NULL, NULL, 'sheets/units.csv');
INSERT INTO place VALUES ('wren-1', 'piston', 'piston_gland', 'A place', 'reciprocating', 'gas', '300 psi',
    2.0684, 'both_sides', 1, 'steel', 'worn');
INSERT INTO place VALUES ('wren-1', 'cap', 'threaded_port', '', NULL, NULL, NULL, NULL, NULL, NULL, NULL,
    NULL);
INSERT INTO place_fluid VALUES ('wren-1', 'piston', 'nitrogen', 2), ('wren-1', 'piston', 'pao_oil', 1);
INSERT INTO place_dimension VALUES ('wren-1', 'piston', 'bore_diameter', '36 H7 mm', 'length', 36, 36, 36.025,
    'drawn', NULL, 'H7');
INSERT INTO place_dimension VALUES ('wren-1', 'piston', 'runout', '0 mm', 'length', 0, 0, 0, 'drawn', NULL,
    NULL);
INSERT INTO place_dimension VALUES ('wren-1', 'piston', 'surface_finish_groove', '1.6 um Ra', 'roughness',
    NULL, NULL, NULL, 'drawn', NULL, NULL);
INSERT INTO rebuild_list VALUES ('wren-1', 'piston', 'R-2', 2, 'inspect'), ('wren-1', 'piston', 'R-1', 1,
    'always'), ('wren-1', 'cap', 'V-1', 1, 'inspect');
INSERT INTO data_version VALUES ('workshop_sheets', 'abc', 'sheets');
COMMIT;
"""


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A catalogue as the first version left it."""
    path = tmp_path / "old.sqlite"
    with closing(Database(path)) as db:
        db.conn.execute("PRAGMA foreign_keys = ON")
        STEPS.apply(db, stop_before="every_field_of_every_kind")
        db.executescript(FIRST_VERSION)
        assert db.execute("PRAGMA user_version").fetchone()[0] == 1
    return path


@pytest.fixture
def new(old: Path) -> Iterator[Database]:
    """The same catalogue, brought up to date by opening it for writing."""
    with closing(open_store(old, write=True)) as db:
        yield db


def test_an_old_catalogue_is_told_as_such(old: Path) -> None:
    """Reading does not change a file; that it is older is told, with what to do."""
    with pytest.raises(StoreError, match=r"older version \(tables 1, .*brought up to date"):
        open_store(old)


def test_nothing_of_a_unit_is_lost(new: Database) -> None:
    """Head, places, service, sizes, finishes, fluids and lists are read back as they were given."""
    assert unit_texts(new.conn, "wren-1", own_parts_only=True) == {
        "unit": "wren-1",
        "kind": "damper",
        "description": "A unit",
        "maker": "Someone",
        "fluid": "mineral_oil",
        "temperature": "-10..60 degC",
        "notes": "old",
        "places": {
            "cap": {"kind": "threaded_port", "parts": [{"part": "V-1", "renew": "inspect"}]},
            "piston": {
                "kind": "piston_gland",
                "description": "A place",
                "motion": "reciprocating",
                "medium": "gas",
                "pressure": "300 psi",
                "pressure_from": "both_sides",
                "fluid": "pao_oil; nitrogen",
                "back_up_rings": "1",
                "metal": "steel",
                "bore_diameter": "36 H7 mm",
                "runout": "0 mm",
                "surface_finish_groove": "1.6 um Ra",
                "notes": "worn",
                "parts": ["R-1", {"part": "R-2", "quantity": "2", "renew": "inspect"}],
            },
        },
    }
    assert unit_texts(new.conn, "wren-2") == {"unit": "wren-2", "kind": "damper"}
    assert place(new.conn, "wren-1/piston")[1]["temperature"] == "-10..60 degC"


def test_nothing_of_a_part_is_lost(new: Database) -> None:
    """Code, material, hardness, sizes and threads are read back; what follows from the code is left to it."""
    assert part(new.conn, "R-1") == {
        "part_number": "R-1",
        "kind": "o_ring",
        "description": "A ring",
        "material": "NBR",
        "hardness_shore_a": "70",
        "size": "AS568-217",
    }
    assert part_texts(new.conn, "R-1")["superseded_by"] == "R-2"
    assert part_texts(new.conn, "R-2") == {"kind": "o_ring", "cross_section": "2,40 ±U0,09 mm"}
    assert part_texts(new.conn, "V-1") == {"kind": "valve_fitting", "material": "steel", "thread": "M8x1"}
    record = part_record(new.conn, "R-1")
    assert (record["size_grade"], record["source"]) == ("published_twice", "sheets/parts.csv")
    assert [(one["text"], one["origin"]) for one in record["dimensions"]] == [("0.139 ±0.004 in", "standard")]


def test_numbers_stay_beside_their_texts(new: Database) -> None:
    """Limits in mm, pressures in MPa and temperatures in degrees are kept with what they were read from."""
    size = new.execute("SELECT lower_mm, upper_mm, tolerance_class FROM place_dimension WHERE lower_mm > 0")
    assert [tuple(row) for row in size] == [(36.0, 36.025, "H7")]
    told = "SELECT low, high, in_unit FROM {} WHERE field = '{}'"
    assert tuple(new.execute(told.format("place_value", "pressure")).fetchone()) == (2.0684, 2.0684, "MPa")
    assert tuple(new.execute(told.format("unit_value", "temperature")).fetchone()) == (-10.0, 60.0, "degC")


def test_the_new_file_is_sound(new: Database) -> None:
    """No table of the old shape is left, and every reference finds what it names."""
    assert [name for name in new.table_names() if name.endswith("_1")] == []
    assert new.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    assert new.execute("PRAGMA foreign_key_check").fetchall() == []
    named = " ".join(row[0] or "" for row in new.execute("SELECT sql FROM sqlite_master"))
    assert "_1" not in named
    assert new.execute("SELECT version FROM data_version").fetchone()[0] == "abc"


def test_a_step_that_fails_leaves_the_old_file(old: Path) -> None:
    """Where the new tables cannot be made, the old ones are as they were."""
    with closing(Database(old)) as db:
        db.execute("CREATE TABLE unit_shaft (x)")
        before = list(db.conn.iterdump())
    with pytest.raises(StoreError, match="unit_shaft already exists"):
        open_store(old, write=True)
    with closing(Database(old)) as db:
        assert list(db.conn.iterdump()) == before
