"""``borebook export``: parts, or what a supplier offers, as a sheet that loads back to the same."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from catalogue.cli.arguments import Command
from schema.errors import InputError

if TYPE_CHECKING:
    from catalogue.sheets.exporting import ExportSheet


@click.command("export", cls=Command)
@click.option("--to", "target", metavar="FILE", help="the file to write: .csv, .xlsx, or - for CSV to print")
@click.option("--supplier", metavar="NAME", help="what this supplier offers, instead of the parts")
@click.option("--replace", is_flag=True, help="write over a file that is there")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
def command(target: str | None, supplier: str | None, replace: bool, catalogue: str | None) -> int:
    """Write all parts as a sheet, or what a supplier offers; an .xlsx without --supplier has both.

    Every text is written as it is kept. The file can be edited and loaded back: parts by borebook load FILE
    --own-parts, offers by borebook load FILE --supplier NAME, after the parts that they are of.
    """
    from catalogue.sheets.exporting import offers_sheet, parts_sheet, suppliers
    from catalogue.store import open_store

    named, ending = _target(target)
    connection = open_store(Path(catalogue) if catalogue else None)
    try:
        connection.execute("BEGIN")  # one state of the catalogue, whoever writes to it meanwhile
        if supplier is not None:
            sheets = [offers_sheet(connection, " ".join(supplier.split()))]
        else:
            sheets = [parts_sheet(connection)]
            if ending == ".xlsx":
                sheets += [offers_sheet(connection, one) for one in suppliers(connection)]
        _write(named, ending, sheets, replace)
    finally:
        connection.close()
    for sheet in sheets:
        click.echo(_told(sheet, supplier is not None or sheet is not sheets[0]), err=True)
    return 0


def _write(target: str, ending: str, sheets: Sequence[ExportSheet], replace: bool) -> None:
    from catalogue.sheets.exporting import write_csv
    from catalogue.whole_files import whole_file

    if target == "-":
        write_csv(sys.stdout.buffer, sheets[0], mark=False)
        return
    with whole_file(target, option="--to", replace=replace) as file:
        if ending == ".csv":
            write_csv(file, sheets[0])
        else:
            from catalogue.sheets.workbook_writing import write_workbook

            write_workbook(file, sheets)


def _told(sheet: ExportSheet, offers: bool) -> str:
    if not offers:
        return f"{sheet.size} part{'s' if sheet.size != 1 else ''}"
    told = f"{sheet.size} offer{'s' if sheet.size != 1 else ''} of {sheet.name}"
    if not sheet.gone:
        return told
    were = "was" if sheet.gone == 1 else "were"
    return f"{told}; {sheet.gone} more that {were} offered once and {were} left out"


def _target(target: str | None) -> tuple[str, str]:
    """The file as named, and its ending, by which its form is known."""
    if target == "-":
        return target, ".csv"
    ending = Path(target or "").suffix.lower()
    if target is None or ending not in (".csv", ".xlsx"):
        raise InputError(
            field="--to",
            given=target or "",
            problem="is missing" if target is None else "the name does not tell the form of the file",
            allowed="a name that ends in .csv or .xlsx, or - for standard output",
            example="--to parts.csv",
        )
    return target, ending
