"""Watches a load for the command line: progress on a terminal, files of changes and of rows not taken."""

from __future__ import annotations

import csv
import sys
import tempfile
import time
from collections.abc import Iterator
from itertools import chain

import click

from catalogue.row_words import counted
from catalogue.sheets.comparing import Changed, New
from catalogue.sheets.named_files import NamedTable, write_named
from catalogue.sheets.one_load import Listener
from catalogue.sheets.opening import SheetFile
from catalogue.sheets.outcome import LoadReport
from catalogue.sheets.problems import Refused
from catalogue.sheets.rejected_rows import rejected_table
from catalogue.sheets.terms import COMPARED

CHANGES_HEADER = ("sheet", "row", "code", "part_number", "field", "before", "now")
_PATIENCE = 1.0  # seconds before progress is shown
_IN_MEMORY = 1 << 24  # characters of changes; a first sheet may have millions, which go to a temporary file


class Watch(Listener):
    """Shows how far a load is, and keeps what is to be written into files."""

    def __init__(self, *, decimal: str, wants_changes: bool, wants_refused: bool) -> None:
        self.wants_changes = wants_changes
        self._wants_refused = wants_refused
        self._decimal = decimal
        self._refused: dict[str, list[Refused]] = {}
        self._kept = tempfile.SpooledTemporaryFile(_IN_MEMORY, "w+", encoding="utf-8", newline="")  # noqa: SIM115
        self._changes = csv.writer(self._kept)
        self._shown = False
        self._started = time.monotonic()

    def progress(self, step: str, share: float) -> None:
        """A line on the terminal that is written over; nothing where nobody looks."""
        if sys.stderr.isatty() and time.monotonic() - self._started > _PATIENCE:
            click.echo(f"\r{step}: {share * 100:3.0f} %   ", nl=False, err=True)
            self._shown = True

    def refused(self, row: Refused) -> None:
        """Keep a row that was not taken."""
        if self._wants_refused:
            self._refused.setdefault(row.sheet, []).append(row)

    def changes(self, row: New | Changed) -> None:
        """Keep a change; of a new row every field that was read is one."""
        place = (row.row.sheet, row.row.number, row.row.terms.code, row.part_number)
        told = _read_of(row) if isinstance(row, New) else _changed_of(row)
        self._changes.writerows((*place, *one) for one in told)

    def done(self) -> None:
        """The load is over: the line of progress goes."""
        if self._shown:
            click.echo("\r" + " " * 40 + "\r", nl=False, err=True)
            self._shown = False

    def close(self) -> None:
        """Leave the terminal tidy, whatever happened."""
        self.done()
        self._kept.close()

    def write(
        self, report: LoadReport, file: SheetFile, *, rejected: str | None, changes: str | None
    ) -> None:
        """Write the files that were asked for. Raises StoreError."""
        if changes is not None:
            self._kept.seek(0)
            gone = [
                ("", "", one.code, one.part_number, "listed", "yes", "no")
                for one in (report.missing if report.counts.withdrawn else ())
            ]
            told = NamedTable("changes", CHANGES_HEADER, chain(csv.reader(self._kept), gone))
            write_named(changes, [told], option="--changes")
        if rejected is None:
            return
        if not self._refused:
            click.echo("Every row was taken: no file of rejected rows was written.", err=True)
            return
        headers = {table.sheet: table.header for table in file.tables}
        tables = {
            sheet: rejected_table(sheet, headers[sheet], rows, decimal=self._decimal)
            for sheet, rows in self._refused.items()
        }
        files = write_named(rejected, list(tables.values()), option="--rejected")
        for sheet, rows in self._refused.items():
            say_rejected(len(rows), files[tables[sheet].name])


def say_rejected(count: int, file: str) -> None:
    """Tell where rows that were not taken are."""
    told = counted(count, "row that was not taken is", "rows that were not taken are")
    click.echo(f"{told} in {file}", err=True)


def _read_of(new: New) -> Iterator[tuple[str, str, str]]:
    """Field, before and now of everything that was read of a new row."""
    yield "new", "", "new part" if new.makes_part else f"found by {new.how}"
    for name in COMPARED:
        value = getattr(new.row.terms, name)
        if value not in (None, ""):
            yield name, "", str(value)
    yield "kind", "", new.row.article.kind
    for name, text in new.row.article.texts:
        yield name, "", text


def _changed_of(row: Changed) -> Iterator[tuple[str, str, str]]:
    if row.back:
        yield "listed", "no", "yes"
    yield from row.changes
