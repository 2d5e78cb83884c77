"""Wear of a shaft that its maker gives a limit for: what was measured of it must not lie below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitcheck.decision import DecisionRule
from fitcheck.inquiry import Inquiry, Judged, judged_quantities, setting_of
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from fitcheck.unit.kit import LOOK, PROVEN, REPLACE, STAY
from fitcheck.words import Words
from schema.dimension import Dimension
from schema.finding import Finding, Limits, Status
from schema.places import least
from schema.unit import Unit
from schema.unit_verdict import KitLine, WearSize

RULE = "shaft_wear"


def worn_shafts(unit: Unit, decided_by: DecisionRule) -> list[Finding]:
    """A finding for every shaft with a wear limit that was measured, by the least diameter read on it."""
    findings = []
    for label, limit in _limits(unit).items():
        if sizes := _measured(unit, label):
            findings += _judged(unit, label, limit, min(sizes, key=least), decided_by)
    return findings


def shaft_lines(unit: Unit, findings: Sequence[Finding]) -> list[KitLine]:
    """A line of the kit for every shaft with a wear limit: it is looked at, stays, or is replaced."""
    judged = {one.quantity: one.status for one in findings if one.rule == RULE}
    lines = []
    for label in _limits(unit):
        part = unit.shafts[label]
        keep, why = _KEEP[judged.get(_quantity(label))]
        name = str(getattr(part, "description", "") or label)
        places = tuple(one.name for one in unit.entries if one.place.runs_on == label)
        number = str(getattr(part, "part_number", ""))
        measure = (WearSize(label, "", "shaft_diameter"),) if keep == LOOK else ()
        lines.append(KitLine(number, name, 1, places, keep, why, measure))
    return lines


_KEEP = {
    None: (LOOK, "its wear was not measured"),
    Status.FITS: (STAY, PROVEN),
    Status.NOT_PROVEN: (LOOK, "not proven"),
    Status.DOES_NOT_FIT: (REPLACE, "worn below the limit of its maker"),
}


def _quantity(label: str) -> str:
    return f"wear of the {label}"


def unmeasured_wear(unit: Unit) -> list[str]:
    """Wear limits that wait for a measurement, in words: a drawing shows no wear."""
    return [
        f"wear of the {label} (its diameter as measured, against {limit.text})"
        for label, limit in _limits(unit).items()
        if not _measured(unit, label)
    ]


def _limits(unit: Unit) -> dict[str, Dimension]:
    found = {label: getattr(shaft, "least_diameter", None) for label, shaft in unit.shafts.items()}
    return {label: limit for label, limit in found.items() if isinstance(limit, Dimension)}


def _measured(unit: Unit, label: str) -> list[Dimension]:
    """Every measured diameter of a shaft: of the part itself and at the places that run on it."""
    own = getattr(unit.shafts[label], "outside_diameter", None)
    at = [getattr(one.place, "shaft_diameter", None) for one in unit.entries if one.place.runs_on == label]
    return [one for one in (own, *at) if isinstance(one, Dimension) and one.measured]


def _judged(
    unit: Unit, label: str, limit: Dimension, size: Dimension, decided_by: DecisionRule
) -> list[Finding]:
    shaft = unit.shafts[label]
    number = str(getattr(shaft, "part_number", ""))
    words = Words(
        _quantity(label),
        "",
        ("shaft_diameter",),
        "the shaft is not worn below the limit of its maker",
        "the shaft is worn below the limit of its maker: it leaks and knocks",
        "",
        f"Renew the shaft{f' ({number})' if number else ''}.",
    )
    limits = Limits(
        float(limit.upper),
        None,
        "mm",
        "worst_case",
        "maker's wear limit",
        f"wear limit as given with the shaft: {limit.text}",
        "given",
        scale=0.1,
    )
    judged = (Judged(RULE, words, limits, ("shaft_diameter",)),)
    inquiry = Inquiry("", {"shaft_diameter": size}, _diameter, judged, {"shaft_diameter": "outside"})
    return judged_quantities(inquiry, setting_of(inquiry, decided_by))


def _diameter(sizes: Mapping[str, Span], _: Evaluate) -> dict[str, Span]:
    return {RULE: sizes["shaft_diameter"]}
