"""All places of a unit at once: a verdict on each, on the unit as a whole, the kit, tools and cautions."""

from __future__ import annotations

from fitcheck.check import check
from fitcheck.decision import DecisionRule, decision_rule
from fitcheck.unit.cautions import cautions_of
from fitcheck.unit.kit import kit, oil_lines
from fitcheck.unit.pressures import told_pressures
from fitcheck.unit.shared import shared_surfaces
from fitcheck.unit.travel import strokes, travel
from fitcheck.unit.worn import shaft_lines, unmeasured_wear, worn_shafts
from fitcheck.verdict import worst_first
from schema.finding import WORST_FIRST, Finding, Status, Verdict
from schema.guidance import Choices
from schema.reference import Reference
from schema.unit import Entry, Unit
from schema.unit_verdict import PlaceVerdict, UnitVerdict


def check_unit(unit: Unit, reference: Reference, choices: Choices | None = None) -> UnitVerdict:
    """The verdict on a whole unit; pure, as the check of one place is."""
    rule = decision_rule((choices or Choices()).decision_rule)
    places = tuple(_place(entry, reference, rule.name) for entry in unit.entries)
    findings = worst_first(
        [
            *shared_surfaces(unit),
            *worn_shafts(unit, rule),
            *travel(unit, rule),
            *strokes(unit),
            *_threads_passed(unit),
            *told_pressures(unit, reference),
            *_wetted(unit, reference, rule),
        ]
    )
    statuses = {one.verdict.status for one in places} | {one.status for one in findings}
    status = min(statuses, key=WORST_FIRST.index, default=Status.NOT_PROVEN)
    return UnitVerdict(
        unit=unit.head.unit,
        description=unit.head.description,
        status=status,
        decision_rule=rule.name,
        places=places,
        findings=tuple(findings),
        kit=kit(places, [*oil_lines(unit), *shaft_lines(unit, findings)]),
        tools=_tools(unit),
        cautions=cautions_of(unit),
        next_step=_next_step(status, places, findings),
        not_asked=_not_asked(unit),
        taken=(),
    )


def _threads_passed(unit: Unit) -> list[Finding]:
    """Seals over the threads of a shaft; what reads threads is only loaded where a shaft tells one."""
    if not any(getattr(shaft, "thread", "") for shaft in unit.shafts.values()):
        return []
    from fitcheck.unit.threads_passed import threads_passed

    return threads_passed(unit)


def _wetted(unit: Unit, reference: Reference, rule: DecisionRule) -> list[Finding]:
    """The oil of the unit; what judges it is only loaded where one is told."""
    if not unit.head.oil:
        return []
    from fitcheck.unit.wetted import wetted

    return wetted(unit, reference, rule)


def _place(entry: Entry, reference: Reference, rule: str) -> PlaceVerdict:
    place = entry.place
    return PlaceVerdict(
        name=entry.name,
        kind=place.kind,
        words=place.words_for,
        description=place.description,
        parts=entry.parts,
        verdict=_no_ring(entry, rule) if entry.question is None else check(entry.question, reference),
        tools=place.tools,
    )


def _no_ring(entry: Entry, rule: str) -> Verdict:
    finding = Finding(
        rule="ring_listed",
        quantity="ring that goes into the gland",
        status=Status.NOT_PROVEN,
        meaning="nothing can be said of a gland without its ring",
        reason="no O-ring or four-lobed ring is on the list of this place",
        action="Give the ring that goes in, by its part number.",
        lacks=("ring",),
    )
    return Verdict(Status.NOT_PROVEN, f"{entry.place.name}, no ring told", rule, (finding,), finding.action)


def _tools(unit: Unit) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Each tool once, with the places it is needed at; those of the whole unit first."""
    at: dict[str, list[str]] = {tool: [] for tool in unit.head.tools}
    for entry in unit.entries:
        for tool in entry.place.tools:
            at.setdefault(tool, []).append(entry.name)
    return tuple((tool, tuple(places)) for tool, places in at.items())


def _next_step(status: Status, places: tuple[PlaceVerdict, ...], findings: list[Finding]) -> str:
    """One line: what stands in the way of opening and closing this unit."""
    if status is Status.FITS:
        return "Every place fits by every rule asked. Work by the maker's instructions."
    bad = [one.name for one in places if one.verdict.status is Status.DOES_NOT_FIT]
    bad += [one.quantity for one in findings if one.status is Status.DOES_NOT_FIT]
    if bad:
        return f"Do not close it as listed: {', '.join(bad)}."
    count = sum(one.verdict.status is Status.NOT_PROVEN for one in places)
    count += sum(one.status is Status.NOT_PROVEN for one in findings)
    are = "thing is" if count == 1 else "things are"
    return f"{count} {are} not proven: measure or give what is named below."


def _not_asked(unit: Unit) -> tuple[str, ...]:
    """What of the whole unit was not asked, since it was not told."""
    head = unit.head
    told = (
        ("travel of the shaft against metal (stroke, travel_to_metal)", head.stroke and head.travel_to_metal),
        ("the oil that goes in, against each elastomer (oil)", head.oil),
        ("gas chamber", any(one.place.kind == "gas_chamber" for one in unit.entries)),
        ("what shaft or bore the places share (runs_on)", any(one.place.runs_on for one in unit.entries)),
        ("tools", _tools(unit)),
    )
    return (*(text for text, given in told if not given), *unmeasured_wear(unit))
