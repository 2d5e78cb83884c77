"""Texts of a sheet as they come into the catalogue: hostile ones, where each stands, words that find them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.catalogue.sheets.small_loads import (
    RING,
    load,
    offer,
    rows,
    undo,
    words_are_right,
)

A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1.00"
B = "B-2,O-ring middle,o_ring,302,3.5,NBR,70,2.00"
C = "C-3,O-ring big,o_ring,303,3.5,NBR,70,3.00"


@pytest.mark.parametrize(
    "words",
    [
        "<script>alert(1)</script>",
        "=HYPERLINK(0)",
        "@SUM(A1)",
        "+1+1",
        "-2+3",
        "'; DROP TABLE offer; --",
        "{{ config }}",
        "%s %d",
        "../../etc/passwd",
        'NEAR("a" b) OR *',
        "Ø ½ ‘quoted’ ßß",
        "\u202eabc",
    ],
)
def test_texts_that_mean_harm_are_texts(blank: Path, words: str) -> None:
    """A description is kept letter for letter, and found by the index of words."""
    quoted = '"' + words.replace('"', '""') + '"'
    load(blank, RING, A.replace("O-ring small", quoted))
    assert offer(blank, "A-1", "description") == (words,)
    load(blank, RING, A)
    undo(blank, 1)
    assert offer(blank, "A-1", "description") == ("O-ring small",)
    words_are_right(blank, ["small"])


def test_every_value_stands_in_its_row_of_its_sheet(shop: Path) -> None:
    """Load, sheet and row of an offer and of a part lead to a row of the file that says what they say."""
    header = f"{RING},Currency,Per,Pack,Least,Days,Stock,Maker,Maker's code"
    lines = [
        "A-1,O-ring small,o_ring,301,3.5,NBR,70,12.50,EUR,100,10,50,14,7,Perrin,P-1",
        "B-2,O-ring middle,o_ring,302.5,3.55,FKM,75,2.05,GBP,1,,5,,0,,",
        "A-9,no ring,o_ring,free,3.5,NBR,70,1,EUR,1,,,,,,",
        "C-3,X-ring big,four_lobed_ring,24.99,3.53,NBR,70,3.10,CHF,1,25,,21,400,Perrin,P-3",
    ]
    report = load(shop, header, *lines)
    offers = rows(shop, "SELECT * FROM offer JOIN load USING (load) WHERE load = ?", report.load)
    assert len(offers) == 3
    told = rows(
        shop,
        "SELECT row, code, description, part_number, price_text, currency, price_per, pack_size, minimum,"
        " lead_time_days, stock, maker, maker_code FROM offer WHERE load = ?",
        report.load,
    )
    for number, *values in told:
        cells = lines[number - 2].split(",")
        assert {str(one) for at, one in enumerate(values) if one is not None and at != 2} <= set(cells)
    parts = rows(
        shop,
        "SELECT part.row, field, text FROM part JOIN (SELECT part_number, field, text FROM part_value"
        " UNION ALL SELECT part_number, dimension, text FROM part_dimension) USING (part_number)"
        " WHERE part.load = ?",
        report.load,
    )
    assert len(parts) >= 8
    for number, _, text in parts:
        assert text.removesuffix(" mm") in lines[number - 2].split(",")


# -- the index of words ---------------------------------------------------------------------------------


def test_words_find_offers_after_loads_and_undos(blank: Path) -> None:
    """What an offer says now finds it, what it said before does not."""
    load(blank, RING, A, B)
    load(blank, RING, A.replace("small", "tiny"), C)
    words_are_right(blank, ["small", "tiny", "middle", "big"])
    undo(blank, 2)
    words_are_right(blank, ["small", "tiny", "middle", "big"])
    undo(blank, 1)
    words_are_right(blank, ["small", "tiny", "middle", "big"])


# -- capitals -------------------------------------------------------------------------------------------


def test_a_supplier_in_other_capitals_is_the_same(blank: Path) -> None:
    """Its codes are known, and its own parts are its own."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("small", "smaller"), supplier="KOLBRING")
    assert (report.counts.new, report.counts.changed, report.counts.changed_parts) == (0, 1, 1)


def test_a_code_in_other_capitals_is_the_same(blank: Path) -> None:
    """It is unchanged but for its spelling."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("A-1", "a-1"))
    assert (report.counts.new, report.counts.respelt) == (0, 1)
