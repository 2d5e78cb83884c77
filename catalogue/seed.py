"""Loads the files of a workshop, by default the demo data, into the catalogue: all of it or nothing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import seed_data
from catalogue.digests import digest_of
from catalogue.rows_written import Loaded, apply_rows
from catalogue.store import all_or_nothing
from catalogue.table_rows import Record
from catalogue.workshop import read_workshop, workshop_files
from schema.tables import FOLDER as PUBLISHED

if TYPE_CHECKING:
    from sqlite_utils import Database


def load_seed(db: Database, folder: Path | None = None) -> Loaded:
    """Load the sheets and unit files of a folder in one transaction; loading them again changes nothing.

    Raises WorkshopErrors with every text that cannot be used, and StoreError if the file refuses; in both
    cases the catalogue stays as it was.
    """
    source = Path(seed_data.__file__).parent if folder is None else folder
    tables = read_workshop(source)
    tables["data_version"] = _versions(source)
    with all_or_nothing(db):
        return apply_rows(db, tables)


def _versions(folder: Path) -> list[Record]:
    """Which files and which published tables the rows were made from, by the digest of their contents."""
    return [
        {
            "subject": "workshop_sheets",
            "version": digest_of(workshop_files(folder)),
            "description": f"files of {folder.name}: SHA-256 of their contents, first 16 digits",
        },
        {
            "subject": "published_tables",
            "version": digest_of(sorted(PUBLISHED.glob("*.csv"))),
            "description": "tables that size codes were resolved with: SHA-256, first 16 digits",
        },
    ]
