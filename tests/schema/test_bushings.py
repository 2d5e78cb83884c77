"""Bushings, their seats, shafts and pistons as models: what they take and what they refuse."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from schema.bushing_tables import (
    elastic_constants,
    expansions,
    family_of_material,
    figure,
    fit_row,
    fitted_clearance,
    largest_wrapped_outside,
    published_wall,
    wrapped_clearance,
)
from schema.bushings import FAMILIES, BushingSeat, PlainBushing
from schema.errors import InputErrors
from schema.fields import read_model
from schema.kinds import model_of
from schema.shafts import Piston, Shaft

WRAPPED = {
    "style": "wrapped",
    "inside_diameter": "16 mm",
    "outside_diameter": "18 mm",
    "wall": "0.980..1.005 mm",
}


def bushing(**fields: Any) -> PlainBushing:
    return read_model(PlainBushing, {**WRAPPED, **fields}, path="part")


def seat(**fields: Any) -> BushingSeat:
    return read_model(BushingSeat, fields, path="place")


@pytest.mark.parametrize(
    ("model", "given", "told"),
    [
        (PlainBushing, {"outside_diameter": "15 mm"}, "outside_diameter: is not larger than inside_diameter"),
        (PlainBushing, {"wall": "2.0 mm"}, "wall: does not go with 16 mm inside and 18 mm outside"),
        (PlainBushing, {"wall": "9.5 mm", "inside_diameter": None}, "wall: is more than half of outside"),
        (PlainBushing, {"lining_thickness": "1.1 mm"}, "lining_thickness: is not less than wall"),
        (PlainBushing, {"flange_diameter": "17 mm"}, "flange_diameter: is not larger than outside_diameter"),
        (
            PlainBushing,
            {"style": "solid", "ring_gauge_diameter": "18.04 mm"},
            "ring_gauge_diameter: only a wrapped bushing is checked so",
        ),
        (PlainBushing, {"style": "rolled"}, "style: this is not one of the words it may be"),
        (PlainBushing, {"body": "oak"}, "body: this is not one of the words it may be"),
        (PlainBushing, {"elastic_modulus": "110 MPa"}, "is absurd here; is the unit right?"),
    ],
)
def test_a_bushing_that_cannot_be_is_refused(model: type, given: dict[str, Any], told: str) -> None:
    """Sizes that contradict each other are told with the field they are in."""
    with pytest.raises(InputErrors, match=r"part\.") as refused:
        read_model(model, {**WRAPPED, **given}, path="part")
    assert told in str(refused.value)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (
            {"housing_bore": "15 mm", "shaft_diameter": "16 mm"},
            "place.housing_bore: is not larger than shaft",
        ),
        (
            {"housing_bore": "18 mm", "housing_outside_diameter": "17 mm"},
            "place.housing_outside_diameter: is not larger than housing_bore",
        ),
        (
            {"housing_bore": "18 mm", "bore_as_fitted": "18.2 mm by bore gauge"},
            "place.bore_as_fitted: leaves no wall within housing_bore",
        ),
        ({"distance_since": "3000"}, "place.distance_since: needs what was measured before"),
        ({"hours_since": "0"}, "place.hours_since: this is not a number it may be"),
        ({"metal": "wood"}, "place.metal: this is not one of the words it may be"),
    ],
)
def test_a_seat_that_cannot_be_is_refused(given: dict[str, Any], told: str) -> None:
    """Contradictions of a seat are told with the field they are in."""
    with pytest.raises(InputErrors) as refused:
        seat(**given)
    assert told in str(refused.value)


def test_shafts_and_pistons_refuse_what_cannot_be() -> None:
    """A wear limit above the new size, and a piston inside its own bore."""
    with pytest.raises(InputErrors, match=r"part\.least_diameter: is above the diameter it has when new"):
        read_model(Shaft, {"outside_diameter": "16 f7 mm", "least_diameter": "16.02 mm"}, path="part")
    worn = {"outside_diameter": "15.93 mm by micrometer", "least_diameter": "15.94 mm"}
    assert read_model(Shaft, worn, path="part").outside_diameter is not None  # worn, not absurd
    with pytest.raises(InputErrors, match=r"part\.outside_diameter: is not larger than bore_diameter"):
        read_model(Piston, {"outside_diameter": "8 mm", "bore_diameter": "10 mm"}, path="part")


@pytest.mark.parametrize(
    ("kind", "model"),
    [("plain_bushing", PlainBushing), ("bushing_seat", BushingSeat), ("shaft", Shaft), ("piston", Piston)],
)
def test_each_kind_is_found_by_its_name(kind: str, model: type) -> None:
    """The registry of kinds leads to these models."""
    assert model_of(kind) is model


@pytest.mark.parametrize(
    ("text", "family"),
    [
        ("PTFE-lined steel", "steel"),
        ("PTFE-lined bronze", "bronze"),
        ("sintered bronze", "sintered_bronze"),
        ("POM", "POM"),
        ("filled PTFE", "PTFE"),
        ("Nylon", "PA"),
        ("oak", ""),
        ("", ""),
    ],
)
def test_a_material_in_words_has_its_family(text: str, family: str) -> None:
    """What carries the bushing decides, not its lining."""
    assert family_of_material(text) == family


def test_what_carries_a_bushing_can_be_told_outright() -> None:
    """``body`` leads over the words of the material, and every word it may be is a known family."""
    assert bushing(body="bronze", material="PTFE-lined steel").family == "bronze"
    assert {bushing(body=one).family.lower() for one in FAMILIES} == set(FAMILIES)
    assert set(expansions()) == {bushing(body=one).family for one in FAMILIES}


def test_ranges_of_constants_are_in_order() -> None:
    """Low, usual, high, for stiffness, expansion and every other figure."""
    for one in elastic_constants().values():
        assert list(one.modulus) == sorted(one.modulus)
        assert list(one.poisson) == sorted(one.poisson)
    for expansion in expansions().values():
        assert expansion.low <= expansion.middle <= expansion.high
    for name in ("friction", "flattening", "lining_loss_lined", "shop_wear_factor"):
        assert figure(name).low <= figure(name).middle <= figure(name).high


@pytest.mark.parametrize(
    ("inside", "outside", "grade"),
    [
        ("16", "18", "published_once"),
        ("8", "10", "derived"),
        ("20", "23", "derived"),
        ("30", "34", "from_memory"),
        ("15", "18", None),
        ("12.7", "15.08", None),
        ("2", "3.5", None),
        ("29", "33", None),
    ],
)
def test_a_wall_comes_from_its_row_or_its_neighbour_or_not_at_all(
    inside: str, outside: str, grade: str | None
) -> None:
    """Nothing is carried beyond the printed rows, nor to a size of which another outside is printed."""
    wall = published_wall(Decimal(inside), Decimal(outside))
    assert (None if wall is None else wall.grade) == grade
    assert (wrapped_clearance(Decimal(inside), Decimal(outside)) is None) is (grade is None)


def test_steps_of_the_classes_include_their_end() -> None:
    """4 mm is the last of H6, and 18 mm the last of its step of outside diameters."""
    at_4, above = fit_row("wrapped", Decimal(4), Decimal("5.5")), fit_row("wrapped", Decimal(5), Decimal(7))
    assert at_4 is not None
    assert above is not None
    assert (at_4.housing, above.housing) == ("H6", "H7")
    at_18, at_19 = largest_wrapped_outside(Decimal(18)), largest_wrapped_outside(Decimal(19))
    assert at_18 is not None
    assert at_19 is not None
    assert (at_18.high, at_19.high) == (18.065, 19.075)
    assert largest_wrapped_outside(Decimal(8)) is None


def test_a_bimetal_bushing_has_h9_once_pressed() -> None:
    """Bore H9 with shafts f7 to e7, printed by one maker: 16 to 93 um at 16 mm."""
    band = fitted_clearance("wrapped_metal", Decimal(16), Decimal(18))
    assert band is not None
    assert 1000 * band.low == pytest.approx(16)
    assert 1000 * band.high == pytest.approx(93)


def test_a_size_beyond_the_classes_has_no_band() -> None:
    """Below the smallest solid bushing of the standard there is none."""
    assert fitted_clearance("solid", Decimal(5), Decimal(8)) is None
    assert fitted_clearance("sintered", Decimal(12), Decimal(16)) is None  # no class of shaft
