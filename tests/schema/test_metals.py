"""Metals by their words in other languages."""

from __future__ import annotations

import pytest

from schema.metals import metal_named


@pytest.mark.parametrize(
    ("text", "metal"),
    [
        ("Federstahl", "spring steel"),
        ("ACIER A RESSORT", "spring steel"),
        ("Stahl", "steel"),
        ("acciaio", "steel"),
        ("Messing", "brass"),
        ("laiton", "brass"),
        ("ottone", "brass"),
        ("Aluminum", "aluminium"),
        ("Edelstahl", "stainless steel"),
        ("inox", "stainless steel"),
        ("acier inoxydable", "stainless steel"),
    ],
)
def test_a_metal_has_one_english_word(text: str, metal: str) -> None:
    """Case and accents do not count."""
    assert metal_named(text) == metal


@pytest.mark.parametrize("text", ["1.4310", "NBR", "Stahl verzinkt", ""])
def test_what_says_more_or_something_else_stays(text: str) -> None:
    """An alloy, a coating and a rubber are not the plain metal."""
    assert metal_named(text) == ""
