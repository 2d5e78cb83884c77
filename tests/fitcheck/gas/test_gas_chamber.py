"""Verdicts on gas chambers: the three answers, lock, what is missing, what is told and what is not."""

from __future__ import annotations

import math
import random
import re

import pytest

from fitcheck.gas.case import case_of
from fitcheck.gas.inquiry import inquire
from fitcheck.gas.quantities import judged_of
from fitcheck.gas.told import Unlocked, told_of
from fitcheck.numbers import Span
from fitcheck.rule import span
from schema.finding import Status, Verdict
from schema.reference import published_reference
from tests.fitcheck.gas.chambers import BLADDER, CAVITATION, RESERVOIR, SERVICE, SHORT, chamber, judged

FULL = {f"full_stroke_{name}_{how}" for name in ("cold", "as_set", "hot") for how in ("slow", "fast")}


def statuses(verdict: Verdict) -> dict[str, Status]:
    return {one.rule: one.status for one in verdict.findings}


def told(verdict: Verdict) -> dict[str, Span]:
    return {one.rule: Span(one.low, one.middle, one.high) for one in verdict.told}


def test_a_chamber_with_room_fits() -> None:
    """Travel left hot, clearance cold: proven, and pressures, forces and charges are told."""
    verdict = judged(chamber(RESERVOIR))
    assert verdict.status is Status.FITS
    assert set(statuses(verdict)) == {"travel_left_as_set", "travel_left_hot", "oil_side_clearance"}
    assert set(told(verdict)) >= FULL | {
        "charge_cold",
        "charge_hot",
        "cap_thrust_full_stroke",
        "charge_after_gauge",
    }


def test_the_band_lies_between_slow_and_fast_and_rises_with_heat() -> None:
    """Slow is below fast, cold below as set below hot; the absolute value is the gauge value and the air."""
    found = told(judged(chamber(RESERVOIR)))
    for name in ("cold", "as_set", "hot"):
        assert found[f"full_stroke_{name}_slow"].middle < found[f"full_stroke_{name}_fast"].middle
    fast = [found[f"full_stroke_{name}_fast"].middle for name in ("cold", "as_set", "hot")]
    assert fast == sorted(fast)
    highest = found["highest_absolute"].middle
    assert highest == pytest.approx(found["full_stroke_hot_fast"].middle + 0.101325)


def test_certain_lock_is_refused_and_no_pressure_is_told() -> None:
    """A piston set too deep meets the gas end as set: refused, and nothing of full stroke is told."""
    verdict = judged(chamber(SHORT, set_depth="58 ±0.05 mm"))
    assert verdict.status is Status.DOES_NOT_FIT
    assert statuses(verdict)["travel_left_as_set"] is Status.DOES_NOT_FIT
    assert "hydraulic lock" in verdict.next_step
    assert not {name for name in told(verdict) if "full_stroke" in name or "highest" in name}
    assert any("hydraulic lock is not excluded" in one for one in verdict.not_asked)


def test_example_d_is_open_at_60_and_refused_at_90_degrees() -> None:
    """The same chamber: fits to 25 degC, open at 60 (the oils' spread straddles it), certain lock at 90."""
    for hot, expected in ((25, Status.FITS), (60, Status.NOT_PROVEN), (90, Status.DOES_NOT_FIT)):
        verdict = judged(chamber(SHORT, {**SERVICE, "temperature": f"10..{hot} degC"}))
        assert statuses(verdict)["travel_left_hot"] is expected, hot
        assert bool(FULL & set(told(verdict))) == (expected is Status.FITS)


def test_an_oil_with_a_figure_of_its_own_narrows_the_answer() -> None:
    """With the oil's data sheet at 6.5e-4 example D keeps 1 mm at 60 degC; with 9.0e-4 it is open."""
    for alpha, expected in (("6.5e-4", Status.FITS), ("9.0e-4", Status.NOT_PROVEN)):
        verdict = judged(chamber(SHORT, oil_expansion_per_k=alpha, metal="aluminium"))
        assert statuses(verdict)["travel_left_hot"] is expected


