"""What moves a finding: the effect of each size on each quantity, and the statistical picture.

Effects are half the change of a quantity over a size's own interval (half the tolerance of a drawn
size, one standard uncertainty of a measured one), by central difference about the middle.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from fitcheck.numbers import Span, normal_share_below
from fitcheck.setting import Ask, Known, Sizes
from schema.dimension import Dimension
from schema.finding import Influence, Limits

Influences = dict[str, Influence]

# Drawn limits are taken as three standard deviations of a centred normal distribution (99.73 % inside).
SIGMAS_IN_HALF_A_TOLERANCE = 3.0


def influences(sizes: Sizes, ask: Ask, *, of_drawn: bool = True) -> dict[str, Influences]:
    """Effect of every size on every quantity: {rule: {dimension: Influence}}.

    Without ``of_drawn`` only of measured sizes, which is all that a decision needs.
    """
    middles = {name: Span.point(size.middle) for name, size in sizes.items()}
    found: dict[str, Influences] = {}
    for name, size in sizes.items():
        half = size.half_width(1.0)
        if half <= 0 or not (of_drawn or size.measured):
            continue
        up = ask({**middles, name: Span.point(size.middle + half)})
        down = ask({**middles, name: Span.point(max(_least(size), size.middle - half))})
        for rule, span in up.items():
            if rule not in down:
                continue
            effect = (float(span.middle) - float(down[rule].middle)) / 2.0
            if effect:
                found.setdefault(rule, {})[name] = Influence(name, effect, size.measured)
    return found


def end_uncertainties(
    sizes: Sizes, spans: Mapping[str, Span], ask: Ask, found: Mapping[str, Span], factor: float
) -> dict[str, tuple[float, float]]:
    """Standard uncertainty that measured sizes give each quantity at its smallest and at its largest.

    Each measured size is moved by ``factor`` times u either way with the drawn ones at their worst, and what
    that moves an end outwards is divided by the factor again and added in quadrature: a rule that bends, or
    takes the smaller of two sizes, is not the same at its ends as in its middle. nan beyond a rule's range.
    """
    outward: dict[str, tuple[float, float]] = {}
    for name, size in sizes.items():
        if not size.measured:
            continue
        step = factor * float(size.standard_uncertainty)
        moved = [
            ask({**spans, name: Span.point(max(_least(size), size.middle + way))}) for way in (-step, step)
        ]
        for rule, span in found.items():
            ends = [one.get(rule, _NOWHERE) for one in moved]
            low = _furthest([float(span.low - one.low) for one in ends]) / factor
            high = _furthest([float(one.high - span.high) for one in ends]) / factor
            before = outward.get(rule, (0.0, 0.0))
            outward[rule] = (math.hypot(before[0], low), math.hypot(before[1], high))
    return outward


_NOWHERE = Span(math.nan, math.nan, math.nan)  # a quantity that the moved size does not allow


def _least(size: Known) -> float:
    """No length is below zero; another quantity may be."""
    return 0.0 if isinstance(size, Dimension) else -math.inf


def _furthest(steps: list[float]) -> float:
    return math.nan if any(map(math.isnan, steps)) else max(0.0, *steps)


class Shares(NamedTuple):
    """The statistical picture: where 99.73 % of assemblies lie, and the share outside the limits."""

    low: float
    high: float
    outside: float


def shares(span: Span, moves: Influences, limits: Limits) -> Shares:
    """Root-sum-square picture of one quantity.

    Equation   sigma^2 = sum (h_i / 3)^2 for drawn sizes + sum h_i^2 for measured ones
    Symbols    h_i  half effect of size i; 99.73 % lie within the middle +/- 3 sigma
    Valid      independent, centred, about normal sizes; it never stands in for the worst case
    Source     root-sum-square stack-up as in a public worked sample (bearing assembly, 0.1039); JCGM 101:2008
    """
    variance = math.fsum(
        one.half_effect**2 if one.measured else (one.half_effect / SIGMAS_IN_HALF_A_TOLERANCE) ** 2
        for one in moves.values()
    )
    sigma, middle = math.sqrt(variance), float(span.middle)
    inside = 1.0
    if sigma > 0:
        above = 1.0 if limits.high is None else normal_share_below((limits.high - middle) / sigma)
        below = 0.0 if limits.low is None else normal_share_below((limits.low - middle) / sigma)
        inside = max(0.0, above - below)
    elif (limits.low is not None and middle < limits.low) or (
        limits.high is not None and middle > limits.high
    ):
        inside = 0.0
    return Shares(middle - 3.0 * sigma, middle + 3.0 * sigma, 1.0 - inside)
