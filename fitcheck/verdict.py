"""From findings to a verdict: worst first, what to do next, what counts most, the usual cautions."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from fitcheck.advice import NOTHING_SETTLES, Again, Way, advised, measurement, settle
from fitcheck.setting import Setting
from fitcheck.words import dimension_words, joined
from schema.finding import WORST_FIRST, Finding, Status, Told, Verdict
from schema.service import Service


def verdict(
    setting: Setting,
    sized: Sequence[Finding],
    others: Sequence[Finding],
    again: Again,
    *,
    question: str,
    not_asked: tuple[str, ...] = (),
    taken: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (),
    told: tuple[Told, ...] = (),
) -> Verdict:
    """The verdict on one place.

    ``sized`` are the findings on quantities of the setting, which a measurement may settle; ``others``
    stand on their own. ``again`` judges the quantities anew with some sizes changed. A place of which
    nothing was asked is not proven.
    """
    found = ((one.rule, measurement(setting, one, again)) for one in sized)
    ways = {rule: way for rule, way in found if way is not None}
    findings = [one._replace(action=advised(setting, one, sized, ways.get(one.rule), again)) for one in sized]
    findings = worst_first([*findings, *others]) or [_nothing_asked()]
    return Verdict(
        status=findings[0].status,
        question=question,
        decision_rule=setting.rule.name,
        findings=tuple(findings),
        next_step=_next_step(setting, findings, ways, again),
        not_asked=not_asked,
        taken=taken,
        cautions=cautions,
        driver=_driver(findings),
        told=told,
    )


def worst_first(findings: Sequence[Finding]) -> list[Finding]:
    """Findings in the order in which they matter: refuted, open, kept, each by its margin."""
    return sorted(findings, key=lambda one: (WORST_FIRST.index(one.status), _sort_margin(one), one.rule))


def _nothing_asked() -> Finding:
    return Finding(
        rule="nothing_asked",
        quantity="anything that can be judged",
        status=Status.NOT_PROVEN,
        meaning="no rule covers what is given",
        reason="nothing that is given can be judged",
        action="Give the sizes of the place and of what goes into it.",
    )


def _sort_margin(finding: Finding) -> float:
    if finding.margin is None or math.isnan(finding.margin):
        return -math.inf if finding.status is not Status.FITS else math.inf
    return finding.margin


def _next_step(setting: Setting, findings: Sequence[Finding], ways: Mapping[str, Way], again: Again) -> str:
    """One line: fit it, do not, give what is missing, or measure what settles it."""
    worst = findings[0]
    if worst.status is Status.FITS:
        return "Fits by every rule asked. Fit it by the maker's instructions."
    if worst.status is Status.DOES_NOT_FIT:
        return f"Do not fit it: {worst.meaning}. {' '.join(worst.action.splitlines())}".strip()
    settled = settle(setting, findings, ways, again)
    open_ones = [one for one in findings if one.status is Status.NOT_PROVEN]
    lacks = dict.fromkeys(name for one in open_ones for name in one.lacks)
    give = f"Give the {joined(list(lacks))}." if lacks else ""
    other = dict.fromkeys(one.action for one in open_ones if not one.influences and not one.lacks)
    if settled == NOTHING_SETTLES and any(one.rule == "sizes_known" for one in open_ones):
        settled = ""  # what is known of the sizes is not told yet
    told = " ".join(text for text in (settled, give, *other) if text)
    return told or f"Not proven: {worst.quantity}, {worst.reason}."


STORED_ENERGY = (
    "stored gas, pressure and springs: release them by the maker's method and confirm zero before the "
    "unit is opened. The maker's specification, local rules and trained practice come first."
)


def cautions_for(service: Service) -> tuple[str, ...]:
    """The usual cautions, shown only where something is stored that can hurt."""
    if service.medium != "gas" and not (service.pressure and service.pressure.gauge_mpa > 0):
        return ()
    return (STORED_ENERGY,)


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
