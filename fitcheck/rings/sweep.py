"""The same rules over columns: millions of ring and gland pairs, in chunks that bound the memory.

A sweep judges drawn sizes of one kind of gland in one service. The rules are those of a single check
(``fitcheck.rings.glands.quantities``, ``fitcheck.decision.inside`` and ``beyond``); limits are chosen once
for each distinct section, hardness, pressure and material. Pairs that share them and lie together are
judged fastest. What is not a matter of sizes (fluid, temperature, surfaces) is judged per material by
``fitcheck.compatibility``, not here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitcheck.decision import WEAK_GRADES, beyond, inside, margin_of, unrefused
from fitcheck.numbers import Real, Span, is_scalar
from fitcheck.rings.circumstances import Circumstances, limits_for
from fitcheck.rings.conditions import Conditions
from fitcheck.rings.glands import quantities
from fitcheck.rule import Evaluate, Rule, span
from schema.finding import Limits
from schema.guidance import Choices, Guidance

Column = NDArray[np.float64]
Statuses = NDArray[np.int8]

FITS, NOT_PROVEN, DOES_NOT_FIT = 0, 1, 2

# Columns of one chunk and their intermediate results stay in the processor's cache.
CHUNK_ROWS = 16_384

# What each finding that may have limits for nominal sizes is made from: only these need a middle.
_MADE_FROM = {
    "squeeze": ("plain_squeeze", "gland_depth", "face_gland_depth"),
    "stretch": ("stretch",),
    "peripheral_compression": ("peripheral_compression",),
    "section_in_groove": ("section_in_groove", "gland_depth"),
}


@dataclass(frozen=True)
class Judged:
    """One quantity of a chunk of pairs: worst case, margin and status, each a column."""

    low: Column
    high: Column
    margin: Column
    status: Statuses


LimitSets = tuple[dict[str, Limits | None], ...]


def limit_sets(
    names: Sequence[str], each: Sequence[Circumstances], guidance: Guidance, choices: Choices
) -> LimitSets:
    """The limits of every quantity for each of the distinct circumstances."""
    return tuple({name: limits_for(name, one, guidance, choices) for name in names} for one in each)


def sweep(
    sizes: Mapping[str, tuple[Column, Column]],
    conditions: Conditions,
    limits: LimitSets,
    of_pair: NDArray[np.integer[Any]],
    *,
    chunk_rows: int = CHUNK_ROWS,
) -> Iterator[tuple[slice, dict[str, Judged]]]:
    """Judge all pairs, a chunk at a time.

    ``sizes`` maps field names to their lower and upper limits [mm], columns of one length n;
    ``of_pair`` (n,) is the index of each pair's limits. Yields the rows of a chunk and its findings by
    rule name; memory is bounded by the chunk whatever the length.
    """
    conditions = conditions._replace(ask=_asking(limits))
    for start in range(0, len(of_pair), chunk_rows):
        part = slice(start, min(start + chunk_rows, len(of_pair)))
        spans = {name: _span(low[part], high[part]) for name, (low, high) in sizes.items()}
        with np.errstate(invalid="ignore", divide="ignore"):
            found = quantities(spans, conditions)
            yield part, _judged(found, limits, of_pair[part])


def verdicts(findings: Mapping[str, Judged]) -> Statuses:
    """The worst status of each pair of a chunk."""
    worst: Statuses = np.maximum.reduce([one.status for one in findings.values()])
    return worst


def _span(low: Any, high: Any) -> Span:
    return Span(low, (low + high) * 0.5, high)


def _asking(limits: LimitSets) -> Evaluate:
    """``span`` with a middle only where some limit is meant for nominal sizes: a third of the work less."""
    nominal = {name for one in limits for name, at in one.items() if at is not None and at.basis == "nominal"}
    with_middle = {rule for name in nominal for rule in _MADE_FROM[name]}

    def ask(of: Rule, **inputs: Span | Real) -> Span:
        if of.name in with_middle:
            return span(of, **inputs)
        lowest: dict[str, Any] = {}
        highest: dict[str, Any] = {}
        for name, value in inputs.items():
            if not isinstance(value, Span):
                lowest[name] = highest[name] = value
            elif name in of.rises_with:
                lowest[name], highest[name] = value.low, value.high
            elif name in of.falls_with:
                lowest[name], highest[name] = value.high, value.low
            else:
                raise TypeError(f"{of.name} does not say which way {name} moves it")
        return Span(of.function(**lowest), math.nan, of.function(**highest))

    return ask


def _judged(
    found: Mapping[str, Span], limits: LimitSets, of_pair: NDArray[np.integer[Any]]
) -> dict[str, Judged]:
    names = [name for name in limits[0] if name in found]
    if of_pair.min() == of_pair.max():
        return {name: _judge(found[name], limits[of_pair[0]][name], len(of_pair)) for name in names}
    groups = np.unique(of_pair)
    mixed = {name: _empty(len(of_pair)) for name in names}
    for group in groups:
        rows = np.flatnonzero(of_pair == group)
        for name in names:
            taken = Span(*(_column(end, len(of_pair))[rows] for end in found[name]))
            judged = _judge(taken, limits[group][name], len(rows))
            for whole, some in zip(vars(mixed[name]).values(), vars(judged).values(), strict=True):
                whole[rows] = some
    return mixed


def _empty(count: int) -> Judged:
    return Judged(np.empty(count), np.empty(count), np.empty(count), np.empty(count, dtype=np.int8))


def _judge(span_: Span, limits: Limits | None, count: int) -> Judged:
    low_end, high_end = _column(span_.low, count), _column(span_.high, count)
    if limits is None:
        return Judged(low_end, high_end, np.full(count, np.nan), np.full(count, NOT_PROVEN, dtype=np.int8))
    low, high = low_end, high_end
    if limits.basis == "nominal":
        low = high = _column(span_.middle, count)
    margin = _column(margin_of(low, high, limits), count)
    kept = inside(margin, limits)
    if limits.low is None and limits.high is None:
        kept = kept & (low_end + high_end == low_end + high_end)  # nan keeps nothing
    if limits.basis == "nominal":
        kept = kept & unrefused(low_end, high_end, limits)
    weak = limits.grade in WEAK_GRADES
    status: Statuses = np.full(count, NOT_PROVEN if weak else FITS, dtype=np.int8)
    if not kept.all():
        refused = _flags(beyond(low_end, high_end, margin, limits), count)
        status = (
            refused + np.int8(NOT_PROVEN) if weak else refused - _flags(kept, count) + np.int8(NOT_PROVEN)
        )
    return Judged(low_end, high_end, margin, status)


def _column(value: Any, count: int) -> Any:
    """A quantity that happens to be the same for all pairs, as a column."""
    return np.full(count, value) if is_scalar(value) else value


def _flags(truth: Any, count: int) -> Statuses:
    """True and false as 1 and 0 without a copy."""
    flags: Statuses = np.full(count, truth, np.int8) if is_scalar(truth) else truth.view(np.int8)
    return flags
