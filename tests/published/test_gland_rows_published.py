"""Printed squeeze of published gland tables, from the printed section, its tolerance and the printed depths.

Every cell must be met to half of its last printed digit. Cells that no sum over the printed columns gives
are named in the row with the reason, and each of them must go on differing.
"""

from __future__ import annotations

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from fitcheck.numbers import Span
from fitcheck.rings.limits import squeeze_band
from fitcheck.rings.squeeze import plain_squeeze
from fitcheck.rule import span
from schema.guidance import MM_PER, SqueezeRow, published_guidance

Row = dict[str, str]
with Path(__file__).with_name("gland_rows.csv").open(encoding="utf-8", newline="") as stream:
    ROWS: list[Row] = list(csv.DictReader(stream))
CELLS = ("squeeze_min", "squeeze_max", "squeeze_min_percent", "squeeze_max_percent")
EXACT = 1e-9  # sums of floats; a printed value on the half of its last digit is met


def printed(*, differing: bool, guidance: bool = False, columns: tuple[str, ...] = CELLS) -> list[object]:
    return [
        pytest.param(row, column, id=f"{row['case']} {column}")
        for row in ROWS
        for column in columns
        if row[column] and (column in row["differs"].split(";")) is differing
        if row["guidance"] or not guidance
    ]


def half_digit(text: str) -> float:
    return float(Decimal(1).scaleb(Decimal(text).as_tuple().exponent) / 2)


def computed(row: Row, column: str) -> float:
    """The cell by the plain squeeze over the printed limits, in percent or in the unit of the table."""
    section, tolerance = float(row["cross_section"]), float(row["cross_section_tolerance"])
    depth_min, depth_max = float(row["depth_min"]), float(row["depth_max"])
    sections = Span(section - tolerance, section, section + tolerance)
    depths = Span(depth_min, (depth_min + depth_max) / 2, depth_max)
    percent = span(plain_squeeze, cross_section_mm=sections, gland_depth_mm=depths)
    low = column.startswith("squeeze_min")
    value, of = (percent.low, sections.low) if low else (percent.high, sections.high)
    return value if column.endswith("percent") else value / 100 * of


def shipped_rows(row: Row) -> list[SqueezeRow]:
    """The guidance rows shipped for the section of a printed row."""
    section = float(row["cross_section"]) * MM_PER[row["unit"]]
    return [
        one
        for one in published_guidance().squeeze
        if (one.guidance, one.gland, one.motion) == (row["guidance"], row["gland"], row["motion"])
        and abs(one.cross_section_mm - section) < EXACT
    ]


@pytest.mark.parametrize(("row", "column"), printed(differing=False))
def test_plain_squeeze_gives_the_printed_cell(row: Row, column: str) -> None:
    """Smallest and largest squeeze follow from the printed section, tolerance and depths."""
    assert computed(row, column) == pytest.approx(float(row[column]), abs=half_digit(row[column]) + EXACT)


@pytest.mark.parametrize(("row", "column"), printed(differing=True))
def test_a_cell_known_not_to_follow_still_differs(row: Row, column: str) -> None:
    """A cell named as not reproducible differs from the sum by more than half of its last digit."""
    assert abs(computed(row, column) - float(row[column])) > half_digit(row[column]) + EXACT


@pytest.mark.parametrize(
    ("row", "column"),
    printed(differing=False, guidance=True, columns=("squeeze_min_percent", "squeeze_max_percent")),
)
def test_the_band_a_ring_is_judged_by_is_the_printed_one(row: Row, column: str) -> None:
    """The band worked out from a shipped guidance row is the percent its page prints."""
    (shipped,) = shipped_rows(row)
    low, high = squeeze_band(shipped)
    found = low if column == "squeeze_min_percent" else high
    assert found == pytest.approx(float(row[column]), abs=half_digit(row[column]) + EXACT)


@pytest.mark.parametrize(
    "row", [pytest.param(row, id=row["case"]) for row in ROWS if row["guidance"] and not row["differs"]]
)
def test_the_shipped_depths_are_the_printed_ones(row: Row) -> None:
    """Section tolerance and depths of the shipped guidance row are those of the printed row."""
    (shipped,) = shipped_rows(row)
    mm = MM_PER[row["unit"]]
    assert shipped.cross_section_tolerance_mm == pytest.approx(float(row["cross_section_tolerance"]) * mm)
    assert shipped.depth_min_mm == pytest.approx(float(row["depth_min"]) * mm)
    assert shipped.depth_max_mm == pytest.approx(float(row["depth_max"]) * mm)


def test_the_misprinted_section_138_is_that_of_139() -> None:
    """The chart's row for .138 in gives its printed .012 in, .022 in and 9 % with the standard .139 in."""
    row = next(row for row in ROWS if row["cross_section"] == "0.138") | {"cross_section": "0.139"}
    assert computed(row, "squeeze_min") == pytest.approx(0.012, abs=0.0005)
    assert computed(row, "squeeze_max") == pytest.approx(0.022, abs=0.0005)
    assert computed(row, "squeeze_min_percent") == pytest.approx(9, abs=0.5)


def test_the_inch_chart_judges_the_standard_section_by_the_printed_squeeze() -> None:
    """A .139 in section is judged by the printed smallest squeeze, 9 %, not by the misprinted .138 in."""
    (shipped,) = (
        row
        for row in published_guidance().squeeze
        if row.guidance == "inch-chart" and 0.130 < row.cross_section_mm / 25.4 < 0.145
    )
    assert squeeze_band(shipped)[0] == pytest.approx(9, abs=0.5)


def test_every_row_cites_its_page_and_every_difference_its_reason() -> None:
    """No row is without source and locator; a reason stands where, and only where, a cell differs."""
    assert all(row["source"] and row["locator"] for row in ROWS)
    assert all(bool(row["differs"]) is bool(row["reason"]) for row in ROWS)
    assert len({row["case"] for row in ROWS}) == len(ROWS)


def test_the_rows_are_the_ones_that_were_read() -> None:
    """The file is pinned by rows per table and by the sum of every printed column."""
    assert Counter(row["source"].split(",")[0] for row in ROWS) == {
        "Apple Rubber Seal Design Guide": 18,
        "engineersedge.com": 4,
        "ponnmachine.com/groove_design.html": 16,
        "seal.valqua.co.jp/seal/gasket_detail_size/12144": 40,
    }
    sums = {column: sum(Decimal(row[column]) for row in ROWS if row[column]) for column in CELLS}
    assert sums == {
        "squeeze_min": Decimal("19.087"),
        "squeeze_max": Decimal("32.320"),
        "squeeze_min_percent": Decimal("783.0"),
        "squeeze_max_percent": Decimal("1323.05"),
    }
