"""Plain bushings and their seats: sizes, materials, the maker's limits, and what was measured before.

A wrapped bushing (ISO 3547) is a strip rolled to a tube with an open joint. It has no true diameter until
it is pressed in: its wall and its check in a ring gauge count, its free outside diameter never does.
"""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from schema.amounts import Amount, amount
from schema.bushing_tables import expansions, family_of_material
from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice, number, words
from schema.fields import length as sized
from schema.fit import Part, Place
from schema.places import METALS, largest, least

STYLES = ("wrapped", "solid", "sintered", "polymer")
FAMILIES = ("steel", "aluminium", "bronze", "sintered_bronze", "sintered_iron", "pom", "pa", "ptfe")
_ROUGHEST_UM = 50.0
# A wall that differs from half of the nominal diameters by more than this belongs to another bushing; the
# thinnest lining and the widest tolerance are smaller. Own judgement, no source.
_WALL_MISMATCH_MM = Decimal("0.25")


class PlainBushing(Part):
    """A sleeve a shaft or a pin runs in. ``inside_diameter`` is as delivered; nominal for a wrapped one."""

    style: str | None = choice("how it is made", STYLES, default=None)
    inside_diameter: Dimension | None = sized(
        "bore as delivered; nominal for a wrapped bushing", "12.016..12.034 mm", measured_on="bore"
    )
    outside_diameter: Dimension | None = sized(
        "outside diameter as delivered; nominal for a wrapped bushing", "16 s6 mm"
    )
    ring_gauge_diameter: Dimension | None = sized(
        "outside diameter of a wrapped bushing as its maker checks it (ISO 3547-2), never the free one",
        "18.030..18.065 mm",
        measured_on="indirect",
    )
    wall: Dimension | None = sized("thickness of the wall", "0.980..1.005 mm", largest_mm=30)
    length: Dimension | None = sized("length along the axis", "12 ±0.25 mm", largest_mm=200)
    flange_diameter: Dimension | None = sized("diameter of the flange", "24 mm")
    flange_thickness: Dimension | None = sized("thickness of the flange", "1.0 0/-0.2 mm", largest_mm=20)
    lining_material: str = words("what the lining is made of", "PTFE")
    lining_thickness: Dimension | None = sized(
        "thickness of the lining that may wear away", "0.02 mm", largest_mm=3, measured_on="indirect"
    )
    body: str | None = choice("what carries it: backing of a wrapped bushing", FAMILIES, default=None)
    elastic_modulus: Amount | None = amount(
        "stress", "Young's modulus by the maker", "110 GPa", low=500, high=250_000
    )
    poisson_ratio: float | None = number("Poisson's ratio by the maker", "0.34", low=0.1, high=0.49)
    roughness_rz: float | None = number(
        "roughness depth Rz of the outside, um", "6.3", low=0, high=_ROUGHEST_UM
    )

    kind: ClassVar[str] = "plain_bushing"
    words_for: ClassVar[str] = "plain bushing"

    @property
    def family(self) -> str:
        """The family of what carries it, by ``body`` or by the words of its material; "" where unknown."""
        if self.body is not None:
            return next(one for one in expansions() if one.lower() == self.body)
        return family_of_material(self.material)

    def __post_init__(self) -> None:
        outer, inner, wall = self.outside_diameter, self.inside_diameter, self.wall
        if outer is not None and inner is not None and largest(outer) <= least(inner):
            raise _refusal("outside_diameter", outer, f"is not larger than inside_diameter ({inner.text})")
        if wall is not None and outer is not None and 2 * least(wall) >= largest(outer):
            raise _refusal("wall", wall, f"is more than half of outside_diameter ({outer.text})")
        if wall is not None and outer is not None and inner is not None:
            half = (outer.nominal - inner.nominal) / 2
            if abs((wall.lower + wall.upper) / 2 - half) > _WALL_MISMATCH_MM:
                raise _refusal(
                    "wall",
                    wall,
                    f"does not go with {inner.text} inside and {outer.text} outside: half of their "
                    f"difference is {float(half):.3f} mm",
                )
        if self.ring_gauge_diameter is not None and self.style not in (None, "wrapped"):
            raise _refusal(
                "ring_gauge_diameter", self.ring_gauge_diameter, "only a wrapped bushing is checked so"
            )
        lining = self.lining_thickness
        if lining is not None and wall is not None and least(lining) >= largest(wall):
            raise _refusal("lining_thickness", lining, f"is not less than wall ({wall.text})")
        flange = self.flange_diameter
        if flange is not None and outer is not None and largest(flange) <= least(outer):
            raise _refusal("flange_diameter", flange, f"is not larger than outside_diameter ({outer.text})")


