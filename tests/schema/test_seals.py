"""Seals, wipers, guide rings and their places are read from texts, and contradictions are refused."""

from __future__ import annotations

from typing import Any

import pytest

from schema.errors import InputErrors
from schema.fields import read_model
from schema.model import Model
from schema.seal_tables import press_band, shaft_band
from schema.seals import GuideRing, GuideRingGroove, LipSeal, Wiper, WiperSeat


@pytest.mark.parametrize(
    ("model", "given", "told"),
    [
        (
            LipSeal,
            {"outside_diameter": "31 ±0.1 mm", "inside_diameter": "42 ±0.1 mm"},
            "part.outside_diameter: is not larger than inside_diameter (42 ±0.1 mm)",
        ),
        (
            LipSeal,
            {"made_for_shaft": "42 mm", "made_for_bore": "32 mm"},
            "part.made_for_bore: is not larger than made_for_shaft (42 mm)",
        ),
        (
            Wiper,
            {"width": "9.0 ±0.1 mm", "total_height": "6 ±0.1 mm"},
            "part.total_height: is below the width in the seat",
        ),
        (Wiper, {"case": "leather"}, "part.case: this is not one of the words it may be"),
        (
            GuideRing,
            {"thickness": "36 mm", "outside_diameter": "2.5 mm"},
            "part.thickness: 36 mm is absurd here",
        ),
        (
            GuideRing,
            {"thickness": "9 mm", "outside_diameter": "32 mm"},
            "part.thickness: leaves no ring of 32 mm; are the two exchanged?",
        ),
        (
            WiperSeat,
            {"housing_bore": "32 H8 mm", "shaft_diameter": "42 h8 mm"},
            "place.housing_bore: is not larger than shaft_diameter",
        ),
        (WiperSeat, {"wanted_press": "0.2 mm"}, "place.wanted_press: is one value"),
        (
            WiperSeat,
            {"shaft_hardness_hrc": "850"},
            "place.shaft_hardness_hrc: this is not a number it may be",
        ),
        (
            GuideRingGroove,
            {"bore_diameter": "36 H8 mm", "shaft_diameter": "16 f7 mm"},
            "place.shaft_diameter: is given beside bore_diameter",
        ),
        (
            GuideRingGroove,
            {"bore_diameter": "36 H8 mm", "groove_diameter": "40 h8 mm"},
            "place.bore_diameter: is not larger than groove_diameter",
        ),
        (
            GuideRingGroove,
            {"shaft_diameter": "16 f7 mm", "groove_diameter": "21 H8 mm", "land_diameter": "22 mm"},
            "place.groove_diameter: is not larger than land_diameter",
        ),
    ],
)
def test_a_contradiction_is_refused_with_its_field(
    model: type[Model], given: dict[str, Any], told: str
) -> None:
    """Sizes that no seal, ring or housing can have are refused, by field and with what they contradict."""
    with pytest.raises(InputErrors) as caught:
        read_model(model, given, path=told.partition(".")[0])
    assert told in str(caught.value)


def test_all_bad_fields_of_a_part_are_told_at_once() -> None:
    """Three unusable texts make three messages."""
    with pytest.raises(InputErrors) as caught:
        read_model(LipSeal, {"width": "5", "lips": "three", "hight": "4 mm"}, path="part")
    assert [error.field for error in caught.value.errors] == ["part.width", "part.lips", "part.hight"]


def test_a_guide_ring_groove_knows_its_side() -> None:
    """A bore makes it a piston's groove, a shaft a rod's; without either nothing is guessed."""
    assert [
        read_model(GuideRingGroove, given, path="place").side
        for given in ({"bore_diameter": "36 H8 mm"}, {"shaft_diameter": "16 f7 mm"}, {})
    ] == ["piston", "rod", ""]


@pytest.mark.parametrize(
    ("unit", "case", "bore"), [("mm", "foam", 42.0), ("mm", "metal", 5.0), ("in", "metal", 120.0)]
)
def test_a_table_does_not_reach_beyond_its_rows(unit: str, case: str, bore: float) -> None:
    """No band is made up for a case or a bore that no row has."""
    assert press_band(unit, case, bore) is None


def test_a_band_includes_the_upper_end_of_its_step_and_not_the_lower() -> None:
    """Over 30 up to 50: a bore of 50 is in it, one of 30 in the step before."""
    upper, lower = press_band("mm", "metal", 50.0), press_band("mm", "metal", 30.0)
    assert upper is not None
    assert lower is not None
    assert (upper.bore_high_mm, lower.bore_high_mm) == (0.039, 0.033)


def test_a_shaft_in_inches_takes_the_rod_band_of_its_own_step() -> None:
    """The inch table has one row up to 3 in; f8 is that of the metric step the rod falls into."""
    half_inch, inch_and_half = shaft_band("in", 12.7), shaft_band("in", 38.1)
    assert half_inch is not None
    assert inch_and_half is not None
    assert (half_inch.rod_low_mm, inch_and_half.rod_low_mm) == (-0.043, -0.064)
    assert shaft_band("mm", 4.0) is None
