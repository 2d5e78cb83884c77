"""What the header of a column says: which fields it may be, the unit, the currency, pieces per price.

Words are looked up in ``header_words.csv`` after folding: case, accents, dots, brackets and hyphens do not
count, ``No.``, ``Nr.`` and ``N°`` are one word. Only a single letter keeps its case (d and D are two things).
A near match is never more than a suggestion.
"""

from __future__ import annotations

import csv
import re
import unicodedata
from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple

from catalogue.sheets.header_notes import header_notes
from catalogue.sheets.sheet_fields import TOLERANCE, fields, unit_named
from schema.errors import InputError

WORDS = Path(__file__).with_name("header_words.csv")
NEAR = 85.0  # of 100, by which two words are near; below, Colour would be many things
SHORTEST_NEAR = 6  # letters; short words are near to everything
MOST_WORDS = 8  # of a header that is taken apart


class HeaderReading(NamedTuple):
    """``options`` are the fields that it may be, best first; ``sure`` only where there is one.

    ``unit`` as ``unit_named`` takes it, ``currency`` a code or an ambiguous sign, ``per`` the pieces that a
    price is for, ``why`` in words.
    """

    options: tuple[str, ...] = ()
    sure: bool = False
    unit: str = ""
    currency: str = ""
    per: str = ""
    why: str = ""


class _Word(NamedTuple):
    field: str
    kinds: tuple[str, ...]
    sure: bool


# The tolerance of a size in a column of its own: Tol. ID, Toleranz d1, d2 ±. Common practice, no source.
_TOLERANCE_WORD = re.compile(
    r"\b(?:tol|toleranz|tol[ée]rance|tolerancia|tolleranza|tolerantie)\b\.?|(?:±|\+/-)(?!\s*[\d.,])",
    re.IGNORECASE,
)


def read_header(text: str, *, kind: str = "") -> HeaderReading:
    """Read one header; ``kind`` settles words that mean another thing for each kind of part.

    >>> read_header("Innen-Ø [mm]")[:3]
    (('inside_diameter',), True, 'mm')
    >>> read_header("Preis/100 Stk (EUR)")[3:5]
    ('EUR', '100')
    """
    bare = _TOLERANCE_WORD.sub(" ", text)
    if bare != text and text.lower().strip() not in fields():
        return _of_tolerance(read_header(bare, kind=kind))
    rest, notes, inner = header_notes(text)
    exact = "_".join(rest.lower().split())
    if exact in fields() and "_" in rest:
        return HeaderReading((exact,), True, *notes, "the name of a field")
    words, inside = _split(rest), _split(" ".join(inner))
    for parts, whole in ((words + inside, True), (words, not inside), (inside, False)):
        found = _known(tuple(parts))
        options, settled = _settled(found, kind)
        if options:
            sure = whole and len(options) == 1 and (settled or any(word.sure for word in found))
            if not _has_unit(options[0], notes.unit):
                notes = notes._replace(unit="")
            return HeaderReading(options, sure, *notes, "header word" if sure else "header word, not clear")
    if not words and (notes.currency or notes.per):
        return HeaderReading(("price",), False, *notes, "a currency alone in the header")
    near = _near("".join(words))
    return HeaderReading(near, False, *notes, "a header word like it" if near else "")


def _of_tolerance(size: HeaderReading) -> HeaderReading:
    """What a header says that speaks of the tolerance of a size."""
    options = tuple(one + TOLERANCE for one in size.options if one + TOLERANCE in fields())
    return size._replace(options=options, sure=size.sure and len(options) == 1)


def _has_unit(field: str, unit: str) -> bool:
    try:
        unit_named(fields()[field], unit)
    except InputError:
        return False
    return True


def _settled(found: Sequence[_Word], kind: str) -> tuple[tuple[str, ...], bool]:
    """The fields of the words, and whether the kind of part settled it."""
    own = [word for word in found if kind and kind in word.kinds]
    open_to_all = [word for word in found if not (kind and word.kinds)]
    chosen = own or [word for word in open_to_all if word.sure] or open_to_all
    return tuple(dict.fromkeys(word.field for word in chosen)), bool(own)


# -- folding and the table ----------------------------------------------------------------------------


def _split(text: str) -> list[str]:
    """The words of a text, folded; a single letter keeps its case."""
    plain = re.sub(r"(?i)\bn[°º]|#", " no ", text)
    plain = re.sub("[Øø⌀∅]", " dia ", unicodedata.normalize("NFKC", plain))
    return [_number(word) for word in re.split(r"[\W_]+", plain) if word]


def _number(word: str) -> str:
    low = word.casefold()
    if _plain(low) in ("nr", "no", "num", "number", "nummer", "numero"):
        return "no"
    for ending in ("nummer", "number", "nr"):
        if low.endswith(ending):
            return low.removesuffix(ending) + "no"
    return word if len(word) == 1 else low


def _plain(word: str) -> str:
    """Without accents: ä is a."""
    return "".join(sign for sign in unicodedata.normalize("NFKD", word) if not unicodedata.combining(sign))


def _keys(words: Iterable[str]) -> tuple[str, str]:
    """The words as one, with accents stripped, and with ä spelt ae."""
    joined = "".join(words)
    joined = joined if len(joined) == 1 else joined.casefold()
    spelt = joined.replace("ä", "ae").replace("ö", "oe").replace("ü", "ue")
    return _plain(joined), _plain(spelt)


@cache
def _table() -> dict[str, tuple[_Word, ...]]:
    """What each folded word may be; the names of the fields themselves are words too."""
    found: dict[str, dict[str, _Word]] = {}

    def add(text: str, word: _Word) -> None:
        for key in _keys(_split(text)):
            found.setdefault(key, {}).setdefault(word.field, word)

    with WORDS.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            add(row["word"], _Word(row["field"], tuple(row["kinds"].split()), row["sure"] == "yes"))
    for name in fields():
        # What the trade means goes first; and a supplier's part number is his own, not ours.
        if name != "part_number" and not any(key in found for key in _keys(_split(name))):
            add(name, _Word(name, (), True))
    return {key: tuple(words.values()) for key, words in found.items()}


def _known(words: tuple[str, ...]) -> tuple[_Word, ...]:
    """What the words are together, or else what all of their parts say alike (Preis / Price)."""
    table = _table()
    for key in _keys(words):
        if words and key in table:
            return table[key]
    if not 1 < len(words) <= MOST_WORDS:
        return ()
    for cut in range(1, len(words)):
        left, right = _known(words[:cut]), _known(words[cut:])
        both = {word.field for word in left} & {word.field for word in right}
        if both:
            return tuple(word for word in (*left, *right) if word.field in both and word.sure)[:1] or tuple(
                word for word in left if word.field in both
            )
    return ()


def _near(joined: str) -> tuple[str, ...]:
    """Fields whose word is spelt almost like this one."""
    from rapidfuzz import fuzz, process  # only for a word that is not in the table

    key = _plain(joined.casefold())
    if len(key) < SHORTEST_NEAR:
        return ()
    choices = [word for word in _table() if len(word) >= SHORTEST_NEAR and word[0] == key[0]]
    best = process.extractOne(key, choices, scorer=fuzz.ratio, score_cutoff=NEAR)
    return () if best is None else tuple(word.field for word in _table()[best[0]])
