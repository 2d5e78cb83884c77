"""Gives parts that a catalogue has from before their typed keys, by which they are matched to sheet rows."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from catalogue.store import all_or_nothing, open_store
from catalogue.texts import texts_of_parts
from schema.errors import InputErrors
from schema.same_part import typed_key
from schema.unit_parts import part_from

_WITHOUT = "SELECT part_number FROM part WHERE typed_key IS NULL"


def fill_typed_keys(path: Path) -> None:
    """Work out the keys that are missing; a catalogue of an older version is brought up to date with it.

    A file that is not there yet is made. What the catalogue says of its parts stays as it is.
    """
    with closing(open_store(path, write=True)) as db:
        numbers = [row[0] for row in db.execute(_WITHOUT)]
        if not numbers:
            return
        with all_or_nothing(db):
            keys = []
            for number, texts in texts_of_parts(db.conn, numbers).items():
                try:
                    key = typed_key(part_from(texts, number=number))
                except (
                    InputErrors
                ):  # a text that this version reads no more: such a part is matched to nothing
                    key = ""
                keys.append((key, number))
            db.conn.executemany("UPDATE part SET typed_key = ? WHERE part_number = ?", keys)
