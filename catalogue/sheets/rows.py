"""Turns a batch of rows into typed rows: the terms of the offer and the article, or what is wrong.

It works down the columns, since a column repeats itself and a row does not.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from itertools import repeat
from typing import Any, NamedTuple

from catalogue.sheets.articles import Article, Articles, Told
from catalogue.sheets.columns import column_reader
from catalogue.sheets.mapping import Mapping, placed
from catalogue.sheets.merging import STUFF
from catalogue.sheets.problems import Problem, Refused
from catalogue.sheets.sheet_fields import OFFER_FIELDS
from catalogue.sheets.terms import Offered
from schema.size_words import size_words

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


class LeftOutRow(NamedTuple):
    """A row that the mapping leaves out, by the word for its kind."""

    sheet: str
    number: int
    cells: list[str]


Read = Row | Refused | LeftOutRow


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
                sorted((field, place.column.unit) for field, place in found.items()),
                sorted(mapping.every.items()),
                sorted((field, sorted(words.items())) for field, words in mapping.words.items()),
                sorted(mapping.same_part.items()),
            ]
        )
        self.places = [self._at[field] for field in sorted(self._at)]
        self._readers = {field: column_reader(place.column, mapping) for field, place in found.items()}
        self._every = dict(mapping.every)
        self._headers = {field: place.column.header for field, place in found.items()}
        of_article = [field for field in found if field not in OFFER_FIELDS and field not in BESIDE_ARTICLE]
        self._fields = tuple(field for field in of_article if field not in STUFF)
        self._stuff = tuple(field for field in of_article if field in STUFF)
        self._articles = Articles(
            fields=self._fields,
            stuff=self._stuff,
            every={
                field: text
                for field, text in mapping.every.items()
                if field not in OFFER_FIELDS and field not in BESIDE_ARTICLE
            },
            headers=self._headers,
        )

    def read(
        self, numbers: Sequence[int], rows: Sequence[list[str]], digests: Sequence[int]
    ) -> Iterable[Read]:
        """Each row read, in order; rows are as wide as the header, or longer where cells stand beyond it."""
        columns = list(zip(*rows, strict=False)) if rows else []
        columns = columns[: self._width]
        values = {
            field: list(map(reader.__getitem__, columns[self._at[field]])) if columns else []
            for field, reader in self._readers.items()
        }
        terms = self._terms(values, len(rows))
        articles = self._articles_of(values, len(rows))
        wrong = self._wrong(values)
        none = repeat("")
        part_numbers: Iterable[Any] = values.get("part_number", none)
        beside = zip(*(values.get(name, none) for name in _OWN_TEXTS), strict=False)
        for at, (number, cells, digest, offered, article, own, by) in enumerate(
            zip(numbers, rows, digests, terms, articles, part_numbers, beside, strict=False)
        ):
            problems = wrong.get(at) or []
            if len(cells) != self._width:
                problems = [*problems, self._too_long(cells)]
            if isinstance(offered, Problem):
                problems = [*problems, offered]
            if type(article) is tuple:
                if not article and not problems:
                    yield LeftOutRow(self.sheet, number, cells)
                    continue
                problems = [*problems, *article]
            if problems:
                code = self._code(cells)
                yield Refused(self.sheet, number, cells, tuple(dict.fromkeys(problems)), code)
            else:
                yield Row(self.sheet, number, digest, cells, own, offered, article, by)

    def codes(self, rows: Sequence[list[str]]) -> list[str]:
        """The code of each row in small letters, by which rows of a sheet are told apart; "" for none."""
        field = "code" if "code" in self._at else "part_number"
        at, reader = self._at[field], self._readers[field]
        found = map(reader.__getitem__, (row[at] for row in rows))
        return [value.lower() if type(value) is str else "" for value in found]

    # -- the terms of the offer ---------------------------------------------------------------------

    def _terms(self, values: dict[str, list[Any]], count: int) -> Iterable[Offered | Problem]:
        none: Iterable[Any] = repeat(None)

        def column(name: str) -> Iterable[Any]:
            if name in values:
                return values[name]
            text = self._every.get(name)
            if text is None:
                return none
            return repeat(int(text) if text.isdigit() and name != "maker" else text)

        codes = values.get("code") or values["part_number"]
        words = values.get("description") or repeat("", count)
        if "price" not in values:
            prices: Iterable[Any] = repeat((None, None, ""), count)
        else:
            prices = values["price"]
        makers = values.get("maker") or repeat(self._every.get("maker"), count)
        for code, text, maker, maker_code, price, currency, per, *rest in zip(
            codes,
            words,
            makers,
            column("maker_code"),
            prices,
            column("currency"),
            column("price_per"),
            column("pack_size"),
            column("minimum"),
            column("lead_time_days"),
            column("stock"),
            strict=False,
        ):
            if type(price) is Problem or price[0] is None:
                yield Offered(code, text, maker, maker_code, None, None, None, None, *rest)
                continue
            amount, written, own = price
            told = currency or own
            if not told:
                yield self._problem(
                    "price",
                    written,
                    "the price has no currency",
                    "a column of currencies, or once for all: --every currency=EUR",
                )
            elif own and currency and own != currency:
                yield self._problem(
                    "price", written, f"the price is in {own}, the row says {currency}", "make both the same"
                )
            else:
                yield Offered(code, text, maker, maker_code, amount, written, told, per or 1, *rest)

    # -- the article --------------------------------------------------------------------------------

    def _articles_of(self, values: dict[str, list[Any]], count: int) -> list[Any]:
        def cells(names: Sequence[str]) -> Iterable[tuple[Any, ...]]:
            return zip(*(values[name] for name in names), strict=True) if names else repeat((), count)

        kinds = values.get("kind") or repeat(self._every.get("kind", ""), count)
        texts = values.get("description") or repeat("", count)
        find, told = self._articles, Told
        found = []
        for fields, stuff, kind, text in zip(
            cells(self._fields), cells(self._stuff), kinds, texts, strict=True
        ):
            words = size_words(
                text if type(text) is str else "",  # else it is a Problem, told by itself
                kind=kind if type(kind) is str else "",
            )
            found.append(
                find[
                    told(
                        fields,
                        stuff,
                        words.kind,
                        words.size,
                        tuple(words.fields.items()),
                        words.material,
                        words.hardness_shore_a,
                    )
                ]
            )
        return found

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

    def _code(self, cells: list[str]) -> str:
        at = self._at.get("code", self._at.get("part_number", 0))
        return cells[at] if at < len(cells) else ""
