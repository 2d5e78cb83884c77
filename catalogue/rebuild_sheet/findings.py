"""One finding as the sheet tells it: what was judged, its numbers, strip, reason, what to do, its sources."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from catalogue.picture.sizes import Unit as UnitOfLength
from catalogue.rebuild_sheet.drawings import Scales, strip
from catalogue.rebuild_sheet.sources import WORKED_OUT, Cite, Sources
from catalogue.values import between, in_inches, told_value, values_in_words
from schema.finding import Finding, Status, Told

NOT_A_SOURCE = "Worked out in this check from the sizes told of the place"
TAKEN = "Taken by this check where nothing was told: what it rests on is named in the line itself"
NOT_ASKED = "Told by this check of itself: what it did not ask, and why"


class Numbering(NamedTuple):
    """What findings of one sheet share: its sources, scales of strips, unit of length."""

    sources: Sources
    scales: Scales
    unit: UnitOfLength

    @property
    def inches(self) -> bool:
        """Whether lengths are shown in inches."""
        return self.unit == "in"


class Shown(NamedTuple):
    """A finding in the words of the sheet; ``strip`` is an SVG element or ""."""

    status: Status
    quantity: str
    values: str
    meaning: str
    why: str
    actions: tuple[str, ...]
    cite: Cite
    guidance: str
    equation: int
    strip: str


class Beside(NamedTuple):
    """A value that was worked out beside the findings and is not judged."""

    quantity: str
    value: str
    note: str
    cite: Cite
    equation: int


def shown(
    finding: Finding, by: Numbering, rules: Sequence[str], place: int = 0, *, drawn: bool = True
) -> Shown:
    """A finding in words; ``rules`` are those it was worked out by, innermost first.

    One that is not ``drawn`` is told in a line: worst case, limits and margin.
    """
    meaning = "" if finding.lacks and finding.meaning.startswith("nothing can be said") else finding.meaning
    actions = finding.action.split("\n") if finding.action else []
    return Shown(
        status=finding.status,
        quantity=finding.quantity,
        values=with_minus(values_in_words(finding if drawn else _short(finding), by.inches)),
        meaning=sentence(meaning),
        why=sentence(finding.reason or between(finding, by.inches)),
        actions=tuple(length_text(sentence(one), by) for one in actions),
        cite=_cite(finding.source, finding.grade, by, place),
        guidance="" if finding.limits is None else finding.limits.guidance,
        equation=by.sources.equation(rules or [finding.rule]),
        strip=strip(finding, by.scales, by.unit) if drawn else "",
    )


def beside(told: Told, by: Numbering, rules: Mapping[str, Sequence[str]], place: int) -> Beside:
    """A value that is told and not judged."""
    return Beside(
        quantity=told.quantity,
        value=with_minus(told_value(told, by.inches)),
        note=told.note,
        cite=_cite(told.source, told.grade, by, place),
        equation=by.sources.equation(rules.get(told.rule) or [told.rule]),
    )


def _short(finding: Finding) -> Finding:
    """A finding without the shares that a line has no room for."""
    return finding._replace(share_outside=None, conformance_probability=None)


def _cite(source: str, grade: str, by: Numbering, place: int) -> Cite:
    """Where a limit comes from; what has none was worked out from what was told, and says so."""
    if source:
        return by.sources.cite(source, grade, place)
    return by.sources.cite(NOT_A_SOURCE, WORKED_OUT, place)


def length_text(text: str, by: Numbering) -> str:
    """A text with its lengths in the unit of the sheet."""
    return in_inches(text) if by.inches else text


def with_minus(text: str) -> str:
    """Numbers below zero with the sign of print, which no line breaks after.

    >>> with_minus("-6.3 to 3.4 %; margin -2.47; gas-two-tables")
    '−6.3 to 3.4 %; margin −2.47; gas-two-tables'
    """
    return re.sub(r"(?<![\w.])-(?=\d)", "−", text)


def sentence(text: str) -> str:
    """A text as a sentence: a capital first where it is a plain word, and a full stop.

    >>> sentence("it may leak"), sentence("a size"), sentence("d1 is small"), sentence("")
    ('It may leak.', 'A size.', 'd1 is small.', '')
    """
    text = text.strip()
    if not text:
        return ""
    plain = text[:1].islower() and (text[1:2].islower() or text[1:2] == " ")
    first = text[0].upper() + text[1:] if plain else text
    return first if first.endswith((".", "!", "?")) else f"{first}."
