"""The squeeze a ring keeps in service: stretched, off centre, cold, hot, swollen.

Two sides are followed. On the open side, from which shaft or piston has moved away, the ring is at its
thinnest; on the tight side it is at its thickest. Each layer can be switched off and is listed in order.
"""

from __future__ import annotations

from typing import NamedTuple

from fitcheck.numbers import Span
from fitcheck.rings.conditions import NOTHING, THINNING, Conditions, growth, metal_growth
from fitcheck.rings.squeeze import (
    fitted_section,
    grown,
    open_side_squeeze,
    section_growth,
    section_loss_constant_volume,
    thickened_section,
    tight_side_squeeze,
)
from fitcheck.rule import Rule

Steps = dict[str, list[tuple[str, bool, Span]]]


class _Side(NamedTuple):
    """One side of the ring: the rule for its squeeze, its section as fitted, and its end of the service."""

    assembled: str
    at_end: str
    rule: Rule
    section: Span
    rise_k: float | None
    swell_percent: float


def service_squeeze(
    section: Span,
    depth: Span,
    hoop: Span,
    offset: Span,
    conditions: Conditions,
    found: dict[str, Span],
    steps: Steps | None,
) -> None:
    """Enter least and greatest squeeze as assembled and at the ends of the service into ``found``.

    ``section`` and ``depth`` [mm], ``hoop`` stretch (positive) or compression (negative) of the ring on its
    seat [%], ``offset`` eccentricity [mm]. ``steps``, when given, receives the layers.
    """
    ask, off = conditions.ask, conditions.layers_off
    for side in (
        _Side(
            "least_squeeze",
            "cold_squeeze",
            open_side_squeeze,
            _least_section(section, hoop, conditions),
            conditions.cold_rise_k,
            conditions.swell_low_percent,
        ),
        _Side(
            "greatest_squeeze",
            "hot_squeeze",
            tight_side_squeeze,
            _greatest_section(section, hoop, conditions),
            conditions.hot_rise_k,
            conditions.swell_high_percent,
        ),
    ):
        assembled = ask(side.rule, section_mm=side.section, gland_depth_mm=depth, offset_mm=offset)
        found[side.assembled] = assembled
        if side.rise_k is not None:
            found[side.at_end] = _warmed(side, depth, offset, side.swell_percent, conditions)
        if steps is None:
            continue
        centred = ask(side.rule, section_mm=side.section, gland_depth_mm=depth, offset_mm=NOTHING)
        steps[side.assembled] = [
            ("as handbooks count", True, found["squeeze"]),
            ("stretch" if hoop.middle >= 0 else "peripheral compression", "stretch" not in off, centred),
            ("eccentricity", "eccentricity" not in off, assembled),
        ]
        if side.rise_k is not None:
            steps[side.at_end] = [
                *steps[side.assembled],
                ("temperature", "temperature" not in off, _warmed(side, depth, offset, 0.0, conditions)),
                ("swell", "swell" not in off, found[side.at_end]),
            ]


def _least_section(section: Span, hoop: Span, conditions: Conditions) -> Span:
    law = THINNING[conditions.thinning]
    if law is None or "stretch" in conditions.layers_off:
        return section
    loss = conditions.ask(law, stretch_percent=hoop)
    return conditions.ask(fitted_section, cross_section_mm=section, section_loss_percent=loss)


def _greatest_section(section: Span, hoop: Span, conditions: Conditions) -> Span:
    """No thinning unless chosen; a compressed ring always thickens, by constant volume."""
    if "stretch" in conditions.layers_off:
        return section
    if conditions.thickening == "none":
        return conditions.ask(thickened_section, cross_section_mm=section, stretch_percent=hoop)
    loss = conditions.ask(section_loss_constant_volume, stretch_percent=hoop)
    return conditions.ask(fitted_section, cross_section_mm=section, section_loss_percent=loss)


def _warmed(side: _Side, depth: Span, offset: Span, swell_percent: float, conditions: Conditions) -> Span:
    """Squeeze of a side at its end of the temperature range, with swell, as far as these layers are on."""
    ask = conditions.ask
    rise = 0.0 if side.rise_k is None or "temperature" in conditions.layers_off else side.rise_k
    of_section = growth(
        conditions,
        section_growth,
        swell_percent=0.0 if "swell" in conditions.layers_off else swell_percent,
        rubber_expansion_per_k=conditions.rubber_expansion_per_k,
        temperature_rise_k=rise,
    )
    return ask(
        side.rule,
        section_mm=ask(grown, value=side.section, factor=of_section),
        gland_depth_mm=ask(grown, value=depth, factor=metal_growth(conditions, rise)),
        offset_mm=offset,
    )
