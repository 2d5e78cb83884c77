"""What besides sizes enters the quantities of a gland, and which laws and layers are used."""

from __future__ import annotations

import math
from typing import NamedTuple

from fitcheck.numbers import Span
from fitcheck.rings.squeeze import section_loss_constant_volume, section_loss_empirical, section_loss_joined
from fitcheck.rule import Evaluate, Rule, span
from schema.nearest import not_among

THINNING: dict[str, Rule | None] = {
    "empirical": section_loss_empirical,
    "joined": section_loss_joined,
    "constant-volume": section_loss_constant_volume,
    "none": None,
}
NOTHING = Span(0.0, 0.0, 0.0)
LAYERS = ("stretch", "eccentricity", "temperature", "swell")

# engineeringtoolbox.com d_95 and matmake.com: aluminium 21 to 24; steel 12 (engineeringniche.com), per 1e6 K
METAL_EXPANSION_PER_K = {"aluminium": 23.1e-6, "steel": 12.0e-6}


class Conditions(NamedTuple):
    """What besides sizes enters the quantities. Temperature rises [K] count from 20 degC.

    ``ask`` evaluates a rule over spans; a caller may pass one that also keeps what was asked.
    """

    gland: str
    outward: bool = True
    area_factor: float = math.pi / 4
    back_up_rings: int = 0
    printed_back_up_width: float | None = None
    rubber_expansion_per_k: float = 0.0
    metal_expansion_per_k: float = 0.0
    cold_rise_k: float | None = None
    hot_rise_k: float | None = None
    swell_low_percent: float = 0.0
    swell_high_percent: float = 0.0
    thinning: str = "empirical"
    thickening: str = "none"
    layers_off: tuple[str, ...] = ()
    ask: Evaluate = span


def check_layers(conditions: Conditions) -> None:
    """Refuse names of laws and layers that do not exist."""
    for field, given, allowed in (
        ("thinning", conditions.thinning, tuple(THINNING)),
        ("thickening", conditions.thickening, ("none", "constant-volume")),
        *(("layers_off", layer, LAYERS) for layer in conditions.layers_off),
    ):
        if given not in allowed:
            raise not_among(allowed, field=f"choices.{field}", given=given, problem="there is no such name")
