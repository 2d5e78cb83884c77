"""Writes rows into the tables: only what is not there already, and out what an owner no longer has."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from catalogue.table_rows import TABLES, Record, Tables

if TYPE_CHECKING:
    from sqlite_utils import Database


@dataclass(frozen=True, slots=True)
class Loaded:
    """What a load found and did: rows by table, and rows written or taken out."""

    rows: dict[str, int]
    written: int
    removed: int

    @property
    def changed(self) -> bool:
        """Whether the catalogue is another than before."""
        return bool(self.written or self.removed)


def apply_rows(db: Database, tables: Tables) -> Loaded:
    """Bring the catalogue to these rows; what they already say is not written again."""
    owners = {
        "part_number": json.dumps([row["part_number"] for row in tables["part"]]),
        "unit": json.dumps([row["unit"] for row in tables["unit"]]),
    }
    changes: dict[str, list[Record]] = {}
    removed = 0
    for table, key, owner in reversed(TABLES):
        column = owner or key[0]
        wanted = owners.get(column) or json.dumps([row[column] for row in tables[table]])
        known = db.query(
            f"SELECT * FROM {table} WHERE {column} COLLATE NOCASE IN (SELECT value FROM json_each(?))",  # noqa: S608
            [wanted],
        )
        before = {_key(row, key): row for row in known}
        changes[table] = [row for row in tables[table] if before.pop(_key(row, key), None) != row]
        if owner and before:
            where = " AND ".join(f"{name} = ?" for name in key)
            gone = [tuple(row[name] for name in key) for row in before.values()]
            db.conn.executemany(f"DELETE FROM {table} WHERE {where}", gone)  # noqa: S608
            removed += len(gone)
    for table, key, _ in TABLES:
        if changes[table]:
            db.table(table).upsert_all(changes[table], pk=key[0] if len(key) == 1 else key)
    return Loaded(
        rows={table: len(rows) for table, rows in tables.items()},
        written=sum(map(len, changes.values())),
        removed=removed,
    )


def _key(row: Record, columns: tuple[str, ...]) -> tuple[Any, ...]:
    return tuple(str(row[name]).lower() for name in columns)
