"""What is on no list of a place: shafts with their wear limit, and the oil."""

from __future__ import annotations

from typing import Any

import pytest

from fitcheck.unit.check import check_unit
from schema.finding import Finding, Status
from schema.reference import published_reference
from schema.unit import unit_from
from schema.unit_verdict import UnitVerdict

TEXTS: dict[str, Any] = {
    "unit": "wren-1",
    "kind": "damper",
    "fluid": "mineral_oil",
    "temperature": "-10..50 degC",
    "shafts": {"damper shaft": "LV-600"},
    "places": {
        "shaft-seal": {
            "kind": "rod_gland",
            "runs_on": "damper shaft",
            "shaft_diameter": "16 f7 mm",
            "groove_diameter": "22.12 ±0.02 mm",
            "throat_diameter": "16.05 +0.02/0 mm",
            "groove_width": "4.8 +0.2/0 mm",
            "parts": ["LV-100"],
        }
    },
    "parts": {
        "LV-100": {"kind": "o_ring", "size": "AS568-208", "material": "NBR", "hardness_shore_a": "70"},
        "LV-600": {
            "kind": "shaft",
            "description": "Damper shaft",
            "outside_diameter": "16 f7 mm",
            "least_diameter": "15.94 mm",
        },
    },
}


def checked(read: str | None, *, limit: str = "15.94 mm") -> UnitVerdict:
    shaft = {**TEXTS["parts"]["LV-600"], "least_diameter": limit}
    texts = {**TEXTS, "parts": {**TEXTS["parts"], "LV-600": shaft}}
    measured = {"damper shaft": {"shaft_diameter": read}} if read else None
    return check_unit(unit_from(texts, measured=measured), published_reference())


def wear(verdict: UnitVerdict) -> Finding | None:
    return next((one for one in verdict.findings if one.rule == "shaft_wear"), None)


@pytest.mark.parametrize(
    ("read", "status", "keep"),
    [
        pytest.param("15.972 mm by micrometer", Status.FITS, "may stay", id="above its limit"),
        pytest.param("15.941 mm by micrometer", Status.NOT_PROVEN, "look and measure", id="too near to tell"),
        pytest.param("15.92 mm by micrometer", Status.DOES_NOT_FIT, "replace", id="worn out"),
    ],
)
def test_a_measured_shaft_is_held_against_its_wear_limit(read: str, status: Status, keep: str) -> None:
    """The limit comes with the shaft as a part, and decides what becomes of it."""
    verdict = checked(read)
    finding = wear(verdict)
    assert finding is not None
    assert finding.status is status
    line = next(one for one in verdict.kit if one.part_number == "LV-600")
    assert (line.keep, line.places) == (keep, ("shaft-seal",))


def test_a_worn_shaft_stops_the_unit() -> None:
    """Though a seal may still fit it, the unit is not closed with it."""
    verdict = checked("15.92 mm by micrometer")
    assert verdict.status is Status.DOES_NOT_FIT
    assert "wear of the damper shaft" in verdict.next_step
    assert "Renew the shaft (LV-600)." in (wear(verdict) or pytest.fail("no finding")).action


def test_a_drawn_shaft_is_not_judged_for_wear() -> None:
    """A drawing shows no wear: it is told that the diameter is to be measured, and against what."""
    verdict = checked(None)
    assert wear(verdict) is None
    assert any("wear of the damper shaft" in one and "15.94 mm" in one for one in verdict.not_asked)
    assert [one.keep for one in verdict.kit if one.part_number == "LV-600"] == ["look and measure"]


def test_a_shaft_without_a_limit_says_nothing() -> None:
    """Nothing is asked or listed where no limit was given."""
    verdict = checked("15.92 mm by micrometer", limit="")
    assert wear(verdict) is None
    assert not any("wear" in one for one in verdict.not_asked)
    assert not any(one.part_number == "LV-600" for one in verdict.kit)


def test_the_oil_stands_in_the_kit_with_how_much_goes_in() -> None:
    """It is on no list of a place, and is poured in all the same."""
    chamber = {"kind": "gas_chamber", "separator": "bladder", "oil_volume": "68 ±2 ml"}
    oil = {"kind": "fluid", "description": "Damper oil", "base": "mineral"}
    texts = {
        **TEXTS,
        "oil": "LV-900",
        "places": {**TEXTS["places"], "bladder": chamber},
        "parts": {**TEXTS["parts"], "LV-900": oil},
    }
    verdict = check_unit(unit_from(texts), published_reference())
    lines = [one for one in verdict.kit if one.part_number == "LV-900"]
    assert [(one.name, one.quantity, one.places, one.keep) for one in lines] == [
        ("Damper oil; takes 68 ±2 ml", 1, ("bladder",), "renew")
    ]
    listed = {**texts, "places": {**TEXTS["places"], "bladder": {**chamber, "parts": ["LV-900"]}}}
    kit = check_unit(unit_from(listed), published_reference()).kit
    assert [one.name for one in kit if one.part_number == "LV-900"] == ["Damper oil"]
