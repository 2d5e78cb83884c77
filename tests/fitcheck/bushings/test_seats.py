"""Verdicts on bushing seats: what holds the bushing and what runs in it."""

from __future__ import annotations

import pytest

from schema.finding import Status
from schema.places import METALS
from tests.fitcheck.bushings.questions import (
    ALLOY_SEAT,
    BRONZE,
    BRONZE_SEAT,
    GAUGED,
    PLASTIC,
    PLASTIC_SEAT,
    SERVICE,
    STEEL_SEAT,
    WRAPPED,
    finding,
    verdict_on,
    without,
)

FITS, OPEN, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


@pytest.mark.parametrize(
    ("place", "part"),
    [
        pytest.param(STEEL_SEAT, WRAPPED, id="wrapped in steel, by its class of housing"),
        pytest.param(ALLOY_SEAT, GAUGED, id="wrapped in aluminium, by its ring gauge"),
        pytest.param(BRONZE_SEAT, BRONZE, id="bronze in aluminium, by Lamé"),
        pytest.param(PLASTIC_SEAT, PLASTIC, id="plastic in aluminium, by its maker's limits"),
    ],
)
def test_an_ordinary_seat_fits(place: dict[str, str], part: dict[str, str]) -> None:
    """Each kind of bushing can be proven with the sizes its kind needs."""
    verdict = verdict_on(place, part)
    assert verdict.status is FITS, verdict.next_step


@pytest.mark.parametrize(
    ("place", "part", "rule"),
    [
        pytest.param(
            {**STEEL_SEAT, "housing_bore": "18.090 mm by bore gauge"},
            WRAPPED,
            "housing_size",
            id="wide housing",
        ),
        pytest.param(
            {**ALLOY_SEAT, "housing_bore": "18.090 mm by bore gauge"},
            GAUGED,
            "seat_interference",
            id="loose by its ring gauge",
        ),
        pytest.param(
            {**STEEL_SEAT, "shaft_diameter": "16.08 mm by micrometer"},
            WRAPPED,
            "running_clearance",
            id="shaft too thick",
        ),
        pytest.param(
            {**STEEL_SEAT, "bore_as_fitted": "16.30 mm by bore gauge"},
            WRAPPED,
            "running_clearance",
            id="worn beyond the shop rule",
        ),
        pytest.param({**STEEL_SEAT, "seat_length": "11 ±0.1 mm"}, WRAPPED, "seat_room", id="too long"),
        pytest.param(
            {**BRONZE_SEAT, "housing_bore": "16.10 mm by bore gauge"},
            BRONZE,
            "seat_interference",
            id="bronze loose",
        ),
    ],
)
def test_what_cannot_hold_or_run_does_not_fit(place: dict[str, str], part: dict[str, str], rule: str) -> None:
    """What fails at every size that is possible is refused, by the finding that says why."""
    verdict = verdict_on(place, part)
    assert verdict.status is OUT
    assert finding(verdict, rule).status is OUT


@pytest.mark.parametrize(
    ("place", "part", "rule", "words"),
    [
        pytest.param(STEEL_SEAT, without(WRAPPED, "wall"), "running_clearance", "bushing wall", id="no wall"),
        pytest.param(ALLOY_SEAT, WRAPPED, "hot_interference", "ring gauge diameter", id="light alloy"),
        pytest.param(STEEL_SEAT, without(WRAPPED, "style"), "bushing_style", "style", id="no style"),
        pytest.param(STEEL_SEAT, None, "bushing", "bushing", id="no bushing"),
        pytest.param(
            STEEL_SEAT, without(WRAPPED, "material"), "cold_clearance", "material", id="no material"
        ),
        pytest.param(
            without(BRONZE_SEAT, "housing_bore"), BRONZE, "seat_interference", "housing bore", id="no housing"
        ),
    ],
)
def test_what_is_missing_is_named(
    place: dict[str, str], part: dict[str, str] | None, rule: str, words: str
) -> None:
    """Nothing is proven for want of a size, and the size is named."""
    verdict = verdict_on(place, part)
    assert verdict.status is OPEN
    assert words in " ".join(finding(verdict, rule).lacks)


