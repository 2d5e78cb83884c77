"""What a rule is: a small function that says what it computes, which way each input moves it, and
where it comes from.

The directions are what makes the worst case exact and cheap: ``span`` asks the rule only at the two
corners of its inputs, for one check and for ten million alike. A test holds every declared direction
against the function itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, NamedTuple, Protocol

from fitcheck.numbers import Real, Span

Function = Callable[..., Real]


class Rule(NamedTuple):
    """A rule and its data sheet. ``equation`` and ``symbols`` are shown by ``--explain``."""

    name: str
    unit: str
    equation: str
    symbols: dict[str, str]
    source: str
    rises_with: tuple[str, ...]
    falls_with: tuple[str, ...]
    valid: dict[str, tuple[float, float]]
    function: Function

    def __call__(self, **inputs: Real) -> Real:
        return self.function(**inputs)

    @property
    def __doc__(self) -> str:  # type: ignore[override]
        """The rule's own docstring, so that help() shows the data sheet."""
        return self.function.__doc__ or ""


RULES: dict[str, Rule] = {}


def rule(
    *,
    unit: str,
    equation: str,
    symbols: dict[str, str],
    source: str,
    rises_with: tuple[str, ...] = (),
    falls_with: tuple[str, ...] = (),
    valid: dict[str, tuple[float, float]] | None = None,
) -> Callable[[Function], Rule]:
    """Enter a function into the list of rules under its own name."""

    def enter(function: Function) -> Rule:
        made = Rule(
            name=function.__name__,
            unit=unit,
            equation=equation,
            symbols=symbols,
            source=source,
            rises_with=rises_with,
            falls_with=falls_with,
            valid=valid or {},
            function=function,
        )
        RULES[made.name] = made
        return made

    return enter


def span(of: Rule, **inputs: Span | Real) -> Span:
    """The rule over the limits of its inputs: at its smallest, in the middle, at its largest.

    Exact for a rule whose inputs are independent; an input that enters two rules of a chain is
    taken at its worst in each, which can only widen the result.
    """
    middle: dict[str, Any] = {}
    lowest: dict[str, Any] = {}
    highest: dict[str, Any] = {}
    for name, value in inputs.items():
        if value.__class__ is not Span:
            middle[name] = value
            continue
        low, middle[name], high = value
        if low is high:  # known exactly: the same object three times
            continue
        if name in of.rises_with:
            lowest[name], highest[name] = low, high
        elif name in of.falls_with:
            lowest[name], highest[name] = high, low
        else:
            raise TypeError(f"{of.name} does not say which way {name} moves it")
    try:
        at_middle = of.function(**middle)
        if not lowest:
            return Span(at_middle, at_middle, at_middle)
        return Span(of.function(**{**middle, **lowest}), at_middle, of.function(**{**middle, **highest}))
    except ZeroDivisionError:  # a size so badly known that its reach comes down to nothing
        return Span(*(_or_nan(of, {**middle, **end}) for end in (lowest, {}, highest)))


def _or_nan(of: Rule, inputs: dict[str, Real]) -> Real:
    """The rule's value, nan where it divides by nothing."""
    try:
        return of.function(**inputs)
    except ZeroDivisionError:
        return math.nan


class Evaluate(Protocol):
    """Anything that evaluates a rule over spans as ``span`` does."""

    def __call__(self, of: Rule, **inputs: Span | Real) -> Span: ...
