"""Loading the sheets of a workshop: every row arrives, every text is kept, twice as once."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.lookup import part, part_texts, unit_texts
from catalogue.seed import load_seed
from catalogue.store import open_store
from schema.dimension import parse_dimension
from schema.question import ring_from
from schema.ring_sizes import ring_size
from tests.command import dump, edit, part_numbers, sheet, unit_files


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Database]:
    """A catalogue with the demo data, which no test changes."""
    with closing(open_store(tmp_path_factory.mktemp("seed") / "c.sqlite", write=True)) as db:
        load_seed(db)
        yield db


def test_every_part_arrives(demo: Database) -> None:
    """Each row of the sheet of parts is one part, and so is each part that a unit file brings."""
    assert {row["part_number"] for row in demo.table("part").rows} == part_numbers()


def test_every_unit_comes_back_as_its_file_tells_it(demo: Database) -> None:
    """Every text of every unit file is kept letter for letter, its places and their parts in their order."""
    for unit, file in unit_files().items():
        assert file.faults == ()
        kept = unit_texts(demo.conn, unit, own_parts_only=True)
        assert kept == file.texts
        assert list(kept["places"]) == list(file.texts["places"])
    assert demo.table("unit").count == len(unit_files())


def test_demo_is_large_enough(demo: Database) -> None:
    """The demo workshop has parts and units enough to try everything on."""
    assert demo.table("part").count >= 150
    assert demo.table("unit").count >= 3


def test_every_field_of_a_part_is_kept(demo: Database) -> None:
    """The text of every field of a part is kept letter for letter."""
    given = {(row["part_number"], row["dimension"]): row["text"] for row in sheet("part_dimensions.csv")}
    kept = {(number, field): part_texts(demo.conn, number)[field] for number, field in given}
    assert kept == given


@pytest.mark.parametrize("table", ["part_dimension", "place_dimension"])
def test_lengths_are_read_back_exactly(demo: Database, table: str) -> None:
    """What a stored text says is what its stored limits say."""
    rows = demo.execute(
        f"SELECT text, nominal_mm, lower_mm, upper_mm FROM {table}"  # noqa: S608
    ).fetchall()
    again = [parse_dimension(row[0], allow_zero=True) for row in rows]
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
            "SELECT text, low, in_unit FROM part_value WHERE part_number = 'QV-5701' AND field = 'thread'",
            ("M8x1", None, None),
            id="thread",
        ),
        pytest.param(
            "SELECT text, low, high, in_unit FROM place_value"
            " WHERE place = 'end-cap' AND field = 'surface_finish_groove'",
            ("1.6 um Ra", 1.6, 1.6, "um"),
            id="roughness",
        ),
        pytest.param(
            "SELECT text, round(low, 4), round(high, 4), in_unit FROM place_value"
            " WHERE unit = 'garganey-190' AND place = 'can-cap' AND field = 'pressure'",
            ("900 psi", 6.2053, 6.2053, "MPa"),
            id="pressure",
        ),
        pytest.param(
            "SELECT text, low, high, in_unit FROM unit_value"
            " WHERE unit = 'garganey-190' AND field = 'temperature'",
            ("-15..50 degC", -15.0, 50.0, "degC"),
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
    """The catalogue says which files and which published tables it was made from."""
    found = [tuple(row) for row in demo.execute("SELECT subject, length(version) FROM data_version")]
    assert found == [("workshop_sheets", 16), ("published_tables", 16)]


def test_loading_twice_changes_nothing(db: Database) -> None:
    """The same files again leave every row as it was."""
    before = dump(db)
    again = load_seed(db)
    assert (again.written, again.removed, again.changed) == (0, 0, False)
    assert dump(db) == before


def test_changed_sheet_changes_its_rows_only(db: Database, sheets: Path) -> None:
    """A corrected cell is written, a row that is gone is taken out, and nothing else is touched."""
    edit(sheets, "units/whinchat-216.yaml", "    corner_radius: 0.4 mm\n", "")
    edit(sheets, "parts.csv", "End-cap ring of the whinchat-216", "Ring of the end cap")
    done = load_seed(db, sheets)
    assert (done.written, done.removed) == (2, 1)  # the part and the version of the files
    assert done.rows["part"] == db.table("part").count


def test_other_rows_stay(db: Database, sheets: Path) -> None:
    """Parts and units that the files do not name stay as they are."""
    db.execute("INSERT INTO part (part_number, kind, source) VALUES ('MINE-1', 'screw', 'own')")
    db.execute("INSERT INTO unit (unit, kind, loaded_from) VALUES ('mine', 'damper', 'own')")
    db.execute("INSERT INTO place (unit, place, position, kind) VALUES ('mine', 'port', 1, 'threaded_port')")
    db.execute("INSERT INTO rebuild_list VALUES ('mine', 'port', 'MINE-1', 1, 1, 'always')")
    load_seed(db, sheets)
    assert db.execute("SELECT part_number FROM rebuild_list WHERE unit = 'mine'").fetchone()[0] == "MINE-1"
