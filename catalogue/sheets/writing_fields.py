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
        self._sets: dict[int, tuple[int, Rows]] = {}  # by identity; the rows are held so that it stays theirs
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
        self._add_sets([one for _, one in articles])
        sets = self._sets
        self._many(
            "INSERT INTO part_and_sets VALUES (?, ?, ?, ?)",
            [
                (number, sets[id(one.dimensions)][0], sets[id(one.values)][0], sets[id(one.stuff)][0])
                for number, one in articles
            ],
        )
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

    def _add_sets(self, articles: Sequence[Article]) -> None:
        if len(self._sets) > MOST_KEPT:
            self._sets.clear()
            for _, name, _ in _TABLES:
                self._run(f"DELETE FROM {name}")
        new: tuple[list[tuple[Any, ...]], list[tuple[Any, ...]]] = ([], [])
        sets = self._sets
        for one in articles:
            for rows, to in ((one.dimensions, 0), (one.values, 1), (one.stuff, 1)):
                if id(rows) not in sets:
                    number = len(sets)
                    sets[id(rows)] = (number, rows)
                    new[to].extend([(number, *row) for row in rows])
        for (_, name, columns), added in zip(_TABLES, new, strict=True):
            if added:
                marks = ", ".join("?" * (len(columns) + 1))
                self._many(f"INSERT INTO {name} VALUES ({marks})", added)
