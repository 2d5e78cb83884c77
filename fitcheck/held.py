"""One quantity against its limits: the finding, with its numbers, what moves it, and its words."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.decision import WEAK_GRADES, Decision, decide
from fitcheck.influence import Influences, end_uncertainties, influences, shares
from fitcheck.numbers import Span
from fitcheck.setting import Setting
from fitcheck.single import decided
from fitcheck.words import Words
from schema.finding import Finding, Limits, Status


class Moves(NamedTuple):
    """What moves a quantity: the effect of each size, and u at its smallest and at its largest."""

    by: Influences
    at_ends: tuple[float, float]

    @property
    def u(self) -> float:
        """Standard uncertainty that what was measured gives the quantity in its middle."""
        return math.sqrt(math.fsum(one.half_effect**2 for one in self.by.values() if one.measured))

    @property
    def largest_u(self) -> float:
        """The largest of the three; a size may count at an end and not in the middle."""
        return max(self.u, *self.at_ends)


NOTHING_MOVES = Moves({}, (0.0, 0.0))


def moves_of(setting: Setting, found: dict[str, Span], *, statistics: bool = True) -> dict[str, Moves]:
    """What moves every quantity of a setting; ``found`` are the quantities over its spans.

    Without ``statistics`` the effects of drawn sizes are left out: the decision is the same, and a
    measurement that is only tried needs no more.
    """
    effects = influences(setting.sizes, setting.ask, of_drawn=statistics)
    factor = max(setting.rule.guard_factor, 1.0)
    at_ends = end_uncertainties(setting.sizes, setting.spans(), setting.ask, found, factor)
    return {name: Moves(effects.get(name, {}), at_ends.get(name, (0.0, 0.0))) for name in found}


def held(setting: Setting, name: str, words: Words, span: Span, moves: Moves, limits: Limits) -> Finding:
    """The finding for one quantity against its limits: worst case, statistics, decision, words."""
    decision = decide(
        span, standard_uncertainty=moves.u, limits=limits, rule=setting.rule, at_ends=moves.at_ends
    )
    status, reason = _status(setting, decision, span, limits, moves.u)
    low_side = nearer_low(decision, span, limits)
    # What was measured counts by its guard band, as the decision counts it.
    weight = max(setting.rule.guard_factor, 1.0)
    listed = tuple(
        sorted(moves.by.values(), key=lambda one: -abs(one.half_effect) * (weight if one.measured else 1.0))
    )
    statistics = shares(span, moves.by, limits)
    return decided(name, words.quantity, span, limits, decision, moves.largest_u, status, reason)._replace(
        statistical_low=statistics.low,
        statistical_high=statistics.high,
        share_outside=statistics.outside,
        meaning=words.meaning(status, low_side),
        action="" if status is Status.FITS else words.action(low_side),
        influences=listed,
        inputs={one.dimension: setting.sizes[one.dimension].text for one in listed},
    )


def _status(setting: Setting, decision: Decision, span: Span, limits: Limits, u: float) -> tuple[Status, str]:
    """The status of a decision, and why it is not proven where the numbers do not tell."""
    if any(map(math.isnan, (*span, decision.low, decision.high))):
        return Status.NOT_PROVEN, "beyond the range its rule is valid for"
    if decision.status is Status.FITS and limits.grade in WEAK_GRADES:
        return Status.NOT_PROVEN, f"its limit is {limits.grade.replace('_', ' ')}"
    if decision.status is Status.NOT_PROVEN and u > 0 and decision.too_coarse(setting.rule):
        tools = sorted({size.instrument for size in setting.sizes.values() if size.instrument})
        named = f" ({', '.join(tools).replace('_', ' ')})" if tools else ""
        return decision.status, f"the instrument{named} is too coarse here: no reading could prove it"
    return decision.status, ""


def nearer_low(found: Decision | Finding, span: Span, limits: Limits) -> bool:
    """Whether it is the lower limit that the quantity comes nearer to or breaks."""
    if limits.low is None or limits.high is None:
        return limits.high is None
    low, high = found.low, found.high
    if limits.basis == "nominal" or low is None or high is None:
        low = high = float(span.middle)
    return (low - limits.low) < (limits.high - high)
