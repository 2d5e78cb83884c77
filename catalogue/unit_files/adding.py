"""Takes a unit file into the catalogue in one transaction, and says what changed."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from catalogue.faults import Fault, UnitFileErrors
from catalogue.find import rows
from catalogue.rows_written import apply_rows
from catalogue.store import all_or_nothing
from catalogue.table_rows import add_part, add_unit, no_rows
from catalogue.texts import unit_texts
from catalogue.unit_files.building import built
from catalogue.unit_files.reading import UnitFile
from catalogue.unit_files.shape import Texts
from catalogue.unit_files.stock import CatalogueStock
from schema.errors import InputError, UnknownName

if TYPE_CHECKING:
    from sqlite_utils import Database


class Change(NamedTuple):
    """One text that is another than before; "" where there was none, or is none now."""

    path: str
    before: str
    now: str

    def __str__(self) -> str:
        return f"{self.path}: {self.before or 'nothing'} -> {self.now or 'nothing'}"


class Added(NamedTuple):
    """What taking in a unit did; ``new`` where the catalogue had no unit of that name."""

    unit: str
    new: bool
    places: int
    changes: tuple[Change, ...]


def add_unit_file(db: Database, file: UnitFile) -> Added:
    """Take a unit into the catalogue; a unit of that name is replaced wholly.

    Parts that the file describes are taken in with it. One that the catalogue has already must be the same
    there, unless it came with this unit and with no other. Raises UnitFileErrors with every fault, and
    StoreError if the file of the catalogue refuses; in both cases nothing was changed.
    """
    with all_or_nothing(db):
        connection = db.conn
        stock = CatalogueStock(connection)
        found = built(file, stock)
        faults = [*found.faults, *found.faults_of_stock, *_parts_at_odds(file, stock)]
        if found.unit is None or faults:
            raise UnitFileErrors(faults)
        name = file.texts["unit"]
        before = _before(connection, name)
        changes = tuple(changes_between(before or {}, file.texts))
        if before is None or changes:
            tables = no_rows()
            add_unit(tables, file.texts, found.unit, loaded_from=file.name)
            for number, texts in file.texts.get("parts", {}).items():
                tables["unit_part"].append({"unit": name, "part_number": number})
                if stock.texts(number) != texts:
                    add_part(tables, texts, found.unit.parts[number], number=number, source=f"unit {name}")
            db.execute("DELETE FROM unit WHERE unit = ?", [name])
            apply_rows(db, tables)
    return Added(name, before is None, len(file.texts.get("places", {})), changes)


def changes_between(before: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Change]:
    """Every text of a unit that differs, by its path, and the order of the places where it does.

    >>> list(map(str, changes_between({"stroke": "50 mm"}, {"stroke": "55 mm", "places": {"a": {"x": "1"}}})))
    ['stroke: 50 mm -> 55 mm', 'places.a.x: nothing -> 1']
    """
    old, new = dict(_flat(before, "")), dict(_flat(now, ""))
    for path in dict.fromkeys((*old, *new)):
        if old.get(path) != new.get(path):
            yield Change(path, old.get(path, ""), new.get(path, ""))
    orders = [list(one.get("places", {})) for one in (before, now)]
    if orders[0] != orders[1] and set(orders[0]) == set(orders[1]):
        yield Change("order of the places", ", ".join(orders[0]), ", ".join(orders[1]))


def _flat(texts: Any, path: str) -> Iterator[tuple[str, str]]:
    inner = f"{path}." if path else ""
    if isinstance(texts, Mapping):
        if not texts:
            yield path, "nothing told"
        for name, one in texts.items():
            if name == "parts" and isinstance(one, list):
                yield f"{inner}{name}", ", ".join(map(_fitted_words, one))
            else:
                yield from _flat(one, f"{inner}{name}")
    else:
        yield path, str(texts)


def _fitted_words(fitted: str | Mapping[str, str]) -> str:
    if isinstance(fitted, str):
        return fitted
    many = f"{fitted['quantity']} x " if "quantity" in fitted else ""
    return f"{many}{fitted['part']}" + (f" ({fitted['renew']})" if "renew" in fitted else "")


def _before(connection: sqlite3.Connection, unit: str) -> Texts | None:
    try:
        return unit_texts(connection, unit, own_parts_only=True)
    except UnknownName:
        return None


def _parts_at_odds(file: UnitFile, stock: CatalogueStock) -> Iterator[Fault]:
    """Parts of the file that the catalogue has otherwise and that are not this unit's to change."""
    unit = file.texts.get("unit", "")
    own: Mapping[str, Any] = file.texts.get("parts", {})
    for number, texts in own.items():
        path = f"parts.{number}"
        successor = texts.get("superseded_by", "")
        if successor and successor.lower() not in map(str.lower, own) and stock.texts(successor) is None:
            problem = "this part is neither in the catalogue nor in the file"
            yield file.fault(
                InputError(
                    field=f"{path}.superseded_by", given=successor, problem=problem, allowed="correct it"
                )
            )
        known = rows(stock.connection, "SELECT part_number FROM part WHERE part_number = ?", number)
        there = stock.texts(number)
        if there is None or (there == texts and known[0]["part_number"] == number):
            continue
        if known[0]["part_number"] != number:
            spelt = known[0]["part_number"]
            yield file.fault(
                InputError(
                    field=path, given=number, problem=f"the catalogue spells it {spelt}", allowed=spelt
                )
            )
        elif not _came_with(stock.connection, number, unit):
            field, is_there = next(
                (one.path, one.before or "nothing") for one in changes_between(there, texts)
            )
            yield file.fault(
                InputError(
                    field=f"{path}.{field}",
                    given=texts.get(field, ""),
                    problem=f"the catalogue has this part otherwise, with {field}: {is_there}",
                    allowed="take the part out of the file, or give it a number of its own",
                )
            )


def _came_with(connection: sqlite3.Connection, number: str, unit: str) -> bool:
    """Whether a part is described by the file of this unit and by nothing else."""
    by = rows(connection, "SELECT unit FROM unit_part WHERE part_number = ?", number)
    source = rows(connection, "SELECT source FROM part WHERE part_number = ?", number)[0]["source"]
    return [row["unit"].lower() for row in by] == [unit.lower()] and source.lower() == f"unit {unit}".lower()
