"""All published tables a check needs, in one object that is handed to ``fitcheck``."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from schema.guidance import Guidance, published_guidance
from schema.materials import FluidRating, Material, fluid_ratings, materials

if TYPE_CHECKING:
    from schema.housing_tables import HousingRow


class Reference(NamedTuple):
    """Guidance for glands, materials by code, ratings by material and fluid.

    ``housings`` are the rows of a workshop's own table of housings; none is shipped.
    """

    guidance: Guidance
    materials: Mapping[str, Material]
    ratings: Mapping[tuple[str, str], FluidRating]
    housings: tuple[HousingRow, ...] = ()


@cache
def published_reference() -> Reference:
    """The tables shipped with the project."""
    return Reference(published_guidance(), materials(), fluid_ratings())
