"""Every printed AS568 cell that was read, against the sizes shipped here.

An inch cell must be equal; a millimetre cell must be the shipped inches times 25.4, halves rounded up to
what the page rounds to, so the tolerance is zero in both. Two sources round tolerances to 0.01 mm and
print a zero behind. Cells in which a page differs stand in a list of their own, and each of them must go
on differing.
"""

from __future__ import annotations

import csv
from collections import Counter
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise
from pathlib import Path

import pytest

from schema.errors import UnknownName
from schema.ring_sizes import as568_codes, ring_size
from schema.tables import rows

Row = dict[str, str]
HERE = Path(__file__).parent
INCH = Decimal("25.4")


def read(name: str) -> list[Row]:
    with (HERE / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


CELLS, MISPRINTS = read("as568_cells.csv"), read("as568_misprints.csv")
SERIES = {
    "0": ("0.070", "0.003", 50),
    "1": ("0.103", "0.003", 77),
    "2": ("0.139", "0.004", 84),
    "3": ("0.210", "0.005", 87),
    "4": ("0.275", "0.006", 51),
}
SHIPPED = {row["code"]: row for row in rows("as568")}


def in_series(series: str) -> list[Row]:
    return [row for code, row in SHIPPED.items() if code[0] == series]


def shipped_mm(code: str, quantity: str) -> Decimal:
    """The size as a check receives it, exact in millimetres."""
    size = ring_size(code)
    of = size.inside_diameter if quantity.startswith("inside_diameter") else size.cross_section
    return (of.upper - of.lower) / 2 if quantity.endswith("tolerance") else of.nominal


def as_printed(code: str, row: Row) -> Decimal:
    """The shipped size of a code in the unit of a printed cell, to what its page rounds to."""
    exact = shipped_mm(code, row["quantity"])
    if row["unit"] == "in":
        return exact / INCH
    step = row.get("rounded_to") or Decimal(1).scaleb(Decimal(row["value_printed"]).as_tuple().exponent)
    return exact.quantize(Decimal(step), ROUND_HALF_UP)


def cases(table: list[Row]) -> list[object]:
    return [
        pytest.param(
            row, id=f"{row['code']} {row['quantity']} {row['value_printed']} {row['unit']} ({number})"
        )
        for number, row in enumerate(table, start=2)
    ]


@pytest.mark.parametrize("row", cases(CELLS))
def test_a_printed_cell_is_the_shipped_size(row: Row) -> None:
    """Each printed diameter, section and tolerance is the shipped one, to the last printed digit."""
    assert as_printed(row["code"], row) == Decimal(row["value_printed"])


@pytest.mark.parametrize("row", cases(MISPRINTS))
def test_a_known_misprint_still_differs(row: Row) -> None:
    """A cell listed as a misprint differs from the shipped size, else it does not belong in the list."""
    assert as_printed(row["code"], row) != Decimal(row["value_printed"])


@pytest.mark.parametrize("row", cases([row for row in MISPRINTS if row["belongs_to"]]))
def test_a_shifted_cell_is_the_size_of_another_row(row: Row) -> None:
    """Where the list says that the diameter is that of another code, it is."""
    assert as_printed(row["belongs_to"], row) == Decimal(row["value_printed"])


def test_every_cell_cites_its_page() -> None:
    """No cell is without source and locator, and no misprint without a reason."""
    assert all(row["source"] and row["locator"] for row in [*CELLS, *MISPRINTS])
    assert all(row["reason"] for row in MISPRINTS)


def test_only_padded_tolerances_are_rounded_before_their_last_digit() -> None:
    """A cell is rounded to its last digit, or to 0.01 mm where a tolerance is printed with a zero behind."""
    padded = [
        row
        for row in CELLS
        if Decimal(row["rounded_to"]) != Decimal(1).scaleb(Decimal(row["value_printed"]).as_tuple().exponent)
    ]
    assert {(row["unit"], row["rounded_to"], row["value_printed"][-1]) for row in padded} == {
        ("mm", "0.01", "0")
    }
    assert all(row["quantity"].endswith("tolerance") for row in padded)


def test_no_cell_stands_in_both_lists() -> None:
    """A cell confirms or contradicts, not both."""
    keys = [tuple(row[name] for name in ("code", "quantity", "unit", "source", "locator")) for row in CELLS]
    other = {
        tuple(row[name] for name in ("code", "quantity", "unit", "source", "locator")) for row in MISPRINTS
    }
    assert len(set(keys)) == len(keys)
    assert other.isdisjoint(keys)


def test_the_cells_are_the_ones_that_were_read() -> None:
    """The file of cells is pinned by count and sum of each quantity in each unit."""
    pinned: dict[tuple[str, str], tuple[int, Decimal]] = {}
    for row in CELLS:
        count, total = pinned.get((row["quantity"], row["unit"]), (0, Decimal(0)))
        pinned[row["quantity"], row["unit"]] = (count + 1, total + Decimal(row["value_printed"]))
    assert pinned == {
        ("inside_diameter", "in"): (355, Decimal("1669.461")),
        ("inside_diameter", "mm"): (734, Decimal("93278.92")),
        ("inside_diameter_tolerance", "in"): (354, Decimal("10.303")),
        ("inside_diameter_tolerance", "mm"): (354, Decimal("300.860")),
        ("cross_section", "in"): (357, Decimal("54.304")),
        ("cross_section", "mm"): (378, Decimal("1478.25")),
        ("cross_section_tolerance", "mm"): (354, Decimal("37.920")),
    }


def test_the_misprints_are_the_ones_that_were_read() -> None:
    """The list of misprints is pinned by count and sum of each unit."""
    assert Counter(row["unit"] for row in MISPRINTS) == {"in": 21, "mm": 8}
    assert sum(Decimal(row["value_printed"]) for row in MISPRINTS if row["unit"] == "in") == Decimal("58.191")
    assert sum(Decimal(row["value_printed"]) for row in MISPRINTS if row["unit"] == "mm") == Decimal(
        "1084.80"
    )


def test_as568_has_369_sizes() -> None:
    """The shipped list has as many sizes as AS568A describes (heximf.com: 369)."""
    assert len(as568_codes()) == 369
    assert len(set(as568_codes())) == 369


def test_the_shipped_list_is_pinned() -> None:
    """The shipped AS568 columns keep the sums of the list that was compared with the printed cells."""
    sums = {
        name: sum(Decimal(row[name]) for row in SHIPPED.values())
        for name in ("inside_diameter_in", "inside_diameter_tolerance_in")
    }
    assert sums == PINNED_SUMS


PINNED_SUMS = {
    "inside_diameter_in": Decimal("1975.293"),
    "inside_diameter_tolerance_in": Decimal("11.791"),
}


def test_a_printed_cell_stands_behind_every_diameter() -> None:
    """Every shipped diameter and tolerance has at least one printed cell behind it."""
    confirmed = Counter((row["code"], row["quantity"]) for row in CELLS)
    quantities = ("inside_diameter", "inside_diameter_tolerance", "cross_section")
    assert [(code, name) for code in SHIPPED for name in quantities if not confirmed[code, name]] == []


@pytest.mark.parametrize("series", SERIES)
def test_section_and_its_tolerance_are_constant_in_a_series(series: str) -> None:
    """All sizes of a series share one section and one section tolerance, save the three smallest of all."""
    section, tolerance, count = SERIES[series]
    small = {"001": "0.040", "002": "0.050", "003": "0.060"}
    table = in_series(series)
    assert len(table) == count
    assert {row["cross_section_in"] for row in table if row["code"] not in small} == {section}
    assert {row["cross_section_tolerance_in"] for row in table} == {tolerance}
    assert {row["code"]: row["cross_section_in"] for row in table if row["code"] in small} == (
        small if series == "0" else {}
    )


@pytest.mark.parametrize("series", [*SERIES, "9"])
def test_inside_diameters_rise_in_a_series(series: str) -> None:
    """The inside diameter rises from code to code within a series."""
    diameters = [Decimal(row["inside_diameter_in"]) for row in in_series(series)]
    assert all(low < high for low, high in pairwise(diameters))


@pytest.mark.parametrize("series", SERIES)
def test_the_diameter_tolerance_never_falls_in_a_series(series: str) -> None:
    """The tolerance of the inside diameter never falls from code to code within a series."""
    tolerances = [Decimal(row["inside_diameter_tolerance_in"]) for row in in_series(series)]
    assert all(low <= high for low, high in pairwise(tolerances))


def test_steps_are_thirty_seconds_of_an_inch_with_known_exceptions() -> None:
    """Neighbours differ by multiples of 1/32 in within .0015 in, save the small and five large steps."""
    odd = []
    for series in SERIES:
        for low, high in pairwise(in_series(series)):
            step = Decimal(high["inside_diameter_in"]) - Decimal(low["inside_diameter_in"])
            if abs(step * 32 - round(step * 32)) / 32 > Decimal("0.0015") and int(high["code"]) > 6:
                odd.append(f"{low['code']}-{high['code']}")
    assert odd == ["281-282", "384-385", "391-392", "460-461", "471-472"]


def test_429_has_the_printed_outside_diameter() -> None:
    """AS568-429 measures 4.975 in inside and 5.525 in outside (NAVEDTRA 14105, ch. 7)."""
    size = ring_size("AS568-429")
    outside = size.inside_diameter.nominal + 2 * size.cross_section.nominal
    assert outside / INCH == Decimal("5.525")


def test_an_invented_dash_number_is_refused() -> None:
    """-200 stands in a cheat sheet on the web but not in AS568."""
    with pytest.raises(UnknownName, match="AS568 has no such size"):
        ring_size("200")
