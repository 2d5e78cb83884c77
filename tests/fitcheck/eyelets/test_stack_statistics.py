"""Worst case and statistics of a stack, against draws of random parts by numpy."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitcheck.check import check
from schema.finding import Finding
from schema.reference import published_reference
from tests.fitcheck.eyelets.conftest import BUSH, PIN, PLACE, REDUCER, fit_of

DRAWS = 400_000
# mount 24.3 to 24.5 less an eyelet of 12 +-0.1 and two flanges of 6 +-0.05
MIDDLES = np.array([24.4, -12.0, -6.0, -6.0])
HALVES = np.array([0.1, 0.1, 0.05, 0.05])


def gap_of(**flange: str) -> Finding:
    """The gap beside two reducers, with the thickness of their flange as told."""
    place = {**PLACE, "mount_width": "24.3 +0.2/0 mm", "side_play": "0.1..0.6 mm"}
    found = check(fit_of(place, [BUSH, {**REDUCER, **flange}]), published_reference()).of("side_gap")
    assert found is not None
    return found


def test_the_statistics_are_those_of_random_parts() -> None:
    """Normal sizes with their limits at three sigma: mean, 99.73 % interval and share outside agree."""
    found = gap_of()
    rng = np.random.default_rng(965)
    drawn = MIDDLES.sum() + (rng.standard_normal((DRAWS, 4)) * HALVES / 3).sum(axis=1)
    low, high = np.quantile(drawn, [0.00135, 0.99865])
    assert (found.statistical_low, found.statistical_high) == pytest.approx((low, high), abs=0.004)
    outside = float(((drawn < 0.1) | (drawn > 0.6)).mean())
    assert found.share_outside == pytest.approx(outside, abs=3 * math.sqrt(outside / DRAWS) + 2e-5)


def test_the_worst_case_bounds_uniform_parts_and_is_reached() -> None:
    """No draw of uniform parts leaves the worst case, and its corner is one of them."""
    found = gap_of()
    rng = np.random.default_rng(286)
    drawn = MIDDLES.sum() + (rng.uniform(-1, 1, (DRAWS, 4)) * HALVES).sum(axis=1)
    assert found.low is not None
    assert found.high is not None
    assert found.low <= drawn.min() < found.low + 0.05
    assert found.high - 0.05 < drawn.max() <= found.high
    assert (found.low, found.high) == pytest.approx((0.4 - HALVES.sum(), 0.4 + HALVES.sum()))


def test_the_root_sum_square_is_less_than_the_worst_case() -> None:
    """Three sigma is the root of the sum of squares: here 0.158 mm against 0.3 mm at worst."""
    found = gap_of()
    assert found.statistical_high is not None
    assert found.statistical_low is not None
    half = (found.statistical_high - found.statistical_low) / 2
    assert half == pytest.approx(math.sqrt((HALVES**2).sum()), rel=1e-6)


def test_two_drawn_parts_are_independent_and_one_reading_for_both_is_not() -> None:
    """Drawn, two flanges add in quadrature; read once for both, the error of the reading counts twice."""
    drawn, read = gap_of(), gap_of(thickness="6.00 ±U0.04 mm")
    assert [one.dimension for one in drawn.influences].count("reducer_1_thickness") == 1
    twice = {one.dimension: one.half_effect for one in read.influences}["reducer_thickness"]
    assert abs(twice) == pytest.approx(2 * 0.02)  # u of one reading, twice
    assert read.guard_band == pytest.approx(2 * 2 * 0.02)  # not 2 * sqrt(2) * 0.02


def test_reading_both_parts_apart_is_better_than_one_reading_for_both() -> None:
    """Two readings of two parts add in quadrature: 0.057 mm of guard band against 0.080."""
    place = {**PLACE, "mount_width": "24.3 +0.2/0 mm"}
    one = {**REDUCER, "quantity": 1, "thickness": "6.00 ±U0.04 mm"}
    found = check(fit_of(place, [BUSH, one, one]), published_reference()).of("side_gap")
    assert found is not None
    assert found.guard_band == pytest.approx(math.hypot(0.04, 0.04))


def test_a_through_pin_alone_sets_the_gap() -> None:
    """With a pin through the eyelet the eyelet's own width does not move the gap."""
    found = check(fit_of(PLACE, [BUSH, PIN]), published_reference()).of("side_gap")
    assert found is not None
    assert {one.dimension for one in found.influences} == {"mount_width", "pin_width"}
