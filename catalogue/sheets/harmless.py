"""Cells that a spreadsheet would run as formulas are made plain text, and read back as they were.

A spreadsheet takes a cell that begins with = + - @, a tab or a line end for a formula, unless an apostrophe
stands before it, which it does not show (OWASP, CSV Injection). Numbers with a sign are left alone.
"""

from __future__ import annotations

import re

_RUNS = ("=", "+", "-", "@", "\t", "\r", "'")
_NUMBER = re.compile(r"[+-]?\d+(?:[.,]\d+)?")


def harmless(text: str) -> str:
    """A text that no spreadsheet runs.

    >>> harmless("=1+1"), harmless("-12.5"), harmless("'t Veer")
    ("'=1+1", '-12.5', "''t Veer")
    """
    if text.startswith(_RUNS) and not _NUMBER.fullmatch(text):
        return f"'{text}"
    return text


def as_it_was(text: str) -> str:
    """The text that ``harmless`` made harmless.

    >>> [as_it_was(harmless(text)) for text in ("=1+1", "-12.5", "'t Veer", "O'Hara")]
    ['=1+1', '-12.5', "'t Veer", "O'Hara"]
    """
    return text[1:] if text[:1] == "'" and text[1:].startswith(_RUNS) else text
