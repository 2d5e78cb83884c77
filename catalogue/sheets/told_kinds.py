"""The kind of a row by the words that a person told, where it is its description that tells the kind.

``--word "kind: Gift voucher=leave_out"`` leaves every row out whose description has these words. What a
person told goes before the general words of the trade, and before a kind that every row has.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from catalogue.sheets.answers import option
from catalogue.sheets.mapping import LEAVE_OUT
from catalogue.sheets.problems import Problem
from schema.trade_names import named_material

_MOST_WORDS = 3  # of a description that are proposed as the word to tell
_JOINTS = " .,;:-–/()[]"


class ToldKinds:
    """The words of a mapping by the kind they mean; false where it has none."""

    def __init__(self, words: Mapping[str, str]) -> None:
        told = {" ".join(word.casefold().split()): kind for word, kind in words.items()}
        self._words = {word: told[word] for word in sorted(filter(None, told), key=len, reverse=True)}
        self._any = re.compile("|".join(map(_whole, self._words)) or r"(?!)")
        self._each = [(re.compile(_whole(word)), kind) for word, kind in self._words.items()]

    def __bool__(self) -> bool:
        return bool(self._words)

    def kind(self, text: str) -> str:
        """The kind that the longest told word in a description means; "" where none stands in it.

        >>> ToldKinds({"oil": "leave_out", "oil seal": "lip_seal"}).kind("Oil  seal 16x24x5")
        'lip_seal'
        """
        plain = " ".join(text.casefold().split())
        if self._any.search(plain) is None:
            return ""
        return next(kind for word, kind in self._each if word.search(plain))


def word_to_tell(text: str) -> str:
    """The words of a description that may say what it is: those before the first number or material.

    >>> word_to_tell("Gift voucher 50 EUR"), word_to_tell("O-Ring-Sortiment 404tlg.")
    ('Gift voucher', 'O-Ring-Sortiment')
    """
    words: list[str] = []
    for word in text.split():
        bare = word.strip(_JOINTS)
        says_something = len(bare) > 1 and not any(map(str.isdigit, bare)) and not named_material(bare).code
        if says_something and len(words) < _MOST_WORDS:
            words.append(bare)
        elif words:
            break
    return " ".join(words)


def how_to_tell(word: str) -> str:
    """The option that tells what a word means, for a row that may be no part."""
    return (
        f"{option('--word', f'kind: {word}={LEAVE_OUT}')} for what is no part, or its kind instead of "
        f"{LEAVE_OUT} (borebook names parts)"
    )


def no_kind(column: str, text: str) -> Problem:
    """The problem of a row of which nothing tells the kind; ``text`` is its description."""
    reason = "nothing on this row tells what kind of part it is"
    if word := word_to_tell(text):
        return Problem(column, text, reason, how_to_tell(word))
    mend = (
        "a column of kinds, a word for it in the description, or --every kind=o_ring for a sheet of O-rings"
    )
    return Problem(column, text, reason, mend)


def _whole(word: str) -> str:
    return rf"(?<!\w){re.escape(word)}(?!\w)"
