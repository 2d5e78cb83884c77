"""The questions a check and the command line ask of the catalogue, in plain SQL.

Standard library and ``schema`` only: it stands between a person and the answer. Names are found
without regard to case; a name that is not known comes back with its nearest ones.
What is handed out are the texts that were given, so a check reads them by the same grammar as any other.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from typing import Any

from catalogue.words import PART_KINDS
from schema.errors import InputError, InputErrors, UnknownName
from schema.nearest import nearest, not_among

Texts = dict[str, Any]
MOST_NAMES_COMPARED = 5000  # comparing more takes longer than a person waits for a hint
SECTIONS = ("part", "place", "service", "back_up_ring", "choices")


def part(connection: sqlite3.Connection, part_number: str) -> Texts:
    """The texts of a part, as ``schema.question.ring_from`` takes them. Raises UnknownName.

    Sizes that follow from the size code are left to the code, so that their evidence stays with them.
    """
    row = _part_row(connection, part_number)
    found = _given(
        {
            "kind": row["kind"],
            "part_number": row["part_number"],
            "description": row["description"],
            "material": row["material"],
            "hardness_shore_a": _plain(row["hardness_shore_a"]),
            "size": row["size_code"],
        }
    )
    own = _rows(
        connection,
        "SELECT dimension, text FROM part_dimension WHERE part_number = ? AND origin <> 'standard'",
        row["part_number"],
    )
    return found | {one["dimension"]: one["text"] for one in own}


def place(connection: sqlite3.Connection, name: str) -> tuple[Texts, Texts]:
    """The texts of a place for ``schema.question.gland_from``, and those of its service.

    ``name`` is unit/place, such as ``whinchat-216/end-cap``. Raises UnknownName.
    """
    row = _place_row(connection, name)
    key = row["unit"], row["place"]
    found = _given(
        {
            "kind": row["kind"],
            "unit": row["unit"],
            "place": row["place"],
            "description": row["description"],
            "back_up_rings": _plain(row["back_up_rings"]),
            "metal": row["metal"],
        }
    )
    sizes = _rows(
        connection, "SELECT dimension, text FROM place_dimension WHERE unit = ? AND place = ?", *key
    )
    fluids = _rows(
        connection, "SELECT fluid FROM place_fluid WHERE unit = ? AND place = ? ORDER BY position", *key
    )
    service = _given(
        {
            "motion": row["motion"],
            "medium": row["medium"],
            "pressure": row["pressure"],
            "pressure_from": row["pressure_from"],
            "temperature": row["temperature"],
            "fluid": "; ".join(one["fluid"] for one in fluids),
        }
    )
    return found | {one["dimension"]: one["text"] for one in sizes}, service


def back_up_ring(connection: sqlite3.Connection, name: str) -> Texts | None:
    """The texts of the back-up ring on the rebuild list of a place, or None if the list has none.

    Raises InputError when it lists several, since no one width then is the right one.
    """
    row = _place_row(connection, name)
    listed = _rows(
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


def part_record(connection: sqlite3.Connection, part_number: str) -> dict[str, Any]:
    """All that is known of a part: its columns, its ``dimensions``, and the places that take it."""
    row = _part_row(connection, part_number)
    number = row["part_number"]
    found: dict[str, Any] = dict(row)
    found["dimensions"] = _dicts(
        connection, "SELECT * FROM part_dimension WHERE part_number = ? ORDER BY dimension", number
    )
    found["places"] = _dicts(
        connection,
        "SELECT unit, place, quantity, renew FROM rebuild_list WHERE part_number = ? ORDER BY unit, place",
        number,
    )
    return found


def parts(
    connection: sqlite3.Connection, kind: str | None = None, text: str | None = None
) -> list[dict[str, Any]]:
    """Parts by number: those of a kind, those that have every word of a text. Raises UnknownName."""
    where, values = ["1"], []
    if kind is not None:
        plain = kind.strip().lower().replace("-", "_").replace(" ", "_")
        if plain not in PART_KINDS:
            raise not_among(PART_KINDS, field="kind", given=kind, problem="there is no such kind of part")
        where.append("kind = ?")
        values.append(plain)
    columns = "part_number || ' ' || description || ' ' || coalesce(material, '') || ' ' || "
    columns += "coalesce(size_code, '') || ' ' || coalesce(maker, '') || ' ' || coalesce(notes, '')"
    for word in (text or "").split():
        where.append(f"({columns}) LIKE ? ESCAPE '\\'")
        values.append(f"%{_as_it_stands(word)}%")
    return _dicts(
        connection,
        "SELECT part_number, kind, description, maker, material, hardness_shore_a, size_code, superseded_by,"  # noqa: S608
        f" notes FROM part WHERE {' AND '.join(where)} ORDER BY part_number",
        *values,
    )


def units(connection: sqlite3.Connection) -> list[dict[str, Any]]:
    """All units by name, each with the number of its places."""
    return _dicts(
        connection,
        "SELECT unit, kind, description, maker, fluid, temperature, notes,"
        " (SELECT count(*) FROM place WHERE place.unit = unit.unit) AS places FROM unit ORDER BY unit",
    )


def places(connection: sqlite3.Connection, unit: str) -> list[dict[str, Any]]:
    """All places of a unit by name. Raises UnknownName."""
    return _dicts(
        connection,
        "SELECT unit, place, kind, description, motion, medium, pressure, pressure_from, back_up_rings,"
        " metal, notes FROM place WHERE unit = ? ORDER BY place",
        _unit_name(connection, unit),
    )


def rebuild_list(connection: sqlite3.Connection, unit: str) -> list[dict[str, Any]]:
    """The parts each place of a unit takes, in order of places. Raises UnknownName."""
    return _dicts(
        connection,
        "SELECT place, part_number, quantity, renew, kind, description, material, size_code, superseded_by"
        " FROM rebuild_list JOIN part USING (part_number) WHERE unit = ? ORDER BY place, part_number",
        _unit_name(connection, unit),
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


def _part_row(connection: sqlite3.Connection, part_number: str) -> sqlite3.Row:
    wanted = part_number.strip()
    found = _rows(connection, "SELECT * FROM part WHERE part_number = ?", wanted)
    if not found:
        near = nearest(wanted, _near_part_numbers(connection, wanted))
        problem = "this part number is not in the catalogue"
        raise UnknownName(field="part", given=part_number, problem=problem, nearest=near)
    return found[0]


def _near_part_numbers(connection: sqlite3.Connection, wanted: str) -> list[str]:
    """Part numbers to compare with: those that begin alike first, so that a large catalogue stays quick."""
    begins = f"{_as_it_stands(wanted[:2])}%"
    found = _rows(
        connection,
        "SELECT part_number FROM part WHERE part_number LIKE ? ESCAPE '\\' LIMIT ?",
        begins,
        MOST_NAMES_COMPARED,
    ) or _rows(connection, "SELECT part_number FROM part LIMIT ?", MOST_NAMES_COMPARED)
    return [row["part_number"] for row in found]


def _place_row(connection: sqlite3.Connection, name: str) -> sqlite3.Row:
    unit, _, own = (piece.strip() for piece in name.partition("/"))
    found = _rows(
        connection,
        "SELECT place.*, unit.temperature FROM place JOIN unit USING (unit) WHERE unit = ? AND place = ?",
        unit,
        own,
    )
    if not found:
        known = _rows(
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


def _unit_name(connection: sqlite3.Connection, unit: str) -> str:
    found = _rows(connection, "SELECT unit FROM unit WHERE unit = ?", unit.strip())
    if not found:
        known = [row["unit"] for row in _rows(connection, "SELECT unit FROM unit")]
        raise UnknownName(
            field="unit",
            given=unit,
            problem="this unit is not in the catalogue",
            nearest=nearest(unit.strip(), known),
        )
    return str(found[0]["unit"])


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


def _plain(number: float | None) -> str | None:
    return None if number is None else f"{number:g}"


def _as_it_stands(text: str) -> str:
    """The text for LIKE, with the signs that LIKE reads as wildcards made plain."""
    return text.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")


def _rows(connection: sqlite3.Connection, sql: str, *values: object) -> list[sqlite3.Row]:
    cursor = connection.cursor()
    cursor.row_factory = sqlite3.Row  # whatever the connection's own is
    found: list[sqlite3.Row] = cursor.execute(sql, values).fetchall()
    return found


def _dicts(connection: sqlite3.Connection, sql: str, *values: object) -> list[dict[str, Any]]:
    return [dict(row) for row in _rows(connection, sql, *values)]
