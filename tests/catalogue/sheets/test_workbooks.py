"""Workbooks: numbers, dates and faults keep what they are; merged cells and leading zeros what they show."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from collections.abc import Callable

import openpyxl
import pytest

from catalogue.sheets import limits
from catalogue.sheets.cells import DATE, FAULT, NUMBER
from catalogue.sheets.opening import SheetFileError
from tests.catalogue.sheets.opened import only_table, opened, saved, whole, workbook


def changed(content: bytes, part: str, change: Callable[[str], str]) -> bytes:
    """A workbook with the text of one part changed, or of a part added."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            raw = old.read(name)
            new.writestr(name, change(raw.decode()) if name == part else raw)
        if part not in old.namelist():
            new.writestr(part, change(""))
    return out.getvalue()


SHEET = "xl/worksheets/sheet1.xml"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (1234, NUMBER + "1234"),
        (12.5, NUMBER + "12.5"),
        (-0.05, NUMBER + "-0.05"),
        (12.700000000000001, NUMBER + "12.7"),
        (1e-7, NUMBER + "0.0000001"),
        (2**53, NUMBER + "9007199254740992"),
        (datetime.date(2026, 3, 8), DATE + "2026-03-08"),
        (datetime.datetime(2026, 3, 8, 14, 30), DATE + "2026-03-08T14:30:00"),
        (datetime.time(14, 30), DATE + "14:30:00"),
        (True, "TRUE"),
        (False, "FALSE"),
        ("  a\nb\xa0", "a b"),
        ("0012", "0012"),
    ],
)
def test_a_value_as_a_text_with_its_mark(value: object, text: str) -> None:
    """Numbers have a decimal point and no noise of binary fractions; dates are ISO 8601."""
    table = only_table(workbook([["Code", "Text", "Value"], ["A", "x", value], ["B", "y", 1.0]]))
    assert whole(table).rows == [["A", "x", text], ["B", "y", NUMBER + "1"]]


def test_true_and_one_are_told_apart() -> None:
    """They are the same key of a dictionary, and stand in one column here."""
    read = whole(
        only_table(workbook([["Code", "Text", "Value"], ["A", "x", 1], ["B", "y", True], ["C", "z", 0]]))
    )
    assert [row[2] for row in read.rows] == [NUMBER + "1", "TRUE", NUMBER + "0"]


def test_a_number_that_lost_digits_is_a_fault() -> None:
    """A part number of twenty digits typed as a number is not what was typed."""
    read = whole(
        only_table(workbook([["Code", "Text", "Price"], [12345678901234567890, "x", 1], [7, "y", 2]]))
    )
    assert read.rows[0][0].startswith(FAULT + "1234567890123456")
    assert read.rows[1][0] == NUMBER + "7"


def test_errors_and_formulas_without_a_value_are_faults() -> None:
    """The reader gives nothing for them, so they are looked up in the parts of the file."""
    content = workbook([["Code", "Text", "Price"], ["A", "x", "#N/A"], ["B", "y", "=C2*2"], ["C", "z", 3]])
    read = whole(only_table(content))
    assert [row[2] for row in read.rows] == [FAULT + "#N/A", FAULT + "=C2*2", NUMBER + "3"]


def test_leading_zeros_that_are_shown_are_kept() -> None:
    """A format of zeros shows 42 as 000042, which is the code that the supplier means."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in [["Code", "Text", "Price"], [42, "x", 1.5], [1234567, "y", 2], ["AB", "z", 3]]:
        sheet.append(list(row))
    for row in (2, 3):
        sheet.cell(row, 1).number_format = "000000"
    read = whole(only_table(saved(book)))
    assert [row[0] for row in read.rows] == ["000042", "1234567", "AB"]


def test_a_merged_name_stands_above_each_of_its_columns() -> None:
    """In the header only; the group and the name are joined."""
    rows = [["Code", "Ring", None, "Price"], [None, "d1", "d2", None], ["A", 12, 3, 1.5], ["B", 13, 4, 2.5]]
    table = only_table(workbook(rows, code="A1:A2", ring="B1:C1", price="D1:D2"))
    assert table.header == ("Code", "Ring d1", "Ring d2", "Price")
    assert whole(table).numbers == [3, 4]


def test_a_code_merged_over_rows_fills_down() -> None:
    """A cell that stands for three rows is told in each; one merged across columns is not spread."""
    rows = [
        ["Code", "Size", "Price"],
        ["A", 1, 1.5],
        [None, 2, 2.5],
        [None, 3, 3.5],
        ["B", "on request", None],
    ]
    read = whole(only_table(workbook(rows, code="A2:A4", price="B5:C5")))
    assert [row[0] for row in read.rows] == ["A", "A", "A", "B"]
    assert read.rows[3] == ["B", "on request", ""]


def test_rows_keep_their_numbers_below_empty_ones() -> None:
    """The numbers are those of the worksheet, whatever stands above the table."""
    table = only_table(
        workbook([[], ["Northmoor Seals"], [], ["Code", "Text", "Price"], ["A", "x", 1], [], ["B", "y", 2]])
    )
    assert table.header_row == 4
    assert whole(table).numbers == [5, 7]


def test_a_last_column_without_a_name_is_a_column() -> None:
    """Its name is empty."""
    table = only_table(workbook([["Code", "Text", "Price"], ["A", "x", 1, "note"], ["B", "y", 2, "other"]]))
    assert table.header == ("Code", "Text", "Price", "")
    assert whole(table).rows[0] == ["A", "x", NUMBER + "1", "note"]


def test_two_tables_of_a_sheet_and_two_sheets() -> None:
    """The second table of a sheet has a number; a second sheet its own name."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Prices"
    for row in [["Code", "Text", "Price"], ["A", "x", 1], [], ["Tool", "Name", "Weight"], ["T", "press", 9]]:
        sheet.append(list(row))
    other = book.create_sheet("Stock & more")
    for row in [["Code", "Stock"], ["A", 5]]:
        other.append(row)
    assert [one.sheet for one in opened(saved(book)).tables] == ["Prices", "Prices #2", "Stock & more"]


