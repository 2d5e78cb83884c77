"""How a ring lies in its groove: play along the axis, depth, grip, and what traps a ring of round wire.

``outer`` and ``inner`` serve bore and shaft alike: in a bore the groove is outside and the bore inside, on a
shaft the shaft is outside and the groove inside.
"""

from __future__ import annotations

from fitcheck.numbers import Real
from fitcheck.rule import rule

_DIAMETER = (3.0, 110.0)
_THICKNESS = (0.4, 5.0)
_SHAPE = "geometry"


@rule(
    unit="mm",
    equation="a = w - s",
    symbols={"a": "axial play [mm]", "w": "groove_width_mm", "s": "thickness_mm"},
    source="geometry; DIN 471 and DIN 472 leave the thickest ring 0.10 to 0.15 mm in all sizes read",
    rises_with=("groove_width_mm",),
    falls_with=("thickness_mm",),
    valid={"groove_width_mm": (0.4, 8.0), "thickness_mm": _THICKNESS},
)
def ring_axial_play(*, groove_width_mm: Real, thickness_mm: Real) -> Real:
    """Play of a ring along its groove; below zero it does not go in.

    Equation   a = w - s
    Symbols    a   returned         [mm]
               w   groove_width_mm  [mm]
               s   thickness_mm     [mm]  wire diameter of a round-wire ring
    Valid      positive sizes
    Source     geometry; DIN 472 size 36 by four lists: m 1.6, s 1.5

    >>> ring_axial_play(groove_width_mm=1.6, thickness_mm=1.5)
    0.10
    """
    return groove_width_mm - thickness_mm


@rule(
    unit="mm",
    equation="t = (D - d) / 2",
    symbols={"t": "groove depth [mm]", "D": "outer_mm", "d": "inner_mm"},
    source="DIN 471 and DIN 472, column t, in every row read",
    rises_with=("outer_mm",),
    falls_with=("inner_mm",),
    valid={"outer_mm": _DIAMETER, "inner_mm": _DIAMETER},
)
def ring_groove_depth(*, outer_mm: Real, inner_mm: Real) -> Real:
    """Depth of the groove, on the radius.

    Equation   t = (D - d) / 2
    Symbols    t   returned  [mm]
               D   outer_mm  [mm]  groove floor in a bore, shaft on a shaft
               d   inner_mm  [mm]  bore, or groove floor on a shaft
    Valid      D above d
    Source     DIN 471 size 20: 20 and 19 mm, printed t 0.5

    >>> ring_groove_depth(outer_mm=20.0, inner_mm=19.0)
    0.50
    """
    return (outer_mm - inner_mm) / 2.0


@rule(
    unit="mm",
    equation="g = D - d",
    symbols={"g": "grip on the diameter [mm]", "D": "outer_mm", "d": "inner_mm"},
    source="Seeger-Ring design details (scribd 326971609): the groove goes no deeper than the free ring",
    rises_with=("outer_mm",),
    falls_with=("inner_mm",),
    valid={"outer_mm": _DIAMETER, "inner_mm": _DIAMETER},
)
def ring_grip(*, outer_mm: Real, inner_mm: Real) -> Real:
    """How far the groove keeps the ring sprung, on the diameter; below zero it lies loose in its groove.

    Equation   g = D - d
    Symbols    g   returned  [mm]
               D   outer_mm  [mm]  free outside of a bore ring, groove floor on a shaft
               d   inner_mm  [mm]  groove floor in a bore, free inside of a shaft ring
    Valid      any
    Source     Seeger-Ring design details (scribd 326971609): bore rings d2max = d3min, shaft rings
               d2min = d3max. DIN 472 size 36: 38.55 and 38.25 mm

    >>> ring_grip(outer_mm=38.55, inner_mm=38.25)
    0.30
    """
    return outer_mm - inner_mm


