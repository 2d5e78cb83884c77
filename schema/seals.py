"""Lip seals, wipers and guide rings, and the places they go into: a pressed seat, a guide-ring groove.

A loose seal has no size that a catalogue names: ``inside_diameter`` is read on the free lip and is smaller
than the shaft, ``outside_diameter`` is read on the rubber or the case and is larger than the bore. What is
marked on the seal (shaft x bore x width) is kept apart, as ``made_for_shaft`` and ``made_for_bore``.
"""

from __future__ import annotations

from typing import ClassVar

from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice, length, number, roughness, words
from schema.fit import Part, Place
from schema.places import METALS, largest, least

CASES = ("rubber_covered", "metal", "none", "foam")
JOINTS = ("straight", "angled", "stepped", "none")


class _Pressed(Part):
    """What lip seals and wipers share."""

    hardness_shore_a: float | None = number("nominal hardness of the lip, Shore A", "80", low=20, high=98)
    inside_diameter: Dimension | None = length(
        "inside diameter of the free lip, spring on", "31.40 ±0.15 mm", measured_on="rubber"
    )
    outside_diameter: Dimension | None = length(
        "outside diameter of the loose seal, on the rubber or the case",
        "42.22 ±0.05 mm",
        measured_on="rubber",
    )
    width: Dimension | None = length("height of what sits in the seat", "5.0 ±0.2 mm", largest_mm=60)
    total_height: Dimension | None = length(
        "height with lips and flange, seat to top", "8.5 ±0.2 mm", largest_mm=80
    )
    flange_diameter: Dimension | None = length("diameter of the flange on the housing", "44 ±0.2 mm")
    case: str | None = choice("what is pressed into the bore", CASES, default=None)
    lips: str | None = choice("how many lips run on the shaft", ("single", "dual"), default=None)
    spring: str | None = choice("is there a spring round the lip", ("yes", "no"), default=None)
    made_for_shaft: Dimension | None = length("shaft the seal is marked or listed for", "32 mm")
    made_for_bore: Dimension | None = length("bore the seal is marked or listed for", "42 mm")

    def __post_init__(self) -> None:
        _above(self.outside_diameter, self.inside_diameter, "part.outside_diameter", "inside_diameter")
        _above(self.made_for_bore, self.made_for_shaft, "part.made_for_bore", "made_for_shaft")
        total, width = self.total_height, self.width
        if total is not None and width is not None and largest(total) < least(width):
            raise _refusal("part.total_height", total, f"is below the width in the seat ({width.text})")

    @property
    def pressed(self) -> bool:
        """Whether it is held in its seat, which a ring of foam is not."""
        return self.case != "foam"


class LipSeal(_Pressed):
    """An oil seal: a lip on the shaft, the outside pressed into a bore or held in a groove."""

    kind: ClassVar[str] = "lip_seal"
    words_for: ClassVar[str] = "lip seal"


class Wiper(_Pressed):
    """A wiper (scraper, dust seal), or a ring of foam that goes with it."""

    kind: ClassVar[str] = "wiper"
    words_for: ClassVar[str] = "wiper"


class GuideRing(Part):
    """A cut strip of rectangular section that guides a piston or a rod (ISO 10766: bearing ring)."""

    thickness: Dimension | None = length("thickness of the strip", "2.50 +0/-0.05 mm", largest_mm=10)
    width: Dimension | None = length("width along the axis", "5.5 ±0.05 mm", largest_mm=60)
    outside_diameter: Dimension | None = length("bore it is made for, on a piston", "36 mm")
    inside_diameter: Dimension | None = length("shaft it is made for, in a rod guide", "16 mm")
    joint_gap: Dimension | None = length(
        "gap of the joint with the strip in its place, at room temperature",
        "1.5 ±0.3 mm",
        allow_zero=True,
        largest_mm=40,
        measured_on="slot",
    )
    joint: str | None = choice("how the joint is cut", JOINTS, default=None)

    kind: ClassVar[str] = "guide_ring"
    words_for: ClassVar[str] = "guide ring"

    def __post_init__(self) -> None:
        strip, bore = self.thickness, self.outside_diameter
        if strip is not None and bore is not None and 4 * largest(strip) >= least(bore):
            raise _refusal("part.thickness", strip, f"leaves no ring of {bore.text}; are the two exchanged?")


