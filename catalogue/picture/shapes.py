"""Sections of rings, free and squeezed, as chains of arcs with exact areas.

A shape lies around (0, 0); u runs along the groove, v from the mating surface to the groove floor [mm].
Rubber keeps its volume, so a squeezed section keeps the area of the free one. The squeezed outline is an
approximation by arcs and flats: its thickness and its area are true, its contact width is an estimate.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

LOBE = 0.2  # radius of a lobe over d2; drawn, not sourced: it leaves four clear lobes at area 0.8215 d2^2
_FLAT_WAIST = 40.0  # a waist this shallow is as good as straight


@dataclass(frozen=True)
class Arc:
    """An arc from angle ``start`` to ``end`` [rad]; falling angles turn back, as a waist does."""

    u: float
    v: float
    radius: float
    start: float
    end: float

    def at(self, angle: float) -> tuple[float, float]:
        """The point at an angle."""
        return self.u + self.radius * math.cos(angle), self.v + self.radius * math.sin(angle)


@dataclass(frozen=True)
class Section:
    """A closed chain of arcs, joined by straight lines; ``contacts`` are the flats on one surface."""

    arcs: tuple[Arc, ...]
    width: float
    height: float
    contacts: tuple[tuple[float, float], ...] = ()
    overfilled: bool = False

    @property
    def area(self) -> float:
        """Enclosed area, exactly (Green's theorem over arcs and chords)."""
        twice = 0.0
        for index, arc in enumerate(self.arcs):
            after = self.arcs[(index + 1) % len(self.arcs)]
            (u0, v0), (u1, v1), (u2, v2) = arc.at(arc.start), arc.at(arc.end), after.at(after.start)
            twice += arc.radius**2 * (arc.end - arc.start) + arc.u * (v1 - v0) - arc.v * (u1 - u0)
            twice += u1 * v2 - u2 * v1
        return twice / 2

    @property
    def contact_width(self) -> float:
        """Width of one flat [mm]; 0 for a free section."""
        return self.contacts[0][1] - self.contacts[0][0] if self.contacts else 0.0


def free_section(section: float, area_factor: float) -> Section:
    """The free section: a circle, or four lobes of the area the factor says."""
    if area_factor == math.pi / 4:
        return _rounded(section, section, section / 2)
    radius = LOBE * section
    centre = section / 2 - radius
    height = _solve(
        lambda h: _lobed(centre, centre, centre, radius, h / centre).area,
        area_factor * section * section,
        0.3 * centre,
        20.0 * centre,
    )
    made = _lobed(centre, centre, centre, radius, height / centre)
    return Section(made.arcs, section, section)


def squeezed_section(section: float, area_factor: float, depth: float, room: float | None) -> Section:
    """The section squeezed to ``depth`` between two surfaces, at most ``room`` wide.

    A section that is not squeezed stays free; one that has not the room fills it to the corners.
    """
    if depth >= section:
        return free_section(section, area_factor)
    area = area_factor * section * section
    if room is not None and area >= room * depth:
        full = _rounded(room, depth, 0.0)
        return Section(full.arcs, room, depth, full.contacts, overfilled=area > room * depth * 1.0001)
    if area_factor == math.pi / 4:
        return _squeezed_round(area, depth, room)
    return _squeezed_lobed(section, area_factor, depth, room)


def _squeezed_round(area: float, depth: float, room: float | None) -> Section:
    flat = (area - math.pi * depth * depth / 4) / depth
    width = flat + depth
    if room is None or width <= room:
        return _rounded(width, depth, depth / 2)
    return _rounded(room, depth, math.sqrt((room * depth - area) / (4 - math.pi)))


def _squeezed_lobed(section: float, area_factor: float, depth: float, room: float | None) -> Section:
    """Lobes flattened where they touch and pushed apart a little, the waists solved for the area."""
    area = area_factor * section * section
    lobe, press = LOBE * section, (section - depth) / 2
    flat = min(2 * math.sqrt(max(2 * lobe * press - press * press, 0.0)), 1.6 * lobe)
    radius = min(max(lobe - 0.4 * flat, 0.3 * lobe), 0.45 * depth)
    across = depth / 2 - radius
    apart = (section / 2 - lobe) * math.sqrt(section / depth)
    if room is not None:
        apart = min(apart, room / 2 - flat / 2 - radius)
    inner, outer = apart - flat / 2, apart + flat / 2
    if inner < radius or _lobed(inner, outer, across, radius, _FLAT_WAIST).area < area:
        return _squeezed_round(area, depth, room)
    slope = _solve(lambda s: _lobed(inner, outer, across, radius, s).area, area, 0.2, _FLAT_WAIST)
    return _lobed(inner, outer, across, radius, slope)


def _rounded(width: float, height: float, radius: float) -> Section:
    u, v, quarter = width / 2 - radius, height / 2 - radius, math.pi / 2
    corners = ((u, v, 0), (-u, v, 1), (-u, -v, 2), (u, -v, 3))
    arcs = tuple(Arc(x, y, radius, n * quarter, (n + 1) * quarter) for x, y, n in corners)
    return Section(arcs, width, height, ((-u, u),) if u > 1e-9 else ())


def _lobed(inner: float, outer: float, across: float, radius: float, slope: float) -> Section:
    """Four lobes with flats from ``inner`` to ``outer`` on both surfaces, waists between them.

    ``slope`` is the height of a waist's centre above the lobes' centres over half their distance.
    """
    quarter, turn = math.pi / 2, math.atan(slope)
    long, short = inner * math.hypot(1.0, slope) - radius, across * math.hypot(1.0, slope) - radius
    top = Arc(0.0, across + inner * slope, max(long, 0.0), -turn, turn - math.pi)
    left = Arc(-outer - across * slope, 0.0, max(short, 0.0), quarter - turn, turn - quarter)
    bottom = Arc(0.0, -top.v, top.radius, math.pi - turn, turn)
    right = Arc(-left.u, 0.0, left.radius, 3 * quarter - turn, quarter + turn)
    arcs = (
        Arc(outer, across, radius, turn - quarter, quarter),
        Arc(inner, across, radius, quarter, math.pi - turn),
        top,
        Arc(-inner, across, radius, turn, quarter),
        Arc(-outer, across, radius, quarter, 3 * quarter - turn),
        left,
        Arc(-outer, -across, radius, quarter + turn, 3 * quarter),
        Arc(-inner, -across, radius, 3 * quarter, 2 * math.pi - turn),
        bottom,
        Arc(inner, -across, radius, math.pi + turn, 3 * quarter),
        Arc(outer, -across, radius, 3 * quarter, 5 * quarter - turn),
        right,
    )
    flats = ((-outer, -inner), (inner, outer)) if outer > inner else ()
    return Section(arcs, 2 * (outer + radius), 2 * (across + radius), flats)


def _solve(of: Callable[[float], float], target: float, low: float, high: float) -> float:
    """Where a rising function meets a target, by halving."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if of(middle) < target else (low, middle)
    return (low + high) / 2
