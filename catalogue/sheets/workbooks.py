"""Workbooks (xlsx, xlsm, xlsb, xls, ods): one worksheet gives its rows as texts with marks.

A number is written with a decimal point and at most 12 significant digits, which no size of a part needs
and which hides the noise of binary fractions. A whole number above 2**53 has lost digits on its way into
the workbook (a long part number typed as a number), so it is marked as a fault.
"""

from __future__ import annotations

import datetime
import re
import zipfile
from collections.abc import Callable, Iterator
from decimal import Decimal
from itertools import islice
from operator import itemgetter
from typing import Any, BinaryIO, NamedTuple

import python_calamine as calamine

from catalogue.sheets import limits
from catalogue.sheets.cells import DATE, FAULT, NUMBER
from catalogue.sheets.collecting import no_collecting
from catalogue.sheets.refusals import SheetFileError
from catalogue.sheets.sources import Chunk, Merge, Rough
from catalogue.sheets.unwrapping import DAMAGED, hold_ratio
from catalogue.sheets.workbook_parts import Details, Parts, is_sure
from catalogue.sheets.workbook_probe import probe

EXACT = 2**53  # whole numbers up to this are kept exactly by a workbook
_MOST_MERGES, _LONGEST_FILL = 20_000, 200  # merged cells that are filled down, and over how many rows
_MOST_KEPT = 100_000  # distinct values remembered as texts
_CONTROLS = re.compile(r" ?[\x00-\x1f\x7f]+ ?")
_ACTION = "open it in a spreadsheet program, save it again as a workbook (.xlsx) or CSV, and load that"
_FAR = "delete the rows and columns outside the table and save it; or save the sheet as CSV"


class Worksheet(NamedTuple):
    """One sheet of a workbook that holds anything."""

    name: str
    hidden: bool
    source: SheetSource


def open_workbook(file: BinaryIO, *, format: str, name: str) -> tuple[Worksheet, ...]:
    """The worksheets with content. Raises SheetFileError for what is damaged, protected or too large."""
    details = _check_parts(file, format, name)
    if details is None:
        probe(file, name=name)
        details = {}
    file.seek(0)
    book = _guarded(lambda: calamine.CalamineWorkbook.from_filelike(file), name)
    found = []
    cells = 0
    for told in book.sheets_metadata:
        if told.typ not in (calamine.SheetTypeEnum.WorkSheet, calamine.SheetTypeEnum.MacroSheet):
            continue
        sheet = _guarded(lambda told=told: book.get_sheet_by_name(told.name), name)  # type: ignore[misc]
        if sheet is None or sheet.end is None:
            continue
        height, width = sheet.end[0] + 1, sheet.end[1] + 1
        cells += height * width
        if width > limits.MOST_COLUMNS or cells > limits.MOST_CELLS:
            raise SheetFileError(
                f"the sheet spans {height:,} rows and {width:,} columns", _FAR, file=name, sheet=told.name
            )
        source = SheetSource(sheet, details.get(told.name, Details({}, {})))
        hidden = told.visible != calamine.SheetVisibleEnum.Visible
        found.append(Worksheet(told.name, hidden, source))
    return tuple(found)


def _check_parts(file: BinaryIO, format: str, name: str) -> dict[str, Details] | None:
    """Sizes of the parts, and what an .xlsx says beyond its values; None where it must be tried apart."""
    if format == "xls":
        return None
    try:
        with zipfile.ZipFile(file) as archive:
            infos = archive.infolist()
            if any(one.flag_bits & 1 for one in infos):
                raise SheetFileError(
                    "this workbook is protected by a password", "save it without one", file=name
                )
            # What the list of parts says of their sizes; reading holds to it, so it cannot lie.
            hold_ratio(sum(one.file_size for one in infos), sum(one.compress_size for one in infos), name)
            if format != "xlsx":
                return None
            parts = Parts(archive, name)
            details = {}
            for sheet in parts.sheets:
                walk = parts.walk(sheet)
                if not is_sure(walk):
                    probe(file, name=name)
                details[sheet] = parts.details(sheet, walk)
            if not parts.check_others():
                probe(file, name=name)
            return details
    except DAMAGED as error:
        raise SheetFileError(f"the workbook is damaged: {error}", _ACTION, file=name) from error


def _guarded(read: Callable[[], Any], name: str) -> Any:
    """Call the reader; its errors, and the panics of its own language, as ours."""
    try:
        return read()
    except calamine.PasswordError as error:
        raise SheetFileError(
            "this workbook is protected by a password", "save it without one", file=name
        ) from error
    except (calamine.CalamineError, OSError, ValueError) as error:
        raise SheetFileError(f"the workbook is damaged: {error}", _ACTION, file=name) from error
    except BaseException as error:
        if type(error).__name__ != "PanicException":  # not an Exception, and importable from nowhere
            raise
        raise SheetFileError(f"the workbook cannot be read: {error}", _ACTION, file=name) from error


