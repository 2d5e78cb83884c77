"""From what was typed and read to the question that is checked."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from schema.errors import InputError
from schema.fit import Fit
from schema.reference import Reference


def typed_fields(
    fields: dict[str, str | None], limits: tuple[str, ...], sets: tuple[str, ...]
) -> dict[str, dict[str, Any]]:
    """The sections of a question from the options that were given."""
    given: dict[str, dict[str, Any]] = {}
    for name, value in fields.items():
        if value is not None:
            section, _, field = name.partition("__")
            given.setdefault(section, {})[field] = value
    for one in sets:
        _set(given, one)
    for one in limits:
        rule, equals, name = one.partition("=")
        if not equals:
            raise InputError(
                field="--limit", given=one, problem="a rule and a name are needed", example="fill=eighty-five"
            )
        chosen = given.setdefault("choices", {}).setdefault("limits", {})
        if rule.strip() in chosen:
            raise InputError(
                field="--limit", given=one, problem=f"{rule.strip()} is given twice; give it once"
            )
        chosen[rule.strip()] = name.strip()
    return given


def _set(given: dict[str, dict[str, Any]], text: str) -> None:
    """Put ``NAME=TEXT`` where it belongs: the service, a part (``NUMBER.field``), or the place."""
    from schema.service import Service

    name, equals, value = (piece.strip() for piece in text.partition("="))
    if not (name and equals and value):
        raise InputError(
            field="--set",
            given=text,
            problem="a name and a text are needed",
            example="housing_bore=18.01 mm by bore gauge",
        )
    whose, dot, field = name.rpartition(".")
    field = field.replace("-", "_")
    if whose == "part":
        section = given.setdefault("part", {})
    elif dot:
        section = given.setdefault("place", {}).setdefault(whose, {})
    else:
        section = given.setdefault("service" if field in Service.declared else "place", {})
    if field in section:
        raise InputError(field="--set", given=text, problem=f"{name} is given twice; give it once")
    section[field] = value


def plain_kinds(given: dict[str, Any]) -> dict[str, Any]:
    """Kinds of ring and gland as the program itself writes them: "four-lobed ring", "O-ring", "rod gland"."""
    from schema.parts import PART_MODELS
    from schema.places import PLACE_MODELS

    for section, ending, known in (
        ("part", "_ring", set(PART_MODELS)),
        ("place", "_gland", set(PLACE_MODELS)),
    ):
        values = given.get(section)
        kind = values.get("kind") if isinstance(values, dict) else None
        if isinstance(values, dict) and isinstance(kind, str):
            plain = "_".join(kind.lower().replace("-", " ").replace("_", " ").split())
            plain = plain.removesuffix(ending).removesuffix(ending[1:]).removesuffix("_") + ending
            if plain in known:
                given = {**given, section: {**values, "kind": plain}}
    return given


def merged(base: dict[str, Any], over: dict[str, dict[str, Any]]) -> dict[str, Any]:
    """The sections of a question with others laid over them."""
    found = dict(base)
    for section, values in over.items():
        inner = found.get(section)
        found[section] = {**inner, **values} if isinstance(inner, dict) else values
    return found


def read_question(name: str) -> dict[str, Any]:
    """The question in a JSON file, or on standard input where the name is -. Raises InputError."""
    try:
        text = sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8-sig")
        found = json.loads(text, object_pairs_hook=_no_key_twice)
        json.dumps(found, ensure_ascii=False).encode()  # a lone surrogate is no text
    except OSError as error:
        raise InputError(
            field="--question",
            given=name,
            problem=f"cannot be read: {error.strerror}",
            example="question.json",
        ) from error
    except UnicodeDecodeError as error:
        raise InputError(
            field="--question", given=name, problem=f"is not UTF-8 text (byte {error.start})"
        ) from error
    except UnicodeEncodeError as error:
        raise InputError(
            field="--question", given=name, problem="has half of a character in it (a lone surrogate)"
        ) from error
    except (json.JSONDecodeError, RecursionError) as error:
        where = (
            f", line {error.lineno}, column {error.colno}" if isinstance(error, json.JSONDecodeError) else ""
        )
        raise InputError(
            field="--question",
            given=name,
            problem=f"is not JSON{where}",
            example='{"part": {...}, "place": {...}, "service": {...}}; see borebook schema question',
        ) from error
    if not isinstance(found, dict):
        raise InputError(
            field="--question",
            given=name,
            problem="holds no object at its top",
            example='{"part": {...}, "place": {...}, "service": {...}}',
        )
    return found


def _no_key_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """A key that stands twice would silently lose one of its values."""
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise InputError(
                field="--question", given=key, problem="this key stands twice in one section; keep one"
            )
        found[key] = value
    return found


def resolved(
    ring: str | None, place: str | None, given: dict[str, Any], catalogue: str | None
) -> dict[str, Any] | Fit:
    """Fill part and place from the catalogue or from a standard size."""
    part = given.get("part") if isinstance(given.get("part"), dict) else {}
    where = given.get("place") if isinstance(given.get("place"), dict) else {}
    number = (part or {}).get("part_number")
    if number is not None and not isinstance(number, str):
        raise InputError(
            field="part.part_number", given=number, problem="a number is given as a text", example='"QV-1202"'
        )
    ring = ring or number
    place = place or _place_name(where or {})
    if ring is None and place is None:
        return given
    from catalogue.resolve import resolved as looked_up

    return looked_up(ring, place, given, Path(catalogue) if catalogue else None)


def _place_name(where: dict[str, Any]) -> str | None:
    if "kind" in where or not (where.get("unit") and where.get("place")):
        return None
    return f"{where['unit']}/{where['place']}"


def with_own_housings(reference: Reference, named: str | None, catalogue: str | None) -> Reference:
    """The published tables, with the workshop's own table of housings where it has one."""
    from catalogue.housing_tables import with_housings
    from catalogue.store import location

    try:
        return with_housings(reference, named, catalogue=location(catalogue))
    except InputError as error:
        raise error.for_field("--housings" if named else error.field) from None
