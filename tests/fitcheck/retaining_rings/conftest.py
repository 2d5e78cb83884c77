"""One ring in one groove that fits by every rule, for tests to change in one place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from fitcheck.check import check
from schema.fields import read_model
from schema.finding import Verdict
from schema.fit import Fit, Fitted
from schema.reference import published_reference
from schema.retaining import RetainingRing, RetainingRingGroove
from schema.service import Service

Changes = dict[str, Any] | None
PLACE = {
    "bore_diameter": "36 H7 mm",
    "groove_diameter": "38.00 +0.25/0 mm",
    "groove_width": "1.60 +0.14/0 mm",
    "edge_distance": "3.5 ±0.1 mm",
    "wall": "4.0 ±0.2 mm",
    "groove_yield": "240 MPa",
    "corner": "chamfered",
    "chamfer": "0.5 ±0.1 mm",
    "seal_diameter": "36 H7 mm",
    "safety_factor": "2",
    "safety_factor_source": "workshop rule of the test",
}
RING = {"standard": "DIN 472 - 36", "thickness": "1.50 +0/-0.06 mm"}
SHAFT_PLACE = {
    "bore_diameter": None,
    "shaft_diameter": "25 h9 mm",
    "groove_diameter": "23.9 0/-0.21 mm",
    "groove_width": "1.30 +0.14/0 mm",
    "cap_diameter": "25 H7 mm",
    "seal_diameter": "20 H8 mm",
}
WIRE_PLACE = {
    "bore_diameter": "50 H8 mm",
    "groove_diameter": "51.60 +0.10/0 mm",
    "groove_width": "1.70 +0.10/0 mm",
    "shoulder_diameter": "47.4 ±0.1 mm",
    "corner": None,
    "chamfer": None,
}
WIRE = {
    "standard": None,
    "thickness": None,
    "bore_diameter": "50 mm",
    "wire_diameter": "1.60 ±0.03 mm",
    "free_diameter": "52.6 +0.8/0 mm",
}


def _with(base: dict[str, str], changes: Changes) -> dict[str, Any]:
    return {name: text for name, text in {**base, **(changes or {})}.items() if text is not None}


def fit_of(place: Changes = None, ring: Changes = None, service: Changes = None) -> Fit:
    """The fitting groove and ring with some texts changed; None leaves a field out."""
    told = {"pressure": "2.5 MPa"} if service is None else service
    return Fit(
        place=read_model(RetainingRingGroove, _with(PLACE, place), path="place"),
        parts=(Fitted(read_model(RetainingRing, _with(RING, ring), path="part")),),
        service=read_model(Service, told, path="service"),
    )


@pytest.fixture
def ask() -> Callable[..., Verdict]:
    """Judge the fitting groove and ring with some texts changed."""

    def asked(place: Changes = None, ring: Changes = None, service: Changes = None) -> Verdict:
        return check(fit_of(place, ring, service), published_reference())

    return asked
