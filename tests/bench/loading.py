"""Loading a distributor's whole range, against the csv module feeding executemany into the same tables.

The floor knows the columns, checks nothing, and makes the same indexes and full-text index after the rows, as
the loader does. Each figure is taken in a process of its own, so that its peak of memory is its own. Targets:
1.25 times the floor for a first load, 0.5 for a second sheet with 1 % changed, below 600 MB; a workbook
within 1.3 times calamine's reading plus the same rows from a CSV file.

    python -m tests.bench.loading [ROWS]
"""

from __future__ import annotations

import csv
import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from catalogue.sheets.loading import load_sheet
from catalogue.sheets.opening import open_sheet_file
from catalogue.store import open_store
from tests.bench.range_sheet import SUPPLIER, mapping, write_range

ROWS = 1_000_000
WORKBOOK_ROWS = 100_000
_BATCH = 20_000
_PART = (
    "INSERT INTO part (part_number, kind, description, maker, source, typed_key, load, sheet, row, material,"
    " hardness_shore_a, size_code, size_grade, size_source)"
    " VALUES (?, ?, ?, ?, ?, ?, 1, '', ?, ?, ?, ?, ?, ?)"
)
_OFFER = (
    "INSERT INTO offer (supplier, code, part_number, description, maker, maker_code, price, price_text,"
    " currency, price_per, pack_size, minimum, lead_time_days, stock, listed, row_digest, load, sheet, row)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 1, ?, 1, '', ?)"
)
_DIMENSION = "INSERT INTO part_dimension VALUES (?, ?, ?, ?, ?, ?, 'drawn', NULL, NULL)"
_VALUE = "INSERT INTO part_value VALUES (?, ?, ?, ?, ?, ?)"
_INDEXES = (
    "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL"
    " AND tbl_name IN ('part', 'part_dimension', 'part_value', 'offer') AND name <> 'part_by_superseded_by'"
)


def floor(sheet: Path, catalogue: Path) -> None:
    """The least that a load can be: csv rows handed to executemany, nothing checked, nothing compared."""
    db = open_store(catalogue, write=True)
    connection = db.conn
    connection.execute("PRAGMA cache_size = -131072")
    connection.execute("BEGIN IMMEDIATE")
    connection.execute(
        "INSERT INTO load"
        " (load, supplier, file, file_sha256, loaded_at, covers, mapping, context, version, counts)"
        " VALUES (1, ?, 'x', '', '', 'some', '', '', '', '{}')",
        (SUPPLIER,),
    )
    indexes = connection.execute(_INDEXES).fetchall()
    for name, _ in indexes:
        connection.execute(f"DROP INDEX {name}")
    with sheet.open(newline="", encoding="utf-8") as file:
        rows = enumerate(csv.reader(file), start=1)
        next(rows)
        while batch := list(islice(rows, _BATCH)):
            connection.executemany(_PART, _parts(batch))
            connection.executemany(_DIMENSION, _dimensions(batch))
            connection.executemany(_VALUE, _values(batch))
            connection.executemany(_OFFER, _offers(batch))
    for _, sql in indexes:
        connection.execute(sql)
    connection.execute("INSERT INTO offer_words (offer_words) VALUES ('rebuild')")
    connection.execute("COMMIT")
    db.close()


Rows = list[tuple[int, list[str]]]


def _parts(rows: Rows) -> Iterator[tuple[Any, ...]]:
    for at, row in rows:
        key = f"o_ring|{row[4]}|{row[5]}|{row[6]}|{row[7]}"
        yield (
            f"{SUPPLIER}:{row[0]}", "o_ring", row[1], row[8], f"sheet of {SUPPLIER}", key, at, row[6],
            float(row[7]), row[3] or None, "given", "as given",
        )  # fmt: skip


def _dimensions(rows: Rows) -> Iterator[tuple[Any, ...]]:
    for _, row in rows:
        for name, text in (("inside_diameter", row[4]), ("cross_section", row[5])):
            size = float(text)
            yield f"{SUPPLIER}:{row[0]}", name, f"{text} mm", size, size, size


