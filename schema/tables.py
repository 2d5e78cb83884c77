"""Reads the published tables: CSV files beside this module, each row with its source.

A table is named by its file: ``rows("as568")`` reads ``published/as568.csv``. Each has a sibling
``.md`` that says which document, edition and tables were read, by whom, and how far it is confirmed.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from schema.errors import TableError

FOLDER = Path(__file__).with_name("published")


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """All rows of a published table as texts, in file order."""
    path = FOLDER / f"{name}.csv"
    with path.open(encoding="utf-8", newline="") as lines:
        reader = csv.reader(lines)
        header = next(reader, [])
        cells = [row for row in reader if row]
    for line, row in enumerate(cells, start=2):
        if len(row) != len(header):
            raise TableError(f"{path.name}, line {line}: {len(header)} columns are expected")
    return tuple(dict(zip(header, row, strict=True)) for row in cells)
