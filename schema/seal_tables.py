"""Published figures for lip seals, wipers and guide rings: press bands, limits, housing rows.

ISO 6194-1 and DIN 3760 are standards of rotary seals; what is used of them for a reciprocating seal is the
press-in of its outside alone. Lengths are floats in mm.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from schema.finding import Limits
from schema.tables import rows

MM_PER = {"mm": 1.0, "in": 25.4}
UM_PER_MM = 1000.0


class PressBand(NamedTuple):
    """How much larger than the nominal bore the outside of a seal is made, and the bore's deviations [mm].

    ``unit`` says whether it is the metric or the inch table; the interference lies within ``low``..``high``.
    """

    unit: str
    case: str
    over_mm: float
    up_to_mm: float
    outside_low_mm: float
    outside_high_mm: float
    bore_low_mm: float
    bore_high_mm: float
    ovality_max_mm: float | None
    source: str
    grade: str

    @property
    def low(self) -> float:
        """Least interference: the smallest seal in the largest bore."""
        return round(self.outside_low_mm - self.bore_high_mm, 6)

    @property
    def high(self) -> float:
        """Greatest interference: the largest seal in the smallest bore."""
        return round(self.outside_high_mm - self.bore_low_mm, 6)


class ShaftBand(NamedTuple):
    """Deviations of a shaft from the size a seal is marked for [mm]: rotary h11 (or inch), and f8 of rods."""

    unit: str
    over_mm: float
    up_to_mm: float
    rotary_low_mm: float
    rotary_high_mm: float
    rod_low_mm: float
    source: str
    grade: str


class GuideRow(NamedTuple):
    """One printed guide-ring housing [mm]; ``groove_offset`` is groove less bore or rod, on the diameter."""

    side: str
    series: str
    diameter_from_mm: float
    diameter_to_mm: float
    groove_offset_mm: float
    groove_width_mm: float
    groove_width_plus_mm: float
    ring_thickness_mm: float
    ring_width_mm: float | None
    radial_gap_max_mm: float
    joint_gap_mm: tuple[float, float] | None
    source: str
    locator: str
    grade: str
    note: str


@cache
def press_bands() -> tuple[PressBand, ...]:
    """The press bands by unit, case and bore; each with the bore's deviations of its own size."""
    found = []
    for row in rows("lip_seal_press"):
        mm = MM_PER[row["unit"]]
        over, up_to = float(row["over"]) * mm, float(row["up_to"]) * mm
        for fits in rows("lip_seal_fits"):
            start, end = (
                float(fits["over"]) * MM_PER[fits["unit"]],
                float(fits["up_to"]) * MM_PER[fits["unit"]],
            )
            low, high = max(over, start), min(up_to, end)
            if fits["unit"] != row["unit"] or low >= high:
                continue
            found.append(
                PressBand(
                    row["unit"],
                    row["case"],
                    low,
                    high,
                    float(row["outside_low"]) * mm,
                    float(row["outside_high"]) * mm,
                    float(fits["bore_low_um"]) / UM_PER_MM,
                    float(fits["bore_high_um"]) / UM_PER_MM,
                    float(row["ovality_max"]) if row["ovality_max"] else None,
                    f"{row['source']}: {row['locator']}",
                    row["grade"],
                )
            )
    return tuple(found)


def press_band(unit: str, case: str, bore_mm: float) -> PressBand | None:
    """The band of a nominal bore; None where the table does not reach.

    >>> band = press_band("mm", "rubber_covered", 47.0)
    >>> band.low, band.high
    (0.111, 0.300)
    """
    return next(
        (
            one
            for one in press_bands()
            if one.unit == unit and one.case == case and one.over_mm < bore_mm <= one.up_to_mm
        ),
        None,
    )


@cache
def _shaft_bands() -> tuple[ShaftBand, ...]:
    return tuple(
        ShaftBand(
            row["unit"],
            float(row["over"]) * MM_PER[row["unit"]],
            float(row["up_to"]) * MM_PER[row["unit"]],
            float(row["shaft_low_um"]) / UM_PER_MM,
            0.0 if row["unit"] == "mm" else -float(row["shaft_low_um"]) / UM_PER_MM,
            float(row["rod_f8_low_um"] or "0") / UM_PER_MM,
            f"{row['source']}: {row['locator']}",
            row["grade"],
        )
        for row in rows("lip_seal_fits")
        if row["shaft_low_um"]
    )


def _rod_f8_low_um(size_mm: float) -> str:
    """f8 of the metric row a size falls into: the inch tables print none."""
    metric = [row for row in rows("lip_seal_fits") if row["unit"] == "mm"]
    return next((row["rod_f8_low_um"] for row in metric if size_mm <= float(row["up_to"])), "0")


def shaft_band(unit: str, shaft_mm: float) -> ShaftBand | None:
    """How far a shaft may lie from its nominal size; None where the table does not reach.

    >>> shaft_band("mm", 32.0).rotary_low_mm
    -0.160
    """
    bands = [one for one in _shaft_bands() if one.unit == unit and one.over_mm < shaft_mm <= one.up_to_mm]
    if not bands:
        return None
    # An inch row spans many metric steps: the rod's own step is taken for f8.
    return bands[0]._replace(rod_low_mm=float(_rod_f8_low_um(shaft_mm)) / UM_PER_MM)


@cache
def guide_rows() -> tuple[GuideRow, ...]:
    """The printed guide-ring housings, the misprinted one included with its grade."""
    return tuple(
        GuideRow(
            row["side"],
            row["series"],
            float(row["diameter_from_mm"]),
            float(row["diameter_to_mm"]),
            float(row["groove_offset_mm"]),
            float(row["groove_width_mm"]),
            float(row["groove_width_plus_mm"]),
            float(row["ring_thickness_mm"]),
            float(row["ring_width_mm"]) if row["ring_width_mm"] else None,
            float(row["radial_gap_max_mm"]),
            (float(row["joint_gap_low_mm"]), float(row["joint_gap_high_mm"]))
            if row["joint_gap_low_mm"]
            else None,
            row["source"],
            row["locator"],
            row["grade"],
            row["note"],
        )
        for row in rows("guide_ring_housings")
    )


@cache
def seal_limits() -> dict[tuple[str, str], Limits]:
    """The limits of seals and guide rings by rule and what they apply to."""
    return {
        (row["rule"], row["applies"]): Limits(
            _number(row["low"]),
            _number(row["high"]),
            row["unit"],
            row["basis"],
            row["guidance"],
            f"{row['source']}: {row['locator']}" if row["locator"] else row["source"],
            row["grade"],
            _number(row["refuse_low"]),
            _number(row["refuse_high"]),
            note=row["note"],
            refuse_source=row["refuse_source"],
            refuse_grade=row["refuse_grade"],
        )
        for row in rows("seal_limits")
    }


def _number(text: str) -> float | None:
    return float(text) if text else None
