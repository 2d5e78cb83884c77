"""The sizes that the two views are drawn with: the limits that give least and most squeeze."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from catalogue.picture.shapes import Section, free_section, squeezed_section
from fitcheck.numbers import Span
from fitcheck.rings.groove import diametral_clearance
from fitcheck.rings.squeeze import gland_depth, plain_squeeze
from fitcheck.rule import span
from schema.dimension import COVERAGE_FACTOR, Dimension
from schema.places import FaceGland, PistonGland, RodGland
from schema.question import Question

Unit = Literal["mm", "in"]
Kind = Literal["rod", "piston", "face"]
BOTH, LEFT, RIGHT, UNKNOWN = "both", "left", "right", ""
MM_PER_INCH = 25.4


@dataclass(frozen=True)
class Size:
    """A size [mm] at its limits; a measured one at its value and its expanded uncertainty."""

    span: Span
    measured: bool = False
    toleranced: bool = True


@dataclass(frozen=True)
class GlandSizes:
    """All sizes of one question, None where not given. ``surface`` is the diameter of shaft or bore."""

    kind: Kind
    area_factor: float
    section: Size
    depth: Size | None
    width: Size | None
    clearance: Size | None
    corner_radius: Size | None
    surface: Size | None
    back_up_width: Size | None
    back_up_thickness: Size | None
    back_up_count: int
    pressure_from: str
    missing: tuple[str, ...]


@dataclass(frozen=True)
class View:
    """One view: sizes at one end of their limits [mm], and the ring in them.

    u = 0 is the left wall of the groove, v = 0 the mating surface. ``width`` may be assumed, then
    ``width_given`` is false; the same for back-up rings.
    """

    name: str
    section: float
    depth: float | None
    width: float
    clearance: float | None
    corner_radius: float
    squeeze_percent: float | None
    free: Section
    pressed: Section | None
    centre: tuple[float, float]
    back_ups: tuple[tuple[float, float], ...]
    back_up_thickness: float
    width_given: bool
    back_up_given: bool

    @property
    def gap(self) -> float:
        """Gap between ring and mating surface, where nothing squeezes it."""
        return 0.0 if self.depth is None else max(self.depth - self.section, 0.0)


def size_of(dimension: Dimension | None) -> Size | None:
    """A dimension's limits; a measured one widened by its expanded uncertainty."""
    if dimension is None:
        return None
    spread = float(COVERAGE_FACTOR * dimension.standard_uncertainty) if dimension.measured else 0.0
    low, high = float(dimension.lower) - spread, float(dimension.upper) + spread
    middle = float(dimension.nominal)
    return Size(Span(low, middle, high), dimension.measured, dimension.toleranced)


def gland_sizes(question: Question) -> GlandSizes:
    """Read the sizes of a question for drawing."""
    ring, gland, back_up = question.ring, question.gland, question.back_up
    section = size_of(ring.cross_section)
    assert section is not None
    depth = clearance = surface = None
    needed: tuple[tuple[str, Dimension | None], ...]
    if isinstance(gland, RodGland):
        kind: Kind = "rod"
        surface = size_of(gland.shaft_diameter)
        depth = _depth(size_of(gland.groove_diameter), surface)
        clearance = _radial(size_of(gland.throat_diameter), surface)
        needed = (
            ("shaft diameter", gland.shaft_diameter),
            ("groove diameter", gland.groove_diameter),
            ("throat diameter", gland.throat_diameter),
        )
    elif isinstance(gland, PistonGland):
        kind = "piston"
        surface = size_of(gland.bore_diameter)
        depth = _depth(surface, size_of(gland.groove_diameter))
        clearance = _radial(surface, size_of(gland.land_diameter))
        needed = (
            ("bore diameter", gland.bore_diameter),
            ("groove diameter", gland.groove_diameter),
            ("land diameter", gland.land_diameter),
        )
    else:
        assert isinstance(gland, FaceGland)
        kind = "face"
        gap = size_of(gland.face_gap)
        clearance = gap or Size(Span.point(0.0))
        depth = _sum(size_of(gland.groove_depth), gap)
        needed = (("groove depth", gland.groove_depth),)
    return GlandSizes(
        kind=kind,
        area_factor=ring.area_factor,
        section=section,
        depth=depth,
        width=size_of(gland.groove_width),
        clearance=clearance,
        corner_radius=size_of(gland.corner_radius),
        surface=surface,
        back_up_width=size_of(back_up.width) if back_up else None,
        back_up_thickness=size_of(back_up.radial_thickness) if back_up else None,
        back_up_count=gland.back_up_rings,
        pressure_from=_pressure_side(kind, question.service.pressure_from),
        missing=tuple(name for name, value in (*needed, ("groove width", gland.groove_width)) if not value),
    )


