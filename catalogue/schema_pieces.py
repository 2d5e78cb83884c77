"""Pieces of JSON Schemas, made from the same field descriptions that read a question or a unit file."""

from __future__ import annotations

from typing import Any

from schema.fields import Meaning, meaning_of
from schema.model import REQUIRED, Model
from schema.parts import PART_MODELS

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def ring_schema(kind: str) -> dict[str, Any]:
    """A ring by its size code, its own two sizes, or its part number."""
    made = model_schema(PART_MODELS[kind], kind)
    made["properties"]["size"] = {
        "type": "string",
        "description": "size code of a standard; sizes given beside it lead",
        "examples": ["AS568-214", "20x2.65"],
    }
    made["anyOf"] = [
        {"required": ["size"]},
        {"required": ["inside_diameter", "cross_section"]},
        {"required": ["part_number"]},
    ]
    made["required"] = [] if kind == "o_ring" else ["kind"]
    return made


def model_schema(model: type[Model], kind: str | None = None) -> dict[str, Any]:
    """The fields of a model; with a kind, told by that kind."""
    properties = {name: field_schema(meaning_of(field)) for name, field in model.declared.items()}
    required = [name for name, field in model.declared.items() if field.default is REQUIRED]
    if kind is not None:
        properties = {"kind": {"const": kind}, **properties}
        required = ["kind", *required]
    return {
        "type": "object",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def field_schema(meaning: Meaning) -> dict[str, Any]:
    """What a field may be, in the words of its description."""
    found: dict[str, Any] = {"description": meaning.doc}
    if meaning.kind == "choice":
        found["enum"] = list(meaning.allowed)
    elif meaning.kind in ("number", "whole number"):
        found["type"] = ["number", "string"]
    elif meaning.kind == "names":
        found["anyOf"] = [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]
    else:
        found["type"] = "string"
    if meaning.example:
        found["examples"] = [meaning.example]
    return found
