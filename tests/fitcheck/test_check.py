"""The one question: what decides a verdict, what leaves it open, and what it says."""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from typing import Any

import pytest

from fitcheck.check import check
from schema.finding import WORST_FIRST, Finding, Status, Verdict
from schema.question import question_from
from schema.reference import published_reference
from tests.examples import GLANDS, PISTON

Ask = Callable[..., Verdict]

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def replaced(row: Any, **fields: object) -> Any:
    """A copy of a frozen row or table with some fields changed."""
    return row._replace(**fields)


def of(verdict: Verdict, rule: str) -> Finding:
    found = verdict.of(rule)
    assert found is not None
    return found


def test_the_question_the_tests_start_from_fits(ask: Ask) -> None:
    """AS568-214 in a usual piston gland fits by every rule, and none of them holds anything back."""
    verdict = ask()
    assert {finding.status for finding in verdict.findings} == {FITS}
    assert verdict.status is FITS
    assert verdict.next_step.startswith("Fits by every rule asked")


@pytest.mark.parametrize(
    ("gland", "sections", "expected"),
    [
        pytest.param("piston", {}, FITS, id="all fit"),
        pytest.param("piston", {"service": {"temperature": None}}, NOT, id="one not proven"),
        pytest.param(
            "piston", {"service": {"temperature": None}, "part": {"material": "EPDM"}}, OUT, id="one refuted"
        ),
    ],
)
def test_the_worst_finding_decides(ask: Ask, gland: str, sections: dict, expected: Status) -> None:  # type: ignore[type-arg]
    """The verdict is that of the worst finding, which stands first."""
    verdict = ask(gland, **sections)
    order = [WORST_FIRST.index(finding.status) for finding in verdict.findings]
    assert order == sorted(order)
    assert verdict.status is verdict.findings[0].status is expected


@pytest.mark.parametrize(
    ("gland", "section", "field", "named"),
    [
        ("piston", "place", "bore_diameter", "bore diameter"),
        ("piston", "place", "groove_diameter", "groove diameter"),
        ("piston", "place", "land_diameter", "land diameter"),
        ("piston", "place", "groove_width", "groove width"),
        ("rod", "place", "shaft_diameter", "shaft diameter"),
        ("rod", "place", "throat_diameter", "throat diameter"),
        ("face", "place", "groove_depth", "groove depth"),
        ("face", "place", "groove_outer_diameter", "outer wall"),
        ("piston", "service", "motion", "motion"),
        ("piston", "service", "medium", "medium"),
        ("piston", "service", "pressure", "pressure"),
        ("piston", "service", "temperature", "temperature range"),
        ("piston", "service", "fluid", "fluid"),
        ("piston", "part", "material", "material"),
        ("piston", "part", "hardness_shore_a", "hardness"),
    ],
)
def test_missing_data_is_not_proven_and_is_named(
    ask: Ask, gland: str, section: str, field: str, named: str
) -> None:
    """Without a size or a condition the verdict is not proven, and a finding names what is missing."""
    verdict = ask(gland, **{section: {field: None}})
    assert verdict.status is NOT
    told = [finding for finding in verdict.findings if named in finding.reason]
    assert told
    assert {finding.status for finding in told} == {NOT}


@pytest.mark.parametrize(
    ("field", "bare", "named"),
    [
        ("bore_diameter", "31.515 mm", "bore diameter"),
        ("groove_diameter", "25.375 mm", "groove diameter"),
        ("groove_width", "4.9 mm", "groove width"),
    ],
)
def test_a_size_without_tolerance_is_no_proof(ask: Ask, field: str, bare: str, named: str) -> None:
    """A size taken as exact leaves the verdict not proven and is named, though every rule holds."""
    verdict = ask(place={field: bare})
    assert verdict.status is NOT
    assert named in of(verdict, "sizes_known").reason
    assert {finding.status for finding in verdict.findings if finding.rule != "sizes_known"} == {FITS}


def test_a_measurement_of_no_uncertainty_is_no_proof(ask: Ask) -> None:
    """±U0 does not turn a bare size into a proven one."""
    assert ask(place={"bore_diameter": "31.515 ±U0 mm"}).status is NOT


