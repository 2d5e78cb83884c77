"""One quantity against its published limits: the finding, or what stands in the way of one."""

from __future__ import annotations

import math
from collections.abc import Mapping

from fitcheck.held import Moves, held, moves_of, nearer_low
from fitcheck.numbers import Span
from fitcheck.rings.case import Case, limits_of
from fitcheck.rings.circumstances import BACK_UPS_NEEDED, limits_for
from fitcheck.rings.glands import quantities
from fitcheck.rings.service_squeeze import Steps
from fitcheck.rings.words import WORDS
from fitcheck.words import dimension_words, joined
from schema.finding import Finding, Layer, Limits, Status
from schema.service import MEDIA, MOTIONS

# What each quantity needs, by gland: told when it is missing.
NEEDS: dict[str, dict[str, tuple[str, ...]]] = {
    "rod": {
        "depth": ("groove_diameter", "shaft_diameter"),
        "hoop": ("groove_diameter", "shaft_diameter"),
        "clearance": ("throat_diameter", "shaft_diameter"),
        "wall": ("groove_diameter", "throat_diameter"),
        "width": ("groove_width",),
    },
    "piston": {
        "depth": ("bore_diameter", "groove_diameter"),
        "hoop": ("groove_diameter",),
        "clearance": ("bore_diameter", "land_diameter"),
        "wall": ("land_diameter", "groove_diameter"),
        "width": ("groove_width",),
    },
    "face": {
        "depth": ("groove_depth",),
        "hoop": ("groove_outer_diameter",),
        "clearance": (),
        "wall": ("groove_depth",),
        "width": ("groove_width",),
    },
}

# The quantities that decide a verdict; the others are asked only when their sizes are given.
REQUIRED: dict[str, tuple[str, ...]] = {
    "face": (
        "squeeze",
        "least_squeeze",
        "greatest_squeeze",
        "fill",
        "side_room",
        "extrusion_gap",
    ),
    "rod": (
        "squeeze",
        "least_squeeze",
        "greatest_squeeze",
        "peripheral_compression",
        "shaft_interference",
        "fill",
        "side_room",
        "extrusion_gap",
        "section_in_groove",
    ),
    "piston": (
        "squeeze",
        "least_squeeze",
        "greatest_squeeze",
        "stretch",
        "fill",
        "side_room",
        "extrusion_gap",
        "section_in_groove",
    ),
}

FLOATING = "taken to float: the gas pressure makes the seal, and some leak is accepted"

UNITS = {"extrusion_gap": "mm", "side_room": "mm", "shaft_interference": "mm"}


def asked(case: Case, found: Mapping[str, Span]) -> list[str]:
    """The quantities to be judged: the required ones, then those whose sizes happen to be given."""
    names = [*REQUIRED[case.gland], "cold_squeeze", "hot_squeeze", "hot_fill"]
    if case.gland == "face":
        names.append("peripheral_compression" if case.conditions.outward else "stretch")
    names += [name for name in found if name not in names and name in WORDS]
    rolls = case.circumstances.motion == "reciprocating"
    return [name for name in names if rolls or name != "section_in_groove"]


def judged_sizes(case: Case, steps: Steps | None = None, *, statistics: bool = True) -> list[Finding]:
    """The findings on everything that ring and gland make of their sizes; see ``moves_of`` for statistics."""
    layers: Steps = {} if steps is None else steps
    found = quantities(case.spans, case.conditions, layers)
    moves = moves_of(case.setting, found, statistics=statistics)
    return [
        judged(case, name, found[name], moves[name], layers) if name in found else missing(case, name)
        for name in asked(case, found)
    ]


def judged(case: Case, name: str, span: Span, moves: Moves, steps: Steps) -> Finding:
    """The finding for one quantity over its span."""
    limits = limits_of(case, name)
    if limits is None or _side_decides(case, name):
        return _whatever_it_is(case, name, span, moves, steps)
    return _held(case, name, span, moves, steps, limits)


def _held(case: Case, name: str, span: Span, moves: Moves, steps: Steps, limits: Limits) -> Finding:
    """The finding for one quantity against its limits."""
    found = held(case.setting, name, WORDS[name], span, moves, limits)
    low_side = nearer_low(found, span, limits)
    return found._replace(
        meaning=FLOATING if limits.guidance == "floating" else found.meaning,
        action="" if found.status is Status.FITS else _action(case, name, low_side),
        layers=tuple(Layer(layer, on, at.low, at.high) for layer, on, at in steps.get(name, ())),
    )


def _side_decides(case: Case, name: str) -> bool:
    """Whether the one back-up ring is on the right side cannot be told: the side of the pressure is not."""
    at = case.circumstances
    return name == "extrusion_gap" and at.back_up_rings == 1 and not at.pressure_from and not at.faces_touch


