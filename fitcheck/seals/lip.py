"""A lip seal or wiper in its seat: press-in of the outside, grip of the lip, room for its height."""

from __future__ import annotations

from fitcheck.numbers import Real
from fitcheck.rule import rule


@rule(
    unit="mm",
    equation="i = D - H",
    symbols={"i": "press-in [mm]", "D": "outside_diameter_mm", "H": "housing_bore_mm"},
    source="geometry; bands as printed of DIN 3760 (ddsseals.com, press-fit specs)",
    rises_with=("outside_diameter_mm",),
    falls_with=("housing_bore_mm",),
    valid={"outside_diameter_mm": (5.0, 120.0), "housing_bore_mm": (5.0, 120.0)},
)
def press_in(*, outside_diameter_mm: Real, housing_bore_mm: Real) -> Real:
    """How much larger than its bore the outside of a loose seal is, on the diameter.

    Equation   i = D - H
    Symbols    i  returned             [mm]  below 0: it falls out
               D  outside_diameter_mm  [mm]  on the rubber or the metal case, never the nominal
               H  housing_bore_mm      [mm]
    Valid      both at one temperature
    Source     geometry; a 47 mm bore, rubber covered: +0.15 to +0.30 over nominal (ddsseals.com), bore H8

    >>> press_in(outside_diameter_mm=47.15, housing_bore_mm=47.039)
    0.111
    """
    return outside_diameter_mm - housing_bore_mm


@rule(
    unit="mm",
    equation="g = d - l",
    symbols={"g": "grip of the lip [mm]", "d": "shaft_diameter_mm", "l": "lip_diameter_mm"},
    source="nqksfoilseal.com: difference of shaft and free lip, on the diameter",
    rises_with=("shaft_diameter_mm",),
    falls_with=("lip_diameter_mm",),
    valid={"shaft_diameter_mm": (5.0, 120.0), "lip_diameter_mm": (5.0, 120.0)},
)
def lip_grip(*, shaft_diameter_mm: Real, lip_diameter_mm: Real) -> Real:
    """How much smaller than the shaft the free lip is, on the diameter.

    Equation   g = d - l
    Symbols    g  returned           [mm]  below 0: the lip does not touch
               d  shaft_diameter_mm  [mm]
               l  lip_diameter_mm    [mm]  free, spring on
    Valid      both at one temperature
    Source     definition as in nqksfoilseal.com, how much interference should an oil seal lip have

    >>> lip_grip(shaft_diameter_mm=32.0, lip_diameter_mm=31.4)
    0.6
    """
    return shaft_diameter_mm - lip_diameter_mm


@rule(
    unit="mm",
    equation="u = d - m",
    symbols={"u": "shaft over its mark [mm]", "d": "shaft_diameter_mm", "m": "marked_shaft_mm"},
    source="ISO 6194-1: a seal is named by shaft, bore and width (suptex.com)",
    rises_with=("shaft_diameter_mm",),
    falls_with=("marked_shaft_mm",),
    valid={"shaft_diameter_mm": (5.0, 120.0), "marked_shaft_mm": (5.0, 120.0)},
)
def shaft_over_mark(*, shaft_diameter_mm: Real, marked_shaft_mm: Real) -> Real:
    """How far the shaft lies above the size the seal is marked for.

    Equation   u = d - m
    Symbols    u  returned           [mm]  below 0: the shaft is thinner than the maker means
               d  shaft_diameter_mm  [mm]
               m  marked_shaft_mm    [mm]  nominal
    Valid      any
    Source     suptex.com: a seal is written shaft x bore x width; rods h11 to f8 lie below their nominal

    >>> shaft_over_mark(shaft_diameter_mm=31.936, marked_shaft_mm=32.0)
    -0.064
    """
    return shaft_diameter_mm - marked_shaft_mm


@rule(
    unit="mm",
    equation="r = T - h",
    symbols={"r": "room left [mm]", "T": "depth_mm", "h": "height_mm"},
    source="geometry; SKF, housing bore requirements: at least 0.3 mm",
    rises_with=("depth_mm",),
    falls_with=("height_mm",),
    valid={"depth_mm": (1.0, 60.0), "height_mm": (1.0, 60.0)},
)
def height_left(*, depth_mm: Real, height_mm: Real) -> Real:
    """Depth that what sits in a seat leaves free.

    Equation   r = T - h
    Symbols    r  returned   [mm]  below 0: it stands out
               T  depth_mm   [mm]  of the seat, or of the room above its floor
               h  height_mm  [mm]  of all that sits in it
    Valid      not negative
    Source     geometry; SKF, housing bore requirements of radial shaft seals

    >>> height_left(depth_mm=7.0, height_mm=6.5)
    0.5
    """
    return depth_mm - height_mm
