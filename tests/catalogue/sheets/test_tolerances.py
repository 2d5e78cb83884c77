"""The tolerance of a size in a column of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.sheets.headers import read_header
from catalogue.sheets.lengths import tolerance_text, with_tolerance
from catalogue.sheets.mapping import Column, checked
from catalogue.sheets.problems import Problem
from catalogue.sheets.rows import RowReader
from schema.errors import InputError
from tests.catalogue.sheets.small_loads import rows

HEADER = ("Code", "ID", "ID tol", "CS", "CS tol", "Size")
COLUMNS = {
    "Code": "code",
    "ID": "inside_diameter mm",
    "ID tol": "inside_diameter_tolerance mm",
    "CS": "cross_section mm",
    "CS tol": "cross_section_tolerance mm",
    "Size": "size",
}


def read(*cells: str) -> RowReader | tuple[tuple[str, str], ...] | tuple[Problem, ...]:
    """The texts of the ring of one row, or what is wrong with it."""
    mapping = checked(
        supplier="Demo",
        columns={header: Column(header, *field.split()) for header, field in COLUMNS.items()},
        every={"kind": "o_ring", "material": "NBR", "hardness_shore_a": "70"},
    )
    found = RowReader(mapping, "", HEADER).read([2], [["A-1", *cells]], [0])
    return found.taken[0].article.texts if found.taken else found.refused[0].problems


@pytest.mark.parametrize(
    ("header", "field", "unit"),
    [
        ("ID tol", "inside_diameter_tolerance", ""),
        ("Tol. ID (mm)", "inside_diameter_tolerance", "mm"),
        ("Toleranz d2 [mm]", "cross_section_tolerance", "mm"),
        ("C/S ± in.", "cross_section_tolerance", "in"),
    ],
)
def test_a_header_names_the_tolerance_of_a_size(header: str, field: str, unit: str) -> None:
    """The word for a tolerance beside that of a size."""
    found = read_header(header)
    assert (found.options[:1], found.unit) == ((field,), unit)


def test_a_figure_behind_the_sign_names_no_column_of_tolerances() -> None:
    """``d1 ±0.1`` heads a column of sizes."""
    assert not any(one.endswith("_tolerance") for one in read_header("d1 ±0.1").options)


@pytest.mark.parametrize(
    ("cell", "text"),
    [("0.25", "±0.25 mm"), ("±0.25", "±0.25 mm"), ("+0.2/-0.1", "+0.2/-0.1 mm"), ("0.010 in", "±0.010 in")],
)
def test_a_tolerance_is_read_as_a_drawing_writes_it(cell: str, text: str) -> None:
    """A number alone is to both sides; the cell's own unit goes before the column's."""
    assert tolerance_text(cell, unit="mm") == text


def test_size_and_tolerance_make_one_text() -> None:
    """The ring has the limits that its two columns tell together."""
    texts = dict(read("20", "0.2", "3", "0.1", ""))  # type: ignore[arg-type]
    assert texts["inside_diameter"] == "20 ±0.2 mm"
    assert texts["cross_section"] == "3 ±0.1 mm"


def test_a_told_tolerance_goes_before_that_of_the_size_code() -> None:
    """A maker who works closer than the standard says so, and the standard's figure is not kept for it."""
    texts = dict(read("24.99", "0.15", "3.53", "", "214"))  # type: ignore[arg-type]
    assert texts["size"] == "AS568-214"
    assert texts["inside_diameter"] == "24.99 ±0.15 mm"
    assert "cross_section" not in texts


@pytest.mark.parametrize("cells", [("20", "0.5 in", "3", "", ""), ("20 ±0.1", "0.2", "3", "", "")])
def test_a_tolerance_that_cannot_belong_to_the_size_is_refused(cells: tuple[str, ...]) -> None:
    """Another unit, or a second tolerance."""
    assert all(isinstance(one, Problem) for one in read(*cells))  # type: ignore[union-attr]


def test_another_unit_is_told() -> None:
    """The message says that the units differ."""
    with pytest.raises(InputError, match="different units"):
        with_tolerance("20 mm", "±0.01 in", field="inside_diameter")


def test_a_zone_goes_with_the_size() -> None:
    """A tolerance class of ISO 286 in its own column."""
    assert with_tolerance("20 mm", "H7", field="inside_diameter") == "20 H7 mm"


def test_limits_are_stored(blank: Path) -> None:
    """What is stored of the size has the limits in mm."""
    from catalogue.sheets.loading import load_sheet
    from tests.catalogue.sheets.small_loads import sheet_of

    mapping = checked(
        supplier="Demo",
        columns={header: Column(header, *field.split()) for header, field in COLUMNS.items()},
        every={"kind": "o_ring", "material": "NBR", "hardness_shore_a": "70"},
    )
    with sheet_of(",".join(HEADER), "A-1,20,0.2,3,+0.1/-0,") as file:
        load_sheet(blank, file, mapping, apply=True)
    found = rows(blank, "SELECT dimension, lower_mm, upper_mm FROM part_dimension ORDER BY dimension")
    assert found == [("cross_section", 3.0, 3.1), ("inside_diameter", 19.8, 20.2)]
