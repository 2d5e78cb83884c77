"""Cases in which a careless program answers ``fits``, ``does not fit`` or gives wrong advice.

Each is a question near one that fits, with one thing that must not pass unseen.
"""

from __future__ import annotations

from typing import Any

import pytest

from schema.errors import InputErrors
from schema.finding import Status
from tests.examples import END_CAP, PISTON, asked

FACE: dict[str, Any] = {
    **END_CAP,
    "place": {
        "kind": "face_gland",
        "groove_depth": "2.65 ±0.05 mm",
        "groove_outer_diameter": "36.5 +0.1/0 mm",
        "groove_width": "5.0 +0.2/0 mm",
    },
    "service": {**END_CAP["service"], "pressure_from": "inside"},
}
ROD: dict[str, Any] = {
    "part": {"size": "AS568-214", "material": "NBR", "hardness_shore_a": 70},
    "place": {
        "kind": "rod_gland",
        "shaft_diameter": "25.40 f7 mm",
        "groove_diameter": "31.50 +0.03/0 mm",
        "throat_diameter": "25.40 H8 mm",
        "groove_width": "4.8 +0.2/0 mm",
    },
    "service": {**END_CAP["service"], "motion": "reciprocating"},
}
FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


@pytest.mark.parametrize("base", [END_CAP, FACE, ROD], ids=["piston", "face", "rod"])
def test_the_base_questions_fit(base: dict[str, Any]) -> None:
    """What the cases below change does fit as it stands."""
    assert asked(base).status is FITS


@pytest.mark.parametrize(
    ("base", "changes", "rule", "status"),
    [
        pytest.param(END_CAP, {"part": {"material": "POM"}}, "material_kind", OUT, id="a plastic ring"),
        pytest.param(END_CAP, {"part": {"material": "PTFE"}}, "material_kind", OUT, id="a PTFE ring"),
        pytest.param(
            END_CAP,
            {"place": {"back_up_rings": 1, "groove_width": "7.5 ±0.02 mm"}},
            "back_up_width",
            NOT,
            id="a back-up ring of unknown width",
        ),
        pytest.param(
            END_CAP,
            {
                "place": {"back_up_rings": 1, "groove_width": "5.57 ±0.01 mm"},
                "back_up_ring": {"width": "1.40 ±U0.023 mm"},
            },
            "fill",
            NOT,
            id="a measured back-up ring keeps its uncertainty",
        ),
        pytest.param(
            END_CAP,
            {
                "place": {"back_up_rings": 1, "groove_width": "7.5 ±0.02 mm"},
                "back_up_ring": {"width": "1.40 mm"},
            },
            "sizes_known",
            NOT,
            id="a back-up ring without tolerance",
        ),
        pytest.param(
            FACE, {"service": {"pressure_from": None}}, "pressure_side", NOT, id="a face without side"
        ),
        pytest.param(
            END_CAP,
            {"part": {"inside_diameter": "29.74 ±4 mm", "cross_section": "3.53 ±0.10 mm"}},
            "stretch",
            NOT,
            id="a nominal limit does not excuse any tolerance",
        ),
        pytest.param(
            END_CAP,
            {
                "part": {"hardness_shore_a": 90},
                "place": {
                    "back_up_rings": 1,
                    "groove_width": "7.5 ±0.02 mm",
                    "land_diameter": "35.89 ±0.005 mm",
                },
                "service": {"pressure": "34 MPa"},
                "back_up_ring": {"width": "1.35 ±0.05 mm"},
            },
            "extrusion_gap",
            NOT,
            id="a clearance for ordinary pressure at 34 MPa",
        ),
        pytest.param(
            END_CAP, {"service": {"swell_low_percent": 60}}, "hot_fill", OUT, id="one swell bound, high"
        ),
        pytest.param(
            ROD, {"service": {"swell_high_percent": -25}}, "cold_squeeze", NOT, id="one swell bound, low"
        ),
        pytest.param(
            END_CAP,
            {"service": {"temperature": "-10 ... 160 degC"}},
            "material_temperature",
            OUT,
            id="a range of three dots",
        ),
        pytest.param(
            END_CAP,
            {"service": {"fluid": "water", "temperature": "-10..95 degC"}},
            "material_fluid",
            NOT,
            id="hot water",
        ),
        pytest.param(
            ROD,
            {"part": {"material": "VMQ"}, "service": {"fluid": "nitrogen", "medium": "gas"}},
            "material_fluid",
            NOT,
            id="silicone lets a gas charge go",
        ),
        pytest.param(ROD, {"part": {"material": "FVMQ"}}, "material_fluid", NOT, id="static use only"),
        pytest.param(
            END_CAP,
            {"part": {"material": "FKM"}, "service": {"fluid": "isopropanol"}},
            "material_fluid",
            NOT,
            id="a disputed rating",
        ),
        pytest.param(
            END_CAP,
            {"part": {"material": "FVMQ"}, "service": {"temperature": "-28..176 degC"}},
            "material_temperature",
            NOT,
            id="a temperature range from memory",
        ),
        pytest.param(FACE, {"place": {"face_gap": "0.05 mm"}}, "sizes_known", NOT, id="a bare face gap"),
        pytest.param(ROD, {"place": {"guide_clearance": "0.001 mm"}}, "sizes_known", NOT, id="a bare guide"),
        pytest.param(
            END_CAP,
            {"place": {"lead_in_length": "1.80 mm by calliper"}},
            "lead_in",
            NOT,
            id="a measured chamfer",
        ),
        pytest.param(
            {**END_CAP, "part": {"size": "AS568-006", "material": "NBR", "hardness_shore_a": 70}},
            {
                "place": {
                    "bore_diameter": "5.80 +0.01/0 mm",
                    "groove_diameter": "3.03 ±0.01 mm",
                    "land_diameter": "5.75 ±0.01 mm",
                    "groove_width": "2.5 +0.1/0 mm",
                }
            },
            "assembly_stretch",
            NOT,
            id="the land is to be passed",
        ),
    ],
)
def test_what_must_not_pass_is_told(
    base: dict[str, Any], changes: dict[str, dict[str, Any]], rule: str, status: Status
) -> None:
    """The finding of the rule has the status, and the verdict is not ``fits``."""
    verdict = asked(base, **changes)
    finding = verdict.of(rule)
    assert finding is not None
    assert (finding.status, verdict.status is FITS) == (status, False)