def test_a_stray_cell_far_outside_is_refused_and_fills_no_memory() -> None:
    """The reader of workbooks would ask for half a terabyte and end the whole program."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet["A1"] = "Code"
    sheet["XFD1048576"] = 1
    with pytest.raises(
        SheetFileError, match=r"spans more than 50,000,000 cells.*delete the rows and columns"
    ):
        opened(saved(book))


@pytest.mark.parametrize(
    "write",
    [
        lambda text: re.sub(r' r="([A-Z]+\d+)"', r" r='\1'", text),
        lambda text: text.replace("XFD1048576", "xfd1048576"),
        lambda text: text.replace('r="XFD1048576"', 'r = "XFD1048576"'),
        lambda text: text.replace("<c ", "<c\n"),
        lambda text: text.replace("</sheetData>", '<row r="1"></row></sheetData>'),
        lambda text: re.sub(r"(</?)(\w)", r"\1x:\2", text).replace("xmlns=", "xmlns:x="),
        lambda text: re.sub(r'<dimension ref="[^"]*" ?/>', '<dimension ref="A1:B2"/>', text),
    ],
    ids=[
        "single quotes",
        "small letters",
        "spaces",
        "line end",
        "later row",
        "prefix",
        "a lie about its size",
    ],
)
def test_a_stray_cell_written_in_another_way_is_refused_too(write: Callable[[str], str]) -> None:
    """What the quick look does not understand is tried in a process of its own."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet["A1"] = "Code"
    sheet["XFD1048576"] = 1
    with pytest.raises(SheetFileError):
        opened(changed(saved(book), SHEET, write))


def test_honest_sheets_are_not_tried_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    """A process of its own costs time; up to twenty-six columns no sheet of usual length needs it."""
    monkeypatch.setattr("catalogue.sheets.workbooks.probe", lambda *_, **__: pytest.fail("tried apart"))
    assert opened(workbook([["Code", "Price"], *([f"A{at}", at] for at in range(5_000))])).tables


def test_the_number_of_cells_is_limited(monkeypatch: pytest.MonkeyPatch) -> None:
    """The sheet and its size are named."""
    monkeypatch.setattr(limits, "MOST_CELLS", 100)
    monkeypatch.setattr("catalogue.sheets.workbooks.probe", lambda *_, **__: None)
    with pytest.raises(SheetFileError, match=r"sheet Prices: the sheet spans 60 rows and 2 columns"):
        opened(workbook([["Code", "Price"]] * 60))


def ods(table: str) -> bytes:
    """An OpenDocument spreadsheet of one sheet, as small as can be."""
    names = " ".join(
        f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{long}:1.0"'
        for short, long in (("office", "office"), ("table", "table"), ("text", "text"))
    )
    content = (
        f'<?xml version="1.0"?><office:document-content {names} office:version="1.2"><office:body>'
        f'<office:spreadsheet><table:table table:name="Prices">{table}</table:table></office:spreadsheet>'
        "</office:body></office:document-content>"
    )
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("content.xml", content)
        archive.writestr(
            "META-INF/manifest.xml",
            '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>',
        )
    return out.getvalue()


def ods_row(*cells: str, times: str = "") -> str:
    """A row of texts; ``times`` is written into its last cell."""
    written = [
        f'<table:table-cell office:value-type="string"{times if at == len(cells) - 1 else ""}>'
        f"<text:p>{cell}</text:p></table:table-cell>"
        for at, cell in enumerate(cells)
    ]
    return f"<table:table-row>{''.join(written)}</table:table-row>"


def test_an_opendocument_sheet_is_read() -> None:
    """The same tables as of any workbook."""
    number = (
        '<table:table-cell office:value-type="float" office:value="12.5">'
        "<text:p>12,5</text:p></table:table-cell>"
    )
    row = ods_row("A").replace("</table:table-row>", number + "</table:table-row>")
    file = opened(ods(ods_row("Code", "Price") + row))
    assert file.format == "ods"
    assert whole(file.tables[0]).rows == [["A", NUMBER + "12.5"]]


def test_an_opendocument_sheet_of_repeated_cells_is_refused() -> None:
    """A few bytes that stand for a thousand million cells; the reader or the trial before it says no."""
    many = ods_row("A", "x", times=' table:number-columns-repeated="1000"')
    many = many.replace("<table:table-row>", '<table:table-row table:number-rows-repeated="1000000">')
    with pytest.raises(SheetFileError, match=r"the workbook is damaged|spans more than 50,000,000 cells"):
        opened(ods(ods_row("Code", "Price") + many))
