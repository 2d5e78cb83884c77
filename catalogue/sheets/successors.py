"""Which parts are there after a load of own parts, so that each part's successor can be held against them.

A successor may stand further down in the same sheet. A row whose successor is nowhere is refused, and then is
itself no successor of a row above.
"""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.sheets.codes import folded
from catalogue.sheets.known import Known
from catalogue.sheets.problems import Problem
from catalogue.sheets.rows import Row


class Successors:
    """The parts of the catalogue, and those that the rows of a sheet bring."""

    def __init__(self, known: Known, rows: Iterable[Row]) -> None:
        """``rows`` are all rows of the load that can be read."""
        self._after = {folded(row.part_number): folded(row.beside[0]) for row in rows}
        wanted = {one for one in self._after.values() if one}
        self._there = {*known.parts({*self._after, *wanted}), *self._after}
        lost = {one for one in self._after if self._after[one] and self._after[one] not in self._there}
        while lost:
            # a part that is in the catalogue already stays there, whatever becomes of its row
            self._there -= lost - {*known.parts(lost)}
            left = (one for one in self._after if one in self._there and one not in lost)
            lost = {one for one in left if self._after[one] and self._after[one] not in self._there}

    def problem(self, row: Row, header: str) -> Problem | None:
        """What is wrong with the successor that a row tells; None where nothing is."""
        number = row.beside[0]
        if not number:
            return None
        if folded(number) == folded(row.part_number):
            return Problem(header, number, "a part does not supersede itself", "leave the cell empty")
        if folded(number) not in self._there:
            return Problem(
                header,
                number,
                "neither the catalogue nor this sheet has this part",
                "a number of the catalogue or of a row that can be taken, or an empty cell",
            )
        return None
