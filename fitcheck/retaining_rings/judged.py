"""Which quantities of a ring in its groove are judged, and by what."""

from __future__ import annotations

import math

from fitcheck.inquiry import Judged
from fitcheck.retaining_rings import limits as by
from fitcheck.retaining_rings.case import Case
from fitcheck.retaining_rings.words import WORDS
from schema.finding import Limits
from schema.retaining_tables import LAND_PER_DEPTH, cited

_NO_LOAD = "no load of this ring was found in print"
_HELD = "geometry: a wire in a groove half as deep is held only where it cannot leave it"
_SIZES = "geometry: the sizes themselves"


def judged(case: Case) -> tuple[Judged, ...]:
    """Every quantity with its limits, in the order of the work."""
    if case.ring is None or not case.asked:
        return ()
    own = case.known.sizes.get(case.section)
    from_table = case.ring.free_diameter is None
    found = [
        _judged(
            "ring_axial_play",
            by.play_limits(case.flat, own.middle if own else 1.0),
            ("groove_width", case.section),
        ),
        _judged(
            "ring_grip",
            by.grip_limits(case.flat, case.wire, from_table=from_table),
            ("groove_diameter", "free_ring_diameter"),
        ),
    ]
    found.append(_size(case, case.ring.size))
    if case.flat is not None:
        needs = ("groove_diameter", case.beside)
        found += [
            _judged("ring_groove_diameter", by.groove_diameter_limits(case.flat), needs),
            _judged("ring_groove_depth", by.depth_limits(case.flat), needs),
        ]
    if case.style == "e_clip":
        found.append(_judged("e_clip_shaft", _clip_limits(case), (case.beside,)))
    if case.is_wire:
        found += _of_wire(case)
    elif case.pushed:
        found += _of_load(case)
    return tuple(found)


def _size(case: Case, size: float | None) -> Judged:
    """The ring against the bore or shaft; one of which nobody knows what it is made for is not proven."""
    wants = () if size is not None else ("bore or shaft that the ring is made for",)
    limits = None if size is None else by.size_limits(case.style, size)
    return _judged("ring_size_difference", limits, (case.named_by,), wants)


def groove_source(case: Case) -> str:
    """Where the load of the groove comes from."""
    area = "yield times groove area over 1.2 (gandini.it, definitions; 1.2 from 110 of 111 printed loads)"
    row = case.flat
    if row is None or row.groove_load_n is None:
        return area
    lists = cited(row.sources["load"])
    return f"the lower of {row.name}, FN {row.groove_load_n:g} N at 200 MPa ({lists}) and {area}"


def _clip_limits(case: Case) -> Limits | None:
    row = case.ring.e_clip_row if case.ring else None
    if row is None:
        return None
    return Limits(*row.shaft, "mm", "worst_case", f"DIN 6799 - {row.size:g}", row.source, row.grade)


def _of_wire(case: Case) -> list[Judged]:
    """A wire ring is held by a shoulder or not at all; one that is not trapped is not proven."""
    needs = ("shoulder_diameter", "wire_diameter")
    held = Limits(
        0.0, None, "mm", "worst_case", "geometry", _HELD, "derived", refuse_low=-math.inf, scale=0.5
    )
    room = by.not_below(0.0, unit="mm", source=_SIZES, grade="derived", scale=0.5)
    return [
        _judged("trapped_ring", held, (*needs, case.beside)),
        _judged("shoulder_room", room, (*needs, "groove_diameter")),
    ]


def _of_load(case: Case) -> list[Judged]:
    """Groove and ring against the thrust."""
    place, row, load = case.place, case.flat, case.load
    needs: tuple[str, ...] = () if place.thrust else ("seal_diameter",)
    wants = () if place.thrust or case.highest else (case.no_thrust,)
    depth = case.depth_mm
    note = f"holds with a land of {LAND_PER_DEPTH * depth:.2g} mm or more" if depth else ""
    grade = row.grades["load"] if row and row.groove_load_n else "derived"
    of_groove = by.factor_limits("groove_load_factor", place, groove_source(case), grade, note)
    groove_needs = (*needs, "yield_of_the_groove", "groove_diameter", case.beside)
    of_ring = None
    if load.load_n is not None and not load.wants:
        of_ring = by.factor_limits("ring_load_factor", place, load.source, load.grade)
    ring_wants = wants if load.load_n is None else (*wants, *load.wants)
    return [
        _judged("groove_load_factor", of_groove, groove_needs, wants),
        _judged("ring_land", by.land_limits(row, depth), ("land_to_the_edge",)),
        _judged("ring_load_factor", of_ring, needs, ring_wants)._replace(
            why_open=_NO_LOAD, ask_whom="Ask the maker of the ring what it bears."
        ),
    ]


def _judged(name: str, limits: Limits | None, needs: tuple[str, ...], wants: tuple[str, ...] = ()) -> Judged:
    return Judged(name, WORDS[name], limits, needs, wants)
