"""What is asked about a guide ring in its groove.

Geometry decides whether the ring is free and keeps metal apart; how wide the gap beside it may be is printed
for a few strips only. The tables of ISO 10766 could not be read: a workshop's own copy may be added.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from fitcheck.decision import DecisionRule, decision_rule
from fitcheck.inquiry import Beside, Inquiry, Judged, known, together
from fitcheck.made_of import made_of
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from fitcheck.seals.against_table import no_table, row_for, table_findings
from fitcheck.seals.guide import (
    diametral_step,
    guide_play,
    guide_play_of_two_metals,
    guide_side_room,
    joint_gap_hot,
    metal_kept_apart,
    radial_gap,
)
from fitcheck.seals.warmth import Warmth, around, two_strains, warmth_of
from fitcheck.seals.words import WORDS
from fitcheck.single import lacking
from fitcheck.verdict import cautions_for
from schema.finding import Finding, Limits
from schema.fit import Fit
from schema.iso286 import standard_tolerance_um
from schema.made_for import step_size
from schema.reference import Reference
from schema.seal_tables import GuideRow, guide_rows, seal_limits
from schema.seals import GuideRing, GuideRingGroove

if TYPE_CHECKING:
    from schema.housing_tables import HousingRow

STRIP_TOLERANCE_MM = 0.025  # ahpseals.com, wear rings: close tolerances of the strip are +/-0.001 in
_SAME_STRIP_MM = 0.06  # a strip and its printed thickness; own judgement: catalogue strips lie 0.5 apart
_OF_PLACE = {
    name: name
    for name in ("bore_diameter", "shaft_diameter", "groove_diameter", "groove_width", "land_diameter")
}
_OF_PART = {
    "thickness": "ring_thickness",
    "width": "ring_width",
    "joint_gap": "joint_gap",
    "outside_diameter": "ring_made_for_bore",
    "inside_diameter": "ring_made_for_shaft",
}


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked about a guide-ring groove and the ring that goes into it."""
    place, ring, by = fit.place, fit.first(GuideRing), decision_rule(fit.choices.decision_rule)
    assert isinstance(place, GuideRingGroove)
    sizes = together(known(place, _OF_PLACE), known(ring, _OF_PART))
    made = made_of(ring.material if ring else "", fit.service, reference, by=by)
    warmth = warmth_of(place, made, fit, reference)
    row = _workshop_row(place, reference)
    findings = [*made.findings, *_of_table(place, row, by)]
    if ring is None:
        findings.append(lacking("ring", "what goes into the groove", "guide ring"))
    if not place.side:
        findings.append(
            lacking("runs_on", "what the ring runs on", "bore diameter (piston) or shaft diameter (rod)")
        )
    judged = _judged(place, ring, row, warmth) if place.side and ring is not None else []
    return Inquiry(
        question=f"Does {ring.name if ring else 'nothing'} fit {place.name}?",
        sizes=sizes.sizes,
        quantities=partial(_quantities, side=place.side, warmth=warmth),
        judged=tuple(judged),
        surfaces=sizes.surfaces,
        of_part=frozenset(_OF_PART.values()),
        exempt=frozenset(("ring_made_for_bore", "ring_made_for_shaft")),
        findings=tuple(findings),
        beside=(
            Beside("guide_ring_length", "length of the strip, flat", "mm", "pi times its mean diameter"),
        ),
        not_asked=_not_asked(place, ring),
        taken=(*made.taken, *_taken(place, ring)),
        cautions=cautions_for(fit.service),
    )


# -- quantities ----------------------------------------------------------------------------------------


