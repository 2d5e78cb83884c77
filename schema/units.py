"""The closed list of units and their exact factors to the stored ones: mm, MPa (gauge), degC.

The factors are exact decimals, each checked against pint in ``tests/schema/test_units.py``.
pint itself never reads people's text and is not imported here: ``quantity`` hands a stored value
to it on demand, for those who calculate with units in Python.
"""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from schema.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Mapping

LENGTH_TO_MM: Mapping[str, Decimal] = {
    "mm": Decimal(1),
    "cm": Decimal(10),
    "m": Decimal(1000),
    "um": Decimal("0.001"),
    "in": Decimal("25.4"),  # exact: international inch, 1959
    "thou": Decimal("0.0254"),
}

LENGTH_SPELLINGS: Mapping[str, str] = {
    "mm": "mm",
    "millimetre": "mm",
    "millimeter": "mm",
    "cm": "cm",
    "m": "m",
    "um": "um",
    "micron": "um",
    "microns": "um",
    "in": "in",
    "in.": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "thou": "thou",
    "mil": "thou",
}

# Pound-force per square inch: 0.45359237 kg x 9.80665 m/s2 over (0.0254 m)2, each exact by definition.
_PSI_IN_MPA = Decimal("4.4482216152605") / Decimal("0.00064516") / Decimal(1_000_000)

PRESSURE_TO_MPA: Mapping[str, Decimal] = {
    "mpa": Decimal(1),
    "kpa": Decimal("0.001"),
    "pa": Decimal("0.000001"),
    "bar": Decimal("0.1"),
    "psi": _PSI_IN_MPA,
}

STANDARD_ATMOSPHERE_MPA = Decimal("0.101325")  # CGPM 1954, exact

STORED_UNIT_OF: Mapping[str, str] = {"length": "mm", "pressure": "MPa", "temperature": "degC"}


def length_to_mm(value: Decimal, unit: str) -> Decimal:
    """Turn a length into millimetres, exactly.

    >>> length_to_mm(Decimal("0.5"), "in")
    Decimal('12.70')
    """
    return value * LENGTH_TO_MM[unit]


def gauge_pressure_mpa(value: Decimal, unit: str) -> Decimal:
    """Turn a pressure into gauge MPa; a unit that ends in ``a`` (bara, psia) is absolute.

    The standard atmosphere stands for the air pressure of the day, so a gauge value made from an
    absolute one is good to about 0.003 MPa at sea level.

    >>> gauge_pressure_mpa(Decimal(20), "bar")
    Decimal('2.0')
    >>> gauge_pressure_mpa(Decimal("11.01325"), "bara")
    Decimal('1.000000')
    """
    lowered = unit.lower()
    if lowered in PRESSURE_TO_MPA:
        return value * PRESSURE_TO_MPA[lowered]
    if lowered[:-1] in PRESSURE_TO_MPA and lowered[-1] == "g":
        return value * PRESSURE_TO_MPA[lowered[:-1]]
    if lowered[:-1] in PRESSURE_TO_MPA and lowered[-1] == "a":
        return value * PRESSURE_TO_MPA[lowered[:-1]] - STANDARD_ATMOSPHERE_MPA
    raise InputError(
        field="pressure",
        given=unit,
        problem="this unit of pressure is not known",
        allowed="MPa, kPa, bar, psi (gauge; write bara or psia for absolute)",
        example="2.5 MPa",
    )


def temperature_deg_c(value: Decimal, unit: str) -> Decimal:
    """Turn a temperature into degrees Celsius.

    >>> temperature_deg_c(Decimal(212), "degF")
    Decimal('100')
    """
    match unit.lower().replace("°", "").replace("deg", "").strip():
        case "c" | "celsius":
            return value
        case "f" | "fahrenheit":
            return (value - 32) * 5 / 9
        case "k" | "kelvin":
            return value - Decimal("273.15")
    raise InputError(
        field="temperature",
        given=unit,
        problem="this unit of temperature is not known",
        allowed="degC, degF, K",
        example="-10..60 degC",
    )


def quantity(value: float, unit: str) -> Any:
    """A stored value as a pint quantity, for calculation with units outside this project.

    >>> quantity(25.4, "mm").to("inch").magnitude
    1.0
    """
    import pint

    registry = pint.get_application_registry()  # type: ignore[no-untyped-call]
    return registry.Quantity(value, unit)