class SheetSource:
    """The rows of one worksheet."""

    def __init__(self, sheet: calamine.CalamineSheet, details: Details) -> None:
        self._sheet = sheet
        self._details = details
        self._mended: dict[int, list[int]] = {}
        for row, column in (*details.faults, *details.zeros):
            self._mended.setdefault(row, []).append(column)
        self.size: int | None = sheet.total_height
        self.merges = tuple(
            Merge(first[0] + 1, first[1], last[0] + 1, last[1])
            for first, last in (sheet.merged_cell_ranges or [])
        )
        self._fills = {
            (row, merge.first_column)
            for merge in self.merges[:_MOST_MERGES]
            if merge.first_column == merge.last_column and merge.last_row - merge.first_row < _LONGEST_FILL
            for row in range(merge.first_row + 1, merge.last_row + 1)
        }

    def chunks(self, rows: int) -> Iterator[Chunk]:
        """The rows from the top, ``rows`` at a time."""
        texts = _Texts()
        number = 1
        total = max(1, self.size or 1)
        filled: dict[int, str] = {}
        for block in _blocks(self._sheet.iter_rows(), rows):
            with no_collecting():
                columns = map(texts.column, zip(*block, strict=True))
                found = list(map(list, zip(*columns, strict=True)))
            if self._mended:
                self._mend(found, number)
            if self._fills:
                self._fill(found, number, filled)
            yield Chunk(
                list(range(number, number + len(found))), found, min(1.0, (number + len(found) - 1) / total)
            )
            number += len(found)

    def rough(self, rows: int) -> Iterator[Rough]:
        """The values as the reader gives them."""
        number = 1
        for block in _blocks(self._sheet.iter_rows(), rows):
            yield Rough(range(number, number + len(block)), block)
            number += len(block)

    @staticmethod
    def as_texts(row: list[Any]) -> list[str]:
        """One row of ``rough`` as texts, without what only the parts of the file tell."""
        return [text_of(value) for value in row]

    def _mend(self, rows: list[list[str]], number: int) -> None:
        """Write faults and leading zeros into their cells."""
        for row, cells in enumerate(rows, number):
            for column in self._mended.get(row, ()):
                if column >= len(cells):
                    continue
                if fault := self._details.faults.get((row, column)):
                    cells[column] = FAULT + fault
                elif cells[column][:1] == NUMBER and cells[column][1:].isdigit():
                    # what a person sees is a text of digits, not a number
                    cells[column] = cells[column][1:].zfill(self._details.zeros[row, column])

    def _fill(self, rows: list[list[str]], number: int, filled: dict[int, str]) -> None:
        """A cell that stands for several rows is told in each of them."""
        for at, row in enumerate(rows):
            for column in range(len(row)):
                if (number + at, column) in self._fills:
                    row[column] = filled.get(column, "")
                else:
                    filled[column] = row[column]


def _blocks(rows: Iterator[list[Any]], size: int) -> Iterator[list[list[Any]]]:
    while True:
        with no_collecting():
            block = list(islice(rows, size))
        if not block:
            return
        yield block


class _Texts:
    """Values as texts, each distinct value once."""

    def __init__(self) -> None:
        self._kept = _Kept()

    def column(self, values: tuple[Any, ...]) -> list[str]:
        """One column of a block of rows."""
        if len(self._kept) > _MOST_KEPT:
            self._kept.clear()
        if bool in set(map(type, values)):  # True is 1 to a dictionary
            return [text_of(value) for value in values]
        if len(values) == 1:
            return [self._kept[values[0]]]
        return list(itemgetter(*values)(self._kept))  # quicker than a loop


class _Kept(dict[Any, str]):
    def __missing__(self, value: Any) -> str:
        text = self[value] = text_of(value)
        return text


def text_of(value: Any) -> str:
    """One value of a workbook as a text with its mark.

    >>> text_of(1234.0)[1:], text_of(12.700000000000001)[1:], text_of(True), text_of(" a\\n b ")
    ('1234', '12.7', 'TRUE', 'a b')
    """
    if isinstance(value, str):
        text = value.strip()
        return text if text.isprintable() else _CONTROLS.sub(" ", text).strip()
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, (int, float)):
        return _number(value)
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        value = value.date()
    if isinstance(value, (datetime.date, datetime.time)):
        return DATE + value.isoformat()
    if isinstance(value, datetime.timedelta):
        seconds = int(value.total_seconds())
        return f"{DATE}{seconds // 3600}:{seconds // 60 % 60:02}:{seconds % 60:02}"
    return FAULT + str(value)


def _number(value: float) -> str:
    if value != value or value in (float("inf"), float("-inf")):
        return f"{FAULT}{value}"
    if value == int(value):
        mark = NUMBER if abs(value) <= EXACT else FAULT
        return f"{mark}{int(value)}"
    return f"{NUMBER}{Decimal(format(value, '.12g')):f}"
