"""How full the ring makes its gland."""

from __future__ import annotations

import math

from fitcheck.numbers import Real, positive, smaller, where
from fitcheck.rule import rule


@rule(
    unit="%",
    equation="F = 100 pi k d2^2 (d1 + d2) g / (pi/4 (D^2 - d^2) w)",
    symbols={
        "F": "fill [%]",
        "k": "area_factor",
        "d1": "inside_diameter_mm",
        "d2": "cross_section_mm",
        "g": "volume_growth",
        "D": "outer_diameter_mm",
        "d": "inner_diameter_mm",
        "w": "groove_width_mm",
    },
    source="ring volume over gland volume; area factors pi/4 and 0.8215 (allsealsinc.com worked examples)",
    rises_with=("inside_diameter_mm", "cross_section_mm", "inner_diameter_mm", "volume_growth"),
    falls_with=("outer_diameter_mm", "groove_width_mm"),
)
def radial_fill(
    *,
    inside_diameter_mm: Real,
    cross_section_mm: Real,
    outer_diameter_mm: Real,
    inner_diameter_mm: Real,
    groove_width_mm: Real,
    area_factor: Real = math.pi / 4,
    volume_growth: Real = 1.0,
) -> Real:
    """Share of a radial gland's volume that the ring takes.

    Equation   F = 100 (pi k d2^2 (d1 + d2) g) / (pi/4 (D^2 - d^2) w)
    Symbols    F   returned            [%]
               d1  inside_diameter_mm  [mm]
               d2  cross_section_mm    [mm]
               k   area_factor         [1]   area of the section over d2^2
               g   volume_growth       [1]   swell and heat; 1 as assembled
               D   outer_diameter_mm   [mm]  bore, or groove floor of a rod gland
               d   inner_diameter_mm   [mm]  groove floor of a piston gland, or shaft
               w   groove_width_mm     [mm]  less the back-up rings
    Valid      D above d, w above 0; else nan
    Source     definition (volume form). Rubber keeps its volume, so stretch does not enter. Section areas
               of the worked examples: 0.0092 in2 for a four-lobed .103 in section at its largest

    >>> radial_fill(inside_diameter_mm=24.99, cross_section_mm=3.53, outer_diameter_mm=31.5,
    ...             inner_diameter_mm=25.4, groove_width_mm=4.8)
    67.0
    """
    section = outer_diameter_mm * outer_diameter_mm - inner_diameter_mm * inner_diameter_mm
    scale = 400.0 * area_factor * volume_growth  # 100 % times pi over pi / 4
    ring = scale * cross_section_mm * cross_section_mm * (inside_diameter_mm + cross_section_mm)
    return ring / where(smaller(section, groove_width_mm) > 0.0, section * groove_width_mm, math.nan)


@rule(
    unit="%",
    equation="F = 100 pi k d2^2 (d1 + d2) g / (pi (D - w) w t), D outer wall; (D + w) on an inner wall",
    symbols={
        "F": "fill [%]",
        "k": "area_factor",
        "d1": "inside_diameter_mm",
        "d2": "cross_section_mm",
        "g": "volume_growth",
        "D": "wall_diameter_mm",
        "w": "groove_width_mm",
        "t": "groove_depth_mm",
    },
    source="ring volume over gland volume",
    rises_with=("inside_diameter_mm", "cross_section_mm", "volume_growth"),
    falls_with=("wall_diameter_mm", "groove_width_mm", "groove_depth_mm"),
)
def face_fill(
    *,
    inside_diameter_mm: Real,
    cross_section_mm: Real,
    wall_diameter_mm: Real,
    groove_width_mm: Real,
    groove_depth_mm: Real,
    wall_side: Real = 1.0,
    area_factor: Real = math.pi / 4,
    volume_growth: Real = 1.0,
) -> Real:
    """Share of a face gland's volume that the ring takes.

    Equation   F = 100 (pi k d2^2 (d1 + d2) g) / (pi (D - s w) w t)
    Symbols    F   returned            [%]
               d1  inside_diameter_mm  [mm]
               d2  cross_section_mm    [mm]
               k   area_factor         [1]   area of the section over d2^2
               g   volume_growth       [1]   swell and heat; 1 as assembled
               D   wall_diameter_mm    [mm]  the wall the pressure pushes the ring against
               s   wall_side           [1]   +1 outer wall (pressure from inside), -1 inner wall
               w   groove_width_mm     [mm]
               t   groove_depth_mm     [mm]
    Valid      w at most D / 2 on an outer wall, w and t above 0; else nan
    Source     definition (volume form)

    >>> face_fill(inside_diameter_mm=24.99, cross_section_mm=3.53, wall_diameter_mm=32.0,
    ...           groove_width_mm=4.8, groove_depth_mm=2.7)
    79.2
    """
    scale = 100.0 * area_factor * volume_growth  # pi cancels
    ring = scale * cross_section_mm * cross_section_mm * (inside_diameter_mm + cross_section_mm)
    mean = wall_diameter_mm - wall_side * groove_width_mm
    inner = mean - groove_width_mm  # the other wall, for a groove on its outer one
    room = positive(groove_width_mm) * positive(groove_depth_mm)
    return ring / (where(inner >= 0.0, mean, math.nan) * room)


@rule(
    unit="1",
    equation="g = (1 + q/100) (1 + 3 a_r dT) / (1 + 3 a_m dT)",
    symbols={
        "g": "growth of ring volume over gland volume",
        "q": "swell_percent",
        "a_r": "rubber_expansion_per_k",
        "a_m": "metal_expansion_per_k",
        "dT": "temperature_rise_k",
    },
    source="derived: swell and heat act on volumes",
    rises_with=("swell_percent",),
)
def volume_growth(
    *,
    swell_percent: Real,
    rubber_expansion_per_k: Real,
    metal_expansion_per_k: Real,
    temperature_rise_k: Real,
) -> Real:
    """Growth of the ring's volume against that of its gland.

    Equation   g = (1 + q/100) (1 + 3 a_r dT) / (1 + 3 a_m dT)
    Symbols    g    returned                [1]
               q    swell_percent           [%]
               a_r  rubber_expansion_per_k  [1/K] linear
               a_m  metal_expansion_per_k   [1/K] linear
               dT   temperature_rise_k      [K]   above 20 degC
    Valid      small growths
    Source     derived; 10 % swell and 60 K on a rubber of 112e-6/K turn 71 % fill into about 80 %

    >>> 71 * volume_growth(swell_percent=10.0, rubber_expansion_per_k=112e-6, metal_expansion_per_k=0.0,
    ...                    temperature_rise_k=60.0)
    79.7
    """
    return (
        (1.0 + swell_percent / 100.0)
        * (1.0 + 3.0 * rubber_expansion_per_k * temperature_rise_k)
        / (1.0 + 3.0 * metal_expansion_per_k * temperature_rise_k)
    )
