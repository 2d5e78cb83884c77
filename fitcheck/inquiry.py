"""What a family of places hands over to be judged, and how it is judged.

A family (bushings, retaining rings, gas chambers ...) has one function that turns a Fit into an Inquiry:
the sizes it knows, the quantities it makes of them, and by which limits each is judged. Everything else
(worst case, uncertainty, statistics, decision, advice, what is missing) is done here, the same for all.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple, TypeAlias

from fitcheck.decision import DecisionRule
from fitcheck.held import NOTHING_MOVES, Moves, held, moves_of
from fitcheck.influence import end_uncertainties
from fitcheck.numbers import Span
from fitcheck.rule import RULES, Evaluate, span
from fitcheck.setting import Known, Setting
from fitcheck.words import Words, dimension_words, joined
from schema.amounts import Amount
from schema.dimension import COVERAGE_FACTOR, Dimension
from schema.fields import meaning_of
from schema.finding import NO_TOLERANCE, Finding, Limits, Status, Told
from schema.instruments import instruments
from schema.model import Model

Quantities: TypeAlias = Callable[[Mapping[str, Span], Evaluate], dict[str, Span]]
"""Every quantity that a set of spans allows, by name; rules are asked through the second argument."""


class Judged(NamedTuple):
    """A quantity that is judged.

    ``needs`` are the sizes it is worked out from, told where they are missing; ``wants`` is what else it
    needs, in words, as far as it is missing. A quantity that is not ``required`` is left out when it
    cannot be worked out. Without ``limits`` it is not proven, for the reason in ``why_open``. Of a ``bound``
    what is missing can only take away: it proves nothing, and is refused where even so it is beyond.
    """

    name: str
    words: Words
    limits: Limits | None
    needs: tuple[str, ...] = ()
    wants: tuple[str, ...] = ()
    required: bool = True
    why_open: str = "no published limit covers this case"
    ask_whom: str = "Ask the maker of the unit."
    bound: bool = False


class Beside(NamedTuple):
    """A quantity that is worked out and told, but not judged."""

    name: str
    quantity: str
    unit: str
    source: str = ""
    grade: str = ""
    note: str = ""


class Inquiry(NamedTuple):
    """All that is asked about one place.

    ``sizes`` and ``surfaces`` come from ``known`` below. ``exempt`` are sizes that need no tolerance.
    ``findings`` stand on their own: materials, threads, evidence. ``question`` is one sentence.
    ``telling`` gives the values beside, where they are too dear to be worked out many times: it is asked
    once, with every measured size at the ends of its guard band together, which can only widen them.
    """

    question: str
    sizes: dict[str, Known]
    quantities: Quantities
    judged: tuple[Judged, ...]
    surfaces: Mapping[str, str] = {}
    of_part: frozenset[str] = frozenset()
    exempt: frozenset[str] = frozenset()
    findings: tuple[Finding, ...] = ()
    beside: tuple[Beside, ...] = ()
    not_asked: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    telling: Quantities | None = None


class KnownSizes(NamedTuple):
    """Sizes of models under the names a family gives them, with what each is measured on."""

    sizes: dict[str, Known]
    surfaces: dict[str, str]


def known(model: Model | None, names: Mapping[str, str]) -> KnownSizes:
    """The sizes and amounts of a model that are given; ``names``: field to the name in the inquiry."""
    sizes: dict[str, Known] = {}
    surfaces: dict[str, str] = {}
    for field, name in names.items() if model is not None else ():
        value = getattr(model, field)
        if isinstance(value, (Dimension, Amount)):
            sizes[name] = value
            surfaces[name] = meaning_of(model.declared[field]).measured_on  # type: ignore[union-attr]
    return KnownSizes(sizes, surfaces)


def together(*several: KnownSizes) -> KnownSizes:
    """The sizes of several models as one; of two with one name the later leads."""
    sizes: dict[str, Known] = {}
    surfaces: dict[str, str] = {}
    for one in several:
        sizes |= one.sizes
        surfaces |= one.surfaces
    return KnownSizes(sizes, surfaces)


def setting_of(inquiry: Inquiry, rule: DecisionRule) -> Setting:
    """The sizes of an inquiry and the rule that decides."""
    return Setting(
        inquiry.sizes,
        rule,
        lambda spans: inquiry.quantities(spans, span),
        inquiry.surfaces,
        inquiry.of_part,
    )


def judged_quantities(inquiry: Inquiry, setting: Setting, *, statistics: bool = True) -> list[Finding]:
    """The findings on the quantities of an inquiry, in its order; see ``moves_of`` for statistics."""
    found = setting.ask(setting.spans())
    moves = moves_of(setting, found, statistics=statistics)
    findings = []
    for one in inquiry.judged:
        at = found.get(one.name)
        if at is not None and one.limits is not None and not one.wants:
            findings.append(held(setting, one.name, one.words, at, moves[one.name], one.limits))
        elif at is not None and (one.required or not one.wants):
            findings.append(_refused(setting, one, at, moves[one.name]) or _open(one, at, moves[one.name]))
        elif one.required:
            findings.append(_missing(inquiry, one))
    return findings


def _refused(setting: Setting, one: Judged, at: Span, moves: Moves) -> Finding | None:
    """The refusal of a bound that is beyond its limits whatever is missing; None where it is not."""
    if not one.bound or one.limits is None:
        return None
    found = held(setting, one.name, one.words, at, moves, one.limits)
    return found if found.status is Status.DOES_NOT_FIT else None


def told_beside(inquiry: Inquiry, setting: Setting) -> tuple[Told, ...]:
    """The values an inquiry tells beside its findings, worst case and guard band included."""
    if not inquiry.beside:
        return ()
    if inquiry.telling is None:
        spans = setting.spans()
        found = setting.ask(spans)
        factor = setting.rule.guard_factor
        at_ends = end_uncertainties(setting.sizes, spans, setting.ask, found, max(factor, 1.0))
    else:
        found, factor, at_ends = inquiry.telling(guarded_spans(setting), span), 0.0, {}
    return tuple(
        _told(one, found[one.name], at_ends.get(one.name, (0.0, 0.0)), factor)
        for one in inquiry.beside
        if one.name in found and not any(map(math.isnan, (*found[one.name], *at_ends.get(one.name, ()))))
    )


def guarded_spans(setting: Setting, least_factor: float = 0.0) -> dict[str, Span]:
    """Worst case of every size, a measured one widened by its guard band; at least by ``least_factor`` u."""
    factor = max(least_factor, setting.rule.guard_factor)
    spans = setting.spans()
    for name, size in setting.sizes.items():
        if size.measured:
            guard = factor * float(size.standard_uncertainty)
            low = spans[name].low - guard
            low = max(0.0, low) if isinstance(size, Dimension) else low
            spans[name] = Span(low, spans[name].middle, spans[name].high + guard)
    return spans


def _told(one: Beside, at: Span, at_ends: tuple[float, float], factor: float) -> Told:
    low, high = (factor * u for u in at_ends)
    return Told(
        rule=one.name,
        quantity=one.quantity,
        unit=one.unit,
        low=float(at.low) - low,
        middle=float(at.middle),
        high=float(at.high) + high,
        source=one.source,
        grade=one.grade,
        note=one.note,
    )


def evidence_of(inquiry: Inquiry) -> list[Finding]:
    """Sizes without tolerance or uncertainty prove nothing; what is not there (0 mm, 0 N) needs none."""
    bare = [
        name
        for name, size in inquiry.sizes.items()
        if not size.toleranced and name not in inquiry.exempt and size.upper != 0
    ]
    if not bare:
        return []
    told = joined([dimension_words(name) for name in bare])
    return [
        Finding(
            rule="sizes_known",
            quantity="sizes with a tolerance or an uncertainty",
            status=Status.NOT_PROVEN,
            meaning="a size without tolerance is taken as exact, which no real part is",
            action=f"Give the tolerance of the {told}, or how it was measured (12.68 mm by micrometer).",
            reason=f"{NO_TOLERANCE}{told}",
            source="ISO 14253-1, by secondary sources: what is not known is not proven",
            grade="standard",
        )
    ]


def measured_sizes(sizes: Mapping[str, Known]) -> tuple[str, ...]:
    """What was taken for the uncertainty of measured sizes, in words; () where none was measured."""
    told = [f"{dimension_words(name)} {_expanded(size)}" for name, size in sizes.items() if size.measured]
    return (f"uncertainty U = 2u of what was measured: {', '.join(told)}",) if told else ()


def _expanded(size: Known) -> str:
    named = f" by {instruments()[size.instrument].name}" if size.instrument else ""
    unit = size.unit if isinstance(size, Amount) else "mm"
    return f"±{COVERAGE_FACTOR * size.standard_uncertainty:.3f} {unit}{named}"


def _missing(inquiry: Inquiry, one: Judged) -> Finding:
    """A required quantity that the given sizes do not allow."""
    absent = [dimension_words(name) for name in one.needs if name not in inquiry.sizes]
    told: Sequence[str] = list(dict.fromkeys([*absent, *one.wants]))
    return Finding(
        rule=one.name,
        quantity=one.words.quantity,
        status=Status.NOT_PROVEN,
        unit=_unit_of(one),
        meaning=one.words.meaning(Status.NOT_PROVEN, True),
        action=f"Give the {joined(list(told))}." if told else one.ask_whom,
        reason=f"missing: {joined(list(told))}" if told else "cannot be worked out from what is given",
        lacks=tuple(told),
    )


def _unit_of(one: Judged) -> str:
    """The unit of a quantity: that of its limits, else that of the rule behind it."""
    if one.limits is not None:
        return one.limits.unit
    return RULES[one.words.rule].unit if one.words.rule in RULES else ""


def _open(one: Judged, at: Span, moves: Moves = NOTHING_MOVES) -> Finding:
    """A quantity that is worked out but has nothing to be judged by."""
    return Finding(
        rule=one.name,
        quantity=one.words.quantity,
        status=Status.NOT_PROVEN,
        unit=_unit_of(one),
        low=float(at.low),
        middle=float(at.middle),
        high=float(at.high),
        standard_uncertainty=moves.u,
        meaning=one.words.meaning(Status.NOT_PROVEN, True) if one.wants else "",
        action=f"Give the {joined(list(one.wants))}." if one.wants else one.ask_whom,
        reason=f"missing: {joined(list(one.wants))}" if one.wants else one.why_open,
        lacks=one.wants,
    )
