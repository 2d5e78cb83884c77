"""Holds a kept mapping against the header of a new sheet: what is gone, what is new, and what to answer.

Columns may move freely. A mapped column that is gone is never mapped anew in silence: it is a question. New
columns are told and left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from catalogue.sheets.answers import column_option, column_told
from catalogue.sheets.currencies import CODES
from catalogue.sheets.headers import HeaderReading, read_header
from catalogue.sheets.looks import looks_of
from catalogue.sheets.mapping import Column, Mapping, column_names, placed, same_header
from catalogue.sheets.proposed import Question
from catalogue.sheets.sheet_fields import NAMES_ONE_ROW
from schema.errors import InputError, InputErrors


class NewColumn(NamedTuple):
    """A column that the mapping does not know, and what it looks like; ``field`` "" where nothing says."""

    header: str
    field: str = ""
    unit: str = ""
    why: str = ""
    examples: tuple[str, ...] = ()

    def __str__(self) -> str:
        looks = f"looks like {self.field} ({self.why})" if self.field else "is not known"
        return f"{self.header!r} is new, {looks}, and is left out"


class Fit(NamedTuple):
    """How a mapping and a header fit: mapped columns that are gone, new ones, what must be answered."""

    missing: tuple[Column, ...]
    new: tuple[NewColumn, ...]
    questions: tuple[Question, ...]

    @property
    def fits(self) -> bool:
        """Whether every mapped column is there."""
        return not self.missing


def held_against(
    mapping: Mapping,
    header: Sequence[str],
    rows: Sequence[Sequence[str]] = (),
    *,
    tables: Sequence[Sequence[str]] = (),
) -> Fit:
    """Hold a mapping against a header; ``rows`` are a sample, for what new columns look like.

    ``tables`` are the headers of each table where the header is that of several. A header that is gone is
    not missed where every table of articles has its field under another one.
    """
    names = column_names(header)
    kind = mapping.every.get("kind", "")
    known = [column.header for column in mapping.columns.values()]
    new = tuple(
        _new(name, [row[at] for row in rows if at < len(row)], kind)
        for at, name in enumerate(names)
        if not any(same_header(name, one) for one in known)
    )
    missing = tuple(
        column
        for column in mapping.columns.values()
        if column.field
        and not any(same_header(column.header, name) for name in names)
        and not _elsewhere(column, mapping, tables or (header,))
    )
    return Fit(missing, new, tuple(_question(column, new) for column in missing))


def retold(mapping: Mapping, header: Sequence[str], given: Sequence[str]) -> Mapping:
    """The mapping with the person's columns (``HEADER=FIELD [UNIT]``) over its own.

    A told field leaves the column that had it. A header that is gone stays beside the one that took its
    place, so that last month's sheet can still be read; ``HEADER=`` takes it out. What the header of a price
    said (currency, price for so many) comes from the new one, and an old header that said otherwise does not
    stay. Raises InputErrors.
    """
    names = column_names(header)
    columns, every = dict(mapping.columns), dict(mapping.every)
    errors: list[InputError] = []
    for text in given:
        try:
            told = column_told(text, [*names, *(name for name in columns if name not in names)])
        except InputError as error:
            errors.append(error)
            continue
        for name, column in list(columns.items()):
            if same_header(name, told.header) or (told.field and column.field == told.field):
                here = any(same_header(name, one) for one in names)
                same = same_header(name, told.header)
                before = dict(every)
                if told.field == "price" and column.field == "price" and not same:
                    _from_header(every, read_header(name), read_header(told.header))
                if here and not same:
                    columns[name] = Column(name, "")
                elif same or told.header not in names or every != before:
                    del columns[name]
        if told.header in names:
            columns[told.header] = told
        if told.field:
            every.pop(told.field, None)
    if errors:
        raise InputErrors(errors)
    return mapping.changed(columns=columns, every=every)


def _elsewhere(column: Column, mapping: Mapping, tables: Sequence[Sequence[str]]) -> bool:
    """Whether every table of articles has the field of a column under another header."""
    found = [{one.column.field for one in placed(mapping, header).values()} for header in tables]
    return all(column.field in of_table for of_table in found if of_table.intersection(NAMES_ONE_ROW))


def _from_header(every: dict[str, str], old: HeaderReading, new: HeaderReading) -> None:
    """Take out what the header of the old price said of every row, and put in what the new one says."""
    for field, was, now in (("currency", old.currency, new.currency), ("price_per", old.per, new.per)):
        if was and every.get(field) == was and (now or field != "currency"):
            del every[field]  # a currency that the new header does not tell is still that of the supplier
        if now and (field != "currency" or now in CODES) and (field, now) != ("price_per", "1"):
            every[field] = now


def _new(name: str, cells: Sequence[str], kind: str) -> NewColumn:
    reading, looks = read_header(name, kind=kind), looks_of(cells)
    if reading.options:
        return NewColumn(name, reading.options[0], reading.unit, reading.why, looks.examples)
    field, why = looks.field
    return NewColumn(name, field, "", why, looks.examples)


def _question(missing: Column, new: Sequence[NewColumn]) -> Question:
    alike = [one for one in new if one.field == missing.field]
    gone = column_option(Column(missing.header, ""))
    if alike:
        told = "; ".join(f"{one.header!r} is new and looks like {one.field}" for one in alike)
        answers = [
            column_option(Column(one.header, missing.field, one.unit or missing.unit)) for one in alike
        ]
    else:
        told = f"no new column looks like {missing.field}"
        answers = [f'--column "HEADER={missing.field}"']
    return Question(missing.header, f"{missing.header!r} is gone; {told}", (*answers, gone))
