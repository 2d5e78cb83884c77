"""Published limits: which row judges a case, and how the rows combine."""

from __future__ import annotations

from collections import Counter

import pytest

from fitcheck.rings.limits import (
    back_up_width_mm,
    check_choices,
    default_squeeze_guidance,
    detail_row,
    gap_limits,
    rule_limits,
    squeeze_band,
    squeeze_limits,
)
from schema.errors import UnknownName
from schema.finding import Limits
from schema.guidance import Choices, SqueezeRow, published_guidance

GUIDANCE = published_guidance()


def squeeze(section: float, **changed: object) -> Limits | None:
    given = {"ring": "o_ring", "gland": "piston", "motion": "reciprocating", "medium": "liquid", "choice": ""}
    given.update(changed)  # type: ignore[arg-type]
    choices = Choices(squeeze_guidance=given.pop("choice"))
    return squeeze_limits(GUIDANCE, choices, cross_section_mm=section, **given)


def gap(
    pressure: float, *, hardness: float = 70, section: float = 3.53, material: str = "NBR", choice: str = ""
) -> Limits | None:
    return gap_limits(
        GUIDANCE,
        Choices(gap_guidance=choice),
        hardness_shore_a=hardness,
        pressure_mpa=pressure,
        cross_section_mm=section,
        material=material,
    )


def test_a_section_of_the_table_takes_its_row() -> None:
    """.139 in reciprocating: 9 to 17 % as printed (Apple Rubber Seal Design Guide)."""
    found = squeeze(3.53)
    assert found.low == pytest.approx(9, abs=0.5)
    assert found.high == pytest.approx(17, abs=0.5)
    assert (found.guidance, found.grade) == ("inch-handbook", "published_once")


@pytest.mark.parametrize(
    ("metric", "inch"), [(1.80, 1.778), (2.65, 2.6162), (3.55, 3.5306), (5.30, 5.334), (7.00, 6.985)]
)
def test_a_metric_section_near_an_inch_one_uses_its_row(metric: float, inch: float) -> None:
    """A section within 1.5 % of a tabled one is judged by its row."""
    assert squeeze(metric) == squeeze(inch)


def test_a_section_between_two_rows_is_interpolated_and_says_so() -> None:
    """Half-way between .103 and .139 in the band lies half-way, graded derived, naming both rows."""
    thin, thick, between = squeeze(2.6162), squeeze(3.5306), squeeze((2.6162 + 3.5306) / 2)
    assert between.low == pytest.approx((thin.low + thick.low) / 2)
    assert between.high == pytest.approx((thin.high + thick.high) / 2)
    assert between.grade == "derived"
    assert "between" in between.source and ".103" in between.source and ".139" in between.source


@pytest.mark.parametrize("section", [0.3, 8.4, 30.0])
def test_a_section_outside_the_table_has_no_limits(section: float) -> None:
    """Nothing is extrapolated beyond the table."""
    assert squeeze(section) is None


@pytest.mark.parametrize(
    ("ring", "motion", "medium", "expected"),
    [
        ("o_ring", "static", "liquid", "inch-handbook"),
        ("o_ring", "static", "gas", "inch-handbook"),
        ("o_ring", "reciprocating", "liquid", "inch-handbook"),
        ("o_ring", "reciprocating", "gas", "gas-two-tables"),
        ("four_lobed_ring", "reciprocating", "gas", "four-lobed"),
    ],
)
def test_a_moving_gas_seal_has_guidance_of_its_own(
    ring: str, motion: str, medium: str, expected: str
) -> None:
    """Air glands are deeper than oil glands, so the oil table does not judge them."""
    assert default_squeeze_guidance(ring, motion, medium) == expected


@pytest.mark.parametrize("section", [1.778, 2.6162, 3.5306, 5.334, 6.985])
def test_gas_asks_for_no_more_squeeze_than_liquid(section: float) -> None:
    """The lower limit of a moving gas seal lies below that of the oil table, section by section."""
    assert squeeze(section, medium="gas").low < squeeze(section).low


@pytest.mark.parametrize(
    ("gland", "motion", "medium", "low", "high"),
    [
        ("piston", "reciprocating", "liquid", 10, 18),
        ("piston", "reciprocating", "gas", 8, 15),
        ("piston", "static", "liquid", 15, 25),
        ("rod", "reciprocating", "liquid", 8, 15),
        ("rod", "reciprocating", "gas", 5, 12),
        ("rod", "static", "gas", 10, 20),
        ("face", "static", "liquid", 15, 25),
    ],
)
def test_percent_by_duty_is_the_printed_one(
    gland: str, motion: str, medium: str, low: float, high: float
) -> None:
    """packing.co.jp prints squeeze by duty; rods have less than pistons."""
    found = squeeze(3.53, gland=gland, motion=motion, medium=medium, choice="percent-by-duty")
    assert (found.low, found.high, found.basis) == (low, high, "nominal")