@pytest.mark.parametrize("grade", ["from_memory", "disputed"])
def test_a_size_that_is_not_confirmed_is_no_proof(ask: Ask, grade: str) -> None:
    """A ring whose size rests on memory or on disputed print is not proven to fit."""
    verdict = ask(part={"size_grade": grade})
    assert verdict.status is NOT
    assert grade.replace("_", " ") in of(verdict, "size_evidence").reason


def test_a_limit_from_memory_is_no_proof() -> None:
    """A finding that holds only by a limit from memory is not proven."""
    reference = published_reference()
    remembered = tuple(replaced(row, grade="from_memory") for row in reference.guidance.limits)
    reference = replaced(reference, guidance=replaced(reference.guidance, limits=remembered))
    verdict = check(question_from(PISTON), reference)
    assert verdict.status is NOT
    assert of(verdict, "fill").reason == "its limit is from memory"


# -- decision rules and instruments ----------------------------------------------------------------

MEASURED = {
    "iso14253-1-u2": NOT,
    "iso14253-1-95": FITS,
    "simple-acceptance": FITS,
}


@pytest.mark.parametrize(("rule", "expected"), MEASURED.items(), ids=MEASURED)
def test_decision_rules_differ_on_the_same_reading(ask: Ask, rule: str, expected: Status) -> None:
    """A gap measured 1.8 u below its limit is proven at 95 % and as read, not over the whole of 2u."""
    verdict = ask(
        place={"bore_diameter": "31.500 ±U0.02 mm", "land_diameter": "31.318 ±0.0000001 mm"},
        choices={"decision_rule": rule},
    )
    finding = of(verdict, "extrusion_gap")
    assert finding.standard_uncertainty == pytest.approx(0.01)
    assert finding.limits.high == pytest.approx(0.20)
    assert finding.status is expected
    assert verdict.decision_rule == rule


def test_an_instrument_too_coarse_for_its_limits_is_told(ask: Ask) -> None:
    """Where the limits are narrower than 4u no reading could prove them, and the instrument is named."""
    finding = of(ask(part={"inside_diameter": "24.99 ±U0.1 mm", "cross_section": "3.53 ±U0.6 mm"}), "squeeze")
    assert finding.status is NOT
    assert "too coarse" in finding.reason
    named = of(
        ask(place={"bore_diameter": "31.5 mm by depth rod"}, part={"cross_section": "3.53 ±U0.6 mm"}),
        "squeeze",
    )
    assert "depth rod" in named.reason


def test_measuring_settles_what_the_drawing_leaves_open(ask: Ask) -> None:
    """A wide drawn tolerance is not proven; a reading within it is."""
    drawn = ask(place={"bore_diameter": "31.50 +0.4/0 mm"})
    measured = ask(place={"bore_diameter": "31.51 ±U0.01 mm"})
    assert (drawn.status, measured.status) == (NOT, FITS)
    assert "bore diameter" in of(drawn, "squeeze").action or "ring" in of(drawn, "squeeze").action


# -- gas, pressure sides, glands -------------------------------------------------------------------


def test_a_moving_gas_seal_is_not_failed_by_the_oil_table(ask: Ask) -> None:
    """A floating piston whose squeeze lies below the oil table is judged by the gas tables and fits."""
    shallow = {"groove_diameter": "25.10 0/-0.03 mm", "bore_diameter": "31.50 +0.03/0 mm"}
    oil = of(ask(place=shallow), "squeeze")
    gas = of(ask(place=shallow, service={"medium": "gas", "fluid": "nitrogen"}), "squeeze")
    assert oil.status is NOT
    assert (gas.status, gas.limits.guidance) == (FITS, "gas-two-tables")


def test_a_floating_pneumatic_ring_needs_no_squeeze(ask: Ask) -> None:
    """Chosen as floating, a gas ring without squeeze at its worst is not refused (NAVEDTRA 14105, ch. 7)."""
    loose = {"groove_diameter": "24.45 0/-0.05 mm"}
    gas = {"medium": "gas", "fluid": "nitrogen"}
    floating = ask(place=loose, service=gas, choices={"squeeze": "floating"})
    assert of(floating, "least_squeeze").status is FITS
    assert of(floating, "cold_squeeze").status is FITS
    assert of(ask(place=loose, service=gas), "least_squeeze").status is not FITS


