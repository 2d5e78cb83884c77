"""Squeeze of a ring in its gland, layer by layer.

The handbook sum comes first and reproduces the printed tables; the layers that a real assembly adds
(thinning by stretch, eccentricity, temperature, swell) are separate rules, so each can be seen and
switched off. Percent is always of the section actually present.
"""

from __future__ import annotations

import math

from fitcheck.numbers import Real, larger, root, smaller, where
from fitcheck.rule import rule

REFERENCE_TEMPERATURE_DEG_C = 20.0  # ISO 1: sizes are stated at 20 degC

_DEFINITION = "usseal.com, gland depth from groove floor to mating surface; MIL-G-5514G 3.6.2"


@rule(
    unit="mm",
    equation="t = (D - d) / 2",
    symbols={"t": "gland depth [mm]", "D": "outer_diameter_mm", "d": "inner_diameter_mm"},
    source=_DEFINITION,
    rises_with=("outer_diameter_mm",),
    falls_with=("inner_diameter_mm",),
)
def gland_depth(*, outer_diameter_mm: Real, inner_diameter_mm: Real) -> Real:
    """Radial gland depth, groove floor to mating surface, clearance included.

    Equation   t = (D - d) / 2
    Symbols    t   returned           [mm]
               D   outer_diameter_mm  [mm]  bore of a piston gland, groove floor of a rod gland
               d   inner_diameter_mm  [mm]  groove floor of a piston gland, shaft of a rod gland
    Valid      D above d
    Source     usseal.com, definition of gland depth; worked examples of allsealsinc.com

    >>> gland_depth(outer_diameter_mm=31.5, inner_diameter_mm=25.4)
    3.05
    """
    return (outer_diameter_mm - inner_diameter_mm) / 2.0


@rule(
    unit="mm",
    equation="t = h + g",
    symbols={"t": "gland depth [mm]", "h": "groove_depth_mm", "g": "face_gap_mm"},
    source="definition of gland depth: usseal.com, groove floor to mating surface",
    rises_with=("groove_depth_mm", "face_gap_mm"),
)
def face_gland_depth(*, groove_depth_mm: Real, face_gap_mm: Real) -> Real:
    """Gland depth of a face seal, groove floor to the opposite face.

    Equation   t = h + g
    Symbols    t   returned         [mm]
               h   groove_depth_mm  [mm]
               g   face_gap_mm      [mm]  0 where the faces touch
    Valid      not negative
    Source     usseal.com, definition of gland depth

    >>> face_gland_depth(groove_depth_mm=2.70, face_gap_mm=0.05)
    2.75
    """
    return groove_depth_mm + face_gap_mm


@rule(
    unit="%",
    equation="S = 100 (d2 - t) / d2",
    symbols={"S": "squeeze [%]", "d2": "cross_section_mm", "t": "gland_depth_mm"},
    source=_DEFINITION,
    rises_with=("cross_section_mm",),
    falls_with=("gland_depth_mm",),
)
def plain_squeeze(*, cross_section_mm: Real, gland_depth_mm: Real) -> Real:
    """Squeeze as the handbooks count it: free section against gland depth, no stretch, no eccentricity.

    Equation   S = 100 (d2 - t) / d2
    Symbols    S   returned          [%]
               d2  cross_section_mm  [mm]
               t   gland_depth_mm    [mm]
    Valid      positive sizes
    Source     Apple Rubber Seal Design Guide, O-ring gland tables: section .139 +/-.004 in, depth .119 to
               .123 in, printed squeeze 9 to 17 %
    Notes      the smallest is taken with the smallest section and the deepest gland, each percent of
               that section

    >>> plain_squeeze(cross_section_mm=0.135, gland_depth_mm=0.123)
    8.889
    >>> plain_squeeze(cross_section_mm=0.143, gland_depth_mm=0.119)
    16.78
    """
    return 100.0 * (cross_section_mm - gland_depth_mm) / cross_section_mm


