"""What would settle a finding: which size to measure, with what, and what it would have to read.

A range is of readings with the uncertainty of the means that is named; the other sizes stay at their worst.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from fitcheck.decision import WEAK_GRADES
from fitcheck.numbers import Span
from fitcheck.setting import Known, Setting
from fitcheck.words import dimension_words, joined, with_article
from schema.dimension import Dimension, Origin
from schema.finding import Finding, Influence, Status
from schema.instruments import suited_to

_STEPS = 12
NOTHING_SETTLES = (
    "No measurement settles all of it while the sizes lie in the middle of what is known of them: "
    "another part or another place is the surer way."
)
FARTHEST = 0.5  # a size that is half as large again or half as small is another part; own judgement
Range = tuple[float, float]


class Means(NamedTuple):
    """A way to measure a size: in words, its standard uncertainty [mm], and whether it is usually at hand."""

    words: str
    standard_uncertainty_mm: float
    at_hand: bool = True


# What a careful method reaches that is not in the list of instruments; rubber gives way to what touches it.
_FINER = Means("to ±U0.01 mm", 0.005, at_hand=False)
_OPTICAL = Means("optically to ±U0.01 mm", 0.005, at_hand=False)
_EXACT = Means("", 0.0)  # of another part, whose size is told as it has to be


class Way(NamedTuple):
    """A size, what to measure it with, and the readings that settle something."""

    dimension: str
    means: Means
    ends: Range

    def __str__(self) -> str:
        return f"the {dimension_words(self.dimension)} {self.means.words}: {in_words(self.ends)}"


Again = Callable[[Mapping[str, Known]], dict[str, Finding] | None]
"""Judges the question anew with some sizes changed: findings by rule; None where parts cannot have them."""


def advised(
    setting: Setting, finding: Finding, findings: Sequence[Finding], way: Way | None, again: Again
) -> str:
    """What to do about one finding: which one size would settle it, then what else would do.

    A size that may lie in the range is to be measured (``way``); else another ring comes before another
    gland, of a size that every other finding bears too. No size is told that was not tried.
    """
    if not _open(finding):
        return finding.action
    first = f"Measure {way} settles this." if way else _replacing(setting, finding, findings, again)
    return "\n".join(one for one in (first, finding.action) if one)


def _open(finding: Finding) -> bool:
    """Whether another size could change a finding: its limit is known and is not the weak point itself."""
    limits = finding.limits
    return finding.status is not Status.FITS and limits is not None and limits.grade not in WEAK_GRADES


def measurement(setting: Setting, finding: Finding, again: Again) -> Way | None:
    """The measurement that would settle one finding; None where none would."""
    if not _open(finding) or finding.outside_guidance:
        return None
    for one, means in _ways(setting, finding.influences):
        ends = _common_range(setting, one.dimension, [finding], means)
        if ends is None or not _wide_enough(ends):
            continue
        if _tried(again, one.dimension, ends, means, lambda found: found[finding.rule].status is Status.FITS):
            return Way(one.dimension, means, ends)
    return None


def _replacing(setting: Setting, finding: Finding, findings: Sequence[Finding], again: Again) -> str:
    """The size of another ring or gland that would settle a finding and that the others bear."""
    good = {one.rule for one in findings if one.status is Status.FITS} | {finding.rule}
    options: list[tuple[bool, float, str, Range]] = []
    for one in finding.influences:
        ends = settling_range(setting, finding, one)
        if ends is not None:
            ends = _borne(setting, one.dimension, findings, ends, _EXACT)
        if ends is None or not in_words(ends):
            continue
        size = setting.sizes[one.dimension].middle
        distance = abs(min(max(size, ends[0]), ends[1]) / size - 1.0)
        if distance <= FARTHEST:
            of_gland = one.dimension not in setting.of_part
            options.append((of_gland, distance, one.dimension, ends))
    for _, _, dimension, ends in sorted(options):
        if _tried(again, dimension, ends, _EXACT, lambda found: _all_fit(found, good)):
            unit = unit_of(setting.sizes[dimension])
            return f"It would need {with_article(dimension_words(dimension))} of {in_words(ends, unit)}."
    return ""


def _all_fit(found: Mapping[str, Finding], rules: set[str]) -> bool:
    return all(one.status is Status.FITS for rule, one in found.items() if rule in rules)


def _tried(
    again: Again, dimension: str, ends: Range, means: Means, wanted: Callable[[dict[str, Finding]], bool]
) -> bool:
    """Whether both ends of a range, and its middle, do what is wanted of them."""
    low, high = rounded(ends)
    for at in {one for one in (low, (low + high) / 2, high) if math.isfinite(one)}:
        found = again({dimension: _read(at, means)})
        if found is None or not wanted(found):
            return False
    return True


def settling_range(setting: Setting, finding: Finding, one: Influence, means: Means = _EXACT) -> Range | None:
    """The readings [mm] of one dimension with which a finding fits, the others at their worst."""
    size, limits = setting.sizes[one.dimension], finding.limits
    if limits is None:
        return None
    slope = one.half_effect / size.half_width(1.0)
    guard = setting.rule.guard_factor * math.hypot(
        slope * means.standard_uncertainty_mm,
        *(other.half_effect for other in finding.influences if other.measured and other is not one),
    )
    low, high = -math.inf, math.inf
    for limit, wanted_end, outward in ((limits.low, "low", guard), (limits.high, "high", -guard)):
        if limit is None:
            continue
        end = "middle" if limits.basis == "nominal" else wanted_end
        at = _size_at(setting, finding.rule, one.dimension, end, limit + outward, slope)
        if math.isnan(at):
            return None
        if (wanted_end == "low") == (slope > 0):
            low = max(low, at)
        else:
            high = min(high, at)
    return (low, high) if low <= high and high > 0 else None


def settle(setting: Setting, findings: Sequence[Finding], ways: Mapping[str, Way], again: Again) -> str:
    """The measurement that settles every open finding on sizes; "" where there is none open.

    ``ways`` has the measurement that would settle each finding by itself, by rule, as far as there is one.
    """
    sized = [one for one in findings if one.status is not Status.FITS and one.influences and one.limits]
    if not sized or any(one.status is Status.DOES_NOT_FIT for one in sized):
        return ""
    for outside in sized:
        if outside.outside_guidance and outside.limits is not None:
            told = f"{outside.quantity} lies outside the guidance of {outside.limits.guidance}"
            action = " ".join(outside.action.splitlines())
            return f"No measurement settles it: {told} at every size that is possible. {action}".strip()
    good = {one.rule for one in findings if one.status is Status.FITS} | {one.rule for one in sized}
    for one, means in _ways(setting, sized[0].influences):
        ends = _common_range(setting, one.dimension, sized, means)
        if ends is not None:
            ends = _borne(setting, one.dimension, findings, ends, means)
        if ends is None or not _wide_enough(ends):
            continue
        if _tried(again, one.dimension, ends, means, lambda found: _all_fit(found, good)):
            return f"Measure {Way(one.dimension, means, ends)} settles it."
    each = (ways[one.rule] for one in sized if one.rule in ways)
    middles = {way.dimension: (way.means, sum(rounded(way.ends)) / 2) for way in each}
    if _fit(again(_as_read(middles)), good):
        return _together_in_words(middles)
    return _in_the_middle(setting, sized, lambda readings: _fit(again(_as_read(readings)), good))


Readings = dict[str, tuple[Means, float]]  # by dimension: what it is measured with, and what is read [mm]


def _as_read(readings: Readings) -> dict[str, Dimension]:
    return {name: _read(at, means) for name, (means, at) in readings.items()}


def _together_in_words(readings: Readings) -> str:
    asked = joined([f"the {dimension_words(name)} {means.words}" for name, (means, _) in readings.items()])
    read = joined([f"{at:.3f} mm" for _, at in readings.values()])
    if len(readings) == 1:
        return f"Measure {asked}: {read} settles it, and readings near it may."
    return f"No one measurement settles it. Measure {asked}: {read} together settle it, and others may."


def _fit(found: Mapping[str, Finding] | None, rules: set[str]) -> bool:
    return found is not None and _all_fit(found, rules)


def _in_the_middle(setting: Setting, sized: Sequence[Finding], settled: Callable[[Readings], bool]) -> str:
    """The sizes that settle it together, if each should come out in the middle of what is known of it."""
    effects = dict[str, float]()
    for finding in sized:
        for one in finding.influences:
            share = abs(one.half_effect) / (finding.limits.width if finding.limits else 1.0)
            effects[one.dimension] = max(effects.get(one.dimension, 0.0), share)
    by_effect = sorted(effects, key=lambda name: -effects[name])
    for finer in (False, True):
        reached = [
            (name, [one for one in _means(setting, name) if finer or one.at_hand]) for name in by_effect
        ]
        readings = [
            (name, (means[-1], round(setting.sizes[name].middle, 3))) for name, means in reached if means
        ]
        fewest = _fewest(readings, settled)
        if fewest:
            return _together_in_words(fewest)
    return NOTHING_SETTLES


def _fewest(
    readings: Sequence[tuple[str, tuple[Means, float]]], settled: Callable[[Readings], bool]
) -> Readings:
    """The first few readings that settle it together; {} where not even all of them do.

    Each reading more makes it no less settled, so their number is found by halving.
    """
    if not readings or not settled(dict(readings)):
        return {}
    too_few, enough = 0, len(readings)
    while enough - too_few > 1:
        half = (too_few + enough) // 2
        if settled(dict(readings[:half])):
            enough = half
        else:
            too_few = half
    return dict(readings[:enough])


def _ways(setting: Setting, listed: Sequence[Influence]) -> list[tuple[Influence, Means]]:
    """Every size with every means that tells more than is known, what is at hand before what is finer."""
    ways = [(one, means) for one in listed for means in _means(setting, one.dimension)]
    return sorted(ways, key=lambda way: not way[1].at_hand)


def _means(setting: Setting, dimension: str) -> list[Means]:
    """What measures a size more closely than it is known, coarsest first."""
    size = setting.sizes[dimension]
    known = float(size.standard_uncertainty) if size.measured else math.inf
    surface = setting.surfaces.get(dimension, "")
    if not surface:
        return []
    found = [Means(f"by {one.name}", float(one.standard_uncertainty_mm)) for one in suited_to(surface)]
    if not found or found[-1].standard_uncertainty_mm > _FINER.standard_uncertainty_mm:
        found.append(_OPTICAL if surface == "rubber" else _FINER)
    return [means for means in found if means.standard_uncertainty_mm < 0.999 * known]


def _read(size_mm: float, means: Means) -> Dimension:
    size = Decimal(f"{size_mm:.6f}")
    u = Decimal(f"{means.standard_uncertainty_mm:.9f}")
    return Dimension(size, size, size, f"{size} mm", Origin.MEASURED, standard_uncertainty=u)


def _wide_enough(ends: Range) -> bool:
    """Whether a reading has at least two hundredths of a millimetre to fall into."""
    low, high = rounded(ends)
    return high - low >= 0.019


def _common_range(setting: Setting, dimension: str, sized: Sequence[Finding], means: Means) -> Range | None:
    """The readings of one size, among those that may come, that settle all of some findings."""
    return _narrowed(setting, dimension, sized, _known(setting, dimension), means)


def _narrowed(
    setting: Setting, dimension: str, sized: Sequence[Finding], ends: Range, means: Means
) -> Range | None:
    low, high = ends
    for finding in sized:
        one = next((one for one in finding.influences if one.dimension == dimension), None)
        own = None if one is None else settling_range(setting, finding, one, means)
        if own is None:
            return None
        low, high = max(low, own[0]), min(high, own[1])
    return (low, high) if low <= high else None


def _borne(
    setting: Setting, dimension: str, findings: Sequence[Finding], ends: Range, means: Means
) -> Range | None:
    """A range cut down to what every finding bears; one that this size alone cannot settle is left out."""
    for finding in findings:
        if not any(one.dimension == dimension for one in finding.influences):
            continue
        narrowed = _narrowed(setting, dimension, [finding], ends, means)
        alone = narrowed or _narrowed(setting, dimension, [finding], (-math.inf, math.inf), means)
        if narrowed is None and (alone is not None or finding.status is Status.FITS):
            return None
        ends = narrowed or ends
    return ends


def _known(setting: Setting, dimension: str) -> Range:
    """Where a size may lie by what is known of it [mm]: its limits, or its reading and three u."""
    size = setting.sizes[dimension]
    reach = size.half_width(max(setting.rule.guard_factor, 3.0))
    return size.middle - reach, size.middle + reach


def _size_at(setting: Setting, name: str, dimension: str, end: str, target: float, slope: float) -> float:
    """The exact size [mm] at which one end of a quantity meets its target; nan where it never does."""

    def at(size_mm: float) -> float:
        found = setting.ask({**setting.spans(), dimension: Span.point(size_mm)})
        return float(getattr(found[name], end)) - target

    first = setting.sizes[dimension].middle
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
    low, high = ends
    return (
        math.ceil(low * 100 - 1e-6) / 100 if math.isfinite(low) else low,
        math.floor(high * 100 + 1e-6) / 100 if math.isfinite(high) else high,
    )


def unit_of(size: Known) -> str:
    """The unit that a size is stored in."""
    return "mm" if isinstance(size, Dimension) else size.unit


def in_words(ends: Range, unit: str = "mm") -> str:
    """A range in words; "" where it holds no hundredth of its unit."""
    if math.isinf(ends[0]):
        return f"{rounded(ends)[1]:.2f} {unit} or less"
    if math.isinf(ends[1]):
        return f"{rounded(ends)[0]:.2f} {unit} or more"
    low, high = rounded(ends)
    if low > high:
        return ""
    return f"{low:.2f} to {high:.2f} {unit}" if low < high else f"{low:.2f} {unit}"
