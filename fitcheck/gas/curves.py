"""Pressure of the gas and way of its piston over the stroke, cold, as set and hot, as points to draw."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.gas.case import NOTHING, Case, case_of
from fitcheck.gas.highest import Lock, locks
from fitcheck.gas.inquiry import guarded, unlocked
from fitcheck.gas.quantities import Found, Sizes, rooms_of
from fitcheck.gas.rooms import travel_left
from fitcheck.gas.told import Unlocked, pressures_at
from fitcheck.gas.volumes import bladder_room_left
from fitcheck.numbers import Span
from fitcheck.rule import span
from schema.fit import Fit
from schema.reference import Reference

POINTS = 25
STATES = ("cold", "as_set", "hot")


class Curve(NamedTuple):
    """One temperature: gauge pressures [MPa], slow and fast, and the way that is left; () where not told."""

    state: str
    deg_c: float
    slow: tuple[Span, ...]
    fast: tuple[Span, ...]
    left: tuple[Span, ...]


class GasCurves(NamedTuple):
    """Curves over ``strokes`` [mm], worst case with the guard of what was measured.

    ``left`` of a curve is the way to the gas end [mm], or the gas above the least volume of a bladder [ml].
    ``oil_stop`` is the same way when the piston stands on its stop toward the oil. ``missing`` is what is
    needed and not told.
    """

    strokes: tuple[float, ...]
    curves: tuple[Curve, ...]
    bladder: bool
    oil_stop: Span | None
    lock: Lock
    missing: tuple[str, ...]


def gas_curves_of(fit: Fit, reference: Reference, points: int = POINTS) -> GasCurves:
    """Everything that can be drawn of a chamber; no pressure while hydraulic lock is not excluded."""
    case = case_of(fit)
    sizes = guarded(case, fit)
    lock = locks(fit, reference)
    missing = tuple(_missing(case, sizes))
    if "stroke" not in sizes:
        return GasCurves((), (), case.bladder, None, lock, missing)
    free = unlocked(case, fit)
    shares = [step / (points - 1) for step in range(points)]
    curves = [found for state in STATES if (found := _curve(state, case, sizes, free, shares)) is not None]
    return GasCurves(
        tuple(share * sizes["stroke"].middle for share in shares),
        tuple(curves),
        case.bladder,
        _oil_stop(case, sizes),
        lock,
        missing,
    )


def _curve(state: str, case: Case, sizes: Sizes, free: Unlocked, shares: list[float]) -> Curve | None:
    deg_c = {"cold": case.cold, "as_set": sizes["set_temperature"].middle, "hot": case.hot}[state]
    if deg_c is None:
        return None
    slow: list[Span] = []
    fast: list[Span] = []
    left: list[Span] = []
    for share in shares:
        stroke = sizes["stroke"]
        at = {**sizes, "stroke": Span(*(share * one for one in stroke))}
        rooms = rooms_of(case, at, span)
        way = _left(state, case, at, rooms)
        if way is not None:
            left.append(way)
        if case.gas and "charge" in at and "gas_volume" in rooms:
            found = pressures_at(state, case, at, rooms, span, free, kinds=("slow", "fast"))
            for into, how in ((slow, "slow"), (fast, "fast")):
                one = found.get(f"full_stroke_{state}_{how}")
                if one is not None and not any(map(math.isnan, one)):
                    into.append(one)
    whole = [tuple(one) if len(one) == len(shares) else () for one in (slow, fast, left)]
    return Curve(state, deg_c, *whole) if any(whole) else None


def _left(state: str, case: Case, sizes: Sizes, rooms: Found) -> Span | None:
    """Way to the gas end, or gas above the bladder's least volume, at one stroke and temperature."""
    growth = {
        "as_set": NOTHING,
        "hot": rooms.get("hot_growth"),
        "cold": _given_up(rooms.get("cold_shrinkage")),
    }[state]
    displaced = rooms.get("displaced")
    if growth is None or displaced is None:
        return None
    if case.bladder:
        least = sizes.get("bladder_least_volume")
        if least is None or "gas_volume" not in rooms:
            return None
        return span(
            bladder_room_left,
            bladder_volume_mm3=rooms["gas_volume"],
            least_volume_mm3=least,
            displaced_volume_mm3=displaced,
            oil_growth_mm3=growth,
        )
    if "gas_length" not in rooms or "floating_piston_bore" not in sizes:
        return None
    return span(
        travel_left,
        gas_length_mm=rooms["gas_length"],
        nose_length_mm=sizes.get("nose_length", NOTHING),
        displaced_volume_mm3=displaced,
        oil_growth_mm3=growth,
        bore_diameter_mm=sizes["floating_piston_bore"],
    )


def _given_up(shrinkage: Span | None) -> Span | None:
    return None if shrinkage is None else Span(-shrinkage.high, -shrinkage.middle, -shrinkage.low)


def _oil_stop(case: Case, sizes: Sizes) -> Span | None:
    """The way to the gas end when the piston stands on its oil-side stop."""
    rooms = rooms_of(case, sizes, span)
    length, room = rooms.get("gas_length"), sizes.get("oil_side_room")
    if case.bladder or length is None or room is None:
        return None
    nose = sizes.get("nose_length", NOTHING)
    # The depth moves piston and room together, so that it does not move the stop.
    at = length.middle - nose.middle
    return Span(at + room.low, at + room.middle, at + room.high)


def _missing(case: Case, sizes: Sizes) -> list[str]:
    needed = ["shaft_diameter", "stroke", "charge", "oil_volume"]
    if case.bladder:
        needed += ["bladder_volume", "bladder_least_volume"]
    else:
        needed += ["floating_piston_bore", "set_depth", "tube_length"]
        needed += ["piston_length"] if case.place.piston_counts else []
    absent = [name for name in needed if name not in sizes]
    if not case.bladder:
        absent += [name for name in ("depth_from", "depth_to") if getattr(case.place, name) is None]
    for name, value in (
        ("gas", case.gas),
        ("temperature_range", case.hot),
        ("oil_expansion", case.oil_expansion),
    ):
        absent += [name] if value is None else []
    return absent
