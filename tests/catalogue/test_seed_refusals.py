"""Sheets that cannot be loaded: every cell is told with what to do, and nothing changes."""

from __future__ import annotations

import csv
import sqlite3
from pathlib import Path

import pytest
from sqlite_utils import Database

from catalogue.seed import load_seed
from catalogue.sheet_errors import CellError, SheetErrors
from tests.command import dump, edit, sheet

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
