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
from schema.kinds import PARTS, PLACES, model_of
from schema.materials import fluid_code
from schema.model import Model
from schema.nearest import not_among
from schema.parts import BackUpRing, FourLobedRing, ORing
from schema.places import PLACE_MODELS, Gland
from schema.question import Question, gland_from, ring_from
from schema.service import Service

UNIT_KINDS = ("coil_shock", "air_shock", "fork_leg", "fork_damper", "damper")
RENEW = ("always", "inspect")
SECTIONS = ("shafts", "places", "parts")
MOST_OF_ONE_PART = 1000
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


Texts = Mapping[str, Any]


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
    parts = _Parts(part_texts, errors)
    shafts = {
        label: parts.built(str(number), f"shafts.{label}")
        for label, number in _section(texts, "shafts", errors).items()
    }
    places = _section(texts, "places", errors)
    over = dict(measured or {})
    for name in [name for name in over if name not in places]:
        errors.append(
            not_among(tuple(places), field=f"measured.{name}", given=name, problem="there is no such place")
        )
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


class _Parts:
    """The parts of a unit by number, each built once."""

    def __init__(self, texts: Texts, errors: list[InputError]) -> None:
        self.texts = texts
        self.folded = {number.lower(): number for number in texts}
        self.errors = errors
        self.models: dict[str, Model] = {}
        self.refused: set[str] = set()

    def built(self, number: str, path: str) -> Model | None:
        """The part of a number; None, with the error told once, where it cannot be built."""
        known = self.folded.get(number.strip().lower())
        if known is None:
            self.errors.append(
                not_among(tuple(self.texts), field=path, given=number, problem="there is no such part")
            )
            return None
        if known not in self.models and known not in self.refused:
            found = collect(lambda: part_from(self.texts[known], number=known), self.errors)
            if found is None:
                self.refused.add(known)
            else:
                self.models[known] = found
        return self.models.get(known)

    def over(self, part: Model, texts: Texts, path: str) -> Model | None:
        """A part with some of its fields measured."""
        number: str = part.part_number  # type: ignore[attr-defined]
        given = {**self.texts[number], **texts}
        return collect(lambda: part_from(given, number=number, path=path), self.errors)


def part_from(texts: Any, *, number: str, path: str = "") -> Model:
    """Build a part of any kind from its texts. Raises InputErrors."""
    path = path or f"parts.{number}"
    if not isinstance(texts, Mapping):
        raise InputErrors([InputError(field=path, given=texts, problem="a part is told by named fields")])
    values = {name: value for name, value in texts.items() if name != "kind"}
    kind = _kind(texts.get("kind"))
    if kind not in PARTS:
        raise InputErrors(
            [
                not_among(
                    tuple(PARTS), field=f"{path}.kind", given=kind, problem="there is no such kind of part"
                )
            ]
        )
    values["part_number"] = number
    if kind in (ORing.kind, FourLobedRing.kind):
        return ring_from({**values, "kind": kind}, path=path)
    return read_model(model_of(kind), values, path=path)


def _kind(given: object) -> str:
    return str(given or "").strip().lower().replace("-", "_").replace(" ", "_")


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
    parts: _Parts,
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
    listed_parts = _fitted(given.get("parts") or (), parts, path, errors)
    own = {str(field).replace("-", "_"): text for field, text in measured.items() if not _nested(text)}
    values = {field: text for field, text in given.items() if field not in ("parts", "kind")} | own
    service_texts = {field: values.pop(field) for field in tuple(values) if field in Service.declared}
    if temperature and not service_texts.get("temperature"):
        service_texts["temperature"] = temperature
    if head is not None and not service_texts.get("fluid") and _kind(given.get("kind")) in WETTED:
        service_texts["fluid"] = "; ".join(head.fluid)
    service = collect(lambda: read_model(Service, service_texts, path=path), errors)
    place = collect(lambda: _place(_kind(given.get("kind")), values, head, name, path), errors)
    for whose, text in measured.items():
        if _nested(text):
            listed_parts = _laid_over(listed_parts, str(whose), text, parts, path, errors)
    if len(errors) > before or service is None or place is None:
        return None
    question = collect(lambda: _question(place, listed_parts, service, choices), errors)
    if len(errors) > before:
        return None
    return Entry(name, place, service, tuple(listed_parts), question)


