"""Reads numbers, pieces, prices and days from cells, with the decimal sign that the sheet is declared by.

A sign that speaks against the declared one is refused and never guessed away. A number of a workbook has a
decimal point whatever the sheet is declared to have. Every reader raises InputError naming its field.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal, InvalidOperation

from catalogue.sheets.answers import option
from catalogue.sheets.cell_words import (
    ABOUT,
    AT_LEAST,
    AT_ONCE,
    IN_STOCK,
    ON_REQUEST,
    PIECES,
    SOLD_OUT,
    TIMES,
    TO,
)
from catalogue.sheets.cells import NUMBER, mark_of, plain
from catalogue.sheets.currencies import currency_named, may_be
from catalogue.sheets.lengths import amount_text, length_text
from catalogue.sheets.piece_words import pieces_named, without_per
from catalogue.sheets.unreadable import is_nothing, refuse_date, refuse_marked
from schema.errors import InputError

LARGEST = Decimal(1_000_000_000)  # beyond any price, stock or size of a damper's parts
MOST_DECIMALS = 4  # of a price
LONGEST_LEAD_TIME = 1100  # days, about three years
LONGEST_TEXT = 80  # signs of a cell; a longer one is no number
_EXACT = ("price_per", "pack_size")
_SPACES = "[ \u00a0\u2009\u202f]"
_DASH = re.compile(r"[.,](?:--?|–|—)$")  # 12,- and 12.– are whole amounts
_FACTOR = {
    "days": Decimal(1),
    "working days": Decimal(7) / 5,  # five of them in a week
    "weeks": Decimal(7),
    "months": Decimal(30),  # common practice, no source
}


def read_number(cell: str, *, decimal: str, field: str) -> Decimal:
    """A plain number. ``decimal`` is the declared sign; the other one may only part thousands.

    >>> read_number("1.234,5", decimal=",", field="price")
    Decimal('1234.5')
    """
    refuse_marked(cell, field=field)
    text = plain(cell).strip().replace("−", "-")
    if field == "hardness_shore_a" and mark_of(cell) != NUMBER:
        text = _nominal_hardness(text)
    found = _decimal(text, "." if mark_of(cell) == NUMBER else decimal, as_kept=mark_of(cell) == NUMBER)
    if found is None:
        raise _no_number(text, decimal, field)
    if abs(found) > LARGEST:
        raise InputError(field=field, given=text, problem="this is beyond any number of a damper's parts")
    return found


def read_count(cell: str, *, decimal: str, field: str) -> int | None:
    """A whole number of pieces; None where the cell tells none.

    ``>500`` and ``500+`` are at least 500, and are taken as 500; a price is for so many pieces, and a pack
    has so many, and not at least so many. In a column of stock, ``in stock`` tells no
    number (None) and ``sold out`` is 0. A price is for the pieces that a word tells: C is a hundred.
    """
    refuse_marked(cell, field=field)
    text = plain(cell).strip().replace("−", "-")
    word = " ".join(text.lower().split()).rstrip(".!")
    if field == "stock" and word in SOLD_OUT:
        return 0
    if is_nothing(cell) or (field == "stock" and word in IN_STOCK):
        return None
    if mark_of(cell) == NUMBER:
        found = _decimal(text, ".", as_kept=True)
    else:
        if field == "price_per" and (pieces := pieces_named(text)) is not None:
            return pieces
        bare = re.sub(rf"(?<=[\d\s+]){PIECES}$", "", text, flags=re.IGNORECASE).strip()
        if field not in _EXACT:
            bare = re.sub(rf"^{AT_LEAST}\s*", "", bare, flags=re.IGNORECASE)
            bare = bare.removesuffix("+").strip()
        elif field == "price_per":
            bare = without_per(bare)
        if re.fullmatch(rf"\d+\{decimal}0{{3}}", bare):
            raise InputError(
                field=field,
                given=text,
                problem=f"this may be {bare.partition(decimal)[0]}, or as many thousands",
                allowed="a whole number without a sign in it",
                example=bare.replace(decimal, ""),
            )
        found = _decimal(bare, decimal)
    if found is None or found != found.to_integral_value() or not 0 <= found <= LARGEST:
        mend = {
            "stock": "digits, >500 for at least so many, or an empty cell",
        }.get(field, "a whole number in digits, or an empty cell")
        problem = "this is no number of pieces"
        if field == "price_per" and found is None and not any(map(str.isdigit, text)):
            word = option("--word", f"price_per: {text}=1")
            raise InputError(
                field=field,
                given=text,
                problem="this word tells no number of pieces",
                allowed=f"say how many it is: {word}",
            )
        if found is not None and found != found.to_integral_value():
            problem = "pieces are counted in whole numbers"
        raise InputError(field=field, given=text, problem=problem, allowed=mend, example="250")
    return int(found)


def read_money(
    cell: str, *, decimal: str, currency: str = "", field: str = "price", told_elsewhere: bool = False
) -> tuple[Decimal | None, str]:
    """A price and its currency; the price is None where the cell tells none (empty, on request).

    ``currency`` is what the sheet says of every row, "" where it says nothing; the one that comes back is
    that of the cell, or else this one, "" where neither tells it. ``$``, ``kr`` and ``¥`` name no currency by
    themselves: without a told one they are refused, unless a column tells it (``told_elsewhere``).

    >>> read_money("1'234.50 CHF", decimal=".")
    (Decimal('1234.50'), 'CHF')
    """
    refuse_marked(cell, field=field)
    text = plain(cell).strip().replace("−", "-")
    if is_nothing(cell) or " ".join(text.lower().split()).rstrip("!*") in ON_REQUEST:
        return None, currency
    found: Decimal | None = None
    own = ""
    if mark_of(cell) == NUMBER:
        found = _decimal(text, ".", as_kept=True)
    elif len(text) <= LONGEST_TEXT:
        bare, own = _without_currency(text, currency, field, told_elsewhere)
        found = _decimal(_DASH.sub("", bare), decimal)
    if found is None:
        raise _no_number(text, decimal, field, what="a price")
    if found < 0:
        raise InputError(field=field, given=text, problem="a price is not negative", example="0.85")
    if found > LARGEST:
        raise InputError(field=field, given=text, problem="this is beyond any price of a damper's part")
    exponent = found.normalize().as_tuple().exponent
    if isinstance(exponent, int) and -exponent > MOST_DECIMALS:
        raise InputError(
            field=field,
            given=text,
            problem=f"a price has no more than {MOST_DECIMALS} decimals",
            allowed="round it in the sheet, or give the price for 100 pieces",
        )
    return found, own or currency


def read_days(cell: str, *, decimal: str, unit: str = "days", field: str = "lead_time_days") -> int | None:
    """Days until a supplier sends; of ``5-7 days`` the longer; None where the cell tells none.

    ``unit`` is that of a number alone, days where the column has none. A week has 7 days, a month 30, five
    working days are 7 days; parts of a day count as a day.

    >>> read_days("2-3 weeks", decimal="."), read_days("4", decimal=".", unit="weeks")
    (21, 28)
    """
    refuse_marked(cell, field=field)
    text = plain(cell).strip().replace("−", "-")
    word = " ".join(text.lower().split()).rstrip("!")
    if is_nothing(cell) or word in ON_REQUEST:
        return None
    if word in AT_ONCE:
        return 0
    bare = re.sub(rf"^{ABOUT}\s*", "", word)
    match = re.fullmatch(rf"(?:(\d[\d.,]*)\s*{TO}\s*)?(\d[\d.,]*)\s*([^\W\d][^\d]*)?", bare)
    spelt = ((match and match[3]) or "").strip().rstrip(".")
    known = next((one for one, words in TIMES.items() if re.fullmatch(words, spelt)), "")
    sign = "." if mark_of(cell) == NUMBER else decimal
    ends = [_decimal(one, sign) for one in (match[1], match[2]) if one] if match else []
    numbers = [one for one in ends if one is not None]
    if match is None or (spelt and not known) or len(numbers) != len(ends):
        raise InputError(
            field=field,
            given=text,
            problem="this is no time that can be read",
            allowed="a number of days or weeks, or a range of them",
            example="3 weeks, 5-7 days",
        )
    found = math.ceil(max(numbers) * _FACTOR[known or unit or "days"])
    if found > LONGEST_LEAD_TIME:
        raise InputError(
            field=field,
            given=text,
            problem=f"{found} days is absurd here; is the unit right?",
            allowed=f"up to {LONGEST_LEAD_TIME} days",
        )
    return found


# -- the pieces ----------------------------------------------------------------------------------------


def _decimal(text: str, decimal: str, *, as_kept: bool = False) -> Decimal | None:
    """The number of a text; None where it is none, or is written against the declared decimal sign."""
    if len(text) > 40:
        return None
    if as_kept:  # the reader of workbooks wrote it
        try:
            found = Decimal(text)
        except InvalidOperation:
            return None
        return found if found.is_finite() else None
    other = "," if decimal == "." else "."
    groups = "|".join(rf"\d{{1,3}}(?:{gap}\d{{3}})+" for gap in (rf"\{other}", "['’]", _SPACES))
    if re.fullmatch(rf"[+-]?(?:(?:{groups}|\d+)(?:\{decimal}\d+)?|\{decimal}\d+)", text, re.ASCII) is None:
        return None
    return Decimal(re.sub(rf"['’]|{_SPACES}|\{other}", "", text).replace(decimal, "."))


def _no_number(text: str, decimal: str, field: str, *, what: str = "a number") -> InputError:
    other = "," if decimal == "." else "."
    if _decimal(re.sub(r"[^\d.,'-]", "", text), other) is not None and other in text:
        named = {".": "point", ",": "comma"}
        return InputError(
            field=field,
            given=text,
            problem=f"this is not written with the decimal {named[decimal]} that the sheet is declared by",
            allowed=f"correct the cell, or declare the decimal {named[other]} for the whole sheet",
        )
    return InputError(field=field, given=text, problem=f"this is not {what}", example=f"1234{decimal}50")


def _without_currency(text: str, currency: str, field: str, told_elsewhere: bool) -> tuple[str, str]:
    """The number of a price and the currency that stands with it, checked against the told one."""
    match = re.fullmatch(r"([^\d.,'’+−-]*)([+−-]?[\d.,].*?)([^\d.,'’–—-]*)", text)
    if match is None:
        return text, ""
    before, number, after = (one.strip() for one in match.groups())
    signs = [one for one in (before, after) if one]
    if not signs:
        return number, ""
    named = {currency_named(one) for one in signs}
    if None in named:
        return text, ""
    codes = named - {""}
    possible = {code for one in signs for code in may_be(one)}
    if len(codes) > 1 or (codes and possible and not codes <= possible):
        raise InputError(field=field, given=text, problem="two currencies stand in one price")
    own = next(iter(codes), "") or ""
    if own and currency and own != currency:
        raise InputError(
            field=field,
            given=text,
            problem=f"this price is in {own}, the sheet says {currency} for every row",
            allowed="correct the cell, or take the currency from the cells",
        )
    if not own and currency and currency not in possible:
        raise InputError(
            field=field,
            given=text,
            problem=f"{signs[0]} does not stand for {currency}",
            allowed=f"correct the cell, or leave out --every currency={currency}",
        )
    if not own and not currency and not told_elsewhere:
        first = next(one for one in signs if may_be(one))
        raise InputError(
            field=field,
            given=text,
            problem=f"{first} is the sign of several currencies",
            allowed=f"tell which one for every row: {', '.join(may_be(first))}",
        )
    return number, own


def _nominal_hardness(text: str) -> str:
    """The number of ``70 ShA``, ``70 ±5 Shore A`` or ``A70``; IRHD is another scale and stays as it is."""
    bare = re.sub(r"\s*°?\s*(?:sh(?:ore)?\.?[\s-]*a?|a)?\s*$", "", text, flags=re.IGNORECASE)
    bare = re.sub(r"^(?:sh(?:ore)?\.?\s*a?|a)\s*(?=\d)", "", bare, flags=re.IGNORECASE)
    return re.sub(r"\s*(?:±|\+/?-)\s*\d+$", "", bare).strip()


__all__ = [
    "amount_text",
    "is_nothing",
    "length_text",
    "read_count",
    "read_days",
    "read_money",
    "read_number",
    "refuse_date",
    "refuse_marked",
]
