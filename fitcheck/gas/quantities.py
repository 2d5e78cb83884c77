"""What is judged of a gas chamber: travel, clearance, room, the pressure that keeps oil from cavitating.

Cheap on purpose: advice asks these many times over. What is only told lies in ``fitcheck.gas.told``.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.gas.case import NOTHING, Case, ambient
from fitcheck.gas.forces import (
    absolute_pressure,
    friction_pressure,
    gauge_pressure,
    low_side_pressure,
    piston_pressure_drop,
)
from fitcheck.gas.pressures import RULES_OF
from fitcheck.gas.rooms import displaced_volume, gas_length, oil_growth, oil_side_clearance, travel_left
from fitcheck.gas.volumes import bladder_room_left, gas_volume, relaxed_ratio
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from schema.chambers import GasChamber

Sizes = Mapping[str, Span]
Found = dict[str, Span]
ONE = Span(1.0, 1.0, 1.0)


def judged_of(case: Case, sizes: Sizes, evaluate: Evaluate) -> Found:
    """Every quantity that may be judged, as far as the sizes allow."""
    found: Found = {}
    rooms = rooms_of(case, sizes, evaluate)
    displaced, hot, bore = rooms.get("displaced"), rooms.get("hot_growth"), sizes.get("floating_piston_bore")
    if case.bladder:
        least = sizes.get("bladder_least_volume")
        if displaced and hot and least and "gas_volume" in rooms:
            found["bladder_room_left"] = evaluate(
                bladder_room_left,
                bladder_volume_mm3=rooms["gas_volume"],
                least_volume_mm3=least,
                displaced_volume_mm3=displaced,
                oil_growth_mm3=hot,
            )
    elif displaced and bore and "gas_length" in rooms:
        for name, growth in (("travel_left_as_set", NOTHING), ("travel_left_hot", hot)):
            if growth:
                found[name] = evaluate(
                    travel_left,
                    gas_length_mm=rooms["gas_length"],
                    nose_length_mm=sizes.get("nose_length", NOTHING),
                    displaced_volume_mm3=displaced,
                    oil_growth_mm3=growth,
                    bore_diameter_mm=bore,
                )
    if "oil_side_room" in sizes and bore and "cold_shrinkage" in rooms:
        found["oil_side_clearance"] = evaluate(
            oil_side_clearance,
            oil_side_room_mm=_oil_side_room(case, sizes),
            farther_mm=_farther(case, sizes),
            oil_shrinkage_mm3=rooms["cold_shrinkage"],
            bore_diameter_mm=bore,
        )
    if "charge" in sizes:
        found["charge"] = sizes["charge"]
    low = _low_side(case, sizes, rooms, evaluate)
    if low:
        found["low_side_pressure"] = low
    return found


def rooms_of(case: Case, sizes: Sizes, evaluate: Evaluate) -> Found:
    """Lengths and volumes: displaced, gas_length, gas_volume, hot_growth, cold_shrinkage."""
    rooms: Found = {}
    if "shaft_diameter" in sizes and "stroke" in sizes:
        rooms["displaced"] = evaluate(
            displaced_volume, shaft_diameter_mm=sizes["shaft_diameter"], stroke_mm=sizes["stroke"]
        )
    length = None if case.bladder else _gas_length(case, sizes, evaluate)
    if length:
        rooms["gas_length"] = length
        if "floating_piston_bore" in sizes:
            rooms["gas_volume"] = evaluate(
                gas_volume,
                bore_diameter_mm=sizes["floating_piston_bore"],
                gas_length_mm=length,
                added_volume_mm3=added(sizes),
                lost_volume_mm3=sizes.get("intrusion_volume", NOTHING),
            )
    elif case.bladder and "bladder_volume" in sizes:
        rooms["gas_volume"] = sizes["bladder_volume"]
    bench = sizes["set_temperature"]
    if "oil_volume" in sizes and case.oil_expansion and case.hot is not None and case.cold is not None:
        hot, cold = case.hot, case.cold
        rises = (
            ("hot_growth", Span(hot - bench.high, hot - bench.middle, hot - bench.low)),
            ("cold_shrinkage", Span(bench.low - cold, bench.middle - cold, bench.high - cold)),
        )
        for name, rise in rises:
            rooms[name] = evaluate(
                oil_growth,
                oil_volume_mm3=sizes["oil_volume"],
                oil_expansion_per_k=case.oil_expansion,
                metal_expansion_per_k=case.metal_expansion,
                temperature_rise_k=rise,
            )
    return rooms


def _farther(case: Case, sizes: Sizes) -> Span:
    """How far the piston may stand from its set depth, away from the oil: the room it has goes with that.

    A depth that was read moves nothing: the room belongs to the piston where it stands.
    """
    depth = sizes.get("set_depth")
    if depth is None:
        return NOTHING
    low, high = depth.low - depth.middle, depth.high - depth.middle
    return Span(low, 0.0, high) if case.place.depth_from == "oil_end" else Span(-high, 0.0, -low)


def room_of_another_depth(place: GasChamber) -> bool:
    """Whether the room toward the oil is drawn while the depth it belongs to was read anew."""
    depth, room = place.set_depth, place.oil_side_room
    return depth is not None and room is not None and depth.measured and not room.measured


def room_is_bounded(place: GasChamber) -> bool:
    """Whether such a room is bounded all the same: read from the oil end, it is no more than the depth."""
    return room_of_another_depth(place) and place.depth_from == "oil_end" and place.depth_to is not None


def _oil_side_room(case: Case, sizes: Sizes) -> Span:
    """Way toward the oil; where it was drawn for another depth, anything up to the oil end of the tube."""
    room = sizes["oil_side_room"]
    if not room_is_bounded(case.place):
        return room
    most = sizes["set_depth"].high
    if case.place.depth_to == "far_face" and "piston_length" in sizes:
        most -= sizes["piston_length"].low
    most = max(0.0, most)
    return Span(0.0, min(room.middle, most), most)


def added(sizes: Sizes) -> Span:
    """Room that dish and pockets add."""
    dish, pocket = sizes.get("dish_volume", NOTHING), sizes.get("pocket_volume", NOTHING)
    return Span(dish.low + pocket.low, dish.middle + pocket.middle, dish.high + pocket.high)


def _gas_length(case: Case, sizes: Sizes, evaluate: Evaluate) -> Span | None:
    place = case.place
    if place.depth_from is None or place.depth_to is None:
        return None
    names = ("tube_length", "set_depth") if place.depth_from == "oil_end" else ("set_depth", "tube_length")
    if not all(name in sizes for name in names) or (place.piston_counts and "piston_length" not in sizes):
        return None
    return evaluate(
        gas_length,
        longer_mm=sizes[names[0]],
        shorter_mm=sizes[names[1]],
        piston_length_mm=sizes["piston_length"] if place.piston_counts else NOTHING,
    )


def charge_absolute(sizes: Sizes, evaluate: Evaluate) -> Span:
    """The charge as the laws of gases take it."""
    return evaluate(
        absolute_pressure, gauge_mpa=sizes["charge"], ambient_mpa=ambient(sizes.get("ambient_pressure"))
    )


def cold_charge(case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate) -> Span | None:
    """The charge at top-out in the cold, gauge: the oil has given up room and the gas is colder."""
    if case.gas is None or case.cold is None or "charge" not in sizes:
        return None
    if "gas_volume" not in rooms or "cold_shrinkage" not in rooms:
        return None
    absolute = evaluate(
        RULES_OF[case.gas].slow,
        charge_mpa=charge_absolute(sizes, evaluate),
        thermal_ratio=evaluate(
            relaxed_ratio,
            gas_volume_mm3=rooms["gas_volume"],
            given_volume_mm3=rooms["cold_shrinkage"],
        ),
        stroke_ratio=ONE,
        set_temperature_deg_c=sizes["set_temperature"],
        temperature_deg_c=case.cold,
    )
    return evaluate(gauge_pressure, absolute_mpa=absolute, ambient_mpa=ambient(sizes.get("ambient_pressure")))


def piston_drop(sizes: Sizes, evaluate: Evaluate) -> Span | None:
    """Pressure that the damping piston makes at its largest force; None where that is not told."""
    if not {"piston_force", "main_bore_diameter", "shaft_diameter"} <= sizes.keys():
        return None
    return evaluate(
        piston_pressure_drop,
        piston_force_n=sizes["piston_force"],
        main_bore_mm=sizes["main_bore_diameter"],
        shaft_diameter_mm=sizes["shaft_diameter"],
    )


def friction_drop(sizes: Sizes, evaluate: Evaluate) -> Span:
    """What the floating piston's seal may keep from the oil."""
    if "piston_friction" not in sizes or "floating_piston_bore" not in sizes:
        return NOTHING
    return evaluate(
        friction_pressure,
        piston_friction_n=sizes["piston_friction"],
        bore_diameter_mm=sizes["floating_piston_bore"],
    )


def _low_side(case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate) -> Span | None:
    drop = piston_drop(sizes, evaluate)
    gas = cold_charge(case, sizes, rooms, evaluate) if drop else None
    if drop is None or gas is None:
        return None
    return evaluate(
        low_side_pressure,
        gas_mpa=gas,
        friction_drop_mpa=friction_drop(sizes, evaluate),
        piston_drop_mpa=drop,
        base_drop_mpa=sizes.get("base_valve_pressure_drop", NOTHING),
    )
