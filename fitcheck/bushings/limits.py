"""By what a bushing is judged: the maker's limits first, then published bands, else nothing.

A limit that only memory has is shown with that grade and proves nothing. Rules of shops are told as such.
"""

from __future__ import annotations

import math
from decimal import Decimal

from fitcheck.decision import WEAK_GRADES
from schema.bushing_tables import (
    Band,
    class_band,
    family_of_material,
    figure,
    fit_row,
    fitted_clearance,
    largest_wrapped_outside,
    wrapped_clearance,
)
from schema.bushings import BushingSeat, PlainBushing
from schema.dimension import Dimension
from schema.finding import Limits
from schema.made_for import named, step_size

GIVEN = "the maker's limit, as given with the place"
_FIT = "ISO 286-1"
_SCALE_MM = 0.05  # what a margin is told over where only one limit exists


def _given(low: float | None, high: float | None, guidance: str) -> Limits:
    return Limits(low, high, "mm", "worst_case", guidance, GIVEN, "given", scale=_SCALE_MM)


def _ends(size: Dimension) -> tuple[float, float]:
    return float(size.lower), float(size.upper)


def above_zero(guidance: str, what: str) -> Limits:
    """What must not fall below zero, by the definition of its fit."""
    return Limits(
        0.0, None, "mm", "worst_case", guidance, f"{_FIT}, definition: {what}", "standard", scale=_SCALE_MM
    )


def interference_limits(place: BushingSeat) -> Limits:
    """Interference as assembled: what the maker allows, else above zero."""
    if place.allowed_interference is not None:
        return _given(*_ends(place.allowed_interference), "maker's interference")
    return held_limits()


def held_limits() -> Limits:
    """Interference at an end of the service: a bushing that is held by it must keep some."""
    return above_zero("interference fit", "an interference fit keeps an interference at all sizes")


def free_limits() -> Limits:
    """Clearance at an end of the service: a shaft that runs must keep some."""
    return above_zero("clearance fit", "a clearance fit keeps a clearance at all sizes")


def running_band(part: PlainBushing | None) -> Band | None:
    """The published running clearance of a bushing as new; None where none covers it."""
    if part is None or part.inside_diameter is None or part.outside_diameter is None:
        return None
    inside, outside = part.inside_diameter.nominal, part.outside_diameter.nominal
    if part.style == "wrapped":
        if family_of_material(part.lining_material) == "bronze":
            return fitted_clearance("wrapped_metal", *_steps(part))
        return wrapped_clearance(inside, outside)
    if part.style == "solid":
        return fitted_clearance("solid", *_steps(part))
    return None


def _steps(part: PlainBushing) -> tuple[Decimal, Decimal]:
    """The sizes by which steps of a table are chosen: a bore of 18 that reads 18.02 is one of 18."""
    assert part.inside_diameter is not None and part.outside_diameter is not None
    return step_size(part.inside_diameter), step_size(part.outside_diameter)


def clearance_limits(place: BushingSeat, band: Band | None) -> Limits | None:
    """Running clearance as fitted: what the maker allows, else the published band.

    The maker's wear limit takes the place of the upper end where the bore was measured after use.
    """
    allowed, worn_to = place.allowed_clearance, place.largest_clearance
    limits: Limits | None = None
    if allowed is not None:
        limits = _given(*_ends(allowed), "maker's running clearance")
    elif band is not None:
        shop, weak = figure("shop_wear_factor"), band.grade in WEAK_GRADES
        limits = Limits(
            band.low,
            band.high,
            "mm",
            "worst_case",
            band.name,
            band.source,
            band.grade,
            refuse_low=min(0.0, band.low),
            refuse_high=math.inf if weak else shop.middle * band.high,
            refuse_source="" if weak else shop.source,
            refuse_grade="" if weak else shop.grade,
        )
    if worn_to is None:
        return limits
    most = float(worn_to.lower)
    if limits is None:
        return _given(0.0, most, "maker's wear limit")
    if place.bore_as_fitted is None:
        return limits
    return limits._replace(
        high=most,
        refuse_high=most,
        guidance=f"{limits.guidance}, up to the maker's wear limit",
        note=f"upper end: {GIVEN}",
        refuse_source=GIVEN,
        refuse_grade="given",
    )


def housing_limits(part: PlainBushing) -> Limits | None:
    """The housing a wrapped bushing is made for; too wide for the largest of them is refused."""
    if part.inside_diameter is None or part.outside_diameter is None:
        return None
    outside = named(part.outside_diameter)
    row = None if outside is None else fit_row("wrapped", *_steps(part))
    if row is None or outside is None or running_band(part) is None:
        return None
    band = class_band(row.housing, outside, row.source, row.grade)
    widest = largest_wrapped_outside(outside)
    return Limits(
        band.low,
        band.high,
        "mm",
        "worst_case",
        band.name,
        band.source,
        band.grade,
        refuse_low=-math.inf,
        refuse_high=math.inf if widest is None else widest.high,
        refuse_source="" if widest is None else widest.source,
        refuse_grade="" if widest is None else widest.grade,
    )


def fitted_bore_limits(part: PlainBushing) -> Limits | None:
    """The bore a sintered bushing has after fitting, by ISO 2795; it guides and does not refuse.

    None where the nominal bore is not told: a class is no class of a reading, nor of the middle of limits.
    """
    if part.inside_diameter is None or part.outside_diameter is None:
        return None
    inside, row = named(part.inside_diameter), fit_row("sintered", *_steps(part))
    if row is None or inside is None:
        return None
    band = class_band(row.bore_fitted, inside, row.source, row.grade)
    return Limits(
        band.low,
        band.high,
        "mm",
        "worst_case",
        f"{band.name} after fitting",
        band.source,
        band.grade,
        refuse_low=-math.inf,
        refuse_high=math.inf,
    )


def stress_limits(place: BushingSeat) -> Limits | None:
    """The housing's yield strength as given; beyond it a thin seat may yield a little: it is not refused."""
    if place.housing_yield is None:
        return None
    least = float(place.housing_yield.lower)
    return Limits(
        None,
        least,
        "MPa",
        "worst_case",
        "yield strength of the housing",
        "yield strength as given with the place, against the greatest shear stress (Tresca)",
        "given",
        refuse_high=math.inf,
        scale=least,
    )


def room_limits() -> Limits:
    """A bushing no longer than its seat."""
    return Limits(
        0.0,
        None,
        "mm",
        "worst_case",
        "within the seat",
        "geometry: what is longer than its seat stands proud of it",
        "derived",
        scale=1.0,
    )


def shaft_wear_limits(place: BushingSeat) -> Limits | None:
    """The shaft's wear limit by the maker."""
    limit = place.least_shaft_diameter
    return None if limit is None else _given(float(limit.upper), None, "maker's wear limit")


def bore_wear_limits(place: BushingSeat) -> Limits | None:
    """The fitted bore's wear limit by the maker."""
    limit = place.largest_bore
    return None if limit is None else _given(None, float(limit.lower), "maker's wear limit")
