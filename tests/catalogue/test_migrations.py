"""The tables: how they are made, and what they refuse."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.migrations import STEPS
from catalogue.store import SCHEMA_VERSION, open_store
from schema.dimension import LARGEST_MM, Origin
from schema.fields import meaning_of
from schema.kinds import PARTS, PLACES
from schema.parts import ORing
from schema.unit import UNIT_KINDS
from schema.unit_parts import RENEW

TABLES = (
    "data_version",
    "earlier_offer",
    "earlier_part",
    "load",
    "load_rejection",
    "load_table",
    "offer",
    "part",
    "part_dimension",
    "part_value",
    "place",
    "place_dimension",
    "place_fluid",
    "place_value",
    "rebuild_list",
    "unit",
    "unit_part",
    "unit_shaft",
    "unit_value",
)
PART = {"part_number": "A-1", "kind": "o_ring", "source": "test"}
UNIT = {"unit": "wren-1", "kind": "air_shock", "loaded_from": "test"}
PLACE = {"unit": "wren-1", "place": "cap", "position": 1, "kind": "piston_gland"}
LENGTH = {
    "text": "3 mm",
    "nominal_mm": 3,
    "lower_mm": 2.9,
    "upper_mm": 3.1,
    "origin": "drawn",
}
PART_LENGTH = {"part_number": "A-1", "dimension": "width", **LENGTH}
PLACE_LENGTH = {"unit": "wren-1", "place": "cap", "dimension": "bore_diameter", **LENGTH}
VALUE = {"field": "pressure", "text": "2 MPa", "low": 2, "high": 2, "in_unit": "MPa"}
PART_VALUE = {"part_number": "A-1", **VALUE}
UNIT_VALUE = {"unit": "wren-1", **VALUE}
PLACE_VALUE = {"unit": "wren-1", "place": "cap", **VALUE}
RENEWED = {
    "unit": "wren-1",
    "place": "cap",
    "part_number": "A-1",
    "position": 1,
    "quantity": 1,
    "renew": "always",
}
SHAFT = {"unit": "wren-1", "label": "rod", "part_number": "A-1"}
OWN_PART = {"unit": "wren-1", "part_number": "A-1"}


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Database]:
    """A new catalogue with one part, one unit and one place."""
    with closing(open_store(tmp_path / "c.sqlite", write=True)) as made:
        insert(made, "part", PART)
        insert(made, "unit", UNIT)
        insert(made, "place", PLACE)
        yield made


def insert(db: Database, table: str, row: Mapping[str, object]) -> None:
    """Insert one row with the columns that it names."""
    marks = ", ".join("?" * len(row))
    db.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", tuple(row.values()))  # noqa: S608


def test_new_file_records_its_steps(db: Database) -> None:
    """A new file has all tables, and says which steps made them."""
    made = {name for name in db.table_names() if not name.startswith("offer_words_")}
    assert tuple(sorted(made - {"_sqlite_migrations", "offer_words"})) == TABLES
    assert [one.name for one in STEPS.applied(db)] == [
        "parts_units_places",
        "every_field_of_every_kind",
        "offers_and_loads",
    ]
    assert STEPS.pending(db) == []


def test_version_is_the_number_of_steps(db: Database) -> None:
    """The number in the file, the number the reader knows and the number of steps are one."""
    steps = len(STEPS.applied(db))
    assert db.execute("PRAGMA user_version").fetchone()[0] == steps == SCHEMA_VERSION


def test_opening_again_changes_nothing(tmp_path: Path, db: Database) -> None:
    """Steps that were taken are not taken again."""
    before = list(db.conn.iterdump())
    with closing(open_store(tmp_path / "c.sqlite", write=True)) as again:
        assert list(again.conn.iterdump()) == before


def test_failed_step_leaves_nothing(tmp_path: Path) -> None:
    """A step that fails half way leaves no table and no version behind."""
    with closing(sqlite3.connect(tmp_path / "c.sqlite")) as connection:
        connection.execute("CREATE TABLE rebuild_list (x)")  # in the way of the step's seventh table
        database = Database(connection)
        with pytest.raises(sqlite3.OperationalError, match="rebuild_list already exists"):
            STEPS.apply(database)
        assert set(database.table_names()) <= {"rebuild_list", "_sqlite_migrations"}
        assert database.execute("PRAGMA user_version").fetchone()[0] == 0


@pytest.mark.parametrize("table", TABLES)
def test_tables_are_strict(db: Database, table: str) -> None:
    """Every table is STRICT."""
    assert db.table(table).strict


@pytest.mark.parametrize(
    ("table", "column", "words"),
    [
        ("part", "kind", tuple(PARTS)),
        ("part", "size_grade", meaning_of(ORing.declared["size_grade"]).allowed),
        ("unit", "kind", UNIT_KINDS),
        ("place", "kind", tuple(PLACES)),
        ("part_dimension", "origin", tuple(Origin)),
        ("place_dimension", "origin", tuple(Origin)),
        ("rebuild_list", "renew", RENEW),
    ],
)
def test_word_lists_agree(db: Database, table: str, column: str, words: tuple[str, ...]) -> None:
    """The words that a table takes are those that the program knows."""
    found = re.search(rf"CHECK \({column} IN \(([^)]*)\)\)", db.table(table).schema)
    assert found is not None
    assert re.findall(r"'(\w+)'", found[1]) == list(words)


def test_largest_length_agrees(db: Database) -> None:
    """The largest length that a table takes is the largest that is read."""
    assert db.table("part_dimension").schema.count(f"upper_mm <= {LARGEST_MM}") == 1


@pytest.mark.parametrize(
    ("table", "row", "told"),
    [
        pytest.param("part_dimension", PART_LENGTH | {"lower_mm": "2,9"}, "REAL column", id="text in REAL"),
        pytest.param("rebuild_list", RENEWED | {"quantity": 1.5}, "INTEGER column", id="half a part"),
        pytest.param("part", PART, "UNIQUE", id="part twice"),
        pytest.param("part", PART | {"part_number": "a-1"}, "UNIQUE", id="part twice in small letters"),
        pytest.param("part", PART | {"part_number": " A-2"}, "CHECK", id="space in front"),
        pytest.param("part", PART | {"part_number": ""}, "CHECK", id="no part number"),
        pytest.param("part", PART | {"part_number": "A-2", "kind": "washer"}, "CHECK", id="part kind"),
        pytest.param("part", PART | {"part_number": "A-2", "hardness_shore_a": 120}, "CHECK", id="hardness"),
        pytest.param("part", PART | {"part_number": "A-2", "size_grade": "sure"}, "CHECK", id="size grade"),
        pytest.param("part", PART | {"part_number": "A-2", "superseded_by": "A-2"}, "CHECK", id="itself"),
        pytest.param(
            "part", PART | {"part_number": "A-2", "superseded_by": "A-9"}, "FOREIGN", id="successor"
        ),
        pytest.param("part_dimension", PART_LENGTH | {"part_number": "A-9"}, "FOREIGN", id="unknown part"),
        pytest.param("part_dimension", PART_LENGTH | {"lower_mm": -1}, "CHECK", id="below zero"),
        pytest.param("part_dimension", PART_LENGTH | {"text": ""}, "CHECK", id="length without its text"),
        pytest.param("part_dimension", PART_LENGTH | {"lower_mm": 3.2}, "CHECK", id="limits reversed"),
        pytest.param("part_dimension", PART_LENGTH | {"upper_mm": 3000.1}, "CHECK", id="beyond any part"),
        pytest.param("part_dimension", PART_LENGTH | {"upper_mm": float("inf")}, "CHECK", id="infinite"),
        pytest.param(
            "part_dimension", PART_LENGTH | {"upper_mm": float("nan")}, "NOT NULL", id="not a number"
        ),
        pytest.param("part_dimension", PART_LENGTH | {"nominal_mm": None}, "NOT NULL", id="no nominal size"),
        pytest.param("part_dimension", PART_LENGTH | {"origin": "guessed"}, "CHECK", id="origin"),
        pytest.param("part_dimension", PART_LENGTH | {"origin": "measured"}, "CHECK", id="no uncertainty"),
        pytest.param("unit", UNIT | {"unit": "a/b"}, "CHECK", id="slash in a unit's name"),
        pytest.param("unit", UNIT | {"unit": "b", "kind": "bicycle"}, "CHECK", id="unit kind"),
        pytest.param("unit", UNIT | {"unit": "b", "loaded_from": ""}, "CHECK", id="unit from nowhere"),
        pytest.param("unit_value", UNIT_VALUE | {"unit": "none"}, "FOREIGN", id="value of no unit"),
        pytest.param("unit_value", UNIT_VALUE | {"low": 3}, "CHECK", id="value with its ends reversed"),
        pytest.param("unit_shaft", SHAFT | {"part_number": "A-9"}, "FOREIGN", id="unknown shaft"),
        pytest.param("unit_part", OWN_PART | {"part_number": "A-9"}, "FOREIGN", id="unknown own part"),
        pytest.param("part_value", PART_VALUE | {"part_number": "A-9"}, "FOREIGN", id="value of no part"),
        pytest.param("part_value", PART_VALUE | {"in_unit": None}, "CHECK", id="number without a unit"),
        pytest.param("place", PLACE | {"place": "b", "unit": "none"}, "FOREIGN", id="unknown unit"),
        pytest.param("place", PLACE | {"place": "b", "kind": "hole"}, "CHECK", id="place kind"),
        pytest.param("place", PLACE | {"place": "b", "position": 0}, "CHECK", id="place before the first"),
        pytest.param("place_value", PLACE_VALUE | {"high": None}, "CHECK", id="pressure without an end"),
        pytest.param("place_value", PLACE_VALUE | {"text": ""}, "CHECK", id="value without a text"),
        pytest.param("place_value", PLACE_VALUE | {"place": "none"}, "FOREIGN", id="value of no place"),
        pytest.param("place_dimension", PLACE_LENGTH | {"lower_mm": -1}, "CHECK", id="bore below zero"),
        pytest.param("place_dimension", PLACE_LENGTH | {"place": "none"}, "FOREIGN", id="unknown place"),
        pytest.param("rebuild_list", RENEWED | {"part_number": "A-9"}, "FOREIGN", id="list: unknown part"),
        pytest.param("rebuild_list", RENEWED | {"place": "none"}, "FOREIGN", id="list: unknown place"),
        pytest.param("rebuild_list", RENEWED | {"quantity": 0}, "CHECK", id="no quantity"),
        pytest.param("rebuild_list", RENEWED | {"renew": "maybe"}, "CHECK", id="renew"),
    ],
)
def test_refused_rows(db: Database, table: str, row: Mapping[str, object], told: str) -> None:
    """A row that cannot be true is refused by the table itself, whoever writes it."""
    with pytest.raises(sqlite3.IntegrityError, match=told):
        insert(db, table, row)


@pytest.mark.parametrize(
    ("table", "row"),
    [
        pytest.param("part_dimension", PART_LENGTH, id="length of a part"),
        pytest.param("place_dimension", PLACE_LENGTH, id="length of a place"),
        pytest.param(
            "place_dimension",
            PLACE_LENGTH | {"dimension": "runout", "nominal_mm": 0, "lower_mm": 0, "upper_mm": 0},
            id="no runout",
        ),
        pytest.param(
            "place_value",
            PLACE_VALUE | {"field": "thread", "text": "M8x1", "low": None, "high": None, "in_unit": None},
            id="thread",
        ),
        pytest.param("place_value", PLACE_VALUE, id="pressure"),
        pytest.param("part_value", PART_VALUE | {"in_unit": ""}, id="plain number of a part"),
        pytest.param("unit_value", UNIT_VALUE, id="value of a unit"),
        pytest.param("unit_shaft", SHAFT, id="shaft"),
        pytest.param("unit_part", OWN_PART, id="part that the unit's file describes"),
        pytest.param(
            "part_dimension",
            PART_LENGTH | {"origin": "measured", "standard_uncertainty_mm": 0.005},
            id="measured",
        ),
        pytest.param("rebuild_list", RENEWED, id="rebuild list"),
    ],
)
def test_taken_rows(db: Database, table: str, row: Mapping[str, object]) -> None:
    """A row that can be true is taken."""
    insert(db, table, row)
    assert db.table(table).count == 1


def test_fields_go_with_their_part(db: Database) -> None:
    """A part that is taken out takes its fields with it."""
    insert(db, "part_dimension", PART_LENGTH)
    insert(db, "part_value", PART_VALUE)
    db.execute("DELETE FROM part")
    assert (db.table("part_dimension").count, db.table("part_value").count) == (0, 0)


def test_all_of_a_unit_goes_with_it(db: Database) -> None:
    """A unit that is taken out takes its places and their lists with it, and leaves the parts."""
    for table, row in (
        ("unit_value", UNIT_VALUE),
        ("unit_shaft", SHAFT),
        ("unit_part", OWN_PART),
        ("place_dimension", PLACE_LENGTH),
        ("place_value", PLACE_VALUE),
        ("rebuild_list", RENEWED),
    ):
        insert(db, table, row)
    db.execute("DELETE FROM unit")
    left = {table for table in TABLES if db.table(table).count}
    assert left == {"part"}


@pytest.mark.parametrize(
    ("sql", "index"),
    [
        pytest.param("SELECT * FROM part WHERE part_number = 'a-1'", "sqlite_autoindex_part_1", id="part"),
        pytest.param("SELECT * FROM part WHERE kind = 'o_ring'", "part_by_kind", id="kind"),
        pytest.param(
            "SELECT part_number FROM part_dimension WHERE dimension = 'width' AND lower_mm BETWEEN 2 AND 3",
            "part_dimension_by_limits",
            id="limits",
        ),
        pytest.param(
            "SELECT unit FROM rebuild_list WHERE part_number = 'a-1'", "rebuild_list_by_part", id="where used"
        ),
        pytest.param(
            "SELECT * FROM place WHERE unit = 'W' AND place = 'C'", "sqlite_autoindex_place_1", id="place"
        ),
    ],
)
def test_questions_use_an_index(db: Database, sql: str, index: str) -> None:
    """The questions a shop asks are answered by an index, not by reading the whole table."""
    plan = " ".join(row[3] for row in db.execute(f"EXPLAIN QUERY PLAN {sql}"))
    assert f"INDEX {index}" in plan