@pytest.mark.parametrize(
    ("place", "part"),
    [
        pytest.param(STEEL_SEAT, WRAPPED, id="wrapped"),
        pytest.param(ALLOY_SEAT, GAUGED, id="by its ring gauge"),
        pytest.param({**BRONZE_SEAT, "housing_yield": "240 MPa"}, BRONZE, id="bronze"),
        pytest.param(PLASTIC_SEAT, PLASTIC, id="plastic"),
    ],
)
def test_where_no_metal_is_told_both_count(place: dict[str, str], part: dict[str, str]) -> None:
    """Each quantity spans what it is in either metal, and nothing fits that one of them leaves open."""
    bare = without(place, "metal", "shaft_metal")
    untold = verdict_on(bare, part)
    assert "housing and shaft of aluminium or steel, since no metal is told: both count" in untold.taken
    for metal in METALS:
        for shaft in METALS:
            told = verdict_on({**bare, "metal": metal, "shaft_metal": shaft}, part)
            for one in told.findings:
                both = untold.of(one.rule)
                if both is None or both.low is None or both.high is None:
                    continue
                assert one.low is not None and one.high is not None
                assert both.low <= one.low + 1e-12, one.rule
                assert both.high >= one.high - 1e-12, one.rule
                assert both.status is not FITS or one.status is FITS, one.rule


def test_a_seat_that_fits_in_steel_only_is_not_proven_without_its_metal() -> None:
    """A wrapped bushing that fits in steel on steel may bind or come loose in another metal: it is asked."""
    assert verdict_on(STEEL_SEAT, WRAPPED).status is FITS
    for name in ("metal", "shaft_metal"):
        assert verdict_on(without(STEEL_SEAT, name), WRAPPED).status is OPEN, name


def test_without_a_temperature_nothing_is_said_of_cold_and_heat() -> None:
    """The ends of the service are asked for."""
    verdict = verdict_on(STEEL_SEAT, WRAPPED, without(SERVICE, "temperature"))
    assert finding(verdict, "cold_clearance").lacks == ("temperature range",)
    assert verdict.status is OPEN


def test_a_free_outside_diameter_never_makes_an_interference() -> None:
    """A wrapped bushing measured free is oversize; that size enters no quantity."""
    measured = {**WRAPPED, "outside_diameter": "18.2 mm by micrometer"}
    plain, told = verdict_on(ALLOY_SEAT, WRAPPED), verdict_on(ALLOY_SEAT, measured)
    for verdict in (plain, told):
        assert finding(verdict, "seat_interference").low is None
        assert finding(verdict, "seat_interference").lacks == ("ring gauge diameter",)


def test_a_bore_measured_after_pressing_leads() -> None:
    """The reading counts, not the housing less twice the wall."""
    verdict = verdict_on({**STEEL_SEAT, "bore_as_fitted": "16.040 mm by bore gauge"}, WRAPPED)
    assert finding(verdict, "running_clearance").middle == pytest.approx(16.040 - 15.975)
    assert "the bore measured after pressing leads over the calculated one" in verdict.taken


def test_a_bronze_bushing_of_unknown_housing_is_held_between_bounds() -> None:
    """Without the housing's outside the bore closes in by anything from nothing to a little over all."""
    known, unknown = (
        finding(verdict_on(place, BRONZE), "running_clearance")
        for place in (BRONZE_SEAT, without(BRONZE_SEAT, "housing_outside_diameter"))
    )
    assert unknown.low is not None and unknown.high is not None
    assert known.low is not None and known.high is not None
    assert unknown.low < known.low < known.high < unknown.high
    assert unknown.high == pytest.approx(12.060 - 11.966)  # not closed in at all
    assert unknown.low == pytest.approx(12.050 - 11.984 - 0.039 / (1 - 0.34**2) ** 0.5)  # and wholly


def test_an_iso_4379_band_is_from_memory_and_proves_nothing() -> None:
    """The table of solid bushings was not read, so without the maker's clearance nothing is proven."""
    verdict = verdict_on(without(BRONZE_SEAT, "allowed_clearance"), BRONZE)
    found = finding(verdict, "running_clearance")
    assert found.status is OPEN
    assert found.grade == "from_memory"