@pytest.mark.parametrize(
    ("gland", "motion", "low", "high"),
    [("face", "static", 20, 30), ("rod", "static", 18, 25), ("piston", "reciprocating", 10, 20)],
)
def test_percent_general_is_the_printed_one(gland: str, motion: str, low: float, high: float) -> None:
    """marcorubber.com, groove design page, prints squeeze by application."""
    found = squeeze(3.53, gland=gland, motion=motion, choice="percent-general")
    assert (found.low, found.high) == (low, high)


def test_a_row_of_one_depth_limits_one_side() -> None:
    """The four-lobed table prints the deepest gland only: it sets the least squeeze, not the greatest."""
    row = SqueezeRow(
        "g", "r", "radial", "static", "any", 2.0, 0.1, None, 1.5, None, None, "worst_case", "", "", ""
    )
    low, high = squeeze_band(row)
    assert low == pytest.approx(100 * (1.9 - 1.5) / 1.9)
    assert high is None


# -- gaps ------------------------------------------------------------------------------------------


def test_a_radial_table_is_doubled() -> None:
    """Techoseal 2019, p. 9: 70 Shore A, section 3 to 5 mm, to 3.5 MPa 0.10 mm radial is 0.20 mm diametral."""
    assert gap(3.0, choice="radial-by-section").high == pytest.approx(0.20)


def test_a_diametral_table_is_taken_as_printed() -> None:
    """packing.co.jp: 70 Shore A to 4 MPa 0.35 mm."""
    assert gap(3.0, choice="by-hardness-steps").high == pytest.approx(0.35)


def test_the_tightest_table_proves_and_the_loosest_refuses() -> None:
    """At 3 MPa the four tables give 0.20 to 0.40 mm: below the first it fits, above the last it does not."""
    found = gap(3.0)
    singles = [
        gap(3.0, choice=name).high
        for name in ("by-hardness", "by-hardness-steps", "by-section", "radial-by-section")
    ]
    assert (found.high, found.refuse_high) == (pytest.approx(min(singles)), pytest.approx(max(singles)))


@pytest.mark.parametrize("material", ["VMQ", "FVMQ"])
def test_silicone_halves_the_clearance(material: str) -> None:
    """Parker handbook, section IV: halve the clearance for silicone."""
    silicone, other = gap(3.0, material=material), gap(3.0)
    assert (silicone.high, silicone.refuse_high) == (other.high / 2, other.refuse_high / 2)
    assert "halved for silicone" in silicone.note


@pytest.mark.parametrize("choice", ["by-hardness", "by-hardness-steps", "by-section", "radial-by-section"])
def test_more_pressure_never_allows_more_gap(choice: str) -> None:
    """Down each table the clearance falls as the pressure rises."""
    found = [gap(pressure, choice=choice) for pressure in (0.0, 3.0, 5.0, 8.0, 10.0)]
    gaps = [one.high for one in found]
    assert gaps == sorted(gaps, reverse=True)


@pytest.mark.parametrize("pressure", [3.0, 6.0, 9.0])
def test_a_harder_ring_never_allows_less_gap(pressure: float) -> None:
    """70, 80 and 90 Shore A bear rising clearances."""
    gaps = [gap(pressure, hardness=hardness, choice="by-hardness").high for hardness in (70, 80, 90)]
    assert gaps == sorted(gaps)


def test_a_hardness_between_two_steps_takes_the_softer() -> None:
    """75 Shore A is judged as 70."""
    assert gap(3.0, hardness=75) == gap(3.0, hardness=70)


@pytest.mark.parametrize(("pressure", "hardness"), [(36.0, 90), (3.0, 60), (21.0, 70)])
def test_outside_every_table_there_is_no_limit(pressure: float, hardness: float) -> None:
    """Softer than 70 Shore A or beyond the last pressure nothing is printed."""
    found = gap(pressure, hardness=hardness, choice="by-hardness")
    assert found is None


def test_the_pressure_of_a_step_belongs_to_it() -> None:
    """Up to and including 4.0 MPa 0.35 mm, above it 0.30 mm (packing.co.jp)."""
    assert gap(4.0, choice="by-hardness-steps").high == pytest.approx(0.35)
    assert gap(4.0001, choice="by-hardness-steps").high == pytest.approx(0.30)


# -- rows of limits --------------------------------------------------------------------------------


def of_rule(
    rule: str, choice: str = "", *, gland: str = "piston", motion: str = "reciprocating"
) -> Limits | None:
    choices = Choices(limit_guidance={rule: choice} if choice else {})
    return rule_limits(GUIDANCE, choices, rule, gland=gland, motion=motion, medium="liquid", scale=10.0)


