"""What a part is made of, by its name in a catalogue, against temperature and fluids.

A name that tells only half is judged by what it tells, and says so; a name that tells nothing is not proven.
"""

from __future__ import annotations

from typing import NamedTuple

from fitcheck.compatibility import compatibility
from fitcheck.decision import DecisionRule
from schema.finding import Finding, Status
from schema.reference import Reference
from schema.service import Service
from schema.trade_names import TradeName, named_material


class MadeOf(NamedTuple):
    """The material that was taken, the findings on it, and what was taken without being told."""

    name: TradeName
    findings: list[Finding]
    taken: tuple[str, ...]


def made_of(
    material: str, service: Service, reference: Reference, *, by: DecisionRule, whose: str = ""
) -> MadeOf:
    """Findings on a part's material in its service; ``whose`` names the part where a place has several."""
    name = named_material(material)
    if not name.code and material.strip():
        return MadeOf(name, [_unnamed(name, whose)], ())
    found = compatibility(name.code, service, reference, by=by, squeezed=False)
    if whose:
        found = [one._replace(quantity=f"{whose}: {one.quantity}") for one in found]
    return MadeOf(name, found, (f"{material}: {name.remark}",) if name.remark else ())


def _unnamed(name: TradeName, whose: str) -> Finding:
    return Finding(
        rule="material_fluid",
        quantity=f"{whose}: {name.text}" if whose else f"{name.text} as a material",
        status=Status.NOT_PROVEN,
        meaning="no published range or rating can be taken for it",
        reason=f"{name.text}: {name.remark}",
        action="Give the material by its code (ISO 1629, ISO 1043), or the maker's word on fluid and heat.",
        source=name.source,
        grade=name.grade,
    )
