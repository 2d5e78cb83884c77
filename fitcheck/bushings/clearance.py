"""The bore a shaft meets once the bushing is in its seat, and the running clearance that is left.

A wrapped bushing takes the shape of a rigid housing, so its bore is the housing less twice the wall; this
reproduces every row of its maker's table. A solid or sintered one keeps its own bore less its close-in.
"""

from __future__ import annotations

from fitcheck.numbers import Real
from fitcheck.rule import rule

_SIZES = (5.0, 60.0)


@rule(
    unit="mm",
    equation="B = H - 2 w",
    symbols={"B": "fitted bore [mm]", "H": "housing_bore_mm", "w": "wall_mm"},
    source="bearing maker's table of metric PTFE composite bushings (nodeshk.com): follows all its rows",
    rises_with=("housing_bore_mm",),
    falls_with=("wall_mm",),
    valid={"housing_bore_mm": _SIZES, "wall_mm": (0.5, 2.5)},
)
def wrapped_bore(*, housing_bore_mm: Real, wall_mm: Real) -> Real:
    """Bore of a wrapped bushing once it is pressed in.

    Equation   B = H - 2 w
    Symbols    B  returned         [mm]
               H  housing_bore_mm  [mm]
               w  wall_mm          [mm]
    Valid      rigid housing, wall that does not give, bushing held all round
    Source     bearing maker's table of metric PTFE composite bushings (nodeshk.com), row 12 x 14: housing
               14.018, wall 0.980, printed fitted bore 12.058

    >>> wrapped_bore(housing_bore_mm=14.018, wall_mm=0.980)
    12.058
    """
    return housing_bore_mm - 2.0 * wall_mm


@rule(
    unit="mm",
    equation="B = b - c",
    symbols={"B": "fitted bore [mm]", "b": "delivered_bore_mm", "c": "close_in_mm"},
    source="definition of the close-in",
    rises_with=("delivered_bore_mm",),
    falls_with=("close_in_mm",),
    valid={"delivered_bore_mm": _SIZES, "close_in_mm": (0.0, 0.3)},
)
def pressed_bore(*, delivered_bore_mm: Real, close_in_mm: Real) -> Real:
    """Bore of a solid or sintered bushing once it is pressed in.

    Equation   B = b - c
    Symbols    B  returned           [mm]
               b  delivered_bore_mm  [mm]
               c  close_in_mm        [mm]  diametral
    Valid      not reamed after pressing
    Source     definition of the close-in; the example is arithmetic

    >>> pressed_bore(delivered_bore_mm=12.034, close_in_mm=0.030)
    12.004
    """
    return delivered_bore_mm - close_in_mm


@rule(
    unit="mm",
    equation="C = B - d",
    symbols={"C": "running clearance, diametral [mm]", "B": "fitted_bore_mm", "d": "shaft_diameter_mm"},
    source="ISO 286-1, definition of clearance",
    rises_with=("fitted_bore_mm",),
    falls_with=("shaft_diameter_mm",),
    valid={"fitted_bore_mm": _SIZES, "shaft_diameter_mm": _SIZES},
)
def running_clearance(*, fitted_bore_mm: Real, shaft_diameter_mm: Real) -> Real:
    """Diametral clearance of a shaft in its bushing; negative where it would seize.

    Equation   C = B - d
    Symbols    C  returned           [mm]
               B  fitted_bore_mm     [mm]
               d  shaft_diameter_mm  [mm]
    Valid      both at one temperature
    Source     ISO 286-1, definition of clearance; the maker's row 12 x 14 prints 0.092 for 12.058 and 11.966

    >>> running_clearance(fitted_bore_mm=12.058, shaft_diameter_mm=11.966)
    0.092
    """
    return fitted_bore_mm - shaft_diameter_mm


@rule(
    unit="mm",
    equation="r = S - L",
    symbols={"r": "room along the axis [mm]", "S": "seat_length_mm", "L": "bushing_length_mm"},
    source="geometry: what is longer than its seat stands proud of it",
    rises_with=("seat_length_mm",),
    falls_with=("bushing_length_mm",),
    valid={"seat_length_mm": (1.0, 100.0), "bushing_length_mm": (1.0, 100.0)},
)
def seat_room(*, seat_length_mm: Real, bushing_length_mm: Real) -> Real:
    """How much longer the seat is than its bushing; negative where the bushing stands proud.

    Equation   r = S - L
    Symbols    r  returned           [mm]
               S  seat_length_mm     [mm]
               L  bushing_length_mm  [mm]  without a flange
    Valid      seat flat at both ends
    Source     geometry; the example is arithmetic

    >>> seat_room(seat_length_mm=12.3, bushing_length_mm=12.25)
    0.05
    """
    return seat_length_mm - bushing_length_mm
