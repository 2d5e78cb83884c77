"""What is told of a gas chamber beside its findings: pressures cold, as set and hot, forces, charges.

No pressure at full stroke is worked out here while the piston may meet the gas end: the caller says so.
"""

from __future__ import annotations

from typing import NamedTuple

from fitcheck.gas.case import NOTHING, Case, ambient
from fitcheck.gas.forces import (
    gas_pressure_needed,
    gauge_pressure,
    oil_compression,
    pressure_force,
    pressure_with_gauge,
)
from fitcheck.gas.least import least_gas_volume
from fitcheck.gas.pressures import RULES_OF, GasRules
from fitcheck.gas.quantities import (
    ONE,
    Found,
    Sizes,
    added,
    charge_absolute,
    friction_drop,
    piston_drop,
    rooms_of,
)
from fitcheck.gas.rooms import piston_travel
from fitcheck.gas.volumes import gas_volume_then, length_for_volume, relaxed_ratio, squeezed_ratio
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate, Rule


class Unlocked(NamedTuple):
    """At which temperatures it is proven that the piston stays clear of the gas end."""

    as_set: bool
    hot: bool


def told_of(case: Case, sizes: Sizes, evaluate: Evaluate, unlocked: Unlocked) -> Found:
    """Every quantity that is only told, as far as the sizes allow."""
    rooms = rooms_of(case, sizes, evaluate)
    found: Found = {}
    if "displaced" in rooms:
        found["displaced_volume"] = _in_ml(rooms["displaced"])
        if "floating_piston_bore" in sizes and not case.bladder:
            found["piston_travel"] = evaluate(
                piston_travel,
                volume_mm3=rooms["displaced"],
                bore_diameter_mm=sizes["floating_piston_bore"],
            )
    if "gas_length" in rooms:
        found["gas_length"] = rooms["gas_length"]
    if "gas_volume" in rooms:
        # That of a bladder is as it is told: no rule stands behind it.
        found["bladder_gas" if case.bladder else "gas_volume"] = _in_ml(rooms["gas_volume"])
    if case.gas and "charge" in sizes and "gas_volume" in rooms:
        found |= _charged(case, sizes, rooms, evaluate, unlocked)
    found |= _needed(case, sizes, rooms, evaluate)
    return found


def _in_ml(volume: Span) -> Span:
    return Span(volume.low / 1000.0, volume.middle / 1000.0, volume.high / 1000.0)


def _charged(case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate, unlocked: Unlocked) -> Found:
    charge = charge_absolute(sizes, evaluate)
    air = ambient(sizes.get("ambient_pressure"))
    found: Found = {"charge_absolute": charge}
    if "gauge_volume" in sizes:
        with_gauge = evaluate(
            pressure_with_gauge,
            charge_mpa=charge,
            gas_volume_mm3=rooms["gas_volume"],
            ambient_mpa=air,
            gauge_volume_mm3=sizes["gauge_volume"],
        )
        found["charge_after_gauge"] = evaluate(gauge_pressure, absolute_mpa=with_gauge, ambient_mpa=air)
    found |= _forces("top_out", sizes["charge"], sizes, evaluate)
    highest = None
    for name in ("cold", "as_set", "hot"):
        pressures = pressures_at(name, case, sizes, rooms, evaluate, unlocked)
        found |= pressures
        highest = pressures.get(f"full_stroke_{name}_fast", highest)
    if highest:
        absolute = Span(highest.low + air.low, highest.middle + air.middle, highest.high + air.high)
        found["highest_absolute"] = absolute
        found |= _forces("full_stroke", highest, sizes, evaluate)
        found |= _oil_gives(case, sizes, highest, evaluate)
        if case.bladder:
            found["bladder_pressure_ratio"] = Span(
                absolute.low / charge.high, absolute.middle / charge.middle, absolute.high / charge.low
            )
    return found


def pressures_at(
    name: str,
    case: Case,
    sizes: Sizes,
    rooms: Found,
    evaluate: Evaluate,
    unlocked: Unlocked,
    *,
    kinds: tuple[str, ...] = ("charge", "slow", "fast"),
) -> Found:
    """Charge at top-out and pressures at full stroke, slow and fast, gauge, at one temperature."""
    thermal, volume, temperature = _state(name, case, sizes, rooms, evaluate)
    if case.gas is None or thermal is None or volume is None or temperature is None:
        return {}
    air = ambient(sizes.get("ambient_pressure"))
    charge = charge_absolute(sizes, evaluate)
    rules: GasRules = RULES_OF[case.gas]

    def gauge(rule: Rule, stroke: Span) -> Span:
        def at(bench: Span | float, hot: float) -> Span:
            absolute = evaluate(
                rule,
                charge_mpa=charge,
                thermal_ratio=thermal,
                stroke_ratio=stroke,
                set_temperature_deg_c=bench,
                temperature_deg_c=hot,
            )
            return evaluate(gauge_pressure, absolute_mpa=absolute, ambient_mpa=air)

        if name != "as_set":
            return at(sizes["set_temperature"], temperature)
        # As set the temperature is one and the same before and after; a real gas still feels which.
        low, middle, high = (at(bench, bench) for bench in sizes["set_temperature"])
        return Span(min(low.low, high.low), middle.middle, max(low.high, high.high))

    found: Found = {}
    if "charge" in kinds and name != "as_set":
        found[f"charge_{name}"] = gauge(rules.slow, ONE)
    free = unlocked.hot if case.hot is not None else unlocked.as_set and name == "as_set"
    if free and "displaced" in rooms:
        stroke = evaluate(squeezed_ratio, gas_volume_mm3=volume, taken_volume_mm3=rooms["displaced"])
        for how, rule in (("slow", rules.slow), ("fast", rules.fast)):
            if how in kinds:
                found[f"full_stroke_{name}_{how}"] = gauge(rule, stroke)
    return found


