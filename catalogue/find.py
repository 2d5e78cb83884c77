"""Finds rows of the catalogue by the names a person types; a name that is not known is told with near ones.

Names are compared without regard to case.
"""

from __future__ import annotations

import sqlite3
from typing import Any

from schema.errors import UnknownName
from schema.nearest import nearest

MOST_NAMES_COMPARED = 5000  # comparing more takes longer than a person waits for a hint


def part_row(connection: sqlite3.Connection, part_number: str) -> sqlite3.Row:
    """The row of a part. Raises UnknownName."""
    wanted = part_number.strip()
    found = rows(connection, "SELECT * FROM part WHERE part_number = ?", wanted)
    supplier, colon, code = wanted.partition(":")
    if not found and colon:  # what a supplier calls it: Wexenholme:179514
        found = rows(
            connection,
            "SELECT part.* FROM offer JOIN part USING (part_number) WHERE supplier = ? AND code = ?",
            supplier.strip(),
            code.strip(),
        )
    if not found:
        near = nearest(wanted, near_part_numbers(connection, wanted))
        problem = "this part number is not in the catalogue"
        raise UnknownName(field="part", given=part_number, problem=problem, nearest=near)
    return found[0]


def near_part_numbers(connection: sqlite3.Connection, wanted: str) -> list[str]:
    """Part numbers to compare with: those that begin alike first, so that a large catalogue stays quick."""
    begins = f"{as_it_stands(wanted[:2])}%"
    found = rows(
        connection,
        "SELECT part_number FROM part WHERE part_number LIKE ? ESCAPE '\\' LIMIT ?",
        begins,
        MOST_NAMES_COMPARED,
    ) or rows(connection, "SELECT part_number FROM part LIMIT ?", MOST_NAMES_COMPARED)
    return [row["part_number"] for row in found]


def place_row(connection: sqlite3.Connection, name: str) -> sqlite3.Row:
    """The row of a place named unit/place. Raises UnknownName."""
    unit, _, own = (piece.strip() for piece in name.partition("/"))
    found = rows(
        connection,
        "SELECT * FROM place WHERE unit = ? AND place = ?",
        unit,
        own,
    )
    if not found:
        known = rows(
            connection, "SELECT unit || '/' || place AS name FROM place LIMIT ?", MOST_NAMES_COMPARED
        )
        raise UnknownName(
            field="place",
            given=name,
            problem="this place is not in the catalogue" if own else "a place is named by unit/place",
            example="" if own or not known else known[0]["name"],
            nearest=nearest(f"{unit}/{own}" if own else unit, [row["name"] for row in known]),
        )
    return found[0]


def unit_name(connection: sqlite3.Connection, unit: str) -> str:
    """The name of a unit as the catalogue spells it. Raises UnknownName."""
    found = rows(connection, "SELECT unit FROM unit WHERE unit = ?", unit.strip())
    if not found:
        known = [row["unit"] for row in rows(connection, "SELECT unit FROM unit")]
        raise UnknownName(
            field="unit",
            given=unit,
            problem="this unit is not in the catalogue",
            nearest=nearest(unit.strip(), known),
        )
    return str(found[0]["unit"])


def as_it_stands(text: str) -> str:
    """The text for LIKE, with the signs that LIKE reads as wildcards made plain."""
    return text.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")


def rows(connection: sqlite3.Connection, sql: str, *values: object) -> list[sqlite3.Row]:
    """All rows that a query finds."""
    cursor = connection.cursor()
    cursor.row_factory = sqlite3.Row  # whatever the connection's own is
    found: list[sqlite3.Row] = cursor.execute(sql, values).fetchall()
    return found


def dicts(connection: sqlite3.Connection, sql: str, *values: object) -> list[dict[str, Any]]:
    """All rows that a query finds, each as a dict."""
    return [dict(row) for row in rows(connection, sql, *values)]
