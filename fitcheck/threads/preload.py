"""Torque and preload of a screw: a band, because friction is one.

No torque is made here for anyone to tighten by: the maker's figure leads, since the clamped part sets the
limit. What is worked out tells what such a torque does to the screw and to its thread.
"""

from __future__ import annotations

import math

from fitcheck.numbers import Real, positive
from fitcheck.rule import rule

_THREAD = 1.0 / (2.0 * math.cos(math.pi / 6.0))  # 0.577: flanks at 30 degrees
_PITCH = 1.0 / (2.0 * math.pi)  # 0.159


@rule(
    unit="N",
    equation="F = T / (K d)",
    symbols={
        "F": "preload [N]",
        "T": "torque_nmm",
        "K": "nut_factor",
        "d": "major_diameter_mm",
    },
    source="short torque equation; M12 8.8 and M16 8.8 as public worked examples",
    rises_with=("torque_nmm",),
    falls_with=("nut_factor", "major_diameter_mm"),
    valid={
        "torque_nmm": (0.0, 300_000.0),
        "nut_factor": (0.05, 0.5),
        "major_diameter_mm": (1.0, 60.0),
    },
)
def preload_short(*, torque_nmm: Real, nut_factor: Real, major_diameter_mm: Real) -> Real:
    """Preload by the short torque equation; the nut factor K holds all friction.

    Equation   F = T / (K d)
    Symbols    F  returned           [N]
               T  torque_nmm        [N mm]
               K  nut_factor         [-]
               d  major_diameter_mm  [mm]
    Valid      a K for the state of the screw; 20 % wrong in K is 20 % wrong in F
    Source     public worked example: M12 8.8, 82 N m, K 0.2, 34 kN

    >>> preload_short(torque_nmm=82_000.0, nut_factor=0.2, major_diameter_mm=12.0)
    34167
    """
    return torque_nmm / (nut_factor * major_diameter_mm)


@rule(
    unit="N mm",
    equation="T = K F d",
    symbols={"T": "torque [N mm]", "K": "nut_factor", "F": "preload_n", "d": "major_diameter_mm"},
    source="short torque equation; M12 8.8 and M16 8.8 as public worked examples",
    rises_with=("nut_factor", "preload_n", "major_diameter_mm"),
    valid={"nut_factor": (0.05, 0.5), "preload_n": (0.0, 200_000.0), "major_diameter_mm": (1.0, 60.0)},
)
def torque_short(*, nut_factor: Real, preload_n: Real, major_diameter_mm: Real) -> Real:
    """Torque for a preload by the short equation; for checking print, never an instruction.

    Equation   T = K F d
    Symbols    T  returned           [N mm]
               K  nut_factor         [-]
               F  preload_n          [N]
               d  major_diameter_mm  [mm]
    Valid      as preload_short
    Source     public worked example: M16 8.8, 68 kN (68 150 N unrounded), K 0.20, 218.08 N m

    >>> torque_short(nut_factor=0.2, preload_n=68150.0, major_diameter_mm=16.0)
    218080
    """
    return nut_factor * preload_n * major_diameter_mm


@rule(
    unit="N",
    equation="F = T / (P/2 pi + mu d2 / (2 cos 30) + mu Dk / 2)",
    symbols={
        "F": "preload [N]",
        "T": "torque_nmm",
        "P": "pitch_mm",
        "d2": "pitch_diameter_mm",
        "Dk": "head_mean_diameter_mm",
        "mu": "friction",
    },
    source="inclined plane with 60 degree flanks and a flat head, the form of VDI 2230 (derived)",
    rises_with=("torque_nmm",),
    falls_with=("pitch_mm", "pitch_diameter_mm", "head_mean_diameter_mm", "friction"),
    valid={
        "torque_nmm": (0.0, 300_000.0),
        "pitch_mm": (0.25, 6.0),
        "pitch_diameter_mm": (1.0, 60.0),
        "head_mean_diameter_mm": (1.0, 90.0),
        "friction": (0.02, 0.5),
    },
)
def preload_long(
    *,
    torque_nmm: Real,
    pitch_mm: Real,
    pitch_diameter_mm: Real,
    head_mean_diameter_mm: Real,
    friction: Real,
) -> Real:
    """Preload with pitch, thread friction and head friction told apart.

    Equation   F = T / (P/2 pi + mu d2 / (2 cos 30) + mu Dk / 2)
    Symbols    F   returned               [N]
               T   torque_nmm            [N mm]
               P   pitch_mm               [mm]
               d2  pitch_diameter_mm      [mm]
               Dk  head_mean_diameter_mm  [mm]  mean diameter of the face under the head
               mu  friction               [-]   of thread and head alike
    Valid      60 degree threads, flat heads
    Source     statics of the thread (own derivation, the coefficients 0.159 and 0.577 of the usual form)

    >>> preload_long(
    ...     torque_nmm=10_000.0,
    ...     pitch_mm=1.0,
    ...     pitch_diameter_mm=5.35,
    ...     head_mean_diameter_mm=8.2,
    ...     friction=0.12,
    ... )
    9786.5
    """
    turn = pitch_mm * _PITCH + friction * (pitch_diameter_mm * _THREAD + head_mean_diameter_mm / 2.0)
    return torque_nmm / turn


