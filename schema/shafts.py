"""Shafts and pistons as parts: what other places of the unit run on."""

from __future__ import annotations

from typing import ClassVar

from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import length as sized
from schema.fields import number, roughness, words
from schema.fit import Part
from schema.places import largest, least


class Shaft(Part):
    """A shaft that seals, bushings and guides run on."""

    outside_diameter: Dimension | None = sized("diameter where it runs", "16 f7 mm")
    least_diameter: Dimension | None = sized(
        "wear limit of its diameter, by the maker", "15.94 mm", limit=True
    )
    length: Dimension | None = sized("length over all", "180 ±0.5 mm", largest_mm=1500)
    thread: str = words("its threads, from end to end", "M10x1 and M8x0.75")
    surface_finish: float | None = roughness("Ra of the running surface", "0.2 um Ra")
    hardness: float | None = number("hardness of the running surface, HRC", "60", low=1, high=80)

    kind: ClassVar[str] = "shaft"
    words_for: ClassVar[str] = "shaft"

    def __post_init__(self) -> None:
        limit, size = self.least_diameter, self.outside_diameter
        if limit is not None and size is not None and not size.measured and least(limit) > largest(size):
            raise InputError(
                field="part.least_diameter",
                given=limit.text,
                problem=f"is above the diameter it has when new ({size.text})",
                allowed="up to outside_diameter",
            )


class Piston(Part):
    """A piston, or a floating piston, as one part."""

    outside_diameter: Dimension | None = sized("diameter of its land", "31.92 ±0.02 mm")
    bore_diameter: Dimension | None = sized("bore for the shaft", "8 H7 mm", measured_on="bore")
    length: Dimension | None = sized("length along the axis", "14 ±0.1 mm", largest_mm=300)
    thread: str = words("its thread, if it has one", "M6x1")
    surface_finish: float | None = roughness("Ra of its land", "0.8 um Ra")

    kind: ClassVar[str] = "piston"
    words_for: ClassVar[str] = "piston"

    def __post_init__(self) -> None:
        outer, inner = self.outside_diameter, self.bore_diameter
        if outer is not None and inner is not None and largest(outer) <= least(inner):
            raise InputError(
                field="part.outside_diameter",
                given=outer.text,
                problem=f"is not larger than bore_diameter ({inner.text})",
                allowed="outside_diameter above bore_diameter",
            )
