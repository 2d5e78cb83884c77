"""The margin strip in plain characters: permitted band, worst-case interval and middle on one scale.

    ---[///=====o=====//////]---

``[`` and ``]`` are the limits, ``/`` the permitted band, ``=`` the worst case inside it, ``x`` the worst
case outside it, ``o`` the middle. Where limits hold for nominal sizes only the ``o`` counts, and the worst
case is a faint ``~`` on either side of them.
"""

from __future__ import annotations

import math

from schema.finding import Finding


def margin_strip(finding: Finding, width: int) -> str:
    """The strip of a finding in ``width`` characters; "" for a finding without numbers or limits."""
    limits = finding.limits
    if limits is None or finding.low is None or finding.high is None or finding.middle is None:
        return ""
    low, high, middle = finding.low, finding.high, finding.middle
    marks = [value for value in (low, high, middle, limits.low, limits.high) if value is not None]
    if not all(map(math.isfinite, marks)):
        return ""
    start, end = min(marks), max(marks)
    room = (end - start or abs(end) or 1.0) * 0.08
    start, end = start - room, end + room

    def cell(value: float) -> int:
        return min(width - 1, max(0, round((value - start) / (end - start) * (width - 1))))

    first = cell(limits.low) if limits.low is not None else -1
    last = cell(limits.high) if limits.high is not None else width
    drawn = []
    for position in range(width):
        within = first <= position <= last
        if cell(low) <= position <= cell(high):
            drawn.append("~" if limits.basis == "nominal" else "=" if within else "x")
        else:
            drawn.append("/" if within else "-")
    if limits.low is not None:
        drawn[first] = "["
    if limits.high is not None:
        drawn[last] = "]"
    drawn[cell(middle)] = "o"
    return "".join(drawn)