def view_at(sizes: GlandSizes, *, largest: bool) -> View:
    """The view at one end: with least squeeze all room is at its largest, with most at its smallest."""

    def room(size: Size | None) -> float | None:
        return None if size is None else (size.span.low if largest else size.span.high)

    section = sizes.section.span.high if largest else sizes.section.span.low
    depth, clearance, width = room(sizes.depth), room(sizes.clearance), room(sizes.width)
    if depth is not None and depth < 0.05 * section:
        depth = None
    count = sizes.back_up_count
    one = None if sizes.back_up_width is None else _against(sizes.back_up_width, largest)
    back_up = (one if one is not None else 0.4 * section) if count else 0.0
    clear = None if width is None else width - back_up * count
    free = free_section(section, sizes.area_factor)
    pressed = None
    if depth is not None:
        pressed = squeezed_section(
            section, sizes.area_factor, depth, clear if clear is not None and clear > 0 else None
        )
    across = pressed.width if pressed else section
    drawn_width = width if width is not None else across * 1.25 + back_up * count
    places = _back_up_places(sizes, drawn_width, back_up)
    left = max((end for start, end in places if start <= 0.0), default=0.0)
    right = min((start for start, end in places if start > 0.0), default=drawn_width)
    u = {LEFT: right - across / 2, RIGHT: left + across / 2}.get(sizes.pressure_from, (left + right) / 2)
    v = section / 2 if depth is None else depth / 2 if depth < section else depth - section / 2
    squeeze = None
    if depth is not None:
        squeeze = plain_squeeze.function(cross_section_mm=section, gland_depth_mm=depth)
    thickness = sizes.back_up_thickness.span.middle if sizes.back_up_thickness else depth or section
    return View(
        name="largest" if largest else "smallest",
        section=section,
        depth=depth,
        width=drawn_width,
        clearance=None if clearance is None else clearance if depth is None else min(clearance, 0.95 * depth),
        corner_radius=_corner(sizes, drawn_width, depth or section),
        squeeze_percent=squeeze,
        free=free,
        pressed=pressed,
        centre=(u, v),
        back_ups=places,
        back_up_thickness=min(thickness, depth or section),
        width_given=width is not None,
        back_up_given=one is not None,
    )


def _back_up_places(sizes: GlandSizes, width: float, one: float) -> tuple[tuple[float, float], ...]:
    """From where to where along the groove: on the low-pressure side, or one on each side."""
    if sizes.back_up_count == 0:
        return ()
    low_side_left = sizes.pressure_from == RIGHT
    first, last = (0.0, one), (width - one, width)
    if sizes.back_up_count == 2:
        return (first, last)
    return (first,) if low_side_left else (last,)


def _corner(sizes: GlandSizes, width: float, depth: float) -> float:
    wanted = sizes.corner_radius.span.middle if sizes.corner_radius else 0.0
    return max(min(wanted, width / 2, depth / 2), 0.0)


def _against(size: Size, largest: bool) -> float:
    """A back-up ring takes room away: thick where everything is tight."""
    return size.span.high if largest else size.span.low


def _pressure_side(kind: Kind, given: str | None) -> str:
    if kind == "face" and given == "outside":
        return RIGHT
    return {"both_sides": BOTH, None: UNKNOWN}.get(given, LEFT)


def _depth(outer: Size | None, inner: Size | None) -> Size | None:
    if outer is None or inner is None:
        return None
    depth = span(gland_depth, outer_diameter_mm=outer.span, inner_diameter_mm=inner.span)
    return Size(_halfway(depth), outer.measured or inner.measured, outer.toleranced or inner.toleranced)


def _radial(outer: Size | None, inner: Size | None) -> Size | None:
    """Radial clearance of a centred gland, half the diametral one."""
    if outer is None or inner is None:
        return None
    both = span(diametral_clearance, outer_diameter_mm=outer.span, inner_diameter_mm=inner.span)
    half = _halfway(Span(both.low / 2, both.middle / 2, both.high / 2))
    return Size(half, outer.measured or inner.measured, outer.toleranced or inner.toleranced)


def _halfway(limits: Span) -> Span:
    """A size worked out from others has no nominal of its own: the middle of its limits stands for it."""
    return Span(limits.low, (limits.low + limits.high) / 2, limits.high)


def _sum(first: Size | None, second: Size | None) -> Size | None:
    if first is None or second is None:
        return first
    total = Span(*(a + b for a, b in zip(first.span, second.span, strict=True)))
    return Size(total, first.measured or second.measured, first.toleranced or second.toleranced)


def length_text(value_mm: float, unit: Unit) -> str:
    """A length as it stands on a dimension line: at least 2 decimals in mm, 3 in inches.

    >>> length_text(2.9, "mm"), length_text(25.4, "in"), length_text(0.0126, "mm")
    ('2.90', '1.000', '0.013')
    """
    value = value_mm if unit == "mm" else value_mm / MM_PER_INCH
    least = 2 if unit == "mm" else 3
    most = least + (2 if abs(value) < 10.0**-least else 1)
    text = f"{value:.{most}f}"
    while text.endswith("0") and len(text.partition(".")[2]) > least:
        text = text[:-1]
    return text.replace("-", "−")


def tolerance_text(size: Size, unit: Unit) -> str:
    """Nominal size and limit deviations, as they stand beside a dimension.

    >>> tolerance_text(Size(Span(2.8, 2.9, 3.0)), "mm"), tolerance_text(Size(Span(4.8, 4.8, 5.0)), "mm")
    ('2.90 ±0.10', '4.80 +0.20/0')
    """
    low, middle, high = size.span
    if not size.toleranced or high - low < 1e-9:
        return "no tolerance given"
    if abs((high - middle) - (middle - low)) < 1e-6:
        return (
            f"{length_text(middle, unit)} ±{'U' if size.measured else ''}{length_text(high - middle, unit)}"
        )
    return f"{length_text(middle, unit)} {_deviation(high - middle, unit)}/{_deviation(low - middle, unit)}"


def _deviation(value: float, unit: Unit) -> str:
    text = length_text(abs(value), unit)
    return "0" if abs(value) < 1e-9 else ("+" if value > 0 else "−") + text
