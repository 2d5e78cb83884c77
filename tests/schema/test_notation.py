"""The marks of a drawing: how a text is split, and how a number is read."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.errors import DimensionError
from schema.notation import Token, normalised, number, tokens


def kinds(text: str) -> list[str]:
    return [token.kind for token in tokens(text, field="")]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12.70 mm", ["number", "word"]),
        ("ø 12,70", ["diameter", "number"]),
        ("1 3/8 in", ["number", "word"]),
        ('63/64"', ["number", "word"]),
        ("12.7 +0.05/-0.02", ["number", "sign", "number", "mark", "sign", "number"]),
        ("12.7 ±0.05", ["number", "plusminus", "number"]),
        ("12.7 +/-0.05", ["number", "plusminus", "number"]),
        ("12.68..12.70", ["number", "range", "number"]),
        ("12.68 to 12.70", ["number", "range", "number"]),
        ("20 H7", ["number", "zone"]),
        ("12.7; 12.8 ±U0.02", ["number", "mark", "number", "plusminus", "uncertainty", "number"]),
        ("12.7 by calliper", ["number", "by", "word"]),
    ],
)
def test_a_text_is_split_into_its_marks(text: str, expected: list[str]) -> None:
    """Each mark of a drawing becomes one token of its kind."""
    assert kinds(text) == expected


def test_a_token_knows_where_it_stands() -> None:
    """The place of a token counts from the first character of the text."""
    assert [(token.text, token.start) for token in tokens("12.7 ±0.05 mm", field="")] == [
        ("12.7", 0),
        ("±", 5),
        ("0.05", 6),
        ("mm", 11),
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12\u00a0mm", "12 mm"),
        ("12\u2009mm", "12 mm"),
        ("−5", "-5"),
        ("–5", "-5"),
        ("½″", '1/2"'),
        ("1½", "1 1/2"),
        ("1⅜", "1 3/8"),
        ("3⁄8", "3/8"),
        ("16 µin", "16 uin"),
        ("Ø5", "ø5"),
        ("2''", '2"'),
        ("1…2", "1..2"),
    ],
)
def test_signs_have_one_spelling(text: str, expected: str) -> None:
    """Typographic spellings of a sign become one."""
    assert normalised(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12.70", "12.70"),
        ("12,70", "12.70"),
        (".5", "0.5"),
        (",5", "0.5"),
        ("1/64", "0.015625"),
        ("127/128", "0.9921875"),
        ("1 3/8", "1.375"),
        ("1-3/8", "1.375"),
        ("0.00001", "0.00001"),
    ],
)
def test_a_number_is_exact(text: str, expected: str) -> None:
    """Decimals and fractions become the exact decimal."""
    assert number(Token("number", text, 0), field="", given="") == Decimal(expected)


@pytest.mark.parametrize("text", ["3/2", "8/8", "1 3/2"])
def test_an_improper_fraction_is_refused(text: str) -> None:
    """A fraction of one or more is a slip of the pen."""
    with pytest.raises(DimensionError, match="is not smaller than one"):
        number(Token("number", text, 0), field="size", given=text)


@pytest.mark.parametrize("text", ["1,234.5", "1.234.567", "1,2,3"])
def test_two_decimal_signs_are_refused(text: str) -> None:
    """Thousands separators are refused, not guessed."""
    with pytest.raises(DimensionError, match="more than one decimal sign"):
        number(Token("number", text, 0), field="size", given=text)


@pytest.mark.parametrize(
    "text", ["12.7 😀", "12.7 \x07", "12.7 %", "12.7 $", "12.7 \u202e", "12.7_mm", "`12`"]
)
def test_what_is_no_mark_is_refused_with_its_place(text: str) -> None:
    """A character that stands on no drawing is refused with its place in the text."""
    with pytest.raises(DimensionError, match=r"cannot read .*\(character \d+\)"):
        tokens(text, field="size")


def test_a_text_longer_than_any_dimension_is_refused_unread() -> None:
    """Half a million digits are refused by their length, which the refusal tells without repeating them."""
    with pytest.raises(DimensionError, match="the text is 500000 characters long") as caught:
        tokens("1" * 500_000, field="")
    assert len(str(caught.value)) < 500


def test_a_long_dimension_is_still_read() -> None:
    """Sixteen readings in one text are read."""
    assert kinds("; ".join(["12.672"] * 14)).count("number") == 14
