"""Findings about what surrounds the ring: temperature and fluid against its material, surfaces, edges."""

from __future__ import annotations

import math
from collections.abc import Mapping

from fitcheck.decision import DECISION_RULES, WEAK_GRADES, decide
from fitcheck.limits import detail_row, rule_limits
from fitcheck.numbers import Span
from schema.finding import Finding, Limits, Status
from schema.guidance import Guidance, LeadInRow
from schema.materials import FluidRating, Material
from schema.question import Question

SUITABLE, CHECK_COMPOUND = 1.0, 2.0
_AS_READ = DECISION_RULES["simple-acceptance"]  # temperatures and ratings carry no stated uncertainty


def surroundings(
    question: Question,
    guidance: Guidance,
    material: Material | None,
    ratings: Mapping[tuple[str, str], FluidRating],
    *,
    gland: str,
    motion: str,
    medium: str,
) -> list[Finding]:
    """Findings on material, surfaces and edges, as far as they are given."""
    findings = [_temperature(question, material), *_fluids(question, ratings)]
    place = question.gland
    section = question.ring.cross_section.middle_mm
    for name, words, value in (
        ("finish_running", "finish of the running surface", place.surface_finish_running),
        ("finish_groove", "finish of the groove", place.surface_finish_groove),
    ):
        if value is None:
            continue
        limits = None
        if motion:
            limits = rule_limits(
                guidance,
                question.choices,
                name,
                gland=gland,
                motion=motion,
                medium=medium or "liquid",
                scale=1.0,
            )
        findings.append(
            _plain(
                name,
                words,
                Span.point(value),
                limits,
                good="smooth enough, not too smooth",
                bad="too rough (wears and leaks) or too smooth (runs dry)",
                action="Polish or re-finish by the maker's instructions, or replace the part.",
            )
        )
    detail = detail_row(guidance, gland=gland, motion=motion or "static", cross_section_mm=section)
    if place.corner_radius is not None:
        limits = None
        if detail is not None and detail.radius_max_mm is not None:
            limits = Limits(
                0.0,
                detail.radius_max_mm,
                "mm",
                "worst_case",
                "inch-handbook",
                f"{detail.source}: {detail.locator}",
                detail.grade,
                refuse_high=math.inf,
            )
        radius = place.corner_radius
        findings.append(
            _plain(
                "corner_radius",
                "radius at the groove floor",
                Span(float(radius.lower), radius.middle_mm, float(radius.upper)),
                limits,
                good="leaves the ring its room",
                bad="a large radius takes the room of the ring and lifts a back-up ring",
                action="Compare with the maker's drawing.",
            )
        )
    if place.runout is not None and gland != "face":
        limits = None
        if detail is not None:
            limits = Limits(
                None,
                detail.runout_max_mm,
                "mm",
                "worst_case",
                "inch-handbook",
                f"{detail.source}: {detail.locator}",
                detail.grade,
                refuse_high=math.inf,
                scale=detail.runout_max_mm,
            )
        findings.append(
            _plain(
                "runout",
                "run-out, groove to guide",
                Span(float(place.runout.lower), place.runout.middle_mm, float(place.runout.upper)),
                limits,
                good="runs true",
                bad="runs out of true: one side works harder at every turn",
                action="Straighten or replace shaft or guide.",
            )
        )
    if place.lead_in_length is not None:
        findings.append(_lead_in(question, guidance.lead_ins, section))
    return findings


def _temperature(question: Question, material: Material | None) -> Finding:
    words = "service temperature against the material"
    service = question.service.temperature
    if material is None or service is None:
        absent = " and ".join(
            name
            for name, known in (("material of the ring", material), ("temperature range", service))
            if known is None
        )
        return _unknown("material_temperature", words, absent)
    limits = Limits(
        *material.narrow_deg_c,
        "degC",
        "worst_case",
        f"{material.code} family",
        material.temperature_source,
        "published_once",
        *material.wide_deg_c,
    )
    return _plain(
        "material_temperature",
        words,
        Span(service.low_deg_c, (service.low_deg_c + service.high_deg_c) / 2, service.high_deg_c),
        limits,
        good=f"within what every source allows {material.code}",
        bad=f"beyond what sources agree on for {material.code}: it stiffens in the cold or ages in the heat",
        action="Ask for the compound's data sheet, or choose another elastomer.",
        apart=True,
    )


