"""What moves a finding: the effect of each size on each quantity, and what would settle it.

Effects are half the change of a quantity over a size's own interval (half the tolerance of a drawn
size, one standard uncertainty of a measured one), by central difference about the middle.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from fitcheck.conditions import Conditions
from fitcheck.decision import DecisionRule
from fitcheck.glands import quantities
from fitcheck.numbers import Span, normal_share_below
from fitcheck.words import dimension_words
from schema.dimension import Dimension
from schema.finding import Influence, Limits

Influences = dict[str, Influence]

# Drawn limits are taken as three standard deviations of a centred normal distribution (99.73 % inside).
SIGMAS_IN_HALF_A_TOLERANCE = 3.0


def influences(sizes: Mapping[str, Dimension], conditions: Conditions) -> dict[str, Influences]:
    """Effect of every size on every quantity: {rule: {dimension: Influence}}."""
    middles = {name: Span.point(size.middle_mm) for name, size in sizes.items()}
    found: dict[str, Influences] = {}
    for name, size in sizes.items():
        half = size.half_width_mm(1.0)
        if half <= 0:
            continue
        up = quantities({**middles, name: Span.point(size.middle_mm + half)}, conditions)
        down = quantities({**middles, name: Span.point(max(0.0, size.middle_mm - half))}, conditions)
        for rule, span in up.items():
            effect = (float(span.middle) - float(down[rule].middle)) / 2.0
            if effect:
                found.setdefault(rule, {})[name] = Influence(name, effect, size.measured)
    return found


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


def needed(
    name: str,
    listed: tuple[Influence, ...],
    sizes: Mapping[str, Dimension],
    spans: Mapping[str, Span],
    conditions: Conditions,
    limits: Limits,
    rule: DecisionRule,
) -> str:
    """Which one size would settle a finding, and where it would have to lie; "" where none would.

    The others stay at their worst case; the size in question is taken as known exactly, so the range
    is what a perfect measurement would have to find. A size that may lie there is to be measured; else
    another ring comes before another gland.
    """
    options: list[tuple[int, float, str]] = []
    for one in listed:
        size, label = sizes[one.dimension], dimension_words(one.dimension)
        guard = rule.guard_factor * math.sqrt(
            math.fsum(other.half_effect**2 for other in listed if other.measured and other is not one)
        )
        slope = one.half_effect / size.half_width_mm(1.0)
        ends = [-math.inf, math.inf]
        for limit, wanted_end, outward in ((limits.low, "low", -guard), (limits.high, "high", guard)):
            if limit is None:
                continue
            end = "middle" if limits.basis == "nominal" else wanted_end
            at = _size_at(name, one.dimension, end, limit - outward, size.middle_mm, slope, spans, conditions)
            if (wanted_end == "low") == (slope > 0):
                ends[0] = max(ends[0], at)
            else:
                ends[1] = min(ends[1], at)
        told = _range(*ends)
        if not told:
            continue
        reach = size.half_width_mm(max(rule.guard_factor, 1.0))
        if ends[0] <= size.middle_mm + reach and ends[1] >= size.middle_mm - reach:
            options.append((0, -abs(one.half_effect), f"Measure the {label}: with {told} it fits."))
        else:
            distance = max(ends[0] - size.middle_mm, size.middle_mm - ends[1]) / size.middle_mm
            of_ring = one.dimension in ("inside_diameter", "cross_section")
            options.append((1 if of_ring else 2, distance, f"It would need a {label} of {told}."))
    return min(options)[2] if options else ""


def _size_at(
    name: str,
    dimension: str,
    end: str,
    target: float,
    start_mm: float,
    slope: float,
    spans: Mapping[str, Span],
    conditions: Conditions,
) -> float:
    """The exact size [mm] at which one end of a quantity meets its target; nan where it never does."""

    def at(size_mm: float) -> float:
        found = quantities({**spans, dimension: Span.point(size_mm)}, conditions)
        return float(getattr(found[name], end)) - target

    first, value = start_mm, at(start_mm)
    second = first - value / slope
    for _ in range(12):
        if second <= 0 or math.isnan(second):
            return math.nan
        latest = at(second)
        if abs(latest) < 1e-9 or latest == value:
            break
        first, second, value = second, second - latest * (second - first) / (latest - value), latest
    return second


def _range(smallest: float, largest: float) -> str:
    """The range in words, rounded inwards to a hundredth so that its ends still hold."""
    if math.isnan(smallest) or math.isnan(largest):
        return ""
    low = math.ceil(smallest * 100 - 1e-6) / 100 if math.isfinite(smallest) else None
    high = math.floor(largest * 100 + 1e-6) / 100 if math.isfinite(largest) else None
    if low is not None and high is not None:
        return f"{low:.2f} to {high:.2f} mm" if low <= high and high > 0 else ""
    if low is not None:
        return f"{low:.2f} mm or more"
    return f"{high:.2f} mm or less" if high is not None and high > 0 else ""
