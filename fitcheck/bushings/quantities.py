"""Every quantity of a bushing in its seat, as far as the sizes given allow it."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.bushings.clearance import pressed_bore, running_clearance, seat_room, wrapped_bore
from fitcheck.bushings.close_in import flattened_interference, shared_close_in
from fitcheck.bushings.press_fit import (
    hub_hoop_stress,
    hub_yield_stress,
    interface_pressure,
    press_force,
    seat_interference,
)
from fitcheck.bushings.seat import Ends, Seat
from fitcheck.bushings.temperature import bore_at_temperature, size_at_temperature
from fitcheck.bushings.wear import remaining_use, wear_left, wear_since
from fitcheck.inquiry import Quantities
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate


def quantities_of(seat: Seat, *, telling: bool, stress: bool) -> Quantities:
    """The function that gives every quantity of this seat that a set of sizes allows.

    ``telling`` adds what is only told beside (forces, wear, life); ``stress`` what yield is judged by. Both
    are left out where nothing is judged by them, since a judgement asks many times.
    """

    def quantities(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
        found: dict[str, Span] = {}
        _interference(seat, sizes, evaluate, found)
        if telling or stress:
            _stress(seat, sizes, evaluate, found)
        _bore(seat, sizes, evaluate, found)
        _clearance(seat, sizes, evaluate, found)
        if telling:
            _flattened(seat, evaluate, found)
            _wear(seat, sizes, evaluate, found)
        if "seat_length" in sizes and "bushing_length" in sizes:
            found["seat_room"] = evaluate(
                seat_room, seat_length_mm=sizes["seat_length"], bushing_length_mm=sizes["bushing_length"]
            )
        return found

    return quantities


def _outside(sizes: Mapping[str, Span]) -> Span | None:
    """The outside diameter that counts: of a wrapped bushing that of its ring gauge."""
    return sizes.get("ring_gauge_diameter", sizes.get("bushing_outside_diameter"))


def _interference(seat: Seat, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """Interference as fitted and at both ends of the service."""
    housing, outside = sizes.get("housing_bore"), _outside(sizes)
    if housing is not None:
        found["housing_size"] = housing
    if outside is None or housing is None:
        return
    found["seat_interference"] = evaluate(
        seat_interference, outside_diameter_mm=outside, housing_bore_mm=housing
    )
    for name, end in (("cold_interference", seat.cold), ("hot_interference", seat.hot)):
        if end is not None and end.body is not None:
            found[name] = evaluate(
                seat_interference,
                outside_diameter_mm=evaluate(size_at_temperature, size_mm=outside, strain=end.body),
                housing_bore_mm=evaluate(size_at_temperature, size_mm=housing, strain=end.housing),
            )


def _flattened(seat: Seat, evaluate: Evaluate, found: dict[str, Span]) -> None:
    """What roughness leaves of the interference, by both sources."""
    fitted = found.get("seat_interference")
    if seat.flattening is not None and fitted is not None:
        found["interference_left"] = evaluate(
            flattened_interference,
            interference_mm=fitted,
            share=seat.flattening,
            hub_rz_um=seat.hub_rz_um,
            sleeve_rz_um=seat.sleeve_rz_um,
        )


def _stress(seat: Seat, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """Pressure and press force as fitted, stress of the housing at the most of the service."""
    housing, outside, around = (
        sizes.get("housing_bore"),
        _outside(sizes),
        sizes.get("housing_outside_diameter"),
    )
    fitted, bore = found.get("seat_interference"), sizes.get("bushing_bore")
    if housing is None or outside is None or around is None or fitted is None:
        return
    if bore is None and "bushing_wall" in sizes:
        bore = evaluate(wrapped_bore, housing_bore_mm=housing, wall_mm=sizes["bushing_wall"])
    hub, sleeve = seat.hub, seat.sleeve
    if bore is None or hub is None or sleeve is None:
        return

    def pressure(interference: Span) -> Span:
        return evaluate(
            interface_pressure,
            interference_mm=interference,
            hub_bore_mm=housing,
            hub_outside_mm=around,
            hub_modulus_mpa=Span(*hub.modulus),
            hub_poisson=Span(*hub.poisson),
            sleeve_outside_mm=outside,
            sleeve_bore_mm=bore,
            sleeve_modulus_mpa=Span(*sleeve.modulus),
            sleeve_poisson=Span(*sleeve.poisson),
        )

    found["interface_pressure"] = at = pressure(fitted)
    if "bushing_length" in sizes:
        found["press_force"] = evaluate(
            press_force,
            interface_diameter_mm=housing,
            length_mm=sizes["bushing_length"],
            pressure_mpa=at,
            friction=seat.friction,
        )
    ends = (found.get(name, fitted) for name in ("cold_interference", "hot_interference"))
    most = Span(*map(max, fitted, *ends))
    at_most = at if most == fitted else pressure(most)
    for name, rule in (("hoop_stress", hub_hoop_stress), ("seat_stress", hub_yield_stress)):
        found[name] = evaluate(rule, pressure_mpa=at_most, hub_bore_mm=housing, hub_outside_mm=around)


def _bore(seat: Seat, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """The fitted bore: as measured, else by the wall, else by the close-in."""
    fitted = sizes.get("fitted_bore")
    housing, wall, delivered = (sizes.get(one) for one in ("housing_bore", "bushing_wall", "bushing_bore"))
    interference = found.get("seat_interference")
    if seat.style == "wrapped":
        if fitted is None and housing is not None and wall is not None:
            fitted = evaluate(wrapped_bore, housing_bore_mm=housing, wall_mm=wall)
    elif interference is not None and delivered is not None:
        closed = evaluate(shared_close_in, share=seat.share, interference_mm=interference)
        found["bore_close_in"] = closed
        if fitted is None:
            fitted = evaluate(pressed_bore, delivered_bore_mm=delivered, close_in_mm=closed)
    if fitted is not None:
        found["fitted_bore"] = fitted


def _clearance(seat: Seat, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """Running clearance as fitted and at both ends of the service."""
    bore, shaft = found.get("fitted_bore"), sizes.get("shaft_diameter")
    if bore is not None:
        found["bore_wear"] = bore
    if shaft is not None:
        found["shaft_wear"] = shaft
    if bore is None or shaft is None:
        return
    found["running_clearance"] = evaluate(running_clearance, fitted_bore_mm=bore, shaft_diameter_mm=shaft)
    for when, end in (("cold", seat.cold), ("hot", seat.hot)):
        moved = None if end is None else _bore_at(seat, end, when, bore, sizes, evaluate, found)
        if end is not None and moved is not None:
            found[f"{when}_clearance"] = evaluate(
                running_clearance,
                fitted_bore_mm=moved,
                shaft_diameter_mm=evaluate(size_at_temperature, size_mm=shaft, strain=end.shaft),
            )


def _bore_at(
    seat: Seat,
    end: Ends,
    when: str,
    bore: Span,
    sizes: Mapping[str, Span],
    evaluate: Evaluate,
    found: Mapping[str, Span],
) -> Span | None:
    """The bore at one end of the service: a solid one pressed anew there, any other by its growth."""
    interference = found.get(f"{when}_interference")
    if seat.style != "wrapped" and not seat.bore_measured and end.body is not None and interference:
        return evaluate(
            pressed_bore,
            delivered_bore_mm=evaluate(size_at_temperature, size_mm=sizes["bushing_bore"], strain=end.body),
            close_in_mm=evaluate(shared_close_in, share=seat.share, interference_mm=interference),
        )
    if end.growth is None:
        return None
    return evaluate(bore_at_temperature, fitted_bore_mm=bore, growth_mm=end.growth)


def _wear(seat: Seat, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """Wear since an earlier measurement, what is left to the maker's limit, and how long that lasts."""
    clearance, limit, left = found.get("running_clearance"), seat.largest_clearance_mm, None
    if clearance is not None and limit is not None:
        found["wear_left"] = left = evaluate(wear_left, largest_clearance_mm=limit, clearance_mm=clearance)
    before, shaft_before = sizes.get("bore_before"), sizes.get("shaft_before")
    if clearance is None or not seat.bore_measured or (before is None and shaft_before is None):
        return
    bore, shaft = sizes["fitted_bore"], sizes["shaft_diameter"]
    # What was not measured before is taken not to have changed, whatever its size is.
    if before is None:
        bore = before = Span.point(bore.middle)
    if shaft_before is None:
        shaft = shaft_before = Span.point(shaft.middle)
    found["wear_since"] = worn = evaluate(
        wear_since,
        fitted_bore_mm=bore,
        bore_before_mm=before,
        shaft_diameter_mm=shaft,
        shaft_before_mm=shaft_before,
    )
    for name, use in (("remaining_distance", seat.distance), ("remaining_hours", seat.hours)):
        if left is not None and use is not None:
            found[name] = evaluate(remaining_use, use=use, wear_left_mm=left, wear_mm=worn)
