"""The highest pressure of a chamber, for what has to hold it."""

from __future__ import annotations

import pytest

from fitcheck.gas.highest import Lock, highest_pressure, locks
from schema.reference import published_reference
from tests.fitcheck.gas.chambers import BLADDER, RESERVOIR, SERVICE, SHORT, chamber, judged

REFERENCE = published_reference()


def test_it_is_what_the_verdict_tells() -> None:
    """The upper end is the fast, hottest, worst case of the verdict; the lower end the slow one."""
    fit = chamber(RESERVOIR, charge="1.0 ±U0.05 MPa", stroke="75.0 mm by calliper")
    told = {one.rule: one for one in judged(fit).told}
    found = highest_pressure(fit, REFERENCE)
    assert found is not None
    assert found.high == pytest.approx(told["full_stroke_hot_fast"].high)
    assert found.middle == pytest.approx(told["full_stroke_hot_fast"].middle)
    assert found.low == pytest.approx(told["full_stroke_hot_slow"].low)


def test_it_is_the_hottest_of_service_and_bench() -> None:
    """A service that ends below the temperature of setting still has the pressure as set."""
    cold = highest_pressure(chamber(RESERVOIR, {**SERVICE, "temperature": "-20..0 degC"}), REFERENCE)
    bench = highest_pressure(chamber(RESERVOIR, {**SERVICE, "temperature": "-20..20 degC"}), REFERENCE)
    assert cold == bench


@pytest.mark.parametrize("place", [RESERVOIR, BLADDER])
def test_a_free_chamber_excludes_lock(place: dict[str, str]) -> None:
    """Where the room is proven, lock is excluded and there is a pressure."""
    assert locks(chamber(place), REFERENCE) is Lock.EXCLUDED
    assert highest_pressure(chamber(place), REFERENCE) is not None


def test_possible_and_certain_lock_have_no_pressure() -> None:
    """Example D at 60 and at 90 degC, and set too deep."""
    cases = [
        (chamber(SHORT), Lock.POSSIBLE),
        (chamber(SHORT, {**SERVICE, "temperature": "-10..90 degC"}), Lock.CERTAIN),
        (chamber(SHORT, {}, set_depth="58 ±0.05 mm"), Lock.CERTAIN),
        (chamber(BLADDER, bladder_least_volume="28 ml"), Lock.POSSIBLE),
        (chamber(BLADDER, bladder_least_volume="35 ml"), Lock.CERTAIN),
    ]
    for fit, expected in cases:
        assert locks(fit, REFERENCE) is expected
        assert highest_pressure(fit, REFERENCE) is None


@pytest.mark.parametrize("absent", ["stroke", "charge", "set_depth", "oil_volume"])
def test_a_chamber_that_lacks_something_has_no_pressure(absent: str) -> None:
    """None, rather than a number on a guess."""
    assert highest_pressure(chamber(RESERVOIR, **{absent: None}), REFERENCE) is None


def test_without_a_temperature_lock_is_unknown() -> None:
    """How far the oil grows is not known, so neither is the highest pressure."""
    fit = chamber(RESERVOIR, {"fluid": "mineral_oil"})
    assert locks(fit, REFERENCE) is Lock.UNKNOWN
    assert highest_pressure(fit, REFERENCE) is None


def test_uncertainty_counts_also_under_simple_acceptance() -> None:
    """A pressure that a cap has to hold is never told without the uncertainty of what was measured."""
    from schema.guidance import Choices

    fit = chamber(RESERVOIR, charge="1.0 ±U0.05 MPa")
    simple = fit.changed(choices=Choices(decision_rule="simple-acceptance"))
    assert highest_pressure(simple, REFERENCE) == highest_pressure(fit, REFERENCE)


@pytest.mark.parametrize(
    ("name", "bare", "lock"),
    [
        ("set_depth", "51 mm", Lock.POSSIBLE),
        ("oil_volume", "145 ml", Lock.POSSIBLE),
        ("charge", "1.0 MPa", Lock.EXCLUDED),
        ("set_temperature", "20 degC", Lock.POSSIBLE),
    ],
)
def test_a_size_without_tolerance_excludes_no_lock_and_bounds_no_pressure(
    name: str, bare: str, lock: Lock
) -> None:
    """Else a retaining ring or a valve would be proven by a chamber that itself is not."""
    fit = chamber(RESERVOIR, **{name: bare})
    assert locks(fit, REFERENCE) is lock
    assert highest_pressure(fit, REFERENCE) is None
    told = {one.rule for one in judged(fit).told}
    assert ("full_stroke_hot_fast" in told) is (lock is Lock.EXCLUDED)


def test_a_chamber_without_its_separator_or_with_two_gases_bounds_no_pressure() -> None:
    """What is not told whole holds nothing."""
    assert highest_pressure(chamber(RESERVOIR, separator=None), REFERENCE) is None
    two = {**SERVICE, "fluid": "mineral_oil; air"}
    assert highest_pressure(chamber(RESERVOIR, two), REFERENCE) is None


def test_the_band_as_set_holds_at_both_ends_of_the_temperature_of_setting() -> None:
    """A real gas squeezed 4.5 times does not rise alike at 15 and at 25 degC."""
    from fitcheck.gas.real_gas import gas_density, gas_pressure

    fit = chamber(
        RESERVOIR, set_temperature="20 ±20 degC", tube_length="78.5 ±0.01 mm", oil_volume="1 ±0.1 ml"
    )
    at_top_out = {one.rule: one for one in judged(fit).told}
    slow, ratio = at_top_out["full_stroke_as_set_slow"], at_top_out["gas_volume"]
    displaced = at_top_out["displaced_volume"]
    least = ratio.high / (ratio.high - displaced.low)
    lowest = gas_pressure("nitrogen", 273.15, least * gas_density("nitrogen", 273.15, 0.965 + 0.101325))
    assert slow.low <= lowest - 0.101325
    most = ratio.low / (ratio.low - displaced.high)
    highest = gas_pressure("nitrogen", 313.15, most * gas_density("nitrogen", 313.15, 1.035 + 0.101325))
    assert slow.high >= highest - 0.101325
