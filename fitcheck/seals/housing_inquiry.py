"""What is asked about a lip seal or wiper in its seat.

The press-in of the outside is judged by what is printed of DIN 3760 and ISO 6194-1, which are standards of
rotary seals; their shaft (h11) is not asked of a reciprocating rod. For the lip of a reciprocating seal no
band was found in print, so a seal is taken to suit the shaft it is marked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from fitcheck.decision import DecisionRule, decision_rule
from fitcheck.inquiry import Beside, Inquiry, Judged, KnownSizes, known, together
from fitcheck.made_of import made_of
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from fitcheck.seals.against_table import no_table, row_for, table_findings
from fitcheck.seals.lip import height_left, lip_grip, press_in, shaft_over_mark
from fitcheck.seals.press import TWICE, mark_limits, press_limits
from fitcheck.seals.surroundings import surroundings
from fitcheck.seals.words import WORDS
from fitcheck.single import lacking
from fitcheck.verdict import cautions_for
from fitcheck.words import Words
from schema.finding import Finding, Limits, Status
from schema.fit import Fit
from schema.reference import Reference
from schema.seal_tables import seal_limits
from schema.seals import LipSeal, Wiper, WiperSeat

Pressed = LipSeal | Wiper
_OF_PLACE = {name: name for name in ("housing_bore", "seat_depth", "shaft_diameter", "clear_height")}
_OF_PART = ("outside_diameter", "inside_diameter", "width", "total_height", "made_for_shaft")
TAKEN = (
    "bands of rotary seals (DIN 3760, ISO 6194-1) for the press-in of the outside alone: their shaft h11 is "
    "not asked of a rod that slides"
)


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked about a seat and what goes into it."""
    place, by = fit.place, decision_rule(fit.choices.decision_rule)
    assert isinstance(place, WiperSeat)
    parts = [one.part for one in fit.parts if isinstance(one.part, (LipSeal, Wiper))]
    pressed = _by_prefix([one for one in parts if one.pressed])
    names = [(part, {field: f"{prefix}_{field}" for field in _OF_PART}) for prefix, part in pressed.items()]
    known_sizes = together(known(place, _OF_PLACE), *(known(part, named) for part, named in names))
    findings: list[Finding] = []
    taken: list[str] = []
    for part in parts:
        made = made_of(part.material, fit.service, reference, by=by, whose=part.name if parts[1:] else "")
        findings += made.findings
        taken += made.taken
    findings += _more_than_one(fit, pressed)
    if not pressed:
        findings.append(lacking("seal", "what goes into the seat", "lip seal or wiper"))
    findings += _of_table(place, pressed, reference, by)
    findings += surroundings(place, list(pressed.values()), reference, by)
    judged = [
        one for prefix, part in pressed.items() for one in _judged(place, prefix, part, len(pressed) > 1)
    ]
    judged += _heights(place, pressed)
    return Inquiry(
        question=f"Does {' with '.join(one.name for one in parts) or 'nothing'} fit {place.name}?",
        sizes=known_sizes.sizes,
        quantities=partial(_quantities, prefixes=tuple(pressed)),
        judged=tuple(judged),
        surfaces=_surfaces(known_sizes, pressed),
        of_part=frozenset(f"{prefix}_{field}" for prefix in pressed for field in _OF_PART),
        exempt=frozenset(f"{prefix}_made_for_shaft" for prefix in pressed) | {"clear_height"},
        findings=tuple(findings),
        beside=_beside(pressed),
        not_asked=_not_asked(place),
        taken=tuple(dict.fromkeys([*taken, *([TAKEN] if _is_pressed(pressed) else [])])),
        cautions=cautions_for(fit.service),
    )


def _by_prefix(parts: list[Pressed]) -> dict[str, Pressed]:
    """What is held in the seat, by the word its sizes begin with: at most one seal and one wiper."""
    found: dict[str, Pressed] = {}
    for part in parts:
        found.setdefault("seal" if isinstance(part, LipSeal) else "wiper", part)
    # The seal leads, in whatever order they are listed: its quantities bear the bare names.
    return {prefix: found[prefix] for prefix in ("seal", "wiper") if prefix in found}


