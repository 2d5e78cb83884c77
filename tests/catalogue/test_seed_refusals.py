"""Files that cannot be loaded: every text is told with what to do, and nothing changes."""

from __future__ import annotations

import csv
import sqlite3
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.seed import load_seed
from catalogue.sheet_errors import CellError, WorkshopErrors
from tests.command import dump, edit, sheet


def line_of(sheets: Path, name: str, text: str) -> int:
    """The line of a file that a text begins in."""
    whole = (sheets / name).read_text("utf-8")
    return whole[: whole.index(text)].count("\n") + 1


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
        r"parts\.csv, line 2, column hardness_shore_a: .*\(given: 'soft'\)\. To do: 20 to 98",
        id="hardness in words",
    ),
    pytest.param(
        "parts.csv",
        "NBR,70,AS568-008,,",
        "NBR,700,AS568-008,,",
        r"parts\.csv, line 2, column hardness_shore_a: .*\(given: '700'\)\. To do: 20 to 98",
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
        r"parts\.csv, line \d+, column part_number: width is missing .*To do: a row for it in part_dim",
        id="back-up ring without a width",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-4001,width",
        "QV-4001,Width",
        r"part_dimensions\.csv, line \d+, column dimension: .*\(given: 'Width'\)\. To do: small letters",
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
        r"parts\.csv, line \d+, column all: this is not CSV",
        id="open quote",
    ),
    pytest.param(
        "part_dimensions.csv",
        "2.62 ±0.08 mm",
        "2.62 ±0.08",
        r"part_dimensions\.csv, line \d+, column text: the unit is missing .*'2\.62 ±0\.08'\)\. To do: mm",
        id="no unit",
    ),
    pytest.param(
        "part_dimensions.csv",
        "5.00 ±0.12 mm",
        "5.00 ± mm",
        r"part_dimensions\.csv, line \d+, column text: a number is missing .*\(given: '5\.00 ± mm'\)",
        id="half a tolerance",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-2601,cross_section",
        "QV-2601,cross_secton",
        r"part_dimensions\.csv, line \d+, column dimension: there is no such .*near: cross_section",
        id="dimension of a ring",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-5405,thickness",
        "QV-5405,metal",
        r"column dimension: there is no such field here \(given: 'metal'\)",
        id="field of no such kind",
    ),
    pytest.param(
        "part_dimensions.csv",
        "QV-2601,cross_section",
        "QX-2601,cross_section",
        r"part_dimensions\.csv, line \d+, column part_number: QX-2601 is not in parts\.csv",
        id="dimension of no part",
    ),
    pytest.param(
        "units/fieldfare-150.yaml",
        "-20..50 degC",
        "50..-20 degC",
        r"units/fieldfare-150\.yaml, line 6, column 14: temperature: the range is reversed",
        id="temperature",
    ),
    pytest.param(
        "units/fieldfare-150.yaml",
        "unit: fieldfare-150",
        "unit: field/fare-150",
        r"units/fieldfare-150\.yaml, line 1, column 7: unit: a name has no / in it",
        id="slash in a unit",
    ),
    pytest.param(
        "units/fieldfare-150.yaml",
        "unit: fieldfare-150",
        "unit: Dunlin-165",
        r"units/fieldfare-150\.yaml, line 1, column 7: unit: dunlin-165\.yaml has the same unit",
        id="unit twice",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "  body-seal:\n    kind: piston_gland",
        "  body-seal:\n    kind: pistn_gland",
        r"line \d+, column 11: places\.body-seal\.kind: there is no such kind.*near: piston_gland",
        id="kind of place",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "    medium: liquid\n    pressure: 1500 psi\n    pressure_from: one_side",
        "    medium: liquid\n    pressure: 1500\n    pressure_from: one_side",
        r"column 15: places\.body-seal\.pressure: .*\(given: '1500'\)\. To do: MPa",
        id="pressure without a unit",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "motion: static\n    medium: liquid\n    pressure: 1500 psi",
        "motion: rotary\n    medium: liquid\n    pressure: 1500 psi",
        r"column 13: places\.body-seal\.motion: .*\(given: 'rotary'\)\. To do: static, reciprocating",
        id="motion",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "pressure_from: one_side\n    fluid: pao_oil",
        "pressure_from: one_side\n    fluid: paste",
        r"column 12: places\.body-seal\.fluid: this fluid is not known",
        id="fluid",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "back_up_rings: 1",
        "back_up_rings: three",
        r"column 20: places\.body-seal\.back_up_rings: .*To do: 0 to 2, whole",
        id="back-up rings",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "groove_diameter: 1.525 ±0.002 in",
        "groove_diameter: 1.925 ±0.002 in",
        r"places\.body-seal\.bore_diameter: is not larger than groove_diameter",
        id="groove wider than its bore",
    ),
    pytest.param(
        "units/whinchat-216.yaml",
        "    lead_in_length: 2.5 mm\n    surface_finish_running: 0.8 um Ra",
        "    lead_in_length: 2.5 mm\n    surface_finish_running: N7",
        r"column 29: places\.end-cap\.surface_finish_running: a roughness is a number and its unit",
        id="roughness",
    ),
    pytest.param(
        "units/whinchat-216.yaml",
        "    corner_radius: 0.4 mm",
        "    corner_radios: 0.4 mm",
        r"column 5: places\.end-cap\.corner_radios: there is no such field.*near: corner_radius",
        id="field",
    ),
    pytest.param(
        "units/dunlin-165.yaml",
        "- QV-1305",
        "- QV-9305",
        r"column 9: places\.body-seal\.parts\.0: this part is not in parts\.csv.*near: QV-5305",
        id="list: part",
    ),
    pytest.param(
        "units/whinchat-216.yaml",
        "quantity: 2",
        "quantity: 0",
        r"column 35: places\.lower-eyelet\.parts\.2\.quantity: this is not a number of parts",
        id="list: quantity",
    ),
    pytest.param(
        "units/whinchat-216.yaml",
        "damper shaft: QV-6001",
        "damper shaft: QV-6901",
        r"line \d+, column 17: shafts\.damper shaft: this part is not in parts\.csv.*near: QV-6101",
        id="shaft",
    ),
    pytest.param(
        "units/whinchat-216.yaml",
        "notes: First unit to open in the demo",
        "notes: First unit: open it",
        r"line \d+, column \d+: a second colon\. To do: put the text between quotes",
        id="no YAML",
    ),
]


