"""A retaining ring that something pushes: the loads of ring and groove, and what they rest on."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitcheck.retaining_rings.loads import groove_area_load, load_factor, ring_thrust
from schema.finding import Status, Verdict

Ask = Callable[..., Verdict]
FITS, NOT_PROVEN, DOES_NOT_FIT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def test_the_chamfered_cap_governs(ask: Ask) -> None:
    """DIN 472 - 30 bears 13.7 kN from a sharp close corner and 4.6 from a chamfer: 4.7 times 975 N."""
    place = {
        "bore_diameter": "30 H7 mm",
        "groove_diameter": "31.40 +0.25/0 mm",
        "groove_width": "1.30 +0.14/0 mm",
        "seal_diameter": "30 mm",
        "groove_yield": "200 MPa",
    }
    ring = {"standard": "DIN 472 - 30", "thickness": None}
    service = {"pressure": "200 psi"}
    chamfered = ask({**place, "chamfer": "0.5 ±0.1 mm"}, ring, service).of("ring_load_factor")
    close = {"corner": "sharp", "chamfer": None, "cap_diameter": "29.98 ±0.01 mm"}
    sharp = ask({**place, **close}, ring, service).of("ring_load_factor")
    assert chamfered is not None
    assert sharp is not None
    assert chamfered.middle == pytest.approx(4.72, abs=0.01)
    assert sharp.middle == pytest.approx(14.05, abs=0.02)


def test_play_of_the_cap_counts_as_a_chamfer(ask: Ask) -> None:
    """A sharp corner 0.3 mm off the bore gets the chamfered load, and so does one nobody measured."""
    sharp = {"corner": "sharp", "chamfer": None}
    close = ask({**sharp, "cap_diameter": "35.97 ±0.01 mm"}).of("ring_load_factor")
    loose = ask({**sharp, "cap_diameter": "35.70 ±0.01 mm"}).of("ring_load_factor")
    untold = ask(sharp).of("ring_load_factor")
    assert close is not None
    assert loose is not None
    assert untold is not None
    assert close.middle == pytest.approx(26_400 / 2545.6, rel=1e-3)
    assert loose.middle == untold.middle == pytest.approx(6_400 / 2545.6, rel=1e-3)


def test_a_chamfer_larger_than_the_tabled_one_proves_nothing(ask: Ask) -> None:
    """Beyond g the load falls by a relation from memory, so it is not proven however large the factor is."""
    found = ask({"chamfer": "1.8 ±0.1 mm"}, service={"pressure": "0.5 MPa"}).of("ring_load_factor")
    assert found is not None
    assert found.status is NOT_PROVEN
    assert found.grade == "from_memory"
    assert found.low == pytest.approx(6_400 * 1.5 / 1.9 / 509.5, rel=2e-3)


def test_the_highest_pressure_counts_and_not_the_charge(ask: Ask) -> None:
    """What holds 5.2 times the charge holds 0.7 times the pressure at full stroke, 7.3 times as high."""
    charge = ask(service={"pressure": "1.2 MPa"})
    full_stroke = ask(service={"pressure": f"{1.2 * 7.3} MPa"})
    assert charge.status is FITS
    assert full_stroke.status is DOES_NOT_FIT


def test_the_area_that_is_sealed_counts_and_not_the_ring(ask: Ask) -> None:
    """A cap that seals on 45 mm behind a ring of 36 mm pushes (45/36)^2 times as hard."""
    small, large = ask(), ask({"seal_diameter": "45 H7 mm"})
    thrust = {told.rule: told.middle for told in small.told}["ring_thrust"]
    assert {told.rule: told.middle for told in large.told}["ring_thrust"] == pytest.approx(
        thrust * (45 / 36) ** 2, rel=1e-3
    )


@pytest.mark.parametrize(
    ("place", "rule"),
    [
        ({"edge_distance": "2.0 ±0.1 mm"}, "ring_land"),
        ({"wall": "2.0 ±0.1 mm"}, "ring_wall"),
        ({"edge_distance": None}, "ring_land"),
        ({"wall": None}, "ring_wall"),
        ({"groove_yield": None}, "groove_load_factor"),
        ({"corner": None, "chamfer": None}, "ring_load_factor"),
        ({"chamfer": None}, "ring_load_factor"),
        ({"seal_diameter": None}, "ring_load_factor"),
        ({"safety_factor": None}, "safety_factor"),
    ],
)
def test_what_is_short_thin_or_not_told_is_not_proven(ask: Ask, place: dict[str, str], rule: str) -> None:
    """A short land, a thin wall and every missing word end in not proven, told by its own finding."""
    verdict = ask(place)
    found = verdict.of(rule)
    assert verdict.status is NOT_PROVEN
    assert found is not None
    assert found.status is NOT_PROVEN


def test_the_default_factor_is_judged_and_proves_nothing(ask: Ask) -> None:
    """Without a factor of maker or workshop the default 2 is held against, and the verdict stays open."""
    verdict = ask({"safety_factor": None})
    groove = verdict.of("groove_load_factor")
    assert groove is not None
    assert groove.limits is not None
    assert (groove.limits.low, groove.limits.refuse_low) == (2.0, 1.0)
    assert groove.status is FITS
    assert [one.rule for one in verdict.findings if one.status is not FITS] == ["safety_factor"]


def test_a_given_factor_leads(ask: Ask) -> None:
    """A maker who wants 4 has his 4: between 1 and 4 the ring is not proven."""
    found = ask({"safety_factor": "4"}).of("ring_load_factor")
    assert found is not None
    assert found.limits is not None
    assert found.limits.low == 4.0
    assert found.status is NOT_PROVEN
    assert "workshop rule of the test" in found.source


def test_without_pressure_or_thrust_nothing_is_proven(ask: Ask) -> None:
    """Neither a pressure nor a gas chamber nor a thrust: the loads are open and say what to give."""
    verdict = ask(service={})
    found = verdict.of("groove_load_factor")
    assert verdict.status is NOT_PROVEN
    assert found is not None
    assert any("0 N where nothing pushes" in one for one in found.lacks)


def test_where_nothing_pushes_only_the_seat_is_asked(ask: Ask) -> None:
    """A thrust of 0 N needs neither land nor wall nor factor."""
    bare = {"thrust": "0 N", "edge_distance": None, "wall": None, "groove_yield": None, "safety_factor": None}
    verdict = ask({**bare, "corner": None, "chamfer": None, "seal_diameter": None}, service={})
    assert verdict.status is FITS
    assert verdict.of("groove_load_factor") is None


def test_a_given_thrust_takes_the_place_of_the_pressure(ask: Ask) -> None:
    """A thrust told in newtons is held against the same loads."""
    found = ask({"thrust": "3200 N", "seal_diameter": None}, service={}).of("ring_load_factor")
    assert found is not None
    assert found.middle == pytest.approx(2.0)


def test_a_size_without_printed_load_is_not_proven(ask: Ask) -> None:
    """DIN 472 - 39 is listed without loads: its groove is worked out, its ring is open."""
    place = {
        "bore_diameter": "39 H7 mm",
        "groove_diameter": "41.00 +0.25/0 mm",
    }
    verdict = ask(place, {"standard": "DIN 472 - 39", "thickness": None})
    assert verdict.status is NOT_PROVEN
    ring, groove, grip = (
        verdict.of(name) for name in ("ring_load_factor", "groove_load_factor", "ring_grip")
    )
    assert groove is not None
    assert groove.status is FITS
    assert ring is not None
    assert ring.status is NOT_PROVEN
    assert grip is not None
    assert (grip.status, grip.grade) == (NOT_PROVEN, "disputed")


def test_the_lower_of_two_loads_of_a_groove_counts(ask: Ask) -> None:
    """DIN 472 - 38 prints 22.5 kN where its area gives 20.4: the area counts."""
    place = {
        "bore_diameter": "38 mm",
        "groove_diameter": "40.00 +0.25/0 mm",
        "groove_yield": "200 MPa",
    }
    verdict = ask(place, {"standard": "DIN 472 - 38", "thickness": None})
    told = {one.rule: one.low for one in verdict.told}
    assert told["groove_capacity"] == pytest.approx(20_420, rel=1e-3)


def test_cautions_are_told_where_something_pushes(ask: Ask) -> None:
    """A ring that may be under pressure comes with its cautions; one that nothing pushes does not."""
    assert any("under pressure" in one for one in ask().cautions)
    assert ask({"thrust": "0 N"}).cautions == ()


SIZES = st.floats(20.0, 60.0)


@settings(max_examples=80, deadline=None)
@given(pressure=st.floats(0.1, 20.0), more=st.floats(0.0, 10.0), seal=SIZES, wider=st.floats(0.0, 20.0))
def test_more_pressure_or_area_never_raises_the_factor(
    pressure: float, more: float, seal: float, wider: float
) -> None:
    """The factor of one groove falls with pressure and sealed area."""
    capacity = groove_area_load(yield_mpa=200.0, outer_mm=38.0, inner_mm=36.0)
    less = ring_thrust(pressure_mpa=pressure, seal_diameter_mm=seal)
    harder = ring_thrust(pressure_mpa=pressure + more, seal_diameter_mm=seal + wider)
    assert load_factor(capacity_n=capacity, thrust_n=harder) <= load_factor(
        capacity_n=capacity, thrust_n=less
    ) * (1 + 1e-12)


@pytest.mark.parametrize(
    ("field", "text"), [("chamfer", "0.5 mm"), ("cap_diameter", "35.95 mm"), ("wall", "4 mm")]
)
def test_what_the_load_rests_on_needs_its_tolerance(ask: Ask, field: str, text: str) -> None:
    """Chamfer, cap and wall decide what ring and groove bear: a bare size of them proves nothing."""
    assert ask({field: text}).status is NOT_PROVEN


def test_a_wall_counts_with_its_uncertainty(ask: Ask) -> None:
    """A wall read as 3.1 mm with U of 1 mm may be less than the three depths it must have."""
    assert ask({"wall": "3.1 ±U0.05 mm"}).status is FITS
    assert ask({"wall": "3.1 ±U1 mm"}).status is NOT_PROVEN


def test_a_thrust_beside_a_pressure_proves_nothing(ask: Ask) -> None:
    """A thrust of zero where a pressure of 30 MPa pushes is a contradiction, not a free ring."""
    verdict = ask({"thrust": "0 N"}, service={"pressure": "30 MPa"})
    assert verdict.status is NOT_PROVEN
    assert verdict.of("one_thrust") is not None


def test_a_thrust_read_as_zero_may_be_more(ask: Ask) -> None:
    """A thrust of 0 N that was measured within 50 N may push."""
    assert ask({"thrust": "0 ±U50 N"}, service={}).of("groove_load_factor") is not None
