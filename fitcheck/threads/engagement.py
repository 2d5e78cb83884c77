"""How far two threads engage, how much play they have, and what the engaged length holds.

Only full threads count: a chamfer and a run-out, about one pitch at each end, carry nothing.
"""

from __future__ import annotations

import math

from fitcheck.numbers import Real, smaller
from fitcheck.rule import rule

PITCHES_LOST_AT_EACH_END = 1.0  # common practice, no source
SHEAR_OVER_TENSILE = 0.6  # shear strength over tensile strength, as the worked example takes it
_ROOT_THREE = math.sqrt(3.0)


@rule(
    unit="mm",
    equation="e = min(l - t - f1, D) - f2",
    symbols={
        "e": "engaged length of full threads [mm]",
        "l": "length_mm",
        "t": "clamped_mm",
        "D": "thread_depth_mm",
        "f1": "lost_at_tip_mm",
        "f2": "lost_at_mouth_mm",
    },
    source="geometry; that chamfers do not count: common practice, no source",
    rises_with=("length_mm", "thread_depth_mm"),
    falls_with=("clamped_mm", "lost_at_tip_mm", "lost_at_mouth_mm"),
    valid={
        "length_mm": (2.0, 80.0),
        "clamped_mm": (0.0, 40.0),
        "thread_depth_mm": (2.0, 60.0),
        "lost_at_tip_mm": (0.0, 6.0),
        "lost_at_mouth_mm": (0.0, 6.0),
    },
)
def engaged_length(
    *,
    length_mm: Real,
    clamped_mm: Real,
    thread_depth_mm: Real,
    lost_at_tip_mm: Real,
    lost_at_mouth_mm: Real,
) -> Real:
    """Length over which full threads of both parts meet.

    Equation   e = min(l - t - f1, D) - f2
    Symbols    e   returned          [mm]  not above zero: no full thread meets another
               l   length_mm         [mm]  of the screw, under its head
               t   clamped_mm        [mm]  what lies between head and thread
               D   thread_depth_mm   [mm]  of the tapped thread, from the face
               f1  lost_at_tip_mm    [mm]  chamfer of the screw
               f2  lost_at_mouth_mm  [mm]  chamfer of the hole
    Valid      positive lengths
    Source     geometry

    >>> engaged_length(
    ...     length_mm=14.0, clamped_mm=0.0, thread_depth_mm=15.0, lost_at_tip_mm=1.0, lost_at_mouth_mm=1.0
    ... )
    12.0
    """
    return smaller(length_mm - clamped_mm - lost_at_tip_mm, thread_depth_mm) - lost_at_mouth_mm


@rule(
    unit="mm",
    equation="r = D - (l - t)",
    symbols={"r": "room below the tip [mm]", "D": "depth_mm", "l": "length_mm", "t": "clamped_mm"},
    source="geometry",
    rises_with=("depth_mm", "clamped_mm"),
    falls_with=("length_mm",),
    valid={"depth_mm": (2.0, 60.0), "clamped_mm": (0.0, 40.0), "length_mm": (2.0, 80.0)},
)
def room_below(*, depth_mm: Real, length_mm: Real, clamped_mm: Real) -> Real:
    """Thread left below the tip when the head seats; below zero the screw stops first.

    Equation   r = D - (l - t)
    Symbols    r  returned    [mm]
               D  depth_mm    [mm]  thread depth from the face
               l  length_mm   [mm]  of the screw, under its head
               t  clamped_mm  [mm]  what lies between head and thread
    Valid      positive lengths
    Source     geometry

    >>> room_below(depth_mm=7.0, length_mm=6.0, clamped_mm=0.0)
    1.0
    """
    return depth_mm - (length_mm - clamped_mm)


@rule(
    unit="mm",
    equation="c = D2 - d2",
    symbols={"c": "play of the pitch diameters [mm]", "D2": "internal_mm", "d2": "external_mm"},
    source="definition; allowance and tolerances of ISO 965-1",
    rises_with=("internal_mm",),
    falls_with=("external_mm",),
    valid={"internal_mm": (1.0, 60.0), "external_mm": (1.0, 60.0)},
)
def pitch_clearance(*, internal_mm: Real, external_mm: Real) -> Real:
    """Play between the flanks, on the diameter; below zero the threads do not go together.

    Equation   c = D2 - d2
    Symbols    c   returned     [mm]
               D2  internal_mm  [mm]  pitch diameter of the internal thread
               d2  external_mm  [mm]  pitch diameter of the external thread
    Valid      one pitch, one profile
    Source     definition

    >>> pitch_clearance(internal_mm=9.206, external_mm=8.862)
    0.344
    """
    return internal_mm - external_mm


