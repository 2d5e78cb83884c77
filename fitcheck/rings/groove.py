"""The groove around the ring: the clearance it could be forced into, side room, bite."""

from __future__ import annotations

from fitcheck.numbers import Real, smaller
from fitcheck.rule import rule


@rule(
    unit="mm",
    equation="c = D - d",
    symbols={"c": "diametral clearance [mm]", "D": "outer_diameter_mm", "d": "inner_diameter_mm"},
    source="definition: diametral clearance; the whole of it lies on one side when the parts are hard over",
    rises_with=("outer_diameter_mm",),
    falls_with=("inner_diameter_mm",),
)
def diametral_clearance(*, outer_diameter_mm: Real, inner_diameter_mm: Real) -> Real:
    """Diametral clearance beside the groove: the gap the seal could be forced into.

    Equation   c = D - d
    Symbols    c   returned           [mm]  diametral; as a radial gap it is at most c, hard over
               D   outer_diameter_mm  [mm]  bore, or throat of a rod gland
               d   inner_diameter_mm  [mm]  land of the piston, or shaft
    Valid      D above d
    Source     definition; allsealsinc.com worked example: bore 3.002, piston 2.990 in, radial .006 centred

    >>> diametral_clearance(outer_diameter_mm=3.002, inner_diameter_mm=2.990)
    0.012
    """
    return outer_diameter_mm - inner_diameter_mm


@rule(
    unit="mm",
    equation="r = w - d2 - n b",
    symbols={
        "r": "side room [mm]",
        "w": "groove_width_mm",
        "d2": "cross_section_mm",
        "n b": "back_up_width_mm",
    },
    source="geometry: ring and back-up rings must enter the groove",
    rises_with=("groove_width_mm",),
    falls_with=("cross_section_mm", "back_up_width_mm"),
)
def side_room(*, groove_width_mm: Real, cross_section_mm: Real, back_up_width_mm: Real) -> Real:
    """Room along the groove that ring and back-up rings leave.

    Equation   r = w - d2 - n b
    Symbols    r    returned          [mm]
               w    groove_width_mm   [mm]
               d2   cross_section_mm  [mm]
               n b  back_up_width_mm  [mm]  all back-up rings together
    Valid      positive sizes
    Source     geometry; how far the squeezed ring spreads is judged by fill

    >>> side_room(groove_width_mm=4.8, cross_section_mm=3.53, back_up_width_mm=0.0)
    1.27
    """
    return groove_width_mm - cross_section_mm - back_up_width_mm


@rule(
    unit="%",
    equation="I = 100 h / d2",
    symbols={"I": "section in the groove [%]", "h": "wall_height_mm", "d2": "cross_section_mm"},
    source="applerubber.com: at least 75 % of the section in the groove",
    rises_with=("wall_height_mm",),
    falls_with=("cross_section_mm",),
)
def section_in_groove(*, wall_height_mm: Real, cross_section_mm: Real) -> Real:
    """Share of the section that the groove walls hold.

    Equation   I = 100 h / d2
    Symbols    I   returned          [%]
               h   wall_height_mm    [mm]  groove floor to the land beside it
               d2  cross_section_mm  [mm]
    Valid      positive sizes
    Source     applerubber.com: at least 75 % of the section should sit in the groove

    >>> section_in_groove(wall_height_mm=3.0, cross_section_mm=3.53)
    85.0
    """
    return 100.0 * wall_height_mm / cross_section_mm


@rule(
    unit="mm",
    equation="f = w - n b",
    symbols={"f": "width left to the ring [mm]", "w": "groove_width_mm", "n b": "back_up_width_mm"},
    source="geometry",
    rises_with=("groove_width_mm",),
    falls_with=("back_up_width_mm",),
)
def free_width(*, groove_width_mm: Real, back_up_width_mm: Real) -> Real:
    """Width of the groove that the back-up rings leave to the ring.

    Equation   f = w - n b
    Symbols    f    returned          [mm]
               w    groove_width_mm   [mm]
               n b  back_up_width_mm  [mm]  all back-up rings together
    Valid      any; not above zero where the back-up rings fill the groove
    Source     geometry

    >>> free_width(groove_width_mm=6.0, back_up_width_mm=1.4)
    4.6
    """
    return groove_width_mm - back_up_width_mm


@rule(
    unit="mm",
    equation="c = min(c_land, c_guide)",
    symbols={"c": "play [mm]", "c_land": "land_clearance_mm", "c_guide": "guide_clearance_mm"},
    source="geometry: the closer of the two stops the movement",
    rises_with=("land_clearance_mm", "guide_clearance_mm"),
)
def closer_clearance(*, land_clearance_mm: Real, guide_clearance_mm: Real) -> Real:
    """Diametral play of shaft or piston: the land's clearance or the guide's, whichever is closer.

    Equation   c = min(c_land, c_guide)
    Symbols    c        returned            [mm]
               c_land   land_clearance_mm   [mm]
               c_guide  guide_clearance_mm  [mm]
    Valid      not negative
    Source     geometry

    >>> closer_clearance(land_clearance_mm=0.10, guide_clearance_mm=0.04)
    0.04
    """
    return smaller(land_clearance_mm, guide_clearance_mm)
