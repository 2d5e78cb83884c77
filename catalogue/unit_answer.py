"""The verdict on a whole unit as a JSON object, each place as ``borebook check --json`` has it."""

from __future__ import annotations

from typing import Any

from catalogue.answer import ANSWER_VERSION, answer, finding_json
from schema.finding import Status
from schema.fit import Fitted
from schema.unit_verdict import PlaceVerdict, UnitVerdict


def unit_answer(verdict: UnitVerdict) -> dict[str, Any]:
    """The JSON object of a unit's verdict; described by ``borebook schema unit-answer``."""
    return {
        "schema": ANSWER_VERSION,
        "unit": verdict.unit,
        "description": verdict.description,
        "verdict": verdict.status.value,
        "decision_rule": verdict.decision_rule,
        "next_step": verdict.next_step,
        "groups": {
            status.value: [one.name for one in places] for status, places in verdict.grouped().items()
        },
        "unit_findings": [finding_json(one) for one in verdict.findings],
        "places": [_place(one) for one in verdict.places],
        "kit": [
            {
                "part": line.part_number,
                "name": line.name,
                "quantity": line.quantity,
                "places": list(line.places),
                "keep": line.keep,
                "why": line.why,
                "measure": [one._asdict() for one in line.measure],
            }
            for line in verdict.kit
        ],
        "tools": [{"tool": tool, "places": list(places)} for tool, places in verdict.tools],
        "cautions": [
            {"step": one.step, "text": one.text, "source": one.source, "grade": one.grade}
            for one in verdict.cautions
        ],
        "not_asked": list(verdict.not_asked),
        "taken": list(verdict.taken),
    }


def _place(one: PlaceVerdict) -> dict[str, Any]:
    return {
        "place": one.name,
        "kind": one.kind,
        "description": one.description,
        "parts": [_fitted(fitted) for fitted in one.parts],
        "tools": list(one.tools),
        "answer": answer(one.verdict),
    }


def _fitted(fitted: Fitted) -> dict[str, Any]:
    return {
        "part": str(getattr(fitted.part, "part_number", "")),
        "kind": str(getattr(fitted.part, "kind", "")),
        "quantity": fitted.quantity,
        "renew": fitted.renew,
    }


def unit_answer_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of ``unit_answer``."""
    from catalogue.answer import answer_schema

    whole = answer_schema()
    text, texts = {"type": "string"}, {"type": "array", "items": {"type": "string"}}
    statuses = [status.value for status in Status]

    def shape(**properties: Any) -> dict[str, Any]:
        return {
            "type": "object",
            "properties": properties,
            "required": list(properties),
            "additionalProperties": False,
        }

    place_answer = {key: value for key, value in whole.items() if key not in ("$schema", "title")}
    part = shape(part=text, kind=text, quantity={"type": "integer", "minimum": 1}, renew=text)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "borebook answer on a unit",
        **shape(
            schema={"const": ANSWER_VERSION},
            unit=text,
            description=text,
            verdict={"enum": statuses},
            decision_rule=text,
            next_step=text,
            groups=shape(**dict.fromkeys(statuses, texts)),
            unit_findings=whole["properties"]["findings"],
            places={
                "type": "array",
                "items": shape(
                    place=text,
                    kind=text,
                    description=text,
                    parts={"type": "array", "items": part},
                    tools=texts,
                    answer=place_answer,
                ),
            },
            kit={
                "type": "array",
                "items": shape(
                    part=text,
                    name=text,
                    quantity={"type": "integer", "minimum": 1},
                    places=texts,
                    keep={"enum": ["renew", "replace", "look and measure", "may stay"]},
                    why=text,
                    measure={
                        "type": "array",
                        "items": shape(place=text, part_number=text, field=text),
                    },
                ),
            },
            tools={"type": "array", "items": shape(tool=text, places=texts)},
            cautions={"type": "array", "items": shape(step=text, text=text, source=text, grade=text)},
            not_asked=texts,
            taken=texts,
        ),
    }
