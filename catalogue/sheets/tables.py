"""The tables of a sheet: a header, the rows that belong to it, every row left out with its reason.

A table is streamed. Most rows cost no more than a look at a few columns that are always filled; only a row
that lacks one of them, has another length or says what the header says is looked at closely.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from catalogue.sheets import limits
from catalogue.sheets.layout import Found, could_begin, find_header, joined, why_no_data
from catalogue.sheets.own_export import is_export
from catalogue.sheets.refusals import SheetFileError
from catalogue.sheets.sources import Chunk, Merge, Source

BATCH = 500  # rows; more are slower, since they outgrow the processor's cache (measured)
_PROBES = 3  # columns that are looked at in every row
_END_OF_SHEET = 1 << 60


class LeftOut(NamedTuple):
    """A row that is no data; ``why`` is "title", "repeated header", "heading" or "footer"."""

    row: int
    why: str
    cells: list[str]


class Batch(NamedTuple):
    """Some rows of a table. Longer rows than the header are kept as they are where they say more than it."""

    numbers: list[int]
    rows: list[list[str]]
    left_out: list[LeftOut]
    blank: int
    done: float


class _Place(NamedTuple):
    """Where a table stands in its sheet: rows from 1."""

    title_rows: tuple[tuple[int, list[str]], ...]
    header_rows: tuple[tuple[int, list[str]], ...]
    width: int
    first: int  # row from which data is read
    last: int


class Table:
    """One table of a sheet. See the fields of its interface in the package's description."""

    def __init__(self, source: Source, place: _Place, *, sheet: str, hidden: bool) -> None:
        self._source = source
        self._place = place
        self.sheet = sheet
        self.hidden = hidden
        self.size = None if source.size is None else max(0, min(source.size, place.last) - place.first + 1)
        rows = [_spread(row, number, source.merges) for number, row in place.header_rows]
        self.header: tuple[str, ...] = joined(rows, place.width) or ("",) * place.width
        if not place.header_rows:
            self.header = tuple(f"column {at + 1}" for at in range(place.width))
        self.header_row = place.header_rows[-1][0] if place.header_rows else 0
        self._is_export = is_export(self.header)  # no row of which is anything but data
        self._plain_headers = [row for _, row in place.header_rows]
        self._probes: tuple[int, ...] = ()
        self.sample: tuple[tuple[int, list[str]], ...] = ()
        self.sample = self._take_sample()
        self._probes = self._find_probes()

    def __repr__(self) -> str:
        return f"Table({self.sheet!r}, {self.header!r}, header_row={self.header_row})"

    def batches(self, rows: int = BATCH) -> Iterator[Batch]:
        """The rows below the header, ``rows`` at a time; may be called again. Raises SheetFileError."""
        left_out = [LeftOut(number, "title", row) for number, row in self._place.title_rows]
        for chunk in self._chunks(rows):
            batch = self._judged(chunk)
            yield batch._replace(left_out=left_out + batch.left_out) if left_out else batch
            left_out = []
        if left_out:
            yield Batch([], [], left_out, 0, 1.0)

    def _chunks(self, rows: int) -> Iterator[Chunk]:
        first, last = self._place.first, self._place.last
        for chunk in self._source.chunks(rows):
            numbers = chunk.numbers
            if numbers[-1] < first:
                continue
            if numbers[0] > last:
                return
            if numbers[0] >= first and numbers[-1] <= last:
                yield chunk
                continue
            start, end = bisect_left(numbers, first), bisect_right(numbers, last)
            if start < end:
                yield Chunk(numbers[start:end], chunk.rows[start:end], chunk.done)

    def _judged(self, chunk: Chunk) -> Batch:
        numbers, rows, width = chunk.numbers, chunk.rows, len(self.header)
        if self._is_plain(rows, width):
            return Batch(numbers, rows, [], 0, chunk.done)
        batch = Batch([], [], [], 0, chunk.done)
        keep_number, keep_row = batch.numbers.append, batch.rows.append
        blank = 0
        named = {row[at] for row in self._plain_headers for at in self._probes if at < len(row)}
        probes = self._probes
        for number, row in zip(numbers, rows, strict=True):
            if len(row) != width:
                row = _fitted(row, width)
            if probes and len(row) == width and all(row[at] and row[at] not in named for at in probes):
                keep_number(number)
                keep_row(row)
                continue
            if not any(row):
                blank += 1
            elif not self._is_export and (why := why_no_data(row, self._plain_headers, width)):
                batch.left_out.append(LeftOut(number, why, row))
            else:
                keep_number(number)
                keep_row(row)
        return batch._replace(blank=blank)

    def _is_plain(self, rows: list[list[str]], width: int) -> bool:
        """Whether every row of a block is data beyond doubt: length, probes, no header's words."""
        if not self._probes or set(map(len, rows)) != {width}:
            return False
        for at in self._probes:
            cells = [row[at] for row in rows]
            if "" in cells or any(at < len(row) and row[at] in cells for row in self._plain_headers):
                return False
        return True

    def _take_sample(self) -> tuple[tuple[int, list[str]], ...]:
        sample: list[tuple[int, list[str]]] = []
        for chunk in self._chunks(limits.SAMPLE_ROWS):
            batch = self._judged(chunk)
            sample += zip(batch.numbers, batch.rows, strict=True)
            if len(sample) >= limits.SAMPLE_ROWS:
                break
        return tuple(sample[: limits.SAMPLE_ROWS])

    def _find_probes(self) -> tuple[int, ...]:
        """The first columns that nearly every row of the sample fills.

        A heading, a note or a total fills less than half of a row. So three filled columns make a row of data
        only in tables of more than six; narrower ones are told by all the columns but one.
        """
        rows = [row for _, row in self.sample]
        always = [
            at for at in range(len(self.header)) if sum(bool(row[at]) for row in rows) >= 0.98 * len(rows) > 0
        ]
        most_left_out = max(3, (len(self.header) + 1) // 2)  # filled cells of a total
        return tuple(always[:_PROBES]) if len(always) >= _PROBES or len(always) > most_left_out else ()


def find_tables(source: Source, *, sheet: str, hidden: bool) -> tuple[Table, ...]:
    """The tables of one sheet, from the top; none where it is empty.

    Text files are looked through for a second table as far as ``limits.SCAN_ROWS``, worksheets wholly.
    """
    places = list(_places(source))
    return tuple(
        Table(source, place, sheet=sheet if not at else f"{sheet} #{at + 1}".strip(), hidden=hidden)
        for at, place in enumerate(places)
    )


def _places(source: Source) -> Iterator[_Place]:
    """Find the headers; a table ends where the next one's title or header begins."""
    current: _Place | None = None
    for start in _starts(source):
        if current is None:
            current = _first_place(start, source)
            continue
        following = _next_place(start, current, source)
        if following is not None:
            yield current._replace(last=start[0][0] - 1)
            current = following
    if current is not None:
        yield current


def _starts(source: Source) -> Iterator[list[tuple[int, list[str]]]]:
    """Stretches of rows in which a table may begin: the top of the sheet, and what follows blank rows."""
    growing: list[list[tuple[int, list[str]]]] = []
    after_blank = top = True
    seen = 0
    for chunk in source.rough(2_000):
        seen += len(chunk.rows)
        # Most blocks have no blank row at all, and few have an empty first cell.
        if top or growing or after_blank or not all(row and (row[0] or any(row)) for row in chunk.rows):
            for number, row in zip(chunk.numbers, chunk.rows, strict=False):
                is_blank = not any(row)
                if not is_blank and (top or (after_blank and could_begin(source.as_texts(row)))):
                    growing.append([])
                    top = False
                if growing:
                    line = (number, source.as_texts(row))
                    for stretch in growing:
                        stretch.append(line)
                while growing and len(growing[0]) >= limits.HEAD_ROWS:
                    yield growing.pop(0)
                after_blank = is_blank
        if source.size is None and seen >= limits.SCAN_ROWS:
            break
    yield from growing


def _first_place(start: list[tuple[int, list[str]]], source: Source) -> _Place:
    found = find_header([row for _, row in start])
    if found is None:
        width = max(len(row) for _, row in start)
        return _Place((), (), width, start[0][0], _END_OF_SHEET)
    return _placed(start, found, source)


def _next_place(start: list[tuple[int, list[str]]], current: _Place, source: Source) -> _Place | None:
    """The table that begins here, if one does: a header of other columns than the table above has."""
    if start[0][0] <= current.first:
        return None
    found = find_header([row for _, row in start], strict=True)
    if found is None:
        return None
    place = _placed(start, found, source)
    headers = [row for _, row in current.header_rows]
    if any(why_no_data(row, headers, current.width) == "repeated header" for _, row in place.header_rows):
        return None
    return place


def _placed(start: list[tuple[int, list[str]]], found: Found, source: Source) -> _Place:
    titles = tuple((number, row) for number, row in start[: found.first] if any(row))
    header_rows = tuple(start[found.first : found.last + 1])
    width = found.width
    if source.size is not None:
        # In a worksheet a column without a name is a column. In a text file a longer row is a broken one,
        # such as a price with an unquoted decimal comma, and is told to the person as such.
        body = [row for _, row in start[found.last + 1 :] if any(row)]
        while any(len(row) > width for row in body) and (
            sum(any(row[width:]) for row in body) >= 0.3 * len(body)
        ):
            width += 1
    return _Place(titles, header_rows, width, header_rows[-1][0] + 1, _END_OF_SHEET)


def _fitted(row: list[str], width: int) -> list[str]:
    """A row as long as the header: padded, or cut where only empty cells stand beyond."""
    if len(row) < width:
        return row + [""] * (width - len(row))
    return row if any(row[width:]) else row[:width]


def _spread(row: list[str], number: int, merges: Sequence[Merge]) -> list[str]:
    """A header row in which a name over several merged columns stands above each of them."""
    spread = list(row)
    for merge in merges:
        if merge.first_row <= number <= merge.last_row and merge.first_column < len(row):
            for column in range(merge.first_column, min(merge.last_column + 1, len(row))):
                spread[column] = row[merge.first_column]
    return spread


def hold_any(tables: Sequence[Table], *, file: str) -> None:
    """Raises SheetFileError where a file has no table at all."""
    if not tables:
        raise SheetFileError("there is nothing but blank rows", "check the download", file=file)


__all__ = ["Batch", "LeftOut", "Table", "find_tables", "hold_any"]
