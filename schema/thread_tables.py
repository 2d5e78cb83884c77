"""Published tables of threads: sizes, tolerances of ISO 965-1, limits of valve threads, limits of judgement.

Tolerances are looked up, never worked out: nearest-preferred-number rounding of the formulas of ISO 965-1
misses 25 printed cells, those of M10x1.5 and M12 to M22 x 1.5 nuts among them.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from schema.finding import Limits
from schema.tables import rows


class Cell(NamedTuple):
    """One published tolerance or deviation [um], with where it is printed."""

    um: Decimal
    source: str
    grade: str


class ValveThread(NamedTuple):
    """A tyre-valve thread as printed. ``side`` is the thread whose major diameter [mm] is printed."""

    name: str
    side: str
    major_mm: Decimal | None
    pitch_mm: Decimal | None
    tpi: Decimal | None
    used_for: str
    source: str
    grade: str
    note: str


class Size(NamedTuple):
    """A size of a general-purpose thread series: major diameter and pitch [mm], where it is listed."""

    major_mm: Decimal
    pitch_mm: Decimal
    tpi: Decimal | None
    series: str
    source: str
    grade: str


class PrintedLimits(NamedTuple):
    """Limits of one diameter [mm]; a limit that is not printed is None."""

    low_mm: Decimal | None
    high_mm: Decimal | None
    source: str
    grade: str


INCH = Decimal("25.4")


@cache
def metric_sizes() -> dict[tuple[Decimal, Decimal], Size]:
    """Listed ISO metric sizes by major diameter and pitch."""
    return {
        (Decimal(row["major_mm"]), Decimal(row["pitch_mm"])): Size(
            Decimal(row["major_mm"]),
            Decimal(row["pitch_mm"]),
            None,
            row["series"],
            row["source"],
            row["grade"],
        )
        for row in rows("threads_metric")
    }


@cache
def coarse_pitches() -> dict[Decimal, Decimal]:
    """The coarse pitch that an ISO metric thread has when none is written."""
    return {one.major_mm: one.pitch_mm for one in metric_sizes().values() if one.series == "coarse"}


@cache
def unified_sizes() -> dict[tuple[str, int], Size]:
    """Listed Unified sizes by size as written (#10, 1/4) and turns per inch."""
    found = {}
    for row in rows("threads_un"):
        major, tpi = Decimal(row["major_in"]) * INCH, Decimal(row["tpi"])
        size = Size(major, INCH / tpi, tpi, row["series"], row["source"], row["grade"])
        found[row["size"], int(row["tpi"])] = size
    return found


@cache
def valve_threads() -> dict[str, ValveThread]:
    """Tyre-valve threads by their plain spelling (small letters, no spaces)."""
    found = {}
    for row in rows("threads_valve"):
        tpi = Decimal(row["tpi"]) if row["tpi"] else None
        one = ValveThread(
            row["thread"],
            row["side"],
            Decimal(row["major_mm"]) if row["major_mm"] else None,
            INCH / tpi if tpi else (Decimal(row["pitch_mm"]) if row["pitch_mm"] else None),
            tpi,
            row["used_for"],
            row["source"],
            row["grade"],
            row["note"],
        )
        for spelling in (row["thread"], *row["spellings"].split(";")):
            found[plain_spelling(spelling)] = one
    found.pop("", None)
    return found


def plain_spelling(text: str) -> str:
    """A thread's name in small letters without spaces."""
    return "".join(text.lower().split())


@cache
def valve_limits() -> dict[tuple[str, str, str], PrintedLimits]:
    """Printed limits of valve threads by name, side and diameter (major, pitch, minor)."""
    return {
        (row["thread"], row["side"], row["size"]): PrintedLimits(
            _decimal(row["low_mm"]), _decimal(row["high_mm"]), row["source"], row["grade"]
        )
        for row in rows("threads_valve_limits")
    }


@cache
def _cells() -> dict[tuple[str, str, Decimal], list[tuple[Decimal, Decimal, Cell]]]:
    found: dict[tuple[str, str, Decimal], list[tuple[Decimal, Decimal, Cell]]] = {}
    for row in rows("iso965_tolerances"):
        over = _decimal(row["d_over_mm"]) or Decimal(0)
        to = _decimal(row["d_to_mm"]) or Decimal("Infinity")
        cell = Cell(Decimal(row["um"]), row["source"], row["grade"])
        found.setdefault((row["quantity"], row["class"], Decimal(row["pitch_mm"])), []).append(
            (over, to, cell)
        )
    return found


def tolerance_cell(quantity: str, grade: str, pitch_mm: Decimal, major_mm: Decimal) -> Cell | None:
    """The printed cell of ISO 965-1, or None where none was found.

    ``quantity`` is es (deviation, grade is then its letter), Td, TD1, Td2 or TD2.

    >>> tolerance_cell("TD2", "6", Decimal("1.5"), Decimal(10)).um
    Decimal('180')
    """
    for over, to, cell in _cells().get((quantity, grade, pitch_mm.normalize()), ()):
        if over < major_mm <= to:
            return cell
    return None


_RANGE_ENDS = tuple(map(Decimal, ("0.99", "1.4", "2.8", "5.6", "11.2", "22.4", "45", "90", "180", "355")))


def range_start_mm(major_mm: float) -> float:
    """The smallest diameter of the ISO 965-1 diameter range that a thread lies in [mm]; nan outside.

    >>> range_start_mm(8.0)
    5.6
    """
    for start, end in pairwise(_RANGE_ENDS):
        if float(start) < major_mm <= float(end):
            return float(start)
    return float("nan")


class PropertyClass(NamedTuple):
    """Least tensile strength, least yield and proof stress [MPa] of a property class of ISO 898-1."""

    name: str
    tensile_mpa: float
    yield_mpa: float
    proof_mpa: float
    source: str
    grade: str


PROPERTY_CLASSES = ("8.8", "9.8", "10.9", "12.9")


def property_class(name: str, major_mm: float) -> PropertyClass | None:
    """The strengths of a property class at a diameter; None beyond the diameters of its rows.

    >>> property_class("10.9", 8.0).tensile_mpa
    1040.0
    """
    for row in rows("iso898_classes"):
        over, to = float(row["d_over_mm"] or 0), float(row["d_to_mm"] or "inf")
        if row["property_class"] == name and over < major_mm <= to:
            return PropertyClass(
                name,
                float(row["tensile_mpa"]),
                float(row["yield_mpa"]),
                float(row["proof_mpa"]),
                row["source"],
                row["grade"],
            )
    return None


class Range(NamedTuple):
    """A published range: least, usual and greatest value, with its source."""

    low: float
    middle: float
    high: float
    source: str
    grade: str
    note: str


@cache
def friction() -> dict[str, Range]:
    """Ranges of the nut factor K and of the friction of screw threads and heads."""
    return {
        row["quantity"]: Range(
            float(row["low"]),
            float(row["middle"]),
            float(row["high"]),
            row["source"],
            row["grade"],
            row["note"],
        )
        for row in rows("screw_friction")
    }


@cache
def core_torques() -> dict[int, Range]:
    """Tightening torque of a valve core [N mm] by the form of its chamber."""
    return {
        int(row["chamber_form"]): Range(
            float(row["low_n_mm"]),
            float(row["middle_n_mm"]),
            float(row["high_n_mm"]),
            row["source"],
            row["grade"],
            row["note"],
        )
        for row in rows("valve_core_torques")
    }


class Printed(NamedTuple):
    """Where a rule of the trade is printed."""

    source: str
    grade: str
    note: str


@cache
def core_rules() -> dict[str, Printed]:
    """Rules for valve cores, ports and thread classes that are words, not numbers, by name."""
    return {
        row["rule"]: Printed(row["source"], row["grade"], row["note"]) for row in rows("valve_core_rules")
    }


@cache
def thread_limits(rule: str, case: str = "") -> Limits:
    """What a quantity of a thread is judged by."""
    for row in rows("thread_limits"):
        if (row["rule"], row["case"]) == (rule, case):
            return Limits(
                _float(row["low"]),
                _float(row["high"]),
                row["unit"],
                row["basis"],
                row["case"] or rule.replace("_", " "),
                ", ".join(one for one in (row["source"], row["locator"]) if one),
                row["grade"],
                _float(row["refuse_low"]),
                _float(row["refuse_high"]),
                note=row["note"],
                refuse_source=row["refuse_source"],
                refuse_grade=row["refuse_grade"],
            )
    raise KeyError((rule, case))


class Nearness(NamedTuple):
    """How far two threads may differ, in percent, to be told alike and to be told near."""

    same_percent: float
    near_percent: float


@cache
def nearness() -> dict[str, Nearness]:
    """Nearness of pitch and of diameter."""
    return {
        row["quantity"]: Nearness(float(row["same_percent"]), float(row["near_percent"]))
        for row in rows("thread_comparison")
    }


def _decimal(text: str) -> Decimal | None:
    return Decimal(text) if text else None


def _float(text: str) -> float | None:
    return float(text) if text else None
