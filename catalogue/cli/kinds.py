"""The fields of a kind of place or part, as a unit file tells them: what each is, its words or an example."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.unit_files.shape import declared_of
from schema.fields import Meaning, meaning_of
from schema.kinds import PARTS, PLACES, TAKES, model_of
from schema.service import Service
from schema.unit import UnitHead

Row = tuple[str, str]


def kinds_in_words() -> dict[str, dict[str, str]]:
    """Every kind of place with the kinds of parts it takes, and every kind of part with its words."""
    return {
        "places": {kind: f"takes {', '.join(TAKES[kind])}" for kind in PLACES},
        "parts": {kind: str(getattr(model_of(kind), "words_for", "")) for kind in PARTS},
    }


def fields_in_words(kind: str) -> dict[str, list[Row]]:
    """The fields of a kind of place or part, or of the unit itself, under headings; {} for no kind."""
    if kind == "unit":
        sections = {
            "shafts": "what several places run on: the name in their runs_on, and its part number",
            "places": "the places in the order of the work, each by its name (borebook names places)",
            "parts": "parts that the catalogue does not have, by number (borebook names parts)",
        }
        head = [(name, _told(meaning_of(one))) for name, one in UnitHead.declared.items()]
        return {"unit": [*head, *sections.items()]}
    if kind in PARTS:
        size = [("size", "size code of a standard, such as AS568-214; sizes given beside it lead")]
        rows = list(_rows(kind))
        beside = [
            ("maker", "who makes it"),
            ("superseded_by", "number of the part that takes its stead"),
            ("notes", "anything else"),
        ]
        return {kind: [*(size if any(name == "size_grade" for name, _ in rows) else []), *rows, *beside]}
    if kind in PLACES:
        takes = ", ".join(TAKES[kind])
        goes_in = f"a line each: - NUMBER, or - {{part: NUMBER, renew: inspect}}; it takes {takes}"
        service = [(name, _told(meaning_of(one))) for name, one in Service.declared.items()]
        return {
            kind: [*_rows(kind), ("parts", goes_in), ("notes", "anything else")],
            "and of the service": service,
        }
    return {}


def _rows(kind: str) -> Iterator[Row]:
    for name, one in declared_of(kind).items():
        yield name, _told(meaning_of(one))


def _told(meaning: Meaning) -> str:
    """What a field is, and the words it may be or an example."""
    if meaning.allowed:
        return f"{meaning.doc}: {', '.join(meaning.allowed)}"
    return f"{meaning.doc}, such as {meaning.example}" if meaning.example else meaning.doc
