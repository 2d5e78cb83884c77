"""The whole unit: what no place shows by itself, the kit, tools and cautions."""

from __future__ import annotations

from typing import Any

import pytest

from fitcheck.unit.check import check_unit
from schema.finding import Status
from schema.reference import published_reference
from schema.unit import unit_from
from schema.unit_verdict import UnitVerdict
from tests.schema.test_unit import texts


def checked(measured: dict[str, Any] | None = None, **changes: Any) -> UnitVerdict:
    return check_unit(unit_from(texts(**changes), measured=measured), published_reference())


def test_the_verdict_on_a_unit_is_its_worst() -> None:
    """One place that is not proven keeps the unit from being proven; one that is refuted refutes it."""
    assert checked().status is Status.NOT_PROVEN
    refuted = checked(parts__LV_1__material="EPDM")
    assert refuted.status is Status.DOES_NOT_FIT
    assert "end-cap" in refuted.next_step


def test_places_are_grouped_by_their_verdicts() -> None:
    """Every place is in one group."""
    groups = checked().grouped()
    assert [one.name for one in groups[Status.FITS]] == ["end-cap"]
    assert [one.name for one in groups[Status.NOT_PROVEN]] == ["main-piston"]
    assert groups[Status.DOES_NOT_FIT] == ()


def test_a_gland_without_a_ring_is_not_proven() -> None:
    """It says what is missing instead of passing it over."""
    place = checked(places__end_cap__parts=[]).places[0]
    assert place.verdict.status is Status.NOT_PROVEN
    assert place.verdict.findings[0].lacks == ("ring",)


@pytest.mark.parametrize(
    ("other", "status", "why"),
    [
        pytest.param("36 H7 mm", Status.FITS, "", id="the same"),
        pytest.param("36 H8 mm", Status.NOT_PROVEN, "36 H8 mm", id="drawn in two ways"),
        pytest.param("36.5 ±0.02 mm", Status.DOES_NOT_FIT, "36.5", id="cannot be one bore"),
        pytest.param("36.06 mm by bore gauge", Status.NOT_PROVEN, "36.06", id="worn here, drawn there"),
        pytest.param("36.012 mm by bore gauge", Status.FITS, "", id="measured, and as drawn"),
    ],
)
def test_places_that_share_a_bore_must_mean_one_bore(other: str, status: Status, why: str) -> None:
    """Two sizes of one surface are the same, told in two ways, or no sizes of one surface."""
    verdict = checked(places__main_piston__bore_diameter=other)
    finding = next(one for one in verdict.findings if one.rule == "shared_surface")
    assert finding.status is status
    assert why in finding.reason


def test_a_bore_measured_differently_at_two_places_is_not_proven() -> None:
    """Readings that no one diameter gives mean uneven wear or a slip."""
    verdict = checked(
        {
            "end-cap": {"bore_diameter": "36.010 mm by bore gauge"},
            "main-piston": {"bore_diameter": "36.060 mm by bore gauge"},
        }
    )
    finding = next(one for one in verdict.findings if one.rule == "shared_surface")
    assert finding.status is Status.NOT_PROVEN
    assert "unevenly" in finding.meaning


@pytest.mark.parametrize(
    ("travel", "bumper", "status"),
    [
        pytest.param("46.0 ±0.3 mm", "5.0 ±0.5 mm", Status.FITS, id="room"),
        pytest.param("45.5 ±0.3 mm", "5.0 ±0.5 mm", Status.NOT_PROVEN, id="perhaps"),
        pytest.param("44.0 ±0.3 mm", "5.0 ±0.5 mm", Status.DOES_NOT_FIT, id="metal on metal"),
    ],
)
def test_the_bumper_must_stop_the_shaft_before_metal_does(travel: str, bumper: str, status: Status) -> None:
    """46 less 5 less 40 leaves 1 mm, at its worst 0.2 mm; 44 leaves nothing."""
    verdict = checked(stroke="40 ±0 mm", travel_to_metal=travel, bumper_solid_length=bumper)
    finding = next(one for one in verdict.findings if one.rule == "room_at_full_stroke")
    assert finding.status is status
    assert finding.middle == pytest.approx(float(travel[:4]) - 45.0)


def test_what_was_not_told_of_the_unit_is_named() -> None:
    """A unit that tells no travel is not said to have enough of it."""
    verdict = checked()
    assert not any(one.rule == "room_at_full_stroke" for one in verdict.findings)
    assert any("travel" in text for text in verdict.not_asked)


