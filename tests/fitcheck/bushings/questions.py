"""Questions about bushing seats from texts, for the tests of this family."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fitcheck.places import check_place
from schema.bushings import BushingSeat, PlainBushing
from schema.fields import read_model
from schema.finding import Finding, Verdict
from schema.fit import Fit, Fitted
from schema.guidance import Choices
from schema.reference import published_reference
from schema.service import Service

SERVICE = {"temperature": "-10..60 degC", "motion": "reciprocating", "fluid": "mineral_oil"}
WRAPPED = {
    "style": "wrapped",
    "material": "PTFE-lined steel",
    "inside_diameter": "16 mm",
    "outside_diameter": "18 mm",
    "length": "12 ±0.25 mm",
    "wall": "0.980..1.005 mm",
}
STEEL_SEAT = {
    "housing_bore": "18 H7 mm",
    "shaft_diameter": "16 f7 mm",
    "seat_length": "12.5 ±0.2 mm",
    "metal": "steel",
    "shaft_metal": "steel",
}
ALLOY_SEAT = {**STEEL_SEAT, "metal": "aluminium"}
GAUGED = {**WRAPPED, "ring_gauge_diameter": "18.030..18.065 mm"}
BRONZE = {
    "style": "solid",
    "material": "bronze",
    "inside_diameter": "12.050..12.060 mm",
    "outside_diameter": "16 s6 mm",
    "length": "12 ±0.1 mm",
}
BRONZE_SEAT = {
    "housing_bore": "16 H7 mm",
    "shaft_diameter": "12 f7 mm",
    "seat_length": "12.5 ±0.2 mm",
    "housing_outside_diameter": "28 mm",
    "metal": "aluminium",
    "shaft_metal": "steel",
    "allowed_clearance": "0.02..0.10 mm",
}
PLASTIC = {
    "style": "polymer",
    "material": "POM",
    "inside_diameter": "10.16 +0.02/0 mm",
    "outside_diameter": "12.10 ±0.01 mm",
    "length": "8 ±0.1 mm",
}
PLASTIC_SEAT = {
    "housing_bore": "12 H8 mm",
    "housing_outside_diameter": "20 mm",
    "shaft_diameter": "10 f7 mm",
    "seat_length": "8.2 ±0.1 mm",
    "metal": "aluminium",
    "shaft_metal": "steel",
    "allowed_clearance": "0.02..0.20 mm",
    "allowed_interference": "0.05..0.12 mm",
}


def fit_of(
    place: Mapping[str, Any],
    part: Mapping[str, Any] | None,
    service: Mapping[str, Any] = SERVICE,
    choices: Choices | None = None,
) -> Fit:
    """A seat with its bushing, from texts."""
    parts = () if part is None else (Fitted(read_model(PlainBushing, part, path="part")),)
    return Fit(
        place=read_model(BushingSeat, place, path="place"),
        parts=parts,
        service=read_model(Service, service, path="service"),
        choices=choices or Choices(),
    )


def verdict_on(
    place: Mapping[str, Any], part: Mapping[str, Any] | None, service: Mapping[str, Any] = SERVICE
) -> Verdict:
    """The verdict on a seat with its bushing, from texts."""
    return check_place(fit_of(place, part, service), published_reference())


def finding(verdict: Verdict, rule: str) -> Finding:
    """A finding that must be there."""
    found = verdict.of(rule)
    assert found is not None, [one.rule for one in verdict.findings]
    return found


def without(given: Mapping[str, Any], *names: str) -> dict[str, Any]:
    """A mapping less some of its keys."""
    return {name: value for name, value in given.items() if name not in names}
