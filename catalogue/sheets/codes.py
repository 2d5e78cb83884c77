"""Codes as they get spelt: what is left of one when what gets lost on the way is taken off."""

from __future__ import annotations

import re
import string

OWN_PARTS = "own parts"  # stands for the supplier of a list of the workshop's own
_SMALL = str.maketrans(string.ascii_uppercase, string.ascii_lowercase)


def folded(text: str) -> str:
    """A code, number or name of a supplier as the catalogue tells it from others: without regard to A to Z
    in capitals, and to these only. SQLite's NOCASE folds no others, and what it keeps apart must not be one
    here.

    >>> folded("QV-Ä1")
    'qv-Ä1'
    """
    return text.lower() if text.isascii() else text.translate(_SMALL)


def core(code: str) -> str:
    """A code without leading zeros, dashes, spaces and capitals.

    >>> core("071-208") == core("71208")
    True
    """
    return re.sub(r"[\W_]", "", code).casefold().lstrip("0")


def how_spelt(now: str, before: str) -> str:
    """Why a code may be one that is known, in words.

    >>> how_spelt("71208", "071208")
    'may be 071208, which is gone from the sheet: it lost its leading zeros'
    """
    lost = re.sub(r"\W", "", before).lower() != re.sub(r"\W", "", now).lower() and len(now) < len(before)
    why = "it lost its leading zeros" if lost else "it is spelt otherwise"
    return f"may be {before}, which is gone from the sheet: {why}"
