"""Writes one load into the tables, within the transaction that its caller holds.

Rows go in by ``executemany`` on the connection, in batches as they are read. What a row replaces is kept in
``earlier_offer`` and ``earlier_part`` with the number of the load, so that the load can be taken back.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager

from catalogue.sheets.comparing import Changed, New
from catalogue.sheets.known import KnownOffer, sheet_source
from catalogue.sheets.problems import Refused
from catalogue.sheets.rejected_rows import as_text
from catalogue.sheets.rows import Row
from catalogue.sheets.terms import FIELDS
from catalogue.sheets.writing_parts import PartWriter
from catalogue.texts import Texts

Many = Callable[[str, Iterable[tuple[object, ...]]], object]  # executemany of a connection

# The columns that make up what an offer says and where that comes from; earlier_offer has them too.
VERSION_COLUMNS = (
    "supplier",
    "code",
    "part_number",
    *FIELDS[1:],
    "listed",
    "row_digest",
    "load",
    "sheet",
    "row",
)
# From so many new rows on, and where they are more than what is there, indexes are made after the rows.
MANY_ROWS = 50_000
_REMADE = ("part", "part_dimension", "part_value", "offer")
_CACHE_KIB = 131_072


def _insert(table: str, columns: Sequence[str], *, replace: str = "") -> str:
    marks = ", ".join("?" * len(columns))
    return f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks}){replace}"


_INSERT_OFFER = _insert("offer", VERSION_COLUMNS)
_UPDATE_OFFER = (
    f"UPDATE offer SET ({', '.join(VERSION_COLUMNS)}) = ({', '.join('?' * len(VERSION_COLUMNS))})"
    " WHERE offer = ?"
)
_KEEP_OFFER = (
    f"INSERT INTO earlier_offer ({', '.join(VERSION_COLUMNS)}, until_load)"
    f" SELECT {', '.join(VERSION_COLUMNS)}, ? FROM offer WHERE offer = ?"
)


class Writer:
    """Writes what one load brings. ``load`` is its number."""

    def __init__(self, connection: sqlite3.Connection, *, load: int, supplier: str, decimal: str) -> None:
        self._run = connection.execute
        self._many = connection.executemany
        self.load = load
        self.supplier = supplier
        self._decimal = decimal
        self.source = sheet_source(supplier)
        self._parts = PartWriter(connection, source=self.source, load=load)
        self._last_offer = self._run("SELECT coalesce(max(offer), 0) FROM offer").fetchone()[0]

    # -- rows ---------------------------------------------------------------------------------------

    def add(self, found: Sequence[New]) -> None:
        """Offers of new codes, with the parts that they make."""
        self._parts.add([(one.part_number, one.row) for one in found if one.makes_part])
        if self.supplier:
            offer = self._offer
            self._many(_INSERT_OFFER, [offer(one.row, one.part_number) for one in found])

    def change(self, found: Sequence[Changed]) -> None:
        """Offers and parts that say something else now."""
        offers = [one for one in found if one.offer is not None]
        self._keep_offers([one.offer.offer for one in offers if one.offer])
        self._many(
            _UPDATE_OFFER,
            ((*self._offer(one.row, one.part_number), one.offer.offer) for one in offers if one.offer),
        )
        self._reword([(one.offer, one.row) for one in offers if one.offer])
        self._change_parts([one for one in found if one.part is not None and one.part != one.texts])

    def withdraw(self, gone: Sequence[KnownOffer]) -> None:
        """Offers that are not on a sheet of the whole range any more: kept, and not listed."""
        self._keep_offers([one.offer for one in gone])
        self._many(
            "UPDATE offer SET listed = 0, row_digest = NULL, load = ?, sheet = '', row = 0 WHERE offer = ?",
            ((self.load, one.offer) for one in gone),
        )

    def refuse(self, row: Refused) -> None:
        """Keep a row that was not taken, as it stood, with its reasons."""
        self._run(
            "INSERT INTO load_rejection (load, sheet, row, cells, reasons) VALUES (?, ?, ?, ?, ?)",
            (
                self.load,
                row.sheet,
                row.number,
                json.dumps([as_text(one, self._decimal) for one in row.cells], ensure_ascii=False),
                json.dumps([one._asdict() for one in row.problems], ensure_ascii=False),
            ),
        )

    def finish(self) -> None:
        """Make the new offers findable by their words."""
        self._parts.close()
        self._run(
            "INSERT INTO offer_words (rowid, code, maker_code, description)"
            " SELECT offer, code, maker_code, description FROM offer WHERE offer > ?",
            (self._last_offer,),
        )

    @contextmanager
    def many(self, expected: int) -> Iterator[None]:
        """Where many rows are expected, make the indexes after them and give SQLite room."""
        known = self._run("SELECT max(offer) FROM offer").fetchone()[0] or 0
        self._run(f"PRAGMA cache_size = -{_CACHE_KIB}")
        remade: list[tuple[str, str]] = []
        if expected >= MANY_ROWS and expected > known:
            remade = self._run(
                "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL"
                " AND tbl_name IN (SELECT value FROM json_each(?))",
                (json.dumps(_REMADE),),
            ).fetchall()
            # foreign keys look children up by this one
            remade = [(name, sql) for name, sql in remade if name != "part_by_superseded_by"]
        for name, _ in remade:
            self._run(f"DROP INDEX {name}")
        yield
        for _, sql in remade:
            self._run(sql)

    # -- offers -------------------------------------------------------------------------------------

    def _offer(self, row: Row, part_number: str) -> tuple[object, ...]:
        terms = row.terms
        return (
            self.supplier,
            terms[0],
            part_number,
            *terms[1:],
            1,
            row.digest,
            self.load,
            row.sheet,
            row.number,
        )

    def _keep_offers(self, offers: Iterable[int]) -> None:
        self._many(_KEEP_OFFER, ((self.load, offer) for offer in offers))

    def _reword(self, found: Sequence[tuple[KnownOffer, Row]]) -> None:
        """Words of changed offers: the old ones are told to the index, as it has to be."""
        other = [
            (offer, row)
            for offer, row in found
            if (offer.code, offer.maker_code, offer.description)
            != (row.terms.code, row.terms.maker_code, row.terms.description)
        ]
        forget_words(self._many, [offer for offer, _ in other])
        self._many(
            "INSERT INTO offer_words (rowid, code, maker_code, description) VALUES (?, ?, ?, ?)",
            (
                (offer.offer, row.terms.code, row.terms.maker_code, row.terms.description)
                for offer, row in other
            ),
        )

    # -- parts --------------------------------------------------------------------------------------

    def _change_parts(self, found: Sequence[Changed]) -> None:
        keep_parts(self._many, self.load, [(one.part_number, one.part or {}) for one in found])
        self._parts.change([(one.part_number, one.row) for one in found])


def keep_parts(many: Many, load: int, found: Sequence[tuple[str, Texts]]) -> None:
    """Keep the texts of parts, and where they come from, before a load replaces them."""
    many(
        "INSERT INTO earlier_part (part_number, texts, source, load, sheet, row, until_load)"
        " SELECT part_number, ?, source, load, sheet, row, ? FROM part WHERE part_number = ?",
        ((json.dumps(texts, ensure_ascii=False), load, number) for number, texts in found),
    )


def forget_words(many: Many, offers: Sequence[KnownOffer]) -> None:
    """Take the words of offers out of the index, which has to be told them as they were."""
    many(
        "INSERT INTO offer_words (offer_words, rowid, code, maker_code, description)"
        " VALUES ('delete', ?, ?, ?, ?)",
        ((one.offer, one.code, one.maker_code, one.description) for one in offers),
    )