@pytest.mark.parametrize(
    ("base", "changes", "told"),
    [
        pytest.param(
            END_CAP,
            {"back_up_ring": {"width": "1.35 ±0.05 mm"}},
            "back_up_rings",
            id="a back-up ring without count",
        ),
        pytest.param(
            FACE, {"service": {"pressure_from": "both_sides"}}, "ask once for each", id="a face from both"
        ),
        pytest.param(
            ROD, {"service": {"pressure_from": "inside"}}, "one_side, both_sides", id="a rod from inside"
        ),
        pytest.param(
            FACE,
            {"place": {"groove_inner_diameter": "30 ±0.1 mm"}},
            "walls leave between",
            id="walls too close",
        ),
        pytest.param(END_CAP, {"service": {"fluid": "nitrogen"}}, "nitrogen is a gas", id="a liquid gas"),
        pytest.param(END_CAP, {"service": {"temperature": "1 60 degC"}}, "temperature", id="a number in two"),
        pytest.param(
            ROD, {"place": {"shaft_diameter": "15.97; 1.598 mm by micrometer"}}, "slip", id="a slip"
        ),
    ],
)
def test_what_contradicts_itself_is_refused(
    base: dict[str, Any], changes: dict[str, dict[str, Any]], told: str
) -> None:
    """Contradictions are refused with a reason instead of being judged."""
    with pytest.raises(InputErrors, match=told):
        asked(base, **changes)


@pytest.mark.parametrize("hardness", [70, 75, 80, 85, 90, 95])
@pytest.mark.parametrize("section", ["AS568-020", "AS568-123", "AS568-217", "AS568-330"])
def test_more_pressure_never_allows_more_clearance(hardness: int, section: str) -> None:
    """A table that ends below a pressure does not make room for a looser one."""
    part = {"size": section, "hardness_shore_a": hardness}
    limits = []
    for pressure in (1, 3, 4, 6, 8, 11, 14, 16, 17, 18, 20, 24, 30):
        finding = asked(END_CAP, part=part, service={"pressure": f"{pressure} MPa"}).of("extrusion_gap")
        assert finding is not None
        limits.append(finding.limits.high if finding.limits and finding.limits.high is not None else 0.0)
    assert limits == sorted(limits, reverse=True)


@pytest.mark.parametrize("pressure", [1, 5, 11, 18])
def test_a_harder_ring_bears_no_less_clearance(pressure: int) -> None:
    """From 70 to 95 Shore A the clearance that is allowed never falls."""
    limits = []
    for hardness in range(70, 96):
        verdict = asked(
            END_CAP, part={"hardness_shore_a": hardness}, service={"pressure": f"{pressure} MPa"}
        ).of("extrusion_gap")
        assert verdict is not None
        limits.append(verdict.limits.high if verdict.limits and verdict.limits.high is not None else 0.0)
    assert limits == sorted(limits)


def test_a_worn_ring_is_judged_as_the_size_it_is() -> None:
    """The band of a size code stays when its section is measured."""
    as_coded = asked(END_CAP).of("squeeze")
    worn = asked(END_CAP, part={"cross_section": "3.40 ±U0.02 mm"}).of("squeeze")
    assert as_coded is not None
    assert worn is not None
    assert as_coded.limits == worn.limits


