"""The JSON Schema of a question file, made from the same field descriptions that read it."""

from __future__ import annotations

from typing import Any

from catalogue.schema_pieces import DIALECT, model_schema, ring_schema
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
        "$schema": DIALECT,
        "title": "borebook question",
        "description": "Lengths are texts in the notation of drawings, with their unit.",
        "type": "object",
        "properties": {
            "part": {"anyOf": [ring_schema(kind) for kind in PART_MODELS if kind != BackUpRing.kind]},
            "place": {
                "anyOf": [*(model_schema(model, kind) for kind, model in PLACE_MODELS.items()), _BY_NAME]
            },
            "service": model_schema(Service),
            "back_up_ring": model_schema(BackUpRing),
            "choices": _choices(),
        },
        "required": ["part", "place"],
        "additionalProperties": False,
    }


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
