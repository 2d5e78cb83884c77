"""Rings on the list of a place that is no gland: a port, a valve seat, an eyelet.

Such a place says nothing of the groove, so that squeeze and fill are asked where the groove is a place of its
own; what the ring is made of is held against fluid and temperature all the same.
"""

from __future__ import annotations

from typing import Any

from fitcheck.compatibility import compatibility
from fitcheck.decision import decision_rule
from schema.finding import Finding
from schema.fit import Fit
from schema.reference import Reference

RINGS = ("o_ring", "four_lobed_ring", "back_up_ring")


def ring_findings(fit: Fit, reference: Reference) -> list[Finding]:
    """The material of every ring on the list against the service of the place; [] where there is none."""
    found: list[Finding] = []
    for at, (name, part) in enumerate(_listed(fit), start=1):
        findings = compatibility(
            part.material,
            fit.service,
            reference,
            by=decision_rule(fit.choices.decision_rule),
            squeezed=part.kind != "back_up_ring",
        )
        found += [
            one._replace(rule=f"ring_{at}_{one.rule}", quantity=f"{one.quantity}, ring {name}")
            for one in findings
        ]
    return found


def rings_not_asked(fit: Fit) -> tuple[str, ...]:
    """What of these rings is not asked here, in words."""
    names = [name for name, _ in _listed(fit)]
    if not names:
        return ()
    return (f"squeeze and fill of {', '.join(names)}: its groove is asked as a place of its own, as a gland",)


def _listed(fit: Fit) -> list[tuple[str, Any]]:
    rings = dict.fromkeys(one.part for one in fit.parts if getattr(one.part, "kind", "") in RINGS)
    return [(str(getattr(part, "part_number", "") or getattr(part, "name", "")), part) for part in rings]
