"""Wear of a bushing and its shaft: how far it has gone, what is left to the maker's limit, how long it lasts.

No standard gives wear limits for plain bushings. Without the maker's limit nothing is proven; a shop rule
is told beside, under its own name.
"""

from __future__ import annotations

from fitcheck.numbers import Real, positive
from fitcheck.rule import rule


@rule(
    unit="mm",
    equation="W = (B - B0) + (d0 - d)",
    symbols={
        "W": "wear of bore and shaft together, diametral [mm]",
        "B": "fitted_bore_mm",
        "B0": "bore_before_mm",
        "d": "shaft_diameter_mm",
        "d0": "shaft_before_mm",
    },
    source="definition: what the clearance has grown by between two measurements",
    rises_with=("fitted_bore_mm", "shaft_before_mm"),
    falls_with=("bore_before_mm", "shaft_diameter_mm"),
    valid={
        "fitted_bore_mm": (5.0, 60.0),
        "bore_before_mm": (5.0, 60.0),
        "shaft_diameter_mm": (5.0, 60.0),
        "shaft_before_mm": (5.0, 60.0),
    },
)
def wear_since(
    *, fitted_bore_mm: Real, bore_before_mm: Real, shaft_diameter_mm: Real, shaft_before_mm: Real
) -> Real:
    """What the clearance has grown by since an earlier measurement.

    Equation   W = (B - B0) + (d0 - d)
    Symbols    W   returned           [mm]  diametral
               B   fitted_bore_mm     [mm]
               B0  bore_before_mm     [mm]
               d   shaft_diameter_mm  [mm]
               d0  shaft_before_mm    [mm]
    Valid      measured in the same planes and at one temperature; the widest bore, since a bushing wears on
               one side. A size that was not measured before is given as it is now
    Source     definition; the example is arithmetic

    >>> wear_since(fitted_bore_mm=16.07, bore_before_mm=16.03, shaft_diameter_mm=15.97, shaft_before_mm=15.98)
    0.05
    """
    return (fitted_bore_mm - bore_before_mm) + (shaft_before_mm - shaft_diameter_mm)


@rule(
    unit="mm",
    equation="R = C_max - C",
    symbols={"R": "wear left [mm]", "C_max": "largest_clearance_mm", "C": "clearance_mm"},
    source="definition; the limit is the maker's",
    rises_with=("largest_clearance_mm",),
    falls_with=("clearance_mm",),
    valid={"largest_clearance_mm": (0.05, 1.0), "clearance_mm": (0.0, 1.0)},
)
def wear_left(*, largest_clearance_mm: Real, clearance_mm: Real) -> Real:
    """What the clearance may still grow by before the maker's limit is met; negative beyond it.

    Equation   R = C_max - C
    Symbols    R      returned              [mm]
               C_max  largest_clearance_mm  [mm]
               C      clearance_mm          [mm]
    Valid      a limit given by the maker
    Source     definition; the example is arithmetic

    >>> wear_left(largest_clearance_mm=0.20, clearance_mm=0.10)
    0.10
    """
    return largest_clearance_mm - clearance_mm


@rule(
    unit="1",
    equation="N = U R / W",
    symbols={
        "N": "use left, in the unit of the use so far",
        "U": "use",
        "R": "wear_left_mm",
        "W": "wear_mm",
    },
    source="straight line through two measurements; no source promises that wear stays even",
    rises_with=("use", "wear_left_mm"),
    falls_with=("wear_mm",),
    valid={"use": (1.0, 10_000.0), "wear_left_mm": (0.001, 0.5), "wear_mm": (0.005, 0.5)},
)
def remaining_use(*, use: Real, wear_left_mm: Real, wear_mm: Real) -> Real:
    """Distance or hours until the limit, if wear goes on as it did.

    Equation   N = U R / W
    Symbols    N  returned      [km] or [h], as U
               U  use           [km] or [h]  between the two measurements
               R  wear_left_mm  [mm]
               W  wear_mm       [mm]  over U
    Valid      wear and what is left above zero, else nan; after running-in, which wears faster, so that
               the first interval tells too little, and before the lining is through, after which it tells
               too much
    Source     straight line; the example is arithmetic

    >>> remaining_use(use=3000.0, wear_left_mm=0.10, wear_mm=0.05)
    6000.0
    """
    return use * positive(wear_left_mm) / positive(wear_mm)
