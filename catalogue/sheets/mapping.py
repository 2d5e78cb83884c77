"""What the columns of one supplier's sheets are: the mapping that is proposed, confirmed, kept and used.

A mapping is checked as a whole when it is made: a field is known, no field comes from two columns, and every
row can be told from the others. ``checked`` tells all that is wrong at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from collections.abc import Mapping as Texts
from typing import Any, Literal, NamedTuple, Self

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from catalogue.sheets.currencies import CODES
from catalogue.sheets.sheet_fields import NAMES_ONE_ROW, SheetField, field_named, fields, unit_named
from schema.errors import InputError, InputErrors
from schema.fields import meaning_of
from schema.kinds import PARTS, model_of
from schema.nearest import nearest, not_among

LEAVE_OUT = "leave_out"  # the kind of a row that is no part of a damper: a tool, a catalogue, a shirt


class Column(NamedTuple):
    """What one column is; ``field`` is "" where it is left out.

    ``unit`` is the unit of a column whose cells have none: ``mm`` or ``in`` of a length, ``weeks`` of a lead
    time. A cell's own unit goes before it.
    """

    header: str
    field: str
    unit: str = ""


class Mapping(BaseModel):
    """What is kept of one supplier's sheets.

    ``covers`` whole_range: what is not on the sheet is no longer offered. ``sheets`` names the worksheets to
    load, () all that have the columns. ``encoding`` and ``delimiter`` stand only where a person gave them.
    ``columns`` goes by header (see ``column_names``), ``every`` gives the fields that are the same for every
    row, ``words`` turns a supplier's word into ours, by field, ``same_part`` a supplier's code into our part
    number. ``texts`` as_kept: a sheet that borebook wrote (``own_export``), its texts taken as they are.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    supplier: str = Field(min_length=1)
    covers: Literal["whole_range", "some"] = "some"
    sheets: tuple[str, ...] = ()
    encoding: str = ""
    delimiter: str = ""
    decimal: Literal[".", ","] = "."
    columns: dict[str, Column]
    every: dict[str, str] = {}
    words: dict[str, dict[str, str]] = {}
    same_part: dict[str, str] = {}
    texts: Literal["read", "as_kept"] = "read"

    @model_validator(mode="after")
    def _whole(self) -> Self:
        errors = [*_column_errors(self.columns), *_every_errors(self.every, self.columns)]
        errors += _word_errors(self.words)
        for code, number in self.same_part.items():
            if not number.strip():
                errors.append(
                    InputError(
                        field=f"same_part.{code}",
                        given="",
                        problem="no part number is given",
                        example="OR-214-N70",
                    )
                )
        if errors:
            raise InputErrors(errors)
        return self

    def fields(self) -> frozenset[str]:
        """Every field that a row gets, from its columns or from ``every``."""
        return frozenset(one.field for one in self.columns.values() if one.field) | frozenset(self.every)

    def changed(self, **values: Any) -> Mapping:
        """The same mapping with some of it changed, checked anew. Raises InputErrors."""
        return checked(**{**dict(self), **values})


class Placed(NamedTuple):
    """Where a mapped column stands in a table, counted from 0."""

    at: int
    column: Column


def checked(**values: Any) -> Mapping:
    """The mapping of these values; every fault is told in one InputErrors, each at its path.

    >>> checked(supplier="Demo", columns={"Art.Nr.": Column("Art.Nr.", "code")}).fields()
    frozenset({'code'})
    """
    try:
        return Mapping(**values)
    except ValidationError as error:
        raise InputErrors(list(_told(error))) from None


def column_names(header: Sequence[str]) -> tuple[str, ...]:
    """The names by which a mapping calls the columns of a table: no name twice, none empty.

    >>> column_names(["Preis", "", "Preis"])
    ('Preis', 'column 2', 'Preis #2')
    """
    names: list[str] = []
    written = set(header)
    for place, text in enumerate(header, start=1):
        plain = text or f"column {place}"
        name, count = plain, 1
        while name in names or (name != text and name in written):
            count += 1
            name = f"{plain} #{count}"
        names.append(name)
    return tuple(names)


def placed(mapping: Mapping, header: Sequence[str]) -> dict[str, Placed]:
    """Where each mapped field stands in a table, by field; fields whose column is missing are left out.

    The tables of one file may have a field under different headers, but a table has it once: two columns of
    one table for one field raise InputError. A header is found as it is written, or else without regard to
    case and spaces.
    """
    names = column_names(header)
    exact = {name: at for at, name in enumerate(names)}
    folded = {_folded(name): at for at, name in reversed(list(enumerate(names)))}
    found: dict[str, Placed] = {}
    for name, column in mapping.columns.items():
        at = exact.get(name, folded.get(_folded(name)))
        if not column.field or at is None:
            continue
        if other := found.get(column.field):
            raise InputError(
                field=f"columns.{name}",
                given=column.field,
                problem=f"the column {other.column.header!r} of this table is {column.field} too",
                allowed="one column of a table for a field; leave the other out",
            )
        found[column.field] = Placed(at, column)
    return found


def same_header(one: str, other: str) -> bool:
    """Whether two headers are the same, without regard to case and spaces."""
    return _folded(one) == _folded(other)


def _folded(header: str) -> str:
    return "".join(header.casefold().split())


# -- what a mapping has to keep to ------------------------------------------------------------------