def _fluids(question: Question, ratings: Mapping[tuple[str, str], FluidRating]) -> list[Finding]:
    words = "material against the fluid"
    if not question.ring.material or not question.service.fluid:
        absent = " and ".join(
            name
            for name, known in (
                ("material of the ring", question.ring.material),
                ("fluid", question.service.fluid),
            )
            if not known
        )
        return [_unknown("material_fluid", words, absent)]
    return [
        _fluid(question.ring.material, fluid, ratings.get((question.ring.material, fluid)))
        for fluid in question.service.fluid
    ]


def _fluid(material: str, fluid: str, rating: FluidRating | None) -> Finding:
    told = fluid.replace("_", " ")
    if rating is None:
        return _unknown("material_fluid", f"{material} in {told}", "a published rating")
    limits = Limits(
        None,
        CHECK_COMPOUND,
        "rating 1 to 4",
        "worst_case",
        "fluid ratings",
        rating.source,
        rating.grade,
        refuse_high=3.0,
        scale=3.0,
        note=rating.note,
    )
    return _plain(
        "material_fluid",
        f"{material} in {told}",
        Span.point(float(rating.rating)),
        limits,
        good="suitable" if rating.rating == SUITABLE else "usually suitable; check the compound",
        bad="attacked: swells, softens or hardens" if rating.rating == 4 else "stands short contact only",
        action="Choose an elastomer that stands this fluid.",
    )


def _lead_in(question: Question, rows: tuple[LeadInRow, ...], section: float) -> Finding:
    given = question.gland.lead_in_length
    assert given is not None
    fitting = [row for row in rows if row.cross_section_mm >= section * 0.985]
    limits = None
    if fitting:
        row = min(fitting, key=lambda one: one.cross_section_mm)
        limits = Limits(
            row.length_mm,
            None,
            "mm",
            "worst_case",
            "lead-in",
            f"{row.source}: {row.locator}",
            row.grade,
            refuse_low=0.0,
            scale=row.length_mm,
        )
    return _plain(
        "lead_in",
        "lead-in chamfer",
        Span(float(given.lower), given.middle_mm, float(given.upper)),
        limits,
        good="long enough to enter without a cut",
        bad="short: the ring may be cut in assembly",
        action="Use an assembly sleeve, or lengthen the chamfer if the maker allows it.",
    )


def _plain(
    rule: str,
    quantity: str,
    span: Span,
    limits: Limits | None,
    *,
    good: str,
    bad: str,
    action: str,
    apart: bool = False,
) -> Finding:
    """Judge a value that stands on its own. ``apart``: the range is wholly needed, so one end refutes."""
    if limits is None:
        return Finding(
            rule=rule,
            quantity=quantity,
            status=Status.NOT_PROVEN,
            low=span.low,
            middle=span.middle,
            high=span.high,
            meaning=bad,
            reason="no published limit covers this case",
            action="Ask the maker of the unit.",
        )
    decision = decide(span, standard_uncertainty=0.0, limits=limits, rule=_AS_READ)
    status, reason = decision.status, ""
    if apart and status is not Status.FITS:
        too_cold = limits.refuse_low is not None and span.low < limits.refuse_low
        too_hot = limits.refuse_high is not None and span.high > limits.refuse_high
        status = Status.DOES_NOT_FIT if too_cold or too_hot else Status.NOT_PROVEN
    if status is Status.FITS and limits.grade in WEAK_GRADES:
        status, reason = Status.NOT_PROVEN, f"rests on a figure {limits.grade.replace('_', ' ')}"
    return Finding(
        rule=rule,
        quantity=quantity,
        status=status,
        unit=limits.unit,
        low=decision.low,
        middle=float(span.middle),
        high=decision.high,
        limits=limits,
        margin=decision.margin,
        conformance_probability=decision.probability,
        meaning=good if decision.status is Status.FITS else bad,
        action="" if status is Status.FITS else action,
        source=limits.source,
        grade=limits.grade,
        reason=reason,
    )


def _unknown(rule: str, quantity: str, absent: str) -> Finding:
    return Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning="nothing can be said without it",
        action=f"Give the {absent}.",
        reason=f"missing: {absent}",
    )
