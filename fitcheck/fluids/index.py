"""Viscosity index by ASTM D2270 (ISO 2909): how little an oil thins from 40 to 100 degC."""

from __future__ import annotations

import math

from schema.viscosity_tables import index_reference

LEAST = 2.0  # mm2/s at 100 degC; below it the index is not defined
_TABLE_END = 70.0


def viscosity_index(viscosity_40: float, viscosity_100: float) -> float | None:
    """Viscosity index, not rounded; None where it is not defined.

    Equation   A, up to 100: VI = 100 (L - U) / (L - H)
               B, from 100:  N = (log10 H - log10 U) / log10 Y; VI = (10^N - 1) / 0.00715 + 100
               above 70 mm2/s: L = 0.8353 Y^2 + 14.67 Y - 216; H = 0.1684 Y^2 + 11.85 Y - 97
    Symbols    U     viscosity_40   [mm2/s]
               Y     viscosity_100  [mm2/s]
               L, H  table 1        [mm2/s]
    Valid      Y from 2 mm2/s up
    Source     ASTM D2270, procedures A and B, with their printed examples (92.43 and 156.37)

    >>> viscosity_index(73.30, 8.86)
    92.43
    >>> viscosity_index(22.83, 5.05)
    156.4
    """
    if viscosity_100 < LEAST:
        return None
    if viscosity_100 > _TABLE_END:
        low = 0.8353 * viscosity_100**2 + 14.67 * viscosity_100 - 216.0
        high = 0.1684 * viscosity_100**2 + 11.85 * viscosity_100 - 97.0
    else:
        low, high = index_reference(viscosity_100)
    if viscosity_40 >= high:
        return 100.0 * (low - viscosity_40) / (low - high)
    n = (math.log10(high) - math.log10(viscosity_40)) / math.log10(viscosity_100)
    return float(10.0**n - 1.0) / 0.00715 + 100.0


def printed_index(index: float) -> int:
    """The index as it is reported: to the nearest whole number, halves to the even one (ASTM D2270).

    >>> printed_index(92.43), printed_index(156.5)
    (92, 156)
    """
    return round(index)