def test_a_section_outside_its_code_is_told() -> None:
    """A measured section that no such ring has when new is said to be taken as given."""
    assert any(
        "outside AS568-217" in one for one in asked(END_CAP, part={"cross_section": "3.1 ±U0.02 mm"}).taken
    )


def test_simple_acceptance_never_calls_an_instrument_too_coarse() -> None:
    """Without a guard band there is always a reading that is accepted."""
    verdict = asked(
        END_CAP,
        place={"groove_diameter": "29.9 mm by micrometer"},
        choices={"decision_rule": "simple-acceptance"},
    )
    assert [one for one in verdict.findings if "too coarse" in one.reason] == []


def test_a_refusal_names_the_source_that_refuses() -> None:
    """A clearance beyond the loosest table cites that table, not the tightest."""
    finding = asked(END_CAP, place={"land_diameter": "35.5 ±0.01 mm"}).of("extrusion_gap")
    assert finding is not None
    assert finding.status is OUT
    assert finding.limits is not None
    assert finding.source == finding.limits.refuse_source != finding.limits.source


def test_a_refusal_without_source_says_so() -> None:
    """A limit of refusal that is our own judgement is graded so."""
    finding = asked(END_CAP, place={"surface_finish_running": "3.3 um Ra"}).of("finish_running")
    assert finding is not None
    assert (finding.status, finding.grade) == (OUT, "own_judgement")


def test_a_measured_size_counts_where_it_decides() -> None:
    """A ring's inside diameter that decides only at the corner widens the finding there.

    In the middle the ring is drawn in by its groove and its own diameter does not count; with the widest
    groove and the thinnest section it is the diameter that meets the shaft: 25.41 mm on 25.37 mm.
    """
    verdict = asked(
        ROD,
        part={"inside_diameter": "25.36 ±U0.05 mm", "cross_section": "3.45 ±0.10 mm"},
        place={"groove_diameter": "32.2 ±0.05 mm", "shaft_diameter": "25.40 0/-0.03 mm"},
    )
    finding = verdict.of("shaft_interference")
    assert finding is not None
    assert finding.status is NOT
    assert finding.low is not None
    assert finding.low == pytest.approx(-0.04, abs=0.001)
    assert finding.standard_uncertainty == pytest.approx(0.025, abs=0.001)
    assert finding.conformance_probability is not None
    assert finding.conformance_probability < 0.95


def test_what_no_service_could_save_is_refused() -> None:
    """A ring that fills its groove many times over does not fit, told or not what it shall do."""
    nothing = dict.fromkeys(("motion", "medium", "pressure", "pressure_from", "temperature", "fluid"))
    verdict = asked(END_CAP, part={"size": "AS568-425"}, service=nothing)
    assert verdict.status is OUT
    assert verdict.of("fill").reason == "refused whatever is not told of the service"
    fitting = asked(END_CAP, service=nothing)
    assert fitting.status is NOT
    assert OUT not in {one.status for one in fitting.findings}


def test_the_side_of_one_back_up_ring_is_asked_for() -> None:
    """One back-up ring helps only away from the pressure: side untold, nothing is refused or proven."""
    high = {"pressure": "12 MPa", "pressure_from": None}
    place = {"back_up_rings": 1, "groove_width": "6.5 +0.2/0 mm", "land_diameter": "35.90 ±0.01 mm"}
    finding = asked(END_CAP, place=place, service=high).of("extrusion_gap")
    assert finding is not None
    assert (finding.status, finding.lacks) == (NOT, ("side of the pressure",))


def test_silicone_does_not_hold_a_charge_of_air() -> None:
    """Air is mostly nitrogen: a ring that lets a nitrogen charge through is not proven for air."""
    for fluid in ("air", "nitrogen"):
        verdict = asked(END_CAP, part={"material": "VMQ"}, service={"medium": "gas", "fluid": fluid})
        assert verdict.of("material_fluid").status is NOT


def test_a_floating_ring_is_not_said_to_touch() -> None:
    """Taken to float, a ring without squeeze is told to be sealed by the gas, not by contact."""
    verdict = asked(
        PISTON,
        place={"groove_diameter": "24.40 0/-0.05 mm"},
        service={"medium": "gas", "fluid": "nitrogen"},
        choices={"squeeze": "floating"},
    )
    for rule in ("least_squeeze", "cold_squeeze"):
        assert "taken to float" in verdict.of(rule).meaning


def test_a_groove_ten_times_too_wide_is_not_proven() -> None:
    """A slip of the decimal sign in the width leaves room for anything, and is asked about."""
    finding = asked(END_CAP, place={"groove_width": "49 +0.2/0 mm"}).of("groove_width")
    assert finding is not None
    assert (finding.status, finding.grade) == (NOT, "own_judgement")
    assert asked(END_CAP).of("groove_width") is None
