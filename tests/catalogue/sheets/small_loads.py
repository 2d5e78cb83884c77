"""Small sheets written by a test, loaded into a catalogue; all that a catalogue says, to be compared."""

from __future__ import annotations

import io
import sqlite3
from collections.abc import Iterable, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from catalogue.sheets.loading import load_sheet
from catalogue.sheets.mapping import Column, Mapping, checked
from catalogue.sheets.one_load import NOTHING, Listener, Take
from catalogue.sheets.opening import SheetFile, open_sheet_file
from catalogue.sheets.outcome import Counts, LoadReport
from catalogue.sheets.undoing import Undone, undo_load
from catalogue.store import open_store

# The columns of these sheets, by header.
FIELDS = {
    "Code": "code",
    "Words": "description",
    "Kind": "kind",
    "ID": "inside_diameter mm",
    "CS": "cross_section mm",
    "Rubber": "material",
    "Shore": "hardness_shore_a",
    "Price": "price",
    "Per": "price_per",
    "Currency": "currency",
    "Pack": "pack_size",
    "Least": "minimum",
    "Days": "lead_time_days",
    "Stock": "stock",
    "Maker": "maker",
    "Maker's code": "maker_code",
    "Our number": "part_number",
    "Instead": "superseded_by",
    "Notes": "notes",
}
RING = "Code,Words,Kind,ID,CS,Rubber,Shore,Price"
# All that loads write, apart from the loads themselves.
CONTENT = ("part", "part_dimension", "part_value", "offer", "earlier_offer", "earlier_part")


def mapping(header: str, supplier: str, **more: Any) -> Mapping:
    """The mapping of a sheet with these headers."""
    columns = {}
    for name in header.split(","):
        field, _, unit = FIELDS.get(name, "").partition(" ")
        columns[name] = Column(name, field, unit)
    if "Price" in columns and "Currency" not in columns:
        more["every"] = {"currency": "EUR", **more.get("every", {})}
    return checked(supplier=supplier, columns=columns, **more)


def sheet_of(*lines: str, name: str = "sheet.csv") -> SheetFile:
    """A sheet of these lines, the header first."""
    return open_sheet_file(io.BytesIO("\n".join([*lines, ""]).encode()), name=name, delimiter=",")


def load(
    catalogue: Path,
    *lines: str,
    supplier: str = "Kolbring",
    apply: bool = True,
    own_parts: bool = False,
    take_doubtful: bool = False,
    take: Take = NOTHING,
    expected: Counts | None = None,
    listener: Listener | None = None,
    **told: Any,
) -> LoadReport:
    """Load a sheet of these lines; ``told`` is what its mapping says besides: covers, every, same_part."""
    with sheet_of(*lines) as file:
        return load_sheet(
            catalogue,
            file,
            mapping(lines[0], supplier, **told),
            own_parts=own_parts,
            apply=apply,
            take=Take(all=take_doubtful) if take_doubtful else take,
            expected=expected,
            listener=listener,
        )


def undo(catalogue: Path, number: int) -> Undone:
    """Take a load back."""
    with closing(open_store(catalogue, write=True)) as db:
        return undo_load(db, number)


def rows(catalogue: Path, sql: str, *values: object) -> list[tuple[Any, ...]]:
    """The rows of a query."""
    with closing(open_store(catalogue)) as connection:
        return [tuple(row) for row in connection.execute(sql, values)]


def offer(catalogue: Path, code: str, *columns: str, supplier: str = "Kolbring") -> tuple[Any, ...]:
    """These columns of an offer."""
    wanted = ", ".join(columns)
    sql = f"SELECT {wanted} FROM offer WHERE supplier = ? AND code = ?"  # noqa: S608
    (found,) = rows(catalogue, sql, supplier, code)
    return found


def whole(catalogue: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table, the index of words among them."""
    tables = rows(catalogue, "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    return {name: sorted(rows(catalogue, f"SELECT * FROM {name}"), key=repr) for (name,) in tables}  # noqa: S608


def content(
    catalogue: Path, *, tables: Sequence[str] = CONTENT, loads: dict[int, int] | None = None
) -> dict[str, list[dict[str, Any]]]:
    """What the catalogue says: offers without their running number, and loads by other numbers where told."""
    numbered = loads or {}
    found: dict[str, list[dict[str, Any]]] = {}
    with closing(open_store(catalogue)) as connection:
        for table in tables:
            told = [dict(row) for row in connection.execute(f"SELECT * FROM {table}")]  # noqa: S608
            for one in told:
                one.pop("offer", None)
                one |= {
                    name: numbered.get(one[name], one[name]) for name in ("load", "until_load") if name in one
                }
            found[table] = sorted(told, key=repr)
    return found


def words_are_right(catalogue: Path, searched: Iterable[str] = ()) -> None:
    """The index of words agrees with the offers: by its own check, and for each word that is searched."""
    with closing(open_store(catalogue, write=True)) as db:
        db.execute("INSERT INTO offer_words (offer_words, rank) VALUES ('integrity-check', 1)")
    for word in searched:
        hits = rows(
            catalogue,
            "SELECT code FROM offer WHERE offer IN"
            " (SELECT rowid FROM offer_words WHERE offer_words MATCH ?) ORDER BY code",
            f'description: "{word}"',
        )
        told = rows(
            catalogue,
            "SELECT code FROM offer WHERE instr(' ' || lower(description) || ' ', ?) ORDER BY code",
            f" {word.lower()} ",
        )
        assert hits == told


def in_one_file(path: Path) -> None:
    """Merge the log of changes into the catalogue, so that the file alone can be copied."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