def test_the_kit_renews_what_is_always_renewed_and_lets_stay_only_what_was_measured() -> None:
    """A drawing shows no wear: an inspected part may stay only where measured sizes prove it."""
    lines = {line.keep: line for line in checked().kit}
    assert (lines["renew"].quantity, lines["renew"].places) == (1, ("end-cap",))
    assert lines["look and measure"].quantity == 2
    renew = [{"part": "LV-1", "renew": "inspect"}]
    drawn = checked(places__end_cap__parts=renew).kit
    assert {line.keep for line in drawn} == {"look and measure"}
    bore = {"bore_diameter": "36.012 mm by bore gauge"}
    ring = {"LV-1": {"cross_section": "3.52 mm by calliper on rubber"}}
    for measured, keep in ((bore, "look and measure"), ({**bore, **ring}, "may stay")):
        kit = checked({"end-cap": measured}, places__end_cap__parts=renew).kit
        assert {line.keep for line in kit if "end-cap" in line.places} == {keep}
    refuted = checked(places__end_cap__parts=renew, parts__LV_1__material="EPDM").kit
    assert {line.keep for line in refuted if "end-cap" in line.places} == {"replace"}


def test_tools_are_told_once_with_their_places() -> None:
    """A tool that two places need stands once."""
    verdict = checked(
        tools="soft jaws",
        places__end_cap__tools="hex key 5 mm",
        places__main_piston__tools="pick; hex key 5 mm",
    )
    assert dict(verdict.tools) == {
        "soft jaws": (),
        "hex key 5 mm": ("end-cap", "main-piston"),
        "pick": ("main-piston",),
    }


def test_cautions_come_in_the_order_of_the_work_and_only_with_reason() -> None:
    """Gas is spoken of where there is gas; the maker's instructions always come first."""
    without = [one.where for one in checked().cautions]
    with_gas = [one.where for one in checked(places__end_cap__medium="gas").cautions]
    assert without[0] == "always" and "gas" not in without and "springs" in without
    assert "gas" in with_gas
    steps = [one.step for one in checked(places__end_cap__medium="gas").cautions]
    assert steps.index("release the gas") < steps.index("clean") < steps.index("afterwards")


def test_the_same_unit_gives_the_same_verdict() -> None:
    """The check is pure."""
    assert checked() == checked()


SHAFT = {
    "kind": "shaft",
    "outside_diameter": "16 f7 mm",
    "thread": "M10x1",
}


@pytest.mark.parametrize(
    ("thread", "status"),
    [
        pytest.param("M10x1", Status.FITS, id="smaller than the ring"),
        pytest.param("M16x1", Status.NOT_PROVEN, id="larger than the ring"),
    ],
)
def test_a_seal_that_meets_the_crests_of_a_thread_is_not_proven(thread: str, status: Status) -> None:
    """A ring of 15.47 mm passes M10 freely and M16 only over a sleeve."""
    rod = {
        "kind": "rod_gland",
        "motion": "reciprocating",
        "shaft_diameter": "16 f7 mm",
        "runs_on": "damper shaft",
        "parts": ["RING"],
    }
    given = texts(
        shafts={"damper shaft": "ROD"},
        parts__ROD={**SHAFT, "thread": thread},
        parts__RING={"kind": "o_ring", "size": "AS568-208"},
        places__rod=rod,
    )
    verdict = check_unit(unit_from(given), published_reference())
    finding = next(one for one in verdict.findings if one.rule == "passes_thread")
    assert finding.status is status
    assert ("sleeve" in finding.action) is (status is Status.NOT_PROVEN)


@pytest.mark.parametrize("thread", ["tapered, coarse", "M10x1; by the maker", "Vg 12"])
def test_a_thread_whose_crests_are_not_known_is_not_proven(thread: str) -> None:
    """What cannot be read, or has no printed crest, is named and not passed over in silence."""
    rod = {
        "kind": "rod_gland",
        "motion": "reciprocating",
        "shaft_diameter": "16 f7 mm",
        "runs_on": "damper shaft",
        "parts": ["RING"],
    }
    given = texts(
        shafts={"damper shaft": "ROD"},
        parts__ROD={**SHAFT, "thread": thread},
        parts__RING={"kind": "o_ring", "size": "AS568-208"},
        places__rod=rod,
    )
    findings = [
        one
        for one in check_unit(unit_from(given), published_reference()).findings
        if one.rule == "passes_thread" and one.status is Status.NOT_PROVEN
    ]
    unread = thread.split("; ")[-1].split(", ")
    assert [one.lacks for one in findings] == [(f"designation of the thread {name}",) for name in unread]


