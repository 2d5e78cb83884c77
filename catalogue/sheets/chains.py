"""Chains of versions: what an offer or a part says, load after load, and the chain without one of its loads.

A load adds a version where it says something else than the version before. Taking a load out of a chain is
therefore more than leaving its version out: a later load that said the same as it says so still, one that
went back to what stood before says nothing new any more, and one that found an offer withdrawn already
withdraws it now. So what came after is played again, on what stood before.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple


class Place(NamedTuple):
    """Where a version comes from; a withdrawal stands on no row, a part of the workshop came by no load."""

    load: int | None
    sheet: str | None
    row: int | None


class Version(NamedTuple):
    """One version: all that it says, where that comes from, and what it is told from others by.

    ``mark`` is the digest of an offer's row, or the texts of a part. A version that is not ``listed`` is a
    withdrawal; it repeats what the version before it said.
    """

    what: tuple[Any, ...]
    place: Place
    mark: Any
    listed: bool = True


class Chain(NamedTuple):
    """A chain around the load that is taken out: the version before it, its own, and those of later loads."""

    before: Version | None
    taken: Version
    after: Sequence[Version]

    @property
    def until(self) -> int | None:
        """The load that replaced the version that is taken out; None where it holds still."""
        return self.after[0].place.load if self.after else None


def replayed(before: Version | None, said: Iterable[Version]) -> list[Version]:
    """The chain that comes of saying these one after the other; ``before`` is its first, where there is one.

    >>> a, b = (Version((text,), Place(load, "", 2), text) for load, text in ((1, "A"), (2, "B")))
    >>> [one.place.load for one in replayed(a, [b._replace(what=("A",), mark="A"), b])]
    [1, 2]
    """
    chain = [] if before is None else [before]
    for one in said:
        last = chain[-1] if chain else None
        if not one.listed:
            if last is not None and last.listed:
                chain.append(Version(last.what, one.place, None, listed=False))
        elif last is None or not last.listed or last.mark != one.mark:
            chain.append(one)
    return chain
