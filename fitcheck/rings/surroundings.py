"""Findings about the surfaces and edges around the ring, as far as they are given."""

from __future__ import annotations

import math

from fitcheck.numbers import Span
from fitcheck.rings.case import Case
from fitcheck.rings.limits import detail_row, rule_limits
from fitcheck.setting import drawn_span
from fitcheck.single import single
from schema.dimension import Dimension
from schema.finding import Finding, Limits
from schema.guidance import GlandDetailRow, LeadInRow


def surroundings(case: Case) -> list[Finding]:
    """Findings on finish, corner radius, run-out and lead-in."""
    at = case.circumstances
    detail = detail_row(
        case.guidance, gland=case.gland, motion=at.motion or "static", cross_section_mm=at.cross_section_mm
    )
    findings = _finishes(case)
    place = case.question.gland
    if place.corner_radius is not None:
        findings.append(_corner_radius(case, place.corner_radius, detail))
    if place.runout is not None and case.gland != "face":
        findings.append(_runout(case, place.runout, detail))
    if place.lead_in_length is not None:
        findings.append(_lead_in(case, place.lead_in_length, case.guidance.lead_ins))
    return findings


def _finishes(case: Case) -> list[Finding]:
    at, place = case.circumstances, case.question.gland
    findings = []
    for rule, words, value in (
        ("finish_running", "finish of the running surface", place.surface_finish_running),
        ("finish_groove", "finish of the groove", place.surface_finish_groove),
    ):
        if value is None:
            continue
        limits = None
        if at.motion:
            limits = rule_limits(
                case.guidance,
                case.question.choices,
                rule,
                gland=at.gland,
                motion=at.motion,
                medium=at.medium or "liquid",
                scale=1.0,
            )
        findings.append(
            single(
                case.rule,
                rule,
                words,
                Span.point(value),
                limits,
                good="smooth enough, not too smooth",
                bad="too rough (wears and leaks) or too smooth (runs dry)",
                action="Polish or re-finish by the maker's instructions, or replace the part.",
            )
        )
    return findings


def _corner_radius(case: Case, size: Dimension, detail: GlandDetailRow | None) -> Finding:
    limits = None
    if detail is not None and detail.radius_max_mm is not None:
        limits = _printed(detail, 0.0, detail.radius_max_mm)
    return _of_size(
        case,
        "corner_radius",
        "radius at the groove floor",
        size,
        limits,
        good="leaves the ring its room",
        bad="a large radius takes the room of the ring and lifts a back-up ring",
        action="Compare with the maker's drawing.",
    )


def _runout(case: Case, size: Dimension, detail: GlandDetailRow | None) -> Finding:
    return _of_size(
        case,
        "runout",
        "run-out, groove to guide",
        size,
        None if detail is None else _printed(detail, None, detail.runout_max_mm),
        good="runs true",
        bad="runs out of true: one side works harder at every turn",
        action="Straighten or replace shaft or guide.",
    )


def _printed(detail: GlandDetailRow, low: float | None, high: float) -> Limits:
    """Limits of a gland table that guide and do not refute."""
    return Limits(
        low,
        high,
        "mm",
        "worst_case",
        "inch-handbook",
        f"{detail.source}: {detail.locator}",
        detail.grade,
        refuse_high=math.inf,
        scale=high,
    )


def _lead_in(case: Case, size: Dimension, rows: tuple[LeadInRow, ...]) -> Finding:
    section = case.circumstances.cross_section_mm
    longer = [row for row in rows if row.cross_section_mm >= section * 0.985]
    limits = None
    if longer:
        row = min(longer, key=lambda one: one.cross_section_mm)
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
    return _of_size(
        case,
        "lead_in",
        "lead-in chamfer",
        size,
        limits,
        good="long enough to enter without a cut",
        bad="short: the ring may be cut in assembly",
        action="Use an assembly sleeve, or lengthen the chamfer if the maker allows it.",
    )


def _of_size(
    case: Case,
    rule: str,
    quantity: str,
    size: Dimension,
    limits: Limits | None,
    *,
    good: str,
    bad: str,
    action: str,
) -> Finding:
    return single(
        case.rule,
        rule,
        quantity,
        drawn_span(size),
        limits,
        good=good,
        bad=bad,
        action=action,
        standard_uncertainty=float(size.standard_uncertainty),
    )
