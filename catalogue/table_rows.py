"""Rows of the catalogue's tables, made of texts and of what ``schema`` read from them.

A text goes to one row, as it was given: a length to ``*_dimension`` with its limits in mm, any other field
to ``*_value`` with the number it says, where it says one.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from schema.amounts import Amount
from schema.dimension import Dimension, Origin
from schema.fields import Pressure, TemperatureRange, meaning_of
from schema.model import Field, Model
from schema.same_part import typed_key
from schema.unit import SECTIONS, Entry, Unit
from schema.unit_parts import BESIDE_PART, BESIDE_PLACE

Record = dict[str, Any]
Tables = dict[str, list[Record]]

# Each table with its key, in the order in which rows can be written. ``owner`` is the column that says
# which part or unit a row belongs to: what is loaded tells all of such a part or unit, so rows of it that
# it no longer has are taken out. Parts and units themselves are never taken out.
TABLES: tuple[tuple[str, tuple[str, ...], str | None], ...] = (
    ("part", ("part_number",), None),
    ("part_dimension", ("part_number", "dimension"), "part_number"),
    ("part_value", ("part_number", "field"), "part_number"),
    ("unit", ("unit",), None),
    ("unit_value", ("unit", "field"), "unit"),
    ("unit_shaft", ("unit", "label"), "unit"),
    ("unit_part", ("unit", "part_number"), "unit"),
    ("place", ("unit", "place"), "unit"),
    ("place_fluid", ("unit", "place", "fluid"), "unit"),
    ("place_dimension", ("unit", "place", "dimension"), "unit"),
    ("place_value", ("unit", "place", "field"), "unit"),
    ("rebuild_list", ("unit", "place", "part_number"), "unit"),
    ("data_version", ("subject",), None),
)
_PART_HEAD = ("kind", "part_number", "description", *BESIDE_PART)
_UNIT_HEAD = ("unit", "kind", "description", "maker", "notes", "source")
_PLACE_HEAD = ("kind", "description", "parts", *BESIDE_PLACE)


def no_rows() -> Tables:
    """Every table, empty."""
    return {name: [] for name, _, _ in TABLES}


def add_part(tables: Tables, texts: Mapping[str, Any], part: Model, *, number: str, source: str) -> None:
    """Add the rows of a part."""
    read = vars(part)
    size_code = read.get("code")
    tables["part"].append(
        {
            "part_number": number,
            "kind": texts["kind"],
            "description": texts.get("description", ""),
            "maker": texts.get("maker") or None,
            "material": (read.get("material") or None) if texts.get("material") else None,
            "hardness_shore_a": read.get("hardness_shore_a"),
            "size_code": size_code or None,
            "size_grade": read.get("size_grade"),
            "size_source": read.get("size_source"),
            "superseded_by": texts.get("superseded_by") or None,
            "notes": texts.get("notes") or None,
            "source": source,
            "typed_key": typed_key(part),
            "load": None,
            "sheet": None,
            "row": None,
        }
    )
    fields = {name: text for name, text in texts.items() if name not in _PART_HEAD or name in part.declared}
    fields = {name: text for name, text in fields.items() if name not in ("kind", "description")}
    _add_fields(tables, "part", {"part_number": number}, fields, read, part.declared)
    if size_code:
        for name in ("inside_diameter", "cross_section"):
            if name not in texts:  # it follows from the size code
                row = _dimension_row(name, read[name].text, read[name]) | {"origin": Origin.STANDARD.value}
                tables["part_dimension"].append({"part_number": number, **row})


def add_unit(tables: Tables, texts: Mapping[str, Any], unit: Unit, *, loaded_from: str) -> None:
    """Add the rows of a unit and its places; those of its parts are added by ``add_part``."""
    name = texts["unit"]
    key = {"unit": name}
    tables["unit"].append(
        {
            **key,
            "kind": unit.head.kind,
            "description": texts.get("description", ""),
            "maker": texts.get("maker") or None,
            "notes": texts.get("notes") or None,
            "source": texts.get("source") or None,
            "loaded_from": loaded_from,
        }
    )
    own = {one: text for one, text in texts.items() if one not in (*SECTIONS, *_UNIT_HEAD)}
    _add_fields(tables, "unit", key, own, vars(unit.head), unit.head.declared)
    for label, number in texts.get("shafts", {}).items():
        tables["unit_shaft"].append({**key, "label": label, "part_number": number})
    entries = {one.name: one for one in unit.entries}
    for position, (place, given) in enumerate(texts.get("places", {}).items(), start=1):
        _add_place(tables, {**key, "place": place}, given, entries.get(place), position)


def _add_place(
    tables: Tables, key: Record, texts: Mapping[str, Any], entry: Entry | None, position: int
) -> None:
    tables["place"].append(
        {
            **key,
            "position": position,
            "kind": texts["kind"],
            "description": texts.get("description", ""),
            "notes": texts.get("notes") or None,
        }
    )
    own = {name: text for name, text in texts.items() if name not in _PLACE_HEAD}
    read: Record = {}
    declared: dict[str, Field] = {}
    if entry is not None:
        read = {**vars(entry.place), **vars(entry.service)}
        declared = {**entry.place.declared, **entry.service.declared}
        for at, fluid in enumerate(dict.fromkeys(entry.service.fluid), start=1):
            tables["place_fluid"].append({**key, "fluid": fluid, "position": at})
    _add_fields(tables, "place", key, own, read, declared)
    for at, one in enumerate(texts.get("parts", ()), start=1):
        told = {"part": one} if isinstance(one, str) else one
        tables["rebuild_list"].append(
            {
                **key,
                "part_number": told["part"],
                "position": at,
                "quantity": int(told.get("quantity", 1)),
                "renew": told.get("renew", "always"),
            }
        )


def _add_fields(
    tables: Tables,
    owner: str,
    key: Record,
    texts: Mapping[str, str],
    read: Mapping[str, Any],
    declared: Mapping[str, Field],
) -> None:
    for name, text in texts.items():
        value = read.get(name)
        if isinstance(value, Dimension) and owner != "unit":
            tables[f"{owner}_dimension"].append({**key, **_dimension_row(name, text, value)})
        else:
            says = _says(value, meaning_of(declared[name]).kind if name in declared else "")
            low, high, in_unit = says or (None, None, None)
            tables[f"{owner}_value"].append(
                {**key, "field": name, "text": text, "low": low, "high": high, "in_unit": in_unit}
            )


def _says(value: object, kind: str) -> tuple[float, float, str] | None:
    """Lowest and highest number that a value says, and their unit; None where it says none."""
    if isinstance(value, Dimension):
        return float(value.lower), float(value.upper), "mm"
    if isinstance(value, Amount):
        return float(value.lower), float(value.upper), value.unit
    if isinstance(value, Pressure):
        return value.gauge_mpa, value.gauge_mpa, "MPa"
    if isinstance(value, TemperatureRange):
        return value.low_deg_c, value.high_deg_c, "degC"
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value), float(value), "um" if kind == "roughness" else ""
    return None


def _dimension_row(name: str, text: str, size: Dimension) -> Record:
    return {
        "dimension": name,
        "text": text,
        "nominal_mm": float(size.nominal),
        "lower_mm": float(size.lower),
        "upper_mm": float(size.upper),
        "origin": size.origin.value,
        "standard_uncertainty_mm": float(size.standard_uncertainty) if size.measured else None,
        "tolerance_class": size.tolerance_class or None,
    }
