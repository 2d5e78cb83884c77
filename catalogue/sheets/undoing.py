"""Takes a load back: the catalogue is then as if it had never been loaded, also where others came after.

Each offer and part has a chain of versions, one for every load that changed it. The load's version is taken
out of each chain, and what later loads said is played again on what stood before (``chains``). Where that
would need what nobody kept, or something stands on what the load brought, nothing is changed.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

from catalogue.sheets.chains import Chain, Place, Version, replayed
from catalogue.sheets.codes import folded
from catalogue.sheets.comparing import made_number
from catalogue.sheets.known import KnownOffer, sheet_source
from catalogue.sheets.later_loads import LaterLoads
from catalogue.sheets.part_versions import forget_parts, needed_by, put_part
from catalogue.sheets.writing import VERSION_COLUMNS, forget_words
from catalogue.store import all_or_nothing
from catalogue.texts import texts_of_parts
from schema.errors import BorebookError, UnknownName

if TYPE_CHECKING:
    from sqlite_utils import Database

MOST_TOLD = 200  # things that stand in the way; more are counted
_COLUMNS = ", ".join(VERSION_COLUMNS)
_MARKS = ", ".join("?" * len(VERSION_COLUMNS))
_PART_AT = VERSION_COLUMNS.index("part_number")
_WORDS_AT = tuple(VERSION_COLUMNS.index(name) for name in ("code", "maker_code", "description"))


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
        if any(" is needed by " in one for one in self.reasons):
            shown.append(f"  To take back all but these parts: borebook loads undo {self.load} --keep-parts")
        return "\n".join([f"load {self.load} cannot be taken back; nothing was changed:", *shown])


class Undone(NamedTuple):
    """What taking a load back did."""

    load: int
    file: str
    offers_removed: int
    offers_restored: int
    offers_passed_on: int  # another sheet has the same row, so they stay as they are
    parts_removed: int
    parts_restored: int
    parts_kept: int  # others need them


def undo_load(db: Database, load: int, *, keep_parts: bool = False) -> Undone:
    """Take a load back in one transaction.

    Parts that it brought may be needed since, by a unit or by what another supplier offers: that is in the
    way, or with ``keep_parts`` these parts stay. Raises UnknownName for a load that is not there, InTheWay
    with everything that stands in the way.
    """
    with all_or_nothing(db):
        return _Undoing(db.conn, load, keep_parts).run()


class _Offer(NamedTuple):
    """An offer as it stands: its number, and its version as a row of VERSION_COLUMNS."""

    offer: int
    row: tuple[Any, ...]


class _Undoing:
    def __init__(self, connection: sqlite3.Connection, load: int, keep_parts: bool) -> None:
        self.keep_parts = keep_parts
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
        self.source = sheet_source(self.supplier or "")
        self.later = LaterLoads(self.cursor, load, self.supplier)
        self.reasons: list[str] = []
        self.said: dict[str, list[Version]] = {}  # by own part: what later loads said of its offer

    def rows(self, sql: str, *values: object) -> list[tuple[Any, ...]]:
        return self.cursor.execute(sql, values).fetchall()

    def run(self) -> Undone:
        """Take every version of this load out of its chain."""
        offers = self._offers() if self.supplier is not None else (0, 0, 0)
        parts = self._parts()
        if self.reasons:
            raise InTheWay(self.load, dict.fromkeys(self.reasons))
        now = datetime.now(UTC).isoformat(timespec="seconds")
        self.connection.execute("UPDATE load SET undone_at = ? WHERE load = ?", (now, self.load))
        return Undone(self.load, self.file, *offers, *parts)

    # -- offers -------------------------------------------------------------------------------------

    def _offers(self) -> tuple[int, int, int]:
        """Offers taken out, given back what they said before, and left as they are."""
        current, chains = self._offer_chains()
        removed: list[_Offer] = []
        changed: list[tuple[_Offer, tuple[Any, ...]]] = []
        kept: list[tuple[Any, ...]] = []
        restored = passed = 0
        for code, chain in chains.items():
            said = [*self._in_between(code, chain), *chain.after]
            self._told_here(code, chain, said)
            own = folded(made_number(self.supplier, code))
            self.said[own] = [one for one in said if one.listed and folded(one.what[_PART_AT]) == own]
            versions = replayed(chain.before, said)
            for one, follower in pairwise(versions):
                kept.append((*_row(one), follower.place.load))
            offer = current[code]
            if not versions:
                removed.append(offer)
            elif (row := _row(versions[-1])) != offer.row:
                changed.append((offer, row))
                same = row[:-3] == offer.row[:-3]
                passed += same
                restored += not same
        self._forget_versions(chains)
        self.connection.executemany(
            f"INSERT INTO earlier_offer ({_COLUMNS}, until_load) VALUES ({_MARKS}, ?)", kept
        )
        self._write(removed, changed)
        return len(removed), restored, passed

    def _offer_chains(self) -> tuple[dict[str, _Offer], dict[str, Chain]]:
        """The offers that this load has a version of, as they stand and as chains, by code."""
        key = (self.supplier, self.load)
        earlier: dict[str, list[tuple[Any, ...]]] = {}
        for row in self.rows(
            f"SELECT {_COLUMNS} FROM earlier_offer"
            " WHERE supplier = ? AND until_load >= ? ORDER BY until_load",
            *key,
        ):
            earlier.setdefault(folded(row[1]), []).append(row)
        current: dict[str, _Offer] = {}
        chains: dict[str, Chain] = {}
        for offer, *columns in self.rows(
            f"SELECT offer, {_COLUMNS} FROM offer WHERE supplier = ? AND load >= ? ORDER BY offer", *key
        ):
            offered = tuple(columns)
            code = folded(offered[1])
            versions = [*map(_version, earlier.get(code, ())), _version(offered)]
            loads = [one.place.load for one in versions]
            if self.load in loads:
                at = loads.index(self.load)
                current[code] = _Offer(offer, offered)
                chains[code] = Chain(versions[at - 1] if at else None, versions[at], versions[at + 1 :])
        return current, chains

    def _in_between(self, code: str, chain: Chain) -> Iterator[Version]:
        """What loads said that made no version, since this load's version said it already."""
        taken, later = chain.taken, self.later
        place = later.place_of(taken.mark) if taken.listed else later.withdrawing(code)
        if place is not None and place.load is not None and place.load < (chain.until or place.load + 1):
            yield taken._replace(place=place)

    def _told_here(self, code: str, chain: Chain, said: list[Version]) -> None:
        """A part that this load told for a code must not be what later sheets only took over from it."""
        part = folded(chain.taken.what[_PART_AT])
        moved = chain.before is not None and folded(chain.before.what[_PART_AT]) != part
        if not moved and not self.later.tells(self.load, code):
            return
        for one in said:
            load = one.place.load or 0
            if one.listed and folded(one.what[_PART_AT]) == part and not self.later.tells(load, code):
                self.reasons.append(
                    f"load {load} has {one.what[1]} as part {one.what[_PART_AT]} only because this load "
                    f"told it: take load {load} back first"
                )

    def _forget_versions(self, chains: dict[str, Chain]) -> None:
        """Take out of earlier_offer what is told anew: the version before, this load's own, all after it."""
        keys: list[tuple[Any, ...]] = []
        for code, chain in chains.items():
            untils = [self.load] if chain.before else []
            untils += [one.place.load for one in chain.after if one.place.load]
            keys += [(self.supplier, code, until) for until in untils]
        self.connection.executemany(
            "DELETE FROM earlier_offer WHERE supplier = ? AND code = ? AND until_load = ?", keys
        )

    def _write(self, removed: list[_Offer], changed: list[tuple[_Offer, tuple[Any, ...]]]) -> None:
        """Bring offers to their versions, and the index of their words with them."""
        many = self.connection.executemany
        reworded = [
            (offer, row) for offer, row in changed if any(offer.row[at] != row[at] for at in _WORDS_AT)
        ]
        forget_words(many, [_known(one) for one in (*removed, *(offer for offer, _ in reworded))])
        many("DELETE FROM offer WHERE offer = ?", ((one.offer,) for one in removed))
        many(
            f"UPDATE offer SET ({_COLUMNS}) = ({_MARKS}) WHERE offer = ?",
            ((*row, offer.offer) for offer, row in changed),
        )
        many(
            "INSERT INTO offer_words (rowid, code, maker_code, description) VALUES (?, ?, ?, ?)",
            ((offer.offer, *(row[at] for at in _WORDS_AT)) for offer, row in reworded),
        )

    # -- parts --------------------------------------------------------------------------------------

    def _parts(self) -> tuple[int, int, int]:
        """Parts taken out, given back what they were before, and kept since others need them."""
        removed: list[str] = []
        kept: list[tuple[str, list[Version]]] = []
        restored = 0
        for number, chain in self._part_chains().items():
            versions = replayed(chain.before, self._said_of(number, chain))
            if chain.before or chain.after or len(versions) > 1:
                kept.append((number, versions))
            now = (chain.after[-1] if chain.after else chain.taken).mark
            if not versions:
                removed.append(number)
            elif versions[-1].mark != now:
                restored += 1
                source, told = versions[-1].what
                self.reasons += put_part(
                    self.connection, number, told, source, versions[-1].place, taken_back=self.load
                )
            else:
                self.connection.execute(
                    "UPDATE part SET source = ?, load = ?, sheet = ?, row = ? WHERE part_number = ?",
                    (versions[-1].what[0], *versions[-1].place, number),
                )
        self._keep_part_versions(kept)
        removed, needed = self._spared(removed) if self.keep_parts else (removed, [])
        self.reasons += (
            f"part {number} is needed by {what}" for number, what in needed_by(self.cursor, removed)
        )
        if not self.reasons:
            forget_parts(self.connection, removed)
        return len(removed), restored, len(needed)

    def _spared(self, removed: list[str]) -> tuple[list[str], list[str]]:
        """The parts that can go, and those that others need, and by those in turn."""
        kept: list[str] = []
        going = removed
        while needed := {folded(number) for number, _ in needed_by(self.cursor, going)}:
            kept += [one for one in going if folded(one) in needed]
            going = [one for one in going if folded(one) not in needed]
        return going, kept

    def _part_chains(self) -> dict[str, Chain]:
        """The parts that this load has a version of; parts that something else wrote over are in the way."""
        touched = {
            folded(number): number
            for (number,) in self.rows(
                "SELECT part_number FROM part WHERE load = ?1"
                " UNION SELECT part_number FROM earlier_part WHERE load = ?1 OR until_load = ?1",
                self.load,
            )
        }
        wanted = json.dumps(list(touched.values()))
        earlier: dict[str, list[Version]] = {}
        for number, told, source, *place in self.rows(
            "SELECT part_number, texts, source, load, sheet, row FROM earlier_part"
            " WHERE until_load >= ? AND part_number IN (SELECT value FROM json_each(?)) ORDER BY until_load",
            self.load,
            wanted,
        ):
            read = json.loads(told)
            earlier.setdefault(folded(number), []).append(Version((source, read), Place(*place), read))
        # a part with one version alone is told from no other
        known = texts_of_parts(self.connection, [touched[number] for number in earlier])
        chains: dict[str, Chain] = {}
        for number, source, *place in self.rows(
            "SELECT part_number, source, load, sheet, row FROM part"
            " WHERE part_number IN (SELECT value FROM json_each(?))",
            wanted,
        ):
            told = known.get(number, {})
            versions = [*earlier.get(folded(number), ()), Version((source, told), Place(*place), told)]
            loads = [one.place.load for one in versions]
            if self.load not in loads:
                self.reasons.append(f"part {number} was written over since by {source}")
                continue
            at = loads.index(self.load)
            if None in loads[at:]:
                self.reasons.append(f"part {number} was written over since by {source}")
                continue
            chains[number] = Chain(versions[at - 1] if at else None, versions[at], versions[at + 1 :])
        return chains

    def _said_of(self, number: str, chain: Chain) -> list[Version]:
        """What later loads said of a part, in their order: its versions, and rows that made none."""
        said = list(chain.after)
        own = self.said.get(folded(number), []) if self.supplier is not None else self._repeated(chain)
        for one in own:
            load = one.place.load or 0
            held = [two for two in (chain.taken, *chain.after) if (two.place.load or 0) <= load][-1]
            if folded(held.what[0]) == folded(self.source) and held.place.load != load:
                said.append(held._replace(place=one.place))
        return sorted(said, key=lambda two: two.place.load or 0)

    def _repeated(self, chain: Chain) -> list[Version]:
        """The first later sheet of own parts that has the very row of this load."""
        place = self.later.place_of(self.later.digest_at(chain.taken.place))
        return [] if place is None else [chain.taken._replace(place=place)]

    def _keep_part_versions(self, kept: list[tuple[str, list[Version]]]) -> None:
        """Tell earlier_part anew, from the version before this load on."""
        many = self.connection.executemany
        many(
            "DELETE FROM earlier_part WHERE part_number = ? AND until_load >= ?",
            ((number, self.load) for number, _ in kept),
        )
        many(
            "INSERT INTO earlier_part (part_number, texts, source, load, sheet, row, until_load)"
            " VALUES (?, ?, ?, ?, ?, ?, ?)",
            (
                (
                    number,
                    json.dumps(one.mark, ensure_ascii=False),
                    one.what[0],
                    *one.place,
                    follower.place.load,
                )
                for number, versions in kept
                for one, follower in pairwise(versions)
            ),
        )


def _version(row: tuple[Any, ...]) -> Version:
    *what, listed, digest, load, sheet, number = row
    return Version(tuple(what), Place(load, sheet, number), digest, listed=bool(listed))


def _row(version: Version) -> tuple[Any, ...]:
    return (*version.what, int(version.listed), version.mark, *version.place)


def _known(offer: _Offer) -> KnownOffer:
    told = dict(zip(VERSION_COLUMNS, offer.row, strict=True))
    del told["supplier"]
    return KnownOffer(offer=offer.offer, **told)
