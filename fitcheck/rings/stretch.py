"""How the ring as a whole is stretched or compressed by its seat."""

from __future__ import annotations

from fitcheck.numbers import Real, smaller
from fitcheck.rule import rule


@rule(
    unit="%",
    equation="X = 100 (D - d1) / d1",
    symbols={"X": "stretch [%]", "D": "seat_diameter_mm", "d1": "inside_diameter_mm"},
    source="gallagherseals.com repost of a seal handbook: hardware diameter less inside diameter, over it",
    rises_with=("seat_diameter_mm",),
    falls_with=("inside_diameter_mm",),
)
def stretch(*, seat_diameter_mm: Real, inside_diameter_mm: Real) -> Real:
    """Stretch of a ring on the diameter it sits on or is pushed over.

    Equation   X = 100 (D - d1) / d1
    Symbols    X   returned            [%]
               D   seat_diameter_mm    [mm]  groove floor, shaft, or the largest diameter passed
               d1  inside_diameter_mm  [mm]
    Valid      positive sizes; negative: the ring is loose on its seat
    Source     gallagherseals.com repost of a seal handbook; worked example 58 mm ring on 61.6 mm: 6.21 %

    >>> stretch(seat_diameter_mm=61.6, inside_diameter_mm=58.0)
    6.207
    """
    return 100.0 * (seat_diameter_mm - inside_diameter_mm) / inside_diameter_mm


@rule(
    unit="%",
    equation="C = 100 (d1 + 2 d2 - D) / (d1 + 2 d2)",
    symbols={
        "C": "peripheral compression [%]",
        "D": "groove_diameter_mm",
        "d1": "inside_diameter_mm",
        "d2": "cross_section_mm",
    },
    source="globaloring.com; notes.edchamberlain.com: outside diameter against the groove",
    rises_with=("inside_diameter_mm", "cross_section_mm"),
    falls_with=("groove_diameter_mm",),
)
def peripheral_compression(
    *, inside_diameter_mm: Real, cross_section_mm: Real, groove_diameter_mm: Real
) -> Real:
    """How much larger than its groove the ring is on its outside diameter.

    Equation   C = 100 (d1 + 2 d2 - D) / (d1 + 2 d2)
    Symbols    C   returned            [%]
               d1  inside_diameter_mm  [mm]
               d2  cross_section_mm    [mm]
               D   groove_diameter_mm  [mm]  groove floor in the housing, or outer wall of a face groove
    Valid      positive sizes; negative: the ring does not touch the groove floor
    Source     globaloring.com; notes.edchamberlain.com. Outside diameter = d1 + 2 d2: NAVEDTRA 14105 ch. 7
               prints 5.525 in for AS568-429

    >>> peripheral_compression(inside_diameter_mm=24.99, cross_section_mm=3.53, groove_diameter_mm=31.50)
    1.72
    """
    outside = inside_diameter_mm + 2.0 * cross_section_mm
    return 100.0 * (outside - groove_diameter_mm) / outside


@rule(
    unit="mm",
    equation="I = D - min(d1, H - 2 d2)",
    symbols={
        "I": "shaft interference [mm], diametral",
        "D": "shaft_diameter_mm",
        "d1": "inside_diameter_mm",
        "H": "groove_diameter_mm",
        "d2": "cross_section_mm",
    },
    source="geometry: the ring's inside diameter as it lies in the groove",
    rises_with=("shaft_diameter_mm", "cross_section_mm"),
    falls_with=("inside_diameter_mm", "groove_diameter_mm"),
)
def shaft_interference(
    *, shaft_diameter_mm: Real, inside_diameter_mm: Real, cross_section_mm: Real, groove_diameter_mm: Real
) -> Real:
    """How much larger the shaft is than the ring that lies in its groove: below zero it does not touch.

    Equation   I = D - min(d1, H - 2 d2)
    Symbols    I   returned            [mm]  diametral
               D   shaft_diameter_mm   [mm]
               d1  inside_diameter_mm  [mm]  free ring
               H   groove_diameter_mm  [mm]
               d2  cross_section_mm    [mm]
    Valid      positive sizes
    Source     geometry: a ring that its groove holds on the outside has the inside H - 2 d2, any other its
               own d1. The stretch (D - d1) / d1 would be the wrong sum on a rod gland

    >>> shaft_interference(shaft_diameter_mm=25.4, inside_diameter_mm=24.99, cross_section_mm=3.53,
    ...                    groove_diameter_mm=31.5)
    0.96
    """
    return shaft_diameter_mm - smaller(inside_diameter_mm, groove_diameter_mm - 2.0 * cross_section_mm)


@rule(
    unit="%",
    equation="X = -C",
    symbols={"X": "stretch along the ring [%]", "C": "compression_percent"},
    source="definition",
    falls_with=("compression_percent",),
)
def compression_as_stretch(*, compression_percent: Real) -> Real:
    """Peripheral compression as negative stretch, for the laws that thin or thicken the section.

    Equation   X = -C
    Symbols    X   returned             [%]
               C   compression_percent  [%]
    Valid      any
    Source     definition

    >>> compression_as_stretch(compression_percent=1.7)
    -1.7
    """
    return -compression_percent
