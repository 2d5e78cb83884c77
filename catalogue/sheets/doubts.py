"""What makes a change doubtful: a price that jumps, a size that changed by the factor of an inch.

A doubtful row is kept back until a person says that it is meant. The bounds are our own judgement, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import NamedTuple

from catalogue.sheets.terms import Priced, unit_price
from schema.dimension import parse_dimension
from schema.errors import InputError
from schema.units import LENGTH_TO_MM

PRICE_JUMP = Decimal(2)  # a unit price beyond twice the last one, or below half of it
FIRST_PRICE_JUMP = Decimal(8)  # beside what other suppliers ask
# Sizes below which no part of that field is made; own judgement, no source.
_LEAST_MM = {"cross_section": 0.5, "inside_diameter": 0.5, "outside_diameter": 1.0, "made_for_shaft": 1.0}
_SLIPS = tuple(Decimal(10) ** power for power in (1, 2, 3))
_NEAR_SLIP = Decimal("0.15")  # a price rises besides, so a slipped decimal sign is seldom exactly ten
_INCH = float(LENGTH_TO_MM["in"])
_NEAR_INCH = 0.02


class Doubt(NamedTuple):
    """Why a change is doubtful, and in which field."""

    field: str
    reason: str


def doubts_of_terms(now: Priced, before: Priced) -> tuple[Doubt, ...]:
    """What is doubtful in a price beside the one before."""
    own, last = unit_price(now), unit_price(before)
    if own is None or last is None:
        return ()
    if now.currency != before.currency:
        return (Doubt("currency", f"the currency changed from {before.currency} to {now.currency}"),)
    ratio = own / last
    if 1 / PRICE_JUMP <= ratio <= PRICE_JUMP:
        return ()
    if now.price_per != before.price_per:
        return (
            Doubt(
                "price",
                f"{_times(ratio)} the last one by the piece: "
                f"it was for {before.price_per}, is for {now.price_per}",
            ),
        )
    slip = next((one for one in _SLIPS if _near(ratio, one) or _near(1 / ratio, one)), None)
    told = "; has the decimal sign slipped?" if slip else ""
    return (Doubt("price", f"{_times(ratio)} the last one{told}"),)


def doubts_of_article(before: Mapping[str, str], now: Mapping[str, str]) -> tuple[Doubt, ...]:
    """What is doubtful in what an article is: its kind, sizes and material should not change under a code."""
    found = []
    for name in ("kind", "size", "material", "hardness_shore_a"):
        if before.get(name) and now.get(name) and before[name] != now[name]:
            found.append(Doubt(name, f"the article itself changed: {before[name]}, now {now[name]}"))
    for name in now:
        sizes = [_mm(texts.get(name, "")) for texts in (before, now)]
        if None in sizes or not sizes[0] or not sizes[1]:
            continue
        ratio = sizes[1] / sizes[0]
        if looks_like_inches(ratio):
            found.append(Doubt(name, f"{ratio:.4g} times the last size: inches under mm, or the reverse?"))
        elif abs(ratio - 1) > 1e-9:
            found.append(Doubt(name, f"the article itself changed: {before[name]}, now {now[name]}"))
    return tuple(found)


def doubts_of_new(sizes: Iterable[tuple[str, float]]) -> tuple[Doubt, ...]:
    """What is doubtful in the sizes [mm] of an article that is met for the first time: inches under mm.

    No ring of AS568 or ISO 3601-1 has a section below 1 mm; the thinnest that are sold are about half of that
    (common practice, no source), while the sections of AS568 in inches are 0.04 to 0.275.
    """
    return tuple(
        Doubt(name, f"{size:g} mm is no {name.replace('_', ' ')}; {size:g} in is {size * _INCH:.3g} mm")
        for name, size in sizes
        if 0 < size < _LEAST_MM.get(name, 0.0)
    )


def doubts_of_first_price(now: Priced, others: Iterable[Priced]) -> tuple[Doubt, ...]:
    """What is doubtful in the first price for a part that others offer too, in the same currency."""
    own = unit_price(now)
    prices = (unit_price(one) for one in others if one.currency == now.currency)
    asked = [price for price in prices if price is not None]
    if own is None:
        return ()
    if not asked or min(asked) / FIRST_PRICE_JUMP <= own <= max(asked) * FIRST_PRICE_JUMP:
        return ()
    dearer = own > max(asked)
    ratio = own / max(asked) if dearer else min(asked) / own
    return (
        Doubt(
            "price",
            f"by the piece {float(ratio):.3g} times {'more' if dearer else 'less'} than others ask for this "
            "part; is the price for a hundred?",
        ),
    )


def looks_like_inches(ratio: float) -> bool:
    """Whether two sizes that should be one differ by the factor of an inch, either way."""
    return any(abs(ratio / factor - 1) < _NEAR_INCH for factor in (_INCH, 1 / _INCH))


def _times(ratio: Decimal) -> str:
    return f"{float(ratio):.3g} times" if ratio < 1000 else f"{float(ratio):.0f} times"


def _near(ratio: Decimal, slip: Decimal) -> bool:
    return abs(ratio / slip - 1) <= _NEAR_SLIP


def _mm(text: str) -> float | None:
    try:
        return float(parse_dimension(text).nominal)
    except InputError:
        return None
