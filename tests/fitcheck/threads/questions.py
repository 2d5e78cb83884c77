"""A valve and a screw that fit by every rule, for tests to change in one place."""

from __future__ import annotations

from typing import Any

from fitcheck.check import check
from schema.fields import read_model
from schema.finding import Finding, Verdict
from schema.fit import Fit, Fitted
from schema.reference import published_reference
from schema.screws import Screw, ThreadedPort
from schema.service import Service
from schema.valves import ValveCore, ValveFitting, ValveSeat

Texts = dict[str, Any]

SEAT: Texts = {
    "thread": "M8x1",
    "counterbore": "9.0 +0.1/0 mm",
    "depth": "15.0 ±0.2 mm",
    "core_family": "high_pressure",
    "core_chamber": "1",
    "seals_by": "face",
    "metal": "aluminium",
}
BODY: Texts = {
    "thread": "M8x1",
    "inside_thread": "5V1",
    "cap_thread": "8V1",
    "length": "14.5 ±0.1 mm",
    "outside_diameter": "8.9 ±0.05 mm",
    "core_family": "high_pressure",
    "core_chamber": "1",
    "pressure_rating": "20 MPa",
    "seals_by": "face",
    "seal_material": "NBR",
    "material": "steel",
}
CORE: Texts = {
    "thread": "5V1",
    "length": "18.5 ±0.3 mm",
    "core_family": "high_pressure",
    "core_chamber": "1",
    "pressure_rating": "20 MPa",
    "seat": "rubber",
    "material": "brass",
}
GAS: Texts = {
    "medium": "gas",
    "motion": "static",
    "pressure": "2.5 MPa",
    "fluid": "nitrogen",
    "temperature": "-10..60 degC",
}
PORT: Texts = {
    "thread": "M5x0.8",
    "depth": "8.0 ±0.2 mm",
    "seals_by": "face",
    "tensile_strength": "310 MPa",
    "metal": "aluminium",
}
SCREW: Texts = {
    "thread": "M5x0.8",
    "length": "6 ±0.1 mm",
    "property_class": "8.8",
    "material": "steel",
    "seals_by": "face",
    "torque": "3 N m",
}


def _changed(base: Texts, changes: Texts | None) -> Texts:
    return {name: text for name, text in {**base, **(changes or {})}.items() if text is not None}


def valve(
    seat: Texts | None = None,
    body: Texts | None = None,
    core: Texts | None = None,
    service: Texts | None = None,
    *more: Fitted,
) -> Verdict:
    """The verdict on a valve with some of its texts changed; None leaves one out."""
    parts = (
        Fitted(read_model(ValveCore, _changed(CORE, core), path="part")),
        Fitted(read_model(ValveFitting, _changed(BODY, body), path="part")),
        *more,
    )
    place = read_model(ValveSeat, _changed(SEAT, seat), path="place")
    return _asked(Fit(place=place, parts=parts, service=_service(GAS, service)))


def port(
    place: Texts | None = None, screw: Texts | None = None, service: Texts | None = None, *more: Fitted
) -> Verdict:
    """The verdict on a screw in a port with some of its texts changed; None leaves one out."""
    found = read_model(ThreadedPort, _changed(PORT, place), path="place")
    part = read_model(Screw, _changed(SCREW, screw), path="part")
    return _asked(Fit(place=found, parts=(Fitted(part), *more), service=_service({}, service)))


def _service(base: Texts, changes: Texts | None) -> Service:
    return read_model(Service, _changed(base, changes), path="service")


def _asked(fit: Fit) -> Verdict:
    return check(fit, published_reference())


def of(verdict: Verdict, rule: str) -> Finding:
    """The finding of one rule, which must be there."""
    found = verdict.of(rule)
    assert found is not None, [one.rule for one in verdict.findings]
    return found
