"""Every quantity of a ring in its groove that the sizes allow."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.numbers import Span
from fitcheck.retaining_rings import loads, seat
from fitcheck.retaining_rings.case import Case
from fitcheck.rule import Evaluate


def quantities(case: Case, sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
    """Every quantity that the spans of sizes allow, by name."""
    found: dict[str, Span] = {}
    if not case.asked:
        return found
    section, width, groove = (sizes.get(name) for name in (case.section, "groove_width", "groove_diameter"))
    beside, free = sizes.get(case.beside), sizes.get("free_ring_diameter")
    if section is not None and width is not None:
        found["ring_axial_play"] = evaluate(seat.ring_axial_play, groove_width_mm=width, thickness_mm=section)
    if groove is not None and free is not None:
        outer, inner = (free, groove) if case.place.is_bore else (groove, free)
        found["ring_grip"] = evaluate(seat.ring_grip, outer_mm=outer, inner_mm=inner)
    named_by, size = sizes.get(case.named_by), case.ring.size if case.ring else None
    if named_by is not None and size is not None:
        found["ring_size_difference"] = evaluate(seat.ring_size_difference, found_mm=named_by, size_mm=size)
    if beside is not None and case.style == "e_clip":
        found["e_clip_shaft"] = beside
    if "land_to_the_edge" in sizes:
        found["ring_land"] = sizes["land_to_the_edge"]
    if case.is_wire:
        _shoulder(case, sizes, evaluate, found)
    if groove is not None and beside is not None:
        outer, inner = (groove, beside) if case.place.is_bore else (beside, groove)
        found["ring_groove_diameter"] = groove
        found["ring_groove_depth"] = evaluate(seat.ring_groove_depth, outer_mm=outer, inner_mm=inner)
        if case.pushed:
            _hold(case, sizes, evaluate, found, outer, inner)
    return found


def _shoulder(case: Case, sizes: Mapping[str, Span], evaluate: Evaluate, found: dict[str, Span]) -> None:
    """What a shoulder does for a ring of round wire."""
    shoulder, wire = sizes.get("shoulder_diameter"), sizes.get("wire_diameter")
    beside, groove = sizes.get(case.beside), sizes.get("groove_diameter")
    if shoulder is None or wire is None:
        return
    in_bore = case.place.is_bore
    if beside is not None and in_bore:
        found["trapped_ring"] = evaluate(
            seat.trapped_in_bore, spigot_mm=shoulder, wire_mm=wire, bore_mm=beside
        )
    elif beside is not None:
        found["trapped_ring"] = evaluate(
            seat.trapped_on_shaft, shaft_mm=beside, counterbore_mm=shoulder, wire_mm=wire
        )
    if groove is not None:
        outer, inner = (groove, shoulder) if in_bore else (shoulder, groove)
        found["shoulder_room"] = evaluate(seat.shoulder_room, outer_mm=outer, inner_mm=inner, wire_mm=wire)


def _hold(
    case: Case,
    sizes: Mapping[str, Span],
    evaluate: Evaluate,
    found: dict[str, Span],
    outer: Span,
    inner: Span,
) -> None:
    """Thrust, what groove and ring bear, and how many times the thrust that is."""
    thrust = sizes.get("thrust")
    if thrust is None and "highest_pressure" in sizes and "seal_diameter" in sizes:
        thrust = evaluate(
            loads.ring_thrust,
            pressure_mpa=sizes["highest_pressure"],
            seal_diameter_mm=sizes["seal_diameter"],
        )
    metal = sizes.get("yield_of_the_groove")
    if metal is not None and not case.is_wire:
        found["groove_capacity"] = _groove_bears(case, evaluate, metal, outer, inner)
    if thrust is None:
        return
    found["ring_thrust"] = thrust
    if "groove_capacity" in found:
        found["groove_load_factor"] = evaluate(
            loads.load_factor, capacity_n=found["groove_capacity"], thrust_n=thrust
        )
    bears = _ring_bears(case, evaluate)
    if bears is not None:
        found["ring_load_factor"] = evaluate(loads.load_factor, capacity_n=bears, thrust_n=thrust)


def _groove_bears(case: Case, evaluate: Evaluate, metal: Span, outer: Span, inner: Span) -> Span:
    """The load of the groove by its own area and, where one is printed, by its table: the lower."""
    area = evaluate(loads.groove_area_load, yield_mpa=metal, outer_mm=outer, inner_mm=inner)
    if case.flat is None or case.flat.groove_load_n is None:
        return area
    tabled = evaluate(loads.groove_tabled_load, tabled_n=case.flat.groove_load_n, yield_mpa=metal)
    return evaluate(loads.groove_capacity, tabled_n=tabled, area_n=area)


def _ring_bears(case: Case, evaluate: Evaluate) -> Span | None:
    """The load of the ring, lowered for a chamfer larger than the tabled one."""
    load, row = case.load, case.flat
    if load.load_n is None or row is None:
        return None
    if load.chamfer_mm is None or row.chamfer is None:
        return Span.point(load.load_n)
    return evaluate(
        loads.wide_chamfer_load,
        tabled_n=load.load_n,
        tabled_chamfer_mm=row.chamfer,
        chamfer_mm=load.chamfer_mm,
    )
