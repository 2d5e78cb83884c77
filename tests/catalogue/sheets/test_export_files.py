"""The files that exports are, how they are loaded back, and the command."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import openpyxl
import pytest

from catalogue.sheets.exporting import MARK
from schema.errors import InputError
from tests.catalogue.sheets.exports import (
    FORMS,
    RING,
    WIDE,
    Run,
    changes_here,
    exported_here,
    loaded_here,
    sheet_here,
    stored,
    texts_here,
)

# -- the files -------------------------------------------------------------------------------------------


def test_every_cell_of_a_workbook_is_a_text(tmp_path: Path) -> None:
    """A spreadsheet program runs none of them as a formula and makes no number or date of any."""
    number = "=1+1"
    home = stored(tmp_path / "home.sqlite", {number: {**RING, "notes": "3-8", "maker": "007"}})
    page = openpyxl.load_workbook(io.BytesIO(exported_here(home, "xlsx"))).active
    assert page is not None
    cells = [cell for cell in page[2] if cell.value is not None]
    assert {(cell.data_type, cell.number_format) for cell in cells} == {("s", "@")}
    assert [cell.value for cell in cells if cell.quotePrefix] == [number]


def test_a_cell_of_a_csv_file_is_no_formula(tmp_path: Path) -> None:
    """An apostrophe stands before it, as it does before one of the text's own."""
    home = stored(tmp_path / "home.sqlite", {"=1+1": {**RING, "notes": "'=2"}})
    row = list(csv.reader(io.StringIO(exported_here(home).decode("utf-8-sig"))))[1]
    assert (row[0], row[-1]) == ("'=1+1", "''=2")


@pytest.mark.parametrize("form", FORMS)
def test_the_same_catalogue_gives_the_same_bytes(catalogue: Path, form: str) -> None:
    """Also at another time: no date of making is in the file."""
    first = exported_here(catalogue, form)
    if form == "xlsx":
        made = openpyxl.load_workbook(io.BytesIO(first)).properties
        assert made.created == made.modified
        assert made.created.year == 1980
    assert exported_here(catalogue, form) == first


def test_the_columns_of_parts(catalogue: Path) -> None:
    """Names of fields: the common ones first, what replaces it and notes last."""
    header = exported_here(catalogue).removeprefix(MARK).decode().splitlines()[0].split(",")
    common = ["part_number", "kind", "description", "maker", "size", "material", "hardness_shore_a"]
    assert header[:7] == common
    assert header[-2:] == ["superseded_by", "notes"]
    assert {"inside_diameter", "thread"} <= set(header)


def test_the_columns_of_offers(tmp_path: Path) -> None:
    """The terms, then the fields of its part that occur, so that the sheet can be read by itself."""
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [{**WIDE, "stock": 0, "maker": "Lindqvern"}])
    header, row = csv.reader(io.StringIO(exported_here(home, "csv", "Kolbring").decode("utf-8-sig")))
    told = {name: text for name, text in zip(header, row, strict=True) if text}
    assert told == {
        "code": "C-1",
        "part_number": "R-1",
        "maker": "Lindqvern",
        "price": "0.5",
        "currency": "EUR",
        "price_per": "1",
        "stock": "0",
        "kind": "o_ring",
        "inside_diameter": "12.7 mm",
        "cross_section": "2.62 mm",
    }


def test_a_sheet_that_was_saved_with_semicolons_is_still_known(catalogue: Path, tmp_path: Path) -> None:
    """So a spreadsheet program writes CSV in half of Europe."""
    rows = csv.reader(io.StringIO(exported_here(catalogue).decode("utf-8-sig")))
    file = io.StringIO()
    csv.writer(file, delimiter=";").writerows(rows)
    loaded_here(tmp_path / "new.sqlite", file.getvalue().encode())
    assert exported_here(tmp_path / "new.sqlite") == exported_here(catalogue)


def test_offers_that_are_gone_are_left_out_and_counted(run: Run, tmp_path: Path) -> None:
    """A row cannot say that it is gone."""
    gone = {**WIDE, "code": "C-2", "listed": 0}
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE, gone])
    told = run("export", "--to", "-", "--supplier", "kolbring", "--catalogue", str(home))
    assert [line.split(",")[0] for line in told.out.splitlines()] == ["code", "C-1"]
    assert told.err == "1 offer of Kolbring; 1 more that was offered once and was left out\n"


# -- loading back ----------------------------------------------------------------------------------------

_HEADER = (*RING, "part_number", "description", "superseded_by", "notes")


def _ring(number: str, successor: str = "", size: str = "12.7 mm") -> tuple[str, ...]:
    return ("o_ring", size, "2.62 mm", number, "", successor, "")


def test_a_successor_may_stand_further_down(tmp_path: Path) -> None:
    """The rows of a list are in the order of numbers, not of time."""
    new = tmp_path / "new.sqlite"
    report = loaded_here(new, sheet_here(_HEADER, _ring("A", "B"), _ring("B")))
    assert report.counts.new == 2
    assert texts_here(new)["A"]["superseded_by"] == "B"


