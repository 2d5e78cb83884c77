"""Parts as a load that is taken back leaves them: given an earlier version, or taken out."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from catalogue.sheets.chains import Place
from catalogue.table_rows import add_part, no_rows
from schema.unit_parts import part_from

_FIELDS = ("part_dimension", "part_value")


def put_part(
    connection: sqlite3.Connection,
    number: str,
    told: Mapping[str, Any],
    source: str,
    place: Place,
    *,
    taken_back: int,
) -> list[str]:
    """Give a part the version of these texts. What stands in the way: offers that were taken for this part
    since, by others, for it was another article then.
    """
    tables = no_rows()
    add_part(tables, told, part_from(told, number=number), number=number, source=source)
    head = {**tables["part"][0], "load": place.load, "sheet": place.sheet, "row": place.row}
    cursor = connection.cursor()
    cursor.row_factory = None
    key = cursor.execute("SELECT typed_key FROM part WHERE part_number = ?", (number,)).fetchone()[0]
    for table in _FIELDS:
        connection.execute(f"DELETE FROM {table} WHERE part_number = ?", (number,))  # noqa: S608
    names = [name for name in head if name != "part_number"]
    connection.execute(
        f"UPDATE part SET ({', '.join(names)}) = ({', '.join('?' * len(names))}) WHERE part_number = ?",  # noqa: S608
        (*(head[name] for name in names), number),
    )
    for table in _FIELDS:
        for one in tables[table]:
            connection.execute(
                f"INSERT INTO {table} ({', '.join(one)}) VALUES ({', '.join('?' * len(one))})",  # noqa: S608
                tuple(one.values()),
            )
    if key == head["typed_key"]:
        return []
    return [
        f"part {number} is another article without it, and the offer {code} of {supplier} (load {load}) "
        "was taken for what it is now"
        for code, supplier, load in cursor.execute(
            "SELECT code, supplier, load FROM offer"
            " WHERE part_number = ?1 AND load > ?2 AND supplier || ':' || code <> ?1",
            (number, taken_back),
        )
    ]


def forget_parts(connection: sqlite3.Connection, numbers: Sequence[str]) -> None:
    """Take parts out; their sizes and values go with them."""
    connection.executemany("DELETE FROM part WHERE part_number = ?", ((one,) for one in numbers))


def needed_by(cursor: sqlite3.Cursor, numbers: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Parts that are to go and are needed, with what needs them; offers that are gone by now do not."""
    offer = "'the offer ' || code || ' of ' || supplier || ' (load ' || load || ')'"
    listed = "part_number IN (SELECT value FROM json_each(?1))"
    asked = (
        f"SELECT part_number, {offer} FROM offer WHERE {listed}",  # noqa: S608
        (
            f"SELECT part_number, 'what ' || substr({offer}, 5) || ' was before load ' || until_load"  # noqa: S608
            f" FROM earlier_offer WHERE {listed}"
        ),
        f"SELECT part_number, 'the place ' || unit || '/' || place FROM rebuild_list WHERE {listed}",  # noqa: S608
        f"SELECT part_number, 'the unit ' || unit FROM unit_part WHERE {listed}",  # noqa: S608
        f"SELECT part_number, 'the unit ' || unit FROM unit_shaft WHERE {listed}",  # noqa: S608
        (
            "SELECT superseded_by, 'the part ' || part_number || ', which it replaces' FROM part"  # noqa: S608
            f" WHERE superseded_by IN (SELECT value FROM json_each(?1)) AND NOT {listed}"
        ),
    )
    for sql in asked:
        yield from cursor.execute(sql, (json.dumps(list(numbers)),)).fetchall()
