"""What the ring must hold, and which printed load of the ring counts for the part that bears on it."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from schema.amounts import Amount
from schema.fit import Fit
from schema.places import largest, least
from schema.reference import Reference
from schema.retaining import RetainingRingGroove
from schema.retaining_tables import FlatRing, cited, ring_limits

NO_THRUST_KNOWN = (
    "highest pressure (loaded_by a gas chamber, or pressure), or a thrust of 0 N where nothing pushes"
)
_CORNER = "corner of the part that bears on the ring (sharp or chamfered)"


class Highest(NamedTuple):
    """The highest gauge pressure, and in words where it was taken from."""

    pressure: Amount
    told: str


def highest_pressure(fit: Fit, reference: Reference) -> Highest | None:
    """The highest pressure on what the ring holds: of its gas chamber, else as told for the place."""
    chamber = fit.neighbours.get(fit.place.loaded_by) if fit.place.loaded_by else None
    if chamber is not None:
        from fitcheck.gas.highest import highest_pressure as of_chamber

        found = of_chamber(chamber, reference)
        if found is None:
            return None
        low, middle, high = (Decimal(repr(float(one))) for one in found)
        text = f"{found.low:.3g}..{found.high:.3g} MPa"
        return Highest(
            Amount(middle, low, high, text, "MPa", source="gas chamber"),
            f"highest pressure {found.high:.3g} MPa gauge: {fit.place.loaded_by} at full stroke and hot",
        )
    told = fit.service.pressure
    if told is None:
        return None
    value = Decimal(repr(told.gauge_mpa))
    return Highest(
        Amount(value, value, value, told.text, "MPa"),
        f"the pressure told, {told.text}, as the highest, hot and at full stroke: more than the charge",
    )


def unknown_thrust(fit: Fit) -> str:
    """What is missing where no highest pressure is known."""
    if fit.place.loaded_by:
        return f"highest pressure of {fit.place.loaded_by}, which cannot be worked out or may lock: see there"
    return NO_THRUST_KNOWN


class RingLoad(NamedTuple):
    """The load of a ring that counts here [N], or what is not known of it.

    ``wants`` is what is missing; ``chamfer_mm`` is above the tabled chamfer where the load must be lowered.
    """

    load_n: float | None
    source: str = ""
    grade: str = ""
    wants: tuple[str, ...] = ()
    chamfer_mm: float | None = None
    taken: str = ""


def ring_load(row: FlatRing, place: RetainingRingGroove) -> RingLoad:
    """FR for a corner that is sharp and close to the bore, else FRg; radial play counts as a chamfer.

    Source     rotorclip.com, formulas for load capacity: play is a chamfer of its size; Seeger-Ring design
               details (scribd 326971609): up to a tenth of the thickness a radius does no harm
    """
    if row.ring_load_n is None or row.chamfered_load_n is None or row.chamfer is None:
        return RingLoad(None)
    if place.corner is None:
        return RingLoad(row.chamfered_load_n, wants=(_CORNER,))
    if place.corner == "chamfered" and place.chamfer is None:
        return RingLoad(row.chamfered_load_n, wants=("chamfer of the part that bears on the ring",))
    lists = cited(row.sources["load"])
    chamfered = f"{row.name}, FRg {row.chamfered_load_n:g} N at {row.chamfer:g} mm: {lists}"
    broken = _broken_mm(place)
    if place.cap_diameter is None and broken <= row.chamfer:
        told = "the play of the part in its bore is not told, so the lower load FRg of the ring counts"
        return RingLoad(row.chamfered_load_n, chamfered, row.grades["load"], taken=told)
    if broken <= ring_limits()["sharp_corner"].low * row.thickness[0]:
        source = f"{row.name}, FR {row.ring_load_n:g} N: {lists}"
        return RingLoad(row.ring_load_n, source, row.grades["load"])
    if broken <= row.chamfer:
        return RingLoad(row.chamfered_load_n, chamfered, row.grades["load"])
    return RingLoad(row.chamfered_load_n, chamfered, "from_memory", chamfer_mm=broken)


def _broken_mm(place: RetainingRingGroove) -> float:
    """How far the corner is broken at worst: chamfer and, where known, the play hard over to one side."""
    chamfer = Decimal(0) if place.chamfer is None else largest(place.chamfer)
    play, cap = Decimal(0), place.cap_diameter
    if cap is not None and place.bore_diameter is not None:
        play = largest(place.bore_diameter) - least(cap)
    elif cap is not None and place.shaft_diameter is not None:
        play = largest(cap) - least(place.shaft_diameter)
    return float(chamfer + max(play, Decimal(0)))
