"""The kit: what is renewed always, what may stay, and what decides it."""

from __future__ import annotations

from collections.abc import Sequence

from schema.finding import Status
from schema.fit import Fitted
from schema.unit_verdict import KitLine, PlaceVerdict

RENEW, STAY, LOOK, REPLACE = "renew", "may stay", "look and measure", "replace"
PROVEN = "proven by what was measured"


def kit(places: Sequence[PlaceVerdict], shafts: Sequence[KitLine] = ()) -> tuple[KitLine, ...]:
    """Every part of the unit once for each thing that can be said of it, with quantities added up.

    ``shafts`` are the lines of what the places run on.
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
            )
    order = (RENEW, REPLACE, LOOK, STAY)
    return tuple(
        sorted([*lines.values(), *shafts], key=lambda line: (order.index(line.keep), line.part_number))
    )


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
