"""Loading the sheets of a workshop: all of them or nothing, every cell checked, twice as once."""

from __future__ import annotations

import csv
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.lookup import part
from catalogue.seed import load_seed
from catalogue.sheet_errors import CellError, SheetErrors
from catalogue.store import open_store
from schema.dimension import parse_dimension
from schema.question import ring_from
from schema.ring_sizes import ring_size

SEED = Path(__file__).parents[2] / "seed_data"


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Database]:
    """A catalogue with the demo data, which no test changes."""
    with closing(open_store(tmp_path_factory.mktemp("seed") / "c.sqlite", write=True)) as db:
        load_seed(db)
        yield db


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Database]:
    """A catalogue with the demo data, of the test's own."""
    with closing(open_store(tmp_path / "c.sqlite", write=True)) as made:
        load_seed(made)
        yield made


@pytest.fixture
def sheets(tmp_path: Path) -> Path:
    """A copy of the demo sheets, to be changed."""
    return Path(shutil.copytree(SEED, tmp_path / "seed_data", ignore=shutil.ignore_patterns("__pycache__")))


def edit(sheets: Path, name: str, old: str, new: str) -> None:
    """Replace a text that stands once in a sheet."""
    text = (sheets / name).read_text("utf-8")
    assert text.count(old) == 1
    (sheets / name).write_text(text.replace(old, new), "utf-8")


def dump(db: Database) -> list[str]:
    """All tables and rows as SQL."""
    return list(db.conn.iterdump())


