"""The JSON Schema of a question file, made from the same field descriptions that read it."""

from __future__ import annotations

from typing import Any

from schema.fields import Meaning, meaning_of
from schema.model import REQUIRED, Model
from schema.parts import PART_MODELS, BackUpRing
from schema.places import PLACE_MODELS
from schema.service import Service

_CHOICES = {
    "decision_rule": "decision rule for measured sizes (borebook names decision-rules)",
    "squeeze": "squeeze guidance (borebook names squeeze)",
    "gap": "clearance guidance (borebook names gap)",
    "thinning": "law of the least section (borebook names thinning)",
    "thickening": "law of the greatest section (borebook names thickening)",
}

_BY_NAME = {
    "description": "a place of the catalogue; sizes given beside its name lead",
    "type": "object",
    "properties": {"unit": {"type": "string"}, "place": {"type": "string"}},
    "required": ["unit", "place"],
    "not": {"required": ["kind"]},
}


def question_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of what ``schema.question.question_from`` reads."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "borebook question",
        "description": "Lengths are texts in the notation of drawings, with their unit.",
        "type": "object",
        "properties": {
            "part": {"anyOf": [_ring(kind) for kind in PART_MODELS if kind != BackUpRing.kind]},
            "place": {"anyOf": [*(_model(model, kind) for kind, model in PLACE_MODELS.items()), _BY_NAME]},
            "service": _model(Service),
            "back_up_ring": _model(BackUpRing),
            "choices": _choices(),
        },
        "required": ["part", "place"],
        "additionalProperties": False,
    }


def _ring(kind: str) -> dict[str, Any]:
    made = _model(PART_MODELS[kind], kind)
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


def _model(model: type[Model], kind: str | None = None) -> dict[str, Any]:
    properties = {name: _field(meaning_of(field)) for name, field in model.declared.items()}
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


def _field(meaning: Meaning) -> dict[str, Any]:
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


def _choices() -> dict[str, Any]:
    properties: dict[str, Any] = {
        name: {"type": "string", "description": text} for name, text in _CHOICES.items()
    }
    properties["limits"] = {
        "type": "object",
        "description": "guidance by rule (borebook names limits)",
        "additionalProperties": {"type": "string"},
    }
    properties["layers_off"] = {
        "type": "array",
        "items": {"enum": ["stretch", "eccentricity", "temperature", "swell"]},
        "description": "layers of the squeeze that are left out",
    }
    return {"type": "object", "properties": properties, "additionalProperties": False}
