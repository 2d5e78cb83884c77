"""What a seat and its bushing are made of, worked into what stays while sizes are moved.

Constants of materials (stiffness, expansion) enter as the range over their sources, so that the worst case
holds for all of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from fitcheck.bushings.close_in import close_in_share, most_close_in_share
from fitcheck.bushings.temperature import (
    REFERENCE_TEMPERATURE_DEG_C,
    pressed_growth,
    strain_of,
    wrapped_growth,
)
from fitcheck.grades import weakest
from fitcheck.numbers import Span
from fitcheck.rule import span
from schema.bushing_tables import (
    Elastic,
    elastic_constants,
    expansions,
    family_of_material,
    figure,
)
from schema.bushings import BushingSeat, PlainBushing
from schema.dimension import Dimension
from schema.places import largest, least, metals_of
from schema.service import Service

_ANY_POISSON = 0.49  # no solid is above it


class Ends(NamedTuple):
    """Strains of housing, body and shaft, and growth of the fitted bore, at one end of the service."""

    housing: Span
    body: Span | None
    shaft: Span
    growth: Span | None


class Seat(NamedTuple):
    """What the quantities of one seat need beside its sizes."""

    style: str | None
    hub: Elastic | None
    sleeve: Elastic | None
    share: Span
    share_by_lame: bool
    cold: Ends | None
    hot: Ends | None
    friction: Span
    flattening: Span | None
    hub_rz_um: float
    sleeve_rz_um: float
    distance: float | None
    hours: float | None
    bore_measured: bool
    largest_clearance_mm: float | None


def seat_of(place: BushingSeat, part: PlainBushing | None, service: Service) -> Seat:
    """Everything about a seat that stays while its sizes are moved."""
    style = None if part is None else part.style
    elastic = elastic_constants()
    sleeve = None if part is None else _sleeve(part, elastic)
    hub = _hub(place.metal, elastic)
    share, by_lame = _share(place, part, hub, sleeve)
    rough = place.roughness_rz is not None and part is not None and part.roughness_rz is not None
    friction = figure("friction")
    known_friction = place.press_friction
    rises = _rises(service)
    cold, hot = (_ends(place, part, at, share) for at in rises) if rises else (None, None)
    return Seat(
        style=style,
        hub=hub,
        sleeve=sleeve,
        share=share,
        share_by_lame=by_lame,
        cold=cold,
        hot=hot,
        friction=Span(friction.low, friction.middle, friction.high)
        if known_friction is None
        else Span.point(known_friction),
        flattening=_flattening() if rough else None,
        hub_rz_um=place.roughness_rz or 0.0,
        sleeve_rz_um=(part.roughness_rz if part is not None else None) or 0.0,
        distance=place.distance_since,
        hours=place.hours_since,
        bore_measured=place.bore_as_fitted is not None,
        largest_clearance_mm=None
        if place.largest_clearance is None
        else float(place.largest_clearance.lower),
    )


def _flattening() -> Span:
    known = figure("flattening")
    return Span(known.low, known.middle, known.high)


def _rises(service: Service) -> tuple[float, ...]:
    range_ = service.temperature
    if range_ is None:
        return ()
    return tuple(at - REFERENCE_TEMPERATURE_DEG_C for at in (range_.low_deg_c, range_.high_deg_c))


def _hub(metal: str | None, elastic: Mapping[str, Elastic]) -> Elastic:
    """Stiffness of the housing; over both metals where none is told."""
    found = [elastic[one] for one in metals_of(metal)]
    if len(found) == 1:
        return found[0]
    modulus = [one for each in found for one in each.modulus]
    poisson = [one for each in found for one in each.poisson]
    return Elastic(
        (min(modulus), (min(modulus) + max(modulus)) / 2.0, max(modulus)),
        (min(poisson), (min(poisson) + max(poisson)) / 2.0, max(poisson)),
        "; ".join(one.source for one in found),
        weakest(*(one.grade for one in found)),
    )


def _strain(metal: str | None, rise_k: float) -> Span:
    """Thermal strain of a housing or a shaft; over both metals where none is told."""
    found = [strain_of(expansions()[one], rise_k) for one in metals_of(metal)]
    low, high = min(one.low for one in found), max(one.high for one in found)
    return found[0] if len(found) == 1 else Span(low, (low + high) / 2.0, high)


def _sleeve(part: PlainBushing, elastic: Mapping[str, Elastic]) -> Elastic | None:
    """Stiffness of the bushing: the maker's where given, else that of its family."""
    known = elastic.get(part.family)
    modulus = part.elastic_modulus
    if modulus is None or (known is None and part.poisson_ratio is None):
        return known
    ends = float(modulus.lower), modulus.middle, float(modulus.upper)
    poisson = part.poisson_ratio
    if poisson is not None:
        return Elastic(ends, (poisson, poisson, poisson), "as given with the part", "given")
    return Elastic(ends, known.poisson, "as given with the part", "given") if known else None


