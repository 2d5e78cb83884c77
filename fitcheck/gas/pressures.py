"""Pressures of a charge: after heat and stroke, slow and fast, of real nitrogen and real air.

All pressures here are absolute. Slow is at one temperature, fast loses no heat; what happens lies between.
``thermal_ratio`` is the gas volume as set over that at the temperature asked for, ``stroke_ratio`` the
volume there over that at full stroke: apart, because only the stroke may be fast.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.gas.real_gas import ICE_POINT_K, gas_density, gas_pressure, squeezed_fast
from fitcheck.numbers import Real
from fitcheck.rule import Rule, rule

_SYMBOLS = {
    "p1": "pressure [MPa, absolute]",
    "p0": "charge_mpa",
    "r_T": "thermal_ratio",
    "r_s": "stroke_ratio",
    "T0": "set_temperature_deg_c",
    "T": "temperature_deg_c",
}
_VALID = {
    "charge_mpa": (0.2, 4.0),
    "thermal_ratio": (0.8, 1.4),
    "stroke_ratio": (1.0, 3.0),
    "set_temperature_deg_c": (0.0, 40.0),
    "temperature_deg_c": (-30.0, 100.0),
}
_RISES = ("charge_mpa", "thermal_ratio", "stroke_ratio", "temperature_deg_c")
_SLOW = "p1 = p(T, r_T r_s rho(T0, p0))"
_FAST = "p1 = p(s, r_T r_s rho0), s = s(T, r_T rho0), rho0 = rho(T0, p0)"
SPAN = "real gas, Span et al., J. Phys. Chem. Ref. Data 29, 1361 (2000)"
LEMMON = "real gas, Lemmon et al., J. Phys. Chem. Ref. Data 29, 331 (2000)"


def _slow(gas: str, charge: Real, thermal: Real, stroke: Real, set_deg_c: Real, deg_c: Real) -> Real:
    density = gas_density(gas, set_deg_c + ICE_POINT_K, charge)
    return gas_pressure(gas, deg_c + ICE_POINT_K, density * thermal * stroke)


def _fast(gas: str, charge: Real, thermal: Real, stroke: Real, set_deg_c: Real, deg_c: Real) -> Real:
    density = gas_density(gas, set_deg_c + ICE_POINT_K, charge) * thermal
    if math.isnan(density):
        return math.nan
    return squeezed_fast(gas, deg_c + ICE_POINT_K, density, stroke).pressure_mpa


@rule(
    unit="MPa",
    equation=_SLOW,
    symbols=_SYMBOLS,
    source=SPAN,
    rises_with=_RISES,
    falls_with=("set_temperature_deg_c",),
    valid=_VALID,
)
def nitrogen_slow_pressure(
    *,
    charge_mpa: Real,
    thermal_ratio: Real,
    stroke_ratio: Real,
    set_temperature_deg_c: Real,
    temperature_deg_c: Real,
) -> Real:
    """Pressure of a nitrogen charge at a temperature, squeezed slowly; with a stroke ratio of 1 at top-out.

    Equation   p1 = p(T, r_T r_s rho(T0, p0))
    Symbols    p1   returned               [MPa]  absolute
               p0   charge_mpa             [MPa]  absolute
               r_T  thermal_ratio          [1]
               r_s  stroke_ratio           [1]
               T0   set_temperature_deg_c  [degC]
               T    temperature_deg_c      [degC]
    Valid      -73 to 427 degC, up to about 75 MPa; else nan
    Source     Span et al. 2000. Own arithmetic with CoolProp: 2.0 MPa, 20 degC, r = 1.8: 3.59385 MPa

    >>> nitrogen_slow_pressure(charge_mpa=2.0, thermal_ratio=1.0, stroke_ratio=1.8,
    ...                        set_temperature_deg_c=20.0, temperature_deg_c=20.0)
    3.59385
    """
    return _slow(
        "nitrogen", charge_mpa, thermal_ratio, stroke_ratio, set_temperature_deg_c, temperature_deg_c
    )


@rule(
    unit="MPa",
    equation=_FAST,
    symbols=_SYMBOLS,
    source=SPAN,
    rises_with=_RISES,
    falls_with=("set_temperature_deg_c",),
    valid=_VALID,
)
def nitrogen_fast_pressure(
    *,
    charge_mpa: Real,
    thermal_ratio: Real,
    stroke_ratio: Real,
    set_temperature_deg_c: Real,
    temperature_deg_c: Real,
) -> Real:
    """Pressure of a nitrogen charge at the end of a stroke that is too fast for heat to leave.

    The ideal gas with n = 1.4 is no upper bound: it is 1 % low at 1.4 MPa and 10 % at 5 MPa and r = 2.

    Equation   p1 = p(s, r_T r_s rho0), s = s(T, r_T rho0), rho0 = rho(T0, p0)
    Symbols    p1   returned               [MPa]  absolute
               p0   charge_mpa             [MPa]  absolute
               r_T  thermal_ratio          [1]
               r_s  stroke_ratio           [1]
               T0   set_temperature_deg_c  [degC]
               T    temperature_deg_c      [degC]  before the stroke
    Valid      -73 to 427 degC, up to about 75 MPa; else nan
    Source     Span et al. 2000. Own arithmetic with CoolProp: 2.0 MPa, 20 degC, r = 1.8: 4.68083 MPa

    >>> nitrogen_fast_pressure(charge_mpa=2.0, thermal_ratio=1.0, stroke_ratio=1.8,
    ...                        set_temperature_deg_c=20.0, temperature_deg_c=20.0)
    4.68083
    """
    return _fast(
        "nitrogen", charge_mpa, thermal_ratio, stroke_ratio, set_temperature_deg_c, temperature_deg_c
    )


@rule(
    unit="MPa",
    equation=_SLOW,
    symbols=_SYMBOLS,
    source=LEMMON,
    rises_with=_RISES,
    falls_with=("set_temperature_deg_c",),
    valid=_VALID,
)
def air_slow_pressure(
    *,
    charge_mpa: Real,
    thermal_ratio: Real,
    stroke_ratio: Real,
    set_temperature_deg_c: Real,
    temperature_deg_c: Real,
) -> Real:
    """Pressure of an air charge at a temperature, squeezed slowly; with a stroke ratio of 1 at top-out.

    Equation   p1 = p(T, r_T r_s rho(T0, p0))
    Symbols    p1   returned               [MPa]  absolute
               p0   charge_mpa             [MPa]  absolute
               r_T  thermal_ratio          [1]
               r_s  stroke_ratio           [1]
               T0   set_temperature_deg_c  [degC]
               T    temperature_deg_c      [degC]
    Valid      -73 to 427 degC, up to about 70 MPa; else nan
    Source     Lemmon et al. 2000. Own arithmetic with CoolProp: 1.5 MPa, 20 degC, r = 1.5: 2.24542 MPa

    >>> air_slow_pressure(charge_mpa=1.5, thermal_ratio=1.0, stroke_ratio=1.5,
    ...                   set_temperature_deg_c=20.0, temperature_deg_c=20.0)
    2.24542
    """
    return _slow("air", charge_mpa, thermal_ratio, stroke_ratio, set_temperature_deg_c, temperature_deg_c)


@rule(
    unit="MPa",
    equation=_FAST,
    symbols=_SYMBOLS,
    source=LEMMON,
    rises_with=_RISES,
    falls_with=("set_temperature_deg_c",),
    valid=_VALID,
)
def air_fast_pressure(
    *,
    charge_mpa: Real,
    thermal_ratio: Real,
    stroke_ratio: Real,
    set_temperature_deg_c: Real,
    temperature_deg_c: Real,
) -> Real:
    """Pressure of an air charge at the end of a stroke that is too fast for heat to leave.

    Equation   p1 = p(s, r_T r_s rho0), s = s(T, r_T rho0), rho0 = rho(T0, p0)
    Symbols    p1   returned               [MPa]  absolute
               p0   charge_mpa             [MPa]  absolute
               r_T  thermal_ratio          [1]
               r_s  stroke_ratio           [1]
               T0   set_temperature_deg_c  [degC]
               T    temperature_deg_c      [degC]  before the stroke
    Valid      -73 to 427 degC, up to about 70 MPa; else nan
    Source     Lemmon et al. 2000. Own arithmetic with CoolProp: 1.5 MPa, 20 degC, r = 1.5: 2.67567 MPa

    >>> air_fast_pressure(charge_mpa=1.5, thermal_ratio=1.0, stroke_ratio=1.5,
    ...                   set_temperature_deg_c=20.0, temperature_deg_c=20.0)
    2.67567
    """
    return _fast("air", charge_mpa, thermal_ratio, stroke_ratio, set_temperature_deg_c, temperature_deg_c)


class GasRules(NamedTuple):
    """The rules of one gas, and where its equation is from."""

    slow: Rule
    fast: Rule
    source: str


RULES_OF = {
    "nitrogen": GasRules(nitrogen_slow_pressure, nitrogen_fast_pressure, SPAN),
    "air": GasRules(air_slow_pressure, air_fast_pressure, LEMMON),
}
