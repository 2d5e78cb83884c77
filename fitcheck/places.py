"""Checks a place of any kind but a gland: which family it belongs to, and the verdict on it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import import_module
from typing import Protocol

from fitcheck.advice import Again
from fitcheck.decision import decision_rule
from fitcheck.inquiry import (
    Inquiry,
    evidence_of,
    judged_quantities,
    measured_sizes,
    setting_of,
    told_beside,
)
from fitcheck.setting import Known
from fitcheck.verdict import verdict
from schema.finding import Finding, Verdict
from schema.fit import Fit
from schema.reference import Reference

# The function of each family that turns a Fit into an Inquiry, imported when a place of its kind is met.
FAMILIES = {
    "bushing_seat": "fitcheck.bushings.inquiry",
    "eyelet": "fitcheck.eyelets.inquiry",
    "retaining_ring_groove": "fitcheck.retaining_rings.inquiry",
    "threaded_port": "fitcheck.threads.port_inquiry",
    "valve_seat": "fitcheck.threads.valve_inquiry",
    "wiper_seat": "fitcheck.seals.housing_inquiry",
    "guide_ring_groove": "fitcheck.seals.guide_inquiry",
    "gas_chamber": "fitcheck.gas.inquiry",
}


class Family(Protocol):
    """Turns a place with what goes into it into what is to be judged."""

    def __call__(self, fit: Fit, reference: Reference) -> Inquiry: ...


@cache
def family_of(kind: str) -> Family:
    """The family function of a kind of place."""
    found: Family = import_module(FAMILIES[kind]).inquire
    return found


def check_place(fit: Fit, reference: Reference) -> Verdict:
    """All findings on a place with what goes into it, worst first, and the verdict."""
    inquiry = family_of(fit.place.kind)(fit, reference)
    setting = setting_of(inquiry, decision_rule(fit.choices.decision_rule))
    return verdict(
        setting,
        judged_quantities(inquiry, setting),
        [*inquiry.findings, *evidence_of(inquiry)],
        _asked_again(inquiry, fit),
        question=inquiry.question,
        not_asked=inquiry.not_asked,
        taken=(*measured_sizes(inquiry.sizes), *inquiry.taken),
        cautions=inquiry.cautions,
        told=told_beside(inquiry, setting),
    )


def _asked_again(inquiry: Inquiry, fit: Fit) -> Again:
    """Judges the same quantities by the same limits with some sizes changed."""
    rule = decision_rule(fit.choices.decision_rule)

    def again(sizes: Mapping[str, Known]) -> dict[str, Finding]:
        changed = inquiry._replace(sizes={**inquiry.sizes, **sizes})
        found = judged_quantities(changed, setting_of(changed, rule), statistics=False)
        return {one.rule: one for one in found}

    return again
