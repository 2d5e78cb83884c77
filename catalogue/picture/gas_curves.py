"""Curves of a gas chamber: pressure of the gas and way of its piston over the stroke, cold, as set, hot.

Between slow and fast is hatched, the worst case of all sizes is chain-dotted, as a limit is drawn. The two
stops of the piston are cut metal. The same input gives the same bytes; nothing is read from disk.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from catalogue.picture.parts import hatch_patterns, hatched
from catalogue.picture.plot import Axis, Frame, axes, curve_data, labels_beside, shown
from catalogue.picture.sheet import WIDTHS, Layout
from catalogue.picture.sizes import MM_PER_INCH, Unit
from catalogue.picture.style import BODY, SMALL, style_sheet
from catalogue.picture.svg import Element, label, line, number, path, polyline_data, wrapped
from fitcheck.gas.curves import Curve, GasCurves, gas_curves_of
from fitcheck.gas.highest import Lock
from fitcheck.words import dimension_words, joined
from schema.fit import Fit
from schema.reference import Reference
from schema.units import PRESSURE_TO_MPA

_PSI = float(PRESSURE_TO_MPA["psi"])
_WORDS = {"cold": "cold", "as_set": "as set", "hot": "hot"}
_LINES = {"cold": "hidden", "as_set": "rule", "hot": "wide"}
_HATCHES = {"cold": "mate", "as_set": "plastic", "hot": "metal"}
_PLOT_HEIGHT, _WORDS_HEIGHT, _WALL, _BESIDE = 330.0, 110.0, 16.0, 160.0


class _Scale(NamedTuple):
    """How values are shown: their units and factors from mm, MPa and what is left."""

    stroke: str
    pressure: str
    left: str
    per_mm: float
    per_mpa: float
    per_left: float


def gas_curves(
    fit: Fit,
    reference: Reference,
    *,
    unit: Unit = "mm",
    layout: Layout = "wide",
    identifier: str = "gas-curves",
) -> str:
    """A complete SVG document: two plots side by side, one below the other in the narrow layout.

    Inches bring psi with them. Where hydraulic lock is not excluded no pressure is drawn, and the plot says
    so in its place. ``identifier`` begins every id in the document.
    """
    found = gas_curves_of(fit, reference)
    scale = _scale(unit, bladder=found.bladder)
    width = WIDTHS[layout]
    root = Element("svg", {})
    title = f"Gas pressure and {_what(found)} over the stroke: {fit.place.name}"
    y = 34.0
    for text in wrapped(title, 19.0, width - 32, bold=True, most=3):
        root.add(label(text, 16, y, size="head"))
        y += 25
    narrow = layout == "narrow"
    pressures = _PLOT_HEIGHT if any(one.slow for one in found.curves) else _WORDS_HEIGHT
    ways = _PLOT_HEIGHT if any(one.left for one in found.curves) else _WORDS_HEIGHT
    first = Frame(68, y + 34, (width if narrow else width / 2) - 68 - _BESIDE, pressures)
    second = Frame(
        first.left if narrow else first.left + width / 2,
        first.bottom + (112 if pressures == _PLOT_HEIGHT else 30) if narrow else first.top,
        first.width,
        ways,
    )
    root.add(*_pressures(found, scale, first, identifier))
    root.add(*_ways(found, scale, second, identifier))
    y = max(first.bottom, second.bottom) + (74 if _PLOT_HEIGHT in (pressures, ways) else 20)
    for text in wrapped(_legend(found), SMALL, width - 32, most=9):
        root.add(label(text, 16, y, size="small"))
        y += 20
    root.attributes = {
        "xmlns": "http://www.w3.org/2000/svg",
        "class": f"gland-picture {layout}-layout",
        "viewBox": f"0 0 {number(width)} {number(y + 4)}",
        "width": "100%",
        "role": "img",
        "aria-labelledby": f"{identifier}-title {identifier}-desc",
    }
    root.children = [
        Element("title", {"id": f"{identifier}-title"}, [title]),
        Element("desc", {"id": f"{identifier}-desc"}, [description(found, scale)]),
        Element("style", {}, [style_sheet()]),
        Element("defs").add(*hatch_patterns(identifier)),
        *root.children,
    ]
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + "\n".join(root.lines()) + "\n"


def _what(found: GasCurves) -> str:
    return "room left in the bladder" if found.bladder else "way of the floating piston"


def _scale(unit: Unit, *, bladder: bool) -> _Scale:
    if unit == "mm":
        return _Scale("mm", "MPa", "ml" if bladder else "mm", 1.0, 1.0, 1.0)
    per_mm = 1.0 / MM_PER_INCH
    return _Scale("in", "psi", "ml" if bladder else "in", per_mm, 1.0 / _PSI, 1.0 if bladder else per_mm)


def _pressures(found: GasCurves, scale: _Scale, frame: Frame, identifier: str) -> list[Element]:
    """The pressure plot, or in its place why there is none."""
    drawn = [one for one in found.curves if one.slow]
    caption = f"Gas pressure (gauge), {scale.pressure}"
    if not drawn:
        return _nothing(frame, caption, _why_no_pressure(found))
    top = max(one.high for curve in drawn for one in (*curve.slow, *curve.fast)) * scale.per_mpa
    axis = Axis(0.0, top, frame.bottom, frame.top)
    stroke = _stroke_axis(found, scale, frame)
    made = axes(frame, stroke, axis, caption, f"stroke of the shaft, {scale.stroke}")
    xs = [one * scale.per_mm for one in found.strokes]
    ends = []
    for curve in drawn:
        name = _WORDS[curve.state]
        slow = [one.middle * scale.per_mpa for one in curve.slow]
        made_lines = [path(_LINES[curve.state], curve_data(xs, slow, stroke, axis))]
        ends.append((axis.at(slow[-1]), f"{name}, slow {shown(slow[-1])}"))
        if curve.fast:
            fast = [one.middle * scale.per_mpa for one in curve.fast]
            area = _between(xs, slow, fast, stroke, axis)
            made.append(hatched(identifier, _HATCHES[curve.state], area))
            made_lines.append(path(_LINES[curve.state], curve_data(xs, fast, stroke, axis)))
            ends.append((axis.at(fast[-1]), f"{name}, fast {shown(fast[-1])}"))
        made += made_lines
    lowest, highest = drawn[0].slow, drawn[-1].fast or drawn[-1].slow
    for values, word in (([one.low for one in lowest], "least"), ([one.high for one in highest], "most")):
        scaled = [one * scale.per_mpa for one in values]
        made.append(path("chain", curve_data(xs, scaled, stroke, axis)))
        ends.append((axis.at(scaled[-1]), f"{word} {shown(scaled[-1])}"))
    return [*made, *labels_beside(ends, frame)]


def _ways(found: GasCurves, scale: _Scale, frame: Frame, identifier: str) -> list[Element]:
    """The way to the gas end, its stops as cut metal; or in its place what is missing."""
    drawn = [one for one in found.curves if one.left]
    what = "Gas above the bladder's least volume" if found.bladder else "Way of the piston to the gas end"
    caption = f"{what}, {scale.left}"
    if not drawn:
        return _nothing(frame, caption, f"Not drawn. Give: {_given(found.missing)}.")
    most = max(one.high for curve in drawn for one in curve.left)
    least = min(0.0, *(one.low for curve in drawn for one in curve.left))
    if found.oil_stop:
        most = max(most, found.oil_stop.middle)
    axis = Axis(least * scale.per_left, most * scale.per_left, frame.bottom - _WALL - 4, frame.top + _WALL)
    stroke = _stroke_axis(found, scale, frame)
    made, ends = _walls(found, scale, frame, axis, identifier)
    made += axes(frame, stroke, axis, caption, f"stroke of the shaft, {scale.stroke}")
    xs = [one * scale.per_mm for one in found.strokes]
    for curve in drawn:
        middle = [one.middle * scale.per_left for one in curve.left]
        low = [one.low * scale.per_left for one in curve.left]
        high = [one.high * scale.per_left for one in curve.left]
        if curve.state == "hot":
            made.append(hatched(identifier, _HATCHES["hot"], _between(xs, low, high, stroke, axis)))
        made.append(path(_LINES[curve.state], curve_data(xs, middle, stroke, axis)))
        ends.append((axis.at(middle[-1]), f"{_WORDS[curve.state]} {shown(middle[-1])}"))
    for values, word in (
        ([one.low for one in drawn[-1].left], "least"),
        ([one.high for one in drawn[0].left], "most"),
    ):
        scaled = [one * scale.per_left for one in values]
        made.append(path("chain", curve_data(xs, scaled, stroke, axis)))
        ends.append((axis.at(scaled[-1]), f"{word} {shown(scaled[-1])}"))
    return [*made, *labels_beside(ends, frame)]


def _walls(
    found: GasCurves, scale: _Scale, frame: Frame, axis: Axis, identifier: str
) -> tuple[list[Element], list[tuple[float, str]]]:
    """Gas end and oil-side stop as cut metal, and their names at their heights."""
    at = axis.at(0.0)
    walls = [(at, frame.bottom - at, "least volume" if found.bladder else "gas end")]
    if found.oil_stop:
        walls.append((axis.at(found.oil_stop.middle * scale.per_left), -_WALL, "oil-side stop"))
    made, names = [], []
    for edge, depth, words in walls:
        corners = [(frame.left, edge), (frame.right, edge)]
        corners += [(frame.right, edge + depth), (frame.left, edge + depth)]
        made.append(hatched(identifier, "band", polyline_data(corners, closed=True)))
        made.append(line("wide", frame.left, edge, frame.right, edge))
        names.append((edge, words))
    return made, names


def _stroke_axis(found: GasCurves, scale: _Scale, frame: Frame) -> Axis:
    return Axis(0.0, found.strokes[-1] * scale.per_mm, frame.left, frame.right, exact=True)


def _between(xs: Sequence[float], low: Sequence[float], high: Sequence[float], across: Axis, up: Axis) -> str:
    """The closed area between two curves."""
    there = [(across.at(x), up.at(y)) for x, y in zip(xs, low, strict=True)]
    back = [(across.at(x), up.at(y)) for x, y in zip(xs, high, strict=True)]
    return polyline_data([*there, *reversed(back)], closed=True)


def _nothing(frame: Frame, caption: str, words: str) -> list[Element]:
    """A plot that cannot be drawn says why, in its place."""
    made = [label(caption, frame.left - 52, frame.top - 14)]
    y = frame.top + 30
    for text in wrapped(words, BODY, frame.width + 120, most=8):
        made.append(label(text, frame.left - 40, y))
        y += 22
    return made


def _why_no_pressure(found: GasCurves) -> str:
    if found.missing:
        return f"Not drawn. Give: {_given(found.missing)}."
    if found.lock is Lock.CERTAIN:
        return "No pressure is told: hydraulic lock. The oil is locked in before the stroke is done."
    if found.lock is not Lock.EXCLUDED:
        return "No pressure is told: hydraulic lock is not excluded."
    return "No pressure is told: beyond the range of the equation of the gas."


def _given(missing: tuple[str, ...]) -> str:
    return joined([dimension_words(name) for name in missing])


def _legend(found: GasCurves) -> str:
    told = [f"{_WORDS[one.state]} {_degrees(one)}" for one in found.curves]
    legend = f"Dashed: cold, thin: as set, thick: hot ({', '.join(told)}). " if told else ""
    if any(one.slow for one in found.curves):
        legend += (
            "Pressure is hatched between slow (one temperature) and fast (no heat lost), real gas. "
            "Chain lines: worst case of all sizes, of the oil's expansion and of what was measured. "
        )
    elif told:
        legend += "Chain lines: worst case of all sizes, of the oil's expansion and of what was measured. "
    if any(one.left for one in found.curves):
        what, end = ("room", "the least volume") if found.bladder else ("way", "the gas end")
        legend += f"The {what} left when hot is hatched over its worst case. At {end} the oil is locked in. "
    return legend + "Arithmetic, no approval: the maker's figures lead."


def _degrees(curve: Curve) -> str:
    return f"{curve.deg_c:g}\u00a0°C".replace("-", "−")


def description(found: GasCurves, scale: _Scale) -> str:
    """The curves in words, with the same numbers."""
    said = []
    for curve in found.curves:
        words = [f"{_WORDS[curve.state]} at {_degrees(curve)}"]
        words += _ends_in_words("pressure slow", curve, "slow", scale.per_mpa, f"{scale.pressure} gauge")
        words += _ends_in_words("pressure fast", curve, "fast", scale.per_mpa, f"{scale.pressure} gauge")
        way = "room left in the bladder" if found.bladder else "way to the gas end"
        words += _ends_in_words(way, curve, "left", scale.per_left, scale.left)
        said.append("; ".join(words) + ".")
    if not any(one.slow for one in found.curves):
        said.append(_why_no_pressure(found))
    return " ".join(said)


def _ends_in_words(what: str, curve: Curve, name: str, factor: float, unit: str) -> list[str]:
    values = getattr(curve, name)
    if not values:
        return []
    first, last = values[0], values[-1]
    worst = f"{shown(last.low * factor)} to {shown(last.high * factor)}"
    return [
        f"{what} from {shown(first.middle * factor)} to {shown(last.middle * factor)} {unit} "
        f"(worst case at full stroke {worst})"
    ]
