"""A verdict as a JSON object: the same for the command line, the pages and other programs.

Lengths are in mm, pressures in MPa gauge, temperatures in degC; what is not known is null.
"""

from __future__ import annotations

import math
from typing import Any

from schema.finding import Finding, Told, Verdict

ANSWER_VERSION = 1


def answer(verdict: Verdict) -> dict[str, Any]:
    """The JSON object of a verdict; described by ``borebook schema answer``."""
    return {
        "schema": ANSWER_VERSION,
        "verdict": verdict.status.value,
        "decision_rule": verdict.decision_rule,
        "question": verdict.question,
        "next_step": verdict.next_step,
        "still_needed": list(dict.fromkeys(name for one in verdict.findings for name in one.lacks)),
        "driver": verdict.driver,
        "findings": [finding_json(finding) for finding in verdict.findings],
        "told": [_told_json(one) for one in verdict.told],
        "not_asked": list(verdict.not_asked),
        "taken": list(verdict.taken),
        "cautions": list(verdict.cautions),
    }


def finding_json(finding: Finding) -> dict[str, Any]:
    """One finding as a JSON object."""
    limits = finding.limits
    return {
        "rule": finding.rule,
        "quantity": finding.quantity,
        "low": _number(finding.low),
        "high": _number(finding.high),
        "unit": finding.unit,
        "limit_low": _number(limits.low) if limits else None,
        "limit_high": _number(limits.high) if limits else None,
        "margin": _number(finding.margin),
        "status": finding.status.value,
        "source": finding.source,
        "grade": finding.grade,
        "guidance": limits.guidance if limits else None,
        "basis": limits.basis if limits else None,
        "refuse_low": _number(limits.refuse_low) if limits else None,
        "refuse_high": _number(limits.refuse_high) if limits else None,
        "middle": _number(finding.middle),
        "standard_uncertainty": _number(finding.standard_uncertainty),
        "guard_band": _number(finding.guard_band),
        "conformance_probability": _number(finding.conformance_probability),
        "statistical_low": _number(finding.statistical_low),
        "statistical_high": _number(finding.statistical_high),
        "share_outside": _number(finding.share_outside),
        "meaning": finding.meaning,
        "action": finding.action,
        "reason": finding.reason,
        "note": limits.note if limits else "",
        "layers": [
            {"name": layer.name, "on": layer.on, "low": _number(layer.low), "high": _number(layer.high)}
            for layer in finding.layers
        ],
        "influences": [
            {"dimension": one.dimension, "half_effect": _number(one.half_effect), "measured": one.measured}
            for one in finding.influences
        ],
        "inputs": dict(finding.inputs),
    }


def _told_json(one: Told) -> dict[str, Any]:
    """A value that was worked out and is not judged."""
    return {
        "rule": one.rule,
        "quantity": one.quantity,
        "unit": one.unit,
        "low": _number(one.low),
        "middle": _number(one.middle),
        "high": _number(one.high),
        "source": one.source,
        "grade": one.grade,
        "note": one.note,
    }


def _number(value: float | None) -> float | None:
    """A finite number rounded to what a double of a sum of decimals is good for; else None."""
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.10g}") + 0.0


_NUMBER: dict[str, Any] = {"type": ["number", "null"]}
_TEXT: dict[str, Any] = {"type": "string"}
_STATUS: dict[str, Any] = {"enum": ["fits", "does not fit", "not proven"]}


def answer_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of ``answer``."""
    meanings: dict[str, tuple[dict[str, Any], str]] = {
        "rule": (_TEXT, "name of the rule"),
        "quantity": (_TEXT, "what was judged, in words"),
        "low": (_NUMBER, "smallest value: worst case, widened by the guard band of the decision rule"),
        "high": (_NUMBER, "largest value, likewise"),
        "unit": (_TEXT, "unit of low, high, middle and the limits"),
        "limit_low": (_NUMBER, "lower limit, inclusive; null: none"),
        "limit_high": (_NUMBER, "upper limit, inclusive; null: none"),
        "margin": (_NUMBER, "signed distance to the nearest limit over the width of the limits"),
        "status": (_STATUS, "outcome of this rule"),
        "source": (_TEXT, "document, table or section the limits come from"),
        "grade": (_TEXT, "how well the limits are confirmed"),
        "guidance": ({"type": ["string", "null"]}, "name of the guidance chosen"),
        "basis": ({"type": ["string", "null"]}, "worst_case or nominal: what the limits are meant for"),
        "refuse_low": (_NUMBER, "wholly below this it does not fit; null: limit_low"),
        "refuse_high": (_NUMBER, "wholly above this it does not fit; null: limit_high, or never"),
        "middle": (_NUMBER, "value with every size in the middle of its limits or as read"),
        "standard_uncertainty": (_NUMBER, "u from measured sizes"),
        "guard_band": (_NUMBER, "what low and high were widened by for it"),
        "conformance_probability": (_NUMBER, "probability that the limits are kept, for measured sizes"),
        "statistical_low": (_NUMBER, "lower end of 99.73 % of assemblies"),
        "statistical_high": (_NUMBER, "upper end of 99.73 % of assemblies"),
        "share_outside": (_NUMBER, "share of assemblies outside the limits, 0 to 1"),
        "meaning": (_TEXT, "what it means for the unit"),
        "action": (_TEXT, "what to do"),
        "reason": (_TEXT, "why it is not proven, where that is not plain from the numbers"),
        "note": (_TEXT, "remarks on the limits"),
        "layers": ({"type": "array"}, "the steps of a layered sum: name, on, low, high"),
        "influences": ({"type": "array"}, "sizes by their effect: dimension, half_effect, measured"),
        "inputs": ({"type": "object"}, "sizes as they were given"),
    }
    finding = {
        "type": "object",
        "properties": {name: {**kind, "description": text} for name, (kind, text) in meanings.items()},
        "required": list(meanings),
        "additionalProperties": False,
    }
    told = {
        "type": "object",
        "properties": {
            **dict.fromkeys(("rule", "quantity", "unit", "source", "grade", "note"), _TEXT),
            **dict.fromkeys(("low", "middle", "high"), _NUMBER),
        },
        "additionalProperties": False,
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "borebook answer",
        "type": "object",
        "properties": {
            "schema": {"const": ANSWER_VERSION, "description": "version of this object"},
            "verdict": {**_STATUS, "description": "the worst finding"},
            "decision_rule": {**_TEXT, "description": "rule for measured sizes"},
            "question": {**_TEXT, "description": "the question in one sentence"},
            "next_step": {**_TEXT, "description": "what to do next"},
            "still_needed": {"type": "array", "items": _TEXT, "description": "what was not told, in words"},
            "driver": {**_TEXT, "description": "the size that moves the tightest finding most"},
            "findings": {"type": "array", "items": finding, "description": "worst first"},
            "told": {"type": "array", "items": told, "description": "worked out beside, not judged"},
            "not_asked": {"type": "array", "items": _TEXT, "description": "what was not judged, and why"},
            "taken": {"type": "array", "items": _TEXT, "description": "what was assumed without being told"},
            "cautions": {"type": "array", "items": _TEXT, "description": "what can hurt"},
        },
        "required": ["schema", "verdict", "decision_rule", "question", "next_step", "findings"],
        "additionalProperties": False,
    }
