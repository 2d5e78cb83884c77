"""How the ring as a whole is stretched or compressed by its seat."""

from __future__ import annotations

from fitcheck.numbers import Real
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
    equation="I = D - d1 (1 - C / 100)",
    symbols={
        "I": "shaft interference [mm], diametral",
        "D": "shaft_diameter_mm",
        "d1": "inside_diameter_mm",
        "C": "compression_percent",
    },
    source="geometry: the ring's inside diameter as it lies in the groove",
    rises_with=("shaft_diameter_mm", "compression_percent"),
    falls_with=("inside_diameter_mm",),
)
def shaft_interference(
    *, shaft_diameter_mm: Real, inside_diameter_mm: Real, compression_percent: Real
) -> Real:
    """How much larger the shaft is than the ring that lies in its groove: below zero it does not touch.

    Equation   I = D - d1 (1 - C / 100)
    Symbols    I   returned             [mm]  diametral
               D   shaft_diameter_mm    [mm]
               d1  inside_diameter_mm   [mm]
               C   compression_percent  [%]   peripheral compression, 0 for a ring that is not compressed
    Valid      positive sizes
    Source     geometry. The sum (D - d1) / d1 would be the wrong one on a rod gland: the groove holds the
               ring's length, not the shaft

    >>> shaft_interference(shaft_diameter_mm=25.4, inside_diameter_mm=24.99, compression_percent=1.7)
    0.835
    """
    return shaft_diameter_mm - inside_diameter_mm * (1.0 - compression_percent / 100.0)
