"""Places a ring goes into: rod gland, piston gland, face gland.

A gland is the groove plus the clearance beside it (ISO 3601-2 says housing). For both radial glands
the ring lies between an outer and an inner cylinder; which of the two carries the groove tells
rod from piston.
"""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from schema.dimension import COVERAGE_FACTOR, Dimension
from schema.errors import InputError
from schema.fields import choice, length, listed, number, roughness, words
from schema.model import Model

METALS = ("aluminium", "steel")


def metals_of(metal: str | None) -> tuple[str, ...]:
    """The metals that count: the one told, or all it may be where none is told.

    >>> metals_of("steel"), metals_of(None)
    (('steel',), ('aluminium', 'steel'))
    """
    return METALS if metal is None else (metal,)


class _Gland(Model):
    """What every gland may have."""

    groove_width: Dimension | None = length(
        "width of the groove along the axis", "4.80 +0.2/0 mm", largest_mm=60, measured_on="slot"
    )
    corner_radius: Dimension | None = length(
        "radius at the groove floor", "0.2..0.4 mm", allow_zero=True, largest_mm=10
    )
    lead_in_length: Dimension | None = length(
        "length of the chamfer the ring enters over", "1.8 mm", allow_zero=True, largest_mm=30
    )
    surface_finish_running: float | None = roughness("Ra of the surface the ring runs on", "0.4 um Ra")
    surface_finish_groove: float | None = roughness("Ra of the groove floor", "1.6 um Ra")
    passes_over: Dimension | None = length("largest diameter the ring is pushed over in assembly", "28 mm")
    runout: Dimension | None = length(
        "total indicator reading, groove to guide",
        "0.05 mm",
        allow_zero=True,
        measured_on="indirect",
        largest_mm=5,
    )
    guide_clearance: Dimension | None = length(
        "diametral clearance of the guide beside the seal",
        "0.02..0.06 mm",
        allow_zero=True,
        measured_on="indirect",
        largest_mm=5,
    )
    back_up_rings: int = number("back-up rings in the groove", "1", low=0, high=2, default=0, whole=True)
    metal: str | None = choice("metal of the gland; both count where it is not told", METALS, default=None)
    runs_on: str = words("shaft or bore that it shares with other places of the unit", "damper shaft")
    loaded_by: str = words(
        "gas chamber whose highest pressure is held against the pressure told for this gland", "reservoir"
    )
    tools: tuple[str, ...] = listed("tools this place needs", "pick; bullet")
    unit: str = words("unit it belongs to", "")
    place: str = words("its name in the unit", "")
    description: str = words("what it is, in words", "")

    kind: ClassVar[str]
    words_for: ClassVar[str]

    @property
    def name(self) -> str:
        """How a person would name it."""
        if self.unit and self.place:
            return f"{self.unit}/{self.place}"
        return self.description or f"{self.words_for} as given"


class RodGland(_Gland):
    """Groove in the housing; the seal runs on the shaft."""

    shaft_diameter: Dimension | None = length("diameter of the shaft", "25.40 f7 mm")
    groove_diameter: Dimension | None = length(
        "diameter of the groove floor in the housing", "31.50 +0.05/0 mm", measured_on="recess"
    )
    throat_diameter: Dimension | None = length(
        "housing bore beside the groove", "25.50 +0.05/0 mm", measured_on="bore"
    )

    kind: ClassVar[str] = "rod_gland"
    words_for: ClassVar[str] = "rod gland"

    def __post_init__(self) -> None:
        _wider(self.groove_diameter, self.shaft_diameter, "groove_diameter", "shaft_diameter")
        _wider(self.throat_diameter, self.shaft_diameter, "throat_diameter", "shaft_diameter")
        _wider(
            self.groove_diameter,
            self.throat_diameter,
            "groove_diameter",
            "throat_diameter",
            why="the groove would be shallower than the clearance",
        )


class PistonGland(_Gland):
    """Groove in the piston (or floating piston); the seal runs on the bore."""

    bore_diameter: Dimension | None = length("diameter of the bore", "31.50 H8 mm", measured_on="bore")
    groove_diameter: Dimension | None = length(
        "diameter of the groove floor on the piston", "25.40 0/-0.05 mm"
    )
    land_diameter: Dimension | None = length("piston diameter beside the groove", "31.40 0/-0.05 mm")

    kind: ClassVar[str] = "piston_gland"
    words_for: ClassVar[str] = "piston gland"

    def __post_init__(self) -> None:
        _wider(self.bore_diameter, self.groove_diameter, "bore_diameter", "groove_diameter")
        _wider(self.bore_diameter, self.land_diameter, "bore_diameter", "land_diameter")
        _wider(
            self.land_diameter,
            self.groove_diameter,
            "land_diameter",
            "groove_diameter",
            why="the groove would be shallower than the clearance",
        )


class FaceGland(_Gland):
    """Groove in a flat face; the ring is squeezed along the axis."""

    groove_depth: Dimension | None = length(
        "depth of the groove in the face", "2.70 ±0.05 mm", largest_mm=30, measured_on="depth"
    )
    groove_outer_diameter: Dimension | None = length(
        "outer wall of the groove (pressure from inside)", "32 mm", measured_on="recess"
    )
    groove_inner_diameter: Dimension | None = length(
        "inner wall of the groove (pressure from outside)", "25 mm"
    )
    face_gap: Dimension | None = length(
        "gap between the faces, when they do not touch",
        "0.05 mm",
        allow_zero=True,
        measured_on="indirect",
        largest_mm=5,
    )

    kind: ClassVar[str] = "face_gland"
    words_for: ClassVar[str] = "face gland"

    def __post_init__(self) -> None:
        _wider(
            self.groove_outer_diameter,
            self.groove_inner_diameter,
            "groove_outer_diameter",
            "groove_inner_diameter",
        )
        outer, inner, width = self.groove_outer_diameter, self.groove_inner_diameter, self.groove_width
        if outer is None or inner is None or width is None:
            return
        between = (largest(outer) - least(inner)) / 2
        if least(width) > between:
            raise InputError(
                field="place.groove_width",
                given=width.text,
                problem=f"is more than the walls leave between them ({float(between):.3f} mm)",
                allowed="half of groove_outer_diameter less groove_inner_diameter",
            )


def largest(size: Dimension) -> Decimal:
    """The most a size may be [mm], with U for a measured one."""
    return size.upper + COVERAGE_FACTOR * size.standard_uncertainty


def least(size: Dimension) -> Decimal:
    """The least a size may be [mm], with U for a measured one."""
    return size.lower - COVERAGE_FACTOR * size.standard_uncertainty


def _wider(
    outer: Dimension | None, inner: Dimension | None, outer_name: str, inner_name: str, *, why: str = ""
) -> None:
    """Refuse a gland whose outer cylinder lies inside its inner one even at the most favourable sizes."""
    if outer is None or inner is None:
        return
    if largest(outer) > least(inner):
        return
    raise InputError(
        field=f"place.{outer_name}",
        given=outer.text,
        problem=f"is not larger than {inner_name} ({inner.text})" + (f": {why}" if why else ""),
        allowed=f"{outer_name} above {inner_name}",
    )


Gland = RodGland | PistonGland | FaceGland
PLACE_MODELS: dict[str, type[RodGland] | type[PistonGland] | type[FaceGland]] = {
    model.kind: model for model in (RodGland, PistonGland, FaceGland)
}
