"""Every quantity of an eyelet that the sizes allow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitcheck.eyelets import stack as rules
from fitcheck.eyelets.case import Case
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate

SHAFT = "shaft_diameter"  # the pin in its bush, by the name that the bushing family gives it


def quantities(case: Case, sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
    """Every quantity that the spans of sizes allow, by name."""
    found: dict[str, Span] = {}
    whole = _sum(case.stack, sizes, evaluate) if not case.lacks else None
    if whole is not None:
        found["stack_width"] = whole
        if "mount_width" in sizes:
            found["side_gap"] = evaluate(rules.side_gap, mount_width_mm=sizes["mount_width"], stack_mm=whole)
    _float(case, sizes, evaluate, found)
    spigots = _sum(case.spigots, sizes, evaluate)
    if spigots is not None and "eyelet_width" in sizes:
        found["spigot_room"] = evaluate(
            rules.spigot_room, eyelet_width_mm=sizes["eyelet_width"], spigots_mm=spigots
        )
    bushes = _sum(case.bush_lengths, sizes, evaluate)
    if bushes is not None and "eyelet_width" in sizes:
        found["bush_room"] = evaluate(rules.eyelet_float, between_mm=sizes["eyelet_width"], filled_mm=bushes)
    holes = [sizes[name] for name in case.holes if name in sizes]
    if holes and "bolt_diameter" in sizes:
        narrowest = min(holes, key=lambda one: float(one.low))
        found["bolt_clearance"] = evaluate(
            rules.bolt_clearance, hole_mm=narrowest, bolt_mm=sizes["bolt_diameter"]
        )
    on_pin = [sizes[name] for name in case.on_pin]
    pin = sizes.get(SHAFT, sizes.get("pin_outside_diameter"))
    if on_pin and pin is not None:
        narrowest = min(on_pin, key=lambda one: float(one.low))
        found["washer_clearance"] = evaluate(rules.bolt_clearance, hole_mm=narrowest, bolt_mm=pin)
    if case.bearings:
        _bearings(case, sizes, evaluate, found)
    if {"load", SHAFT, "eyelet_width"} <= sizes.keys():
        found["eyelet_pressure"] = evaluate(
            rules.eyelet_pressure,
            load_n=sizes["load"],
            diameter_mm=sizes[SHAFT],
            width_mm=sizes["eyelet_width"],
        )
    return found


def _sum(names: Sequence[str], sizes: Mapping[str, Span], evaluate: Evaluate) -> Span | None:
    """Several widths in a row; a name that stands twice is added twice. None where one is missing."""
    if not names or any(name not in sizes for name in names):
        return None
    total = sizes[names[0]]
    for name in names[1:]:
        total = evaluate(rules.stack_with, stack_mm=total, width_mm=sizes[name])
    return total


def _float(case: Case, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """Float of the eye between the shoulders of a pin, or between the spacers beside it."""
    filled = _sum(case.filled, sizes, evaluate)
    if case.through is None or filled is None:
        return
    between = sizes.get(case.between)
    if between is None and case.spacers:
        between = _sum(case.stack, sizes, evaluate)
        for name in case.spacers if between is not None else ():
            filled = evaluate(rules.stack_with, stack_mm=filled, width_mm=sizes[name])
    if between is not None:
        found["eyelet_float"] = evaluate(rules.eyelet_float, between_mm=between, filled_mm=filled)


def _bearings(case: Case, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """The first bearing in its eyelet and on what runs in it, and all of them along the eyelet."""
    outside, inside = sizes.get("bearing_outside_diameter"), sizes.get("bearing_inside_diameter")
    if outside is not None and "eyelet_bore" in sizes:
        found["bearing_seat"] = evaluate(
            rules.bearing_clearance, outer_mm=sizes["eyelet_bore"], inner_mm=outside
        )
    on = sizes.get("pin_outside_diameter", sizes.get("bolt_diameter"))
    if inside is not None and on is not None:
        found["bearing_on_pin"] = evaluate(rules.bearing_clearance, outer_mm=inside, inner_mm=on)
    outer = _sum(tuple(case.outer_widths), sizes, evaluate)
    if outer is not None and "eyelet_width" in sizes:
        found["bearing_room"] = evaluate(
            rules.eyelet_float, between_mm=sizes["eyelet_width"], filled_mm=outer
        )
