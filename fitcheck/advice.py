"""What would settle a finding: which size to measure, with what, and what it would have to read.

A range is of readings with the uncertainty of the means that is named; the other sizes stay at their worst.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from fitcheck.case import Case
from fitcheck.decision import WEAK_GRADES
from fitcheck.glands import quantities
from fitcheck.numbers import Span
from fitcheck.words import dimension_words, joined
from schema.dimension import Dimension, Origin
from schema.errors import InputError, InputErrors
from schema.fields import meaning_of
from schema.finding import Finding, Influence, Status
from schema.instruments import suited_to

_STEPS = 12
FARTHEST = 0.5  # a size that is half as large again or half as small is another part, not advice
Range = tuple[float, float]


class Means(NamedTuple):
    """A way to measure a size: in words, and its standard uncertainty [mm]."""

    words: str
    standard_uncertainty_mm: float


# What a careful method reaches that is not in the list of instruments (optical, on a soft part).
_FINER = Means("to ±U0.01 mm", 0.005)


def advised(case: Case, finding: Finding, findings: Sequence[Finding]) -> str:
    """What to do about one finding: which one size would settle it, then what else would do.

    A size that may lie in the range is to be measured; else another ring comes before another gland, of a
    size that every other finding bears too.
    """
    limits = finding.limits
    if finding.status is Status.FITS or limits is None or limits.grade in WEAK_GRADES:
        return finding.action
    first = "" if finding.outside_guidance else _measuring(case, finding)
    first = first or _replacing(case, finding, [one for one in findings if one is not finding])
    return "\n".join(one for one in (first, finding.action) if one)


def _measuring(case: Case, finding: Finding) -> str:
    """The measurement that would settle one finding; "" where none would."""
    for one, means in _ways(case, finding.influences):
        ends = _common_range(case, one.dimension, [finding], means.standard_uncertainty_mm)
        if ends is not None and _wide_enough(ends):
            return _reading(one.dimension, means, ends, "this")
    return ""


def _replacing(case: Case, finding: Finding, others: Sequence[Finding]) -> str:
    """The size of another ring or gland that would settle a finding and that the others bear."""
    options: list[tuple[bool, float, str, Range]] = []
    for one in finding.influences:
        size = case.sizes[one.dimension]
        ends = settling_range(case, finding, one)
        if ends is None:
            continue
        of_gland = one.dimension not in ("inside_diameter", "cross_section")
        nearest = min(max(size.middle_mm, ends[0]), ends[1])
        if _may_be(case, one.dimension, nearest):
            distance = abs(nearest - size.middle_mm) / size.middle_mm
            options.append((of_gland, distance, one.dimension, ends))
    for _, _, dimension, ends in sorted(options):
        common: Range | None = ends
        for other in others:
            if common is not None and any(one.dimension == dimension for one in other.influences):
                common = _narrowed(case, dimension, [other], common, 0.0)
        if common is None:
            continue
        nearest = min(max(case.sizes[dimension].middle_mm, common[0]), common[1])
        if _may_be(case, dimension, nearest) and (told := in_words(common)):
            return f"It would need a {dimension_words(dimension)} of {told}."
    return ""


def settling_range(case: Case, finding: Finding, one: Influence, u_mm: float = 0.0) -> Range | None:
    """The sizes [mm] of one dimension with which a finding fits, the others at their worst.

    They are true sizes, or readings where ``u_mm`` is the standard uncertainty of the reading.
    """
    size, limits = case.sizes[one.dimension], finding.limits
    if limits is None:
        return None
    slope = one.half_effect / size.half_width_mm(1.0)
    guard = case.rule.guard_factor * math.hypot(
        slope * u_mm,
        *(other.half_effect for other in finding.influences if other.measured and other is not one),
    )
    low, high = -math.inf, math.inf
    for limit, wanted_end, outward in ((limits.low, "low", guard), (limits.high, "high", -guard)):
        if limit is None:
            continue
        end = "middle" if limits.basis == "nominal" else wanted_end
        at = _size_at(case, finding.rule, one.dimension, end, limit + outward, slope)
        if math.isnan(at):
            return None
        if (wanted_end == "low") == (slope > 0):
            low = max(low, at)
        else:
            high = min(high, at)
    return (low, high) if low <= high and high > 0 else None


def _may_be(case: Case, dimension: str, size_mm: float) -> bool:
    """Whether ring and gland could have this size: nobody is sent for a land larger than its bore."""
    if abs(size_mm / case.sizes[dimension].middle_mm - 1.0) > FARTHEST:
        return False
    for model in (case.question.ring, case.question.gland):
        if dimension in model.declared:
            try:
                model.changed(**{dimension: _read(size_mm, _FINER)})
            except (InputError, InputErrors):
                return False
    return True


Again = Callable[[Mapping[str, Dimension], Sequence[str]], list[Finding]]


def settle(case: Case, findings: Sequence[Finding], again: Again) -> str:
    """The measurement that settles every open finding on sizes; "" where there is none open.

    ``again(sizes, rules)`` judges those rules anew with some sizes changed; no range is told that was not
    tried at both ends and in the middle.
    """
    sized = [one for one in findings if one.status is not Status.FITS and one.influences and one.limits]
    if not sized or any(one.status is Status.DOES_NOT_FIT for one in sized):
        return ""
    rules = [one.rule for one in sized]
    for outside in sized:
        if outside.outside_guidance and outside.limits is not None:
            told = f"{outside.quantity} lies outside the guidance of {outside.limits.guidance}"
            action = " ".join(outside.action.splitlines())
            return f"No measurement settles it: {told} at every size that is possible. {action}".strip()
    for one, means in _ways(case, sized[0].influences):
        ends = _common_range(case, one.dimension, sized, means.standard_uncertainty_mm)
        if ends is None or not _wide_enough(ends):
            continue
        low, high = rounded(ends)
        readings = [_read(at, means) for at in (low, (low + high) / 2, high)]
        if all(some.status is Status.FITS for at in readings for some in again({one.dimension: at}, rules)):
            return _reading(one.dimension, means, ends, "it")
    return _together(case, sized, again)


def _together(case: Case, sized: Sequence[Finding], again: Again) -> str:
    """The sizes that settle it together, if each should come out in the middle of what is known of it."""
    rules, effects = [one.rule for one in sized], dict[str, float]()
    for finding in sized:
        for one in finding.influences:
            share = abs(one.half_effect) / (finding.limits.width if finding.limits else 1.0)
            effects[one.dimension] = max(effects.get(one.dimension, 0.0), share)
    by_effect = sorted(effects, key=lambda name: -effects[name])
    for finer in (False, True):
        known: dict[str, Dimension] = {}
        told: list[str] = []
        for dimension in by_effect:
            means = [one for one in _means(case, dimension) if finer or one is not _FINER]
            if not means:
                continue
            known[dimension] = _read(case.sizes[dimension].middle_mm, means[-1])
            told.append(f"the {dimension_words(dimension)} {means[-1].words}")
            if all(one.status is Status.FITS for one in again(known, rules)):
                much = "if each lies in the middle of what is known of it, they settle it"
                return f"No one measurement settles it. Measure {joined(told)}: {much}."
    return (
        "No measurement settles it while the sizes lie in the middle of what is known of them: "
        "another ring or another gland is the surer way."
    )


def _ways(case: Case, listed: Sequence[Influence]) -> list[tuple[Influence, Means]]:
    """Every size with every means that tells more than is known, what is at hand before what is finer."""
    ways = [(one, means) for one in listed for means in _means(case, one.dimension)]
    return sorted(ways, key=lambda way: way[1] is _FINER)


def _means(case: Case, dimension: str) -> list[Means]:
    """What measures a size more closely than it is known, coarsest first."""
    size = case.sizes[dimension]
    known = float(size.standard_uncertainty) if size.measured else math.inf
    found = [
        Means(f"by {one.name}", float(one.standard_uncertainty_mm))
        for one in suited_to(_surface(case, dimension))
    ]
    if not found or found[-1].standard_uncertainty_mm > _FINER.standard_uncertainty_mm:
        found.append(_FINER)
    return [means for means in found if means.standard_uncertainty_mm < 0.999 * known]


def _surface(case: Case, dimension: str) -> str:
    for model in (case.question.ring, case.question.gland):
        if dimension in model.declared:
            return meaning_of(model.declared[dimension]).measured_on
    return "outside"


def _read(size_mm: float, means: Means) -> Dimension:
    size = Decimal(f"{size_mm:.6f}")
    u = Decimal(f"{means.standard_uncertainty_mm:.9f}")
    return Dimension(size, size, size, f"{size} mm", Origin.MEASURED, standard_uncertainty=u)


def _reading(dimension: str, means: Means, ends: Range, what: str) -> str:
    return f"Measure the {dimension_words(dimension)} {means.words}: {in_words(ends)} settles {what}."


def _wide_enough(ends: Range) -> bool:
    """Whether a reading has at least two hundredths of a millimetre to fall into."""
    low, high = rounded(ends)
    return high - low >= 0.019


def _common_range(case: Case, dimension: str, sized: Sequence[Finding], u_mm: float) -> Range | None:
    """The readings of one size, among those that may come, that settle all of some findings."""
    return _narrowed(case, dimension, sized, _known(case, dimension), u_mm)


def _narrowed(case: Case, dimension: str, sized: Sequence[Finding], ends: Range, u_mm: float) -> Range | None:
    low, high = ends
    for finding in sized:
        one = next((one for one in finding.influences if one.dimension == dimension), None)
        own = None if one is None else settling_range(case, finding, one, u_mm)
        if own is None:
            return None
        low, high = max(low, own[0]), min(high, own[1])
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
