"""What a refused row is told by the words of its description: what it may be, which sizes could not be read.

Only rows that are refused are looked at, so that the rows of a sound sheet cost nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from catalogue.sheets.articles import NO_KIND
from catalogue.sheets.problems import Missing, Problem
from catalogue.sheets.sheet_fields import fields
from catalogue.sheets.told_kinds import no_kind
from schema.size_words import size_words

_NO_UNIT = "no unit is told"  # as the doubts of a description say it
_LENGTHS = ("length", "text")  # sizes of a part, and the designation of one


def advised(
    problems: Sequence[Problem],
    description: str,
    kind: str,
    headers: Mapping[str, str],
    told: Sequence[Problem] = (),
) -> Sequence[Problem]:
    """The problems of one row's article, told of its description where that says more.

    ``kind`` is that of every row, "" for none; ``headers`` has the header of each field's column, ``told``
    what is wrong with single cells of the row: a word for a kind that is not known is told once.
    """
    if problems is NO_KIND:
        if "kind" in headers and any(one.column == headers["kind"] for one in told):
            return ()
        column = headers.get("description" if description else "kind", "")
        return (no_kind(column, description),)
    missing = [one for one in problems if isinstance(one, Missing) and _is_size(one.field)]
    if not missing or not description:
        return problems
    doubts = size_words(description, kind=kind).doubts
    if not doubts:
        return problems
    of_words = [_of_doubt(doubt, description, headers.get("description", "")) for doubt in doubts]
    return [*of_words, *(one for one in problems if one not in missing)]


def _is_size(field: str) -> bool:
    return field in fields() and fields()[field].holds in _LENGTHS


def _of_doubt(doubt: str, description: str, column: str) -> Problem:
    """A doubt of the words as a problem: 0,489x0,070: no unit is told."""
    text, _, why = doubt.rpartition(": ")
    if _NO_UNIT in why:
        reason = f"the description has {text}, and no unit is told: is it mm or in"
        return Problem(column, description, reason, f"write the unit behind it, as in {text} in")
    mend = "write the description plainly, or give the sizes in columns of their own"
    return Problem(column, description, f"the description cannot be read: {doubt}", mend)