@rule(
    unit="%",
    equation="0 < X <= 3: Y = -0.005 + 1.19 X - 0.19 X^2 - 0.001 X^3 + 0.008 X^4, not below 0; "
    "3 < X <= 25: Y = 0.56 + 0.59 X - 0.0046 X^2",
    symbols={"Y": "loss of section [%]", "X": "stretch_percent"},
    source="attributed to the Parker O-Ring Handbook, p. 54, as quoted in public secondary text",
    rises_with=("stretch_percent",),
    valid={"stretch_percent": (-100.0, 25.0)},
)
def section_loss_empirical(*, stretch_percent: Real) -> Real:
    """Loss of section by stretch, as measured on rings; about twice what constant volume says.

    Equation   0 < X <= 3    Y = -0.005 + 1.19 X - 0.19 X^2 - 0.001 X^3 + 0.008 X^4, not below 0
               3 < X <= 25   Y = 0.56 + 0.59 X - 0.0046 X^2
    Symbols    Y   returned         [%] of the free section
               X   stretch_percent  [%] of the free inside diameter
    Valid      up to 25 %; nan beyond; 0 for a ring that is not stretched
    Source     attributed to the Parker O-Ring Handbook, p. 54, as quoted in public secondary text;
               second branch also in a worked example (58 x 5.3 mm on 61.6 mm, printed 4.04 %)
    Notes      the first branch ends at 2.48 where the second begins at 2.29; the larger of the two is
               kept until the second catches up, so that more stretch never means less loss

    >>> section_loss_empirical(stretch_percent=6.2069)
    4.04
    >>> section_loss_empirical(stretch_percent=-1.0)
    0.0
    """
    x = larger(stretch_percent, 0.0)
    quartic = -0.005 + x * (1.19 + x * (-0.19 + x * (-0.001 + x * 0.008)))
    beyond = larger(_QUARTIC_AT_THREE, 0.56 + x * (0.59 - 0.0046 * x))
    # Up to 3 % the quartic is the smaller of the two, above it the other branch: no test is needed.
    loss = larger(smaller(quartic, beyond), 0.0)
    return where(x <= 25.0, loss, math.nan)


# No ring is pressed to a millionth of its length; it only keeps the root above zero.
_LEAST_LENGTH = 1e-6

_QUARTIC_AT_THREE = -0.005 + 1.19 * 3 - 0.19 * 9 - 0.001 * 27 + 0.008 * 81


@rule(
    unit="%",
    equation="0 < X <= 3: Y = 0.01 + 1.06 X - 0.1 X^2; 3 < X <= 25: Y = 0.56 + 0.59 X - 0.0046 X^2",
    symbols={"Y": "loss of section [%]", "X": "stretch_percent"},
    source="first branch from memory, in the form attributed to ISO 3601-2; second as the empirical law",
    rises_with=("stretch_percent",),
    valid={"stretch_percent": (-100.0, 25.0)},
)
def section_loss_joined(*, stretch_percent: Real) -> Real:
    """Loss of section by stretch, the form whose two branches meet at 3 %.

    Equation   0 < X <= 3    Y = 0.01 + 1.06 X - 0.1 X^2
               3 < X <= 25   Y = 0.56 + 0.59 X - 0.0046 X^2
    Symbols    Y   returned         [%] of the free section
               X   stretch_percent  [%] of the free inside diameter
    Valid      up to 25 %; nan beyond; 0 for a ring that is not stretched
    Source     first branch from memory; second as ``section_loss_empirical``

    >>> section_loss_joined(stretch_percent=3.0)
    2.29
    """
    x = stretch_percent
    first = 0.01 + x * (1.06 - 0.1 * x)
    second = 0.56 + x * (0.59 - 0.0046 * x)
    return where(x <= 0.0, 0.0 * x, where(x <= 3.0, first, where(x <= 25.0, second, math.nan)))


@rule(
    unit="%",
    equation="Y = 100 (1 - 1 / sqrt(1 + X / 100))",
    symbols={"Y": "loss of section [%]", "X": "stretch_percent"},
    source="constant volume: Apple Rubber, seal compression page; marcorubber.com, half the stretch",
    rises_with=("stretch_percent",),
    valid={"stretch_percent": (-50.0, 100.0)},
)
def section_loss_constant_volume(*, stretch_percent: Real) -> Real:
    """Loss of section when the rubber keeps its volume; negative (a gain) for a ring that is compressed.

    Equation   Y = 100 (1 - 1 / sqrt(1 + X / 100))
    Symbols    Y   returned         [%] of the free section
               X   stretch_percent  [%] of the free diameter; negative for peripheral compression
    Valid      X above -100
    Source     Apple Rubber, seal compression page (the assumption); the table of stretches 1 to 25 %
               follows: 1 % gives 0.50, 5 % gives 2.41

    >>> section_loss_constant_volume(stretch_percent=5.0)
    2.41
    """
    return 100.0 * (1.0 - 1.0 / root(1.0 + stretch_percent / 100.0))