@rule(
    unit="mm2/mm",
    equation="An = pi d / P (P/2 + (d - D2) / sqrt 3)",
    symbols={
        "An": "shear area of the internal thread per length [mm2/mm]",
        "d": "major_diameter_mm",
        "D2": "pitch_diameter_mm",
        "P": "pitch_mm",
    },
    source="FED-STD-H28/2B as restated by engineersedge.com; ISO/TR 16224 as restated by screw_thread_lib",
    rises_with=("major_diameter_mm",),
    falls_with=("pitch_diameter_mm",),
    valid={"major_diameter_mm": (8.0, 20.0), "pitch_diameter_mm": (6.0, 7.5), "pitch_mm": (0.5, 1.5)},
)
def internal_shear_area(*, major_diameter_mm: Real, pitch_diameter_mm: Real, pitch_mm: Real) -> Real:
    """Area over which the internal thread shears off, per length engaged.

    Equation   An = pi d / P (P/2 + (d - D2) / sqrt 3)
    Symbols    An  returned           [mm2/mm]
               d   major_diameter_mm  [mm]  of the external thread; its least for the worst case
               D2  pitch_diameter_mm  [mm]  of the internal thread; its greatest for the worst case
               P   pitch_mm           [mm]
    Valid      60 degree threads
    Source     FED-STD-H28/2B as restated by engineersedge.com; public worked example, M10x1.5

    >>> internal_shear_area(major_diameter_mm=10.0, pitch_diameter_mm=9.026, pitch_mm=1.5)
    27.49
    """
    height = pitch_mm / 2.0 + (major_diameter_mm - pitch_diameter_mm) / _ROOT_THREE
    return math.pi * major_diameter_mm / pitch_mm * height


@rule(
    unit="mm2/mm",
    equation="As = pi D1 / P (P/2 + (d2 - D1) / sqrt 3)",
    symbols={
        "As": "shear area of the external thread per length [mm2/mm]",
        "D1": "minor_diameter_mm",
        "d2": "pitch_diameter_mm",
        "P": "pitch_mm",
    },
    source="FED-STD-H28/2B as restated by engineersedge.com; ISO/TR 16224 as restated by screw_thread_lib",
    rises_with=("pitch_diameter_mm",),
    falls_with=("minor_diameter_mm",),
    valid={"minor_diameter_mm": (6.6, 6.9), "pitch_diameter_mm": (7.0, 7.4), "pitch_mm": (0.9, 1.1)},
)
def external_shear_area(*, minor_diameter_mm: Real, pitch_diameter_mm: Real, pitch_mm: Real) -> Real:
    """Area over which the external thread shears off, per length engaged.

    Equation   As = pi D1 / P (P/2 + (d2 - D1) / sqrt 3)
    Symbols    As  returned           [mm2/mm]
               D1  minor_diameter_mm  [mm]  of the internal thread; its greatest for the worst case
               d2  pitch_diameter_mm  [mm]  of the external thread; its least for the worst case
               P   pitch_mm           [mm]
    Valid      60 degree threads, D1 above half of P / 2 + d2 / sqrt 3, where a larger D1 means less area
    Source     FED-STD-H28/2B as restated by engineersedge.com

    >>> external_shear_area(minor_diameter_mm=8.376, pitch_diameter_mm=9.026, pitch_mm=1.5)
    19.74
    """
    height = pitch_mm / 2.0 + (pitch_diameter_mm - minor_diameter_mm) / _ROOT_THREE
    return math.pi * minor_diameter_mm / pitch_mm * height


