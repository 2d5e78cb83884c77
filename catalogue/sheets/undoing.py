"""Takes a load back: the catalogue is then as if it had never been loaded, also where others came after.

Each offer and part has a chain of versions, one for every load that changed it. Taking a load back takes its
version out of each chain. Where a later sheet of the same supplier had the very same row, that sheet says
the same, and the version goes over to it instead.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any, NamedTuple

from catalogue.sheets.known import OFFER_COLUMNS, KnownOffer
from catalogue.sheets.row_digests import unpacked
from catalogue.sheets.writing import VERSION_COLUMNS, forget_words
from catalogue.store import all_or_nothing
from catalogue.table_rows import TABLES, add_part, no_rows
from schema.errors import BorebookError, UnknownName
from schema.unit_parts import part_from

if TYPE_CHECKING:
    from sqlite_utils import Database

MOST_TOLD = 20  # things that stand in the way; more are counted


class InTheWay(BorebookError):
    """A load that cannot be taken back: what stands in the way, each thing named. Nothing was changed."""

    def __init__(self, load: int, reasons: Iterable[str]) -> None:
        self.load = load
        self.reasons = tuple(reasons)
        super().__init__(load, self.reasons)

    def __str__(self) -> str:
        shown = [f"  {one}" for one in self.reasons[:MOST_TOLD]]
        if len(self.reasons) > MOST_TOLD:
            shown.append(f"  and {len(self.reasons) - MOST_TOLD} more")
        return "\n".join([f"load {self.load} cannot be taken back; nothing was changed:", *shown])


class Undone(NamedTuple):
    """What taking a load back did."""

    load: int
    file: str
    offers_removed: int
    offers_restored: int
    offers_passed_on: int  # a later sheet has the same row, so they stay as they are
    parts_removed: int
    parts_restored: int


class _Seen(NamedTuple):
    """Where a later load of the supplier has the same row."""

    load: int
    sheet: str
    row: int


def undo_load(db: Database, load: int) -> Undone:
    """Take a load back in one transaction.

    Raises UnknownName for a load that is not there, InTheWay with everything that needs what it brought.
    """
    with all_or_nothing(db):
        return _Undoing(db.conn, load).run()


class _Undoing:
    def __init__(self, connection: sqlite3.Connection, load: int) -> None:
        self.connection = connection
        self.cursor = connection.cursor()
        self.cursor.row_factory = None
        self.load = load
        found = self.rows("SELECT supplier, file, undone_at FROM load WHERE load = ?", load)
        if not found:
            loads = [str(row[0]) for row in self.rows("SELECT load FROM load WHERE undone_at IS NULL")]
            raise UnknownName(
                field="load",
                given=load,
                problem="there is no such load",
                allowed=", ".join(loads[-10:]) or "none was loaded",
            )
        self.supplier, self.file, undone_at = found[0]
        if undone_at:
            raise InTheWay(load, [f"it was taken back already, on {undone_at}"])

    def rows(self, sql: str, *values: object) -> list[tuple[Any, ...]]:
        return self.cursor.execute(sql, values).fetchall()

    def run(self) -> Undone:
        """Take every version of this load out of its chain."""
        self.later = self._later_rows()
        removed, restored, passed = self._offers()
        parts_removed, parts_restored = self._parts()
        now = datetime.now(UTC).isoformat(timespec="seconds")
        self.connection.execute("UPDATE load SET undone_at = ? WHERE load = ?", (now, self.load))
        return Undone(self.load, self.file, removed, restored, passed, parts_removed, parts_restored)

    def _later_rows(self) -> dict[int, _Seen]:
        """By row digest, the first later load of this supplier, not taken back, that has the row."""
        mine = {
            digest
            for table in ("offer", "earlier_offer")
            for (digest,) in self.rows(
                f"SELECT row_digest FROM {table} WHERE load = ? AND row_digest IS NOT NULL",
                self.load,
            )
        }
        found: dict[int, _Seen] = {}
        if not mine:
            return found
        for load, sheet, digests, numbers in self.cursor.execute(
            "SELECT load, sheet, digests, numbers FROM load_table JOIN load USING (load)"
            " WHERE load > ? AND supplier = ? AND undone_at IS NULL ORDER BY load, sheet",
            (self.load, self.supplier),
        ):
            for digest, number in zip(unpacked(digests), unpacked(numbers), strict=True):
                if digest in mine and digest not in found:
                    found[digest] = _Seen(load, sheet, number)
        return found

    # -- offers -------------------------------------------------------------------------------------

    def _offers(self) -> tuple[int, int, int]:
        columns = ", ".join(VERSION_COLUMNS)
        current = [
            KnownOffer._make(row)
            for row in self.rows(f"SELECT {', '.join(OFFER_COLUMNS)} FROM offer WHERE load = ?", self.load)
        ]
        before = {
            row[1].lower(): row
            for row in self.rows(
                f"SELECT {columns} FROM earlier_offer WHERE until_load = ?",
                self.load,
            )
        }
        removed, restored, passed = [], [], []
        for one in current:
            seen = self.later.get(one.row_digest) if one.row_digest is not None else None
            if seen is not None:
                passed.append((seen, one))
            elif one.code.lower() in before:
                restored.append((one, before[one.code.lower()]))
            else:
                removed.append(one)
        self._pass_on(passed)
        forget_words(self.connection.executemany, [*removed, *(one for one, _ in restored)])
        self.connection.executemany("DELETE FROM offer WHERE offer = ?", ((one.offer,) for one in removed))
        self.connection.executemany(
            f"UPDATE offer SET ({columns}) = ({', '.join('?' * len(VERSION_COLUMNS))}) WHERE offer = ?",
            ((*row, one.offer) for one, row in restored),
        )
        self.connection.executemany(
            "INSERT INTO offer_words (rowid, code, maker_code, description)"
            " SELECT offer, code, maker_code, description FROM offer WHERE offer = ?",
            ((one.offer,) for one, _ in restored),
        )
        self.connection.executemany(
            "DELETE FROM earlier_offer WHERE supplier = ? AND code = ? AND until_load = ?",
            ((self.supplier, one.code, self.load) for one, _ in restored),
        )
        self._middle_of_offers()
        removed_too = self._withdrawn_from_nothing()
        return len(removed) + removed_too, len(restored), len(passed)

    def _pass_on(self, passed: list[tuple[_Seen, KnownOffer]]) -> None:
        """Offers that a later sheet has too are from that sheet now; the version before them stays."""
        self.connection.executemany(
            "UPDATE offer SET load = ?, sheet = ?, row = ? WHERE offer = ?",
            ((*seen, one.offer) for seen, one in passed),
        )
        self.connection.executemany(
            "UPDATE earlier_offer SET until_load = ? WHERE supplier = ? AND code = ? AND until_load = ?",
            ((seen.load, self.supplier, one.code, self.load) for seen, one in passed),
        )

    def _middle_of_offers(self) -> None:
        """Versions that a later load replaced: the one before reaches to where they did."""
        for code, until, digest in self.rows(
            "SELECT code, until_load, row_digest FROM earlier_offer WHERE load = ? AND supplier = ?",
            self.load,
            self.supplier,
        ):
            key = (self.supplier, code)
            seen = self.later.get(digest) if digest is not None else None
            if seen is not None and seen.load < until:
                self.connection.execute(
                    "UPDATE earlier_offer SET load = ?, sheet = ?, row = ?"
                    " WHERE supplier = ? AND code = ? AND until_load = ?",
                    (*seen, *key, until),
                )
                until = seen.load
            else:
                self.connection.execute(
                    "DELETE FROM earlier_offer WHERE supplier = ? AND code = ? AND until_load = ?",
                    (*key, until),
                )
            self.connection.execute(
                "UPDATE earlier_offer SET until_load = ? WHERE supplier = ? AND code = ? AND until_load = ?",
                (until, *key, self.load),
            )

    def _withdrawn_from_nothing(self) -> int:
        """Offers that a later load took off the list, and that nothing had put there, were never there."""
        alone = (
            " WHERE supplier = ? AND NOT listed AND NOT EXISTS (SELECT 1 FROM earlier_offer AS one"
            " WHERE one.supplier = {0}.supplier AND one.code = {0}.code AND one.until_load = {0}.load)"
        )
        key = (self.supplier,)
        while self.connection.execute(
            "DELETE FROM earlier_offer" + alone.format("earlier_offer"), key
        ).rowcount:
            pass
        gone = [
            KnownOffer._make(row)
            for row in self.rows(
                f"SELECT {', '.join(OFFER_COLUMNS)} FROM offer" + alone.format("offer"), *key
            )
        ]
        forget_words(self.connection.executemany, gone)
        self.connection.executemany("DELETE FROM offer WHERE offer = ?", ((one.offer,) for one in gone))
        return len(gone)

    # -- parts --------------------------------------------------------------------------------------

    def _parts(self) -> tuple[int, int]:
        current = self.rows("SELECT part_number FROM part WHERE load = ?", self.load)
        before = {
            row[0].lower(): row
            for row in self.rows(
                "SELECT part_number, texts, source, load, sheet, row FROM earlier_part WHERE until_load = ?",
                self.load,
            )
        }
        reasons: list[str] = []
        remove: list[str] = []
        restored = 0
        for (number,) in current:
            if earlier := before.pop(number.lower(), None):
                self._restore(earlier)
                restored += 1
            elif heir := self._heir(number):
                self.connection.execute(
                    "UPDATE part SET load = ?, sheet = ?, row = ? WHERE part_number = ?", (*heir, number)
                )
            else:
                remove.append(number)
        reasons += self._needed(remove)
        restored += self._middle_of_parts(before, reasons)
        if reasons:
            raise InTheWay(self.load, reasons)
        self.connection.executemany("DELETE FROM part WHERE part_number = ?", ((one,) for one in remove))
        return len(remove), restored

    def _heir(self, number: str) -> tuple[int, str, int] | None:
        """The load that this part is from as well: the one its own offer went over to."""
        found = self.rows(
            "SELECT load, sheet, row FROM offer WHERE part_number = ? AND supplier = ? ORDER BY load",
            number,
            self.supplier,
        )
        return found[0] if found else None

    def _restore(self, earlier: tuple[Any, ...]) -> None:
        number, texts, source, load, sheet, row = earlier
        told: Mapping[str, Any] = json.loads(texts)
        tables = no_rows()
        add_part(tables, told, part_from(told, number=number), number=number, source=source)
        for table, _, _ in reversed(TABLES[:3]):
            if table != "part":
                self.connection.execute(f"DELETE FROM {table} WHERE part_number = ?", (number,))
        head = {**tables["part"][0], "load": load, "sheet": sheet, "row": row}
        names = [name for name in head if name != "part_number"]
        self.connection.execute(
            f"UPDATE part SET ({', '.join(names)}) = ({', '.join('?' * len(names))}) WHERE part_number = ?",
            (*(head[name] for name in names), number),
        )
        for table in ("part_dimension", "part_value"):
            for one in tables[table]:
                marks = ", ".join("?" * len(one))
                self.connection.execute(
                    f"INSERT INTO {table} ({', '.join(one)}) VALUES ({marks})",
                    tuple(one.values()),
                )
        self.connection.execute(
            "DELETE FROM earlier_part WHERE part_number = ? AND until_load = ?", (number, self.load)
        )

    def _middle_of_parts(self, before: dict[str, tuple[Any, ...]], reasons: list[str]) -> int:
        """Versions of parts that a later load replaced; a part that something else wrote over stands in the way."""
        spliced = 0
        later = dict(self.rows("SELECT part_number, until_load FROM earlier_part WHERE load = ?", self.load))
        for number, until in later.items():
            self.connection.execute(
                "DELETE FROM earlier_part WHERE part_number = ? AND until_load = ?", (number, until)
            )
            self.connection.execute(
                "UPDATE earlier_part SET until_load = ? WHERE part_number = ? AND until_load = ?",
                (until, number, self.load),
            )
            if before.pop(number.lower(), None) is None:
                reasons += self._made_here(number, until)
            spliced += 1
        for number, *_ in before.values():
            source = self.rows("SELECT source FROM part WHERE part_number = ?", number)
            told = source[0][0] if source else "nothing"
            reasons.append(f"part {number} was written over since by {told}")
        return spliced

    def _made_here(self, number: str, until: int) -> Iterator[str]:
        """A part that this load made and a later one changed is that one's now, if its offer is."""
        if self._heir(number) is None and self.supplier is not None:
            yield f"part {number} was changed by load {until}: take that one back first"

    def _needed(self, numbers: list[str]) -> Iterator[str]:
        """What needs parts that are to go, apart from their own offers, which are gone by now."""
        wanted = json.dumps(numbers)
        asked = (
            (
                "SELECT part_number, 'the offer ' || code || ' of ' || supplier || ' (load ' || load || ')'"
                " FROM offer WHERE part_number IN (SELECT value FROM json_each(?))"
            ),
            (
                "SELECT part_number, 'the place ' || unit || '/' || place"
                " FROM rebuild_list WHERE part_number IN (SELECT value FROM json_each(?))"
            ),
            (
                "SELECT part_number, 'the unit ' || unit"
                " FROM unit_part WHERE part_number IN (SELECT value FROM json_each(?))"
            ),
            (
                "SELECT part_number, 'the unit ' || unit"
                " FROM unit_shaft WHERE part_number IN (SELECT value FROM json_each(?))"
            ),
            (
                "SELECT superseded_by, 'the part ' || part_number || ', which it replaces'"
                " FROM part WHERE superseded_by IN (SELECT value FROM json_each(?1))"
                " AND part_number NOT IN (SELECT value FROM json_each(?1))"
            ),
        )
        for sql in asked:
            for number, what in self.rows(sql, wanted):
                yield f"part {number} is needed by {what}"
