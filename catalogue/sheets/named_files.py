"""Writes rows into a file that a person named: a workbook where its name ends in .xlsx, CSV where not."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, islice
from pathlib import Path
from typing import BinaryIO, NamedTuple

from catalogue.sheets.exporting import ExportSheet
from catalogue.sheets.harmless import harmless
from catalogue.whole_files import whole_file

MOST_ROWS = 1_000_000  # of a worksheet; the format ends at 1,048,576. What is more goes on in the next one
LONGEST_CELL = 30_000  # characters; the format ends at 32,767


class NamedTable(NamedTuple):
    """Rows under a header; ``name`` is that of the worksheet where they go into a workbook."""

    name: str
    header: Sequence[str]
    rows: Iterable[Sequence[str]]


def is_workbook(name: str) -> bool:
    """Whether a file of this name is written as a workbook.

    >>> is_workbook("rejected.XLSX"), is_workbook("rejected.csv"), is_workbook("rejected")
    (True, False, False)
    """
    return Path(name).suffix.lower() == ".xlsx"


def write_named(name: str, tables: Sequence[NamedTable], *, option: str) -> dict[str, str]:
    """Write tables: into one workbook, or each into a CSV file of its own, numbered from the second on.

    ``option`` is the one that named the file, for messages. The file that each table stands in, by the
    table's name. Raises StoreError.
    """
    if is_workbook(name):
        from catalogue.sheets.workbook_writing import write_workbook  # loads a library that CSV does not need

        with whole_file(name, option=option, replace=True) as file:
            write_workbook(file, (sheet for table in tables for sheet in _worksheets(table)))
        return {table.name: name for table in tables}
    found: dict[str, str] = {}
    for at, table in enumerate(tables):
        found[table.name] = name if at == 0 else _numbered(name, at + 1)
        with whole_file(found[table.name], option=option, replace=True) as file:
            _write_csv(file, table)
    return found


def _worksheets(table: NamedTable) -> Iterator[ExportSheet]:
    rows = iter(table.rows)
    first = True
    while (some := next(rows, None)) is not None or first:
        given = () if some is None else chain([some], islice(rows, MOST_ROWS - 1))
        yield ExportSheet(table.name, tuple(table.header), 0, (_cut(row) for row in given))
        first = False


def _cut(row: Sequence[str]) -> list[str]:
    return [cell if len(cell) <= LONGEST_CELL else f"{cell[: LONGEST_CELL - 3]}..." for cell in row]


def _write_csv(file: BinaryIO, table: NamedTable) -> None:
    text = io.TextIOWrapper(file, encoding="utf-8", newline="")
    writer = csv.writer(text)
    writer.writerow(map(harmless, table.header))
    writer.writerows(map(harmless, row) for row in table.rows)
    text.flush()
    text.detach()


def _numbered(name: str, number: int) -> str:
    path = Path(name)
    return str(path.with_name(f"{path.stem}-{number}{path.suffix}"))
