"""Press fits: what the equations of thick-walled cylinders must do, and an independent solution of them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitcheck.bushings.close_in import close_in_share, flattened_interference, most_close_in_share
from fitcheck.bushings.press_fit import (
    bore_close_in,
    hub_hoop_stress,
    hub_yield_stress,
    interface_pressure,
    press_force,
    sleeve_hoop_stress,
)

STEEL = {"hub_modulus_mpa": 205e3, "hub_poisson": 0.29}
ALUMINIUM = {"hub_modulus_mpa": 70e3, "hub_poisson": 0.33}
BRONZE = {"sleeve_modulus_mpa": 110e3, "sleeve_poisson": 0.34}


def pressure(interference: float, joint: float, outside: float, bore: float, **of: float) -> float:
    """Pressure in a joint of one diameter."""
    return interface_pressure(
        interference_mm=interference,
        hub_bore_mm=joint,
        hub_outside_mm=outside,
        sleeve_outside_mm=joint,
        sleeve_bore_mm=bore,
        **of,
    )


def displacement_per_pressure(
    inner: float, outer: float, modulus: float, poisson: float, *, inside: bool, at_inner: bool
) -> float:
    """Radial displacement [mm/MPa] of a thick ring under 1 MPa, by finite differences.

    Solves u'' + u'/r - u/r^2 = 0 in plane stress with sigma_r = -1 on the loaded face and 0 on the other.
    """
    cells = 4000
    step = (outer - inner) / cells
    radius = [inner + step * i for i in range(cells + 1)]
    factor = modulus / (1.0 - poisson**2)
    below, diagonal, above, right = ([0.0] * (cells + 1) for _ in range(4))
    for i in range(1, cells):
        r = radius[i]
        below[i] = 1.0 / step**2 - 1.0 / (2.0 * r * step)
        diagonal[i] = -2.0 / step**2 - 1.0 / r**2
        above[i] = 1.0 / step**2 + 1.0 / (2.0 * r * step)
    # The stress at a face by a ghost point outside it, which the equation at the face eliminates.
    for i, load, way in ((0, -1.0 if inside else 0.0, -1.0), (cells, 0.0 if inside else -1.0, 1.0)):
        r = radius[i]
        slope_constant, slope_of_u = load / factor, -poisson / r
        ghost = 1.0 / step**2 + way / (2.0 * r * step)
        diagonal[i] = -2.0 / step**2 - 1.0 / r**2 + ghost * way * 2.0 * step * slope_of_u
        inward = 2.0 / step**2
        if i == 0:
            above[i] = inward
        else:
            below[i] = inward
        right[i] = -ghost * way * 2.0 * step * slope_constant
    for i in range(1, cells + 1):
        ratio = below[i] / diagonal[i - 1]
        diagonal[i] -= ratio * above[i - 1]
        right[i] -= ratio * right[i - 1]
    u = [0.0] * (cells + 1)
    u[cells] = right[cells] / diagonal[cells]
    for i in range(cells - 1, -1, -1):
        u[i] = (right[i] - above[i] * u[i + 1]) / diagonal[i]
    return u[0] if at_inner else u[cells]


@pytest.mark.parametrize(
    ("bore", "joint", "outside", "hub", "sleeve"),
    [
        (12.0, 16.0, 24.0, (70e3, 0.33), (110e3, 0.34)),
        (12.0, 16.0, 60.0, (205e3, 0.29), (110e3, 0.34)),
        (10.0, 12.0, 16.0, (70e3, 0.33), (2.8e3, 0.35)),
        (16.0, 18.0, 22.0, (205e3, 0.29), (205e3, 0.29)),
    ],
)
def test_pressure_and_close_in_meet_the_differential_equation(
    bore: float, joint: float, outside: float, hub: tuple[float, float], sleeve: tuple[float, float]
) -> None:
    """Solved step by step, the rings give the same pressure and close-in as the closed equations."""
    grown = displacement_per_pressure(joint / 2, outside / 2, *hub, inside=True, at_inner=True)
    shrunk = -displacement_per_pressure(bore / 2, joint / 2, *sleeve, inside=False, at_inner=False)
    expected = 0.030 / (2.0 * (grown + shrunk))
    names = dict(zip(("hub_modulus_mpa", "hub_poisson"), hub, strict=True)) | dict(
        zip(("sleeve_modulus_mpa", "sleeve_poisson"), sleeve, strict=True)
    )
    assert pressure(0.030, joint, outside, bore, **names) == pytest.approx(expected, rel=1e-6)
    closed = -2.0 * displacement_per_pressure(bore / 2, joint / 2, *sleeve, inside=False, at_inner=True)
    assert bore_close_in(
        pressure_mpa=10.0, sleeve_outside_mm=joint, sleeve_bore_mm=bore, sleeve_modulus_mpa=sleeve[0]
    ) == pytest.approx(10.0 * closed, rel=1e-6)


def test_a_joint_without_interference_has_no_pressure() -> None:
    """A loose sleeve is not pulled outwards."""
    assert pressure(-0.02, 16.0, 24.0, 12.0, **STEEL, **BRONZE) == 0.0


def test_a_hub_no_larger_than_its_bore_has_no_answer() -> None:
    """What cannot be is nan, never a number."""
    assert math.isnan(pressure(0.02, 16.0, 16.0, 12.0, **STEEL, **BRONZE))
    assert math.isnan(pressure(0.02, 16.0, 24.0, 16.0, **STEEL, **BRONZE))


@given(st.floats(1.1, 9.0), st.floats(0.3, 0.97), st.floats(0.2, 0.45), st.floats(0.01, 50.0))
def test_a_bore_closes_in_by_no_more_than_a_bound_of_its_material(
    hub: float, bore: float, poisson: float, stiffer: float
) -> None:
    """No hub, however stiff, closes a bore in by more than 1 / sqrt(1 - nu^2) of the interference."""
    share = close_in_share(
        interface_diameter_mm=16.0,
        hub_outside_mm=16.0 * hub,
        hub_modulus_mpa=stiffer * 110e3,
        hub_poisson=0.3,
        sleeve_bore_mm=16.0 * bore,
        sleeve_modulus_mpa=110e3,
        sleeve_poisson=poisson,
    )
    assert 0.0 < share < most_close_in_share(poisson=poisson)


def test_a_bore_can_close_in_by_more_than_the_interference() -> None:
    """All of the interference is not the bound shops take it for: a stiff housing passes it on and more."""
    share = close_in_share(
        interface_diameter_mm=12.0,
        hub_outside_mm=30.0,
        hub_modulus_mpa=205e3,
        hub_poisson=0.29,
        sleeve_bore_mm=10.0,
        sleeve_modulus_mpa=2.8e3,
        sleeve_poisson=0.363,
    )
    assert 1.0 < share < 1.08


@given(st.floats(0.1, 100.0), st.floats(1.1, 5.0))
def test_a_hub_is_stressed_more_than_it_is_pressed(p: float, ratio: float) -> None:
    """The hoop stress exceeds the pressure, and what counts for yield is the sum of the two."""
    hoop = hub_hoop_stress(pressure_mpa=p, hub_bore_mm=10.0, hub_outside_mm=10.0 * ratio)
    assert hoop > p
    assert hub_yield_stress(pressure_mpa=p, hub_bore_mm=10.0, hub_outside_mm=10.0 * ratio) == pytest.approx(
        hoop + p
    )


def test_a_thin_sleeve_is_stressed_as_a_thin_ring() -> None:
    """For a wall of a hundredth of the diameter the hoop stress is about p d / 2 t."""
    stress = sleeve_hoop_stress(pressure_mpa=1.0, sleeve_outside_mm=100.0, sleeve_bore_mm=98.0)
    assert stress == pytest.approx(100.0 / 2.0, rel=0.02)


def test_force_grows_with_all_four() -> None:
    """Twice any of diameter, length, pressure or friction is twice the force."""
    usual = {"interface_diameter_mm": 16.0, "length_mm": 12.0, "pressure_mpa": 30.0, "friction": 0.12}
    for name, value in usual.items():
        assert press_force(**{**usual, name: 2 * value}) == pytest.approx(2 * press_force(**usual))


def test_flattening_never_makes_a_press_fit_of_less_than_nothing() -> None:
    """Rough surfaces may eat up all of the interference, no more."""
    assert flattened_interference(interference_mm=0.01, share=0.8, hub_rz_um=10.0, sleeve_rz_um=10.0) == 0.0
