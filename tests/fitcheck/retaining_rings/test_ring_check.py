"""A retaining ring in its groove: all three answers, and the cases in which they are easily got wrong."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitcheck.check import check
from schema.finding import Status, Verdict
from schema.fit import Fit
from schema.reference import published_reference
from schema.retaining import RetainingRingGroove
from tests.fitcheck.retaining_rings.conftest import SHAFT_PLACE, WIRE, WIRE_PLACE, fit_of

Ask = Callable[..., Verdict]
FITS, NOT_PROVEN, DOES_NOT_FIT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def test_the_ring_of_the_groove_fits(ask: Ask) -> None:
    """Ring, groove, land, wall, corner, yield, pressure and factor told: it fits by every rule."""
    verdict = ask()
    assert verdict.status is FITS
    assert {one.rule for one in verdict.findings} == {
        "ring_axial_play",
        "ring_grip",
        "ring_size_difference",
        "ring_groove_diameter",
        "ring_groove_depth",
        "ring_land",
        "groove_load_factor",
        "ring_load_factor",
    }


def test_a_ring_on_a_shaft_fits_too(ask: Ask) -> None:
    """On a shaft all signs turn: the groove is inside, the free ring smaller than it."""
    verdict = ask(SHAFT_PLACE, {"standard": "DIN 471 - 25", "thickness": "1.20 +0/-0.06 mm"})
    assert verdict.status is FITS
    grip = verdict.of("ring_grip")
    assert grip is not None
    # 23.69 and 23.9 less a free ring of 22.78 and 23.41
    assert (grip.low, grip.high) == pytest.approx((0.28, 1.12))


def test_a_ring_thicker_than_its_groove_does_not_fit(ask: Ask) -> None:
    """The 1.75 ring of the next groove does not enter a groove of 1.6 to 1.74 mm."""
    verdict = ask(ring={"standard": None, "bore_diameter": "36 mm", "thickness": "1.75 +0/-0.005 mm"})
    play = verdict.of("ring_axial_play")
    assert play is not None
    assert play.status is DOES_NOT_FIT
    assert verdict.status is DOES_NOT_FIT


def test_the_ring_of_another_bore_does_not_fit(ask: Ask) -> None:
    """A ring for 40 mm in the groove of 36 mm is refused by its groove and by its size."""
    verdict = ask(ring={"standard": "DIN 472 - 40", "thickness": None})
    refused = {one.rule for one in verdict.findings if one.status is DOES_NOT_FIT}
    assert {"ring_groove_diameter", "ring_size_difference"} <= refused


def test_a_shaft_ring_in_a_bore_does_not_fit(ask: Ask) -> None:
    """DIN 471 is for shafts: in a bore it is refused before any size is asked."""
    verdict = ask(ring={"standard": "DIN 471 - 36", "thickness": "1.75 0/-0.06 mm"})
    assert verdict.status is DOES_NOT_FIT
    assert [one.rule for one in verdict.findings] == ["ring_side"]


def test_an_is_3075_ring_may_be_too_thick(ask: Ask) -> None:
    """Its thickness may be 0.05 mm above that of the DIN ring: 1.55 in a groove of 1.52 is not proven."""
    groove = {"groove_width": "1.52 ±0.01 mm"}
    din = ask(groove, {"thickness": None}).of("ring_axial_play")
    other = ask(groove, {"standard": "IS 3075 - 36", "style": "bore_ring", "thickness": None})
    assert din is not None
    assert din.status is FITS
    found = other.of("ring_axial_play")
    assert found is not None
    assert (found.status, found.low) == (NOT_PROVEN, pytest.approx(-0.04))
    assert any("IS 3075" in one for one in other.taken)


def test_a_wire_ring_is_never_proven_under_thrust(ask: Ask) -> None:
    """Trapped by its shoulder, sprung in its groove, with play: and no load of it was found in print."""
    verdict = ask(WIRE_PLACE, WIRE)
    assert verdict.status is NOT_PROVEN
    assert [one.rule for one in verdict.findings if one.status is not FITS] == ["wire_ring_load"]
    assert verdict.of("groove_load_factor") is None


def test_a_wire_ring_that_no_shoulder_traps_is_not_proven(ask: Ask) -> None:
    """With a spigot of 45 mm within it the wire can leave a groove in a bore of 50 mm."""
    free = ask({**WIRE_PLACE, "shoulder_diameter": "45 ±0.1 mm", "thrust": "0 N"}, WIRE, {})
    untold = ask({**WIRE_PLACE, "shoulder_diameter": None, "thrust": "0 N"}, WIRE, {})
    held = ask({**WIRE_PLACE, "thrust": "0 N"}, WIRE, {})
    assert [one.status for one in (free, untold, held)] == [NOT_PROVEN, NOT_PROVEN, FITS]
    found = free.of("trapped_ring")
    assert found is not None
    assert found.high is not None
    assert found.high < 0


def test_a_wire_ring_by_its_standard_takes_its_free_diameter(ask: Ask) -> None:
    """GB 895.1 - 50: wire 2.5, free 53 to 54.2, groove 52.5."""
    place = {
        **WIRE_PLACE,
        "groove_diameter": "52.5 ±0.15 mm",
        "groove_width": "2.70 +0.1/0 mm",
        "shoulder_diameter": "46.0 ±0.1 mm",
    }
    ring = {**WIRE, "standard": "GB 895.1-86 - 50", "wire_diameter": "2.5 ±0.02 mm", "free_diameter": None}
    grip = ask(place, ring).of("ring_grip")
    assert grip is not None
    assert (grip.low, grip.high) == pytest.approx((0.35, 1.85))
    assert grip.grade == "derived"


def test_an_e_clip_is_held_to_its_range_of_shafts(ask: Ask) -> None:
    """DIN 6799 - 10 goes on shafts of 11 to 15 mm; its load is open."""
    place = {
        **SHAFT_PLACE,
        "shaft_diameter": "12 h9 mm",
        "cap_diameter": None,
        "groove_diameter": "10 ±0.02 mm",
        "groove_width": "1.25 +0.1/0 mm",
        "seal_diameter": None,
        "thrust": "0 N",
    }
    ring = {"standard": "DIN 6799 - 10", "thickness": "1.2 ±0.02 mm", "free_diameter": "9.9 ±0.02 mm"}
    assert ask(place, ring, {}).status is FITS
    thick = ask({**place, "shaft_diameter": "16 h9 mm"}, ring, {}).of("e_clip_shaft")
    assert thick is not None
    assert thick.status is DOES_NOT_FIT


def test_a_groove_without_a_ring_is_not_proven() -> None:
    """An empty groove says what it lacks."""
    verdict = check(Fit(place=fit_of().place), published_reference())
    assert verdict.status is NOT_PROVEN
    assert verdict.findings[0].lacks == ("retaining ring",)


def test_a_groove_of_which_nothing_is_told_still_gets_an_answer() -> None:
    """Every finding then says what to give."""
    bare = fit_of().changed(place=RetainingRingGroove())
    verdict = check(bare, published_reference())
    assert verdict.status is NOT_PROVEN
    assert all(one.lacks or one.reason for one in verdict.findings)


def test_a_worn_groove_measured_wider_is_told_with_its_uncertainty(ask: Ask) -> None:
    """Measured sizes widen the answer by the guard band of the decision rule."""
    found = ask({"groove_diameter": "38.10 mm by calliper"}).of("ring_grip")
    assert found is not None
    assert found.guard_band > 0.04
    assert found.status is FITS


@settings(max_examples=40, deadline=None)
@given(
    bore=st.floats(36.0, 36.025),
    groove=st.floats(38.0, 38.25),
    width=st.floats(1.6, 1.74),
    thickness=st.floats(1.44, 1.5),
)
def test_the_worst_case_bounds_every_sample(
    bore: float, groove: float, width: float, thickness: float
) -> None:
    """Any ring and groove within the drawn limits lies within what the check of the limits says."""
    drawn = check(fit_of(), published_reference())
    one = check(
        fit_of(
            {
                "bore_diameter": f"{bore:.6f} mm",
                "groove_diameter": f"{groove:.6f} mm",
                "groove_width": f"{width:.6f} mm",
            },
            {"thickness": f"{thickness:.6f} mm"},
        ),
        published_reference(),
    )
    for name in ("ring_axial_play", "ring_groove_depth", "groove_load_factor"):
        outer, inner = drawn.of(name), one.of(name)
        assert outer is not None
        assert inner is not None
        assert outer.low is not None and outer.high is not None
        assert inner.low is not None and inner.high is not None
        assert outer.low - 1e-5 <= inner.low <= inner.high <= outer.high + 1e-5


@pytest.mark.parametrize(
    ("place", "ring"),
    [
        (
            {**WIRE_PLACE, "bore_diameter": "40 H8 mm", "groove_diameter": "41.6 +0.1/0 mm", "thrust": "0 N"},
            WIRE,
        ),
        (
            {**WIRE_PLACE, "bore_diameter": "40 H8 mm", "groove_diameter": "42.2 +0.1/0 mm", "thrust": "0 N"},
            {**WIRE, "standard": "GB 895.1-86 - 50", "wire_diameter": None, "free_diameter": None},
        ),
        (
            {"thrust": "0 N"},
            {"standard": None, "bore_diameter": "60 mm", "free_diameter": "64 ±0.2 mm"},
        ),
        (
            {
                "bore_diameter": None,
                "shaft_diameter": "11.00 ±0.02 mm",
                "groove_diameter": "9.00 0/-0.05 mm",
                "groove_width": "1.1 +0.1/0 mm",
                "thrust": "0 N",
            },
            {"standard": "DIN 6799 - 8", "thickness": "1.00 ±0.02 mm", "free_diameter": "7.50 ±0.05 mm"},
        ),
    ],
)
def test_a_ring_of_another_size_is_refused_without_a_row_too(
    ask: Ask, place: dict[str, str], ring: dict[str, str]
) -> None:
    """A wire ring, a ring told by its sizes and an E-clip are held to the size they are made for."""
    verdict = ask(place, ring, {})
    size = verdict.of("ring_size_difference")
    assert size is not None
    assert (size.status, verdict.status) == (DOES_NOT_FIT, DOES_NOT_FIT)


def test_a_ring_of_which_nobody_knows_the_size_is_not_proven(ask: Ask) -> None:
    """Grip above zero says nothing of a ring that was made for another bore."""
    ring = {"standard": None, "style": "bore_ring", "free_diameter": "45 ±0.2 mm"}
    verdict = ask({"thrust": "0 N"}, ring, {})
    size = verdict.of("ring_size_difference")
    assert size is not None
    assert (size.status, verdict.status) == (NOT_PROVEN, NOT_PROVEN)


def test_two_rings_in_one_groove_are_not_proven() -> None:
    """Of two different rings on the list of one groove nobody says which goes in."""
    fit = fit_of()
    other = fit_of(ring={"standard": "DIN 472 - 40", "thickness": None})
    verdict = check(fit.changed(parts=(*fit.parts, *other.parts)), published_reference())
    assert verdict.status is NOT_PROVEN
    assert verdict.of("one_ring") is not None
