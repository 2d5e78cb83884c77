"""One place as the sheet tells it: parts, verdict, what to do, findings, sizes, drawing."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from catalogue.rebuild_sheet.drawings import Figure, figure
from catalogue.rebuild_sheet.findings import (
    TAKEN,
    Beside,
    Numbering,
    Shown,
    beside,
    length_text,
    sentence,
    shown,
)
from catalogue.rebuild_sheet.records import GENERAL
from catalogue.rebuild_sheet.sizes import ToldOf, description_of, told_of
from catalogue.rebuild_sheet.sources import GIVEN, WORKED_OUT, Cite
from fitcheck.explain import explained
from schema.finding import WORST_FIRST, Finding, Status
from schema.fit import Fitted
from schema.reference import Reference
from schema.unit import Entry, Unit
from schema.unit_verdict import PlaceVerdict, UnitVerdict

# How much the sheet tells: what is worked by, a place that fits in one row; or everything.
Extent = Literal["working", "whole"]
MOST_DRAWN = 6  # glands drawn to scale, worst places first: each takes a third of a printed page
_MEASURE = re.compile(r"\b[Mm]easured?\b")


class Listed(NamedTuple):
    """A part as it goes into a place."""

    number: str
    words: str
    quantity: int
    renewed: str


class ShownPlace(NamedTuple):
    """A place in the words of the sheet, with its number, which is the same everywhere on it."""

    number: int
    name: str
    words: str
    description: str
    status: Status
    question: str
    told_by: Cite
    next_step: str
    next_cite: Cite
    to_measure: bool
    parts: tuple[Listed, ...]
    tools: tuple[str, ...]
    near: tuple[Shown, ...]
    waiting: tuple[Shown, ...]
    inside: tuple[Shown, ...]
    beside: tuple[Beside, ...]
    told: tuple[ToldOf, ...]
    taken: tuple[str, ...]
    taken_by: Cite
    cautions: tuple[str, ...]
    caution_cite: Cite
    takes_parts: bool
    driver: str
    figure: Figure | None
    in_a_row: bool


def numbered(verdict: UnitVerdict) -> dict[str, int]:
    """The number of each place: its place in the order of the work, from 1."""
    return {one.name: number for number, one in enumerate(verdict.places, start=1)}


def shown_places(
    unit: Unit,
    verdict: UnitVerdict,
    reference: Reference,
    by: Numbering,
    cautions: Mapping[str, list[str]],
    extent: Extent,
) -> dict[int, ShownPlace]:
    """Every place by its number, in the order in which the sheet tells them: worst first.

    ``cautions`` are those of one place only, by its name. A working sheet tells a place that fits by its
    tightest finding, and a gas chamber by what the gas does.
    """
    numbers = numbered(verdict)
    entries = {one.name: one for one in unit.entries}
    ordered = sorted(
        verdict.places, key=lambda one: (WORST_FIRST.index(one.verdict.status), numbers[one.name])
    )
    drawn = [
        one.name
        for one in ordered
        if one.kind == "gas_chamber"
        or (one.verdict.status is not Status.FITS and getattr(entries.get(one.name), "question", None))
    ][:MOST_DRAWN]
    return {
        numbers[one.name]: _shown_place(
            one,
            entries.get(one.name),
            unit,
            reference,
            by,
            numbers[one.name],
            drawn=one.name in drawn,
            extent=extent,
            cautions=tuple(map(sentence, cautions.get(one.name, ()))),
        )
        for one in ordered
    }


def _shown_place(
    place: PlaceVerdict,
    entry: Entry | None,
    unit: Unit,
    reference: Reference,
    by: Numbering,
    number: int,
    *,
    drawn: bool,
    extent: Extent,
    cautions: tuple[str, ...],
) -> ShownPlace:
    verdict = place.verdict
    told_by = by.sources.cite(description_of(unit.head), GIVEN, number)
    rules = _rules(entry, reference)
    near, waiting, inside = parted(verdict.findings)
    whole, gas = extent == "whole", place.kind == "gas_chamber"
    in_a_row = not (whole or gas) and verdict.status is Status.FITS
    if not whole:
        inside = []
    shown_near = tuple(shown(one, by, rules.get(one.rule, ()), number, drawn=not in_a_row) for one in near)
    shown_waiting = tuple(shown(one, by, rules.get(one.rule, ()), number, drawn=False) for one in waiting)
    first = (*shown_near, *shown_waiting)
    question = entry.question if entry else None
    return ShownPlace(
        number=number,
        name=place.name,
        words=place.words,
        description=place.description,
        status=verdict.status,
        question=sentence(verdict.question),
        told_by=told_by,
        next_step=length_text(verdict.next_step, by),
        next_cite=first[0].cite if first else told_by,
        to_measure=verdict.status is Status.NOT_PROVEN and bool(_MEASURE.search(verdict.next_step)),
        parts=tuple(map(_listed, place.parts)),
        tools=place.tools,
        near=shown_near,
        waiting=shown_waiting,
        inside=tuple(shown(one, by, rules.get(one.rule, ()), number, drawn=False) for one in inside),
        beside=tuple(beside(one, by, rules, number) for one in verdict.told if whole or gas),
        told=tuple(told_of(entry, unit.head, by.sources, number)) if entry and not in_a_row else (),
        taken=() if in_a_row else tuple(length_text(one, by) for one in verdict.taken),
        taken_by=by.sources.cite(TAKEN, WORKED_OUT, number) if verdict.taken and not in_a_row else told_by,
        cautions=cautions,
        caution_cite=by.sources.cite(GENERAL, "common_practice", number) if cautions else told_by,
        takes_parts=not gas,
        driver=sentence(length_text(verdict.driver, by)),
        figure=figure(question, verdict, reference, unit=by.unit, identifier=f"place-{number}")
        if drawn
        else None,
        in_a_row=in_a_row,
    )


def _rules(entry: Entry | None, reference: Reference) -> Mapping[str, Sequence[str]]:
    """The rules behind each quantity of a place, by the quantity's name."""
    if entry is None or entry.question is None:
        return {}
    steps = explained(entry.question, reference)
    return {name: [step.rule for step in chain] for name, chain in steps.items()}


def parted(findings: Sequence[Finding]) -> tuple[list[Finding], list[Finding], list[Finding]]:
    """What is told in full, what only waits to be told something, and what fits in a line each.

    In full: whatever does not fit or is not proven by its numbers; where all fits, the tightest finding.
    """
    waiting = [one for one in findings if one.status is Status.NOT_PROVEN and one.lacks and one.low is None]
    near = [one for one in findings if one.status is not Status.FITS and one not in waiting]
    fits = [one for one in findings if one.status is Status.FITS]
    return (near, waiting, fits) if near or waiting else (fits[:1], [], fits[1:])


def _listed(fitted: Fitted) -> Listed:
    part = fitted.part
    words = str(getattr(part, "description", "") or getattr(part, "words_for", ""))
    renewed = "renewed always" if fitted.renew == "always" else "inspected, renewed if worn"
    return Listed(str(getattr(part, "part_number", "")), words, fitted.quantity, renewed)
