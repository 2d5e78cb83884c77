"""The one error of reading a file: what is wrong, where, and what to do about it."""

from __future__ import annotations

from schema.errors import BorebookError


class SheetFileError(BorebookError):
    """A file, or a part of it, that cannot be read. Nothing of it was loaded."""

    def __init__(self, problem: str, action: str, *, file: str = "", sheet: str = "", row: int = 0) -> None:
        self.problem = problem
        self.action = action
        self.file = file
        self.sheet = sheet
        self.row = row
        super().__init__(problem, action, file, sheet, row)

    def __str__(self) -> str:
        places = [self.file, self.sheet and f"sheet {self.sheet}", self.row and f"row {self.row}"]
        where = ", ".join(str(place) for place in places if place)
        text = f"{where}: {self.problem}" if where else self.problem
        return f"{text}. To do: {self.action}"
