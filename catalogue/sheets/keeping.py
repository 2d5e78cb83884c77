"""What is kept of a load itself: its file and mapping, and which rows of each table the catalogue took."""

from __future__ import annotations

import json
import sqlite3
from array import array
from collections.abc import Iterable
from datetime import UTC, datetime

from catalogue.sheets.outcome import Counts, LoadReport
from catalogue.sheets.row_digests import packed
from catalogue.sheets.scanning import Marks, Numbers, Standing
from catalogue.version import VERSION


def begin_load(connection: sqlite3.Connection, report: LoadReport, *, mapping: str, context: str) -> int:
    """Give the load its number; offers and parts refer to it."""
    found = connection.execute(
        "INSERT INTO load (supplier, file, file_sha256, loaded_at, covers, mapping, context, version, counts)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, '{}')",
        (
            report.supplier or None,
            report.file,
            report.sha256,
            datetime.now(UTC).isoformat(timespec="seconds"),
            report.covers,
            mapping,
            context,
            VERSION,
        ),
    )
    return int(found.lastrowid or 0)


def end_load(
    connection: sqlite3.Connection, load: int, counts: Counts, tables: Iterable[tuple[Standing, Marks]]
) -> None:
    """Keep the counts of a load, and the digests of the rows that were taken (marked for each table)."""
    connection.executemany(
        "INSERT INTO load_table (load, sheet, header_row, header, digests, numbers)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        (
            (
                load,
                one.table.sheet,
                one.table.header_row,
                json.dumps(one.table.header, ensure_ascii=False),
                packed(_marked(one.digests, taken)),
                packed(_marked(one.numbers, taken)),
            )
            for one, taken in tables
        ),
    )
    told = {name: count for name, count in counts._asdict().items() if count}
    connection.execute("UPDATE load SET counts = ? WHERE load = ?", (json.dumps(told), load))


def _marked(numbers: Numbers, marks: Marks) -> array[int]:
    kept = array("q")
    kept.frombytes(numbers[marks].tobytes())
    return kept
