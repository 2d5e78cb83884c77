"""One eyelet with bush, pin and spacers that fits by every rule, for tests to change in one place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from fitcheck.check import check
from schema.eyelets import Eyelet
from schema.fields import read_model
from schema.finding import Verdict
from schema.fit import Fit, Fitted
from schema.kinds import model_of
from schema.reference import published_reference
from schema.service import Service

PLACE = {
    "bore": "15 H8 mm",
    "width": "12.0 ±0.1 mm",
    "outside_diameter": "24 mm",
    "mount_width": "24.2 +0.2/0 mm",
    "bolt_diameter": "7.97 ±0.02 mm",
    "side_play": "0..0.5 mm",
    "bore_as_fitted": "12.66 mm by bore gauge",
    "allowed_interference": "0.05..0.15 mm",
    "allowed_clearance": "0.01..0.20 mm",
}
BUSH = {
    "kind": "plain_bushing",
    "style": "polymer",
    "material": "POM",
    "inside_diameter": "12.70 +0.04/0 mm",
    "outside_diameter": "15.12 ±0.02 mm",
    "length": "11.7 +0/-0.1 mm",
}
PIN = {
    "kind": "eyelet_hardware",
    "style": "pin_set",
    "material": "aluminium",
    "outside_diameter": "12.60 +0/-0.03 mm",
    "inside_diameter": "8.1 +0.1/0 mm",
    "width": "24.0 ±0.1 mm",
    "length": "12.3 ±0.05 mm",
}
SPACER = {"kind": "eyelet_hardware", "style": "spacer", "inside_diameter": "8.1 +0.1/0 mm"}
REDUCER = {
    "kind": "eyelet_hardware",
    "style": "reducer",
    "material": "aluminium",
    "outside_diameter": "12.60 +0/-0.03 mm",
    "inside_diameter": "8.1 +0.1/0 mm",
    "length": "5.8 ±0.05 mm",
    "thickness": "6.0 ±0.05 mm",
    "quantity": 2,
}
SERVICE = {"temperature": "-10..60 degC", "fluid": "mineral_grease"}
BEARING_PLACE = {
    "bore": "19 H7 mm",
    "width": "12.0 ±0.1 mm",
    "mount_width": "20.2 +0.2/0 mm",
    "bolt_diameter": "10 h6 mm",
    "side_play": "0..0.9 mm",
}
BEARINGS = [
    {"kind": "bearing", "designation": "6800-2RS", "quantity": 2},
    {
        "kind": "eyelet_hardware",
        "style": "sleeve",
        "inside_diameter": "10.1 +0.1/0 mm",
        "width": "2.0 ±0.05 mm",
    },
    {
        "kind": "eyelet_hardware",
        "style": "spacer",
        "inside_diameter": "10.1 +0.1/0 mm",
        "width": "4.0 ±0.05 mm",
        "quantity": 2,
    },
]
Part = dict[str, Any]


def fitted(told: Part) -> Fitted:
    """A part from texts, with its quantity."""
    texts = {name: text for name, text in told.items() if text is not None}
    model = model_of(texts.pop("kind"))
    quantity = texts.pop("quantity", 1)
    return Fitted(read_model(model, texts, path="part"), quantity)


def fit_of(place: Part, parts: list[Part], service: Part | None = None) -> Fit:
    """An eyelet and what goes into it, from texts."""
    texts = {name: text for name, text in place.items() if text is not None}
    return Fit(
        place=read_model(Eyelet, texts, path="place"),
        parts=tuple(map(fitted, parts)),
        service=read_model(Service, SERVICE if service is None else service, path="service"),
    )


@pytest.fixture
def ask() -> Callable[..., Verdict]:
    """Judge the fitting eyelet with some texts changed; ``parts`` takes the place of bush and pin."""

    def asked(place: Part | None = None, *parts: Part) -> Verdict:
        chosen = list(parts) or [BUSH, PIN]
        return check(fit_of({**PLACE, **(place or {})}, chosen), published_reference())

    return asked
