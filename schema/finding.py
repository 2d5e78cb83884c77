"""What a check answers: findings, each the outcome of one rule, and the verdict they make."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple


class Status(StrEnum):
    """The three answers. Between proof and refutation lies ``not proven``, never a pass."""

    FITS = "fits"
    DOES_NOT_FIT = "does not fit"
    NOT_PROVEN = "not proven"


# How a finding begins to say which sizes stand alone; read where such sizes are gathered.
NO_TOLERANCE = "no tolerance: "
WORST_FIRST = (Status.DOES_NOT_FIT, Status.NOT_PROVEN, Status.FITS)


class Limits(NamedTuple):
    """What a quantity is judged by.

    Inside ``low``..``high`` (inclusive) it fits; wholly beyond ``refuse_low`` or ``refuse_high`` it does
    not; between them the sources do not settle it. ``basis`` worst_case holds for every size within the
    limits given; ``nominal`` holds in the middle of the sizes, as the source means it, while the worst
    case must stay within the limits of refusal. ``refuse_source`` is where those come from, when that is
    another place. ``scale`` is what a margin is divided by where only one limit exists.
    """

    low: float | None
    high: float | None
    unit: str
    basis: str
    guidance: str
    source: str
    grade: str
    refuse_low: float | None = None
    refuse_high: float | None = None
    scale: float = 1.0
    note: str = ""
    refuse_source: str = ""
    refuse_grade: str = ""

    @property
    def width(self) -> float:
        """Width of the limits; with one limit only, the scale."""
        if self.low is not None and self.high is not None and self.high > self.low:
            return self.high - self.low
        return self.scale


class Layer(NamedTuple):
    """One step of a layered sum: its name, whether it is on, the interval after it."""

    name: str
    on: bool
    low: float
    high: float


class Influence(NamedTuple):
    """How one dimension moves a finding: half the change over its own interval, in the finding's unit."""

    dimension: str
    half_effect: float
    measured: bool


class Finding(NamedTuple):
    """The outcome of one rule for one part in one place.

    ``low``..``high`` is the worst case, widened at both ends by ``guard_band``, which the decision rule
    makes of the uncertainty of what was measured. ``statistical_low``..``statistical_high`` holds 99.73 % of
    assemblies when drawn sizes are normal with their limits at three sigma; ``share_outside`` is the share
    beyond the limits. ``lacks`` names what was not told, in words; without it nothing can be proven.
    """

    rule: str
    quantity: str
    status: Status
    unit: str = ""
    low: float | None = None
    middle: float | None = None
    high: float | None = None
    limits: Limits | None = None
    margin: float | None = None
    standard_uncertainty: float = 0.0
    guard_band: float = 0.0
    conformance_probability: float | None = None
    statistical_low: float | None = None
    statistical_high: float | None = None
    share_outside: float | None = None
    meaning: str = ""
    action: str = ""
    source: str = ""
    grade: str = ""
    reason: str = ""
    lacks: tuple[str, ...] = ()
    layers: tuple[Layer, ...] = ()
    influences: tuple[Influence, ...] = ()
    inputs: Mapping[str, str] = MappingProxyType({})

    @property
    def outside_guidance(self) -> bool:
        """Whether all of it lies beyond its limits, so that no closer measurement brings it inside."""
        limits, low, high = self.limits, self.low, self.high
        if limits is None or low is None or high is None:
            return False
        return (limits.high is not None and low > limits.high) or (
            limits.low is not None and high < limits.low
        )


class Told(NamedTuple):
    """A value that was worked out and is not judged: a press force, a preload, a pressure at a point.

    ``low``..``high`` is the worst case, widened by the guard band of the decision rule where sizes were
    measured; ``rule`` names the equation behind it.
    """

    rule: str
    quantity: str
    unit: str
    low: float
    middle: float
    high: float
    source: str = ""
    grade: str = ""
    note: str = ""


class Verdict(NamedTuple):
    """The worst finding, with all findings, the decision rule, what was not asked and what was taken.

    ``told`` are values worked out beside the findings, none of which decides anything.
    """

    status: Status
    question: str
    decision_rule: str
    findings: tuple[Finding, ...]
    next_step: str
    not_asked: tuple[str, ...] = ()
    taken: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    driver: str = ""
    told: tuple[Told, ...] = ()

    def of(self, rule: str) -> Finding | None:
        """The finding of one rule, or None where it was not asked."""
        return next((finding for finding in self.findings if finding.rule == rule), None)
