"""Parts that seal a gland: O-ring, four-lobed ring, back-up ring.

``inside_diameter`` is d1 and ``cross_section`` d2 of ISO 3601-1. The area factor of a section is its
area over d2 squared: pi/4 for a round one.
"""

from __future__ import annotations

import math
from typing import ClassVar

from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice, length, number, words
from schema.model import Model
from schema.ring_sizes import ring_size


class _Ring(Model):
    """What O-rings and four-lobed rings share."""

    inside_diameter: Dimension = length(
        "inside diameter d1 of the free ring", "24.99 ±0.25 mm", required=True, measured_on="rubber"
    )
    cross_section: Dimension = length(
        "section d2 of the free ring", "3.53 ±0.10 mm", required=True, measured_on="rubber", largest_mm=30
    )
    material: str = words("elastomer, ISO 1629 code", "NBR")
    hardness_shore_a: float | None = number("nominal hardness, Shore A", "70", low=20, high=98)
    code: str = words("size code of a standard", "AS568-214")
    part_number: str = words("number in the catalogue", "")
    description: str = words("what it is, in words", "")
    size_grade: str = choice(
        "how well its size is confirmed",
        (
            "published_twice",
            "published_once",
            "standard",
            "derived",
            "given",
            "disputed",
            "from_memory",
            "no_tolerance",
        ),
        default="given",
    )
    size_source: str = words("where its size comes from", "", default="as given")

    kind: ClassVar[str]
    words_for: ClassVar[str]
    area_factor: ClassVar[float]

    def __post_init__(self) -> None:
        if self.cross_section.lower >= self.inside_diameter.upper * 4:
            raise InputError(
                field="part.cross_section",
                given=self.cross_section,
                problem="the section is more than four times the inside diameter; are they exchanged?",
                example="3.53 ±0.10 mm",
            )

    @property
    def nominal_section_mm(self) -> float:
        """Section by which guidance is chosen: that of the size code, for a worn 217 is still a 217."""
        if self.code:
            return float(ring_size(self.code).cross_section.nominal)
        return float(self.cross_section.nominal)

    @property
    def name(self) -> str:
        """The shortest name a person would use."""
        own = (float(one.nominal) for one in (self.inside_diameter, self.cross_section))
        size = self.code or f"{' x '.join(f'{one:.4g}' for one in own)} mm"
        stuff = " ".join(
            str(one)
            for one in (self.material, f"{self.hardness_shore_a:g}" if self.hardness_shore_a else "")
            if one
        )
        return " ".join(one for one in (self.part_number, f"{size} {stuff}".strip()) if one)


class ORing(_Ring):
    """A toroidal ring of round section (ISO 3601-1)."""

    kind: ClassVar[str] = "o_ring"
    words_for: ClassVar[str] = "O-ring"
    area_factor: ClassVar[float] = math.pi / 4


class FourLobedRing(_Ring):
    """A ring of four-lobed section, area 0.8215 d2^2 (worked examples of allsealsinc.com)."""

    kind: ClassVar[str] = "four_lobed_ring"
    words_for: ClassVar[str] = "four-lobed ring"
    area_factor: ClassVar[float] = 0.8215


class BackUpRing(Model):
    """A ring of hard plastic on the low-pressure side of a seal; ``width`` is along the groove."""

    width: Dimension = length("width along the groove", "1.40 ±0.05 mm", required=True, largest_mm=30)
    radial_thickness: Dimension | None = length("thickness across the gland", "2.9 mm", largest_mm=30)
    inside_diameter: Dimension | None = length("inside diameter", "25.5 mm")
    material: str = words("plastic, ISO 1043 code", "PTFE")
    part_number: str = words("number in the catalogue", "")
    description: str = words("what it is, in words", "")

    kind: ClassVar[str] = "back_up_ring"
    words_for: ClassVar[str] = "back-up ring"


Ring = ORing | FourLobedRing
PART_MODELS: dict[str, type[ORing] | type[FourLobedRing] | type[BackUpRing]] = {
    model.kind: model for model in (ORing, FourLobedRing, BackUpRing)
}