def _values(rows: Rows) -> Iterator[tuple[Any, ...]]:
    for _, row in rows:
        number = f"{SUPPLIER}:{row[0]}"
        if row[3]:
            yield number, "size", row[3], None, None, None
        yield number, "material", row[6], None, None, None
        yield number, "hardness_shore_a", row[7], float(row[7]), float(row[7]), ""


def _offers(rows: Rows) -> Iterator[tuple[Any, ...]]:
    for at, row in rows:
        counts = (int(one) for one in row[12:17])
        yield (
            SUPPLIER,
            row[0],
            f"{SUPPLIER}:{row[0]}",
            row[1],
            row[8],
            row[9],
            row[10],
            row[10],
            row[11],
            *counts,
            at,
            at,
        )


def load(sheet: Path, catalogue: Path) -> None:
    """A validated load, in one transaction, that can be taken back."""
    with open_sheet_file(sheet) as file:
        report = load_sheet(catalogue, file, mapping(), apply=True)
    assert report.applied
    assert not report.counts.refused


def calamine(sheet: Path, catalogue: Path) -> None:
    """What calamine takes to read a workbook."""
    from python_calamine import CalamineWorkbook

    for _ in CalamineWorkbook.from_path(sheet).get_sheet_by_index(0).iter_rows():
        pass


_WORK: dict[str, Callable[[Path, Path], None]] = {"floor": floor, "load": load, "calamine": calamine}


def measured(work: str, sheet: Path, catalogue: Path) -> tuple[float, float]:
    """Seconds and peak memory [MB] of a piece of work in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.bench.loading", work, str(sheet), str(catalogue)],
        check=True,
        capture_output=True,
        text=True,
    )
    seconds, megabytes = json.loads(done.stdout)
    return seconds, megabytes


def report(rows: int = ROWS) -> None:
    """Print the ratios."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        first = write_range(folder / "first.csv", rows)
        second = write_range(folder / "second.csv", rows, changed=0.01)
        seconds = {}
        for work in ("floor", "load"):
            open_store(folder / f"{work}.sqlite", write=True).close()
            seconds[work], peak = measured(work, first, folder / f"{work}.sqlite")
            print(f"{work}, {rows:,} rows: {seconds[work]:.1f} s, peak {peak:.0f} MB")
        (folder / "floor.sqlite").unlink()
        again, peak = measured("load", second, folder / "load.sqlite")
        print(f"second sheet with 1 % changed: {again:.1f} s, peak {peak:.0f} MB")
        print(f"first load {seconds['load'] / seconds['floor']:.2f} times the floor; target 1.25")
        print(f"second sheet {again / seconds['floor']:.2f} times the floor; target 0.5")
        _report_workbook(folder)


def _report_workbook(folder: Path) -> None:
    from openpyxl import Workbook

    rows = min(WORKBOOK_ROWS, ROWS)
    text = write_range(folder / "part.csv", rows)
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Range")
    with text.open(newline="", encoding="utf-8") as file:
        for row in csv.reader(file):
            sheet.append(row)
    book.save(folder / "part.xlsx")
    read, _ = measured("calamine", folder / "part.xlsx", folder / "none")
    took = {}
    for suffix in ("csv", "xlsx"):
        catalogue = folder / f"{suffix}.sqlite"
        open_store(catalogue, write=True).close()
        took[suffix], _ = measured("load", folder / f"part.{suffix}", catalogue)
    ratio = took["xlsx"] / (read + took["csv"])
    print(
        f"workbook of {rows:,} rows: {took['xlsx']:.1f} s; calamine reads it in {read:.1f} s, the same rows "
        f"as CSV load in {took['csv']:.1f} s; ratio to both together {ratio:.2f}; target 1.3"
    )


def _one() -> None:
    work, sheet, catalogue = sys.argv[1:]
    start = time.perf_counter()
    _WORK[work](Path(sheet), Path(catalogue))
    seconds = time.perf_counter() - start
    print(json.dumps([seconds, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024]))


if __name__ == "__main__":
    if len(sys.argv) == 4:
        _one()
    else:
        report(int(sys.argv[1]) if len(sys.argv) > 1 else ROWS)
