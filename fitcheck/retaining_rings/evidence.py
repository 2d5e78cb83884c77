"""What stands beside the sizes of a ring and its groove: side, wall, factor, and what was taken."""

from __future__ import annotations

from fitcheck.retaining_rings.case import Case
from fitcheck.single import lacking, more_than_one
from schema.finding import Finding, Status
from schema.places import least
from schema.retaining import BORE_STYLES
from schema.retaining_tables import LAND_PER_DEPTH, ring_limits

_WIRE_LOAD = "no load of a round-wire ring was found in print, and that of a flat ring is not taken for it"
_NO_LOAD = "no load of this ring was found in print"


def findings(case: Case) -> list[Finding]:
    """The ring itself, its side, the wall, the factor, a wire under thrust, a ring without printed load."""
    if case.ring is None:
        return [lacking("retaining_ring", "the ring in the groove", "retaining ring")]
    if case.wrong_side:
        return [_wrong_side(case)]
    found = [*_several(case), *_thrust_twice(case)]
    if case.place.is_bore is None:
        found.append(lacking("ring_side", "bore or shaft", "bore diameter or shaft diameter"))
    if not case.style:
        found.append(lacking("ring_style", "kind of ring", "standard of the ring, or its style"))
    if case.pushed and case.is_wire:
        found.append(_open("wire_ring_load", "thrust on a round-wire ring", _WIRE_LOAD))
    elif case.pushed:
        found += _wall(case)
        if case.load.load_n is None:
            found.append(_open("ring_load", "load of the ring", _NO_LOAD))
        if case.place.safety_factor is None:
            name = "safety factor that the maker or the workshop wants"
            found.append(lacking("safety_factor", "factor between thrust and load", name))
    return found


def _several(case: Case) -> list[Finding]:
    """A groove takes one ring; of two different ones on its list only one can be meant."""
    if len(case.listed) < 2:
        return []
    return [more_than_one("one_ring", "one ring in one groove", case.listed)]


def _thrust_twice(case: Case) -> list[Finding]:
    """A thrust is told where no gas makes one: beside a pressure it may be less than what pushes."""
    by_gas = case.pressure_told
    if case.place.thrust is None or not by_gas:
        return []
    return [
        Finding(
            rule="one_thrust",
            quantity="thrust told beside a pressure",
            status=Status.NOT_PROVEN,
            meaning="the thrust was taken as told, and the pressure may push harder",
            action="Leave out the thrust where gas pushes on the ring, or the pressure where none does.",
            reason=f"thrust {case.place.thrust.text}, and {by_gas}",
        )
    ]


def _wrong_side(case: Case) -> Finding:
    of_ring, of_place = ("bore", "shaft") if case.style in BORE_STYLES else ("shaft", "bore")
    return Finding(
        rule="ring_side",
        quantity=f"a ring for a {of_ring} on a groove in a {of_place}",
        status=Status.DOES_NOT_FIT,
        meaning="a ring for a bore springs outwards, one for a shaft inwards: the other one comes off",
        action=f"A ring for a {of_place}.",
        source="DIN 471 is for shafts, DIN 472 for bores",
        grade="standard",
    )


def _wall(case: Case) -> list[Finding]:
    """A thin wall gives way; what is thick enough is known from memory alone, so it only ever opens."""
    wall, depth, limit = case.place.wall, case.depth_mm, ring_limits()["wall_in_depths"]
    if wall is None:
        return [lacking("ring_wall", "wall behind the groove", "wall behind the groove")]
    if depth is None or float(least(wall)) >= limit.low * depth:
        return []
    told = f"{wall.text} is less than three depths of the groove ({LAND_PER_DEPTH * depth:.2g} mm)"
    opened = _open("ring_wall", "wall behind the groove", told)
    return [opened._replace(source=limit.source, grade=limit.grade)]


def _open(rule: str, quantity: str, reason: str) -> Finding:
    return Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning="nothing read says what it bears",
        action="Ask the maker of the unit what this ring and groove may bear.",
        reason=reason,
    )


def taken(case: Case) -> tuple[str, ...]:
    """What was taken for granted, in words."""
    told = []
    ring, row = case.ring, case.flat
    if ring is not None and row is not None:
        own = (("thickness", ring.thickness), ("free diameter", ring.free_diameter))
        tabled = [word for word, size in own if size is None]
        if tabled:
            told.append(f"{' and '.join(tabled)} of the ring by {row.name}")
        if row.note:
            told.append(f"{row.name}: {row.note}")
        if ring.designation is not None and ring.designation.standard == "IS 3075":
            told.append("IS 3075: its thickness may be above that of DIN 471 and DIN 472 by up to 0.05 mm")
    if case.wire is not None and case.wire.note:
        told.append(f"{case.wire.source}: {case.wire.note}")
    if case.pushed:
        told += _taken_of_thrust(case)
    if case.place.groove_metal:
        told.append(f"metal of the groove: {case.place.groove_metal}")
    return tuple(told)


def _taken_of_thrust(case: Case) -> list[str]:
    told = []
    if case.highest is not None:
        told.append(case.highest.told)
    if case.load.taken:
        told.append(case.load.taken)
    if case.place.wall is not None and not case.is_wire and not _wall(case):
        told.append("a wall of three groove depths or more is taken as thick enough (from memory)")
    return told
