"""The rules of the gas side: their declared directions, and what they refuse to compute."""

from __future__ import annotations

import inspect
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitcheck.gas import forces, pressures, rooms, volumes
from fitcheck.gas.least import least_gas_volume
from fitcheck.gas.pressures import RULES_OF
from fitcheck.gas.real_gas import gas_density, gas_pressure, squeezed_fast, squeezed_slowly
from fitcheck.gas.volumes import squeezed_ratio
from fitcheck.rule import Rule
from schema.gases import GASES, gas_equation

OURS = [
    one
    for module in (rooms, volumes, forces, pressures)
    for one in vars(module).values()
    if isinstance(one, Rule)
]
DIRECTIONS = [
    pytest.param(one, name, sign, id=f"{one.name} {name}")
    for one in OURS
    for names, sign in ((one.rises_with, 1), (one.falls_with, -1))
    for name in names
]


@pytest.mark.parametrize(("of", "name", "sign"), DIRECTIONS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_a_declared_direction_holds(of: Rule, name: str, sign: int, data: st.DataObject) -> None:
    """Raising one input never moves a rule against the direction it declares."""
    inputs = {one: data.draw(st.floats(*of.valid[one])) for one in inspect.signature(of.function).parameters}
    low, high = sorted((inputs[name], data.draw(st.floats(*of.valid[name]))))
    at_low, at_high = of(**{**inputs, name: low}), of(**{**inputs, name: high})
    assert sign * (at_high - at_low) >= -1e-7 * max(1e-3, abs(at_low), abs(at_high))


@pytest.mark.parametrize("of", OURS, ids=lambda of: of.name)
def test_every_argument_has_a_domain_and_a_direction(of: Rule) -> None:
    """No argument of a rule may be an interval without a worst end."""
    arguments = set(inspect.signature(of.function).parameters)
    assert set(of.valid) == arguments == {*of.rises_with, *of.falls_with}


@pytest.mark.parametrize("gas", GASES)
@pytest.mark.parametrize("pressure", [1.4, 2.0, 3.0, 5.0, 10.0, 25.0])
def test_one_point_four_is_no_upper_bound(gas: str, pressure: float) -> None:
    """A fast stroke of real gas ends above p r^1.4 at every charge of a damper, the more the higher."""
    density = gas_density(gas, 293.15, pressure)
    for ratio in (1.5, 2.0):
        real = squeezed_fast(gas, 293.15, density, ratio).pressure_mpa
        if not math.isnan(real):
            assert real > pressure * ratio**1.4


@pytest.mark.parametrize(
    ("pressure", "ratio", "slow_percent", "fast_percent"),
    [(0.7, 1.5, 0.07, -0.53), (1.4, 2.0, 0.20, -2.30), (3.0, 2.0, 0.06, -5.38), (10.0, 1.5, -2.09, -11.15)],
)
def test_the_ideal_gas_is_as_far_off_as_tabled(
    pressure: float, ratio: float, slow_percent: float, fast_percent: float
) -> None:
    """Ideal over real, nitrogen from 20 degC (own arithmetic with CoolProp): past 1 % fast, or at 10 MPa."""
    density = gas_density("nitrogen", 293.15, pressure)
    slow = squeezed_slowly("nitrogen", 293.15, density, ratio).pressure_mpa
    fast = squeezed_fast("nitrogen", 293.15, density, ratio).pressure_mpa
    assert 100.0 * (pressure * ratio / slow - 1.0) == pytest.approx(slow_percent, abs=0.006)
    assert 100.0 * (pressure * ratio**1.4 / fast - 1.0) == pytest.approx(fast_percent, abs=0.006)


@pytest.mark.parametrize("gas", GASES)
def test_a_state_beyond_the_range_is_nan(gas: str) -> None:
    """Too cold, too hot, too dense, nothing there: nan, never a number."""
    assert math.isnan(gas_pressure(gas, 199.0, 1.0))
    assert math.isnan(gas_pressure(gas, 701.0, 1.0))
    assert math.isnan(gas_pressure(gas, 300.0, 1.6 * gas_equation(gas).reducing_density))
    assert math.isnan(gas_density(gas, 300.0, 150.0))
    assert math.isnan(gas_density(gas, 300.0, 0.0))
    assert math.isnan(squeezed_fast(gas, 300.0, gas_density(gas, 300.0, 25.0), 3.0).pressure_mpa)
    assert math.isnan(squeezed_fast(gas, 300.0, 0.1, 25.0).pressure_mpa)  # above 700 K


@pytest.mark.parametrize("gas", GASES)
@settings(max_examples=80, deadline=None)
@given(temperature=st.floats(230.0, 450.0), pressure=st.floats(0.05, 25.0))
def test_density_and_pressure_are_each_others_inverse(gas: str, temperature: float, pressure: float) -> None:
    """The pressure of a density is the pressure that it was made from."""
    density = gas_density(gas, temperature, pressure)
    assert gas_pressure(gas, temperature, density) == pytest.approx(pressure, rel=1e-8)


def test_the_terms_of_the_critical_region_count_for_nothing_here() -> None:
    """From 200 K up each term that is left out is below 1e-20, also at the highest density."""
    equation = gas_equation("nitrogen")
    assert len(equation.gaussian) == 4
    for temperature in (200.0, 300.0, 700.0):
        tau = equation.reducing_temperature / temperature
        for delta in (0.1, 0.5, 1.0, 1.5):
            for one in equation.gaussian:
                damped = math.exp(-one.eta * (delta - one.epsilon) ** 2 - one.beta * (tau - one.gamma) ** 2)
                assert abs(one.n) * tau**one.t * delta**one.d * damped < 1e-20


def test_no_gas_left_has_no_ratio() -> None:
    """Where the oil takes all of the gas's room nothing is divided."""
    assert math.isnan(squeezed_ratio(gas_volume_mm3=9000.0, taken_volume_mm3=9000.0))
    assert math.isnan(squeezed_ratio(gas_volume_mm3=9000.0, taken_volume_mm3=9500.0))


@pytest.mark.parametrize("gas", GASES)
def test_the_least_gas_volume_meets_its_limit(gas: str) -> None:
    """With the smallest volume the fast pressure is the limit, with a little less it is above."""
    volume = least_gas_volume(
        gas=gas,
        charge_mpa=1.2,
        displaced_volume_mm3=9000.0,
        oil_growth_mm3=5000.0,
        set_temperature_deg_c=20.0,
        temperature_deg_c=60.0,
        limit_mpa=6.0,
    )

    def pressure(at: float) -> float:
        return RULES_OF[gas].fast(
            charge_mpa=1.2,
            thermal_ratio=at / (at - 5000.0),
            stroke_ratio=(at - 5000.0) / (at - 14000.0),
            set_temperature_deg_c=20.0,
            temperature_deg_c=60.0,
        )

    assert pressure(volume) == pytest.approx(6.0, rel=1e-4)
    assert pressure(0.99 * volume) > 6.0


def test_a_limit_below_the_charge_has_no_volume() -> None:
    """No room is large enough to keep a charge below itself."""
    found = least_gas_volume(
        gas="nitrogen",
        charge_mpa=1.2,
        displaced_volume_mm3=9000.0,
        oil_growth_mm3=0.0,
        set_temperature_deg_c=20.0,
        temperature_deg_c=20.0,
        limit_mpa=1.1,
    )
    assert math.isnan(found)