def _more_than_one(fit: Fit, pressed: Mapping[str, Pressed]) -> list[Finding]:
    """Two seals of one kind in one seat are not taken apart: nothing would be known of the second."""
    count = sum(
        one.quantity for one in fit.parts if isinstance(one.part, (LipSeal, Wiper)) and one.part.pressed
    )
    if count <= len(pressed):
        return []
    return [
        Finding(
            rule="one_of_each",
            quantity="seals of one kind in one seat",
            status=Status.NOT_PROVEN,
            meaning="only the first of each kind was judged",
            reason=f"{count} seals and wipers are listed, of which {len(pressed)} were judged",
            action="Give each its own seat in the unit.",
        )
    ]


def _surfaces(sizes: KnownSizes, pressed: Mapping[str, Pressed]) -> dict[str, str]:
    """A bare metal case is measured as metal is."""
    surfaces = dict(sizes.surfaces)
    for prefix, part in pressed.items():
        if part.case == "metal":
            surfaces[f"{prefix}_outside_diameter"] = "outside"
    return surfaces


def _is_pressed(pressed: Mapping[str, Pressed]) -> bool:
    return any(part.case in ("metal", "rubber_covered") for part in pressed.values())


# -- quantities ----------------------------------------------------------------------------------------


def _quantities(
    sizes: Mapping[str, Span], evaluate: Evaluate, *, prefixes: tuple[str, ...]
) -> dict[str, Span]:
    """Every quantity of the seat that the sizes allow."""
    found: dict[str, Span] = {}
    for number, prefix in enumerate(prefixes):
        of = {field: sizes.get(f"{prefix}_{field}") for field in _OF_PART}
        bore, shaft = sizes.get("housing_bore"), sizes.get("shaft_diameter")
        outside, lip, marked = of["outside_diameter"], of["inside_diameter"], of["made_for_shaft"]
        if bore is not None and outside is not None:
            found[_rule("press_in", prefix, number)] = evaluate(
                press_in, outside_diameter_mm=outside, housing_bore_mm=bore
            )
        if shaft is not None and lip is not None:
            found[_rule("lip_grip", prefix, number)] = evaluate(
                lip_grip, shaft_diameter_mm=shaft, lip_diameter_mm=lip
            )
        if shaft is not None and marked is not None:
            found[_rule("shaft_over_mark", prefix, number)] = evaluate(
                shaft_over_mark, shaft_diameter_mm=shaft, marked_shaft_mm=marked
            )
    for name, depth, field in (
        ("height_room", "seat_depth", "width"),
        ("stand_out", "clear_height", "total_height"),
    ):
        heights = [sizes.get(f"{prefix}_{field}") for prefix in prefixes]
        if depth in sizes and heights and None not in heights:
            found[name] = evaluate(height_left, depth_mm=sizes[depth], height_mm=_sum(heights))
    return found


def _sum(spans: list[Span | None]) -> Span:
    given = [one for one in spans if one is not None]
    return Span(*(sum(ends) for ends in zip(*given, strict=True)))


def _rule(name: str, prefix: str, number: int) -> str:
    return name if number == 0 else f"{name}_of_{prefix}"


# -- by what each is judged ----------------------------------------------------------------------------


def _judged(place: WiperSeat, prefix: str, part: Pressed, several: bool) -> list[Judged]:
    number = 1 if several and prefix == "wiper" else 0
    marked = part.made_for_shaft
    found = []
    if part.case != "none":
        found.append(_press(place, prefix, part, number))
    grip = seal_limits()["lip_interference", "marked" if marked is not None else "lip_seal"]
    of_wiper = marked is None and isinstance(part, Wiper)
    found.append(
        Judged(
            _rule("lip_grip", prefix, number),
            _words("lip_grip", prefix, several),
            None if of_wiper else grip,
            ("shaft_diameter", f"{prefix}_inside_diameter"),
            why_open="no published band for the lip of a wiper; the shaft it is made for is not told",
            ask_whom="Give the shaft the wiper is marked or listed for.",
        )
    )
    if marked is not None:
        found.append(
            Judged(
                _rule("shaft_over_mark", prefix, number),
                _words("shaft_over_mark", prefix, several),
                mark_limits(marked),
                ("shaft_diameter",),
                why_open="the printed shaft tolerances do not reach this size",
            )
        )
    return found


