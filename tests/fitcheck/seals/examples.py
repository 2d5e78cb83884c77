"""A pressed oil seal and a guide ring that fit by every rule, for tests to change in one place."""

from __future__ import annotations

from typing import Any

from fitcheck.check import check
from schema.fields import read_model
from schema.finding import Finding, Verdict
from schema.fit import Fit, Fitted
from schema.guidance import Choices
from schema.housing_tables import HousingRow
from schema.reference import published_reference
from schema.seals import GuideRing, GuideRingGroove, LipSeal, Wiper, WiperSeat
from schema.service import Service

SERVICE = {
    "motion": "reciprocating",
    "medium": "liquid",
    "temperature": "-20..50 degC",
    "fluid": "mineral_oil",
}
SEAT = {"housing_bore": "42 H8 mm", "seat_depth": "5.5 +0.2/0 mm", "shaft_diameter": "32 h8 mm"}
SEAL = {
    "material": "NBR",
    "case": "rubber_covered",
    "inside_diameter": "31.40 ±0.15 mm",
    "outside_diameter": "42.22 ±0.05 mm",
    "width": "5.0 ±0.1 mm",
    "made_for_shaft": "32 mm",
}
GROOVE = {
    "bore_diameter": "36 H7 mm",
    "groove_diameter": "31.00 +0/-0.016 mm",
    "groove_width": "5.60 +0.2/0 mm",
    "land_diameter": "35.40 ±0.05 mm",
    "metal": "aluminium",
}
RING = {
    "material": "PTFE",
    "thickness": "2.485 ±0.005 mm",
    "width": "5.45 ±0.05 mm",
    "outside_diameter": "36 mm",
    "joint_gap": "2.6 ±0.4 mm",
}
Texts = dict[str, Any]


def given(base: Texts, changes: Texts | None) -> Texts:
    """Texts with some changed; None takes one out."""
    return {name: text for name, text in {**base, **(changes or {})}.items() if text is not None}


def seat(
    place: Texts | None = None,
    part: Texts | None = None,
    service: Texts | None = None,
    *,
    model: type[LipSeal] | type[Wiper] = LipSeal,
    more: tuple[tuple[type[LipSeal] | type[Wiper], Texts], ...] = (),
    housings: tuple[HousingRow, ...] = (),
    rule: str = "iso14253-1-u2",
) -> Verdict:
    """The verdict on a seat with some of its texts changed."""
    parts = [read_model(model, given(SEAL, part), path="part")]
    parts += [read_model(kind, texts, path="part") for kind, texts in more]
    return _checked(read_model(WiperSeat, given(SEAT, place), path="place"), parts, service, housings, rule)


def groove(
    place: Texts | None = None,
    part: Texts | None = None,
    service: Texts | None = None,
    *,
    housings: tuple[HousingRow, ...] = (),
) -> Verdict:
    """The verdict on a guide-ring groove with some of its texts changed."""
    made = read_model(GuideRingGroove, given(GROOVE, place), path="place")
    ring = read_model(GuideRing, given(RING, part), path="part")
    return _checked(made, [ring], service, housings, "iso14253-1-u2")


def _checked(
    place: Any, parts: list[Any], service: Texts | None, housings: tuple[HousingRow, ...], rule: str
) -> Verdict:
    fit = Fit(
        place=place,
        parts=tuple(Fitted(one) for one in parts),
        service=read_model(Service, given(SERVICE, service), path="service"),
        choices=Choices(decision_rule=rule),
    )
    return check(fit, published_reference()._replace(housings=housings))


def finding(verdict: Verdict, rule: str) -> Finding:
    """The finding of a rule, which must have been asked."""
    found = verdict.of(rule)
    assert found is not None, rule
    return found