def test_a_sintered_bore_is_held_to_the_standard_after_fitting() -> None:
    """ISO 2795 gives the bore after fitting; no clearance, which the maker must give."""
    part = {
        "style": "sintered",
        "material": "sintered bronze",
        "inside_diameter": "12 F7 mm",
        "outside_diameter": "16 s7 mm",
        "length": "12 ±0.1 mm",
    }
    place = {
        "housing_bore": "16 H7 mm",
        "shaft_diameter": "11.984 mm by micrometer",
        "bore_as_fitted": "12.009 mm by bore gauge",
        "seat_length": "12.5 ±0.2 mm",
        "metal": "steel",
    }
    verdict = verdict_on(place, part)
    assert finding(verdict, "fitted_bore").status is FITS
    assert "ISO 2795" in finding(verdict, "fitted_bore").source
    assert finding(verdict, "running_clearance").status is OPEN
    assert verdict_on({**place, "allowed_clearance": "0.01..0.05 mm"}, part).status is FITS


def test_a_plastic_bushing_is_not_proven_to_stay_without_its_maker() -> None:
    """A plastic creeps; nothing published says how much of the interference is left."""
    verdict = verdict_on(without(PLASTIC_SEAT, "allowed_interference"), PLASTIC)
    assert finding(verdict, "cold_interference").status is OPEN
    assert "gives way" in finding(verdict, "cold_interference").reason


def test_a_plastic_bushing_loosens_in_the_cold_and_a_bronze_one_in_the_heat() -> None:
    """In aluminium, what grows more than the housing is loosest cold, what grows less is loosest hot."""
    plastic, bronze = verdict_on(PLASTIC_SEAT, PLASTIC), verdict_on(BRONZE_SEAT, BRONZE)

    def middle(verdict: object, rule: str) -> float:
        found = finding(verdict, rule).middle  # type: ignore[arg-type]
        assert found is not None
        return found

    assert middle(plastic, "cold_interference") < middle(plastic, "seat_interference")
    assert middle(plastic, "seat_interference") < middle(plastic, "hot_interference")
    assert middle(bronze, "hot_interference") < middle(bronze, "seat_interference")
    assert middle(bronze, "seat_interference") < middle(bronze, "cold_interference")


def test_yield_is_judged_only_where_it_was_given() -> None:
    """With the housing's yield strength the stress is held against it, without it told beside."""
    told = verdict_on(BRONZE_SEAT, BRONZE)
    assert told.of("seat_stress") is None
    assert "hoop stress in the housing, at the most of the service" in [one.quantity for one in told.told]
    strong = verdict_on({**BRONZE_SEAT, "housing_yield": "240 MPa"}, BRONZE)
    weak = verdict_on({**BRONZE_SEAT, "housing_yield": "60 MPa"}, BRONZE)
    assert finding(strong, "seat_stress").status is FITS
    assert finding(weak, "seat_stress").status is OPEN


def test_roughness_is_told_beside_and_its_dispute_is_named() -> None:
    """Two sources differ by a factor of four; both ends are told and neither judges."""
    verdict = verdict_on({**BRONZE_SEAT, "roughness_rz": "6"}, {**BRONZE, "roughness_rz": "3"})
    left = next(one for one in verdict.told if one.rule == "interference_left")
    assert left.grade == "disputed"
    assert left.low == pytest.approx(0.028 - 0.018 - 0.8 * 0.009)
    assert left.high == pytest.approx(0.039 - 0.2 * 0.009)


def test_half_an_inch_has_no_published_row() -> None:
    """An inch size is judged by the maker's clearance or not at all."""
    part = {
        "style": "wrapped",
        "material": "PTFE-lined steel",
        "inside_diameter": "1/2 in",
        "outside_diameter": "19/32 in",
        "length": "3/8 ±0.010 in",
        "wall": "0.0459..0.0469 in",
    }
    place = {
        "housing_bore": "0.5937 +0.0008/0 in",
        "shaft_diameter": "0.4985 +0/-0.0005 in",
        "seat_length": "0.400 ±0.010 in",
        "metal": "steel",
    }
    verdict = verdict_on(place, part)
    assert finding(verdict, "running_clearance").status is OPEN
    assert finding(verdict, "housing_size").status is OPEN
    gauged = {**part, "ring_gauge_diameter": "0.5950..0.5962 in"}
    kept = verdict_on({**place, "allowed_clearance": "0.0005..0.0050 in"}, gauged)
    assert kept.status is FITS, kept.next_step