def _words(name: str, prefix: str, several: bool) -> Words:
    words = WORDS[name]
    return words._replace(quantity=f"{prefix}: {words.quantity}") if several else words


def _press(place: WiperSeat, prefix: str, part: Pressed, number: int) -> Judged:
    several = number > 0
    needs = ("housing_bore", f"{prefix}_outside_diameter")
    words = _words("press_in", prefix, several)
    wanted = place.wanted_press
    if wanted is not None:
        low, high = float(wanted.lower), float(wanted.upper)
        limits = Limits(
            low,
            high,
            "mm",
            "worst_case",
            "the maker of the unit",
            f"as the maker gives it: {wanted.text}",
            "given",
            0.0,
            TWICE * high,
            refuse_source="geometry below 0; above twice the maker's figure own judgement, no source",
            refuse_grade="own_judgement",
        )
        return Judged(_rule("press_in", prefix, number), words, limits, needs)
    case, bore = part.case or "", place.housing_bore
    limits_or_none = press_limits(bore, case) if bore is not None and case else None
    wants = () if case else ("case of the seal (rubber_covered, metal or none)",)
    return Judged(
        _rule("press_in", prefix, number),
        words,
        limits_or_none,
        needs,
        wants,
        why_open="the printed press bands do not reach this size",
    )


def _heights(place: WiperSeat, pressed: Mapping[str, Pressed]) -> list[Judged]:
    if not pressed:
        return []
    cased = any(part.case != "none" for part in pressed.values())
    found = [
        Judged(
            "height_room",
            WORDS["height_room"],
            seal_limits()["height_room", "metal" if cased else "none"],
            ("seat_depth", *(f"{prefix}_width" for prefix in pressed)),
        )
    ]
    if place.clear_height is not None:
        found.append(
            Judged(
                "stand_out",
                WORDS["stand_out"],
                seal_limits()["stand_out", "any"],
                ("clear_height", *(f"{prefix}_total_height" for prefix in pressed)),
            )
        )
    return found


# -- findings that stand on their own, and what is told beside ------------------------------------------


def _of_table(
    place: WiperSeat, pressed: Mapping[str, Pressed], reference: Reference, by: DecisionRule
) -> list[Finding]:
    """The seat against the table it is made to; a seal without a case needs one, for it is not pressed."""
    snapped = any(part.case == "none" for part in pressed.values())
    if not place.housing_standard and not snapped:
        return []
    row = row_for(reference.housings, place, "rod", place.housing_standard, place.shaft_diameter)
    if row is None or place.shaft_diameter is None:
        standard = "ISO 5597 or ISO 7425-2" if "wiper" not in pressed else "ISO 6195, types A, C, D, E"
        return [no_table(place.housing_standard, standard)]
    return table_findings(place, row, place.shaft_diameter, by)


def _beside(pressed: Mapping[str, Pressed]) -> tuple[Beside, ...]:
    return tuple(
        Beside(
            _rule("lip_grip", prefix, number),
            f"{prefix}: grip of the free lip, on the diameter",
            "mm",
            "nqksfoilseal.com prints 0.15 to 0.60 mm for rotary seals; none was found for sliding ones",
            "published_once",
        )
        for number, (prefix, part) in enumerate(pressed.items())
        if part.made_for_shaft is not None
    )


def _not_asked(place: WiperSeat) -> tuple[str, ...]:
    told = (
        ("finish of the shaft", place.surface_finish_running is not None),
        ("hardness of the shaft", place.shaft_hardness_hrc is not None),
        ("out of round of the shaft", place.shaft_out_of_round is not None),
        ("chamfer at the mouth of the seat", place.lead_in_angle is not None),
        ("room above for what stands out", place.clear_height is not None),
        ("order and direction of the lips: look before you press", False),
    )
    return tuple(text for text, given in told if not given)
