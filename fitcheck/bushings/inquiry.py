"""What is asked about a bushing in its seat: what holds it, what runs in it, how far it is worn."""

from __future__ import annotations

from collections.abc import Iterator

from fitcheck.bushings import limits as by
from fitcheck.bushings.quantities import quantities_of
from fitcheck.bushings.seat import Seat, seat_of
from fitcheck.bushings.words import WORDS
from fitcheck.compatibility import compatibility
from fitcheck.decision import decision_rule
from fitcheck.inquiry import Beside, Inquiry, Judged, KnownSizes, known, together
from fitcheck.single import lacking
from fitcheck.words import joined
from schema.bushing_tables import Band, expansions, family_of_material, figure
from schema.bushings import STYLES, BushingSeat, PlainBushing
from schema.finding import Finding, Limits
from schema.fit import Fit
from schema.places import metals_of
from schema.reference import Reference

_CREEP = (
    "a plastic gives way in its seat with time, and no published figure says how much of the interference "
    "is left: the maker's allowance decides"
)
_NO_SHAFT_CLASS = "ISO 2795 gives the bore after fitting, not the shaft: the maker's clearance decides"
_NO_BAND = "no published row covers this size: the maker's clearance decides"
_NOMINAL_BORE = "nominal bore of the bushing (12 F7)"
_LIGHT_ALLOY = (
    "glycodur.de: the published fits hold for steel and cast iron; a light-alloy housing may need more"
)
_SEAT_SIZES = {
    "housing_bore": "housing_bore",
    "shaft_diameter": "shaft_diameter",
    "seat_length": "seat_length",
    "housing_outside_diameter": "housing_outside_diameter",
    "bore_as_fitted": "fitted_bore",
    "bore_before": "bore_before",
    "shaft_before": "shaft_before",
}
_WRAPPED_SIZES = {
    "wall": "bushing_wall",
    "length": "bushing_length",
    "ring_gauge_diameter": "ring_gauge_diameter",
}
_SOLID_SIZES = {
    "inside_diameter": "bushing_bore",
    "outside_diameter": "bushing_outside_diameter",
    "length": "bushing_length",
}
# Outlines that only carry stiffness, and sizes of an earlier day: nothing is proven by them alone.
_EXEMPT = frozenset({"housing_outside_diameter", "bore_before", "shaft_before"})


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked about one bushing seat."""
    place = fit.place
    assert isinstance(place, BushingSeat)
    part = fit.first(PlainBushing)
    seat = seat_of(place, part, fit.service)
    sizes = _sizes(place, part, seat)
    band = by.running_band(part)
    told = part.name if part is not None else "the shaft"
    return Inquiry(
        question=f"Does {told} hold and run in {place.name}?",
        sizes=sizes.sizes,
        surfaces=sizes.surfaces,
        of_part=frozenset(name for name in sizes.sizes if name in _OF_PART),
        quantities=quantities_of(seat, telling=False, stress=place.housing_yield is not None),
        telling=quantities_of(seat, telling=True, stress=True),
        judged=tuple(_judged(fit, place, part, seat, band)),
        findings=tuple(_findings(fit, part, reference)),
        beside=tuple(_beside(place, seat)),
        exempt=_EXEMPT,
        not_asked=tuple(_not_asked(place, part, sizes, seat, band)),
        taken=tuple(_taken(place, part, seat, sizes)),
    )


_OF_PART = frozenset(_WRAPPED_SIZES.values()) | frozenset(_SOLID_SIZES.values())


def _sizes(place: BushingSeat, part: PlainBushing | None, seat: Seat) -> KnownSizes:
    """Sizes by name. The diameters of a wrapped bushing are nominal and are not among them."""
    names = _SEAT_SIZES
    if place.bore_as_fitted is None:  # wear is told from measurements only
        names = {field: name for field, name in names.items() if not field.endswith("_before")}
    of_part = _WRAPPED_SIZES if seat.style == "wrapped" else _SOLID_SIZES
    return together(known(place, names), known(part, of_part if seat.style else {}))


def _judged(
    fit: Fit, place: BushingSeat, part: PlainBushing | None, seat: Seat, band: Band | None
) -> Iterator[Judged]:
    if part is not None and seat.style is not None:
        yield from _hold(fit, place, part, seat)
        if seat.style == "sintered":
            limits = by.fitted_bore_limits(part)
            wants = () if limits is not None else (_NOMINAL_BORE,)
            yield _one("fitted_bore", limits, "bushing_bore", "housing_bore", wants=wants, required=False)
    yield from _run(fit, place, part, seat, band)
    yield _one("seat_room", by.room_limits(), "seat_length", "bushing_length", required=False)
    for name, limit in (
        ("shaft_wear", by.shaft_wear_limits(place)),
        ("bore_wear", by.bore_wear_limits(place)),
    ):
        if limit is not None:
            yield _one(name, limit, *WORDS[name].needs)


def _hold(fit: Fit, place: BushingSeat, part: PlainBushing, seat: Seat) -> Iterator[Judged]:
    """What holds the bushing in its seat."""
    outside = "bushing_outside_diameter"
    if seat.style == "wrapped":
        outside = "ring_gauge_diameter"
        # The published housing holds a steel-backed one in steel; see _LIGHT_ALLOY.
        needed = place.metal != "steel" or part.family not in ("steel", "")
        if part.ring_gauge_diameter is None and not needed:
            limits = by.housing_limits(part)
            wants = () if limits is not None else ("ring gauge diameter",)
            yield _one("housing_size", limits, "housing_bore", wants=wants)
            return
    plastic = seat.style == "polymer" and place.allowed_interference is None
    yield _one("seat_interference", by.interference_limits(place), outside, "housing_bore")
    wants = () if fit.service.temperature is not None else ("temperature range",)
    if part.family not in expansions():
        wants = (*wants, "material of the bushing's body")
    for name in ("cold_interference", "hot_interference"):
        yield _one(
            name,
            None if plastic else by.held_limits(),
            outside,
            "housing_bore",
            wants=wants,
            why_open=_CREEP if plastic else "",
        )
    stress = by.stress_limits(place)
    if stress is not None:
        yield _one("seat_stress", stress, outside, "housing_bore", "housing_outside_diameter", required=False)


def _run(
    fit: Fit, place: BushingSeat, part: PlainBushing | None, seat: Seat, band: Band | None
) -> Iterator[Judged]:
    """What runs in it."""
    needs = _bore_needs(place, seat)
    unknown_wall = seat.style == "wrapped" and place.bore_as_fitted is None
    unknown_wall = unknown_wall and part is not None and part.wall is None
    bore = ("bushing wall or the bore as fitted",) if unknown_wall else ()
    yield _one(
        "running_clearance",
        by.clearance_limits(place, band),
        *needs,
        wants=bore,
        why_open=_NO_SHAFT_CLASS if seat.style == "sintered" else _NO_BAND,
    )
    if part is None or seat.style is None:
        return
    wants = bore if fit.service.temperature is not None else (*bore, "temperature range")
    if part.family not in expansions():
        wants = (*wants, "material of the bushing's body")
    if part.inside_diameter is None or part.outside_diameter is None:
        wants = (*wants, "inside and outside diameter of the bushing")
    for name in ("cold_clearance", "hot_clearance"):
        yield _one(name, by.free_limits(), *needs, wants=wants)


def _bore_needs(place: BushingSeat, seat: Seat) -> tuple[str, ...]:
    if place.bore_as_fitted is not None or seat.style is None:
        return ("fitted_bore", "shaft_diameter")
    if seat.style == "wrapped":
        return ("housing_bore", "shaft_diameter")  # and the wall, asked for by other words
    return ("bushing_bore", "bushing_outside_diameter", "housing_bore", "shaft_diameter")


def _one(
    name: str,
    limits: Limits | None,
    *needs: str,
    wants: tuple[str, ...] = (),
    required: bool = True,
    why_open: str = "",
) -> Judged:
    return Judged(
        name,
        WORDS[name],
        limits,
        needs=needs,
        wants=wants,
        required=required,
        why_open=why_open or "no published limit covers this case",
    )


def _findings(fit: Fit, part: PlainBushing | None, reference: Reference) -> Iterator[Finding]:
    if part is None:
        yield lacking("bushing", "what goes into the seat", "bushing")
        return
    if part.style is None:
        yield lacking("bushing_style", "how the bushing is made", f"style ({', '.join(STYLES)})")
    material = part.family if part.style == "polymer" else family_of_material(part.lining_material)
    if material in reference.materials:
        rule = decision_rule(fit.choices.decision_rule)
        yield from compatibility(material, fit.service, reference, by=rule, squeezed=False)
    elif part.style == "polymer":
        yield lacking("material_temperature", "plastic of the bushing", "material")


def _beside(place: BushingSeat, seat: Seat) -> Iterator[Beside]:
    """What is told and decides nothing."""
    elastic = "" if seat.sleeve is None else seat.sleeve.grade
    if place.housing_yield is None:
        yield Beside(
            "hoop_stress", "hoop stress in the housing, at the most of the service", "MPa", grade=elastic
        )
    yield Beside("interface_pressure", "pressure between bushing and housing", "MPa", grade=elastic)
    friction = figure("friction")
    given = place.press_friction is not None
    yield Beside(
        "press_force",
        "force to press it in",
        "N",
        "friction as given" if given else friction.source,
        "given" if given else friction.grade,
        "" if given else friction.note,
    )
    if seat.share_by_lame:
        yield Beside("bore_close_in", "close-in of the bore", "mm", grade=elastic)
    flattening = figure("flattening")
    yield Beside(
        "interference_left",
        "interference left once roughness is flattened",
        "mm",
        flattening.source,
        flattening.grade,
        flattening.note,
    )
    yield Beside("wear_since", "wear of bore and shaft since the earlier measurement", "mm")
    yield Beside("wear_left", "wear left to the maker's limit", "mm", by.GIVEN, "given")
    yield from _life(place)


def _life(place: BushingSeat) -> Iterator[Beside]:
    """Remaining use, only where the wear is more than its own uncertainty."""
    if not _wear_is_certain(place):
        return
    note = "if wear goes on as it did between the two measurements; running-in wears faster"
    for name, quantity, unit in (
        ("remaining_distance", "distance left to the maker's wear limit", "km"),
        ("remaining_hours", "hours left to the maker's wear limit", "h"),
    ):
        yield Beside(name, quantity, unit, "straight line through two measurements", "derived", note)


def _wear_is_certain(place: BushingSeat) -> bool:
    """Whether the wear between two measurements exceeds what the instruments may be out by."""
    pairs = ((place.bore_as_fitted, place.bore_before), (place.shaft_before, place.shaft_diameter))
    worn = spread = 0.0
    for larger_one, smaller_one in pairs:
        if larger_one is None or smaller_one is None:
            continue
        worn += larger_one.middle - smaller_one.middle
        spread += larger_one.half_width(2.0) + smaller_one.half_width(2.0)
    return worn > spread > 0.0


def _not_asked(
    place: BushingSeat, part: PlainBushing | None, sizes: KnownSizes, seat: Seat, band: Band | None
) -> Iterator[str]:
    limits = (place.largest_clearance, place.largest_bore, place.least_shaft_diameter)
    if all(one is None for one in limits):
        shop = figure("shop_wear_factor")
        most = f" (above {shop.middle * band.high:.3f} mm here)" if band is not None else ""
        yield f"wear limit: the maker's was not given; {shop.source}{most}"
        if seat.style == "polymer":
            usual = figure("polymer_wear")
            yield f"wear of a plastic bushing: {usual.middle:g} mm is a default of {usual.source}"
    if place.housing_yield is None and "housing_outside_diameter" in sizes.sizes:
        yield "yield of the housing: its yield strength was not given"
    if "fitted_bore" in sizes.sizes and (place.distance_since or place.hours_since):
        if not _wear_is_certain(place):
            yield "remaining life: the wear is no more than the instruments may be out by"
        elif place.largest_clearance is None:
            yield "remaining life: the maker's largest clearance was not given"
    if part is not None and seat.style == "sintered" and by.fitted_bore_limits(part) is None:
        yield f"bore after fitting, by ISO 2795: give the {_NOMINAL_BORE}"
    if seat.style in ("solid", "sintered"):
        yield "the bushing's metal against the fluid"
    if seat.style == "polymer" and place.allowed_interference is not None:
        yield "creep of the plastic in its seat: the maker's interference is taken to allow for it"


def _taken(place: BushingSeat, part: PlainBushing | None, seat: Seat, sizes: KnownSizes) -> Iterator[str]:
    untold = [body for body, metal in _bodies(place) if metal is None]
    if untold:
        yield f"{joined(untold)} of aluminium or steel, since no metal is told: both count"
    if seat.cold is not None:
        yield _expansion_taken(place, part)
    if "fitted_bore" in sizes.sizes:
        yield "the bore measured after pressing leads over the calculated one"
    elif seat.style == "wrapped":
        yield "the bore of a wrapped bushing is the housing less twice its wall (rigid housing)"
    elif seat.style is not None:
        low, high = 100.0 * seat.share.low, 100.0 * seat.share.high
        how = (
            "by Lamé"
            if seat.share_by_lame
            else "between bounds: housing outside diameter or stiffness missing"
        )
        yield f"the bore closes in by {low:.0f} to {high:.0f} % of the interference, {how}"
    if seat.style == "wrapped" and place.metal != "steel":
        yield _LIGHT_ALLOY


def _bodies(place: BushingSeat) -> tuple[tuple[str, str | None], ...]:
    """Housing and shaft with the metal told of each."""
    return (("housing", place.metal), ("shaft", place.shaft_metal))


def _expansion_taken(place: BushingSeat, part: PlainBushing | None) -> str:
    """The expansion of each material, its bodies named together, with its source once."""
    bodies: dict[str, list[str]] = {}
    (housing, of_housing), (shaft, of_shaft) = _bodies(place)
    for body, families in (
        (housing, metals_of(of_housing)),
        ("bushing", () if part is None else (part.family,)),
        (shaft, metals_of(of_shaft)),
    ):
        for family in families:
            if family in expansions():
                bodies.setdefault(family, []).append(body)
    told = (
        f"{joined(names)} of {of.name} {1e6 * of.low:.3g} to {1e6 * of.high:.3g} ({of.source})"
        for of, names in ((expansions()[family], names) for family, names in bodies.items())
    )
    return f"linear expansion in 1e-6 per K: {'; '.join(told)}"
