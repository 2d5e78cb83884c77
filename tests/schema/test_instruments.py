"""Instruments: their names, their usual error, and the uncertainty made from it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.errors import UnknownName
from schema.instruments import instrument, instruments

SPELLINGS = [
    pytest.param(one.key, spelling, id=spelling)
    for one in instruments().values()
    for spelling in dict.fromkeys((one.key, one.name, *one.spellings))
]


@pytest.mark.parametrize(("key", "spelling"), SPELLINGS)
def test_every_name_finds_its_instrument(key: str, spelling: str) -> None:
    """Key, name and every spelling lead to the instrument, as the text of the refusal promises."""
    assert instrument(spelling).key == key


@pytest.mark.parametrize("text", ["Digital-Caliper", "  MICROMETER ", "three-point  bore gage"])
def test_case_hyphens_and_spaces_do_not_matter(text: str) -> None:
    """A name is found in any case, with hyphens or spaces."""
    assert instrument(text).key in instruments()


@pytest.mark.parametrize("key", instruments())
def test_the_uncertainty_is_that_of_a_rectangular_distribution(key: str) -> None:
    """u is the error limit over the square root of three (JCGM 100:2008, 4.3.7)."""
    tool = instruments()[key]
    assert float(tool.standard_uncertainty_mm) == pytest.approx(
        float(tool.maximum_permissible_error_mm) / 3**0.5
    )


@pytest.mark.parametrize(
    ("key", "error_mm"),
    [
        pytest.param("calliper", "0.02", id="digital and 0.02 vernier"),
        pytest.param("calliper_inside", "0.04", id="0.02 more inside"),
        pytest.param("depth_rod", "0.04", id="0.02 more for depth"),
        pytest.param("micrometer", "0.004", id="0 to 25 mm"),
    ],
)
def test_the_error_limits_are_the_printed_ones(key: str, error_mm: str) -> None:
    """DIN 862 and DIN 863 (one-page extract, scribd 564783692) print these limits."""
    assert instruments()[key].maximum_permissible_error_mm == Decimal(error_mm)


@pytest.mark.parametrize("key", instruments())
def test_what_an_instrument_becomes_on_rubber_is_known_and_no_better(key: str) -> None:
    """On rubber an instrument becomes a known one whose error is not smaller."""
    tool = instruments()[key]
    on_rubber = instruments()[tool.on_rubber or key]
    assert on_rubber.maximum_permissible_error_mm >= tool.maximum_permissible_error_mm


@pytest.mark.parametrize("key", instruments())
def test_an_instrument_says_where_its_error_comes_from(key: str) -> None:
    """Every error limit has a source; common practice says that it is no more than that."""
    tool = instruments()[key]
    assert tool.source
    assert tool.grade == ("common_practice" if "no source" in tool.source else "published_once")


def test_no_spelling_belongs_to_two_instruments() -> None:
    """One name, one instrument."""
    spellings = [spelling for one in instruments().values() for spelling in one.spellings]
    assert len(set(spellings)) == len(spellings)


@pytest.mark.parametrize("name", ["", "ruler", "eye", "😀", "calliper; DROP TABLE", "x" * 100_000])
def test_an_unknown_instrument_is_refused(name: str) -> None:
    """An unknown instrument is refused with the known ones and the way around them."""
    with pytest.raises(UnknownName, match=r"this instrument is not known.*or give U"):
        instrument(name)


def test_near_names_are_told() -> None:
    """A slip of the pen is answered with the nearest names."""
    with pytest.raises(UnknownName, match="Near: ") as caught:
        instrument("calipper")
    assert {"calliper", "caliper"} & set(caught.value.nearest)
