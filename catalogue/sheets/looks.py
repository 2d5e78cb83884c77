"""What the cells of a column look like: money, sizes, materials, codes, words. It serves proposals only."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from catalogue.sheets.cells import plain
from catalogue.sheets.currencies import CODES, currency_named
from catalogue.sheets.piece_words import is_unit_word
from catalogue.sheets.sheet_fields import fields
from catalogue.sheets.unreadable import is_nothing
from schema.tables import rows

MOST_LOOKED_AT = 400
LONGEST = 80  # signs of a cell that are looked at
MOST = 0.8  # the share of cells by which a column is what it looks like
DIFFERENT = 0.98  # the share of different cells by which a column tells the rows apart
_MONEY = re.compile(r"([^\d\s.,]{0,4})\s*[\d][\d.,'’ \u00a0]*?([.,]\d{2}|[.,][-–])?\s*([^\d\s]{0,4})")
_NUMBER = re.compile(r"[<>≥]?\s*[\d.,'’ ]*\d\s*\+?")
_TOLERANCE = r"(?:\s*(?:±|\+/?-)\s*[\d.,]+)?"
_UNIT = r"(?:mm|cm|in\b\.?|inch|zoll|\"|″|'')"
_LENGTH = re.compile(rf"[Øø⌀]?\s*\d[\d.,/ ]*{_TOLERANCE}\s*{_UNIT}?{_TOLERANCE}", re.IGNORECASE)
_OWN_UNIT = re.compile(rf"\d\s*{_UNIT}", re.IGNORECASE)
_SIZE = re.compile(
    r"(?:as\s?568[a-z]?[\s-]*)?-?[0-4]\d{2}|\d+(?:[.,]\d+)?\s*[x×]\s*\d+(?:[.,]\d+)?(?:\s*mm)?", re.IGNORECASE
)
_CODE = re.compile(r"(?=.*\d)[\w][\w./-]{2,24}")


class Looks(NamedTuple):
    """Shares, from 0 to 1, of the cells with something in them; ``filled`` of them; up to three examples."""

    filled: int = 0
    examples: tuple[str, ...] = ()
    numbers: float = 0.0
    money: float = 0.0
    currency_signs: float = 0.0
    currency_codes: float = 0.0
    lengths: float = 0.0
    own_units: float = 0.0
    sizes: float = 0.0
    materials: float = 0.0
    kinds: float = 0.0
    codes: float = 0.0
    different: float = 0.0
    words: float = 0.0
    digits: float = 0.0
    unit_words: float = 0.0

    @property
    def names_kinds(self) -> bool:
        """Whether the cells name kinds of parts and little more: O-ring, and not O-ring 20x3 NBR."""
        return self.kinds >= MOST and self.words < MOST and self.digits <= 1 - MOST

    @property
    def field(self) -> tuple[str, str]:
        """The field that such cells most likely are, and why; "" where they say nothing."""
        if not self.filled:
            return "", ""
        for share, field, why in (
            (self.currency_codes, "currency", "values are codes of currencies"),
            (self.materials, "material", "values name elastomers or plastics"),
            (self.kinds if self.words < MOST else 0.0, "kind", "values name kinds of parts"),
            (self.currency_signs, "price", "values look like money"),
            (self.sizes, "size", "values look like size codes"),
            (self.words, "description", "values are words"),
        ):
            if share >= MOST:
                return field, why
        if self.codes >= MOST and self.different >= DIFFERENT and self.filled > 2 and self.numbers < MOST:
            return "code", "values are short codes, all different"
        return ("price", "values look like money") if self.money >= MOST else ("", "")


def looks_of(cells: Sequence[str]) -> Looks:
    """What a sample of a column looks like.

    >>> looks_of(["12,50 €", "8,00 €"]).field
    ('price', 'values look like money')
    """
    from schema.kind_words import kind_word
    from schema.trade_names import named_material

    given = [cell for cell in cells if not is_nothing(cell)][:MOST_LOOKED_AT]
    if not given:
        return Looks()
    texts = [plain(cell).strip()[:LONGEST] for cell in given]
    different = list(dict.fromkeys(texts))

    def share(test: Callable[[str], object]) -> float:
        known = {text: bool(test(text)) for text in different}
        return sum(known[text] for text in texts) / len(texts)

    return Looks(
        filled=len(texts),
        examples=tuple(_short(text) for text in different[:3]),
        numbers=share(_NUMBER.fullmatch),
        money=share(_is_money),
        currency_signs=share(_has_currency),
        currency_codes=share(lambda text: text.upper() in CODES),
        lengths=share(_LENGTH.fullmatch),
        own_units=share(_OWN_UNIT.search),
        sizes=share(_SIZE.fullmatch),
        materials=share(lambda text: len(text) < 40 and named_material(text).code),
        kinds=share(lambda text: len(text) < 40 and kind_word(text)),
        codes=share(_CODE.fullmatch),
        different=len(different) / len(texts),
        words=share(lambda text: len(text.split()) > 2 and sum(map(str.isalpha, text)) > 5),
        digits=share(lambda text: any(map(str.isdigit, text))),
        unit_words=share(is_unit_word),
    )


def likely_unit(cells: Sequence[str]) -> tuple[str, str]:
    """The unit that the numbers without one most likely have, and why: only ever a suggestion; "" for none.

    >>> likely_unit(["1,78", "2.62", "3.53"]), likely_unit([".070", ".103"])
    (('mm', 'sections of AS568 in mm'), ('in', 'sections of AS568 in inches'))
    """
    found: list[Decimal] = []
    fractions = others = 0
    for cell in cells:
        text = plain(cell).strip().lstrip("Øø⌀ ").replace(",", ".")
        if is_nothing(cell) or _OWN_UNIT.search(text):
            continue
        if re.fullmatch(r"(?:\d+[ -])?\d+/\d+", text):
            fractions += 1
        elif re.fullmatch(r"\d{1,4}(?:\.\d{1,4})?|\.\d{1,4}", text):
            found.append(Decimal(text))
        else:
            others += 1
    if fractions and fractions >= len(found):
        return "in", "fractions"
    if not found:
        return "", ""
    for unit, sections in _sections().items():
        if sum(one in sections for one in found) >= MOST * len(found):
            return unit, f"sections of AS568 in {'inches' if unit == 'in' else 'mm'}"
    if max(found) < 1 and not others:
        return "in", "all are below 1"
    middle = sorted(found)[len(found) // 2]
    return ("mm", f"the middle value is {middle}") if middle >= 5 else ("", "")


@cache
def _sections() -> dict[str, set[Decimal]]:
    """The sections d2 of AS568 in mm, as lists round them, and in inches."""
    inches = {Decimal(row["cross_section_in"]) for row in rows("as568")}
    return {"mm": {(one * Decimal("25.4")).quantize(Decimal("0.01")) for one in inches}, "in": inches}


def bears(looks: Looks, field: str) -> bool:
    """Whether the values can be what a header says; an empty column can be anything."""
    if not looks.filled:
        return True
    holds = fields()[field].holds
    if holds == "money":
        return max(looks.money, looks.numbers) >= 0.5
    if holds == "length":
        return max(looks.lengths, looks.numbers) >= 0.5
    if holds == "currency":
        return looks.currency_codes >= 0.5
    if holds == "kind":
        return looks.kinds >= 0.3
    return True


def _is_money(text: str) -> bool:
    found = _MONEY.fullmatch(text)
    if found is None:
        return False
    signs = [sign for sign in (found[1], found[3]) if sign]
    return (bool(found[2]) or bool(signs)) and all(currency_named(sign) is not None for sign in signs)


def _has_currency(text: str) -> bool:
    found = _MONEY.fullmatch(text)
    return found is not None and any(
        sign and currency_named(sign) is not None for sign in (found[1], found[3])
    )


def _short(text: str) -> str:
    return text if len(text) <= 30 else f"{text[:29]}…"
