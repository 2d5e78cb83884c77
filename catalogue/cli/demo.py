"""``borebook demo``: the demo catalogue, one check that fits and one that does not."""

from __future__ import annotations

from pathlib import Path

import click

from catalogue.cli.check import style
from schema.errors import StoreError

PLACE = "whinchat-216/end-cap"
CHECKS = (
    ("QV-1207", "The ring that belongs there"),
    ("QV-1112", "A thinner ring that looks alike in the hand"),
)


@click.command("demo")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file to make")
def command(catalogue: str | None) -> int:
    """Make the demo catalogue (an invented workshop) and run two checks in it."""
    from catalogue.lookup import question_dict
    from catalogue.report import report
    from catalogue.seed import load_seed
    from catalogue.store import default_location, open_store
    from fitcheck.check import check
    from schema.question import question_from
    from schema.reference import published_reference

    path = Path(catalogue) if catalogue else default_location()
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
    connection = open_store(path)
    try:
        for part_number, words in CHECKS:
            question = question_from(question_dict(connection, part_number, PLACE))
            click.echo(f"\n{'=' * 60}\n{words}:\n  borebook check {part_number} {PLACE}\n")
            click.echo(report(check(question, published_reference()), style()), nl=False)
    finally:
        connection.close()
    named = "" if not catalogue else f" --catalogue {path}"
    click.echo(f"\nNext: borebook units{named}, or check a gland of your own (see README.md).")
    return 0


def _refuse_other_data(path: Path) -> None:
    """The demo never touches a catalogue that holds anything else."""
    if not path.exists():
        return
    from catalogue.store import open_store

    connection = open_store(path)
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
            "name another file: borebook demo --catalogue demo.sqlite"
        )
