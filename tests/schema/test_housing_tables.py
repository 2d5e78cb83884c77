"""A workshop's own table of housings: what is read, and every bad cell told with line and column."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.errors import InputErrors
from schema.housing_tables import COLUMNS, REQUIRED, HousingRow, housing_rows, plain

GOOD = {
    "standard": "ISO 0000",  # invented: no table of a standard is shipped
    "type": "B",
    "place": "wiper_seat",
    "side": "rod",
    "diameter_from_mm": "30",
    "diameter_to_mm": "40",
    "housing_bore": "d+10 H8",
    "seat_depth": "5.5 +0.2/0",
    "source": "the workshop's copy",
    "locator": "table 2, row 4",
}


def read(*rows: dict[str, str], header: tuple[str, ...] = COLUMNS) -> tuple[HousingRow, ...]:
    return housing_rows(list(enumerate(rows, 2)), header, name="housings.csv")


def test_a_size_may_be_absolute_or_hang_on_the_rod() -> None:
    """``d+10 H8`` for a rod of 32 mm is a bore of 42 H8; ``5.5 +0.2/0`` is the same for every rod."""
    (row,) = read(GOOD)
    bore, depth = (row.sizes[name].at(Decimal(32)) for name in ("housing_bore", "seat_depth"))
    assert (bore.lower, bore.upper) == (Decimal(42), Decimal("42.039"))
    assert (depth.lower, depth.upper) == (Decimal("5.5"), Decimal("5.7"))


@pytest.mark.parametrize(
    ("named", "diameter", "covered"),
    [
        ("ISO 0000 B", 32, True),
        ("iso 0000:2021, type B", 30, True),
        ("ISO 0000 B", 40, True),
        ("ISO 0000 B", 41, False),
        ("ISO 0000 A", 32, False),
        ("ISO 0000", 32, False),
    ],
)
def test_a_row_covers_its_standard_type_and_diameters(named: str, diameter: int, covered: bool) -> None:
    """The ends are in it; another type, or none named, is another housing."""
    (row,) = read(GOOD)
    assert row.covers("wiper_seat", "rod", named, Decimal(diameter)) is covered


def test_every_bad_cell_of_a_table_is_told_at_once() -> None:
    """Ten bad cells in four lines: ten messages, each with its line and its column."""
    bad = [
        {**GOOD, "standard": "", "place": "gland", "diameter_from_mm": "forty", "source": ""},
        {**GOOD, "diameter_from_mm": "50", "diameter_to_mm": "45", "gap_max_mm": "0.5 mm"},
        {
            **GOOD,
            "diameter_from_mm": "60",
            "diameter_to_mm": "60",
            "housing_bore": "d+10",
            "seat_depth": "5 K",
        },
        {**GOOD, "diameter_from_mm": "70", "diameter_to_mm": "70", "housing_bore": "x", "locator": ""},
    ]
    with pytest.raises(InputErrors) as caught:
        read(*bad)
    told = {str(error).partition(":")[0] for error in caught.value.errors}
    assert told == {
        f"housings.csv, line {line}, column {column}"
        for line, column in (
            (2, "standard"),
            (2, "place"),
            (2, "diameter_from_mm"),
            (2, "source"),
            (3, "diameter_to_mm"),
            (3, "gap_max_mm"),
            (4, "housing_bore"),
            (4, "seat_depth"),
            (5, "housing_bore"),
            (5, "locator"),
        )
    }
    assert "has no tolerance" in str(caught.value)


def test_two_rows_for_one_diameter_are_refused() -> None:
    """Neither could be taken without a guess; another type for one of them mends it."""
    with pytest.raises(InputErrors, match="line 3: claims the same diameters as line 2"):
        read(GOOD, {**GOOD, "diameter_from_mm": "40", "diameter_to_mm": "50"})
    assert len(read(GOOD, {**GOOD, "type": "C"})) == 2


def test_a_row_without_a_size_says_nothing() -> None:
    """At least one size is needed."""
    with pytest.raises(InputErrors, match="column housing_bore: the row has no size"):
        read({**GOOD, "housing_bore": "", "seat_depth": ""})


def test_unknown_and_missing_columns_are_told() -> None:
    """A misspelt header names the nearest column; a missing one is named."""
    header = tuple(one if one != "seat_depth" else "seat_dept" for one in COLUMNS if one != "locator")
    with pytest.raises(InputErrors) as caught:
        read(GOOD, header=header)
    assert "column seat_dept: there is no such column" in str(caught.value)
    assert "the column locator is missing" in str(caught.value)


def test_source_and_locator_are_required() -> None:
    """No row stands without the document it was read from."""
    assert {"source", "locator"} <= set(REQUIRED)


def test_names_of_standards_are_held_together() -> None:
    """Year, the word type and punctuation do not make another standard."""
    assert plain("ISO 6195:2021, type B") == plain("iso 6195-B") == "iso 6195 b"


def test_a_size_that_hangs_on_the_other_diameter_is_refused() -> None:
    """``D`` is the bore of a piston: in a row of a rod it would give a size that nobody meant."""
    with pytest.raises(InputErrors) as caught:
        read({**GOOD, "housing_bore": "D+10 H8"})
    (error,) = caught.value.errors
    assert "line 2, column housing_bore" in str(error)
    assert "d+10 H8" in str(error)
