"""A guide ring in its groove: play, metal kept apart, room along the axis, the joint in the heat.

For a piston the strip lies between the groove floor and the bore, for a rod between the floor in the housing
and the rod: ``outer`` and ``inner`` are the two cylinders the strip lies between.
"""

from __future__ import annotations

import math

from fitcheck.numbers import Real
from fitcheck.rule import rule

_OUTER = (20.0, 60.0)
_INNER = (5.0, 19.0)
_THICK = (0.5, 4.0)
_EXPANSION = (8e-5, 3e-4)
_METAL = (1e-5, 3e-5)


@rule(
    unit="mm",
    equation="c = (D - d) (1 + a_m dT) - 2 t (1 + a_r dT)",
    symbols={
        "c": "play [mm]",
        "D": "outer_diameter_mm",
        "d": "inner_diameter_mm",
        "t": "thickness_mm",
        "a_m": "metal_expansion_per_k",
        "a_r": "ring_expansion_per_k",
        "dT": "temperature_rise_k",
    },
    source="geometry; tribology-abc.com, hydraulic cylinder clearance",
    rises_with=("outer_diameter_mm", "metal_expansion_per_k"),
    falls_with=("inner_diameter_mm", "thickness_mm", "ring_expansion_per_k"),
    valid={
        "outer_diameter_mm": _OUTER,
        "inner_diameter_mm": _INNER,
        "thickness_mm": _THICK,
        "metal_expansion_per_k": _METAL,
        "ring_expansion_per_k": _EXPANSION,
        "temperature_rise_k": (0.0, 150.0),
    },
)
def guide_play(
    *,
    outer_diameter_mm: Real,
    inner_diameter_mm: Real,
    thickness_mm: Real,
    metal_expansion_per_k: Real,
    ring_expansion_per_k: Real,
    temperature_rise_k: Real,
) -> Real:
    """Diametral play of a guide ring between its groove floor and what it runs on.

    Equation   c = (D - d) (1 + a_m dT) - 2 t (1 + a_r dT)
    Symbols    c    returned               [mm]
               D    outer_diameter_mm      [mm]   bore of a piston, groove floor of a rod guide
               d    inner_diameter_mm      [mm]   groove floor of a piston, rod of a rod guide
               t    thickness_mm           [mm]
               a_m  metal_expansion_per_k  [1/K]
               a_r  ring_expansion_per_k   [1/K]
               dT   temperature_rise_k     [K]    above 20 degC, not negative
    Valid      small growths
    Source     geometry; the printed grooves of ISO 10766 leave 0 at nominal (36 - 31 - 2 x 2.5)

    >>> guide_play(outer_diameter_mm=36.062, inner_diameter_mm=30.961, thickness_mm=2.475,
    ...            metal_expansion_per_k=0.0, ring_expansion_per_k=0.0, temperature_rise_k=0.0)
    0.151
    """
    room = (outer_diameter_mm - inner_diameter_mm) * (1.0 + metal_expansion_per_k * temperature_rise_k)
    return room - 2.0 * thickness_mm * (1.0 + ring_expansion_per_k * temperature_rise_k)


