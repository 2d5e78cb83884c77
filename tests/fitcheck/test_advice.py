"""Advice that is given holds when it is followed."""

from __future__ import annotations

import re

import pytest

from schema.finding import Status
from tests.examples import END_CAP, asked

FITS, NOT = Status.FITS, Status.NOT_PROVEN

ADVICE = re.compile(
    r"^Measure the ([a-z' ]+) (by [a-z -]+|(?:optically )?to ±U0\.01 mm): "
    r"([\d.]+)(?: to ([\d.]+))? mm settles it"
)
OPTION = {
    "ring's section": ("part", "cross_section"),
    "ring's inside diameter": ("part", "inside_diameter"),
    "bore diameter": ("place", "bore_diameter"),
    "groove diameter": ("place", "groove_diameter"),
    "land diameter": ("place", "land_diameter"),
    "groove width": ("place", "groove_width"),
}


BORES = [f"{36.0 + step / 50:.2f} ±U0.04 mm" for step in range(-1, 14)]
LANDS = ["35.98 ±0.01 mm", "35.86 ±0.05 mm"]


def test_the_grid_of_questions_gets_advice_at_all() -> None:
    """Of the static questions below at least eight are told one measurement that settles them."""
    verdicts = [
        asked(END_CAP, place={"bore_diameter": bore, "land_diameter": land}, service={"motion": "static"})
        for bore in BORES
        for land in LANDS
    ]
    assert sum(ADVICE.search(verdict.next_step) is not None for verdict in verdicts) >= 8


@pytest.mark.parametrize("bore", BORES)
@pytest.mark.parametrize("land", LANDS)
@pytest.mark.parametrize("motion", ["reciprocating", "static"])
def test_advice_that_is_given_holds(bore: str, land: str, motion: str) -> None:
    """Whoever measures what the verdict asks for, inside its range, gets ``fits``."""
    place = {"bore_diameter": bore, "land_diameter": land}
    verdict = asked(END_CAP, place=place, service={"motion": motion})
    told = ADVICE.search(verdict.next_step)
    if told is None:
        assert "settles it" not in verdict.next_step.replace("No measurement settles it", "").replace(
            "No one measurement settles it", ""
        )
        return
    section, field = OPTION[told[1]]
    low, high = float(told[3]), float(told[4] or told[3])
    means = told[2] if told[2].startswith("by") else "±U0.01"
    for at in (low, (low + high) / 2, high):
        change = {section: {field: f"{at:.4f} mm {means}" if means[0] == "b" else f"{at:.4f} {means} mm"}}
        place_changed = {"place": {**place, **change.get("place", {})}, "part": change.get("part", {})}
        again = asked(END_CAP, **place_changed, service={"motion": motion})
        assert again.status is FITS, (verdict.next_step, at)


def test_two_measurements_that_are_asked_for_settle_it() -> None:
    """Where no one measurement will do, the readings that are told together give ``fits``."""
    place = {"groove_width": "4.3 ±0.5 mm", "land_diameter": "35.85 ±0.14 mm", "metal": "aluminium"}
    verdict = asked(END_CAP, place=place)
    assert verdict.status is NOT
    told = re.match(
        r"No one measurement settles it\. Measure the (.+) (by .+) and the (.+) (by .+): "
        r"([\d.]+) mm and ([\d.]+) mm together settle it",
        verdict.next_step,
    )
    assert told, verdict.next_step
    for name, means, reading in ((told[1], told[2], told[5]), (told[3], told[4], told[6])):
        place[OPTION[name][1]] = f"{reading} mm {means}"
    assert asked(END_CAP, place=place).status is FITS


@pytest.mark.parametrize("pressure", ["5 MPa", "12 MPa"])
def test_a_back_up_ring_is_advised_only_where_it_helps(pressure: str) -> None:
    """Where no published clearance is wider with back-up rings, none is offered."""
    place = {"land_diameter": "35.70 ±0.01 mm", "back_up_width": None}
    bare = asked(END_CAP, place=place | {"groove_width": "5.0 +0.2/0 mm"}, service={"pressure": pressure})
    finding = bare.of("extrusion_gap")
    assert finding is not None
    backed = asked(
        END_CAP,
        place=place | {"groove_width": "6.5 +0.2/0 mm", "back_up_rings": 1},
        service={"pressure": pressure},
    ).of("extrusion_gap")
    helps = backed.limits.high > finding.limits.high
    assert ("A back-up ring on" in finding.action) is helps


def test_advice_for_another_part_is_one_it_could_be() -> None:
    """Nobody is sent for a land larger than its bore, or a groove of many times its width."""
    verdict = asked(END_CAP, part={"size": "AS568-425"})
    told = [one.action for one in verdict.findings if "It would need" in one.action]
    assert not any("land" in text or "width" in text for text in told), told
    sized = asked(END_CAP, part={"size": "AS568-325"})
    told = [one.action for one in sized.findings if "It would need" in one.action]
    assert told
    assert not any("need a land" in text or "need a groove width" in text for text in told), told
    narrow = asked(END_CAP, place={"groove_width": "3.2 ±0.05 mm"})
    told_width = re.search(r"It would need a groove width of ([\d.]+)", narrow.next_step)
    assert told_width, narrow.next_step
    assert asked(END_CAP, place={"groove_width": f"{told_width[1]} ±U0.0001 mm"}).status is FITS
