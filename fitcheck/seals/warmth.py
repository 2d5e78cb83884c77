"""What heat and cold do to a guide ring: expansion of the strip, of what it runs on, of what holds it."""

from __future__ import annotations

from typing import NamedTuple

from fitcheck.made_of import MadeOf
from fitcheck.numbers import Span
from fitcheck.rings.conditions import METAL_EXPANSION_PER_K
from fitcheck.rings.squeeze import REFERENCE_TEMPERATURE_DEG_C
from schema.bushing_tables import expansions
from schema.fit import Fit
from schema.places import metals_of
from schema.reference import Reference
from schema.seals import GuideRingGroove


class Warmth(NamedTuple):
    """What heat and cold need: expansions [1/K] over their sources, rises to the ends [K]; None if not told.

    ``groove_per_k`` is that of the part with the groove, None where it is of the metal the ring runs on.
    """

    ring_per_k: Span | None
    metal_per_k: Span
    groove_per_k: Span | None
    hot_rise_k: float | None
    cold_rise_k: float | None

    @property
    def wants(self) -> tuple[str, ...]:
        """What is missing for the hot end, in words."""
        absent = []
        if self.ring_per_k is None:
            absent.append("material of the guide ring")
        if self.hot_rise_k is None:
            absent.append("temperature range")
        return tuple(absent)


def warmth_of(place: GuideRingGroove, made: MadeOf, fit: Fit, reference: Reference) -> Warmth:
    """Expansions of strip and metals, and the rises to both ends of the service."""
    code, temperature = made.name.code, fit.service.temperature
    other = place.groove_metal not in (None, place.metal)
    return Warmth(
        _spread(code, reference),
        _of_metal(place.metal, reference),
        _of_metal(place.groove_metal, reference) if other else None,
        max(0.0, temperature.high_deg_c - REFERENCE_TEMPERATURE_DEG_C) if temperature else None,
        min(0.0, temperature.low_deg_c - REFERENCE_TEMPERATURE_DEG_C) if temperature else None,
    )


def _of_metal(metal: str | None, reference: Reference) -> Span:
    """Linear expansion of a metal; over both where none is told."""
    found = [_spread(one, reference) or Span.point(METAL_EXPANSION_PER_K[one]) for one in metals_of(metal)]
    return _hull(*found)


def _hull(*several: Span) -> Span:
    """All that several spans hold, with its middle."""
    if len(several) == 1:
        return several[0]
    low, high = min(one.low for one in several), max(one.high for one in several)
    return Span(low, (low + high) / 2.0, high)


def _strain(per_k: Span, rise_k: float) -> Span:
    """Thermal strain at a rise; the ends change places below 20 degC."""
    ends = sorted((per_k.low * rise_k, per_k.high * rise_k))
    return Span(ends[0], per_k.middle * rise_k, ends[1])


def _spread(code: str, reference: Reference) -> Span | None:
    """Linear expansion over the sources read; of what has one source only that one."""
    known = expansions().get(code)
    if known is not None:
        return Span(known.low, known.middle, known.high)
    material = reference.materials.get(code)
    one = material.linear_expansion_per_k if material else None
    return None if one is None else Span.point(one)


def two_strains(warmth: Warmth, rise_k: float, piston: bool) -> dict[str, Span]:
    """Strains of the outer and the inner cylinder and of the strip, where the two are of different metals."""
    assert warmth.ring_per_k is not None and warmth.groove_per_k is not None
    runs_on, groove = _strain(warmth.metal_per_k, rise_k), _strain(warmth.groove_per_k, rise_k)
    outer, inner = (runs_on, groove) if piston else (groove, runs_on)
    return {
        "outer_strain": outer,
        "inner_strain": inner,
        "ring_strain": _strain(warmth.ring_per_k, rise_k),
    }


def around(warmth: Warmth) -> Span:
    """Expansion of the metal round which the strip lies: of two it may follow either."""
    return (
        warmth.metal_per_k if warmth.groove_per_k is None else _hull(warmth.metal_per_k, warmth.groove_per_k)
    )