@rule(
    unit="mm",
    equation="c = D (1 + e_o) - d (1 + e_i) - 2 t (1 + e_r)",
    symbols={
        "c": "play [mm]",
        "D": "outer_diameter_mm",
        "d": "inner_diameter_mm",
        "t": "thickness_mm",
        "e_o": "outer_strain",
        "e_i": "inner_strain",
        "e_r": "ring_strain",
    },
    source="geometry, and linear expansion from 20 degC (ISO 1) of each of the two metals",
    rises_with=("outer_diameter_mm", "outer_strain"),
    falls_with=("inner_diameter_mm", "thickness_mm", "inner_strain", "ring_strain"),
    valid={
        "outer_diameter_mm": _OUTER,
        "inner_diameter_mm": _INNER,
        "thickness_mm": _THICK,
        "outer_strain": (-0.003, 0.005),
        "inner_strain": (-0.003, 0.005),
        "ring_strain": (-0.03, 0.05),
    },
)
def guide_play_of_two_metals(
    *,
    outer_diameter_mm: Real,
    inner_diameter_mm: Real,
    thickness_mm: Real,
    outer_strain: Real,
    inner_strain: Real,
    ring_strain: Real,
) -> Real:
    """Diametral play of a guide ring whose groove is in one metal while it runs on another.

    Equation   c = D (1 + e_o) - d (1 + e_i) - 2 t (1 + e_r), each e = alpha (T - 20)
    Symbols    c    returned           [mm]
               D    outer_diameter_mm  [mm]  bore of a piston, groove floor of a rod guide
               d    inner_diameter_mm  [mm]  groove floor of a piston, rod of a rod guide
               t    thickness_mm       [mm]
               e_o  outer_strain       [-]
               e_i  inner_strain       [-]
               e_r  ring_strain        [-]
    Valid      small growths, warm or cold
    Source     geometry; own arithmetic: 36 mm of aluminium closes on 31 mm of steel by 0.0137 mm in 30 K

    >>> guide_play_of_two_metals(outer_diameter_mm=36.0, inner_diameter_mm=31.0, thickness_mm=2.475,
    ...                          outer_strain=-69.0e-5, inner_strain=-36.0e-5, ring_strain=0.0)
    0.0363
    """
    room = outer_diameter_mm * (1.0 + outer_strain) - inner_diameter_mm * (1.0 + inner_strain)
    return room - 2.0 * thickness_mm * (1.0 + ring_strain)


@rule(
    unit="mm",
    equation="p = t - |L - G| / 2",
    symbols={"p": "metal kept apart by [mm]", "t": "thickness_mm", "|L - G|": "land_step_mm"},
    source="tribology-abc.com, hydraulic cylinder clearance: groove / 2 + strip - piston / 2",
    rises_with=("thickness_mm",),
    falls_with=("land_step_mm",),
    valid={"thickness_mm": _THICK, "land_step_mm": (0.1, 8.0)},
)
def metal_kept_apart(*, thickness_mm: Real, land_step_mm: Real) -> Real:
    """How far the strip stands out of its groove: below 0 metal touches metal first.

    Equation   p = t - |L - G| / 2
    Symbols    p        returned      [mm]
               t        thickness_mm  [mm]
               |L - G|  land_step_mm  [mm]  land less groove floor, on the diameter
    Valid      any
    Source     tribology-abc.com: groove diameter / 2 + ring - piston diameter / 2

    >>> metal_kept_apart(thickness_mm=2.5, land_step_mm=4.0)
    0.5
    """
    return thickness_mm - land_step_mm / 2.0


@rule(
    unit="mm",
    equation="s = O - I",
    symbols={"s": "step [mm]", "O": "outer_diameter_mm", "I": "inner_diameter_mm"},
    source="geometry",
    rises_with=("outer_diameter_mm",),
    falls_with=("inner_diameter_mm",),
    valid={"outer_diameter_mm": _OUTER, "inner_diameter_mm": _INNER},
)
def diametral_step(*, outer_diameter_mm: Real, inner_diameter_mm: Real) -> Real:
    """Difference of two diameters on one axis.

    Equation   s = O - I
    Symbols    s  returned           [mm]
               O  outer_diameter_mm  [mm]
               I  inner_diameter_mm  [mm]
    Valid      O above I
    Source     geometry

    >>> diametral_step(outer_diameter_mm=35.4, inner_diameter_mm=31.0)
    4.4
    """
    return outer_diameter_mm - inner_diameter_mm


@rule(
    unit="mm",
    equation="g = s / 2",
    symbols={"g": "radial gap [mm]", "s": "step_mm"},
    source="Trelleborg Orkot Slydring sheet, table XLII: largest radial gap at the guide ring",
    rises_with=("step_mm",),
    valid={"step_mm": (0.0, 5.0)},
)
def radial_gap(*, step_mm: Real) -> Real:
    """Radial gap between the metal beside a guide ring and what it runs on, on one axis.

    Equation   g = s / 2
    Symbols    g  returned  [mm]
               s  step_mm   [mm]  bore less land, or throat less rod
    Valid      not negative; the sheet's gap is read as the concentric one
    Source     Trelleborg Orkot Slydring sheet, table XLII: 0.5 mm at a 1.55 mm strip, 0.9 mm at 2.5 mm

    >>> radial_gap(step_mm=1.0)
    0.5
    """
    return step_mm / 2.0


