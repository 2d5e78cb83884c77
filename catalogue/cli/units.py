"""``borebook units``: the units of the catalogue, their places, and what goes where."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click


@click.command("units")
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
    for one in found:
        click.echo(_unit_line(one) if unit is None else _place_line(one))
    return 0


def _unit_line(one: dict[str, Any]) -> str:
    return f"{one['unit']:<16} {one['kind']:<12} {one['places']:>3} places  {one['description']}"


def _place_line(one: dict[str, Any]) -> str:
    name = f"{one['unit']}/{one['place']}"
    takes = ", ".join(one["parts"]) or "-"
    return f"{name:<36} {one['kind']:<22} {takes:<18} {one['description'] or ''}".rstrip()