@pytest.mark.parametrize(
    ("side", "count", "expected"),
    [
        ("one_side", 0, NOT),
        ("one_side", 1, FITS),
        ("both_sides", 0, NOT),
        ("both_sides", 1, NOT),
        ("both_sides", 2, FITS),
    ],
)
def test_pressure_from_both_sides_needs_two_back_ups(
    ask: Ask, side: str, count: int, expected: Status
) -> None:
    """0.15 mm at 10 MPa and 70 Shore A needs a back-up ring on each side pushed to (MIL-G-5514G 3.4)."""
    verdict = ask(
        place={
            "back_up_rings": str(count),
            "groove_width": "8.0 +0.2/0 mm",
            "land_diameter": "31.40 0/-0.02 mm",
        },
        service={"pressure": "10 MPa", "pressure_from": side},
    )
    assert of(verdict, "extrusion_gap").status is expected


def test_one_back_up_against_both_sides_is_told(ask: Ask) -> None:
    """The action says that both sides need one."""
    finding = of(
        ask(
            place={"back_up_rings": "1", "groove_width": "8.0 +0.2/0 mm"},
            service={"pressure": "20 MPa", "pressure_from": "both_sides"},
        ),
        "extrusion_gap",
    )
    assert "both sides" in finding.action


def test_a_rod_gland_is_judged_by_compression(ask: Ask) -> None:
    """On a rod gland compression and shaft interference are asked, stretch is not."""
    verdict = ask("rod")
    assert verdict.of("stretch") is None
    assert of(verdict, "peripheral_compression").status is FITS
    assert of(verdict, "shaft_interference").status is FITS
    assert verdict.status is FITS


@pytest.mark.parametrize(
    ("side", "asked", "other"),
    [("inside", "peripheral_compression", "stretch"), ("outside", "stretch", "peripheral_compression")],
)
def test_a_face_gland_is_judged_by_its_pressure_side(ask: Ask, side: str, asked: str, other: str) -> None:
    """Pressure from inside asks for compression on the outer wall, from outside for stretch on the inner."""
    verdict = ask("face", service={"pressure_from": side})
    assert verdict.of(other) is None
    assert of(verdict, asked).middle is not None


def test_faces_that_touch_leave_no_gap(ask: Ask) -> None:
    """Without a gap between the faces no pressure extrudes the ring."""
    finding = of(ask("face", service={"pressure": "50 MPa"}), "extrusion_gap")
    assert (finding.status, finding.limits.guidance) == (FITS, "no-gap")


@pytest.mark.parametrize("gland", GLANDS)
def test_back_up_rings_that_fill_the_groove_are_refused_and_not_a_crash(ask: Ask, gland: str) -> None:
    """A back-up ring as wide as the groove leaves no room: side room refuses it, and fill does not fit."""
    verdict = ask(
        gland,
        place={"back_up_rings": "1", "groove_width": "4.80 mm"},
        back_up_ring={"width": "4.80 mm"},
    )
    assert of(verdict, "side_room").status is OUT
    assert of(verdict, "fill").status is not FITS


def test_a_face_groove_without_volume_is_not_said_to_be_filled_well(ask: Ask) -> None:
    """A groove wider than the radius of its wall does not fit by its fill."""
    assert (
        of(ask("face", place={"groove_outer_diameter": "4 mm", "groove_inner_diameter": None}), "fill").status
        is not FITS
    )


# -- material and guidance -------------------------------------------------------------------------


def test_epdm_in_mineral_oil_is_refused(ask: Ask) -> None:
    """Every source agrees that mineral oil destroys EPDM."""
    verdict = ask(part={"material": "EPDM"})
    assert verdict.status is OUT
    assert of(verdict, "material_fluid").status is OUT


@pytest.mark.parametrize(
    ("temperature", "expected"),
    [
        ("-20..100 degC", FITS),
        ("-30..60 degC", NOT),
        ("0..110 degC", NOT),
        ("-60..60 degC", OUT),
        ("0..130 degC", OUT),
    ],
)
def test_a_temperature_is_held_against_what_sources_agree_on(
    ask: Ask, temperature: str, expected: Status
) -> None:
    """NBR: -20 to 100 degC by every source, -54 to 121 by at least one, beyond by none."""
    assert of(ask(service={"temperature": temperature}), "material_temperature").status is expected