def _quantities(
    sizes: Mapping[str, Span], evaluate: Evaluate, *, side: str, warmth: Warmth
) -> dict[str, Span]:
    """Every quantity of groove and ring that the sizes allow."""
    found: dict[str, Span] = {}
    piston = side == "piston"
    runs_on = sizes.get("bore_diameter" if piston else "shaft_diameter")
    groove, land = sizes.get("groove_diameter"), sizes.get("land_diameter")
    thickness, width, gap = sizes.get("ring_thickness"), sizes.get("ring_width"), sizes.get("joint_gap")
    made_for = sizes.get("ring_made_for_bore" if piston else "ring_made_for_shaft")
    cold = {"metal_expansion_per_k": 0.0, "ring_expansion_per_k": 0.0, "temperature_rise_k": 0.0}
    hot: dict[str, Span | float] | None = None
    if warmth.ring_per_k is not None and warmth.hot_rise_k is not None:
        hot = {
            "metal_expansion_per_k": warmth.metal_per_k,
            "ring_expansion_per_k": warmth.ring_per_k,
            "temperature_rise_k": warmth.hot_rise_k,
        }
    if runs_on is not None and groove is not None and thickness is not None:
        outer, inner = (runs_on, groove) if piston else (groove, runs_on)
        between = {"outer_diameter_mm": outer, "inner_diameter_mm": inner, "thickness_mm": thickness}
        found["guide_play"] = evaluate(guide_play, **between, **cold)
        if hot is not None and warmth.groove_per_k is None:
            found["guide_play_hot"] = evaluate(guide_play, **between, **hot)
        elif hot is not None:
            for name, rise in (
                ("guide_play_hot", warmth.hot_rise_k),
                ("guide_play_cold", warmth.cold_rise_k),
            ):
                found[name] = evaluate(
                    guide_play_of_two_metals, **between, **two_strains(warmth, rise or 0.0, piston)
                )
    if land is not None and groove is not None and thickness is not None:
        outer, inner = (land, groove) if piston else (groove, land)
        step = evaluate(diametral_step, outer_diameter_mm=outer, inner_diameter_mm=inner)
        found["guide_metal_gap"] = evaluate(metal_kept_apart, thickness_mm=thickness, land_step_mm=step)
    if land is not None and runs_on is not None:
        outer, inner = (runs_on, land) if piston else (land, runs_on)
        step = evaluate(diametral_step, outer_diameter_mm=outer, inner_diameter_mm=inner)
        found["guide_radial_gap"] = evaluate(radial_gap, step_mm=step)
    if sizes.get("groove_width") is not None and width is not None and hot is not None:
        found["guide_side_room"] = evaluate(
            guide_side_room,
            groove_width_mm=sizes["groove_width"],
            ring_width_mm=width,
            **{**hot, "metal_expansion_per_k": warmth.groove_per_k or warmth.metal_per_k},
        )
    if runs_on is not None and thickness is not None:
        mean = _mean_diameter(runs_on, thickness, piston)
        found["guide_ring_length"] = Span(*(math.pi * one for one in mean))
        if gap is not None and hot is not None:
            found["guide_joint_gap_hot"] = evaluate(
                joint_gap_hot,
                joint_gap_mm=gap,
                mean_diameter_mm=mean,
                **{**hot, "metal_expansion_per_k": around(warmth)},
            )
    if gap is not None:
        found["guide_joint_gap"] = gap
    if made_for is not None and runs_on is not None:
        found["guide_ring_for_size"] = evaluate(
            diametral_step, outer_diameter_mm=made_for, inner_diameter_mm=runs_on
        )
    return found


def _mean_diameter(runs_on: Span, thickness: Span, piston: bool) -> Span:
    """Mean diameter of the strip against what it runs on; thickness moves it the one way or the other."""
    if piston:
        return Span(
            runs_on.low - thickness.high, runs_on.middle - thickness.middle, runs_on.high - thickness.low
        )
    return Span(runs_on.low + thickness.low, runs_on.middle + thickness.middle, runs_on.high + thickness.high)


# -- by what each is judged ----------------------------------------------------------------------------


def _judged(place: GuideRingGroove, ring: GuideRing, row: HousingRow | None, warmth: Warmth) -> list[Judged]:
    limits, words = seal_limits(), WORDS
    runs_on = "bore_diameter" if place.side == "piston" else "shaft_diameter"
    made_for = "ring_made_for_bore" if place.side == "piston" else "ring_made_for_shaft"
    between = (runs_on, "groove_diameter", "ring_thickness")
    printed = printed_row(place, ring)
    found = [
        Judged("guide_play", words["guide_play"], _play_limits(place), between),
        Judged(
            "guide_play_hot", words["guide_play_hot"], limits["guide_play_hot", "any"], between, warmth.wants
        ),
        Judged(
            "guide_metal_gap",
            words["guide_metal_gap"],
            limits["guide_metal_gap", "any"],
            ("land_diameter", "groove_diameter", "ring_thickness"),
        ),
        Judged(
            "guide_radial_gap",
            words["guide_radial_gap"],
            _gap_limits(printed, row),
            (runs_on, "land_diameter"),
            why_open="no printed groove for a strip so thick; the table of ISO 10766 was not readable",
            ask_whom="Compare with the maker's drawing, or add the row of ISO 10766 to the workshop's table.",
        ),
        Judged(
            "guide_side_room",
            words["guide_side_room"],
            limits["guide_side_room", "any"],
            ("groove_width", "ring_width"),
            warmth.wants,
        ),
        Judged(
            "guide_joint_gap_hot",
            words["guide_joint_gap_hot"],
            limits["guide_joint_gap_hot", "any"],
            ("joint_gap", runs_on, "ring_thickness"),
            warmth.wants,
        ),
    ]
    if warmth.groove_per_k is not None:
        cold = limits["guide_play_hot", "any"]._replace(source="geometry: the strip must not jam in the cold")
        found.append(Judged("guide_play_cold", words["guide_play_cold"], cold, between, warmth.wants))
    if printed is not None and printed.joint_gap_mm is not None:
        found.append(
            Judged(
                "guide_joint_gap",
                words["guide_joint_gap"],
                _joint_limits(printed),
                ("joint_gap",),
                required=False,
            )
        )
    if getattr(ring, "outside_diameter" if place.side == "piston" else "inside_diameter") is not None:
        found.append(
            Judged(
                "guide_ring_for_size",
                words["guide_ring_for_size"],
                limits["guide_ring_for_size", "any"],
                (made_for, runs_on),
            )
        )
    return found