@pytest.mark.parametrize(
    ("oil", "status", "told"),
    [
        pytest.param(
            {"kind": "fluid", "base": "mineral"}, Status.FITS, "every place was judged in", id="same"
        ),
        pytest.param({"kind": "fluid", "base": "glycol"}, Status.DOES_NOT_FIT, "", id="attacks the rubber"),
    ],
)
def test_the_oil_that_goes_in_is_held_against_every_rubber(
    oil: dict[str, str], status: Status, told: str
) -> None:
    """The oil of the unit's description is told to be it; another is judged part by part."""
    verdict = checked(oil="OIL", parts__OIL=oil)
    findings = [one for one in verdict.findings if one.rule in ("oil_told", "part_in_fluid")]
    assert {one.status for one in findings} == {status}
    assert told in findings[0].meaning


def test_an_oil_that_is_not_among_the_parts_is_not_proven() -> None:
    """What the seals stand cannot be told of a number alone. A part that is no fluid is refused before."""
    finding = next(one for one in checked(oil="OIL").findings if one.rule == "oil_told")
    assert finding.status is Status.NOT_PROVEN
    assert "OIL is not a fluid among the parts" in finding.reason


@pytest.mark.parametrize(
    ("stroke", "status"),
    [
        pytest.param("", Status.FITS, id="lent by the unit"),
        pytest.param("40.0 ±0.5 mm", Status.NOT_PROVEN, id="told otherwise"),
        pytest.param("55 ±0.5 mm", Status.DOES_NOT_FIT, id="another stroke"),
    ],
)
def test_a_chamber_must_be_judged_with_the_stroke_of_the_unit(stroke: str, status: Status) -> None:
    """A chamber that tells no stroke takes the unit's; one that tells another is caught."""
    chamber = {"kind": "gas_chamber", "separator": "floating_piston", "stroke": stroke}
    given = {name: text for name, text in chamber.items() if text}
    verdict = checked(stroke="40 ±0.2 mm", places__gas=given)
    finding = next(one for one in verdict.findings if one.rule == "stroke_told")
    assert finding.status is status


@pytest.mark.parametrize(
    ("stroke", "travel", "bumper", "lacking"),
    [
        pytest.param("40 mm", "60 ±0.3 mm", "5 ±0.5 mm", "no tolerance: stroke", id="bare stroke"),
        pytest.param("40 ±0.2 mm", "60 mm", "0 mm", "no tolerance: travel to metal", id="bare travel"),
        pytest.param("40 ±0.2 mm", "60 ±0.3 mm", None, "missing: solid length of the bumper", id="no bumper"),
    ],
)
def test_travel_told_without_tolerance_or_bumper_proves_no_room(
    stroke: str, travel: str, bumper: str | None, lacking: str
) -> None:
    """What is not known of stroke, travel or bumper may take the room there seems to be."""
    told = {"stroke": stroke, "travel_to_metal": travel}
    verdict = checked(**(told if bumper is None else {**told, "bumper_solid_length": bumper}))
    open_ones = [one for one in verdict.findings if one.status is Status.NOT_PROVEN]
    assert any(lacking in one.reason for one in open_ones)


def test_without_a_bumper_told_a_shaft_that_is_too_long_is_still_refused() -> None:
    """A bumper could only make it worse."""
    verdict = checked(stroke="40 ±0.2 mm", travel_to_metal="38 ±0.3 mm")
    assert verdict.status is Status.DOES_NOT_FIT


def test_an_inspected_part_says_what_to_measure_until_it_was() -> None:
    """A ring that may stay has its section measured; once it is, nothing more is asked of it."""
    renew = [{"part": "LV-1", "renew": "inspect"}]
    drawn = checked(places__end_cap__parts=renew).kit
    asked = {one for line in drawn for one in line.measure if one.place == "end-cap"}
    assert asked == {("end-cap", "LV-1", "cross_section")}
    section = {"end-cap": {"LV-1": {"cross_section": "3.53 mm by calliper on rubber"}}}
    measured = checked(section, places__end_cap__parts=renew).kit
    assert not any(one.place == "end-cap" for line in measured for one in line.measure)
