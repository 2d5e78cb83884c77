"""Quantities that are no length: every factor against pint, limits, and what is refused."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest

from schema.amounts import UNITS, parse_amount
from schema.dimension import Origin
from schema.errors import InputError

EXACT = pint.UnitRegistry(non_int_type=Fraction)
# How pint spells what the trade writes otherwise; products of two units are told to it as such.
PINT = {
    "cc": "cm**3",
    "mm3": "mm**3",
    "cm3": "cm**3",
    "in3": "inch**3",
    "ml": "milliliter",
    "l": "liter",
    "n": "newton",
    "kn": "kilonewton",
    "lbf": "pound_force",
    "kgf": "kilogram_force",
    "nm": "newton*meter",
    "n m": "newton*meter",
    "n mm": "newton*millimeter",
    "nmm": "newton*millimeter",
    "n cm": "newton*centimeter",
    "ncm": "newton*centimeter",
    "kgf cm": "kilogram_force*centimeter",
    "mpa": "megapascal",
    "kpa": "kilopascal",
    "pa": "pascal",
    "bar": "bar",
    "psi": "pound_force/inch**2",
    "ksi": "kip/inch**2",
    "gpa": "gigapascal",
    "n/mm2": "newton/mm**2",
    "mm2/s": "mm**2/s",
    "cst": "centistokes",
    "kg/m3": "kg/m**3",
    "g/cm3": "g/cm**3",
    "g/ml": "g/milliliter",
    "kg/l": "kg/liter",
    **dict.fromkeys(("lbf in", "in lbf", "in-lb", "in lb"), "pound_force*inch"),
    **dict.fromkeys(("lbf ft", "ft lbf", "ft-lb", "ft lb"), "pound_force*foot"),
}
STORED = {
    "volume": "mm**3",
    "force": "newton",
    "torque": "newton*millimeter",
    "stress": "megapascal",
    "viscosity": "mm**2/s",
    "density": "kg/m**3",
}
FACTORS = [
    pytest.param(quantity, unit, factor, id=f"{quantity} in {unit}")
    for quantity in STORED
    for unit, factor in UNITS[quantity][1].items()
]


@pytest.mark.parametrize(("quantity", "unit", "factor"), FACTORS)
def test_every_factor_is_that_of_pint(quantity: str, unit: str, factor: Decimal) -> None:
    """A unit of a quantity turns into the stored one as pint 0.25 has it, to twelve digits."""
    expected = EXACT.Quantity(Fraction(1), PINT[unit]).to(STORED[quantity]).magnitude
    assert float(factor) == pytest.approx(float(expected), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "quantity", "lower", "upper"),
    [
        pytest.param("1.40 ±0.05 MPa", "pressure", "1.35", "1.45", id="both sides"),
        pytest.param("60..64 ml", "volume", "60000", "64000", id="range"),
        pytest.param("60 to 64 ml", "volume", "60000", "64000", id="range in words"),
        pytest.param("20 +2/-1 bar", "pressure", "1.9", "2.2", id="unequal"),
        pytest.param("2,5 MPa", "pressure", "2.5", "2.5", id="decimal comma"),
        pytest.param("4 N m", "torque", "4000", "4000", id="product of units"),
        pytest.param("20 ±3 degC", "temperature", "17", "23", id="temperature"),
        pytest.param("-10..60 degC", "temperature", "-10", "60", id="below zero"),
        pytest.param("6.2 cSt", "viscosity", "6.2", "6.2", id="viscosity"),
    ],
)
def test_limits_are_read_as_drawings_write_them(text: str, quantity: str, lower: str, upper: str) -> None:
    """The notation is that of lengths, in the unit of the quantity."""
    found = parse_amount(text, quantity)
    assert (found.lower, found.upper) == (Decimal(lower), Decimal(upper))
    assert (found.text, found.origin) == (text, Origin.DRAWN)


def test_a_tolerance_in_fahrenheit_is_a_difference() -> None:
    """±18 degF about 68 degF are ±10 K about 20 degC: the zero of the scale is not added twice."""
    found = parse_amount("68 ±18 degF", "temperature")
    assert (float(found.lower), float(found.upper)) == (pytest.approx(10), pytest.approx(30))


def test_an_absolute_pressure_becomes_gauge_once() -> None:
    """15 ±1 bara are 1.398675 ±0.1 MPa gauge: the air around counts in the value and not in its limits."""
    found = parse_amount("15 ±1 bara", "pressure")
    assert float(found.nominal) == pytest.approx(1.398675)
    assert float(found.upper - found.lower) == pytest.approx(0.2)


def test_an_expanded_uncertainty_is_two_standard_ones() -> None:
    """±U0.05 MPa is u = 0.025 MPa of a measured value (JCGM 100:2008, k = 2)."""
    found = parse_amount("1.40 ±U0.05 MPa", "pressure")
    assert found.measured and found.standard_uncertainty == Decimal("0.025")
    assert found.half_width(2.0) == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("text", "quantity", "told"),
    [
        pytest.param("1.4", "pressure", "unit is missing", id="no unit"),
        pytest.param("1.4 mm", "pressure", "MPa, kPa, bar, psi", id="another quantity"),
        pytest.param("4 Nm per bolt", "torque", "not a unit of torque", id="words behind"),
        pytest.param("64..60 ml", "volume", "reversed", id="reversed"),
        pytest.param("much", "volume", "not a volume", id="no number"),
        pytest.param("", "volume", "not a volume", id="nothing"),
        pytest.param("1" * 200 + " ml", "volume", "not a volume", id="endless"),
        pytest.param("5 wt", "viscosity", "not a unit of viscosity", id="a weight is no viscosity"),
    ],
)
def test_what_cannot_be_read_is_told_with_the_units_that_can(text: str, quantity: str, told: str) -> None:
    """A unit is never guessed."""
    with pytest.raises(InputError, match=r"(?s).+") as caught:
        parse_amount(text, quantity, field="place.charge")
    assert told in str(caught.value)
    assert caught.value.field == "place.charge"
