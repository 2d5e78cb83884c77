"""ISO 286-1 limits and fits for sizes up to and including 500 mm: tolerance classes, limits, fits.

The printed tables decide: the formulae of the standard, rounded, miss about one cell in five.
Sizes are exact Decimals in mm, deviations exact Decimals in µm, and no float is ever compared.
What no table gives is refused with ToleranceClassError, never guessed.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Final, NamedTuple

from schema.errors import ToleranceClassError
from schema.iso286_tables import (
    DELTA,
    HOLE_DEVIATIONS,
    LARGEST_SIZE_MM,
    SHAFT_DEVIATIONS,
    TOLERANCE_GRADES,
    sizes_covered,
    value_um,
)

GRADES: Final = ("01", "0", *(str(number) for number in range(1, 19)))
"""Standard tolerance grades from the finest to the coarsest; IT01 is finer than IT0."""

_CLEARANCE_LETTERS: Final = "a b c cd d e ef f fg g h"
_OTHER_LETTERS: Final = "js j k m n p r s t u v x y z za zb zc"
SHAFT_LETTERS: Final = (*_CLEARANCE_LETTERS.split(), *_OTHER_LETTERS.split())
"""Fundamental deviations of shafts; those of holes are the same in capitals."""

_LETTERS_LEFT_OUT: Final = frozenset("iloqw")
_J_COLUMNS: Final = {"j5": "j5_j6", "j6": "j5_j6", "j7": "j7", "j8": "j8", "J6": "J6", "J7": "J7", "J8": "J8"}
_FIELD: Final = "tolerance class"
_SHAPE: Final = re.compile(r"([A-Za-z]{1,2})([0-9]{1,2})")
_MOST_DECIMALS: Final = 20
"""A size with more places than this would no longer add exactly in 28 digits, and nobody means one."""


class ToleranceZone(NamedTuple):
    """A tolerance class at a nominal size: the two limit deviations, in µm, exact."""

    designation: str
    size_mm: Decimal
    lower_um: Decimal
    upper_um: Decimal
    is_hole: bool

    @property
    def lower_limit_mm(self) -> Decimal:
        """Lower limit of size, nominal size plus lower limit deviation."""
        return self.size_mm + self.lower_um.scaleb(-3)

    @property
    def upper_limit_mm(self) -> Decimal:
        """Upper limit of size, nominal size plus upper limit deviation."""
        return self.size_mm + self.upper_um.scaleb(-3)


class Fit(NamedTuple):
    """A hole and a shaft of one nominal size; a negative clearance is an interference."""

    hole: ToleranceZone
    shaft: ToleranceZone
    clearance_min_um: Decimal
    clearance_max_um: Decimal
    kind: str


def _refusal(given: str, problem: str, allowed: str = "", example: str = "H7") -> ToleranceClassError:
    return ToleranceClassError(field=_FIELD, given=given, problem=problem, allowed=allowed, example=example)


def looks_like_tolerance_class(text: str) -> bool:
    """Whether a text has the form of a tolerance class, so that it should be read, or refused, as one.

    One letter, or two that name a fundamental deviation in any mixture of capitals, then one or two digits.
    Wrong classes of that form (H19, i7, Js6) count too: `split_designation` then tells why they are wrong.

    >>> [looks_like_tolerance_class(text) for text in ("H7", "zc10", "JS9", "25", "mm2", "H7/g6")]
    [True, True, True, False, False, False]
    """
    match = _SHAPE.fullmatch(text.strip())
    return match is not None and (len(match[1]) == 1 or match[1].lower() in SHAFT_LETTERS)


def split_designation(text: str) -> tuple[str, str]:
    """Letters and grade of a tolerance class; capitals are a hole, small letters a shaft.

    Source     ISO 286-1; letters and grades as in Machine Drawing, Tables 15.1 to 15.3 pp. 213-221

    >>> split_designation("js6")
    ('js', '6')
    """
    match = re.fullmatch(r"([A-Za-z]+)([0-9]+)", text.strip())
    if match is None:
        raise _refusal(text, "is not letters followed by a grade number", "such as H7, f7, js6, JS9, zc10")
    letters, grade = match.groups()
    if letters.lower() not in SHAFT_LETTERS:
        problem = f"{letters} is not a fundamental deviation"
        if letters.lower() in _LETTERS_LEFT_OUT:
            problem += " (I, L, O, Q and W are left out, being easily misread)"
        raise _refusal(text, problem, f"shafts {', '.join(SHAFT_LETTERS)}; holes in capitals")
    if not (letters.islower() or letters.isupper()):
        allowed = "capitals for a hole, small letters for a shaft"
        raise _refusal(text, f"{letters} mixes capitals and small letters", allowed, "JS9")
    if grade not in GRADES:
        raise _refusal(text, f"grade IT{grade} does not exist", "01, 0, 1 to 18")
    return letters, grade


def _check_size(size_mm: Decimal, given: str) -> None:
    allowed = f"over 0 up to and including {LARGEST_SIZE_MM} mm"
    if not isinstance(size_mm, Decimal):
        raise _refusal(given, "the nominal size must be given as an exact decimal", allowed)
    if not size_mm.is_finite() or not 0 < size_mm <= LARGEST_SIZE_MM:
        raise _refusal(given, "the nominal size is outside the tables", allowed)
    if size_mm != round(size_mm, _MOST_DECIMALS):
        raise _refusal(given, f"the nominal size has more than {_MOST_DECIMALS} decimals", "fewer decimals")


def _not_up_to_1_mm(given: str, what: str) -> ToleranceClassError:
    return _refusal(given, f"{what} not used up to and including 1 mm", "sizes over 1 mm")


def _finer_or_equal(grade: str, limit: str) -> bool:
    return GRADES.index(grade) <= GRADES.index(limit)


def standard_tolerance_um(grade: str, size_mm: Decimal) -> Decimal:
    """Standard tolerance (width of the tolerance zone) of a grade at a nominal size, in µm.

    Equation   none: printed table; IT(n + 5) = 10 IT(n) from IT12 on
    Symbols    IT   returned   [µm]
               grade           [-]    "IT7" or "7"; "01" and "0" are the two finest
               D    size_mm    [mm]   steps are over ... up to and including ...
    Valid      0 < D <= 500; IT14 to IT18 only above 1 mm
    Source     Narayana, Kannaiah, Venkata Reddy, Machine Drawing, Table 15.1 p. 213

    >>> standard_tolerance_um("IT7", Decimal(30)), standard_tolerance_um("01", Decimal(3))
    (Decimal('21'), Decimal('0.3'))
    """
    number = grade.removeprefix("IT")
    if number not in GRADES:
        raise _refusal(grade, f"grade {grade!r} does not exist", "IT01, IT0, IT1 to IT18", "IT7")
    return _width(number, size_mm, f"{size_mm} {grade}")


def _width(grade: str, size_mm: Decimal, given: str) -> Decimal:
    _check_size(size_mm, given)
    if size_mm <= 1 and not _finer_or_equal(grade, "13"):
        raise _not_up_to_1_mm(given, "IT14 to IT18 are")
    return _printed(TOLERANCE_GRADES, f"IT{grade}_um", size_mm, given, f"IT{grade}")


def _printed(file: str, column: str, size_mm: Decimal, given: str, what: str) -> Decimal:
    value = value_um(file, column, size_mm)
    if value is None:
        raise _refusal(given, f"{what} has no value at {size_mm} mm", sizes_covered(file, column))
    return value


def _delta(letters: str, grade: str, size_mm: Decimal, given: str) -> Decimal:
    """Correction of a hole's upper limit deviation, so that M7/h6 fits like H7/m6; zero up to 3 mm."""
    if size_mm <= 3:
        return Decimal(0)
    if _finer_or_equal(grade, "2"):
        raise _refusal(
            given, f"{letters}{grade} has no value above 3 mm", "grades 3 and coarser", f"{letters}6"
        )
    return _printed(DELTA, f"IT{grade}_um", size_mm, given, f"the correction of {letters}{grade}")


