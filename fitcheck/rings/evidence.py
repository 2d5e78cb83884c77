"""Findings about the evidence itself: what is not told, not toleranced, or not confirmed proves nothing."""

from __future__ import annotations

from collections.abc import Sequence

from fitcheck.decision import WEAK_GRADES
from fitcheck.rings.case import Case
from fitcheck.rings.limits import detail_row
from fitcheck.words import dimension_words, joined
from schema.dimension import COVERAGE_FACTOR, Dimension
from schema.finding import NO_TOLERANCE, Finding, Status
from schema.instruments import instruments
from schema.ring_sizes import ring_size

# Sizes that only need to be long or small enough, and are told as such.
_NEED_NO_TOLERANCE = ("corner_radius", "lead_in_length", "passes_over")


def evidence(case: Case) -> list[Finding]:
    """What the evidence lacks, each as a finding that is not proven."""
    findings = (
        _untoleranced(case),
        _size_evidence(case),
        _pressure_side(case),
        _back_up_width(case),
        _groove_width(case),
    )
    return [finding for finding in findings if finding is not None]


def _untoleranced(case: Case) -> Finding | None:
    bare = [
        name for name, size in case.sizes.items() if not size.toleranced and name not in _NEED_NO_TOLERANCE
    ]
    if not bare:
        return None
    told = joined([dimension_words(name) for name in bare])
    return _lacking(
        "sizes_known",
        "sizes with a tolerance or an uncertainty",
        meaning="a size without tolerance is taken as exact, which no real part is",
        action=f"Give the tolerance of the {told}, or how it was measured (12.68 mm by micrometer).",
        reason=f"{NO_TOLERANCE}{told}",
        source="ISO 14253-1, by secondary sources: what is not known is not proven",
        grade="standard",
    )


def _size_evidence(case: Case) -> Finding | None:
    ring = case.question.ring
    if ring.size_grade not in WEAK_GRADES:
        return None
    return _lacking(
        "size_evidence",
        "evidence for the ring's size",
        meaning="the size of the ring rests on a figure that is not confirmed in print",
        action="Measure the ring, or give the maker's own figures.",
        reason=f"size is {ring.size_grade.replace('_', ' ')}",
        source=ring.size_source,
        grade=ring.size_grade,
    )


def _pressure_side(case: Case) -> Finding | None:
    """On a face gland the side decides which wall holds the ring, so it is never guessed."""
    if case.gland != "face" or case.question.service.pressure_from:
        return None
    return _lacking(
        "pressure_side",
        "the side the pressure comes from",
        meaning="it decides which wall of the groove holds the ring",
        action="Give the side: inside or outside.",
        reason="missing: side of the pressure",
        lacks=("side of the pressure",),
    )


def _back_up_width(case: Case) -> Finding | None:
    width = case.conditions.printed_back_up_width
    if not case.conditions.back_up_rings or "back_up_width" in case.sizes or width is None:
        return None
    return _lacking(
        "back_up_width",
        "width of the back-up ring",
        meaning=f"{width:.3f} mm was taken, as the printed grooves for one and two back-up rings differ",
        action="Give the width of the back-up ring.",
        reason="missing: width of the back-up ring",
        lacks=("width of the back-up ring",),
        source="Apple Rubber Seal Design Guide, O-ring gland tables: widths for one and two back-up rings",
        grade="derived",
    )


# A groove of more than so many printed widths is taken for a slip of the pen; own judgement, no source.
WIDEST_IN_PRINTED = 2.0


