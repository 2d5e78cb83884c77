"""Lengths of the gas side: what the shaft displaces, what the oil grows, how far the piston has to go.

Volumes in mm3, lengths in mm. The oil fills its side, the body does not give way.
"""

from __future__ import annotations

import math

from fitcheck.numbers import Real, larger
from fitcheck.rule import rule

_QUARTER_PI = math.pi / 4.0
_VOLUME = (0.0, 20_000.0)
_BORE = (20.0, 60.0)


@rule(
    unit="mm3",
    equation="V_d = pi/4 d_s^2 s",
    symbols={"V_d": "volume displaced [mm3]", "d_s": "shaft_diameter_mm", "s": "stroke_mm"},
    source="geometry: the shaft takes the room of the oil",
    rises_with=("shaft_diameter_mm", "stroke_mm"),
    valid={"shaft_diameter_mm": (5.0, 30.0), "stroke_mm": (0.0, 250.0)},
)
def displaced_volume(*, shaft_diameter_mm: Real, stroke_mm: Real) -> Real:
    """Oil that the shaft displaces over its stroke.

    Equation   V_d = pi/4 d_s^2 s
    Symbols    V_d  returned           [mm3]
               d_s  shaft_diameter_mm  [mm]  where the oil is sealed
               s    stroke_mm          [mm]  of the damper shaft, not of the wheel
    Valid      one shaft, oil full, no air in it
    Source     geometry

    >>> displaced_volume(shaft_diameter_mm=9.5, stroke_mm=55.0)
    3898.5
    """
    return _QUARTER_PI * shaft_diameter_mm * shaft_diameter_mm * stroke_mm


@rule(
    unit="mm",
    equation="L_0 = a - b - t",
    symbols={"L_0": "gas length [mm]", "a": "longer_mm", "b": "shorter_mm", "t": "piston_length_mm"},
    source="geometry: lengths along one axis add up",
    rises_with=("longer_mm",),
    falls_with=("shorter_mm", "piston_length_mm"),
    valid={"longer_mm": (0.0, 300.0), "shorter_mm": (0.0, 300.0), "piston_length_mm": (0.0, 40.0)},
)
def gas_length(*, longer_mm: Real, shorter_mm: Real, piston_length_mm: Real) -> Real:
    """Length of the gas column, from the gas side of the floating piston to the gas end.

    Equation   L_0 = a - b - t
    Symbols    L_0  returned          [mm]
               a    longer_mm         [mm]  read from the oil end: the tube; from the gas end: the depth
               b    shorter_mm        [mm]  the other of the two
               t    piston_length_mm  [mm]  0 where the face that was read is the one on the gas side
    Valid      depth and tube length from one edge
    Source     geometry

    >>> gas_length(longer_mm=95.0, shorter_mm=51.0, piston_length_mm=14.0)
    30.0
    """
    return longer_mm - shorter_mm - piston_length_mm


@rule(
    unit="mm",
    equation="x = V / (pi/4 d_i^2)",
    symbols={"x": "way of the piston [mm]", "V": "volume_mm3", "d_i": "bore_diameter_mm"},
    source="oil does not give way: the piston makes the room",
    rises_with=("volume_mm3",),
    falls_with=("bore_diameter_mm",),
    valid={"volume_mm3": (0.0, 50_000.0), "bore_diameter_mm": _BORE},
)
def piston_travel(*, volume_mm3: Real, bore_diameter_mm: Real) -> Real:
    """Way of the floating piston for a volume of oil.

    Equation   x = V / (pi/4 d_i^2); for the whole stroke x = s (d_s / d_i)^2
    Symbols    x    returned          [mm]
               V    volume_mm3        [mm3]
               d_i  bore_diameter_mm  [mm]
    Valid      oil full, body stiff
    Source     geometry

    >>> piston_travel(volume_mm3=3898.5, bore_diameter_mm=26.0)
    7.343
    """
    return volume_mm3 / (_QUARTER_PI * bore_diameter_mm * bore_diameter_mm)


@rule(
    unit="mm3",
    equation="V_T = V_oil (alpha - 3 alpha_b) max(dT, 0)",
    symbols={
        "V_T": "growth of the oil over that of its body [mm3]",
        "V_oil": "oil_volume_mm3",
        "alpha": "oil_expansion_per_k",
        "alpha_b": "metal_expansion_per_k",
        "dT": "temperature_rise_k",
    },
    source="thermal expansion: oil by volume, body by three times its length",
    rises_with=("oil_volume_mm3", "oil_expansion_per_k", "temperature_rise_k"),
    falls_with=("metal_expansion_per_k",),
    valid={
        "oil_volume_mm3": (0.0, 500_000.0),
        "oil_expansion_per_k": (5e-4, 1.2e-3),
        "metal_expansion_per_k": (1.0e-5, 2.6e-5),
        "temperature_rise_k": (-60.0, 120.0),
    },
)
def oil_growth(
    *,
    oil_volume_mm3: Real,
    oil_expansion_per_k: Real,
    metal_expansion_per_k: Real,
    temperature_rise_k: Real,
) -> Real:
    """Room that the oil takes from the gas when it is warmer; none where it is not.

    Told of a fall in temperature it is the room that the oil gives up.

    Equation   V_T = V_oil (alpha - 3 alpha_b) max(dT, 0)
    Symbols    V_T      returned               [mm3]
               V_oil    oil_volume_mm3         [mm3]
               alpha    oil_expansion_per_k    [1/K]  by volume
               alpha_b  metal_expansion_per_k  [1/K]  linear, of the body
               dT       temperature_rise_k     [K]    from the temperature of setting
    Valid      oil that expands more than its body
    Source     thermal expansion; 62 ml, 7.0e-4 against aluminium 23.5e-6, 60 K: 4.41 mm of a 26 mm bore

    >>> oil_growth(oil_volume_mm3=62000.0, oil_expansion_per_k=7e-4, metal_expansion_per_k=23.5e-6,
    ...            temperature_rise_k=60.0)
    2341.7
    """
    net = oil_expansion_per_k - 3.0 * metal_expansion_per_k
    return oil_volume_mm3 * net * larger(temperature_rise_k, 0.0)