def _fundamental_deviation(letters: str, grade: str, size_mm: Decimal, given: str) -> tuple[Decimal, bool]:
    """The tabulated limit deviation and whether it is the upper one (js is not tabulated)."""
    designation, is_hole = letters + grade, letters.isupper()
    file = HOLE_DEVIATIONS if is_hole else SHAFT_DEVIATIONS
    if letters in ("a", "b", "A", "B") and size_mm <= 1:
        raise _not_up_to_1_mm(given, f"{letters} is")
    if letters == "N" and size_mm <= 1 and not _finer_or_equal(grade, "8"):
        raise _not_up_to_1_mm(given, "N above IT8 is")
    if letters.lower() in _CLEARANCE_LETTERS.split():
        side = "lower" if is_hole else "upper"
        return _printed(file, f"{letters}_{side}_um", size_mm, given, letters), not is_hole
    if letters in ("j", "J"):
        if designation not in _J_COLUMNS:
            known = ", ".join(name for name in _J_COLUMNS if name[0] == letters)
            raise _refusal(given, f"{designation} does not exist", known, f"{letters}7")
        side = "upper" if is_hole else "lower"
        return _printed(file, f"{_J_COLUMNS[designation]}_{side}_um", size_mm, given, designation), is_hole
    if not is_hole:
        column = letters
        if letters == "k":
            column = "k4_to_k7" if grade in ("4", "5", "6", "7") else "k_other_grades"
        return _printed(file, f"{column}_lower_um", size_mm, given, letters), False
    if designation == "M6" and 250 < size_mm <= 315:
        return Decimal(-9), True  # printed exception, not -20 + 9 = -11: Machine Drawing p. 219, footnote
    if letters in ("K", "M", "N"):
        if not _finer_or_equal(grade, "8"):
            return _printed(
                file, f"{letters}_above_IT8_upper_um", size_mm, given, f"{letters} above IT8"
            ), True
        base = _printed(file, f"{letters}_to_IT8_upper_before_delta_um", size_mm, given, letters)
        return base + _delta(letters, grade, size_mm, given), True
    base = _printed(file, f"{letters}_above_IT7_upper_um", size_mm, given, letters)
    return base + (_delta(letters, grade, size_mm, given) if _finer_or_equal(grade, "7") else 0), True


