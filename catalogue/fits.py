"""A place of the catalogue that is no gland, with all that goes into it, as a question to be checked."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from typing import Any

from catalogue.find import place_row
from catalogue.texts import part_texts, unit_texts
from schema.errors import InputError, InputErrors
from schema.fit import Fit
from schema.fit_question import fit_choices
from schema.nearest import not_among
from schema.places import PLACE_MODELS
from schema.unit import unit_from


def is_fit(connection: sqlite3.Connection, place: str) -> bool:
    """Whether a place of the catalogue is of a kind that takes more than a ring; false if it is unknown."""
    unit, _, own = (piece.strip() for piece in place.partition("/"))
    found = connection.execute("SELECT kind FROM place WHERE unit = ? AND place = ?", (unit, own)).fetchone()
    return found is not None and found[0] not in PLACE_MODELS


def fit_of(
    connection: sqlite3.Connection, part_number: str | None, place: str, over: Mapping[str, Any]
) -> Fit:
    """The question of a place with what its rebuild list has, a part replaced by another of its kind.

    ``over`` has the sections part, place, service and choices of a question; what they give leads. A field
    of the section place that is a mapping belongs to the part of that number. Raises UnknownName and
    InputErrors.
    """
    over = _sections(over)
    row = place_row(connection, place)
    name = row["place"]
    texts = unit_texts(connection, row["unit"])
    own = dict(texts["places"][name])
    parts = dict(texts.get("parts") or {})
    if part_number is not None:
        own["parts"], part_number = _with_part(connection, part_number, own.get("parts") or [], parts)
    named = own.get("loaded_by")
    chamber = {other: _alone(one) for other, one in texts["places"].items() if other == named}
    fitted = [one if isinstance(one, str) else one["part"] for one in own.get("parts") or []]
    alone = {
        **{field: text for field, text in texts.items() if field not in ("shafts", "places", "parts", "oil")},
        "places": {name: own, **chamber},
        "parts": {number: parts[number] for number in fitted},
    }
    measured = {**(over.get("place") or {}), **(over.get("service") or {})}
    if of_part := over.get("part"):
        measured[_whose(part_number, fitted)] = of_part
    try:
        unit = unit_from(
            alone,
            measured={name: measured} if measured else None,
            choices=fit_choices(over.get("choices") or {}),
        )
    except InputErrors as several:
        raise InputErrors([_told(error, name) for error in several.errors]) from several
    question = unit.entries[0].question
    assert isinstance(question, Fit)
    return question


_SECTIONS = ("part", "place", "service", "choices")


def _sections(over: Mapping[str, Any]) -> Mapping[str, Any]:
    """The sections laid over a place of the catalogue. Raises InputErrors for one that is no such thing."""
    errors: list[InputError] = []
    for name, given in over.items():
        if given is None or given == "":
            continue
        if name not in _SECTIONS:
            problem = (
                "of a place of the catalogue its list of parts counts, and no such section is laid over it"
            )
            errors.append(not_among(_SECTIONS, field=name, given=name, problem=problem))
        elif not isinstance(given, Mapping):
            errors.append(InputError(field=name, given=given, problem="this section holds named entries"))
    if errors:
        raise InputErrors(errors)
    return over


def _with_part(
    connection: sqlite3.Connection, number: str, listed: list[Any], parts: dict[str, Any]
) -> tuple[list[Any], str]:
    """The list of a place with a part in the stead of the one of its kind, or added where there is none."""
    wanted = part_texts(connection, number)
    known = next((one for one in parts if one.lower() == number.strip().lower()), number.strip())
    parts[known] = wanted
    numbers = [one if isinstance(one, str) else one["part"] for one in listed]
    if known in numbers:
        return listed, known
    same = [at for at, one in enumerate(numbers) if parts[one].get("kind") == wanted["kind"]]
    if len(same) > 1:
        several = ", ".join(numbers[at] for at in same)
        raise InputError(
            field="part",
            given=number,
            problem=f"the place takes several parts of its kind ({several}), and only one is told",
            allowed="a place that takes one, or a unit file that lists this part",
        )
    changed: list[Any] = list(listed)
    if not same:
        return [*changed, known], known
    old = changed[same[0]]
    changed[same[0]] = known if isinstance(old, str) else {**old, "part": known}
    return changed, known


def _alone(place: Mapping[str, Any]) -> dict[str, Any]:
    """A place without its parts and without places that it names itself."""
    return {field: text for field, text in place.items() if field not in ("parts", "loaded_by")}


def _whose(part_number: str | None, fitted: list[str]) -> str:
    """The part that fields of the section part belong to."""
    if part_number is not None:
        return part_number
    if len(fitted) == 1:
        return fitted[0]
    raise InputError(
        field="part",
        given="",
        problem=f"the place takes {len(fitted)} parts; which one is meant is not told",
        allowed=", ".join(fitted),
        example=f"{fitted[0]}.width=12.1 mm" if fitted else "",
    )


def _told(error: InputError, name: str) -> InputError:
    """An error at a path of the unit, told by the field alone."""
    for before in (f"places.{name}.", "places.", "parts.", "measured."):
        if error.field.startswith(before):
            return error.for_field(error.field.removeprefix(before))
    return error
