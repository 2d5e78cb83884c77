"""Which decimal sign a column of texts is written with, by what its numbers show and never by a country.

``1.234,56`` says comma, ``12.5`` says point, ``1,234`` says nothing: it may be one and a bit or a thousand
and more. A column in which both are shown is told as mixed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal, NamedTuple

from catalogue.sheets.cells import mark_of

Sign = Literal["", ".", ","]
_SPACES = "  \u2009\u202f\u00a0"
_NUMBER = re.compile(rf"(?<![\w.,])\d*[.,\d](?:['’{_SPACES}](?=\d{{3}}(?!\d))|[.,](?=\d)|\d)*")
LONGEST_NUMBER_CELL = 40  # a cell that is longer, or has many letters, is words with numbers in them
MOST_LETTERS = 12


class Evidence(NamedTuple):
    """How many numbers show a decimal point, how many a comma, how many may be read both ways; examples."""

    points: int = 0
    commas: int = 0
    unclear: int = 0
    point_example: str = ""
    comma_example: str = ""
    unclear_example: str = ""

    @property
    def mixed(self) -> bool:
        """Whether both signs are shown."""
        return self.points > 0 and self.commas > 0

    @property
    def says(self) -> Sign:
        """The sign that is shown; "" where none is, or both are."""
        if self.mixed:
            return ""
        return "." if self.points else "," if self.commas else ""

    @property
    def open(self) -> bool:
        """Whether a person has to say it: signs are there that may be read both ways, or both are shown."""
        return self.mixed or (not self.says and self.unclear > 0)

    @property
    def in_words(self) -> str:
        """What was seen, for a person."""
        seen = [
            f"{count} with {what} ({example})"
            for count, what, example in (
                (self.points, "a decimal point", self.point_example),
                (self.commas, "a decimal comma", self.comma_example),
                (self.unclear, "a sign that may be either", self.unclear_example),
            )
            if count
        ]
        return ", ".join(seen) or "no decimal sign in it"


def decimal_evidence(values: Iterable[str]) -> Evidence:
    """What the texts of one column show; a workbook's own numbers have no sign and show nothing.

    >>> decimal_evidence(["1.234,56", "12,5", "1.234"]).says
    ','
    >>> decimal_evidence(["1,234"]).open
    True
    """
    count = {".": 0, ",": 0, "?": 0}
    example = {".": "", ",": "", "?": ""}
    for cell in values:
        if mark_of(cell) or len(cell) > LONGEST_NUMBER_CELL:
            continue
        if sum(sign.isalpha() for sign in cell) > MOST_LETTERS:
            continue
        for token in _NUMBER.findall(cell.replace("..", " ")):
            shown = shown_by(token)
            if shown:
                count[shown] += 1
                example[shown] = example[shown] or cell.strip()
    return Evidence(count["."], count[","], count["?"], example["."], example[","], example["?"])


def combined(columns: Iterable[Evidence]) -> Evidence:
    """What several columns show together."""
    found = Evidence()
    for one in columns:
        counts = (found.points + one.points, found.commas + one.commas, found.unclear + one.unclear)
        found = Evidence(*counts, *(mine or theirs for mine, theirs in zip(found[3:], one[3:], strict=True)))
    return found


def shown_by(number: str) -> str:
    """What one number shows: ``.`` or ``,`` as its decimal sign, ``?`` for either, "" for nothing.

    >>> shown_by("1,234,567"), shown_by("0.070"), shown_by("1234"), shown_by("1'234.500")
    ('.', '.', '', '.')
    """
    spaced = bool(re.search(rf"['’{_SPACES}]", number))
    text = re.sub(rf"['’{_SPACES}]", "", number)
    signs = [sign for sign in text if sign in ".,"]
    if not signs:
        return ""
    last = signs[-1]
    before, _, after = text.rpartition(last)
    if len(set(signs)) == 2:  # the last one is the decimal sign if the other parts thousands before it
        other = "," if last == "." else "."
        return last if re.fullmatch(rf"\d{{1,3}}(?:\{other}\d{{3}})+", before) else ""
    if len(signs) > 1:  # 1.234.567: this sign parts thousands, so the other one is the decimal sign
        thousands = re.fullmatch(rf"\d{{1,3}}(?:\{last}\d{{3}})+", text)
        return ("," if last == "." else ".") if thousands else ""
    if len(after) == 3 and not spaced and 1 <= len(before) <= 3 and not before.startswith("0"):
        return "?"
    return last if after else ""