@pytest.mark.parametrize(("name", "old", "new", "told"), BROKEN)
def test_broken_text_is_told_and_changes_nothing(
    db: Database, sheets: Path, name: str, old: str, new: str, told: str
) -> None:
    """One bad text is told with file, line, column, value and what to do; the catalogue stays as it was."""
    before = dump(db)
    edit(sheets, name, old, new)
    with pytest.raises(WorkshopErrors, match=told):
        load_seed(db, sheets)
    assert dump(db) == before


def test_all_errors_are_told_at_once(db: Database, sheets: Path) -> None:
    """Every bad text of every file is told in one go, in the order of the files' lines."""
    edit(sheets, "parts.csv", "QV-1001,o_ring,", "QV-1001,o_rnig,")
    edit(sheets, "part_dimensions.csv", "QV-2610,cross_section,1.00 ±0.08 mm", "QV-2610,cross_section,1.00")
    edit(sheets, "units/whinchat-216.yaml", "    corner_radius: 0.4 mm", "    corner_radius: 0.4")
    with pytest.raises(WorkshopErrors, match="3 texts cannot be used; nothing was loaded") as caught:
        load_seed(db, sheets)
    where = [(one.file, one.line, one.column) for one in caught.value.errors]
    assert where == [
        ("part_dimensions.csv", line_of(sheets, "part_dimensions.csv", "QV-2610,cross_section"), "text"),
        ("parts.csv", 2, "kind"),
        ("units/whinchat-216.yaml", line_of(sheets, "units/whinchat-216.yaml", "corner_radius: 0.4\n"), 20),
    ]


@pytest.mark.parametrize(
    ("content", "told"),
    [
        pytest.param(None, r"parts\.csv, line 1, column all: the file cannot be read", id="missing"),
        pytest.param(
            b"part_number,kind\n\xd8", r"parts\.csv, line 2, column all: this is not UTF-8", id="encoding"
        ),
        pytest.param(
            b"", r"parts\.csv, line 1, column part_number: this column must be there once", id="empty"
        ),
    ],
)
def test_unreadable_sheet(db: Database, sheets: Path, content: bytes | None, told: str) -> None:
    """A sheet that cannot be read is told by name."""
    at = sheets / "parts.csv"
    at.unlink() if content is None else at.write_bytes(content)
    with pytest.raises(WorkshopErrors, match=told):
        load_seed(db, sheets)


def test_spreadsheet_habits_are_taken(db: Database, sheets: Path) -> None:
    """A byte order mark, Windows line ends, blank lines and another order of columns change nothing."""
    rows = sheet("parts.csv")
    columns = list(reversed(rows[0]))
    with (sheets / "parts.csv").open("w", encoding="utf-8-sig", newline="") as file:
        writer = csv.DictWriter(file, columns)
        writer.writeheader()
        file.write("\r\n")
        writer.writerows(rows)
    assert load_seed(db, sheets).written == 1  # the version of the files only


def test_refused_by_the_file_changes_nothing(db: Database, sheets: Path) -> None:
    """A row that only the file refuses undoes the rows before it."""
    before = dump(db)
    db.execute("CREATE TEMP TRIGGER no BEFORE INSERT ON rebuild_list BEGIN SELECT RAISE(ABORT, 'no'); END")
    edit(sheets, "parts.csv", "End-cap ring of the whinchat-216", "Ring of the end cap")
    edit(sheets, "units/dunlin-165.yaml", "- QV-1305", "- {part: QV-1305, quantity: 2}")
    with pytest.raises(Exception, match="nothing was changed: no") as caught:
        load_seed(db, sheets)
    assert isinstance(caught.value.__cause__, sqlite3.IntegrityError)
    assert dump(db) == before


def test_cell_error_reads_as_a_sentence() -> None:
    """An error of a cell says where, what is wrong, what was given and what to do."""
    error = CellError("parts.csv", 7, "kind", "ring", "this is no kind", "one of o_ring")
    told = "parts.csv, line 7, column kind: this is no kind (given: 'ring'). To do: one of o_ring"
    assert str(error) == told
