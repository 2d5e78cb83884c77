"""How many lips a shaft seal has, by the words of its description."""

from __future__ import annotations

import pytest

from schema.lip_words import lips_in
from schema.size_words import told_words


@pytest.mark.parametrize(
    ("text", "lips"),
    [
        ("Oil seal 20x30x7 double lip NBR", "dual"),
        ("Oil seal 20x30x7, dual-lip", "dual"),
        ("WDR 20x30x7 doppellippig", "dual"),
        ("WDR 20x30x7 mit Staublippe", "dual"),
        ("joint à lèvre 20x30x7, double lèvre", "dual"),
        ("Oil seal 20x30x7 single lip", "single"),
        ("WDR 20x30x7 einlippig", "single"),
        ("WDR 20x30x7 ohne Staublippe", "single"),
        ("Oil seal 20x30x7 without dust lip", "single"),
        ("Lip seal 20x30x7", ""),
        ("joint à lèvre 20x30x7", ""),
        ("Oil seal, single lip or double lip", ""),
        ("slippery 2 slips", ""),
    ],
)
def test_lips_are_told_by_words(text: str, lips: str) -> None:
    """Where a description tells both, or nothing, nothing is told."""
    assert lips_in(text) == lips


def test_only_shaft_seals_are_told_lips() -> None:
    """The words stand in descriptions of other parts too."""
    assert dict(told_words("oil seal 20x30x7 double lip NBR")[2])["lips"] == "dual"
    assert "lips" not in dict(told_words("O-ring 20x3 for double lip seal", kind="o_ring")[2])
