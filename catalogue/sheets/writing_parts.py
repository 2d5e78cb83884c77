"""Writes many parts with their sizes and other fields: what they share once, then a batch by one query each.

A range has a few thousand sizes in a few dozen materials, so that the same rows belong to thousands of parts.
They are put into temporary tables once; a batch of parts then names them by their numbers, and SQLite copies
them. A query also prepares the checks of a table once for the batch, where a row by itself prepares them
anew: handing over every row took twice as long (measured).
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from catalogue.sheets.articles import DIMENSION_COLUMNS, HEAD_COLUMNS, VALUE_COLUMNS, Article
from catalogue.sheets.rows import Row

SharedRows = tuple[tuple[Any, ...], ...]
MOST_KEPT = 400_000  # sets of rows that are kept for the next batch
_ARTICLE_COLUMNS = ("kind", "typed_key", *HEAD_COLUMNS)
_OWN_COLUMNS = ("part_number", "description", "maker", "superseded_by", "notes", "sheet", "row")
_SETS = ("article", "dimensions", "own_values", "stuff_values")  # numbers of what a part shares
# Temporary tables of what is shared, with what makes a row of them one of its kind.
_SHARED = (
    ("shared_article", _ARTICLE_COLUMNS, "number"),
    ("shared_dimension", DIMENSION_COLUMNS, f"number, {DIMENSION_COLUMNS[0]}"),
    ("shared_value", VALUE_COLUMNS, f"number, {VALUE_COLUMNS[0]}"),
)
_ADD_PARTS = (
    f"INSERT INTO part (source, load, {', '.join(_OWN_COLUMNS)}, {', '.join(_ARTICLE_COLUMNS)})"
    f" SELECT ?, ?, {', '.join(_OWN_COLUMNS)}, {', '.join(_ARTICLE_COLUMNS)}"
    " FROM batch_part CROSS JOIN shared_article ON number = article"
)

_CHANGE_PARTS = (
    f"UPDATE part SET (source, load, {', '.join((*_OWN_COLUMNS[1:], *_ARTICLE_COLUMNS))})"
    f" = (?, ?, {', '.join(f'told.{name}' for name in (*_OWN_COLUMNS[1:], *_ARTICLE_COLUMNS))})"
    " FROM (SELECT * FROM batch_part CROSS JOIN shared_article ON number = article) AS told"
    " WHERE part.part_number = told.part_number"
)


def _add_fields(table: str, columns: Sequence[str], shared: str, by: str) -> str:
    names = ", ".join(columns)
    return (
        f"INSERT INTO {table} (part_number, {names}) SELECT part_number, {names}"
        f" FROM batch_part CROSS JOIN {shared} ON number = {by}"
    )


_ADD_FIELDS = (
    _add_fields("part_dimension", DIMENSION_COLUMNS, "shared_dimension", "dimensions"),
    _add_fields("part_value", VALUE_COLUMNS, "shared_value", "own_values"),
    _add_fields("part_value", VALUE_COLUMNS, "shared_value", "stuff_values"),
)


class PartWriter:
    """Writes parts of one load through a connection, within the transaction of its caller."""

    def __init__(self, connection: sqlite3.Connection, *, source: str, load: int) -> None:
        self._run = connection.execute
        self._many = connection.executemany
        self._from = (source, load)
        # By identity; what is found by it is held, so that its identity stays its own.
        self._articles: dict[int, tuple[Article, tuple[int, ...]]] = {}
        self._sets: dict[int, tuple[SharedRows, int]] = {}
        self._waiting: tuple[list[tuple[Any, ...]], ...] = ([], [], [])
        self.close()
        for name, columns, key in _SHARED:
            self._run(
                f"CREATE TEMP TABLE {name} (number INTEGER, {', '.join(columns)},"
                f" PRIMARY KEY ({key})) WITHOUT ROWID"
            )
        self._run(f"CREATE TEMP TABLE batch_part ({', '.join((*_OWN_COLUMNS, *_SETS))})")

    def add(self, found: Sequence[tuple[str, Row]]) -> None:
        """Write parts that are not there yet, by number and row, with their fields."""
        if found:
            self._batch(found, (_ADD_PARTS, *_ADD_FIELDS))

    def change(self, found: Sequence[tuple[str, Row]]) -> None:
        """Write parts that are there anew, with their fields."""
        if found:
            numbers = [(number,) for number, _ in found]
            for table in ("part_dimension", "part_value"):
                self._many(f"DELETE FROM {table} WHERE part_number = ?", numbers)
            self._batch(found, (_CHANGE_PARTS, *_ADD_FIELDS))

    def close(self) -> None:
        """Take the temporary tables away."""
        for name in ("batch_part", *(name for name, _, _ in _SHARED)):
            self._run(f"DROP TABLE IF EXISTS temp.{name}")

    def _batch(self, found: Sequence[tuple[str, Row]], queries: Sequence[str]) -> None:
        known, new = self._articles, self._numbers
        rows = []
        for part_number, row in found:
            article, terms = row.article, row.terms
            successor, notes = row.beside
            shared = known.get(id(article)) or new(article)
            rows.append(
                (
                    part_number,
                    terms.description,
                    terms.maker,
                    successor or None,
                    notes or None,
                    row.sheet,
                    row.number,
                    *shared[1],
                )
            )
        for (name, columns, _), waiting in zip(_SHARED, self._waiting, strict=True):
            if waiting:
                marks = ", ".join("?" * (len(columns) + 1))
                self._many(f"INSERT INTO {name} VALUES ({marks})", waiting)
                waiting.clear()
        marks = ", ".join("?" * (len(_OWN_COLUMNS) + len(_SETS)))
        self._many(f"INSERT INTO batch_part VALUES ({marks})", rows)
        for query in queries:
            self._run(query, self._from if query in (_ADD_PARTS, _CHANGE_PARTS) else ())
        self._run("DELETE FROM batch_part")
        if max(len(self._articles), len(self._sets)) > MOST_KEPT:
            self._forget()

    def _numbers(self, article: Article) -> tuple[Article, tuple[int, ...]]:
        """The numbers of what an article shares with others; what is new waits to be written."""
        number = len(self._articles)
        self._waiting[0].append((number, article.kind, article.typed_key, *article.head))
        sets = (self._set(article.dimensions, 1), self._set(article.values, 2), self._set(article.stuff, 2))
        self._articles[id(article)] = (article, (number, *sets))
        return self._articles[id(article)]

    def _set(self, rows: SharedRows, table: int) -> int:
        known = self._sets.get(id(rows))
        if known is not None:
            return known[1]
        number = len(self._sets)
        self._sets[id(rows)] = (rows, number)
        self._waiting[table].extend((number, *row) for row in rows)
        return number

    def _forget(self) -> None:
        self._articles.clear()
        self._sets.clear()
        for name, _, _ in _SHARED:
            self._run(f"DELETE FROM {name}")
