"""What decides which published limits apply, and the limits it leads to.

The same choice serves one check and a sweep, which asks it once for each distinct set of circumstances.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.rings.limits import (
    SQUEEZE_SCALE,
    clearance_factor,
    detail_row,
    gap_limits,
    rule_limits,
    squeeze_limits,
)
from schema.finding import Limits
from schema.guidance import Choices, Guidance

# 1500 psi, up to which the scope of AS4716B asks for no back-up ring: taken for the "ordinary pressure" that
# the clearances printed for glands with back-up rings are meant for.
ORDINARY_PRESSURE_MPA = 10.3422

_FLOATING = Limits(
    None,
    None,
    "%",
    "worst_case",
    "floating",
    "NAVEDTRA 14105 Fluid Power, ch. 7: a floating pneumatic ring needs no squeeze by the gland, some leak",
    "published_twice",
)
_NO_GAP = Limits(
    None,
    None,
    "mm",
    "worst_case",
    "no-gap",
    "Parker handbook, section IV (opening): no gap, no back-up ring needed; faces taken to touch",
    "published_once",
)

BACK_UPS_NEEDED = {"one_side": 1, "both_sides": 2}


class Circumstances(NamedTuple):
    """Ring, gland and service as far as they choose limits; what is not known is "" or None."""

    ring: str
    gland: str
    motion: str
    medium: str
    cross_section_mm: float
    hardness_shore_a: float | None = None
    pressure_mpa: float | None = None
    material: str = ""
    pressure_from: str = ""
    back_up_rings: int = 0
    faces_touch: bool = False


def limits_for(name: str, at: Circumstances, guidance: Guidance, choices: Choices) -> Limits | None:
    """The published limits of one quantity; None where nothing told or nothing published covers it."""
    if name == "extrusion_gap":
        return _gap_limits(at, guidance, choices)
    if not at.motion or (name == "squeeze" and not at.medium):
        return None
    if name in ("least_squeeze", "cold_squeeze") and floats(at, choices):
        return _FLOATING
    if name == "squeeze":
        return squeeze_limits(
            guidance,
            choices,
            ring=at.ring,
            gland=at.gland,
            motion=at.motion,
            medium=at.medium,
            cross_section_mm=at.cross_section_mm,
        )
    limits = rule_limits(
        guidance,
        choices,
        name,
        gland=at.gland,
        motion=at.motion,
        medium=at.medium or "liquid",
        scale=_scale(name, at),
    )
    if limits is not None and name in ("greatest_squeeze", "hot_squeeze"):
        return _not_below_the_table(limits, limits_for("squeeze", at, guidance, choices))
    return limits


def floats(at: Circumstances, choices: Choices) -> bool:
    """Whether the ring is judged as a floating pneumatic seal, which needs no squeeze by the gland."""
    return choices.squeeze_guidance == "floating" and (at.motion, at.medium) == ("reciprocating", "gas")


def _scale(name: str, at: Circumstances) -> float:
    """What a margin against a single limit is divided by."""
    if name in ("side_room", "shaft_interference"):
        return at.cross_section_mm
    return 100.0 if "fill" in name else SQUEEZE_SCALE


def _not_below_the_table(limits: Limits, band: Limits | None) -> Limits:
    """Small sections are squeezed harder by the gland tables than the general upper limit allows."""
    if band is None or band.basis != "worst_case" or band.high is None or limits.high is None:
        return limits
    if band.high <= limits.high:
        return limits
    return limits._replace(
        high=band.high,
        refuse_high=max(band.high, limits.high if limits.refuse_high is None else limits.refuse_high),
        source=band.source,
        grade=band.grade,
    )


def _gap_limits(at: Circumstances, guidance: Guidance, choices: Choices) -> Limits | None:
    if at.faces_touch:
        return _NO_GAP
    if at.pressure_mpa is None or at.hardness_shore_a is None:
        return None
    limits = gap_limits(
        guidance,
        choices,
        hardness_shore_a=at.hardness_shore_a,
        pressure_mpa=at.pressure_mpa,
        cross_section_mm=at.cross_section_mm,
        material=at.material,
    )
    detail = detail_row(
        guidance, gland=at.gland, motion=at.motion or "static", cross_section_mm=at.cross_section_mm
    )
    backed_up = at.back_up_rings >= BACK_UPS_NEEDED.get(at.pressure_from, 2)
    if limits is None or limits.high is None or detail is None or not backed_up:
        return limits
    if at.pressure_mpa > ORDINARY_PRESSURE_MPA:
        return limits._replace(refuse_high=math.inf, note=f"without back-up rings {limits.note}")
    printed = detail.diametral_clearance_max_mm * clearance_factor(at.material)
    wider = printed > limits.high
    return limits._replace(
        high=max(limits.high, printed),
        refuse_high=math.inf,
        source=f"{detail.source}: {detail.locator}, glands with back-up rings" if wider else limits.source,
        grade=detail.grade if wider else limits.grade,
        note=f"without back-up rings {limits.note}",
    )
