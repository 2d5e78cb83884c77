"""How a text file parts its cells: the sign between them, the sign around them, the line ``sep=;``.

A sign is right when it gives row after row the same number of cells. Titles above and totals below have
fewer and do not count against it; a decimal comma inside semicolons gives commas too, but uneven ones.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from typing import NamedTuple

from catalogue.sheets.own_export import is_export
from catalogue.sheets.refusals import SheetFileError

DELIMITERS = (";", "\t", ",", "|")
_SEP_LINE = re.compile(r"\ufeff?\"?sep=(.)\"?[ \t;,]*\r?(\n|\r|$)", re.I)
_ROWS = 400


class Dialect(NamedTuple):
    """``skip`` is the number of lines at the top that are no rows (the line ``sep=;``)."""

    delimiter: str
    quote: str
    skip: int


def find_dialect(head: str, *, given: str = "", name: str = "") -> Dialect:
    """Tell how the cells are parted, from the first lines of the text; ``given`` overrides the delimiter.

    Raises SheetFileError where ``given`` is not a single sign, or one that cannot part cells.
    """
    if given == "\\t":
        given = "\t"
    if given and (len(given) != 1 or given in "\"'\r\n" or given.isalnum()):
        raise SheetFileError(
            f"cells cannot be parted by {given!r}", "give a single sign such as ; or , or \\t", file=name
        )
    sep = _SEP_LINE.match(head)
    told = sep.group(1) if sep and sep.group(1) not in "\"'\r\n" and not sep.group(1).isalnum() else ""
    if sep and told:
        head = head[sep.end() :]
    if not given and not told and (own := _of_export(head)):
        return Dialect(own, '"', 0)
    delimiter = given or told or _delimiter(head)
    return Dialect(delimiter, _quote(head, delimiter), 1 if told else 0)


def _of_export(head: str) -> str:
    """The delimiter of a sheet that borebook wrote, by its header; "" for any other sheet."""
    first = head.removeprefix("\ufeff").partition("\n")[0].rstrip("\r")
    for sign in DELIMITERS:
        if is_export([name.strip('"') for name in first.split(sign)]):
            return sign
    return ""


def _delimiter(head: str) -> str:
    scored = [(_score(head, sign), -place, sign) for place, sign in enumerate(DELIMITERS)]
    best, _, sign = max(scored)
    return sign if best > 0 else ","  # a file of one column: any sign does that does not occur


def _score(head: str, delimiter: str) -> float:
    if delimiter not in head:
        return 0.0
    rows = _rows(head, delimiter)
    if not rows:
        return 1.0  # nothing but this sign
    widths = Counter(len(row) for row in rows)
    total = sum(widths.values())
    width, count = max(
        ((width, count) for width, count in widths.items() if width > 1),
        key=lambda pair: (pair[1] * min(pair[0], 6), pair[0]),
        default=(1, 0),
    )
    if width == 1:
        return 0.0
    if count < 2 and total > 2:  # no two rows alike: only better than nothing
        return 0.1 * (total - widths[1]) / total
    share = count / total
    return share * (1 + min(width, 12) / 12) * (1 - _split_numbers(rows, width, delimiter))


def _rows(head: str, delimiter: str) -> list[list[str]]:
    rows: list[list[str]] = []
    reader = csv.reader(
        head.splitlines(keepends=True)[: _ROWS * 2], delimiter=delimiter, skipinitialspace=True
    )
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                rows.append(row)
            if len(rows) >= _ROWS:
                break
    except csv.Error:
        return rows
    return rows[:-1] if len(rows) > 10 else rows  # the last one may be cut


def _split_numbers(rows: list[list[str]], width: int, delimiter: str) -> float:
    """The share of rows in which a comma seems to part a number or a text, not two cells.

    ``1,78;2,90`` read by commas ends one cell on a digit and begins the next with one, and leaves another
    delimiter inside; a space after the comma is a sentence.
    """
    if delimiter != ",":
        return 0.0
    seen = [row for row in rows if len(row) == width]
    odd = sum(any(other in cell for cell in row for other in ";\t|") for row in seen)
    return 0.8 * odd / len(seen) if seen else 0.0


def _quote(head: str, delimiter: str) -> str:
    """The double quote, unless cells stand between single ones and none between double ones."""
    at_edges = re.escape(delimiter)
    if re.search(rf'(^|{at_edges}) ?"', head, re.M):
        return '"'
    single = re.findall(rf"(?:^|{at_edges})'[^'\r\n]*'(?={at_edges}|\r|\n|$)", head, re.M)
    return "'" if len(single) >= 3 else '"'
