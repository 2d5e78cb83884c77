"""The whole travel of the shaft: room is left when the bumper is solid and the stroke is at its end."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.decision import DecisionRule
from fitcheck.inquiry import Inquiry, Judged, evidence_of, judged_quantities, known, setting_of
from fitcheck.numbers import Real, Span
from fitcheck.rule import Evaluate, rule
from fitcheck.words import Words
from schema.finding import Finding, Limits, Status
from schema.places import largest, least
from schema.unit import Unit

_SOURCE = "lengths along one axis add up: geometry"


@rule(
    unit="mm",
    equation="c = L - b - s",
    symbols={
        "c": "room left [mm]",
        "L": "travel_to_metal_mm",
        "b": "bumper_solid_length_mm",
        "s": "stroke_mm",
    },
    source=_SOURCE,
    rises_with=("travel_to_metal_mm",),
    falls_with=("bumper_solid_length_mm", "stroke_mm"),
    valid={
        "travel_to_metal_mm": (0.0, 700.0),
        "bumper_solid_length_mm": (0.0, 100.0),
        "stroke_mm": (0.0, 700.0),
    },
)
def room_at_full_stroke(*, travel_to_metal_mm: Real, bumper_solid_length_mm: Real, stroke_mm: Real) -> Real:
    """Room that is left before metal meets metal, at full stroke with the end bumper squeezed solid.

    Equation   c = L - b - s
    Symbols    c   returned                [mm]
               L   travel_to_metal_mm      [mm]  how far the shaft can go without bumper
               b   bumper_solid_length_mm  [mm]  0 where there is none
               s   stroke_mm               [mm]  damper shaft stroke, not wheel travel
    Valid      lengths along one axis
    Source     geometry

    >>> room_at_full_stroke(travel_to_metal_mm=62.0, bumper_solid_length_mm=5.0, stroke_mm=55.0)
    2.0
    """
    return travel_to_metal_mm - bumper_solid_length_mm - stroke_mm


WORDS = Words(
    "room left at full stroke, bumper solid",
    "room_at_full_stroke",
    ("travel_to_metal", "stroke"),
    "the bumper stops the shaft before metal does",
    "metal meets metal before the stroke is done: it breaks the piston or the head",
    "",
    "The right shaft, bumper or travel spacer for this stroke, by the maker's list.",
)
LIMITS = Limits(0.0, None, "mm", "worst_case", "no contact", _SOURCE, "derived", scale=5.0)


def _quantities(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
    if "travel_to_metal" not in sizes or "stroke" not in sizes:
        return {}
    room = evaluate(
        room_at_full_stroke,
        travel_to_metal_mm=sizes["travel_to_metal"],
        bumper_solid_length_mm=sizes.get("bumper_solid_length", Span(0.0, 0.0, 0.0)),
        stroke_mm=sizes["stroke"],
    )
    return {"room_at_full_stroke": room}


def strokes(unit: Unit) -> list[Finding]:
    """Does every gas chamber tell the stroke that the unit tells?"""
    found = []
    for entry in unit.entries:
        own, whole = getattr(entry.place, "stroke", None), unit.head.stroke
        if own is None or whole is None:
            continue
        same = (own.lower, own.upper) == (whole.lower, whole.upper)
        apart = largest(own) < least(whole) or largest(whole) < least(own)
        status = Status.FITS if same else Status.DOES_NOT_FIT if apart else Status.NOT_PROVEN
        found.append(
            Finding(
                rule="stroke_told",
                quantity=f"stroke that {entry.name} was judged with",
                status=status,
                meaning="it is the stroke of the unit" if same else "the unit tells another stroke",
                action="" if same else "Give the stroke of the damper shaft once, as it is.",
                reason="" if same else f"{own.text} told there, {whole.text} of the unit",
                source=_SOURCE,
                grade="derived",
            )
        )
    return found


def travel(unit: Unit, decided_by: DecisionRule) -> list[Finding]:
    """The findings on the travel of the shaft; [] where stroke or travel is not told.

    A bumper that nobody told of may be there: without one 0 mm is told, which needs no tolerance.
    """
    names = {name: name for name in ("stroke", "travel_to_metal", "bumper_solid_length")}
    sizes, surfaces = known(unit.head, names)
    if "stroke" not in sizes or "travel_to_metal" not in sizes:
        return []
    bumper = sizes.get("bumper_solid_length")
    none = frozenset({"bumper_solid_length"} if bumper is not None and bumper.upper == 0 else ())
    judged = (Judged("room_at_full_stroke", WORDS, LIMITS, ("travel_to_metal", "stroke")),)
    inquiry = Inquiry("", sizes, _quantities, judged, surfaces, exempt=none)
    found = judged_quantities(inquiry, setting_of(inquiry, decided_by))
    if bumper is None:
        found = [_without_bumper(one) if one.status is Status.FITS else one for one in found]
    return [*found, *(one._replace(rule="travel_sizes_known") for one in evidence_of(inquiry))]


def _without_bumper(found: Finding) -> Finding:
    """Room that holds only if no bumper takes of it."""
    told = "solid length of the bumper (0 mm where there is none)"
    return found._replace(
        status=Status.NOT_PROVEN,
        meaning="a bumper that nobody told of takes of this room",
        reason=f"missing: {told}",
        action=f"Give the {told}.",
        lacks=(told,),
    )
