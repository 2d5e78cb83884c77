"""The names by which places of a unit share a shaft or a bore: one slip and nothing is shared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from schema.errors import InputError, UnknownName

_ALIKE = 0.85  # of difflib's ratio: one letter of a short name


def lonely_labels(places: Mapping[str, Any], shafts: Mapping[str, Any]) -> Iterator[InputError]:
    """An error for every ``runs_on`` or shaft that stands alone and is nearly the name of another."""
    runs_on: dict[str, list[str]] = {}
    for place, given in places.items():
        label = str(given.get("runs_on") or "").strip() if isinstance(given, Mapping) else ""
        if label:
            runs_on.setdefault(label, []).append(place)
    for label, at in runs_on.items():
        others = [one for one in (*shafts, *runs_on) if one != label]
        if label not in shafts and len(at) == 1 and (near := _near(label, others)):
            yield UnknownName(
                field=f"places.{at[0]}.runs_on",
                given=label,
                problem="no other place runs on it, and shafts does not name it",
                nearest=near,
            )
    for label in shafts:
        if label not in runs_on and (near := _near(label, [one for one in runs_on if one not in shafts])):
            yield UnknownName(
                field=f"shafts.{label}", given=label, problem="no place runs on it", nearest=near
            )


def _near(label: str, others: list[str]) -> tuple[str, ...]:
    """The names that differ by a slip; those that differ in their last sign alone are told apart by it."""
    if not others:
        return ()
    from difflib import get_close_matches

    close = get_close_matches(label, dict.fromkeys(others), n=3, cutoff=_ALIKE)
    return tuple(one for one in close if one[:-1] != label[:-1])
