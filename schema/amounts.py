"""A physical quantity that is not a length, with its limits: a pressure, a volume, a force, a torque.

It is written as a drawing writes a size: ``1.40 ±0.05 MPa``, ``200 psi``, ``60..64 ml``, ``2.1 ±U0.05 MPa``
(a measured value and its expanded uncertainty, k = 2). It answers to the same names as a Dimension, so that
findings treat both alike.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, NamedTuple

from schema.dimension import COVERAGE_FACTOR, Origin
from schema.errors import InputError
from schema.fields import Meaning, field_of, refuse_measured_limit
from schema.model import REQUIRED
from schema.notation import LONGEST_TEXT, normalised
from schema.units import PRESSURE_TO_MPA, gauge_pressure_mpa, temperature_deg_c

_POUND_FORCE = Decimal("4.4482216152605")  # N, exact: 0.45359237 kg x 9.80665 m/s2
_INCH = Decimal("25.4")

# Spellings in small letters, to the unit that is stored. Each factor is tested against pint.
UNITS: Mapping[str, tuple[str, Mapping[str, Decimal]]] = {
    "volume": (
        "mm3",
        {
            "mm3": Decimal(1),
            "cm3": Decimal(1000),
            "cc": Decimal(1000),
            "ml": Decimal(1000),
            "l": Decimal(1_000_000),
            "in3": _INCH**3,
        },
    ),
    "force": ("N", {"n": Decimal(1), "kn": Decimal(1000), "lbf": _POUND_FORCE, "kgf": Decimal("9.80665")}),
    "torque": (
        "N mm",
        {
            "nm": Decimal(1000),
            "n m": Decimal(1000),
            "n mm": Decimal(1),
            "nmm": Decimal(1),
            "n cm": Decimal(10),
            "ncm": Decimal(10),
            "lbf in": _POUND_FORCE * _INCH,
            "in lbf": _POUND_FORCE * _INCH,
            "in-lb": _POUND_FORCE * _INCH,
            "in lb": _POUND_FORCE * _INCH,
            "lbf ft": _POUND_FORCE * _INCH * 12,
            "ft lbf": _POUND_FORCE * _INCH * 12,
            "ft-lb": _POUND_FORCE * _INCH * 12,
            "ft lb": _POUND_FORCE * _INCH * 12,
            "kgf cm": Decimal("98.0665"),
        },
    ),
    "stress": (
        "MPa",
        {
            **PRESSURE_TO_MPA,
            "n/mm2": Decimal(1),
            "gpa": Decimal(1000),
            "ksi": PRESSURE_TO_MPA["psi"] * 1000,
        },
    ),
    # Of the air around, say: the same with and without the a that marks absolute.
    "absolute pressure": (
        "MPa",
        {**PRESSURE_TO_MPA, **{f"{one}a": to for one, to in PRESSURE_TO_MPA.items()}},
    ),
    "viscosity": ("mm2/s", {"mm2/s": Decimal(1), "cst": Decimal(1)}),
    "density": (
        "kg/m3",
        {"kg/m3": Decimal(1), "g/cm3": Decimal(1000), "g/ml": Decimal(1000), "kg/l": Decimal(1000)},
    ),
    "temperature": ("degC", {}),
    "pressure": ("MPa", {}),
}


class Amount(NamedTuple):
    """A quantity with its limits, in its stored ``unit``; the fields are those of a Dimension."""

    nominal: Decimal
    lower: Decimal
    upper: Decimal
    text: str
    unit: str
    origin: Origin = Origin.DRAWN
    standard_uncertainty: Decimal = Decimal(0)
    instrument: str = ""
    source: str = ""

    @property
    def measured(self) -> bool:
        """Whether an instrument gave this value."""
        return self.origin is Origin.MEASURED

    @property
    def toleranced(self) -> bool:
        """Whether anything is known of how far the real value may lie from the nominal one."""
        return self.standard_uncertainty > 0 if self.measured else self.lower != self.upper

    @property
    def middle(self) -> float:
        """Middle of the limits."""
        return float((self.lower + self.upper) / 2)

    def half_width(self, guard_factor: float) -> float:
        """Half the interval in which the real value is taken to lie, as of a Dimension."""
        if self.measured:
            return float(self.standard_uncertainty) * guard_factor
        return float((self.upper - self.lower) / 2)

    def __str__(self) -> str:
        return self.text


_NUMBER = r"[+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?"
_WRITTEN = re.compile(
    rf"""(?P<first>{_NUMBER})\s*
    (?:
        (?:\.\.+|\bto\b)\s*(?P<last>{_NUMBER})
      | ±\s*U\s*(?P<expanded>{_NUMBER})
      | ±\s*(?P<both>{_NUMBER})
      | \+\s*(?P<plus>\d[\d.,]*)\s*/\s*-?\s*(?P<minus>\d[\d.,]*)
    )?\s*(?P<unit>[A-Za-z°"][\w\s/°.-]*)?$""",
    re.VERBOSE,
)


def parse_amount(text: str, quantity: str, *, field: str = "amount", example: str = "") -> Amount:
    """Read a quantity with limits; a unit is never guessed. Raises InputError naming ``field``.

    ``quantity`` is a key of UNITS. Pressure is gauge unless its unit says absolute (bara, psia).

    >>> parse_amount("62 ±2 ml", "volume").upper
    Decimal('64000')
    >>> parse_amount("4 N m", "torque").nominal
    Decimal('4000')
    """
    found = _WRITTEN.match(normalised(text)) if len(text) <= LONGEST_TEXT else None
    unit_text = ((found and found["unit"]) or "").strip()
    stored = UNITS[quantity][0]

    def refuse(problem: str) -> InputError:
        allowed = ", ".join(dict.fromkeys(_ALLOWED.get(quantity, tuple(UNITS[quantity][1]))))
        return InputError(
            field=field, given=text, problem=problem, allowed=f"units: {allowed}", example=example
        )

    if found is None:
        raise refuse(f"this is not a {quantity}: a number, limits where known, and a unit are needed")
    if not unit_text:
        raise refuse("the unit is missing")

    def value(written: str, *, difference: bool = False) -> Decimal:
        number = Decimal(written.replace(",", "."))
        try:
            if quantity == "temperature":
                zero = temperature_deg_c(Decimal(0), unit_text) if difference else Decimal(0)
                return temperature_deg_c(number, unit_text) - zero
            if quantity == "pressure":
                zero = gauge_pressure_mpa(Decimal(0), unit_text) if difference else Decimal(0)
                return gauge_pressure_mpa(number, unit_text) - zero
        except InputError as error:
            raise error.for_field(field) from None
        factor = UNITS[quantity][1].get(
            " ".join(unit_text.lower().replace("³", "3").replace("²", "2").split())
        )
        if factor is None:
            raise refuse(f"{unit_text!r} is not a unit of {quantity} known here")
        return number * factor

    first = value(found["first"])
    if found["expanded"]:
        u = value(found["expanded"], difference=True) / COVERAGE_FACTOR
        if u < 0:
            raise refuse("an uncertainty is not negative")
        return Amount(first, first, first, text, stored, Origin.MEASURED, u)
    lower = upper = first
    if found["last"]:
        upper = value(found["last"])
    elif found["both"]:
        half = abs(value(found["both"], difference=True))
        lower, upper = first - half, first + half
    elif found["plus"]:
        upper = first + value(found["plus"], difference=True)
        lower = first - value(found["minus"], difference=True)
    if lower > upper:
        raise refuse("the limits are reversed")
    return Amount((lower + upper) / 2 if found["last"] else first, lower, upper, text, stored)


_ALLOWED = {
    "pressure": ("MPa", "kPa", "bar", "psi (gauge; bara, psia for absolute)"),
    "temperature": ("degC", "degF", "K"),
}


def amount(
    quantity: str,
    doc: str,
    example: str,
    *,
    low: float,
    high: float,
    required: bool = False,
    default: Amount | None = None,
    limit: bool = False,
) -> Any:
    """A field that holds an Amount of a quantity between two bounds in its stored unit, inclusive.

    A ``limit`` is what somebody allows, so that no measured value is one.
    """

    def read(value: Any, path: str) -> Amount:
        if isinstance(value, Amount):
            return value
        found = parse_amount(str(value), quantity, field=path, example=example)
        if limit:
            refuse_measured_limit(found.measured, value, path, example)
        if not (Decimal(str(low)) <= found.lower and found.upper <= Decimal(str(high))):
            raise InputError(
                field=path,
                given=value,
                problem=f"{float(found.upper):g} {found.unit} is absurd here; is the unit right?",
                allowed=f"{low:g} to {high:g} {found.unit}",
                example=example,
            )
        return found

    return field_of(Meaning(doc, example, quantity, read), REQUIRED if required else default)
