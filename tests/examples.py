"""Questions that fit by every rule, for tests and benchmarks to ask and to change in one place."""

from __future__ import annotations

from typing import Any

from fitcheck.check import check
from schema.finding import Verdict
from schema.question import question_from
from schema.reference import published_reference

END_CAP: dict[str, Any] = {
    "part": {"size": "AS568-217", "material": "NBR", "hardness_shore_a": 70},
    "place": {
        "kind": "piston_gland",
        "bore_diameter": "36 H7 mm",
        "groove_diameter": "30.36 ±0.01 mm",
        "land_diameter": "36 g6 mm",
        "groove_width": "5.0 +0.2/0 mm",
    },
    "service": {
        "motion": "static",
        "medium": "liquid",
        "pressure": "2.5 MPa",
        "pressure_from": "one_side",
        "temperature": "-10..60 degC",
        "fluid": "mineral_oil",
    },
}
PISTON: dict[str, Any] = {
    "part": {"size": "AS568-214", "material": "NBR", "hardness_shore_a": "70"},
    "place": {
        "kind": "piston_gland",
        "bore_diameter": "31.50 +0.03/0 mm",
        "groove_diameter": "25.40 0/-0.05 mm",
        "land_diameter": "31.45 0/-0.02 mm",
        "groove_width": "4.80 +0.2/0 mm",
    },
    "service": {
        "motion": "reciprocating",
        "medium": "liquid",
        "pressure": "2.5 MPa",
        "pressure_from": "one_side",
        "temperature": "-5..50 degC",
        "fluid": "mineral_oil",
    },
}
ROD: dict[str, Any] = {
    **PISTON,
    "place": {
        "kind": "rod_gland",
        "shaft_diameter": "25.40 0/-0.03 mm",
        "groove_diameter": "31.50 +0.05/0 mm",
        "throat_diameter": "25.45 +0.02/0 mm",
        "groove_width": "4.80 +0.2/0 mm",
    },
}
FACE: dict[str, Any] = {
    **PISTON,
    "place": {
        "kind": "face_gland",
        "groove_depth": "2.65 ±0.05 mm",
        "groove_outer_diameter": "31.70 +0.1/0 mm",
        "groove_inner_diameter": "22.1 0/-0.1 mm",
        "groove_width": "4.80 +0.1/0 mm",
    },
    "service": {**PISTON["service"], "motion": "static", "pressure_from": "inside"},
}
GLANDS = {"piston": PISTON, "rod": ROD, "face": FACE}

# The quantities of a moving piston ring, as a sweep judges them.
PISTON_RULES = (
    "squeeze",
    "least_squeeze",
    "greatest_squeeze",
    "cold_squeeze",
    "hot_squeeze",
    "stretch",
    "fill",
    "hot_fill",
    "side_room",
    "extrusion_gap",
    "section_in_groove",
    "assembly_stretch",
)


def asked(base: dict[str, Any], **changes: dict[str, Any] | None) -> Verdict:
    """The verdict of a base question with sections changed; a field that is None is left out."""
    given = {name: dict(section) for name, section in base.items()}
    for name, change in changes.items():
        given[name] = {**given.get(name, {}), **(change or {})}
    cleaned = {
        name: {field: value for field, value in section.items() if value is not None}
        for name, section in given.items()
    }
    return check(question_from(cleaned), published_reference())
