"""Loading the sheets of a workshop: every row arrives, every text is kept, twice as once."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.lookup import part
from catalogue.seed import load_seed
from catalogue.store import open_store
from schema.dimension import parse_dimension
from schema.question import ring_from
from schema.ring_sizes import ring_size
from tests.command import dump, edit, sheet


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Database]:
    """A catalogue with the demo data, which no test changes."""
    with closing(open_store(tmp_path_factory.mktemp("seed") / "c.sqlite", write=True)) as db:
        load_seed(db)
        yield db


@pytest.mark.parametrize(
    ("table", "name"),
    [
        ("part", "parts.csv"),
        ("unit", "units.csv"),
        ("place", "places.csv"),
        ("rebuild_list", "rebuild_list.csv"),
    ],
)
def test_every_row_arrives(demo: Database, table: str, name: str) -> None:
    """Each row of a sheet is one row of its table."""
    assert demo.table(table).count == len(sheet(name))


def test_demo_is_large_enough(demo: Database) -> None:
    """The demo workshop has parts and units enough to try everything on."""
    assert demo.table("part").count >= 150
    assert demo.table("unit").count >= 3


def test_every_text_is_kept(demo: Database) -> None:
    """The text of every dimension is kept letter for letter."""
    given = {
        (row["unit"], row["place"], row["dimension"]): row["text"] for row in sheet("place_dimensions.csv")
    }
    kept = demo.execute("SELECT unit, place, dimension, text FROM place_dimension")
    assert {tuple(row[:3]): row[3] for row in kept} == given


@pytest.mark.parametrize("table", ["part_dimension", "place_dimension"])
def test_lengths_are_read_back_exactly(demo: Database, table: str) -> None:
    """What a stored text says is what its stored limits say."""
    rows = demo.execute(
        f"SELECT text, nominal_mm, lower_mm, upper_mm FROM {table} WHERE quantity = 'length'"  # noqa: S608
    ).fetchall()
    again = [parse_dimension(row[0]) for row in rows]
    limits = [(float(one.nominal), float(one.lower), float(one.upper)) for one in again]
    assert limits == [tuple(row[1:]) for row in rows]
    assert len(rows) > 200


def test_rings_come_back_as_they_were_given(demo: Database) -> None:
    """A ring from the catalogue equals, to the last digit, the ring from the sheets."""
    sizes: dict[str, dict[str, str]] = {}
    for row in sheet("part_dimensions.csv"):
        sizes.setdefault(row["part_number"], {})[row["dimension"]] = row["text"]
    head = ("kind", "part_number", "description", "material", "hardness_shore_a")
    given = {
        row["part_number"]: ring_from(
            {name: row[name] for name in head}
            | {"size": row["size_code"]}
            | sizes.get(row["part_number"], {})
        )
        for row in sheet("parts.csv")
        if row["kind"] in ("o_ring", "four_lobed_ring")
    }
    assert {number: ring_from(part(demo.conn, number)) for number in given} == given
    assert len(given) > 100


def test_size_codes_are_resolved(demo: Database) -> None:
    """A ring known by its code only has its limits in mm, marked as a standard's, and keeps the code."""
    size = ring_size("AS568-217").cross_section
    row = demo.execute(
        "SELECT size_code, size_grade, text, origin, lower_mm, upper_mm FROM part"
        " JOIN part_dimension USING (part_number)"
        " WHERE part_number = 'QV-1207' AND dimension = 'cross_section'"
    ).fetchone()
    expected = ("AS568-217", "published_twice", "0.139 ±0.004 in", "standard")
    assert tuple(row) == (*expected, float(size.lower), float(size.upper))


@pytest.mark.parametrize(
    ("sql", "expected"),
    [
        pytest.param(
            "SELECT text, quantity, nominal_mm FROM part_dimension"
            " WHERE part_number = 'QV-5701' AND dimension = 'thread'",
            ("M8x1", "thread", None),
            id="thread",
        ),
        pytest.param(
            "SELECT text, quantity, upper_mm FROM place_dimension"
            " WHERE place = 'end-cap' AND dimension = 'surface_finish_groove'",
            ("1.6 um Ra", "roughness", None),
            id="roughness",
        ),
        pytest.param(
            "SELECT pressure, round(gauge_pressure_mpa, 4) FROM place WHERE place = 'can-cap'",
            ("900 psi", 6.2053),
            id="pressure",
        ),
        pytest.param(
            "SELECT temperature, temperature_low_deg_c, temperature_high_deg_c FROM unit"
            " WHERE unit = 'garganey-190'",
            ("-15..50 degC", -15.0, 50.0),
            id="temperature",
        ),
        pytest.param(
            "SELECT group_concat(fluid) FROM place_fluid"
            " WHERE unit = 'dunlin-165' AND place = 'floating-piston'",
            ("nitrogen,pao_oil",),
            id="fluids",
        ),
        pytest.param(
            "SELECT tolerance_class, lower_mm, upper_mm FROM place_dimension"
            " WHERE unit = 'whinchat-216' AND place = 'end-cap' AND dimension = 'bore_diameter'",
            ("H7", 36.0, 36.025),
            id="tolerance class",
        ),
        pytest.param(
            "SELECT superseded_by, source FROM part WHERE part_number = 'QV-2604'",
            ("QV-2601", "seed_data/parts.csv"),
            id="successor and source",
        ),
    ],
)
def test_typed_columns(demo: Database, sql: str, expected: tuple[object, ...]) -> None:
    """Texts stand beside the numbers they say, or alone where they are no number."""
    assert tuple(demo.execute(sql).fetchone()) == expected


def test_versions_are_recorded(demo: Database) -> None:
    """The catalogue says which sheets and which published tables it was made from."""
    found = [tuple(row) for row in demo.execute("SELECT subject, length(version) FROM data_version")]
    assert found == [("workshop_sheets", 16), ("published_tables", 16)]


def test_loading_twice_changes_nothing(db: Database) -> None:
    """The same sheets again leave every row as it was."""
    before = dump(db)
    again = load_seed(db)
    assert (again.written, again.removed, again.changed) == (0, 0, False)
    assert dump(db) == before


def test_changed_sheet_changes_its_rows_only(db: Database, sheets: Path) -> None:
    """A corrected cell is written, a row that is gone is taken out, and nothing else is touched."""
    edit(sheets, "place_dimensions.csv", "whinchat-216,end-cap,corner_radius,0.4 mm\n", "")
    edit(sheets, "parts.csv", "End-cap ring of the whinchat-216", "Ring of the end cap")
    done = load_seed(db, sheets)
    assert (done.written, done.removed) == (2, 1)  # the part and the version of the sheets
    assert done.rows["part"] == db.table("part").count


def test_other_rows_stay(db: Database, sheets: Path) -> None:
    """Parts and units that the sheets do not name stay as they are."""
    db.execute("INSERT INTO part (part_number, kind, source) VALUES ('MINE-1', 'screw', 'own')")
    db.execute("INSERT INTO unit (unit, kind, source) VALUES ('mine', 'damper', 'own')")
    db.execute("INSERT INTO place (unit, place, kind) VALUES ('mine', 'port', 'threaded_port')")
    db.execute("INSERT INTO rebuild_list VALUES ('mine', 'port', 'MINE-1', 1, 'always')")
    load_seed(db, sheets)
    assert db.execute("SELECT part_number FROM rebuild_list WHERE unit = 'mine'").fetchone()[0] == "MINE-1"
