"""Turns a batch of rows into typed rows: the terms of the offer and the article, or what is wrong.

It works down the columns, since a column repeats itself and a row does not.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from itertools import repeat
from typing import Any, NamedTuple

from catalogue.sheets.advising import advised
from catalogue.sheets.articles import Article, Articles
from catalogue.sheets.cells import BETWEEN, plain
from catalogue.sheets.codes import folded
from catalogue.sheets.columns import column_reader
from catalogue.sheets.mapping import Mapping, placed
from catalogue.sheets.merging import STUFF
from catalogue.sheets.offered_terms import TermsBuilder
from catalogue.sheets.problems import Problem, Refused
from catalogue.sheets.sheet_fields import OFFER_FIELDS
from catalogue.sheets.terms import Offered
from catalogue.sheets.told_kinds import ToldKinds
from schema.size_words import told_words

# Fields of a row that say nothing of what the article is.
BESIDE_ARTICLE = ("part_number", "description", "maker", "superseded_by", "notes")
_OWN_TEXTS = ("superseded_by", "notes")


class Row(NamedTuple):
    """A row that can be taken. ``part_number`` is the one the sheet tells, "" where it tells none."""

    sheet: str
    number: int
    digest: int
    cells: list[str]
    part_number: str
    terms: Offered
    article: Article
    beside: tuple[str, str]  # superseded_by and notes


class Rows(NamedTuple):
    """The rows of a batch, read: each with its place in it; those of ``left_out`` are no parts."""

    taken: list[Row]
    places: Sequence[int]  # of the taken rows
    refused: dict[int, Refused]
    left_out: list[int]


class RowReader:
    """Reads the rows of one table by a mapping.

    ``meaning`` is all of the mapping that a row is read by, ``places`` the columns of the mapped fields in
    the order of their names; ``meaning`` is the same for next month's table if that means the same.
    """

    def __init__(self, mapping: Mapping, sheet: str, header: Sequence[str]) -> None:
        self.sheet = sheet
        self._width = len(header)
        found = placed(mapping, header)
        self._at = {field: place.at for field, place in found.items()}
        self.meaning = json.dumps(
            [
                mapping.decimal,
                mapping.texts,
                sorted((field, place.column.unit) for field, place in found.items()),
                sorted(mapping.every.items()),
                sorted((field, sorted(words.items())) for field, words in mapping.words.items()),
                sorted(mapping.same_part.items()),
            ]
        )
        self.places = [self._at[field] for field in sorted(self._at)]
        self._readers = {field: column_reader(place.column, mapping) for field, place in found.items()}
        self._kind = mapping.every.get("kind", "")
        as_kept = mapping.texts == "as_kept"
        self._told_kinds = ToldKinds({} if as_kept else mapping.words.get("kind", {}))
        self._headers = {field: place.column.header for field, place in found.items()}
        self._terms = TermsBuilder(mapping.every, self._headers)
        of_article = [field for field in found if field not in OFFER_FIELDS and field not in BESIDE_ARTICLE]
        self._fields = tuple(field for field in of_article if field not in STUFF)
        self._stuff = tuple(field for field in of_article if field in STUFF)
        # With words that a person told for kinds, the one kind of every row is told row by row as well.
        self._kind_by_row = bool(self._told_kinds and self._kind and "kind" not in found)
        self._articles = Articles(
            fields=(*self._fields, "kind") if self._kind_by_row else self._fields,
            stuff=self._stuff,
            every={
                field: text
                for field, text in mapping.every.items()
                if field not in OFFER_FIELDS
                and field not in BESIDE_ARTICLE
                and not (field == "kind" and self._told_kinds)  # it comes with the words of each row
            },
            headers=self._headers,
            as_kept=as_kept,
        )

    def read(self, numbers: Sequence[int], rows: Sequence[list[str]], digests: Sequence[int]) -> Rows:
        """Read rows that are as wide as the header, or longer where cells stand beyond it."""
        count = len(rows)
        columns = list(zip(*rows, strict=False))[: self._width]
        values = {field: reader.read_all(columns[self._at[field]]) for field, reader in self._readers.items()}
        terms = self._terms.terms(values, count)
        articles = self._articles_of(values, count)
        made = map(
            Row,
            repeat(self.sheet),
            numbers,
            digests,
            rows,
            values.get("part_number") or repeat(""),
            terms,
            articles,
            zip(*(values.get(name) or repeat("", count) for name in _OWN_TEXTS), strict=True),
        )
        wrong = self._wrong(values)
        sound = not wrong and set(map(type, articles)) == {Article} and set(map(type, terms)) == {Offered}
        if sound and set(map(len, rows)) == {self._width}:
            return Rows(list(made), range(count), {}, [])
        return self._sorted(list(made), wrong)

    def _sorted(self, made: Sequence[Any], wrong: dict[int, list[Problem]]) -> Rows:
        """The rows that can be taken apart from those that cannot."""
        found = Rows([], [], {}, [])
        places: list[int] = []
        for at, row in enumerate(made):
            problems = list(wrong.get(at, ()))
            if len(row.cells) != self._width:
                problems.append(self._too_long(row.cells))
            if type(row.terms) is Problem:
                problems.append(row.terms)
            if type(row.article) is tuple:
                if not row.article and not problems:
                    found.left_out.append(at)
                    continue
                text = self._description(row.cells)
                problems += advised(row.article, text, self._kind, self._headers, tuple(problems))
            if problems:
                told = tuple(dict.fromkeys(problems))
                found.refused[at] = Refused(self.sheet, row.number, row.cells, told, self._code(row.cells))
            else:
                found.taken.append(row)
                places.append(at)
        return found._replace(places=places)

    def codes(self, rows: Sequence[list[str]]) -> list[str]:
        """The code of each row in small letters, by which rows of a sheet are told apart; "" for none."""
        field = "code" if "code" in self._at else "part_number"
        at = self._at[field]
        found = self._readers[field].read_all([row[at] for row in rows])
        if set(map(type, found)) == {str} and (joined := BETWEEN.join(found)).isascii():
            return joined.lower().split(BETWEEN)
        return [folded(value) if type(value) is str else "" for value in found]

    # -- the article --------------------------------------------------------------------------------

    def _articles_of(self, values: dict[str, list[Any]], count: int) -> list[Any]:
        def cells(names: Sequence[str]) -> Iterable[tuple[Any, ...]]:
            return zip(*(values[name] for name in names), strict=True) if names else repeat((), count)

        kinds = values.get("kind") or [self._kind] * count
        texts = values.get("description") or [""] * count
        if Problem in set(map(type, texts)) or Problem in set(map(type, kinds)):
            texts = [one if type(one) is str else "" for one in texts]  # a Problem is told by itself
            kinds = [one if type(one) is str else "" for one in kinds]
        told: list[str] = []
        if self._told_kinds:  # a filled cell of the column of kinds goes before them
            told = [
                "" if kind and "kind" in self._at else self._told_kinds.kind(text)
                for kind, text in zip(kinds, texts, strict=True)
            ]
            kinds = [one or kind for one, kind in zip(told, kinds, strict=True)]
        words = [told_words(text, kind=kind) for text, kind in zip(texts, kinds, strict=True)]
        if any(told):  # what a person said of a word is not held against the word
            words = [(kind, *one[1:]) if kind else one for kind, one in zip(told, words, strict=True)]
        fields = cells(self._fields)
        if self._kind_by_row:
            fields = ((*one, kind) for one, kind in zip(fields, kinds, strict=True))
        return list(map(self._articles.__getitem__, zip(fields, cells(self._stuff), words, strict=True)))

    # -- what is wrong ------------------------------------------------------------------------------

    def _wrong(self, values: dict[str, list[Any]]) -> dict[int, list[Problem]]:
        found: dict[int, list[Problem]] = {}
        for field, reader in self._readers.items():
            if reader.refuses:
                for at, value in enumerate(values[field]):
                    if type(value) is Problem:
                        found.setdefault(at, []).append(value)
        if "code" not in values:
            for at, value in enumerate(values["part_number"]):
                if value == "":
                    problem = self._problem("part_number", "", "nothing is given", "a part number")
                    found.setdefault(at, []).append(problem)
        return found

    def _problem(self, field: str, value: str, reason: str, mend: str) -> Problem:
        return Problem(self._headers.get(field, field), value, reason, mend)

    def _too_long(self, cells: list[str]) -> Problem:
        return Problem(
            "",
            "",
            f"{len(cells)} cells stand here, the header has {self._width}",
            "put a text that holds the separator between quotes, or give the column a header",
        )

    def _description(self, cells: list[str]) -> str:
        at = self._at.get("description", len(cells))
        return plain(cells[at]) if at < len(cells) else ""

    def _code(self, cells: list[str]) -> str:
        at = self._at.get("code", self._at.get("part_number", 0))
        return cells[at] if at < len(cells) else ""
