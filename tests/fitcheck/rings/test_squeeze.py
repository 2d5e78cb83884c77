"""Squeeze, thinning and growth: values by hand and at the edges of their ranges."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitcheck.rings.squeeze import (
    eccentric_offset,
    gland_depth,
    open_side_squeeze,
    plain_squeeze,
    section_growth,
    section_loss_constant_volume,
    section_loss_empirical,
    section_loss_joined,
    tight_side_squeeze,
)


def test_plain_squeeze_by_hand() -> None:
    """A 4 mm section in a 3 mm gland is squeezed by a quarter."""
    assert plain_squeeze(cross_section_mm=4.0, gland_depth_mm=3.0) == 25.0


def test_a_gland_deeper_than_the_section_gives_negative_squeeze() -> None:
    """A ring that does not touch has a squeeze below zero, not zero."""
    assert plain_squeeze(cross_section_mm=2.0, gland_depth_mm=2.5) == -25.0


def test_depth_is_half_the_difference_of_the_diameters() -> None:
    """31.5 and 25.5 mm leave 3 mm."""
    assert gland_depth(outer_diameter_mm=31.5, inner_diameter_mm=25.5) == 3.0


def test_without_offset_both_sides_are_the_plain_squeeze() -> None:
    """A centred ring is squeezed alike all round."""
    sizes = {"section_mm": 3.4, "gland_depth_mm": 3.05, "offset_mm": 0.0}
    plain = plain_squeeze(cross_section_mm=3.4, gland_depth_mm=3.05)
    assert open_side_squeeze(**sizes) == tight_side_squeeze(**sizes) == pytest.approx(plain)


def test_what_one_side_loses_the_other_gains() -> None:
    """The two sides lie as far above and below the centred squeeze."""
    sizes = {"section_mm": 4.0, "gland_depth_mm": 3.0, "offset_mm": 0.1}
    assert open_side_squeeze(**sizes) + tight_side_squeeze(**sizes) == pytest.approx(50.0)
    assert tight_side_squeeze(**sizes) - open_side_squeeze(**sizes) == pytest.approx(5.0)


def test_a_total_indicator_reading_counts_half() -> None:
    """A run-out of 0.1 mm moves the centre by 0.05 mm, as a clearance does."""
    assert eccentric_offset(diametral_clearance_mm=0.0, runout_mm=0.1) == 0.05
    assert eccentric_offset(diametral_clearance_mm=0.1, runout_mm=0.0) == 0.05


@pytest.mark.parametrize("law", [section_loss_empirical, section_loss_joined], ids=lambda law: law.name)
@pytest.mark.parametrize("stretch_percent", [-5.0, 0.0])
def test_a_ring_that_is_not_stretched_loses_nothing(law, stretch_percent: float) -> None:  # type: ignore[no-untyped-def]
    """The printed quartic is -0.005 at zero; a ring that is not stretched keeps its section."""
    assert law(stretch_percent=stretch_percent) == 0.0


def test_the_printed_quartic_is_never_negative() -> None:
    """Just above zero the quartic is below zero and is taken as none."""
    assert section_loss_empirical(stretch_percent=0.001) == 0.0


@pytest.mark.parametrize("law", [section_loss_empirical, section_loss_joined], ids=lambda law: law.name)
def test_beyond_25_percent_no_loss_is_told(law) -> None:  # type: ignore[no-untyped-def]
    """The measured laws end at 25 %, inclusive; beyond they give nan, not a guess."""
    assert law(stretch_percent=25.0) == pytest.approx(12.44, abs=0.005)
    assert math.isnan(law(stretch_percent=25.0001))


def test_the_step_of_the_printed_laws_at_3_percent_does_not_fall() -> None:
    """The quartic ends at 2.48, the parabola begins at 2.29: the larger is kept until it is caught up."""
    at, beyond = (section_loss_empirical(stretch_percent=x) for x in (3.0, 3.0001))
    assert at == pytest.approx(2.48, abs=0.005)
    assert beyond == pytest.approx(at)


def test_the_joined_law_has_no_step() -> None:
    """The two branches of the joined form meet at 3 % to a thousandth."""
    at, beyond = (section_loss_joined(stretch_percent=x) for x in (3.0, 3.0000001))
    assert at == pytest.approx(beyond, abs=0.002)


def test_a_compressed_ring_thickens() -> None:
    """By constant volume a ring compressed by 2 % gains about 1 % of its section: half the stretch."""
    assert section_loss_constant_volume(stretch_percent=-2.0) == pytest.approx(-1.015, abs=0.0005)


def test_growth_needs_a_cause() -> None:
    """Without swell and at 20 degC nothing grows."""
    growth = section_growth(
        swell_percent=0.0, rubber_expansion_per_k=1.6e-4, metal_expansion_per_k=2.3e-5, temperature_rise_k=0.0
    )
    assert growth == 1.0


def test_rubber_shrinks_in_the_cold() -> None:
    """50 K below 20 degC a held section of 1.6e-4 per K is sqrt((1 - 0.024)/(1 - 0.00115)) of itself."""
    growth = section_growth(
        swell_percent=0.0,
        rubber_expansion_per_k=1.6e-4,
        metal_expansion_per_k=2.3e-5,
        temperature_rise_k=-50.0,
    )
    assert growth == pytest.approx(math.sqrt(0.976 / 0.99885), rel=1e-12)


@pytest.mark.parametrize(
    "law",
    [section_loss_empirical, section_loss_joined, section_loss_constant_volume],
    ids=lambda law: law.name,
)
def test_arrays_are_floats_one_by_one(law) -> None:  # type: ignore[no-untyped-def]
    """An array gives what its elements give, nan for nan."""
    stretches = np.array([-3.0, 0.0, 0.002, 1.0, 3.0, 3.2, 4.0, 25.0, 26.0])
    expected = [law(stretch_percent=float(x)) for x in stretches]
    np.testing.assert_allclose(law(stretch_percent=stretches), expected, rtol=1e-13, equal_nan=True)
