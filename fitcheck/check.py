"""Answers the one question: does this part fit this place, in this service, as drawn or measured?"""

from __future__ import annotations

from schema.finding import Verdict
from schema.fit import Fit
from schema.question import Question
from schema.reference import Reference


def check(question: Question | Fit, reference: Reference) -> Verdict:
    """All findings, worst first, and the verdict: of a ring in a gland, or of any other place.

    Pure: the same question with the same tables gives the same answer on any machine. Raises
    UnknownName for a choice that does not exist.
    """
    if isinstance(question, Question):
        from fitcheck.rings.check import check_ring

        return check_ring(question, reference)
    from fitcheck.places import check_place

    return check_place(question, reference)
