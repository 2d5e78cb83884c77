"""Screws in tapped holes: thread, engaged length, what it holds, torque, seal."""

from __future__ import annotations

import random

import pytest

from fitcheck.rule import span
from fitcheck.setting import drawn_span
from fitcheck.threads.port_inquiry import inquire
from schema.errors import InputErrors
from schema.fields import read_model
from schema.finding import Status
from schema.fit import Fit, Fitted
from schema.question import ring_from
from schema.reference import published_reference
from schema.screws import Screw, ThreadedPort
from tests.fitcheck.threads.questions import PORT, SCREW, Texts, of, port

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def test_a_screw_that_is_told_whole_fits() -> None:
    """The bleed screw holds the torque of its maker with room."""
    found = port()
    assert found.status is FITS
    assert of(found, "thread_hold").grade == "published_twice"


def test_the_preload_is_told_as_a_band() -> None:
    """Friction makes a band of preloads: 3 N m on M5 is 2 to 5 kN, about 3."""
    preload = next(one for one in port().told if one.rule == "preload")
    assert (preload.low, preload.middle, preload.high) == pytest.approx((2000.0, 3000.0, 5000.0))
    assert "no tightening instruction" in preload.note


def test_a_head_that_is_told_narrows_the_band() -> None:
    """With the head's diameter thread and head friction are told apart, by the range of friction."""
    long = next(one for one in port(screw={"head_diameter": "7 mm"}).told if one.rule == "preload")
    assert 2000.0 < long.low < long.middle < long.high < 5200.0


def test_no_torque_is_ever_made_up() -> None:
    """Where no maker gives a torque, none is told."""
    found = port(screw={"torque": None})
    assert not [one for one in found.told if "torque" in one.quantity]
    assert any(one.startswith("torque: the maker gives none") for one in found.not_asked)


def test_the_maker_of_the_unit_leads() -> None:
    """Of two makers' torques the unit's is used, and both are told."""
    found = port(place={"torque": "2 N m", "torque_source": "manual, p. 4"})
    preload = next(one for one in found.told if one.rule == "preload")
    assert preload.middle == pytest.approx(2000.0)
    assert any(
        "2 N m by the maker of the unit (manual, p. 4); the maker of the part gives 3 N m" in one
        for one in found.taken
    )


@pytest.mark.parametrize(
    ("torque", "status"), [("35 in-lb", FITS), ("3 ft-lb", FITS), ("35 N m", OUT), ("35 ft-lb", OUT)]
)
def test_a_torque_in_the_wrong_unit_is_caught(torque: str, status: Status) -> None:
    """35 in-lb is a torque for M5 8.8; 35 N m or 35 ft-lb stretches it whatever the friction."""
    found = port(screw={"torque": torque})
    assert of(found, "torque_plausible").status is status
    if status is OUT:
        assert "is the unit right" in of(found, "torque_plausible").action


@pytest.mark.parametrize(
    ("length", "status"), [("6 ±0.1 mm", FITS), ("4.2 ±0.1 mm", NOT), ("2.2 ±0.1 mm", OUT)]
)
def test_the_thread_must_hold_the_torque_of_the_maker(length: str, status: Status) -> None:
    """A thread that strips at the torque whatever the friction is refused; within the band it is open."""
    assert of(port(screw={"length": length}), "thread_hold").status is status


def test_without_torque_the_screw_is_to_break_before_the_thread_strips() -> None:
    """M5 8.8 in 310 MPa metal needs 5.1 mm of least-material thread; 4.4 mm are not proven, not refused."""
    found = port(screw={"torque": None})
    assert of(found, "thread_hold").status is NOT
    long = port(place={"depth": "14 ±0.2 mm"}, screw={"torque": None, "length": "11 ±0.1 mm"})
    assert of(long, "thread_hold").status is FITS


@pytest.mark.parametrize(
    ("metal", "length", "status"),
    [
        ("steel", "7 ±0.1 mm", FITS),
        ("aluminium", "7 ±0.1 mm", NOT),
        ("aluminium", "9.5 ±0.1 mm", FITS),
        ("aluminium", "1.4 ±0.1 mm", OUT),
    ],
)
def test_without_strengths_the_practice_of_the_trade_decides(metal: str, length: str, status: Status) -> None:
    """1 d in steel and 1.5 d in aluminium; with no full thread engaged it does not fit."""
    found = port(
        place={"metal": metal, "tensile_strength": None, "depth": "12 ±0.2 mm"}, screw={"length": length}
    )
    assert of(found, "engagement_in_diameters").status is status
    assert of(found, "engagement_in_diameters").limits.grade == "common_practice"  # type: ignore[union-attr]
    assert found.of("thread_hold") is None


