"""A gas chamber: the room behind a floating piston or in a bladder, its charge and what limits it."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from schema.amounts import Amount, amount
from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice, length, number
from schema.fit import Place
from schema.gases import GASES
from schema.places import largest, least

SEPARATORS = ("floating_piston", "bladder")
ENDS = ("oil_end", "gas_end")
FACES = ("near_face", "far_face")
METALS = ("aluminium", "steel")

# What only one of the two kinds of separator has.
_OF_PISTON = (
    *("set_depth", "depth_from", "depth_to", "tube_length", "piston_length", "bore_diameter"),
    *("dish_volume", "nose_length", "oil_side_room", "least_travel_left", "piston_friction"),
)
_OF_BLADDER = ("bladder_volume", "bladder_least_volume")


def _volume(doc: str, example: str, *, limit: bool = False) -> Any:
    return amount("volume", doc, example, low=0, high=5e6, limit=limit)


def _pressure(doc: str, example: str, *, limit: bool = False) -> Any:
    return amount("pressure", doc, example, low=0, high=100, limit=limit)


class GasChamber(Place):
    """Room for the oil that the shaft displaces: gas behind a floating piston, or in a bladder.

    Sizes and the charge are those at full extension and at ``set_temperature``. Pressures are gauge but for
    ``ambient_pressure``. Nothing is guessed of where a depth is measured from and to.
    """

    separator: str | None = choice("what parts gas from oil", SEPARATORS, default=None)
    gas: str | None = choice("the gas of the charge", GASES, default=None)
    shaft_diameter: Dimension | None = length("shaft where the oil is sealed", "12.70 f7 mm")
    stroke: Dimension | None = length(
        "stroke of the damper shaft, not of the wheel", "65 ±0.3 mm", measured_on="depth"
    )
    bore_diameter: Dimension | None = length(
        "bore that the floating piston runs in", "40 H8 mm", measured_on="bore"
    )
    set_depth: Dimension | None = length(
        "depth of the floating piston as the depth rod reads it", "42.0 ±0.5 mm", measured_on="depth"
    )
    depth_from: str | None = choice("end of the tube from which the depth is read", ENDS, default=None)
    depth_to: str | None = choice(
        "face of the piston to which it is read: near_face if the depth rod meets it first, or the other",
        FACES,
        default=None,
    )
    tube_length: Dimension | None = length(
        "from the edge the depth is read from to the gas end (closed end, or inner face of the fitted cap)",
        "95 ±0.2 mm",
        measured_on="depth",
        allow_zero=True,
    )
    piston_length: Dimension | None = length("length of the floating piston", "14 ±0.1 mm")
    nose_length: Dimension | None = length(
        "how far a valve nose, core or bumper stands out of the gas end and stops the piston",
        "2 ±0.2 mm",
        measured_on="depth",
        allow_zero=True,
    )
    oil_side_room: Dimension | None = length(
        "way the piston has toward the oil, at full extension, before it meets a stop",
        "8 ±0.5 mm",
        measured_on="depth",
        allow_zero=True,
    )
    dish_volume: Amount | None = _volume("hollow in the gas side of the piston: adds room", "1.5 ±0.1 ml")
    pocket_volume: Amount | None = _volume("pockets in the cap or end: add room", "0.8 ±0.1 ml")
    intrusion_volume: Amount | None = _volume("valve and core inside: take room away", "0.3 ±0.1 ml")
    bladder_volume: Amount | None = _volume("gas in the bladder, charged, at full extension", "45 ±1 ml")
    bladder_least_volume: Amount | None = _volume(
        "least gas volume the bladder may be squeezed to, by its maker", "12 ±0.5 ml", limit=True
    )
    charge: Amount | None = _pressure("gas charge at full extension, gauge", "1.40 ±0.05 MPa")
    charge_range: Amount | None = _pressure("charge that the maker allows, gauge", "1.2..1.5 MPa", limit=True)
    pressure_limit: Amount | None = _pressure(
        "highest gas pressure that the maker allows, gauge", "8 MPa", limit=True
    )
    set_temperature: Amount | None = amount(
        "temperature", "temperature at which depth and charge were set", "20 ±3 degC", low=-40, high=80
    )
    ambient_pressure: Amount | None = amount(
        "absolute pressure", "absolute pressure of the air around", "95 kPa", low=0.03, high=0.2
    )
    oil_volume: Amount | None = _volume("oil in damper and reservoir", "62 ±2 ml")
    oil_expansion_per_k: float | None = number(
        "volumetric expansion of the oil by its data sheet, 1/K", "7.5e-4", low=3e-4, high=1.6e-3
    )
    metal: str | None = choice("metal of body and reservoir", METALS, default=None)
    seal_diameter: Dimension | None = length(
        "diameter on which the end cap really seals", "41.0 ±0.1 mm", measured_on="bore"
    )
    gauge_volume: Amount | None = _volume("hose and gauge head that are connected to read it", "2 ml")
    least_travel_left: Dimension | None = length(
        "least travel of the piston that the maker wants left at full stroke, as set", "4 mm", limit=True
    )
    main_bore_diameter: Dimension | None = length(
        "bore of the damping piston", "36 H8 mm", measured_on="bore"
    )
    piston_force: Amount | None = amount(
        "force", "largest compression force made at the damping piston", "1500 ±100 N", low=0, high=1e5
    )
    base_valve_pressure_drop: Amount | None = _pressure(
        "pressure that base or reservoir valve makes at the same speed", "1.2 ±0.1 MPa"
    )
    piston_friction: Amount | None = amount(
        "force", "friction of the floating piston's seal", "10 ±7 N", low=0, high=1e4
    )

    kind: ClassVar[str] = "gas_chamber"
    words_for: ClassVar[str] = "gas chamber"

    def __post_init__(self) -> None:
        self._one_separator()
        self._one_atmosphere()
        self._rooms()

    def _one_separator(self) -> None:
        """A piston has no collapsed volume, a bladder no depth."""
        other = {"floating_piston": _OF_BLADDER, "bladder": _OF_PISTON}.get(self.separator or "", ())
        for name in other:
            given = getattr(self, name)
            if given is not None:
                raise InputError(
                    field=f"place.{name}",
                    given=str(given),
                    problem=f"a {(self.separator or '').replace('_', ' ')} has none",
                    allowed="the sizes of one kind of separator",
                    example="separator: "
                    + ("bladder" if self.separator == "floating_piston" else "floating_piston"),
                )
        low, high = self.bladder_least_volume, self.bladder_volume
        if low is not None and high is not None and low.lower >= high.upper:
            raise _refused("bladder_least_volume", low, f"is not below bladder_volume ({high})", "less")

    def _one_atmosphere(self) -> None:
        """A charge told as absolute was made gauge by the standard atmosphere; two atmospheres would mix."""
        if self.ambient_pressure is None:
            return
        for name in ("charge", "charge_range", "pressure_limit"):
            given = getattr(self, name)
            if given is not None and re.search(r"(bar|psi|pa)\s?a$", given.text.strip().lower()):
                raise _refused(
                    name,
                    given,
                    "is absolute while ambient_pressure is given",
                    "a gauge pressure, as the gauge reads",
                )

    def _rooms(self) -> None:
        """Refuse a damping piston thinner than its shaft, and a piston beyond the gas end of its tube."""
        bore, shaft = self.main_bore_diameter, self.shaft_diameter
        if bore is not None and shaft is not None and largest(bore) <= least(shaft):
            raise _refused(
                "main_bore_diameter",
                bore,
                f"is not larger than shaft_diameter ({shaft.text})",
                "main_bore_diameter above shaft_diameter",
            )
        room = self.gas_room_mm()
        if room is not None and room[1] <= 0:
            raise _refused(
                "set_depth",
                self.set_depth and self.set_depth.text,
                f"leaves no room for gas ({room[1]:.2f} mm at most): the piston would be beyond its gas end",
                "a depth inside the tube; see depth_from, depth_to and tube_length",
            )

    @property
    def piston_counts(self) -> bool:
        """Whether the piston's length lies between the face that was read and the gas end."""
        return (self.depth_from == "oil_end") == (self.depth_to == "near_face")

    def gas_room_mm(self) -> tuple[float, float] | None:
        """Least and greatest gas length [mm] of a floating piston; None where it cannot be told."""
        depth, tube = self.set_depth, self.tube_length
        if depth is None or tube is None or self.depth_from is None or self.depth_to is None:
            return None
        piston = self.piston_length
        counts = self.piston_counts
        if counts and piston is None:
            return None
        longer, shorter = (tube, depth) if self.depth_from == "oil_end" else (depth, tube)
        fewest, most = least(longer) - largest(shorter), largest(longer) - least(shorter)
        if counts and piston is not None:
            fewest, most = fewest - largest(piston), most - least(piston)
        return float(fewest), float(most)


def _refused(name: str, given: object, problem: str, allowed: str) -> InputError:
    return InputError(field=f"place.{name}", given=str(given), problem=problem, allowed=allowed)
