"""``borebook limits``: ISO 286 tolerance classes at a size, and the fit that two of them make."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import say
from schema.dimension import parse_dimension
from schema.errors import InputError
from schema.iso286 import Fit, ToleranceZone, fit, tolerance_zone

SOURCE = (
    "ISO 286-1 by secondary sources: Machine Drawing, Tables 15.1 to 15.3; "
    "Machinery's Handbook, 31st ed., Table 6a"
)


@click.command("limits", cls=Command)
@click.argument("size")
@click.argument("classes", nargs=-1, required=True)
@click.option("--json", "as_json", is_flag=True, help="print as JSON (micrometres)")
def command(size: str, classes: tuple[str, ...], as_json: bool) -> int:
    """Limits of the tolerance classes CLASSES at SIZE, and the fit of a hole and a shaft.

    SIZE is in mm unless it has a unit: ISO 286 is written in mm.

    \b
    borebook limits 25 H7 g6
    borebook limits '1/2 in' H8 f7
    """
    nominal = parse_dimension(size, field="size", implied_unit="mm")
    if nominal.lower != nominal.upper or nominal.measured:
        raise InputError(field="size", given=size, problem="a nominal size has no tolerance", example="25")
    names = [name for given in classes for name in given.split("/") if name]
    zones = [tolerance_zone(name, nominal.nominal) for name in names]
    pair = fit(*zones) if len(zones) == 2 and zones[0].is_hole != zones[1].is_hole else None
    if as_json:
        click.echo(json.dumps(_json(nominal.nominal, zones, pair), indent=2))
        return 0
    for zone in zones:
        deviations = f"{_signed(zone.upper_um):>8} / {_signed(zone.lower_um):<8} um"
        limits = f"{zone.lower_limit_mm:.4f} to {zone.upper_limit_mm:.4f} mm"
        say(f"{_short(zone.size_mm)} {zone.designation:<5} {deviations}   {limits}")
    if pair is not None:
        clearance = f"{_signed(pair.clearance_min_um)} to {_signed(pair.clearance_max_um)} um"
        say(f"{pair.kind} fit: clearance {clearance} (negative: interference)")
    say(f"Source: {SOURCE}")
    return 0


def _json(size: Decimal, zones: list[ToleranceZone], pair: Fit | None) -> dict[str, Any]:
    return {
        "schema": 1,
        "size_mm": float(size),
        "classes": [
            {
                "class": zone.designation,
                "lower_um": _plain(zone.lower_um),
                "upper_um": _plain(zone.upper_um),
                "lower_limit_mm": float(zone.lower_limit_mm),
                "upper_limit_mm": float(zone.upper_limit_mm),
                "kind": "hole" if zone.is_hole else "shaft",
            }
            for zone in zones
        ],
        "fit": None
        if pair is None
        else {
            "clearance_min_um": _plain(pair.clearance_min_um),
            "clearance_max_um": _plain(pair.clearance_max_um),
            "kind": pair.kind,
        },
        "source": SOURCE,
    }


def _plain(value: Decimal) -> int | float:
    return int(value) if value == value.to_integral_value() else float(value)


def _short(value: Decimal) -> str:
    return f"{value.normalize():f}"


def _signed(value: Decimal) -> str:
    return "0" if value == 0 else f"{_plain(value):+g}"
