"""Chambers for the tests: an invented reservoir shock, and the examples of own arithmetic A to D."""

from __future__ import annotations

from schema.chambers import GasChamber
from schema.fields import read_model
from schema.finding import Verdict
from schema.fit import Fit
from schema.reference import published_reference
from schema.service import Service

SERVICE = {"temperature": "-10..60 degC", "fluid": "mineral_oil; nitrogen", "medium": "gas"}
RESERVOIR = {
    "separator": "floating_piston",
    "gas": "nitrogen",
    "shaft_diameter": "12.7 ±0.01 mm",
    "stroke": "75 ±0.2 mm",
    "bore_diameter": "38 H8 mm",
    "set_depth": "51 ±0.5 mm",
    "depth_from": "oil_end",
    "depth_to": "near_face",
    "tube_length": "95 ±0.1 mm",
    "piston_length": "14 ±0.05 mm",
    "oil_side_room": "6 ±0.3 mm",
    "charge": "1.0 ±0.035 MPa",
    "set_temperature": "20 ±2 degC",
    "oil_volume": "145 ±3 ml",
    "metal": "aluminium",
    "seal_diameter": "39.6 mm",
    "gauge_volume": "2 ml",
}
CAVITATION = {
    "main_bore_diameter": "36 ±0.01 mm",
    "piston_force": "1500 ±10 N",
    "base_valve_pressure_drop": "1.2 ±0.02 MPa",
}
# Example D: 16 mm of gas length, bound to lock when hot.
SHORT = {
    **RESERVOIR,
    "shaft_diameter": "12.7 ±0.005 mm",
    "stroke": "65 ±0.05 mm",
    "bore_diameter": "30 ±0.005 mm",
    "tube_length": "81 ±0.05 mm",
    "set_depth": "51 ±0.05 mm",
    "oil_volume": "90 ±0.5 ml",
    "charge": "1.20 ±0.02 MPa",
    "set_temperature": "20 ±0.5 degC",
}
BLADDER = {
    "separator": "bladder",
    "gas": "nitrogen",
    "shaft_diameter": "10 f7 mm",
    "stroke": "170 ±0.3 mm",
    "bladder_volume": "45 ±1 ml",
    "bladder_least_volume": "12 ml",
    "charge": "0.7 ±0.03 MPa",
    "set_temperature": "20 ±2 degC",
    "oil_volume": "95 ±3 ml",
    "metal": "aluminium",
}


def chamber(place: dict[str, str], service: dict[str, str] | None = None, **change: str | None) -> Fit:
    """A fit from texts; a change of None takes a field away, a service of ``{}`` tells nothing."""
    fields = {name: value for name, value in {**place, **change}.items() if value is not None}
    told = SERVICE if service is None else service
    return Fit(
        place=read_model(GasChamber, fields, path="place"),
        service=read_model(Service, told, path="service"),
    )


def judged(fit: Fit) -> Verdict:
    """The verdict on a chamber."""
    from fitcheck.places import check_place

    return check_place(fit, published_reference())
