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
