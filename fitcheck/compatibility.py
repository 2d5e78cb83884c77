"""A part's material against its service: its temperature and every fluid that touches it.

Ranges and ratings are of families, so a rating that carries a condition is held to it, and one that its
sources dispute proves nothing.
"""

from __future__ import annotations

from fitcheck.decision import DecisionRule
from fitcheck.numbers import Span
from fitcheck.single import lacking, single
from schema.finding import Finding, Limits, Status
from schema.materials import FluidRating, Material
from schema.reference import Reference
from schema.service import Service

SUITABLE, CHECK_COMPOUND, SHORT_CONTACT, UNSUITABLE = 1, 2, 3, 4


def compatibility(
    material: str, service: Service, reference: Reference, *, by: DecisionRule, squeezed: bool
) -> list[Finding]:
    """Findings on one part's material in a service, decided by ``by``.

    ``material`` is an ISO 1629 or ISO 1043 code, or "" where it is not told; ``squeezed`` says whether the
    part seals by being squeezed, as only rubber can.
    """
    known = reference.materials.get(material)
    findings = [*(_elastomer(known) if squeezed else ()), _temperature(known, service, by)]
    if not material or not service.fluid:
        absent = [name for name, given in (("material", material), ("fluid", service.fluid)) if not given]
        return [*findings, lacking("material_fluid", "material against the fluid", *absent)]
    return findings + [in_fluid(material, fluid, service, reference, by) for fluid in service.fluid]


def _elastomer(material: Material | None) -> list[Finding]:
    """A ring of hard plastic cannot be squeezed like rubber, whatever its size."""
    if material is None or material.kind == "elastomer":
        return []
    return [
        Finding(
            rule="material_kind",
            quantity=f"{material.code} as the material of a squeezed ring",
            status=Status.DOES_NOT_FIT,
            meaning="a hard plastic does not give way like rubber: it does not seal by squeeze",
            action="An elastomer; hard plastics serve as back-up rings.",
            source="ISO 1629 lists elastomers; ISO 1043 this plastic",
            grade="standard",
        )
    ]


def _temperature(material: Material | None, asked: Service, by: DecisionRule) -> Finding:
    words = "service temperature against the material"
    service = asked.temperature
    if material is None or service is None:
        absent = [
            name for name, known in (("material", material), ("temperature range", service)) if known is None
        ]
        return lacking("material_temperature", words, *absent)
    limits = Limits(
        *material.narrow_deg_c,
        "degC",
        "worst_case",
        f"{material.code} family",
        material.temperature_source,
        material.temperature_grade,
        *material.wide_deg_c,
    )
    finding = single(
        by,
        "material_temperature",
        words,
        Span(service.low_deg_c, (service.low_deg_c + service.high_deg_c) / 2, service.high_deg_c),
        limits,
        good=f"within what every source allows {material.code}",
        bad=f"beyond what sources agree on for {material.code}: it stiffens in the cold or ages in the heat",
        action="Ask for the compound's data sheet, or choose another elastomer.",
    )
    # The whole range is needed, so one end beyond what any source allows refutes.
    low, high = material.wide_deg_c
    if service.low_deg_c < low or service.high_deg_c > high:
        return finding._replace(status=Status.DOES_NOT_FIT)
    return finding


def in_fluid(material: str, fluid: str, service: Service, reference: Reference, by: DecisionRule) -> Finding:
    """The finding on one material in one fluid, both by code, in the circumstances of a service."""
    told = fluid.replace("_", " ")
    rating = reference.ratings.get((material, fluid))
    if rating is None:
        return lacking("material_fluid", f"{material} in {told}", "published rating")
    limits = Limits(
        None,
        CHECK_COMPOUND,
        "rating 1 to 4",
        "worst_case",
        "fluid ratings",
        rating.source,
        rating.grade,
        refuse_high=SHORT_CONTACT,
        scale=3.0,
        note=rating.note,
    )
    finding = single(
        by,
        "material_fluid",
        f"{material} in {told}",
        Span.point(float(rating.rating)),
        limits,
        good="suitable" if rating.rating == SUITABLE else "usually suitable; check the compound",
        bad="attacked: swells, softens or hardens"
        if rating.rating == UNSUITABLE
        else "stands short contact only",
        action="An elastomer that stands this fluid, by the compound's data sheet.",
    )
    condition = _condition(service, rating)
    if finding.status is Status.FITS and condition:
        return finding._replace(
            status=Status.NOT_PROVEN,
            reason=condition,
            meaning="the rating does not hold for this use",
            action="An elastomer that is made for this use, by the compound's data sheet.",
        )
    return finding


def _condition(service: Service, rating: FluidRating) -> str:
    """Why a rating does not hold for this service; "" where it does."""
    if rating.use == "static_only" and service.motion != "static":
        return "rated for static use only"
    if rating.use == "not_for_gas" and service.medium != "liquid":
        return "very permeable: a gas charge is lost through it"
    hottest = service.temperature.high_deg_c if service.temperature else None
    if rating.highest_deg_c is not None and (hottest is None or hottest > rating.highest_deg_c):
        return f"rated up to {rating.highest_deg_c:g} degC only"
    return ""