def test_a_radial_gap_table_is_doubled_for_the_diametral_clearance(ask: Ask) -> None:
    """0.10 mm radial (Techoseal 2019, p. 9) judges a diametral clearance by 0.20 mm."""
    finding = of(ask(choices={"gap": "radial-by-section"}), "extrusion_gap")
    assert finding.limits.high == pytest.approx(0.20)


def test_small_sections_may_be_squeezed_as_hard_as_their_table(ask: Ask) -> None:
    """The printed band of .070 in static reaches 32 %: the general upper limit does not cut below a table."""
    verdict = ask(
        part={"size": "AS568-014", "material": "NBR"},
        place={
            "bore_diameter": "15.55 +0.02/0 mm",
            "groove_diameter": "12.75 0/-0.02 mm",
            "land_diameter": "15.52 0/-0.02 mm",
            "groove_width": "2.6 +0.2/0 mm",
        },
        service={"motion": "reciprocating"},
    )
    band, upper = of(verdict, "squeeze").limits, of(verdict, "greatest_squeeze").limits
    assert upper.high >= band.high


# -- what a verdict says ---------------------------------------------------------------------------


@pytest.mark.parametrize("gland", GLANDS)
def test_every_finding_says_what_it_means_and_what_to_do(ask: Ask, gland: str) -> None:
    """Each finding has its words; each that does not fit says what to do."""
    verdict = ask(
        gland,
        service={"temperature": None, "fluid": "mineral_oil"},
        part={"material": "EPDM"},
    )
    assert all(finding.quantity and finding.meaning for finding in verdict.findings)
    assert all(finding.action for finding in verdict.findings if finding.status is not FITS)


@pytest.mark.parametrize("gland", GLANDS)
def test_a_finding_that_fits_names_its_source(ask: Ask, gland: str) -> None:
    """What is proven rests on a published source and its grade."""
    assert all(one.source and one.grade for one in ask(gland).findings if one.status is FITS)


def test_what_was_not_asked_is_listed(ask: Ask) -> None:
    """What was not given and not needed is told, and no more once it is given."""
    before = ask().not_asked
    after = ask(place={"corner_radius": "0.2..0.4 mm", "surface_finish_groove": "1.6 um Ra"}).not_asked
    assert [text for text in before if text not in after] == ["finish of the groove", "corner radius"]


def test_the_layers_of_a_squeeze_are_told_in_order(ask: Ask) -> None:
    """From handbook squeeze over stretch and eccentricity to the cold end, the last layer is the finding."""
    finding = of(ask(), "cold_squeeze")
    assert [layer.name for layer in finding.layers] == [
        "as handbooks count",
        "stretch",
        "eccentricity",
        "temperature",
        "swell",
    ]
    assert finding.layers[-1].low == pytest.approx(finding.low)


def test_a_layer_that_is_off_is_told_so(ask: Ask) -> None:
    """A layer switched off changes nothing and says that it is off."""
    layers = of(ask(choices={"layers_off": "eccentricity"}), "least_squeeze").layers
    stretch, eccentricity = layers[1], layers[2]
    assert (stretch.on, eccentricity.on) == (True, False)
    assert (stretch.low, stretch.high) == (eccentricity.low, eccentricity.high)


def test_the_same_question_has_the_same_answer() -> None:
    """check is pure: asked twice it gives equal verdicts, and it leaves the question as it was."""
    question = question_from(PISTON)
    before = copy.deepcopy(question)
    assert check(question, published_reference()) == check(question, published_reference())
    assert question == before


def test_margins_stand_in_order_within_a_status(ask: Ask) -> None:
    """Among findings of one status the tightest stands first."""
    margins = [one.margin for one in ask().findings if one.margin is not None and math.isfinite(one.margin)]
    assert margins == sorted(margins)


def test_a_section_almost_unknown_is_not_proven_rather_than_a_failure(ask: Ask) -> None:
    """U of nearly the whole section: its reach ends at nothing, where squeeze is not defined."""
    verdict = ask(part={"cross_section": "12.7 ±U12 mm"})
    assert verdict.status is not FITS
    assert of(verdict, "squeeze").status is not FITS
