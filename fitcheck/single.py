"""Findings on a value that stands on its own: a temperature, a rating, a roughness, a radius."""

from __future__ import annotations

from collections.abc import Sequence

from fitcheck.decision import WEAK_GRADES, Decision, DecisionRule, decide
from fitcheck.numbers import Span
from fitcheck.words import joined
from schema.finding import Finding, Limits, Status


def single(
    by: DecisionRule,
    rule: str,
    quantity: str,
    span: Span,
    limits: Limits | None,
    *,
    good: str,
    bad: str,
    action: str,
    standard_uncertainty: float = 0.0,
) -> Finding:
    """Judge a value by a decision rule; ``good`` and ``bad`` say what it means."""
    if limits is None:
        return Finding(
            rule=rule,
            quantity=quantity,
            status=Status.NOT_PROVEN,
            low=float(span.low),
            middle=float(span.middle),
            high=float(span.high),
            reason="no published limit covers this case",
            action="Ask the maker of the unit.",
        )
    u = standard_uncertainty
    decision = decide(span, standard_uncertainty=u, limits=limits, rule=by)
    status, reason = decision.status, ""
    if status is Status.FITS and limits.grade in WEAK_GRADES:
        status, reason = Status.NOT_PROVEN, f"rests on a figure {limits.grade.replace('_', ' ')}"
    found = decided(rule, quantity, span, limits, decision, u, status, reason)
    return found._replace(
        meaning=good if decision.status is Status.FITS else bad,
        action="" if status is Status.FITS else action,
    )


def decided(
    rule: str,
    quantity: str,
    span: Span,
    limits: Limits,
    decision: Decision,
    standard_uncertainty: float,
    status: Status,
    reason: str,
) -> Finding:
    """The numbers of a decision as a finding, with the source that decides; its words are added by others."""
    refused = status is Status.DOES_NOT_FIT and bool(limits.refuse_source)
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
        standard_uncertainty=standard_uncertainty,
        guard_band=max(float(span.low) - decision.low, decision.high - float(span.high)),
        conformance_probability=decision.probability if standard_uncertainty > 0 else None,
        source=limits.refuse_source if refused else limits.source,
        grade=limits.refuse_grade if refused else limits.grade,
        reason=reason,
    )


def lacking(rule: str, quantity: str, *absent: str) -> Finding:
    """Nothing can be judged for want of something."""
    told = joined(list(absent))
    return Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning="nothing can be said without it",
        action=f"Give the {told}.",
        reason=f"missing: {told}",
        lacks=absent,
    )


def more_than_one(rule: str, quantity: str, names: Sequence[str]) -> Finding:
    """Several different parts are listed where one goes in: which of them is meant is not told."""
    return Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning="only the first of them was judged",
        action="List the one that goes in, and ask the others by themselves.",
        reason=f"{len(names)} are listed where one goes in: {', '.join(names)}",
    )