@rule(
    unit="mm",
    equation="d2' = d2 (1 - Y / 100)",
    symbols={"d2'": "section as fitted [mm]", "d2": "cross_section_mm", "Y": "section_loss_percent"},
    source="definition",
    rises_with=("cross_section_mm",),
    falls_with=("section_loss_percent",),
)
def fitted_section(*, cross_section_mm: Real, section_loss_percent: Real) -> Real:
    """Section of the ring once it sits on its seat.

    Equation   d2' = d2 (1 - Y / 100)
    Symbols    d2' returned              [mm]
               d2  cross_section_mm      [mm]
               Y   section_loss_percent  [%]
    Valid      Y below 100
    Source     definition; a worked example prints 5.09 mm for 5.3 mm and 4.04 %

    >>> fitted_section(cross_section_mm=5.3, section_loss_percent=4.04)
    5.09
    """
    return cross_section_mm * (1.0 - section_loss_percent / 100.0)


@rule(
    unit="mm",
    equation="d2' = d2 / sqrt(1 + min(X, 0) / 100)",
    symbols={"d2'": "section as fitted [mm]", "d2": "cross_section_mm", "X": "stretch_percent"},
    source="constant volume of a round section: Apple Rubber, seal compression page",
    rises_with=("cross_section_mm",),
    falls_with=("stretch_percent",),
)
def thickened_section(*, cross_section_mm: Real, stretch_percent: Real) -> Real:
    """Section of a ring that its groove compresses along its length, at constant volume.

    Equation   d2' = d2 / sqrt(1 + min(X, 0) / 100)
    Symbols    d2' returned          [mm]
               d2  cross_section_mm  [mm]
               X   stretch_percent   [%]  negative for peripheral compression; stretch does not count
    Valid      X above -100
    Source     constant volume of a round section: Apple Rubber, seal compression page (the assumption)

    >>> thickened_section(cross_section_mm=3.53, stretch_percent=-2.0)
    3.566
    """
    return cross_section_mm / root(larger(1.0 + 0.01 * smaller(stretch_percent, 0.0), _LEAST_LENGTH))


@rule(
    unit="mm",
    equation="e = c / 2 + TIR / 2",
    symbols={"e": "offset [mm]", "c": "diametral_clearance_mm", "TIR": "runout_mm"},
    source="hard-over position of a piston in its clearance; total indicator reading is twice the offset "
    "(psering.com, oringsusa.com)",
    rises_with=("diametral_clearance_mm", "runout_mm"),
)
def eccentric_offset(*, diametral_clearance_mm: Real, runout_mm: Real) -> Real:
    """How far the groove may stand off centre: what one side loses and the other gains.

    Equation   e = c / 2 + TIR / 2
    Symbols    e    returned                [mm]
               c    diametral_clearance_mm  [mm]  of the guide when it is closer than the land
               TIR  runout_mm               [mm]  groove to guide, total indicator reading
    Valid      not negative
    Source     geometry; TIR is twice the offset: psering.com and oringsusa.com define the tabled limit so

    >>> eccentric_offset(diametral_clearance_mm=0.10, runout_mm=0.04)
    0.07
    """
    return (diametral_clearance_mm + runout_mm) / 2.0


