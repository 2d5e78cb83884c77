"""What loads after one that is taken back say: the same rows, a whole range without a code, told parts."""

from __future__ import annotations

import json
import sqlite3
from functools import cached_property
from typing import Any

from catalogue.sheets.cells import plain
from catalogue.sheets.chains import Place
from catalogue.sheets.codes import folded
from catalogue.sheets.harmless import as_it_was
from catalogue.sheets.kept import mapping_of
from catalogue.sheets.mapping import Mapping, placed
from catalogue.sheets.row_digests import unpacked


class LaterLoads:
    """The loads of one supplier (None for sheets of own parts) after ``load`` that were not taken back."""

    def __init__(self, cursor: sqlite3.Cursor, load: int, supplier: str | None) -> None:
        self._cursor = cursor
        self._load, self._supplier = load, supplier
        self._mappings: dict[int, Mapping] = {}

    def place_of(self, digest: int | None) -> Place | None:
        """The row of the first later load that is the row of this digest; None where there is none."""
        return None if digest is None else self._first.get(digest)

    def digest_at(self, place: Place) -> int | None:
        """The digest of a row that this load took."""
        return self._own.get((place.sheet, place.row))

    def withdrawing(self, code: str) -> Place | None:
        """The first later sheet of the whole range on which a code does not stand, not even refused.

        A sheet that left its missing offers listed, since they were too many, withdraws nothing.
        """
        for load, refused in self._whole_ranges.items():
            if folded(code) not in refused:
                return Place(load, "", 0)
        return None

    def tells(self, load: int, code: str) -> bool:
        """Whether a load tells by itself which part a code is: in its mapping, or by a column of numbers."""
        mapping = self._mapping(load)
        return folded(code) in {folded(one) for one in mapping.same_part} or any(
            column.field == "part_number" for column in mapping.columns.values()
        )

    # -- read once, where it is asked for -----------------------------------------------------------

    def _rows(self, sql: str, *values: object) -> list[tuple[Any, ...]]:
        return self._cursor.execute(sql, values).fetchall()

    @cached_property
    def _own(self) -> dict[tuple[str | None, int | None], int]:
        return {
            (sheet, number): digest
            for sheet, digests, numbers in self._rows(
                "SELECT sheet, digests, numbers FROM load_table WHERE load = ?", self._load
            )
            for digest, number in zip(unpacked(digests), unpacked(numbers), strict=True)
        }

    @cached_property
    def _first(self) -> dict[int, Place]:
        """By row digest of this load, the first later load that has the row."""
        found: dict[int, Place] = {}
        tables = self._rows(
            "SELECT load, sheet, digests, numbers FROM load_table JOIN load USING (load)"
            " WHERE load > ? AND supplier IS ? AND undone_at IS NULL ORDER BY load, sheet",
            self._load,
            self._supplier,
        )
        mine = set(self._own.values()) if tables else set()
        for load, sheet, digests, numbers in tables:
            for digest, number in zip(unpacked(digests), unpacked(numbers), strict=True):
                if digest in mine:
                    found.setdefault(digest, Place(load, sheet, number))
        return found

    @cached_property
    def _whole_ranges(self) -> dict[int, frozenset[str]]:
        """Later loads of the whole range, with the codes of the rows that they refused."""
        found = {}
        for load, text in self._rows(
            "SELECT load, counts FROM load WHERE load > ? AND supplier IS ? AND undone_at IS NULL"
            " AND covers = 'whole_range' ORDER BY load",
            self._load,
            self._supplier,
        ):
            counts = json.loads(text)
            if counts.get("withdrawn") or not counts.get("missing"):
                found[load] = frozenset(self._refused_codes(load))
        return found

    def _refused_codes(self, load: int) -> set[str]:
        mapping = self._mapping(load)
        at = {}
        for sheet, header in self._rows("SELECT sheet, header FROM load_table WHERE load = ?", load):
            at[sheet] = placed(mapping, json.loads(header))["code"].at
        return {
            folded(as_it_was(plain(json.loads(cells)[at[sheet]])))
            for sheet, cells in self._rows("SELECT sheet, cells FROM load_rejection WHERE load = ?", load)
        }

    def _mapping(self, load: int) -> Mapping:
        if load not in self._mappings:
            text = self._rows("SELECT mapping FROM load WHERE load = ?", load)[0][0]
            self._mappings[load] = mapping_of(text.encode(), f"mapping of load {load}")
        return self._mappings[load]
