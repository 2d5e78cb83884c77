"""By what a ring and its groove are judged: the row of its standard, geometry, and the factor wanted."""

from __future__ import annotations

from collections.abc import Sequence

from fitcheck.grades import weakest
from schema.finding import Limits
from schema.retaining import RetainingRingGroove
from schema.retaining_tables import (
    LAND_PER_DEPTH,
    FlatRing,
    RingLimit,
    WireRing,
    cited,
    ring_limits,
    sizes_of,
)

_GEOMETRY = "geometry: the sizes themselves"


def not_below(low: float, *, unit: str, source: str, grade: str, scale: float, note: str = "") -> Limits:
    """At least ``low``, and refused where all of it lies below."""
    return Limits(low, None, unit, "worst_case", "geometry", source, grade, scale=scale, note=note)


def play_limits(row: FlatRing | None, thickness_mm: float) -> Limits:
    """Play along the groove: above zero, at most that of the thinnest ring in the widest groove of the table.

    A wide groove holds as well where the load comes from one side only (Seeger-Ring design details), so it
    is refused only where another ring would go in beside.
    """
    if row is None:
        return not_below(0.0, unit="mm", source=_GEOMETRY, grade="derived", scale=0.2)
    lists = cited(row.sources["width"] or row.sources["groove"])
    return Limits(
        0.0,
        round(row.width[1] - row.thickness[0], 6),
        "mm",
        "worst_case",
        row.name,
        f"{row.name}, widest groove less thinnest ring: {lists}",
        weakest(row.grades["width"], row.grades["thickness"]),
        0.0,
        thickness_mm,
        refuse_source="geometry: below zero it does not go in; above one thickness a second ring would",
        refuse_grade="own_judgement",
    )


def groove_diameter_limits(row: FlatRing) -> Limits:
    """Groove diameter by the table; refused where there is no groove, or where every such ring is loose."""
    beyond = (row.size, row.free[1]) if row.is_bore else (row.free[0], row.size)
    return Limits(
        *row.groove,
        "mm",
        "worst_case",
        row.name,
        f"{row.name}, groove diameter: {cited(row.sources['groove'])}",
        row.grades["groove"],
        *beyond,
        refuse_source="geometry: no groove is left, or the free ring is loose in it",
        refuse_grade="derived",
    )


def depth_limits(row: FlatRing) -> Limits:
    """Depth of the groove, by the middle of the sizes as the table means it; half of it refutes."""
    refused = ring_limits()["depth_refused"]
    return Limits(
        row.depth,
        None,
        "mm",
        "nominal",
        row.name,
        f"{row.name}, groove depth: {cited(row.sources['groove'])}",
        row.grades["groove"],
        refused.low * row.depth,
        scale=row.depth,
        refuse_source=refused.source,
        refuse_grade=refused.grade,
    )


def grip_limits(flat: FlatRing | None, wire: WireRing | None, *, from_table: bool) -> Limits:
    """The ring stays sprung in its groove; of a tabled free diameter the grade is that of its cell."""
    source, grade = "Seeger-Ring design details (scribd 326971609): no deeper than the free ring", "derived"
    if from_table and flat is not None:
        source = f"{source}; free diameter by {flat.name}: {cited(flat.sources['free'])}"
        grade = weakest(grade, flat.grades["free"])
    elif from_table and wire is not None:
        source, grade = f"{source}; free diameter by {wire.source}", weakest(grade, wire.grade)
    return not_below(0.0, unit="mm", source=source, grade=grade, scale=0.5)


def size_limits(style: str, size: float) -> Limits | None:
    """The listed size nearest to the bore or shaft; refused where it is nearer to the size after the next.

    A ring of a size between two that are listed gets half their step either way. An E-clip is named by its
    groove, and a thicker groove than that spreads it; refused where it is nearer to the next clip.
    """
    listed = sizes_of(style)
    if not listed:
        return None
    below, above = _steps(listed, size)
    clip = style == "e_clip"
    return Limits(
        -below / 2,
        0.0 if clip else above / 2,
        "mm",
        "nominal",
        f"size {size:g}",
        "DIN 6799 names a clip by its groove" if clip else f"{_LISTS[style]}: the listed size nearest to it",
        "derived",
        -1.5 * below,
        above / 2 if clip else 1.5 * above,
        scale=below,
    )


_LISTS = {
    "bore_ring": "sizes of DIN 472",
    "shaft_ring": "sizes of DIN 471",
    "round_wire_bore": "sizes of GB 895.1-86",
    "round_wire_shaft": "sizes of GB 895.2-86",
}


def _steps(listed: Sequence[float], size: float) -> tuple[float, float]:
    """Steps from a size to the next smaller and the next larger listed one; 1 mm beyond the list."""
    below = [size - one for one in listed if one < size]
    above = [one - size for one in listed if one > size]
    down, up = min(below, default=1.0), min(above, default=1.0)
    return (down, up) if size in listed or not (below and above) else (down + up, down + up)


def land_limits(row: FlatRing | None, depth_mm: float | None) -> Limits | None:
    """Least land; a shorter one is never refused by this, for nothing read says what it bears."""
    if row is not None:
        land, name = row.land, row.name
        source, grade = f"{row.name}, n: {cited(row.sources['groove'])}", row.grades["land"]
    elif depth_mm is not None:
        land, name = LAND_PER_DEPTH * depth_mm, "three depths"
        source, grade = "three depths, as n of DIN 471 and DIN 472 is in every row read", "derived"
    else:
        return None
    return Limits(land, None, "mm", "worst_case", name, source, grade, refuse_low=0.0, scale=land)


def factor_limits(
    rule: str, place: RetainingRingGroove, load_source: str, load_grade: str, note: str = ""
) -> Limits:
    """The factor wanted between thrust and capacity: that of the place leads, else the default."""
    default: RingLimit = ring_limits()[rule]
    wanted, source, grade = default.low, default.source, default.grade
    if place.safety_factor is not None:
        wanted = place.safety_factor
        source = f"factor {wanted:g}: {place.safety_factor_source or 'as given for this place'}"
        grade = "given"
    return Limits(
        wanted,
        None,
        default.unit,
        "worst_case",
        "as given" if place.safety_factor is not None else "default factor",
        f"{source}. Load: {load_source}",
        weakest(grade, load_grade),
        default.refuse_low,
        scale=wanted,
        note="; ".join(one for one in (note, "static: nothing is said of fatigue") if one),
        refuse_source=default.refuse_source,
        refuse_grade=default.refuse_grade,
    )
