"""What is wrong in a unit file: one entry for each fault, with its line and column, all told at once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from schema.errors import InputError, InputErrors, UnknownName


class Mark(NamedTuple):
    """Where something stands in a file, both counted from 1."""

    line: int
    column: int


START = Mark(1, 1)
LONGEST_LIST = 120  # characters of allowed words; a longer list is not told


class Fault(NamedTuple):
    """One fault: where it stands, what it is about, what is given, what is wrong, how to mend it."""

    file: str
    line: int
    column: int
    path: str
    given: str
    problem: str
    mend: str

    def __str__(self) -> str:
        what = f"{self.path}: {self.problem}" if self.path else self.problem
        given = f" (given: {_short(self.given)!r})" if self.given else ""
        mend = f". To do: {self.mend}" if self.mend else ""
        return f"{self.file}, line {self.line}, column {self.column}: {what}{given}{mend}"


class UnitFileErrors(InputErrors):
    """A unit file with faults; nothing of it was used."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__(
            [
                InputError(field=one.path, given=one.given, problem=one.problem, allowed=one.mend)
                for one in self.faults
            ]
        )

    def __str__(self) -> str:
        count = len(self.faults)
        head = f"{count} fault{'s' if count != 1 else ''}; nothing was changed."
        return "\n".join([head, *map(str, self.faults)])


def fault_of(error: InputError, *, file: str, mark: Mark) -> Fault:
    """The fault that an unusable text is, told where it stands."""
    near = ", ".join(error.nearest) if isinstance(error, UnknownName) else ""
    allowed = error.allowed
    if len(allowed) > LONGEST_LIST and error.problem == "there is no such field":
        allowed = "" if near else "a field of this kind: borebook names and the kind lists them"
    listed = error.example in allowed.split(", ")
    mend = allowed + (f", for example {error.example}" if error.example and not listed else "")
    mend += f"{'' if mend else 'write the one that is meant'}; near: {near}" if near else ""
    given = "" if isinstance(error.given, (dict, list)) or error.given is None else str(error.given)
    return Fault(file, *mark, error.field, given, error.problem, mend.lstrip(",; "))


def _short(given: str) -> str:
    return given if len(given) <= 80 else f"{given[:80]}..."
