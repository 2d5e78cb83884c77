"""Dimensions by ISO 129-1: extension lines, filled arrows, the value above the line.

The size as drawn stands above the line, with ``min.`` or ``max.``; nominal size and tolerance below it.
"""

from __future__ import annotations

from catalogue.picture.style import SMALL
from catalogue.picture.svg import Element, group, label, line, path, polyline_data, text_width

ARROW, HALF_ARROW, OVERSHOOT, OFFSET = 10.0, 2.3, 6.0, 2.0


def arrow(x: float, y: float, dx: int, dy: int, *, size: float = 1.0) -> Element:
    """A filled arrow head with its point at (x, y), pointing along (dx, dy)."""
    back_x, back_y = x - dx * ARROW * size, y - dy * ARROW * size
    wide = HALF_ARROW * size
    return path(
        "solid",
        polyline_data(
            [
                (x, y),
                (back_x - dy * wide, back_y + dx * wide),
                (back_x + dy * wide, back_y - dx * wide),
            ],
            closed=True,
        ),
    )


def across(
    name: str, ends: tuple[float, float], at: float, origin: float, value: str, tolerance: str = ""
) -> Element:
    """A horizontal dimension at height ``at``, its extension lines coming from ``origin``."""
    left, right = ends
    away = 1 if at > origin else -1
    made = group(f"dimension {name}")
    for x in ends:
        made.add(line("thin extension", x, origin + away * OFFSET, x, at + away * OVERSHOOT))
    made.add(*_line_with_arrows(left, right, at, upright=False))
    middle = (left + right) / 2
    room = right - left - 6
    if width_of(value) > room:
        for text, y in ((value, at + 5), (tolerance, at + 21)):
            if text:
                made.add(label(text, right + 2.2 * ARROW, y, size="small"))
        return made
    # Below the line the extension lines run where they come from below; a long text then goes above.
    above, below = (at - 22, at - 6) if away < 0 and width_of(tolerance) > room else (at - 6, at + 16)
    for text, y in ((value, above), (tolerance, below)):
        if text:
            made.add(label(text, middle, y, size="small", anchor="middle"))
    return made


def upright(
    name: str,
    ends: tuple[float, float],
    at: float,
    origins: tuple[float, float],
    value: str,
    tolerance: str = "",
) -> Element:
    """A vertical dimension at ``at``, its text read from the right; extension lines from ``origins``."""
    made = group(f"dimension {name}")
    for y, origin in zip(ends, origins, strict=True):
        away = 1 if at > origin else -1
        made.add(line("thin extension", origin + away * OFFSET, y, at + away * OVERSHOOT, y))
    top, bottom = min(ends), max(ends)
    made.add(*_line_with_arrows(top, bottom, at, upright=True))
    middle = (top + bottom) / 2
    inner = at > max(origins)  # the text's upper side is where the extension lines run
    fits = width_of(value) + 6 <= bottom - top
    if not inner:
        places = (at - 22, at - 6) if tolerance else (at - 6, at)
    else:
        places = (at - 6, at + 16) if fits else (at + 16, at + 32)
    for text, x in zip((value, tolerance), places, strict=True):
        if text:
            made.add(label(text, x, middle, size="small", anchor="middle", upright=True))
    return made


def _line_with_arrows(first: float, last: float, at: float, *, upright: bool) -> list[Element]:
    """Arrows inside where they have room, else outside, pointing at each other."""
    inside = last - first >= 2.6 * ARROW
    start, end = (first, last) if inside else (first - 1.8 * ARROW, last + 1.8 * ARROW)
    turn = -1 if inside else 1
    if upright:
        return [
            line("thin", at, start, at, end),
            arrow(at, first, 0, turn),
            arrow(at, last, 0, -turn),
        ]
    return [line("thin", start, at, end, at), arrow(first, at, turn, 0), arrow(last, at, -turn, 0)]


def width_of(text: str) -> float:
    """Width of a dimension's text."""
    return text_width(text, SMALL)
