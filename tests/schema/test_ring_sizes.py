"""Sizes of standards: their codes, limits, grades, and what is refused."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.errors import InputError, UnknownName
from schema.ring_sizes import (
    GRADES,
    RingSize,
    as568_codes,
    class_b_inside_diameter_tolerance_mm,
    class_b_section_tolerance_mm,
    ring_size,
)
from schema.tables import rows

D = Decimal


@pytest.mark.parametrize(
    "code", ["214", "-214", "AS568-214", "as568 214", "AS568A-214", "AS 568-214", "AS568_214", " AS568-214 "]
)
def test_an_as568_code_may_be_written_many_ways(code: str) -> None:
    """All ways to write a dash number lead to the same size."""
    assert ring_size(code).code == "AS568-214"


def test_leading_zeros_of_a_dash_number_may_be_left_out() -> None:
    """-6 is -006."""
    assert ring_size("6") == ring_size("AS568-006")


def test_inches_become_exact_millimetres() -> None:
    """.984 +/-.010 x .139 +/-.004 in is 24.9936 +/-0.254 x 3.5306 +/-0.1016 mm, not a rounded column."""
    size = ring_size("214")
    assert (size.inside_diameter.lower, size.inside_diameter.upper) == (D("24.7396"), D("25.2476"))
    assert (size.cross_section.lower, size.cross_section.upper) == (D("3.4290"), D("3.6322"))


@pytest.mark.parametrize(
    "code", ["20x2.65", "20 x 2,65", "20×2.65 mm", "ISO3601-B 20x2.65", "ISO 3601-1 class B 20x2.65"]
)
def test_a_metric_size_is_read_as_class_b(code: str) -> None:
    """20 x 2.65 mm is ISO 3601-1 class B: +/-0.26 on the diameter, +/-0.09 on the section (rtdygert.com)."""
    size = ring_size(code)
    assert (size.inside_diameter.lower, size.inside_diameter.upper) == (D("19.74"), D("20.26"))
    assert (size.cross_section.lower, size.cross_section.upper) == (D("2.56"), D("2.74"))


@pytest.mark.parametrize(
    ("inch", "metric"), [("1.78", "1.80"), ("2.62", "2.65"), ("3.53", "3.55"), ("5.33", "5.30")]
)
def test_inch_and_metric_sections_stay_apart(inch: str, metric: str) -> None:
    """1.78 and 1.80 mm are different sections and are not folded into one."""
    sections = [ring_size(f"20x{section}").cross_section.nominal for section in (inch, metric)]
    assert sections == [D(inch), D(metric)]


@pytest.mark.parametrize(
    ("row"),
    [pytest.param(row, id=f"{row['standard']}-{row['code']}") for row in rows("other_ring_sizes")],
)
def test_every_shipped_size_is_found_by_its_code(row: dict[str, str]) -> None:
    """Each shipped size of another standard is found, with its printed diameter and section."""
    size = ring_size(f"{row['standard']}-{row['code']}")
    assert size.inside_diameter.nominal == D(row["inside_diameter_mm"])
    assert size.cross_section.nominal == D(row["cross_section_mm"])


def test_a_size_without_printed_tolerance_says_so() -> None:
    """BS 4518 was read as a list of sizes without tolerances: the size is exact and graded so."""
    size = ring_size("BS4518-0031-16")
    assert not size.inside_diameter.toleranced
    assert size.grade == "no_tolerance"


def test_a_bs4518_reference_not_in_the_list_is_decoded_and_says_so() -> None:
    """0995-57 decodes to 99.5 x 5.7 mm, derived, without a tolerance."""
    size = ring_size("BS4518-0995-57")
    assert (size.inside_diameter.nominal, size.cross_section.nominal) == (D("99.5"), D("5.7"))
    assert size.inside_diameter_grade == "derived"
    assert size.grade == "no_tolerance"


@pytest.mark.parametrize("code", ["BS4518-0000-30", "BS4518-0545-00", "BS4518-0000-00"])
def test_a_bs4518_reference_of_nothing_is_refused(code: str) -> None:
    """A reference that decodes to a diameter or a section of zero is no ring."""
    with pytest.raises(InputError, match="size"):
        ring_size(code)


@pytest.mark.parametrize("code", as568_codes())
def test_every_as568_size_is_whole(code: str) -> None:
    """Every size has limits about its nominal, a known grade for each figure, and a source."""
    size = ring_size(code)
    assert 0 < size.inside_diameter.lower < size.inside_diameter.nominal < size.inside_diameter.upper
    assert 0 < size.cross_section.lower < size.cross_section.nominal < size.cross_section.upper
    assert {size.inside_diameter_grade, size.tolerance_grade} <= set(GRADES)
    assert size.source.removeprefix("AS568: ")


@pytest.mark.parametrize("first", GRADES)
@pytest.mark.parametrize("second", GRADES)
def test_a_size_is_worth_its_weaker_figure(first: str, second: str) -> None:
    """The grade of a size is the later of its two grades in the list from best to worst."""
    known = ring_size("214")
    size = RingSize("", "", known.inside_diameter, known.cross_section, first, second, "")
    assert size.grade == GRADES[max(GRADES.index(first), GRADES.index(second))]


@pytest.mark.parametrize(
    "code",
    [
        "",
        " ",
        "x",
        "20x",
        "x2",
        "20x2.65x3",
        "-20x2",
        "1e400x2",
        "nanx2",
        "2140",
        "AS568-",
        "JIS-Z3",
        "BS4518-1-2",
        "😀",
        "214; DROP TABLE",
        "\u200f214",
        "214\x00",
        "9" * 100_000,
    ],
    ids=lambda code: repr(code[:20]),
)
def test_what_is_no_code_is_refused(code: str) -> None:
    """A text that is no size code is refused with the ways a code may be written."""
    with pytest.raises(UnknownName, match="size"):
        ring_size(code)


@pytest.mark.parametrize(
    "code", ["0x2", "20x0", "20x0.4", "20x8.5", "661x5", "999999999999x3", "20x99999999"]
)
def test_sizes_outside_class_b_are_refused(code: str) -> None:
    """Class B covers diameters to 660 and sections of 0.5 to 8.4 mm."""
    with pytest.raises(InputError, match="outside the sizes of ISO 3601-1 class B"):
        ring_size(code)


def test_near_dash_numbers_are_named() -> None:
    """A dash number that does not exist is refused with the nearest ones."""
    with pytest.raises(UnknownName, match="Near: AS568-284") as caught:
        ring_size("285")
    assert caught.value.nearest[0] == "AS568-284"


def test_near_codes_of_other_standards_are_named() -> None:
    """A JIS size that was not found in print is refused with the nearest ones."""
    with pytest.raises(UnknownName, match=r"was not found in print.*Near: JIS-G"):
        ring_size("JIS-G26")


def test_class_b_rises_with_the_diameter() -> None:
    """A larger ring never has a smaller class B tolerance."""
    tolerances = [class_b_inside_diameter_tolerance_mm(D(size)) for size in range(1, 661)]
    assert tolerances == sorted(tolerances)


def test_class_b_knows_no_section_beyond_its_table() -> None:
    """Beyond 8.40 mm nothing is printed."""
    assert class_b_section_tolerance_mm(D("8.41")) is None


def test_the_other_sizes_are_pinned() -> None:
    """28 sizes of BS 4518 and 57 of JIS B 2401, with the sums of what was read."""
    table = rows("other_ring_sizes")
    assert [row["standard"] for row in table].count("BS4518") == 28
    assert [row["standard"] for row in table].count("JIS") == 57
    jis = [row for row in table if row["standard"] == "JIS" and row["inside_diameter_tolerance_mm"]]
    assert len(jis) == 40
    assert sum(D(row["inside_diameter_mm"]) for row in jis) == D("6126.1")
    assert sum(D(row["inside_diameter_tolerance_mm"]) for row in jis) == D("47.53")
