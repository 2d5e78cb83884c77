"""What is wrong in the files of a workshop: one entry for each text that cannot be used, all told at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.faults import Fault
from schema.errors import BorebookError


@dataclass(frozen=True, slots=True, order=True)
class CellError:
    """One cell of a sheet that cannot be used: where it is, what it says, why not, what to do."""

    file: str
    line: int
    column: str
    value: str
    reason: str
    action: str

    def __str__(self) -> str:
        where = f"{self.file}, line {self.line}, column {self.column}"
        given = f" (given: {self.value!r})" if self.value else ""
        return f"{where}: {self.reason}{given}" + (f". To do: {self.action}" if self.action else "")


class WorkshopErrors(BorebookError, ValueError):
    """Sheets and unit files that cannot be loaded; nothing of them was."""

    def __init__(self, errors: Iterable[CellError | Fault]) -> None:
        self.errors = tuple(sorted(errors, key=lambda one: (one.file, one.line, str(one.column), str(one))))
        super().__init__(self.errors)

    def __str__(self) -> str:
        count = len(self.errors)
        head = f"{count} text{'s' if count > 1 else ''} cannot be used; nothing was loaded."
        return "\n".join([head, *map(str, self.errors)])
