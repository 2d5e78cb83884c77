"""The oil that goes in, against every elastomer and plastic of the unit that it wets."""

from __future__ import annotations

from fitcheck.decision import DecisionRule
from schema.finding import Finding, Status
from schema.reference import Reference
from schema.service import Service
from schema.unit import Entry, Unit


def wetted(unit: Unit, reference: Reference, rule: DecisionRule) -> list[Finding]:
    """Findings on the oil part of the unit; [] where none is told."""
    if not unit.head.oil:
        return []
    from schema.fluids import Fluid

    from fitcheck.fluids.against import fluid_findings

    numbers = {number.lower(): part for number, part in unit.parts.items()}
    oil = numbers.get(unit.head.oil.lower())
    if not isinstance(oil, Fluid):
        return [
            Finding(
                rule="oil_told",
                quantity="oil that goes in",
                status=Status.NOT_PROVEN,
                meaning="what the seals stand cannot be told without it",
                reason=f"{unit.head.oil} is not a fluid among the parts",
                action="Give the part number of the oil.",
            )
        ]
    wets = set(unit.head.fluid)
    materials = {
        f"{number} in {entry.name}": material
        for entry in unit.entries
        if wets & set(entry.service.fluid)
        for number, material in _materials(entry)
        if material in reference.materials
    }
    service = Service(
        temperature=unit.head.temperature, fluid=unit.head.fluid, medium="liquid", motion="reciprocating"
    )
    found: list[Finding] = fluid_findings(oil, materials, service, reference, rule)
    return found


def _materials(entry: Entry) -> list[tuple[str, str]]:
    """Number and material of every part of a place."""
    return [
        (str(getattr(one.part, "part_number", "")), str(getattr(one.part, "material", "")))
        for one in entry.parts
    ]
