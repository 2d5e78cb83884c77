"""Gauge and absolute, forces of the gas, what keeps the oil from cavitating, what a gauge takes."""

from __future__ import annotations

import math

from fitcheck.numbers import Real, larger, positive
from fitcheck.rule import rule

_QUARTER_PI = math.pi / 4.0
_AIR = (0.05, 0.12)
_PRESSURE = (0.0, 10.0)


@rule(
    unit="MPa",
    equation="p = p_g + p_atm",
    symbols={"p": "absolute pressure [MPa]", "p_g": "gauge_mpa", "p_atm": "ambient_mpa"},
    source="definition of gauge pressure",
    rises_with=("gauge_mpa", "ambient_mpa"),
    valid={"gauge_mpa": _PRESSURE, "ambient_mpa": _AIR},
)
def absolute_pressure(*, gauge_mpa: Real, ambient_mpa: Real) -> Real:
    """What the laws of gases are about.

    Equation   p = p_g + p_atm
    Symbols    p      returned     [MPa]  absolute
               p_g    gauge_mpa    [MPa]  as a gauge reads
               p_atm  ambient_mpa  [MPa]  absolute, of the air around the gauge
    Valid      any
    Source     definition

    >>> absolute_pressure(gauge_mpa=1.4, ambient_mpa=0.101325)
    1.501325
    """
    return gauge_mpa + ambient_mpa


@rule(
    unit="MPa",
    equation="p_g = p - p_atm",
    symbols={"p_g": "gauge pressure [MPa]", "p": "absolute_mpa", "p_atm": "ambient_mpa"},
    source="definition of gauge pressure",
    rises_with=("absolute_mpa",),
    falls_with=("ambient_mpa",),
    valid={"absolute_mpa": _PRESSURE, "ambient_mpa": _AIR},
)
def gauge_pressure(*, absolute_mpa: Real, ambient_mpa: Real) -> Real:
    """What forces are made of: the air around pushes from the other side.

    Equation   p_g = p - p_atm
    Symbols    p_g    returned      [MPa]  gauge
               p      absolute_mpa  [MPa]
               p_atm  ambient_mpa   [MPa]  absolute
    Valid      any
    Source     definition

    >>> gauge_pressure(absolute_mpa=2.6835, ambient_mpa=0.101325)
    2.582
    """
    return absolute_mpa - ambient_mpa


@rule(
    unit="N",
    equation="F = p_g pi/4 d^2",
    symbols={"F": "force [N]", "p_g": "pressure_mpa", "d": "diameter_mm"},
    source="pressure times the area that is sealed",
    rises_with=("pressure_mpa", "diameter_mm"),
    valid={"pressure_mpa": _PRESSURE, "diameter_mm": (1.0, 100.0)},
)
def pressure_force(*, pressure_mpa: Real, diameter_mm: Real) -> Real:
    """Force of a gauge pressure on a round area: it pushes the shaft out, and the cap off.

    Equation   F = p_g pi/4 d^2
    Symbols    F    returned      [N]
               p_g  pressure_mpa  [MPa]  gauge
               d    diameter_mm   [mm]   at which it is sealed, not the bore of the gas
    Valid      p_g 0 or more; an area sealed by one ring
    Source     printed: 2.4e5 Pa gauge on 25.0 mm, 117.8 N (OpenStax University Physics, tyre pump)

    >>> pressure_force(pressure_mpa=0.24, diameter_mm=25.0)
    117.8
    """
    return pressure_mpa * _QUARTER_PI * diameter_mm * diameter_mm


@rule(
    unit="MPa",
    equation="dp_m = F_m / (pi/4 (d_p^2 - d_s^2))",
    symbols={
        "dp_m": "pressure across the damping piston [MPa]",
        "F_m": "piston_force_n",
        "d_p": "main_bore_mm",
        "d_s": "shaft_diameter_mm",
    },
    source="force over the ring of area between bore and shaft",
    rises_with=("piston_force_n", "shaft_diameter_mm"),
    falls_with=("main_bore_mm",),
    valid={
        "piston_force_n": (0.0, 5_000.0),
        "main_bore_mm": (25.0, 60.0),
        "shaft_diameter_mm": (8.0, 20.0),
    },
)
def piston_pressure_drop(*, piston_force_n: Real, main_bore_mm: Real, shaft_diameter_mm: Real) -> Real:
    """Pressure that the damping piston makes across itself for a force.

    Equation   dp_m = F_m / (pi/4 (d_p^2 - d_s^2))
    Symbols    dp_m  returned           [MPa]
               F_m   piston_force_n     [N]   only the part made at this piston
               d_p   main_bore_mm       [mm]
               d_s   shaft_diameter_mm  [mm]
    Valid      bore above shaft, else nan
    Source     geometry; 1500 N, 36 mm, 12.7 mm: 1.683 MPa

    >>> piston_pressure_drop(piston_force_n=1500.0, main_bore_mm=36.0, shaft_diameter_mm=12.7)
    1.683
    """
    ring = positive(main_bore_mm * main_bore_mm - shaft_diameter_mm * shaft_diameter_mm)
    return piston_force_n / (_QUARTER_PI * ring)


