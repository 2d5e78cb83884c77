"""Frozen models: what a part, a place or a service has, declared once with words, example and reader.

A field is a class attribute made by one of the functions of ``schema.fields``; a model takes its fields by
keyword, fills in defaults, and is equal to another of its class when all fields are. The standard
library's dataclasses do the same, but making a class with them takes about a millisecond, and a check
would spend a tenth of its time on that.
"""

from __future__ import annotations

from typing import Any, ClassVar, NamedTuple, Self, dataclass_transform

REQUIRED: Any = object()  # the default of a field that must be given


class Field(NamedTuple):
    """A declared field: its default, and what ``schema.fields`` says of it."""

    default: Any
    meaning: Any = None


def plain(default: Any = REQUIRED) -> Any:
    """A field that holds a value of the program's own, not read from text."""
    return Field(default)


@dataclass_transform(frozen_default=True, kw_only_default=True, eq_default=True)
class Model:
    """A frozen model; subclasses declare fields and may refuse in ``__post_init__``."""

    declared: ClassVar[dict[str, Field]] = {}
    _defaults: ClassVar[dict[str, Any]] = {}

    def __init_subclass__(cls) -> None:
        own = {name: value for name, value in vars(cls).items() if isinstance(value, Field)}
        cls.declared = {**cls.declared, **own}
        cls._defaults = {name: field.default for name, field in cls.declared.items()}

    def __init__(self, **values: Any) -> None:
        fields = self.__dict__
        fields.update(self._defaults)
        fields.update(values)
        if len(fields) > len(self._defaults):
            unknown = [name for name in values if name not in self._defaults]
            raise TypeError(f"{type(self).__name__} has no {', '.join(unknown)}")
        for name, value in fields.items():
            if value is REQUIRED:
                raise TypeError(f"{type(self).__name__} needs {name}")
        self.__post_init__()

    def __post_init__(self) -> None:
        """Refuse fields that contradict each other."""

    def changed(self, **values: Any) -> Self:
        """The same model with some fields changed, checked anew."""
        return type(self)(**{**vars(self), **values})

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} is frozen: cannot set {name}")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and vars(self) == vars(other)

    def __hash__(self) -> int:
        return hash((type(self), *vars(self).values()))

    def __repr__(self) -> str:
        told = {name: value for name, value in vars(self).items() if value != self.declared[name].default}
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in told.items())})"
