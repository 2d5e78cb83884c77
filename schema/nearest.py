"""Near matches for a name that was not found."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from schema.errors import UnknownName


def nearest(wanted: str, known: Iterable[str], *, most: int = 3) -> tuple[str, ...]:
    """The known names most like the wanted one, best first, without regard to case.

    >>> nearest("calipper", ["calliper", "micrometer"])
    ('calliper',)
    """
    from difflib import get_close_matches  # only when a name was not found

    by_lowered = {name.lower(): name for name in known}
    lowered = wanted.lower()
    inside = [name for low, name in by_lowered.items() if lowered and lowered in low][:most]
    close = [by_lowered[low] for low in get_close_matches(lowered, list(by_lowered), n=most, cutoff=0.6)]
    return tuple(dict.fromkeys([*close, *inside]))[:most]


def not_among(
    known: Collection[str], *, field: str, given: object, problem: str, example: str = ""
) -> UnknownName:
    """The refusal of a word that is not one of a closed list: it tells the list and the near matches."""
    names = list(known)
    return UnknownName(
        field=field,
        given=given,
        problem=problem,
        allowed=", ".join(names),
        example=example,
        nearest=nearest(str(given), names),
    )
