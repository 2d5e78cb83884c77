"""Eyelets of shocks and the hardware in them: pin, spacers, washers, reducers, distance sleeve.

No standard covers them. ``width`` of a part is what it takes up between the frame's tabs, ``length`` what
lies inside the eyelet.
"""

from __future__ import annotations

from typing import ClassVar

from schema.amounts import Amount, amount
from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice
from schema.fields import length as sized
from schema.fit import Part, Place
from schema.places import METALS, largest, least

STYLES = ("pin", "pin_set", "one_piece_pin", "reducer", "reducer_pair", "spacer", "washer", "sleeve")
# What spans the whole gap between the tabs by itself.
THROUGH = ("pin", "pin_set", "one_piece_pin")
REDUCERS = ("reducer", "reducer_pair")


class EyeletHardware(Part):
    """What lies between the bolt and the bush of an eyelet, or beside the eyelet.

    ``pin`` runs through and is as wide as the gap; ``pin_set`` is a pin sold with its spacers, ``width``
    over all; ``reducer_pair`` two reducers, ``width`` over all as fitted, ``length`` of each spigot.
    """

    style: str | None = choice("what it is", STYLES, default=None)
    outside_diameter: Dimension | None = sized("diameter that runs in the bush", "12.68 +0/-0.03 mm")
    inside_diameter: Dimension | None = sized("bore for the bolt", "8.1 +0.1/0 mm", measured_on="bore")
    bolt_diameter: Dimension | None = sized("bolt it is made for", "8 mm")
    width: Dimension | None = sized(
        "width it takes up between the tabs of the frame", "24.0 ±0.1 mm", largest_mm=200
    )
    length: Dimension | None = sized(
        "length inside the eyelet: between the spacers, or of one spigot",
        "12.3 ±0.05 mm",
        measured_on="slot",
        largest_mm=200,
    )
    thickness: Dimension | None = sized(
        "thickness of a washer, or of the flange of a reducer", "0.50 ±0.03 mm", largest_mm=50
    )
    shoulder_diameter: Dimension | None = sized("diameter of its shoulder or flange", "18 mm")

    kind: ClassVar[str] = "eyelet_hardware"
    words_for: ClassVar[str] = "eyelet hardware"

    @property
    def found_style(self) -> str:
        """Its style as told; a part with a thickness and no width is a washer; "" where neither says."""
        if self.style:
            return self.style
        return "washer" if self.thickness is not None and self.width is None else ""

    def __post_init__(self) -> None:
        outer, inner = self.outside_diameter, self.inside_diameter
        if outer is not None and inner is not None and least(inner) >= largest(outer):
            raise InputError(
                field="part.inside_diameter",
                given=inner,
                problem=f"is not smaller than outside_diameter ({outer.text})",
            )
        bolt = self.bolt_diameter
        if bolt is not None and inner is not None and least(bolt) > largest(inner):
            raise InputError(
                field="part.bolt_diameter",
                given=bolt,
                problem=f"does not go through inside_diameter ({inner.text})",
            )
        if self.style in THROUGH and self.length and self.width and least(self.length) > largest(self.width):
            raise InputError(
                field="part.length",
                given=self.length,
                problem=f"what lies inside the eyelet is longer than the whole pin ({self.width.text})",
            )


class Eyelet(Place):
    """The eye of a shock with what it is bolted to.

    ``side_play`` is the play between hardware and tabs that the maker allows. Of the bush, ``bore_as_fitted``
    measured after pressing leads over every calculation.
    """

    bore: Dimension | None = sized("bore of the eyelet, empty", "15 H8 mm", measured_on="bore")
    width: Dimension | None = sized("width of the eyelet", "12.0 ±0.1 mm", largest_mm=200)
    outside_diameter: Dimension | None = sized("outside diameter of the metal around the bore", "24 mm")
    mount_width: Dimension | None = sized(
        "distance between the tabs of the frame", "24.2 +0.2/0 mm", measured_on="slot", largest_mm=300
    )
    bolt_diameter: Dimension | None = sized("diameter of the bolt where it passes through", "7.97 ±0.02 mm")
    side_play: Dimension | None = sized(
        "play of the hardware between the tabs that the maker allows, in total",
        "0..0.5 mm",
        allow_zero=True,
        largest_mm=10,
        limit=True,
    )
    load: Amount | None = amount("force", "greatest force on the eyelet", "8 kN", low=0, high=1e6)
    bore_as_fitted: Dimension | None = sized(
        "bore of the bush, measured after pressing", "12.71 mm by bore gauge", measured_on="bore"
    )
    allowed_clearance: Dimension | None = sized(
        "clearance of the pin in its bush, by the maker",
        "0.01..0.10 mm",
        allow_zero=True,
        largest_mm=5,
        limit=True,
    )
    allowed_interference: Dimension | None = sized(
        "interference of the bush in the eyelet, by the maker",
        "0.02..0.10 mm",
        allow_zero=True,
        largest_mm=5,
        limit=True,
    )
    largest_clearance: Dimension | None = sized(
        "wear limit of that clearance, by the maker", "0.20 mm", largest_mm=5, limit=True
    )
    metal: str | None = choice("metal of the eyelet; both count where it is not told", METALS, default=None)

    kind: ClassVar[str] = "eyelet"
    words_for: ClassVar[str] = "eyelet"

    def __post_init__(self) -> None:
        for outer, inner, outer_name, inner_name in (
            (self.outside_diameter, self.bore, "outside_diameter", "bore"),
            (self.bore, self.bolt_diameter, "bore", "bolt_diameter"),
            (self.bore, self.bore_as_fitted, "bore", "bore_as_fitted"),
        ):
            if outer is not None and inner is not None and largest(outer) <= least(inner):
                raise InputError(
                    field=f"place.{outer_name}",
                    given=outer,
                    problem=f"is not larger than {inner_name} ({inner.text})",
                )
        play = self.side_play
        if play is not None and not play.toleranced:
            raise InputError(
                field="place.side_play",
                given=play,
                problem="one size is no play that may be had; it is told from the least to the most",
                allowed="a range",
                example="0..0.5 mm",
            )
        between, eye = self.mount_width, self.width
        if between is not None and eye is not None and largest(between) <= least(eye):
            raise InputError(
                field="place.mount_width",
                given=between,
                problem=f"the eyelet alone ({eye.text}) does not go between the tabs",
            )
