"""A verdict in plain characters: question, verdict, what to do, then the findings, tightest first."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from catalogue.strip import margin_strip
from schema.finding import Finding, Status, Verdict

if TYPE_CHECKING:
    from fitcheck.explain import Step

MM_PER_INCH = 25.4

# Each status has its own shape, so that it is told apart in grey print and by those who see no colour.
SIGNS = {Status.FITS: "(+)", Status.DOES_NOT_FIT: "[X]", Status.NOT_PROVEN: "<?>"}
COLOURS = {Status.FITS: "32", Status.DOES_NOT_FIT: "31", Status.NOT_PROVEN: "33"}

WELL_INSIDE = 0.25  # findings that keep a quarter of the width of their limits are folded into one line

GRADE_WORDS = {
    "published_twice": "two published sources",
    "published_once": "one published source",
    "standard": "standard",
    "derived": "derived",
    "common_practice": "common practice, no source",
    "disputed": "DISPUTED between sources",
    "from_memory": "FROM MEMORY",
    "no_tolerance": "size without printed tolerance",
}


class Style(NamedTuple):
    """How to print: width in columns, colour or not, millimetres or inches, folded or not."""

    width: int = 80
    colour: bool = False
    inches: bool = False
    unfolded: bool = False

    def paint(self, text: str, status: Status) -> str:
        """Colour a text by status where colour is wanted; the sign already tells the status."""
        return f"\x1b[1;{COLOURS[status]}m{text}\x1b[0m" if self.colour else text


def report(verdict: Verdict, style: Style, steps: Mapping[str, Sequence[Step]] | None = None) -> str:
    """The whole report as one text; ``steps`` adds the equations with their numbers."""
    wrap = _wrapper(style.width)
    lines = [
        *wrap(verdict.question + "?", ""),
        "",
        style.paint(f"{SIGNS[verdict.status]} {verdict.status.value.upper()}", verdict.status),
        *wrap(verdict.next_step, ""),
        "",
    ]
    shown, folded = _folded(verdict.findings, style.unfolded or steps is not None)
    for finding in shown:
        lines += _finding(finding, style, wrap, (steps or {}).get(finding.rule, ()))
        lines.append("")
    if folded:
        names = ", ".join(finding.quantity for finding in folded)
        told = "well inside their limits" if verdict.status is Status.FITS else "these fit"
        lines += [
            *wrap(f"{SIGNS[Status.FITS]} {told} (--all shows them): {names}", "    "),
            "",
        ]
    if verdict.driver:
        lines += wrap(f"What counts most: {verdict.driver}.", "  ")
    lines += wrap(f"Decided by {verdict.decision_rule}.", "  ")
    if verdict.not_asked:
        lines += wrap("Not judged: " + "; ".join(verdict.not_asked) + ".", "  ")
    for caution in verdict.cautions:
        lines += wrap(f"Caution: {caution}", "  ")
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _folded(findings: Sequence[Finding], unfolded: bool) -> tuple[list[Finding], list[Finding]]:
    if unfolded:
        return list(findings), []
    shown = [finding for finding in findings if finding.status is not Status.FITS]
    if not shown:
        shown = [one for one in findings if (one.margin or 0.0) < WELL_INSIDE] or list(findings[:1])
    return shown, [finding for finding in findings if finding not in shown]


def _finding(
    finding: Finding, style: Style, wrap: Callable[[str, str], list[str]], steps: Sequence[Step]
) -> list[str]:
    sign = SIGNS[finding.status]
    first, *others = wrap(f"{sign} {finding.quantity}: {finding.status.value}", "    ")
    lines = [first.replace(sign, style.paint(sign, finding.status), 1), *others]
    if values := _values(finding, style):
        lines += wrap("    " + values, "    ")
    if strip := margin_strip(finding, min(style.width - 8, 56)):
        lines.append("    " + strip)
    if finding.meaning:
        lines += wrap(f"    {finding.meaning[0].upper()}{finding.meaning[1:]}.", "    ")
    if finding.reason:
        lines += wrap(f"    Why: {finding.reason}.", "    ")
    if finding.action:
        lines += wrap(f"    Do: {finding.action}", "    ")
    if finding.source:
        grade = GRADE_WORDS.get(finding.grade, finding.grade)
        named = f", {finding.limits.guidance}" if finding.limits else ""
        lines += wrap(f"    Source: {finding.source} ({grade}{named})", "      ")
    if steps:
        lines += _explained(finding, steps, wrap)
    return lines


def _values(finding: Finding, style: Style) -> str:
    if finding.low is None or finding.high is None:
        return ""
    show = _shown(finding.unit, style)
    unit = "in" if style.inches and finding.unit == "mm" else finding.unit
    text = f"{show(finding.low)} to {show(finding.high)} {unit}"
    if finding.low == finding.high:
        text = f"{show(finding.low)} {unit}"
    limits = finding.limits
    if limits is not None:
        low, high = limits.low, limits.high
        if low is not None and high is not None:
            text += f"; limits {show(low)} to {show(high)}"
        elif low is not None:
            text += f"; at least {show(low)}"
        elif high is not None:
            text += f"; at most {show(high)}"
        if limits.basis == "nominal" and finding.middle is not None:
            text += f", held against the nominal {show(finding.middle)}"
    if finding.margin is not None and math.isfinite(finding.margin):
        text += f"; margin {finding.margin:+.2f}"
    if finding.share_outside:
        text += f"; {_share(finding.share_outside)} of assemblies outside"
    if finding.standard_uncertainty and finding.conformance_probability is not None:
        text += f"; probability of conformance {finding.conformance_probability:.1%}"
    return text


def _share(share: float) -> str:
    if share < 1e-4:
        return "under 0.01 %"
    return f"{share * 100:.2g} %" if share < 0.1 else f"{share * 100:.0f} %"


def _shown(unit: str, style: Style) -> Callable[[float], str]:
    if unit == "mm":
        return (lambda v: f"{v / MM_PER_INCH:.4f}") if style.inches else (lambda v: f"{v:.3f}")
    if unit == "%":
        return lambda v: f"{v:.1f}"
    return lambda v: f"{v:g}"


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
    return lines


def _wrapper(width: int) -> Callable[[str, str], list[str]]:
    def wrap(text: str, indent: str) -> list[str]:
        first = text[: len(text) - len(text.lstrip())]
        return textwrap.wrap(
            text.strip(), width, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False
        ) or [""]

    return wrap
