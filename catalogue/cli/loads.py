"""``borebook loads``: what was loaded; one load in full; taking one back."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import say, table
from schema.errors import InputError

if TYPE_CHECKING:
    from catalogue.sheets.past_loads import KeptRejection, PastLoad

_catalogue = click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")


def _load_number(_: click.Context, __: click.Parameter, text: str) -> int:
    """The number of a load, as the list of loads has it. Raises InputError."""
    if not (text.isascii() and text.isdigit() and len(text) < 18 and int(text)):
        raise InputError(
            field="load",
            given=text,
            problem="this is no number of a load",
            allowed="a whole number from 1; borebook loads lists them",
        )
    return int(text)


_number = click.argument("number", callback=_load_number)


@click.group("loads", invoke_without_command=True)
@click.option("--supplier", metavar="NAME", help="only the loads of this supplier")
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
@_catalogue
@click.pass_context
def command(ctx: click.Context, supplier: str | None, as_json: bool, catalogue: str | None) -> int:
    """List what was loaded from sheets, the newest first."""
    if ctx.invoked_subcommand is not None:
        ctx.obj = catalogue
        return 0
    from catalogue.sheets.codes import OWN_PARTS
    from catalogue.sheets.past_loads import past_loads
    from catalogue.store import open_store

    connection = open_store(Path(catalogue) if catalogue else None)
    try:
        found = past_loads(connection, supplier or "")
    finally:
        connection.close()
    if as_json:
        click.echo(json.dumps([one._asdict() for one in found], indent=2, ensure_ascii=False))
        return 0
    table((str(one.load), _day(one.loaded_at), one.supplier or OWN_PARTS, _told(one)) for one in found)
    if not found:
        click.echo("Nothing was loaded yet: borebook load FILE --supplier NAME", err=True)
    return 0


@command.command("show", cls=Command, short_help="One load in full; the rows it did not take.")
@_number
@click.option(
    "--rejected",
    metavar="FILE",
    help="write the rows that were not taken, with why, to mend and load: CSV, or a workbook (.xlsx)",
)
@click.option("--mapping", "show_mapping", is_flag=True, help="print the mapping that it was read by")
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
@_catalogue
@click.pass_obj
def show(
    outer: str | None,
    number: int,
    rejected: str | None,
    show_mapping: bool,
    as_json: bool,
    catalogue: str | None,
) -> int:
    """Tell load NUMBER in full."""
    from catalogue.sheets.codes import OWN_PARTS
    from catalogue.sheets.past_loads import mapping_text_of, past_load, rejections
    from catalogue.store import open_store

    named = catalogue or outer
    connection = open_store(Path(named) if named else None)
    try:
        load = past_load(connection, number)
        rows = rejections(connection, number)
        mapping = mapping_text_of(connection, number)
    finally:
        connection.close()
    if show_mapping:
        click.echo(mapping, nl=False)
        return 0
    if rejected is not None:
        _write_rejected(rows, rejected)
    if as_json:
        told = {sheet: [one._asdict() for one in kept] for sheet, (_, kept) in rows.items()}
        click.echo(json.dumps({**load._asdict(), "not_taken": told}, indent=2, ensure_ascii=False))
        return 0
    say(f"Load {load.load}: {load.file}, {load.supplier or OWN_PARTS}, {_day(load.loaded_at)}")
    if load.undone_at:
        say(f"  taken back on {_day(load.undone_at)}")
    for name, count in load.counts.items():
        click.echo(f"  {name.replace('_', ' ')}: {count}")
    for sheet, (_, kept) in rows.items():
        for one in kept:
            why = "; ".join(
                f"{told['column']}: {told['reason']}" if told["column"] else told["reason"]
                for told in one.problems
            )
            say(f"  row {one.row}{f' of {sheet}' if sheet else ''} was not taken: {why}", 6)
    return 0


def _write_rejected(rows: dict[str, tuple[list[str], list[KeptRejection]]], file: str) -> None:
    from catalogue.cli.load_watch import say_rejected
    from catalogue.sheets.named_files import write_named
    from catalogue.sheets.rejected_rows import kept_rejected_table

    if not rows:
        click.echo("Every row was taken: no file of rejected rows was written.", err=True)
        return
    tables = {sheet: kept_rejected_table(sheet, header, kept) for sheet, (header, kept) in rows.items()}
    files = write_named(file, list(tables.values()), option="--rejected")
    for sheet, (_, kept) in rows.items():
        say_rejected(len(kept), files[tables[sheet].name])


@command.command("undo", cls=Command, short_help="Take a load back.")
@_number
@click.option("--keep-parts", is_flag=True, help="parts that something else needs by now stay")
@_catalogue
@click.pass_obj
def undo(outer: str | None, number: int, keep_parts: bool, catalogue: str | None) -> int:
    """Take load NUMBER back: the catalogue is then as if it had never been loaded.

    That holds also where other sheets were loaded since. Where something needs what the load brought, it is
    told and nothing is changed; with --keep-parts the parts that are needed stay and the rest goes.
    """
    from catalogue.row_words import counted
    from catalogue.sheets.past_loads import past_load
    from catalogue.sheets.undoing import undo_load
    from catalogue.store import open_store

    named = catalogue or outer
    connection = open_store(Path(named) if named else None)
    try:
        past_load(connection, number)
    finally:
        connection.close()
    db = open_store(Path(named) if named else None, write=True)
    try:
        done = undo_load(db, number, keep_parts=keep_parts)
    finally:
        db.close()
    click.echo(f"Load {done.load} ({done.file}) was taken back:")
    for count, thing, words in (
        (done.offers_removed, "offer", "taken out"),
        (done.offers_restored, "offer", "put back to what stood before it"),
        (done.offers_passed_on, "offer", "left alone: another sheet has the same row"),
        (done.parts_removed, "part", "taken out"),
        (done.parts_restored, "part", "put back to what stood before it"),
        (done.parts_kept, "part", "kept, needed elsewhere"),
    ):
        if count:
            click.echo(f"  {counted(count, thing)} {words}")
    return 0


def _day(moment: str) -> str:
    return moment.replace("T", " ")[:16]


def _told(load: PastLoad) -> str:
    words = ", ".join(
        f"{load.counts[name]} {name}"
        for name in ("new", "changed", "back", "withdrawn", "refused", "doubtful")
        if load.counts.get(name)
    )
    undone = f"; taken back {_day(load.undone_at)}" if load.undone_at else ""
    return f"{load.file}: {words or 'nothing changed'}{undone}"