@pytest.mark.parametrize(
    ("depth", "end", "status"),
    [("8.0 ±0.2 mm", "blind", FITS), ("6.0 ±0.2 mm", "blind", NOT), ("5.0 ±0.2 mm", "blind", OUT)],
)
def test_a_screw_must_seat_before_the_thread_ends(depth: str, end: str, status: Status) -> None:
    """A screw longer than a blind thread stops before its head seats."""
    assert of(port(place={"depth": depth, "end": end}), "room_below").status is status


def test_a_through_thread_has_no_end() -> None:
    """In a through thread a long screw is no fault."""
    assert port(place={"depth": "5.0 ±0.2 mm", "end": "through"}).of("room_below") is None


def test_what_lies_under_the_head_must_be_told_where_a_washer_seals() -> None:
    """A washer takes length away, so its thickness is asked for."""
    washer: Texts = {"seals_by": "washer"}
    found = port(place=washer, screw=washer)
    assert found.status is NOT
    assert "clamped thickness" in of(found, "room_below").lacks
    told = port(place={**washer, "clamped_thickness": "1.0 ±0.1 mm"}, screw=washer)
    assert of(told, "room_below").high == pytest.approx(8.2 - 5.9 + 1.1)


@pytest.mark.parametrize(
    ("place", "screw", "status"),
    [("chamfer", "chamfer", FITS), ("chamfer", "washer", OUT), ("washer", "chamfer", OUT)],
    ids=["ISO 6149 in ISO 6149", "ISO 9974 plug in ISO 6149 port", "ISO 6149 plug in ISO 9974 port"],
)
def test_one_thread_with_two_seals_does_not_fit(place: str, screw: str, status: Status) -> None:
    """A ring in a chamfer and a washer on the face share their threads and do not go together."""
    found = port(place={"seals_by": place, "clamped_thickness": "0 mm"}, screw={"seals_by": screw})
    assert of(found, "port_seal").status is status
    assert of(found, "thread_match").status is FITS


def test_measured_pitch_diameters_prove_and_refute() -> None:
    """Measured threads are held by their classes: play kept, no play, and worn out."""
    ok = port(place={"pitch_diameter": "4.55 ±U0.01 mm"}, screw={"pitch_diameter": "4.42 ±U0.01 mm"})
    assert of(ok, "pitch_clearance").status is FITS
    tight = port(place={"pitch_diameter": "4.48 ±U0.01 mm"}, screw={"pitch_diameter": "4.52 ±U0.01 mm"})
    assert of(tight, "pitch_clearance").status is OUT
    worn = port(place={"pitch_diameter": "4.90 ±U0.01 mm"}, screw={"pitch_diameter": "4.40 ±U0.01 mm"})
    assert of(worn, "pitch_clearance").status is NOT
    gone = port(place={"pitch_diameter": "5.20 ±U0.01 mm"}, screw={"pitch_diameter": "4.30 ±U0.01 mm"})
    assert of(gone, "pitch_clearance").status is OUT


def test_told_classes_give_the_play_of_the_standard() -> None:
    """M5x0.8-6H/6g has 24 to 244 um of play (4.605 less 4.361, 4.480 less 4.456)."""
    found = of(port(place={"thread": "M5x0.8-6H"}, screw={"thread": "M5x0.8-6g"}), "pitch_clearance")
    assert (found.low, found.high) == pytest.approx((0.024, 0.244))
    assert found.status is FITS


def test_an_untold_class_is_taken_as_medium_and_said() -> None:
    """6H and 6g are taken where none is told, and the answer says so."""
    assert any("6H for the internal and 6g for the external" in one for one in port().taken)


@pytest.mark.parametrize(
    ("hole", "screw", "status"),
    [("M5x0.8", "#10-32", OUT), ("#10-32 UNF-2B", "#10-32 UNF-2A", FITS), ("M6", "6V1", OUT)],
)
def test_threads_are_held_against_each_other(hole: str, screw: str, status: Status) -> None:
    """A #10-32 screw starts in M5x0.8 and strips it."""
    plain: Texts = {"tensile_strength": None, "depth": "12 ±0.2 mm"}
    found = port(
        place={**plain, "thread": hole},
        screw={"thread": screw, "length": "10 ±0.1 mm", "property_class": None, "torque": None},
    )
    assert of(found, "thread_match").status is status
    assert found.status is status


def test_a_hollow_screw_is_weaker() -> None:
    """The bore of a banjo bolt takes from its stress area, so it breaks before the thread strips."""
    untold: Texts = {"torque": None}
    solid = of(port(screw=untold), "thread_hold").high
    hollow = of(port(screw={**untold, "hollow_diameter": "2.5 mm"}), "thread_hold").high
    assert solid is not None
    assert hollow is not None
    assert hollow > solid * 1.3


