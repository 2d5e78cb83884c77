"""How tight the trade makes the seat of a bearing: from the tightest to the loosest class that pages name."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from fitcheck.grades import weakest
from schema.bearing_tables import SeatClass, deviation, seat_classes
from schema.bearings import Bearing
from schema.errors import InputError
from schema.eyelet_tables import eyelet_limits
from schema.finding import Limits
from schema.iso286 import tolerance_zone
from schema.places import metals_of


def housing_limits(bearing: Bearing, metal: str | None) -> Limits | None:
    """Clearance of the outer ring in the eyelet; None where no page read covers the bearing.

    Where no metal is told, what holds in both proves and what neither allows refuses.
    """
    size = bearing.known_sizes().get("outside_diameter")
    if size is None:
        return None
    found = [_limits(bearing.found_style, "housing", one, float(size.nominal)) for one in metals_of(metal)]
    first, last = found[0], found[-1]
    if first == last:
        return first
    return None if first is None or last is None else _in_both(first, last)


def _in_both(one: Limits, other: Limits) -> Limits | None:
    """The limits that two bands have in common, refused beyond both; None where they have none in common."""
    assert one.low is not None and one.high is not None and other.low is not None and other.high is not None
    low, high = max(one.low, other.low), min(one.high, other.high)
    if low >= high:
        return None
    beyond = [end for each in (one, other) for end in (each.refuse_low, each.refuse_high) if end is not None]
    return one._replace(
        low=low,
        high=high,
        guidance=f"{one.guidance} and {other.guidance}",
        source=f"{one.source}; {other.source}",
        grade=weakest(one.grade, other.grade),
        refuse_low=min(beyond),
        refuse_high=max(beyond),
        note=f"aluminium: {one.note}; steel: {other.note}; no metal is told: both count",
    )


def shaft_limits(bearing: Bearing) -> Limits | None:
    """Clearance of the inner ring on its pin or bolt; None where no page read covers the bearing."""
    size = bearing.known_sizes().get("inside_diameter")
    if size is None:
        return None
    return _limits(bearing.found_style, "shaft", "any", float(size.nominal))


@cache
def _limits(style: str, seat: str, metal: str, at_mm: float) -> Limits | None:
    classes = seat_classes(style, seat, metal)
    normal = deviation(style, "outside" if seat == "housing" else "bore", at_mm)
    zones = [(one, _zone(one, at_mm)) for one in classes]
    known = [(one, zone) for one, zone in zones if zone is not None]
    if not known or normal is None:
        return None
    lowest = min(zone[0] for _, zone in known)
    highest = max(zone[1] for _, zone in known)
    # A housing less the ring in it; a bearing's bore less the shaft in it.
    low, high = (
        (lowest, highest - normal.lower_um) if seat == "housing" else (normal.lower_um - highest, -lowest)
    )
    limit = eyelet_limits()["bearing_seat_beyond"]
    beyond = limit.refuse_high or 0.0
    named = ", ".join(one.tolerance_class for one, _ in known)
    sources = "; ".join(dict.fromkeys(one.source for one, _ in known))
    return Limits(
        round(low / 1000, 6),
        round(high / 1000, 6),
        "mm",
        "worst_case",
        f"{seat} {named}",
        f"{named} as the trade seats such bearings ({sources}); ISO 286-1; ring: {normal.source}",
        weakest(normal.grade, *(one.grade for one, _ in known)),
        round(low / 1000 - beyond, 6),
        round(high / 1000 + beyond, 6),
        note="; ".join(f"{one.tolerance_class}: {one.condition}" for one, _ in known),
        refuse_source=limit.refuse_source,
        refuse_grade=limit.refuse_grade,
    )


def _zone(one: SeatClass, at_mm: float) -> tuple[float, float] | None:
    try:
        zone = tolerance_zone(one.tolerance_class, Decimal(str(at_mm)))
    except InputError:  # the class has no value at this size
        return None
    return float(zone.lower_um), float(zone.upper_um)
