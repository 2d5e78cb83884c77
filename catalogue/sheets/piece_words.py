"""Words that tell for how many pieces a price is: EA, Stück, C (a hundred), M (a thousand), pair.

They stand in a column headed UOM, ME or Unité. Small letters, in six languages. Common practice, no source.
"""

from __future__ import annotations

import re

_PIECES = {
    1: "ea each pc pcs pce piece pieces st stk stck stück stueck unit units pièce pièces pz pezzo pezzi "
    "ud uds unidad unidades pieza piezas stuk stuks",
    2: "pair pairs pr paar paire paires paio par",
    100: "c % hundred hundert cent cento ciento honderd",
    1000: "mil mille thousand tausend tsd duizend",
}
_WORDS = {word: pieces for pieces, words in _PIECES.items() for word in words.split()}
# What tells a number of pieces by no rule: it is refused until a person says how many.
_OPEN_WORDS = "set sets kit kits satz jeu juego m mtr box pack pk pkt roll rolle bag dozen dz"
_OPEN = frozenset(_OPEN_WORDS.split())
_PER = re.compile(r"(?:/|(?:per|pro|je|pour|par|por|voor|for)\b)\s*", re.IGNORECASE)


def pieces_named(text: str) -> int | None:
    """The pieces that a word stands for; None for any other text.

    A small m may be a metre, so that M alone is a thousand.

    >>> pieces_named("EA"), pieces_named("C"), pieces_named("M"), pieces_named("m"), pieces_named("KIT")
    (1, 100, 1000, None, None)
    """
    bare = " ".join(without_per(text.strip()).split()).rstrip(".")
    return 1000 if bare == "M" else _WORDS.get(bare.lower())


def without_per(text: str) -> str:
    """A number of pieces without the word before it: /100, per 100 and je 100 are 100."""
    return _PER.sub("", text, count=1) if _PER.match(text) else text


def is_unit_word(text: str) -> bool:
    """Whether a text may stand in a column of what a price is for: a word, or a round number of pieces.

    >>> is_unit_word("KIT"), is_unit_word("100"), is_unit_word("mm")
    (True, True, False)
    """
    bare = " ".join(without_per(text.strip()).split()).rstrip(".")
    return (
        pieces_named(text) is not None or bare.lower() in _OPEN or re.fullmatch("10{0,3}", bare) is not None
    )
