"""The kit: what is renewed always, what may stay, and what decides it."""

from __future__ import annotations

from collections.abc import Sequence

from schema.dimension import Dimension
from schema.finding import Status
from schema.fit import Fitted
from schema.unit import Unit
from schema.unit_verdict import KitLine, PlaceVerdict, WearSize

RENEW, STAY, LOOK, REPLACE = "renew", "may stay", "look and measure", "replace"
PROVEN = "proven by what was measured"


def kit(places: Sequence[PlaceVerdict], others: Sequence[KitLine] = ()) -> tuple[KitLine, ...]:
    """Every part of the unit once for each thing that can be said of it, with quantities added up.

    ``others`` are the lines of what is on no list of a place: shafts, the oil.
    """
    lines: dict[tuple[str, str, str], KitLine] = {}
    for place in places:
        for fitted in place.parts:
            keep, why = _keep(fitted, place)
            number = str(getattr(fitted.part, "part_number", ""))
            key = (number, keep, why)
            before = lines.get(key)
            name = _name(fitted)
            lines[key] = KitLine(
                number,
                name,
                fitted.quantity + (before.quantity if before else 0),
                (*(before.places if before else ()), place.name),
                keep,
                why,
                (*(before.measure if before else ()), *(_to_measure(fitted, place) if keep == LOOK else ())),
            )
    order = (RENEW, REPLACE, LOOK, STAY)
    return tuple(
        sorted([*lines.values(), *others], key=lambda line: (order.index(line.keep), line.part_number))
    )


def oil_lines(unit: Unit) -> list[KitLine]:
    """The oil that goes in, with how much where a gas chamber tells it; [] where it stands on a list."""
    number = unit.head.oil
    listed = {str(getattr(one.part, "part_number", "")).lower() for at in unit.entries for one in at.parts}
    if not number or number.lower() in listed:
        return []
    part = next((one for known, one in unit.parts.items() if known.lower() == number.lower()), None)
    if part is None:
        return []
    chambers = [at for at in unit.entries if at.place.kind == "gas_chamber"]
    amounts = [one for at in chambers if (one := getattr(at.place, "oil_volume", None)) is not None]
    name = str(getattr(part, "description", "") or "oil") + (f"; takes {amounts[0].text}" if amounts else "")
    fluid = set(unit.head.fluid)
    places = chambers or [at for at in unit.entries if fluid & set(at.service.fluid)]
    at_all = tuple(at.name for at in places)
    return [KitLine(str(getattr(part, "part_number", number)), name, 1, at_all, RENEW)]


def _name(fitted: Fitted) -> str:
    part = fitted.part
    return str(getattr(part, "description", "") or getattr(part, "words_for", ""))


def _keep(fitted: Fitted, place: PlaceVerdict) -> tuple[str, str]:
    """What may be said of a part: a drawing shows no wear, so only what was measured lets it stay."""
    if fitted.renew == "always":
        return RENEW, ""
    verdict = place.verdict
    if verdict.status is Status.DOES_NOT_FIT:
        return REPLACE, f"{place.name} does not fit: {verdict.findings[0].quantity}"
    if verdict.status is Status.FITS and _itself_measured(fitted, place):
        return STAY, PROVEN
    if verdict.status is Status.FITS and _measured_there(place):
        return LOOK, "fits as measured there; of the part itself nothing was measured"
    if verdict.status is Status.FITS:
        return LOOK, "fits as drawn; a drawing shows no wear"
    return LOOK, "not proven"


# Which sizes tell how far a part is worn, or has set; of a kind that is not listed any of its own does.
_TELLS_WEAR = {
    "o_ring": ("cross_section",),
    "four_lobed_ring": ("cross_section",),
    "lip_seal": ("inside_diameter",),
    "wiper": ("inside_diameter",),
    "guide_ring": ("thickness",),
    "plain_bushing": ("wall", "inside_diameter"),
}
# A bushing is read once it is pressed in, as a size of its place.
_READ_IN_PLACE = {"plain_bushing": {"fitted_bore", "bore_as_fitted"}}


# Of these nothing but the part itself tells: a spring, a thread, a rolling path is looked at and felt.
_TELLS_ELSEWHERE = {
    "retaining_ring": ("thickness", "wire_diameter"),
    "eyelet_hardware": ("outside_diameter",),
}


def _to_measure(fitted: Fitted, place: PlaceVerdict) -> tuple[WearSize, ...]:
    """The sizes that would let an inspected part stay; () of a kind that is only looked at."""
    part = fitted.part
    number, kind = str(getattr(part, "part_number", "")), str(getattr(part, "kind", ""))
    if kind in _READ_IN_PLACE and place.kind == "bushing_seat":
        return (WearSize(place.name, "", "bore_as_fitted"),)
    told = _TELLS_WEAR.get(kind) or _TELLS_ELSEWHERE.get(kind, ())
    sizes = (field for field in told if isinstance(getattr(part, field, None), Dimension))
    return tuple(WearSize(place.name, number, field) for field in sizes)


def _measured_there(place: PlaceVerdict) -> set[str]:
    """The measured sizes that move anything at a place."""
    influences = (one for finding in place.verdict.findings for one in finding.influences)
    return {one.dimension for one in influences if one.measured}


def _itself_measured(fitted: Fitted, place: PlaceVerdict) -> bool:
    """Whether the part was measured where it wears: a new shaft makes no old seal good."""
    part = fitted.part
    kind = str(getattr(part, "kind", ""))
    own = (getattr(part, field, None) for field in _TELLS_WEAR.get(kind, tuple(part.declared)))
    in_place = _measured_there(place) & _READ_IN_PLACE.get(kind, set())
    return bool(in_place) or any(getattr(one, "measured", False) for one in own)
