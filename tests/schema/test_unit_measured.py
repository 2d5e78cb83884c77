"""Measured sizes that cannot be those of the place or part they are told for."""

from __future__ import annotations

from typing import Any

import pytest

from schema.unit_measured import far_from_drawn

PLACES: dict[str, Any] = {
    "shaft-seal": {
        "kind": "rod_gland",
        "runs_on": "damper shaft",
        "shaft_diameter": "0.3750 +0/-0.0005 in",
        "guide_clearance": "0.02..0.06 mm",
    },
    "gas": {"kind": "gas_chamber", "runs_on": "damper shaft", "set_depth": "42.0 ±0.5 mm"},
}
PARTS: dict[str, Any] = {"LV-1": {"kind": "o_ring", "size": "AS568-110"}}


@pytest.mark.parametrize(
    ("measured", "paths"),
    [
        (
            {"shaft-seal": {"shaft_diameter": "0.375 mm by micrometer"}},
            ["measured.shaft-seal.shaft_diameter"],
        ),
        ({"damper shaft": {"shaft-diameter": "95 mm"}}, ["measured.damper shaft.shaft-diameter"]),
        ({"shaft-seal": {"lv-1": {"cross_section": "1.5 mm"}}}, ["measured.shaft-seal.lv-1.cross_section"]),
        ({"shaft-seal": {"shaft_diameter": "9.40 mm by micrometer"}}, []),
        ({"shaft-seal": {"lv-1": {"cross_section": "2.40 mm"}}}, []),
    ],
    ids=["inches as mm", "a digit more, on a shared shaft", "another ring", "a worn shaft", "a worn ring"],
)
def test_what_no_wear_explains_is_refused(measured: dict[str, Any], paths: list[str]) -> None:
    """A wrong unit, digit or piece is told at its own path, with what is drawn; wear is not."""
    found = list(far_from_drawn(measured, PLACES, PARTS))
    assert list(dict.fromkeys(one.field for one in found)) == paths


@pytest.mark.parametrize(
    "measured",
    [
        {"gas": {"set_depth": "8 mm by calliper depth rod"}},
        {"shaft-seal": {"guide_clearance": "0.20 mm"}},
        {"shaft-seal": {"shaft_diameter": "thick", "no_such_field": "9 mm"}},
        {"no such place": {"shaft_diameter": "9 mm"}},
        {"shaft-seal": {"LV-9": {"cross_section": "9 mm"}}},
        {"shaft-seal": "9 mm"},
    ],
    ids=["a piston that has moved", "wear of a clearance", "no size", "no place", "no part", "no fields"],
)
def test_what_may_be_found_anywhere_or_is_no_size_is_left_to_others(measured: dict[str, Any]) -> None:
    """Depths and clearances may be found far from their drawing; other faults are told elsewhere."""
    assert list(far_from_drawn(measured, PLACES, PARTS)) == []
