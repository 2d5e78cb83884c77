"""Viscosity over temperature, and where its equations end."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitcheck.fluids.index import printed_index, viscosity_index
from fitcheck.fluids.viscosity import FULL, SHORT, ordinate, through, viscosity_of


@pytest.mark.parametrize("viscosity", [0.3, 0.5, 1.0, 1.5, 2.0, 3.0, 5.0, 20.0, 100.0])
@pytest.mark.parametrize("form", [SHORT, FULL])
def test_the_ordinate_goes_there_and_back(viscosity: float, form: str) -> None:
    """Both forms undo themselves; the full one within 0.0005 mm2/s from 0.5 up."""
    back = viscosity_of(ordinate(viscosity, form=form), form=form)
    assert back == pytest.approx(viscosity, abs=0.0005 if viscosity >= 0.5 else 0.003)


def test_the_two_forms_part_below_2_mm2_per_s() -> None:
    """Above 2 mm2/s the extra term is under a thousandth; at 0.5 it is 0.08."""
    assert ordinate(2.0) - ordinate(2.0, form=SHORT) < 0.001
    assert ordinate(0.5) - ordinate(0.5, form=SHORT) == pytest.approx(0.081, abs=0.0005)


@given(
    thick=st.floats(5.0, 300.0),
    ratio=st.floats(1.5, 12.0),
    form=st.sampled_from([SHORT, FULL]),
    zero=st.sampled_from([273.0, 273.15]),
)
def test_a_line_goes_through_its_two_points_and_falls(
    thick: float, ratio: float, form: str, zero: float
) -> None:
    """At 40 and 100 degC it gives what made it; between and about them oil thins as it warms."""
    line = through((40.0, thick), (100.0, thick / ratio), form=form, zero=zero)
    assert line.at(40.0) == pytest.approx(thick, rel=1e-3)
    assert line.at(100.0) == pytest.approx(thick / ratio, rel=1e-3, abs=2e-3)
    ladder = [line.at(t) for t in (0.0, 20.0, 40.0, 60.0, 80.0, 100.0)]
    assert ladder == sorted(ladder, reverse=True)


def test_the_order_of_the_points_does_not_matter() -> None:
    """The same line from 100 and 40 degC."""
    there, back = through((40.0, 32.0), (100.0, 5.4)), through((100.0, 5.4), (40.0, 32.0))
    assert (there.a, there.b) == pytest.approx((back.a, back.b))


@pytest.mark.parametrize("viscosity_100", [0.9, 1.5, 1.99])
def test_below_2_mm2_per_s_there_is_no_index(viscosity_100: float) -> None:
    """A thin damper oil may lie there: no number is invented for it."""
    assert viscosity_index(6.0, viscosity_100) is None


@given(viscosity_100=st.floats(2.0, 150.0), share=st.floats(0.5, 0.99))
def test_an_oil_that_thins_less_has_the_higher_index(viscosity_100: float, share: float) -> None:
    """Of two oils alike at 100 degC the one that is thinner at 40 has the higher index."""
    thick = viscosity_100**1.6 + 5.0
    less = viscosity_index(thick * share, viscosity_100)
    more = viscosity_index(thick, viscosity_100)
    assert less is not None
    assert more is not None
    assert less > more


@pytest.mark.parametrize(("index", "printed"), [(92.5, 92), (93.5, 94), (92.51, 93), (156.4, 156)])
def test_halves_are_rounded_to_the_even_number(index: float, printed: int) -> None:
    """As ASTM D2270 reports it."""
    assert printed_index(index) == printed