def test_a_long_thread_is_told_to_be_beyond_its_class() -> None:
    """Classes 6g and 6H are meant for a normal length of engagement."""
    found = port(place={"depth": "20 ±0.2 mm"}, screw={"length": "16 ±0.1 mm"})
    assert any("classes 6g and 6H are meant for 2.2 to 6.6 mm" in one for one in found.taken)


def test_locking_is_handed_on() -> None:
    """A screw that was locked is to be locked again."""
    found = port(screw={"locking": "thread lock, medium"})
    assert any("thread lock, medium: do so again" in one for one in found.cautions)


def test_a_port_without_a_screw_says_what_is_missing() -> None:
    """A hole with nothing in it is not proven and asks for what goes there."""
    from fitcheck.check import check

    found = check(Fit(place=read_model(ThreadedPort, PORT, path="place")), published_reference())
    assert found.status is NOT
    assert of(found, "thread_match").lacks == ("screw or plug",)


def test_a_nut_enters_no_hole() -> None:
    """A nut on the list of a tapped hole is not taken for a screw."""
    found = port(screw={"form": "nut", "length": None, "width": "8 mm", "seals_by": None})
    assert of(found, "thread_match").lacks == ("screw or plug",)


def test_the_worst_case_bounds_every_screw_within_its_limits() -> None:
    """No screw drawn at random within its limits lies outside the worst case of any quantity."""
    place = read_model(ThreadedPort, {**PORT, "thread": "M5x0.8-6H"}, path="place")
    part = read_model(Screw, {**SCREW, "thread": "M5x0.8-6g"}, path="part")
    asked = inquire(Fit(place=place, parts=(Fitted(part),)), published_reference())
    spans = {name: drawn_span(size) for name, size in asked.sizes.items()}
    worst = asked.quantities(spans, span)
    chance = random.Random(5)
    for _ in range(200):
        drawn = {
            name: type(one).point(chance.uniform(float(one.low), float(one.high)))
            for name, one in spans.items()
        }
        for name, found in asked.quantities(drawn, span).items():
            assert worst[name].low - 1e-9 <= found.low <= found.high <= worst[name].high + 1e-9, name


def test_a_torque_of_zero_is_refused() -> None:
    """Nothing is held by a torque of 0 N m, and nothing may be divided by it."""
    with pytest.raises(InputErrors, match=r"place\.torque"):
        port({"torque": "0 N m"})


def test_a_torque_read_near_zero_proves_nothing() -> None:
    """A torque that may be zero within its uncertainty ends in not proven, never in an error."""
    assert port({"torque": "1 ±U2 N m"}).status is not Status.FITS


def test_a_head_on_the_face_needs_no_tolerance() -> None:
    """A clamped thickness of 0 mm says that nothing lies there; any other needs its tolerance."""
    assert port({"clamped_thickness": "0 mm"}).status is Status.FITS
    assert port({"clamped_thickness": "0.1 mm"}).status is Status.NOT_PROVEN


def test_two_different_screws_in_one_hole_are_not_proven() -> None:
    """Of two screws on the list of one hole nobody says which goes in; one listed twice is one screw."""
    other = read_model(Screw, {"thread": "M6", "length": "6 ±0.1 mm"}, path="part")
    verdict = port(None, None, None, Fitted(other))
    assert (verdict.status, of(verdict, "one_screw").status) == (Status.NOT_PROVEN, Status.NOT_PROVEN)


def test_the_rubber_of_a_ring_on_the_list_is_held_against_the_fluid() -> None:
    """EPDM swells in mineral oil in a port as in a gland; its squeeze is asked where its groove is told."""
    ring = ring_from({"size": "AS568-010", "material": "EPDM", "hardness_shore_a": 70})
    service = {"fluid": "mineral_oil", "temperature": "-10..60 degC"}
    verdict = port(None, None, service, Fitted(ring))
    assert of(verdict, "ring_1_material_fluid").status is Status.DOES_NOT_FIT
    assert any("squeeze and fill" in one for one in verdict.not_asked)
    good = ring_from({"size": "AS568-010", "material": "NBR", "hardness_shore_a": 70})
    assert port(None, None, service, Fitted(good)).status is Status.FITS


@pytest.mark.parametrize(
    ("screw", "field"),
    [
        ({"tensile_strength": "200 MPa"}, "tensile_strength"),
        ({"hollow_diameter": "5.5 mm", "torque": None}, "hollow_diameter"),
    ],
)
def test_a_screw_that_contradicts_itself_is_refused(screw: dict[str, str], field: str) -> None:
    """A class and another strength, a bore wider than the screw."""
    with pytest.raises(InputErrors, match=rf"part\.{field}"):
        port(screw=screw)
