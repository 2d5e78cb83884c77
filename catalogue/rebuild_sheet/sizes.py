"""What was told of a place and of its parts, each value as it was written, with where it comes from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple

from catalogue.rebuild_sheet.sources import GIVEN, MEASURED, Cite, Sources
from fitcheck.words import dimension_words
from schema.amounts import Amount
from schema.dimension import Dimension, Origin
from schema.fields import meaning_of
from schema.instruments import instruments
from schema.model import Model
from schema.parts import FourLobedRing, ORing
from schema.tables import rows
from schema.unit import Entry, UnitHead

# Told elsewhere on the sheet, or of no effect on what is judged.
_ELSEWHERE = ("unit", "place", "description", "tools", "part_number", "size_grade", "size_source", "notes")
_ISO286 = ("machine_drawing", "machinerys_handbook_31")


class Told(NamedTuple):
    """One value as it was told: its name in words, its text, its sources."""

    words: str
    text: str
    cites: tuple[Cite, ...]


class ToldOf(NamedTuple):
    """All that was told of a place or of a part; ``cites`` hold for what has none of its own."""

    subject: str
    cites: tuple[Cite, ...]
    values: tuple[Told, ...]


def description_of(head: UnitHead) -> str:
    """The unit's own description as a source."""
    told_by = f": {head.source}" if head.source else ", as given to this check"
    return f"Description of {head.unit}{told_by}"


def told_of(entry: Entry, head: UnitHead, sources: Sources, place: int) -> list[ToldOf]:
    """What was told of a place, of its service and of each of its parts."""
    own = [*_values(entry.place, head, sources, place), *_values(entry.service, head, sources, place)]
    found = [_told_of(entry.place.words_for, own)]
    for fitted in entry.parts:
        number = str(getattr(fitted.part, "part_number", ""))
        words = str(getattr(fitted.part, "words_for", "part"))
        found.append(_told_of(f"{words} {number}".strip(), list(_values(fitted.part, head, sources, place))))
    return [one for one in found if one.values]


def _told_of(subject: str, values: list[Told]) -> ToldOf:
    """Values with their common source told once."""
    if not values:
        return ToldOf(subject, (), ())
    common = Counter(one.cites for one in values).most_common(1)[0][0]
    told = tuple(one._replace(cites=()) if one.cites == common else one for one in values)
    return ToldOf(subject, common, told)


def _values(model: Model, head: UnitHead, sources: Sources, place: int) -> Iterator[Told]:
    for name, field in model.declared.items():
        value = getattr(model, name)
        if name in _ELSEWHERE or field.meaning is None or value in (field.default, None, "", ()):
            continue
        of_ring = isinstance(model, (ORing, FourLobedRing))
        words = name.replace("_", " ") if not of_ring else dimension_words(name).removeprefix("ring's ")
        words = words.replace("shore a", "Shore A")
        text = as_told(value) + (" um Ra" if meaning_of(field).kind == "roughness" else "")
        yield Told(words, text, _cites(value, model, head, sources, place))


def as_told(value: Any) -> str:
    """A value as it was written."""
    if isinstance(value, (Dimension, Amount)) or hasattr(value, "text"):
        return str(value.text)
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return ", ".join(as_told(one) for one in value)
    if isinstance(value, float):
        return f"{value:g}"
    return str(value).replace("_", " ")


def _cites(value: Any, model: Model, head: UnitHead, sources: Sources, place: int) -> tuple[Cite, ...]:
    """Where a value comes from: the instrument, a standard, or the unit's own description."""
    described = sources.cite(description_of(head), GIVEN, place)
    if not isinstance(value, (Dimension, Amount)):
        return (described,)
    found = []
    if value.measured:
        found.append(sources.cite(f"Measured on {head.unit}, as given to this check", MEASURED, place))
    elif value.origin is Origin.STANDARD and value.source:
        grade = str(getattr(model, "size_grade", "") or "standard")
        return (sources.cite(value.source, grade, place),)
    else:
        found.append(described)
    if value.instrument:
        means = instruments()[value.instrument]
        found.append(sources.cite(f"{means.source} (usual error of a {means.name})", means.grade, place))
    if getattr(value, "tolerance_class", ""):
        found.append(sources.cite(_iso286(), "published_once", place))
    return tuple(found)


@cache
def _iso286() -> str:
    """The books from which the tables of ISO 286-1 were read."""
    citations = {row["source"]: row["citation"] for row in rows("sources")}
    return "ISO 286-1 limits and fits by " + "; ".join(citations[key] for key in _ISO286)
