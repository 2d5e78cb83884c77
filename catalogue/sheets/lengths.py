"""The text of a length or another amount of a part, made of a cell and the unit of its column.

The text stays in the notation in which it was written (``schema.dimension`` reads it); a cell that has its
own unit keeps it, any other gets that of its column. A unit is never guessed.
"""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation

from catalogue.sheets.cells import NUMBER, mark_of, plain
from catalogue.sheets.decimal_signs import shown_by
from catalogue.sheets.unreadable import refuse_marked
from schema.dimension import parse_dimension
from schema.errors import InputError
from schema.notation import normalised, tokens
from schema.units import LENGTH_SPELLINGS

_INCH_WORDS = re.compile(r"\b(?:zoll|pouces?|pulgadas?|pulg|pollici|pollice|duim)\b\.?", re.IGNORECASE)
_MM_DOT = re.compile(r"\bmm\.(?!\.)", re.IGNORECASE)
_UNIT_AT_END = re.compile(
    r"\s*(?:" + "|".join(sorted(map(re.escape, LENGTH_SPELLINGS), key=len, reverse=True)) + r")$", re.I
)
_SIGNED = re.compile(r"\d[\d.,]*|[.,]\d+")
_NAMED = {".": "point", ",": "comma"}


def length_text(cell: str, *, unit: str = "", decimal: str = ".", field: str = "length") -> str:
    """A length in drawing notation with its unit; ``parse_dimension`` reads what comes back.

    ``unit`` is that of the column, for cells without one. Raises InputError naming ``field``: no unit
    anywhere, thousands, a sign against the declared decimal sign, a date, or no length at all.

    >>> length_text("12,7", unit="mm", decimal=","), length_text('1/2"'), length_text("Ø 12.7 mm")
    ('12,7 mm', '1/2"', 'Ø 12.7 mm')
    """
    refuse_marked(cell, field=field)
    text = " ".join(plain(cell).split())
    if mark_of(cell) == NUMBER:
        text = _workbook_number(text, field)
    else:
        text = _MM_DOT.sub("mm", _INCH_WORDS.sub("in", text))
        _refuse_other_sign(text, decimal, field)
    marks = tokens(text, field=field)
    own = any(mark.kind == "word" and mark.text.lower() in LENGTH_SPELLINGS for mark in marks)
    if unit and not own:
        if unit != "in" and any(mark.kind == "number" and "/" in mark.text for mark in marks):
            raise InputError(
                field=field,
                given=text,
                problem=f"a fraction stands in a column of {unit}",
                allowed="the unit in the cell",
                example=f'{normalised(text)}"',
            )
        text = f"{text} {unit}"
    try:
        parse_dimension(text, field=field, allow_zero=True)
    except InputError as error:
        if error.problem == "the unit is missing":
            raise InputError(
                field=field,
                given=text,
                problem="the unit is missing: neither the cell nor the column tells it",
                allowed="mm or in for the whole column",
                example=f"{text} mm",
            ) from None
        raise
    return text


def tolerance_text(cell: str, *, unit: str = "", decimal: str = ".", field: str = "tolerance") -> str:
    """The tolerance of a length with its unit, as a drawing writes it behind the size.

    A number alone is meant to both sides. ``unit`` is that of the column. Raises InputError naming ``field``.

    >>> tolerance_text("0,25", unit="mm", decimal=","), tolerance_text('+0.005/-0.002"'), tolerance_text("H7")
    ('±0,25 mm', '+0.005/-0.002"', 'H7')
    """
    refuse_marked(cell, field=field)
    text = " ".join(plain(cell).split())
    if mark_of(cell) == NUMBER:
        text = _workbook_number(text, field)
    else:
        _refuse_other_sign(text, decimal, field)
    if re.match(r"[\d.,]", text):
        text = f"±{text}"
    zone = re.fullmatch(r"[A-Za-z]{1,2}\d{1,2}", text) is not None
    whole = length_text(f"100 {text}", unit="" if zone else unit, decimal=decimal, field=field)
    return whole.removeprefix("100 ")


def with_tolerance(size: str, tolerance: str, *, field: str) -> str:
    """A length and the tolerance that stood in a column of its own, as one text of a drawing.

    >>> with_tolerance("24.99 mm", "±0.25 mm", field="inside_diameter")
    '24.99 ±0.25 mm'
    """
    found = parse_dimension(size, field=field)
    if found.toleranced:
        raise InputError(
            field=field,
            given=f"{size}; {tolerance}",
            problem="the size has a tolerance of its own, beside the one in its column",
            allowed="one of the two",
        )
    units = [_UNIT_AT_END.search(text) for text in (size, tolerance)]
    said = [LENGTH_SPELLINGS[unit[0].strip().lower()] if unit else "" for unit in units]
    if said[0] != said[1] and said[1]:
        raise InputError(
            field=field,
            given=f"{size}; {tolerance}",
            problem="size and tolerance are in different units",
            allowed="both in the same unit",
        )
    number = _UNIT_AT_END.sub("", size).strip()
    return f"{number} {tolerance}" if said[1] else f"{number} {tolerance} {said[0]}"


def amount_text(cell: str, *, unit: str = "", decimal: str = ".", field: str = "amount") -> str:
    """Another amount of a part (a torque, a pressure, a viscosity) with its unit, for its field to read."""
    refuse_marked(cell, field=field)
    text = " ".join(plain(cell).split())
    if mark_of(cell) == NUMBER:
        text = _workbook_number(text, field)
    else:
        _refuse_other_sign(text, decimal, field)
    return f"{text} {unit}" if unit and text[-1:].isdigit() else text


def _workbook_number(text: str, field: str) -> str:
    """A workbook's number in plain digits: 1E-1 is 0.1."""
    try:
        found = Decimal(text)
    except InvalidOperation:
        found = Decimal("NaN")
    if not found.is_finite() or abs(found) > 1_000_000:
        raise InputError(field=field, given=text, problem="this is no length")
    return f"{found:f}"


def _refuse_other_sign(text: str, decimal: str, field: str) -> None:
    """Refuse a number that is written against the declared sign, or that may be one of thousands."""
    other = "," if decimal == "." else "."
    for number in _SIGNED.findall(text.replace("…", " ").replace("..", " ")):
        bare = number.rstrip(".,")
        if other not in bare:
            continue
        named = _NAMED[decimal]
        if shown_by(bare) == "?":
            problem = (
                f"{bare} is unclear where the decimal sign is a {named}: a thousand and more, or a length"
            )
        else:
            problem = f"{bare} is not written with the decimal {named} that the sheet is declared by"
        raise InputError(
            field=field,
            given=text,
            problem=problem,
            allowed=f"correct the cell, or declare the decimal {_NAMED[other]} for the whole sheet",
        )