@pytest.mark.parametrize(
    ("rows", "refused"),
    [
        ([_ring("A", "X"), _ring("B")], [2]),
        ([_ring("A", "B"), _ring("B", "C"), _ring("C", "X"), _ring("D")], [2, 3, 4]),
        ([_ring("A", "B"), _ring("B", size="wide"), _ring("C")], [2, 3]),
        ([_ring("A", "a"), _ring("B")], [2]),
    ],
    ids=["nowhere", "after one that is refused", "a row that cannot be read", "itself"],
)
def test_a_successor_that_will_not_be_there_refuses_its_row(
    tmp_path: Path, rows: list[tuple[str, ...]], refused: list[int]
) -> None:
    """With the row's number; the other rows are taken."""
    report = loaded_here(tmp_path / "new.sqlite", sheet_here(_HEADER, *rows))
    assert [row.number for row in report.refused] == refused
    assert report.counts.new == len(rows) - len(refused)


def test_a_known_part_with_a_successor_that_is_nowhere_stays_as_it_was(tmp_path: Path) -> None:
    """And is itself a successor still."""
    home = stored(tmp_path / "home.sqlite", {"A": RING, "B": RING})
    report = loaded_here(home, sheet_here(_HEADER, _ring("A", "B"), _ring("B", "X")))
    assert [(row.number, row.problems[0].column) for row in report.refused] == [(3, "superseded_by")]
    assert texts_here(home) == {"A": {**RING, "superseded_by": "B"}, "B": RING}


@pytest.mark.parametrize(
    ("exported", "loaded_as", "problem"),
    [("", "Kolbring", "no sheet of it has offers"), ("Kolbring", "", "no sheet of it has parts alone")],
)
def test_parts_are_not_taken_for_offers_nor_offers_for_parts(
    tmp_path: Path, exported: str, loaded_as: str, problem: str
) -> None:
    """The refusal says how each is loaded."""
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE])
    with pytest.raises(InputError, match=f"{problem}.*--own-parts for a sheet of parts"):
        loaded_here(home, exported_here(home, "csv", exported), loaded_as)


def test_an_edited_price_is_the_only_change(tmp_path: Path) -> None:
    """The sheet is there to be edited."""
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE, {**WIDE, "code": "C-2"}])
    edited = exported_here(home, "csv", "Kolbring").replace(b"C-2,R-1,,,,0.5,", b"C-2,R-1,,,,0.6,")
    report = loaded_here(home, edited, "Kolbring")
    assert [(one.row.terms.code, one.changes) for one in report.changed] == [
        ("C-2", (("price", "0.5", "0.6"),))
    ]
    assert changes_here(report) == (1, 1)


def test_the_mapping_of_the_suppliers_own_sheets_is_left_alone(run: Run, tmp_path: Path) -> None:
    """An export is no new form of the supplier's list."""
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE])
    kept = tmp_path / "home.suppliers" / "Kolbring.yaml"
    kept.parent.mkdir()
    kept.write_text("supplier: Kolbring\ncolumns:\n  Art.Nr.: code\n", encoding="utf-8")
    before = kept.read_text(encoding="utf-8")
    (tmp_path / "offers.csv").write_bytes(exported_here(home, "csv", "Kolbring"))
    args = ("--supplier", "Kolbring", "--yes", "--catalogue", str(home))
    assert run("load", str(tmp_path / "offers.csv"), *args).status == 0
    assert kept.read_text(encoding="utf-8") == before


# -- the command -----------------------------------------------------------------------------------------


def test_a_file_that_is_there_is_kept_unless_told(run: Run, tmp_path: Path) -> None:
    """It may be the one that was edited all afternoon."""
    path = tmp_path / "parts.csv"
    path.write_text("mine", encoding="utf-8")
    refused = run("export", "--to", str(path))
    assert refused.status == 2
    assert "a file of this name is there already" in refused.err
    assert "--replace" in refused.err
    assert path.read_text(encoding="utf-8") == "mine"
    assert run("export", "--to", str(path), "--replace").status == 0
    assert path.read_bytes().startswith(MARK + b"part_number,")


def test_standard_output_has_the_rows_and_nothing_else(run: Run) -> None:
    """Ready for the next program; what is said goes to standard error."""
    told = run("export", "--to", "-")
    assert told.out.startswith("part_number,kind,")
    assert len(list(csv.reader(io.StringIO(told.out)))) == 206
    assert told.err == "205 parts\n"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "--to: is missing"),
        (("--to", "parts.txt"), "the name does not tell the form of the file"),
        (("--to", "-", "--supplier", "Kolbring"), "the catalogue has no offers yet"),
    ],
)
def test_what_cannot_be_exported_is_told(run: Run, arguments: tuple[str, ...], said: str) -> None:
    """With what to do."""
    told = run("export", *arguments)
    assert told.status == 2
    assert said in " ".join(told.err.split())


def test_a_supplier_that_is_spelt_wrong_is_told_with_those_that_are_there(run: Run, tmp_path: Path) -> None:
    """The nearest is named."""
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE])
    told = run("export", "--to", "-", "--supplier", "Kolbrin", "--catalogue", str(home))
    assert (told.status, told.out) == (2, "")
    assert "Kolbring" in told.err


@pytest.mark.parametrize(("form", "length"), [("csv", 100_001), ("xlsx", 32_768)])
def test_a_text_that_no_cell_holds_leaves_no_file(run: Run, tmp_path: Path, form: str, length: int) -> None:
    """The refusal names the part and the field."""
    home = stored(tmp_path / "home.sqlite", {"A": RING, "B": {**RING, "notes": "x" * length}})
    told = run("export", "--to", str(tmp_path / f"parts.{form}"), "--catalogue", str(home))
    assert told.status == 2
    assert "B: notes" in told.err
    assert not list(tmp_path.glob("*parts*"))
