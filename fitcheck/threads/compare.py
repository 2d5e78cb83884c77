"""Whether two threads are the same, near, or different.

Threads that are near start by hand, bind after a turn or sit loose, and strip: they do not fit. A pair of
which a size was not found in print is not proven, whatever its names look like.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from fitcheck.decision import WEAK_GRADES
from fitcheck.grades import weakest
from schema.finding import Finding, Status
from schema.thread_tables import nearness, valve_limits
from schema.threads import METRIC, VALVE, Thread


class Relation(StrEnum):
    """How two threads stand to each other."""

    SAME = "same"
    NEAR = "near"
    DIFFERENT = "different"
    UNKNOWN = "unknown"


class Comparison(NamedTuple):
    """Two threads held against each other.

    ``alike`` tells that the sizes agree within 0.5 % of pitch and 1 % of diameter although the names do
    not: two documents, whose limits were not read side by side. The differences are percent of the first.
    """

    relation: Relation
    words: str
    alike: bool = False
    pitch_percent: float | None = None
    diameter_percent: float | None = None


def compare(first: Thread, second: Thread) -> Comparison:
    """Same, near or different, with the words why.

    >>> from schema.threads import parse_thread
    >>> compare(parse_thread("6V1"), parse_thread("M6")).relation.value
    'near'
    >>> compare(parse_thread("M8"), parse_thread("M8x1.25")).relation.value
    'same'
    """
    if first.left_hand != second.left_hand:
        return Comparison(Relation.DIFFERENT, "one is a left-hand thread, the other a right-hand one")
    one_name = (first.family, first.label) == (second.family, second.label)
    doubtful = [one for one in (first, second) if unverified(one)]
    if one_name and not doubtful:
        return Comparison(Relation.SAME, f"both are {first.in_words}", True, 0.0, 0.0)
    if first.major_mm is None or second.major_mm is None or not first.pitch_mm or not second.pitch_mm:
        return Comparison(Relation.UNKNOWN, _why_unknown(doubtful))
    pitch = 100.0 * abs(first.pitch_mm - second.pitch_mm) / first.pitch_mm
    diameter = diameter_difference_percent(first, second)
    near = nearness()
    same_pitch = pitch <= near["pitch"].same_percent
    same_diameter = diameter <= near["diameter"].same_percent
    close = pitch <= near["pitch"].near_percent and diameter <= near["diameter"].near_percent
    if doubtful and (close or same_diameter):
        return Comparison(Relation.UNKNOWN, _why_unknown(doubtful), False, pitch, diameter)
    if same_pitch and same_diameter:
        return Comparison(Relation.NEAR, _alike(first, second), True, pitch, diameter)
    if close or same_diameter:
        return Comparison(Relation.NEAR, _near(first, second, same_pitch), False, pitch, diameter)
    return Comparison(
        Relation.DIFFERENT, f"{first.in_words} against {second.in_words}", False, pitch, diameter
    )


def unverified(thread: Thread) -> bool:
    """Whether a size of the thread is missing, remembered or disputed."""
    return thread.major_mm is None or thread.pitch_mm is None or thread.grade in WEAK_GRADES


def diameter_difference_percent(first: Thread, second: Thread) -> float:
    """The difference of the major diameters in percent of the first, on a side that is printed for both.

    A valve thread is printed by its external or its internal diameter, which are apart by up to 3 %; two are
    held against each other on one side wherever both are printed on it.
    """
    for side in ("external", "internal"):
        one, other = _major_on(first, side), _major_on(second, side)
        if one and other:
            return 100.0 * abs(one - other) / one
    one, other = first.major_mm or 0.0, second.major_mm or 0.0
    return 100.0 * abs(one - other) / one if one else float("inf")


def _major_on(thread: Thread, side: str) -> float | None:
    if thread.family != VALVE or thread.side in (side, "both"):
        return thread.major_mm
    printed = valve_limits().get((thread.label, side, "major"))
    return float(printed.low_mm) if printed and printed.low_mm else None


def _why_unknown(doubtful: list[Thread]) -> str:
    return "; ".join(
        dict.fromkeys(
            f"no size of {one.label} was found in print"
            if one.major_mm is None
            else f"the size of {one.label} is {one.grade.replace('_', ' ')}"
            + (f": {one.note}" if one.note else "")
            for one in doubtful
        )
    )


def _alike(first: Thread, second: Thread) -> str:
    return (
        f"{first.in_words} and {second.in_words} agree within a pitch gauge, but their limits were not read "
        "side by side"
    )


def _near(first: Thread, second: Thread, same_pitch: bool) -> str:
    told = f"{first.in_words} is near {second.in_words}, not the same: "
    step = abs((first.pitch_mm or 0.0) - (second.pitch_mm or 0.0))
    apart = abs((first.major_mm or 0.0) - (second.major_mm or 0.0))
    if same_pitch:
        return told + f"it starts, and sits loose or binds by {apart:.2g} mm on the diameter"
    return told + f"it may start, is {step:.2g} mm off with every turn, and strips"


def thread_finding(
    inside: Thread | None,
    outside: Thread | None,
    *,
    rule: str,
    quantity: str,
    inside_of: str,
    outside_of: str,
) -> Finding:
    """The finding on an external thread in an internal one; ``..._of`` say whose threads they are."""
    absent = [
        f"thread of the {whose}" for one, whose in ((inside, inside_of), (outside, outside_of)) if one is None
    ]
    if inside is None or outside is None:
        told = " and ".join(absent)
        return Finding(
            rule=rule,
            quantity=quantity,
            status=Status.NOT_PROVEN,
            meaning="nothing can be said without it",
            action=f"Give the {told}.",
            reason=f"missing: {told}",
            lacks=tuple(absent),
        )
    found = compare(inside, outside)
    inputs = {inside_of: inside.text, outside_of: outside.text}
    base = Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning=found.words,
        source=_source(inside, outside),
        grade=weakest(inside.grade, outside.grade),
        inputs=inputs,
    )
    if found.relation is Relation.SAME:
        return base._replace(status=Status.FITS, meaning=f"one thread: {found.words}")
    if found.relation is Relation.UNKNOWN or found.alike:
        return base._replace(
            reason=found.words,
            meaning="whether these are one thread is not settled",
            action="Measure the diameter over the thread and the pitch with a gauge, or ask the maker.",
        )
    measure = "Do not force it. Measure both: diameter over the thread, pitch with a gauge."
    return base._replace(
        status=Status.DOES_NOT_FIT,
        action=f"{_other_part(inside, outside_of)} {measure}",
        reason=_differs(found),
    )


def _other_part(inside: Thread, outside_of: str) -> str:
    return f"A {outside_of} with {inside.in_words}."


def _differs(found: Comparison) -> str:
    if found.pitch_percent is None or found.diameter_percent is None:
        return ""
    return f"pitch differs by {found.pitch_percent:.1f} %, diameter by {found.diameter_percent:.1f} %"


def _source(inside: Thread, outside: Thread) -> str:
    return "; ".join(dict.fromkeys(one.source for one in (inside, outside)))


def taken_classes(inside: Thread | None, outside: Thread | None) -> tuple[str, ...]:
    """What is taken where a metric thread tells no class: the medium one."""
    untold = [
        name
        for one, told, name in (
            (inside, inside.internal_class if inside else "", "6H for the internal"),
            (outside, outside.external_class if outside else "", "6g for the external"),
        )
        if one is not None and one.family == METRIC and not told
    ]
    return (f"class {' and '.join(untold)} thread, none is told",) if untold else ()
