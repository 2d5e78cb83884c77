"""Widths and diameters of eyelet hardware: the stack between the tabs, float of the eye, spigots, bolt."""

from __future__ import annotations

from fitcheck.numbers import Real, positive
from fitcheck.rule import rule

_WIDTH = (0.3, 80.0)
_DIAMETER = (4.0, 40.0)
_GEOMETRY = "geometry: widths on one bolt add up"


@rule(
    unit="mm",
    equation="W' = W + w",
    symbols={"W'": "stack with this part [mm]", "W": "stack_mm", "w": "width_mm"},
    source=_GEOMETRY,
    rises_with=("stack_mm", "width_mm"),
    valid={"stack_mm": _WIDTH, "width_mm": _WIDTH},
)
def stack_with(*, stack_mm: Real, width_mm: Real) -> Real:
    """Width of a stack with one part more. A part fitted twice is added twice, each with its own size.

    Equation   W' = W + w
    Symbols    W'  returned  [mm]
               W   stack_mm  [mm]
               w   width_mm  [mm]
    Valid      parts that are clamped together
    Source     geometry; a public worked stack: 25.0000 and 10.0000

    >>> stack_with(stack_mm=25.0, width_mm=10.0)
    35.0
    """
    return stack_mm + width_mm


@rule(
    unit="mm",
    equation="G = M - W",
    symbols={"G": "play between hardware and tabs [mm]", "M": "mount_width_mm", "W": "stack_mm"},
    source=_GEOMETRY,
    rises_with=("mount_width_mm",),
    falls_with=("stack_mm",),
    valid={"mount_width_mm": _WIDTH, "stack_mm": _WIDTH},
)
def side_gap(*, mount_width_mm: Real, stack_mm: Real) -> Real:
    """Play between the hardware and the tabs of the frame; below zero the tabs are spread.

    Equation   G = M - W
    Symbols    G   returned        [mm]  in total, both sides together
               M   mount_width_mm  [mm]
               W   stack_mm        [mm]
    Valid      bolt loose
    Source     geometry; a public worked stack: 35.0000 - 25.0500 = 9.9500

    >>> side_gap(mount_width_mm=35.0, stack_mm=25.05)
    9.95
    """
    return mount_width_mm - stack_mm


@rule(
    unit="mm",
    equation="f = L - w",
    symbols={"f": "float of the eye [mm]", "L": "between_mm", "w": "filled_mm"},
    source="geometry: the eye turns only where what is clamped is longer than what turns",
    rises_with=("between_mm",),
    falls_with=("filled_mm",),
    valid={"between_mm": _WIDTH, "filled_mm": _WIDTH},
)
def eyelet_float(*, between_mm: Real, filled_mm: Real) -> Real:
    """Float of the eye, with its washers, between the shoulders or spacers that the bolt clamps.

    Equation   f = L - w
    Symbols    f   returned    [mm]  below zero the bolt clamps the eye
               L   between_mm  [mm]  between the shoulders or spacers
               w   filled_mm   [mm]  eyelet and washers
    Valid      bolt tight
    Source     geometry; own worked example

    >>> eyelet_float(between_mm=12.3, filled_mm=12.1)
    0.20
    """
    return between_mm - filled_mm


@rule(
    unit="mm",
    equation="c = w - L",
    symbols={"c": "room between the spigots [mm]", "w": "eyelet_width_mm", "L": "spigots_mm"},
    source="geometry: spigots that meet take the clamp, and side play stays",
    rises_with=("eyelet_width_mm",),
    falls_with=("spigots_mm",),
    valid={"eyelet_width_mm": _WIDTH, "spigots_mm": _WIDTH},
)
def spigot_room(*, eyelet_width_mm: Real, spigots_mm: Real) -> Real:
    """Room between the inner ends of two reducers within the eye; below zero they meet first.

    Equation   c = w - L
    Symbols    c   returned         [mm]
               w   eyelet_width_mm  [mm]
               L   spigots_mm       [mm]  both spigots together
    Valid      flanges against the eye
    Source     geometry; own worked example

    >>> spigot_room(eyelet_width_mm=12.7, spigots_mm=12.0)
    0.70
    """
    return eyelet_width_mm - spigots_mm


@rule(
    unit="mm",
    equation="c = D - d",
    symbols={"c": "clearance of the bolt [mm]", "D": "hole_mm", "d": "bolt_mm"},
    source="geometry; Bhandari, Design of Machine Elements, Ex. 3.4: clearance of hole and pin",
    rises_with=("hole_mm",),
    falls_with=("bolt_mm",),
    valid={"hole_mm": _DIAMETER, "bolt_mm": _DIAMETER},
)
def bolt_clearance(*, hole_mm: Real, bolt_mm: Real) -> Real:
    """Clearance of the bolt in the bore of the hardware.

    Equation   c = D - d
    Symbols    c   returned  [mm]  below zero it does not go through
               D   hole_mm   [mm]
               d   bolt_mm   [mm]
    Valid      any
    Source     geometry; Bhandari, Ex. 3.4: 12 H11/d11, least clearance 0.050

    >>> bolt_clearance(hole_mm=12.000, bolt_mm=11.950)
    0.050
    """
    return hole_mm - bolt_mm


@rule(
    unit="mm",
    equation="c = D - d",
    symbols={"c": "clearance of the seat [mm]", "D": "outer_mm", "d": "inner_mm"},
    source="ISO 286-1, definition of clearance and interference",
    rises_with=("outer_mm",),
    falls_with=("inner_mm",),
    valid={"outer_mm": _DIAMETER, "inner_mm": _DIAMETER},
)
def bearing_clearance(*, outer_mm: Real, inner_mm: Real) -> Real:
    """Clearance of a bearing in its housing or on its shaft; below zero it is pressed.

    Equation   c = D - d
    Symbols    c   returned  [mm]
               D   outer_mm  [mm]  eyelet, or bore of the bearing
               d   inner_mm  [mm]  outside of the bearing, or the shaft in it
    Valid      any
    Source     ISO 286-1, definition; 19 H7 with 19 0/-0.009: greatest 0.030

    >>> bearing_clearance(outer_mm=19.021, inner_mm=18.991)
    0.030
    """
    return outer_mm - inner_mm


@rule(
    unit="MPa",
    equation="p = F / (d w)",
    symbols={"p": "pressure on the bush [MPa]", "F": "load_n", "d": "diameter_mm", "w": "width_mm"},
    source="load over projected area, as makers of plain bushes rate them",
    rises_with=("load_n",),
    falls_with=("diameter_mm", "width_mm"),
    valid={"load_n": (0.0, 50_000.0), "diameter_mm": _DIAMETER, "width_mm": (3.0, 80.0)},
)
def eyelet_pressure(*, load_n: Real, diameter_mm: Real, width_mm: Real) -> Real:
    """Mean pressure on the projected area of the bush.

    Equation   p = F / (d w)
    Symbols    p   returned     [MPa]
               F   load_n       [N]
               d   diameter_mm  [mm]  of the pin
               w   width_mm     [mm]  of the eyelet
    Valid      the pin straight in the bush
    Source     load over projected area; 8 kN on 12.7 x 12.7 mm, own arithmetic

    >>> eyelet_pressure(load_n=8000.0, diameter_mm=12.7, width_mm=12.7)
    49.6
    """
    return load_n / positive(diameter_mm * width_mm)
