"""Margin strips: permitted band, worst case, 99.73 % interval and middle of a finding, on one scale."""

from __future__ import annotations

import math
from collections.abc import Sequence

from catalogue.picture.parts import hatched
from catalogue.picture.sizes import MM_PER_INCH, Unit
from catalogue.picture.style import BODY, SMALL
from catalogue.picture.svg import (
    Element,
    circle,
    group,
    label,
    line,
    number,
    path,
    polyline_data,
    rectangle,
    wrapped,
)
from catalogue.values import RATING
from schema.finding import Finding, Status

MOST = 8
# Findings of one kind share a scale, so that two parts compare by eye; it widens where a value needs it.
KINDS: dict[str, tuple[float, float]] = {
    "squeeze": (-5.0, 45.0),
    "fill": (40.0, 105.0),
    "stretch": (-3.0, 9.0),
    "material_fluid": (0.7, 4.3),
}
TONES = {Status.FITS: "fits", Status.NOT_PROVEN: "not-proven", Status.DOES_NOT_FIT: "does-not-fit"}
WIDE_ROW, NARROW_ROW = 66.0, 148.0


def status_shape(status: Status, x: float, y: float, radius: float) -> Element:
    """A disc for fits, a cross for does not fit, a half-filled diamond for not proven."""
    tone = TONES[status]
    if status is Status.FITS:
        return group("shape", circle(tone, x, y, radius))
    if status is Status.DOES_NOT_FIT:
        r = radius * 0.85
        return group(
            "shape",
            line(f"cross-{tone}", x - r, y - r, x + r, y + r),
            line(f"cross-{tone}", x - r, y + r, x + r, y - r),
        )
    top, right, bottom, left = (x, y - radius), (x + radius, y), (x, y + radius), (x - radius, y)
    return group(
        "shape",
        path(tone, polyline_data([top, bottom, left], closed=True)),
        path(f"line-{tone}", polyline_data([top, right, bottom, left], closed=True)),
    )


def row_height(finding: Finding, *, narrow: bool) -> float:
    """Height of one row; less where there is no strip to draw."""
    if narrow:
        return NARROW_ROW if finding.low is not None else 90.0
    return WIDE_ROW


def kind_of(rule: str) -> str:
    """The kind of finding, whose strips share a scale."""
    if rule == "assembly_stretch":
        return rule
    return next((kind for kind in KINDS if rule.endswith(kind)), rule)


def scales_of(findings: Sequence[Finding]) -> dict[str, tuple[float, float]]:
    """From where to where the strips of each kind reach, in the finding's own unit."""
    reach: dict[str, list[float]] = {}
    for finding in findings:
        values = [finding.low, finding.middle, finding.high]
        values += [finding.statistical_low, finding.statistical_high]
        if finding.limits:
            values += [finding.limits.low, finding.limits.high]
        marks = [value for value in values if value is not None and math.isfinite(value)]
        if marks:
            reach.setdefault(kind_of(finding.rule), list(KINDS.get(kind_of(finding.rule), ()))).extend(marks)
    made = {}
    for kind, marks in reach.items():
        start, end = min(marks), max(marks)
        room = 0.12 * (end - start or abs(end) or 1.0)
        below = 0.03 * (end - start + room) if start == 0.0 else room
        made[kind] = (start, end) if (start, end) == KINDS.get(kind) else (start - below, end + room)
    return made


