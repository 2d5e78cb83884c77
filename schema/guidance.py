"""Published guidance for glands: squeeze bands, limits, extrusion gaps, widths, radii, lead-ins.

Where sources differ they stand side by side under a name (``guidance``); one is the default, the
others can be chosen, and every result names the row it used. Lengths here are floats in mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from schema.tables import rows

MM_PER = {"in": 25.4, "mm": 1.0}


class SqueezeRow(NamedTuple):
    """One row of squeeze guidance.

    ``basis`` worst_case: the band follows from section, section tolerance and gland depths [mm] by the
    handbook sum. ``basis`` nominal: the source prints percent, meant for nominal sizes.
    """

    guidance: str
    ring: str
    gland: str
    motion: str
    medium: str
    cross_section_mm: float
    cross_section_tolerance_mm: float
    depth_min_mm: float | None
    depth_max_mm: float | None
    low_percent: float | None
    high_percent: float | None
    basis: str
    source: str
    locator: str
    grade: str


class LimitRow(NamedTuple):
    """Limits of one rule: inside low..high it fits, beyond refuse_low or refuse_high it does not."""

    rule: str
    guidance: str
    default: bool
    gland: str
    motion: str
    medium: str
    low: float | None
    high: float | None
    refuse_low: float | None
    refuse_high: float | None
    unit: str
    basis: str
    source: str
    locator: str
    grade: str
    refuse_source: str
    refuse_grade: str
    note: str


class GapRow(NamedTuple):
    """Largest clearance [mm] a hardness bears up to a pressure; ``gap`` says diametral or radial."""

    guidance: str
    gap: str
    hardness_shore_a: float
    cross_section_mm: float | None
    pressure_up_to_mpa: float
    gap_max_mm: float
    source: str
    locator: str
    grade: str


class GlandDetailRow(NamedTuple):
    """What a gland table prints beside the depth, for one section [mm]."""

    gland: str
    motion: str
    cross_section_mm: float
    width_no_back_up_mm: float
    width_one_back_up_mm: float | None
    width_two_back_ups_mm: float | None
    radius_max_mm: float | None
    runout_max_mm: float
    diametral_clearance_max_mm: float
    source: str
    locator: str
    grade: str


class LeadInRow(NamedTuple):
    """Length of the lead-in chamfer [mm] for a section."""

    cross_section_mm: float
    length_mm: float
    source: str
    locator: str
    grade: str


class Guidance(NamedTuple):
    """All guidance rows; handed to ``fitcheck``, which itself reads nothing."""

    squeeze: tuple[SqueezeRow, ...]
    limits: tuple[LimitRow, ...]
    gaps: tuple[GapRow, ...]
    details: tuple[GlandDetailRow, ...]
    lead_ins: tuple[LeadInRow, ...]


class Choices(NamedTuple):
    """Which guidance, which layers and which decision rule a question is judged by."""

    squeeze_guidance: str = ""
    gap_guidance: str = ""
    limit_guidance: Mapping[str, str] = MappingProxyType({})
    decision_rule: str = "iso14253-1-u2"
    thinning: str = "empirical"
    thickening: str = "none"
    layers_off: tuple[str, ...] = ()


@cache
def published_guidance() -> Guidance:
    """The guidance shipped with the project."""
    return Guidance(
        squeeze=tuple(_squeeze(row) for row in rows("squeeze_guidance")),
        limits=tuple(
            LimitRow(
                row["rule"],
                row["guidance"],
                row["default"] == "yes",
                row["gland"],
                row["motion"],
                row["medium"],
                _float(row["low"]),
                _float(row["high"]),
                _float(row["refuse_low"]),
                _float(row["refuse_high"]),
                row["unit"],
                row["basis"],
                row["source"],
                row["locator"],
                row["grade"],
                row["refuse_source"],
                row["refuse_grade"],
                row["note"],
            )
            for row in rows("limits")
        ),
        gaps=tuple(
            GapRow(
                row["guidance"],
                row["gap"],
                float(row["hardness_shore_a"]),
                _float(row["cross_section_mm"]),
                float(row["pressure_up_to_mpa"]),
                float(row["gap_max_mm"]),
                row["source"],
                row["locator"],
                row["grade"],
            )
            for row in rows("extrusion_gaps")
        ),
        details=tuple(_detail(row) for row in rows("gland_details")),
        lead_ins=tuple(
            LeadInRow(
                float(row["cross_section_mm"]),
                float(row["length_mm"]),
                row["source"],
                row["locator"],
                row["grade"],
            )
            for row in rows("lead_in")
        ),
    )


def _float(text: str, factor: float = 1.0) -> float | None:
    return float(text) * factor if text else None


def _squeeze(row: dict[str, str]) -> SqueezeRow:
    mm = MM_PER[row["unit"]]
    return SqueezeRow(
        row["guidance"],
        row["ring"],
        row["gland"],
        row["motion"],
        row["medium"],
        _float(row["cross_section"], mm) or 0.0,
        _float(row["cross_section_tolerance"], mm) or 0.0,
        _float(row["depth_min"], mm),
        _float(row["depth_max"], mm),
        _float(row["squeeze_low_percent"]),
        _float(row["squeeze_high_percent"]),
        row["basis"],
        row["source"],
        row["locator"],
        row["grade"],
    )


def _detail(row: dict[str, str]) -> GlandDetailRow:
    mm = MM_PER[row["unit"]]
    return GlandDetailRow(
        row["gland"],
        row["motion"],
        float(row["cross_section"]) * mm,
        float(row["width_no_back_up"]) * mm,
        _float(row["width_one_back_up"], mm),
        _float(row["width_two_back_ups"], mm),
        _float(row["radius_max"], mm),
        float(row["runout_max"]) * mm,
        float(row["diametral_clearance_max"]) * mm,
        row["source"],
        row["locator"],
        row["grade"],
    )