@rule(
    unit="MPa",
    equation="dp_f = F_f / (pi/4 d_i^2)",
    symbols={
        "dp_f": "pressure that friction makes [MPa]",
        "F_f": "piston_friction_n",
        "d_i": "bore_diameter_mm",
    },
    source="force over the area of the floating piston",
    rises_with=("piston_friction_n",),
    falls_with=("bore_diameter_mm",),
    valid={"piston_friction_n": (0.0, 200.0), "bore_diameter_mm": (15.0, 60.0)},
)
def friction_pressure(*, piston_friction_n: Real, bore_diameter_mm: Real) -> Real:
    """By how much oil and gas may differ because the floating piston rubs.

    Equation   dp_f = F_f / (pi/4 d_i^2)
    Symbols    dp_f  returned           [MPa]  either way
               F_f   piston_friction_n  [N]
               d_i   bore_diameter_mm   [mm]
    Valid      d_i above 0
    Source     geometry; 18 N on a 26 mm bore: 0.034 MPa

    >>> friction_pressure(piston_friction_n=18.0, bore_diameter_mm=26.0)
    0.034
    """
    return piston_friction_n / (_QUARTER_PI * positive(bore_diameter_mm * bore_diameter_mm))


@rule(
    unit="MPa",
    equation="p_low = p - dp_f - (dp_m - dp_b)",
    symbols={
        "p_low": "pressure on the low side of the damping piston [MPa]",
        "p": "gas_mpa",
        "dp_f": "friction_drop_mpa",
        "dp_m": "piston_drop_mpa",
        "dp_b": "base_drop_mpa",
    },
    source="pressures along the oil's way add up",
    rises_with=("gas_mpa", "base_drop_mpa"),
    falls_with=("piston_drop_mpa", "friction_drop_mpa"),
    valid={
        "gas_mpa": _PRESSURE,
        "friction_drop_mpa": (0.0, 0.2),
        "piston_drop_mpa": _PRESSURE,
        "base_drop_mpa": _PRESSURE,
    },
)
def low_side_pressure(
    *, gas_mpa: Real, friction_drop_mpa: Real, piston_drop_mpa: Real, base_drop_mpa: Real
) -> Real:
    """Pressure behind the damping piston while it is pushed in; gauge if the gas is given as gauge.

    Equation   p_low = p - dp_f - (dp_m - dp_b)
    Symbols    p_low  returned           [MPa]
               p      gas_mpa            [MPa]  the lowest of the case: cold, at top-out
               dp_f   friction_drop_mpa  [MPa]
               dp_m   piston_drop_mpa    [MPa]
               dp_b   base_drop_mpa      [MPa]  base or reservoir valve; 0 where there is none
    Valid      compression stroke; below zero absolute it is not reached: the oil cavitates
    Source     derived

    >>> low_side_pressure(gas_mpa=1.0, friction_drop_mpa=0.0, piston_drop_mpa=1.683, base_drop_mpa=1.2)
    0.517
    """
    return gas_mpa - friction_drop_mpa - (piston_drop_mpa - base_drop_mpa)