def printed_row(place: GuideRingGroove, ring: GuideRing) -> GuideRow | None:
    """The printed housing of a strip of this thickness and diameter; None where none was read."""
    size = place.bore_diameter if place.side == "piston" else place.shaft_diameter
    if size is None or ring.thickness is None:
        return None
    diameter, thickness = float(size.nominal), float(ring.thickness.nominal)
    width = float(place.groove_width.nominal) if place.groove_width is not None else 0.0
    near = [
        one
        for one in guide_rows()
        if one.side == place.side
        and one.diameter_from_mm - 0.01 <= diameter <= one.diameter_to_mm + 0.01
        and abs(one.ring_thickness_mm - thickness) <= _SAME_STRIP_MM
    ]
    return min(near, key=lambda one: abs(one.groove_width_mm - width), default=None)


def _play_limits(place: GuideRingGroove) -> Limits:
    """None at nominal, at most bore H9, floor h8 and the strip's own tolerance."""
    size = place.bore_diameter or place.shaft_diameter
    base = seal_limits()["guide_play", "any"]
    if size is None:
        return base
    nominal = step_size(size)
    um = standard_tolerance_um("IT9", nominal) + standard_tolerance_um("IT8", nominal)
    return base._replace(high=round(float(um) / 1000.0 + 2.0 * STRIP_TOLERANCE_MM, 6))


def _gap_limits(printed: GuideRow | None, row: HousingRow | None) -> Limits | None:
    if row is not None and "gap_max_mm" in row.numbers:
        high, source, grade = row.numbers["gap_max_mm"], f"{row.source}: {row.locator}", "given"
        return _up_to(high, f"the workshop's copy of {row.name}", source, grade)
    if printed is None:
        return None
    return _up_to(
        printed.radial_gap_max_mm,
        f"printed groove {printed.series}",
        f"{printed.source}: {printed.locator}",
        printed.grade,
    )._replace(note=printed.note)


def _up_to(high: float, guidance: str, source: str, grade: str) -> Limits:
    """A largest gap: beyond it the sources do not say, so that it never refuses by itself."""
    return Limits(None, high, "mm", "worst_case", guidance, source, grade, refuse_high=float("inf"))


def _joint_limits(printed: GuideRow) -> Limits:
    low, high = printed.joint_gap_mm or (0.0, 0.0)
    return Limits(
        low,
        high,
        "mm",
        "worst_case",
        f"printed groove {printed.series}",
        f"{printed.source}: {printed.locator}",
        printed.grade,
        0.0,
        float("inf"),
    )


def _workshop_row(place: GuideRingGroove, reference: Reference) -> HousingRow | None:
    size = place.bore_diameter if place.side == "piston" else place.shaft_diameter
    return row_for(reference.housings, place, place.side, place.housing_standard, size)


def _of_table(place: GuideRingGroove, row: HousingRow | None, by: DecisionRule) -> list[Finding]:
    """The groove against the table it says it is made to."""
    if not place.housing_standard:
        return []
    size = place.bore_diameter if place.side == "piston" else place.shaft_diameter
    if row is None or size is None:
        return [no_table(place.housing_standard, "ISO 10766")]
    return table_findings(place, row, size, by)


def _taken(place: GuideRingGroove, ring: GuideRing | None) -> tuple[str, ...]:
    told = [
        ("the strip is not worn on one side", ring is not None),
        ("bore or rod of aluminium or steel, since no metal is told: both count", place.metal is None),
        ("the groove is in the same metal, since no other is told", place.groove_metal is None),
    ]
    return tuple(text for text, so in told if so)


def _not_asked(place: GuideRingGroove, ring: GuideRing | None) -> tuple[str, ...]:
    told = [
        ("groove against the table of its standard", bool(place.housing_standard)),
        ("load on the guide ring: no load is known", False),
        ("size the ring is made for", ring is not None and (ring.outside_diameter or ring.inside_diameter)),
    ]
    return tuple(text for text, given in told if not given)
