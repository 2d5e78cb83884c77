"""What is judged once in an eyelet must be told once: one bush, one pin, bearings that are alike."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence

from fitcheck.eyelets.case import Case
from fitcheck.single import more_than_one
from schema.bearings import Bearing
from schema.bushings import PlainBushing
from schema.eyelets import REDUCERS, THROUGH, EyeletHardware
from schema.finding import Finding, Status
from schema.fit import Fit
from schema.places import largest
from schema.screws import Screw

_THICKER = 1.05  # a thread this much above the bolt is no other reading of it; own judgement, opens only


def unlike(case: Case, fit: Fit) -> Iterator[Finding]:
    """Different parts on the list of an eyelet where the first of them stands for all."""
    bushes = dict.fromkeys(one.part for one in fit.parts if isinstance(one.part, PlainBushing))
    if len(bushes) > 1:
        yield more_than_one("one_bush", "one kind of bush in the eyelet", [part.name for part in bushes])
    hardware = [one.part for one in fit.parts if isinstance(one.part, EyeletHardware)]
    through = [one for one in fit.parts if isinstance(one.part, EyeletHardware) and _spans(one.part)]
    if sum(one.quantity for one in through) > 1:
        names = [one.part.name for one in through for _ in range(one.quantity)]  # type: ignore[attr-defined]
        yield more_than_one("one_pin", "one pin that spans the gap", names)
    running = [part for part in hardware if part.found_style in (*THROUGH, *REDUCERS)]
    yield from _several(
        "pins_alike",
        "diameter of all that runs in the bush",
        [(part.name, part.outside_diameter) for part in running],
    )
    bearings = [one.part for one in case.bearings if isinstance(one.part, Bearing)]
    yield from _several(
        "bearings_alike",
        "diameters of all bearings of the eyelet",
        [(part.name, (part.found_style, *_diameters(part))) for part in bearings],
    )
    yield from _bolt(case, fit)


def _spans(part: EyeletHardware) -> bool:
    return part.found_style in THROUGH


def _diameters(bearing: Bearing) -> tuple[Hashable, Hashable]:
    sizes = bearing.known_sizes()
    return sizes.get("inside_diameter"), sizes.get("outside_diameter")


def _several(rule: str, quantity: str, told: Sequence[tuple[str, Hashable]]) -> Iterator[Finding]:
    """What is told of several parts, where it is not the same of all."""
    if len({one for _, one in told}) < 2:
        return
    names = dict.fromkeys(name for name, _ in told)
    yield Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning="only the first of them was judged in its seat",
        action="Ask the eyelet with each of them by itself.",
        reason=f"not alike: {', '.join(names)}",
    )


def _bolt(case: Case, fit: Fit) -> Iterator[Finding]:
    """A screw on the list is the bolt: its thread must go where the bolt goes."""
    bolt, screw = case.place.bolt_diameter, fit.first(Screw)
    if bolt is None or screw is None or screw.thread is None or screw.thread.major_mm is None:
        return
    if screw.thread.major_mm <= _THICKER * float(largest(bolt)):
        return
    yield Finding(
        rule="bolt_thread",
        quantity="thread of the screw against the bolt",
        status=Status.NOT_PROVEN,
        meaning="holes were judged for the bolt as told, and this screw is thicker",
        action="Measure the screw where it passes through, and give that as the bolt diameter.",
        reason=f"{screw.name} has {screw.thread.in_words}, the bolt is told {bolt.text}",
    )
