"""What is looked at before the first row: which tables are loaded, and whether the file was loaded before."""

from __future__ import annotations

from catalogue.sheets.codes import OWN_PARTS, folded
from catalogue.sheets.known import Known
from catalogue.sheets.mapping import Mapping, placed
from catalogue.sheets.opening import SheetFile
from catalogue.sheets.outcome import TableNote
from catalogue.sheets.tables import Table
from schema.errors import InputError
from schema.nearest import nearest


def tables_to_load(
    file: SheetFile, mapping: Mapping, *, own_parts: bool
) -> tuple[list[Table], list[TableNote]]:
    """The tables that the mapping fits, and notes of the others. Raises InputError where none fits."""
    key = "part_number" if own_parts else "code"
    fitting: list[Table] = []
    skipped: list[TableNote] = []
    for table in file.tables:
        why = ""
        if mapping.sheets and table.sheet not in mapping.sheets:
            why = "the mapping does not name it"
        elif table.hidden and table.sheet not in mapping.sheets:
            why = "it is hidden"
        elif key not in placed(mapping, table.header):
            why = f"it has no column that is {key}"
        if why:
            skipped.append(TableNote(table.sheet, table.header_row, 0, 0, (), why))
        else:
            fitting.append(table)
    if not fitting:
        told = "; ".join(f"{one.sheet or 'the table'}: {one.skipped}" for one in skipped)
        raise InputError(
            field=file.name,
            given="",
            problem=f"no table of this file can be loaded by the mapping ({told or 'it has none'})",
            allowed=f"a table with a column that is {key}",
        )
    return fitting, skipped


def seen_before(known: Known, sha256: str, supplier: str, *, whatever: bool) -> list[str]:
    """Notes on a file that was loaded before, with others since, and on a supplier's name that is new.

    Raises InputError where the very file was loaded for another supplier, unless ``whatever`` says it may.
    """
    before = known.rows(
        "SELECT load, coalesce(supplier, '') FROM load"
        " WHERE file_sha256 = ? AND undone_at IS NULL ORDER BY load",
        sha256,
    )
    own = [load for load, name in before if folded(name) == folded(supplier)]
    if before and not own and not whatever:
        load, name = before[-1]
        raise InputError(
            field="--supplier",
            given=supplier or OWN_PARTS,
            problem=f"this very file was loaded for {name or OWN_PARTS} (load {load})",
            allowed=f"{name or '--own-parts'}; or --take-doubtful if both send the same file",
        )
    loads = [
        row[0]
        for row in known.rows(
            "SELECT load FROM load WHERE coalesce(supplier, '') = ? COLLATE NOCASE AND undone_at IS NULL",
            supplier,
        )
    ]
    notes = []
    if since := [load for load in loads if own and load > own[-1]]:
        others = "another" if len(since) == 1 else f"{len(since)} others"
        notes.append(
            f"This very file was loaded before, as load {own[-1]}, and {others} of this supplier since: "
            "it takes the catalogue back to it."
        )
    if supplier and not loads:
        names = [row[0] for row in known.rows("SELECT DISTINCT supplier FROM load WHERE supplier > ''")]
        if near := nearest(supplier, names):
            notes.append(f"{supplier} is a new supplier; near: {', '.join(near)}.")
    return notes