def _column_errors(columns: Texts[str, Column]) -> Iterable[InputError]:
    first: dict[str, str] = {}
    for header, column in columns.items():
        path = f"columns.{header}"
        if column.header != header:
            yield InputError(
                field=path, given=column.header, problem="the column has another header than its name here"
            )
        if not column.field:
            continue
        try:
            field = field_named(column.field, path=path)
            unit = unit_named(field, column.unit, path=path)
        except InputError as error:
            yield error
            continue
        if (field.name, unit) != column[1:]:
            spelt = " ".join((field.name, unit)).strip()
            given = " ".join(column[1:]).strip()
            yield InputError(field=path, given=given, problem="this is spelt otherwise", allowed=spelt)
        first.setdefault(field.name, header)
    if not any(name in first for name in NAMES_ONE_ROW):
        yield InputError(
            field="columns",
            given="",
            problem="no column tells the rows apart",
            allowed="a column that is code (the supplier's order code) or part_number (the number here)",
        )


def _every_errors(every: Texts[str, str], columns: Texts[str, Column]) -> Iterable[InputError]:
    by_field = {column.field: header for header, column in columns.items()}
    for name, text in every.items():
        path = f"every.{name}"
        try:
            field = field_named(name, path=path)
            if field.name != name:
                raise InputError(
                    field=path, given=name, problem="this is spelt otherwise", allowed=field.name
                )
            if name in NAMES_ONE_ROW:
                raise InputError(field=path, given=text, problem="a number names one part, not every row")
            if name in by_field:
                raise InputError(
                    field=path,
                    given=text,
                    problem=f"the column {by_field[name]!r} is {name} too",
                    allowed="leave the column out, or this",
                )
            _check_every(field, text, every.get("kind", ""), path)
        except InputErrors as several:
            yield from several.errors
        except InputError as error:
            yield error


def _check_every(field: SheetField, text: str, kind: str, path: str) -> None:
    """Refuse a text that no row could have."""
    if not text.strip():
        raise InputError(field=path, given="", problem="nothing is given", example=field.example)
    if field.holds == "kind" and text not in PARTS:
        raise not_among(tuple(PARTS), field=path, given=text, problem="there is no such kind of part")
    if field.holds == "currency" and text not in CODES:
        near = nearest(text, CODES)
        told = f"; near: {', '.join(near)}" if near else ""
        raise InputError(
            field=path,
            given=text,
            problem="no currency has this code",
            allowed=f"ISO 4217{told}",
            example="EUR",
        )
    if field.holds in ("count", "days"):
        least = 0 if field.holds == "days" or field.name == "stock" else 1
        if not (text.isascii() and text.isdigit() and least <= int(text) <= 10_000_000):
            raise InputError(
                field=path,
                given=text,
                problem="this is not a whole number it may be",
                allowed=f"{least} or more, digits only",
                example=field.example,
            )
    if field.holds == "money":
        raise InputError(field=path, given=text, problem="one price for every row is none")
    if field.kinds and field.holds != "tolerance":
        own = [kind] if kind in field.kinds else list(field.kinds)
        if kind in PARTS and kind not in field.kinds:
            raise InputError(
                field=path, given=text, problem=f"{kind} has no such field", allowed=", ".join(field.kinds)
            )
        _read_by_any(own, field.name, text, path)


def _read_by_any(kinds: Sequence[str], name: str, text: str, path: str) -> None:
    refusals: list[InputError] = []
    for kind in kinds:
        try:
            meaning_of(model_of(kind).declared[name]).read(text, path)
        except InputError as error:
            refusals.append(error)
        else:
            return
    raise refusals[0]


def _word_errors(words: Texts[str, Texts[str, str]]) -> Iterable[InputError]:
    for name, pairs in words.items():
        try:
            field = field_named(name, path=f"words.{name}")
        except InputError as error:
            yield error
            continue
        for word, ours in pairs.items():
            path = f"words.{name}.{word}"
            if field.holds == "kind" and ours not in (*PARTS, LEAVE_OUT):
                yield not_among(
                    (*PARTS, LEAVE_OUT), field=path, given=ours, problem="there is no such kind of part"
                )
            elif field.holds == "currency" and ours not in CODES:
                yield InputError(field=path, given=ours, problem="no currency has this code", example="EUR")


_WORDS = {
    "missing": "is missing",
    "extra_forbidden": "there is no such entry",
    "string_type": "a text is expected",
    "string_too_short": "nothing is given",
    "dict_type": "named entries are expected",
    "tuple_type": "a list is expected",
}


def _told(error: ValidationError) -> Iterable[InputError]:
    """The faults of a mapping in our words; those of the rules above come through as they are."""
    for one in error.errors(include_url=False):
        inner = one.get("ctx", {}).get("error")
        path = ".".join(str(step) for step in one["loc"])
        if isinstance(inner, InputErrors):
            yield from inner.errors
        elif one["type"] == "literal_error":
            yield InputError(
                field=path,
                given=one["input"],
                problem="this is not one of the words it may be",
                allowed=str(one["ctx"]["expected"]).replace("'", ""),
            )
        elif one["type"] == "extra_forbidden":
            yield not_among(
                tuple(Mapping.model_fields), field=path, given=path, problem="there is no such entry"
            )
        else:
            given = "" if one["type"] == "missing" else one["input"]
            yield InputError(field=path, given=given, problem=_WORDS.get(one["type"], one["msg"]))


__all__ = [
    "LEAVE_OUT",
    "Column",
    "Mapping",
    "Placed",
    "checked",
    "column_names",
    "fields",
    "placed",
    "same_header",
]
