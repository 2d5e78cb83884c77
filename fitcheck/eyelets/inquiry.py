"""What is asked of an eyelet: its hardware, the bush with its pin, its bearings, as one Inquiry."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.eyelets.alike import unlike
from fitcheck.eyelets.bearing_seats import housing_limits, shaft_limits
from fitcheck.eyelets.case import Case, case_of
from fitcheck.eyelets.limits import gap_limits
from fitcheck.eyelets.quantities import quantities
from fitcheck.eyelets.words import WORDS
from fitcheck.inquiry import Beside, Inquiry, Judged
from fitcheck.listed_rings import ring_findings, rings_not_asked
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from fitcheck.single import lacking
from schema.bushings import BushingSeat, PlainBushing
from schema.errors import InputError
from schema.eyelet_tables import eyelet_limits
from schema.eyelets import REDUCERS, THROUGH, EyeletHardware
from schema.finding import Finding, Limits, Status
from schema.fit import Fit
from schema.reference import Reference

_NO_SEAT = "no page read names a seat for this bearing"
_UNTRUE = {
    "needle": "a drawn cup has no true outside diameter until it is pressed in",
    "spherical": "a split outer ring is out of round until it is seated: do not judge it loose in the hand",
}


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked of one eyelet with what goes into it."""
    case = case_of(fit)
    findings = [*_findings(case, fit), *unlike(case, fit), *ring_findings(fit, reference)]
    bush: Inquiry | None = None
    if case.bushings:
        try:
            bush = _bush(case, fit, reference)
        except InputError as error:
            findings.append(_impossible(error))
    told = " and ".join(one.part.name for one in fit.parts) or "nothing"  # type: ignore[attr-defined]
    own = Inquiry(
        question=f"{told} in {case.place.name}: does it go together and turn?",
        sizes=case.sizes,
        surfaces=case.surfaces,
        of_part=case.of_part,
        exempt=frozenset({"load"}),
        quantities=lambda sizes, evaluate: quantities(case, sizes, evaluate),
        judged=tuple(_judged(case)),
        beside=(
            Beside(
                "stack_width", "width of the hardware between the tabs", "mm", "sum of its widths", "derived"
            ),
            Beside(
                "eyelet_pressure", "mean pressure on the bush", "MPa", "load over projected area", "derived"
            ),
        ),
        findings=tuple(findings),
        not_asked=(*_not_asked(case), *rings_not_asked(fit)),
        taken=tuple(_taken(case)),
    )
    return own if bush is None else _both(own, bush)


