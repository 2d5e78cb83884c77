"""The marks of a drawing: turn a text into tokens, exactly, over a closed list of units.

The reader of lengths (``schema.dimension``) and of pressures and temperatures (``schema.service``)
both start here. Numbers become exact decimals. A decimal comma is a decimal sign, always; thousands
separators are not used on drawings, so a number with both signs is refused, not guessed.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from schema.errors import DimensionError

_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_SAME_SIGN = str.maketrans(
    {
        "\u00a0": " ",
        "\u2009": " ",
        "\u202f": " ",
        "\t": " ",
        "−": "-",
        "–": "-",
        "—": "-",
        "″": '"',
        "”": '"',
        "“": '"',
        "µ": "u",
        "μ": "u",
        "Ø": "ø",
        "⌀": "ø",
        "∅": "ø",
        "…": "..",
        "⁄": "/",
    }
)

_DENOMINATOR = r"(?:128|64|32|16|8|4|2)(?![\d.,])"
_SCANNER = re.compile(
    rf"""
      (?P<space>\s+)
    | (?P<diameter>ø|dia\b\.?)
    | (?P<number>\d+[ -]\d+/{_DENOMINATOR} | \d+/{_DENOMINATOR} | \d+(?:[.,](?!\.)\d+)* | [.,]\d+)
    | (?P<range>\.\.\.?|to\b)
    | (?P<plusminus>±|\+/-|\+-)
    | (?P<uncertainty>U(?=\s*=?\s*[\d.,]))
    | (?P<zone>[A-Za-z]{{1,2}}\d{{1,2}}\b)
    | (?P<by>by\b|with\b)
    | (?P<word>[^\W\d_]+(?:\.(?!\.))?|"|''|°\s?[A-Za-z])
    | (?P<sign>[+-])
    | (?P<mark>[/;=])
    """,
    re.VERBOSE,
)

LONGEST_TEXT = 120  # no dimension on a drawing is longer

EXAMPLES = '24.99 ±0.25 mm, 20 H7 mm, 12.70 +0/-0.02 mm, 1 3/8 in, 63/64", 12.68..12.70 mm, 12.69 ±U0.02 mm'


class Token(NamedTuple):
    """One mark: its kind (a group of the scanner), its text and where it stands in the text."""

    kind: str
    text: str
    start: int


def normalised(text: str) -> str:
    """One spelling for each sign: spaces, minus, inch mark, micro, diameter, printed fractions."""
    for sign, fraction in _VULGAR.items():
        text = text.replace(sign, f" {fraction}")
    return text.translate(_SAME_SIGN).replace("''", '"').strip()


def tokens(text: str, *, field: str) -> list[Token]:
    """Split a text into tokens; what is not a mark of a drawing is refused, with its place."""
    if len(text) > LONGEST_TEXT:
        raise DimensionError(
            field=field,
            given=text,
            problem=f"the text is {len(text)} characters long",
            allowed=f"up to {LONGEST_TEXT} characters",
            example=EXAMPLES,
        )
    plain = normalised(text)
    found: list[Token] = []
    position = 0
    while position < len(plain):
        match = _SCANNER.match(plain, position)
        if match is None or match.lastgroup is None:
            raise DimensionError(
                field=field,
                given=text,
                problem=f"cannot read {plain[position:]!r} (character {position + 1})",
                allowed="numbers, one unit, a tolerance; several readings with ; between them",
                example=EXAMPLES,
            )
        if match.lastgroup != "space":
            found.append(Token(match.lastgroup, match.group(), position))
        position = match.end()
    return found


def number(token: Token, *, field: str, given: str) -> Decimal:
    """The exact value of a number token: decimal point or comma, fraction, mixed fraction.

    >>> number(Token("number", "1 3/8", 0), field="", given="")
    Decimal('1.375')
    >>> number(Token("number", "12,68", 0), field="", given="")
    Decimal('12.68')
    """
    text = token.text
    if "/" in text:
        whole, _, fraction = text.replace("-", " ").rpartition(" ")
        numerator, denominator = fraction.split("/")
        if int(numerator) >= int(denominator):
            raise DimensionError(
                field=field,
                given=given,
                problem=f"the fraction {fraction} is not smaller than one",
                example="1 3/8 in",
            )
        return Decimal(whole or 0) + Decimal(numerator) / Decimal(denominator)
    if len(re.findall(r"[.,]", text)) > 1:
        raise DimensionError(
            field=field,
            given=given,
            problem=f"{text!r} has more than one decimal sign; thousands separators are not read",
            example="1250.5 mm",
        )
    return Decimal(text.replace(",", "."))
