"""Asks for the sizes that leave something open, one by one, as they are measured at the bench."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

import click

from fitcheck.words import dimension_words
from schema.dimension import Dimension
from schema.errors import InputError, InputErrors
from schema.fields import meaning_of
from schema.finding import Status
from schema.model import Field, Model
from schema.parts import FourLobedRing, ORing
from schema.unit import Entry, Unit
from schema.unit_verdict import UnitVerdict

Measured = dict[str, dict[str, Any]]


class _Wanted(NamedTuple):
    """A size to ask for: where its answer belongs, what it is called, what is known of it."""

    place: str
    part: str
    field: str
    declared: Field
    known: str


def asked_for(
    unit: Unit,
    verdict: UnitVerdict,
    measured: Mapping[str, Mapping[str, Any]],
    build: Callable[[Measured], object],
) -> Measured:
    """What was measured before, with the answers laid over it; an empty answer leaves a size as it is.

    ``build`` makes a unit of the answers so far; one that contradicts the rest is asked for again.
    """
    found: Measured = {place: dict(texts) for place, texts in measured.items()}
    wanted = list(dict.fromkeys([*_wanted(unit, verdict), *_worn(unit, verdict)]))
    if not wanted:
        click.echo("Nothing is open that a measurement would settle.", err=True)
        return found
    click.echo(
        "What was measured, with its unit and the instrument: 15.97 mm by micrometer. Enter passes over, "
        "a dot ends.",
        err=True,
    )
    for one in wanted:
        found, ends = _with_answer(one, found, build)
        if ends:
            break
    return found


def _with_answer(one: _Wanted, found: Measured, build: Callable[[Measured], object]) -> tuple[Measured, bool]:
    """The answers with that to one size, and whether they end here."""
    while True:
        answer = _answer(one)
        if answer in ("", "."):
            return found, answer == "."
        tried = copy.deepcopy(found)
        section = tried.setdefault(one.place, {})
        (section.setdefault(one.part, {}) if one.part else section)[one.field] = answer
        try:
            build(tried)
        except InputErrors as several:
            for error in several.errors:
                click.echo(f"  {error}", err=True)
        else:
            return tried, False


def _wanted(unit: Unit, verdict: UnitVerdict) -> Iterator[_Wanted]:
    """The sizes that open findings depend on, in the order of the work, those that count most first."""
    for entry, place in zip(unit.entries, verdict.places, strict=True):
        names = dict.fromkeys(
            one.dimension
            for finding in place.verdict.findings
            if finding.status is Status.NOT_PROVEN
            for one in finding.influences
            if not one.measured
        )
        for name in names:
            yield from _of_place(entry, name)


def _worn(unit: Unit, verdict: UnitVerdict) -> Iterator[_Wanted]:
    """The sizes that would let an inspected part stay: of the part, of its place, of a shaft."""
    entries = {one.name: one for one in unit.entries}
    for size in (one for line in verdict.kit for one in line.measure):
        entry = entries.get(size.place)
        on_it = entry or next((one for one in unit.entries if one.place.runs_on == size.place), None)
        if on_it is None:
            continue
        owner: Model = on_it.place
        if size.part_number:
            fitted = (one.part for one in on_it.parts)
            owner = next(one for one in fitted if getattr(one, "part_number", "") == size.part_number)
        known = getattr(owner, size.field, None)
        if getattr(known, "measured", False):
            continue
        told = known.text if isinstance(known, Dimension) else "not told"
        yield _Wanted(size.place, size.part_number, size.field, owner.declared[size.field], told)


def _of_place(entry: Entry, name: str) -> Iterator[_Wanted]:
    size = getattr(entry.place, name, None)
    if name in entry.place.declared and isinstance(size, Dimension):
        yield _Wanted(entry.name, "", name, entry.place.declared[name], size.text)
        return
    for fitted in entry.parts:
        part = fitted.part
        own = getattr(part, name, None)
        if isinstance(part, (ORing, FourLobedRing)) and isinstance(own, Dimension):
            yield _Wanted(entry.name, part.part_number, name, part.declared[name], own.text)
            return


def _answer(one: _Wanted) -> str:
    """A text that can be read as this size, "" to pass it over, "." to end; asks again after a refusal."""
    whose = f"{one.place}, {one.part}" if one.part else one.place
    while True:
        try:
            text: str = click.prompt(
                f"{whose}: {dimension_words(one.field)} (known: {one.known})",
                default="",
                show_default=False,
                err=True,
            ).strip()
        except click.exceptions.Abort:
            return "."
        if text in ("", "."):
            return text
        try:
            meaning_of(one.declared).read(text, dimension_words(one.field))
        except InputError as error:
            click.echo(f"  {error}", err=True)
        else:
            return text
