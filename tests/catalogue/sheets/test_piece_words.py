"""Columns that tell by a word for how many pieces a price is."""

from __future__ import annotations

import pytest

from catalogue.sheets.numbers import read_count
from catalogue.sheets.proposing import propose
from schema.errors import InputError


@pytest.mark.parametrize(
    ("word", "pieces"),
    [
        ("EA", 1), ("each", 1), ("pc", 1), ("PCS", 1), ("St", 1), ("Stk.", 1), ("Stück", 1), ("piece", 1),
        ("C", 100), ("%", 100), ("hundert", 100), ("/100", 100), ("per 100", 100), ("100 St", 100),
        ("M", 1000), ("mil", 1000), ("/1000", 1000), ("Tausend", 1000),
        ("pair", 2), ("Paar", 2), ("250", 250),
    ],
)  # fmt: skip
def test_a_price_is_for_the_pieces_that_a_word_tells(word: str, pieces: int) -> None:
    """C is a hundred and M a thousand, as the Romans count."""
    assert read_count(word, decimal=".", field="price_per") == pieces


@pytest.mark.parametrize("word", ["KIT", "set", "m"])
def test_another_word_is_refused_with_the_option_that_tells_it(word: str) -> None:
    """A kit has any number of pieces, and m may be a metre."""
    with pytest.raises(InputError) as raised:
        read_count(word, decimal=".", field="price_per")
    assert f'--word "price_per: {word}=1"' in raised.value.allowed


def test_a_pack_is_not_told_by_such_words() -> None:
    """C in a column of packs is no hundred."""
    with pytest.raises(InputError):
        read_count("C", decimal=".", field="pack_size")


@pytest.mark.parametrize("header", ["UOM", "Unit", "ME", "Einheit", "UM", "Unité"])
def test_a_column_of_units_beside_a_price_is_a_question(header: str) -> None:
    """11.00 for a hundred must not become 11.00 each in silence."""
    found = propose(
        ["Code", "Description", header, "Price EUR"],
        [["A-1", "O-ring 20x3", "EA", "1.00"], ["A-2", "O-ring 21x3", "C", "11.00"]],
        "Demo",
    )
    assert {one.about: one.answers[0] for one in found.open} == {header: f"--column {header}=price_per"}


@pytest.mark.parametrize(("units", "prices"), [(["mm", "mm"], "Price EUR"), (["EA", "C"], "Remarks")])
def test_a_column_of_other_units_or_without_a_price_is_none(units: list[str], prices: str) -> None:
    """mm are no pieces, and where no price is there is nothing that a word could change."""
    rows = [[f"A-{at}", "O-ring 20x3", unit, f"{at}.00"] for at, unit in enumerate(units)]
    found = propose(["Code", "Description", "Unit", prices], rows, "Demo")
    assert [one.about for one in found.open if one.about == "Unit"] == []
    assert found.columns[2].field == ""