@pytest.mark.parametrize(
    ("rule", "choice", "low", "high"),
    [
        pytest.param("fill", "", None, 90, id="parker.com, gland overfill"),
        pytest.param("fill", "eighty-five", None, 85, id="notes.edchamberlain.com"),
        pytest.param("fill", "ninety-five", None, 95, id="parker.com, little swell"),
        pytest.param("stretch", "", 0, 5, id="gallagherseals.com"),
        pytest.param("stretch", "one-to-five", 1, 5, id="applerubber.com"),
        pytest.param("stretch", "two-to-five", 2, 5, id="Trelleborg, dynamic"),
        pytest.param("least_squeeze", "", 0, None, id="MIL-G-5514G 3.6.2"),
        pytest.param("greatest_squeeze", "", None, 30, id="applerubber.com, dynamic"),
        pytest.param(
            "greatest_squeeze", "narrow-upper-limits", None, 25, id="Mechanical Engineers' Handbook"
        ),
        pytest.param("assembly_stretch", "", None, 50, id="allorings.com"),
    ],
)
def test_a_limit_is_the_printed_one(rule: str, choice: str, low: float | None, high: float | None) -> None:
    """The limits of a rule, by default and by choice, are those of the page named."""
    found = of_rule(rule, choice)
    assert (found.low, found.high) == (low, high)


def test_a_limit_depends_on_the_motion() -> None:
    """A static ring may be stretched to 8 % where a moving one may to 5 (seal maker's catalogue)."""
    assert of_rule("stretch", "two-to-five", motion="static").high == 8


def test_a_limit_of_one_gland_does_not_judge_another() -> None:
    """Stretch is no question of a rod gland, compression none of a piston gland."""
    assert of_rule("stretch", gland="rod") is None
    assert of_rule("peripheral_compression", gland="piston") is None


@pytest.mark.parametrize(
    ("choices", "told"),
    [
        pytest.param(
            Choices(squeeze_guidance="inch-handbok"), "choices.squeeze: .*Near: inch-handbook", id="squeeze"
        ),
        pytest.param(Choices(gap_guidance="by-sectoin"), "choices.gap: .*Near: by-section", id="gap"),
        pytest.param(
            Choices(limit_guidance={"fill": "ninty"}), "choices.limits.fill: .*Near: ninety", id="limits"
        ),
        pytest.param(Choices(limit_guidance={"fil": "ninety"}), "choices.limits: .*Near: fill", id="rule"),
    ],
)
def test_a_guidance_that_does_not_exist_is_refused_with_near_ones(choices: Choices, told: str) -> None:
    """A name that is no guidance, or no rule, is refused with those that are."""
    with pytest.raises(UnknownName, match=told):
        check_choices(GUIDANCE, choices)


# -- what stands beside the depth ------------------------------------------------------------------


def test_a_back_up_ring_is_as_wide_as_the_second_one_makes_the_groove() -> None:
    """.139 in reciprocating: .222 and .301 in with one and two back-up rings (Apple Rubber): .079 in each."""
    row = detail_row(GUIDANCE, gland="piston", motion="reciprocating", cross_section_mm=3.53)
    assert back_up_width_mm(row) == pytest.approx((0.301 - 0.222) * 25.4)


def test_where_no_width_is_printed_none_is_told() -> None:
    """Small sections have no printed width with back-up rings."""
    row = detail_row(GUIDANCE, gland="piston", motion="reciprocating", cross_section_mm=1.02)
    assert back_up_width_mm(row) is None
    assert back_up_width_mm(None) is None


def test_details_come_from_the_next_smaller_section() -> None:
    """A 3 mm section takes the details of .103 in; below every row there is none."""
    row = detail_row(GUIDANCE, gland="rod", motion="static", cross_section_mm=3.0)
    assert row.cross_section_mm == pytest.approx(0.103 * 25.4)
    assert detail_row(GUIDANCE, gland="rod", motion="static", cross_section_mm=0.3) is None


# -- the tables themselves -------------------------------------------------------------------------


def test_the_tables_are_pinned() -> None:
    """Rows of every table of guidance."""
    assert Counter(row.guidance for row in GUIDANCE.squeeze) == {
        "inch-handbook": 28,
        "inch-chart": 5,
        "four-lobed": 10,
        "metric-static": 48,
        "inch-groove-chart": 16,
        "gas-two-tables": 6,
        "percent-by-duty": 7,
        "percent-general": 3,
        "floating": 1,
    }
    assert Counter(row.guidance for row in GUIDANCE.gaps) == {
        "by-hardness-steps": 10,
        "by-hardness": 15,
        "by-section": 16,
        "radial-by-section": 75,
    }
    assert (len(GUIDANCE.details), len(GUIDANCE.lead_ins)) == (28, 31)


def test_every_row_says_where_it_comes_from() -> None:
    """No row of guidance is without source, locator and grade."""
    rows = [*GUIDANCE.squeeze, *GUIDANCE.limits, *GUIDANCE.gaps, *GUIDANCE.details, *GUIDANCE.lead_ins]
    assert [row for row in rows if not (row.source and row.locator)] == []
    assert {row.grade for row in rows} <= {
        "published_twice",
        "published_once",
        "derived",
        "standard",
        "disputed",
    }


@pytest.mark.parametrize("rule", sorted({row.rule for row in GUIDANCE.limits}))
def test_each_rule_has_one_default_for_a_case(rule: str) -> None:
    """No two default rows of a rule cover the same gland, motion and medium."""
    defaults = Counter(
        (row.gland, row.motion, row.medium) for row in GUIDANCE.limits if row.rule == rule and row.default
    )
    assert defaults
    assert max(defaults.values()) == 1