class BushingSeat(Place):
    """The bore a bushing is pressed into, the shaft that runs in it, and what the maker allows.

    ``bore_as_fitted`` is measured after pressing and leads over every calculation. ``bore_before`` and
    ``shaft_before`` are an earlier measurement (or the size when new), ``distance_since`` and
    ``hours_since`` what was ridden in between.
    """

    housing_bore: Dimension | None = sized("bore of the housing, bushing out", "18 H7 mm", measured_on="bore")
    shaft_diameter: Dimension | None = sized("diameter of the shaft that runs in it", "16 f7 mm")
    seat_length: Dimension | None = sized(
        "length of the seat along the axis", "12.5 ±0.2 mm", largest_mm=200, measured_on="depth"
    )
    housing_outside_diameter: Dimension | None = sized(
        "outside diameter of the metal around the seat, for its stiffness", "28 mm"
    )
    housing_yield: Amount | None = amount(
        "stress", "yield strength of the housing's metal", "240 MPa", low=20, high=2500
    )
    bore_as_fitted: Dimension | None = sized(
        "bore measured after pressing", "16.03 mm by bore gauge", measured_on="bore"
    )
    bore_before: Dimension | None = sized(
        "the same bore at an earlier measurement, or when new", "16.02 mm by bore gauge", measured_on="bore"
    )
    shaft_before: Dimension | None = sized(
        "the shaft at an earlier measurement, or when new", "15.975 mm by micrometer"
    )
    distance_since: float | None = number(
        "distance since the earlier measurement, km", "3000", low=1, high=1e6
    )
    hours_since: float | None = number("hours since the earlier measurement", "120", low=1, high=1e5)
    allowed_clearance: Dimension | None = sized(
        "running clearance as fitted, by the maker",
        "0.02..0.10 mm",
        allow_zero=True,
        largest_mm=5,
        limit=True,
    )
    allowed_interference: Dimension | None = sized(
        "interference in the seat, by the maker", "0.02..0.06 mm", allow_zero=True, largest_mm=5, limit=True
    )
    largest_clearance: Dimension | None = sized(
        "wear limit of the running clearance, by the maker", "0.20 mm", largest_mm=5, limit=True
    )
    least_shaft_diameter: Dimension | None = sized(
        "wear limit of the shaft, by the maker", "15.94 mm", limit=True
    )
    largest_bore: Dimension | None = sized(
        "wear limit of the fitted bore, by the maker", "16.12 mm", limit=True
    )
    press_friction: float | None = number(
        "friction in pressing, where it is known", "0.12", low=0.01, high=0.6
    )
    roughness_rz: float | None = number(
        "roughness depth Rz of the housing bore, um", "6.3", low=0, high=_ROUGHEST_UM
    )
    metal: str | None = choice("metal of the housing; both count where it is not told", METALS, default=None)
    shaft_metal: str | None = choice(
        "metal of the shaft; both count where it is not told", METALS, default=None
    )

    kind: ClassVar[str] = "bushing_seat"
    words_for: ClassVar[str] = "bushing seat"

    def __post_init__(self) -> None:
        bore, shaft, around = self.housing_bore, self.shaft_diameter, self.housing_outside_diameter
        if bore is not None and shaft is not None and largest(bore) <= least(shaft):
            raise _refusal("housing_bore", bore, f"is not larger than shaft_diameter ({shaft.text})", "place")
        if bore is not None and around is not None and largest(around) <= least(bore):
            raise _refusal(
                "housing_outside_diameter", around, f"is not larger than housing_bore ({bore.text})", "place"
            )
        fitted = self.bore_as_fitted
        if bore is not None and fitted is not None and least(fitted) >= largest(bore):
            raise _refusal(
                "bore_as_fitted", fitted, f"leaves no wall within housing_bore ({bore.text})", "place"
            )
        for name in ("distance_since", "hours_since"):
            if getattr(self, name) is not None and self.bore_before is None and self.shaft_before is None:
                raise _refusal(
                    name,
                    getattr(self, name),
                    "needs what was measured before: bore_before or shaft_before",
                    "place",
                )


def _refusal(field: str, given: object, problem: str, head: str = "part") -> InputError:
    return InputError(field=f"{head}.{field}", given=given, problem=problem)