def strip_row(
    finding: Finding,
    scale: tuple[float, float] | None,
    *,
    prefix: str,
    unit: Unit,
    left: float,
    top: float,
    width: float,
    narrow: bool,
) -> Element:
    """One finding: shape and word, name, strip, limits and values as text."""
    made = group("finding", status_shape(finding.status, left + 12, top + 18, 9))
    name_width = width - 34 if narrow else 0.3 * width
    names = wrapped(finding.quantity, BODY, name_width, most=1 if narrow else 2)
    for index, text in enumerate(names):
        made.add(label(text, left + 30, top + 17 + 18 * index))
    made.add(
        label(
            finding.status.value,
            left + 30,
            top + 17 + 18 * len(names),
            size="small",
            tone=TONES[finding.status],
        )
    )
    first = left + 10 if narrow else left + 0.335 * width
    last = left + width - 10 if narrow else left + 0.685 * width
    at = top + (44 if narrow else 0)
    if scale is not None and finding.low is not None:
        made.add(*_strip(finding, scale, prefix, unit, first, last, at))
    elif not narrow:
        made.add(label("no number to draw", first, at + 22, size="small"))
    words = values_in_words(finding, unit)
    x, y = (
        (left + 10, top + (113 if finding.low is not None else 58))
        if narrow
        else (left + 0.7 * width, top + 16)
    )
    if narrow:
        words = [" · ".join(words[:2]), *words[2:]]
    room = width - 20 if narrow else 0.3 * width
    shown = [text for one in words for text in wrapped(one, SMALL, room, most=3)]
    for index, text in enumerate(shown[: 2 if narrow else 3]):
        made.add(label(text, x, y + 17 * index, size="small"))
    return made


STRIP_HEIGHT = 54.0


def strip_alone(
    finding: Finding, scale: tuple[float, float], *, prefix: str, unit: Unit, width: float
) -> Element:
    """The strip of a finding as a drawing of its own in a page, which holds the hatching of ``prefix``."""
    attributes = {
        "class": "gland-picture strip",
        "viewBox": f"0 0 {number(width)} {number(STRIP_HEIGHT)}",
        "width": number(width),
        "height": number(STRIP_HEIGHT),
        "role": "img",
    }
    words = f"{finding.quantity}: {', '.join(values_in_words(finding, unit))}"
    made = Element("svg", attributes, [Element("title", {}, [words])])
    return made.add(*_strip(finding, scale, prefix, unit, 14.0, width - 14.0, 1.0))


def _strip(
    finding: Finding,
    scale: tuple[float, float],
    prefix: str,
    unit: Unit,
    first: float,
    last: float,
    top: float,
) -> list[Element]:
    start, end = scale

    def at(value: float) -> float:
        return first + (min(max(value, start), end) - start) / (end - start) * (last - first)

    made: list[Element] = []
    band_top, band_bottom = top + 4, top + 32
    limits = finding.limits
    if limits is not None:
        low = limits.low if limits.low is not None else start
        high = limits.high if limits.high is not None else end
        corners = [(at(low), band_top), (at(high), band_top), (at(high), band_bottom), (at(low), band_bottom)]
        if high > low:
            made.append(hatched(prefix, "band", polyline_data(corners, closed=True)))
        for value in (limits.low, limits.high):
            if value is not None and math.isfinite(value):
                made.append(line("limit", at(value), band_top - 3, at(value), band_bottom + 3))
    made.append(line("rule", first, band_bottom, last, band_bottom))
    for tick in _ticks(finding, scale, unit):
        x = at(tick)
        made.append(line("thin", x, band_bottom, x, band_bottom + 5))
        made.append(
            label(_value(tick, finding.unit, unit), x, band_bottom + 18, size="small", anchor="middle")
        )
    assert finding.low is not None
    low, high = finding.low, finding.high if finding.high is not None else finding.low
    if not (math.isfinite(low) and math.isfinite(high)):
        return made
    y = top + 14
    if at(high) - at(low) < 6:
        made.append(circle("solid", (at(low) + at(high)) / 2, y, 5))
    else:
        made.append(line("worst", at(low), y, at(high), y))
    if finding.statistical_low is not None and finding.statistical_high is not None:
        likely = (at(finding.statistical_low), at(finding.statistical_high))
        made.append(line("likely", likely[0], y + 9, likely[1], y + 9))
        made += [line("thin", x, y + 5.5, x, y + 12.5) for x in likely]
    if finding.middle is not None and math.isfinite(finding.middle):
        made.append(line("likely nominal", at(finding.middle), y - 9, at(finding.middle), y + 7))
    return made


