"""Wear of bushings and shafts: limits only as the maker gives them, life only from two measurements."""

from __future__ import annotations

import pytest

from schema.finding import Status, Told, Verdict
from tests.fitcheck.bushings.questions import STEEL_SEAT, WRAPPED, finding, verdict_on, without

WORN = {
    **STEEL_SEAT,
    "bore_as_fitted": "16.070 mm by bore gauge",
    "shaft_diameter": "15.970 mm by micrometer",
    "bore_before": "16.030 mm by bore gauge",
    "shaft_before": "15.978 mm by micrometer",
    "distance_since": "3000",
    "largest_clearance": "0.20 mm",
    "least_shaft_diameter": "15.94 mm",
    "largest_bore": "16.12 mm",
}


def told(verdict: Verdict, rule: str) -> Told:
    return next(one for one in verdict.told if one.rule == rule)


def test_a_worn_pair_within_the_makers_limits_may_run_on() -> None:
    """Looser than new, closer than the wear limit: it fits, and what is left is told."""
    verdict = verdict_on(WORN, WRAPPED)
    assert verdict.status is Status.FITS
    assert told(verdict, "wear_since").middle == pytest.approx(0.048)
    assert told(verdict, "wear_left").middle == pytest.approx(0.100)
    assert told(verdict, "remaining_distance").middle == pytest.approx(3000 * 0.100 / 0.048)


def test_the_life_left_has_the_uncertainty_of_the_wear() -> None:
    """Its ends come from the readings' uncertainty, and the straight line says what it is."""
    life = told(verdict_on(WORN, WRAPPED), "remaining_distance")
    assert life.low < 0.8 * life.middle < life.middle < life.high
    assert "running-in" in life.note


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"bore_as_fitted": "16.20 mm by bore gauge"}, "running_clearance"),
        ({"bore_as_fitted": "16.20 mm by bore gauge"}, "bore_wear"),
        ({"shaft_diameter": "15.92 mm by micrometer"}, "shaft_wear"),
    ],
)
def test_what_is_worn_beyond_the_makers_limit_does_not_fit(change: dict[str, str], rule: str) -> None:
    """Each of the three limits refuses by itself, and names the maker as its source."""
    found = finding(verdict_on({**WORN, **change}, WRAPPED), rule)
    assert found.status is Status.DOES_NOT_FIT
    assert "the maker's limit" in found.source


def test_a_reading_at_its_limit_is_not_proven() -> None:
    """The instrument's uncertainty decides nothing at the limit."""
    at_limit = {**WORN, "shaft_diameter": "15.940 mm by micrometer"}
    assert finding(verdict_on(at_limit, WRAPPED), "shaft_wear").status is Status.NOT_PROVEN


def test_without_a_limit_of_the_maker_wear_is_not_judged_and_the_shop_rule_is_named() -> None:
    """Above the new clearance it is not proven; the shop rule is told under its own name."""
    place = without(WORN, "largest_clearance", "least_shaft_diameter", "largest_bore")
    verdict = verdict_on(place, WRAPPED)
    assert finding(verdict, "running_clearance").status is Status.NOT_PROVEN
    assert any("shop rule, no standard" in one and "0.184 mm" in one for one in verdict.not_asked)
    assert [one.rule for one in verdict.told] == ["wear_since"]
    assert any("largest clearance was not given" in one for one in verdict.not_asked)


def test_the_shop_rule_refuses_under_its_own_name() -> None:
    """Beyond twice the greatest clearance as new it does not fit, by common practice and no standard."""
    place = {
        **without(WORN, "largest_clearance", "least_shaft_diameter", "largest_bore"),
        "bore_as_fitted": "16.22 mm by bore gauge",
    }
    found = finding(verdict_on(place, WRAPPED), "running_clearance")
    assert found.status is Status.DOES_NOT_FIT
    assert found.grade == "common_practice"
    assert "shop rule" in found.source


def test_wear_within_the_instruments_uncertainty_tells_no_life() -> None:
    """Two micrometres between two readings are no rate of wear."""
    place = {
        **without(WORN, "shaft_before"),
        "bore_as_fitted": "16.032 mm by bore gauge",
        "bore_before": "16.030 mm by bore gauge",
    }
    verdict = verdict_on(place, WRAPPED)
    assert not any(one.rule == "remaining_distance" for one in verdict.told)
    assert any("no more than the instruments may be out by" in one for one in verdict.not_asked)


def test_beyond_the_limit_no_life_is_told() -> None:
    """What is worn out has no distance left, least of all a negative one."""
    verdict = verdict_on({**WORN, "bore_as_fitted": "16.20 mm by bore gauge"}, WRAPPED)
    assert told(verdict, "wear_left").high < 0.0
    assert not any(one.rule == "remaining_distance" for one in verdict.told)


def test_hours_do_as_well_as_distance() -> None:
    """The unit of the use so far is the unit of what is left."""
    place = {**without(WORN, "distance_since"), "hours_since": "120"}
    life = told(verdict_on(place, WRAPPED), "remaining_hours")
    assert life.unit == "h"
    assert life.middle == pytest.approx(120 * 0.100 / 0.048)


def test_an_earlier_measurement_alone_tells_no_wear() -> None:
    """Without a bore measured now there is nothing to compare."""
    verdict = verdict_on(without(WORN, "bore_as_fitted", "largest_bore"), WRAPPED)
    assert not any(one.rule == "wear_since" for one in verdict.told)
