"""Cautions in the order of the work, from ``published/cautions.csv``; the maker's instructions come first."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from schema.tables import rows


class Caution(NamedTuple):
    """A caution at its step of the work; ``where`` says which units give reason for it."""

    step: str
    where: str
    text: str
    source: str
    grade: str


@cache
def cautions() -> tuple[Caution, ...]:
    """All cautions, in the order of the work."""
    return tuple(Caution(**row) for row in rows("cautions"))