@rule(
    unit="N",
    equation="F = e min(0.6 Rn An, 0.6 Rs As)",
    symbols={
        "F": "load that strips a thread [N]",
        "e": "engaged_mm",
        "An": "internal_area",
        "As": "external_area",
        "Rn": "internal_strength_mpa",
        "Rs": "external_strength_mpa",
    },
    source="shear strength 0.6 of tensile strength: public worked example (M10 8.8 in 310 MPa metal, 9.4 mm)",
    rises_with=(
        "engaged_mm",
        "internal_area",
        "external_area",
        "internal_strength_mpa",
        "external_strength_mpa",
    ),
    valid={
        "engaged_mm": (0.0, 40.0),
        "internal_area": (2.0, 60.0),
        "external_area": (2.0, 60.0),
        "internal_strength_mpa": (100.0, 1300.0),
        "external_strength_mpa": (100.0, 1300.0),
    },
)
def stripping_load(
    *,
    engaged_mm: Real,
    internal_area: Real,
    external_area: Real,
    internal_strength_mpa: Real,
    external_strength_mpa: Real,
) -> Real:
    """Load along the axis that strips the weaker of the two threads.

    Equation   F = e min(0.6 Rn An, 0.6 Rs As)
    Symbols    F   returned               [N]
               e   engaged_mm             [mm]      full threads
               An  internal_area          [mm2/mm]  shear area of the internal thread
               As  external_area          [mm2/mm]  shear area of the external thread
               Rn  internal_strength_mpa  [MPa]     least tensile strength of the tapped metal
               Rs  external_strength_mpa  [MPa]     least tensile strength of the screw
    Valid      walls thicker than three thread heights (from memory); thin tubes are not covered
    Source     public worked example: 830 MPa, 310 MPa, As 58 mm2, printed 9.4 mm

    >>> stripping_load(
    ...     engaged_mm=9.4136,
    ...     internal_area=27.49,
    ...     external_area=19.74,
    ...     internal_strength_mpa=310.0,
    ...     external_strength_mpa=830.0,
    ... )
    48133
    """
    internal = SHEAR_OVER_TENSILE * internal_strength_mpa * internal_area
    external = SHEAR_OVER_TENSILE * external_strength_mpa * external_area
    return engaged_mm * smaller(internal, external)


@rule(
    unit="x d",
    equation="n = e / d",
    symbols={"n": "engaged length in diameters", "e": "engaged_mm", "d": "major_diameter_mm"},
    source="definition",
    rises_with=("engaged_mm",),
    valid={"engaged_mm": (0.0, 40.0), "major_diameter_mm": (1.0, 60.0)},
)
def engagement_in_diameters(*, engaged_mm: Real, major_diameter_mm: Real) -> Real:
    """Engaged length as a multiple of the major diameter.

    Equation   n = e / d
    Symbols    n  returned           [-]
               e  engaged_mm         [mm]
               d  major_diameter_mm  [mm]
    Valid      positive diameters
    Source     definition

    >>> engagement_in_diameters(engaged_mm=12.0, major_diameter_mm=8.0)
    1.5
    """
    return engaged_mm / major_diameter_mm


def normal_engagement_mm(*, pitch_mm: float, range_start_mm: float) -> tuple[float, float]:
    """The length of engagement that ISO 965-1 classes 6g and 6H are meant for, from and to.

    Equation   N = 2.24 P d^0.2 to 6.7 P d^0.2
    Symbols    P  pitch_mm        [mm]
               d  range_start_mm  [mm]  smallest diameter of the diameter range
    Valid      the diameter ranges of ISO 965-1
    Source     engineersedge.com, length of screw thread engagement per ISO 965-1: formulas, and 3 to 9 mm for
               5.6 to 11.2 mm at pitch 1 as printed

    >>> normal_engagement_mm(pitch_mm=1.0, range_start_mm=5.6)
    (3.16, 9.46)
    """
    unit = pitch_mm * range_start_mm**0.2
    return 2.24 * unit, 6.7 * unit


@rule(
    unit="mm2",
    equation="A = pi/4 (d - 0.9382 P)^2",
    symbols={"A": "stress area [mm2]", "d": "major_diameter_mm", "P": "pitch_mm"},
    source="ISO 898-1 as printed by usefastener.com: 20 sizes M3 to M39 met within 0.4 %",
    rises_with=("major_diameter_mm",),
    falls_with=("pitch_mm",),
    valid={"major_diameter_mm": (3.0, 60.0), "pitch_mm": (0.25, 2.5)},
)
def stress_area(*, major_diameter_mm: Real, pitch_mm: Real) -> Real:
    """Stress area of a screw.

    Equation   A = pi/4 (d - 0.9382 P)^2
    Symbols    A  returned           [mm2]
               d  major_diameter_mm  [mm]
               P  pitch_mm           [mm]
    Valid      60 degree threads, solid screws
    Source     ISO 898-1 as printed by usefastener.com: M10 58.0, M6 20.1

    >>> stress_area(major_diameter_mm=10.0, pitch_mm=1.5)
    58.0
    """
    core = major_diameter_mm - 0.9382 * pitch_mm
    return math.pi / 4.0 * core * core
