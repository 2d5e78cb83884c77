"""Turns the fields of a question into the options a person typed, in the messages they read."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import Any

from catalogue.options import BY_PATH, FIELDS, Field
from schema.errors import InputError, InputErrors, UnknownName
from schema.places import PLACE_MODELS

LONGEST_LIST = 100  # characters of allowed words; a longer list is named instead of told


def by_option(
    error: InputError | InputErrors, *, question: Mapping[str, Any], typed: Collection[str], from_file: bool
) -> InputErrors:
    """The same errors, told by option for what was typed; a field of a question file keeps its path.

    ``typed`` has the paths of the options that were given. What is missing is told by option too, unless
    a question file was given.
    """
    errors = error.errors if isinstance(error, InputErrors) else [error]
    place = question.get("place")
    kind = _gland_kind(place.get("kind") if isinstance(place, Mapping) else None)
    told: list[InputError] = []
    for one in errors:
        field = BY_PATH.get(one.field)
        if one.field.startswith("choices.limits") and not from_file:
            told.append(_renamed(one, f"--limit {one.field.removeprefix('choices.limits').lstrip('.')}"))
        elif field is not None and (field.path in typed or (not from_file and one.given in (None, "", 0))):
            told.append(_elsewhere(field, kind) or _by_option(one, field))
        else:
            told.append(one)
    return InputErrors(told if from_file else _one_ring(told))


def _by_option(error: InputError, field: Field) -> InputError:
    found = _renamed(error, field.option)
    found.problem = _options_in(error.problem, field.section)
    found.allowed = _options_in(error.allowed, field.section)
    if field.path == "place.kind":
        found.allowed = error.allowed.replace("_gland", "")
        found.example = error.example.replace("_gland", "")
        if isinstance(found, UnknownName):
            found.nearest = tuple(name.removesuffix("_gland") for name in found.nearest)
    if len(found.allowed) > LONGEST_LIST and field.word_list:
        found.allowed = f"see borebook names {field.word_list}"
    elif len(found.allowed) > LONGEST_LIST and "calliper" in found.allowed:
        found.allowed = "see borebook names instruments; or give U: 12.69 ±U0.02 mm"
    return found


def _renamed(error: InputError, name: str) -> InputError:
    return error.for_field(name.strip())


def _options_in(text: str, section: str) -> str:
    """Names of fields in a text, replaced by their options."""
    for field in FIELDS:
        if field.section == section and "_" in field.name:
            text = re.sub(rf"\b{field.name}\b", field.option, text)
    return text


def _gland_kind(given: object) -> str:
    plain = str(given or "").strip().lower().replace("-", "_").replace(" ", "_")
    return plain if plain in PLACE_MODELS else f"{plain}_gland"


def _elsewhere(field: Field, kind: str) -> InputError | None:
    """The refusal of an option that belongs to another kind of gland; None where it belongs here."""
    if field.section != "place" or field.name == "kind" or kind not in PLACE_MODELS:
        return None
    takes = {name: set(model.declared) for name, model in PLACE_MODELS.items()}
    if field.name in takes[kind]:
        return None
    homes = [name.replace("_", " ") for name, names in takes.items() if field.name in names]
    shared = set.intersection(*takes.values())
    own = [
        one.option
        for one in FIELDS
        if one.section == "place" and one.name in takes[kind] - shared | {"groove_width"}
    ]
    here = kind.replace("_", " ")
    return InputError(
        field="",
        given="",
        problem=f"{field.option} belongs to a {' or a '.join(homes)}; this is a {here} "
        f"({here}s take {', '.join(own)})",
    )


def _one_ring(errors: list[InputError]) -> list[InputError]:
    """Both sizes of the ring missing is one fault: no ring was named."""
    missing = [
        one
        for one in errors
        if one.field in ("--inside-diameter", "--section") and one.problem.startswith("is missing")
    ]
    if len(missing) != 2:
        return errors
    ring = InputError(
        field="RING",
        given="",
        problem="no ring is named",
        allowed="a part number, a size code, or --inside-diameter and --section",
        example="borebook check 214 --gland rod ...",
    )
    return [ring, *(one for one in errors if one not in missing)]
