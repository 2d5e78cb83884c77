"""Where the parts are looked up that a unit file names: a catalogue, or none at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Protocol

from catalogue.find import near_part_numbers
from catalogue.store import location, open_store
from catalogue.texts import part_texts
from catalogue.unit_files.shape import Texts
from schema.errors import UnknownName
from schema.nearest import nearest


class Stock(Protocol):
    """Where parts are looked up that a unit file names and does not describe."""

    def texts(self, number: str) -> Texts | None:
        """The texts of a part, or None where it is not known."""
        ...

    def nearest(self, number: str) -> tuple[str, ...]:
        """Known part numbers that look like this one."""
        ...

    @property
    def words(self) -> str:
        """What it is, in words: the catalogue."""
        ...


class CatalogueStock:
    """The parts of an open catalogue."""

    words = "the catalogue"

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def texts(self, number: str) -> Texts | None:
        """The texts of a part, or None where the catalogue has none of that number."""
        try:
            return part_texts(self.connection, number)
        except UnknownName:
            return None

    def nearest(self, number: str) -> tuple[str, ...]:
        """Part numbers of the catalogue that look like this one."""
        return nearest(number, near_part_numbers(self.connection, number))


class NoStock:
    """Stands where there is no catalogue: every part must be described in the file."""

    def __init__(self, location: Path) -> None:
        self.words = f"a catalogue (there is none at {location})"

    def texts(self, number: str) -> Texts | None:
        """None: nothing is known."""
        return None

    def nearest(self, number: str) -> tuple[str, ...]:
        """Nothing."""
        return ()


@contextmanager
def stock_at(catalogue: Path | None) -> Iterator[Stock]:
    """The parts of the catalogue at a path or at its default location; none where there is no file."""
    at = location(catalogue)
    if not at.exists():
        yield NoStock(at)
        return
    connection = open_store(at)
    try:
        yield CatalogueStock(connection)
    finally:
        connection.close()
