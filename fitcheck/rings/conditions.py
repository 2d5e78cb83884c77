"""What besides sizes enters the quantities of a gland, and which laws and layers are used."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.numbers import Real, Span
from fitcheck.rings.squeeze import section_loss_constant_volume, section_loss_empirical, section_loss_joined
from fitcheck.rule import Evaluate, Rule, rule, span
from schema.nearest import not_among

THINNING: dict[str, Rule | None] = {
    "empirical": section_loss_empirical,
    "joined": section_loss_joined,
    "constant-volume": section_loss_constant_volume,
    "none": None,
}
NOTHING = Span(0.0, 0.0, 0.0)
_ANY_SHARE = Span(0.0, 0.5, 1.0)
LAYERS = ("stretch", "eccentricity", "temperature", "swell")

# engineeringtoolbox.com d_95 and matmake.com: aluminium 21 to 24; steel 12 (engineeringniche.com), per 1e6 K
METAL_EXPANSION_PER_K = {"aluminium": 23.1e-6, "steel": 12.0e-6}


class Conditions(NamedTuple):
    """What besides sizes enters the quantities. Temperature rises [K] count from 20 degC.

    ``other_metal_per_k`` is the second metal that counts where none is told. ``ask`` evaluates a rule over
    spans; a caller may pass one that also keeps what was asked.
    """

    gland: str
    outward: bool = True
    area_factor: float = math.pi / 4
    back_up_rings: int = 0
    printed_back_up_width: float | None = None
    rubber_expansion_per_k: float = 0.0
    metal_expansion_per_k: float = 0.0
    other_metal_per_k: float | None = None
    cold_rise_k: float | None = None
    hot_rise_k: float | None = None
    swell_low_percent: float = 0.0
    swell_high_percent: float = 0.0
    thinning: str = "empirical"
    thickening: str = "none"
    layers_off: tuple[str, ...] = ()
    ask: Evaluate = span


@rule(
    unit="1",
    equation="k = k_1 + s (k_2 - k_1)",
    symbols={"k": "growth in a metal that is not told", "k_1": "lesser", "k_2": "greater", "s": "share"},
    source="the metal of the gland is not told: it grows as one of the two does, and both count",
    rises_with=("lesser", "greater", "share"),
    valid={"lesser": (0.5, 1.0), "greater": (1.0, 2.0), "share": (0.0, 1.0)},
)
def between_metals(*, lesser: Real, greater: Real, share: Real) -> Real:
    """A growth that lies between those of two metals.

    Equation   k = k_1 + s (k_2 - k_1)
    Symbols    k    returned  [1]
               k_1  lesser    [1]  growth in the one metal
               k_2  greater   [1]  growth in the other
               s    share     [1]  0 to 1
    Valid      k_1 not above k_2
    Source     own: the ends are the two metals it may be

    >>> between_metals(lesser=1.010, greater=1.020, share=0.5)
    1.015
    """
    return lesser + share * (greater - lesser)


def growth(conditions: Conditions, of: Rule, **inputs: Real) -> Span:
    """What a rule of growth gives in the metal of the gland; over both metals where none is told."""
    ask, other = conditions.ask, conditions.other_metal_per_k
    found = ask(of, metal_expansion_per_k=conditions.metal_expansion_per_k, **inputs)
    if other is None:
        return found
    two = sorted((found, ask(of, metal_expansion_per_k=other, **inputs)), key=lambda one: one.low)
    return ask(between_metals, lesser=two[0], greater=two[1], share=_ANY_SHARE)


def metal_growth(conditions: Conditions, rise_k: float) -> Span | float:
    """Factor on a size of the gland at a rise of temperature; over both metals where none is told."""
    first = 1.0 + conditions.metal_expansion_per_k * rise_k
    if conditions.other_metal_per_k is None:
        return first
    second = 1.0 + conditions.other_metal_per_k * rise_k
    return Span(min(first, second), (first + second) / 2.0, max(first, second))


def check_layers(conditions: Conditions) -> None:
    """Refuse names of laws and layers that do not exist."""
    for field, given, allowed in (
        ("thinning", conditions.thinning, tuple(THINNING)),
        ("thickening", conditions.thickening, ("none", "constant-volume")),
        *(("layers_off", layer, LAYERS) for layer in conditions.layers_off),
    ):
        if given not in allowed:
            raise not_among(allowed, field=f"choices.{field}", given=given, problem="there is no such name")
