"""Table 1 of ASTM D2270 (ISO 2909) and the limits of ISO 3448 viscosity grades."""

from __future__ import annotations

from bisect import bisect_right
from functools import cache
from typing import NamedTuple

from schema.tables import rows


class Grade(NamedTuple):
    """A viscosity grade of ISO 3448: VG n with its limits at 40 degC [mm2/s]."""

    vg: int
    low: float
    high: float
    source: str


@cache
def viscosity_grades() -> tuple[Grade, ...]:
    """The grades that were read; between them are gaps that belong to none."""
    return tuple(
        Grade(int(row["vg"]), float(row["low_mm2_s"]), float(row["high_mm2_s"]), row["source"])
        for row in rows("iso_vg")
    )


def viscosity_grade(viscosity_40: float) -> Grade | None:
    """The grade a viscosity at 40 degC [mm2/s] belongs to, limits inclusive; None in the gaps.

    >>> viscosity_grade(35.2).vg
    32
    >>> viscosity_grade(17.0) is None
    True
    """
    return next((one for one in viscosity_grades() if one.low <= viscosity_40 <= one.high), None)


@cache
def _index_table() -> tuple[list[float], list[float], list[float]]:
    table = rows("viscosity_index")
    return (
        [float(row["viscosity_100c_mm2_s"]) for row in table],
        [float(row["l_mm2_s"]) for row in table],
        [float(row["h_mm2_s"]) for row in table],
    )


def index_reference(viscosity_100: float) -> tuple[float, float]:
    """L and H of table 1 [mm2/s] for a viscosity at 100 degC within 2 to 70 mm2/s, by straight lines between.

    >>> l_and_h = index_reference(8.86)
    >>> l_and_h[0], l_and_h[1]
    (119.94, 69.48)
    """
    at, low, high = _index_table()
    if not at[0] <= viscosity_100 <= at[-1]:
        raise ValueError(f"table 1 of ASTM D2270 runs from {at[0]:g} to {at[-1]:g} mm2/s")
    after = min(bisect_right(at, viscosity_100), len(at) - 1)
    share = (viscosity_100 - at[after - 1]) / (at[after] - at[after - 1])
    return (
        low[after - 1] + share * (low[after] - low[after - 1]),
        high[after - 1] + share * (high[after] - high[after - 1]),
    )
