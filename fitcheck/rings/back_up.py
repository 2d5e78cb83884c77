"""A back-up ring beside the seal: what it is made of, and whether its thickness suits the gland."""

from __future__ import annotations

import math

from fitcheck.made_of import made_of
from fitcheck.numbers import Real
from fitcheck.rings.case import Case
from fitcheck.rule import rule, span
from fitcheck.setting import drawn_span
from fitcheck.single import single
from schema.finding import Finding
from schema.parts import BackUpRing
from schema.reference import Reference
from schema.seal_tables import seal_limits

_WALLS = {"rod": ("groove_diameter", "shaft_diameter"), "piston": ("bore_diameter", "groove_diameter")}


@rule(
    unit="%",
    equation="r = 100 (1 - 2 t / (D - d))",
    symbols={
        "r": "room across the gland [%]",
        "t": "radial_thickness_mm",
        "D": "outer_diameter_mm",
        "d": "inner_diameter_mm",
    },
    source="geometry",
    rises_with=("outer_diameter_mm",),
    falls_with=("inner_diameter_mm", "radial_thickness_mm"),
    valid={
        "radial_thickness_mm": (0.5, 8.0),
        "outer_diameter_mm": (30.0, 60.0),
        "inner_diameter_mm": (5.0, 29.0),
    },
)
def back_up_room(*, radial_thickness_mm: Real, outer_diameter_mm: Real, inner_diameter_mm: Real) -> Real:
    """Share of the gland's depth that a back-up ring leaves open.

    Equation   r = 100 (1 - 2 t / (D - d))
    Symbols    r  returned             [%]
               t  radial_thickness_mm  [mm]
               D  outer_diameter_mm    [mm]  groove floor of a rod gland, bore of a piston gland
               d  inner_diameter_mm    [mm]  rod, or groove floor of a piston gland
    Valid      D above d
    Source     geometry

    >>> back_up_room(radial_thickness_mm=3.0, outer_diameter_mm=22.11, inner_diameter_mm=15.975)
    2.2
    """
    return 100.0 * (1.0 - 2.0 * radial_thickness_mm / (outer_diameter_mm - inner_diameter_mm))


def back_up_findings(case: Case, ring: BackUpRing, reference: Reference) -> list[Finding]:
    """Findings on a back-up ring's own material and thickness."""
    found = [
        one._replace(rule=one.rule.replace("material", "back_up"))
        for one in made_of(
            ring.material, case.question.service, reference, by=case.rule, whose="back-up ring"
        ).findings
    ]
    walls = _WALLS.get(case.gland)
    if walls is None or ring.radial_thickness is None or not all(one in case.sizes for one in walls):
        return found
    outer, inner = (case.sizes[one] for one in walls)
    room = span(
        back_up_room,
        radial_thickness_mm=drawn_span(ring.radial_thickness),
        outer_diameter_mm=drawn_span(outer),
        inner_diameter_mm=drawn_span(inner),
    )
    depth = (outer.middle - inner.middle) / 2.0
    u = math.hypot(
        float(ring.radial_thickness.standard_uncertainty),
        float(outer.standard_uncertainty) / 2.0,
        float(inner.standard_uncertainty) / 2.0,
    )
    found.append(
        single(
            case.rule,
            "back_up_room",
            "room that the back-up ring leaves across the gland",
            room,
            seal_limits()["back_up_room", "any"],
            good="fills the gland as a back-up ring should",
            bad="too thick to enter, or so thin that the seal is forced past it",
            action="A back-up ring that is made for this gland.",
            standard_uncertainty=100.0 * u / depth,
        )
    )
    return found
