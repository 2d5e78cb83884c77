"""A question about a place that is no gland, from nested texts: part or parts, place, service, neighbours.

It has the sections of a question about a ring, so that one question file serves all kinds:

    part     {kind, fields}             or  parts  [{kind, fields, quantity, renew}, ...]
    place    {kind, fields}
    service  {fields}
    neighbours  {name: {kind, fields}}  places that this one names (``loaded_by``)
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from schema.errors import InputError, InputErrors
from schema.fit import Fit
from schema.guidance import Choices
from schema.kinds import PLACES
from schema.nearest import not_among
from schema.question import Question, choices_from, question_from
from schema.service import Service
from schema.unit import unit_from
from schema.unit_parts import kind_of

SECTIONS = ("part", "parts", "place", "service", "neighbours", "choices", "back_up_ring")
GLANDS = ("rod_gland", "piston_gland", "face_gland")
_PLACE = "place"


def any_question_from(given: Mapping[str, Any]) -> Question | Fit:
    """A question about a ring in a gland, or about a place of another kind with what goes into it.

    Raises InputErrors with every text that cannot be used.
    """
    place = given.get("place")
    kind = kind_of(place.get("kind")) if isinstance(place, Mapping) else ""
    if kind in PLACES and kind not in GLANDS:
        return fit_from(given)
    return question_from(given)


def fit_from(given: Mapping[str, Any]) -> Fit:
    """Build a Fit from nested texts. Raises InputErrors with every text that cannot be used."""
    errors: list[InputError] = [
        not_among(SECTIONS, field=name, given=name, problem="there is no such section")
        for name in given
        if name not in SECTIONS
    ]
    if given.get("back_up_ring"):
        errors.append(
            InputError(
                field="back_up_ring",
                given="",
                problem="only a gland takes a back-up ring",
                allowed="part or parts",
            )
        )
    given = {**given, **{name: _named(given, name, errors) for name in _NAMED}}
    _refuse_overlaps(given, errors)
    choices = Choices()
    try:
        choices = fit_choices(given["choices"])
    except InputErrors as several:
        errors.extend(several.errors)
    parts = _parts(given, errors)
    if errors:
        raise InputErrors(errors)
    try:
        unit = unit_from(_texts(given, parts), choices=choices)
    except InputErrors as several:
        raise InputErrors([_told(error, given["service"]) for error in several.errors]) from several
    question = unit.entries[0].question
    assert isinstance(question, Fit)
    return question


def fit_choices(given: Mapping[str, Any]) -> Choices:
    """The choices of a place that is no gland: the decision rule alone. Raises InputErrors."""
    found = choices_from(given)
    of_glands = [name for name, chosen in given.items() if name != "decision_rule" and chosen]
    problem = "this is chosen for a ring in a gland, and the place is none"
    errors = [
        InputError(field=f"choices.{name}", given=str(given[name]), problem=problem, allowed="decision_rule")
        for name in of_glands
    ]
    if errors:
        raise InputErrors(errors)
    return found


_NAMED = ("place", "service", "neighbours", "choices")


def _named(given: Mapping[str, Any], section: str, errors: list[InputError]) -> Mapping[str, Any]:
    """A section of named entries; {} where it is not given or is no such thing, which is told."""
    found = given.get(section)
    if found is None or found == "":
        return {}
    if isinstance(found, Mapping):
        return found
    errors.append(InputError(field=section, given=found, problem="this section holds named entries"))
    return {}


def _refuse_overlaps(given: Mapping[str, Any], errors: list[InputError]) -> None:
    """What would silently take the place of something else: a field of another section, a name twice."""
    place, service = given["place"], given["service"]
    told = {str(field).replace("-", "_") for field in place}
    for field, text in service.items():
        plain = str(field).replace("-", "_")
        if plain not in Service.declared:
            problem = "there is no such field"
            errors.append(not_among(Service.declared, field=f"service.{field}", given=field, problem=problem))
        elif plain in told:
            problem = "is given in the section place too; give it once"
            errors.append(InputError(field=f"service.{field}", given=text, problem=problem))
    name = str(place.get("place") or _PLACE)
    if name in given["neighbours"]:
        problem = "a neighbour has the name of the place itself"
        errors.append(InputError(field=f"neighbours.{name}", given=name, problem=problem))


def _parts(given: Mapping[str, Any], errors: list[InputError]) -> dict[str, Mapping[str, Any]]:
    """The parts of a question under the numbers they have, or under names by their order."""
    listed = given.get("parts")
    one = given.get("part")
    several = list(listed) if isinstance(listed, (list, tuple)) else []
    if listed is not None and not isinstance(listed, (list, tuple)):
        errors.append(InputError(field="parts", given=listed, problem="parts are told as a list"))
    if one is not None:
        several.insert(0, one)
    found: dict[str, Mapping[str, Any]] = {}
    for at, part in enumerate(several):
        if isinstance(part, Mapping):
            found[str(part.get("part_number") or f"part {at + 1}")] = part
        else:
            problem = "a part is told by named fields"
            errors.append(InputError(field=f"parts.{at}", given=part, problem=problem))
    return found


def _texts(given: Mapping[str, Any], parts: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """The texts of a unit that has this one place."""
    place = dict(given["place"])
    name = str(place.pop("place", "") or _PLACE)
    unit = str(place.pop("unit", "") or "as given")
    of_list = ("quantity", "renew", "part_number")
    entry = {
        **place,
        **given["service"],
        "parts": [
            {
                "part": number,
                "quantity": texts.get("quantity", 1),
                "renew": texts.get("renew", "always"),
            }
            for number, texts in parts.items()
        ],
    }
    return {
        "unit": unit,
        "places": {name: entry, **given["neighbours"]},
        "parts": {
            number: {field: text for field, text in texts.items() if field not in of_list}
            for number, texts in parts.items()
        },
    }


def _told(error: InputError, service: Mapping[str, Any]) -> InputError:
    """An error at a path of the unit, told at its path of the question."""
    section, _, rest = error.field.partition(".")
    name, _, field = rest.partition(".")
    if section == "places" and field in {str(one).replace("-", "_") for one in service}:
        return error.for_field(f"service.{field}")
    if section == "places":
        return error.for_field(f"place.{field}" if field else "place")
    if section == "parts":
        return error.for_field(f"part.{field}" if name == "part 1" else f"{name}.{field}".rstrip("."))
    return error
