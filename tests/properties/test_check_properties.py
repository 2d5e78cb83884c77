"""Laws of a check, tried on generated rings, glands and services."""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import ROUND_UP, Decimal
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitcheck.check import check
from fitcheck.decision import DECISION_RULES
from fitcheck.numbers import Span
from fitcheck.rings.conditions import Conditions
from fitcheck.rings.glands import quantities
from schema.finding import WORST_FIRST, Status, Verdict
from schema.question import question_from
from schema.reference import published_reference

REFERENCE = published_reference()
MOST = settings(max_examples=120, deadline=None)
FEW = settings(max_examples=50, deadline=None)


def answer(given_: Mapping[str, Any]) -> Verdict:
    return check(question_from(given_), REFERENCE)


# -- generated sizes -------------------------------------------------------------------------------


def around(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda value: round(value, 3))


TOLERANCE = st.floats(0.002, 0.15).map(lambda value: round(value, 3))
ROUND = {"inside_diameter": 0.3, "cross_section": 0.09}


@st.composite
def gland_sizes(draw: st.DrawFn) -> tuple[str, dict[str, tuple[float, float]]]:
    """A gland about a ring that nearly fits: {size: (nominal, half a tolerance)} in mm."""
    kind = draw(st.sampled_from(["piston", "rod", "face"]))
    section = draw(around(1.5, 7.0))
    inside = draw(around(8.0, 120.0))
    depth = section * draw(st.floats(0.65, 0.98))
    gap = draw(st.floats(0.03, 0.2))
    sizes: dict[str, tuple[float, float]] = {
        "inside_diameter": (inside, ROUND["inside_diameter"]),
        "cross_section": (section, ROUND["cross_section"]),
        "groove_width": (section * draw(st.floats(1.15, 1.6)), draw(TOLERANCE)),
    }
    if kind == "piston":
        groove = inside * draw(st.floats(0.99, 1.06))
        bore = groove + 2 * depth
        sizes |= {"bore_diameter": bore, "groove_diameter": groove, "land_diameter": bore - gap}
    elif kind == "rod":
        groove = (inside + 2 * section) * draw(st.floats(0.96, 1.01))
        shaft = groove - 2 * depth
        sizes |= {"groove_diameter": groove, "shaft_diameter": shaft, "throat_diameter": shaft + gap}
    else:
        outer = (inside + 2 * section) * draw(st.floats(0.97, 1.01))
        sizes |= {"groove_depth": depth, "groove_outer_diameter": outer}
    worked = {
        name: value if isinstance(value, tuple) else (round(value, 3), min(draw(TOLERANCE), gap / 5))
        for name, value in sizes.items()
    }
    return kind, {name: (round(size, 3), round(half, 4)) for name, (size, half) in worked.items()}


def _written(size: float, half: float, unit: str) -> str:
    """A size to a tenth of a thousandth of an inch, in inches or as exactly the same in mm; or as it is."""
    if unit == "mm":
        return f"{size} ±{half} mm"
    inch, tolerance = (
        (Decimal(str(value)) / Decimal("25.4")).quantize(Decimal("0.0001"), ROUND_UP)
        for value in (size, half)
    )
    if unit == "in":
        return f"{inch} ±{tolerance} in"
    return f"{inch * Decimal('25.4')} ±{tolerance * Decimal('25.4')} mm"


def written(kind: str, sizes: Mapping[str, tuple[float, float]], unit: str = "mm") -> dict[str, Any]:
    """A question with these sizes, each written as a nominal and ± in a unit."""
    texts = {name: _written(size, half, unit) for name, (size, half) in sizes.items()}
    ring = {name: texts.pop(name) for name in ("inside_diameter", "cross_section")}
    return {
        "part": {**ring, "material": "NBR", "hardness_shore_a": "70"},
        "place": {"kind": f"{kind}_gland", **texts},
        "service": {
            "motion": "static" if kind == "face" else "reciprocating",
            "medium": "liquid",
            "pressure": "2 MPa",
            "pressure_from": "inside" if kind == "face" else "one_side",
            "temperature": "-10..60 degC",
            "fluid": "mineral_oil",
            "swell_high_percent": "5",
        },
    }


def conditions(kind: str, **more: Any) -> Conditions:
    return Conditions(
        gland=kind,
        rubber_expansion_per_k=1.6e-4,
        metal_expansion_per_k=2.31e-5,
        cold_rise_k=-30.0,
        hot_rise_k=40.0,
        swell_low_percent=-2.0,
        swell_high_percent=5.0,
        **more,
    )


