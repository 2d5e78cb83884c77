"""Fill by volumes: against solids of known volume."""

from __future__ import annotations

import math

import pytest

from fitcheck.rings.fill import face_fill, radial_fill, volume_growth


def torus(inside: float, section: float) -> float:
    """Volume of a torus by Pappus: section area times the length of its centre line."""
    return math.pi * section**2 / 4 * math.pi * (inside + section)


def test_a_radial_gland_of_twice_the_volume_is_half_full() -> None:
    """The fill of an annular gland is the torus over the annulus."""
    annulus = math.pi / 4 * (31.5**2 - 25.4**2) * 4.8
    fill = radial_fill(
        inside_diameter_mm=24.99,
        cross_section_mm=3.53,
        outer_diameter_mm=31.5,
        inner_diameter_mm=25.4,
        groove_width_mm=4.8,
    )
    assert fill == pytest.approx(100 * torus(24.99, 3.53) / annulus, rel=1e-12)


@pytest.mark.parametrize(("side", "inner", "outer"), [(1.0, 22.4, 32.0), (-1.0, 32.0, 41.6)])
def test_a_face_gland_lies_inside_or_outside_its_wall(side: float, inner: float, outer: float) -> None:
    """From the wall of 32 mm a groove 4.8 mm wide lies inwards (+1) or outwards (-1)."""
    ring = math.pi / 4 * (outer**2 - inner**2) * 2.7
    fill = face_fill(
        inside_diameter_mm=24.99,
        cross_section_mm=3.53,
        wall_diameter_mm=32.0,
        groove_width_mm=4.8,
        groove_depth_mm=2.7,
        wall_side=side,
    )
    assert fill == pytest.approx(100 * torus(24.99, 3.53) / ring, rel=1e-12)


def test_a_four_lobed_ring_fills_more_than_a_round_one() -> None:
    """At the same section the four-lobed area 0.8215 d^2 counts in place of pi/4 d^2 (allsealsinc.com)."""
    sizes = {
        "inside_diameter_mm": 24.99,
        "cross_section_mm": 3.53,
        "outer_diameter_mm": 31.5,
        "inner_diameter_mm": 25.4,
        "groove_width_mm": 4.8,
    }
    ratio = radial_fill(**sizes, area_factor=0.8215) / radial_fill(**sizes)
    assert ratio == pytest.approx(0.8215 / (math.pi / 4))


def test_swell_counts_by_volume() -> None:
    """Ten percent of volume is ten percent of fill."""
    growth = volume_growth(
        swell_percent=10.0, rubber_expansion_per_k=0.0, metal_expansion_per_k=0.0, temperature_rise_k=100.0
    )
    assert growth == pytest.approx(1.1)


def test_equal_expansion_leaves_the_fill() -> None:
    """Ring and gland that expand alike keep their fill at any temperature."""
    growth = volume_growth(
        swell_percent=0.0, rubber_expansion_per_k=2e-5, metal_expansion_per_k=2e-5, temperature_rise_k=80.0
    )
    assert growth == pytest.approx(1.0)
