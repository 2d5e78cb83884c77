"""The first pass over a file: how many rows, which of them stand there twice, which are known already.

Sixteen bytes are kept for a row, so that a sheet of a million rows is known before its first row is read
in earnest.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from catalogue.sheets.row_digests import RowDigests, context_of
from catalogue.sheets.rows import RowReader
from catalogue.sheets.tables import Table

MOST_NAMED = 10  # other rows of the same code that are told to each of them
Numbers = NDArray[np.int64]
Marks = NDArray[np.bool_]


class Scanned(NamedTuple):
    """One table after the first pass: row numbers, row digests, hashes of codes, one of each for a row."""

    table: Table
    reader: RowReader
    numbers: Numbers
    digests: Numbers
    codes: Numbers


class Standing(NamedTuple):
    """A scanned table and what is known of its rows before they are read.

    ``repeat`` marks rows that stand further up just so, ``odd`` those whose code stands elsewhere with
    something else beside it (``at_odds`` tells where), ``fresh`` those that are to be read.
    """

    table: Table
    reader: RowReader
    numbers: Numbers
    digests: Numbers
    codes: Numbers
    repeat: Marks
    odd: Marks
    fresh: Marks
    at_odds: dict[int, str]


def scan(table: Table, reader: RowReader, context: str, progress: Callable[[float], None]) -> Scanned:
    """Read a table once for its digests and codes."""
    row_digests = RowDigests(context_of(context, reader.meaning), reader.places)
    width = len(table.header)
    numbers, digests, codes = array("q"), array("q"), array("q")
    for batch in table.batches():
        numbers.extend(batch.numbers)
        made = row_digests.of(batch.rows)
        if max(map(len, batch.rows), default=0) > width:
            made = [
                row_digests.of_whole(row) if len(row) > width else digest
                for row, digest in zip(batch.rows, made, strict=True)
            ]
        digests.extend(made)
        codes.extend(map(hash, reader.codes(batch.rows)))
        progress(batch.done)
    return Scanned(table, reader, *(np.array(one, dtype=np.int64) for one in (numbers, digests, codes)))


def standing(tables: Sequence[Scanned], known: Numbers) -> list[Standing]:
    """Which rows are to be read: those with a digest that is not ``known``, once each."""
    found = [
        Standing(
            *one,
            repeat=np.zeros(len(one.codes), dtype=bool),
            odd=np.zeros(len(one.codes), dtype=bool),
            fresh=~np.isin(one.digests, known) if len(known) else np.ones(len(one.digests), dtype=bool),
            at_odds={},
        )
        for one in tables
    ]
    for places in _same_code(tables):
        if len({int(found[table].digests[row]) for table, row in places}) == 1:
            for table, row in places[1:]:
                found[table].repeat[row] = True
            continue
        for place in places:
            found[place[0]].odd[place[1]] = True
            found[place[0]].at_odds[place[1]] = _other_places(tables, places, place)
    for one in found:
        one.fresh[one.repeat | one.odd] = False
    return found


def _same_code(tables: Sequence[Scanned]) -> Iterable[list[tuple[int, int]]]:
    """The places (table, row) of every code that stands on several rows."""
    codes = np.concatenate([one.codes for one in tables])
    order = np.argsort(codes, kind="stable")
    ordered = codes[order]
    starts = np.cumsum([0, *(len(one.codes) for one in tables)])
    runs: dict[int, list[int]] = {}
    for at in np.flatnonzero(ordered[1:] == ordered[:-1]).tolist():
        runs.setdefault(int(ordered[at]), [int(order[at])]).append(int(order[at + 1]))
    runs.pop(hash(""), None)  # rows without a code are refused one by one
    for run in runs.values():
        tables_at = np.searchsorted(starts, run, side="right") - 1
        yield [(int(table), at - int(starts[table])) for table, at in zip(tables_at, run, strict=True)]


def _other_places(
    tables: Sequence[Scanned], places: Sequence[tuple[int, int]], place: tuple[int, int]
) -> str:
    others = [other for other in places[: MOST_NAMED + 1] if other != place][:MOST_NAMED]
    told = ", ".join(_words(tables, other) for other in others)
    left = len(places) - 1 - len(others)
    more = f" and {left} more" if left else ""
    return f"row{'s' if len(places) > 2 else ''} {told}{more}"


def _words(tables: Sequence[Scanned], place: tuple[int, int]) -> str:
    table = tables[place[0]]
    sheet = f" of {table.table.sheet}" if len(tables) > 1 else ""
    return f"{table.numbers[place[1]]}{sheet}"