def spans_of(sizes: Mapping[str, tuple[float, float]]) -> dict[str, Span]:
    return {name: Span(size - half, size, size + half) for name, (size, half) in sizes.items()}


# -- laws of the quantities ------------------------------------------------------------------------


@pytest.mark.parametrize("thinning", ["empirical", "joined", "constant-volume", "none"])
@FEW
@given(gland=gland_sizes(), seed=st.integers(0, 2**32 - 1))
def test_the_worst_case_bounds_every_assembly(thinning: str, gland: tuple[str, Any], seed: int) -> None:
    """No assembly of sizes within their limits lies outside the worst case of any quantity."""
    kind, sizes = gland
    at = conditions(kind, thinning=thinning)
    worst = quantities(spans_of(sizes), at)
    rng = np.random.default_rng(seed)
    drawn = {
        name: Span.point(rng.uniform(size - half, size + half, 400)) for name, (size, half) in sizes.items()
    }
    corners = {
        name: Span.point(rng.choice([size - half, size + half], 400)) for name, (size, half) in sizes.items()
    }
    for samples in (drawn, corners):
        for name, span in quantities(samples, at).items():
            values = np.asarray(span.middle)
            slack = 1e-9 * max(1.0, abs(worst[name].low), abs(worst[name].high))
            assert np.all((values >= worst[name].low - slack) | np.isnan(worst[name].low)), name
            assert np.all((values <= worst[name].high + slack) | np.isnan(worst[name].high)), name


@FEW
@given(gland=gland_sizes(), count=st.integers(1, 7), seed=st.integers(0, 2**32 - 1))
def test_columns_are_their_rows(gland: tuple[str, Any], count: int, seed: int) -> None:
    """Arrays of sizes give what each row gives by itself, to 1e-12, nan for nan."""
    kind, sizes = gland
    rng = np.random.default_rng(seed)
    scale = rng.uniform(0.8, 1.35, count)
    at = conditions(kind)
    columns = {
        name: Span(*(value * (scale if name == "inside_diameter" else np.ones(count)) for value in span))
        for name, span in spans_of(sizes).items()
    }
    found = quantities(columns, at)
    for row in range(count):
        single = quantities(
            {name: Span(*(float(value[row]) for value in span)) for name, span in columns.items()}, at
        )
        assert set(single) == set(found)
        for name, span in single.items():
            wide = [float(np.broadcast_to(value, (count,))[row]) for value in found[name]]
            np.testing.assert_allclose(wide, span, rtol=1e-12, atol=1e-12, equal_nan=True, err_msg=name)


@MOST
@given(gland=gland_sizes())
def test_every_interval_is_in_order(gland: tuple[str, Any]) -> None:
    """Smallest, middle and largest of each quantity stand in order."""
    kind, sizes = gland
    for name, (low, middle, high) in quantities(spans_of(sizes), conditions(kind)).items():
        slack = 1e-12 * max(1.0, abs(low), abs(high))
        assert math.isnan(low + middle + high) or low - slack <= middle <= high + slack, name


@MOST
@given(gland=gland_sizes(), deeper=st.floats(0.01, 0.3))
def test_a_deeper_groove_never_squeezes_more(gland: tuple[str, Any], deeper: float) -> None:
    """Taking material from the groove floor lowers squeeze and fill, in every layer."""
    kind, sizes = gland
    name = "groove_depth" if kind == "face" else "groove_diameter"
    change = deeper if kind != "piston" else -deeper
    before = quantities(spans_of(sizes), conditions(kind, layers_off=("stretch",)))
    size, half = sizes[name]
    after = quantities(
        spans_of({**sizes, name: (size + change, half)}), conditions(kind, layers_off=("stretch",))
    )
    for rule in (
        "squeeze",
        "least_squeeze",
        "greatest_squeeze",
        "cold_squeeze",
        "hot_squeeze",
        "fill",
        "hot_fill",
    ):
        # A face groove wider than half its wall has no fill, and a nan is neither more nor less.
        assert after[rule].low < before[rule].low or math.isnan(before[rule].low)
        assert after[rule].high < before[rule].high or math.isnan(before[rule].high)


