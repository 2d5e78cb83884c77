"""Any question, however odd, is answered or refused in words."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from fitcheck.check import check
from fitcheck.decision import DECISION_RULES
from schema.errors import BorebookError
from schema.finding import Status, Verdict
from schema.question import question_from
from schema.reference import published_reference

REFERENCE = published_reference()
MOST = settings(max_examples=120, deadline=None)
FEW = settings(max_examples=50, deadline=None)


def answer(given_: Mapping[str, Any]) -> Verdict:
    return check(question_from(given_), REFERENCE)


LENGTHS = st.sampled_from(
    [
        "0.1 mm",
        "2 mm",
        "3.53 ±0.1 mm",
        "4.8 mm",
        "4.80 +0.2/0 mm",
        "25.4 mm",
        "25.4 H7",
        "25 ±U0.5 mm",
        "31.5 +0.03/0 mm",
        "1 in",
        "31.5 mm by micrometer",
        "30 mm",
        "60 mm",
        "650 mm",
        "12.7..600 mm",
        "0 mm",
        "0..5 mm",
        "x",
        "",
        "-1 mm",
        "½ in",
    ]
)
PLACE_FIELDS = [
    "bore_diameter",
    "groove_diameter",
    "land_diameter",
    "shaft_diameter",
    "throat_diameter",
    "groove_width",
    "groove_depth",
    "groove_outer_diameter",
    "groove_inner_diameter",
    "face_gap",
    "corner_radius",
    "lead_in_length",
    "passes_over",
    "runout",
    "guide_clearance",
]
QUESTIONS = st.fixed_dictionaries(
    {
        "part": st.fixed_dictionaries(
            {},
            optional={
                "size": st.sampled_from(
                    ["214", "001", "475", "20x2.65", "0.6x0.5", "BS4518-0001-99", "JIS-G25", "999"]
                ),
                "kind": st.sampled_from(["o_ring", "four_lobed_ring", "gasket"]),
                "inside_diameter": LENGTHS,
                "cross_section": LENGTHS,
                "material": st.sampled_from(["NBR", "VMQ", "PTFE", "cheese"]),
                "hardness_shore_a": st.sampled_from(["70", "90", "20", "nan"]),
            },
        ),
        "place": st.dictionaries(st.sampled_from(PLACE_FIELDS), LENGTHS, max_size=8).flatmap(
            lambda sizes: st.fixed_dictionaries(
                {"kind": st.sampled_from(["rod", "piston", "face"])},
                optional={"back_up_rings": st.sampled_from(["0", "1", "2"]), "metal": st.just("steel")},
            ).map(lambda rest: {**sizes, **rest})
        ),
        "service": st.fixed_dictionaries(
            {},
            optional={
                "motion": st.sampled_from(["static", "reciprocating"]),
                "medium": st.sampled_from(["liquid", "gas"]),
                "pressure": st.sampled_from(["0 bar", "2 MPa", "100 MPa", "5"]),
                "pressure_from": st.sampled_from(["one_side", "both_sides", "inside", "outside"]),
                "temperature": st.sampled_from(["-100..350 degC", "20 degC", "-10..60 degC"]),
                "fluid": st.sampled_from(["mineral_oil", "nitrogen; mineral_oil", ""]),
                "swell_low_percent": st.sampled_from(["-30", "0"]),
                "swell_high_percent": st.sampled_from(["100", "5"]),
            },
        ),
    },
    optional={
        "back_up_ring": st.fixed_dictionaries({"width": LENGTHS}),
        "choices": st.fixed_dictionaries(
            {},
            optional={
                "decision_rule": st.sampled_from([*DECISION_RULES, "x"]),
                "squeeze": st.sampled_from(["floating", "percent-by-duty", "inch-chart", "metric-static"]),
                "gap": st.sampled_from(["by-section", "by-hardness"]),
                "thinning": st.sampled_from(["joined", "constant-volume", "none"]),
                "thickening": st.sampled_from(["constant-volume", "none"]),
                "layers_off": st.sampled_from(["stretch", "eccentricity swell", ""]),
            },
        ),
    },
)


@settings(max_examples=600, deadline=None)
@given(QUESTIONS)
def test_any_question_is_answered_or_refused(asked: dict[str, Any]) -> None:
    """No question raises anything but an error of this project, and every answer holds together."""
    before = copy.deepcopy(asked)
    try:
        verdict = answer(asked)
    except BorebookError as error:
        assert str(error)
    else:
        assert verdict.findings
        assert str(verdict.question)
        # A fill below nothing is no fit.
        assert all(
            one.low is None or one.low >= 0
            for one in verdict.findings
            if one.rule == "fill" and one.status is Status.FITS
        )
    assert asked == before
