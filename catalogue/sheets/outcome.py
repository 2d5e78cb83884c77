"""What a load found and did, told with counts and with the first rows of each kind."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import NamedTuple

from catalogue.sheets.comparing import Changed, New
from catalogue.sheets.known import KnownOffer
from catalogue.sheets.problems import Problem, Refused

MOST_SHOWN = 1000  # rows of a kind that are kept for showing; the rest are counted


class Counts(NamedTuple):
    """Rows by what became of them; ``rows`` is the sum of the first nine.

    ``respelt`` rows say the same in other signs, ``left_out`` are no parts by the mapping, ``repeated`` stand
    in the sheet twice, ``doubtful`` were kept back. ``missing`` offers are not on the sheet; ``withdrawn``
    are those of them that are not listed any more.
    """

    new: int = 0
    changed: int = 0
    back: int = 0
    respelt: int = 0
    unchanged: int = 0
    repeated: int = 0
    left_out: int = 0
    refused: int = 0
    doubtful: int = 0
    rows: int = 0
    new_parts: int = 0
    changed_parts: int = 0
    missing: int = 0
    withdrawn: int = 0

    @property
    def changes(self) -> bool:
        """Whether the catalogue says something else after the load than before."""
        return bool(self.new or self.changed or self.back or self.changed_parts or self.withdrawn)


class TableNote(NamedTuple):
    """How one table of the file was read: its rows, and rows of it that are no data."""

    sheet: str
    header_row: int
    rows: int
    blank: int
    left_out: tuple[tuple[int, str, str], ...]  # row, why, its text
    skipped: str = ""  # why the table was not loaded, "" where it was


class Proposal(NamedTuple):
    """A new code that may be an article that is known: only ever told, for a person to decide."""

    code: str
    row: int
    part_number: str
    why: str


@dataclass
class LoadReport:
    """What a load found, and did where ``load`` has its number; 0 where nothing was written."""

    supplier: str
    file: str
    sha256: str
    encoding: str
    encoding_why: str
    covers: str
    load: int = 0
    applied: bool = False
    same_as: int = 0  # an earlier load of the very same file
    counts: Counts = Counts()
    tables: list[TableNote] = field(default_factory=list)
    new: list[New] = field(default_factory=list)
    changed: list[Changed] = field(default_factory=list)
    doubtful: list[New | Changed] = field(default_factory=list)
    refused: list[Refused] = field(default_factory=list)
    missing: list[KnownOffer] = field(default_factory=list)
    proposals: list[Proposal] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)  # of the file as a whole
    remarks: Counter[str] = field(default_factory=Counter)
    absent: int = 0  # offers that a sheet of some does not have; they stay listed
    kept_listed: str = ""  # why missing offers were not withdrawn from a whole range


def doubtful_problems(row: New | Changed) -> tuple[Problem, ...]:
    """The doubts of a row as problems, for the file of rows that were not taken."""
    return tuple(
        Problem(
            doubt.field,
            "",
            doubt.reason,
            f"correct the row, or if it is meant load it with --take {row.row.terms.code}",
        )
        for doubt in row.doubts
    )
