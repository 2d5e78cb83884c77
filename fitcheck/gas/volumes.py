"""Volumes of the gas: at full extension, after the oil has grown, at full stroke, and their ratios."""

from __future__ import annotations

import math

from fitcheck.numbers import Real, positive
from fitcheck.rule import rule

_QUARTER_PI = math.pi / 4.0
_VOLUME = (0.0, 20_000.0)
_GAS_VOLUME = (25_000.0, 80_000.0)
_BORE = (20.0, 60.0)


@rule(
    unit="mm3",
    equation="V_0 = pi/4 d_i^2 L_0 + V_a - V_l",
    symbols={
        "V_0": "gas volume [mm3]",
        "d_i": "bore_diameter_mm",
        "L_0": "gas_length_mm",
        "V_a": "added_volume_mm3",
        "V_l": "lost_volume_mm3",
    },
    source="geometry",
    rises_with=("bore_diameter_mm", "gas_length_mm", "added_volume_mm3"),
    falls_with=("lost_volume_mm3",),
    valid={
        "bore_diameter_mm": _BORE,
        "gas_length_mm": (0.0, 150.0),
        "added_volume_mm3": _VOLUME,
        "lost_volume_mm3": _VOLUME,
    },
)
def gas_volume(
    *, bore_diameter_mm: Real, gas_length_mm: Real, added_volume_mm3: Real, lost_volume_mm3: Real
) -> Real:
    """Gas behind the floating piston at full extension.

    Equation   V_0 = pi/4 d_i^2 L_0 + V_a - V_l
    Symbols    V_0  returned          [mm3]
               d_i  bore_diameter_mm  [mm]
               L_0  gas_length_mm     [mm]
               V_a  added_volume_mm3  [mm3]  dish in the piston, pockets in the cap
               V_l  lost_volume_mm3   [mm3]  valve and core that stand inside
    Valid      at set temperature
    Source     geometry; a dish of 1.5 ml on a 26 mm piston is worth 2.8 mm of depth

    >>> gas_volume(bore_diameter_mm=26.0, gas_length_mm=22.0, added_volume_mm3=0.0, lost_volume_mm3=0.0)
    11680.4
    """
    column = _QUARTER_PI * bore_diameter_mm * bore_diameter_mm * gas_length_mm
    return column + added_volume_mm3 - lost_volume_mm3


@rule(
    unit="ml",
    equation="V = (V_b - V_min - V_d - V_T) / 1000",
    symbols={
        "V": "gas left above the least volume [ml]",
        "V_b": "bladder_volume_mm3",
        "V_min": "least_volume_mm3",
        "V_d": "displaced_volume_mm3",
        "V_T": "oil_growth_mm3",
    },
    source="geometry: capacity that is there, less what stroke and heat need",
    rises_with=("bladder_volume_mm3",),
    falls_with=("least_volume_mm3", "displaced_volume_mm3", "oil_growth_mm3"),
    valid={
        "bladder_volume_mm3": (0.0, 200_000.0),
        "least_volume_mm3": (0.0, 50_000.0),
        "displaced_volume_mm3": _VOLUME,
        "oil_growth_mm3": _VOLUME,
    },
)
def bladder_room_left(
    *,
    bladder_volume_mm3: Real,
    least_volume_mm3: Real,
    displaced_volume_mm3: Real,
    oil_growth_mm3: Real,
) -> Real:
    """Gas that the bladder still has above its least volume at full stroke.

    Equation   V = (V_b - V_min - V_d - V_T) / 1000
    Symbols    V      returned              [ml]
               V_b    bladder_volume_mm3    [mm3]  charged, at full extension
               V_min  least_volume_mm3      [mm3]  by its maker
               V_d    displaced_volume_mm3  [mm3]
               V_T    oil_growth_mm3        [mm3]
    Valid      at zero the bladder is squeezed to its least volume
    Source     geometry

    >>> bladder_room_left(bladder_volume_mm3=45000.0, least_volume_mm3=12000.0,
    ...                   displaced_volume_mm3=13352.0, oil_growth_mm3=3587.0)
    16.061
    """
    return (bladder_volume_mm3 - least_volume_mm3 - displaced_volume_mm3 - oil_growth_mm3) / 1000.0


