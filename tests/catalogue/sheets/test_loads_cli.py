"""``borebook loads``, and the files that ``borebook load`` writes: rows that were not taken, changes."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.catalogue.sheets.command_sheets import (
    BAD,
    HEADER,
    KOLBRING,
    A,
    B,
    Run,
    kept_mapping,
    offered_codes,
    run_on_shop,
    sheet_of_lines,
)
from tests.catalogue.sheets.small_loads import rows

__all__ = ["run_on_shop", "sheet_of_lines"]  # fixtures


# -- rows that were not taken, changes ------------------------------------------------------------------


def test_rejected_rows_are_mended_and_loaded_by_themselves(
    run: Run, sheet: Callable[..., str], shop: Path, tmp_path: Path
) -> None:
    """They come back with why; mended, they load, and withdraw nothing though the mapping covers all."""
    rejected = tmp_path / "rejected.csv"
    whole_range = ("--covers", "whole_range", "--rejected", str(rejected))
    ran = run("load", sheet(A, B, BAD), *KOLBRING, "--yes", *whole_range)
    assert f"1 row that was not taken is in {rejected}" in " ".join(ran.err.split())
    (row,) = csv.DictReader(rejected.read_text(encoding="utf-8").splitlines())
    assert (row["Code"], row["Price EUR"], row["borebook: row"]) == ("C-3", "free", "4")
    assert "this is not a price" in row["borebook: why not"]
    assert row["borebook: to do"]
    rejected.write_text(rejected.read_text(encoding="utf-8").replace(",free,", ",3.00,"), encoding="utf-8")
    mended = run("load", str(rejected), *KOLBRING, "--yes")
    assert mended.status == 0, mended.out + mended.err
    assert rows(shop, "SELECT code, price, listed FROM offer ORDER BY code") == [
        ("A-1", "1", 1),
        ("B-2", "2", 1),
        ("C-3", "3", 1),
    ]
    assert "covers: whole_range" in kept_mapping(shop).read_text(encoding="utf-8")


def test_rejected_cells_cannot_run_in_a_spreadsheet(
    run: Run, sheet: Callable[..., str], tmp_path: Path, shop: Path
) -> None:
    """A formula is written as text there, and is the same description when it is loaded back."""
    rejected = tmp_path / "rejected.csv"
    line = BAD.replace("O-ring big", "=1+1")
    run("load", sheet(A, line), *KOLBRING, "--yes", "--rejected", str(rejected))
    text = rejected.read_text(encoding="utf-8")
    assert "'=1+1" in text
    rejected.write_text(text.replace(",free,", ",3.00,"), encoding="utf-8")
    run("load", str(rejected), *KOLBRING, "--yes")
    assert rows(shop, "SELECT description FROM offer WHERE code = 'C-3'") == [("=1+1",)]


def test_no_file_of_rejected_rows_where_all_were_taken(
    run: Run, sheet: Callable[..., str], tmp_path: Path
) -> None:
    """It is said so."""
    ran = run("load", sheet(A), *KOLBRING, "--yes", "--rejected", str(tmp_path / "rejected.csv"))
    assert "Every row was taken" in ran.err
    assert not (tmp_path / "rejected.csv").exists()


def test_changes_are_written_as_rows(run: Run, sheet: Callable[..., str], tmp_path: Path) -> None:
    """Code, field, before, now; of a new code all that was read of it; codes that are gone too."""
    changes = tmp_path / "changes.csv"
    run("load", sheet(A, B), *KOLBRING, "--yes", "--covers", "whole_range")
    name = sheet(A.replace("1.00", "1.10"), BAD.replace("free", "3.00"))
    run("load", name, *KOLBRING, "--yes", "--changes", str(changes))
    told = [tuple(row) for row in csv.reader(io.StringIO(changes.read_text(encoding="utf-8")))]
    assert told[0] == ("sheet", "row", "code", "part_number", "field", "before", "now")
    assert set(told[1:]) == {
        ("", "2", "A-1", "Kolbring:A-1", "price", "1", "1.1"),
        ("", "3", "C-3", "Kolbring:C-3", "new", "", "new part"),
        ("", "3", "C-3", "Kolbring:C-3", "description", "", "O-ring big"),
        ("", "3", "C-3", "Kolbring:C-3", "price", "", "3"),
        ("", "3", "C-3", "Kolbring:C-3", "currency", "", "EUR"),
        ("", "3", "C-3", "Kolbring:C-3", "price_per", "", "1"),
        ("", "3", "C-3", "Kolbring:C-3", "kind", "", "o_ring"),
        ("", "3", "C-3", "Kolbring:C-3", "inside_diameter", "", "303 mm"),
        ("", "3", "C-3", "Kolbring:C-3", "cross_section", "", "3.5 mm"),
        ("", "3", "C-3", "Kolbring:C-3", "material", "", "NBR"),
        ("", "3", "C-3", "Kolbring:C-3", "hardness_shore_a", "", "70"),
        ("", "", "B-2", "Kolbring:B-2", "listed", "yes", "no"),
    }


@pytest.mark.parametrize("option", ["--rejected", "--changes"])
def test_a_file_named_xlsx_is_a_workbook(
    run: Run, sheet: Callable[..., str], tmp_path: Path, option: str
) -> None:
    """Its first row is the header, its cells are texts: a code keeps its zeros, a formula is none."""
    from openpyxl import load_workbook

    written = tmp_path / "written.xlsx"
    name = sheet(A.replace("A-1", "007"), BAD.replace("C-3", "008").replace("O-ring big", "=1+1"))
    run("load", name, *KOLBRING, "--yes", option, str(written))
    (page,) = load_workbook(written).worksheets
    header, first = (list(row) for row in page.iter_rows(max_row=2, values_only=True))
    told = dict(zip(header, first, strict=True))
    if option == "--rejected":
        assert (told["Code"], told["Description"], told["borebook: row"]) == ("008", "=1+1", "3")
    else:
        assert (told["code"], told["field"], told["now"]) == ("007", "new", "new part")


def test_a_workbook_of_rejected_rows_loads_back(
    run: Run, sheet: Callable[..., str], shop: Path, tmp_path: Path
) -> None:
    """Mended in a spreadsheet program, it is read like the sheet that it came from."""
    from openpyxl import load_workbook

    rejected = tmp_path / "rejected.xlsx"
    run("load", sheet(A, BAD), *KOLBRING, "--yes", "--rejected", str(rejected))
    book = load_workbook(rejected)
    book["rejected"]["H2"] = 3
    book.save(rejected)
    ran = run("load", str(rejected), *KOLBRING, "--yes")
    assert ran.status == 0, ran.out + ran.err
    assert rows(shop, "SELECT price FROM offer WHERE code = 'C-3'") == [("3",)]


@pytest.mark.parametrize("ending", [".csv", ".xlsx"])
def test_rejected_again_the_reasons_stand_once(
    run: Run, sheet: Callable[..., str], tmp_path: Path, ending: str
) -> None:
    """A file of rejected rows that is not mended gives such a file again, with three columns of ours."""
    from catalogue.sheets.opening import open_sheet_file

    first, second = tmp_path / f"first{ending}", tmp_path / f"second{ending}"
    run("load", sheet(A, BAD), *KOLBRING, "--yes", "--rejected", str(first))
    run("load", str(first), *KOLBRING, "--yes", "--rejected", str(second))
    with open_sheet_file(second) as file:
        (table,) = file.tables
        assert table.header == (*HEADER.split(","), "borebook: row", "borebook: why not", "borebook: to do")
        ((_, cells),) = table.sample
    assert cells[0] == "C-3"
    assert cells[8].endswith("2")  # its row in the first file
    assert "this is not a price" in cells[9]


# -- loads ----------------------------------------------------------------------------------------------


def test_loads_are_listed_the_newest_first(run: Run, sheet: Callable[..., str]) -> None:
    """Each with its number, supplier, file and what it did; of one supplier where it is named."""
    run("load", sheet(A, B), *KOLBRING, "--yes")
    other = A.replace("A-1", "X-9").replace("301", "401")
    run("load", sheet(other, name="other.csv"), "--supplier", "Dornet", "--yes")
    listed = run("loads")
    first, second = listed.out.splitlines()
    assert first.split()[0] == "2"
    assert "Dornet" in first
    assert "other.csv: 1 new" in first
    assert "prices.csv: 2 new" in second
    only = run("loads", "--supplier", "kolbring")
    assert [line.split()[0] for line in only.out.splitlines()] == ["1"]


def test_no_load_is_told(run: Run) -> None:
    """And how to make one."""
    ran = run("loads")
    assert (ran.status, ran.out) == (0, "")
    assert "Nothing was loaded yet: borebook load FILE --supplier NAME" in ran.err


def test_a_supplier_of_no_load_is_told_with_near_ones(run: Run, sheet: Callable[..., str]) -> None:
    """A name that is misspelt is not the same as nothing loaded."""
    run("load", sheet(A), *KOLBRING, "--yes")
    ran = run("loads", "--supplier", "Kolbrin")
    assert ran.status == 2
    told = " ".join(ran.err.split())
    assert "nothing was loaded from a supplier of this name" in told
    assert "Near: Kolbring" in told


def test_loads_as_json(run: Run, sheet: Callable[..., str]) -> None:
    """A list of the same."""
    run("load", sheet(A, B), *KOLBRING, "--yes")
    (told,) = json.loads(run("loads", "--json").out)
    assert (told["load"], told["supplier"], told["file"], told["undone_at"]) == (
        1,
        "Kolbring",
        "prices.csv",
        "",
    )
    assert told["counts"] == {"new": 2, "rows": 2, "new_parts": 2}


def test_one_load_in_full(run: Run, sheet: Callable[..., str], tmp_path: Path) -> None:
    """Its counts, the rows it did not take with why, and these as a file to mend."""
    run("load", sheet(A, BAD), *KOLBRING, "--yes")
    rejected = tmp_path / "later.csv"
    ran = run("loads", "show", "1", "--rejected", str(rejected))
    assert ran.status == 0
    assert "Load 1: prices.csv, Kolbring" in ran.out
    assert "refused: 1" in ran.out
    assert "row 3 was not taken: Price EUR: this is not a price" in " ".join(ran.out.split())
    (row,) = csv.DictReader(rejected.read_text(encoding="utf-8").splitlines())
    assert row["Code"] == "C-3"


def test_the_mapping_of_a_load_can_be_printed_and_used(
    run: Run, sheet: Callable[..., str], shop: Path, tmp_path: Path
) -> None:
    """It is a mapping file."""
    run("load", sheet(A), *KOLBRING, "--yes")
    told = tmp_path / "told.yaml"
    told.write_text(run("loads", "show", "1", "--mapping").out, encoding="utf-8")
    assert told.read_text(encoding="utf-8") == kept_mapping(shop).read_text(encoding="utf-8")
    kept_mapping(shop).unlink()
    ran = run("load", sheet(A, B, name="next.csv"), "--mapping", str(told), "--yes")
    assert ran.status == 0
    assert offered_codes(shop) == ["A-1", "B-2"]


def test_a_load_is_taken_back(run: Run, sheet: Callable[..., str], shop: Path) -> None:
    """What that did is told, and the list of loads says so."""
    run("load", sheet(A, B), *KOLBRING, "--yes")
    ran = run("loads", "undo", "1")
    assert ran.status == 0
    assert "Load 1 (prices.csv) was taken back:" in ran.out
    assert "2 offers taken out" in ran.out
    assert "2 parts taken out" in ran.out
    assert offered_codes(shop) == []
    assert "taken back" in run("loads").out


def test_a_load_that_cannot_be_taken_back_is_told(run: Run, sheet: Callable[..., str]) -> None:
    """Status 1, with what stands in the way."""
    run("load", sheet(A), *KOLBRING, "--yes")
    run("load", sheet(A.replace("A-1", "X-9"), name="other.csv"), "--supplier", "Dornet", "--yes")
    ran = run("loads", "undo", "1")
    assert ran.status == 1
    assert "needed by the offer X-9 of Dornet (load 2)" in " ".join(ran.err.split())


@pytest.mark.parametrize("number", ["one", "0", "-1", "1.5"])
def test_what_is_no_number_of_a_load_is_told(run: Run, number: str) -> None:
    """In our own words, with where the numbers are."""
    ran = run("loads", "show", "--", number)
    assert ran.status == 2
    assert "this is no number of a load" in ran.err
    assert "borebook loads lists them" in " ".join(ran.err.split())


@pytest.mark.parametrize("arguments", [("show", "7"), ("undo", "7"), ("undo", "0"), ("undo", "one")])
def test_a_load_that_is_not_there_is_told(run: Run, arguments: tuple[str, ...]) -> None:
    """No traceback."""
    ran = run("loads", *arguments)
    assert ran.status != 0
    assert "Traceback" not in ran.err
    assert ran.err


def test_a_file_that_is_there_is_not_written_over(
    run: Run, sheet: Callable[..., str], tmp_path: Path
) -> None:
    """Neither a file of somebody's, unless it is asked for, nor ever the sheet itself."""
    name = sheet(A)
    mine = tmp_path / "mine.csv"
    mine.write_text("mine", encoding="utf-8")
    for option, path in (("--rejected", str(mine)), ("--changes", str(mine)), ("--changes", name)):
        ran = run("load", name, *KOLBRING, "--dry-run", option, path)
        assert (ran.status, mine.read_text(encoding="utf-8")) == (2, "mine")
    before = Path(name).read_text(encoding="utf-8")
    assert run("load", name, *KOLBRING, "--dry-run", "--changes", name, "--replace").status == 2
    assert Path(name).read_text(encoding="utf-8") == before
    assert run("load", name, *KOLBRING, "--dry-run", "--changes", str(mine), "--replace").status == 0
    assert mine.read_text(encoding="utf-8-sig").startswith("sheet,row,code")
