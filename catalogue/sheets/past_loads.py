"""The loads that are in the catalogue, or were taken back: listed, and one of them told in full."""

from __future__ import annotations

import json
import sqlite3
from typing import Any, NamedTuple

from catalogue.find import rows
from schema.errors import UnknownName
from schema.nearest import not_among


class PastLoad(NamedTuple):
    """One load; ``supplier`` is "" for a sheet of own parts, ``undone_at`` "" while the load holds."""

    load: int
    supplier: str
    file: str
    loaded_at: str
    undone_at: str
    covers: str
    counts: dict[str, int]


class KeptRejection(NamedTuple):
    """A row of a past load that was not taken."""

    sheet: str
    row: int
    cells: list[str]
    problems: list[dict[str, str]]


_LOADS = "SELECT load, supplier, file, loaded_at, undone_at, covers, counts FROM load"


def past_loads(connection: sqlite3.Connection, supplier: str = "") -> list[PastLoad]:
    """All loads, the newest first; of one supplier where it is named.

    Raises UnknownName for a supplier of whom nothing was loaded, where something was of others.
    """
    where = " WHERE supplier = ?" if supplier else ""
    found = rows(connection, f"{_LOADS}{where} ORDER BY load DESC", *filter(None, [supplier]))
    if supplier and not found:
        known = rows(connection, "SELECT DISTINCT supplier FROM load WHERE supplier <> '' ORDER BY supplier")
        if known:
            raise not_among(
                [row["supplier"] for row in known],
                field="--supplier",
                given=supplier,
                problem="nothing was loaded from a supplier of this name",
            )
    return [_load(row) for row in found]


def past_load(connection: sqlite3.Connection, load: int) -> PastLoad:
    """One load by its number. Raises UnknownName."""
    found = rows(connection, f"{_LOADS} WHERE load = ?", load)
    if not found:
        known = [str(one.load) for one in past_loads(connection)[:10]]
        raise UnknownName(
            field="load",
            given=load,
            problem="there is no such load",
            allowed=", ".join(known) or "nothing was loaded yet",
        )
    return _load(found[0])


def rejections(connection: sqlite3.Connection, load: int) -> dict[str, tuple[list[str], list[KeptRejection]]]:
    """The rows that a load did not take, by table: its header, and the rows."""
    found: dict[str, tuple[list[str], list[KeptRejection]]] = {}
    headers = {
        row["sheet"]: json.loads(row["header"])
        for row in rows(connection, "SELECT sheet, header FROM load_table WHERE load = ?", load)
    }
    for row in rows(
        connection,
        "SELECT sheet, row, cells, reasons FROM load_rejection WHERE load = ? ORDER BY sheet, row",
        load,
    ):
        one = KeptRejection(row["sheet"], row["row"], json.loads(row["cells"]), json.loads(row["reasons"]))
        found.setdefault(one.sheet, (headers[one.sheet], []))[1].append(one)
    return found


def mapping_text_of(connection: sqlite3.Connection, load: int) -> str:
    """The mapping that a load was read by, as its file had it."""
    return str(rows(connection, "SELECT mapping FROM load WHERE load = ?", load)[0]["mapping"])


def _load(row: Any) -> PastLoad:
    return PastLoad(
        row["load"],
        row["supplier"] or "",
        row["file"],
        row["loaded_at"],
        row["undone_at"] or "",
        row["covers"],
        json.loads(row["counts"]),
    )
