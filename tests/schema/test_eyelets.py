"""Eyelets, their hardware and bearings as models, and the tables of bearings."""

from __future__ import annotations

import pytest

from schema.bearing_tables import bearing_row, deviation, seat_classes
from schema.bearings import Bearing
from schema.errors import InputErrors
from schema.eyelet_tables import eyelet_limits
from schema.eyelets import Eyelet, EyeletHardware
from schema.fields import read_model


def bearing(**texts: str) -> Bearing:
    return read_model(Bearing, texts, path="part")


@pytest.mark.parametrize(
    ("number", "bore", "outside", "widths"),
    [
        ("6800", 10.0, 19.0, (5.0,)),
        ("6800-2RS", 10.0, 19.0, (5.0,)),
        ("6902 LLU", 15.0, 28.0, (7.0,)),
        ("688", 8.0, 16.0, (4.0, 5.0, 6.0)),
        ("GE 4 E", 4.0, 12.0, (5.0,)),
        ("hk0810", 8.0, 12.0, (10.0,)),
    ],
)
def test_a_number_finds_its_sizes(
    number: str, bore: float, outside: float, widths: tuple[float, ...]
) -> None:
    """Whatever a maker adds for seals, the number gives bore, outside and the widths it is sold in."""
    row = bearing_row(number)
    assert row is not None
    assert (row.bore, row.outside, row.widths) == (bore, outside, widths)


@pytest.mark.parametrize("number", ["684", "685", "686", "687", "688"])
def test_five_numbers_do_not_fix_the_width(number: str) -> None:
    """684 to 688 are sold in more than one width, so the width is not taken from the number."""
    assert "width" not in bearing(designation=number).known_sizes()
    assert "width" in bearing(designation="6800").known_sizes()


def test_a_bare_nominal_gets_class_normal() -> None:
    """A 6800 is 10 0/-0.008, 19 0/-0.009 and 5 0/-0.12 mm; a toleranced size stays as it was given."""
    sizes = bearing(designation="6800").known_sizes()
    told = {name: (float(size.lower), float(size.upper)) for name, size in sizes.items()}
    assert told == {
        "inside_diameter": (9.992, 10.0),
        "outside_diameter": (18.991, 19.0),
        "width": (4.88, 5.0),
    }
    own = bearing(designation="6800", width="4.95 ±U0.01 mm").known_sizes()["width"]
    assert own.measured


def test_a_size_without_number_gets_no_tolerance() -> None:
    """Nobody said that it is a bearing of class Normal."""
    assert not bearing(inside_diameter="10 mm").known_sizes()["inside_diameter"].toleranced


@pytest.mark.parametrize("number", ["6701", "GE 12 E", "HK1210"])
def test_rows_from_memory_or_disputed_are_not_taken(number: str) -> None:
    """They give no size; what is measured leads."""
    assert bearing(designation=number).known_sizes() == {}


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        ({"designation": "6800", "outside_diameter": "22 mm"}, "6800 is 10 x 19 mm"),
        ({"designation": "688", "width": "7 mm"}, "4 or 5 or 6 mm wide"),
        ({"designation": "6800", "style": "spherical"}, "is a deep_groove bearing"),
        ({"inside_diameter": "20 mm", "outside_diameter": "19 mm"}, "not larger than inside_diameter"),
    ],
)
def test_a_bearing_that_contradicts_its_number_is_refused(texts: dict[str, str], message: str) -> None:
    """The refusal tells the sizes of that number."""
    with pytest.raises(InputErrors, match=message):
        bearing(**texts)


@pytest.mark.parametrize(
    ("style", "size", "at", "lower"),
    [
        ("deep_groove", "bore", 10.0, -8.0),
        ("deep_groove", "bore", 20.0, -10.0),
        ("deep_groove", "outside", 18.0, -8.0),
        ("deep_groove", "outside", 19.0, -9.0),
        ("deep_groove", "outside", 32.0, -11.0),
        ("spherical", "outer_width", 22.0, -240.0),
    ],
)
def test_tolerances_of_class_normal(style: str, size: str, at: float, lower: float) -> None:
    """Steps end where two makers' pages end them: 18 is still -8 um, 19 is -9."""
    found = deviation(style, size, at)
    assert found is not None
    assert found.lower_um == lower


def test_what_no_page_gives_is_none() -> None:
    """Needle bearings have no tolerance of their outside, and 200 mm is beyond the tables."""
    assert deviation("needle", "outside", 12.0) is None
    assert deviation("deep_groove", "bore", 200.0) is None


def test_light_alloy_is_asked_for_tighter_seats() -> None:
    """Spherical bearings: M7 and N7 in light alloy, H7 to M7 in steel."""
    named = {
        metal: {one.tolerance_class for one in seat_classes("spherical", "housing", metal)}
        for metal in ("steel", "aluminium")
    }
    assert named == {"steel": {"H7", "K7", "M7"}, "aluminium": {"N7", "M7"}}


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        ({"outside_diameter": "8 mm", "inside_diameter": "8.1 mm"}, "not smaller than outside_diameter"),
        ({"inside_diameter": "8.1 mm", "bolt_diameter": "10 mm"}, "does not go through inside_diameter"),
        ({"style": "pin_set", "width": "24 mm", "length": "25 mm"}, "longer than the whole pin"),
        ({"style": "bolt"}, "not one of the words"),
    ],
)
def test_hardware_that_contradicts_itself_is_refused(texts: dict[str, str], message: str) -> None:
    """Each refusal names its field and what contradicts what."""
    with pytest.raises(InputErrors, match=message):
        read_model(EyeletHardware, texts, path="part")


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        ({"bore": "15 mm", "outside_diameter": "14 mm"}, "not larger than bore"),
        ({"bore": "15 mm", "bore_as_fitted": "15.1 mm"}, "not larger than bore_as_fitted"),
        ({"width": "25 mm", "mount_width": "24 mm"}, "the eyelet alone"),
        ({"side_play": "0.5 mm"}, "from the least to the most"),
    ],
)
def test_an_eyelet_that_contradicts_itself_is_refused(texts: dict[str, str], message: str) -> None:
    """Each refusal names its field and what contradicts what."""
    with pytest.raises(InputErrors, match=message):
        read_model(Eyelet, texts, path="place")


def test_a_part_with_a_thickness_alone_is_a_washer() -> None:
    """A thickness without a width needs no style."""
    assert read_model(EyeletHardware, {"thickness": "0.5 mm"}, path="part").found_style == "washer"
    assert read_model(EyeletHardware, {"width": "24 mm"}, path="part").found_style == ""


def test_what_rests_on_practice_is_marked_so() -> None:
    """The usual side play is from memory and never proves a fit; geometry is derived."""
    limits = eyelet_limits()
    assert limits["side_gap"].grade == "from_memory"
    assert {limits[name].grade for name in ("eyelet_float", "spigot_room", "bolt_clearance")} == {"derived"}