def test_between_nothing_and_a_millimetre_it_is_left_open() -> None:
    """Free of lock by geometry, but less than 1 mm left hot: a millimetre of own judgement leaves it open."""
    verdict = judged(chamber(SHORT, tube_length="82.0 ±0.05 mm"))
    finding = verdict.of("travel_left_hot")
    assert finding is not None
    assert finding.low is not None
    assert 0.0 < finding.low < 1.0
    assert finding.status is Status.NOT_PROVEN
    assert "full_stroke_hot_slow" in told(verdict)
    # So little gas is left that the fast pressure is beyond the equation: said, not told.
    assert "full_stroke_hot_fast" not in told(verdict)
    assert any("beyond the range" in one for one in verdict.not_asked)


def test_the_makers_least_travel_leads() -> None:
    """A maker who wants 25 mm left is not served by 21."""
    for least, expected in (("10 mm", Status.FITS), ("25 mm", Status.NOT_PROVEN)):
        verdict = judged(chamber(RESERVOIR, least_travel_left=least))
        assert statuses(verdict)["travel_left_as_set"] is expected


def test_cold_oil_draws_the_piston_onto_its_stop() -> None:
    """With 1 mm toward the oil a cold night is refused; with 3 mm it is open; with 6 mm it fits."""
    for room, expected in (("1 ±0.1 mm", "does not fit"), ("3 ±0.1 mm", "not proven"), ("6 ±0.1 mm", "fits")):
        verdict = judged(chamber(RESERVOIR, oil_side_room=room))
        assert statuses(verdict)["oil_side_clearance"].value == expected


def test_without_the_room_on_the_oil_side_nothing_is_proven() -> None:
    """What is not told is asked for, and is never taken as enough."""
    verdict = judged(chamber(RESERVOIR, oil_side_room=None))
    assert verdict.status is Status.NOT_PROVEN
    assert "oil side room" in verdict.next_step


def test_cavitation_with_and_without_a_base_valve() -> None:
    """1.0 MPa holds 1500 N with a base valve of 1.2 MPa and is refused without: own arithmetic, example B."""
    with_valve = judged(chamber(RESERVOIR, **CAVITATION, piston_friction="0..0.5 N"))
    assert statuses(with_valve)["low_side_pressure"] is Status.FITS
    without = judged(chamber(RESERVOIR, **{**CAVITATION, "base_valve_pressure_drop": None}))
    assert statuses(without)["low_side_pressure"] is Status.DOES_NOT_FIT
    needed = told(with_valve)
    assert needed["gas_needed_without_base_valve"].middle == pytest.approx(1.683, abs=5e-4)
    assert needed["gas_needed_with_base_valve"].middle == pytest.approx(0.483, abs=5e-4)
    # In the cold the charge has fallen, so it has to be set higher.
    assert needed["charge_needed_with_base_valve"].middle > needed["gas_needed_with_base_valve"].middle


def test_without_the_friction_of_the_piston_no_low_side_pressure_is_proven() -> None:
    """It only takes from the oil: what fits without it is open, what fails without it is refused."""
    untold = judged(chamber(RESERVOIR, **CAVITATION)).of("low_side_pressure")
    assert untold is not None
    assert untold.status is Status.NOT_PROVEN
    assert untold.lacks == ("friction of the floating piston's seal",)
    slight = judged(chamber(RESERVOIR, **CAVITATION, piston_friction="10 ±5 N"))
    great = judged(chamber(RESERVOIR, **CAVITATION, piston_friction="900 ±5 N"))
    assert statuses(slight)["low_side_pressure"] is Status.FITS
    assert statuses(great)["low_side_pressure"] is not Status.FITS


def test_a_charge_set_as_needed_leaves_what_is_needed() -> None:
    """Charged to the smallest charge that is told, the low side is at the air around in the cold."""
    exact = {name: re.sub(r" ±[\d.]+", "", text) for name, text in {**RESERVOIR, **CAVITATION}.items()}
    exact |= {"bore_diameter": "38 mm", "oil_expansion_per_k": "7e-4"}
    charge = told(judged(chamber(exact)))["charge_needed_with_base_valve"].middle
    low = judged(chamber(exact, charge=f"{charge:.6f} MPa")).of("low_side_pressure")
    assert low is not None
    assert low.middle == pytest.approx(0.0, abs=2e-6)


def test_a_charge_is_held_against_the_makers_range() -> None:
    """Inside, across and beyond 0.95 to 1.10 MPa."""
    for charge, expected in (("1.0", "fits"), ("1.1", "not proven"), ("1.3", "does not fit")):
        verdict = judged(chamber(RESERVOIR, charge=f"{charge} ±0.02 MPa", charge_range="0.95..1.10 MPa"))
        assert statuses(verdict)["charge"].value == expected


