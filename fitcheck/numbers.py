"""The few functions that must serve a float and a numpy array alike.

numpy is imported only when an array is met, so that a single check starts without it.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple, TypeAlias, cast

# A number, or a numpy array of float64: the rules use only operators that both have, so that the
# type checker need know but the number.
Real: TypeAlias = float
Truth: TypeAlias = Any


class Span(NamedTuple):
    """A quantity with what is known of it: smallest, middle (nominal or measured), largest."""

    low: Real
    middle: Real
    high: Real

    @classmethod
    def point(cls, value: Real) -> Span:
        """A quantity known exactly."""
        return cls(value, value, value)


def is_scalar(value: object) -> bool:
    """Whether a value is a plain number, not an array."""
    return isinstance(value, (float, int, bool))


def where(condition: Truth, yes: Real, no: Real) -> Real:
    """``yes`` where the condition holds, else ``no``."""
    if is_scalar(condition):
        return yes if condition else no
    import numpy as np

    return cast(Real, np.where(condition, yes, no))


def smaller(first: Real, second: Real) -> Real:
    """The smaller of two, element by element."""
    if is_scalar(first) and is_scalar(second):
        return min(first, second)
    import numpy as np

    return cast(Real, np.minimum(first, second))


def larger(first: Real, second: Real) -> Real:
    """The larger of two, element by element."""
    if is_scalar(first) and is_scalar(second):
        return max(first, second)
    import numpy as np

    return cast(Real, np.maximum(first, second))


def positive(value: Real) -> Real:
    """The value where it is above zero, else nan: for what must not be divided by."""
    return where(value > 0.0, value, math.nan)


def root(value: Real) -> Real:
    """Square root; nan below zero."""
    if is_scalar(value):
        return math.sqrt(value) if value >= 0 else math.nan
    import numpy as np

    with np.errstate(invalid="ignore"):
        return cast(Real, np.sqrt(value))


def normal_share_below(z: float) -> float:
    """Share of a standard normal distribution below z."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))
