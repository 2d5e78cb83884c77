"""One fluid against every material of a unit that it wets."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.compatibility import in_fluid
from fitcheck.decision import DecisionRule
from schema.finding import Finding, Status
from schema.fluids import Fluid
from schema.reference import Reference
from schema.service import Service
from schema.trade_names import named_material


def fluid_findings(
    fluid: Fluid, materials: Mapping[str, str], service: Service, reference: Reference, by: DecisionRule
) -> list[Finding]:
    """A finding for each part's material in a fluid, by the name of the part.

    ``materials`` are codes or names of a catalogue (filled PTFE), by part. A fluid whose name tells no base
    oil (PTFE grease, brake fluid, 5 wt) leaves one finding that is not proven.
    """
    name = fluid.trade_name
    if not name.code:
        return [_unnamed(fluid, name.text, name.remark, tuple(materials))]
    found = []
    for part, material in materials.items():
        made = named_material(material)
        if not made.code:
            found.append(_no_material(part, material, made.remark, fluid))
            continue
        one = in_fluid(made.code, name.code, service, reference, by)
        found.append(one._replace(rule="part_in_fluid", quantity=f"{part}: {one.quantity}"))
    return found


def _unnamed(fluid: Fluid, text: str, remark: str, parts: tuple[str, ...]) -> Finding:
    told = text or fluid.name
    return Finding(
        rule="part_in_fluid",
        quantity=f"{len(parts)} parts in {told}",
        status=Status.NOT_PROVEN,
        meaning="which rubber stands it cannot be told",
        reason=f"{told}: {remark}",
        action="Give the base oil from the data sheet: mineral, pao, ester, silicone or glycol.",
        lacks=("base oil",),
    )


def _no_material(part: str, material: str, remark: str, fluid: Fluid) -> Finding:
    return Finding(
        rule="part_in_fluid",
        quantity=f"{part} in {fluid.name}",
        status=Status.NOT_PROVEN,
        meaning="whether it stands the fluid cannot be told",
        reason=f"{material or 'material'}: {remark}",
        action="Give its material by code (ISO 1629, ISO 1043), or ask its maker.",
        lacks=() if material else (f"material of {part}",),
    )
