"""Retaining rings and their grooves: bore rings, shaft rings, round-wire rings, E-clips.

The size of a ring is that of the bore or shaft it belongs to, as the catalogue names it; an E-clip is named
by its groove.
"""

from __future__ import annotations

import re
from functools import cache
from typing import ClassVar, NamedTuple

from schema.amounts import Amount, amount
from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice, length, number, words
from schema.fit import Part, Place
from schema.places import METALS, largest, least
from schema.retaining_tables import (
    BORE_TABLE,
    SHAFT_TABLE,
    EClip,
    FlatRing,
    WireRing,
    e_clip,
    flat_ring,
    sizes,
    wire_ring,
)

STYLES = ("bore_ring", "shaft_ring", "round_wire_bore", "round_wire_shaft", "e_clip")
WIRE_STYLES = ("round_wire_bore", "round_wire_shaft")
BORE_STYLES = ("bore_ring", "round_wire_bore")
_OF_STANDARD = {
    "DIN 471": "shaft_ring",
    "DIN 472": "bore_ring",
    "IS 3075": "",
    "DIN 6799": "e_clip",
    "GB 895.1": "round_wire_bore",
    "GB 895.2": "round_wire_shaft",
    "DIN 7993": "",
    "DIN 9925": "round_wire_shaft",
    "DIN 9926": "round_wire_bore",
}
# Of these no table could be read; a ring by them is known by its measured or drawn sizes alone.
UNREAD = ("DIN 7993", "DIN 9925", "DIN 9926")
_SAME_THICKNESS = 0.1  # share of the tabled thickness; a heavier or thinner ring is another ring
_ROUNDING = 1e-9
_DESIGNATION = re.compile(
    r"(DIN|IS|GB)\s*(\d+(?:\.\d)?)(?:\s*[-:]\s*(?:19|20)?\d\d(?=\s*-))?\s*[- ]\s*(\d+(?:[.,]\d+)?)"
    r"(?:\s*[x×]\s*(\d+(?:[.,]\d+)?))?",
    re.IGNORECASE,
)


class Designation(NamedTuple):
    """What the standard designation of a ring says."""

    standard: str
    size: float
    thickness: float | None


@cache
def designation(text: str, *, field: str = "part.standard") -> Designation:
    """Read a standard designation.

    >>> designation("DIN 472 - 36 x 1,5")
    Designation(standard='DIN 472', size=36.0, thickness=1.5)
    >>> designation("GB 895.1-86 - 50").size
    50.0
    """
    found = _DESIGNATION.fullmatch(text.strip())
    standard = f"{found[1].upper()} {found[2]}" if found else ""
    if found is None or standard not in _OF_STANDARD:
        raise InputError(
            field=field,
            given=text,
            problem="this is no designation of a retaining ring known here",
            allowed=", ".join(_OF_STANDARD) + ", each with its size",
            example="DIN 472 - 36",
        )
    thickness = float(found[4].replace(",", ".")) if found[4] else None
    return Designation(standard, float(found[3].replace(",", ".")), thickness)


