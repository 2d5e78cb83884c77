"""Worked examples of gases in print, rows of the papers behind the equations, errors of accumulator pages."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from fitcheck.gas.forces import pressure_force
from fitcheck.gas.real_gas import gas_density, gas_entropy, heated, squeezed_fast, squeezed_slowly
from schema.gases import gas_equation
from schema.oils import spread

with Path(__file__).with_name("gas.csv").open(encoding="utf-8", newline="") as lines:
    ROWS = list(csv.DictReader(lines))
PSI = 0.45359237 * 9.80665 / 0.0254**2 / 1e6  # MPa


def speed_of_sound(gas: str, from_k: float, pressure_mpa: float) -> float:
    """w^2 = (dp / drho) at one entropy, by central difference [m/s]."""
    density = gas_density(gas, from_k, pressure_mpa)
    step = 1e-4
    up, down = (squeezed_fast(gas, from_k, density, 1.0 + way).pressure_mpa for way in (step, -step))
    mass = density * gas_equation(gas).molar_mass  # kg/m3
    return math.sqrt((up - down) * 1e6 / (2.0 * step * mass))


def worked_out(row: dict[str, str]) -> float:
    """The same by this project."""
    gas, what = row["gas"], row["what"]
    inputs = {name: float(value) for name, value in (one.split("=") for one in row["inputs"].split(";"))}
    if what == "force":
        return pressure_force(**inputs)
    if what == "trapped_oil":
        oil = spread("expansion", "mineral_oil")
        assert oil is not None
        return oil.low * inputs["bulk_modulus_mpa"]
    from_k, pressure = inputs["from_k"], inputs["pressure_mpa"]
    density = gas_density(gas, from_k, pressure)
    if what == "density":
        return density
    if what == "mass_density":
        return density * gas_equation(gas).molar_mass
    if what == "entropy":
        return gas_entropy(gas, from_k, density)
    if what == "sound":
        return speed_of_sound(gas, from_k, pressure)
    if what == "heated":
        return heated(gas, from_k, density, inputs["to_k"]).pressure_mpa
    if what == "slow":
        return squeezed_slowly(gas, from_k, density, inputs["ratio"]).pressure_mpa
    state = squeezed_fast(gas, from_k, density, inputs["ratio"])
    return {"fast": state.pressure_mpa, "fast_temperature": state.temperature_k}[what]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['case']} {row['what']} {row['gas']}")
def test_a_printed_value_is_met(row: dict[str, str]) -> None:
    """Each row comes out within half of its last digit, or within a tolerance that it gives a reason for."""
    assert worked_out(row) == pytest.approx(float(row["printed"]), abs=float(row["tolerance"]))


def test_every_row_says_where_it_is_from_and_why_it_is_not_exact() -> None:
    """A source stands in every row, and a reason wherever the tolerance is not half of the last digit."""
    for row in ROWS:
        assert row["source"], row
        half = 0.5 * 10.0 ** -len(row["printed"].partition(".")[2])
        assert row["reason"] or float(row["tolerance"]) <= half * 1.0001, row


def bottle(atmosphere_psi: float, *, real: bool) -> tuple[float, float, float]:
    """Gas left at 1200 and 3000 psi of 10 gallons charged to 1000 psi, and what is usable between."""
    pressures = [(one + atmosphere_psi) * PSI for one in (1000.0, 1200.0, 3000.0)]
    densities = [gas_density("nitrogen", 293.15, one) for one in pressures] if real else pressures
    left = [10.0 * densities[0] / one for one in densities[1:]]
    return left[0], left[1], left[0] - left[1]


def test_a_bottle_is_printed_with_gauge_pressures_taken_as_absolute() -> None:
    """petrolengineering.com: 8.33, 3.33 and 5.0 gal are met only with gauge for absolute, and ideal."""
    assert bottle(0.0, real=False) == pytest.approx((8.33, 3.33, 5.0), abs=0.005)
    assert bottle(14.7, real=False) == pytest.approx((8.354, 3.366, 4.988), abs=0.0005)


def test_of_the_printed_bottle_a_twenty_fourth_is_not_there() -> None:
    """With absolute pressures and real nitrogen 4.79 gal are usable of the 5.0 that are printed."""
    usable = bottle(14.7, real=True)[2]
    assert usable == pytest.approx(4.793, abs=0.0005)
    assert usable < 0.96 * 5.0


def ratio_to(start_mpa: float, end_mpa: float) -> float:
    """How far nitrogen of 20 degC has to be squeezed, fast, to reach a pressure: by halving."""
    density = gas_density("nitrogen", 293.15, start_mpa)
    low, high = 1.0, 8.0
    for _ in range(60):
        middle = (low + high) / 2.0
        too_low = squeezed_fast("nitrogen", 293.15, density, middle).pressure_mpa < end_mpa
        low, high = (middle, high) if too_low else (low, middle)
    return low


def test_of_two_printed_factors_for_the_real_gas_one_is_right() -> None:
    """72, 80 and 180 bar, 5 L (ya.guru): the slow factor 1.03 is met, the fast one is 1.11, not 1.15."""
    start, least, most = 7.2, 8.0, 18.0
    densities = [gas_density("nitrogen", 293.15, one) for one in (start, least, most)]
    slow = 5.0 / (densities[0] / densities[1] - densities[0] / densities[2])
    fast = 5.0 / (1.0 / ratio_to(start, least) - 1.0 / ratio_to(start, most))
    ideal_slow = 5.0 / (start / least - start / most)
    ideal_fast = 5.0 / ((start / least) ** (1 / 1.4) - (start / most) ** (1 / 1.4))
    assert ideal_slow == pytest.approx(10.0)
    assert slow / ideal_slow == pytest.approx(1.03, abs=0.005)
    assert fast / ideal_fast == pytest.approx(1.110, abs=0.0005)
    assert abs(fast / ideal_fast - 1.15) > 0.03


def test_the_spread_of_oils_is_as_wide_as_one_abstract_says() -> None:
    """Jessup, NBS Research Paper RP244: two oils of one density differ by more than 30 % in expansion."""
    oil = spread("expansion", "mineral_oil")
    assert oil is not None
    assert oil.high / oil.low > 1.3
