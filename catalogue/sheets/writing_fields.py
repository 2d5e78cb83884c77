"""Writes the sizes and other fields of many parts: each different set of rows once, then by one query.

A range has a few thousand sizes in a few dozen materials, so that the same rows belong to thousands of parts.
They are put into a temporary table once; a batch of parts then names them by their numbers, and SQLite copies
them in the order of its tables. This takes half of the time of handing over every row (measured).
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from catalogue.sheets.articles import DIMENSION_COLUMNS, VALUE_COLUMNS, Article

Rows = tuple[tuple[Any, ...], ...]
MOST_KEPT = 400_000  # sets of rows that are kept for the next batch
_TABLES = (
    ("part_dimension", "set_of_dimensions", DIMENSION_COLUMNS),
    ("part_value", "set_of_values", VALUE_COLUMNS),
)


class FieldWriter:
    """Writes fields of parts through a connection, within the transaction of its caller."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._run = connection.execute
        self._many = connection.executemany
        # By identity; what is found by it is held, so that its identity stays its own.
        self._articles: dict[int, tuple[Article, int, int, int]] = {}
        self._sets: dict[int, tuple[int, Rows]] = {}
        self._waiting: tuple[list[tuple[Any, ...]], ...] = ([], [])
        for _, name, columns in _TABLES:
            self._run(f"DROP TABLE IF EXISTS temp.{name}")
            self._run(
                f"CREATE TEMP TABLE {name} (number INTEGER, {', '.join(columns)},"
                f" PRIMARY KEY (number, {columns[0]})) WITHOUT ROWID"
            )
        self._run("DROP TABLE IF EXISTS temp.part_and_sets")
        self._run(
            "CREATE TEMP TABLE part_and_sets (part_number TEXT, set_of_dimensions INTEGER,"
            " set_of_values INTEGER, set_of_stuff INTEGER)"
        )

    def add(self, articles: Sequence[tuple[str, Article]]) -> None:
        """Write the fields of parts that have none yet."""
        if not articles:
            return
        if len(self._articles) > MOST_KEPT or len(self._sets) > MOST_KEPT:
            self._forget()
        known, new = self._articles, self._number
        found = []
        for part_number, article in articles:
            _, *sets = known.get(id(article)) or new(article)
            found.append((part_number, *sets))
        self._add_sets()
        self._many("INSERT INTO part_and_sets VALUES (?, ?, ?, ?)", found)
        for table, name, columns in _TABLES:
            of = (name,) if table == "part_dimension" else (name, "set_of_stuff")
            for column in of:
                self._run(
                    f"INSERT INTO {table} (part_number, {', '.join(columns)})"
                    f" SELECT part_number, {', '.join(columns)}"
                    f" FROM part_and_sets CROSS JOIN {name} ON {name}.number = part_and_sets.{column}"
                )
        self._run("DELETE FROM part_and_sets")

    def close(self) -> None:
        """Take the temporary tables away."""
        for name in ("part_and_sets", *(name for _, name, _ in _TABLES)):
            self._run(f"DROP TABLE IF EXISTS temp.{name}")

    def _number(self, article: Article) -> tuple[Article, int, int, int]:
        """The numbers of the three sets of an article; sets that are new wait to be written."""
        found = (
            article,
            self._set(article.dimensions, 0),
            self._set(article.values, 1),
            self._set(article.stuff, 1),
        )
        self._articles[id(article)] = found
        return found

    def _set(self, rows: Rows, table: int) -> int:
        known = self._sets.get(id(rows))
        if known is not None:
            return known[0]
        number = len(self._sets)
        self._sets[id(rows)] = (number, rows)
        self._waiting[table].extend((number, *row) for row in rows)
        return number

    def _add_sets(self) -> None:
        for (_, name, columns), rows in zip(_TABLES, self._waiting, strict=True):
            if rows:
                marks = ", ".join("?" * (len(columns) + 1))
                self._many(f"INSERT INTO {name} VALUES ({marks})", rows)
                rows.clear()

    def _forget(self) -> None:
        self._articles.clear()
        self._sets.clear()
        for _, name, _ in _TABLES:
            self._run(f"DELETE FROM {name}")