def _ticks(finding: Finding, scale: tuple[float, float], unit: Unit) -> list[float]:
    """Round values along the strip, four to six of them."""
    factor = MM_PER_INCH if finding.unit == "mm" and unit == "in" else 1.0
    start, end = (value / factor for value in scale)
    raw = (end - start) / 5
    power = 10.0 ** math.floor(math.log10(raw))
    step = next(power * n for n in (1, 2, 5, 10) if power * n >= raw * 0.999)
    step = max(step, 1.0) if finding.unit == RATING else step
    first = math.ceil(start / step - 1e-9)
    inside = (end - start) * 0.02
    values = [n * step for n in range(first, first + 8) if n * step <= end + 1e-9]
    return [value * factor for value in values if start + inside <= value <= end - inside]


def _value(value: float, own: str, unit: Unit) -> str:
    if own == "mm" and unit == "in":
        return f"{value / MM_PER_INCH:.4f}".rstrip("0").rstrip(".").replace("-", "−") or "0"
    text = f"{value:.3f}" if own == "mm" else f"{value:.1f}" if own == "%" else f"{value:.3g}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text.replace("-", "−")


def values_in_words(finding: Finding, unit: Unit) -> list[str]:
    """Worst case, limits and likely interval as text; the reason where there is no number."""
    own = finding.unit
    shown = {"mm": str(unit), "degC": "°C", "um Ra": "µm Ra", RATING: ""}.get(own, own)

    def pair(low: float, high: float) -> str:
        if low == high:
            return f"{_value(low, own, unit)} {shown}".strip()
        return f"{_value(low, own, unit)} to {_value(high, own, unit)} {shown}".strip()

    if finding.low is None:
        return [finding.reason or finding.meaning or "not given"]
    high = finding.high if finding.high is not None else finding.low
    if not (math.isfinite(finding.low) and math.isfinite(high)):
        return [finding.reason or "beyond the range its rule is valid for"]
    first = "rated (1 best, 4 worst)" if own == RATING else "worst case" if high > finding.low else "is"
    first += " at U = 2u" if first == "worst case" and finding.guard_band > 0 else ""
    words = [f"{first} {pair(finding.low, high)}"]
    limits = finding.limits
    if limits is None or (limits.low is None and limits.high is None):
        words.append("no published limit")
    elif limits.low is None:
        words.append(f"allowed up to {pair(limits.high or 0.0, limits.high or 0.0)}")
    elif limits.high is None:
        words.append(f"allowed from {pair(limits.low, limits.low)}")
    else:
        words.append(f"allowed {pair(limits.low, limits.high)}")
    if limits is not None and limits.basis == "nominal":
        words[-1] += " at nominal size"
    likely = (finding.statistical_low, finding.statistical_high)
    if likely[0] is not None and likely[1] is not None and likely[0] < likely[1]:
        words.append(f"99.73 % within {pair(likely[0], likely[1])}")
    return words


def key(prefix: str, left: float, top: float, width: float) -> Element:
    """What the marks of a strip mean, in one line or two."""
    made = group("key")
    x, y = left + 10, top
    for words, sign in (
        ("permitted", "band"),
        ("worst case", "worst"),
        ("99.73 % of assemblies", "likely"),
        ("nominal or as read", "nominal"),
    ):
        if x > left + 10 and x + 30 + len(words) * SMALL * 0.62 > left + width:
            x, y = left + 10, y + 22
        if sign == "band":
            corners = [(x, y - 11), (x + 22, y - 11), (x + 22, y + 3), (x, y + 3)]
            made.add(hatched(prefix, "band", polyline_data(corners, closed=True)))
            made.add(rectangle("rule", x, y - 11, 22, 14))
        elif sign == "nominal":
            made.add(line("likely", x + 11, y - 12, x + 11, y + 4))
        else:
            made.add(line(sign, x, y - 4, x + 22, y - 4))
        made.add(label(words, x + 28, y, size="small"))
        x += 44 + len(words) * SMALL * 0.62
    return made