def _nested(text: Any) -> bool:
    return isinstance(text, Mapping)


def _place(kind: str, values: Texts, head: UnitHead | None, name: str, path: str) -> Any:
    if kind not in PLACES:
        problem = "there is no such kind of place" if kind else "the kind of place is missing"
        raise InputErrors(
            [not_among(tuple(PLACES), field=f"{path}.kind", given=kind, problem=problem, example="rod_gland")]
        )
    named = {**values, "unit": head.unit if head else "", "place": name}
    try:
        if kind in PLACE_MODELS:
            return gland_from({**named, "kind": kind}, path=path)
        return read_model(model_of(kind), named, path=path)
    except InputErrors as several:
        raise InputErrors([_at_path(error, path) for error in several.errors]) from several


def _at_path(error: InputError, path: str) -> InputError:
    """An error that a model told of ``place.field``, told of its path in the unit."""
    first, _, rest = error.field.partition(".")
    return error.for_field(f"{path}.{rest}") if first == "place" and rest else error


def _fitted(given: Any, parts: _Parts, path: str, errors: list[InputError]) -> list[Fitted]:
    found: list[Fitted] = []
    if not isinstance(given, Sequence) or isinstance(given, str):
        errors.append(
            InputError(
                field=f"{path}.parts", given=given, problem="parts are told as a list", example="- QV-1202"
            )
        )
        return found
    for at, one in enumerate(given):
        where = f"{path}.parts.{at}"
        told = one if isinstance(one, Mapping) else {"part": one}
        for name in told:
            if name not in ("part", "quantity", "renew"):
                errors.append(
                    not_among(
                        ("part", "quantity", "renew"),
                        field=f"{where}.{name}",
                        given=name,
                        problem="there is no such field",
                    )
                )
        part = parts.built(str(told.get("part") or ""), f"{where}.part" if one is told else where)
        quantity = _quantity(told.get("quantity", 1), f"{where}.quantity", errors)
        renew = _kind(told.get("renew") or "always")
        if renew not in RENEW:
            errors.append(
                not_among(
                    RENEW,
                    field=f"{where}.renew",
                    given=renew,
                    problem="this is not one of the words it may be",
                )
            )
        if part is not None:
            found.append(Fitted(part, quantity, renew))
    return found


def _quantity(given: Any, path: str, errors: list[InputError]) -> int:
    text = str(given).strip()
    if text.isdecimal() and 1 <= int(text) <= MOST_OF_ONE_PART:
        return int(text)
    errors.append(
        InputError(
            field=path,
            given=given,
            problem="this is not a number of parts",
            allowed=f"1 to {MOST_OF_ONE_PART}, whole",
            example="2",
        )
    )
    return 1


def _laid_over(
    fitted: list[Fitted], whose: str, texts: Texts, parts: _Parts, path: str, errors: list[InputError]
) -> list[Fitted]:
    """The parts of a place with the measured fields of one of them, named by number or by kind."""
    wanted = whose.strip().lower()
    numbers = [str(getattr(one.part, "part_number", "")) for one in fitted]
    kinds = [getattr(one.part, "kind", "") for one in fitted]
    at = next((i for i, number in enumerate(numbers) if number.lower() == wanted), None)
    if at is None and kinds.count(_kind(whose)) == 1:
        at = kinds.index(_kind(whose))
    if at is None:
        several = " (several of that kind: name the number)" if _kind(whose) in kinds else ""
        errors.append(
            not_among(
                tuple(numbers),
                field=f"{path}.{whose}",
                given=whose,
                problem=f"no such part goes into this place{several}",
            )
        )
        return fitted
    changed = parts.over(fitted[at].part, texts, f"{path}.{whose}")
    return fitted if changed is None else [*fitted[:at], fitted[at]._replace(part=changed), *fitted[at + 1 :]]


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
    return list({(error.field, str(error)): error for error in errors}.values())
