"""Where rows come from: a text file or one worksheet give them in the same way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple, Protocol


class Chunk(NamedTuple):
    """Some rows in order: their numbers from 1, their cells, the share of the file that is read."""

    numbers: list[int]
    rows: list[list[str]]
    done: float


class Rough(NamedTuple):
    """Some rows in the form in which they are cheapest to have, for a look at which of them are blank."""

    numbers: Sequence[int]
    rows: list[list[Any]]


class Merge(NamedTuple):
    """Cells joined to one, rows and columns from 1 and 0."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int


class Source(Protocol):
    """A sheet whose rows can be read from the top as often as wanted."""

    merges: tuple[Merge, ...]
    size: int | None  # number of rows where it is known before reading

    def chunks(self, rows: int) -> Iterator[Chunk]:
        """The rows from the top, ``rows`` at a time; blank rows are there too, as empty cells or none."""
        ...

    def rough(self, rows: int) -> Iterator[Rough]:
        """The rows from the top, not yet as texts; ``any(row)`` tells whether a row holds something."""
        ...

    def as_texts(self, row: list[Any]) -> list[str]:
        """One row of ``rough`` as texts."""
        ...
