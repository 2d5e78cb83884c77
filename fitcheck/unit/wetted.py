"""The oil that goes in, against every elastomer and plastic of the unit that it wets."""

from __future__ import annotations

from fitcheck.decision import DecisionRule
from fitcheck.fluids.against import fluid_findings
from fitcheck.fluids.compare import grade_in_words, printed_values
from schema.finding import Finding, Status
from schema.fluids import Fluid
from schema.reference import Reference
from schema.service import Service
from schema.unit import Entry, Unit


def wetted(unit: Unit, reference: Reference, rule: DecisionRule) -> list[Finding]:
    """Findings on the oil part of the unit; [] where none is told."""
    if not unit.head.oil:
        return []
    from schema.fluids import Fluid

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
    findings = printed_values(oil, rule)
    code = oil.trade_name.code
    if code and code in unit.head.fluid:  # every place was judged in it already
        return [_same(oil, code), *findings]
    wets = set(unit.head.fluid)
    materials = {
        f"{number} in {entry.name}": material
        for entry in unit.entries
        if wets & set(entry.service.fluid)
        for number, material in _materials(entry)
    }
    service = Service(
        temperature=unit.head.temperature, fluid=unit.head.fluid, medium="liquid", motion="reciprocating"
    )
    return [*fluid_findings(oil, materials, service, reference, rule), *findings]


def _same(oil: Fluid, code: str) -> Finding:
    return Finding(
        rule="oil_told",
        quantity=f"oil that goes in: {oil.part_number} {grade_in_words(oil)}".strip(),
        status=Status.FITS,
        meaning=f"it is the {code.replace('_', ' ')} that every place was judged in",
        source="the base oil of its data sheet against the fluid of the unit",
        grade="derived",
    )


# What rubs or seals and may swell; metal stands every oil of a damper.
SOFT = ("o_ring", "four_lobed_ring", "back_up_ring", "lip_seal", "wiper", "guide_ring")


def _materials(entry: Entry) -> list[tuple[str, str]]:
    """Number and material of every soft part of a place."""
    return [
        (str(getattr(one.part, "part_number", "")), str(getattr(one.part, "material", "")))
        for one in entry.parts
        if getattr(one.part, "kind", "") in SOFT
    ]