@rule(
    unit="MPa",
    equation="p_g = max(dp_m - dp_b + dp_f, 0)",
    symbols={
        "p_g": "gas pressure needed [MPa, gauge]",
        "dp_m": "piston_drop_mpa",
        "dp_b": "base_drop_mpa",
        "dp_f": "friction_drop_mpa",
    },
    source="low_side_pressure solved for the gas, with the air around as the least on the low side",
    rises_with=("piston_drop_mpa", "friction_drop_mpa"),
    falls_with=("base_drop_mpa",),
    valid={
        "piston_drop_mpa": _PRESSURE,
        "base_drop_mpa": _PRESSURE,
        "friction_drop_mpa": (0.0, 0.2),
    },
)
def gas_pressure_needed(*, piston_drop_mpa: Real, base_drop_mpa: Real, friction_drop_mpa: Real) -> Real:
    """Gas pressure that keeps the low side of the damping piston at the pressure of the air around.

    Equation   p_g = max(dp_m - dp_b + dp_f, 0)
    Symbols    p_g   returned           [MPa]  gauge
               dp_m  piston_drop_mpa    [MPa]
               dp_b  base_drop_mpa      [MPa]
               dp_f  friction_drop_mpa  [MPa]
    Valid      compression stroke
    Source     derived

    >>> gas_pressure_needed(piston_drop_mpa=1.683, base_drop_mpa=1.2, friction_drop_mpa=0.0)
    0.483
    """
    return larger(piston_drop_mpa - base_drop_mpa + friction_drop_mpa, 0.0)


@rule(
    unit="MPa",
    equation="p = (p_0 V_g + p_atm V_h) / (V_g + V_h)",
    symbols={
        "p": "pressure with the gauge on [MPa, absolute]",
        "p_0": "charge_mpa",
        "V_g": "gas_volume_mm3",
        "p_atm": "ambient_mpa",
        "V_h": "gauge_volume_mm3",
    },
    source="two rooms of gas joined at one temperature",
    rises_with=("charge_mpa", "gas_volume_mm3", "ambient_mpa"),
    falls_with=("gauge_volume_mm3",),
    valid={
        "charge_mpa": (0.2, 5.0),
        "gas_volume_mm3": (1_000.0, 100_000.0),
        "ambient_mpa": _AIR,
        "gauge_volume_mm3": (0.0, 20_000.0),
    },
)
def pressure_with_gauge(
    *, charge_mpa: Real, gas_volume_mm3: Real, ambient_mpa: Real, gauge_volume_mm3: Real
) -> Real:
    """Pressure that is left when an empty hose and gauge are joined to the chamber.

    Equation   p = (p_0 V_g + p_atm V_h) / (V_g + V_h)
    Symbols    p      returned          [MPa]  absolute
               p_0    charge_mpa        [MPa]  absolute, before
               V_g    gas_volume_mm3    [mm3]
               p_atm  ambient_mpa       [MPa]  absolute
               V_h    gauge_volume_mm3  [mm3]
    Valid      charge above the air around; ideal, within 0.2 % of real nitrogen up to 3 MPa
    Source     derived; 11.7 ml at 1.40 MPa gauge and a hose of 1 ml: 1.29 MPa gauge

    >>> pressure_with_gauge(charge_mpa=1.501325, gas_volume_mm3=11700.0, ambient_mpa=0.101325,
    ...                     gauge_volume_mm3=1000.0) - 0.101325
    1.29
    """
    gas = charge_mpa * gas_volume_mm3 + ambient_mpa * gauge_volume_mm3
    return gas / positive(gas_volume_mm3 + gauge_volume_mm3)


@rule(
    unit="mm3",
    equation="V = V_oil dp / K",
    symbols={
        "V": "room that the oil gives [mm3]",
        "V_oil": "oil_volume_mm3",
        "dp": "pressure_rise_mpa",
        "K": "bulk_modulus_mpa",
    },
    source="definition of the bulk modulus",
    rises_with=("oil_volume_mm3", "pressure_rise_mpa"),
    falls_with=("bulk_modulus_mpa",),
    valid={
        "oil_volume_mm3": (0.0, 500_000.0),
        "pressure_rise_mpa": _PRESSURE,
        "bulk_modulus_mpa": (1_000.0, 3_000.0),
    },
)
def oil_compression(*, oil_volume_mm3: Real, pressure_rise_mpa: Real, bulk_modulus_mpa: Real) -> Real:
    """Room that the oil gives because it is squeezed: always more room for the gas, and little.

    Equation   V = V_oil dp / K
    Symbols    V      returned           [mm3]
               V_oil  oil_volume_mm3     [mm3]
               dp     pressure_rise_mpa  [MPa]
               K      bulk_modulus_mpa   [MPa]
    Valid      oil without air: half a percent of free air halves K at 5 MPa
    Source     definition; 62 ml, 1.18 MPa, 1720 MPa: 43 mm3

    >>> oil_compression(oil_volume_mm3=62000.0, pressure_rise_mpa=1.18, bulk_modulus_mpa=1720.0)
    42.5
    """
    return oil_volume_mm3 * pressure_rise_mpa / positive(bulk_modulus_mpa)
