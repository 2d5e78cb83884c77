"""Watches a load for the command line: progress on a terminal, files of changes and of rows not taken."""

from __future__ import annotations

import csv
import io
import sys
import time
from pathlib import Path

import click

from catalogue.sheets.comparing import Changed, New
from catalogue.sheets.harmless import harmless
from catalogue.sheets.one_load import Listener
from catalogue.sheets.opening import SheetFile
from catalogue.sheets.outcome import LoadReport
from catalogue.sheets.problems import Refused
from catalogue.sheets.rejected_rows import rejected_text
from catalogue.whole_files import write_whole

_PATIENCE = 1.0  # seconds before progress is shown


class Watch(Listener):
    """Shows how far a load is, and keeps what is to be written into files."""

    def __init__(self, *, decimal: str, wants_changes: bool, wants_refused: bool) -> None:
        self.wants_changes = wants_changes
        self._wants_refused = wants_refused
        self._decimal = decimal
        self._refused: dict[str, list[Refused]] = {}
        self._changes: list[tuple[str, ...]] = []
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
        """Keep a change."""
        code, number = row.row.terms.code, str(row.row.number)
        if isinstance(row, New):
            how = "new part" if row.makes_part else f"found by {row.how}"
            self._changes.append((row.row.sheet, number, code, row.part_number, "new", "", how))
            return
        if row.back:
            self._changes.append((row.row.sheet, number, code, row.part_number, "listed", "no", "yes"))
        for one in row.changes:
            self._changes.append(
                (row.row.sheet, number, code, row.part_number, one.field, one.before, one.now)
            )

    def done(self) -> None:
        """The load is over: the line of progress goes."""
        if self._shown:
            click.echo("\r" + " " * 40 + "\r", nl=False, err=True)
            self._shown = False

    def close(self) -> None:
        """Leave the terminal tidy, whatever happened."""
        self.done()

    def write(
        self, report: LoadReport, file: SheetFile, *, rejected: str | None, changes: str | None
    ) -> None:
        """Write the files that were asked for. Raises StoreError."""
        if changes is not None:
            text = io.StringIO(newline="")
            writer = csv.writer(text)
            writer.writerow(("sheet", "row", "code", "part_number", "field", "before", "now"))
            writer.writerows(tuple(map(harmless, one)) for one in self._changes)
            for gone in report.missing if report.counts.withdrawn else ():
                writer.writerow(
                    ("", "", harmless(gone.code), harmless(gone.part_number), "listed", "yes", "no")
                )
            write_whole(changes, text.getvalue(), option="--changes")
        if rejected is None:
            return
        if not self._refused:
            click.echo("Every row was taken: no file of rejected rows was written.", err=True)
            return
        headers = {table.sheet: table.header for table in file.tables}
        for at, (sheet, rows) in enumerate(self._refused.items()):
            name = rejected if at == 0 else _numbered(rejected, at + 1)
            write_whole(name, rejected_text(headers[sheet], rows, decimal=self._decimal), option="--rejected")
            click.echo(f"{len(rows)} rows that were not taken are in {name}", err=True)


def _numbered(name: str, number: int) -> str:
    path = Path(name)
    return str(path.with_name(f"{path.stem}-{number}{path.suffix}"))
