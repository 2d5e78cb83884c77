"""The questions a check and the command line ask of the catalogue, in plain SQL.

Standard library and ``schema`` only: it stands between a person and the answer. Names are found
without regard to case; a name that is not known comes back with its nearest ones.
What is handed out are the texts that were given, so a check reads them by the same grammar as any other.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from typing import Any

from catalogue.find import as_it_stands, dicts, part_row, place_row, rows, unit_name
from catalogue.texts import Texts, part_texts, place_texts, unit_texts
from schema.errors import InputError, InputErrors
from schema.kinds import PARTS
from schema.nearest import not_among
from schema.unit_parts import BESIDE_PART

__all__ = [
    "back_up_ring",
    "part",
    "part_record",
    "part_texts",
    "parts",
    "place",
    "place_texts",
    "places",
    "question_dict",
    "rebuild_list",
    "unit_texts",
    "units",
]
SECTIONS = ("part", "place", "service", "back_up_ring", "choices")


def part(connection: sqlite3.Connection, part_number: str) -> Texts:
    """The texts of a part, as ``schema.question.ring_from`` takes them. Raises UnknownName.

    Sizes that follow from the size code are left to the code, so that their evidence stays with them.
    """
    number = part_row(connection, part_number)["part_number"]
    texts = part_texts(connection, number)
    return {"part_number": number, **{name: text for name, text in texts.items() if name not in BESIDE_PART}}


def place(connection: sqlite3.Connection, name: str) -> tuple[Texts, Texts]:
    """The texts of a place for ``schema.question.gland_from``, and those of its service.

    ``name`` is unit/place, such as ``whinchat-216/end-cap``. Raises UnknownName.
    """
    from schema.service import Service

    row = place_row(connection, name)
    texts = place_texts(connection, f"{row['unit']}/{row['place']}")
    told = {field: text for field, text in texts.items() if field not in ("parts", "notes")}
    service = {field: told.pop(field) for field in Service.declared if field in told}
    if "temperature" not in service:
        query = "SELECT text FROM unit_value WHERE unit = ? AND field = 'temperature'"
        if found := rows(connection, query, row["unit"]):
            service["temperature"] = found[0]["text"]
    return {"unit": row["unit"], "place": row["place"], **told}, service


def back_up_ring(connection: sqlite3.Connection, name: str) -> Texts | None:
    """The texts of the back-up ring on the rebuild list of a place, or None if the list has none.

    Raises InputError when it lists several, since no one width then is the right one.
    """
    row = place_row(connection, name)
    listed = rows(
        connection,
        "SELECT part_number FROM rebuild_list JOIN part USING (part_number)"
        " WHERE unit = ? AND place = ? AND kind = 'back_up_ring' ORDER BY part_number",
        row["unit"],
        row["place"],
    )
    if not listed:
        return None
    if len(listed) > 1:
        numbers = ", ".join(one["part_number"] for one in listed)
        raise InputError(
            field="back_up_ring",
            given="",
            problem=f"the rebuild list of {row['unit']}/{row['place']} has several back-up rings ({numbers})",
            allowed="give the width of the one that is used",
            example="1.25 +0/-0.10 mm",
        )
    texts = part(connection, listed[0]["part_number"])
    return {name: text for name, text in texts.items() if name != "kind"}


def question_dict(
    connection: sqlite3.Connection,
    part_number: str | None,
    place_name: str | None,
    overrides: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """The question whether a part fits a place, as ``schema.question.question_from`` takes it.

    ``overrides`` has the same sections; what it gives replaces what the catalogue has, so a measured
    bore takes the place of the drawn one, and a size given replaces the part's own sizes. A part or
    place that is None is left to the overrides. Raises UnknownName, InputError for a kind that is not
    checked yet, or InputErrors when part and place are both at fault.
    """
    given = {name: _plain_names(section) for name, section in (overrides or {}).items()}
    found: dict[str, Any] = {}
    errors: list[InputError] = []
    if part_number is not None:
        try:
            found["part"] = _checkable_part(connection, part_number)
        except InputError as error:
            errors.append(error)
    if place_name is not None:
        try:
            found["place"], found["service"] = _checkable_place(connection, place_name)
            if not given.get("back_up_ring"):
                found["back_up_ring"] = back_up_ring(connection, place_name)
        except InputError as error:
            errors.append(error)
    if errors:
        raise errors[0] if len(errors) == 1 else InputErrors(errors)
    part_given = given.get("part")
    if isinstance(part_given, Mapping) and (part_given.get("size") or part_given.get("code")):
        for name in ("size", "inside_diameter", "cross_section"):
            found.get("part", {}).pop(name, None)
    return _merged(found, given)


def listed_ring(connection: sqlite3.Connection, place_name: str) -> str | None:
    """The ring on the list of a gland; None where it has none. Raises InputError where it has several."""
    row = place_row(connection, place_name)
    found = connection.execute(
        "SELECT part_number FROM rebuild_list JOIN part USING (part_number)"
        " WHERE unit = ? AND place = ? AND kind IN ('o_ring', 'four_lobed_ring') ORDER BY part_number",
        (row["unit"], row["place"]),
    ).fetchall()
    if len(found) > 1:
        raise InputError(
            field="ring",
            given=place_name,
            problem="this place takes several rings; which one is meant is not told",
            allowed=", ".join(number for (number,) in found),
        )
    return str(found[0][0]) if found else None


def part_record(connection: sqlite3.Connection, part_number: str) -> dict[str, Any]:
    """All that is known of a part: its columns, ``dimensions``, other ``values``, the places that take it.

    ``offers`` has what suppliers ask for it. ``loaded_from`` says in words which row of which sheet the part
    comes from; None where it comes from none.
    """
    row = part_row(connection, part_number)
    number = row["part_number"]
    found: dict[str, Any] = dict(row)
    sheet = rows(connection, "SELECT file, loaded_at FROM load WHERE load = ?", row["load"])
    found["loaded_from"] = _loaded_from({**dict(row), **dict(sheet[0])}) if sheet else None
    found["dimensions"] = dicts(
        connection, "SELECT * FROM part_dimension WHERE part_number = ? ORDER BY dimension", number
    )
    found["values"] = dicts(
        connection,
        "SELECT field, text, low, high, in_unit FROM part_value WHERE part_number = ?"
        " AND field NOT IN ('material', 'hardness_shore_a', 'size') ORDER BY field",
        number,
    )
    found["places"] = dicts(
        connection,
        "SELECT unit, place, quantity, renew FROM rebuild_list WHERE part_number = ? ORDER BY unit, place",
        number,
    )
    found["offers"] = _offers_of(connection, number)
    return found


def _offers_of(connection: sqlite3.Connection, number: str) -> list[dict[str, Any]]:
    """What suppliers ask for a part, those that list it first, by supplier; each with the row it is from."""
    found = dicts(
        connection,
        "SELECT offer.supplier, code, description, maker, maker_code, price, price_text, currency, price_per,"
        " pack_size, minimum, lead_time_days, stock, listed, offer.load, file, sheet, row, loaded_at"
        " FROM offer JOIN load USING (load) WHERE part_number = ?"
        " ORDER BY listed DESC, offer.supplier, code",
        number,
    )
    return [{**one, "listed": bool(one["listed"]), "loaded_from": _loaded_from(one)} for one in found]


def _loaded_from(row: Mapping[str, Any]) -> str:
    sheet = f", {row['sheet']}" if row["sheet"] else ""
    if not row["row"]:  # it is not on that sheet any more
        return f"load {row['load']} ({row['loaded_at'][:10]}), {row['file']}"
    return f"load {row['load']} ({row['loaded_at'][:10]}), row {row['row']} of {row['file']}{sheet}"


def parts(
    connection: sqlite3.Connection, kind: str | None = None, text: str | None = None
) -> list[dict[str, Any]]:
    """Parts by number: those of a kind, those that have every word of a text.

    A word may also be a supplier's or a maker's code, whole. Raises UnknownName.
    """
    where, values = ["1"], []
    if kind is not None:
        plain = kind.strip().lower().replace("-", "_").replace(" ", "_")
        if plain not in PARTS:
            raise not_among(tuple(PARTS), field="kind", given=kind, problem="there is no such kind of part")
        where.append("kind = ?")
        values.append(plain)
    columns = "part_number || ' ' || description || ' ' || coalesce(material, '') || ' ' || "
    columns += "coalesce(size_code, '') || ' ' || coalesce(maker, '') || ' ' || coalesce(notes, '')"
    for word in (text or "").split():
        where.append(
            f"(({columns}) LIKE ? ESCAPE '\\'"  # noqa: S608
            " OR part_number IN (SELECT part_number FROM offer WHERE code = ? OR maker_code = ?))"
        )
        values += [f"%{as_it_stands(word)}%", word, word]
    return dicts(
        connection,
        "SELECT part_number, kind, description, maker, material, hardness_shore_a, size_code, superseded_by,"  # noqa: S608
        f" notes FROM part WHERE {' AND '.join(where)} ORDER BY part_number",
        *values,
    )


def units(connection: sqlite3.Connection) -> list[dict[str, Any]]:
    """All units by name, each with the number of its places."""
    told = "(SELECT text FROM unit_value WHERE unit_value.unit = unit.unit AND field = '{0}') AS {0}"
    return dicts(
        connection,
        f"SELECT unit, kind, description, maker, {told.format('fluid')}, {told.format('temperature')}, notes,"  # noqa: S608
        " (SELECT count(*) FROM place WHERE place.unit = unit.unit) AS places FROM unit ORDER BY unit",
    )


def places(connection: sqlite3.Connection, unit: str) -> list[dict[str, Any]]:
    """All places of a unit in the order of the work. Raises UnknownName."""
    named = ("motion", "medium", "pressure", "pressure_from", "back_up_rings", "metal")
    told = (
        "(SELECT text FROM place_value AS v"
        " WHERE v.unit = p.unit AND v.place = p.place AND field = '{0}') AS {0}"
    )
    return dicts(
        connection,
        f"SELECT unit, place, kind, description, {', '.join(map(told.format, named))}, notes"  # noqa: S608
        " FROM place AS p WHERE unit = ? ORDER BY position",
        unit_name(connection, unit),
    )


def rebuild_list(connection: sqlite3.Connection, unit: str) -> list[dict[str, Any]]:
    """The parts each place of a unit takes, in the order of the work. Raises UnknownName."""
    return dicts(
        connection,
        "SELECT place, part_number, quantity, renew, part.kind, part.description, material, size_code,"
        " superseded_by"
        " FROM rebuild_list JOIN part USING (part_number) JOIN place USING (unit, place)"
        " WHERE unit = ? ORDER BY place.position, rebuild_list.position",
        unit_name(connection, unit),
    )


# -- what they share -------------------------------------------------------------------------------


def _checkable_part(connection: sqlite3.Connection, part_number: str) -> Texts:
    from schema.parts import PART_MODELS, BackUpRing

    found = part(connection, part_number)
    rings = [kind for kind in PART_MODELS if kind != BackUpRing.kind]
    if found["kind"] not in rings:
        raise _not_checked("part", found["part_number"], found["kind"], rings)
    return found


def _checkable_place(connection: sqlite3.Connection, name: str) -> tuple[Texts, Texts]:
    from schema.places import PLACE_MODELS

    found, service = place(connection, name)
    if found["kind"] not in PLACE_MODELS:
        raise _not_checked("place", f"{found['unit']}/{found['place']}", found["kind"], list(PLACE_MODELS))
    return found, service


def _not_checked(field: str, name: str, kind: str, checked: list[str]) -> InputError:
    return InputError(
        field=field,
        given=name,
        problem=f"not checked yet: kind {kind}",
        allowed=f"kinds that are checked: {', '.join(checked)}",
    )


def _merged(found: Mapping[str, Any], given: Mapping[str, Any]) -> dict[str, Any]:
    """The catalogue's sections with the person's own texts laid over them."""
    question: dict[str, Any] = {}
    for name in dict.fromkeys((*SECTIONS, *given)):
        stored, own = found.get(name), given.get(name)
        if isinstance(own, Mapping):
            question[name] = {**(stored or {}), **_given(own)}
        elif own is not None or stored:
            question[name] = stored if own is None else own
    return question


def _plain_names(section: Any) -> Any:
    """Field names as the models spell them: ``bore-diameter`` and ``bore_diameter`` are one."""
    if not isinstance(section, Mapping):
        return section
    return {str(name).replace("-", "_"): value for name, value in section.items()}


def _given(texts: Mapping[str, Any]) -> Texts:
    return {name: text for name, text in texts.items() if text is not None and text != ""}
