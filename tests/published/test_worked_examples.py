"""Worked examples of published pages, recomputed; rows of our own arithmetic say so in their source."""

from __future__ import annotations

import csv
import math
from collections import Counter
from decimal import Decimal
from pathlib import Path
from statistics import NormalDist

import pytest

import fitcheck.rings.glands  # enters the rules of rings
from fitcheck.decision import DECISION_RULES, conformance_probability, decide
from fitcheck.influence import shares
from fitcheck.numbers import Span, normal_share_below
from fitcheck.rings.limits import gap_limits
from fitcheck.rings.squeeze import section_loss_constant_volume
from fitcheck.rule import RULES
from schema.finding import Influence, Limits, Status
from schema.guidance import Choices, published_guidance
from schema.parts import FourLobedRing
from schema.ring_sizes import (
    class_b_inside_diameter_tolerance_mm,
    class_b_section_tolerance_mm,
    ring_size,
)

assert fitcheck.rings.glands

Row = dict[str, str]
with Path(__file__).with_name("worked_examples.csv").open(encoding="utf-8", newline="") as stream:
    ROWS: list[Row] = list(csv.DictReader(stream))
INCH, PSI = 25.4, 0.006894757293168361  # mm; MPa, NIST SP 811


def conformance(**inputs: float) -> float:
    return conformance_probability(low=inputs.pop("low", None), high=inputs.pop("high", None), **inputs)


def four_lobed_area(*, cross_section_mm: float) -> float:
    return FourLobedRing.area_factor * cross_section_mm**2


def diameter_tolerance(*, inside_diameter_mm: float) -> float:
    return float(class_b_inside_diameter_tolerance_mm(Decimal(str(inside_diameter_mm))))


def section_tolerance(*, cross_section_mm: float) -> float:
    found = class_b_section_tolerance_mm(Decimal(str(cross_section_mm)))
    assert found is not None
    return float(found)


FUNCTIONS = {
    **RULES,
    "conformance_probability": conformance,
    "normal_share_below": normal_share_below,
    "four_lobed_area": four_lobed_area,
    "class_b_inside_diameter_tolerance": diameter_tolerance,
    "class_b_section_tolerance": section_tolerance,
}


@pytest.mark.parametrize("row", [pytest.param(row, id=row["case"]) for row in ROWS])
def test_a_worked_example_is_met(row: Row) -> None:
    """The printed result follows from the printed inputs, to half of its last digit or as the row says."""
    pairs = (pair.split("=") for pair in row["inputs"].split(";"))
    inputs = {name: float(value) for name, value in pairs}
    tolerance = float(row["tolerance"]) + 1e-12
    assert FUNCTIONS[row["rule"]](**inputs) == pytest.approx(float(row["expected"]), abs=tolerance, rel=0)


def test_every_example_cites_its_page_and_says_why_its_tolerance() -> None:
    """No example is without source, locator and the reason of its tolerance; their names differ."""
    assert all(row[name] for row in ROWS for name in ("source", "locator", "tolerance_reason"))
    assert len({row["case"] for row in ROWS}) == len(ROWS)


def test_the_examples_are_the_ones_that_were_read() -> None:
    """The file is pinned by the number of examples of each source and the sum of the printed results."""
    assert Counter(row["source"].split(",")[0] for row in ROWS) == PINNED
    assert sum(Decimal(row["expected"]) for row in ROWS) == Decimal("200.6128")


PINNED = {
    "allsealsinc.com": 12,
    "a valve design note quoting the Trelleborg O-ring catalogue": 6,
    "rtdygert.com": 15,
    "Polymax O-ring tolerance table": 2,
    "Parker": 1,
    "JCGM 106:2012": 8,
    "own arithmetic": 22,
}


def test_a_bs4518_reference_tells_the_size() -> None:
    """0545-30 is 54.5 mm inside and 3.0 mm in section (roymech.org, O Ring Seals)."""
    size = ring_size("BS4518-0545-30")
    assert (size.inside_diameter.nominal, size.cross_section.nominal) == (Decimal("54.5"), Decimal("3.0"))


