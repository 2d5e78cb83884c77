"""``borebook units``: the units of the catalogue, their places, and what goes where."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import table


@click.command("units", cls=Command)
@click.argument("unit", required=False)
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
def command(unit: str | None, as_json: bool, catalogue: str | None) -> int:
    """List the units, or the places of one UNIT with the parts they take."""
    from catalogue.lookup import places, rebuild_list, units
    from catalogue.store import open_store

    connection = open_store(Path(catalogue) if catalogue else None)
    try:
        if unit is None:
            found = units(connection)
        else:
            found = places(connection, unit)
            takes: dict[str, list[str]] = {}
            for one in rebuild_list(connection, unit):
                takes.setdefault(one["place"], []).append(one["part_number"])
            for place in found:
                place["parts"] = takes.get(place["place"], [])
    finally:
        connection.close()
    if as_json:
        click.echo(json.dumps(found, indent=2, ensure_ascii=False))
        return 0
    if unit is None:
        table((one["unit"], one["kind"], f"{one['places']} places", one["description"]) for one in found)
    else:
        table(map(_place_row, found), hang=4)
    return 0


def _place_row(one: dict[str, Any]) -> tuple[str, ...]:
    takes = ", ".join(one["parts"]) or "-"
    return f"{one['unit']}/{one['place']}", one["kind"], f"{takes}  {one['description'] or ''}"
