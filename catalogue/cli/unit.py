"""``borebook unit``: check a unit file, take it into the catalogue, write a unit as a file."""

from __future__ import annotations

import json
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import say

if TYPE_CHECKING:
    from catalogue.unit_files.checking import CheckedFile

EXIT_BAD_INPUT = 2
MOST_CHANGES = 40  # more are counted, not told: a file that is all new says nothing by being repeated

_file = click.argument("file", type=click.Path(path_type=Path))
_catalogue = click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")


@click.group("unit")
def command() -> None:
    """Unit files: describe a unit in one text file, check it, take it in, write it out.

    One to begin with: borebook unit show whinchat-216. The fields of each kind of place and part, with
    examples: borebook names rod_gland; the kinds: borebook names places, borebook names parts. For
    editors and programs the shape of the file is told by borebook schema unit.
    """


@command.command("check", cls=Command, short_help="All faults of a unit file, with their lines.")
@_file
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
@_catalogue
def check(file: Path, as_json: bool, catalogue: str | None) -> int:
    """Say everything in FILE that is missing or contradicts itself, and what will be not proven.

    Nothing is written. Exit status 0 where there is no fault, 2 where there is one.
    """
    from catalogue.unit_files.checking import check_unit_file

    found = check_unit_file(file, Path(catalogue) if catalogue else None)
    if as_json:
        click.echo(json.dumps(_as_json(found), indent=2, ensure_ascii=False))
    else:
        _say_checked(found)
    return EXIT_BAD_INPUT if found.faults else 0


@command.command("add", cls=Command, short_help="Take a unit file into the catalogue.")
@_file
@_catalogue
def add(file: Path, catalogue: str | None) -> int:
    """Take FILE into the catalogue; a unit of that name is replaced wholly.

    Parts that it names must be in the catalogue or described in the file.
    """
    from catalogue.faults import UnitFileErrors
    from catalogue.store import location, open_store
    from catalogue.unit_files.adding import add_unit_file
    from catalogue.unit_files.reading import read_unit_file

    read = read_unit_file(file)
    path = location(catalogue)
    if read.faults and not path.exists():
        raise UnitFileErrors(read.faults)
    db = open_store(path, write=True)
    try:
        added = add_unit_file(db, read)
    finally:
        db.close()
    if added.new:
        click.echo(f"{added.unit} is new in {path}: {added.places} places")
    elif not added.changes:
        click.echo(f"{added.unit} in {path} says the same already: nothing was changed")
    else:
        count = len(added.changes)
        click.echo(f"{added.unit} was replaced in {path}: {count} change{'s' if count != 1 else ''}")
        for one in added.changes[:MOST_CHANGES]:
            say(f"  {one}")
        if count > MOST_CHANGES:
            click.echo(f"  and {count - MOST_CHANGES} more")
    return 0


@command.command("show", cls=Command, short_help="Write a unit as a unit file.")
@click.argument("unit")
@click.option("--to", metavar="FILE", help="write to a file that is not there yet")
@click.option("--with-parts", is_flag=True, help="describe every part it names, so that it stands alone")
@_catalogue
def show(unit: str, to: str | None, with_parts: bool, catalogue: str | None) -> int:
    """Write UNIT as a unit file. Comments of the file it came from are not kept."""
    from catalogue.store import open_store
    from catalogue.texts import texts_alone, unit_texts
    from catalogue.unit_files.writing import unit_yaml
    from schema.errors import InputError

    connection = open_store(Path(catalogue) if catalogue else None)
    try:
        texts = texts_alone(connection, unit) if with_parts else None
        text = unit_yaml(texts or unit_texts(connection, unit, own_parts_only=True))
    finally:
        connection.close()
    if to is None:
        click.echo(text, nl=False)
        return 0
    try:
        with Path(to).open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise InputError(
            field="--to", given=to, problem="this file is there already", allowed="another name"
        ) from None
    except OSError:
        with suppress(OSError):
            Path(to).unlink()  # half a file would stand in the way of the next try
        raise
    click.echo(f"{unit} is in {to}", err=True)
    return 0


def _say_checked(found: CheckedFile) -> None:
    for fault in found.faults:
        say(str(fault))
    if found.faults:
        count = len(found.faults)
        click.echo(f"{count} fault{'s' if count != 1 else ''}")
        return
    unit, count = found.file.texts["unit"], len(found.file.texts.get("places", {}))
    click.echo(f"{found.file.name} describes {unit}: {count} {'place' if count == 1 else 'places'}, no fault")
    for lacking in found.lacking:
        say(str(lacking))
    if found.not_asked:
        say(f"not asked, since it is not told: {'; '.join(found.not_asked)}")
    if found.lacking:
        kinds = list(dict.fromkeys(one.kind for one in found.lacking if one.kind))
        example = f" The fields of a place: borebook names {kinds[0]}." if kinds else ""
        say(f"What is named above can be told in the file, or be measured for each rebuild.{example}", 0)


def _as_json(found: CheckedFile) -> dict[str, object]:
    return {
        "file": found.file.name,
        "unit": found.file.texts.get("unit", ""),
        "faults": [one._asdict() for one in found.faults],
        "not_proven": [one._asdict() for one in found.lacking],
        "not_asked": list(found.not_asked),
    }
