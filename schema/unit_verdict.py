"""What the check of a whole unit answers: a verdict on each place, on the unit as a whole, and the kit."""

from __future__ import annotations

from typing import NamedTuple

from schema.cautions import Caution
from schema.finding import Finding, Status, Verdict
from schema.fit import Fitted


class PlaceVerdict(NamedTuple):
    """The verdict on one place, with what the place is and what goes into it."""

    name: str
    kind: str
    words: str
    description: str
    parts: tuple[Fitted, ...]
    verdict: Verdict
    tools: tuple[str, ...] = ()


class WearSize(NamedTuple):
    """A size that tells how far a part is worn: of the part, or of its place once it is fitted."""

    place: str
    part_number: str
    field: str


class KitLine(NamedTuple):
    """One part of the kit: how many, where, and whether it is renewed.

    ``keep`` is what may be said of a part that is inspected, not always renewed: ``renew``, ``may stay``,
    ``look and measure`` or ``replace``; ``why`` says why, ``measure`` what would tell.
    """

    part_number: str
    name: str
    quantity: int
    places: tuple[str, ...]
    keep: str
    why: str = ""
    measure: tuple[WearSize, ...] = ()


class UnitVerdict(NamedTuple):
    """The verdict on a unit: the worst of its places and of what was found on the unit as a whole."""

    unit: str
    description: str
    status: Status
    decision_rule: str
    places: tuple[PlaceVerdict, ...]
    findings: tuple[Finding, ...]
    kit: tuple[KitLine, ...]
    tools: tuple[tuple[str, tuple[str, ...]], ...]
    cautions: tuple[Caution, ...]
    next_step: str
    not_asked: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()

    def grouped(self) -> dict[Status, tuple[PlaceVerdict, ...]]:
        """The places by status: what does not fit, what is not proven, what fits."""
        return {
            status: tuple(one for one in self.places if one.verdict.status is status)
            for status in (Status.DOES_NOT_FIT, Status.NOT_PROVEN, Status.FITS)
        }
