"""All findings of one ring in one gland, and the verdict they make."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.advice import Again
from fitcheck.compatibility import compatibility
from fitcheck.rings.case import case_of
from fitcheck.rings.evidence import evidence, not_asked, taken
from fitcheck.rings.judge import judged_sizes
from fitcheck.rings.surroundings import surroundings
from fitcheck.setting import Known
from fitcheck.verdict import cautions_for, verdict
from schema.dimension import Dimension
from schema.errors import InputError
from schema.finding import Finding, Verdict
from schema.model import Model
from schema.question import Question
from schema.reference import Reference


def check_ring(question: Question, reference: Reference) -> Verdict:
    """All findings for one ring in one gland, worst first, and the verdict."""
    case = case_of(question, reference)
    sized = judged_sizes(case)
    material = compatibility(question.ring.material, question.service, reference, by=case.rule, squeezed=True)
    others = [*material, *surroundings(case), *evidence(case)]
    if question.back_up is not None:
        from fitcheck.rings.back_up import back_up_findings  # a plain ring need not pay for it

        others += back_up_findings(case, question.back_up, reference)
    return verdict(
        case.setting,
        sized,
        others,
        _asked_again(question, reference),
        question=str(question),
        not_asked=not_asked(case),
        taken=taken(case, [*sized, *others]),
        cautions=cautions_for(question.service),
    )


def _asked_again(question: Question, reference: Reference) -> Again:
    """Asks the same with some sizes changed; the answer is None where ring and gland cannot have them."""

    def again(sizes: Mapping[str, Known]) -> dict[str, Finding] | None:
        models: dict[str, Model | None] = {
            "ring": question.ring,
            "gland": question.gland,
            "back_up": question.back_up,
        }
        for name, size in sizes.items():
            of = (
                "back_up"
                if name == "back_up_width"
                else "ring"
                if name in question.ring.declared
                else "gland"
            )
            model = models[of]
            if model is None or not isinstance(size, Dimension):
                return None
            try:
                models[of] = model.changed(**{"width" if of == "back_up" else name: size})
            except InputError:
                return None
        changed = case_of(question.changed(**models), reference)
        return {one.rule: one for one in (*judged_sizes(changed, statistics=False), *surroundings(changed))}

    return again
