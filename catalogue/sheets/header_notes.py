"""What stands in a header beside its words: ``ID (mm)``, ``Preis/100 Stk (EUR)``, ``Lead time (weeks)``."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from catalogue.sheets.currencies import currency_named
from schema.amounts import UNITS


class HeaderNotes(NamedTuple):
    """Unit, currency (a code, or a sign of several) and pieces that a price is for; "" where not told."""

    unit: str = ""
    currency: str = ""
    per: str = ""


# Small letters, by the unit that a mapping has. Common practice, no source.
_UNIT_WORDS = {
    "mm": "mm millimetre millimeter",
    "cm": "cm",
    "um": "um",
    "in": 'in inch inches " zoll pouce pouces pulg pulgadas pollici duim',
    "thou": "thou",
    "days": "day days tag tage jour jours dia dias días giorno giorni gg dagen",
    "weeks": "week weeks wk wks woche wochen wo semaine semaines sem semanas settimane sett weken",
    "months": "month months monat monate mois meses mesi maanden",
}
_UNITS = {word: unit for unit, words in _UNIT_WORDS.items() for word in words.split()}
_AMOUNT_UNITS = {unit for of in UNITS.values() for unit in of[1]} - {"l", "n", "pa"} | {"bar", "psi", "mpa"}
# Words that change nothing.
_NEUTRAL_WORDS = """
    sha shore sh stk stück stueck st pcs pc pce piece pieces each ea pz uds ud stuks
    net netto nett ht excl ex vat mwst zzgl ohne iva btw hors taxe senza nominal nom a
"""
_NEUTRAL = frozenset(_NEUTRAL_WORDS.split())
_PIECE = (
    r"(?:stk|stück|stueck|st|pcs?|pieces?|pce|each|ea|units?|pièces?|unités?|uds?|unidades|pz|pezzi|stuks?)\b"
)
_FOR = r"(?:/|\b(?:per|pro|je|pour|par|por|voor|for)\b)"
_PER_MANY = re.compile(
    rf"{_FOR}\s*(\d{{1,3}}[.,' ]000|\d{{1,5}})(?![\d.,])\s*(?:{_PIECE})?\.?", re.IGNORECASE
)
_PER_ONE = re.compile(rf"{_FOR}\s*{_PIECE}\.?\s*$", re.IGNORECASE)
_BRACKETS = re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]")
_SAME = str.maketrans({"⌀": "Ø", "∅": "Ø", "″": '"', "”": '"', "μ": "u"})


def header_notes(text: str) -> tuple[str, HeaderNotes, list[str]]:
    """The words of a header without its notes, the notes, and what else stands in brackets.

    >>> header_notes("Innendurchmesser (d1) [mm]")
    ('Innendurchmesser', HeaderNotes(unit='mm', currency='', per=''), ['d1'])
    """
    plain = unicodedata.normalize("NFKC", " ".join(text.split())).translate(_SAME).replace("''", '"')
    taken = _Taken()
    if many := _PER_MANY.search(plain):
        taken.per = re.sub(r"\D", "", many[1])
        plain = f"{plain[: many.start()]} {plain[many.end() :]}"
    inner = []
    for found in _BRACKETS.finditer(plain):
        content = taken.without_piece(found[1] or found[2] or "")
        words = [word for word in re.split(r"[\s,/]+", content) if word]
        if not (taken.take(content) or all([taken.take(word) for word in words])):  # noqa: C419 (takes each)
            inner.append(content)
    plain = taken.without_piece(_BRACKETS.sub(" ", plain))
    words = re.sub(r'(?<=\w)"', ' "', plain).split()
    while len(words) > 1 and taken.take(words[-1]):
        words.pop()
    while words and (currency_named(words[0]) is not None or not re.search(r"[^\W_]|#", words[0])):
        taken.take(words.pop(0))
    return " ".join(words), HeaderNotes(taken.unit, taken.currency, taken.per), inner


class _Taken:
    """The notes of one header as they are found; the first of each sort counts."""

    def __init__(self) -> None:
        self.unit = self.currency = self.per = ""

    def take(self, word: str) -> bool:
        """Whether a word is a note, or says nothing; a note is kept."""
        bare = word.strip(".:,;-/ ").lower() or word
        currency = currency_named(bare)
        if currency is not None:
            self.currency = self.currency or currency or bare
        elif bare in _UNITS:
            self.unit = self.unit or _UNITS[bare]
        elif bare in _AMOUNT_UNITS:
            self.unit = self.unit or word.strip(".:,; ")
        else:
            return bare in _NEUTRAL or re.search(r"[^\W_]|[°%#]", bare) is None
        return True

    def without_piece(self, text: str) -> str:
        """The text without ``/Stk`` or ``per piece`` at its end."""
        if one := _PER_ONE.search(text):
            self.per = self.per or "1"
            return text[: one.start()]
        return text
