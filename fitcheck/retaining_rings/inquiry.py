"""What is asked of a retaining ring in its groove, as one Inquiry for the bench."""

from __future__ import annotations

from fitcheck.inquiry import Beside, Inquiry
from fitcheck.retaining_rings.case import EXEMPT, OF_RING, case_of
from fitcheck.retaining_rings.evidence import findings, taken
from fitcheck.retaining_rings.judged import groove_source, judged
from fitcheck.retaining_rings.quantities import quantities
from fitcheck.verdict import STORED_ENERGY
from schema.fit import Fit
from schema.reference import Reference

_UNDER_PRESSURE = "a ring that will not come free may be under pressure: stop, and make sure of zero again."


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked of one groove with the ring in it."""
    case = case_of(fit, reference)
    named = case.ring.name if case.ring else "a retaining ring"
    return Inquiry(
        question=f"{named} in {case.place.name}: does it sit and hold?",
        sizes=case.known.sizes,
        surfaces=case.known.surfaces,
        of_part=OF_RING,
        exempt=EXEMPT,
        quantities=lambda sizes, evaluate: quantities(case, sizes, evaluate),
        judged=judged(case),
        beside=(
            Beside(
                "ring_thrust", "highest thrust on the ring", "N", "pressure times the sealed area", "derived"
            ),
            Beside("groove_capacity", "load at which the groove yields", "N", groove_source(case), "derived"),
        ),
        findings=tuple(findings(case)),
        taken=taken(case),
        cautions=(STORED_ENERGY, _UNDER_PRESSURE) if case.pushed else (),
    )
