"""Writes sheets as an .xlsx workbook in which every cell is a text, and the same rows are the same bytes.

A text stays what it is: 007 keeps its zeros, 1E5 and 3-8 become no number and no date, =1+1 is not run.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, BinaryIO

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.writer.excel import ExcelWriter

from catalogue.sheets.exporting import ExportSheet, hold_lengths
from catalogue.sheets.harmless import as_it_was
from catalogue.sheets.own_export import LONGEST_SHEET_NAME, sheet_name

LONGEST_CELL = 32_767  # characters, of a workbook's cell
_RUNS = ("=", "+", "-", "@")
_TEXT = "@"  # the number format of texts
# A workbook writes a control sign as _x000D_; a text that has these signs itself says so by _x005F_.
_ESCAPE = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_FIXED = (1980, 1, 1, 0, 0, 0)  # the earliest time that a zip file knows
_FIXED_TEXT = b"1980-01-01T00:00:00Z"
_TIMES = re.compile(rb"(?<=>)\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ(?=</dcterms:)")


def write_workbook(file: BinaryIO, sheets: Iterable[ExportSheet]) -> None:
    """Write sheets as one workbook. Raises InputError for a text that no cell can hold."""
    book = Workbook(write_only=True)
    names: list[str] = []
    try:
        for sheet in sheets:
            names.append(_new_name(sheet.name, names))
            _write_sheet(book, names[-1], sheet)
    except BaseException:
        for page in book.worksheets:
            page.close()  # else openpyxl complains of its open file when it is swept up
        raise
    with _Archive(file, "w", zipfile.ZIP_DEFLATED) as archive:
        ExcelWriter(book, archive).save()


def _write_sheet(book: Workbook, name: str, sheet: ExportSheet) -> None:
    page = book.create_sheet(name)
    page.freeze_panes = "B2"
    plain, quoted = (_style(page, quote) for quote in (False, True))

    def cell(text: str) -> Any:
        if not text:
            return None
        made: Any = WriteOnlyCell(page)
        # set past the setter, which takes =1+1 for a formula
        made._value = _ESCAPE.sub("_x005F_", f"'{text}" if as_it_was(text) != text else text)
        made.data_type = "s"
        made._style = quoted if text.startswith(_RUNS) else plain
        return made

    page.append([cell(text) for text in sheet.header])
    for row in hold_lengths(sheet, LONGEST_CELL - 1, "write a CSV file instead, which holds longer texts"):
        page.append([cell(text) for text in row])


def _style(page: Any, quote: bool) -> Any:
    made: Any = WriteOnlyCell(page)
    made.number_format = _TEXT
    made.quotePrefix = quote
    return made._style


def _new_name(name: str, taken: Sequence[str]) -> str:
    """A name for a worksheet that no other has; capitals do not tell two apart."""
    plain, count = sheet_name(name), 1
    found = plain
    while found.lower() in {one.lower() for one in taken}:
        count += 1
        end = f" {count}"
        found = f"{plain[: LONGEST_SHEET_NAME - len(end)]}{end}"
    return found


class _Archive(zipfile.ZipFile):
    """A zip file that tells no time, so that the same catalogue gives the same bytes."""

    def writestr(self, zinfo_or_arcname: Any, data: Any, *more: Any, **named: Any) -> None:
        raw = data.encode() if isinstance(data, str) else data
        super().writestr(_part(str(zinfo_or_arcname)), _TIMES.sub(_FIXED_TEXT, raw))

    def write(self, filename: Any, arcname: Any = None, *more: Any, **named: Any) -> None:
        with Path(filename).open("rb") as given, self.open(_part(str(arcname)), "w") as taken:
            while block := given.read(1 << 20):
                taken.write(block)


def _part(name: str) -> zipfile.ZipInfo:
    part = zipfile.ZipInfo(name, _FIXED)
    part.compress_type = zipfile.ZIP_DEFLATED
    return part