@rule(
    unit="mm3",
    equation="V = V_0 - V_T",
    symbols={"V": "gas volume then [mm3]", "V_0": "gas_volume_mm3", "V_T": "taken_volume_mm3"},
    source="geometry",
    rises_with=("gas_volume_mm3",),
    falls_with=("taken_volume_mm3",),
    valid={"gas_volume_mm3": _GAS_VOLUME, "taken_volume_mm3": (-10_000.0, 20_000.0)},
)
def gas_volume_then(*, gas_volume_mm3: Real, taken_volume_mm3: Real) -> Real:
    """Gas at full extension after the oil has grown, or shrunk (a volume below zero is given up).

    Equation   V = V_0 - V_T
    Symbols    V    returned          [mm3]
               V_0  gas_volume_mm3    [mm3]
               V_T  taken_volume_mm3  [mm3]
    Valid      any sign
    Source     geometry

    >>> gas_volume_then(gas_volume_mm3=11680.4, taken_volume_mm3=2341.7)
    9338.7
    """
    return gas_volume_mm3 - taken_volume_mm3


@rule(
    unit="1",
    equation="r = V / (V - V_t)",
    symbols={"r": "volume before over volume after [1]", "V": "gas_volume_mm3", "V_t": "taken_volume_mm3"},
    source="definition",
    rises_with=("taken_volume_mm3",),
    falls_with=("gas_volume_mm3",),
    valid={"gas_volume_mm3": _GAS_VOLUME, "taken_volume_mm3": _VOLUME},
)
def squeezed_ratio(*, gas_volume_mm3: Real, taken_volume_mm3: Real) -> Real:
    """How many times smaller the gas becomes when a volume is taken from it.

    Equation   r = V / (V - V_t)
    Symbols    r    returned          [1]
               V    gas_volume_mm3    [mm3]
               V_t  taken_volume_mm3  [mm3]  0 or more
    Valid      V above V_t; else nan: there is no gas left, and no pressure to be told
    Source     definition

    >>> squeezed_ratio(gas_volume_mm3=11680.4, taken_volume_mm3=3898.5)
    1.50097
    """
    return gas_volume_mm3 / positive(gas_volume_mm3 - taken_volume_mm3)


@rule(
    unit="1",
    equation="r = V / (V + V_g)",
    symbols={"r": "volume before over volume after [1]", "V": "gas_volume_mm3", "V_g": "given_volume_mm3"},
    source="definition",
    rises_with=("gas_volume_mm3",),
    falls_with=("given_volume_mm3",),
    valid={"gas_volume_mm3": _GAS_VOLUME, "given_volume_mm3": _VOLUME},
)
def relaxed_ratio(*, gas_volume_mm3: Real, given_volume_mm3: Real) -> Real:
    """The same when the gas gets a volume more: below one.

    Equation   r = V / (V + V_g)
    Symbols    r    returned          [1]
               V    gas_volume_mm3    [mm3]
               V_g  given_volume_mm3  [mm3]  0 or more
    Valid      V above 0
    Source     definition

    >>> relaxed_ratio(gas_volume_mm3=11680.4, given_volume_mm3=1170.9)
    0.909
    """
    return gas_volume_mm3 / positive(gas_volume_mm3 + given_volume_mm3)


@rule(
    unit="mm",
    equation="L = (V_0 - V_a + V_l) / (pi/4 d_i^2)",
    symbols={
        "L": "gas length [mm]",
        "V_0": "gas_volume_mm3",
        "V_a": "added_volume_mm3",
        "V_l": "lost_volume_mm3",
        "d_i": "bore_diameter_mm",
    },
    source="geometry",
    rises_with=("gas_volume_mm3", "lost_volume_mm3"),
    falls_with=("added_volume_mm3", "bore_diameter_mm"),
    valid={
        "gas_volume_mm3": _GAS_VOLUME,
        "added_volume_mm3": _VOLUME,
        "lost_volume_mm3": _VOLUME,
        "bore_diameter_mm": _BORE,
    },
)
def length_for_volume(
    *, gas_volume_mm3: Real, added_volume_mm3: Real, lost_volume_mm3: Real, bore_diameter_mm: Real
) -> Real:
    """Gas length that gives a gas volume.

    Equation   L = (V_0 - V_a + V_l) / (pi/4 d_i^2)
    Symbols    L    returned          [mm]
               V_0  gas_volume_mm3    [mm3]
               V_a  added_volume_mm3  [mm3]
               V_l  lost_volume_mm3   [mm3]
               d_i  bore_diameter_mm  [mm]
    Valid      V_0 above V_a, else below zero
    Source     geometry

    >>> length_for_volume(gas_volume_mm3=11680.4, added_volume_mm3=0.0, lost_volume_mm3=0.0,
    ...                   bore_diameter_mm=26.0)
    22.0
    """
    column = gas_volume_mm3 - added_volume_mm3 + lost_volume_mm3
    return column / (_QUARTER_PI * bore_diameter_mm * bore_diameter_mm)
