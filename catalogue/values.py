"""Numbers of findings in words, in millimetres or inches: the same for the terminal and the rebuild sheet."""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from schema.finding import Finding, Status, Told

MM_PER_INCH = 25.4

GRADE_WORDS = {
    "published_twice": "two published sources",
    "published_once": "one published source",
    "standard": "standard",
    "derived": "derived",
    "common_practice": "common practice, no source",
    "disputed": "DISPUTED between sources",
    "from_memory": "FROM MEMORY",
    "no_tolerance": "size without printed tolerance",
    "own_judgement": "OWN JUDGEMENT",
    "given": "as given",
    "as_given": "as given",
}
RATING = "rating 1 to 4"
# Units as they are printed: a ratio has none, and a rating is told with what its ends mean.
_PRINTED = {"1": "", RATING: "(1 best, 4 worst)"}


def between(finding: Finding, inches: bool) -> str:
    """Why a finding is not proven that lies wholly between what is recommended and what is refused."""
    limits, middle = finding.limits, finding.middle
    if finding.status is not Status.NOT_PROVEN or limits is None or middle is None:
        return ""
    if limits.basis == "worst_case" and not finding.outside_guidance:
        return ""
    if limits.high is not None and middle > limits.high:
        word, end = "up to", limits.refuse_high
    elif limits.low is not None and middle < limits.low:
        word, end = "down to", limits.refuse_low
    else:
        return ""
    told = f"outside the published guidance of {limits.guidance}, but no source refutes it"
    if end is None or not math.isfinite(end):
        return told
    unit = "in" if inches and finding.unit == "mm" else finding.unit
    return f"{told} {word} {_shown(finding, inches)(end)} {unit}"


def values_in_words(finding: Finding, inches: bool) -> str:
    """The numbers of a finding in words: worst case, limits, margin, shares; "" where it has none."""
    if finding.low is None or finding.high is None or math.isnan(finding.low + finding.high):
        return ""
    limits = finding.limits
    unit = "in" if inches and finding.unit == "mm" else _PRINTED.get(finding.unit, finding.unit)
    show = _shown(finding, inches)
    text = f"{show(finding.low)} to {show(finding.high)} {unit}".rstrip()
    if finding.low == finding.high:
        text = f"{show(finding.low)} {unit}".rstrip()
    if finding.unit == RATING:
        text = f"rated {text}"
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
        text += f"; margin {round(finding.margin, 2) + 0.0:+.2f}"
    if finding.share_outside and not (limits is not None and limits.basis == "nominal"):
        text += f"; {_share(finding.share_outside)} of assemblies outside"
    if finding.standard_uncertainty and finding.conformance_probability is not None:
        drawn = any(not one.measured for one in finding.influences)
        text += f"; probability of conformance {finding.conformance_probability * 100:.1f} %"
        text += " with drawn sizes at their worst" if drawn else ""
    return text


def _share(share: float) -> str:
    if share < 1e-4:
        return "under 0.01 %"
    return f"{share * 100:.2g} %" if share < 0.1 else f"{share * 100:.0f} %"


MOST_DIGITS = 5  # decimals of a length; significant figures of anything else: two more


def _shown(finding: Finding, inches: bool) -> Callable[[float], str]:
    """How to print the numbers of a finding: none that misses a limit looks as if it lay on it."""
    decimals = {"mm": 4 if inches else 3, "%": 1}.get(finding.unit)
    scale = MM_PER_INCH if inches and finding.unit == "mm" else 1.0
    digits, most, form = (4, MOST_DIGITS + 2, "g") if decimals is None else (decimals, MOST_DIGITS, "f")
    limits = finding.limits
    values = [finding.low, finding.high]
    values += [finding.middle] if limits is not None and limits.basis == "nominal" else []
    ends = [] if limits is None else [end for end in (limits.low, limits.high) if end is not None]
    while (
        finding.status is not Status.FITS
        and digits < most
        and any(
            value is not None and abs(value - end) > 1e-9 and f"{value / scale:.{digits}{form}}" == printed
            for end in ends
            for printed in (f"{end / scale:.{digits}{form}}",)
            for value in values
        )
    ):
        digits += 1
    return lambda value: f"{value / scale:.{digits}{form}}"


_LENGTHS = re.compile(r"(\d+\.\d+)(?: to (\d+\.\d+))? mm( or less)?")


def in_inches(text: str) -> str:
    """Lengths of an advice in inches, ranges rounded inwards, so that what it says still holds."""

    def inches(match: re.Match[str]) -> str:
        low, high = float(match[1]) / MM_PER_INCH, float(match[2] or 0) / MM_PER_INCH
        if match[2]:
            return f"{math.ceil(low * 1e4 - 1e-9) / 1e4:.4f} to {math.floor(high * 1e4 + 1e-9) / 1e4:.4f} in"
        if match[3]:
            return f"{math.floor(low * 1e4 + 1e-9) / 1e4:.4f} in or less"
        if text[match.start() - 1 : match.start()] == "U":
            return f"{low:.4f} in"
        return f"{math.ceil(low * 1e4 - 1e-9) / 1e4:.4f} in"

    return _LENGTHS.sub(inches, text)


def told_value(told: Told, inches: bool) -> str:
    """A value that was worked out beside the findings, with its unit."""
    scale = MM_PER_INCH if inches and told.unit == "mm" else 1.0
    unit = "in" if inches and told.unit == "mm" else _PRINTED.get(told.unit, told.unit)
    low, high = (_four_figures(value / scale) for value in (told.low, told.high))
    return f"{low if low == high else f'{low} to {high}'} {unit}".rstrip()


def _four_figures(value: float) -> str:
    """Four figures, and every digit before the point: nobody at a bench reads 2.4e+04."""
    return f"{value:.0f}" if 1e4 <= abs(value) < 1e7 else f"{value:.4g}"
