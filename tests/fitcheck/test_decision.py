"""Decision rules: proven, refuted, or neither, and what the guard band does."""

from __future__ import annotations

import math
from statistics import NormalDist

import numpy as np
import pytest

from fitcheck.decision import (
    DECISION_RULES,
    beyond,
    conformance_probability,
    decide,
    decision_rule,
    inside,
    margin_of,
    measurement_capability,
)
from fitcheck.numbers import Span
from schema.errors import UnknownName
from schema.finding import Limits, Status

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def band(low: float | None, high: float | None, **more: object) -> Limits:
    return Limits(low, high, "mm", "worst_case", "own", "none", "published_once", **more)  # type: ignore[arg-type]


def status(span: Span, limits: Limits, *, u: float = 0.0, rule: str = "iso14253-1-u2") -> Status:
    return decide(span, standard_uncertainty=u, limits=limits, rule=DECISION_RULES[rule]).status


@pytest.mark.parametrize("rule", DECISION_RULES)
@pytest.mark.parametrize(
    ("span", "expected"),
    [
        pytest.param(Span(2, 3, 4), FITS, id="within"),
        pytest.param(Span(1, 3, 5), FITS, id="on both limits, inclusive"),
        pytest.param(Span(0.9, 3, 4), NOT, id="partly below"),
        pytest.param(Span(2, 3, 5.1), NOT, id="partly above"),
        pytest.param(Span(0, 3, 9), NOT, id="on both sides"),
        pytest.param(Span(5.1, 6, 7), OUT, id="wholly above"),
        pytest.param(Span(-1, 0, 0.9), OUT, id="wholly below"),
        pytest.param(Span(5, 6, 7), NOT, id="touches the upper limit"),
        pytest.param(Span(math.nan, math.nan, math.nan), NOT, id="nothing known"),
    ],
)
def test_without_measurement_all_rules_agree(rule: str, span: Span, expected: Status) -> None:
    """A drawn interval is proven inside, refuted wholly outside, and else neither, by any decision rule."""
    assert status(span, band(1, 5), rule=rule) is expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (0.79, OUT),
        (0.81, NOT),
        (1.19, NOT),
        (1.21, FITS),
        (4.79, FITS),
        (4.81, NOT),
        (5.19, NOT),
        (5.21, OUT),
    ],
)
def test_the_uncertainty_counts_against_who_must_prove(value: float, expected: Status) -> None:
    """With U = 0.2 a limit of 1 is proven from 1.2 on and refuted below 0.8 (ISO 14253-1:1998 and 2013)."""
    assert status(Span.point(value), band(1, 5), u=0.1) is expected


@pytest.mark.parametrize(
    ("rule", "expected"), [("iso14253-1-u2", NOT), ("iso14253-1-95", FITS), ("simple-acceptance", FITS)]
)
def test_one_reading_is_decided_differently(rule: str, expected: Status) -> None:
    """1.8 u inside its limit a reading is proven at 95 % but not over the whole of 2u."""
    assert status(Span.point(4.82), band(None, 5), u=0.1, rule=rule) is expected


def test_simple_acceptance_has_no_middle_for_a_reading() -> None:
    """As read, a value is on one side or the other."""
    assert status(Span.point(5.0001), band(None, 5), u=0.1, rule="simple-acceptance") is OUT


@pytest.mark.parametrize(("value", "expected"), [(5.5, NOT), (6.1, OUT), (0.5, NOT), (-0.1, OUT)])
def test_between_limit_and_refusal_nothing_is_settled(value: float, expected: Status) -> None:
    """Where sources disagree, a value beyond the stricter and within the looser limit is not proven."""
    assert status(Span.point(value), band(1, 5, refuse_low=0, refuse_high=6)) is expected


def test_nominal_limits_are_held_against_the_middle() -> None:
    """A limit meant for nominal sizes is not broken by the tolerance about them."""
    nominal = Limits(1, 5, "%", "nominal", "own", "none", "published_once")
    assert status(Span(0, 3, 6), nominal) is FITS
    assert status(Span(0, 5.5, 11), nominal) is NOT
    assert status(Span(5.1, 5.5, 6), nominal) is OUT


def test_rounding_of_sums_does_not_break_a_limit() -> None:
    """0.1 + 0.2 is above 0.3 in floats, and on the limit on a drawing."""
    assert status(Span.point(0.1 + 0.2), band(None, 0.3)) is FITS


def test_a_limit_is_not_widened_beyond_rounding() -> None:
    """A hundred-millionth beyond its limit is beyond it."""
    assert status(Span.point(0.3 + 1e-8), band(None, 0.3)) is OUT