@rule(
    unit="mm",
    equation="r = w (1 + a_m dT) - b (1 + a_r dT)",
    symbols={
        "r": "room along the axis [mm]",
        "w": "groove_width_mm",
        "b": "ring_width_mm",
        "a_m": "metal_expansion_per_k",
        "a_r": "ring_expansion_per_k",
        "dT": "temperature_rise_k",
    },
    source="geometry",
    rises_with=("groove_width_mm", "metal_expansion_per_k"),
    falls_with=("ring_width_mm", "ring_expansion_per_k"),
    valid={
        "groove_width_mm": (1.0, 30.0),
        "ring_width_mm": (1.0, 30.0),
        "metal_expansion_per_k": _METAL,
        "ring_expansion_per_k": _EXPANSION,
        "temperature_rise_k": (0.0, 150.0),
    },
)
def guide_side_room(
    *,
    groove_width_mm: Real,
    ring_width_mm: Real,
    metal_expansion_per_k: Real,
    ring_expansion_per_k: Real,
    temperature_rise_k: Real,
) -> Real:
    """Room along the axis that a guide ring has in its groove.

    Equation   r = w (1 + a_m dT) - b (1 + a_r dT)
    Symbols    r    returned               [mm]
               w    groove_width_mm        [mm]
               b    ring_width_mm          [mm]
               a_m  metal_expansion_per_k  [1/K]
               a_r  ring_expansion_per_k   [1/K]
               dT   temperature_rise_k     [K]    above 20 degC, not negative
    Valid      small growths
    Source     geometry; printed: strip 5.6 in a groove of 5.7 (ankseals.com)

    >>> guide_side_room(groove_width_mm=5.7, ring_width_mm=5.6, metal_expansion_per_k=0.0,
    ...                 ring_expansion_per_k=0.0, temperature_rise_k=0.0)
    0.1
    """
    room = groove_width_mm * (1.0 + metal_expansion_per_k * temperature_rise_k)
    return room - ring_width_mm * (1.0 + ring_expansion_per_k * temperature_rise_k)


@rule(
    unit="mm",
    equation="j = z - pi d_m (a_r - a_m) dT",
    symbols={
        "j": "joint gap in the heat [mm]",
        "z": "joint_gap_mm",
        "d_m": "mean_diameter_mm",
        "a_r": "ring_expansion_per_k",
        "a_m": "metal_expansion_per_k",
        "dT": "temperature_rise_k",
    },
    source="thermal growth of a strip held round its metal",
    rises_with=("joint_gap_mm", "metal_expansion_per_k"),
    falls_with=("mean_diameter_mm", "ring_expansion_per_k"),
    valid={
        "joint_gap_mm": (0.0, 20.0),
        "mean_diameter_mm": (5.0, 100.0),
        "ring_expansion_per_k": _EXPANSION,
        "metal_expansion_per_k": _METAL,
        "temperature_rise_k": (0.0, 150.0),
    },
)
def joint_gap_hot(
    *,
    joint_gap_mm: Real,
    mean_diameter_mm: Real,
    ring_expansion_per_k: Real,
    metal_expansion_per_k: Real,
    temperature_rise_k: Real,
) -> Real:
    """Gap of the joint at the hot end: the strip grows round a metal that grows less.

    Equation   j = z - pi d_m (a_r - a_m) dT
    Symbols    j    returned               [mm]   0 or below: the joint is closed and the strip jams
               z    joint_gap_mm           [mm]   at 20 degC, in place
               d_m  mean_diameter_mm       [mm]   of the strip
               a_r  ring_expansion_per_k   [1/K]
               a_m  metal_expansion_per_k  [1/K]
               dT   temperature_rise_k     [K]    above 20 degC, not negative
    Valid      the strip grows more than the metal
    Source     thermal growth; own arithmetic: 33.5 mm, 112e-6 less 23.1e-6 per K, 40 K close 0.374 mm

    >>> joint_gap_hot(joint_gap_mm=1.0, mean_diameter_mm=33.5, ring_expansion_per_k=112e-6,
    ...               metal_expansion_per_k=23.1e-6, temperature_rise_k=40.0)
    0.626
    """
    growth = (ring_expansion_per_k - metal_expansion_per_k) * temperature_rise_k
    return joint_gap_mm - math.pi * mean_diameter_mm * growth