def test_a_pressure_limit_is_held_against_the_hottest_fast_stroke() -> None:
    """2.1 to 2.7 MPa: 8 MPa fits, 2.5 is open, 1.5 is refused; the shortest gas length goes with it."""
    lengths = []
    for limit, expected in (("8 MPa", "fits"), ("2.5 MPa", "not proven"), ("1.5 MPa", "does not fit")):
        verdict = judged(chamber(RESERVOIR, pressure_limit=limit))
        assert statuses(verdict)["full_stroke_hot_fast"].value == expected
        lengths.append(told(verdict)["shortest_gas_length"].middle)
    assert lengths == sorted(lengths)
    assert lengths[0] < 30.0 < lengths[2]


def test_a_bladder_is_judged_by_its_volumes() -> None:
    """Room above its least volume: enough, open, too little; rules of industry are told with that label."""
    for least, expected in (("12 ml", "fits"), ("28 ml", "not proven"), ("35 ml", "does not fit")):
        verdict = judged(chamber(BLADDER, bladder_least_volume=least))
        assert statuses(verdict)["bladder_room_left"].value == expected
    verdict = judged(chamber(BLADDER))
    ratio = next(one for one in verdict.told if one.rule == "bladder_pressure_ratio")
    assert "industrial" in ratio.note
    assert verdict.of("bladder_pressure_ratio") is None


def test_the_gas_of_a_bladder_is_as_it_is_told() -> None:
    """Its volume comes from no bore and length: no equation of a cylinder stands beside it."""
    found = told(judged(chamber(BLADDER)))
    assert found["bladder_gas"].middle == pytest.approx(45.0)
    assert "gas_volume" not in found


def test_a_bladder_without_its_least_volume_is_not_proven() -> None:
    """How far a bladder may be squeezed is its maker's to say."""
    verdict = judged(chamber(BLADDER, bladder_least_volume=None))
    assert verdict.status is Status.NOT_PROVEN
    assert "bladder least volume" in verdict.next_step


def test_without_a_temperature_only_the_bench_is_told() -> None:
    """No temperature range: hot and cold are open, pressures as set are told where lock is excluded there."""
    verdict = judged(chamber(RESERVOIR, {"fluid": "mineral_oil"}))
    assert verdict.status is Status.NOT_PROVEN
    assert FULL & set(told(verdict)) == {"full_stroke_as_set_slow", "full_stroke_as_set_fast"}
    assert "temperature range" in verdict.next_step


def test_an_empty_chamber_says_what_to_give() -> None:
    """Nothing told, nothing proven, everything asked for."""
    verdict = judged(chamber({}, {}))
    assert verdict.status is Status.NOT_PROVEN
    for word in ("charge", "separator", "gas"):
        assert word in verdict.next_step


def test_where_a_depth_is_measured_to_is_never_guessed() -> None:
    """Without depth_from or depth_to no travel is worked out."""
    for name in ("depth_from", "depth_to"):
        verdict = judged(chamber(RESERVOIR, **{name: None}))
        assert verdict.status is Status.NOT_PROVEN
        assert name in verdict.next_step


@pytest.mark.parametrize(
    ("change", "length"),
    [
        ({}, 30.0),
        ({"depth_to": "far_face"}, 44.0),
        ({"depth_from": "gas_end", "set_depth": "42 ±0.5 mm", "tube_length": "12 ±0.1 mm"}, 30.0),
        (
            {
                "depth_from": "gas_end",
                "depth_to": "far_face",
                "set_depth": "56 ±0.5 mm",
                "tube_length": "12 mm",
            },
            30.0,
        ),
    ],
)
def test_the_gas_length_follows_from_end_and_face(change: dict[str, str], length: float) -> None:
    """From the oil end the piston's length counts to the near face, from the gas end to the far one."""
    found = told(judged(chamber(RESERVOIR, **change)))["gas_length"]
    assert found.middle == pytest.approx(length)