def _whatever_it_is(case: Case, name: str, span: Span, moves: Moves, steps: Steps) -> Finding:
    """The finding where the service is not told: refuted if every service refuses it, else not proven."""
    outcomes = [_held(case, name, span, moves, steps, limits) for limits in _possible(case, name)]
    kindest = max(outcomes, key=lambda one: -math.inf if one.margin is None else one.margin, default=None)
    statuses = {one.status for one in outcomes}
    if kindest is not None and statuses == {Status.DOES_NOT_FIT}:
        return kindest._replace(reason="refused whatever is not told of the service")
    if statuses == {Status.FITS} and _side_decides(case, name):
        return min(outcomes, key=lambda one: math.inf if one.margin is None else one.margin)
    waiting = _without_limits(case, name, span, moves)
    if kindest is None or kindest.limits is None:
        return waiting
    return waiting._replace(
        meaning=WORDS[name].meaning(Status.NOT_PROVEN, nearer_low(kindest, span, kindest.limits))
    )


def _possible(case: Case, name: str) -> list[Limits]:
    """The limits of a quantity for every service that what was told leaves open; [] if one has none."""
    at, found = case.circumstances, []
    for motion in (at.motion,) if at.motion else MOTIONS:
        for medium in (at.medium,) if at.medium else MEDIA:
            for side in (at.pressure_from,) if at.pressure_from else ("one_side", "both_sides"):
                one = at._replace(motion=motion, medium=medium, pressure_from=side)
                limits = limits_for(name, one, case.guidance, case.question.choices)
                if limits is None:
                    return []
                if limits not in found:
                    found.append(limits)
    return found


def _without_limits(case: Case, name: str, span: Span, moves: Moves) -> Finding:
    words, service = WORDS[name], case.question.service
    of_gap = name == "extrusion_gap"
    missing = [
        text
        for text, known in (
            ("motion", service.motion or of_gap),
            ("medium", service.medium or name != "squeeze"),
            ("pressure", service.pressure or not of_gap),
            ("hardness", case.question.ring.hardness_shore_a or not of_gap),
            ("side of the pressure", not _side_decides(case, name)),
        )
        if not known
    ]
    return Finding(
        rule=name,
        quantity=words.quantity,
        status=Status.NOT_PROVEN,
        unit=UNITS.get(name, "%"),
        low=float(span.low),
        middle=float(span.middle),
        high=float(span.high),
        standard_uncertainty=moves.u,
        meaning=words.meaning(Status.NOT_PROVEN, True) if missing else "",
        action=f"Give the {joined(missing)}." if missing else "Ask the maker of the unit.",
        reason=f"missing: {joined(missing)}" if missing else "no published limit covers this case",
        lacks=tuple(missing),
    )


def missing(case: Case, name: str) -> Finding:
    """A required quantity that the given sizes do not allow."""
    words, needs = WORDS[name], dict(NEEDS[case.gland])
    if case.gland == "face" and not case.conditions.outward:
        needs["hoop"] = ("groove_inner_diameter",)
    wanted = [*words.needs, "hoop"] if case.gland == "face" and "width" in words.needs else words.needs
    absent = [size for need in wanted for size in needs.get(need, (need,)) if size not in case.sizes]
    told = [dimension_words(size) for size in dict.fromkeys(absent)]
    if name in ("cold_squeeze", "hot_squeeze", "hot_fill"):
        if not case.question.service.temperature:
            told.append("temperature range")
        if case.material is None:
            told.append("material")
    back_ups = case.conditions.back_up_rings and case.conditions.printed_back_up_width is None
    if "width" in words.needs and back_ups and "back_up_width" not in case.sizes:
        told.append("width of the back-up ring")
    return Finding(
        rule=name,
        quantity=words.quantity,
        status=Status.NOT_PROVEN,
        unit=UNITS.get(name, "%"),
        meaning=words.meaning(Status.NOT_PROVEN, True),
        action=f"Give the {joined(told)}." if told else "",
        reason=f"missing: {joined(told)}" if told else "cannot be worked out from what is given",
        lacks=tuple(told),
    )


def _action(case: Case, name: str, low_side: bool) -> str:
    if name != "extrusion_gap":
        return WORDS[name].action(low_side)
    at = case.circumstances
    wanted = BACK_UPS_NEEDED.get(at.pressure_from, 2)
    if at.back_up_rings >= wanted:
        return "A harder ring, or less clearance."
    choices = case.question.choices
    now = limits_for(name, at, case.guidance, choices)
    then = limits_for(name, at._replace(back_up_rings=wanted), case.guidance, choices)
    if now is None or then is None or (then.high or 0.0) <= (now.high or 0.0):
        sides = "Pressure comes from both sides, one back-up ring guards one. " if at.back_up_rings else ""
        unread = "What back-up rings would allow here is in no table read: ask the maker of the unit."
        return f"{sides}A harder ring, or less clearance. {unread}"
    if at.pressure_from == "both_sides":
        return "Pressure comes from both sides: a back-up ring on each, a harder ring, or less clearance."
    return "A back-up ring on the low-pressure side, a harder ring, or less clearance."
