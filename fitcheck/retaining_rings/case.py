"""One ring in one groove: what is known of both, and which row of which table belongs to them."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from fitcheck.inquiry import KnownSizes, known, together
from fitcheck.retaining_rings.thrust import Highest, RingLoad, highest_pressure, ring_load, unknown_thrust
from fitcheck.setting import Known
from schema.dimension import Dimension, between
from schema.fit import Fit
from schema.reference import Reference
from schema.retaining import BORE_STYLES, WIRE_STYLES, RetainingRing, RetainingRingGroove
from schema.retaining_tables import FlatRing, WireRing, ring_limits

_PLACE = {
    "bore_diameter": "bore_diameter",
    "shaft_diameter": "shaft_diameter",
    "groove_diameter": "groove_diameter",
    "groove_width": "groove_width",
    "edge_distance": "land_to_the_edge",
    "groove_yield": "yield_of_the_groove",
    "seal_diameter": "seal_diameter",
    "shoulder_diameter": "shoulder_diameter",
    "thrust": "thrust",
}
# Sizes that decide only what a flat ring under thrust bears; there they must be as well known as the rest.
_UNDER_THRUST = {"cap_diameter": "cap_diameter", "chamfer": "chamfer", "wall": "wall_behind_the_groove"}
_RING = {
    "thickness": "ring_thickness",
    "wire_diameter": "wire_diameter",
    "free_diameter": "free_ring_diameter",
}
OF_RING = frozenset(_RING.values())
# A yield is told as the least there is, a pressure or a thrust as the most: none of them needs a tolerance.
EXEMPT = frozenset({"yield_of_the_groove", "highest_pressure", "thrust"})


class Case(NamedTuple):
    """One ring in one groove. ``ring`` is None where nobody named one.

    ``flat`` and ``wire`` are the rows of its standard; ``load`` is the printed load of the ring that counts;
    ``no_thrust`` says what is missing where the thrust is not known. ``wrong_side``: a ring for a bore meets
    a shaft, or one for a shaft a bore; only where that is not so are sizes ``asked`` for. ``beside`` is the
    size beside the groove, ``section`` that of the ring along it.
    """

    place: RetainingRingGroove
    ring: RetainingRing | None
    style: str
    flat: FlatRing | None
    wire: WireRing | None
    highest: Highest | None
    load: RingLoad
    no_thrust: str
    known: KnownSizes
    is_wire: bool
    wrong_side: bool
    asked: bool
    beside: str
    section: str
    listed: tuple[str, ...]
    pressure_told: str

    @property
    def pushed(self) -> bool:
        """Whether anything pushes on the ring, as far as is known."""
        return _pushed(self.place)

    @property
    def named_by(self) -> str:
        """The size of the place that a ring is named by: its bore or shaft; of an E-clip its groove."""
        return "groove_diameter" if self.style == "e_clip" else self.beside

    @property
    def depth_mm(self) -> float | None:
        """Depth of the groove [mm] by the table, else in the middle of its sizes; None where unknown."""
        if self.flat is not None:
            return self.flat.depth
        groove, beside = self.known.sizes.get("groove_diameter"), self.known.sizes.get(self.beside)
        return abs(groove.middle - beside.middle) / 2 if groove and beside else None


def _pushed(place: RetainingRingGroove) -> bool:
    return place.thrust is None or place.thrust.upper > 0 or place.thrust.standard_uncertainty > 0


def case_of(fit: Fit, reference: Reference) -> Case:
    """Everything known of a groove and the ring in it."""
    place, ring = fit.place, fit.first(RetainingRing)
    assert isinstance(place, RetainingRingGroove)
    flat = ring.flat_row if ring else None
    wire = ring.wire_row if ring else None
    highest = None if place.thrust else highest_pressure(fit, reference)
    sizes: dict[str, Known] = {}
    if ring is not None:
        sizes |= _tabled(ring, flat, wire)
    if highest is not None:
        sizes["highest_pressure"] = highest.pressure
    style = ring.found_style if ring else ""
    is_wire = style in WIRE_STYLES
    wrong_side = bool(style) and place.is_bore is not None and (style in BORE_STYLES) is not place.is_bore
    return Case(
        place,
        ring,
        style,
        flat,
        wire,
        highest,
        ring_load(flat, place) if flat else RingLoad(None),
        unknown_thrust(fit),
        together(
            known(place, _PLACE | (_UNDER_THRUST if _pushed(place) and not is_wire else {})),
            known(ring, _RING),
            KnownSizes(sizes, {}),
        ),
        is_wire,
        wrong_side,
        ring is not None and not wrong_side,
        "bore_diameter" if place.is_bore else "shaft_diameter",
        "wire_diameter" if is_wire else "ring_thickness",
        tuple(part.name for part in dict.fromkeys(_rings(fit))),
        _pressure_told(fit),
    )


def _rings(fit: Fit) -> list[RetainingRing]:
    return [one.part for one in fit.parts if isinstance(one.part, RetainingRing)]


def _pressure_told(fit: Fit) -> str:
    """Where a pressure on the place is told, in words; "" where none is."""
    if fit.place.loaded_by:
        return f"loaded by {fit.place.loaded_by}"
    told = fit.service.pressure
    return f"pressure {told.text}" if told is not None and told.gauge_mpa > 0 else ""


def _tabled(ring: RetainingRing, flat: FlatRing | None, wire: WireRing | None) -> dict[str, Known]:
    """Sizes of the ring that its standard gives and nobody told."""
    sizes: dict[str, Known] = {}
    if flat is not None and ring.thickness is None:
        least, most = flat.thickness
        if ring.designation is not None and ring.designation.standard == "IS 3075":
            either_way = ring_limits()["is3075_thickness"].low
            least, most = most - either_way, most + either_way
        sizes["ring_thickness"] = _between(least, most, flat.name)
    if ring.free_diameter is None and flat is not None:
        sizes["free_ring_diameter"] = _between(*flat.free, flat.name)
    elif ring.free_diameter is None and wire is not None:
        sizes["free_ring_diameter"] = _between(*wire.free, wire.source)
    return sizes


def _between(low: float, high: float, source: str) -> Dimension:
    least, most = Decimal(str(round(low, 6))), Decimal(str(round(high, 6)))
    return between(least, most, text=f"{least}..{most} mm by {source}", source=source)