class WiperSeat(Place):
    """The seat of a wiper, oil seal or lip seal: an open bore (pressed) or a groove (snapped in)."""

    housing_bore: Dimension | None = length("bore of the seat", "42 H8 mm", measured_on="bore")
    seat_depth: Dimension | None = length(
        "depth of the seat", "5.5 +0.2/0 mm", largest_mm=80, measured_on="depth"
    )
    shaft_diameter: Dimension | None = length("diameter of the shaft or stanchion", "32 h8 mm")
    clear_height: Dimension | None = length(
        "room above the seat's floor that nothing touches at full travel",
        "14 mm",
        largest_mm=200,
        measured_on="depth",
    )
    lead_in_length: Dimension | None = length(
        "length of the chamfer at the mouth of the seat", "1.0 mm", allow_zero=True, largest_mm=30
    )
    lead_in_angle: float | None = number(
        "angle of that chamfer to the axis, degrees", "15", low=0, high=90, default=None
    )
    surface_finish_running: float | None = roughness("Ra of the shaft under the lip", "0.2 um Ra")
    shaft_hardness_hrc: float | None = number(
        "hardness of the shaft's surface, HRC", "55", low=0, high=75, default=None
    )
    shaft_out_of_round: Dimension | None = length(
        "out of round of the shaft under the lip",
        "0..0.004 mm",
        allow_zero=True,
        largest_mm=2,
        measured_on="indirect",
    )
    wanted_press: Dimension | None = length(
        "how much larger than the bore the maker of the unit wants the seal",
        "0.10..0.30 mm",
        allow_zero=True,
        largest_mm=5,
        measured_on="indirect",
        limit=True,
    )
    housing_standard: str = words("standard and type the seat is made to", "ISO 6195 B")
    metal: str = choice("metal of the housing", METALS, default="aluminium")

    kind: ClassVar[str] = "wiper_seat"
    words_for: ClassVar[str] = "wiper seat"

    def __post_init__(self) -> None:
        _above(self.housing_bore, self.shaft_diameter, "place.housing_bore", "shaft_diameter")
        wanted = self.wanted_press
        if wanted is not None and not wanted.toleranced:
            raise InputError(
                field="place.wanted_press",
                given=wanted.text,
                problem="is one value: no real seal has exactly that",
                allowed="the range that the maker gives",
                example="0.10..0.30 mm",
            )


class GuideRingGroove(Place):
    """The groove of a guide ring: in a piston (``bore_diameter``) or round a rod (``shaft_diameter``)."""

    bore_diameter: Dimension | None = length("bore the piston runs in", "36 H8 mm", measured_on="bore")
    shaft_diameter: Dimension | None = length("rod that runs in the guide", "16 f7 mm")
    groove_diameter: Dimension | None = length("diameter of the groove floor", "31 h8 mm")
    groove_width: Dimension | None = length(
        "width of the groove along the axis", "5.60 +0.2/0 mm", largest_mm=60, measured_on="slot"
    )
    land_diameter: Dimension | None = length(
        "metal beside the groove: the piston's land, or the throat of a rod guide", "35.5 ±0.05 mm"
    )
    housing_standard: str = words("standard and type the groove is made to", "ISO 10766")
    metal: str | None = choice(
        "metal of the bore or rod; both count where it is not told", METALS, default=None
    )
    groove_metal: str | None = choice(
        "metal of the part that has the groove, where it is another", METALS, default=None
    )

    kind: ClassVar[str] = "guide_ring_groove"
    words_for: ClassVar[str] = "guide-ring groove"

    @property
    def side(self) -> str:
        """piston or rod; "" where neither the bore nor the shaft is told."""
        if self.bore_diameter is not None:
            return "piston"
        return "rod" if self.shaft_diameter is not None else ""

    def __post_init__(self) -> None:
        if self.bore_diameter is not None and self.shaft_diameter is not None:
            raise _refusal(
                "place.shaft_diameter",
                self.shaft_diameter,
                "is given beside bore_diameter: a guide ring runs on one of the two",
            )
        groove, land = self.groove_diameter, self.land_diameter
        if self.bore_diameter is not None:
            _above(self.bore_diameter, groove, "place.bore_diameter", "groove_diameter")
            _above(self.bore_diameter, land, "place.bore_diameter", "land_diameter")
            _above(land, groove, "place.land_diameter", "groove_diameter")
        if self.shaft_diameter is not None:
            _above(groove, self.shaft_diameter, "place.groove_diameter", "shaft_diameter")
            _above(land, self.shaft_diameter, "place.land_diameter", "shaft_diameter")
            _above(groove, land, "place.groove_diameter", "land_diameter")


def _above(outer: Dimension | None, inner: Dimension | None, field: str, inner_name: str) -> None:
    """Refuse sizes that contradict each other even at their most favourable."""
    if outer is None or inner is None or largest(outer) > least(inner):
        return
    raise _refusal(field, outer, f"is not larger than {inner_name} ({inner.text})")


def _refusal(field: str, given: Dimension, problem: str) -> InputError:
    return InputError(field=field, given=given.text, problem=problem)
