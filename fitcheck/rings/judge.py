"""One quantity against its published limits: the finding, or what stands in the way of one."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from fitcheck.decision import WEAK_GRADES, Decision, decide
from fitcheck.influence import Influences, end_uncertainties, influences, shares
from fitcheck.numbers import Span
from fitcheck.rings.case import Case, limits_of
from fitcheck.rings.circumstances import BACK_UPS_NEEDED, limits_for
from fitcheck.rings.glands import quantities
from fitcheck.rings.service_squeeze import Steps
from fitcheck.single import decided
from fitcheck.words import WORDS, dimension_words, joined
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


class Moves(NamedTuple):
    """What moves a quantity: the effect of each size, and u at its smallest and at its largest."""

    by: Influences
    at_ends: tuple[float, float]

    @property
    def u(self) -> float:
        """Standard uncertainty that what was measured gives the quantity in its middle."""
        return math.sqrt(math.fsum(one.half_effect**2 for one in self.by.values() if one.measured))

    @property
    def largest_u(self) -> float:
        """The largest of the three; a size may count at an end and not in the middle."""
        return max(self.u, *self.at_ends)


def judged_sizes(case: Case, steps: Steps | None = None) -> list[Finding]:
    """The findings on everything that ring and gland make of their sizes."""
    layers: Steps = {} if steps is None else steps
    found = quantities(case.spans, case.conditions, layers)
    effects = influences(case.sizes, case.conditions)
    factor = max(case.rule.guard_factor, 1.0)
    at_ends = end_uncertainties(case.sizes, case.spans, case.conditions, found, factor)
    return [
        judged(case, name, found[name], Moves(effects.get(name, {}), at_ends.get(name, (0.0, 0.0))), layers)
        if name in found
        else missing(case, name)
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
    words = WORDS[name]
    decision = decide(
        span, standard_uncertainty=moves.u, limits=limits, rule=case.rule, at_ends=moves.at_ends
    )
    status, reason = _status(case, decision, span, limits, moves.u)
    low_side = _low_side(decision, span, limits)
    # What was measured counts by its guard band, as the decision counts it.
    weight = max(case.rule.guard_factor, 1.0)
    listed = tuple(
        sorted(moves.by.values(), key=lambda one: -abs(one.half_effect) * (weight if one.measured else 1.0))
    )
    statistics = shares(span, moves.by, limits)
    return decided(name, words.quantity, span, limits, decision, moves.largest_u, status, reason)._replace(
        statistical_low=statistics.low,
        statistical_high=statistics.high,
        share_outside=statistics.outside,
        meaning=FLOATING if limits.guidance == "floating" else words.meaning(status, low_side),
        action="" if status is Status.FITS else _action(case, name, low_side),
        layers=tuple(Layer(layer, on, at.low, at.high) for layer, on, at in steps.get(name, ())),
        influences=listed,
        inputs={one.dimension: case.sizes[one.dimension].text for one in listed},
    )


def _status(case: Case, decision: Decision, span: Span, limits: Limits, u: float) -> tuple[Status, str]:
    """The status of a decision, and why it is not proven where the numbers do not tell."""
    if any(map(math.isnan, (*span, decision.low, decision.high))):
        return Status.NOT_PROVEN, "beyond the range its rule is valid for"
    if decision.status is Status.FITS and limits.grade in WEAK_GRADES:
        return Status.NOT_PROVEN, f"its limit is {limits.grade.replace('_', ' ')}"
    if decision.status is Status.NOT_PROVEN and u > 0 and decision.too_coarse(case.rule):
        tools = sorted({size.instrument for size in case.sizes.values() if size.instrument})
        named = f" ({', '.join(tools).replace('_', ' ')})" if tools else ""
        return decision.status, f"the instrument{named} is too coarse here: no reading could prove it"
    return decision.status, ""


def _low_side(found: Decision | Finding, span: Span, limits: Limits) -> bool:
    """Whether it is the lower limit that the quantity comes nearer to or breaks."""
    if limits.low is None or limits.high is None:
        return limits.high is None
    low, high = found.low, found.high
    if limits.basis == "nominal" or low is None or high is None:
        low = high = float(span.middle)
    return (low - limits.low) < (limits.high - high)


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
        meaning=WORDS[name].meaning(Status.NOT_PROVEN, _low_side(kindest, span, kindest.limits))
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
        standard_uncertainty=math.sqrt(
            math.fsum(one.half_effect**2 for one in moves.by.values() if one.measured)
        ),
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
