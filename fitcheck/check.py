"""Answers the one question: all findings of one ring in one gland, and the verdict they make."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from fitcheck.advice import Again, Way, advised, measurement, settle
from fitcheck.compatibility import compatibility
from fitcheck.rings.case import Case, case_of
from fitcheck.rings.evidence import evidence, not_asked, taken
from fitcheck.rings.judge import judged_sizes
from fitcheck.rings.surroundings import surroundings
from fitcheck.words import dimension_words, joined
from schema.dimension import Dimension
from schema.errors import InputError
from schema.finding import WORST_FIRST, Finding, Status, Verdict
from schema.model import Model
from schema.question import Question
from schema.reference import Reference


def check(question: Question, reference: Reference) -> Verdict:
    """All findings for one ring in one gland, worst first, and the verdict.

    Pure: the same question with the same tables gives the same answer on any machine. Raises
    UnknownName for a choice that does not exist.
    """
    case = case_of(question, reference)
    findings = judged_sizes(case)
    again = _asked_again(question, reference)
    found = ((one.rule, measurement(case, one, again)) for one in findings)
    ways = {rule: way for rule, way in found if way is not None}
    findings = [
        one._replace(action=advised(case, one, findings, ways.get(one.rule), again)) for one in findings
    ]
    findings += compatibility(case, reference) + surroundings(case)
    findings += evidence(case)
    findings.sort(key=lambda one: (WORST_FIRST.index(one.status), _sort_margin(one), one.rule))
    return Verdict(
        status=findings[0].status,
        question=str(question),
        decision_rule=case.rule.name,
        findings=tuple(findings),
        next_step=_next_step(case, findings, ways, again),
        not_asked=not_asked(case),
        taken=taken(case, findings),
        cautions=_cautions(question),
        driver=_driver(findings),
    )


def _sort_margin(finding: Finding) -> float:
    if finding.margin is None or math.isnan(finding.margin):
        return -math.inf if finding.status is not Status.FITS else math.inf
    return finding.margin


def _next_step(case: Case, findings: Sequence[Finding], ways: Mapping[str, Way], again: Again) -> str:
    """One line: fit it, do not, give what is missing, or measure what settles it."""
    worst = findings[0]
    if worst.status is Status.FITS:
        return "Fits by every rule asked. Fit it by the maker's instructions."
    if worst.status is Status.DOES_NOT_FIT:
        return f"Do not fit it: {worst.meaning}. {' '.join(worst.action.splitlines())}".strip()
    settled = settle(case, findings, ways, again)
    open_ones = [one for one in findings if one.status is Status.NOT_PROVEN]
    lacks = dict.fromkeys(name for one in open_ones for name in one.lacks)
    give = f"Give the {joined(list(lacks))}." if lacks else ""
    other = dict.fromkeys(one.action for one in open_ones if not one.influences and not one.lacks)
    told = " ".join(text for text in (settled, give, *other) if text)
    return told or f"Not proven: {worst.quantity}, {worst.reason}."


def _asked_again(question: Question, reference: Reference) -> Again:
    """Asks the same with some sizes changed; the answer is None where ring and gland cannot have them."""

    def again(sizes: Mapping[str, Dimension]) -> dict[str, Finding] | None:
        models: dict[str, Model | None] = {
            "ring": question.ring,
            "gland": question.gland,
            "back_up": question.back_up,
        }
        for name, size in sizes.items():
            of = (
                "back_up"
                if name == "back_up_width"
                else "ring"
                if name in question.ring.declared
                else "gland"
            )
            model = models[of]
            if model is None:
                return None
            try:
                models[of] = model.changed(**{"width" if of == "back_up" else name: size})
            except InputError:
                return None
        changed = case_of(question.changed(**models), reference)
        return {one.rule: one for one in (*judged_sizes(changed), *surroundings(changed))}

    return again


def _cautions(question: Question) -> tuple[str, ...]:
    """The usual cautions, shown only where something is stored that can hurt."""
    service = question.service
    if service.medium != "gas" and not (service.pressure and service.pressure.gauge_mpa > 0):
        return ()
    return (
        "stored gas, pressure and springs: release them by the maker's method and confirm zero before the "
        "unit is opened. The maker's specification, local rules and trained practice come first.",
    )


def _driver(findings: Sequence[Finding]) -> str:
    """The one dimension that moves the tightest measurable finding most."""
    for finding in findings:
        if finding.influences and finding.margin is not None and math.isfinite(finding.margin):
            first = finding.influences[0]
            half = abs(first.half_effect)
            over = "uncertainty (±u)" if first.measured else "tolerance"
            moved = f"{dimension_words(first.dimension)} moves {finding.quantity} most"
            return f"{moved}: ±{half:.2g} {finding.unit} over its own {over}"
    return ""