def _both(own: Inquiry, bush: Inquiry) -> Inquiry:
    """The inquiry of the bush laid beside that of the eyelet."""

    def all_quantities(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
        return own.quantities(sizes, evaluate) | bush.quantities(sizes, evaluate)

    def all_told(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
        return own.quantities(sizes, evaluate) | (bush.telling or bush.quantities)(sizes, evaluate)

    return own._replace(
        sizes={**own.sizes, **bush.sizes},
        surfaces={**own.surfaces, **bush.surfaces},
        of_part=own.of_part | bush.of_part,
        exempt=own.exempt | bush.exempt,
        quantities=all_quantities,
        judged=(*own.judged, *bush.judged),
        beside=(*own.beside, *bush.beside),
        findings=(*own.findings, *bush.findings),
        not_asked=(*own.not_asked, *bush.not_asked),
        taken=(*own.taken, *bush.taken),
        cautions=(*own.cautions, *bush.cautions),
        telling=all_told,
    )


def _bush(case: Case, fit: Fit, reference: Reference) -> Inquiry:
    """The bush in the eyelet with the pin in it, asked as a bushing in its seat."""
    from fitcheck.bushings.inquiry import inquire as ask_bushing

    place = case.place
    seat = BushingSeat(
        unit=place.unit,
        place=place.place,
        description=place.description,
        housing_bore=place.bore,
        shaft_diameter=case.pin,
        seat_length=place.width,
        housing_outside_diameter=place.outside_diameter,
        bore_as_fitted=place.bore_as_fitted,
        allowed_clearance=place.allowed_clearance,
        allowed_interference=place.allowed_interference,
        largest_clearance=place.largest_clearance,
        metal=place.metal,
        shaft_metal=_pin_metal(fit),
    )
    return ask_bushing(
        Fit(place=seat, parts=case.bushings, service=fit.service, choices=fit.choices), reference
    )


def _pin_metal(fit: Fit) -> str | None:
    """The metal of what runs in the bush; None where one part tells none, or they name neither or both.

    A spacer or a washer beside the bush has an outside diameter as well, and does not run in it.
    """
    hardware = (one.part for one in fit.parts if isinstance(one.part, EyeletHardware))
    runs = [part for part in hardware if part.found_style in (*THROUGH, *REDUCERS)]
    metals = [part.material.lower() for part in runs if part.outside_diameter is not None]
    told = " ".join(metals) if all(metals) else ""
    named = [metal for metal, spelling in (("aluminium", "alumin"), ("steel", "steel")) if spelling in told]
    return named[0] if len(named) == 1 else None


def _impossible(error: InputError) -> Finding:
    """Sizes with which the bush or the pin cannot be in the eyelet at all."""
    return Finding(
        rule="eyelet_bush",
        quantity="bush and pin in the eyelet",
        status=Status.DOES_NOT_FIT,
        meaning="these sizes do not go into one another",
        action="The bush and the pin that belong to this eyelet.",
        reason=f"{error.given} {error.problem}",
        source="geometry: the sizes themselves",
        grade="derived",
    )


def _judged(case: Case) -> list[Judged]:
    """Every quantity with its limits, from the bolt outwards."""
    limits = eyelet_limits()
    found = [
        _one("side_gap", gap_limits(case.place), ("mount_width", *case.stack), case.lacks),
    ]
    if case.through is not None:
        wants = () if case.between or case.spacers else ("length of the pin between its spacers",)
        needs = ("eyelet_width", *case.filled)
        found.append(_one("eyelet_float", limits["eyelet_float"], needs, wants))
    if case.spigots:
        found.append(_one("spigot_room", limits["spigot_room"], ("eyelet_width", *case.spigots)))
    if len(case.bush_lengths) > 1:
        found.append(_one("bush_room", limits["bearing_room"], ("eyelet_width", *case.bush_lengths)))
    if case.holes:
        untold = tuple(_bore_of(name) for name in case.holes if name not in case.sizes)
        found.append(_one("bolt_clearance", limits["bolt_clearance"], ("bolt_diameter",), untold))
    if case.on_pin and case.pin is not None and (case.bushings or case.bearings):
        found.append(_one("washer_clearance", limits["spigot_room"], case.on_pin))
    if case.bearings:
        found += _of_bearings(case)
    return found


def _bore_of(name: str) -> str:
    """A hole that is not told, in words: bore of the pin."""
    return f"bore of the {name.removesuffix('_inside_diameter').replace('_', ' ')}"


def _of_bearings(case: Case) -> list[Judged]:
    """The first bearing in its seats, and room for all of them."""
    bearing = case.bearing
    if bearing is None:
        return []
    wants = () if bearing.found_style else ("number of the bearing, or its style",)
    seat = housing_limits(bearing, case.place.metal)
    unsettled = seat is None and housing_limits(bearing, "aluminium") is not None
    on = "pin_outside_diameter" if "pin_outside_diameter" in case.sizes else "bolt_diameter"
    return [
        _one(
            "bearing_seat",
            seat,
            ("eyelet_bore", "bearing_outside_diameter"),
            (*wants, "metal of the eyelet") if unsettled and case.place.metal is None else wants,
        )._replace(why_open=_UNTRUE.get(bearing.found_style, _NO_SEAT)),
        _one("bearing_on_pin", shaft_limits(bearing), ("bearing_inside_diameter", on), wants)._replace(
            why_open=_NO_SEAT
        ),
        _one("bearing_room", eyelet_limits()["bearing_room"], ("eyelet_width", *case.outer_widths)),
    ]


def _one(name: str, limits: Limits | None, needs: tuple[str, ...], wants: tuple[str, ...] = ()) -> Judged:
    return Judged(name, WORDS[name], limits, tuple(dict.fromkeys(needs)), tuple(dict.fromkeys(wants)))


def _findings(case: Case, fit: Fit) -> list[Finding]:
    """What is not told of the hardware as a whole."""
    found = []
    hardware = [one.part for one in fit.parts if isinstance(one.part, EyeletHardware)]
    if not case.bushings and not case.bearings:
        found.append(lacking("eyelet_bush", "what the pin runs in", "bush or bearing of the eyelet"))
    running = [part for part in hardware if part.found_style in (*REDUCERS,) or part is case.through]
    if not case.bearings and not running:
        found.append(lacking("eyelet_pin", "what runs in the bush", "pin or reducers of the eyelet"))
    if any(isinstance(one.part, PlainBushing) and one.part.length is None for one in case.bushings):
        found.append(lacking("bush_length", "bush along the eyelet", "length of the bush"))
    return found


def _not_asked(case: Case) -> tuple[str, ...]:
    """What no figure was found for."""
    told = ["whether frame and hardware turn free of each other over the whole travel"]
    if case.place.load is None:
        told.append("pressure on the bush: the load on the eyelet was not given")
    else:
        told.append("whether the bush bears that pressure: its maker rates it")
    return tuple(told)


def _taken(case: Case) -> list[str]:
    """What was taken for granted, in words."""
    told = []
    twice = [
        name for name in dict.fromkeys(case.stack + case.filled) if (case.stack + case.filled).count(name) > 1
    ]
    if any(case.sizes[name].measured for name in twice if name in case.sizes):
        told.append("one reading stands for all pieces of a part that is fitted more than once")
    for one in case.bearings:
        row = getattr(one.part, "row", None)
        if row is not None and row.note:
            told.append(f"{row.designation}: {row.note}")
        if row is not None and row.grade in ("from_memory", "disputed"):
            told.append(f"{row.designation}: its table is {row.grade.replace('_', ' ')} and was not used")
    bearing = case.bearing
    if bearing is not None and bearing.designation:
        told.append("bearing of tolerance class Normal")
    if bearing is not None and bearing.found_style in _UNTRUE:
        told.append(_UNTRUE[bearing.found_style])
    return told
