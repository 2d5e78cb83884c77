"""The smallest gas volume with which a charge stays below a limit of pressure at full stroke."""

from __future__ import annotations

import math

from fitcheck.gas.pressures import RULES_OF

_STEPS = 60
_ENOUGH = 1e-5


def least_gas_volume(
    *,
    gas: str,
    charge_mpa: float,
    displaced_volume_mm3: float,
    oil_growth_mm3: float,
    set_temperature_deg_c: float,
    temperature_deg_c: float,
    limit_mpa: float,
) -> float:
    """Smallest gas volume [mm3] at full extension, as set, that keeps a fast stroke below a limit.

    Equation   p_fast(V_0) = p_max, solved by false position; p_fast falls with V_0
    Symbols    V_0    returned               [mm3]
               p_max  limit_mpa              [MPa]   absolute
               p_0    charge_mpa             [MPa]   absolute
               V_d    displaced_volume_mm3   [mm3]
               V_T    oil_growth_mm3         [mm3]   to the temperature asked for
               T_0    set_temperature_deg_c  [degC]
               T      temperature_deg_c      [degC]
    Valid      limit above the charge; nan where a thousand times the volume taken is not enough
    Source     real gas as in the pressures; the ideal form is L = x / (1 - (p_0 / p_max)^(1/n))

    >>> least_gas_volume(gas="nitrogen", charge_mpa=1.501325, displaced_volume_mm3=3898.5, oil_growth_mm3=0.0,
    ...                  set_temperature_deg_c=20.0, temperature_deg_c=20.0, limit_mpa=2.68349)
    11680.3
    """
    fast = RULES_OF[gas].fast

    def beyond(volume: float) -> float:
        """How far the pressure is above its limit, as a logarithm; as far as can be where there is none."""
        at_top_out = volume - oil_growth_mm3
        pressure = fast(
            charge_mpa=charge_mpa,
            thermal_ratio=volume / at_top_out,
            stroke_ratio=at_top_out / (at_top_out - displaced_volume_mm3),
            set_temperature_deg_c=set_temperature_deg_c,
            temperature_deg_c=temperature_deg_c,
        )
        return math.inf if math.isnan(pressure) else math.log(pressure / limit_mpa)

    taken = displaced_volume_mm3 + oil_growth_mm3
    small, large = taken, 1000.0 * taken
    if not taken > 0.0 or beyond(large) > 0.0:
        return math.nan
    above, below, kept = math.inf, beyond(large), 0
    for _ in range(_STEPS):
        if large - small <= _ENOUGH * large:
            break
        if math.isinf(above) or small <= 1.0001 * taken:
            middle = math.sqrt(small * large)
        else:  # a straight line in 1 / (V - taken), halved at the end that stays
            share = above / (above - below)
            at_small, at_large = 1.0 / (small - taken), 1.0 / (large - taken)
            middle = taken + 1.0 / (at_small + share * (at_large - at_small))
        value = beyond(middle)
        if value > 0.0:
            small, above = middle, value
            below, kept = (below / 2.0, 1) if kept == 1 else (below, 1)
        else:
            large, below = middle, value
            above, kept = (above / 2.0, -1) if kept == -1 else (above, -1)
        if abs(value) < _ENOUGH:
            return middle
    return large