class RetainingRing(Part):
    """A ring that sits in a groove and holds what lies against it."""

    style: str | None = choice("what kind of ring it is", STYLES, default=None)
    standard: str = words("designation by its standard", "DIN 472 - 36")
    bore_diameter: Dimension | None = length(
        "bore it is made for, as the catalogue names it", "36 mm", measured_on="bore"
    )
    shaft_diameter: Dimension | None = length("shaft it is made for, as the catalogue names it", "12 mm")
    thickness: Dimension | None = length("thickness along the axis", "1.50 +0/-0.06 mm", largest_mm=10)
    wire_diameter: Dimension | None = length("diameter of its wire", "1.60 ±0.03 mm", largest_mm=10)
    free_diameter: Dimension | None = length(
        "unsprung diameter where it touches the groove: outside of a bore ring, inside of a shaft ring",
        "38.8 +0.5/-0.25 mm",
    )

    kind: ClassVar[str] = "retaining_ring"
    words_for: ClassVar[str] = "retaining ring"

    def __post_init__(self) -> None:
        named = self.designation
        if self.bore_diameter is not None and self.shaft_diameter is not None:
            raise InputError(
                field="part.shaft_diameter",
                given=self.shaft_diameter,
                problem="a ring is made for a bore or for a shaft, and bore_diameter is given too",
                allowed="one of bore_diameter and shaft_diameter",
            )
        if self.thickness is not None and self.wire_diameter is not None:
            raise InputError(
                field="part.wire_diameter",
                given=self.wire_diameter,
                problem="a flat ring has a thickness, a round-wire ring a wire diameter, and both are given",
                allowed="one of thickness and wire_diameter",
            )
        self._refuse_style(named)
        if named is not None:
            self._refuse_size(named)

    @property
    def designation(self) -> Designation | None:
        """Its standard designation, read; None where none is given."""
        return designation(self.standard) if self.standard else None

    @property
    def found_style(self) -> str:
        """Its style as told, or as its standard or its sizes say; "" where they do not."""
        if self.style:
            return self.style
        named = self.designation
        if named is not None and _OF_STANDARD[named.standard]:
            return _OF_STANDARD[named.standard]
        where = "bore" if self.bore_diameter else "shaft" if self.shaft_diameter else ""
        if not where:
            return ""
        return f"round_wire_{where}" if self.wire_diameter else f"{where}_ring"

    @property
    def size(self) -> float | None:
        """Bore or shaft [mm] it is made for; of an E-clip its groove."""
        named = self.designation
        if named is not None:
            return named.size
        given = self.bore_diameter or self.shaft_diameter
        return None if given is None else float(given.nominal)

    @property
    def flat_row(self) -> FlatRing | None:
        """Its row of DIN 471 or DIN 472; None where it names neither, nor IS 3075, or has no listed size."""
        named = self.designation
        if named is None or named.standard not in ("DIN 471", "DIN 472", "IS 3075"):
            return None
        return flat_ring(BORE_TABLE if self.found_style == "bore_ring" else SHAFT_TABLE, named.size)

    @property
    def wire_row(self) -> WireRing | None:
        """Its row of GB 895-86; None where it names another standard or none."""
        named = self.designation
        return wire_ring(self.found_style, named.size) if named and "GB" in named.standard else None

    @property
    def e_clip_row(self) -> EClip | None:
        """Its row of DIN 6799; None where it is no E-clip by that standard."""
        named = self.designation
        return e_clip(named.size) if named and named.standard == "DIN 6799" else None

    def _refuse_style(self, named: Designation | None) -> None:
        """A style that its standard, its sizes or its section contradict."""
        style = self.found_style
        wrong = ""
        of_standard = _OF_STANDARD[named.standard] if named else ""
        if of_standard and style != of_standard:
            wrong = f"{self.standard} is a {of_standard}"
        elif self.bore_diameter is not None and style not in BORE_STYLES:
            wrong = "bore_diameter belongs to a ring for a bore"
        elif self.shaft_diameter is not None and style in BORE_STYLES:
            wrong = "shaft_diameter belongs to a ring for a shaft"
        elif self.wire_diameter is not None and style not in WIRE_STYLES:
            wrong = "wire_diameter belongs to a round-wire ring"
        elif self.thickness is not None and style in WIRE_STYLES:
            wrong = "thickness belongs to a flat ring, a round-wire ring has a wire_diameter"
        if wrong:
            raise InputError(
                field="part.style", given=style, problem=f"contradicts the rest: {wrong}", example="bore_ring"
            )

    def _refuse_size(self, named: Designation) -> None:
        """A designation of a size that is not listed, or that the sizes contradict."""
        given = self.bore_diameter or self.shaft_diameter
        if given is not None and abs(float(given.nominal) - named.size) > 1e-6:
            raise InputError(
                field="part.standard",
                given=self.standard,
                problem=f"names size {named.size:g}, but the ring is said to be for {given.text}",
            )
        if named.standard in UNREAD:
            return
        row = self.flat_row or self.wire_row or self.e_clip_row
        if row is None:
            listed = _listed(self.found_style, named)
            raise InputError(
                field="part.standard",
                given=self.standard,
                problem=f"size {named.size:g} is not in the table of {named.standard}",
                allowed=listed,
                example="DIN 472 - 36",
            )
        thickness = (
            row.wire
            if isinstance(row, WireRing)
            else row.thickness
            if isinstance(row, EClip)
            else row.thickness[1]
        )
        own = self.wire_diameter or self.thickness
        told = [named.thickness, None if own is None else own.middle]
        for one in told:
            if one is not None and abs(one - thickness) > _SAME_THICKNESS * thickness + _ROUNDING:
                raise InputError(
                    field="part.standard",
                    given=self.standard,
                    problem=f"its table has {thickness:g} mm, {one:g} mm is given: a heavier or another ring",
                    allowed="the sizes alone, without standard",
                )


