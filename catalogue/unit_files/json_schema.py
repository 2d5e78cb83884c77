"""The JSON Schema of a unit file, made from the same field descriptions that read it.

It is for editors and other programs: it holds the shape, the names and the words of closed lists. Whether a
text says a size, and whether two of them agree, is for ``borebook unit check``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalogue.schema_pieces import DIALECT, field_schema, model_schema, ring_schema
from catalogue.unit_files.shape import NOT_WRITTEN
from schema.fields import meaning_of
from schema.kinds import PARTS, PLACES, model_of
from schema.parts import PART_MODELS, BackUpRing
from schema.service import Service
from schema.unit import UnitHead
from schema.unit_parts import BESIDE_PART, BESIDE_PLACE, MOST_OF_ONE_PART, RENEW

_NAME = {"pattern": "^[^/]+$"}  # unit/place is how a place is asked for
_TEXT = {"type": "string"}
_NUMBER = {"type": "string", "minLength": 1}


def unit_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a unit file."""
    head = {name: field_schema(meaning_of(field)) for name, field in UnitHead.declared.items()}
    head["unit"] = {**head["unit"], **_NAME}
    return {
        "$schema": DIALECT,
        "title": "borebook unit file",
        "description": "One unit that is rebuilt. A length is a text as a drawing writes it, with its unit.",
        "type": "object",
        "properties": {
            **head,
            "shafts": {
                "description": "what several places run on: the name in their runs_on, and its part number",
                "type": "object",
                "additionalProperties": _NUMBER,
            },
            "places": {
                "description": "the places of the unit, in the order of the work",
                "type": "object",
                "propertyNames": _NAME,
                "additionalProperties": _by_kind("place", PLACES),
            },
            "parts": {
                "description": "parts that the catalogue does not have, by part number",
                "type": "object",
                "additionalProperties": _by_kind("part", PARTS),
            },
        },
        "required": ["unit", "kind"],
        "additionalProperties": False,
        "$defs": {
            "fitted": _fitted(),
            **{f"place_{kind}": _place(kind) for kind in PLACES},
            **{f"part_{kind}": _part(kind) for kind in PARTS},
        },
    }


def _by_kind(what: str, kinds: Mapping[str, str]) -> dict[str, Any]:
    """An object whose kind says which definition holds for it, so that a fault is told of that one alone."""
    return {
        "type": "object",
        "properties": {"kind": {"enum": list(kinds)}},
        "required": ["kind"],
        "allOf": [
            {
                "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
                "then": {"$ref": f"#/$defs/{what}_{kind}"},
            }
            for kind in kinds
        ],
    }


def _place(kind: str) -> dict[str, Any]:
    made = model_schema(model_of(kind), kind)
    own = {name: one for name, one in made["properties"].items() if name not in NOT_WRITTEN}
    service = model_schema(Service)["properties"]
    made["properties"] = {
        **own,
        **service,
        **dict.fromkeys(BESIDE_PLACE, _TEXT),
        "parts": {
            "description": "what goes in: a part number where one is renewed always",
            "type": "array",
            "items": {"$ref": "#/$defs/fitted"},
        },
    }
    return made


def _part(kind: str) -> dict[str, Any]:
    ring = kind in PART_MODELS and kind != BackUpRing.kind
    made = ring_schema(kind) if ring else model_schema(model_of(kind), kind)
    own = {name: one for name, one in made["properties"].items() if name not in NOT_WRITTEN}
    made["properties"] = {**dict.fromkeys(BESIDE_PART, _TEXT), **own}
    if ring:
        made["anyOf"] = [one for one in made["anyOf"] if one != {"required": ["part_number"]}]
        made["required"] = ["kind"]
    return made


def _fitted() -> dict[str, Any]:
    quantity = {
        "description": "how many",
        "anyOf": [
            {"type": "integer", "minimum": 1, "maximum": MOST_OF_ONE_PART},
            {"type": "string", "pattern": "^[0-9]+$"},
        ],
        "default": 1,
    }
    renew = {
        "description": "renewed always, or after it was looked at",
        "enum": list(RENEW),
        "default": RENEW[0],
    }
    return {
        "anyOf": [
            _NUMBER,
            {
                "type": "object",
                "properties": {"part": _NUMBER, "quantity": quantity, "renew": renew},
                "required": ["part"],
                "additionalProperties": False,
            },
        ]
    }
