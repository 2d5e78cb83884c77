"""Writes parts and offers as sheets that load back to the same catalogue, text by text.

Headers are the names of fields, cells the texts as they are kept. Rows are read as they are written, so that
a supplier's hundred thousand offers take the memory of a few thousand.
"""

from __future__ import annotations

import csv
import io
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from typing import BinaryIO, NamedTuple

from catalogue.sheets.codes import folded
from catalogue.sheets.harmless import harmless
from catalogue.sheets.own_export import carried
from catalogue.sheets.sheet_fields import fields
from catalogue.texts import texts_of_parts
from schema.errors import InputError
from schema.nearest import not_among

PARTS_SHEET = "parts"
MARK = b"\xef\xbb\xbf"  # without it spreadsheet programs take UTF-8 for the code page of their computer
LONGEST_CSV_CELL = 100_000  # the csv module reads no cell of more than 131,072
_AT_ONCE = 2_000  # rows

_BESIDE = ("kind", "size", "material", "hardness_shore_a")
_LAST = ("superseded_by", "notes")
_PART_HEAD = ("part_number", "kind", "description", "maker", *_BESIDE[1:])
_TERMS = (
    "code",
    "part_number",
    "description",
    "maker",
    "maker_code",
    "price",
    "currency",
    "price_per",
    "pack_size",
    "minimum",
    "lead_time_days",
    "stock",
)
_LISTED = "FROM offer WHERE supplier = ?1 AND listed"
# Sizes that only follow from a size code are no texts of the part.
_FIELDS = (
    "SELECT field FROM part_value{0} UNION SELECT dimension FROM part_dimension WHERE origin <> 'standard'{1}"
)
_FIELDS_OF_ALL = _FIELDS.format("", "")
_FIELDS_OF_OFFERED = _FIELDS.format(
    f" WHERE part_number IN (SELECT part_number {_LISTED})",
    f" AND part_number IN (SELECT part_number {_LISTED})",
)

Row = list[str]


class ExportSheet(NamedTuple):
    """One sheet to be written: its name, header, number of rows, and the rows, which can be taken once.

    ``gone`` counts offers that are not listed any more: a sheet cannot say so of a row, so they are left out.
    """

    name: str
    header: tuple[str, ...]
    size: int
    rows: Iterator[Row]
    gone: int = 0


def parts_sheet(connection: sqlite3.Connection) -> ExportSheet:
    """All parts, by number."""
    numbers = [row[0] for row in connection.execute("SELECT part_number FROM part ORDER BY part_number")]
    header = (*_PART_HEAD, *_others(connection, _FIELDS_OF_ALL), *_LAST)

    def rows() -> Iterator[Row]:
        for start in range(0, len(numbers), _AT_ONCE):
            some = numbers[start : start + _AT_ONCE]
            texts = texts_of_parts(connection, some)
            for number in some:
                told = {**texts[number], "part_number": number}
                yield [carried(told.get(name, "")) for name in header]

    return ExportSheet(PARTS_SHEET, header, len(numbers), rows())


def suppliers(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The suppliers that have offers, by name."""
    found = connection.execute("SELECT supplier FROM offer GROUP BY supplier ORDER BY supplier")
    return tuple(row[0] for row in found)


def offers_sheet(connection: sqlite3.Connection, supplier: str) -> ExportSheet:
    """What a supplier offers, by code, each with its part. Raises UnknownName."""
    known = suppliers(connection)
    name = next((one for one in known if folded(one) == folded(supplier)), None)
    if name is None:
        if not known:
            raise InputError(
                field="--supplier",
                given=supplier,
                problem="the catalogue has no offers yet",
                allowed="load a sheet first: borebook load FILE --supplier NAME",
            )
        raise not_among(known, field="--supplier", given=supplier, problem="there are no offers of this name")
    size, gone = connection.execute(
        "SELECT coalesce(sum(listed), 0), coalesce(sum(1 - listed), 0) FROM offer WHERE supplier = ?", (name,)
    ).fetchone()
    header = (*_TERMS, *_BESIDE, *_others(connection, _FIELDS_OF_OFFERED, name), *_LAST)
    return ExportSheet(name, header, size, _offer_rows(connection, name, header), gone)


def _offer_rows(connection: sqlite3.Connection, supplier: str, header: Sequence[str]) -> Iterator[Row]:
    offers = connection.execute(f"SELECT {', '.join(_TERMS)} {_LISTED} ORDER BY code", (supplier,))
    beside = header[len(_TERMS) :]
    while some := offers.fetchmany(_AT_ONCE):
        texts = texts_of_parts(connection, list({row["part_number"] for row in some}))
        parts = {number: [carried(one.get(name, "")) for name in beside] for number, one in texts.items()}
        by_number = {folded(number): cells for number, cells in parts.items()}
        for row in some:
            terms = ["" if one is None else carried(str(one)) for one in row]
            number = row["part_number"]  # may be in other capitals than the part's own
            yield terms + (parts.get(number) or by_number[folded(number)])


def _others(connection: sqlite3.Connection, sql: str, *values: str) -> tuple[str, ...]:
    """The fields of parts that occur beside those which every sheet has, in the order of ``fields``."""
    found = {row[0] for row in connection.execute(sql, values)} - {*_PART_HEAD, *_TERMS, *_LAST}
    return tuple(name for name in fields() if name in found) + tuple(sorted(found - {*fields()}))


def hold_lengths(sheet: ExportSheet, longest: int, mend: str) -> Iterable[Row]:
    """The rows of a sheet. Raises InputError at a text that is too long for a cell."""
    for row in sheet.rows:
        if max(map(len, row)) > longest:
            at = max(range(len(row)), key=lambda one: len(row[one]))
            raise InputError(
                field=f"{row[0]}: {sheet.header[at]}",
                given=f"{row[at][:40]}…",
                problem=f"the text has {len(row[at]):,} characters, a cell holds {longest:,}",
                allowed=mend,
            )
        yield row


def write_csv(file: BinaryIO, sheet: ExportSheet, *, mark: bool = True) -> None:
    """Write a sheet as CSV, UTF-8 with a byte order mark unless ``mark`` is false. Raises InputError.

    Cells that a spreadsheet would run as formulas get an apostrophe, which the loader takes off again.
    """
    if mark:
        file.write(MARK)
    text = io.TextIOWrapper(file, encoding="utf-8", newline="", write_through=False)
    writer = csv.writer(text)
    writer.writerow(sheet.header)
    writer.writerows(map(harmless, row) for row in hold_lengths(sheet, LONGEST_CSV_CELL, "shorten it"))
    text.flush()
    text.detach()