def sheet(name: str) -> list[dict[str, str]]:
    """The rows of a demo sheet as they stand."""
    with (SEED / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


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


BROKEN = [
    pytest.param(
        "parts.csv",
        "QV-1001,o_ring,",
        "QV-1001,o_rnig,",
        r"parts\.csv, line 2, column kind: .*\(given: 'o_rnig'\)\. To do: one of o_ring, .*; near: o_ring",
        id="kind",
    ),
    pytest.param(
        "parts.csv",
        "NBR,70,AS568-008,,",
        "NBR,soft,AS568-008,,",
        r"parts\.csv, line 2, column hardness_shore_a: .*\(given: 'soft'\)\. To do: a number",
        id="hardness in words",
    ),
    pytest.param(
        "parts.csv",
        "NBR,70,AS568-008,,",
        "NBR,700,AS568-008,,",
        r"parts\.csv, line 2, column hardness_shore_a: .*\(given: '700'\)\. To do: 98 or less",
        id="hardness beyond the scale",
    ),
    pytest.param(
        "parts.csv",
        "AS568-008",
        "AS568-060",
        r"parts\.csv, line 2, column size_code: AS568 has no such .*given: 'AS568-060'.*near: AS568-050",
        id="size code",
    ),
    pytest.param(
        "parts.csv",
        "NBR,70,AS568-008,,",
        "rubber,70,AS568-008,,",
        r"parts\.csv, line 2, column material: this material is not known \(given: 'rubber'\)",
        id="material",
    ),
    pytest.param(
        "parts.csv",
        "NBR,70,AS568-008,,",
        "NBR,70,,,",
        r"parts\.csv, line 2, column size_code: inside_diameter is missing",
        id="no size at all",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-4001,width,1.25 +0/-0.10 mm\n",
        "",
        r"parts\.csv, line 113, column part_number: width is missing .*To do: a row for it in the sheet",
        id="back-up ring without a width",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-4001,width",
        "QV-4001,Width",
        r"part_dimensions\.csv, line 26, column dimension: .*\(given: 'Width'\)\. To do: small letters",
        id="dimension in capitals",
    ),
    pytest.param(
        "parts.csv",
        "QV-2601,Cracked",
        "QV-9601,Cracked",
        r"parts\.csv, line 9\d, column superseded_by: QV-9601 is not in parts\.csv.*near: QV-6101",
        id="successor",
    ),
    pytest.param(
        "parts.csv",
        "QV-2601,Cracked",
        "QV-2604,Cracked",
        r"column superseded_by: a part does not supersede itself",
        id="its own successor",
    ),
    pytest.param(
        "parts.csv",
        "QV-1002,o_ring",
        "qv-1001,o_ring",
        r"parts\.csv, line 3, column part_number: line 2 has the same part_number",
        id="part twice",
    ),
    pytest.param(
        "parts.csv",
        "Pellowgate Mouldings,NBR,70,AS568-008,,",
        "Pellowgate, Mouldings,NBR,70,AS568-008,,",
        r"parts\.csv, line 2, column notes: 9 columns are expected, 10 are here",
        id="comma too many",
    ),
    pytest.param(
        "parts.csv",
        "part_number,kind,description",
        "part_number,sort,description",
        r"parts\.csv, line 1, column sort: there is no such column",
        id="unknown column",
    ),
    pytest.param(
        "parts.csv",
        "mineral, thick, half a litre",
        'mineral, "thick, half a litre',
        r"parts\.csv, line 180, column all: this is not CSV",
        id="open quote",
    ),
    pytest.param(
        "part_dimensions.csv",
        "2.62 ±0.08 mm",
        "2.62 ±0.08",
        r"part_dimensions\.csv, line 2, column text: the unit is missing .*'2\.62 ±0\.08'\)\. To do: mm",
        id="no unit",
    ),
    pytest.param(
        "part_dimensions.csv",
        "15.60 ±0.10 mm",
        "15.60 ± mm",
        r"part_dimensions\.csv, line 60, column text: a number is missing .*\(given: '15\.60 ± mm'\)",
        id="half a tolerance",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-2601,cross_section",
        "QV-2601,cross_secton",
        r"part_dimensions\.csv, line 2, column dimension: there is no such .*near: cross_section",
        id="dimension of a ring",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-5405,thickness",
        "QV-5405,material",
        r"column dimension: there is no such dimension here \(given: 'material'\)",
        id="dimension of a kind without a model",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-2601,cross_section",
        "QX-2601,cross_section",
        r"part_dimensions\.csv, line 2, column part_number: QX-2601 is not in parts\.csv",
        id="dimension of no part",
    ),
    pytest.param(
        "units.csv",
        "-20..50 degC",
        "50..-20 degC",
        r"units\.csv, line 3, column temperature: the range is reversed",
        id="temperature",
    ),
    pytest.param(
        "units.csv",
        "fieldfare-150,fork_damper",
        "field/fare-150,fork_damper",
        r"units\.csv, line 3, column unit: a name has no / in it",
        id="slash in a unit",
    ),
    pytest.param(
        "places.csv",
        "static,liquid,1500 psi",
        "static,liquid,1500",
        r"places\.csv, line 2, column pressure: .*\(given: '1500'\)\. To do: MPa",
        id="pressure without a unit",
    ),
    pytest.param(
        "places.csv",
        "static,liquid,1500 psi",
        "rotary,liquid,1500 psi",
        r"places\.csv, line 2, column motion: .*\(given: 'rotary'\)\. To do: one of static",
        id="motion",
    ),
    pytest.param(
        "places.csv",
        "static,liquid,1500 psi,one_side,pao_oil,1",
        "static,liquid,1500 psi,one_side,paste,1",
        r"places\.csv, line 2, column fluid: this fluid is not known",
        id="fluid",
    ),
    pytest.param(
        "places.csv",
        "1500 psi,one_side,pao_oil,1,steel",
        "1500 psi,one_side,pao_oil,three,steel",
        r"places\.csv, line 2, column back_up_rings: .*To do: a whole number",
        id="back-up rings",
    ),
    pytest.param(
        "place_dimensions.csv",
        "dunlin-165,body-seal,groove_diameter,1.525 ±0.002 in",
        "dunlin-165,body-seal,groove_diameter,1.925 ±0.002 in",
        r"place_dimensions\.csv, line 2, column text: is not larger than groove_diameter",
        id="groove wider than its bore",
    ),
    pytest.param(
        "place_dimensions.csv",
        "dunlin-165,body-seal,surface_finish_groove,1.6 um Ra",
        "dunlin-165,body-seal,surface_finish_groove,N7",
        r"place_dimensions\.csv, line 6, column text: a roughness is a number and its unit",
        id="roughness",
    ),
    pytest.param(
        "rebuild_list.csv",
        "dunlin-165,body-seal,QV-1305",
        "dunlin-165,bodyseal,QV-1305",
        r"rebuild_list\.csv, line 2, column place: dunlin-165/bodyseal is not in .*dunlin-165/body-seal",
        id="list: place",
    ),
    pytest.param(
        "rebuild_list.csv",
        "dunlin-165,body-seal,QV-1305,1,always",
        "dunlin-165,body-seal,QV-1305,0,always",
        r"rebuild_list\.csv, line 2, column quantity: .*To do: 1 or more",
        id="list: quantity",
    ),
]


@pytest.mark.parametrize(("name", "old", "new", "told"), BROKEN)
def test_broken_cell_is_told_and_changes_nothing(
    db: Database, sheets: Path, name: str, old: str, new: str, told: str
) -> None:
    """One bad cell is told with file, line, column, value and what to do; the catalogue stays as it was."""
    before = dump(db)
    edit(sheets, name, old, new)
    with pytest.raises(SheetErrors, match=told):
        load_seed(db, sheets)
    assert dump(db) == before


def test_all_errors_are_told_at_once(db: Database, sheets: Path) -> None:
    """Every bad cell of every sheet is told in one go, in the order of the sheets' lines."""
    edit(sheets, "parts.csv", "QV-1001,o_ring,", "QV-1001,o_rnig,")
    edit(sheets, "part_dimensions.csv", "QV-2610,cross_section,1.00 ±0.08 mm", "QV-2610,cross_section,1.00")
    edit(sheets, "places.csv", "static,liquid,1500 psi", "static,liquid,1500")
    with pytest.raises(SheetErrors, match="3 cells cannot be used; nothing was loaded") as caught:
        load_seed(db, sheets)
    where = [(one.file, one.line, one.column) for one in caught.value.errors]
    assert where == [
        ("part_dimensions.csv", 20, "text"),
        ("parts.csv", 2, "kind"),
        ("places.csv", 2, "pressure"),
    ]


@pytest.mark.parametrize(
    ("content", "told"),
    [
        pytest.param(None, r"units\.csv, line 1, column all: the file cannot be read", id="missing"),
        pytest.param(b"unit,kind\n\xd8", r"units\.csv, line 2, column all: this is not UTF-8", id="encoding"),
        pytest.param(b"", r"units\.csv, line 1, column unit: this column must be there once", id="empty"),
    ],
)
def test_unreadable_sheet(db: Database, sheets: Path, content: bytes | None, told: str) -> None:
    """A sheet that cannot be read is told by name."""
    (sheets / "units.csv").unlink() if content is None else (sheets / "units.csv").write_bytes(content)
    with pytest.raises(SheetErrors, match=told):
        load_seed(db, sheets)


def test_spreadsheet_habits_are_taken(db: Database, sheets: Path) -> None:
    """A byte order mark, Windows line ends, blank lines and another order of columns change nothing."""
    rows = sheet("units.csv")
    columns = list(reversed(rows[0]))
    with (sheets / "units.csv").open("w", encoding="utf-8-sig", newline="") as file:
        writer = csv.DictWriter(file, columns)
        writer.writeheader()
        file.write("\r\n")
        writer.writerows(rows)
    assert load_seed(db, sheets).written == 1  # the version of the sheets only


def test_refused_by_the_file_changes_nothing(db: Database, sheets: Path) -> None:
    """A row that only the file refuses undoes the rows before it."""
    before = dump(db)
    db.execute("CREATE TEMP TRIGGER no BEFORE INSERT ON rebuild_list BEGIN SELECT RAISE(ABORT, 'no'); END")
    edit(sheets, "parts.csv", "End-cap ring of the whinchat-216", "Ring of the end cap")
    edit(sheets, "rebuild_list.csv", "dunlin-165,body-seal,QV-1305,1", "dunlin-165,body-seal,QV-1305,2")
    with pytest.raises(Exception, match="nothing was changed: no") as caught:
        load_seed(db, sheets)
    assert isinstance(caught.value.__cause__, sqlite3.IntegrityError)
    assert dump(db) == before


def test_cell_error_reads_as_a_sentence() -> None:
    """An error of a cell says where, what is wrong, what was given and what to do."""
    error = CellError("parts.csv", 7, "kind", "ring", "this is no kind", "one of o_ring")
    told = "parts.csv, line 7, column kind: this is no kind (given: 'ring'). To do: one of o_ring"
    assert str(error) == told
