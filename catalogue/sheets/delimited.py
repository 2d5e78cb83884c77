"""The rows of a text file, streamed: a million rows in the memory of a few thousand.

Care is taken by the block, not by the cell. A block without a space before a delimiter has no cell to
strip; rows that took as many lines as there are rows have no line end in a cell. So almost all of the time
is spent in the csv module itself.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from itertools import chain, islice
from typing import Any, BinaryIO

import numpy

from catalogue.sheets import limits
from catalogue.sheets.collecting import no_collecting
from catalogue.sheets.dialects import Dialect
from catalogue.sheets.refusals import SheetFileError
from catalogue.sheets.sources import Chunk, Merge, Rough

BLOCK = 1 << 18
_END = "\x04"  # a line that no file has, since control signs are taken out; it tells an open quote
_CLEAN = dict.fromkeys((*range(9), 11, 12, *range(14, 32), 127), " ")
_LINE_END = re.compile(r"\r\n|\r|\n")
_AROUND_LINE_END = re.compile(r"[ \t]*[\r\n]+[ \t]*")


class _Window(io.RawIOBase):
    """A view of a shared file with a place of its own, so that two readers do not disturb each other."""

    def __init__(self, file: BinaryIO) -> None:
        super().__init__()
        self._file = file
        self.at = 0

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: Any) -> int:
        self._file.seek(self.at)
        got = self._file.read(len(buffer))
        buffer[: len(got)] = got
        self.at += len(got)
        return len(got)


def first_text(file: BinaryIO, encoding: str, *, letters: int = 1 << 18) -> str:
    """The first letters of a text file, for telling how its cells are parted."""
    return _opened(_Window(file), encoding).read(letters)


def _opened(window: _Window, encoding: str) -> io.TextIOWrapper:
    # utf-8-sig swallows a byte order mark where there is one
    return io.TextIOWrapper(
        io.BufferedReader(window, BLOCK),
        encoding="utf-8-sig" if encoding == "utf-8" else encoding,
        newline="",
    )


class TextSource:
    """The rows of a text file."""

    merges: tuple[Merge, ...] = ()
    size: int | None = None

    def __init__(
        self, file: BinaryIO, *, name: str, encoding: str, dialect: Dialect, length: int, has_controls: bool
    ) -> None:
        self._file = file
        self._name = name
        self._encoding = encoding
        self._dialect = dialect
        self._length = length
        self._has_controls = has_controls

    def chunks(self, rows: int) -> Iterator[Chunk]:
        """The rows from the top, ``rows`` at a time. Raises SheetFileError, with the line."""
        window = _Window(self._file)
        blocks = _Blocks(_opened(window, self._encoding), self._dialect, self._has_controls, self._name)
        reader = csv.reader(
            chain(chain.from_iterable(blocks), [_END]),
            delimiter=self._dialect.delimiter,
            quotechar=self._dialect.quote,
            skipinitialspace=True,
        )
        line = 1
        skip = self._dialect.skip
        ended = False
        while not ended:
            before = reader.line_num
            found: list[list[str]] = []
            try:
                with no_collecting():
                    found.extend(islice(reader, rows))
            except csv.Error as error:
                raise self._broken(found, line, reader.line_num, str(error)) from error
            spaced = blocks.take_spaced()
            if len(found) < rows or found[-1] == [_END]:
                if not found or found.pop() != [_END]:
                    raise self._open_quote(found, line)
                ended = True
            lines = reader.line_num - before - ended
            if lines == len(found):
                numbers = list(range(line, line + lines))
            else:
                numbers = self._joined_lines(found, line)
            line += lines
            if skip:
                del found[:skip], numbers[:skip]
                skip = 0
            if spaced:
                found = [[cell.strip() for cell in row] for row in found]
            self._hold_width(found, numbers)
            if found:
                yield Chunk(numbers, found, 1.0 if ended else min(1.0, window.at / self._length))

    def rough(self, rows: int) -> Iterator[Rough]:
        """The same rows; a text file has no other form of them."""
        for chunk in self.chunks(rows):
            yield Rough(chunk.numbers, chunk.rows)

    @staticmethod
    def as_texts(row: list[Any]) -> list[str]:
        """A row of ``rough`` as texts, which it is."""
        return row

    def _joined_lines(self, rows: list[list[str]], line: int) -> list[int]:
        """Row numbers where cells hold line ends, which become spaces here."""
        numbers = []
        for row in rows:
            numbers.append(line)
            line += 1
            for at, cell in enumerate(row):
                if "\n" in cell or "\r" in cell:
                    self._hold_swallowed(cell, len(row), line - 1)
                    line += len(_LINE_END.findall(cell))
                    row[at] = _AROUND_LINE_END.sub(" ", cell).strip()
        return numbers

    def _hold_swallowed(self, cell: str, width: int, line: int) -> None:
        """A cell with a whole row inside: a quote was left open above and closed by the next one below."""
        most = max(part.count(self._dialect.delimiter) for part in _LINE_END.split(cell)[1:])
        if most >= max(2, width - 2):
            raise SheetFileError(
                f"a quote ({self._dialect.quote}) that opens here closes only in a later row",
                "close the quote in this line, or double it if it means inches",
                file=self._name,
                row=line,
            )

    def _hold_width(self, rows: list[list[str]], numbers: list[int]) -> None:
        widest = max(map(len, rows), default=0)
        if widest > limits.MOST_COLUMNS:
            row = next(number for number, row in zip(numbers, rows, strict=True) if len(row) == widest)
            raise SheetFileError(
                f"the row has {widest:,} cells; {limits.MOST_COLUMNS:,} are allowed",
                "check the line ends and the delimiter of the file",
                file=self._name,
                row=row,
            )

    def _broken(self, rows: list[list[str]], line: int, last: int, said: str) -> SheetFileError:
        """What the csv module refused, at the line where the row in question begins."""
        start = self._after(rows, line)
        if "field larger" not in said:
            return SheetFileError(said, "check this line in a text editor", file=self._name, row=start)
        if last > start:
            return self._open_quote_at(start)
        return SheetFileError(
            f"a cell is longer than {csv.field_size_limit():,} characters",
            "check this line in a text editor; a quote or a delimiter may be missing",
            file=self._name,
            row=start,
        )

    def _after(self, rows: list[list[str]], line: int) -> int:
        return line + sum(1 + sum(len(_LINE_END.findall(cell)) for cell in row) for row in rows)

    def _open_quote(self, rows: list[list[str]], line: int) -> SheetFileError:
        """The file ended inside a quote. The row is the last one that was read, or was just taken off."""
        return self._open_quote_at(self._after(rows, line))

    def _open_quote_at(self, line: int) -> SheetFileError:
        return SheetFileError(
            f"a quote ({self._dialect.quote}) opens in this row and is never closed",
            "close it, or double it if it means inches",
            file=self._name,
            row=line,
        )


class _Blocks:
    """The lines of a text, block by block; notes whether a block may hold cells to strip."""

    def __init__(self, text: io.TextIOWrapper, dialect: Dialect, has_controls: bool, name: str) -> None:
        self._text = text
        self._has_controls = has_controls
        self._name = name
        self._delimiter = dialect.delimiter.encode()[0]  # of a sign beyond ASCII its first byte will do
        self._quote = dialect.quote
        self._tab = dialect.delimiter != "\t"
        self._spaced = self._this = False

    def take_spaced(self) -> bool:
        """Whether any block since the last call may hold cells with outer spaces."""
        spaced = self._spaced
        self._spaced = self._this  # rows of the block in hand are still to come
        return spaced

    def __iter__(self) -> Iterator[io.StringIO]:
        read, readline = self._text.read, self._text.readline
        first = True
        while block := read(BLOCK):
            if first:  # a mark that a told encoding such as utf-16-le leaves in
                block, first = block.removeprefix("\ufeff"), False
            rest = readline(limits.LONGEST_LINE)
            if len(rest) == limits.LONGEST_LINE:
                raise SheetFileError(
                    f"a line is longer than {limits.LONGEST_LINE:,} characters",
                    "check the line ends of the file; this may be no sheet at all",
                    file=self._name,
                )
            block += rest
            if self._has_controls:
                block = block.translate(_CLEAN)
            self._this = self._may_be_spaced(block)
            self._spaced = self._spaced or self._this
            yield io.StringIO(block, newline="")

    def _may_be_spaced(self, block: str) -> bool:
        if self._tab and "\t" in block:
            return True
        if not block.isascii() and any(sign in block for sign in "\xa0\u2007\u202f\u3000\u2009\x85"):
            return True
        if block.endswith(" ") or self._has_space_before_end(block):
            return True
        return self._quote in block and (f" {self._quote}" in block or f"{self._quote} " in block)

    def _has_space_before_end(self, block: str) -> bool:
        """Whether a space stands before a delimiter or a line end; numpy is quicker here than ``in``."""
        raw = numpy.frombuffer(block.encode("utf-8", "surrogatepass"), dtype=numpy.uint8)
        following = raw[1:]
        ends = (following == 10) | (following == 13) | (following == self._delimiter)
        return bool((ends & (raw[:-1] == 32)).any())