@rule(
    unit="-",
    equation="K = (P/2 pi + mu d2 / (2 cos 30) + mu Dk / 2) / d",
    symbols={
        "K": "nut factor",
        "P": "pitch_mm",
        "d2": "pitch_diameter_mm",
        "Dk": "head_mean_diameter_mm",
        "mu": "friction",
        "d": "major_diameter_mm",
    },
    source="both torque equations set equal (derived)",
    rises_with=("pitch_mm", "pitch_diameter_mm", "head_mean_diameter_mm", "friction"),
    falls_with=("major_diameter_mm",),
    valid={
        "pitch_mm": (0.25, 6.0),
        "pitch_diameter_mm": (1.0, 60.0),
        "head_mean_diameter_mm": (1.0, 90.0),
        "friction": (0.02, 0.5),
        "major_diameter_mm": (1.0, 60.0),
    },
)
def nut_factor(
    *,
    pitch_mm: Real,
    pitch_diameter_mm: Real,
    head_mean_diameter_mm: Real,
    friction: Real,
    major_diameter_mm: Real,
) -> Real:
    """The nut factor that a friction amounts to.

    Equation   K = (P/2 pi + mu d2 / (2 cos 30) + mu Dk / 2) / d
    Symbols    K   returned               [-]
               P   pitch_mm               [mm]
               d2  pitch_diameter_mm      [mm]
               Dk  head_mean_diameter_mm  [mm]
               mu  friction               [-]
               d   major_diameter_mm      [mm]
    Valid      as preload_long
    Source     both torque equations set equal

    >>> nut_factor(
    ...     pitch_mm=1.25,
    ...     pitch_diameter_mm=7.188,
    ...     head_mean_diameter_mm=11.0,
    ...     friction=0.12,
    ...     major_diameter_mm=8.0,
    ... )
    0.17
    """
    turn = pitch_mm * _PITCH + friction * (pitch_diameter_mm * _THREAD + head_mean_diameter_mm / 2.0)
    return turn / major_diameter_mm


@rule(
    unit="N",
    equation="Fp = Sp A",
    symbols={"Fp": "load [N]", "Sp": "stress_mpa", "A": "area_mm2"},
    source="ISO 898-1: proof and ultimate loads are stress times stress area",
    rises_with=("stress_mpa", "area_mm2"),
    valid={"stress_mpa": (100.0, 1300.0), "area_mm2": (1.0, 3000.0)},
)
def load_at(*, stress_mpa: Real, area_mm2: Real) -> Real:
    """Load at which a screw reaches a stress: its proof load, its breaking load.

    Equation   Fp = Sp A
    Symbols    Fp  returned    [N]
               Sp  stress_mpa  [MPa]
               A   area_mm2    [mm2]  stress area
    Valid      solid screws
    Source     ISO 898-1 as printed by slsbearings.com: M10 8.8, proof load 33 700 N

    >>> load_at(stress_mpa=580.0, area_mm2=58.0)
    33640
    """
    return stress_mpa * area_mm2


@rule(
    unit="x",
    equation="n = F / F0",
    symbols={"n": "share of a load", "F": "load_n", "F0": "reference_n"},
    source="definition",
    rises_with=("load_n",),
    falls_with=("reference_n",),
    valid={"load_n": (0.0, 200_000.0), "reference_n": (100.0, 200_000.0)},
)
def load_share(*, load_n: Real, reference_n: Real) -> Real:
    """A load over another: preload over proof load, stripping load over preload.

    Equation   n = F / F0
    Symbols    n   returned     [-]
               F   load_n       [N]
               F0  reference_n  [N]
    Valid      reference above zero; nan else
    Source     definition

    >>> load_share(load_n=34_000.0, reference_n=48_900.0)
    0.695
    """
    return load_n / positive(reference_n)
