"""What a judgement is made of: sizes as known, the quantities they make, the rule that decides."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple, TypeAlias

from fitcheck.decision import DecisionRule
from fitcheck.numbers import Span
from schema.amounts import Amount
from schema.dimension import Dimension

Known: TypeAlias = Dimension | Amount
Sizes: TypeAlias = Mapping[str, Known]
Ask: TypeAlias = Callable[[Mapping[str, Span]], dict[str, Span]]


class Setting(NamedTuple):
    """Sizes by name, and what is asked of them.

    ``ask`` gives every quantity that a set of spans allows, by name. ``surfaces`` says what each size is
    measured on (outside, bore, recess, slot, depth, rubber, indirect); a size that is not in it is
    measured with none of the known instruments. ``of_part`` are the sizes that another part would change.
    """

    sizes: Sizes
    rule: DecisionRule
    ask: Ask
    surfaces: Mapping[str, str] = {}
    of_part: frozenset[str] = frozenset()

    def spans(self) -> dict[str, Span]:
        """Worst case of the drawn sizes; measured ones as read (their uncertainty is the decision rule's)."""
        return {name: drawn_span(size) for name, size in self.sizes.items()}


def drawn_span(size: Known) -> Span:
    """Worst case of a drawn size; a measured one as read."""
    return Span(float(size.lower), size.middle, float(size.upper))
