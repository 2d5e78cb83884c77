"""A question with everything that follows from it before a rule is asked: spans, conditions, limits."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass

from fitcheck.decision import DecisionRule, decision_rule
from fitcheck.glands import METAL_EXPANSION_PER_K, Conditions, check_layers
from fitcheck.limits import (
    SQUEEZE_SCALE,
    back_up_width_mm,
    detail_row,
    gap_limits,
    rule_limits,
    squeeze_limits,
)
from fitcheck.numbers import Span
from fitcheck.squeeze import REFERENCE_TEMPERATURE_DEG_C
from schema.dimension import Dimension
from schema.finding import Limits
from schema.guidance import Guidance
from schema.materials import Material
from schema.question import Question
from schema.reference import Reference


@dataclass(frozen=True)
class Case:
    """A question with everything that follows from it before a rule is asked."""

    question: Question
    guidance: Guidance
    rule: DecisionRule
    material: Material | None
    conditions: Conditions
    sizes: dict[str, Dimension]
    spans: dict[str, Span]
    gland: str
    motion: str
    medium: str


def case_of(question: Question, reference: Reference) -> Case:
    """Work out spans and conditions of a question; refuses names of choices that do not exist."""
    guidance = reference.guidance
    rule = decision_rule(question.choices.decision_rule)
    sizes = {
        name: value
        for model in (question.ring, question.gland)
        for name, value in vars(model).items()
        if isinstance(value, Dimension)
    }
    service, gland = question.service, question.gland.kind.removesuffix("_gland")
    material = reference.materials.get(question.ring.material)
    metal = METAL_EXPANSION_PER_K[question.gland.metal]
    temperature = service.temperature
    count = question.gland.back_up_rings
    detail = detail_row(
        guidance,
        gland=gland,
        motion=service.motion or "static",
        cross_section_mm=question.ring.cross_section.middle_mm,
    )
    width = _back_up_width(question, count, back_up_width_mm(detail, count))
    conditions = Conditions(
        gland=gland,
        outward=service.pressure_from != "outside",
        area_factor=question.ring.area_factor,
        back_up_width=width,
        rubber_expansion_per_k=material.linear_expansion_per_k if material else 0.0,
        metal_expansion_per_k=metal,
        cold_rise_k=_rise(temperature.low_deg_c) if temperature and material else None,
        hot_rise_k=_rise(temperature.high_deg_c) if temperature and material else None,
        swell_low_percent=service.swell_low_percent or 0.0,
        swell_high_percent=service.swell_high_percent or 0.0,
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
        gland=gland,
        motion=service.motion or "",
        medium=service.medium or "",
    )


def drawn_span(size: Dimension) -> Span:
    """Worst case of a drawn size; a measured one as read (its uncertainty is the decision rule's)."""
    return Span(float(size.lower), size.middle_mm, float(size.upper))


def _rise(temperature_deg_c: float) -> float:
    return temperature_deg_c - REFERENCE_TEMPERATURE_DEG_C


def _back_up_width(question: Question, count: int, printed: float | None) -> Span | None:
    if count and question.back_up is not None:
        one = drawn_span(question.back_up.width)
        return Span(one.low * count, one.middle * count, one.high * count)
    return None if printed is None else Span.point(printed)


def limits_of(case: Case, name: str) -> Limits | None:
    """The published limits a quantity of this case is judged by; None where nothing covers it."""
    question = case.question
    section = question.ring.cross_section.middle_mm
    if name in ("least_squeeze", "cold_squeeze") and case.medium == "gas" and floats(case):
        return None
    if name == "squeeze":
        if not case.motion or not case.medium:
            return None
        return squeeze_limits(
            case.guidance,
            question.choices,
            ring=question.ring.kind,
            gland=case.gland,
            motion=case.motion,
            medium=case.medium,
            cross_section_mm=section,
        )
    if name == "extrusion_gap":
        return _gap_limits(case, section)
    if not case.motion:
        return None
    scale = {"side_room": section, "shaft_interference": section}.get(
        name, 100.0 if "fill" in name else SQUEEZE_SCALE
    )
    limits = rule_limits(
        case.guidance,
        question.choices,
        name,
        gland=case.gland,
        motion=case.motion,
        medium=case.medium or "liquid",
        scale=scale,
    )
    if limits is not None and name in ("greatest_squeeze", "hot_squeeze"):
        return _not_below_the_table(case, limits)
    return limits


def floats(case: Case) -> bool:
    """Whether the ring is judged as a floating pneumatic seal."""
    return case.question.choices.squeeze_guidance == "floating"


def _not_below_the_table(case: Case, limits: Limits) -> Limits:
    """Small sections are squeezed harder by the gland tables than the general upper limit allows."""
    band = limits_of(case, "squeeze")
    if band is None or band.basis != "worst_case" or band.high is None or limits.high is None:
        return limits
    if band.high <= limits.high:
        return limits
    return dataclasses.replace(
        limits, high=band.high, refuse_high=band.high, source=band.source, grade=band.grade
    )


def _gap_limits(case: Case, section: float) -> Limits | None:
    question = case.question
    pressure = question.service.pressure
    if case.gland == "face" and question.gland.kind == "face_gland" and "face_gap" not in case.sizes:
        return Limits(
            0.0,
            0.0,
            "mm",
            "worst_case",
            "no-gap",
            "seal handbook, section IV (opening): no gap, no back-up ring needed; faces taken to touch",
            "published_once",
        )
    if pressure is None or question.ring.hardness_shore_a is None:
        return None
    limits = gap_limits(
        case.guidance,
        question.choices,
        hardness_shore_a=question.ring.hardness_shore_a,
        pressure_mpa=pressure.gauge_mpa,
        cross_section_mm=section,
        material=question.ring.material,
    )
    needed_count = {"one_side": 1, "both_sides": 2}.get(question.service.pressure_from or "", 2)
    detail = detail_row(
        case.guidance, gland=case.gland, motion=case.motion or "static", cross_section_mm=section
    )
    if limits is None or detail is None or question.gland.back_up_rings < needed_count:
        return limits
    with_back_up = max(limits.high or 0.0, detail.diametral_clearance_max_mm)
    return dataclasses.replace(
        limits,
        high=with_back_up,
        refuse_high=math.inf,
        source=f"{detail.source}: {detail.locator}, glands with back-up rings"
        if with_back_up == detail.diametral_clearance_max_mm
        else limits.source,
        note=f"{limits.note}; back-up rings on the side(s) the pressure pushes to",
    )