@MOST
@given(gland=gland_sizes())
def test_service_squeeze_lies_about_the_handbook_squeeze(gland: tuple[str, Any]) -> None:
    """On a stretched ring the least squeeze is at most, the greatest at least the plain one."""
    kind, sizes = gland
    found = quantities(spans_of(sizes), conditions(kind, thinning="empirical"))
    assert found["greatest_squeeze"].high >= found["squeeze"].high - 1e-9
    if kind == "piston" and not math.isnan(found["least_squeeze"].low):
        assert found["least_squeeze"].low <= found["squeeze"].low + 1e-9


# -- laws of the verdict ---------------------------------------------------------------------------


@MOST
@given(gland=gland_sizes())
def test_inches_and_millimetres_have_one_verdict(gland: tuple[str, Any]) -> None:
    """The same sizes written in inches and in mm give the same findings, number for number."""
    kind, sizes = gland
    inch = answer(written(kind, sizes, "in"))
    metric = answer(written(kind, sizes, "inches in mm"))
    assert inch.status is metric.status
    assert [finding.rule for finding in inch.findings] == [finding.rule for finding in metric.findings]
    for one, other in zip(inch.findings, metric.findings, strict=True):
        assert one.status is other.status
        assert (one.low, one.middle, one.high) == pytest.approx(
            (other.low, other.middle, other.high), rel=1e-12, nan_ok=True
        )
        assert (one.limits, one.reason) == (other.limits, other.reason)


@MOST
@given(gland=gland_sizes(), which=st.randoms(use_true_random=False), share=st.floats(0.1, 0.9))
def test_a_tighter_tolerance_never_widens_a_finding(gland: tuple[str, Any], which: Any, share: float) -> None:
    """Narrowing one drawn size widens no interval, and turns no fit into less."""
    kind, sizes = gland
    name = which.choice(sorted(sizes))
    size, half = sizes[name]
    tight = {**sizes, name: (size, max(0.0001, round(half * share, 4)))}
    before, after = answer(written(kind, sizes)), answer(written(kind, tight))
    for finding in after.findings:
        was = before.of(finding.rule)
        if was is None or finding.low is None or math.isnan(was.low) or math.isnan(finding.low):
            continue
        slack = 1e-9 * max(1.0, abs(was.low), abs(was.high))
        assert finding.low >= was.low - slack, finding.rule
        assert finding.high <= was.high + slack, finding.rule
        assert was.status is not Status.FITS or finding.status is Status.FITS, finding.rule


@MOST
@given(gland=gland_sizes(), rule=st.sampled_from(sorted(DECISION_RULES)))
def test_the_sign_of_a_margin_agrees_with_its_status(gland: tuple[str, Any], rule: str) -> None:
    """What fits has no margin below zero; what does not has none above."""
    kind, sizes = gland
    verdict = answer({**written(kind, sizes), "choices": {"decision_rule": rule}})
    for finding in verdict.findings:
        if finding.margin is None or math.isnan(finding.margin):
            continue
        assert finding.status is not Status.FITS or finding.margin >= -1e-9, finding.rule
        assert finding.status is not Status.DOES_NOT_FIT or finding.margin <= 1e-9, finding.rule


@FEW
@given(gland=gland_sizes())
def test_a_check_is_deterministic(gland: tuple[str, Any]) -> None:
    """Two checks of one question give equal verdicts, also after a check of another."""
    kind, sizes = gland
    first = answer(written(kind, sizes))
    answer(written(kind, {**sizes, "cross_section": (2.0, 0.08)}) if kind == "face" else written(kind, sizes))
    assert repr(answer(written(kind, sizes))) == repr(first)


@MOST
@given(gland=gland_sizes())
def test_the_verdict_is_its_worst_finding(gland: tuple[str, Any]) -> None:
    """Findings stand worst first and the verdict is the first of them."""
    verdict = answer(written(*gland))
    order = [WORST_FIRST.index(finding.status) for finding in verdict.findings]
    assert order == sorted(order)
    assert verdict.status is verdict.findings[0].status


@MOST
@given(gland=gland_sizes(), missing=st.data())
def test_less_knowledge_never_makes_a_fit(gland: tuple[str, Any], missing: st.DataObject) -> None:
    """Leaving a field of place or service out never turns a verdict into fits."""
    asked = written(*gland)
    section = missing.draw(st.sampled_from(["place", "service"]))
    fields = sorted(set(asked[section]) - {"kind", "swell_high_percent", "pressure_from"})
    del asked[section][missing.draw(st.sampled_from(fields))]
    assert answer(asked).status is not Status.FITS
