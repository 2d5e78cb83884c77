"""What is only near: a new code that may be a known article. It is proposed, and never taken.

Looked at are new codes beside the codes that are gone from the same sheet (a code that lost its leading
zeros, a code spelt otherwise, the same words under another code), and parts that fit a row equally well.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from rapidfuzz import fuzz, process

from catalogue.sheets.codes import core, how_spelt
from catalogue.sheets.comparing import TOLD, New
from catalogue.sheets.known import KnownOffer
from catalogue.sheets.outcome import Proposal

MOST_LOOKED_AT = 1000  # new rows, and offers that are gone: more than a person reads
_ALIKE = 92.0  # of 100, for two descriptions; our own judgement, no source


def proposals(new: Sequence[New], missing: Sequence[KnownOffer]) -> list[Proposal]:
    """Every likely article of a new code, best first for each code."""
    found: list[Proposal] = []
    by_core: dict[str, list[KnownOffer]] = defaultdict(list)
    for offer in missing[:MOST_LOOKED_AT]:
        by_core[core(offer.code)].append(offer)
    words = {at: offer.description for at, offer in enumerate(missing[:MOST_LOOKED_AT]) if offer.description}
    for one in new[:MOST_LOOKED_AT]:
        if one.how == TOLD:  # a person said what it is
            continue
        code, row = one.row.terms.code, one.row.number
        told = [
            Proposal(code, row, offer.part_number, how_spelt(code, offer.code))
            for offer in by_core.get(core(code), ())
        ]
        text = one.row.terms.description
        if not told and text and words:
            for _, score, at in process.extract(
                text, words, scorer=fuzz.ratio, score_cutoff=_ALIKE, limit=2, processor=str.casefold
            ):
                offer = missing[at]
                told.append(
                    Proposal(
                        code,
                        row,
                        offer.part_number,
                        f"{offer.code} is gone from the sheet and was described "
                        + ("just so" if score == 100 else "almost so"),
                    )
                )
        told += [
            Proposal(code, row, number, "has the same kind, sizes and material, as others have")
            for number in one.others
        ]
        found += told
    return list(_once(found))


def _once(found: Iterable[Proposal]) -> Iterable[Proposal]:
    seen = set()
    for one in found:
        if (one.code, one.part_number) not in seen:
            seen.add((one.code, one.part_number))
            yield one
