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
    places_measured = any(_measured_at(unit, label, field))
    if field == "shaft_diameter" and isinstance(own, Dimension) and not places_measured:
        yield _Told(str(getattr(shaft, "part_number", "")) or label, own)
    for entry in unit.entries:
        size = getattr(entry.place, field, None)
        if entry.place.runs_on == label and isinstance(size, Dimension):
            yield _Told(entry.name, size)


def _measured_at(unit: Unit, label: str, field: str) -> Iterator[bool]:
    """Whether each place on a surface was measured; then the shaft as drawn says no more."""
    for entry in unit.entries:
        size = getattr(entry.place, field, None)
        if entry.place.runs_on == label and isinstance(size, Dimension):
            yield size.measured


def _finding(label: str, word: str, told: list[_Told]) -> Finding:
    """Measured sizes lead: where one is there, what is drawn only has to hold it."""
    measured = [one for one in told if one.size.measured]
    status, meaning, action = (_measured if measured else _drawn)(word, told, measured)
    several = "; ".join(f"{one.place} has {one.size.text}" for one in _each_once(told))
    return Finding(
        rule="shared_surface",
        quantity=f"diameter of the {label}, as {len(told)} places tell it",
        status=status,
        meaning=meaning,
        action=action.format(word=word, label=label),
        reason="" if status is Status.FITS else several,
        source=_SOURCE,
        grade="derived",
        inputs={one.place: one.size.text for one in told},
    )


_Outcome = tuple[Status, str, str]
_MEASURE = "Measure the {word} and give it for all of them, under the name {label!r}."


def _drawn(word: str, told: list[_Told], _: list[_Told]) -> _Outcome:
    if len({(one.size.lower, one.size.upper) for one in told}) == 1:
        return Status.FITS, f"every place means the same {word}", ""
    if max(one.size.lower for one in told) > min(one.size.upper for one in told):
        slip = f"these cannot be sizes of one {word}: a part of another unit, or a slip of the pen"
        return Status.DOES_NOT_FIT, slip, "Measure the {word} and correct the place that is wrong."
    return (
        Status.NOT_PROVEN,
        f"one {word} is drawn in more than one way: each place was judged by its own figure",
        _MEASURE,
    )


def _measured(word: str, told: list[_Told], measured: list[_Told]) -> _Outcome:
    low, high = max(least(one.size) for one in measured), min(largest(one.size) for one in measured)
    if low > high:
        uneven = f"the {word} was measured differently at its places: worn unevenly, or a slip"
        return Status.NOT_PROVEN, uneven, "Measure the {word} again where each part runs."
    drawn = [one for one in told if not one.size.measured]
    if all(one.size.lower <= low and high <= one.size.upper for one in drawn):
        return Status.FITS, f"as measured the {word} is what every place takes it for", ""
    return (
        Status.NOT_PROVEN,
        f"the {word} was measured, but some places were judged by a drawn size it no longer has",
        _MEASURE,
    )


def _each_once(told: list[_Told]) -> list[_Told]:
    """One place for each text."""
    return list({one.size.text: one for one in reversed(told)}.values())[::-1]
