"""Every exception of the project: one base class, few children, each with fields.

The text for people is made in ``__str__``: what was given, what is allowed, how to mend it.
Only the command line and the pages turn an error into an exit status or a page.
"""

from __future__ import annotations

LONGEST_ECHO = 80


class BorebookError(Exception):
    """Base of every error the project raises on purpose."""


class InputError(BorebookError, ValueError):
    """A value that was given cannot be used.

    ``field`` names the input in the person's own words, ``given`` is what they wrote, ``problem`` says
    what is wrong with it, ``allowed`` what would be right, ``example`` one text that works.
    """

    def __init__(
        self, *, field: str, given: object, problem: str, allowed: str = "", example: str = ""
    ) -> None:
        self.field = field
        self.given = given
        self.problem = problem
        self.allowed = allowed
        self.example = example
        super().__init__(field, given, problem, allowed, example)

    def __str__(self) -> str:
        text = f"{self.field}: {self.problem}" if self.field else self.problem
        if self.given not in (None, ""):
            text += f" (given: {_short(str(self.given))!r})"
        if self.allowed:
            text += f". Allowed: {self.allowed}"
        if self.example:
            text += f". Example: {self.example}"
        return text

    def for_field(self, field: str) -> InputError:
        """The same error, told of a named field (used where the reader of a text did not know its field)."""
        return type(self)(
            field=field,
            given=self.given,
            problem=self.problem,
            allowed=self.allowed,
            example=self.example,
        )


def _short(given: str) -> str:
    """What was given, cut where it would fill the screen."""
    return given if len(given) <= LONGEST_ECHO else f"{given[:LONGEST_ECHO]}..."


class InputErrors(BorebookError, ValueError):
    """Several unusable inputs of one question, all told at once."""

    def __init__(self, errors: list[InputError]) -> None:
        self.errors = errors
        super().__init__(errors)

    def __str__(self) -> str:
        return "\n".join(str(error) for error in self.errors)


class DimensionError(InputError):
    """A text cannot be read as a length with limits, or its limits make no sense."""


class ToleranceClassError(InputError):
    """An ISO 286 tolerance class that does not exist, or has no value at this size."""


class UnknownName(InputError):
    """A code, part, place or unit that is not known; carries the nearest known names."""

    def __init__(
        self,
        *,
        field: str,
        given: object,
        problem: str,
        allowed: str = "",
        example: str = "",
        nearest: tuple[str, ...] = (),
    ) -> None:
        self.nearest = nearest
        super().__init__(field=field, given=given, problem=problem, allowed=allowed, example=example)

    def for_field(self, field: str) -> UnknownName:
        """The same error, told of a named field."""
        found = super().for_field(field)
        assert isinstance(found, UnknownName)
        found.nearest = self.nearest
        return found

    def __str__(self) -> str:
        text = super().__str__()
        return f"{text}. Near: {', '.join(self.nearest)}" if self.nearest else text


class TableError(BorebookError):
    """A published table on disk is damaged: it names file, line and column."""


class StoreError(BorebookError):
    """The catalogue file cannot be opened, is newer than this program, or refuses a change."""
