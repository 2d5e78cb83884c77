"""The English word for a metal that a sheet names in another language: Federstahl is spring steel.

A metal has no code by which it is judged here, so its word is all that tells two parts apart. An alloy that
is named by its number (1.4310) says more than the word for the metal, and stays as it is written.
"""

from __future__ import annotations

from functools import cache

from schema.tables import rows
from schema.trade_words import folded


def metal_named(text: str) -> str:
    """The English word for a metal; "" for any other text.

    >>> metal_named("Federstahl"), metal_named("acier à ressort"), metal_named("1.4310")
    ('spring steel', 'spring steel', '')
    """
    return _metals().get(_plain(text), "")


@cache
def _metals() -> dict[str, str]:
    return {_plain(row["name"]): row["metal"] for row in rows("metal_names")}


def _plain(text: str) -> str:
    return " ".join(folded(text).replace("_", " ").replace("-", " ").replace(".", " ").split())
