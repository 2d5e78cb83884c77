"""The texts of parts, places and whole units as they were given, read back in a handful of queries.

The shape is that of ``schema.unit.unit_from`` and of a unit file. Standard library only: it stands between
a person and the answer.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Sequence
from typing import Any

from catalogue.find import part_row, place_row, rows, unit_name

Texts = dict[str, Any]

_PARTS = (
    "SELECT part_number, kind, description, maker, superseded_by, notes FROM part WHERE part_number IN ({0})"
)
# Fields of parts: values and lengths as given; lengths that follow from a size code are left to the code.
_PART_FIELDS = (
    "SELECT part_number, field, text FROM part_value WHERE part_number IN ({0})"
    " UNION ALL SELECT part_number, dimension, text FROM part_dimension"
    " WHERE part_number IN ({0}) AND origin <> 'standard'"
)
_PLACE_FIELDS = (
    "SELECT place, field, text FROM place_value WHERE unit = ?1{0}"
    " UNION ALL SELECT place, dimension, text FROM place_dimension WHERE unit = ?1{0}"
)
_FITTED = "SELECT place, part_number, quantity, renew FROM rebuild_list WHERE unit = ?1{0} ORDER BY position"
_OWN_PARTS = "SELECT part_number FROM unit_part WHERE unit = ?1"
_NAMED_PARTS = (
    "SELECT part_number FROM unit_part WHERE unit = ?1"
    " UNION SELECT part_number FROM rebuild_list WHERE unit = ?1"
    " UNION SELECT part_number FROM unit_shaft WHERE unit = ?1"
    " UNION SELECT text FROM unit_value WHERE unit = ?1 AND field = 'oil'"
)


def part_texts(connection: sqlite3.Connection, part_number: str) -> Texts:
    """The texts of a part of any kind, its number left out. Raises UnknownName."""
    number = part_row(connection, part_number)["part_number"]
    return _parts(connection, "?1", number)[number]


def texts_of_parts(connection: sqlite3.Connection, numbers: list[str]) -> dict[str, Texts]:
    """The texts of many parts by their numbers; numbers that no part has are left out."""
    return _parts(connection, "SELECT value COLLATE NOCASE FROM json_each(?1)", json.dumps(numbers))


def place_texts(connection: sqlite3.Connection, name: str) -> Texts:
    """The texts of a place, named unit/place, with its service and its parts. Raises UnknownName."""
    row = place_row(connection, name)
    key = row["unit"], row["place"]
    return _places(connection, [row], " AND place = ?2", *key)[row["place"]]


def unit_texts(connection: sqlite3.Connection, unit: str, *, own_parts_only: bool = False) -> Texts:
    """The texts of a whole unit with every part that it names, for ``schema.unit.unit_from``.

    ``own_parts_only`` leaves out the parts that its unit file does not describe. Raises UnknownName.
    """
    name = unit_name(connection, unit)
    head = rows(
        connection, "SELECT unit, kind, description, maker, notes, source FROM unit WHERE unit = ?", name
    )
    found = _given(dict(head[0]))
    found |= _tuples(connection, "SELECT field, text FROM unit_value WHERE unit = ?", name)
    shafts = dict(
        _tuples(connection, "SELECT label, part_number FROM unit_shaft WHERE unit = ? ORDER BY label", name)
    )
    places = rows(
        connection, "SELECT place, kind, description, notes FROM place WHERE unit = ? ORDER BY position", name
    )
    sections = {
        "shafts": shafts,
        "places": _places(connection, places, "", name),
        "parts": _parts(connection, _OWN_PARTS if own_parts_only else _NAMED_PARTS, name),
    }
    return found | {section: texts for section, texts in sections.items() if texts}


def texts_alone(connection: sqlite3.Connection, unit: str) -> Texts:
    """The texts of a unit with every part it names and their successors, so that no other part is needed."""
    found = unit_texts(connection, unit)
    parts: dict[str, Texts] = found.get("parts", {})
    waiting = [texts["superseded_by"] for texts in parts.values() if "superseded_by" in texts]
    while waiting:
        number = part_row(connection, waiting.pop())["part_number"]
        if number not in parts:
            parts[number] = part_texts(connection, number)
            waiting += [parts[number]["superseded_by"]] if "superseded_by" in parts[number] else []
    return found


def _places(
    connection: sqlite3.Connection, heads: Iterable[sqlite3.Row], where: str, *key: str
) -> dict[str, Texts]:
    found = {row["place"]: _given({"kind": row["kind"], "description": row["description"]}) for row in heads}
    for place, field, text in _tuples(connection, _PLACE_FIELDS.format(where), *key):
        found[place][field] = text
    for row in heads:
        if row["notes"]:
            found[row["place"]]["notes"] = row["notes"]
    for place, number, quantity, renew in _tuples(connection, _FITTED.format(where), *key):
        told: Texts = {"part": number}
        if quantity != 1:
            told["quantity"] = str(quantity)
        if renew != "always":
            told["renew"] = renew
        found[place].setdefault("parts", []).append(told if len(told) > 1 else number)
    return found


def _parts(connection: sqlite3.Connection, numbers: str, key: str) -> dict[str, Texts]:
    """The texts of the parts whose numbers a query finds, by number."""
    found: dict[str, Texts] = {}
    beside: dict[str, Texts] = {}
    heads = _tuples(connection, _PARTS.format(numbers), key)
    for number, kind, description, maker, successor, notes in heads:
        found[number] = _given({"kind": kind, "description": description})
        beside[number] = _given({"maker": maker, "superseded_by": successor, "notes": notes})
    for number, field, text in _tuples(connection, _PART_FIELDS.format(numbers), key):
        found[number][field] = text
    return {number: {**texts, **beside[number]} for number, texts in sorted(found.items())}


def _tuples(connection: sqlite3.Connection, sql: str, *values: object) -> Sequence[tuple[Any, ...]]:
    cursor = connection.cursor()
    cursor.row_factory = None
    return cursor.execute(sql, values).fetchall()


def _given(texts: Texts) -> Texts:
    return {name: text for name, text in texts.items() if text}
