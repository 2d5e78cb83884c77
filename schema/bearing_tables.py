"""Boundary dimensions, tolerances and trade fits of bearings, each row with its source."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from schema.tables import rows


class BearingRow(NamedTuple):
    """One numbered bearing [mm]; ``widths`` are all that are sold under its number, the open one first."""

    designation: str
    style: str
    bore: float
    outside: float
    widths: tuple[float, ...]
    outer_width: float | None
    source: str
    grade: str
    note: str

    @property
    def width_is_fixed(self) -> bool:
        """Whether the number alone says how wide it is."""
        return len(self.widths) == 1


class SeatClass(NamedTuple):
    """A tolerance class that a trade page names for the seat of a bearing, and for which conditions."""

    tolerance_class: str
    condition: str
    source: str
    grade: str


_NUMBER = re.compile(r"(GE\s*\d+|HK\s*\d+|\d+)", re.IGNORECASE)


@cache
def bearing_row(designation: str) -> BearingRow | None:
    """The row of a designation, whatever its maker adds for seals and shields; None where it is not listed.

    >>> bearing_row("6800-2RS").bore
    10.0
    >>> bearing_row("GE12E").outside
    22.0
    """
    found = _NUMBER.match(designation.strip())
    return _rows().get(re.sub(r"\s", "", found[1]).upper()) if found else None


@cache
def _rows() -> dict[str, BearingRow]:
    return {
        _NUMBER.match(row["designation"])[1].replace(" ", "").upper(): BearingRow(  # type: ignore[index]
            row["designation"],
            row["style"],
            float(row["bore_mm"]),
            float(row["outside_mm"]),
            tuple(map(float, (row["width_mm"], *filter(None, row["other_widths_mm"].split(";"))))),
            float(row["outer_width_mm"]) if row["outer_width_mm"] else None,
            f"{row['source']}, {row['locator']}",
            row["grade"],
            row["note"],
        )
        for row in rows("bearings")
    }


class Deviation(NamedTuple):
    """Lower deviation [um] of a size of class Normal (the upper is 0), with its source."""

    lower_um: float
    source: str
    grade: str


@cache
def deviation(style: str, size: str, at_mm: float) -> Deviation | None:
    """Tolerance of class Normal for bore, outside, width or outer_width; None where none was read.

    Widths go by the bore, the outer width by the outside diameter.
    """
    for row in rows("bearing_tolerances"):
        if (row["style"], row["size"]) != (style, size):
            continue
        if float(row["over_mm"]) < at_mm <= float(row["up_to_mm"]):
            return Deviation(float(row["lower_um"]), f"{row['source']}: {row['locator']}", row["grade"])
    return None


@cache
def seat_classes(style: str, seat: str, metal: str) -> tuple[SeatClass, ...]:
    """The classes that trade pages name for the shaft or the housing of a style of bearing."""
    return tuple(
        SeatClass(
            row["tolerance_class"], row["condition"], f"{row['source']}: {row['locator']}", row["grade"]
        )
        for row in rows("bearing_fits")
        if row["style"] == style and row["seat"] == seat and row["metal"] in ("any", metal)
    )