def tolerance_zone(designation: str, size_mm: Decimal) -> ToleranceZone:
    """Limit deviations of a tolerance class at a nominal size.

    Equation   holes   A to H     EI printed,          ES = EI + IT
                       J to ZC    ES printed + delta,  EI = ES - IT
               shafts  a to h     es printed,          ei = es - IT
                       j to zc    ei printed,          es = ei + IT
               js, JS             +IT/2 and -IT/2
    Symbols    EI, ei  lower_um   [µm]
               ES, es  upper_um   [µm]
               IT      standard_tolerance_um            [µm]
               delta   IT(n) - IT(n-1), printed         [µm]   K, M, N to IT8, P to ZC to IT7, above 3 mm
               D       size_mm                          [mm]
    Valid      0 < D <= 500; t above 24, v above 14, y above 18; cd, ef, fg to 10; j8 to 3; K above IT8 to 3;
               a, b, N above IT8 and IT14 to IT18 above 1; the upper end of a range belongs to it
    Source     Narayana, Kannaiah, Venkata Reddy, Machine Drawing, Tables 15.1 to 15.3 pp. 213-221;
               Machinery's Handbook, 31st ed., Table 6a pp. 768-769; ISO 286-2:1988/Cor.1:2006
    Notes      js of an odd tolerance keeps the half micrometre (8 js7 is ±7.5); Machine Drawing p. 215 lets
               js7 to js11 take the even value below instead (±7), which is not returned here.
               K, M, N and P to ZC finer than IT3 are refused above 3 mm: delta is printed from IT3 on.

    >>> zone = tolerance_zone("K7", Decimal(25))   # Table 15.3 with delta 8
    >>> zone.lower_um, zone.upper_um, zone.upper_limit_mm
    (Decimal('-15'), Decimal('6'), Decimal('25.006'))
    """
    letters, grade = split_designation(designation)
    name, given = letters + grade, f"{size_mm} {letters}{grade}"
    width = _width(grade, size_mm, given)
    is_hole = letters.isupper()
    if letters.lower() == "js":
        half = width / 2
        return ToleranceZone(name, size_mm, -half, half, is_hole)
    deviation, is_upper = _fundamental_deviation(letters, grade, size_mm, given)
    lower, upper = (deviation - width, deviation) if is_upper else (deviation, deviation + width)
    return ToleranceZone(name, size_mm, lower, upper, is_hole)


def fit(hole: ToleranceZone, shaft: ToleranceZone) -> Fit:
    """Clearances and kind of fit of a hole and a shaft of the same nominal size, in either order.

    Equation   clearance_min = EI - es;  clearance_max = ES - ei   [µm], negative is interference
    Valid      one hole, one shaft, equal nominal sizes
    Source     ISO 286-1: a clearance fit has clearance_min >= 0, an interference fit clearance_max <= 0,
               any other is a transition fit
    Notes      nominal limits at 20 °C; form and temperature are not in it

    >>> fit(tolerance_zone("H7", Decimal(25)), tolerance_zone("g6", Decimal(25))).kind
    'clearance'
    """
    given = f"{hole.size_mm} {hole.designation}/{shaft.size_mm} {shaft.designation}"
    if hole.is_hole == shaft.is_hole:
        both = "holes" if hole.is_hole else "shafts"
        raise _refusal(
            given, f"both are {both}", "one hole (capitals) and one shaft (small letters)", "H7/g6"
        )
    if hole.size_mm != shaft.size_mm:
        raise _refusal(given, "the nominal sizes differ", "one nominal size for hole and shaft", "25 H7/g6")
    if shaft.is_hole:
        hole, shaft = shaft, hole
    least, most = hole.lower_um - shaft.upper_um, hole.upper_um - shaft.lower_um
    kind = "clearance" if least >= 0 else "interference" if most <= 0 else "transition"
    return Fit(hole, shaft, least, most, kind)
