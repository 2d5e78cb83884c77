"""What a question about a gas chamber is worked out from: sizes by name, gas, oil, metal, temperatures."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from fitcheck.inquiry import KnownSizes, known
from fitcheck.numbers import Span
from schema.amounts import Amount
from schema.chambers import METALS, GasChamber
from schema.fit import Fit
from schema.materials import is_gas
from schema.oils import spread
from schema.units import STANDARD_ATMOSPHERE_MPA

NOTHING = Span(0.0, 0.0, 0.0)
# Sizes of the model under the names a job card gives them.
_NAMES = {
    **{
        name: name
        for name in (
            *("shaft_diameter", "stroke", "set_depth", "tube_length", "piston_length", "nose_length"),
            *("oil_side_room", "dish_volume", "pocket_volume", "intrusion_volume", "bladder_volume"),
            *("bladder_least_volume", "charge", "set_temperature", "ambient_pressure", "oil_volume"),
            *("seal_diameter", "gauge_volume", "main_bore_diameter", "piston_force"),
            *("base_valve_pressure_drop", "piston_friction"),
        )
    },
    "bore_diameter": "floating_piston_bore",
}
# What decides nothing, or is a limit, or moves nothing that counts, needs no tolerance.
EXEMPT = frozenset({"ambient_pressure", "gauge_volume", "seal_diameter", "bladder_least_volume"})
# Whether the piston, or bladder, stays clear at full stroke hangs on these; its pressures on these as well.
MAY_LOCK = (
    *("shaft_diameter", "stroke", "floating_piston_bore", "set_depth", "tube_length", "piston_length"),
    *("nose_length", "oil_volume", "set_temperature", "bladder_volume"),
)
MOVES_PRESSURE = (*MAY_LOCK, "charge", "dish_volume", "pocket_volume", "intrusion_volume")
# A room nobody has measured: own judgement, told in every answer that uses it.
_ROOM_TEMPERATURE = Amount(Decimal(20), Decimal(15), Decimal(25), "20 ±5 degC", "degC")


class Case(NamedTuple):
    """A chamber with everything but its sizes settled; what is None was not told and cannot be taken.

    ``hot`` and ``cold`` are the ends of the service, the temperature of setting included.
    """

    place: GasChamber
    known: KnownSizes
    gas: str | None
    oil_expansion: Span | None
    bulk_modulus: Span | None
    metal_expansion: Span
    hot: float | None
    cold: float | None
    taken: tuple[str, ...]
    gases_differ: bool = False

    @property
    def bladder(self) -> bool:
        """Whether a bladder parts gas from oil."""
        return self.place.separator == "bladder"


def case_of(fit: Fit) -> Case:
    """Everything that is told of a chamber, and what was taken where nothing is."""
    place = fit.place
    if not isinstance(place, GasChamber):
        raise TypeError(f"a gas chamber is expected, not a {place.kind}")
    sizes = known(place, _NAMES)
    taken = []
    if "set_temperature" not in sizes.sizes:
        sizes.sizes["set_temperature"] = _ROOM_TEMPERATURE
        taken.append("depth and charge set at 20 ±5 degC, since no temperature is told (own judgement)")
    if place.ambient_pressure is None:
        taken.append("standard atmosphere around, 0.101325 MPa absolute (CGPM 1954)")
    gas, differ = _gas(place, fit.service.fluid)
    expansion, modulus, told = _oil(place, fit.service.fluid)
    metal, told_metal = _metal(place)
    hot, cold = _ends(fit, sizes)
    return Case(
        place,
        sizes,
        gas,
        expansion,
        modulus,
        metal,
        hot,
        cold,
        (*taken, *told, *told_metal, *_nothing_told(place)),
        differ,
    )


def ambient(sizes_span: Span | None) -> Span:
    """The air around: as told, or the standard atmosphere."""
    return Span.point(float(STANDARD_ATMOSPHERE_MPA)) if sizes_span is None else sizes_span


def _gas(place: GasChamber, fluids: tuple[str, ...]) -> tuple[str | None, bool]:
    """The gas as the place names it, else as its service does; and whether the two differ."""
    told = [fluid for fluid in fluids if is_gas(fluid)]
    if place.gas:
        return place.gas, bool(told) and place.gas not in told
    return (told[0], False) if len(told) == 1 else (None, False)


def _oil(place: GasChamber, fluids: tuple[str, ...]) -> tuple[Span | None, Span | None, tuple[str, ...]]:
    """Expansion and stiffness of the oil, and what was taken for them."""
    oils = [fluid for fluid in fluids if not is_gas(fluid)]
    names = oils or ["mineral_oil"]
    taken = [] if oils or place.oil_volume is None else ["mineral oil, since no oil is named"]
    modulus = [one for name in names if (one := spread("bulk_modulus", name)) is not None]
    stiffness = (
        Span(modulus[0].low, (modulus[0].low + modulus[0].high) / 2, modulus[0].high) if modulus else None
    )
    if place.oil_expansion_per_k is not None:
        return Span.point(place.oil_expansion_per_k), stiffness, tuple(taken)
    found = [one for name in names if (one := spread("expansion", name)) is not None]
    if len(found) < len(names):
        return None, stiffness, tuple(taken)
    low, high = min(one.low for one in found), max(one.high for one in found)
    if place.oil_volume is not None:
        taken.append(f"oil expands by {low:g} to {high:g} per K, the worse end counts ({found[0].source})")
    return Span(low, (low + high) / 2, high), stiffness, tuple(taken)


def _metal(place: GasChamber) -> tuple[Span, tuple[str, ...]]:
    """Linear expansion of the body; over both metals where none is told."""
    names = [place.metal] if place.metal else list(METALS)
    found = [one for name in names if (one := spread("linear_expansion", name)) is not None]
    low, high = min(one.low for one in found), max(one.high for one in found)
    told = () if place.metal else ("body of aluminium or steel, since no metal is told",)
    return Span(low, (low + high) / 2, high), told


def _ends(fit: Fit, sizes: KnownSizes) -> tuple[float | None, float | None]:
    """Hottest and coldest: of the service, and of the bench where it was set."""
    service = fit.service.temperature
    if service is None:
        return None, None
    bench = sizes.sizes["set_temperature"].middle
    return max(service.high_deg_c, bench), min(service.low_deg_c, bench)


def _nothing_told(place: GasChamber) -> tuple[str, ...]:
    """What is taken as absent, in one line."""
    absent = [
        ("no dish in the piston", place.dish_volume, "floating_piston"),
        ("no pocket in the cap", place.pocket_volume, ""),
        ("nothing that takes gas room", place.intrusion_volume, ""),
        ("no nose that stops the piston", place.nose_length, "floating_piston"),
        ("a floating piston without friction", place.piston_friction, "floating_piston"),
    ]
    told = [words for words, given, of in absent if given is None and of in ("", place.separator)]
    told.append("oil full and without air, a body that does not give way, no gas lost")
    return (", ".join(told),)
