"""What is wrong with one cell of a sheet, and with one row: told with how to mend it."""

from __future__ import annotations

from typing import NamedTuple

from schema.errors import InputError, UnknownName


class Problem(NamedTuple):
    """One thing wrong: the column by its header, what stands there, why it cannot be used, how to mend it."""

    column: str
    value: str
    reason: str
    mend: str

    def __str__(self) -> str:
        given = f" (given: {_short(self.value)!r})" if self.value else ""
        mend = f". To do: {self.mend}" if self.mend else ""
        where = f"{self.column}: " if self.column else ""
        return f"{where}{self.reason}{given}{mend}"


class Missing(Problem):
    """A field that the kind of part must have and that nothing on the row tells; ``field`` is its name."""

    __slots__ = ()

    @property
    def field(self) -> str:
        """The name of the field, which stands before the reason where no column has it."""
        return self.reason.partition(":")[0]


class Refused(NamedTuple):
    """A row that cannot be taken: where it stands, as it stands there, and everything wrong with it."""

    sheet: str
    number: int
    cells: list[str]
    problems: tuple[Problem, ...]
    code: str = ""
    doubtful: bool = False  # it could be taken, and was kept back for a person to say so


def problem_of(error: InputError, *, column: str, value: str) -> Problem:
    """The problem that an unusable text is, at its column."""
    mend = error.allowed
    if isinstance(error, UnknownName) and error.nearest:
        mend = f"{mend}; near: {', '.join(error.nearest)}" if mend else f"near: {', '.join(error.nearest)}"
    if error.example and error.example not in mend:
        mend = f"{mend}, for example {error.example}" if mend else f"write it as in {error.example}"
    return Problem(column, value, error.problem, mend)


def _short(text: str) -> str:
    return text if len(text) <= 80 else f"{text[:80]}..."
