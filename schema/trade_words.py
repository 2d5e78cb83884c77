"""Finds the words of a list inside a text: ``O-ring``, ``o ring`` and ``O-RINGS`` are one word.

A text is cut into runs of letters. A word of the list is one run or several that stand beside each other;
where several words begin at the same place, the longest counts. Accents are folded (Stützring, Stuetzring).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Generic, NamedTuple, TypeVar

Value = TypeVar("Value")
_LETTERS = re.compile(r"[^\W\d_]+")
_JOINTS = frozenset(("", "-", ".", "'", "’", "_", "- ", " -"))
_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "Ä": "ae", "Ö": "oe", "Ü": "ue", "ß": "ss"})
# Plurals of the six languages of the lists; a word ending that is none of the list costs nothing.
_PLURALS = ("", "s", "es", "e", "n", "en", "x")


class Found(NamedTuple, Generic[Value]):
    """A word that was found: what the list says of it, and where it stands in the text."""

    value: Value
    word: str
    start: int
    end: int


def folded(text: str) -> str:
    """Small letters without accents.

    >>> folded("Stützring"), folded("joint à lèvre")
    ('stutzring', 'joint a levre')
    """
    if text.isascii():
        return text.lower()
    plain = unicodedata.normalize("NFKD", text.replace("ß", "ss"))
    return "".join(one for one in plain if not unicodedata.combining(one)).lower()


class WordList(Generic[Value]):
    """A list of words with what each stands for.

    ``plurals`` adds the endings of plurals. Words of up to ``capitals`` letters (PU) count only in capitals.
    Those that are ``before_number`` (OR, TC) count only in capitals and where a number follows.
    """

    def __init__(
        self,
        words: Mapping[str, Value],
        *,
        plurals: bool = False,
        capitals: int = 0,
        before_number: Iterable[str] = (),
    ) -> None:
        self._capitals = capitals
        self._before_number = frozenset(one.upper() for one in before_number)
        self._words: dict[tuple[str, ...], Value] = {}
        self._longest: dict[str, int] = {}
        for word, value in words.items():
            for spelling in {folded(word), folded(word.translate(_UMLAUTS))}:
                runs = tuple(_LETTERS.findall(spelling))
                for spelled in _plurals(runs) if plurals and len(spelling) > 2 else (runs,):
                    self._words.setdefault(spelled, value)
                    self._longest[spelled[0]] = max(self._longest.get(spelled[0], 0), len(runs))

    def found_in(self, text: str) -> list[Found[Value]]:
        """All words of the list in a text, from left to right, none inside another."""
        runs = [(folded(one.group()), one.start(), one.end()) for one in _LETTERS.finditer(text)]
        found: list[Found[Value]] = []
        at = 0
        while at < len(runs):
            one = self._at(text, runs, at)
            if one is None:
                at += 1
                continue
            found.append(one[0])
            at += one[1]
        return found

    def _at(self, text: str, runs: list[tuple[str, int, int]], at: int) -> tuple[Found[Value], int] | None:
        """The longest word that begins with a run, and how many runs it takes."""
        for count in range(min(self._longest.get(runs[at][0], 0), len(runs) - at), 0, -1):
            key = tuple(run[0] for run in runs[at : at + count])
            value = self._words.get(key)
            if value is None:
                continue
            beside = all(
                text[runs[i][2] : runs[i + 1][1]].strip() in _JOINTS for i in range(at, at + count - 1)
            )
            start, end = runs[at][1], runs[at + count - 1][2]
            if beside and self._counts(text, start, end):
                return Found(value, text[start:end], start, end), count
        return None

    def _counts(self, text: str, start: int, end: int) -> bool:
        word = text[start:end]
        if word.upper() in self._before_number:
            return word.isupper() and text[end : end + 3].lstrip(" -")[:1].isdigit()
        return len(word) > self._capitals or word.isupper()


def _plurals(runs: tuple[str, ...]) -> set[tuple[str, ...]]:
    """A word with its plurals: of its last run in any language, of its first as in joints toriques."""
    found = {(*runs[:-1], runs[-1] + ending) for ending in _PLURALS}
    return found | {(one[0] + "s", *one[1:]) for one in found if len(runs) > 1}
