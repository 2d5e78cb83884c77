"""``borebook schema``: the JSON Schema of a question file and of an answer."""

from __future__ import annotations

import json

import click

from catalogue.cli.arguments import Command


@click.command("schema", cls=Command)
@click.argument("which", type=click.Choice(["question", "answer"]))
def command(which: str) -> int:
    """Print the JSON Schema of a question file or of an answer."""
    if which == "answer":
        from catalogue.answer import answer_schema as schema
    else:
        from catalogue.question_schema import question_schema as schema
    click.echo(json.dumps(schema(), indent=2, ensure_ascii=False))
    return 0
