"""Gives parts that a catalogue has from before their typed keys, by which they are matched to sheet rows."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from catalogue.store import SCHEMA_VERSION, all_or_nothing, open_store
from catalogue.texts import Texts, texts_of_parts
from schema.errors import InputErrors
from schema.same_part import typed_key
from schema.unit_parts import part_from

_WITHOUT = "SELECT part_number FROM part WHERE typed_key IS NULL"


def fill_typed_keys(path: Path) -> None:
    """Work out the keys that are missing; a catalogue of an older version is brought up to date with it.

    A catalogue that has them all is only read, so that a dry run works where nothing may be written. What the
    catalogue says of its parts stays as it is.
    """
    if path.exists() and _complete(path):
        return
    with closing(open_store(path, write=True)) as db:
        numbers = [row[0] for row in db.execute(_WITHOUT)]
        if not numbers:
            return
        with all_or_nothing(db):
            texts = texts_of_parts(db.conn, numbers)
            keys = [(_key(number, told), number) for number, told in texts.items()]
            db.conn.executemany("UPDATE part SET typed_key = ? WHERE part_number = ?", keys)


def _complete(path: Path) -> bool:
    with closing(open_store(path, older=True)) as connection:
        version = connection.execute("PRAGMA user_version").fetchone()[0]
        return version == SCHEMA_VERSION and connection.execute(f"{_WITHOUT} LIMIT 1").fetchone() is None


def _key(number: str, texts: Texts) -> str:
    """The key of a part; "" for one whose texts this version reads no more: it is matched to nothing."""
    try:
        return typed_key(part_from(texts, number=number))
    except InputErrors:
        return ""
