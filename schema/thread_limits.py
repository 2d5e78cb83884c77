"""Limits of size of a thread, as far as they are printed: major, pitch and minor diameter.

Basic diameters of ISO 68-1 (60 degree profile):

    d2 = D2 = d - 0.649519 P        d1 = D1 = d - 1.082532 P

External, deviation g or h:  d = d basic + es, down by Td;  d2 = d2 basic + es, down by Td2.
Internal, deviation H:       D1 = D1 basic, up by TD1;  D2 = D2 basic, up by TD2.

Tolerances are cells of a table. For Td and TD1 of other grades than 6 the factors printed in ISO 965-1,
clause 13, are used and the result is graded derived; for pitch diameters no factor was found in print.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import NamedTuple

from schema.dimension import Dimension, between
from schema.thread_tables import PrintedLimits, tolerance_cell, valve_limits
from schema.threads import METRIC, VALVE, Thread

_UM = Decimal("0.001")
_PITCH_DIAMETER = Decimal("0.649519")  # 3/4 of the height of the fundamental triangle, ISO 68-1
_MINOR_DIAMETER = Decimal("1.082532")  # 5/4 of it
_FACTORS = {  # tolerance grade over grade 6, ISO 965-1:1998 clause 13 by a public transcription
    "Td": {"4": Decimal("0.63"), "8": Decimal("1.6")},
    "TD1": {"4": Decimal("0.63"), "5": Decimal("0.8"), "7": Decimal("1.25"), "8": Decimal("1.6")},
}
EXTERNAL, INTERNAL = "external", "internal"
MEDIUM = {EXTERNAL: "6g", INTERNAL: "6H"}


class ThreadLimits(NamedTuple):
    """Limits of the three diameters of a thread; None where no print was found."""

    side: str
    tolerance_class: str
    major: PrintedLimits | None
    pitch: PrintedLimits | None
    minor: PrintedLimits | None


def basic_pitch_diameter_mm(major_mm: Decimal, pitch_mm: Decimal) -> Decimal:
    """Basic pitch diameter of a 60 degree thread, rounded to 1 um as ISO 724 prints it.

    >>> basic_pitch_diameter_mm(Decimal(10), Decimal("1.5"))
    Decimal('9.026')
    """
    return _rounded(major_mm - _PITCH_DIAMETER * pitch_mm)


def basic_minor_diameter_mm(major_mm: Decimal, pitch_mm: Decimal) -> Decimal:
    """Basic minor diameter of the internal thread, rounded to 1 um as ISO 724 prints it.

    >>> basic_minor_diameter_mm(Decimal(6), Decimal(1))
    Decimal('4.917')
    """
    return _rounded(major_mm - _MINOR_DIAMETER * pitch_mm)


@cache
def limits_of_size(thread: Thread, side: str, tolerance_class: str = "") -> ThreadLimits:
    """The printed limits of a thread on one side (external or internal).

    ``tolerance_class`` is that of the thread, or the medium class 6g / 6H where neither tells one. Unified
    threads have none here: their limits were not read.

    >>> from schema.threads import parse_thread
    >>> limits_of_size(parse_thread("M10x1.5"), "internal").pitch.high_mm
    Decimal('9.206')
    """
    written = (
        tolerance_class
        or (thread.external_class if side == EXTERNAL else thread.internal_class)
        or MEDIUM[side]
    )
    if thread.family == VALVE:
        return ThreadLimits(
            side,
            "",
            *(valve_limits().get((thread.label, side, size)) for size in ("major", "pitch", "minor")),
        )
    if thread.family != METRIC or thread.major_mm is None or thread.pitch_mm is None:
        return ThreadLimits(side, written, None, None, None)
    major, pitch = Decimal(str(thread.major_mm)), Decimal(str(thread.pitch_mm))
    pitch_grade, crest_grade, letter = _parts(written)
    if side == EXTERNAL:
        es = Decimal(0) if letter == "h" else _um("es", letter, pitch, major)
        es_note = () if letter == "h" else _evidence("es", letter, pitch, major)
        return ThreadLimits(
            side,
            written,
            _below(major, es, "Td", crest_grade, pitch, major, es_note),
            _below(basic_pitch_diameter_mm(major, pitch), es, "Td2", pitch_grade, pitch, major, es_note),
            None,
        )
    if letter != "H":
        return ThreadLimits(side, written, None, None, None)
    return ThreadLimits(
        side,
        written,
        PrintedLimits(major, None, "ISO 965-1: deviation H is zero", "standard"),
        _above(basic_pitch_diameter_mm(major, pitch), "TD2", pitch_grade, pitch, major),
        _above(basic_minor_diameter_mm(major, pitch), "TD1", crest_grade, pitch, major),
    )


def pitch_diameter(thread: Thread, side: str) -> Dimension | None:
    """The pitch diameter of a thread as a dimension with its printed limits; None without print."""
    found = limits_of_size(thread, side)
    limits = found.pitch
    if limits is None or limits.low_mm is None or limits.high_mm is None:
        return None
    text = f"{thread.label} {found.tolerance_class}".strip()
    return between(limits.low_mm, limits.high_mm, text=text, source=limits.source)


def _parts(written: str) -> tuple[str, str, str]:
    """Grade of the pitch diameter, grade of the crest diameter, letter: 5g6g is ("5", "6", "g")."""
    parts = re.findall(r"(\d)([a-hG-H])", written)
    (pitch_grade, letter), (crest_grade, crest_letter) = parts[0], parts[-1]
    return pitch_grade, crest_grade, letter if letter == crest_letter else ""


def _tolerance(quantity: str, grade: str, pitch: Decimal, major: Decimal) -> tuple[Decimal, str, str] | None:
    cell = tolerance_cell(quantity, grade, pitch, major)
    if cell is not None:
        return cell.um, cell.source, cell.grade
    factor = _FACTORS.get(quantity, {}).get(grade)
    six = tolerance_cell(quantity, "6", pitch, major)
    if factor is None or six is None:
        return None
    return six.um * factor, f"{six.source}; {factor} times grade 6 by ISO 965-1 clause 13", "derived"


def _um(quantity: str, grade: str, pitch: Decimal, major: Decimal) -> Decimal | None:
    cell = tolerance_cell(quantity, grade, pitch, major)
    return None if cell is None else cell.um


def _evidence(quantity: str, grade: str, pitch: Decimal, major: Decimal) -> tuple[str, ...]:
    cell = tolerance_cell(quantity, grade, pitch, major)
    return () if cell is None else (cell.grade,)


def _below(
    basic: Decimal,
    es: Decimal | None,
    quantity: str,
    grade: str,
    pitch: Decimal,
    major: Decimal,
    others: tuple[str, ...],
) -> PrintedLimits | None:
    found = _tolerance(quantity, grade, pitch, major)
    if es is None or found is None:
        return None
    um, source, evidence = found
    high = basic + es * _UM
    return PrintedLimits(high - um * _UM, high, source, _weaker(evidence, *others))


def _above(basic: Decimal, quantity: str, grade: str, pitch: Decimal, major: Decimal) -> PrintedLimits | None:
    found = _tolerance(quantity, grade, pitch, major)
    return None if found is None else PrintedLimits(basic, basic + found[0] * _UM, found[1], found[2])


def _weaker(*grades: str) -> str:
    order = ("derived", "published_once", "published_twice", "standard")
    return min(grades, key=order.index)


def _rounded(size: Decimal) -> Decimal:
    return size.quantize(_UM, ROUND_HALF_UP)