def test_dish_pocket_and_valve_change_the_gas_and_not_the_travel() -> None:
    """A dish of 1.5 ml adds room for gas, a valve takes some, and travel left stays; a nose takes travel."""
    plain, dished = (judged(chamber(RESERVOIR, dish_volume=dish)) for dish in (None, "1.5 ±0.01 ml"))
    assert told(dished)["gas_volume"].middle - told(plain)["gas_volume"].middle == pytest.approx(1.5)
    assert told(dished)["full_stroke_hot_fast"].middle < told(plain)["full_stroke_hot_fast"].middle
    valve = judged(chamber(RESERVOIR, intrusion_volume="0.5 ±0.01 ml", pocket_volume="0.2 ±0.01 ml"))
    assert told(valve)["gas_volume"].middle - told(plain)["gas_volume"].middle == pytest.approx(-0.3)
    for one in (dished, valve):
        assert one.of("travel_left_hot").middle == plain.of("travel_left_hot").middle  # type: ignore[union-attr]
    nose = judged(chamber(RESERVOIR, nose_length="2 ±0.1 mm")).of("travel_left_hot")
    assert nose is not None
    assert nose.middle == pytest.approx(plain.of("travel_left_hot").middle - 2.0)  # type: ignore[union-attr, operator]


def test_altitude_moves_the_absolute_charge_and_not_the_gauge() -> None:
    """At 80 kPa around the same gauge charge is less gas, and its gauge pressure at full stroke lower."""
    sea, high = (told(judged(chamber(RESERVOIR, ambient_pressure=air))) for air in ("101.325 kPa", "80 kPa"))
    assert sea["charge_absolute"].middle - high["charge_absolute"].middle == pytest.approx(0.021325)
    assert high["full_stroke_hot_fast"].middle < sea["full_stroke_hot_fast"].middle


def test_a_size_without_tolerance_proves_nothing() -> None:
    """A bare stroke leaves the verdict open; a bare seal diameter, which decides nothing, does not."""
    assert judged(chamber(RESERVOIR, stroke="75 mm")).status is Status.NOT_PROVEN
    assert judged(chamber(RESERVOIR, seal_diameter="39.6 mm")).status is Status.FITS


def test_an_oil_without_a_published_expansion_is_asked_for() -> None:
    """Silicone and brake fluid have no figure here: nothing hot or cold is proven without one."""
    service = {**SERVICE, "fluid": "silicone oil; nitrogen"}
    assert judged(chamber(RESERVOIR, service)).status is Status.NOT_PROVEN
    given = judged(chamber(RESERVOIR, service, oil_expansion_per_k="9.4e-4"))
    assert given.status is Status.FITS


def test_two_gases_are_told_apart() -> None:
    """A place that says nitrogen in a service of air is not proven."""
    verdict = judged(chamber(RESERVOIR, {**SERVICE, "fluid": "mineral_oil; air"}))
    assert statuses(verdict)["gas_told"] is Status.NOT_PROVEN


def test_the_service_may_name_the_gas() -> None:
    """Without a gas in the place the one in its service counts."""
    assert judged(chamber(RESERVOIR, gas=None)).status is Status.FITS


def test_what_was_taken_is_told() -> None:
    """Standard atmosphere, the oils' spread, a stiff body, no dish, no friction."""
    verdict = judged(chamber(RESERVOIR, set_temperature=None))
    text = " ".join(verdict.taken)
    for words in ("standard atmosphere", "0.00065 to 0.0009", "does not give way", "no dish", "20 ±5 degC"):
        assert words in text


def test_cautions_name_the_gas() -> None:
    """The maker comes first; nitrogen and air have their own."""
    nitrogen = judged(chamber(RESERVOIR)).cautions
    assert nitrogen[0].startswith("the maker's specification")
    assert any("regulator" in one for one in nitrogen)
    air = judged(chamber(RESERVOIR, {**SERVICE, "fluid": "mineral_oil; air"}, gas="air")).cautions
    assert any("hand pump" in one for one in air)


def test_a_measured_depth_of_little_uncertainty_settles_an_open_lock() -> None:
    """What is advised is tried: the depth that is named, read with its rod, fits."""
    fit = chamber(RESERVOIR, tube_length="79.5 ±0.05 mm")
    verdict = judged(fit)
    finding = verdict.of("travel_left_hot")
    assert finding is not None
    assert finding.status is Status.NOT_PROVEN
    assert "Measure the set depth" in finding.action
    read = judged(chamber(RESERVOIR, tube_length="79.5 ±0.05 mm", set_depth="50.9 mm by depth rod"))
    assert statuses(read)["travel_left_hot"] is Status.FITS