@rule(
    unit="%",
    equation="S = 100 (d2' - t - e) / d2'",
    symbols={
        "S": "squeeze on the open side [%]",
        "d2'": "section_mm",
        "t": "gland_depth_mm",
        "e": "offset_mm",
    },
    source="MIL-G-5514G 3.6.2 (the interference that must remain)",
    rises_with=("section_mm",),
    falls_with=("gland_depth_mm", "offset_mm"),
)
def open_side_squeeze(*, section_mm: Real, gland_depth_mm: Real, offset_mm: Real) -> Real:
    """Squeeze on the side from which the shaft or piston has moved away.

    Equation   S = 100 (d2' - t - e) / d2'
    Symbols    S    returned        [%] of the section as fitted
               d2'  section_mm      [mm]
               t    gland_depth_mm  [mm]
               e    offset_mm       [mm]
    Valid      positive section
    Source     MIL-G-5514G 3.6.2: tolerances, clearance, eccentricity and cold are taken off together

    >>> open_side_squeeze(section_mm=3.40, gland_depth_mm=3.05, offset_mm=0.05)
    8.82
    """
    return 100.0 * (section_mm - gland_depth_mm - offset_mm) / section_mm


@rule(
    unit="%",
    equation="S = 100 (d2' - t + e) / d2'",
    symbols={
        "S": "squeeze on the tight side [%]",
        "d2'": "section_mm",
        "t": "gland_depth_mm",
        "e": "offset_mm",
    },
    source="MIL-G-5514G 3.6.2, the opposite side",
    rises_with=("section_mm", "offset_mm"),
    falls_with=("gland_depth_mm",),
)
def tight_side_squeeze(*, section_mm: Real, gland_depth_mm: Real, offset_mm: Real) -> Real:
    """Squeeze on the side towards which the shaft or piston has moved.

    Equation   S = 100 (d2' - t + e) / d2'
    Symbols    S    returned        [%] of the section as fitted
               d2'  section_mm      [mm]
               t    gland_depth_mm  [mm]
               e    offset_mm       [mm]
    Valid      positive section; 100 % where the offset reaches the depth and the metal meets
    Source     MIL-G-5514G 3.6.2, the opposite side

    >>> tight_side_squeeze(section_mm=3.40, gland_depth_mm=3.05, offset_mm=0.05)
    11.76
    """
    return 100.0 * (section_mm - larger(gland_depth_mm - offset_mm, 0.0)) / section_mm


@rule(
    unit="1",
    equation="k = sqrt((1 + q/100) (1 + 3 a_r dT) / (1 + a_m dT))",
    symbols={
        "k": "factor on the section",
        "q": "swell_percent",
        "a_r": "rubber_expansion_per_k",
        "a_m": "metal_expansion_per_k",
        "dT": "temperature_rise_k",
    },
    source="derived: rubber keeps its volume while the groove holds its length; a printed 6 % volume loss "
    "gives about 3 % section loss (Parker, low durometer note)",
    rises_with=("swell_percent",),
)
def section_growth(
    *,
    swell_percent: Real,
    rubber_expansion_per_k: Real,
    metal_expansion_per_k: Real,
    temperature_rise_k: Real,
) -> Real:
    """Growth of the section of a ring whose length the groove holds, by swell and temperature.

    Equation   k = sqrt((1 + q/100) (1 + 3 a_r dT) / (1 + a_m dT))
    Symbols    k    returned                [1]
               q    swell_percent           [%]  of volume
               a_r  rubber_expansion_per_k  [1/K] linear
               a_m  metal_expansion_per_k   [1/K] linear
               dT   temperature_rise_k      [K]   above 20 degC
    Valid      small growths; ring held on its diameter by groove or bore
    Source     derived; a printed example: 6 % volume loss gives about 3 % section loss (Parker, low
               durometer note)

    >>> section_growth(swell_percent=-6.0, rubber_expansion_per_k=0.0, metal_expansion_per_k=0.0,
    ...                temperature_rise_k=0.0)
    0.9695
    """
    return root(
        (1.0 + swell_percent / 100.0)
        * (1.0 + 3.0 * rubber_expansion_per_k * temperature_rise_k)
        / (1.0 + metal_expansion_per_k * temperature_rise_k)
    )


@rule(
    unit="",
    equation="x' = k x",
    symbols={"x'": "grown value", "k": "factor", "x": "value"},
    source="definition",
    rises_with=("value", "factor"),
)
def grown(*, value: Real, factor: Real) -> Real:
    """A size or a fill after growth by a factor.

    Equation   x' = k x
    Symbols    x'  returned  unit of x
               x   value     not negative
               k   factor    [1]  not negative
    Valid      not negative
    Source     definition

    >>> grown(value=3.5, factor=1.01)
    3.535
    """
    return value * factor
