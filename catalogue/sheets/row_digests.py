"""A digest for each row of a sheet, by which next month's sheet is told from this one.

The digest covers the cells of the mapped columns, by field and not by where they stand, and everything they
were read by (units, words, the version of the reader): equal digests mean equal meaning, also where columns
were moved or renamed. It has 64 bits: that two different rows among a million share one has a chance of 3 in
100 million.
"""

from __future__ import annotations

import sys
import zlib
from array import array
from collections.abc import Iterable, Sequence
from hashlib import blake2b
from operator import itemgetter

from catalogue.sheets.cells import BETWEEN

READER = "1"  # to be raised whenever the same row would be read otherwise than before


class RowDigests:
    """Makes the digests of the rows of one table, whose columns of meaning stand at ``places``."""

    def __init__(self, context: str, places: Sequence[int]) -> None:
        self._start = blake2b(context.encode(), digest_size=8)
        self._start_whole = blake2b(f"{context}{BETWEEN}whole".encode(), digest_size=8)
        # one place alone would give a bare cell
        self._pick = itemgetter(*places) if len(places) > 1 else itemgetter(slice(places[0], places[0] + 1))

    def of(self, rows: Iterable[Sequence[str]]) -> list[int]:
        """The digest of each row, a signed 64-bit number."""
        found = []
        start, between, number = self._start, BETWEEN, int.from_bytes
        for cells in map(self._pick, rows):
            digest = start.copy()
            digest.update(between.join(cells).encode("utf-8", "surrogatepass"))
            found.append(number(digest.digest(), "little", signed=True))
        return found

    def of_whole(self, cells: Sequence[str]) -> int:
        """The digest of all cells of a row that is longer than the header: a comma in it moved its cells."""
        digest = self._start_whole.copy()
        digest.update(BETWEEN.join(cells).encode("utf-8", "surrogatepass"))
        return int.from_bytes(digest.digest(), "little", signed=True)


def context_of(*texts: str) -> str:
    """One digest of everything that rows are read by."""
    return blake2b("\x1e".join((READER, *texts)).encode(), digest_size=16).hexdigest()


def packed(numbers: array[int]) -> bytes:
    """Numbers of 64 bits as they are kept with a load."""
    return zlib.compress(_little(numbers).tobytes(), 1)


def unpacked(content: bytes) -> array[int]:
    """The numbers that ``packed`` kept.

    >>> unpacked(packed(array("q", [3, -4])))
    array('q', [3, -4])
    """
    numbers = array("q")
    numbers.frombytes(zlib.decompress(content))
    return _little(numbers)


def _little(numbers: array[int]) -> array[int]:
    if sys.byteorder == "big":
        numbers = numbers[:]
        numbers.byteswap()
    return numbers
