"""A length with limits, read from the notation of drawings and sheets, exact in decimals.

The grammar (spaces are free, the unit stands once, after any number):

    length     [ø] size [tolerance] [unit] | [ø] size range size [unit] | [ø] readings uncertainty [unit]
    size       12.70   12,68   63/64   1 3/8
    tolerance  ±0.05   +0.05/-0.02   +0.021/0   0 -0.02   H7 (ISO 286)
    range      12.68..12.70   12.68 to 12.70   12.68 - 12.70
    readings   12.672   12.672; 12.675; 12.671
    uncertainty  ±U0.02 (expanded, k = 2)   by micrometer (a usual figure for the instrument)

A tolerance class says millimetres by itself, since ISO 286-1 tabulates nominal sizes in mm; for any
other text the unit must be given, or be implied by the place it comes from (a sheet's column).
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple

from schema.errors import DimensionError, InputError
from schema.instruments import instrument, used_on
from schema.notation import EXAMPLES, Token, number, tokens
from schema.units import LENGTH_SPELLINGS, length_to_mm

LARGEST_MM = Decimal(3000)  # beyond any part of a damper, and beyond what ISO 3601-1 and ISO 286-1 cover
# Readings of one size that differ by more than both hold a slip; own judgement, no source.
LARGEST_SPREAD = Decimal("0.01")  # of their mean
LARGEST_SPREAD_MM = Decimal("0.3")
COVERAGE_FACTOR = Decimal(2)  # U = 2 u, about 95 % for a normal distribution (JCGM 100:2008, 6.3.3)


class Origin(StrEnum):
    """Where a dimension comes from."""

    DRAWN = "drawn"
    MEASURED = "measured"
    STANDARD = "standard"


class Dimension(NamedTuple):
    """A length [mm] with its limits.

    ``nominal``, ``lower`` and ``upper`` are exact decimals; for a measured dimension all three are the
    value read (the mean of the readings) and ``standard_uncertainty`` is u [mm]. ``text`` is what the
    person wrote. ``spread`` is the difference between the largest and the smallest reading.
    """

    nominal: Decimal
    lower: Decimal
    upper: Decimal
    text: str
    origin: Origin = Origin.DRAWN
    standard_uncertainty: Decimal = Decimal(0)
    spread: Decimal = Decimal(0)
    instrument: str = ""
    tolerance_class: str = ""
    source: str = ""

    @property
    def measured(self) -> bool:
        """Whether an instrument gave this value."""
        return self.origin is Origin.MEASURED

    @property
    def toleranced(self) -> bool:
        """Whether anything is known of how far the real size may lie from the nominal one."""
        return self.standard_uncertainty > 0 if self.measured else self.lower != self.upper

    @property
    def middle(self) -> float:
        """Middle of the limits [mm]."""
        return float((self.lower + self.upper) / 2)

    def half_width(self, guard_factor: float) -> float:
        """Half the interval in which the real size is taken to lie [mm].

        For a drawn dimension half the tolerance; for a measured one ``guard_factor`` times u.
        """
        if self.measured:
            return float(self.standard_uncertainty) * guard_factor
        return float((self.upper - self.lower) / 2)

    def __str__(self) -> str:
        return self.text


def exactly(value: Decimal | str | float, *, text: str = "", source: str = "") -> Dimension:
    """A dimension without tolerance, from a number of millimetres."""
    size = Decimal(str(value))
    return Dimension(size, size, size, text or f"{size} mm", Origin.DRAWN, source=source)


def between(
    lower: Decimal, upper: Decimal, *, nominal: Decimal | None = None, text: str, source: str
) -> Dimension:
    """A dimension of a standard, from its limits of size [mm]."""
    middle = (lower + upper) / 2 if nominal is None else nominal
    return _checked(
        Dimension(middle, lower, upper, text, Origin.STANDARD, source=source), field="", allow_zero=False
    )


def parse_dimension(
    text: str,
    *,
    field: str = "dimension",
    implied_unit: str | None = None,
    measured_on: str = "outside",
    allow_zero: bool = False,
) -> Dimension:
    """Read a length with limits.

    ``implied_unit`` is the unit that the place of the text gives (a column headed mm); without it a
    text without a unit is refused. ``measured_on`` (outside, bore, recess, slot, depth, rubber or
    indirect) takes the larger error that a calliper has inside, in depth, or on a part that gives way.
    Raises DimensionError naming ``field``.

    >>> d = parse_dimension("0.500 +0/-0.0005 in")
    >>> d.lower, d.upper
    (Decimal('12.68730'), Decimal('12.70000'))
    >>> parse_dimension("20 H7").upper
    Decimal('20.021')
    >>> parse_dimension("1 1/4 in").nominal
    Decimal('31.750')
    """
    given = text
    if not isinstance(text, str) or not text.strip():
        raise DimensionError(field=field, given=text, problem="nothing is given", example=EXAMPLES)
    marks = tokens(text, field=field)
    reader = _Reader(marks, given=given, field=field, measured_on=measured_on)
    return _checked(reader.read(implied_unit), field=field, allow_zero=allow_zero)


class _Reader:
    """One pass over the tokens of one text; every refusal says which part could not be used."""

    def __init__(self, marks: list[Token], *, given: str, field: str, measured_on: str) -> None:
        self.given = given
        self.field = field
        self.measured_on = measured_on
        self.unit = ""
        self.marks = [mark for mark in marks if not self._take_unit(mark)]
        self.at = 0

    def read(self, implied_unit: str | None) -> Dimension:
        self._skip("diameter")
        first = self._size()
        kind = self._kind()
        if kind == "zone":
            self._refuse_power_of_ten()
            return self._with_zone(first)
        if kind == "mark" and self.marks[self.at].text == "/":
            raise self._error(
                "this is no fraction of a drawing", allowed="halves to 128ths", example="63/64 in"
            )
        self.unit = self.unit or implied_unit or ""
        if not self.unit:
            raise self._error("the unit is missing", allowed="mm or in after the number", example="12.70 mm")
        if kind == "range" or self._range_by_dash():
            return self._with_range(first)
        if kind == "mark" or kind in ("uncertainty", "by"):
            return self._measured(first)
        if kind == "plusminus":
            return self._with_plusminus(first)
        if kind in ("sign", "number"):
            return self._with_deviations(first)
        if kind:
            raise self._unread()
        return self._made(first, first, first)

    # -- the forms ---------------------------------------------------------------------------------

    def _with_zone(self, nominal: Decimal) -> Dimension:
        from schema.iso286 import tolerance_zone  # its tables are read only for texts that use them

        designation = self._next().text
        self._end()
        size = length_to_mm(nominal, self.unit or "mm")
        try:
            zone = tolerance_zone(designation, size)
        except InputError as error:
            raise DimensionError(
                field=self.field,
                given=self.given,
                problem=error.problem,
                allowed=error.allowed,
                example=error.example,
            ) from error
        return Dimension(
            size,
            zone.lower_limit_mm,
            zone.upper_limit_mm,
            self.given,
            tolerance_class=designation,
        )

    def _refuse_power_of_ten(self) -> None:
        """``1e3`` may be meant as a thousand or as the class e3: neither is guessed."""
        size, zone = self.marks[self.at - 1], self.marks[self.at]
        if zone.text[0] in "eE" and zone.start == size.start + len(size.text):
            raise self._error(
                f"{size.text}{zone.text} may be a power of ten or a tolerance class",
                allowed=f"{size.text} {zone.text} for the class; powers of ten are not read",
            )

    def _with_range(self, low: Decimal) -> Dimension:
        self._next()
        high = self._size()
        self._end()
        if high < low:
            raise self._error(
                "the limits are reversed: the second is smaller than the first", example="12.68..12.70 mm"
            )
        return self._made((low + high) / 2, low, high)

    def _with_plusminus(self, nominal: Decimal) -> Dimension:
        self._next()
        if self._kind() == "uncertainty":
            return self._measured(nominal)
        deviation = self._size()
        self._end()
        return self._made(nominal, nominal - deviation, nominal + deviation)

    def _with_deviations(self, nominal: Decimal) -> Dimension:
        first = self._deviation()
        if self._kind() == "mark" and self.marks[self.at].text == "/":
            self._next()
        if not self._kind():
            raise self._error(
                "only one limit deviation is given", allowed="both, or ±", example="20 +0.021/0 mm"
            )
        second = self._deviation()
        self._end()
        low, high = sorted((first, second))
        return self._made(nominal, nominal + low, nominal + high)

    def _measured(self, first: Decimal) -> Dimension:
        readings = [first]
        while self._kind() == "mark" and self.marks[self.at].text == ";":
            self._next()
            readings.append(self._size())
        mean = sum(readings, Decimal(0)) / len(readings)
        name, u = self._uncertainty()
        if len(readings) > 1:
            self._refuse_slip(max(readings) - min(readings), mean)
            variance = sum(((one - mean) ** 2 for one in readings), Decimal(0)) / (len(readings) - 1)
            u = (u * u + length_to_mm(variance.sqrt(), self.unit) ** 2 / len(readings)).sqrt()
        value = length_to_mm(mean, self.unit)
        return Dimension(
            value,
            value,
            value,
            self.given,
            Origin.MEASURED,
            standard_uncertainty=u,
            spread=length_to_mm(max(readings) - min(readings), self.unit),
            instrument=name,
        )

    def _refuse_slip(self, spread: Decimal, mean: Decimal) -> None:
        """One size does not read so differently; a slipped point would be averaged in without a word."""
        spread_mm = length_to_mm(spread, self.unit)
        if spread_mm > max(LARGEST_SPREAD_MM, LARGEST_SPREAD * length_to_mm(mean, self.unit)):
            raise self._error(
                f"the readings differ by {spread.normalize():f} {self.unit}; a slip in one of them?",
                example="12.672; 12.675; 12.671 mm by micrometer",
            )

    def _uncertainty(self) -> tuple[str, Decimal]:
        """Name of the instrument (or "") and u of one reading [mm]."""
        if self._kind() == "plusminus":
            self._next()
        if self._kind() == "uncertainty":
            self._next()
            if self._kind() == "mark" and self.marks[self.at].text == "=":
                self._next()
            expanded = self._size()
            self._end()
            return "", length_to_mm(expanded, self.unit) / COVERAGE_FACTOR
        if self._kind() == "by":
            self._next()
            name = " ".join(mark.text for mark in self.marks[self.at :])
            tool = used_on(instrument(name, field=self.field), self.measured_on)
            return tool.key, tool.standard_uncertainty_mm
        raise self._error(
            "readings need their uncertainty",
            allowed="±U and the expanded uncertainty, or by and the instrument",
            example="12.672; 12.675; 12.671 mm by micrometer",
        )

    # -- the pieces --------------------------------------------------------------------------------

    def _take_unit(self, mark: Token) -> bool:
        """Keep the unit aside; units after ``by`` are words of the instrument's name."""
        unit = LENGTH_SPELLINGS.get(mark.text.lower()) if mark.kind == "word" else None
        if unit is None or mark.text == "M":  # M8 is a thread, not eight metres
            return False
        if self.unit and unit != self.unit:
            raise self._error(f"two units in one dimension, {self.unit} and {unit}", example=EXAMPLES)
        self.unit = unit
        return True

    def _kind(self) -> str:
        return self.marks[self.at].kind if self.at < len(self.marks) else ""

    def _next(self) -> Token:
        mark = self.marks[self.at]
        self.at += 1
        return mark

    def _skip(self, kind: str) -> None:
        if self._kind() == kind:
            self.at += 1

    def _size(self) -> Decimal:
        if self._kind() == "sign":
            raise self._error("a length is not negative", example="12.70 mm")
        if self._kind() != "number":
            raise self._unread()
        return number(self._next(), field=self.field, given=self.given)

    def _deviation(self) -> Decimal:
        sign = self._next().text if self._kind() == "sign" else ""
        value = self._size()
        if value and not sign:
            raise self._error("a limit deviation needs its sign", example="20 +0.021/0 mm")
        return -value if sign == "-" else value

    def _range_by_dash(self) -> bool:
        """``12.68 - 12.70`` and ``12.68-12.70`` are ranges; ``12.70 -0.02`` begins a deviation."""
        if self._kind() != "sign" or self.marks[self.at].text != "-" or self.at + 2 != len(self.marks):
            return False
        before, dash, after = self.marks[self.at - 1 : self.at + 2]
        space_before = dash.start > before.start + len(before.text)
        space_after = after.start > dash.start + 1
        return after.kind == "number" and space_before == space_after

    def _made(self, nominal: Decimal, lower: Decimal, upper: Decimal) -> Dimension:
        return Dimension(
            length_to_mm(nominal, self.unit),
            length_to_mm(lower, self.unit),
            length_to_mm(upper, self.unit),
            self.given,
        )

    def _end(self) -> None:
        if self._kind():
            raise self._unread()

    def _unread(self) -> DimensionError:
        if self.at >= len(self.marks):
            return self._error("a number is missing", example=EXAMPLES)
        mark = self.marks[self.at]
        return self._error(
            f"cannot use {mark.text!r} here (character {mark.start + 1})",
            allowed="one size, one tolerance, one unit",
            example=EXAMPLES,
        )

    def _error(self, problem: str, *, allowed: str = "", example: str = "") -> DimensionError:
        return DimensionError(
            field=self.field, given=self.given, problem=problem, allowed=allowed, example=example
        )


def _checked(dimension: Dimension, *, field: str, allow_zero: bool) -> Dimension:
    """Refuse what cannot be the length of anything in a damper."""
    smallest, largest = dimension.lower, dimension.upper
    expanded = COVERAGE_FACTOR * dimension.standard_uncertainty
    problem = ""
    if dimension.measured and expanded >= dimension.nominal > 0:
        problem = f"U = {float(expanded):.3g} mm is as large as the size itself; a slip in a reading?"
    elif smallest > largest:
        problem = "the limits are reversed"
    elif largest > LARGEST_MM:
        problem = f"{largest.normalize():f} mm is beyond any part of a damper; is the unit right?"
    elif smallest < 0 or (smallest == 0 and not allow_zero):
        problem = "zero is not a length" if largest == 0 else "the lower limit is not above zero"
    if problem:
        raise DimensionError(
            field=field,
            given=dimension.text,
            problem=problem,
            allowed=f"above 0 and up to {LARGEST_MM} mm",
            example="12.70 ±0.02 mm",
        )
    return dimension
