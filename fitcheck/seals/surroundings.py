"""The shaft under a lip and the mouth of its seat: finish, hardness, roundness, chamfer, as far as given."""

from __future__ import annotations

from collections.abc import Sequence

from fitcheck.decision import DecisionRule
from fitcheck.numbers import Span
from fitcheck.seals.against_table import as_known
from fitcheck.setting import drawn_span
from fitcheck.single import single
from schema.finding import Finding
from schema.reference import Reference
from schema.seal_tables import seal_limits
from schema.seals import LipSeal, Wiper, WiperSeat
from schema.trade_names import named_material


def surroundings(
    place: WiperSeat, parts: Sequence[LipSeal | Wiper], reference: Reference, by: DecisionRule
) -> list[Finding]:
    """Findings on what is given of the shaft and the seat's mouth."""
    limits, found = seal_limits(), []
    if place.surface_finish_running is not None:
        codes = [named_material(part.material).code for part in parts]
        plastic = any(
            code in reference.materials and reference.materials[code].kind == "plastic" for code in codes
        )
        found.append(
            single(
                by,
                "shaft_finish",
                "finish of the shaft under the lip",
                Span.point(place.surface_finish_running),
                limits["shaft_finish", "plastic" if plastic else "elastomer"],
                good="smooth enough, not too smooth",
                bad="rougher than rods are made under such a lip (it wears and weeps), or so smooth that it "
                "runs dry",
                action="Polish or re-finish by the maker's instructions, or replace the shaft.",
            )
        )
    if place.shaft_hardness_hrc is not None:
        found.append(
            single(
                by,
                "shaft_hardness",
                "hardness of the shaft",
                Span.point(place.shaft_hardness_hrc),
                limits["shaft_hardness", "any"],
                good="hard enough under a lip",
                bad="softer than printed for a shaft under a lip: dirt in the lip cuts a groove",
                action="Look for a groove where the lip runs; feel it with a fingernail.",
            )
        )
    if place.shaft_out_of_round is not None:
        found.append(
            as_known(
                single(
                    by,
                    "shaft_out_of_round",
                    "out of round of the shaft",
                    drawn_span(place.shaft_out_of_round),
                    limits["shaft_out_of_round", "any"],
                    good="round enough",
                    bad="more out of round than printed for a rotary seal; no figure for a sliding one",
                    action="Ask the maker of the unit.",
                    standard_uncertainty=float(place.shaft_out_of_round.standard_uncertainty),
                ),
                place.shaft_out_of_round,
            )
        )
    if place.lead_in_angle is not None:
        found.append(
            single(
                by,
                "lead_in_angle",
                "angle of the chamfer at the mouth",
                Span.point(place.lead_in_angle),
                limits["lead_in_angle", "any"],
                good="leads the seal in",
                bad="no angle that makers print: the seal may shear its rubber or tilt on the way in",
                action="Press it in square with a driver of its full width, oiled.",
            )
        )
    return found
