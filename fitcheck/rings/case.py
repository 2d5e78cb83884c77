"""A question with everything that follows from it before a rule is asked: spans, conditions, limits."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from fitcheck.decision import DecisionRule, decision_rule
from fitcheck.numbers import Span
from fitcheck.rings.circumstances import Circumstances, limits_for
from fitcheck.rings.conditions import METAL_EXPANSION_PER_K, Conditions, check_layers
from fitcheck.rings.glands import quantities
from fitcheck.rings.limits import back_up_width_mm, check_choices, detail_row
from fitcheck.rings.squeeze import REFERENCE_TEMPERATURE_DEG_C
from fitcheck.setting import Setting, drawn_span
from schema.dimension import Dimension
from schema.fields import meaning_of
from schema.finding import Limits
from schema.guidance import Guidance
from schema.materials import Material
from schema.parts import PART_MODELS
from schema.places import PLACE_MODELS, metals_of
from schema.question import Question
from schema.reference import Reference


class Case(NamedTuple):
    """A question with everything that follows from it before a rule is asked."""

    question: Question
    guidance: Guidance
    rule: DecisionRule
    material: Material | None
    conditions: Conditions
    sizes: dict[str, Dimension]
    spans: dict[str, Span]
    circumstances: Circumstances

    @property
    def gland(self) -> str:
        """rod, piston or face."""
        return self.circumstances.gland

    def ask(self, spans: Mapping[str, Span]) -> dict[str, Span]:
        """Every quantity that ring and gland make of a set of sizes."""
        return quantities(spans, self.conditions)

    @property
    def setting(self) -> Setting:
        """The sizes and the rule that decides, as every family has them."""
        surfaces = surfaces_of(self.question.ring.kind, self.question.gland.kind)
        return Setting(self.sizes, self.rule, self.ask, surfaces, OF_RING)


# Another ring is found more easily than another gland.
OF_RING = frozenset(("inside_diameter", "cross_section"))


@cache
def surfaces_of(ring: str, gland: str) -> dict[str, str]:
    """What each size of a kind of ring and gland is measured on."""
    found = {"back_up_width": "outside"}
    for model in (PART_MODELS[ring], PLACE_MODELS[gland]):
        found |= {name: meaning_of(field).measured_on for name, field in model.declared.items()}
    return found


def case_of(question: Question, reference: Reference) -> Case:
    """Work out spans and conditions of a question; refuses names of choices that do not exist."""
    guidance = reference.guidance
    check_choices(guidance, question.choices)
    rule = decision_rule(question.choices.decision_rule)
    sizes = {
        name: value
        for model in (question.ring, question.gland)
        for name, value in vars(model).items()
        if isinstance(value, Dimension)
    }
    if question.back_up is not None:
        sizes["back_up_width"] = question.back_up.width
    service, gland = question.service, question.gland.kind.removesuffix("_gland")
    material = reference.materials.get(question.ring.material)
    metals = [METAL_EXPANSION_PER_K[one] for one in metals_of(question.gland.metal)]
    temperature = service.temperature
    detail = detail_row(
        guidance,
        gland=gland,
        motion=service.motion or "static",
        cross_section_mm=question.ring.nominal_section_mm,
    )
    swell_low, swell_high = service.swell_percent
    conditions = Conditions(
        gland=gland,
        outward=service.pressure_from != "outside",
        area_factor=question.ring.area_factor,
        back_up_rings=question.gland.back_up_rings,
        printed_back_up_width=back_up_width_mm(detail),
        rubber_expansion_per_k=material.linear_expansion_per_k if material else 0.0,
        metal_expansion_per_k=metals[0],
        other_metal_per_k=metals[1] if len(metals) > 1 else None,
        cold_rise_k=_rise(temperature.low_deg_c) if temperature and material else None,
        hot_rise_k=_rise(temperature.high_deg_c) if temperature and material else None,
        swell_low_percent=swell_low,
        swell_high_percent=swell_high,
        thinning=question.choices.thinning,
        thickening=question.choices.thickening,
        layers_off=question.choices.layers_off,
    )
    check_layers(conditions)
    return Case(
        question=question,
        guidance=guidance,
        rule=rule,
        material=material,
        conditions=conditions,
        sizes=sizes,
        spans={name: drawn_span(size) for name, size in sizes.items()},
        circumstances=_circumstances(question, gland, sizes),
    )


def _rise(temperature_deg_c: float) -> float:
    return temperature_deg_c - REFERENCE_TEMPERATURE_DEG_C


def _circumstances(question: Question, gland: str, sizes: dict[str, Dimension]) -> Circumstances:
    service, ring = question.service, question.ring
    return Circumstances(
        ring=ring.kind,
        gland=gland,
        motion=service.motion or "",
        medium=service.medium or "",
        cross_section_mm=ring.nominal_section_mm,
        hardness_shore_a=ring.hardness_shore_a,
        pressure_mpa=service.pressure.gauge_mpa if service.pressure else None,
        material=ring.material,
        pressure_from=service.pressure_from or "",
        back_up_rings=question.gland.back_up_rings,
        faces_touch=gland == "face" and "face_gap" not in sizes,
    )


def limits_of(case: Case, name: str) -> Limits | None:
    """The published limits a quantity of this case is judged by; None where nothing covers it."""
    return limits_for(name, case.circumstances, case.guidance, case.question.choices)
