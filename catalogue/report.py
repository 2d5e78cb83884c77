"""A verdict in plain characters: question, verdict, what to do, then the findings, tightest first.

What waits for something that was not told comes as one list of what to give, by option, and one line
for each finding that waits for it.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Collection, Mapping, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, NamedTuple

from catalogue.strip import margin_strip
from catalogue.values import GRADE_WORDS, between, in_inches, told_value, values_in_words
from schema.finding import Finding, Status, Told, Verdict

if TYPE_CHECKING:
    from catalogue.options import Field
    from fitcheck.explain import Step

# Each status has its own shape, so that it is told apart in grey print and by those who see no colour.
SIGNS = {Status.FITS: "(+)", Status.DOES_NOT_FIT: "[X]", Status.NOT_PROVEN: "<?>"}
COLOURS = {Status.FITS: "32", Status.DOES_NOT_FIT: "31", Status.NOT_PROVEN: "33"}

MOST_SOURCES = 2  # of a long list; --explain shows all
WELL_INSIDE = 0.25  # findings that keep a quarter of the width of their limits are folded into one line


class Style(NamedTuple):
    """How to print: width in columns, colour or not, millimetres or inches, folded or not."""

    width: int = 80
    colour: bool = False
    inches: bool = False
    unfolded: bool = False

    def paint(self, text: str, status: Status) -> str:
        """Colour a text by status where colour is wanted; the sign already tells the status."""
        return f"\x1b[1;{COLOURS[status]}m{text}\x1b[0m" if self.colour else text


def report(
    verdict: Verdict,
    style: Style,
    steps: Mapping[str, Sequence[Step]] | None = None,
    untold: Collection[Field] = (),
) -> str:
    """The whole report as one text; ``steps`` adds the equations with their numbers.

    ``untold`` are options to be asked for too, where anything is asked for.
    """
    wrap = wrapper(style.width)
    explained = steps or {}
    if style.inches:
        verdict = verdict._replace(
            next_step=in_inches(verdict.next_step),
            driver=in_inches(verdict.driver),
            taken=tuple(map(in_inches, verdict.taken)),
            findings=tuple(one._replace(action=in_inches(one.action)) for one in verdict.findings),
        )
    shown, folded = _folded(verdict.findings, style.unfolded or steps is not None)
    waiting = [one for one in shown if _needed(one) and not explained.get(one.rule)]
    first_waits = bool(waiting) and waiting[0] is shown[0]
    lines = [
        *wrap(verdict.question.rstrip("? ") + "?", ""),
        "",
        style.paint(f"{SIGNS[verdict.status]} {verdict.status.value.upper()}", verdict.status),
        *(["Give what is still needed."] if first_waits else _two_ways(verdict.next_step, "", wrap, "")),
        "",
    ]
    if first_waits:
        lines += _still_needed(waiting, untold, style, wrap)
    for finding in shown:
        if finding not in waiting:
            lines += finding_lines(finding, style, wrap, explained.get(finding.rule, ()), steps is not None)
            lines.append("")
    if waiting and not first_waits:
        lines += _still_needed(waiting, untold, style, wrap)
    if folded:
        names = "; ".join(finding.quantity for finding in folded)
        told = "well inside their limits" if verdict.status is Status.FITS else "these fit"
        lines += [
            *wrap(f"{SIGNS[Status.FITS]} {told} (--all shows them): {names}", "    "),
            "",
        ]
    if verdict.told:
        lines += ["  Worked out, not judged:", *told_lines(verdict.told, style, wrap, "    ")]
    if verdict.driver:
        lines += wrap(f"What counts most: {verdict.driver}.", "  ")
    lines += wrap(f"Decided by {verdict.decision_rule}.", "  ")
    if steps is not None and style.inches:
        lines += wrap("The equations are in mm.", "  ")
    if verdict.taken:
        lines += wrap("Taken: " + "; ".join(verdict.taken) + ".", "  ")
    if verdict.not_asked:
        lines += wrap("Not judged, not given: " + "; ".join(verdict.not_asked) + ".", "  ")
    for caution in verdict.cautions:
        lines += wrap(f"Caution: {caution}", "  ")
    return "\n".join(line.rstrip() for line in lines) + "\n"


def told_lines(
    told: Sequence[Told], style: Style, wrap: Callable[[str, str], list[str]], indent: str
) -> list[str]:
    """Values worked out beside the findings; those of one source together, and the source below them."""
    lines = []
    for (source, grade), several in groupby(told, key=lambda one: (one.source, one.grade)):
        for one in several:
            note = f"; {one.note}" if one.note else ""
            lines += wrap(f"{indent}{one.quantity}: {told_value(one, style.inches)}{note}", indent + "  ")
        if source:
            graded = f" ({GRADE_WORDS.get(grade, grade)})" if grade else ""
            lines += wrap(f"{indent}  by {source}{graded}", indent + "    ")
    return lines


def _needed(finding: Finding) -> list[str]:
    """What a finding waits for, in words; [] where it waits for nothing that an option could give."""
    from catalogue.options import field_called

    named = finding.status is Status.NOT_PROVEN and any(field_called(name) for name in finding.lacks)
    return list(finding.lacks) if named else []


def _still_needed(
    waiting: Sequence[Finding],
    untold: Collection[Field],
    style: Style,
    wrap: Callable[[str, str], list[str]],
) -> list[str]:
    """What is to be given, once each, then a line for every finding that waits for it."""
    from catalogue.options import FIELDS, field_called

    names = dict.fromkeys(name for finding in waiting for name in _needed(finding))
    wanted = {*untold, *map(field_called, names)}
    rows = [
        (field.option, field.help + (f" (borebook names {field.word_list})" if field.word_list else ""))
        for field in FIELDS
        if field in wanted
    ]
    rows += [("--set", f"{name} ({name.replace(' ', '_')}=...)") for name in names if not field_called(name)]
    column = max(len(option) for option, _ in rows) + 4
    lines = ["Still needed:"]
    for option, text in rows:
        lines += wrap(f"  {option}".ljust(column) + text, " " * column)
    lines += ["", "Not proven until then:"]
    for finding in waiting:
        values = values_in_words(finding, style.inches)
        text = f"  {SIGNS[finding.status]} {finding.quantity}{': ' if values else ''}{values}."
        lines += wrap(f"{text} {_at_stake(finding)}", "      ")
    return [*lines, ""]


def _at_stake(finding: Finding) -> str:
    """What the outcome may mean, where nothing is known yet."""
    stake = "" if finding.meaning.startswith("nothing can be said") else finding.meaning
    return f"At stake: {stake}." if stake else ""


def _two_ways(text: str, before: str, wrap: Callable[[str, str], list[str]], hang: str) -> list[str]:
    """What to do, and on a line of its own what else would do."""
    first, *others = text.split("\n")
    indent = before[: len(before) - len(before.lstrip())]
    lines = wrap(before + first, hang)
    for other in others:
        told = other[:1].lower() + other[1:] if other[1:2].islower() or other[1:2] == " " else other
        lines += wrap(f"{indent}Else: {told}", hang)
    return lines


def _folded(findings: Sequence[Finding], unfolded: bool) -> tuple[list[Finding], list[Finding]]:
    if unfolded:
        return list(findings), []
    shown = [finding for finding in findings if finding.status is not Status.FITS]
    if not shown:
        shown = [one for one in findings if (one.margin or 0.0) < WELL_INSIDE] or list(findings[:1])
    return shown, [finding for finding in findings if finding not in shown]


def finding_lines(
    finding: Finding,
    style: Style,
    wrap: Callable[[str, str], list[str]],
    steps: Sequence[Step] = (),
    explain: bool = False,
) -> list[str]:
    """One finding: numbers, strip, what it means, why, what to do, source, and its equations if asked for."""
    sign = SIGNS[finding.status]
    first, *others = wrap(f"{sign} {finding.quantity}: {finding.status.value}", "    ")
    lines = [first.replace(sign, style.paint(sign, finding.status), 1), *others]
    if values := values_in_words(finding, style.inches):
        lines += wrap("    " + values, "    ")
    if strip := margin_strip(finding, min(style.width - 8, 56)):
        lines.append("    " + strip)
    if finding.lacks:
        if stake := _at_stake(finding):
            lines += wrap(f"    {stake}", "    ")
    elif finding.meaning:
        lines += wrap(f"    {finding.meaning[0].upper()}{finding.meaning[1:]}.", "    ")
    if reason := finding.reason or between(finding, style.inches):
        lines += wrap(f"    Why: {reason}.", "    ")
    if finding.action:
        lines += _two_ways(finding.action, "    Do: ", wrap, "    ")
    if finding.source:
        grade = GRADE_WORDS.get(finding.grade, finding.grade)
        named = f", {finding.limits.guidance}" if finding.limits else ""
        source = finding.source if explain else _shortened(finding.source)
        lines += wrap(f"    Source: {source} ({grade}{named})", "      ")
    if steps:
        lines += _explained(finding, steps, wrap)
    return lines


def _shortened(source: str) -> str:
    """A long list of sources, cut after the second."""
    listed = source.split("; ")
    more = len(listed) - MOST_SOURCES
    return source if more < 1 else f"{'; '.join(listed[:MOST_SOURCES])}; and {more} more (--explain)"


def _explained(finding: Finding, steps: Sequence[Step], wrap: Callable[[str, str], list[str]]) -> list[str]:
    lines = []
    for layer in finding.layers:
        state = "" if layer.on else " (off)"
        lines += wrap(f"      after {layer.name}{state}: {layer.low:.2f} to {layer.high:.2f} %", "        ")
    for step in steps:
        lines += wrap(f"      {step.rule}: {step.equation}", "        ")
        lines += wrap(f"        smallest: {step.at_low}", "          ")
        lines += wrap(f"        largest:  {step.at_high}", "          ")
        lines += wrap(f"        from: {step.source}", "          ")
    if steps and finding.guard_band:
        band = f"{finding.guard_band:.4g} {finding.unit}"
        lines += wrap(f"      the uncertainty of what was measured widens both ends by {band}", "        ")
    return lines


def wrapper(width: int) -> Callable[[str, str], list[str]]:
    """Wraps a text to a width; the second argument is how far its further lines hang in."""

    def wrap(text: str, indent: str) -> list[str]:
        first = text[: len(text) - len(text.lstrip())]
        return textwrap.wrap(
            text.strip(), width, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False
        ) or [""]

    return wrap
