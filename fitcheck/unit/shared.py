"""One shaft, told by several places: seal, wiper, bushing and guide must mean the same diameter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from schema.dimension import Dimension
from schema.finding import Finding, Status
from schema.places import largest, least
from schema.unit import Unit

# The fields by which places tell the surface they share, by what it is.
SURFACES = {"shaft_diameter": "shaft", "bore_diameter": "bore"}
_SOURCE = "two sizes of one surface are the same size: geometry"


class _Told(NamedTuple):
    place: str
    size: Dimension


def shared_surfaces(unit: Unit) -> list[Finding]:
    """A finding for every surface that two or more places of the unit tell a diameter of."""
    findings = []
    for label in dict.fromkeys(one.place.runs_on for one in unit.entries if one.place.runs_on):
        for field, word in SURFACES.items():
            told = list(_told(unit, label, field))
            if len(told) > 1:
                findings.append(_finding(label, word, told))
    return findings


def _told(unit: Unit, label: str, field: str) -> Iterator[_Told]:
    shaft = unit.shafts.get(label)
    own = getattr(shaft, "outside_diameter", None)
    if field == "shaft_diameter" and isinstance(own, Dimension):
        yield _Told(str(getattr(shaft, "part_number", "")) or label, own)
    for entry in unit.entries:
        size = getattr(entry.place, field, None)
        if entry.place.runs_on == label and isinstance(size, Dimension):
            yield _Told(entry.name, size)


def _finding(label: str, word: str, told: list[_Told]) -> Finding:
    quantity = f"diameter of the {label}, as {len(told)} places tell it"
    inputs = {one.place: one.size.text for one in told}
    limits = {(one.size.lower, one.size.upper, one.size.standard_uncertainty) for one in told}
    if len(limits) == 1:
        return Finding(
            "shared_surface",
            quantity,
            Status.FITS,
            meaning=f"every place means the same {word}",
            source=_SOURCE,
            grade="derived",
            inputs=inputs,
        )
    low, high = max(told, key=lambda one: least(one.size)), min(told, key=lambda one: largest(one.size))
    apart = least(low.size) > largest(high.size)
    between = f"{high.place} has {high.size.text}, {low.place} has {low.size.text}"
    one_measured = low.size.measured != high.size.measured
    if apart and not one_measured:
        return Finding(
            "shared_surface",
            quantity,
            Status.DOES_NOT_FIT,
            meaning=f"these cannot be sizes of one {word}: a part of another unit, or a slip of the pen",
            action=f"Measure the {word} and correct the place that is wrong.",
            reason=between,
            source=_SOURCE,
            grade="derived",
            inputs=inputs,
        )
    why = "worn, or drawn for another" if apart else "drawn in more than one way"
    return Finding(
        "shared_surface",
        quantity,
        Status.NOT_PROVEN,
        meaning=f"one {word} is {why}: each place was judged by its own figure",
        action=f"Measure the {word} and give it for all of them (under the name {label!r}).",
        reason=between,
        source=_SOURCE,
        grade="derived",
        inputs=inputs,
    )
