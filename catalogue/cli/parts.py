"""``borebook parts``: the parts of the catalogue."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click


@click.command("parts")
@click.argument("words", nargs=-1)
@click.option("--kind", metavar="KIND", help="only one kind: o_ring, back_up_ring, wiper ...")
@click.option("--number", metavar="PART", help="all that is known of one part")
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
def command(
    words: tuple[str, ...], kind: str | None, number: str | None, as_json: bool, catalogue: str | None
) -> int:
    """List the parts that have every one of the WORDS (number, size code, material, description)."""
    from catalogue.lookup import part_record, parts
    from catalogue.store import open_store

    connection = open_store(Path(catalogue) if catalogue else None)
    try:
        if number is not None:
            record = part_record(connection, number)
            click.echo(json.dumps(record, indent=2, ensure_ascii=False) if as_json else _record(record))
            return 0
        found = parts(connection, kind, " ".join(words))
    finally:
        connection.close()
    if as_json:
        click.echo(json.dumps(found, indent=2, ensure_ascii=False))
        return 0
    for one in found:
        stuff = " ".join(
            _text(one[name]) for name in ("material", "hardness_shore_a") if one[name] is not None
        )
        click.echo(f"{one['part_number']:<10} {one['kind']:<16} {stuff:<9} {one['description']}")
    click.echo(f"{len(found)} parts" if len(found) != 1 else "1 part", err=True)
    return 0


def _record(record: dict[str, Any]) -> str:
    lines = [
        f"{name.replace('_', ' ')}: {_text(value)}"
        for name, value in record.items()
        if name not in ("dimensions", "places") and value not in (None, "")
    ]
    lines += [f"  {one['dimension'].replace('_', ' ')}: {one['text']}" for one in record["dimensions"]]
    lines += [f"  used in {one['unit']}/{one['place']} x {one['quantity']}" for one in record["places"]]
    return "\n".join(lines)


def _text(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)
