"""The closed list of units: every factor against pint, and what is refused."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest

from schema.errors import InputError
from schema.units import (
    LENGTH_SPELLINGS,
    LENGTH_TO_MM,
    PRESSURE_TO_MPA,
    STANDARD_ATMOSPHERE_MPA,
    STORED_UNIT_OF,
    gauge_pressure_mpa,
    length_to_mm,
    quantity,
    temperature_deg_c,
)

EXACT = pint.UnitRegistry(non_int_type=Fraction)
PINT_NAME = {"um": "micrometer", "in": "inch", "mpa": "megapascal", "kpa": "kilopascal", "pa": "pascal"}


def in_pint(unit: str, stored: str) -> Fraction:
    return Fraction(EXACT.Quantity(Fraction(1), PINT_NAME.get(unit, unit)).to(stored).magnitude)


@pytest.mark.parametrize("unit", LENGTH_TO_MM)
def test_length_factors_are_those_of_pint(unit: str) -> None:
    """Every factor of length is exactly the one of an independent unit library."""
    assert Fraction(LENGTH_TO_MM[unit]) == in_pint(unit, "millimeter")


@pytest.mark.parametrize("unit", ["mpa", "kpa", "pa", "bar"])
def test_decimal_pressure_factors_are_those_of_pint(unit: str) -> None:
    """Every decimal factor of pressure is exactly the one of an independent unit library."""
    assert Fraction(PRESSURE_TO_MPA[unit]) == in_pint(unit, "megapascal")


def test_psi_is_that_of_pint_to_25_digits() -> None:
    """psi has no finite decimal; 28 digits are kept of it."""
    exact = in_pint("psi", "megapascal")
    assert abs(Fraction(PRESSURE_TO_MPA["psi"]) / exact - 1) < Fraction(1, 10**25)


def test_every_pressure_unit_is_compared() -> None:
    """No factor of pressure escapes the comparison above."""
    assert set(PRESSURE_TO_MPA) == {"mpa", "kpa", "pa", "bar", "psi"}


def test_the_standard_atmosphere_is_that_of_pint() -> None:
    """101.325 kPa, exact (CGPM 1954)."""
    assert Fraction(STANDARD_ATMOSPHERE_MPA) == in_pint("atm", "megapascal")


@pytest.mark.parametrize(("spelling", "unit"), LENGTH_SPELLINGS.items())
def test_every_spelling_is_of_a_known_unit(spelling: str, unit: str) -> None:
    """A spelling leads to a unit with a factor, and is in the small letters it is looked up by."""
    assert unit in LENGTH_TO_MM
    assert spelling == spelling.lower()


@pytest.mark.parametrize(
    ("value", "unit", "mm"),
    [("0.5", "in", "12.70"), ("1", "m", "1000"), ("1", "thou", "0.0254"), ("7", "um", "0.007")],
)
def test_lengths_are_converted_exactly(value: str, unit: str, mm: str) -> None:
    """A length in any unit becomes its exact millimetres."""
    assert length_to_mm(Decimal(value), unit) == Decimal(mm)


@pytest.mark.parametrize(
    ("value", "unit", "mpa"),
    [
        ("20", "bar", "2"),
        ("20", "barg", "2"),
        ("20", "BAR", "2"),
        ("2.5", "MPa", "2.5"),
        ("2500", "kPa", "2.5"),
        ("11.01325", "bara", "1"),
        ("101325", "Paa", "0"),
        ("1.101325", "MPaa", "1"),
    ],
)
def test_pressures_become_gauge_mpa(value: str, unit: str, mpa: str) -> None:
    """Gauge stays gauge, absolute loses the standard atmosphere."""
    assert gauge_pressure_mpa(Decimal(value), unit) == Decimal(mpa)


def test_1000_psi_is_the_printed_6_895_mpa() -> None:
    """1000 psi is 6.894757 MPa (NIST SP 811, appendix B.8)."""
    assert float(gauge_pressure_mpa(Decimal(1000), "psi")) == pytest.approx(6.894757, abs=5e-7)


@pytest.mark.parametrize(
    ("value", "unit", "deg_c"),
    [
        ("20", "degC", "20"),
        ("20", "°C", "20"),
        ("20", "C", "20"),
        ("212", "degF", "100"),
        ("-40", "°F", "-40"),
        ("293.15", "K", "20"),
        ("0", "kelvin", "-273.15"),
    ],
)
def test_temperatures_become_degrees_celsius(value: str, unit: str, deg_c: str) -> None:
    """The fixed points of the scales are met exactly."""
    assert temperature_deg_c(Decimal(value), unit) == Decimal(deg_c)


@pytest.mark.parametrize(
    "unit", ["", "a", "g", "atm", "torr", "MPa2", "bar bar", "psigg", "😀", "m" * 10_000]
)
def test_an_unknown_unit_of_pressure_is_refused(unit: str) -> None:
    """A unit of pressure that is not known is refused with the known ones, never guessed."""
    with pytest.raises(InputError, match="this unit of pressure is not known"):
        gauge_pressure_mpa(Decimal(1), unit)


@pytest.mark.parametrize("unit", ["", "R", "Re", "degX", "℃C", "cc", "😀"])
def test_an_unknown_unit_of_temperature_is_refused(unit: str) -> None:
    """A unit of temperature that is not known is refused with the known ones, never guessed."""
    with pytest.raises(InputError, match="this unit of temperature is not known"):
        temperature_deg_c(Decimal(1), unit)


@pytest.mark.parametrize(("kind", "unit"), STORED_UNIT_OF.items())
def test_a_stored_value_goes_over_to_pint(kind: str, unit: str) -> None:
    """Each stored unit is one that pint knows by the same name, of the same kind."""
    dimension = {
        "length": "[length]",
        "pressure": "[mass] / [length] / [time] ** 2",
        "temperature": "[temperature]",
    }
    assert quantity(1.0, unit).check(dimension[kind])