def _groove_width(case: Case) -> Finding | None:
    """No rule bounds a groove from above, but one far wider than any in print is more likely a slip."""
    width = case.sizes.get("groove_width")
    detail = detail_row(
        case.guidance,
        gland=case.gland,
        motion=case.circumstances.motion or "static",
        cross_section_mm=case.circumstances.cross_section_mm,
    )
    if width is None or detail is None:
        return None
    count = case.circumstances.back_up_rings
    two = detail.width_two_back_ups_mm or detail.width_no_back_up_mm
    printed = (detail.width_no_back_up_mm, detail.width_one_back_up_mm or two, two)[count]
    if width.middle <= WIDEST_IN_PRINTED * printed:
        return None
    return _lacking(
        "groove_width",
        "groove width against printed grooves",
        meaning=f"grooves for this section are printed {printed:.2f} mm wide; a ring in a far wider one can "
        "roll or travel",
        action="Look whether the width is right, in its number and in its unit.",
        reason=f"{width.middle:.2f} mm is more than {WIDEST_IN_PRINTED:g} times the printed width",
        source=f"{detail.source}: {detail.locator}; the factor is own judgement",
        grade="own_judgement",
    )


def _lacking(
    rule: str,
    quantity: str,
    *,
    meaning: str,
    action: str,
    reason: str,
    lacks: tuple[str, ...] = (),
    source: str = "",
    grade: str = "",
) -> Finding:
    return Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning=meaning,
        action=action,
        reason=reason,
        lacks=lacks,
        source=source,
        grade=grade,
    )


def taken(case: Case, findings: Sequence[Finding]) -> tuple[str, ...]:
    """What was assumed without being told, so that nobody has to guess it."""
    question = case.question
    service, found = question.service, []
    if measured := [(name, size) for name, size in case.sizes.items() if size.measured]:
        told = ", ".join(f"{dimension_words(name)} {_expanded(size)}" for name, size in measured)
        found.append(f"uncertainty U = 2u of what was measured: {told}")
    if case.conditions.layers_off:
        found.append(f"left out as asked: {', '.join(case.conditions.layers_off)}")
    if any(one.rule == "extrusion_gap" and one.low is not None and one.low < 0.0 for one in findings):
        found.append("the parts go together: a clearance below zero is none")
    if case.circumstances.back_up_rings == 1 and service.pressure_from == "one_side":
        found.append("the back-up ring is on the side away from the pressure")
    if case.circumstances.faces_touch:
        found.append("the faces touch: no gap beside the groove")
    if question.gland.metal is None and case.conditions.hot_rise_k is not None:
        found.append("gland of aluminium or steel, since no metal is told: both count")
    if service.swell_low_percent is None and service.swell_high_percent is None:
        found.append("no swell in the fluid")
    if case.gland == "piston" and question.gland.passes_over is None and "land_diameter" in case.sizes:
        found.append("the ring is pushed over the land beside its groove and nothing larger")
    eccentric = case.gland != "face" and "eccentricity" not in case.conditions.layers_off
    if eccentric and question.gland.guide_clearance is None:
        found.append("no guide: shaft or piston may move over the whole clearance")
    if question.ring.code:
        coded = ring_size(question.ring.code)
        for name, size in (
            ("inside_diameter", coded.inside_diameter),
            ("cross_section", coded.cross_section),
        ):
            own = case.sizes[name]
            if own.upper < size.lower or own.lower > size.upper:
                outside = f"though it is outside {coded.code} ({size.text})"
                found.append(f"{dimension_words(name)} as given ({own.text}) {outside}")
    return tuple(found)


def _expanded(size: Dimension) -> str:
    named = f" by {instruments()[size.instrument].name}" if size.instrument else ""
    return f"±{COVERAGE_FACTOR * size.standard_uncertainty:.3f} mm{named}"


def not_asked(case: Case) -> tuple[str, ...]:
    """Rules that were not asked, since what they need was not given."""
    gland = case.question.gland
    pushed_over = "passes_over" in case.sizes or (case.gland == "piston" and "land_diameter" in case.sizes)
    told = (
        ("stretch in assembly (largest diameter passed)", case.gland == "rod" or pushed_over),
        ("finish of the running surface", gland.surface_finish_running is not None),
        ("finish of the groove", gland.surface_finish_groove is not None),
        ("corner radius", gland.corner_radius is not None),
        ("lead-in chamfer", gland.lead_in_length is not None),
    )
    return tuple(text for text, given in told if not given)
