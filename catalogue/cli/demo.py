"""``borebook demo``: the demo catalogue, one check that fits, one that does not, and a whole unit."""

from __future__ import annotations

import os
import shlex
import shutil
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from catalogue.cli.arguments import Command
from catalogue.cli.check import style
from schema.errors import StoreError

UNIT = "dunlin-165"
PLACE = "whinchat-216/end-cap"
CHECKS = (
    ("QV-1207", "The ring that belongs there"),
    ("QV-1112", "A thinner ring that looks alike in the hand"),
)


@click.command("demo", cls=Command)
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file to make")
def command(catalogue: str | None) -> int:
    """Make the demo catalogue (an invented workshop), run two checks in it and check a whole unit."""
    from catalogue.lookup import question_dict
    from catalogue.report import report
    from catalogue.seed import load_seed
    from catalogue.store import default_location, location, open_store
    from catalogue.texts import unit_texts
    from fitcheck.check import check
    from schema.question import question_from
    from schema.reference import published_reference

    path = location(catalogue)
    _refuse_other_data(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    db = open_store(path, write=True)
    try:
        loaded = load_seed(db)
    finally:
        db.close()
    click.echo(
        f"The demo catalogue is at {path}: {loaded.rows['part']} parts, {loaded.rows['unit']} units, "
        f"{loaded.rows['place']} places. Units, makers and part numbers are invented."
    )
    name = called()
    where = "" if path == default_location() else f" --catalogue {shlex.quote(str(path))}"
    connection = open_store(path)
    try:
        for part_number, words in CHECKS:
            question = question_from(question_dict(connection, part_number, PLACE))
            click.echo(f"\n{'=' * 60}\n{words}:\n  {name} check {part_number} {PLACE}{where}\n")
            click.echo(report(check(question, published_reference()), style()), nl=False)
        _whole_unit(unit_texts(connection, UNIT), f"{name} rebuild {UNIT}{where}")
    finally:
        connection.close()
    click.echo(
        f"\nNext:\n  {name} units{where}\n  {name} units whinchat-216{where}\n"
        f"  {name} rebuild {UNIT} --sheet sheet.html{where}\n  {name} check --help\n"
        "README.md shows a check of a gland of your own."
    )
    return 0


def _whole_unit(texts: Mapping[str, Any], command: str) -> None:
    """What the check of a whole unit comes to, in a few lines."""
    from catalogue.cli.page import say
    from catalogue.report import SIGNS
    from fitcheck.unit.check import check_unit
    from schema.reference import published_reference
    from schema.unit import unit_from

    verdict = check_unit(unit_from(texts), published_reference())
    click.echo(f"\n{'=' * 60}\nA whole unit before it is opened:\n  {command}\n")
    click.echo(f"{SIGNS[verdict.status]} {verdict.status.value.upper()}")
    say(verdict.next_step)
    for status, places in verdict.grouped().items():
        if places:
            say(f"{SIGNS[status]} {status.value}: {', '.join(one.name for one in places)}")


def called() -> str:
    """How this command is to be typed: its bare name where the shell finds it, else its file."""
    typed = Path(sys.argv[0])
    if typed.name == "__main__.py":
        return f"{shlex.quote(sys.executable)} -m catalogue"
    found = shutil.which("borebook")
    if typed.stem != "borebook" or (found and Path(found).resolve() == typed.resolve()):
        return "borebook"
    return shlex.quote(os.path.relpath(typed) if typed.is_relative_to(Path.cwd()) else str(typed))


def _refuse_other_data(path: Path) -> None:
    """The demo never touches a catalogue that holds anything else."""
    if not path.exists():
        return
    from catalogue.store import open_store

    connection = open_store(path, older=True)
    try:
        parts = connection.execute("SELECT count(*) FROM part").fetchone()[0]
        demo = connection.execute(
            "SELECT count(*) FROM data_version WHERE subject = 'workshop_sheets'"
        ).fetchone()[0]
    finally:
        connection.close()
    if parts and not demo:
        raise StoreError(
            f"{path} holds a catalogue that is not the demo; "
            "name another file with --catalogue or BOREBOOK_CATALOGUE, such as demo.sqlite"
        )