def test_the_step_between_18_and_19_mm_changes_the_housing() -> None:
    """The same excess of 0.020 mm is outside H7 at 18 mm and inside it at 19 mm."""
    at_18 = verdict_on({**STEEL_SEAT, "housing_bore": "18.000..18.020 mm"}, WRAPPED)
    part = {**WRAPPED, "inside_diameter": "17 mm", "outside_diameter": "19 mm"}
    place = {**STEEL_SEAT, "housing_bore": "19.000..19.020 mm", "shaft_diameter": "17 f7 mm"}
    assert finding(at_18, "housing_size").status is OPEN
    assert finding(verdict_on(place, part), "housing_size").status is FITS


def test_a_wall_from_memory_proves_nothing() -> None:
    """Rows above 24 mm have walls from memory: shown, never a proof."""
    part = {**WRAPPED, "inside_diameter": "30 mm", "outside_diameter": "34 mm", "wall": "1.970..2.005 mm"}
    place = {**STEEL_SEAT, "housing_bore": "34 H7 mm", "shaft_diameter": "30 f7 mm"}
    verdict = verdict_on(place, part)
    assert finding(verdict, "running_clearance").status is OPEN
    assert finding(verdict, "running_clearance").grade == "from_memory"


def test_plastic_is_held_against_its_fluid_and_temperature() -> None:
    """A plastic bushing too hot for its material is not said to fit."""
    hot = verdict_on(PLASTIC_SEAT, PLASTIC, {**SERVICE, "temperature": "-10..120 degC"})
    assert finding(hot, "material_temperature").status is OUT
    assert finding(verdict_on(PLASTIC_SEAT, PLASTIC), "material_fluid").status is FITS


def test_a_bronze_lined_strip_has_a_band_of_its_own() -> None:
    """A bimetal bushing is H9 once pressed and runs on f7 to e7; its clearance is not that of a lined one."""
    part = {**WRAPPED, "lining_material": "bronze", "material": "bronze-lined steel", "body": "steel"}
    found = finding(
        verdict_on({**STEEL_SEAT, "bore_as_fitted": "16.03 mm by bore gauge"}, part), "running_clearance"
    )
    assert found.limits is not None
    assert found.limits.low == pytest.approx(0.016)
    assert found.limits.high == pytest.approx(0.093)
    assert found.status is FITS


@pytest.mark.parametrize("bore", ["12.016..12.034 mm", "12.025 mm by bore gauge"])
def test_a_class_is_no_class_of_a_reading(bore: str) -> None:
    """Without the nominal bore no class after fitting is told: 12.025 H7 is no size of ISO 2795."""
    part = {
        "style": "sintered",
        "material": "sintered bronze",
        "inside_diameter": bore,
        "outside_diameter": "16 s7 mm",
        "length": "12 ±0.1 mm",
    }
    place = {
        "housing_bore": "16 H7 mm",
        "shaft_diameter": "11.984 mm by micrometer",
        "bore_as_fitted": "12.030 mm by bore gauge",
        "seat_length": "12.5 ±0.2 mm",
        "metal": "steel",
        "allowed_clearance": "0.01..0.06 mm",
    }
    verdict = verdict_on(place, part)
    assert verdict.of("fitted_bore") is None
    assert any("ISO 2795" in told for told in verdict.not_asked)


def test_a_wrapped_bushing_of_bronze_read_on_its_outside_has_no_housing_class() -> None:
    """18.05 H7 is no housing; without its nominal size or its ring gauge nothing holds it for sure."""
    part = {**WRAPPED, "material": "bronze", "lining_material": "bronze", "body": "steel"}
    read = {**part, "outside_diameter": "18.05 mm by micrometer"}
    assert finding(verdict_on(STEEL_SEAT, part), "housing_size").status is FITS
    assert (
        finding(verdict_on({**STEEL_SEAT, "housing_bore": "18.055 ±0.004 mm"}, read), "housing_size").status
        is OPEN
    )