@rule(
    unit="mm",
    equation="x = d - d1",
    symbols={"x": "difference [mm]", "d": "found_mm", "d1": "size_mm"},
    source=_SHAPE,
    rises_with=("found_mm",),
    falls_with=("size_mm",),
    valid={"found_mm": _DIAMETER, "size_mm": _DIAMETER},
)
def ring_size_difference(*, found_mm: Real, size_mm: Real) -> Real:
    """How far the bore or shaft is from the size the ring is made for.

    Equation   x = d - d1
    Symbols    x   returned  [mm]
               d   found_mm  [mm]  bore or shaft in hand
               d1  size_mm   [mm]  bore or shaft the ring is made for
    Valid      any
    Source     geometry; a bore of 1 3/8 in under a ring for 35 mm

    >>> ring_size_difference(found_mm=34.925, size_mm=35.0)
    -0.075
    """
    return found_mm - size_mm


@rule(
    unit="mm",
    equation="e = (S + 2 w - B) / 2",
    symbols={"e": "held by the shoulder [mm]", "S": "spigot_mm", "w": "wire_mm", "B": "bore_mm"},
    source=_SHAPE,
    rises_with=("spigot_mm", "wire_mm"),
    falls_with=("bore_mm",),
    valid={"spigot_mm": _DIAMETER, "wire_mm": _THICKNESS, "bore_mm": _DIAMETER},
)
def trapped_in_bore(*, spigot_mm: Real, wire_mm: Real, bore_mm: Real) -> Real:
    """How much of a wire ring stays in its groove in a bore when it is pressed onto the spigot inside it.

    Equation   e = (S + 2 w - B) / 2
    Symbols    e   returned   [mm]  radial; not above zero, the ring can leave its groove
               S   spigot_mm  [mm]  outside of the shoulder within the ring
               w   wire_mm    [mm]
               B   bore_mm    [mm]
    Valid      any
    Source     geometry: the ring cannot become smaller than the spigot; own worked example

    >>> trapped_in_bore(spigot_mm=47.4, wire_mm=1.6, bore_mm=50.0)
    0.30
    """
    return (spigot_mm + 2.0 * wire_mm - bore_mm) / 2.0


@rule(
    unit="mm",
    equation="e = (d - C + 2 w) / 2",
    symbols={"e": "held by the shoulder [mm]", "d": "shaft_mm", "C": "counterbore_mm", "w": "wire_mm"},
    source=_SHAPE,
    rises_with=("shaft_mm", "wire_mm"),
    falls_with=("counterbore_mm",),
    valid={"shaft_mm": _DIAMETER, "counterbore_mm": _DIAMETER, "wire_mm": _THICKNESS},
)
def trapped_on_shaft(*, shaft_mm: Real, counterbore_mm: Real, wire_mm: Real) -> Real:
    """How much of a wire ring stays in its groove on a shaft when it is pressed against the counterbore.

    Equation   e = (d - C + 2 w) / 2
    Symbols    e   returned        [mm]  radial; not above zero, the ring can leave its groove
               d   shaft_mm        [mm]
               C   counterbore_mm  [mm]  inside of the shoulder around the ring
               w   wire_mm         [mm]
    Valid      any
    Source     geometry: the ring cannot become larger than the counterbore; own worked example

    >>> trapped_on_shaft(shaft_mm=20.0, counterbore_mm=22.4, wire_mm=2.0)
    0.80
    """
    return (shaft_mm - counterbore_mm + 2.0 * wire_mm) / 2.0


@rule(
    unit="mm",
    equation="c = D - d - 2 w",
    symbols={"c": "room for the shoulder [mm]", "D": "outer_mm", "d": "inner_mm", "w": "wire_mm"},
    source=_SHAPE,
    rises_with=("outer_mm",),
    falls_with=("inner_mm", "wire_mm"),
    valid={"outer_mm": _DIAMETER, "inner_mm": _DIAMETER, "wire_mm": _THICKNESS},
)
def shoulder_room(*, outer_mm: Real, inner_mm: Real, wire_mm: Real) -> Real:
    """Room on the diameter between a seated wire ring and the shoulder that traps it.

    Equation   c = D - d - 2 w
    Symbols    c   returned  [mm]
               D   outer_mm  [mm]  groove floor in a bore, counterbore around a shaft
               d   inner_mm  [mm]  spigot within the ring, or groove floor on a shaft
               w   wire_mm   [mm]
    Valid      any; below zero the shoulder does not go past the ring
    Source     geometry; own worked example

    >>> shoulder_room(outer_mm=51.6, inner_mm=47.4, wire_mm=1.6)
    1.00
    """
    return outer_mm - inner_mm - 2.0 * wire_mm
