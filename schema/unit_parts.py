"""The parts of a unit, built from texts, and the lists of what goes into each place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

from schema.errors import InputError, InputErrors
from schema.fields import collect, read_model
from schema.fit import Fitted
from schema.kinds import PARTS, model_of
from schema.model import Model
from schema.nearest import not_among
from schema.parts import FourLobedRing, ORing
from schema.question import ring_from

RENEW = ("always", "inspect")
MOST_OF_ONE_PART = 1000
# Told of a part or a place, and of no effect on a check.
BESIDE_PART = ("maker", "superseded_by", "notes")
BESIDE_PLACE = ("notes",)
Texts = Mapping[str, Any]
Anything = TypeVar("Anything")


class UnitParts:
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
    kind = kind_of(texts.get("kind"))
    if kind not in PARTS:
        raise InputErrors(
            [
                not_among(
                    tuple(PARTS), field=f"{path}.kind", given=kind, problem="there is no such kind of part"
                )
            ]
        )
    model = model_of(kind)
    values = {
        name: value for name, value in values.items() if name in model.declared or name not in BESIDE_PART
    }
    values["part_number"] = number
    if kind in (ORing.kind, FourLobedRing.kind):
        return at_path(lambda: ring_from({**values, "kind": kind}, path=path), part=path)
    return at_path(lambda: read_model(model, values, path=path), part=path)


def at_path(build: Callable[[], Anything], **paths: str) -> Anything:
    """Build something; errors that a model tells of ``place.field`` are told of its path in the unit."""
    try:
        return build()
    except (InputError, InputErrors) as error:
        found = []
        for one in error.errors if isinstance(error, InputErrors) else [error]:
            whose, _, field = one.field.partition(".")
            found.append(one.for_field(f"{paths[whose]}.{field}") if field and whose in paths else one)
        raise InputErrors(found) from error


def kind_of(given: object) -> str:
    """A kind or word as the models spell it: ``O-ring`` and ``o_ring`` are one."""
    return str(given or "").strip().lower().replace("-", "_").replace(" ", "_")


def fitted_parts(given: Any, parts: UnitParts, path: str, errors: list[InputError]) -> list[Fitted]:
    """The list of parts of a place: a number, or a number with its quantity and how it is renewed."""
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
        renew = kind_of(told.get("renew") or "always")
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


def laid_over(
    fitted: list[Fitted], whose: str, texts: Texts, parts: UnitParts, path: str, errors: list[InputError]
) -> list[Fitted]:
    """The parts of a place with the measured fields of one of them, named by number or by kind."""
    wanted = whose.strip().lower()
    numbers = [str(getattr(one.part, "part_number", "")) for one in fitted]
    kinds = [getattr(one.part, "kind", "") for one in fitted]
    at = next((i for i, number in enumerate(numbers) if number.lower() == wanted), None)
    if at is None and kinds.count(kind_of(whose)) == 1:
        at = kinds.index(kind_of(whose))
    if at is None:
        several = " (several of that kind: name the number)" if kind_of(whose) in kinds else ""
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
