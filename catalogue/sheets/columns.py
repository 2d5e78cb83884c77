"""Reads the columns of a batch of rows: each different cell once, whatever the number of rows.

A cell that cannot be read becomes a ``Problem`` in the place of its value; nothing stops at it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from pydantic import ValidationError

from catalogue.sheets.cell_words import NOTHING
from catalogue.sheets.cells import BETWEEN, MARKS, plain
from catalogue.sheets.currencies import currency_named, may_be
from catalogue.sheets.harmless import as_it_was
from catalogue.sheets.lengths import tolerance_text
from catalogue.sheets.mapping import Column, Mapping
from catalogue.sheets.numbers import (
    amount_text,
    is_nothing,
    length_text,
    read_count,
    read_days,
    read_money,
    read_number,
    refuse_marked,
)
from catalogue.sheets.problems import Problem, problem_of
from catalogue.sheets.sheet_fields import SheetField, fields
from catalogue.sheets.terms import LONGEST_CODE, LONGEST_WORDS, field_adapters, stored_price
from catalogue.sheets.told_kinds import how_to_tell
from schema.errors import InputError
from schema.kind_words import kind_word
from schema.kinds import PARTS

MOST_KEPT = 20_000  # different cells of one column that are remembered
Cell = str
Read = Callable[[Cell], Any]


class ColumnReader(dict[Cell, Any]):
    """The values of a column by cell; a cell that is met for the first time is read."""

    def __init__(self, header: str, read: Read) -> None:
        super().__init__()
        self.header = header
        self.refuses = False  # whether any cell so far is a Problem
        self._read = read

    def __missing__(self, cell: Cell) -> Any:
        try:
            value = self._read(as_it_was(cell))
        except InputError as error:
            value = problem_of(error, column=self.header, value=plain(cell))
        except ValidationError as error:
            value = Problem(self.header, plain(cell), *_in_words(error))
        if isinstance(value, Problem):
            self.refuses = True
        if len(self) >= MOST_KEPT:
            self.clear()
        self[cell] = value
        return value

    def read_all(self, cells: Sequence[Cell]) -> list[Any]:
        """The values of a column of cells."""
        return list(map(self.__getitem__, cells))


class TextReader(ColumnReader):
    """The texts of a column whose cells are nearly all different (codes, descriptions), read at one go.

    Where nothing in a batch needs a closer look, its cells are the values: none is empty, marked, a word for
    nothing, or too long. ``nothing`` are the words that stand for an empty cell.
    """

    def __init__(self, header: str, read: Read, *, longest: int, nothing: frozenset[str]) -> None:
        super().__init__(header, read)
        self._longest = longest
        self._nothing = nothing

    def read_all(self, cells: Sequence[Cell]) -> list[Any]:
        """The values of a column of cells."""
        joined = BETWEEN + BETWEEN.join(cells) + BETWEEN
        if (
            not any(start in joined for start in _LOOKED_AT)
            and max(map(len, cells)) <= self._longest
            and (not self._nothing or self._nothing.isdisjoint(map(str.lower, cells)))
        ):
            return list(cells)
        return super().read_all(cells)


# Beginnings of cells that are more than their text: a mark of a workbook, an apostrophe, nothing at all.
_LOOKED_AT = tuple(BETWEEN + start for start in (*MARKS, "'", BETWEEN))
_TEXTS = ("code", "description", "maker_code")


def column_reader(column: Column, mapping: Mapping) -> ColumnReader:
    """The reader of one mapped column."""
    field = fields()[column.field]
    read = _reader(field, column, mapping)
    ours = {_folded(word): own for word, own in mapping.words.get(field.name, {}).items()}
    if ours:
        inner = read

        def read(cell: Cell) -> Any:  # the supplier's own word, by what the person said it means
            own = ours.get(_folded(plain(cell)))
            return inner(cell if own is None else own)

    elif field.name in _TEXTS:
        longest = LONGEST_WORDS if field.name == "description" else LONGEST_CODE
        nothing = NOTHING if field.name == "maker_code" else frozenset()
        return TextReader(column.header, read, longest=longest, nothing=nothing)
    return ColumnReader(column.header, read)


def _reader(field: SheetField, column: Column, mapping: Mapping) -> Read:
    decimal, name, unit = mapping.decimal, field.name, column.unit
    adapter = field_adapters().get(name)
    currency = mapping.every.get("currency", "")
    signs = mapping.words.get("currency", {}) if name == "price" else {}
    told_elsewhere = "currency" in mapping.fields()

    def checked(value: Any) -> Any:
        return value if adapter is None or value is None else adapter.validate_python(value)

    def money(cell: Cell) -> Any:
        for sign, code in signs.items():  # what the person said that a sign stands for
            cell = cell.replace(sign, f" {code} ")
        price, own = read_money(cell, decimal=decimal, currency=currency, told_elsewhere=told_elsewhere)
        if price is None:  # what stands there in its stead is kept
            return None, None if is_nothing(cell) else plain(cell), ""
        if price == 0:
            raise InputError(
                field=name,
                given=plain(cell),
                problem="a price of nothing is no price",
                allowed="the price, or an empty cell where none is told",
            )
        return stored_price(checked(price)), plain(cell), own

    def count(cell: Cell) -> Any:
        return checked(read_count(cell, decimal=decimal, field=name))

    def days(cell: Cell) -> Any:
        return checked(read_days(cell, unit=unit or "days", decimal=decimal, field=name))

    def length(cell: Cell) -> str:
        return "" if is_nothing(cell) else length_text(cell, unit=unit, decimal=decimal, field=name)

    def tolerance(cell: Cell) -> str:
        return "" if is_nothing(cell) else tolerance_text(cell, unit=unit, decimal=decimal, field=name)

    def amount(cell: Cell) -> str:
        return "" if is_nothing(cell) else amount_text(cell, unit=unit, decimal=decimal, field=name)

    def number(cell: Cell) -> str:
        if is_nothing(cell):
            return ""
        return stored_price(read_number(cell, decimal=decimal, field=name))

    def kind(cell: Cell) -> str:
        return _kind(text(cell), name)

    def currency_code(cell: Cell) -> str | None:
        refuse_marked(cell, field=name)
        return None if is_nothing(cell) else _currency(plain(cell), name)

    def text(cell: Cell) -> Any:
        refuse_marked(cell, field=name)
        if is_nothing(cell) and name not in ("code", "description"):
            return None if name in ("maker", "maker_code", "currency") else ""
        return checked(plain(cell))

    of_offers = "code" in mapping.fields()  # what is told of a part alone may be of any length

    def as_kept(cell: Cell) -> Any:
        refuse_marked(cell, field=name)
        own = plain(cell) or (None if name in ("maker", "maker_code", "currency") else "")
        return checked(own) if of_offers else own

    if mapping.texts == "as_kept" and field.holds not in ("money", "count", "days", "kind", "currency"):
        return as_kept
    by_kind: dict[str, Read] = {
        "money": money,
        "count": count,
        "days": days,
        "length": length,
        "tolerance": tolerance,
        "kind": kind,
        "currency": currency_code,
        "number": number,
        "whole number": number,
        **dict.fromkeys(("stress", "viscosity", "density", "torque", "pressure", "roughness"), amount),
    }
    return by_kind.get(field.holds, text)


def _kind(text: str, field: str) -> str:
    plainly = text.lower().replace("-", "_").replace(" ", "_")
    if not text or plainly in PARTS or plainly == "leave_out":
        return plainly
    found = kind_word(text)
    if found is None:
        raise InputError(
            field=field,
            given=text,
            problem="no kind of part is known by this word",
            allowed=how_to_tell(text),
        )
    return found[0]


def _currency(word: str, field: str) -> str:
    """The code of a currency that stands in a column of its own: EUR, eur, €."""
    named = currency_named(word)
    if named:
        return named
    if named is None:
        raise InputError(
            field=field,
            given=word,
            problem="no currency has this code",
            allowed=f'ISO 4217, such as EUR; or tell once what it means: --word "currency: {word}=EUR"',
        )
    raise InputError(
        field=field,
        given=word,
        problem=f"{word} is the sign of several currencies",
        allowed=f'tell once which one: --word "currency: {word}={may_be(word)[0]}"',
    )


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())


_WORDS = {
    "greater_than": ("this is below what it may be", "more than {gt}"),
    "greater_than_equal": ("this is below what it may be", "{ge} or more"),
    "less_than_equal": ("this is more than it may be", "{le} or less; is the column the right one?"),
    "string_too_long": ("this text is too long", "at most {max_length} characters"),
    "string_too_short": ("nothing is given", "a text"),
    "string_pattern_mismatch": ("this is not the code of a currency", "ISO 4217, such as EUR"),
    "decimal_max_places": (
        "a price has no more than {decimal_places} decimals",
        "round it, or tell the price for a hundred pieces",
    ),
    "decimal_max_digits": ("this is more than a price may be", "is the column the right one?"),
    "decimal_whole_digits": ("this is more than a price may be", "is the column the right one?"),
}


def _in_words(error: ValidationError) -> tuple[str, str]:
    one = error.errors(include_url=False, include_input=False)[0]
    reason, mend = _WORDS.get(one["type"], (one["msg"], ""))
    told = one.get("ctx", {})
    return reason.format_map(told), mend.format_map(told)
