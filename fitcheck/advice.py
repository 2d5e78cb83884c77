"""What would settle a finding: which size, and the true size it would have to have.

The others stay at their worst case; the size in question is taken as known exactly, so a range is of true
sizes, not of readings.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from fitcheck.case import Case
from fitcheck.glands import quantities
from fitcheck.numbers import Span
from fitcheck.words import dimension_words, joined
from schema.finding import Finding, Influence, Limits, Status

_STEPS = 12
Range = tuple[float, float]


def settling_text(case: Case, name: str, listed: Sequence[Influence], limits: Limits) -> str:
    """Which one size would settle this finding; "" where none would.

    A size that may lie in the range is to be measured; else another ring comes before another gland.
    """
    options: list[tuple[int, float, str]] = []
    for position, one in enumerate(listed):
        size, label = case.sizes[one.dimension], dimension_words(one.dimension)
        ends = settling_range(case, name, one, listed, limits)
        if ends is None:
            continue
        known = _known(case, one.dimension)
        if ends[0] <= known[1] and ends[1] >= known[0]:
            told = in_words((max(ends[0], known[0]), min(ends[1], known[1])))
            if told:
                options.append((0, position, f"Measure the {label}: a true size of {told} settles this."))
        elif told := in_words(ends):
            distance = max(ends[0] - size.middle_mm, size.middle_mm - ends[1]) / size.middle_mm
            of_ring = one.dimension in ("inside_diameter", "cross_section")
            options.append((1 if of_ring else 2, distance, f"It would need a {label} of {told}."))
    return min(options)[2] if options else ""


def settling_range(
    case: Case, name: str, one: Influence, listed: Sequence[Influence], limits: Limits
) -> Range | None:
    """The true sizes [mm] of one dimension with which a finding fits, the others at their worst."""
    size = case.sizes[one.dimension]
    guard = case.rule.guard_factor * math.sqrt(
        math.fsum(other.half_effect**2 for other in listed if other.measured and other is not one)
    )
    slope = one.half_effect / size.half_width_mm(1.0)
    low, high = -math.inf, math.inf
    for limit, wanted_end, outward in ((limits.low, "low", guard), (limits.high, "high", -guard)):
        if limit is None:
            continue
        end = "middle" if limits.basis == "nominal" else wanted_end
        at = _size_at(case, name, one.dimension, end, limit + outward, slope)
        if math.isnan(at):
            return None
        if (wanted_end == "low") == (slope > 0):
            low = max(low, at)
        else:
            high = min(high, at)
    return (low, high) if low <= high and high > 0 else None


def settle(
    case: Case, findings: Sequence[Finding], again: Callable[[str, float, Sequence[str]], list[Finding]]
) -> str:
    """The one measurement that settles every open finding on sizes; "" where there is none open.

    ``again(dimension, size, rules)`` judges those rules anew with one size known exactly; no range is
    told that was not tried at both ends and in the middle.
    """
    sized = [one for one in findings if one.status is not Status.FITS and one.influences and one.limits]
    if not sized or any(one.status is Status.DOES_NOT_FIT for one in sized):
        return ""
    rules = [one.rule for one in sized]
    for first in sized[0].influences:
        ends = _common_range(case, first.dimension, sized)
        if ends is None or rounded(ends)[0] >= rounded(ends)[1]:
            continue  # none, or too narrow for any instrument
        told = in_words(ends)
        tried = [again(first.dimension, at, rules) for at in (*rounded(ends), sum(rounded(ends)) / 2)]
        if all(one.status is Status.FITS for some in tried for one in some):
            return f"Measure the {dimension_words(first.dimension)}: a true size of {told} settles it."
    sizes = dict.fromkeys(dimension_words(one.influences[0].dimension) for one in sized)
    return f"No one measurement settles it: measure the {joined(list(sizes)[:3])} more closely."


def _common_range(case: Case, dimension: str, sized: Sequence[Finding]) -> Range | None:
    low, high = _known(case, dimension)
    for finding in sized:
        one = next((one for one in finding.influences if one.dimension == dimension), None)
        if one is None or finding.limits is None:
            return None
        ends = settling_range(case, finding.rule, one, finding.influences, finding.limits)
        if ends is None:
            return None
        low, high = max(low, ends[0]), min(high, ends[1])
    return (low, high) if low <= high else None


def _known(case: Case, dimension: str) -> Range:
    """Where a size may lie by what is known of it [mm]: its limits, or its reading and three u."""
    size = case.sizes[dimension]
    reach = size.half_width_mm(max(case.rule.guard_factor, 3.0))
    return size.middle_mm - reach, size.middle_mm + reach


def _size_at(case: Case, name: str, dimension: str, end: str, target: float, slope: float) -> float:
    """The exact size [mm] at which one end of a quantity meets its target; nan where it never does."""

    def at(size_mm: float) -> float:
        found = quantities({**case.spans, dimension: Span.point(size_mm)}, case.conditions)
        return float(getattr(found[name], end)) - target

    first = case.sizes[dimension].middle_mm
    value = at(first)
    second = first - value / slope
    for _ in range(_STEPS):
        if second <= 0 or math.isnan(second) or math.isnan(value):
            return math.nan
        latest = at(second)
        if abs(latest) < 1e-9 or latest == value:
            break
        first, second, value = second, second - latest * (second - first) / (latest - value), latest
    return second


def rounded(ends: Range) -> Range:
    """A range rounded inwards to a hundredth of a millimetre, so that its ends still hold."""
    return math.ceil(ends[0] * 100 - 1e-6) / 100, math.floor(ends[1] * 100 + 1e-6) / 100


def in_words(ends: Range) -> str:
    """A range in words; "" where it holds no hundredth of a millimetre."""
    if math.isinf(ends[0]):
        return f"{rounded((0.0, ends[1]))[1]:.2f} mm or less"
    if math.isinf(ends[1]):
        return f"{rounded((ends[0], 0.0))[0]:.2f} mm or more"
    low, high = rounded(ends)
    if low > high:
        return ""
    return f"{low:.2f} to {high:.2f} mm" if low < high else f"{low:.2f} mm"