def test_advice_for_a_charge_is_in_its_unit() -> None:
    """A charge that would be needed is told in MPa, not in millimetres."""
    verdict = judged(chamber(RESERVOIR, charge="0.8 ±0.02 MPa", charge_range="0.95..1.10 MPa"))
    finding = verdict.of("charge")
    assert finding is not None
    assert "a charge of 0.95 to 1.10 MPa" in finding.action


def sampled(names: dict[str, Span], random_: random.Random) -> dict[str, Span]:
    return {name: Span.point(random_.uniform(at.low, at.high)) for name, at in names.items()}


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("place", [{**RESERVOIR, **CAVITATION, "piston_friction": "10 ±5 N"}, BLADDER])
def test_the_worst_case_bounds_every_sample(place: dict[str, str], seed: int) -> None:
    """No chamber made of sizes within their limits leaves the interval of any quantity, judged or told."""
    case = case_of(chamber(place, pressure_limit="8 MPa"))
    spans = {
        name: Span(float(size.lower), size.middle, float(size.upper))
        for name, size in case.known.sizes.items()
    }
    free = Unlocked(True, True)
    worst = judged_of(case, spans, span) | told_of(case, spans, span, free)
    pick = random.Random(seed)
    for _ in range(60):
        assert case.oil_expansion is not None
        alpha = Span.point(pick.uniform(case.oil_expansion.low, case.oil_expansion.high))
        metal = Span.point(pick.uniform(case.metal_expansion.low, case.metal_expansion.high))
        one = case._replace(oil_expansion=alpha, metal_expansion=metal)
        sizes = sampled(spans, pick)
        found = judged_of(one, sizes, span) | told_of(one, sizes, span, free)
        assert set(found) == set(worst)
        for name, at in found.items():
            slack = 1e-5 * max(1.0, abs(at.middle))
            if name.startswith("full_stroke_as_set"):
                slack = 5e-4 * at.middle  # worked out at the middle of the set temperature
            assert worst[name].low - slack <= at.middle <= worst[name].high + slack, name


def test_a_measured_chamber_is_told_with_its_guard_band() -> None:
    """A charge read to ±U0.05 MPa is told over all of it."""
    found = told(judged(chamber(RESERVOIR, charge="1.0 ±U0.05 MPa")))["charge_absolute"]
    assert found == pytest.approx((1.051325, 1.101325, 1.151325))


def test_no_number_is_made_of_nothing() -> None:
    """Everything told of a whole chamber is finite, and in order."""
    for place in ({**RESERVOIR, **CAVITATION, "pressure_limit": "8 MPa"}, BLADDER):
        for one in judged(chamber(place)).told:
            assert math.isfinite(one.low)
            assert one.low <= one.middle <= one.high, one.rule


def test_another_place_is_no_chamber() -> None:
    """The family refuses a place of another kind rather than guess."""
    from schema.fit import Fit, Place

    class Elsewhere(Place):
        kind = "elsewhere"

    with pytest.raises(TypeError, match="a gas chamber is expected"):
        inquire(Fit(place=Elsewhere()), published_reference())


def test_a_room_drawn_at_one_depth_is_not_the_room_at_the_depth_that_was_read() -> None:
    """A piston that was read 0.5 mm nearer to the oil has that much less room: it has to be read as well."""
    read = {"set_depth": "50.6 mm by depth rod"}
    drawn = judged(chamber(RESERVOIR, **read)).of("oil_side_clearance")
    assert drawn is not None
    assert drawn.status is Status.NOT_PROVEN
    assert drawn.lacks == ("oil side room, measured with the piston at that depth",)
    # Whatever the room is, it is no more than the depth: the oil of a cold night takes more than 1 mm.
    near = {"set_depth": "1.0 mm by depth rod", "tube_length": "45 ±0.1 mm"}
    for face, length, status in (
        ("near_face", "14 ±0.05 mm", Status.DOES_NOT_FIT),
        ("far_face", "14 ±0.05 mm", Status.DOES_NOT_FIT),
    ):
        changed = {**near, "depth_to": face, "piston_length": length}
        if face == "far_face":
            changed["set_depth"] = "15.0 mm by depth rod"
        assert statuses(judged(chamber(RESERVOIR, **changed)))["oil_side_clearance"] is status
    both = judged(chamber(RESERVOIR, **read, oil_side_room="5.6 mm by depth rod"))
    assert statuses(both)["oil_side_clearance"] is Status.FITS
