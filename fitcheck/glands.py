"""One ring in one gland: all its quantities, from the sizes of both.

``quantities`` is written once and serves one check (spans of floats), the question of what moves a
finding (points), and a sweep over millions of pairs (spans of numpy arrays).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from fitcheck.fill import face_fill, radial_fill, volume_growth
from fitcheck.groove import diametral_clearance, section_in_groove, side_room
from fitcheck.numbers import Real, Span, larger, smaller
from fitcheck.rule import Rule, span
from fitcheck.squeeze import (
    eccentric_offset,
    fitted_section,
    gland_depth,
    open_side_squeeze,
    plain_squeeze,
    section_growth,
    section_loss_constant_volume,
    section_loss_empirical,
    section_loss_joined,
    tight_side_squeeze,
)
from fitcheck.stretch import peripheral_compression, shaft_interference, stretch
from schema.errors import UnknownName

THINNING: dict[str, Rule | None] = {
    "empirical": section_loss_empirical,
    "joined": section_loss_joined,
    "constant-volume": section_loss_constant_volume,
    "none": None,
}
NOTHING = Span(0.0, 0.0, 0.0)
LAYERS = ("stretch", "eccentricity", "temperature", "swell")

# engineeringtoolbox.com d_95 and matmake.com: aluminium 21 to 24; steel 12 (engineeringniche.com), per 1e6 K
METAL_EXPANSION_PER_K = {"aluminium": 23.1e-6, "steel": 12.0e-6}


@dataclass(frozen=True, slots=True)
class Conditions:
    """What besides sizes enters the quantities. Temperature rises [K] count from 20 degC."""

    gland: str
    outward: bool = True
    area_factor: float = math.pi / 4
    back_up_width: Span | None = NOTHING
    rubber_expansion_per_k: float = 0.0
    metal_expansion_per_k: float = 0.0
    cold_rise_k: float | None = None
    hot_rise_k: float | None = None
    swell_low_percent: float = 0.0
    swell_high_percent: float = 0.0
    thinning: str = "empirical"
    thickening: str = "none"
    layers_off: tuple[str, ...] = ()


Steps = dict[str, list[tuple[str, bool, Span]]]


def check_layers(conditions: Conditions) -> None:
    """Refuse names of laws and layers that do not exist."""
    for field, given, allowed in (
        ("thinning", conditions.thinning, tuple(THINNING)),
        ("thickening", conditions.thickening, ("none", "constant-volume")),
        *(("layers_off", layer, LAYERS) for layer in conditions.layers_off),
    ):
        if given not in allowed:
            raise UnknownName(
                field=field, given=given, problem="there is no such name", allowed=", ".join(allowed)
            )


def quantities(
    sizes: Mapping[str, Span], conditions: Conditions, steps: Steps | None = None
) -> dict[str, Span]:
    """Every quantity that the given sizes allow, by rule name; what lacks a size is left out.

    ``sizes`` are spans [mm] by field name (inside_diameter, cross_section, groove_width, ...);
    ``steps``, when given, receives the layers of each squeeze in order.
    """
    found: dict[str, Span] = {}
    ring = _Ring(sizes["inside_diameter"], sizes["cross_section"])
    place = _place(sizes, conditions)
    depth = place.depth
    if depth is not None:
        found["squeeze"] = span(plain_squeeze, cross_section_mm=ring.section, gland_depth_mm=depth)
    hoop = _hoop(sizes, ring, conditions, found)
    clearance = place.clearance
    if clearance is not None:
        found["extrusion_gap"] = clearance
    if place.wall_height is not None:
        found["section_in_groove"] = span(
            section_in_groove, wall_height_mm=place.wall_height, cross_section_mm=ring.section
        )
    offset = _offset(sizes, clearance, conditions)
    if depth is not None and hoop is not None and offset is not None:
        _service_squeeze(ring, depth, hoop, offset, conditions, found, steps)
    _room(sizes, ring, place, conditions, found)
    if "passes_over" in sizes:
        found["assembly_stretch"] = span(
            stretch, seat_diameter_mm=sizes["passes_over"], inside_diameter_mm=ring.inside
        )
    return found


@dataclass(frozen=True, slots=True)
class _Ring:
    inside: Span
    section: Span


@dataclass(frozen=True, slots=True)
class _Place:
    """What a rod, piston and face gland have in common, once their own names are gone."""

    depth: Span | None
    outer: Span | None
    inner: Span | None
    clearance: Span | None
    wall_height: Span | None


def _place(sizes: Mapping[str, Span], conditions: Conditions) -> _Place:
    if conditions.gland == "face":
        depth = sizes.get("groove_depth")
        return _Place(depth, None, None, sizes.get("face_gap", NOTHING), depth)
    if conditions.gland == "rod":
        outer, inner = sizes.get("groove_diameter"), sizes.get("shaft_diameter")
        gap_outer, gap_inner = sizes.get("throat_diameter"), inner
        wall = _between(gland_depth, outer, sizes.get("throat_diameter"))
    else:
        outer, inner = sizes.get("bore_diameter"), sizes.get("groove_diameter")
        gap_outer, gap_inner = outer, sizes.get("land_diameter")
        wall = _between(gland_depth, sizes.get("land_diameter"), inner)
    return _Place(
        _between(gland_depth, outer, inner),
        outer,
        inner,
        _between(diametral_clearance, gap_outer, gap_inner),
        wall,
    )


def _between(rule: Rule, outer: Span | None, inner: Span | None) -> Span | None:
    if outer is None or inner is None:
        return None
    return span(rule, outer_diameter_mm=outer, inner_diameter_mm=inner)


def _hoop(
    sizes: Mapping[str, Span], ring: _Ring, conditions: Conditions, found: dict[str, Span]
) -> Span | None:
    """Stretch (positive) or compression (negative) of the ring on its seat, in percent."""
    if conditions.gland == "piston" or (conditions.gland == "face" and not conditions.outward):
        seat = sizes.get("groove_diameter" if conditions.gland == "piston" else "groove_inner_diameter")
        if seat is None:
            return None
        found["stretch"] = span(stretch, seat_diameter_mm=seat, inside_diameter_mm=ring.inside)
        return found["stretch"]
    groove = sizes.get("groove_diameter" if conditions.gland == "rod" else "groove_outer_diameter")
    if groove is None:
        return None
    compression = span(
        peripheral_compression,
        inside_diameter_mm=ring.inside,
        cross_section_mm=ring.section,
        groove_diameter_mm=groove,
    )
    found["peripheral_compression"] = compression
    shaft = sizes.get("shaft_diameter")
    if conditions.gland == "rod" and shaft is not None:
        held = Span(
            larger(compression.low, 0.0), larger(compression.middle, 0.0), larger(compression.high, 0.0)
        )
        found["shaft_interference"] = span(
            shaft_interference,
            shaft_diameter_mm=shaft,
            inside_diameter_mm=ring.inside,
            compression_percent=held,
        )
    return Span(-compression.high, -compression.middle, -compression.low)


def _offset(sizes: Mapping[str, Span], clearance: Span | None, conditions: Conditions) -> Span | None:
    """Eccentric offset [mm]: the guide's clearance where it is closer than the land's."""
    if conditions.gland == "face" or "eccentricity" in conditions.layers_off:
        return NOTHING
    guide = sizes.get("guide_clearance")
    if clearance is None and guide is None:
        return None
    if clearance is None or guide is None:
        free = guide if clearance is None else clearance
    else:
        free = Span(
            smaller(clearance.low, guide.low),
            smaller(clearance.middle, guide.middle),
            smaller(clearance.high, guide.high),
        )
    return span(
        eccentric_offset, diametral_clearance_mm=free or NOTHING, runout_mm=sizes.get("runout", NOTHING)
    )


def _service_squeeze(
    ring: _Ring,
    depth: Span,
    hoop: Span,
    offset: Span,
    conditions: Conditions,
    found: dict[str, Span],
    steps: Steps | None,
) -> None:
    """Least and greatest squeeze as assembled, then at the cold and the hot end of the service."""
    thin, thick = (
        _least_section(ring.section, hoop, conditions),
        _greatest_section(ring.section, hoop, conditions),
    )
    for name, end_name, rule, section in (
        ("least_squeeze", "cold_squeeze", open_side_squeeze, thin),
        ("greatest_squeeze", "hot_squeeze", tight_side_squeeze, thick),
    ):
        found[name] = span(rule, section_mm=section, gland_depth_mm=depth, offset_mm=offset)
        cold = end_name == "cold_squeeze"
        rise = conditions.cold_rise_k if cold else conditions.hot_rise_k
        swell = conditions.swell_low_percent if cold else conditions.swell_high_percent
        heated = None
        if rise is not None:
            heated = _heated(section, depth, rise, 0.0, conditions)
            swollen = _heated(section, depth, rise, swell, conditions)
            found[end_name] = span(rule, section_mm=swollen[0], gland_depth_mm=swollen[1], offset_mm=offset)
        if steps is not None:
            listed = [
                ("as handbooks count", True, found["squeeze"]),
                (
                    "stretch" if hoop.middle >= 0 else "peripheral compression",
                    "stretch" not in conditions.layers_off,
                    span(rule, section_mm=section, gland_depth_mm=depth, offset_mm=NOTHING),
                ),
                ("eccentricity", "eccentricity" not in conditions.layers_off, found[name]),
            ]
            steps[name] = listed
            if heated is not None:
                at_end = span(rule, section_mm=heated[0], gland_depth_mm=heated[1], offset_mm=offset)
                steps[end_name] = [
                    *listed,
                    ("temperature", "temperature" not in conditions.layers_off, at_end),
                    ("swell", "swell" not in conditions.layers_off, found[end_name]),
                ]


def _least_section(section: Span, hoop: Span, conditions: Conditions) -> Span:
    law = THINNING[conditions.thinning]
    if law is None or "stretch" in conditions.layers_off:
        return section
    return _fitted(section, span(law, stretch_percent=hoop))


def _greatest_section(section: Span, hoop: Span, conditions: Conditions) -> Span:
    """No thinning unless chosen; a compressed ring always thickens, by constant volume."""
    if "stretch" in conditions.layers_off:
        return section
    if conditions.thickening == "none":
        hoop = Span(smaller(hoop.low, 0.0), smaller(hoop.middle, 0.0), smaller(hoop.high, 0.0))
    return _fitted(section, span(section_loss_constant_volume, stretch_percent=hoop))


def _fitted(section: Span, loss: Span) -> Span:
    return span(fitted_section, cross_section_mm=section, section_loss_percent=loss)


def _heated(
    section: Span, depth: Span, rise_k: float, swell_percent: float, conditions: Conditions
) -> tuple[Span, Span]:
    """Section and depth at a temperature, with swell, as far as these layers are on."""
    rise = 0.0 if "temperature" in conditions.layers_off else rise_k
    swell = 0.0 if "swell" in conditions.layers_off else swell_percent
    growth = section_growth(
        swell_percent=swell,
        rubber_expansion_per_k=conditions.rubber_expansion_per_k,
        metal_expansion_per_k=conditions.metal_expansion_per_k,
        temperature_rise_k=rise,
    )
    return _scaled(section, growth), _scaled(depth, 1.0 + conditions.metal_expansion_per_k * rise)


def _scaled(of: Span, factor: Real) -> Span:
    return Span(of.low * factor, of.middle * factor, of.high * factor)


def _room(
    sizes: Mapping[str, Span],
    ring: _Ring,
    place: _Place,
    conditions: Conditions,
    found: dict[str, Span],
) -> None:
    """Side room and fill, as assembled and hot."""
    width = sizes.get("groove_width")
    back_ups = conditions.back_up_width
    if width is None or back_ups is None:
        return
    found["side_room"] = span(
        side_room, groove_width_mm=width, cross_section_mm=ring.section, back_up_width_mm=back_ups
    )
    free = Span(width.low - back_ups.high, width.middle - back_ups.middle, width.high - back_ups.low)
    inputs: dict[str, Span | Real] = {
        "inside_diameter_mm": ring.inside,
        "cross_section_mm": ring.section,
        "groove_width_mm": free,
        "area_factor": conditions.area_factor,
    }
    if conditions.gland == "face":
        wall = sizes.get("groove_outer_diameter" if conditions.outward else "groove_inner_diameter")
        if wall is None or place.depth is None:
            return
        rule = face_fill
        inputs["wall_diameter_mm"] = wall
        inputs["groove_depth_mm"] = place.depth
        inputs["wall_side"] = 1.0 if conditions.outward else -1.0
    else:
        if place.outer is None or place.inner is None:
            return
        rule = radial_fill
        inputs["outer_diameter_mm"] = place.outer
        inputs["inner_diameter_mm"] = place.inner
    found["fill"] = span(rule, **inputs)
    if conditions.hot_rise_k is not None:
        growth = volume_growth(
            swell_percent=0.0 if "swell" in conditions.layers_off else conditions.swell_high_percent,
            rubber_expansion_per_k=conditions.rubber_expansion_per_k,
            metal_expansion_per_k=conditions.metal_expansion_per_k,
            temperature_rise_k=0.0 if "temperature" in conditions.layers_off else conditions.hot_rise_k,
        )
        found["hot_fill"] = _scaled(found["fill"], growth)
