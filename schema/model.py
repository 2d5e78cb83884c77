"""What the frozen models share: equality, hash and a readable form, by their fields.

A dataclass would write these three for every class anew, and that is a third of the time a check takes to
start; so the models are declared with ``eq=False, repr=False`` and take them from here.
"""

from __future__ import annotations

from typing import Any


class Model:
    """A frozen model: equal to another of its class when all fields are equal."""

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and vars(self) == vars(other)

    def __hash__(self) -> int:
        return hash((type(self), *vars(self).values()))

    def __repr__(self) -> str:
        told: dict[str, Any] = {name: value for name, value in vars(self).items() if value not in (None, "")}
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in told.items())})"
