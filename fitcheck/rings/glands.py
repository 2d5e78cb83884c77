"""One ring in one gland: all its quantities, from the sizes of both.

``quantities`` is written once and serves one check (spans of floats), the question of what moves a
finding (points), and a sweep over millions of pairs (spans of numpy arrays).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitcheck.numbers import Real, Span
from fitcheck.rings.conditions import NOTHING, Conditions, growth
from fitcheck.rings.fill import face_fill, radial_fill, volume_growth
from fitcheck.rings.groove import (
    closer_clearance,
    diametral_clearance,
    free_width,
    section_in_groove,
    side_room,
)
from fitcheck.rings.service_squeeze import Steps, service_squeeze
from fitcheck.rings.squeeze import eccentric_offset, face_gland_depth, gland_depth, grown, plain_squeeze
from fitcheck.rings.stretch import compression_as_stretch, peripheral_compression, shaft_interference, stretch
from fitcheck.rule import Rule


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
        found["squeeze"] = conditions.ask(plain_squeeze, cross_section_mm=ring.section, gland_depth_mm=depth)
    hoop = _hoop(sizes, ring, conditions, found)
    clearance = place.clearance
    if clearance is not None:
        found["extrusion_gap"] = clearance
    if place.wall_height is not None:
        found["section_in_groove"] = conditions.ask(
            section_in_groove, wall_height_mm=place.wall_height, cross_section_mm=ring.section
        )
    offset = _offset(sizes, clearance, conditions)
    if depth is not None and hoop is not None and offset is not None:
        service_squeeze(ring.section, depth, hoop, offset, conditions, found, steps)
    _room(sizes, ring, place, conditions, found)
    # A ring on a piston has to pass the land beside its groove, whatever else it passes.
    passed = sizes.get("passes_over")
    if passed is None and conditions.gland == "piston":
        passed = sizes.get("land_diameter")
    if passed is not None:
        found["assembly_stretch"] = conditions.ask(
            stretch, seat_diameter_mm=passed, inside_diameter_mm=ring.inside
        )
    return found


class _Ring(NamedTuple):
    inside: Span
    section: Span


class _Place(NamedTuple):
    """What a rod, piston and face gland have in common, once their own names are gone."""

    depth: Span | None
    outer: Span | None
    inner: Span | None
    clearance: Span | None
    wall_height: Span | None


def _place(sizes: Mapping[str, Span], conditions: Conditions) -> _Place:
    if conditions.gland == "face":
        groove, gap = sizes.get("groove_depth"), sizes.get("face_gap", NOTHING)
        depth = groove
        if groove is not None and "face_gap" in sizes:
            depth = conditions.ask(face_gland_depth, groove_depth_mm=groove, face_gap_mm=gap)
        return _Place(depth, None, None, gap, groove)
    if conditions.gland == "rod":
        outer, inner = sizes.get("groove_diameter"), sizes.get("shaft_diameter")
        gap_outer, gap_inner = sizes.get("throat_diameter"), inner
        wall = _between(gland_depth, outer, sizes.get("throat_diameter"), conditions)
    else:
        outer, inner = sizes.get("bore_diameter"), sizes.get("groove_diameter")
        gap_outer, gap_inner = outer, sizes.get("land_diameter")
        wall = _between(gland_depth, sizes.get("land_diameter"), inner, conditions)
    return _Place(
        _between(gland_depth, outer, inner, conditions),
        outer,
        inner,
        _between(diametral_clearance, gap_outer, gap_inner, conditions),
        wall,
    )


def _between(rule: Rule, outer: Span | None, inner: Span | None, conditions: Conditions) -> Span | None:
    if outer is None or inner is None:
        return None
    return conditions.ask(rule, outer_diameter_mm=outer, inner_diameter_mm=inner)


def _hoop(
    sizes: Mapping[str, Span], ring: _Ring, conditions: Conditions, found: dict[str, Span]
) -> Span | None:
    """Stretch (positive) or compression (negative) of the ring on its seat, in percent."""
    if conditions.gland == "piston" or (conditions.gland == "face" and not conditions.outward):
        seat = sizes.get("groove_diameter" if conditions.gland == "piston" else "groove_inner_diameter")
        if seat is None:
            return None
        found["stretch"] = conditions.ask(stretch, seat_diameter_mm=seat, inside_diameter_mm=ring.inside)
        return found["stretch"]
    groove = sizes.get("groove_diameter" if conditions.gland == "rod" else "groove_outer_diameter")
    if groove is None:
        return None
    compression = conditions.ask(
        peripheral_compression,
        inside_diameter_mm=ring.inside,
        cross_section_mm=ring.section,
        groove_diameter_mm=groove,
    )
    found["peripheral_compression"] = compression
    shaft = sizes.get("shaft_diameter")
    if conditions.gland == "rod" and shaft is not None:
        found["shaft_interference"] = conditions.ask(
            shaft_interference,
            shaft_diameter_mm=shaft,
            inside_diameter_mm=ring.inside,
            cross_section_mm=ring.section,
            groove_diameter_mm=groove,
        )
    return conditions.ask(compression_as_stretch, compression_percent=compression)


def _offset(sizes: Mapping[str, Span], clearance: Span | None, conditions: Conditions) -> Span | None:
    """Eccentric offset [mm]: the guide's clearance where it is closer than the land's."""
    if conditions.gland == "face" or "eccentricity" in conditions.layers_off:
        return NOTHING
    guide = sizes.get("guide_clearance")
    if clearance is None and guide is None:
        return None
    free = clearance or guide
    if clearance is not None and guide is not None:
        free = conditions.ask(closer_clearance, land_clearance_mm=clearance, guide_clearance_mm=guide)
    return conditions.ask(
        eccentric_offset, diametral_clearance_mm=free or NOTHING, runout_mm=sizes.get("runout", NOTHING)
    )


def _back_ups(sizes: Mapping[str, Span], conditions: Conditions) -> Span | None:
    """Width of all back-up rings together [mm]; None where one is there and its width is not known."""
    if not conditions.back_up_rings:
        return NOTHING
    one = sizes.get("back_up_width")
    if one is None:
        if conditions.printed_back_up_width is None:
            return None
        one = Span.point(conditions.printed_back_up_width)
    return conditions.ask(grown, value=one, factor=float(conditions.back_up_rings))


def _room(
    sizes: Mapping[str, Span],
    ring: _Ring,
    place: _Place,
    conditions: Conditions,
    found: dict[str, Span],
) -> None:
    """Side room and fill, as assembled and hot."""
    width, back_ups = sizes.get("groove_width"), _back_ups(sizes, conditions)
    if width is None or back_ups is None:
        return
    found["side_room"] = conditions.ask(
        side_room, groove_width_mm=width, cross_section_mm=ring.section, back_up_width_mm=back_ups
    )
    inputs: dict[str, Span | Real] = {
        "inside_diameter_mm": ring.inside,
        "cross_section_mm": ring.section,
        "groove_width_mm": conditions.ask(free_width, groove_width_mm=width, back_up_width_mm=back_ups),
        "area_factor": conditions.area_factor,
        "volume_growth": 1.0,
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
    found["fill"] = conditions.ask(rule, **inputs)
    if conditions.hot_rise_k is not None:
        of_volume = growth(
            conditions,
            volume_growth,
            swell_percent=0.0 if "swell" in conditions.layers_off else conditions.swell_high_percent,
            rubber_expansion_per_k=conditions.rubber_expansion_per_k,
            temperature_rise_k=0.0 if "temperature" in conditions.layers_off else conditions.hot_rise_k,
        )
        found["hot_fill"] = conditions.ask(grown, value=found["fill"], factor=of_volume)
