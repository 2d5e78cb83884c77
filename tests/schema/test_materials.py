"""Elastomers and fluids: names, ranges, ratings."""

from __future__ import annotations

from collections import Counter

import pytest

from schema.errors import UnknownName
from schema.materials import fluid_code, fluid_ratings, fluids, material_code, materials
from schema.tables import rows


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("nitrile", "NBR"),
        ("Buna-N", "NBR"),
        ("nbr", "NBR"),
        ("  FKM ", "FKM"),
        ("fluorocarbon", "FKM"),
        ("silicone", "VMQ"),
        ("ethylene_propylene", "EPDM"),
        ("polyurethane", "AU"),
        ("acetal", "POM"),
    ],
)
def test_trade_names_lead_to_the_code(text: str, code: str) -> None:
    """A trade name in any case leads to the ISO 1629 or ISO 1043 code."""
    assert material_code(text) == code


@pytest.mark.parametrize("code", materials())
def test_a_material_is_found_by_code_and_by_name(code: str) -> None:
    """Code and full name of every material lead to it."""
    assert (material_code(code.lower()), material_code(materials()[code].name)) == (code, code)


@pytest.mark.parametrize("code", fluids())
def test_a_fluid_is_found_by_code_and_by_name(code: str) -> None:
    """Code and full name of every fluid lead to it."""
    assert (fluid_code(code), fluid_code(fluids()[code])) == (code, code)


def test_no_trade_name_belongs_to_two_materials() -> None:
    """One spelling, one material."""
    found = Counter(
        spelling for row in rows("materials") for spelling in {row["name"], *row["spellings"].split(";")}
    )
    assert [name for name, count in found.items() if count > 1] == []


@pytest.mark.parametrize("code", materials())
def test_the_narrow_range_lies_within_the_wide_one(code: str) -> None:
    """What every source allows lies within what at least one allows."""
    one = materials()[code]
    assert one.wide_deg_c[0] <= one.narrow_deg_c[0] < one.narrow_deg_c[1] <= one.wide_deg_c[1]


@pytest.mark.parametrize("code", materials())
def test_rubber_expands_more_than_metal(code: str) -> None:
    """Every material here expands more than aluminium, 23.1e-6 per K, and less than ten times rubber."""
    assert 23.1e-6 < materials()[code].linear_expansion_per_k < 5e-4


@pytest.mark.parametrize("code", materials())
def test_every_material_is_rated_against_every_fluid(code: str) -> None:
    """No pair of material and fluid is without a rating from 1 to 4 and its source."""
    ratings = [fluid_ratings()[code, fluid] for fluid in fluids()]
    assert {one.rating for one in ratings} <= {1, 2, 3, 4}
    assert all(one.source and one.grade for one in ratings)


@pytest.mark.parametrize(
    ("material", "fluid", "rating"),
    [
        pytest.param("EPDM", "mineral_oil", 4, id="agreed by every source read"),
        pytest.param("NBR", "mineral_oil", 1, id="Britannica, Handbook of Plastics Technologies table 4.2"),
        pytest.param("FKM", "mineral_oil", 1, id="Handbook of Plastics Technologies table 4.2"),
    ],
)
def test_ratings_that_every_source_agrees_on(material: str, fluid: str, rating: int) -> None:
    """What all sources agree on is rated so."""
    assert fluid_ratings()[material, fluid].rating == rating


def test_expansion_of_nbr_is_the_printed_one() -> None:
    """9.0e-5 per degF is 1.6e-4 per K (SAE AS5798, scope text)."""
    assert materials()["NBR"].linear_expansion_per_k == pytest.approx(9.0e-5 * 1.8, abs=0.5e-5)


@pytest.mark.parametrize("text", ["", "cheese", "rubber", "😀", "NBR; DROP TABLE", "x" * 50_000, "\x00"])
def test_an_unknown_material_is_refused(text: str) -> None:
    """A material that is not known is refused with the known codes."""
    with pytest.raises(UnknownName, match=r"this material is not known.*NBR"):
        material_code(text)


@pytest.mark.parametrize("text", ["", "custard", "brake", "😀", "x" * 50_000])
def test_an_unknown_fluid_is_refused(text: str) -> None:
    """A fluid that is not known is refused with the known codes."""
    with pytest.raises(UnknownName, match=r"this fluid is not known.*mineral_oil"):
        fluid_code(text)


def test_a_near_material_is_named() -> None:
    """A misspelt trade name is answered with the nearest known ones."""
    with pytest.raises(UnknownName, match="Near: nitrile"):
        material_code("nitril")


def test_the_tables_are_pinned() -> None:
    """Twelve materials, ten fluids, a rating for each pair, and the sum of the ratings."""
    table = fluid_ratings()
    assert (len(materials()), len(fluids()), len(table)) == (12, 10, 120)
    assert Counter(one.rating for one in table.values()) == RATINGS


RATINGS = {1: 79, 2: 19, 3: 9, 4: 13}