def _listed(style: str, named: Designation) -> str:
    """The nearest sizes of the table that a designation names."""
    if named.standard in ("DIN 471", "DIN 472", "IS 3075"):
        known = sizes(BORE_TABLE if style == "bore_ring" else SHAFT_TABLE)
    elif named.standard == "DIN 6799":
        known = sizes("din6799")
    else:
        return "the sizes of GB 895-86; for another ring give its sizes without a standard"
    near = sorted(known, key=lambda one: abs(one - named.size))[:4]
    return ", ".join(f"{one:g}" for one in sorted(near)) + " and others"


class RetainingRingGroove(Place):
    """The groove a retaining ring sits in, with what it must hold."""

    bore_diameter: Dimension | None = length("bore beside the groove", "36 H8 mm", measured_on="bore")
    shaft_diameter: Dimension | None = length("shaft beside the groove", "12 h9 mm")
    groove_diameter: Dimension | None = length(
        "diameter of the groove floor", "38.00 +0.25/0 mm", measured_on="recess"
    )
    groove_width: Dimension | None = length(
        "width of the groove along the axis", "1.60 +0.14/0 mm", measured_on="slot", largest_mm=20
    )
    edge_distance: Dimension | None = length(
        "land between the groove and the free edge, on the side the thrust goes to",
        "3.5 ±0.1 mm",
        measured_on="depth",
        largest_mm=200,
    )
    wall: Dimension | None = length(
        "wall left behind the groove floor; of a solid shaft the radius of the floor",
        "3.5 ±0.1 mm",
        measured_on="indirect",
        largest_mm=200,
    )
    metal: str | None = choice("metal of the part that has the groove", METALS, default=None)
    groove_yield: Amount | None = amount(
        "stress", "yield strength of the groove's metal, the least it has", "240 MPa", low=20, high=3000
    )
    groove_metal: str = words("metal of the groove and where its yield comes from", "6061-T6 by ASTM B221")
    corner: str | None = choice(
        "corner of the part that bears on the ring", ("sharp", "chamfered"), default=None
    )
    chamfer: Dimension | None = length(
        "chamfer or radius of that corner", "0.5 ±0.1 mm", measured_on="indirect", largest_mm=10
    )
    cap_diameter: Dimension | None = length(
        "diameter of the part that bears on the ring, where it bears", "35.95 ±0.02 mm"
    )
    seal_diameter: Dimension | None = length(
        "diameter that the part seals on: the pressure acts on it", "36 H8 mm", measured_on="bore"
    )
    shoulder_diameter: Dimension | None = length(
        "of a wire ring: the spigot inside it, or the counterbore around it, that keeps it in its groove",
        "33.0 ±0.1 mm",
    )
    thrust: Amount | None = amount(
        "force", "greatest thrust, where no gas makes it; 0 N where nothing pushes", "200 N", low=0, high=1e6
    )
    safety_factor: float | None = number(
        "factor that the maker or the workshop wants between thrust and capacity", "2", low=1, high=20
    )
    safety_factor_source: str = words("who wants that factor", "workshop rule, 2026")

    kind: ClassVar[str] = "retaining_ring_groove"
    words_for: ClassVar[str] = "retaining-ring groove"

    def __post_init__(self) -> None:
        if self.bore_diameter is not None and self.shaft_diameter is not None:
            raise InputError(
                field="place.shaft_diameter",
                given=self.shaft_diameter,
                problem="the groove is in a bore or on a shaft, and bore_diameter is given too",
                allowed="one of bore_diameter and shaft_diameter",
            )
        if self.chamfer is not None and self.corner == "sharp":
            raise InputError(
                field="place.chamfer",
                given=self.chamfer,
                problem="a sharp corner has no chamfer",
                allowed="corner: chamfered, or no chamfer",
            )
        self._refuse_side()

    @property
    def is_bore(self) -> bool | None:
        """Whether the groove is in a bore; None where neither diameter is told."""
        if self.bore_diameter is not None:
            return True
        return False if self.shaft_diameter is not None else None

    def _refuse_side(self) -> None:
        """A groove floor on the wrong side of its bore or shaft even at the most favourable sizes."""
        groove = self.groove_diameter
        if groove is None:
            return
        bore, shaft = self.bore_diameter, self.shaft_diameter
        problem = ""
        if bore is not None and largest(groove) <= least(bore):
            problem = f"the floor of a groove in a bore is larger than the bore ({bore.text})"
        if shaft is not None and least(groove) >= largest(shaft):
            problem = f"the floor of a groove on a shaft is smaller than the shaft ({shaft.text})"
        if problem:
            raise InputError(field="place.groove_diameter", given=groove.text, problem=problem)