def _state(
    name: str, case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate
) -> tuple[Span | None, Span | None, float | None]:
    """Thermal ratio, gas volume at full extension, and temperature."""
    volume = rooms["gas_volume"]
    if name == "as_set":
        return ONE, volume, sizes["set_temperature"].middle
    if name == "hot" and "hot_growth" in rooms:
        growth = rooms["hot_growth"]
        thermal = evaluate(squeezed_ratio, gas_volume_mm3=volume, taken_volume_mm3=growth)
        return thermal, evaluate(gas_volume_then, gas_volume_mm3=volume, taken_volume_mm3=growth), case.hot
    if name == "cold" and "cold_shrinkage" in rooms:
        shrinkage = rooms["cold_shrinkage"]
        thermal = evaluate(relaxed_ratio, gas_volume_mm3=volume, given_volume_mm3=shrinkage)
        given = Span(-shrinkage.high, -shrinkage.middle, -shrinkage.low)
        return thermal, evaluate(gas_volume_then, gas_volume_mm3=volume, taken_volume_mm3=given), case.cold
    return None, None, None


def _forces(where: str, pressure: Span, sizes: Sizes, evaluate: Evaluate) -> Found:
    names = (("shaft_force", "shaft_diameter"), ("cap_thrust", "seal_diameter"))
    return {
        f"{force}_{where}": evaluate(pressure_force, pressure_mpa=pressure, diameter_mm=sizes[size])
        for force, size in names
        if size in sizes
    }


def _oil_gives(case: Case, sizes: Sizes, highest: Span, evaluate: Evaluate) -> Found:
    """Travel that the oil's own compression adds."""
    if case.bladder or case.bulk_modulus is None or "oil_volume" not in sizes:
        return {}
    rise = Span(*(max(0.0, high - low) for high, low in zip(highest, reversed(sizes["charge"]), strict=True)))
    room = evaluate(
        oil_compression,
        oil_volume_mm3=sizes["oil_volume"],
        pressure_rise_mpa=rise,
        bulk_modulus_mpa=case.bulk_modulus,
    )
    bore = sizes["floating_piston_bore"]
    return {"oil_compression_travel": evaluate(piston_travel, volume_mm3=room, bore_diameter_mm=bore)}


def _needed(case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate) -> Found:
    """Smallest charges against cavitation, as set, and the smallest gas length for a limit of pressure."""
    found: Found = {}
    drop = piston_drop(sizes, evaluate)
    if drop:
        valves = [("without", NOTHING)]
        if "base_valve_pressure_drop" in sizes:
            valves.append(("with", sizes["base_valve_pressure_drop"]))
        for which, base in valves:
            cold = evaluate(
                gas_pressure_needed,
                piston_drop_mpa=drop,
                base_drop_mpa=base,
                friction_drop_mpa=friction_drop(sizes, evaluate),
            )
            found[f"gas_needed_{which}_base_valve"] = cold
            as_set = _set_for(cold, case, sizes, rooms, evaluate)
            if as_set:
                found[f"charge_needed_{which}_base_valve"] = as_set
    shortest = _shortest(case, sizes, rooms, evaluate)
    if shortest:
        found["shortest_gas_length"] = shortest
    return found


def _set_for(cold_gauge: Span, case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate) -> Span | None:
    """The charge as set that leaves a gauge pressure at top-out in the cold."""
    if case.gas is None or case.cold is None or not {"gas_volume", "cold_shrinkage"} <= rooms.keys():
        return None
    air = ambient(sizes.get("ambient_pressure"))
    needed = Span(cold_gauge.low + air.low, cold_gauge.middle + air.middle, cold_gauge.high + air.high)
    relaxed = evaluate(
        relaxed_ratio, gas_volume_mm3=rooms["gas_volume"], given_volume_mm3=rooms["cold_shrinkage"]
    )
    absolute = evaluate(
        RULES_OF[case.gas].slow,
        charge_mpa=needed,
        thermal_ratio=Span(1.0 / relaxed.high, 1.0 / relaxed.middle, 1.0 / relaxed.low),
        stroke_ratio=ONE,
        set_temperature_deg_c=case.cold,
        temperature_deg_c=sizes["set_temperature"],
    )
    return evaluate(gauge_pressure, absolute_mpa=absolute, ambient_mpa=air)


def _shortest(case: Case, sizes: Sizes, rooms: Found, evaluate: Evaluate) -> Span | None:
    limit = case.place.pressure_limit
    if limit is None or case.bladder or case.gas is None or case.hot is None or "charge" not in sizes:
        return None
    if not {"displaced", "hot_growth"} <= rooms.keys() or "floating_piston_bore" not in sizes:
        return None
    air = ambient(sizes.get("ambient_pressure"))
    corners = zip(
        charge_absolute(sizes, evaluate),
        rooms["displaced"],
        rooms["hot_growth"],
        reversed(sizes["set_temperature"]),  # set colder, the same charge is more gas
        reversed(air),
        strict=True,
    )
    volumes = [
        least_gas_volume(
            gas=case.gas,
            charge_mpa=charge,
            displaced_volume_mm3=displaced,
            oil_growth_mm3=growth,
            set_temperature_deg_c=bench,
            temperature_deg_c=case.hot,
            limit_mpa=float(limit.lower) + around,
        )
        for charge, displaced, growth, bench, around in corners
    ]
    return evaluate(
        length_for_volume,
        gas_volume_mm3=Span(*volumes),
        added_volume_mm3=added(sizes),
        lost_volume_mm3=sizes.get("intrusion_volume", NOTHING),
        bore_diameter_mm=sizes["floating_piston_bore"],
    )