@rule(
    unit="mm",
    equation="c = L_0 - h - (V_d + V_T) / (pi/4 d_i^2)",
    symbols={
        "c": "travel left [mm]",
        "L_0": "gas_length_mm",
        "h": "nose_length_mm",
        "V_d": "displaced_volume_mm3",
        "V_T": "oil_growth_mm3",
        "d_i": "bore_diameter_mm",
    },
    source="geometry: what the piston has, less what stroke and heat take",
    rises_with=("gas_length_mm", "bore_diameter_mm"),
    falls_with=("nose_length_mm", "displaced_volume_mm3", "oil_growth_mm3"),
    valid={
        "gas_length_mm": (0.0, 150.0),
        "nose_length_mm": (0.0, 10.0),
        "displaced_volume_mm3": _VOLUME,
        "oil_growth_mm3": _VOLUME,
        "bore_diameter_mm": _BORE,
    },
)
def travel_left(
    *,
    gas_length_mm: Real,
    nose_length_mm: Real,
    displaced_volume_mm3: Real,
    oil_growth_mm3: Real,
    bore_diameter_mm: Real,
) -> Real:
    """Travel of the floating piston that is left at full stroke; at zero the oil is locked in.

    Equation   c = L_0 - h - (V_d + V_T) / (pi/4 d_i^2)
    Symbols    c    returned              [mm]
               L_0  gas_length_mm         [mm]
               h    nose_length_mm        [mm]   what stands out of the gas end and stops the piston
               V_d  displaced_volume_mm3  [mm3]
               V_T  oil_growth_mm3        [mm3]  0 as set
               d_i  bore_diameter_mm      [mm]
    Valid      oil full, body stiff; pockets give the piston no travel
    Source     geometry

    >>> travel_left(gas_length_mm=22.0, nose_length_mm=0.0, displaced_volume_mm3=3898.5, oil_growth_mm3=0.0,
    ...             bore_diameter_mm=26.0)
    14.657
    """
    taken = (displaced_volume_mm3 + oil_growth_mm3) / (_QUARTER_PI * bore_diameter_mm * bore_diameter_mm)
    return gas_length_mm - nose_length_mm - taken


@rule(
    unit="mm",
    equation="c = R + f - V_T / (pi/4 d_i^2)",
    symbols={
        "c": "clearance [mm]",
        "R": "oil_side_room_mm",
        "f": "farther_mm",
        "V_T": "oil_shrinkage_mm3",
        "d_i": "bore_diameter_mm",
    },
    source="geometry: cold oil draws the piston toward it",
    rises_with=("oil_side_room_mm", "farther_mm", "bore_diameter_mm"),
    falls_with=("oil_shrinkage_mm3",),
    valid={
        "oil_side_room_mm": (0.0, 50.0),
        "farther_mm": (-5.0, 5.0),
        "oil_shrinkage_mm3": _VOLUME,
        "bore_diameter_mm": _BORE,
    },
)
def oil_side_clearance(
    *, oil_side_room_mm: Real, farther_mm: Real, oil_shrinkage_mm3: Real, bore_diameter_mm: Real
) -> Real:
    """Way that the floating piston has left toward the oil, cold and at full extension.

    Equation   c = R + f - V_T / (pi/4 d_i^2)
    Symbols    c    returned           [mm]
               R    oil_side_room_mm   [mm]   at set temperature, the piston at its set depth
               f    farther_mm         [mm]   how much farther from the oil it stands than that depth
               V_T  oil_shrinkage_mm3  [mm3]
               d_i  bore_diameter_mm   [mm]
    Valid      below zero the piston stands on its stop and the oil goes to vacuum
    Source     geometry

    >>> oil_side_clearance(oil_side_room_mm=5.0, farther_mm=0.0, oil_shrinkage_mm3=1170.9,
    ...                    bore_diameter_mm=26.0)
    2.795
    """
    shrunk = oil_shrinkage_mm3 / (_QUARTER_PI * bore_diameter_mm * bore_diameter_mm)
    return oil_side_room_mm + farther_mm - shrunk
