"""What is filled in by pen: kit and tools to tick, values to measure, the gas charge."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from catalogue.rebuild_sheet.findings import Numbering
from catalogue.rebuild_sheet.sizes import as_told, description_of
from catalogue.rebuild_sheet.sources import GIVEN, MEASURED, Cite, Sources
from fitcheck.words import dimension_words
from schema.cautions import Caution
from schema.dimension import Dimension
from schema.finding import Finding, Status
from schema.unit import SHARED, Entry, Unit
from schema.unit_verdict import KitLine, UnitVerdict, WearSize

NOT_TOLD = "not told"
GENERAL = "a general caution of this check, not of the unit's maker"
FIRST_STEP = "before anything"  # the first step of the cautions
KEEPS = {
    "renew": "Renew",
    "replace": "Replace",
    "look and measure": "Look and measure",
    "may stay": "May stay",
}


class KitRow(NamedTuple):
    """A part of the kit, with the numbers of the places it goes into."""

    part_number: str
    name: str
    quantity: int
    places: tuple[int, ...]


class Tool(NamedTuple):
    """A tool, with the numbers of the places it is needed at; () for the whole unit."""

    name: str
    places: tuple[int, ...]


class Warned(NamedTuple):
    """A caution at its step of the work; ``places`` where it is of some places only."""

    step: str
    text: str
    places: tuple[int, ...]
    cite: Cite


class ToMeasure(NamedTuple):
    """A size that a finding waits for: at which places, as it was told, what it decides."""

    places: tuple[int, ...]
    words: str
    told: str
    decides: tuple[str, ...]
    cite: Cite


class GasRow(NamedTuple):
    """One line of the gas charge record, with what is told of it."""

    words: str
    told: str


class GasRecord(NamedTuple):
    """The record of one gas chamber; place 0 where gas is told of, but no chamber."""

    place: int
    name: str
    rows: tuple[GasRow, ...]
    cite: Cite


def kit_rows(kit: Sequence[KitLine], numbers: Mapping[str, int]) -> list[tuple[str, str, list[KitRow]]]:
    """The kit by what is to be done with each part, and why: renew, replace, look and measure, may stay."""
    found: dict[tuple[str, str], list[KitRow]] = {}
    for line in kit:
        places = tuple(dict.fromkeys(numbers[name] for name in line.places))
        row = KitRow(line.part_number, line.name, line.quantity, places)
        found.setdefault((KEEPS.get(line.keep, line.keep), line.why), []).append(row)
    return [(keep, why, rows) for (keep, why), rows in found.items()]


def tools(verdict: UnitVerdict, numbers: Mapping[str, int]) -> list[Tool]:
    """Every tool once, those of the whole unit first."""
    return [Tool(name, tuple(numbers[place] for place in places)) for name, places in verdict.tools]


def warnings(verdict: UnitVerdict, numbers: Mapping[str, int], sources: Sources) -> list[Warned]:
    """The cautions in the order of the work; what several places add stands before their opening."""
    first = [_warned(one, sources) for one in verdict.cautions if one.step == FIRST_STEP]
    later = [_warned(one, sources) for one in verdict.cautions if one.step != FIRST_STEP]
    at = _cautions_at(verdict)
    shared = [
        Warned("before opening", text, tuple(map(numbers.__getitem__, names)), _general(sources))
        for text, names in at.items()
        if len(names) > 1
    ]
    return first + shared + later


def cautions_of_one(verdict: UnitVerdict) -> dict[str, list[str]]:
    """Cautions that only one place gives, by its name: they are told there."""
    found: dict[str, list[str]] = {}
    for text, names in _cautions_at(verdict).items():
        if len(names) == 1:
            found.setdefault(names[0], []).append(text)
    return found


def _cautions_at(verdict: UnitVerdict) -> dict[str, list[str]]:
    at: dict[str, list[str]] = {}
    for place in verdict.places:
        for text in dict.fromkeys(place.verdict.cautions):
            at.setdefault(text, []).append(place.name)
    return at


def _general(sources: Sources) -> Cite:
    return sources.cite(GENERAL, "common_practice")


def _warned(caution: Caution, sources: Sources) -> Warned:
    return Warned(caution.step, caution.text, (), sources.cite(caution.source, caution.grade))


def to_measure(
    unit: Unit, verdict: UnitVerdict, numbers: Mapping[str, int], by: Numbering
) -> list[ToMeasure]:
    """Every size that an open finding depends on or waits for, once; one that places share once for all.

    A place that does not fit waits for no measurement, but for another part.
    """
    rows: dict[tuple[str, str, str], ToMeasure] = {}
    entries = {one.name: one for one in unit.entries}
    for place in verdict.places:
        entry = entries.get(place.name)
        if place.verdict.status is Status.DOES_NOT_FIT:
            continue
        for finding in _open(place.verdict.findings):
            for name, told in _sizes(finding):
                shared = _shared(entry, name)
                key = (name, told, shared or place.name)
                words = dimension_words(name) + (f" ({shared})" if shared else "")
                cite = _cite(entry, name, unit, by)
                _enter(rows, key, numbers[place.name], words, told, finding.quantity, cite)
    for finding in _open(verdict.findings):
        for name, told in _sizes(finding):
            places = numbers.get(name, 0)
            cite = by.sources.cite(description_of(unit.head), GIVEN, places)
            _enter(rows, (name, told, ""), places, dimension_words(name), told, finding.quantity, cite)
    for line in verdict.kit:
        for size in line.measure:
            _enter_wear(rows, line, size, entries, numbers, unit, by)
    return list(rows.values())


def _enter_wear(
    rows: dict[tuple[str, str, str], ToMeasure],
    line: KitLine,
    size: WearSize,
    entries: Mapping[str, Entry],
    numbers: Mapping[str, int],
    unit: Unit,
    by: Numbering,
) -> None:
    """A size that tells wear: of a part, of its place, or of a shaft that places share."""
    entry = entries.get(size.place)
    shared = "" if entry else size.place
    owners = [one.part for one in entry.parts if _number(one.part) == size.part_number] if entry else []
    at = entry.place if entry else next(one.place for one in unit.entries if one.place.runs_on == size.place)
    value = getattr(owners[0] if size.part_number and owners else at, size.field, None)
    told = value.text if isinstance(value, Dimension) else ""
    of = shared or size.part_number
    words = dimension_words(size.field) + (f" ({of})" if of else "")
    key = (size.field, told, shared or f"{size.place} {size.part_number}".strip())
    decides = f"whether {line.part_number or line.name} may stay"
    places = [numbers[size.place]] if entry else [numbers[name] for name in line.places]
    for place in places or [0]:
        _enter(rows, key, place, words, told, decides, _cite(entry, size.field, unit, by))


def _number(part: object) -> str:
    return str(getattr(part, "part_number", ""))


def _open(findings: Iterable[Finding]) -> list[Finding]:
    return [one for one in findings if one.status is Status.NOT_PROVEN]


def _sizes(finding: Finding) -> list[tuple[str, str]]:
    """The sizes of a finding with what was told of each; what is missing with nothing."""
    names = [one.dimension for one in finding.influences] or list(finding.inputs)
    told = [(name, finding.inputs.get(name, "")) for name in names]
    return told + [(name, "") for name in finding.lacks]


def _shared(entry: Entry | None, name: str) -> str:
    """What a size is of, where other places tell it too."""
    return entry.place.runs_on if entry and name in SHARED else ""


def _cite(entry: Entry | None, name: str, unit: Unit, by: Numbering) -> Cite:
    place = getattr(entry.place, name, None) if entry else None
    parts = [getattr(one.part, name, None) for one in entry.parts] if entry else []
    value = next((one for one in (place, *parts) if isinstance(one, Dimension)), None)
    if value is not None and value.measured:
        return by.sources.cite(f"Measured on {unit.head.unit}, as given to this check", MEASURED)
    if value is not None and value.source:
        grades = [str(getattr(one.part, "size_grade", "")) for one in entry.parts] if entry else []
        return by.sources.cite(value.source, next(filter(None, grades), "standard"))
    return by.sources.cite(description_of(unit.head), GIVEN)


def _enter(
    rows: dict[tuple[str, str, str], ToMeasure],
    key: tuple[str, str, str],
    place: int,
    words: str,
    told: str,
    decides: str,
    cite: Cite,
) -> None:
    before = rows.get(key) or ToMeasure((), words, told, (), cite)
    places = tuple(dict.fromkeys((*before.places, *((place,) if place else ()))))
    rows[key] = before._replace(places=places, decides=tuple(dict.fromkeys((*before.decides, decides))))


PISTON_DEPTH = "piston depth"
# Fields of a gas chamber that belong into the record of its charge, in the order of the work.
_GAS_FIELDS = (
    ("gas", ("gas",)),
    ("charge, gauge", ("charge",)),
    ("charge that the maker allows, gauge", ("charge_range",)),
    ("temperature of the unit when charged", ("set_temperature",)),
    (PISTON_DEPTH, ("set_depth", "depth_from", "depth_to")),
    ("volume of gauge and hose", ("gauge_volume",)),
)
_ALWAYS = ("gas", "charge, gauge", "temperature of the unit when charged", PISTON_DEPTH)
GAUGE = GasRow("gauge used, its number or range", "")


def gas_records(unit: Unit, numbers: Mapping[str, int], by: Numbering) -> list[GasRecord]:
    """A record for each gas chamber; a blank one where places hold gas and no chamber is described."""
    cite = by.sources.cite(description_of(unit.head), GIVEN)
    found = []
    for entry in unit.entries:
        if entry.place.kind != "gas_chamber":
            continue
        told = [(words, _told(entry.place, fields)) for words, fields in _GAS_FIELDS]
        bladder = getattr(entry.place, "separator", "") == "bladder"
        wanted = [words for words in _ALWAYS if not (bladder and words == PISTON_DEPTH)]
        rows = [GasRow(words, text) for words, text in told if text != NOT_TOLD or words in wanted]
        found.append(GasRecord(numbers.get(entry.name, 0), entry.name, (*rows, GAUGE), cite))
    if not found and any(one.service.medium == "gas" for one in unit.entries):
        blank = tuple(GasRow(words, NOT_TOLD) for words in _ALWAYS)
        found.append(GasRecord(0, "gas", (*blank, GAUGE), cite))
    return found


def _told(place: Any, fields: Sequence[str]) -> str:
    told = [as_told(value) for name in fields if (value := getattr(place, name, None)) not in (None, "")]
    return ", ".join(told) or NOT_TOLD
