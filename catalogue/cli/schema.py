"""``borebook schema``: the shapes of the files that go in and of the answers that come out."""

from __future__ import annotations

import json

import click

from catalogue.cli.arguments import Command


@click.command("schema", cls=Command)
@click.argument("which", type=click.Choice(["question", "unit", "answer", "unit-answer", "housings"]))
def command(which: str) -> int:
    """Print the JSON Schema of a question file, a unit file or an answer, of a place or of a unit.

    For housings: an empty table (CSV) with what each column means, to be filled in by the workshop.
    """
    if which == "housings":
        from schema.housing_tables import template

        click.echo(template(), nl=False)
        return 0
    if which == "answer":
        from catalogue.answer import answer_schema as schema
    elif which == "unit-answer":
        from catalogue.unit_answer import unit_answer_schema as schema
    elif which == "unit":
        from catalogue.unit_files.json_schema import unit_schema as schema
    else:
        from catalogue.question_schema import question_schema as schema
    click.echo(json.dumps(schema(), indent=2, ensure_ascii=False))
    return 0
