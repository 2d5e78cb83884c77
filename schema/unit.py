"""A unit to rebuild: its head, its places in the order of the work, and what goes into each.

``unit_from`` builds it from nested texts, the shape that a unit file and the catalogue share:

    unit, kind, temperature, stroke ...           fields of UnitHead
    shafts: {label: part number}                  what several places run on (their ``runs_on``)
    places: {name: {kind, fields, parts: [...]}}  fields of the place and of its service side by side
    parts:  {part number: {kind, fields}}         every part that is named

Every unusable text is told in one InputErrors; the field of each error is its path in that shape.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from schema.dimension import Dimension
from schema.errors import InputError, InputErrors
from schema.fields import (
    TemperatureRange,
    choice,
    collect,
    length,
    listed,
    read_model,
    temperature_range,
    words,
)
from schema.fit import Fit, Fitted, Place
from schema.guidance import Choices
from schema.kinds import PARTS, PLACES, TAKES, model_of
from schema.materials import fluid_code
from schema.model import Model
from schema.nearest import not_among
from schema.parts import BackUpRing, FourLobedRing, ORing
from schema.places import PLACE_MODELS, Gland
from schema.question import Question, gland_from
from schema.service import Service
from schema.unit_labels import lonely_labels
from schema.unit_measured import far_from_drawn
from schema.unit_parts import BESIDE_PLACE, Texts, UnitParts, at_path, fitted_parts, kind_of, laid_over

UNIT_KINDS = ("coil_shock", "air_shock", "fork_leg", "fork_damper", "damper")
SECTIONS = ("shafts", "places", "parts")
# A seal or guide that tells no fluid of its own is taken to meet the oil of the unit.
WETTED = (*PLACE_MODELS, "wiper_seat", "guide_ring_groove")


def _fluid(value: str, path: str) -> str:
    return fluid_code(value, field=path)


class UnitHead(Model):
    """What is told of a unit as a whole."""

    unit: str = words("name of the unit", "whinchat-216")
    kind: str = choice("what kind of unit it is", UNIT_KINDS, default="damper")
    description: str = words("what it is, in words", "")
    maker: str = words("who made it", "")
    fluid: tuple[str, ...] = listed("the oil it is filled with", "mineral_oil", _fluid)
    oil: str = words("part number of the oil that goes in", "QV-6101")
    temperature: TemperatureRange | None = temperature_range("lowest and highest temperature", "-10..60 degC")
    stroke: Dimension | None = length("stroke of the damper shaft", "55 +0.5/0 mm")
    travel_to_metal: Dimension | None = length(
        "how far the shaft can go before metal meets metal", "62.0 ±0.3 mm", measured_on="depth"
    )
    bumper_solid_length: Dimension | None = length(
        "length of the end bumper when it is squeezed solid", "5.0 ±0.5 mm", allow_zero=True
    )
    tools: tuple[str, ...] = listed("tools for the whole unit", "soft jaws; drain tray")
    notes: str = words("anything else", "")
    source: str = words("who described it, from what", "")


class Entry(NamedTuple):
    """One place of a unit: what is asked of it, and all that goes into it.

    ``question`` is None where a gland has no ring on its list; ``place`` is there in any case.
    """

    name: str
    place: Gland | Place
    service: Service
    parts: tuple[Fitted, ...]
    question: Question | Fit | None


class Unit(NamedTuple):
    """A unit with everything built: head, places in the order of the work, what they run on, other parts."""

    head: UnitHead
    entries: tuple[Entry, ...]
    shafts: Mapping[str, Model]
    parts: Mapping[str, Model]


def unit_from(
    texts: Texts, *, measured: Mapping[str, Texts] | None = None, choices: Choices | None = None
) -> Unit:
    """Build a unit from nested texts. Raises InputErrors with every text that cannot be used.

    ``measured`` lays texts over those of a place, by place name: fields of the place or of its service,
    and under the number or the kind of a part fields of that part.
    """
    errors: list[InputError] = []
    head_texts = {name: value for name, value in texts.items() if name not in SECTIONS}
    head = collect(lambda: read_model(UnitHead, head_texts, path=""), errors)
    if head is not None and not head.unit:
        errors.append(InputError(field="unit", given="", problem="is missing (name of the unit)"))
    part_texts = _section(texts, "parts", errors)
    parts = UnitParts(part_texts, errors)
    shaft_texts = _section(texts, "shafts", errors)
    shafts = {label: parts.built(str(number), f"shafts.{label}") for label, number in shaft_texts.items()}
    if head is not None:
        _refuse_other_oil(head, parts, errors)
    places = _section(texts, "places", errors)
    errors += lonely_labels(places, shaft_texts)
    over = dict(measured or {})
    if far := _each_once(list(far_from_drawn(over, places, part_texts))):
        raise InputErrors([*errors, *far])  # what else they break would be told of the drawn sizes
    _shared(over, places, errors)
    temperature = "" if head is None or head.temperature is None else head.temperature.text
    entries = [
        _entry(name, given, over.get(name) or {}, parts, head, temperature, choices or Choices(), errors)
        for name, given in places.items()
    ]
    for number in part_texts:
        parts.built(number, f"parts.{number}")
    if errors or head is None:
        raise InputErrors(_each_once(errors))
    built = _with_neighbours([one for one in entries if one is not None], errors)
    if errors:
        raise InputErrors(errors)
    known = {label: shaft for label, shaft in shafts.items() if shaft is not None}
    return Unit(head, tuple(built), known, dict(parts.models))


def _refuse_other_oil(head: UnitHead, parts: UnitParts, errors: list[InputError]) -> None:
    """The oil is a fluid; a number that is not among the parts is told by what looks it up."""
    number = parts.folded.get(head.oil.lower())
    given = parts.texts[number] if number is not None else None
    kind = kind_of(given.get("kind")) if isinstance(given, Mapping) else ""
    if kind in PARTS and kind != "fluid":
        errors.append(
            InputError(
                field="oil",
                given=head.oil,
                problem=f"this part is {_a(str(getattr(model_of(kind), 'words_for', kind)))}",
                allowed="the number of a part of kind fluid",
            )
        )


# A diameter told under the name that several places share is laid over each of them.
SHARED = ("shaft_diameter", "bore_diameter")


def _shared(over: dict[str, Texts], places: Texts, errors: list[InputError]) -> None:
    """Lay what was measured of a shared shaft or bore over the places that run on it."""
    for name in [name for name in over if name not in places]:
        told = over.pop(name)
        on_it = [
            place
            for place, given in places.items()
            if isinstance(given, Mapping) and given.get("runs_on") == name
        ]
        if not on_it:
            told_on = (one.get("runs_on") for one in places.values() if isinstance(one, Mapping))
            names = (*places, *dict.fromkeys(str(label) for label in told_on if label))
            problem = "there is no such place, and no shaft or bore that places run on"
            errors.append(not_among(names, field=f"measured.{name}", given=name, problem=problem))
        shared: dict[str, Any] = {}
        for field, text in told.items():
            if str(field).replace("-", "_") in SHARED and not _nested(text):
                shared[field] = text
            elif on_it:
                problem = "of a shared shaft or bore only its diameter is told"
                errors.append(
                    not_among(SHARED, field=f"measured.{name}.{field}", given=field, problem=problem)
                )
        for place in on_it:
            over[place] = {**shared, **(over.get(place) or {})}


def _section(texts: Texts, name: str, errors: list[InputError]) -> Texts:
    found = texts.get(name)
    if found is None or found == "":
        return {}
    if not isinstance(found, Mapping):
        errors.append(InputError(field=name, given=found, problem="this section holds named entries"))
        return {}
    return found


def _entry(
    name: str,
    given: Any,
    measured: Texts,
    parts: UnitParts,
    head: UnitHead | None,
    temperature: str,
    choices: Choices,
    errors: list[InputError],
) -> Entry | None:
    path = f"places.{name}"
    if not isinstance(given, Mapping):
        errors.append(InputError(field=path, given=given, problem="a place is told by named fields"))
        return None
    before = len(errors)
    listed_parts = fitted_parts(given.get("parts") or (), parts, path, errors)
    own = {str(field).replace("-", "_"): text for field, text in measured.items() if not _nested(text)}
    values = {
        field: text for field, text in given.items() if field not in ("parts", "kind", *BESIDE_PLACE)
    } | own
    service_texts = {field: values.pop(field) for field in tuple(values) if field in Service.declared}
    if temperature and not service_texts.get("temperature"):
        service_texts["temperature"] = temperature
    if head is not None and not service_texts.get("fluid") and kind_of(given.get("kind")) in WETTED:
        service_texts["fluid"] = "; ".join(head.fluid)
    if head is not None and head.stroke is not None and kind_of(given.get("kind")) == "gas_chamber":
        values.setdefault("stroke", head.stroke.text)  # a chamber that tells none has that of the unit
    service = collect(
        lambda: at_path(lambda: read_model(Service, service_texts, path=path), service=path), errors
    )
    kind = kind_of(given.get("kind"))
    place = collect(lambda: at_path(lambda: _place(kind, values, head, name, path), place=path), errors)
    for whose, text in measured.items():
        if _nested(text):
            listed_parts = laid_over(listed_parts, str(whose), text, parts, path, errors)
    if place is not None:
        _refuse_strangers(place, listed_parts, path, errors)
    if len(errors) > before or service is None or place is None:
        return None
    question = collect(
        lambda: at_path(
            lambda: _question(place, listed_parts, service, choices),
            place=path,
            service=path,
            part=f"{path}.parts",
        ),
        errors,
    )
    if len(errors) > before:
        return None
    return Entry(name, place, service, tuple(listed_parts), question)


def _refuse_strangers(
    place: Gland | Place, fitted: Sequence[Fitted], path: str, errors: list[InputError]
) -> None:
    """Parts of a kind that does not go into this kind of place."""
    takes = TAKES[place.kind]
    for at, one in enumerate(fitted):
        part: Any = one.part
        if part.kind not in takes:
            errors.append(
                InputError(
                    field=f"{path}.parts.{at}",
                    given=part.part_number,
                    problem=f"{_a(part.words_for)} does not go into {_a(place.words_for)}",
                    allowed=", ".join(takes),
                )
            )


def _a(words: str) -> str:
    return f"{'an' if words[:1].lower() in 'aeio' else 'a'} {words}"


def _nested(text: Any) -> bool:
    return isinstance(text, Mapping)


def _place(kind: str, values: Texts, head: UnitHead | None, name: str, path: str) -> Any:
    if kind not in PLACES:
        problem = "there is no such kind of place" if kind else "the kind of place is missing"
        raise InputErrors(
            [not_among(tuple(PLACES), field=f"{path}.kind", given=kind, problem=problem, example="rod_gland")]
        )
    named = {**values, "unit": head.unit if head else "", "place": name}
    if kind in PLACE_MODELS:
        return gland_from({**named, "kind": kind}, path=path)
    return read_model(model_of(kind), named, path=path)


def _question(
    place: Any, fitted: Sequence[Fitted], service: Service, choices: Choices
) -> Question | Fit | None:
    if isinstance(place, Place):
        return Fit(place=place, parts=tuple(fitted), service=service, choices=choices)
    ring = next((one.part for one in fitted if isinstance(one.part, (ORing, FourLobedRing))), None)
    if ring is None:
        return None
    back_up = next((one.part for one in fitted if isinstance(one.part, BackUpRing)), None)
    return Question(
        ring=ring,
        gland=place,
        service=service,
        back_up=back_up if place.back_up_rings else None,
        choices=choices,
    )


def _with_neighbours(entries: Sequence[Entry], errors: list[InputError]) -> list[Entry]:
    """Every place that names another one gets what is asked of that one."""
    by_name = {one.name: one.question for one in entries}
    found = []
    for one in entries:
        named = one.place.loaded_by
        if named and not isinstance(by_name.get(named), Fit):
            chambers = [entry.name for entry in entries if entry.place.kind == "gas_chamber"]
            errors.append(
                not_among(
                    tuple(chambers),
                    field=f"places.{one.name}.loaded_by",
                    given=named,
                    problem="this is not a gas chamber of the unit",
                )
            )
        elif named and isinstance(one.question, Fit):
            one = one._replace(question=one.question.changed(neighbours={named: by_name[named]}))
        found.append(one)
    return found


def _each_once(errors: Sequence[InputError]) -> list[InputError]:
    """Errors in their order, one that several places meet told once."""
    at_paths = (error.for_field(error.field.removeprefix(".")) for error in errors)
    return list({str(error): error for error in at_paths}.values())