def test_the_guard_band_widens_what_is_shown() -> None:
    """The interval shown is the worst case and 2u on each side."""
    found = decide(
        Span(2, 3, 4), standard_uncertainty=0.1, limits=band(1, 5), rule=DECISION_RULES["iso14253-1-u2"]
    )
    assert (found.low, found.high) == (pytest.approx(1.8), pytest.approx(4.2))
    assert found.margin == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("low", "high"),
    [
        pytest.param(1.0, 5.0, id="both"),
        pytest.param(None, 5.0, id="upper"),
        pytest.param(1.0, None, id="lower"),
    ],
)
@pytest.mark.parametrize("value", [0.7, 1.0, 3.0, 4.9, 5.3])
def test_the_probability_is_that_of_the_standard_library(
    low: float | None, high: float | None, value: float
) -> None:
    """The conformance probability follows from an independent normal distribution."""
    normal = NormalDist(value, 0.2)
    expected = (1.0 if high is None else normal.cdf(high)) - (0.0 if low is None else normal.cdf(low))
    found = conformance_probability(value=value, standard_uncertainty=0.2, low=low, high=high)
    assert found == pytest.approx(expected, abs=1e-14)


@pytest.mark.parametrize(("value", "expected"), [(0.9, 0.0), (1.0, 1.0), (5.0, 1.0), (5.1, 0.0)])
def test_without_uncertainty_the_probability_is_none_or_one(value: float, expected: float) -> None:
    """A size known exactly keeps its limits, inclusive, or does not."""
    assert conformance_probability(value=value, standard_uncertainty=0.0, low=1, high=5) == expected


def test_drawn_interval_and_measured_value_are_held_against_the_nearer_end() -> None:
    """With a drawn interval each limit is held against the end that is nearer to it."""
    found = decide(
        Span(2, 3, 4), standard_uncertainty=0.5, limits=band(1, 5), rule=DECISION_RULES["iso14253-1-95"]
    )
    normal = NormalDist()
    assert found.probability == pytest.approx(normal.cdf((5 - 4) / 0.5) - normal.cdf((1 - 2) / 0.5))


def test_the_capability_of_a_measurement() -> None:
    """18 um of tolerance by a calliper of u = 0.0115 mm is 0.39; without uncertainty it is infinite."""
    found = measurement_capability(low=11.966, high=11.984, standard_uncertainty=0.0115)
    assert found == pytest.approx(0.39, abs=0.005)
    assert measurement_capability(low=0, high=1, standard_uncertainty=0.0) == math.inf


@pytest.mark.parametrize(
    ("limits", "low", "high", "margin"),
    [
        pytest.param(band(1, 5), 2, 3, 0.25, id="nearer to the lower"),
        pytest.param(band(1, 5), 3, 4.8, 0.05, id="nearer to the upper"),
        pytest.param(band(1, 5), 0, 3, -0.25, id="below"),
        pytest.param(band(None, 5, scale=10.0), 0, 3, 0.2, id="upper only, by its scale"),
        pytest.param(band(1, None, scale=10.0), 3, 9, 0.2, id="lower only, by its scale"),
        pytest.param(band(None, None), 3, 9, math.inf, id="none"),
    ],
)
def test_a_margin_counts_in_widths_of_the_limits(
    limits: Limits, low: float, high: float, margin: float
) -> None:
    """The margin is the distance to the nearest limit over their width, negative beyond."""
    assert margin_of(low, high, limits) == pytest.approx(margin)


def test_inside_and_beyond_judge_arrays_one_by_one() -> None:
    """A column of pairs is judged as each pair, nan neither inside nor beyond."""
    low = np.array([2.0, 0.0, 6.0, np.nan])
    high = np.array([3.0, 3.0, 7.0, np.nan])
    margin = margin_of(low, high, band(1, 5))
    assert inside(margin, band(1, 5)).tolist() == [True, False, False, False]
    assert beyond(low, high, margin, band(1, 5)).tolist() == [False, False, True, False]


def test_an_unknown_decision_rule_is_refused_with_near_ones() -> None:
    """A decision rule that does not exist is refused with those that do."""
    with pytest.raises(UnknownName, match=r"there is no such rule.*Near: iso14253-1-u2"):
        decision_rule("iso14253-1-u3")


@pytest.mark.parametrize("rule", DECISION_RULES.values(), ids=DECISION_RULES)
def test_a_decision_rule_says_where_it_comes_from(rule) -> None:  # type: ignore[no-untyped-def]
    """Each decision rule has its words and its source."""
    assert rule.words
    assert rule.source
    assert rule.guard_factor >= 0
