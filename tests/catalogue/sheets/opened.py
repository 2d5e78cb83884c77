"""Helpers of these tests: a file from its bytes, all its rows, a workbook from rows."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

import openpyxl

from catalogue.sheets.opening import Batch, SheetFile, Table, open_sheet_file


def opened(content: bytes | str, **options: str) -> SheetFile:
    """The file of these bytes (a text is UTF-8)."""
    raw = content.encode() if isinstance(content, str) else content
    return open_sheet_file(io.BytesIO(raw), **options)


def only_table(content: bytes | str, **options: str) -> Table:
    """The one table of the file of these bytes."""
    (table,) = opened(content, **options).tables
    return table


def whole(table: Table, rows: int = 500) -> Batch:
    """All batches of a table as one."""
    all_of = Batch([], [], [], 0, 0.0)
    blank = 0
    for batch in table.batches(rows):
        all_of.numbers.extend(batch.numbers)
        all_of.rows.extend(batch.rows)
        all_of.left_out.extend(batch.left_out)
        blank += batch.blank
        all_of = all_of._replace(done=batch.done)
    return all_of._replace(blank=blank)


def workbook(rows: Sequence[Sequence[Any]], **merged: str) -> bytes:
    """An .xlsx file of one sheet named Prices; ``merged`` gives ranges to merge."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Prices"
    for row in rows:
        sheet.append(list(row))
    for cells in merged.values():
        sheet.merge_cells(cells)
    return saved(book)


def saved(book: openpyxl.Workbook) -> bytes:
    """The bytes of a workbook."""
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()