def _share(
    place: BushingSeat, part: PlainBushing | None, hub: Elastic, sleeve: Elastic | None
) -> tuple[Span, bool]:
    """Share of the interference that closes the bore in; by Lamé only where all it needs is known."""
    around = place.housing_outside_diameter
    if part is None or sleeve is None:
        return Span(0.0, 0.5, most_close_in_share.function(poisson=_ANY_POISSON)), False
    most = most_close_in_share.function(poisson=sleeve.poisson[2])
    outside, inside = part.outside_diameter, part.inside_diameter
    if around is None or outside is None or inside is None:
        return Span(0.0, most / 2.0, most), False
    of = {
        "hub_outside_mm": Span(float(least(around)), around.middle, float(largest(around))),
        "hub_modulus_mpa": Span(*hub.modulus),
        "hub_poisson": Span(*hub.poisson),
        "sleeve_modulus_mpa": Span(*sleeve.modulus),
        "sleeve_poisson": Span(*sleeve.poisson),
    }
    # The diameters move it either way, and by little: its corners are taken.
    corners = [
        span(close_in_share, interface_diameter_mm=d, sleeve_bore_mm=b, **of)
        for d in _ends_of(outside)
        for b in _ends_of(inside)
    ]
    middle = span(close_in_share, interface_diameter_mm=outside.middle, sleeve_bore_mm=inside.middle, **of)
    return Span(min(c.low for c in corners), middle.middle, max(c.high for c in corners)), True


def _ends_of(size: Dimension) -> tuple[float, ...]:
    return tuple(dict.fromkeys((float(least(size)), float(largest(size)))))


def lining_loss(part: PlainBushing) -> tuple[float, float]:
    """Clearance a wrapped bushing's lining takes per kelvin [mm/K], least and most."""
    told = part.lining_material or part.material
    words = told.lower()
    lining = family_of_material(part.lining_material)
    if lining == "bronze":
        return 0.0, 0.0
    if lining == "POM" or "acetal-lined" in words or "pom-lined" in words:
        known = figure("lining_loss_acetal")
        return known.low, known.high
    if "ptfe" in words or part.lining_thickness is not None:
        known = figure("lining_loss_lined")
        return known.low, known.high
    return 0.0, figure("lining_loss_acetal").high  # no lining is told: none, or any


def _ends(place: BushingSeat, part: PlainBushing | None, rise_k: float, share: Span) -> Ends:
    known = expansions()
    housing, shaft = _strain(place.metal, rise_k), _strain(place.shaft_metal, rise_k)
    if part is None or part.family not in known or part.style is None:
        return Ends(housing, None, shaft, None)
    body = strain_of(known[part.family], rise_k)
    outside, inside = nominal(part.outside_diameter), nominal(part.inside_diameter)
    if outside is None or inside is None:
        return Ends(housing, body, shaft, None)
    if part.style == "wrapped":
        least_loss, most_loss = sorted(per_k * rise_k for per_k in lining_loss(part))
        growth = wrapped_growth(
            outside_mm=float(outside),
            inside_mm=float(inside),
            housing=housing,
            body=body,
            lining_mm=(least_loss, most_loss),
        )
    else:
        # Where the bushing comes loose in the heat, less is let go than Lamé has it, down to nothing.
        growth = pressed_growth(
            outside_mm=float(outside),
            inside_mm=float(inside),
            housing=housing,
            body=body,
            share=Span(0.0, share.middle, share.high),
        )
    return Ends(housing, body, shaft, growth)


def nominal(size: Dimension | None) -> Decimal | None:
    """The nominal size, by which tables are read."""
    return None if size is None else size.nominal