def test_the_printed_exponent_of_class_b_does_not_give_its_own_table() -> None:
    """The page prints the exponent 0.93, which misses its own 4.28 mm at 640 mm by half a millimetre."""
    assert 4.28 - (0.009 * 640**0.93 + 0.11) > 0.5
    assert class_b_inside_diameter_tolerance_mm(Decimal(640)) == Decimal("4.28")


@pytest.mark.parametrize("stretch_percent", [-20.0, -2.0, 0.0, 1.0, 5.0, 25.0])
def test_constant_volume_keeps_the_volume(stretch_percent: float) -> None:
    """Section squared times length stays the same, whatever the stretch."""
    section = 1.0 - section_loss_constant_volume(stretch_percent=stretch_percent) / 100.0
    assert section**2 * (1.0 + stretch_percent / 100.0) == pytest.approx(1.0, rel=1e-12)


# -- extrusion -------------------------------------------------------------------------------------


def gap(hardness: float, psi: float, *, table: str = "by-hardness") -> Limits:
    found = gap_limits(
        published_guidance(),
        Choices(gap_guidance=table),
        hardness_shore_a=hardness,
        pressure_mpa=psi * PSI,
        cross_section_mm=3.53,
        material="NBR",
    )
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("hardness", "psi", "clearance_in"),
    [pytest.param(70, 1250, 0.006, id="70 Shore A"), pytest.param(90, 2500, 0.010, id="90 Shore A")],
)
def test_the_clearance_is_the_printed_one(hardness: float, psi: float, clearance_in: float) -> None:
    """Between 1000 and 1500 psi 70 Shore A bears .006 in, between 2000 and 3000 psi 90 Shore A .010 in.

    sealanddesign.com prints inches, the shipped table the same in mm to 0.01: half of that is the tolerance.
    """
    assert gap(hardness, psi).high == pytest.approx(clearance_in * INCH, abs=0.005)


@pytest.mark.parametrize(
    ("hardness", "psi", "clearance_in"),
    [
        pytest.param(hardness, psi, clearance, id=f"{hardness} Shore A at {psi} psi")
        for hardness, row in (
            (70, (0.016, 0.010, 0.006, 0.004, 0.002)),
            (90, (0.028, 0.024, 0.020, 0.016, 0.010)),
        )
        for psi, clearance in zip((250, 750, 1250, 1750, 2500), row, strict=True)
    ],
)
def test_the_metric_table_never_allows_more_than_the_inch_table(
    hardness: float, psi: float, clearance_in: float
) -> None:
    """In the middle of each step the shipped mm clearance is at most the inch one (sealanddesign.com)."""
    assert gap(hardness, psi).high <= clearance_in * INCH


@pytest.mark.parametrize(
    ("hardness", "status"),
    [
        pytest.param(70, Status.DOES_NOT_FIT, id="70 Shore A fails"),
        pytest.param(80, Status.FITS, id="80 Shore A is acceptable"),
    ],
)
def test_a_clearance_of_16_thou_at_1000_psi_is_judged_as_printed(hardness: float, status: Status) -> None:
    """At 1000 psi and .016 in diametral 70 Shore A fails and 80 passes (applerubber.com, back-up rings)."""
    limits = gap(hardness, 1000)
    clearance = Span.point(0.016 * INCH)
    rule = DECISION_RULES["simple-acceptance"]
    assert decide(clearance, standard_uncertainty=0, limits=limits, rule=rule).status is status


# -- decisions and stacks --------------------------------------------------------------------------


@pytest.mark.parametrize("z", [-8.0, -3.09, -1.0, 0.0, 0.5, 1.645, 4.0, 6.0])
def test_the_normal_share_is_that_of_the_standard_library(z: float) -> None:
    """The share of a normal distribution below z is that of an independent implementation."""
    assert normal_share_below(z) == pytest.approx(NormalDist().cdf(z), abs=1e-15, rel=1e-9)


