"""An article and its price in the words of the trade: ``O-ring 1 3/8" x 1/8" NBR 70``, ``12.50 EUR for 100``.

The texts of an article are those of ``catalogue.texts``: what a load shows of a new row and what the
catalogue says of a part are told alike.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from schema.kinds import PARTS, model_of

# Sizes that are told in a row, without their names. Common practice, no source.
_IN_A_ROW = (
    ("inside_diameter", "cross_section"),
    ("made_for_shaft", "made_for_bore", "width"),
    ("inside_diameter", "outside_diameter", "length"),
    ("inside_diameter", "outside_diameter", "width"),
    ("thread", "length"),
)
_NO_SIZE = (
    "part_number",
    "kind",
    "description",
    "maker",
    "size",
    "material",
    "hardness_shore_a",
    "superseded_by",
    "notes",
)
_NUMBERS = re.compile(r"\d+(?:[.,]\d+)?")
_INCHES = re.compile(r"[\"″]|\bin(?:ch)?\b")


def kind_words(kind: str) -> str:
    """A kind of part as it is spoken of.

    >>> kind_words("o_ring"), kind_words("eyelet_hardware")
    ('O-ring', 'eyelet hardware')
    """
    plain = kind.replace("_", " ")
    return str(getattr(model_of(kind), "words_for", plain)) if kind in PARTS else plain


def article_words(kind: str, texts: Mapping[str, str]) -> str:
    """What an article is: kind, size code or sizes as they are kept, material, hardness, anything else.

    >>> article_words("o_ring", {"inside_diameter": '1 3/8"', "cross_section": '1/8"', "material": "NBR"})
    'O-ring 1 3/8" x 1/8" NBR'
    """
    others = {name: text for name, text in texts.items() if name not in _NO_SIZE}
    found = [kind_words(kind)]
    if texts.get("size"):
        found.append(texts["size"])
    row = next((names for names in _IN_A_ROW if all(name in others for name in names)), ())
    if row:
        found.append(" x ".join(others.pop(name) for name in row))
    found += [texts[name] for name in ("material", "hardness_shore_a") if texts.get(name)]
    named = [f"{name.replace('_', ' ')} {text}" for name, text in others.items()]
    return ", ".join([" ".join(found), *named])


def described(description: str, kind: str, texts: Mapping[str, str], *, longest: int = 60) -> str:
    """A description, cut where it is long, with what was read behind it where it does not say so itself.

    >>> described("O-Ring 10x2 NBR 70", "o_ring", {"inside_diameter": "10 mm", "cross_section": "2 mm"})
    'O-Ring 10x2 NBR 70'
    >>> described("O-Ring 10x2", "o_ring", {"inside_diameter": "10 in", "cross_section": "2 in"})
    'O-Ring 10x2 (read as O-ring 10 in x 2 in)'
    """
    words = cut(description, longest)
    read = article_words(kind, texts)
    if not words:
        return read
    return words if _says(words, kind, texts) else f"{words} (read as {read})"


def _says(words: str, kind: str, texts: Mapping[str, str]) -> bool:
    """Whether a description shows kind, sizes with their unit, material and hardness as they were read."""
    plain = words.casefold()
    numbers = _numbers(plain)
    return (
        _letters(kind_words(kind)) in _letters(plain)
        and _has_word(plain, texts.get("material", "").casefold())
        and all(number in numbers for text in _sizes(texts) for number in _numbers(text))
        and all(_has_unit(plain, text) for text in _sizes(texts))
    )


def _sizes(texts: Mapping[str, str]) -> Iterator[str]:
    for name, text in texts.items():
        if name == "size":
            yield text.rpartition("-")[2]  # 214 says AS568-214
        elif name not in _NO_SIZE or name == "hardness_shore_a":
            yield text


def _numbers(text: str) -> list[str]:
    return [one.replace(",", ".") for one in _NUMBERS.findall(text)]


def _has_word(plain: str, word: str) -> bool:
    return re.search(rf"(?<![^\W\d_]){re.escape(word)}(?![^\W\d_])", plain) is not None


def _has_unit(plain: str, text: str) -> bool:
    """Whether a description shows the unit of a size: a bare number is mm (common practice, no source)."""
    if text.endswith("mm"):
        return not _INCHES.search(plain)
    return not _INCHES.search(text) or bool(_INCHES.search(plain))


def _letters(text: str) -> str:
    return "".join(filter(str.isalnum, text.casefold()))


def price_words(price: str | None, currency: str | None, price_per: int | None) -> str:
    """A price as people say it; "" where there is none.

    >>> price_words("1.85", "EUR", 1), price_words("12.5", "EUR", 100), price_words(None, None, None)
    ('1.85 EUR', '12.50 EUR for 100', '')
    """
    if price is None:
        return ""
    whole, _, cents = price.partition(".")
    per = f" for {price_per}" if price_per not in (None, 1) else ""
    return f"{whole}.{cents.ljust(2, '0')} {currency}{per}"


def counted(count: int, one: str, several: str = "") -> str:
    """A number of things.

    >>> counted(1, "row"), counted(3, "row")
    ('1 row', '3 rows')
    """
    return f"{count} {one if count == 1 else several or f'{one}s'}"


def cut(text: str, longest: int) -> str:
    """A text on one line, cut where it is long."""
    plain = " ".join(text.split())
    return plain if len(plain) <= longest else f"{plain[: longest - 3]}..."
