"""Named decision rules: when does a measured value prove that a limit is kept?

ISO 14253-1 (editions 1998 and 2013, by secondary sources) counts the expanded uncertainty U = 2 u
against whoever must prove; its 2017 edition takes a conformance probability of 95 % as default;
simple acceptance (ILAC-G8:09/2019, w = 0) takes the value as read. The same reading can pass one and
not the other, so the rule's name is kept with every verdict.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.numbers import Real, Span, Truth, normal_share_below, smaller
from schema.finding import Limits, Status
from schema.nearest import not_among

# Sums of decimals carry errors of this relative size; a value on its limit is inside (limits are inclusive).
_ROUNDING = 1e-9

# Evidence that may be shown but never proves a fit.
WEAK_GRADES = ("from_memory", "disputed")


class DecisionRule(NamedTuple):
    """A decision rule. ``guard_factor`` times u widens the interval that must lie inside the limits."""

    name: str
    guard_factor: float
    probability: float | None
    words: str
    source: str


DECISION_RULES: dict[str, DecisionRule] = {
    rule.name: rule
    for rule in (
        DecisionRule(
            "iso14253-1-u2",
            2.0,
            None,
            "proven only if it holds over the whole of U = 2u",
            "ISO 14253-1:1998 and 2013, by secondary sources",
        ),
        DecisionRule(
            "iso14253-1-95",
            1.645,
            0.95,
            "proven at a conformance probability of 95 %",
            "ISO 14253-1:2017, by secondary sources; JCGM 106:2012",
        ),
        DecisionRule(
            "simple-acceptance",
            0.0,
            None,
            "taken as read, the uncertainty is not counted (risk up to 50 % at the limit)",
            "ILAC-G8:09/2019, simple acceptance",
        ),
    )
}


def decision_rule(name: str) -> DecisionRule:
    """Find a decision rule by name; raises UnknownName."""
    found = DECISION_RULES.get(name)
    if found is None:
        raise not_among(
            DECISION_RULES,
            field="choices.decision_rule",
            given=name,
            problem="there is no such rule",
        )
    return found


def conformance_probability(
    *, value: float, standard_uncertainty: float, low: float | None, high: float | None
) -> float:
    """Probability that the true value lies within the limits, for a normal distribution about the reading.

    Equation   p = Phi((TU - y) / u) - Phi((TL - y) / u); a missing limit drops its term
    Symbols    p   returned              [1]
               y   value
               u   standard_uncertainty  same unit; 0 gives 0 or 1
               TL, TU  low, high         same unit
    Source     JCGM 106:2012, clause 7. Inputs of the example from memory, recomputed: Zener diode, upper
               limit -5.40 V, y = -5.47 V, u = 0.05 V, printed 0.92

    >>> conformance_probability(value=-5.47, standard_uncertainty=0.05, low=None, high=-5.40)
    0.919
    >>> conformance_probability(value=13.6, standard_uncertainty=1.8, low=12.5, high=16.3)
    0.663
    """
    return _probability((value, value), (standard_uncertainty, standard_uncertainty), low, high)


def _probability(
    ends: tuple[float, float], u: tuple[float, float], low: float | None, high: float | None
) -> float:
    """As above for an interval of drawn sizes: each limit is held against the end nearer to it."""
    return max(0.0, _share_below(high, ends[1], u[1]) - _share_under(low, ends[0], u[0]))


def _share_below(limit: float | None, value: float, u: float) -> float:
    """Probability that a value with its uncertainty keeps an upper limit, inclusive."""
    if limit is None:
        return 1.0
    if u > 0:
        return normal_share_below((limit - value) / u)
    return 1.0 if value <= limit + _slack(limit) else 0.0


def _share_under(limit: float | None, value: float, u: float) -> float:
    """Probability that a value with its uncertainty falls short of a lower limit."""
    if limit is None:
        return 0.0
    if u > 0:
        return normal_share_below((limit - value) / u)
    return 0.0 if value >= limit - _slack(limit) else 1.0


def measurement_capability(*, low: float, high: float, standard_uncertainty: float) -> float:
    """Width of the limits over twice the expanded uncertainty, C_m = T / (4 u).

    Source     JCGM 106:2012; below 1 there is no reading that U = 2u would prove on both sides

    >>> measurement_capability(low=11.966, high=11.984, standard_uncertainty=0.0115)
    0.391
    """
    return (high - low) / (4.0 * standard_uncertainty) if standard_uncertainty > 0 else math.inf


class Decision(NamedTuple):
    """The outcome of a decision rule for one quantity."""

    status: Status
    low: float
    high: float
    margin: float
    probability: float
    capability: float

    def too_coarse(self, rule: DecisionRule) -> bool:
        """Whether no reading, not even one in the middle of the limits, could prove them kept."""
        if rule.probability is not None:
            return 1.0 - 2.0 * normal_share_below(-2.0 * self.capability) < rule.probability
        return self.capability < rule.guard_factor / 2.0


def decide(
    span: Span,
    *,
    standard_uncertainty: float,
    limits: Limits,
    rule: DecisionRule,
    at_ends: tuple[float, float] | None = None,
) -> Decision:
    """Judge one quantity: proven inside, refuted outside, or neither.

    ``span`` is the worst case over drawn sizes with measured ones as read; the decision rule widens it
    by its guard band. ``at_ends`` are the standard uncertainties at its two ends, where they differ from
    that in its middle. What is judged by ``nominal`` limits is judged in the middle of the span, and
    refuted only where all of it is.
    """
    nominal = limits.basis == "nominal"
    u_low, u_high = (standard_uncertainty, standard_uncertainty) if at_ends is None else at_ends
    low, high = span.low, span.high
    if rule.guard_factor:  # what is not counted does no harm either, were it beyond a rule's range
        low, high = span.low - rule.guard_factor * u_low, span.high + rule.guard_factor * u_high
    if nominal:
        guard = rule.guard_factor * standard_uncertainty
        margin = float(margin_of(span.middle - guard, span.middle + guard, limits))
        u = (standard_uncertainty, standard_uncertainty)
        probability = _probability((span.middle, span.middle), u, limits.low, limits.high)
    else:
        margin = float(margin_of(low, high, limits))
        probability = _probability((span.low, span.high), (u_low, u_high), limits.low, limits.high)
    capability = math.inf
    if limits.low is not None and limits.high is not None:
        capability = measurement_capability(
            low=limits.low, high=limits.high, standard_uncertainty=standard_uncertainty
        )
    status = Status.NOT_PROVEN
    if math.isnan(margin):
        status = Status.NOT_PROVEN
    elif rule.probability is not None:
        refused = _refusal_probability((span.low, span.high), (u_low, u_high), limits)
        if probability >= rule.probability:
            status = Status.FITS
        elif refused >= rule.probability:
            status = Status.DOES_NOT_FIT
    elif bool(inside(margin, limits)):
        status = Status.FITS
    elif bool(beyond(low, high, margin, limits)):
        status = Status.DOES_NOT_FIT
    if status is Status.FITS and nominal and not bool(unrefused(low, high, limits)):
        status = Status.NOT_PROVEN
    return Decision(status, low, high, margin, probability, capability)


def margin_of(low: Real, high: Real, limits: Limits) -> Real:
    """Signed distance of an interval to its nearest limit, over the width of the limits; works on arrays."""
    per_width = 1.0 / limits.width
    if limits.low is None or limits.high is None:
        distance = math.inf if limits.high is None else limits.high - high
        return (distance if limits.low is None else low - limits.low) * per_width
    return smaller(low - limits.low, limits.high - high) * per_width


def inside(margin: Real, limits: Limits) -> Truth:
    """Whether the limits are kept, inclusive, by the margin; false for nan; works on arrays."""
    ends = [abs(limit) for limit in (limits.low, limits.high) if limit is not None]
    return margin >= -_ROUNDING * max(1.0, *ends) / limits.width if ends else margin == margin


def beyond(low: Real, high: Real, margin: Real, limits: Limits) -> Truth:
    """Whether an interval lies wholly beyond a limit of refusal; false where its margin is nan.

    A row without limits of its own for refusal refuses at its limits.
    """
    refuse_low = limits.low if limits.refuse_low is None else limits.refuse_low
    refuse_high = limits.high if limits.refuse_high is None else limits.refuse_high
    refused: Truth = False
    if refuse_low is not None:
        refused = high < refuse_low - _slack(refuse_low)
    if refuse_high is not None:
        refused = refused | (low > refuse_high + _slack(refuse_high))
    return refused & (margin == margin)


def unrefused(low: Real, high: Real, limits: Limits) -> Truth:
    """Whether the worst case of what is judged at its middle stays within limits of refusal, if given."""
    kept: Truth = low <= high
    if limits.refuse_low is not None:
        kept = kept & (low >= limits.refuse_low - _slack(limits.refuse_low))
    if limits.refuse_high is not None:
        kept = kept & (high <= limits.refuse_high + _slack(limits.refuse_high))
    return kept


def _refusal_probability(ends: tuple[float, float], u: tuple[float, float], limits: Limits) -> float:
    """Probability that even the best of the drawn sizes lies beyond a limit of refusal."""
    refuse_low = limits.low if limits.refuse_low is None else limits.refuse_low
    refuse_high = limits.high if limits.refuse_high is None else limits.refuse_high
    under = _share_under(refuse_low, ends[1], u[1])
    return max(under, 1.0 - _share_below(refuse_high, ends[0], u[0]))


def _slack(limit: float) -> float:
    return _ROUNDING * max(1.0, abs(limit))
