"""A plot in the look of the drawings: frame, ticks at round numbers, curves, values beside their ends."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from catalogue.picture.svg import Element, label, line, polyline_data

_APART = 16.0  # least distance of two values beside the frame
_ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)
_MOST_TICKS = 7


class Frame(NamedTuple):
    """Where a plot lies on the sheet."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Right edge."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Lower edge."""
        return self.top + self.height


class Axis(NamedTuple):
    """Values between two places of the sheet; its ends are rounded outwards to ticks unless ``exact``."""

    low: float
    high: float
    start: float
    end: float
    exact: bool = False

    @property
    def step(self) -> float:
        """Distance of ticks: the smallest round number that gives few enough."""
        return round_step((self.high - self.low) / _MOST_TICKS)

    @property
    def ends(self) -> tuple[float, float]:
        """First and last value of the axis."""
        if self.exact:
            return self.low, self.high
        step = self.step
        return math.floor(self.low / step + 1e-9) * step, math.ceil(self.high / step - 1e-9) * step

    def at(self, value: float) -> float:
        """Where a value lies on the sheet."""
        low, high = self.ends
        return self.start + (value - low) / (high - low) * (self.end - self.start)

    def ticks(self) -> list[float]:
        """The round values on the axis."""
        low, high = self.ends
        first, last = math.ceil(low / self.step - 1e-9), math.floor(high / self.step + 1e-9)
        return [number * self.step for number in range(first, last + 1)]


def round_step(least: float) -> float:
    """The smallest of 1, 2, 2.5, 5 times a power of ten that is not below ``least``.

    >>> round_step(0.31)
    0.5
    """
    if least <= 0.0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(least))
    return next(one * power for one in _ROUND if one * power >= least * (1.0 - 1e-9))


def shown(value: float) -> str:
    """A value in three figures, without an exponent.

    >>> shown(2.0871), shown(302.4), shown(17.36)
    ('2.09', '302', '17.4')
    """
    size = abs(value)
    digits = 0 if size >= 100.0 else 1 if size >= 10.0 else 2
    text = f"{value:.{digits}f}"
    return "0" if float(text) == 0.0 else text.replace("-", "−")


def axes(frame: Frame, across: Axis, up: Axis, caption: str, below: str) -> list[Element]:
    """Frame lines, ticks with their values, caption above and the words of the lower axis."""
    made = [
        label(caption, frame.left - 52, frame.top - 14),
        line("rule", frame.left, frame.top, frame.left, frame.bottom),
        line("rule", frame.left, frame.bottom, frame.right, frame.bottom),
        label(below, frame.left + frame.width / 2, frame.bottom + 44, size="small", anchor="middle"),
    ]
    for value in up.ticks():
        y = up.at(value)
        made.append(line("rule", frame.left - 6, y, frame.left, y))
        made.append(label(_tick(value, up.step), frame.left - 10, y + 5, size="small", anchor="end"))
    for value in across.ticks():
        x = across.at(value)
        made.append(line("rule", x, frame.bottom, x, frame.bottom + 6))
        made.append(label(_tick(value, across.step), x, frame.bottom + 22, size="small", anchor="middle"))
    return made


def _tick(value: float, step: float) -> str:
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    if round(step * 10.0**digits, 6) != round(step * 10.0**digits):
        digits += 1  # 2.5 and its like
    text = f"{value:.{digits}f}"
    return "0" if float(text) == 0.0 else text.replace("-", "−")


def curve_data(xs: Sequence[float], ys: Sequence[float], across: Axis, up: Axis) -> str:
    """A curve through points."""
    return polyline_data((across.at(x), up.at(y)) for x, y in zip(xs, ys, strict=True))


def labels_beside(ends: Sequence[tuple[float, str]], frame: Frame) -> list[Element]:
    """Values to the right of the frame, at the height of their curves or as near as they fit."""
    ordered = sorted(ends)
    places = apart([at for at, _ in ordered], frame.top + 4, frame.bottom)
    made = []
    for (at, text), place in zip(ordered, places, strict=True):
        made.append(line("thin", frame.right + 2, at, frame.right + 14, place))
        made.append(label(text, frame.right + 18, place + 5, size="small"))
    return made


def apart(wanted: Sequence[float], first: float, last: float) -> list[float]:
    """Places in order, each as near to its own as can be and none closer than a line of text.

    >>> apart([10.0, 12.0, 60.0], 0.0, 100.0)
    [3.0, 19.0, 60.0]
    """
    groups: list[list[float]] = []
    for one in wanted:
        groups.append([one])
        while len(groups) > 1 and _start(groups[-1], first, last) < _end(groups[-2], first, last) + _APART:
            groups[-2:] = [[*groups[-2], *groups[-1]]]
    return [_start(group, first, last) + number * _APART for group in groups for number in range(len(group))]


def _start(group: Sequence[float], first: float, last: float) -> float:
    """Where a group of values begins that stands round its own middle, kept within the frame."""
    length = (len(group) - 1) * _APART
    middle = math.fsum(group) / len(group)
    return min(max(middle - length / 2.0, first), max(first, last - length))


def _end(group: Sequence[float], first: float, last: float) -> float:
    return _start(group, first, last) + (len(group) - 1) * _APART
