"""The verdict on a whole unit in plain characters: verdict, cautions, what stands in the way, kit, tools.

A place is told by one line of what to do; ``borebook check`` of that place tells all of its findings.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from catalogue.report import SIGNS, Style, finding_lines, told_lines, wrapper
from catalogue.values import GRADE_WORDS, in_inches
from fitcheck.words import dimension_words, joined
from schema.finding import Finding, Status
from schema.unit_verdict import KitLine, PlaceVerdict, UnitVerdict

Wrap = Callable[[str, str], list[str]]

_HEADS = {
    Status.DOES_NOT_FIT: "Does not fit",
    Status.NOT_PROVEN: "Not proven",
    Status.FITS: "Fits",
}


def unit_report(verdict: UnitVerdict, style: Style) -> str:
    """The whole report as one text."""
    wrap = wrapper(style.width)
    measured = any(
        one.measured
        for place in verdict.places
        for found in place.verdict.findings
        for one in found.influences
    )
    seen = "as measured" if measured else "as drawn"
    title = f"{verdict.unit}: {verdict.description}" if verdict.description else verdict.unit
    lines = [
        *wrap(f"Rebuild of {title}, {len(verdict.places)} places, {seen}?", ""),
        "",
        style.paint(f"{SIGNS[verdict.status]} {verdict.status.value.upper()}", verdict.status),
        *wrap(verdict.next_step, ""),
        "",
        *_cautions(verdict, wrap),
    ]
    if verdict.findings:
        lines += _whole(verdict.findings, style, wrap)
    for status, places in verdict.grouped().items():
        if places:
            lines += _group(status, places, style, wrap)
    # What the gas does is always wanted; the rest is beside the point until it is asked for.
    told = [one for one in verdict.places if style.unfolded or one.kind == "gas_chamber"]
    lines += _told(told, style, wrap)
    lines += _kit(verdict.kit, wrap)
    lines += _tools(verdict, wrap)
    lines += wrap(f"Decided by {verdict.decision_rule}.", "  ")
    if verdict.not_asked:
        lines += wrap("Not judged, not given: " + "; ".join(verdict.not_asked) + ".", "  ")
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _cautions(verdict: UnitVerdict, wrap: Wrap) -> list[str]:
    lines = ["Cautions, in the order of the work:"]
    for caution in verdict.cautions:
        lines += wrap(f"  {caution.step}: {caution.text}", "    ")
    return [*lines, ""]


def _whole(findings: Sequence[Finding], style: Style, wrap: Wrap) -> list[str]:
    """What was found on the unit as a whole; what fits in one line."""
    lines = ["The unit as a whole:"]
    kept = [one for one in findings if one.status is Status.FITS]
    for one in findings:
        if one.status is not Status.FITS or style.unfolded:
            lines += finding_lines(one, style, wrap)
    if kept and not style.unfolded:
        lines += wrap(f"{SIGNS[Status.FITS]} {'; '.join(one.quantity for one in kept)}", "    ")
    return [*lines, ""]


def _group(status: Status, places: Sequence[PlaceVerdict], style: Style, wrap: Wrap) -> list[str]:
    """The places of one status: one line each, those that fit together in one."""
    head = style.paint(f"{SIGNS[status]} {_HEADS[status]}: {len(places)}", status)
    lines = [head]
    if status is Status.FITS and not style.unfolded:
        lines += wrap("    " + ", ".join(one.name for one in places), "    ")
        return [*lines, ""]
    for place in places:
        lines += wrap(f"  {place.name} ({place.words}): {_numbers(place)}", "      ")
        step = in_inches(place.verdict.next_step) if style.inches else place.verdict.next_step
        lines += wrap(f"      {step}", "      ")
        if style.unfolded:
            for one in place.verdict.findings:
                lines += finding_lines(one, style, wrap)
        elif status is not Status.FITS:
            worst = place.verdict.findings[0]
            grade = GRADE_WORDS.get(worst.grade, worst.grade)
            lines += wrap(f"      Tightest: {worst.quantity}" + (f" [{grade}]" if grade else ""), "        ")
    return [*lines, ""]


def _numbers(place: PlaceVerdict) -> str:
    numbers = [str(getattr(one.part, "part_number", "")) for one in place.parts]
    return ", ".join(number for number in numbers if number) or "no part listed"


def _told(places: Sequence[PlaceVerdict], style: Style, wrap: Wrap) -> list[str]:
    """Values worked out beside the findings, by place."""
    lines: list[str] = []
    for place in places:
        if place.verdict.told:
            lines += wrap(f"  {place.name}", "  ")
            lines += told_lines(place.verdict.told, style, wrap, "    ")
    return ["Worked out, not judged:", *lines, ""] if lines else []


def _kit(kit: Sequence[KitLine], wrap: Wrap) -> list[str]:
    lines = ["Kit:"] if kit else []
    widest = max((len(line.keep) for line in kit), default=0)
    for line in kit:
        why = f" ({line.why})" if line.why else ""
        if line.measure:
            fields = dict.fromkeys(dimension_words(one.field) for one in line.measure)
            why += f"; measure the {joined(list(fields))}"
        head = f"  {line.keep.ljust(widest)}  {line.quantity:>2} x {line.part_number}"
        lines += wrap(f"{head}  {line.name}: {', '.join(line.places)}{why}", " " * (widest + 9))
    return [*lines, ""] if lines else []


def _tools(verdict: UnitVerdict, wrap: Wrap) -> list[str]:
    told = [f"{tool} ({', '.join(places)})" if places else tool for tool, places in verdict.tools]
    return [*wrap("Tools: " + "; ".join(told) + ".", "  "), ""] if told else []
