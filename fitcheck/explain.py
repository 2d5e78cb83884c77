"""Equations with the numbers in them: how each finding's two ends came about, step by step."""

from __future__ import annotations

import re
from typing import NamedTuple

from fitcheck.numbers import Real, Span
from fitcheck.rule import Evaluate, Rule, span
from fitcheck.setting import drawn_span
from schema.fit import Fit
from schema.question import Question
from schema.reference import Reference


class Step(NamedTuple):
    """One rule as it was asked: its data sheet, and its equation with the numbers of both ends."""

    rule: str
    equation: str
    unit: str
    at_low: str
    at_high: str
    source: str


class _Call(NamedTuple):
    rule: Rule
    inputs: dict[str, Span | Real]
    result: Span


def explained(question: Question | Fit, reference: Reference) -> dict[str, tuple[Step, ...]]:
    """The steps behind every quantity of a question, innermost first."""
    calls: list[_Call] = []

    def remember(of: Rule, **inputs: Span | Real) -> Span:
        result = span(of, **inputs)
        calls.append(_Call(of, inputs, result))
        return result

    found = _quantities(question, reference, remember)
    return {name: tuple(_step(call) for call in _chain(result, calls)) for name, result in found.items()}


def _quantities(question: Question | Fit, reference: Reference, evaluate: Evaluate) -> dict[str, Span]:
    """Every quantity of a question, its rules asked through ``evaluate``."""
    if isinstance(question, Question):
        from fitcheck.rings.case import case_of
        from fitcheck.rings.glands import quantities

        case = case_of(question, reference)
        return quantities(case.spans, case.conditions._replace(ask=evaluate))
    from fitcheck.places import family_of

    inquiry = family_of(question.place.kind)(question, reference)
    return inquiry.quantities({name: drawn_span(size) for name, size in inquiry.sizes.items()}, evaluate)


def _chain(result: Span, calls: list[_Call]) -> list[_Call]:
    """The call that made a result, after the calls that made its inputs."""
    made = next((call for call in reversed(calls) if call.result is result), None)
    if made is None:
        return []
    chain: list[_Call] = []
    for value in made.inputs.values():
        if isinstance(value, Span):
            chain += [call for call in _chain(value, calls) if call not in chain]
    return [*chain, made]


def _step(call: _Call) -> Step:
    rule = call.rule
    return Step(
        rule=rule.name,
        equation=rule.equation,
        unit=rule.unit,
        at_low=_with_numbers(call, low=True),
        at_high=_with_numbers(call, low=False),
        source=rule.source,
    )


def _with_numbers(call: _Call, *, low: bool) -> str:
    rule = call.rule
    numbers: dict[str, str] = {}
    for symbol, argument in rule.symbols.items():
        if argument in call.inputs:
            value = call.inputs[argument]
            if isinstance(value, Span):
                value = value.low if (argument in rule.rises_with) == low else value.high
            number = f"{float(value):.9g}"
            numbers[symbol] = f"({number})" if number.startswith("-") else number
    result = f"{float(call.result.low if low else call.result.high):.9g} {rule.unit}".removesuffix(
        " 1"
    ).strip()
    if ":" in rule.equation or "," in rule.equation:
        told = ", ".join(f"{symbol} = {number}" for symbol, number in numbers.items())
        return f"{told} gives {result}"
    right = rule.equation.partition("=")[2].strip()
    if numbers:
        symbols = "|".join(re.escape(symbol) for symbol in sorted(numbers, key=len, reverse=True))
        right = re.sub(rf"(?<![\w.])({symbols})(?![\w'])", lambda match: numbers[match[1]], right)
        right = re.sub(r"(?<=[\d)i]) (?=[\d(p])", " × ", right)
    return f"{right} = {result}"
