"""Loads the sheets of a workshop, by default the demo data, into the catalogue: all of it or nothing."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

import seed_data
from catalogue.store import all_or_nothing
from catalogue.workshop import SHEETS, Record, Tables, read_workshop
from schema.tables import FOLDER as PUBLISHED

if TYPE_CHECKING:
    from sqlite_utils import Database

# Each table with its key, in the order in which rows can be written. ``owner`` is the column that says
# which part or unit a row belongs to: the sheets tell all of such a part or unit, so rows of it that
# they no longer have are taken out. Parts and units themselves are never taken out.
_TABLES: tuple[tuple[str, tuple[str, ...], str | None], ...] = (
    ("part", ("part_number",), None),
    ("part_dimension", ("part_number", "dimension"), "part_number"),
    ("unit", ("unit",), None),
    ("place", ("unit", "place"), "unit"),
    ("place_fluid", ("unit", "place", "fluid"), "unit"),
    ("place_dimension", ("unit", "place", "dimension"), "unit"),
    ("rebuild_list", ("unit", "place", "part_number"), "unit"),
    ("data_version", ("subject",), None),
)


@dataclass(frozen=True, slots=True)
class Loaded:
    """What a load found and did: rows in the sheets by table, and rows written or taken out."""

    rows: dict[str, int]
    written: int
    removed: int

    @property
    def changed(self) -> bool:
        """Whether the catalogue is another than before."""
        return bool(self.written or self.removed)


def load_seed(db: Database, folder: Path | None = None) -> Loaded:
    """Load the six sheets of a folder in one transaction; loading them again changes nothing.

    Raises SheetErrors with every cell that cannot be used, and StoreError if the file refuses; in both
    cases the catalogue stays as it was.
    """
    source = Path(seed_data.__file__).parent if folder is None else folder
    tables = read_workshop(source)
    tables["data_version"] = _versions(source)
    with all_or_nothing(db):
        return _apply(db, tables)


def _apply(db: Database, tables: Tables) -> Loaded:
    owners = {
        "part_number": json.dumps([row["part_number"] for row in tables["part"]]),
        "unit": json.dumps([row["unit"] for row in tables["unit"]]),
    }
    changes: dict[str, list[Record]] = {}
    removed = 0
    for table, key, owner in reversed(_TABLES):
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
    for table, key, _ in _TABLES:
        if changes[table]:
            db.table(table).upsert_all(changes[table], pk=key[0] if len(key) == 1 else key)
    return Loaded(
        rows={table: len(rows) for table, rows in tables.items()},
        written=sum(map(len, changes.values())),
        removed=removed,
    )


def _key(row: Record, columns: tuple[str, ...]) -> tuple[Any, ...]:
    return tuple(str(row[name]).lower() for name in columns)


def _versions(folder: Path) -> list[Record]:
    """Which sheets and which published tables the rows were made from, by the digest of their contents."""
    return [
        {
            "subject": "workshop_sheets",
            "version": _digest(folder / f"{name}.csv" for name in SHEETS),
            "description": f"sheets of {folder.name}: SHA-256 of their contents, first 16 digits",
        },
        {
            "subject": "published_tables",
            "version": _digest(sorted(PUBLISHED.glob("*.csv"))),
            "description": "tables that size codes were resolved with: SHA-256, first 16 digits",
        },
    ]


def _digest(paths: Iterable[Path]) -> str:
    digest = sha256()
    for path in paths:
        content = path.read_bytes()
        digest.update(f"{path.name} {len(content)}\n".encode() + content)
    return digest.hexdigest()[:16]
