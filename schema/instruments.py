"""What a measuring instrument is worth: its usual error and the standard uncertainty made from it.

ISO 13385-1 (callipers) and ISO 3611 (micrometers) leave the maximum permissible error to the maker,
so the figures are common practice; a workshop's own certificate leads (``12.69 ±U0.02 mm``).
The error is taken as a rectangular distribution: u = MPE / sqrt(3) (JCGM 100:2008, 4.3.7).
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import NamedTuple

from schema.errors import UnknownName
from schema.nearest import nearest
from schema.tables import rows

_ROOT_THREE = Decimal(3).sqrt()


class Instrument(NamedTuple):
    """A kind of instrument. ``maximum_permissible_error_mm`` is the half width of the error band.

    ``suits`` lists what it is usually taken for: outside, bore (open at its end),
    recess (behind a smaller diameter), slot, hole, depth, rubber.
    """

    key: str
    name: str
    maximum_permissible_error_mm: Decimal
    suits: tuple[str, ...]
    on_rubber: str
    spellings: tuple[str, ...]
    source: str
    grade: str

    @property
    def standard_uncertainty_mm(self) -> Decimal:
        """Standard uncertainty u [mm] of one reading."""
        return self.maximum_permissible_error_mm / _ROOT_THREE


@cache
def instruments() -> dict[str, Instrument]:
    """All instruments by key, from ``published/instruments.csv``."""
    return {
        row["instrument"]: Instrument(
            key=row["instrument"],
            name=row["name"],
            maximum_permissible_error_mm=Decimal(row["maximum_permissible_error_mm"]),
            suits=tuple(row["suits"].split(";")),
            on_rubber=row["on_rubber"],
            spellings=tuple(row["spellings"].split(";")),
            source=row["source"],
            grade=row["grade"],
        )
        for row in rows("instruments")
    }


def instrument(name: str, *, field: str = "instrument") -> Instrument:
    """Find an instrument by any of its spellings.

    >>> instrument("caliper").key
    'calliper'
    """
    wanted = _plain(name).removeprefix("a ").removeprefix("the ")
    for candidate in instruments().values():
        if wanted in map(_plain, (candidate.key, candidate.name, *candidate.spellings)):
            return candidate
    known = [spelling for one in instruments().values() for spelling in (one.name, *one.spellings)]
    raise UnknownName(
        field=field,
        given=name,
        problem="this instrument is not known",
        allowed=", ".join(one.name for one in instruments().values()) + "; or give U: 12.69 ±U0.02 mm",
        example="12.69 mm by micrometer",
        nearest=nearest(wanted, known),
    )


@cache
def suited_to(surface: str) -> tuple[Instrument, ...]:
    """What a surface (outside, bore, recess, slot, depth, rubber) is measured with, coarsest first."""
    suited = [one for one in instruments().values() if surface in one.suits]
    return tuple(sorted(suited, key=lambda one: -one.maximum_permissible_error_mm))


def used_on(tool: Instrument, surface: str) -> Instrument:
    """The same instrument as it is worth on a surface: outside, bore, recess, slot, depth or rubber.

    A calliper is worse with its inside jaws or depth rod, and anything that presses is worse on rubber.
    """
    if surface == "rubber":
        return instruments()[tool.on_rubber] if tool.on_rubber else tool
    other = {
        "bore": "calliper_inside",
        "recess": "calliper_inside",
        "slot": "calliper_inside",
        "depth": "depth_rod",
    }.get(surface)
    return instruments()[other] if other and tool.key == "calliper" else tool


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").replace("_", " ").split())
