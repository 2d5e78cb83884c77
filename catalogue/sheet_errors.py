"""What is wrong in a sheet: one entry for each cell that cannot be used, all told at once."""

from __future__ import annotations

from dataclasses import dataclass

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


class SheetErrors(BorebookError, ValueError):
    """Sheets that cannot be loaded; nothing of them was."""

    def __init__(self, errors: list[CellError]) -> None:
        self.errors = tuple(sorted(errors))
        super().__init__(self.errors)

    def __str__(self) -> str:
        count = len(self.errors)
        head = f"{count} cell{'s' if count > 1 else ''} cannot be used; nothing was loaded."
        return "\n".join([head, *map(str, self.errors)])
