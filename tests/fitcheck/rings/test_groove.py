"""Clearance, side room and held section, by hand."""

from __future__ import annotations

import pytest

from fitcheck.rings.groove import diametral_clearance, section_in_groove, side_room


def test_clearance_is_diametral() -> None:
    """The whole difference of the diameters counts: hard over it lies on one side."""
    assert diametral_clearance(outer_diameter_mm=31.5, inner_diameter_mm=31.25) == 0.25


@pytest.mark.parametrize(("back_ups", "room"), [(0.0, 1.5), (1.0, 0.5), (2.0, -0.5)])
def test_back_up_rings_take_side_room(back_ups: float, room: float) -> None:
    """5 mm of groove less 3.5 mm of section less the back-up rings; below zero they do not enter."""
    assert side_room(groove_width_mm=5.0, cross_section_mm=3.5, back_up_width_mm=back_ups) == room


def test_three_quarters_of_the_section_in_the_groove() -> None:
    """A wall of 3 mm holds 75 % of a 4 mm section."""
    assert section_in_groove(wall_height_mm=3.0, cross_section_mm=4.0) == 75.0
