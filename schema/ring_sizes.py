"""Ring sizes of published standards: AS568, ISO 3601-1 class B, BS 4518, JIS B 2401.

A size carries its tolerances, its source and how well each figure is confirmed. AS568 is an inch
standard: its millimetres here are the printed inches times 25.4, exact, not a rounded column.
1.80 and 1.78, 2.65 and 2.62, 3.55 and 3.53 mm are different sections and stay apart.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import NamedTuple

from schema.dimension import Dimension, between
from schema.errors import InputError, UnknownName
from schema.nearest import nearest
from schema.tables import rows

_INCH = Decimal("25.4")
# Patterns are compiled when they are first tried: most codes are of the first kind.
_AS568_TEXT = r"(?:as[\s-]*568[a-z]?[\s-]*|dash\s*)?-?(\d{1,3})"
_METRIC_TEXT = (
    r"(?:iso\s*3601(?:-1)?[\s-]*(?:class\s*)?b?[\s:]*)?(\d+(?:[.,]\d+)?)\s*[x×]\s*(\d+(?:[.,]\d+)?)\s*(?:mm)?"
)
_BS_TEXT = r"bs\s*4518[\s-]*(\d{4})-(\d{2})"
_JIS_TEXT = r"jis(?:\s*b\s*2401)?[\s-]*([pg]\d+(?:\.\d+)?[a-z]?)"

# Grades from the best to the worst; a size is worth no more than its weaker figure.
GRADES = (
    "published_twice",
    "published_once",
    "standard",
    "derived",
    "disputed",
    "no_tolerance",
    "from_memory",
)


class RingSize(NamedTuple):
    """A size of a standard: d1 and d2 with their limits, the source and the grade of each."""

    code: str
    standard: str
    inside_diameter: Dimension
    cross_section: Dimension
    inside_diameter_grade: str
    tolerance_grade: str
    source: str

    @property
    def grade(self) -> str:
        """The weaker of the two grades."""
        return max(self.inside_diameter_grade, self.tolerance_grade, key=GRADES.index)


def ring_size(code: str, *, field: str = "size") -> RingSize:
    """Find a standard size by its code: 214, AS568-214, ISO3601-B 20x2.65, BS4518-0545-30, JIS-G25.

    A bare ``20x2.65`` is read as ISO 3601-1 class B. Raises UnknownName with near codes.

    >>> ring_size("214").inside_diameter.upper
    Decimal('25.2476')
    """
    text = " ".join(str(code).replace("_", "-").split())
    if match := re.fullmatch(_AS568_TEXT, text, re.IGNORECASE):
        return _as568(match[1].zfill(3), field=field, given=code)
    if match := re.fullmatch(_BS_TEXT, text, re.IGNORECASE):
        return _other("BS4518", f"{match[1]}-{match[2]}", field=field, given=code)
    if match := re.fullmatch(_JIS_TEXT, text, re.IGNORECASE):
        return _other("JIS", match[1].upper(), field=field, given=code)
    if match := re.fullmatch(_METRIC_TEXT, text, re.IGNORECASE):
        return _class_b(_decimal(match[1]), _decimal(match[2]), field=field, given=code)
    raise UnknownName(
        field=field,
        given=code,
        problem="this is not a size code of a standard that is known here",
        allowed="AS568 (214), ISO 3601-1 class B (20x2.65), BS 4518 (BS4518-0545-30), JIS B 2401 (JIS-G25)",
        example="AS568-214",
    )


def as568_codes() -> tuple[str, ...]:
    """All AS568 codes in order."""
    return tuple(row["code"] for row in rows("as568"))


def class_b_inside_diameter_tolerance_mm(inside_diameter_mm: Decimal) -> Decimal:
    """Tolerance of d1 by ISO 3601-1 class B [mm], half of the band.

    Equation   t = 0.009 d1^0.95 + 0.11, rounded to 0.01 mm
    Source     rtdygert.com, Tolerances for Metric O-Rings, stating ISO 3601-1 class B. That page prints
               the exponent as 0.93, but all eight values of its own table follow from 0.95.
    Valid      0 < d1 <= 660 mm

    >>> class_b_inside_diameter_tolerance_mm(Decimal(640))
    Decimal('4.28')
    """
    size = float(inside_diameter_mm)
    return Decimal(str(0.009 * size**0.95 + 0.11)).quantize(Decimal("0.01"), ROUND_HALF_UP)


def class_b_section_tolerance_mm(cross_section_mm: Decimal) -> Decimal | None:
    """Tolerance of d2 by ISO 3601-1 class B [mm], half of the band; None beyond 8.40 mm."""
    for row in rows("iso3601_section_tolerances"):
        if cross_section_mm <= Decimal(row["section_up_to_mm"]):
            return Decimal(row["tolerance_mm"])
    return None


@cache
def _as568_rows() -> dict[str, dict[str, str]]:
    return {row["code"]: row for row in rows("as568")}


def _as568(code: str, *, field: str, given: str) -> RingSize:
    row = _as568_rows().get(code)
    if row is None:
        numbers = sorted(_as568_rows(), key=lambda known: abs(int(known) - int(code)))
        raise UnknownName(
            field=field,
            given=given,
            problem="AS568 has no such size",
            allowed="001 to 050, 102 to 178, 201 to 284, 309 to 395, 425 to 475, 901 to 932 with gaps",
            example="AS568-214",
            nearest=tuple(f"AS568-{known}" for known in numbers[:3]),
        )
    source = "AS568: " + _names(row["sources"])
    return RingSize(
        code=f"AS568-{code}",
        standard="AS568",
        inside_diameter=_inch(row["inside_diameter_in"], row["inside_diameter_tolerance_in"], source),
        cross_section=_inch(row["cross_section_in"], row["cross_section_tolerance_in"], source),
        inside_diameter_grade=row["inside_diameter_grade"],
        tolerance_grade=row["inside_diameter_tolerance_grade"],
        source=source,
    )


def _inch(size: str, tolerance: str, source: str) -> Dimension:
    nominal, half = Decimal(size) * _INCH, Decimal(tolerance) * _INCH
    text = f"{size} ±{tolerance} in"
    return between(nominal - half, nominal + half, nominal=nominal, text=text, source=source)


def _class_b(inside: Decimal, section: Decimal, *, field: str, given: str) -> RingSize:
    section_tolerance = class_b_section_tolerance_mm(section)
    if section_tolerance is None or not 0 < inside <= 660 or section < Decimal("0.5"):
        raise InputError(
            field=field,
            given=given,
            problem="outside the sizes of ISO 3601-1 class B",
            allowed="inside diameter up to 660 mm, section 0.5 to 8.4 mm",
            example="20x2.65",
        )
    tolerance = class_b_inside_diameter_tolerance_mm(inside)
    source = "ISO 3601-1 class B as stated by rtdygert.com, Tolerances for Metric O-Rings"
    return RingSize(
        code=f"ISO3601-B {inside}x{section}",
        standard="ISO 3601-1 class B",
        inside_diameter=between(
            inside - tolerance, inside + tolerance, text=f"{inside} ±{tolerance} mm", source=source
        ),
        cross_section=between(
            section - section_tolerance,
            section + section_tolerance,
            text=f"{section} ±{section_tolerance} mm",
            source=source,
        ),
        inside_diameter_grade="standard",
        tolerance_grade="published_once",
        source=source,
    )


def _other(standard: str, code: str, *, field: str, given: str) -> RingSize:
    known = {row["code"]: row for row in rows("other_ring_sizes") if row["standard"] == standard}
    row = known.get(code)
    if row is None and standard == "BS4518":
        return _decoded_bs4518(code, field=field, given=given)
    if row is None:
        raise UnknownName(
            field=field,
            given=given,
            problem=f"this size of {standard} was not found in print",
            allowed=f"{len(known)} sizes of {standard} are known",
            example=f"{standard}-{next(iter(known))}",
            nearest=tuple(f"{standard}-{name}" for name in nearest(code, known)),
        )
    return RingSize(
        code=f"{standard}-{code}",
        standard={"BS4518": "BS 4518", "JIS": "JIS B 2401"}[standard],
        inside_diameter=_metric(
            row["inside_diameter_mm"], row["inside_diameter_tolerance_mm"], row["source"]
        ),
        cross_section=_metric(row["cross_section_mm"], row["cross_section_tolerance_mm"], row["source"]),
        inside_diameter_grade="published_once",
        tolerance_grade=row["grade"],
        source=row["source"],
    )


def _decoded_bs4518(code: str, *, field: str, given: str) -> RingSize:
    """Read the size out of a BS 4518 reference: inside diameter and section in tenths of a millimetre."""
    inside, section = (Decimal(part) / 10 for part in code.split("-"))
    if not inside or not section:
        raise InputError(
            field=field, given=given, problem="this is a ring of no size", example="BS4518-0545-30"
        )
    source = "BS 4518 reference decoded as roymech.org, O Ring Seals, explains it; size not seen in a list"
    return RingSize(
        code=f"BS4518-{code}",
        standard="BS 4518",
        inside_diameter=between(inside, inside, text=f"{inside} mm", source=source),
        cross_section=between(section, section, text=f"{section} mm", source=source),
        inside_diameter_grade="derived",
        tolerance_grade="no_tolerance",
        source=source,
    )


def _metric(size: str, tolerance: str, source: str) -> Dimension:
    nominal = Decimal(size)
    if not tolerance:
        return between(nominal, nominal, text=f"{size} mm", source=source)
    half = Decimal(tolerance)
    return between(nominal - half, nominal + half, text=f"{size} ±{tolerance} mm", source=source)


def _names(keys: str) -> str:
    citations = {row["source"]: row["citation"] for row in rows("sources")}
    return "; ".join(citations.get(key, key) for key in keys.split(";"))


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
