"""Answers the one question: all findings of one ring in one gland, and the verdict they make."""

from __future__ import annotations

import math
from collections.abc import Mapping

from fitcheck.case import Case, case_of, limits_of
from fitcheck.circumstances import floats
from fitcheck.decision import WEAK_GRADES, decide
from fitcheck.glands import quantities
from fitcheck.influence import Influences, influences, needed, shares
from fitcheck.numbers import Span
from fitcheck.service_squeeze import Steps
from fitcheck.surroundings import surroundings
from fitcheck.words import WORDS, Words, dimension_words
from schema.finding import WORST_FIRST, Finding, Layer, Limits, Status, Verdict
from schema.question import Question
from schema.reference import Reference

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
REQUIRED = {
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


def check(question: Question, reference: Reference) -> Verdict:
    """All findings for one ring in one gland, worst first, and the verdict.

    Pure: the same question with the same tables gives the same answer on any machine. Raises
    UnknownName for a choice that does not exist.
    """
    case = case_of(question, reference)
    steps: Steps = {}
    found = quantities(case.spans, case.conditions, steps)
    moves = influences(case.sizes, case.conditions)
    findings = [
        _judged(case, name, found[name], moves.get(name, {}), steps)
        if name in found
        else _missing(case, name)
        for name in _asked(case, found)
    ]
    findings += surroundings(
        question,
        reference.guidance,
        case.material,
        reference.ratings,
        gland=case.gland,
        motion=case.circumstances.motion,
        medium=case.circumstances.medium,
    )
    findings += [finding for finding in (_untoleranced(case), _size_evidence(case)) if finding]
    findings.sort(key=lambda one: (WORST_FIRST.index(one.status), _sort_margin(one), one.rule))
    worst = findings[0]
    return Verdict(
        status=worst.status,
        question=str(question),
        decision_rule=case.rule.name,
        findings=tuple(findings),
        next_step=_next_step(worst),
        not_asked=_not_asked(case, found),
        cautions=_cautions(question),
        driver=_driver(findings),
    )


def _asked(case: Case, found: Mapping[str, Span]) -> list[str]:
    """The quantities to be judged: the required ones, then those whose sizes happen to be given."""
    hoop = "peripheral_compression" if case.conditions.outward else "stretch"
    required = REQUIRED.get(case.gland) or (
        "squeeze",
        "least_squeeze",
        "greatest_squeeze",
        hoop,
        "fill",
        "side_room",
        "extrusion_gap",
    )
    names = [*required, "cold_squeeze", "hot_squeeze", "hot_fill"]
    names += [name for name in found if name not in names and name in WORDS]
    rolls = case.gland != "face" and case.circumstances.motion == "reciprocating"
    return [name for name in names if rolls or name != "section_in_groove"]


def _judged(case: Case, name: str, span: Span, moves: Influences, steps: Steps) -> Finding:
    words, limits = WORDS[name], limits_of(case, name)
    u = math.sqrt(math.fsum(one.half_effect**2 for one in moves.values() if one.measured))
    if limits is None:
        return _without_limits(case, name, span, u)
    decision = decide(span, standard_uncertainty=u, limits=limits, rule=case.rule)
    status, reason = decision.status, ""
    if any(map(math.isnan, span)):
        reason = "beyond the range its rule is valid for"
    elif status is Status.FITS and limits.grade in WEAK_GRADES:
        status, reason = Status.NOT_PROVEN, f"its limit is {limits.grade.replace('_', ' ')}"
    low_side = _low_side(decision.low, decision.high, span, limits)
    statistics = shares(span, moves, limits)
    listed = tuple(sorted(moves.values(), key=lambda one: -abs(one.half_effect)))
    action = "" if status is Status.FITS else _action(case, name, status, low_side, words)
    if status is not Status.FITS and not reason:
        settled = needed(name, listed, case.sizes, case.spans, case.conditions, limits, case.rule)
        if decision.capability < 1 / max(case.rule.guard_factor / 2, 1e-9) and u > 0:
            reason = _too_coarse(listed, case)
        action = " ".join(one for one in (settled, action) if one)
    return Finding(
        rule=name,
        quantity=words.quantity,
        status=status,
        unit=limits.unit,
        low=decision.low,
        middle=float(span.middle),
        high=decision.high,
        limits=limits,
        margin=decision.margin,
        standard_uncertainty=u,
        conformance_probability=decision.probability,
        statistical_low=statistics.low,
        statistical_high=statistics.high,
        share_outside=statistics.outside,
        meaning=words.meaning(status, low_side),
        action=action,
        source=limits.source,
        grade=limits.grade,
        reason=reason,
        layers=tuple(Layer(layer, on, at.low, at.high) for layer, on, at in steps.get(name, ())),
        influences=listed,
        inputs={one.dimension: case.sizes[one.dimension].text for one in listed},
    )


def _low_side(low: float, high: float, span: Span, limits: Limits) -> bool:
    """Whether it is the lower limit that the quantity comes nearer to or breaks."""
    if limits.low is None or limits.high is None:
        return limits.high is None
    if limits.basis == "nominal":
        low = high = span.middle
    return (low - limits.low) < (limits.high - high)


def _without_limits(case: Case, name: str, span: Span, u: float) -> Finding:
    words = WORDS[name]
    service = case.question.service
    missing = [
        text
        for text, known in (
            ("the motion", service.motion),
            ("liquid or gas", service.medium if name == "squeeze" else "known"),
            ("the pressure", service.pressure if name == "extrusion_gap" else "known"),
            ("the hardness", case.question.ring.hardness_shore_a if name == "extrusion_gap" else "known"),
        )
        if not known
    ]
    if name in ("least_squeeze", "cold_squeeze") and floats(case.question.choices):
        return Finding(
            rule=name,
            quantity=words.quantity,
            status=Status.FITS,
            unit="%",
            low=span.low,
            middle=span.middle,
            high=span.high,
            meaning="a floating pneumatic ring needs no squeeze by the gland; some leak is accepted",
            source="NAVEDTRA 14105 Fluid Power, ch. 7",
            grade="published_twice",
        )
    reason = f"not told: {', '.join(missing)}" if missing else "no published limit covers this case"
    return Finding(
        rule=name,
        quantity=words.quantity,
        status=Status.NOT_PROVEN,
        unit=RULE_UNITS.get(name, "%"),
        low=float(span.low),
        middle=float(span.middle),
        high=float(span.high),
        standard_uncertainty=u,
        meaning=words.meaning(Status.NOT_PROVEN, True),
        action=f"Say {' and '.join(missing)}." if missing else "Ask the maker of the unit.",
        reason=reason,
    )


def _missing(case: Case, name: str) -> Finding:
    """A required quantity that the given sizes do not allow."""
    words = WORDS[name]
    needs = dict(NEEDS[case.gland])
    if case.gland == "face" and not case.conditions.outward:
        needs["hoop"] = ("groove_inner_diameter",)
    absent = [size for need in words.needs for size in needs.get(need, (need,)) if size not in case.sizes]
    told = [dimension_words(size) for size in dict.fromkeys(absent)]
    if name in ("cold_squeeze", "hot_squeeze", "hot_fill"):
        if not case.question.service.temperature:
            told.append("temperature range")
        if case.material is None:
            told.append("material")
    if "width" in words.needs and case.conditions.back_up_width is None:
        told.append("width of the back-up rings")
    return Finding(
        rule=name,
        quantity=words.quantity,
        status=Status.NOT_PROVEN,
        unit=RULE_UNITS.get(name, "%"),
        meaning=words.meaning(Status.NOT_PROVEN, True),
        action=f"Give the {_joined(told)}." if told else "",
        reason=f"missing: {_joined(told)}" if told else "cannot be worked out from what is given",
    )


RULE_UNITS = {"extrusion_gap": "mm", "side_room": "mm", "shaft_interference": "mm"}


def _untoleranced(case: Case) -> Finding | None:
    """Sizes without tolerance are taken as exact, and that is not proof."""
    exempt = ("corner_radius", "lead_in_length", "passes_over", "guide_clearance", "runout", "face_gap")
    bare = [name for name, size in case.sizes.items() if not size.toleranced and name not in exempt]
    if not bare:
        return None
    told = _joined([dimension_words(name) for name in bare])
    return Finding(
        rule="sizes_known",
        quantity="sizes with a tolerance or an uncertainty",
        status=Status.NOT_PROVEN,
        meaning="a size without tolerance is taken as exact, which no real part is",
        action=f"Give the tolerance of the {told}, or how it was measured (12.68 mm by micrometer).",
        reason=f"no tolerance: {told}",
        source="ISO 14253-1, by secondary sources: what is not known is not proven",
        grade="standard",
    )


def _size_evidence(case: Case) -> Finding | None:
    ring = case.question.ring
    if ring.size_grade not in WEAK_GRADES:
        return None
    return Finding(
        rule="size_evidence",
        quantity="evidence for the ring's size",
        status=Status.NOT_PROVEN,
        meaning="the size of the ring rests on a figure that is not confirmed in print",
        action="Measure the ring, or give the maker's own figures.",
        reason=f"size is {ring.size_grade.replace('_', ' ')}",
        source=ring.size_source,
        grade=ring.size_grade,
    )


def _not_asked(case: Case, found: Mapping[str, Span]) -> tuple[str, ...]:
    gland = case.question.gland
    told = (
        ("stretch in assembly: largest diameter passed not given", "assembly_stretch" in found),
        ("finish of the running surface: not given", gland.surface_finish_running is not None),
        ("finish of the groove: not given", gland.surface_finish_groove is not None),
        ("corner radius: not given", gland.corner_radius is not None),
        ("lead-in chamfer: not given", gland.lead_in_length is not None),
        (
            "swell in the fluid: not given, taken as none",
            case.question.service.swell_high_percent is not None,
        ),
    )
    return tuple(text for text, given in told if not given)


def _cautions(question: Question) -> tuple[str, ...]:
    """The usual cautions, shown only where something is stored that can hurt."""
    service = question.service
    if service.medium != "gas" and not (service.pressure and service.pressure.gauge_mpa > 0):
        return ()
    return (
        "stored gas, pressure and springs: release them by the maker's method and confirm zero before the "
        "unit is opened. The maker's specification, local rules and trained practice come first.",
    )


def _action(case: Case, name: str, status: Status, low_side: bool, words: Words) -> str:
    if name == "extrusion_gap":
        count = case.question.gland.back_up_rings
        side = case.question.service.pressure_from
        if side == "both_sides" and count < 2:
            return "Pressure comes from both sides: a back-up ring on each, a harder ring, or less clearance."
        if count == 0:
            return "A back-up ring on the low-pressure side, a harder ring, or less clearance."
    return words.action(low_side)


def _too_coarse(listed: tuple[object, ...], case: Case) -> str:
    tools = sorted({size.instrument for size in case.sizes.values() if size.measured and size.instrument})
    named = f" ({', '.join(tools).replace('_', ' ')})" if tools else ""
    return f"the instrument{named} is too coarse for these limits: no reading could prove it"


def _sort_margin(finding: Finding) -> float:
    if finding.margin is None or math.isnan(finding.margin):
        return -math.inf if finding.status is not Status.FITS else math.inf
    return finding.margin


def _next_step(worst: Finding) -> str:
    if worst.status is Status.FITS:
        return "Fits by every rule asked. Fit it by the maker's instructions."
    if worst.status is Status.DOES_NOT_FIT:
        return f"Do not fit it: {worst.meaning}. {worst.action}".strip()
    return worst.action or f"Not proven: {worst.quantity}, {worst.reason}."


def _driver(findings: list[Finding]) -> str:
    """The one dimension that moves the tightest measurable finding most."""
    for finding in findings:
        if finding.influences and finding.margin is not None:
            first = finding.influences[0]
            half = abs(first.half_effect)
            over = "uncertainty (±u)" if first.measured else "tolerance"
            moved = f"{dimension_words(first.dimension)} moves {finding.quantity} most"
            return f"{moved}: ±{half:.2g} {finding.unit} over its own {over}"
    return ""


def _joined(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1] if words else ""
