"""An eyelet with bush and pin: all three answers, and the cases in which they are easily got wrong."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitcheck.check import check
from schema.finding import Status, Verdict
from schema.fit import Fit
from schema.reference import published_reference
from tests.fitcheck.eyelets.conftest import BUSH, PIN, PLACE, REDUCER, SPACER, Part, fit_of

Ask = Callable[..., Verdict]
FITS, NOT_PROVEN, DOES_NOT_FIT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def test_an_eyelet_of_which_all_is_told_fits(ask: Ask) -> None:
    """Bush, pin with spacers, bolt and mount: everything goes together with the play the maker allows."""
    verdict = ask()
    assert verdict.status is FITS
    names = {one.rule for one in verdict.findings}
    assert {"side_gap", "eyelet_float", "bolt_clearance", "running_clearance", "seat_interference"} <= names


def test_hardware_wider_than_the_mount_does_not_fit(ask: Ask) -> None:
    """24.0 mm of hardware between tabs 23.5 mm apart would spread the frame."""
    verdict = ask({"mount_width": "23.5 ±0.05 mm"})
    gap = verdict.of("side_gap")
    assert gap is not None
    assert (gap.status, gap.high) == (DOES_NOT_FIT, pytest.approx(-0.35))


def test_drawn_widths_that_may_jam_are_not_proven(ask: Ask) -> None:
    """24.0 ±0.1 in 24.0 ±0.1: some pairs jam, some do not, and one measurement settles it."""
    verdict = ask({"mount_width": "24.0 ±0.1 mm"})
    gap = verdict.of("side_gap")
    assert gap is not None
    assert (gap.status, gap.low, gap.high) == (NOT_PROVEN, pytest.approx(-0.2), pytest.approx(0.2))


def test_without_the_makers_side_play_nothing_is_proven(ask: Ask) -> None:
    """What the trade does rests on memory: 0.1 to 0.15 mm is shown and not proven, a jam still refused."""
    untold = ask(
        {"side_play": None, "mount_width": "24.12 ±0.01 mm"}, BUSH, {**PIN, "width": "24.0 ±0.01 mm"}
    )
    jammed = ask({"side_play": None, "mount_width": "23.5 ±0.05 mm"})
    gap = untold.of("side_gap")
    assert gap is not None
    assert (gap.status, gap.grade) == (NOT_PROVEN, "from_memory")
    assert untold.status is NOT_PROVEN
    assert jammed.status is DOES_NOT_FIT


def test_a_pin_shorter_than_the_eyelet_clamps_it(ask: Ask) -> None:
    """Between spacers 11.9 mm apart an eyelet of 12 mm is clamped and does not turn."""
    verdict = ask(None, BUSH, {**PIN, "length": "11.8 ±0.05 mm"})
    float_ = verdict.of("eyelet_float")
    assert float_ is not None
    assert float_.status is DOES_NOT_FIT
    assert "clamps the eyelet" in verdict.next_step


def test_washers_take_float(ask: Ask) -> None:
    """Two washers of 0.1 mm leave 0.2 mm less float than none."""
    washer = {"kind": "eyelet_hardware", "thickness": "0.10 ±0.005 mm", "quantity": 2}
    bare, filled = ask().of("eyelet_float"), ask(None, BUSH, PIN, washer).of("eyelet_float")
    assert bare is not None
    assert filled is not None
    assert bare.middle - filled.middle == pytest.approx(0.2)
    assert {one.dimension for one in filled.influences} >= {"washer_1_thickness", "washer_2_thickness"}


def test_float_beside_separate_spacers(ask: Ask) -> None:
    """A plain pin of 24 mm with two spacers of 5.9 mm leaves 12.2 mm for an eyelet of 12."""
    pin = {**PIN, "style": "pin", "length": None}
    spacer = {**SPACER, "width": "5.9 ±0.02 mm", "quantity": 2}
    found = ask(None, BUSH, pin, spacer).of("eyelet_float")
    assert found is not None
    assert (found.low, found.middle) == (pytest.approx(0.2 - 0.1 - 0.1 - 0.04), pytest.approx(0.2))


def test_reducers_whose_spigots_meet_do_not_fit(ask: Ask) -> None:
    """Two spigots of 6.1 mm meet in an eyelet of 12 mm before the flanges touch it; two of 5.8 do not."""
    short = ask({"mount_width": "24.3 +0.2/0 mm", "side_play": "0..1 mm"}, BUSH, REDUCER)
    long = ask({"mount_width": "24.3 +0.2/0 mm"}, BUSH, {**REDUCER, "length": "6.2 ±0.05 mm"})
    assert short.status is FITS
    room = long.of("spigot_room")
    assert room is not None
    assert room.status is DOES_NOT_FIT


def test_reducers_stack_on_the_eyelet(ask: Ask) -> None:
    """Two flanges of 6 mm and an eyelet of 12 make 24 mm, each with its own tolerance."""
    gap = ask({"mount_width": "24.3 +0.2/0 mm"}, BUSH, REDUCER).of("side_gap")
    assert gap is not None
    assert (gap.low, gap.middle, gap.high) == pytest.approx((0.1, 0.4, 0.7))


def test_a_bolt_too_thick_or_far_too_thin_does_not_fit(ask: Ask) -> None:
    """M10 does not go through 8.1 mm, and a 6 mm bolt belongs to other hardware."""
    thick = ask({"bolt_diameter": "9.97 ±0.02 mm"}).of("bolt_clearance")
    thin = ask({"bolt_diameter": "5.97 ±0.02 mm"}).of("bolt_clearance")
    assert thick is not None
    assert thin is not None
    assert [thick.status, thin.status] == [DOES_NOT_FIT, DOES_NOT_FIT]


def test_a_pin_of_13_mm_is_not_one_of_half_an_inch(ask: Ask) -> None:
    """12.7 against 13 mm: the pin that looks right is 0.3 mm too thick for the bush."""
    verdict = ask(None, BUSH, {**PIN, "outside_diameter": "13.0 0/-0.02 mm"})
    running = verdict.of("running_clearance")
    assert running is not None
    assert running.status is DOES_NOT_FIT
    assert running.high is not None
    assert running.high < -0.3


def test_a_bush_of_half_an_inch_in_an_eyelet_of_13_does_not_hold(ask: Ask) -> None:
    """A half-inch bush in an eyelet of 13 mm has 0.3 mm of play where it should be pressed."""
    place = {"bore": "13 H8 mm", "bore_as_fitted": None}
    bush = {**BUSH, "outside_diameter": "12.70 ±0.02 mm", "inside_diameter": "10.05 +0.04/0 mm"}
    verdict = ask(place, bush, {**PIN, "outside_diameter": "10 h9 mm"})
    seat = verdict.of("seat_interference")
    assert seat is not None
    assert seat.status is DOES_NOT_FIT


def test_a_pin_larger_than_the_eyelet_is_refused_with_a_reason(ask: Ask) -> None:
    """A pin of 15.2 mm never goes into an eyelet of 15: the answer says so instead of failing."""
    verdict = ask(None, BUSH, {**PIN, "outside_diameter": "15.2 0/-0.02 mm"})
    found = verdict.of("eyelet_bush")
    assert found is not None
    assert verdict.status is DOES_NOT_FIT
    assert "15.2" in found.reason


@pytest.mark.parametrize(
    ("parts", "rule", "lacks"),
    [
        ([PIN], "eyelet_bush", "bush or bearing of the eyelet"),
        ([BUSH], "eyelet_pin", "pin or reducers of the eyelet"),
        ([BUSH, {**PIN, "length": None}], "eyelet_float", "length of the pin between its spacers"),
        ([BUSH, {**PIN, "width": None}], "side_gap", "pin's width over all"),
        ([BUSH, {**PIN, "inside_diameter": None}], "bolt_clearance", "bore of the pin"),
        ([BUSH, {**PIN, "style": None}], "side_gap", "style of eyelet hardware"),
    ],
)
def test_what_is_missing_is_named(ask: Ask, parts: list[dict[str, str]], rule: str, lacks: str) -> None:
    """Each part or size that is not told is named by the finding that needs it."""
    verdict = ask(None, *parts)
    found = verdict.of(rule)
    assert verdict.status is NOT_PROVEN
    assert found is not None
    assert lacks in found.lacks


def test_the_pressure_on_the_bush_is_told_and_not_judged(ask: Ask) -> None:
    """8 kN on a pin of 12.585 mm in an eyelet of 12 mm: 53 MPa, which its maker has to rate."""
    verdict = ask({"load": "8 kN"})
    told = {one.rule: one.middle for one in verdict.told}
    assert told["eyelet_pressure"] == pytest.approx(8000 / (12.585 * 12.0), rel=1e-6)
    assert verdict.status is FITS
    assert any("its maker rates it" in one for one in verdict.not_asked)


@pytest.mark.parametrize(
    ("material", "told"), [("aluminium", ""), ("stainless steel", ""), ("", "shaft"), ("titanium", "shaft")]
)
def test_a_pin_of_untold_metal_counts_as_both(ask: Ask, material: str, told: str) -> None:
    """The bush is asked with a pin of either metal where its material names neither."""
    verdict = ask({"metal": "aluminium"}, BUSH, {**PIN, "material": material})
    both = "shaft of aluminium or steel, since no metal is told: both count"
    assert (both in verdict.taken) is bool(told)


def test_an_empty_eyelet_is_not_proven() -> None:
    """An eyelet with nothing in it says what it lacks."""
    verdict = check(Fit(place=fit_of(PLACE, []).place), published_reference())
    assert verdict.status is NOT_PROVEN
    assert {one.rule for one in verdict.findings} >= {"eyelet_bush", "eyelet_pin"}


def _other(part: Part, number: str, **changes: str) -> Part:
    return {**part, "part_number": number, **changes}


@pytest.mark.parametrize(
    ("parts", "rule"),
    [
        ([BUSH, _other(REDUCER, "R2", outside_diameter="12.2 ±0.02 mm", quantity=1)], "pins_alike"),
        ([BUSH, {**_other(REDUCER, "R2"), "outside_diameter": None, "quantity": 1}], "pins_alike"),
        (
            [BUSH, _other(BUSH, "B2", inside_diameter="10.0 +0.04/0 mm"), {**REDUCER, "quantity": 1}],
            "one_bush",
        ),
    ],
)
def test_parts_that_are_not_alike_do_not_stand_for_each_other(
    ask: Callable[..., Verdict], parts: list[Part], rule: str
) -> None:
    """A second reducer or bush of another diameter is not judged by the first."""
    verdict = ask(None, *parts, {**REDUCER, "quantity": 1})
    assert verdict.status is not Status.FITS
    assert verdict.of(rule) is not None


def test_two_bushes_must_go_in_together(ask: Callable[..., Verdict]) -> None:
    """Two bushes of 5.7 mm go into 12 mm; two of 11.7 do not."""
    short = ask(None, {**BUSH, "length": "5.7 +0/-0.1 mm", "quantity": 2}, PIN).of("bush_room")
    long = ask(None, {**BUSH, "quantity": 2}, PIN).of("bush_room")
    assert short is not None
    assert long is not None
    assert (short.status, long.status) == (Status.FITS, Status.DOES_NOT_FIT)


def test_two_pins_that_span_the_gap_are_not_proven(ask: Callable[..., Verdict]) -> None:
    """A pin spans the gap by itself: of two only one can be meant."""
    assert ask(None, BUSH, {**PIN, "quantity": 2}).of("one_pin") is not None


def test_a_screw_thicker_than_its_bolt_is_told(ask: Callable[..., Verdict]) -> None:
    """Holes that were judged for a bolt of 8 mm say nothing of an M10 screw."""
    screw = {"kind": "screw", "thread": "M8", "length": "40 mm"}
    assert ask(None, BUSH, PIN, screw).status is Status.FITS
    thick = ask(None, BUSH, PIN, {**screw, "thread": "M10"})
    assert (thick.status, thick.of("bolt_thread") is None) == (Status.NOT_PROVEN, False)


def test_the_rubber_of_a_ring_beside_the_eye_is_held_against_its_service(ask: Callable[..., Verdict]) -> None:
    """A dust ring of EPDM swells in mineral grease."""
    ring = {"kind": "o_ring", "inside_diameter": "14 ±0.2 mm", "cross_section": "1.5 ±0.08 mm"}
    ring |= {"material": "EPDM"}
    found = ask(None, BUSH, PIN, ring).of("ring_1_material_fluid")
    assert found is not None
    assert found.status is Status.DOES_NOT_FIT


@pytest.mark.parametrize(
    ("bore", "status"),
    [("13.0 ±0.1 mm", FITS), ("12.6 ±0.1 mm", NOT_PROVEN), ("8.2 ±0.1 mm", DOES_NOT_FIT)],
)
def test_a_washer_beside_the_eye_must_go_over_the_pin(ask: Ask, bore: str, status: Status) -> None:
    """A washer for the bolt does not go over a pin of 12.6 mm."""
    washer = {"kind": "eyelet_hardware", "style": "washer", "thickness": "0.05 ±0.01 mm"}
    found = ask(None, BUSH, PIN, {**washer, "inside_diameter": bore}).of("washer_clearance")
    assert found is not None
    assert found.status is status


def test_a_bush_without_its_length_is_not_proven(ask: Ask) -> None:
    """A bush longer than the eye is clamped by the pin; one of unknown length may be."""
    verdict = ask(None, {**BUSH, "length": None}, PIN)
    assert (verdict.status, verdict.of("bush_length") is None) == (NOT_PROVEN, False)


def test_what_the_bush_tells_is_told_in_the_eyelet_too(ask: Ask) -> None:
    """Press force and pressure of the bush stand beside the widths of the hardware."""
    told = {one.rule for one in ask().told}
    assert {"press_force", "interface_pressure", "stack_width"} <= told


@pytest.mark.parametrize("pin", ["", "titanium"])
def test_the_metal_of_a_spacer_is_not_that_of_the_pin(ask: Ask, pin: str) -> None:
    """An aluminium spacer beside a pin of another or of no told metal changes nothing of its clearance."""
    spacer = {**SPACER, "outside_diameter": "20 ±0.1 mm", "width": "2.0 ±0.05 mm", "material": "aluminium"}
    own = {**PIN, "material": pin or None}
    without, beside = (
        ask(None, BUSH, own, {**spacer, "material": material}).of("hot_clearance")
        for material in (None, "aluminium")
    )
    assert without is not None
    assert beside is not None
    assert (beside.low, beside.high) == (without.low, without.high)
