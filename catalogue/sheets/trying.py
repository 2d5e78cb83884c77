"""Tries a proposed mapping on the sample of a file: one by which no row can become an article is no mapping.

A column of sizes whose header says nothing is left out, and then every ring lacks its inside diameter: that
is asked before anything is kept or loaded.
"""

from __future__ import annotations

from collections.abc import Sequence

from catalogue.sheets.answers import column_option
from catalogue.sheets.headers import read_header
from catalogue.sheets.looks import MOST, likely_unit, looks_of
from catalogue.sheets.mapping import Column, Mapping, column_names
from catalogue.sheets.problems import Missing
from catalogue.sheets.proposed import Question
from catalogue.sheets.rows import RowReader
from catalogue.sheets.sheet_fields import fields
from catalogue.sheets.tables import Table

MOST_TRIED = 300  # rows of each table


def nothing_to_be_made(mapping: Mapping, tables: Sequence[Table]) -> tuple[Question, ...]:
    """What every row of the sample lacks, where not one of them can be read; () where one can."""
    lacking: set[str] | None = None
    for table in tables:
        width = len(table.header)
        tried = [(number, cells) for number, cells in table.sample[:MOST_TRIED] if len(cells) == width]
        if not tried:
            continue
        reader = RowReader(mapping, table.sheet, table.header)
        read = reader.read([number for number, _ in tried], [cells for _, cells in tried], [0] * len(tried))
        if read.taken:
            return ()
        for row in read.refused.values():
            missing = {one.field for one in row.problems if isinstance(one, Missing)}
            lacking = missing if lacking is None else lacking & missing
    return tuple(_question(field, mapping, tables) for field in fields() if field in (lacking or ()))


def _question(field: str, mapping: Mapping, tables: Sequence[Table]) -> Question:
    """Which of the columns of numbers that are left out it is."""
    answers = [
        column_option(Column(name, field, _unit(field, name, cells)))
        for table in tables
        for at, name in enumerate(column_names(table.header))
        if name in mapping.columns and not mapping.columns[name].field
        for cells in [[cells[at] for _, cells in table.sample if at < len(cells)]]
        if max((look := looks_of(cells)).numbers, look.lengths) >= MOST
    ]
    unit = "mm" if fields()[field].holds == "length" else ""
    answers = list(dict.fromkeys(answers)) or [column_option(Column("HEADER", field, unit))]
    words = (
        f"no column is the {field.replace('_', ' ')}, and without it no row can be loaded; which one is it"
    )
    return Question(field, words, tuple(answers))


def _unit(field: str, name: str, cells: Sequence[str]) -> str:
    """The unit to be told with a column whose cells have none: that of its header, or else the likely one."""
    if fields()[field].holds != "length" or looks_of(cells).own_units == 1.0:
        return ""
    return read_header(name).unit or likely_unit(cells)[0] or "mm"
