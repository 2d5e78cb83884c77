"""How good a figure is that was made of several."""

from __future__ import annotations

# Weakest first.
_GRADES = (
    "from_memory",
    "disputed",
    "own_judgement",
    "common_practice",
    "no_tolerance",
    "derived",
    "published_once",
    "published_twice",
    "standard",
    "given",
)


def weakest(*grades: str) -> str:
    """The weakest of several grades: a figure is as good as the worst it was made of.

    >>> weakest("published_twice", "derived")
    'derived'
    """
    return min(grades, key=_GRADES.index)
