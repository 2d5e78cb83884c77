"""Cells printed on published pages, corrected values and printed examples, one row per cell with its page.

Every comparison is exact: the printed values are whole or half micrometres, so the tolerance is zero.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from schema.errors import ToleranceClassError
from schema.iso286 import fit, standard_tolerance_um, tolerance_zone

Row = dict[str, str]
with Path(__file__).with_name("iso286_limits.csv").open(encoding="utf-8", newline="") as stream:
    ROWS: list[Row] = list(csv.DictReader(stream))


def of_kind(kind: str) -> list[object]:
    return [pytest.param(row, id=row["case"]) for row in ROWS if row["kind"] == kind]


def printed(row: Row, *columns: str) -> dict[str, Decimal]:
    """The values the page prints; a limit it does not print is left blank in the row."""
    return {column: Decimal(row[column]) for column in columns if row[column]}


@pytest.mark.parametrize("row", of_kind("zone"))
def test_limit_deviations_are_the_printed_ones(row: Row) -> None:
    """Each limit deviation a page prints is the one given for that class and size."""
    expected = printed(row, "lower_um", "upper_um")
    zone = tolerance_zone(row["class"], Decimal(row["size_mm"]))
    assert expected
    assert {name: getattr(zone, name) for name in expected} == expected


@pytest.mark.parametrize("row", of_kind("grade"))
def test_standard_tolerances_are_the_printed_ones(row: Row) -> None:
    """Each standard tolerance a page prints is the one given for that grade and size."""
    assert standard_tolerance_um(row["class"], Decimal(row["size_mm"])) == Decimal(row["width_um"])


@pytest.mark.parametrize("row", of_kind("fit"))
def test_clearances_are_the_printed_ones(row: Row) -> None:
    """Smallest and largest clearance of a printed example are met; interference is negative."""
    hole, shaft = (tolerance_zone(name, Decimal(row["size_mm"])) for name in row["class"].split("/"))
    found = fit(hole, shaft)
    expected = (Decimal(row["lower_um"]), Decimal(row["upper_um"]))
    assert (found.clearance_min_um, found.clearance_max_um) == expected


@pytest.mark.parametrize("row", of_kind("refused"))
def test_what_no_page_prints_is_refused(row: Row) -> None:
    """A dash or a footnote on the page is a refusal that names the reason."""
    with pytest.raises(ToleranceClassError, match=re.escape(row["refusal"])):
        tolerance_zone(row["class"], Decimal(row["size_mm"]))


def test_every_row_is_of_a_known_kind_and_cites_its_page() -> None:
    """No row escapes the tests above, and none is without a case name, source, locator and grade."""
    assert {row["kind"] for row in ROWS} == {"zone", "grade", "fit", "refused"}
    assert all(row[name] for row in ROWS for name in ("case", "source", "locator"))
    assert {row["grade"] for row in ROWS} == {"standard", "handbook", "maker_sheet", "derived"}


def test_the_rows_are_the_ones_that_were_read() -> None:
    """The file is pinned by its count of each kind, and its cases have different names."""
    assert Counter(row["kind"] for row in ROWS) == {"zone": 1216, "grade": 234, "fit": 6, "refused": 22}
    assert len({row["case"] for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize(
    ("designation", "size_mm", "side", "misprint_um"),
    [
        ("A13", "355", "upper_um", 2000),
        ("E8", "100", "upper_um", 125),
        ("R10", "24", "upper_um", -10),
        ("f9", "300", "lower_um", -185),
        ("U8", "225", "upper_um", -256),
        ("X8", "400", "upper_um", -650),
        ("N8", "25", "upper_um", -15 + 4),
    ],
)
def test_known_misprints_are_not_repeated(
    designation: str, size_mm: str, side: str, misprint_um: int
) -> None:
    """Values that ISO 286-2:1988 and later books are known to have misprinted are not given."""
    assert getattr(tolerance_zone(designation, Decimal(size_mm)), side) != misprint_um