@pytest.mark.parametrize(
    ("speed_km_h", "proven"), [pytest.param(107, True, id="107"), pytest.param(106, False, id="106")]
)
def test_a_speed_limit_is_exceeded_from_the_printed_reading_on(speed_km_h: float, proven: bool) -> None:
    """With 2 % uncertainty a limit of 100 km/h is exceeded at 99.9 % from 107 km/h on (JCGM 106, guarded)."""
    p = conformance_probability(value=speed_km_h, standard_uncertainty=0.02 * speed_km_h, low=100, high=None)
    assert (p >= 0.999) is proven


SHOP = {
    "11.985": (Status.DOES_NOT_FIT, Status.NOT_PROVEN, Status.NOT_PROVEN),
    "11.984": (Status.FITS, Status.NOT_PROVEN, Status.NOT_PROVEN),
    "11.983": (Status.FITS, Status.NOT_PROVEN, Status.NOT_PROVEN),
    "11.981": (Status.FITS, Status.NOT_PROVEN, Status.NOT_PROVEN),
    "11.980": (Status.FITS, Status.FITS, Status.FITS),
    "11.975": (Status.FITS, Status.FITS, Status.FITS),
}
F7 = Limits(11.966, 11.984, "mm", "worst_case", "own", "ISO 286-1, 12 f7", "standard")


@pytest.mark.parametrize("reading", SHOP)
def test_one_reading_under_three_decision_rules(reading: str) -> None:
    """A 12 f7 shaft read with u = 0.002 mm: simple acceptance, 95 % and 2u differ (own arithmetic)."""
    found = [
        decide(Span.point(float(reading)), standard_uncertainty=0.002, limits=F7, rule=DECISION_RULES[name])
        for name in ("simple-acceptance", "iso14253-1-95", "iso14253-1-u2")
    ]
    assert tuple(one.status for one in found) == SHOP[reading]


@pytest.mark.parametrize("reading", SHOP)
def test_the_probability_of_a_reading_is_that_of_the_standard_library(reading: str) -> None:
    """The conformance probability of each reading follows from an independent normal distribution."""
    normal = NormalDist(float(reading), 0.002)
    expected = normal.cdf(11.984) - normal.cdf(11.966)
    found = conformance_probability(value=float(reading), standard_uncertainty=0.002, low=11.966, high=11.984)
    assert found == pytest.approx(expected, abs=1e-12)


def test_a_bearing_stack_by_root_sum_square() -> None:
    """+25 ±0.0250, -25.05 ±0.0130, +10 ±0.1000: ±0.1039, 9.8461 to 10.0539 (public worked sample)."""
    halves = {"housing": 0.0250, "shaft": -0.0130, "spacer": 0.1000}
    moves = {name: Influence(name, half, measured=False) for name, half in halves.items()}
    limits = Limits(9.8461, 10.0539, "mm", "worst_case", "own", "public worked sample", "published_once")
    found = shares(Span(9.8120, 9.9500, 10.0880), moves, limits)
    assert found.low == pytest.approx(9.8461, abs=0.00005)
    assert found.high == pytest.approx(10.0539, abs=0.00005)
    assert (found.high - found.low) / 2 == pytest.approx(0.1039, abs=0.00005)
    assert found.outside == pytest.approx(2 * NormalDist().cdf(-3), rel=0.01)  # limits printed to 0.0001


def test_a_measured_size_counts_with_its_whole_uncertainty_in_a_stack() -> None:
    """A measured half effect is one sigma, a drawn one three: root of their squares (own arithmetic)."""
    moves = {"drawn": Influence("drawn", 0.3, measured=False), "measured": Influence("measured", 0.2, True)}
    found = shares(Span.point(5.0), moves, Limits(None, None, "mm", "worst_case", "", "", ""))
    assert found.high == pytest.approx(5.0 + 3 * math.hypot(0.1, 0.2))
