"""What the catalogue knows before a load: offers by code, parts by number, by maker's code, by sizes.

It reads through a connection of its own, which goes on seeing the catalogue as it was when the load began,
with all its indexes, while the rows are written through another.
"""

from __future__ import annotations

import json
import sqlite3
from array import array
from collections.abc import Collection, Iterable
from typing import Any, NamedTuple

from catalogue.sheets.codes import folded
from catalogue.sheets.terms import FIELDS
from catalogue.texts import Texts, texts_of_parts

OFFER_COLUMNS = ("offer", "part_number", "listed", "row_digest", "load", "sheet", "row", *FIELDS)
_OFFERS = (
    f"SELECT {', '.join(OFFER_COLUMNS)} FROM offer"
    " WHERE supplier = ?1 AND code IN (SELECT value FROM json_each(?2))"
)


FEW_PARTS = 20_000  # so many keys are held in memory


class KnownOffer(NamedTuple):
    """An offer as it stands in the catalogue; the fields after ``row`` are those of Terms."""

    offer: int
    part_number: str
    listed: int
    row_digest: int | None
    load: int
    sheet: str
    row: int
    code: str
    description: str
    maker: str | None
    maker_code: str | None
    price: str | None
    price_text: str | None
    currency: str | None
    price_per: int | None
    pack_size: int | None
    minimum: int | None
    lead_time_days: int | None
    stock: int | None


class KnownPart(NamedTuple):
    """A part as far as a row is held against it."""

    part_number: str
    kind: str
    maker: str | None
    typed_key: str
    source: str
    of_unit: int  # whether it came with a unit file, as that unit's own part


def sheet_source(supplier: str) -> str:
    """The source of a part that is known from a supplier's sheet alone, as it is kept with the part."""
    return f"sheet of {supplier}" if supplier else "sheet of own parts"


class Known:
    """The catalogue before the load, for one supplier ("" for the workshop's own parts)."""

    def __init__(self, connection: sqlite3.Connection, supplier: str) -> None:
        self.connection = connection
        self.supplier = supplier
        self._cursor = connection.cursor()
        self._cursor.row_factory = None
        # Small catalogues, and first sheets, need not be asked about every row.
        self.has_offers = bool(self.rows("SELECT 1 FROM offer LIMIT 1"))
        self.has_parts_of = bool(
            self.rows(
                "SELECT 1 FROM part WHERE load IS NOT NULL AND source = ? COLLATE NOCASE LIMIT 1",
                sheet_source(supplier),
            )
        )
        keys = self.rows(
            "SELECT typed_key FROM part WHERE typed_key <> '' AND superseded_by IS NULL LIMIT ?",
            FEW_PARTS + 1,
        )
        self._keys = None if len(keys) > FEW_PARTS else {key for (key,) in keys}

    def rows(self, sql: str, *values: object) -> list[tuple[Any, ...]]:
        """All rows of a query as plain tuples."""
        return self._cursor.execute(sql, values).fetchall()

    def digests(self) -> tuple[array[int], array[int]]:
        """Offer and row digest of every offer that is on the supplier's list now."""
        offers, digests = array("q"), array("q")
        found = self._cursor.execute(
            "SELECT offer, row_digest FROM offer WHERE supplier = ? AND listed AND row_digest IS NOT NULL",
            (self.supplier,),
        )
        while chunk := found.fetchmany(50_000):
            for offer, digest in chunk:
                offers.append(offer)
                digests.append(digest)
        return offers, digests

    def offers(self, codes: Collection[str]) -> dict[str, KnownOffer]:
        """The supplier's offers of these codes, by code in small letters, listed or not."""
        if not self.has_offers:
            return {}
        found = self._cursor.execute(_OFFERS, (self.supplier, json.dumps(list(codes))))
        return {folded(one.code): one for one in map(KnownOffer._make, found)}

    def offers_numbered(self, offers: Iterable[int]) -> list[KnownOffer]:
        """Offers by their numbers."""
        found = self._cursor.execute(
            f"SELECT {', '.join(OFFER_COLUMNS)} FROM offer"
            " WHERE offer IN (SELECT value FROM json_each(?)) ORDER BY offer",
            (json.dumps(list(offers)),),
        )
        return list(map(KnownOffer._make, found))

    def offers_of_parts(self, numbers: Collection[str]) -> dict[str, list[KnownOffer]]:
        """What other suppliers offer of these parts now, by part number in small letters."""
        found: dict[str, list[KnownOffer]] = {}
        if not numbers or not self.has_offers:
            return found
        for one in map(
            KnownOffer._make,
            self._cursor.execute(
                f"SELECT {', '.join(OFFER_COLUMNS)} FROM offer"
                " WHERE part_number IN (SELECT value FROM json_each(?)) AND supplier <> ? AND listed",
                (json.dumps(list(numbers)), self.supplier),
            ),
        ):
            found.setdefault(folded(one.part_number), []).append(one)
        return found

    def parts(self, numbers: Collection[str]) -> dict[str, KnownPart]:
        """Parts by number in small letters."""
        if not numbers:
            return {}
        return {folded(one.part_number): one for one in self._parts("part_number", numbers)}

    def parts_of_key(self, keys: Collection[str]) -> dict[str, list[KnownPart]]:
        """Parts by the key of their kind, sizes, material and hardness; superseded parts are left out."""
        found: dict[str, list[KnownPart]] = {}
        if self._keys is not None:
            keys = self._keys.intersection(keys)
        if not keys:
            return found
        for one in self._parts("typed_key", keys, " AND typed_key <> '' AND superseded_by IS NULL"):
            found.setdefault(one.typed_key, []).append(one)
        return found

    def parts_of_maker_code(self, codes: Collection[str]) -> dict[str, list[tuple[str, str | None]]]:
        """Part number and maker of every offer, of any supplier, that has one of these maker's codes."""
        found: dict[str, list[tuple[str, str | None]]] = {}
        if not self.has_offers or not codes:
            return found
        for code, number, maker in self.rows(
            "SELECT DISTINCT maker_code, part_number, maker FROM offer"
            " WHERE maker_code IN (SELECT value FROM json_each(?)) AND maker_code IS NOT NULL",
            json.dumps(list(codes)),
        ):
            found.setdefault(folded(code), []).append((number, maker))
        return found

    def texts(self, numbers: Collection[str]) -> dict[str, Texts]:
        """The texts of parts as they were given, by number in small letters."""
        found = texts_of_parts(self.connection, list(numbers))
        return {folded(number): texts for number, texts in found.items()}

    def _parts(self, column: str, values: Collection[str], where: str = "") -> list[KnownPart]:
        found = self.rows(
            "SELECT part_number, kind, maker, coalesce(typed_key, ''), source,"
            " EXISTS (SELECT 1 FROM unit_part WHERE unit_part.part_number = part.part_number) FROM part"
            f" WHERE {column} IN (SELECT value FROM json_each(?)){where}",
            json.dumps(list(values)),
        )
        return list(map(KnownPart._make, found))
