"""A place of any kind with everything that goes into it: what families other than rings are asked about."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, NamedTuple, TypeVar

from schema.fields import listed, words
from schema.guidance import Choices
from schema.model import Model, plain
from schema.service import Service

AnyPart = TypeVar("AnyPart", bound=Model)


class Part(Model):
    """The head of every part that is no ring."""

    material: str = words("what it is made of", "steel")
    part_number: str = words("number in the catalogue", "")
    description: str = words("what it is, in words", "")

    kind: ClassVar[str]
    words_for: ClassVar[str]

    @property
    def name(self) -> str:
        """The shortest name a person would use."""
        return self.part_number or self.description or self.words_for


class Place(Model):
    """The head of every place that is no gland.

    ``runs_on`` names the shaft or bore that several places of a unit share; ``loaded_by`` names the gas
    chamber of the unit whose pressure this place must bear.
    """

    unit: str = words("unit it belongs to", "")
    place: str = words("its name in the unit", "")
    description: str = words("what it is, in words", "")
    runs_on: str = words("shaft or bore that it shares with other places of the unit", "damper shaft")
    loaded_by: str = words("gas chamber of the unit whose pressure it must bear", "reservoir")
    tools: tuple[str, ...] = listed("tools this place needs", "hex key 5 mm; ring pliers")

    kind: ClassVar[str]
    words_for: ClassVar[str]

    @property
    def name(self) -> str:
        """How a person would name it."""
        if self.unit and self.place:
            return f"{self.unit}/{self.place}"
        return self.description or f"{self.words_for} as given"


class Fitted(NamedTuple):
    """A part as it goes into a place: how many, and whether it is renewed always or after inspection."""

    part: Model
    quantity: int = 1
    renew: str = "always"


class Fit(Model):
    """A place, what goes into it, its service, and by what it shall be judged.

    ``neighbours`` are the places of the unit that this one names (``loaded_by``), by name.
    """

    place: Place = plain()
    parts: tuple[Fitted, ...] = plain(())
    service: Service = plain(Service())
    choices: Choices = plain(Choices())
    neighbours: Mapping[str, Fit] = plain({})

    def first(self, model: type[AnyPart]) -> AnyPart | None:
        """The first part of a kind that goes into the place; None where it takes none."""
        return next((one.part for one in self.parts if isinstance(one.part, model)), None)

    def count(self, model: type[Model]) -> int:
        """How many parts of a kind go into the place."""
        return sum(one.quantity for one in self.parts if isinstance(one.part, model))

    def __hash__(self) -> int:
        return hash((self.place, self.parts, self.service, self.choices))
