"""Stretch, peripheral compression and interference, by hand."""

from __future__ import annotations

import pytest

from fitcheck.rings.stretch import peripheral_compression, shaft_interference, stretch


@pytest.mark.parametrize(("seat", "expected"), [(103.0, 3.0), (100.0, 0.0), (98.0, -2.0)])
def test_stretch_counts_from_the_free_diameter(seat: float, expected: float) -> None:
    """A 100 mm ring on 103 mm is stretched by 3 %; on 98 mm it is loose by 2 %."""
    assert stretch(seat_diameter_mm=seat, inside_diameter_mm=100.0) == pytest.approx(expected)


def test_compression_counts_from_the_free_outside_diameter() -> None:
    """94 x 3 mm is 100 mm outside; a groove of 98 mm compresses it by 2 %."""
    compression = peripheral_compression(
        inside_diameter_mm=94.0, cross_section_mm=3.0, groove_diameter_mm=98.0
    )
    assert compression == pytest.approx(2.0)


def test_a_ring_smaller_than_its_groove_has_negative_compression() -> None:
    """A groove wider than the ring's outside leaves it loose."""
    assert peripheral_compression(inside_diameter_mm=94.0, cross_section_mm=3.0, groove_diameter_mm=101.0) < 0


def test_interference_counts_from_the_ring_as_it_lies() -> None:
    """A 3 mm ring held by a 104 mm groove is 98 mm inside: a 99 mm shaft interferes by 1 mm."""
    interference = shaft_interference(
        shaft_diameter_mm=99.0, inside_diameter_mm=100.0, cross_section_mm=3.0, groove_diameter_mm=104.0
    )
    assert interference == pytest.approx(1.0)


def test_a_ring_loose_in_its_groove_counts_by_its_own_diameter() -> None:
    """A ring that does not reach the groove floor keeps its 100 mm: a 99 mm shaft does not touch it."""
    interference = shaft_interference(
        shaft_diameter_mm=99.0, inside_diameter_mm=100.0, cross_section_mm=3.0, groove_diameter_mm=108.0
    )
    assert interference == pytest.approx(-1.0)
