"""Surfaces, edges and chemistry: each judged when given, by its published row."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from schema.finding import Status, Verdict

Ask = Callable[..., Verdict]

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


@pytest.mark.parametrize(
    ("field", "text", "motion", "expected"),
    [
        ("surface_finish_running", "0.3 um Ra", "reciprocating", FITS),
        ("surface_finish_running", "0.4 um Ra", "reciprocating", FITS),
        ("surface_finish_running", "0.8 um Ra", "reciprocating", NOT),
        ("surface_finish_running", "2 um Ra", "reciprocating", OUT),
        ("surface_finish_running", "0.8 um Ra", "static", FITS),
        ("surface_finish_groove", "1.6 um Ra", "reciprocating", FITS),
        ("surface_finish_groove", "3.2 um Ra", "reciprocating", NOT),
    ],
)
def test_finish_is_judged_by_the_printed_limits(
    ask: Ask, field: str, text: str, motion: str, expected: Status
) -> None:
    """Reciprocating 0.4, static 0.8, unsealed 1.6 um Ra (roymech.org), not below 8 uin when moving."""
    rule = {"surface_finish_running": "finish_running", "surface_finish_groove": "finish_groove"}[field]
    assert ask(place={field: text}, service={"motion": motion}).of(rule).status is expected


def test_a_mirror_is_not_proven_for_a_moving_ring(ask: Ask) -> None:
    """Below 8 uin a moving surface holds no film: it does not count as a fit (marcorubber.com)."""
    assert ask(place={"surface_finish_running": "0.05 um Ra"}).of("finish_running").status is not FITS


def test_eight_microinch_is_not_too_smooth(ask: Ask) -> None:
    """8 to 16 uin is the printed range of a moving surface (marcorubber.com, groove design page)."""
    assert ask(place={"surface_finish_running": "8 uin"}).of("finish_running").status is FITS


def test_sixteen_microinch_is_not_too_rough(ask: Ask) -> None:
    """16 uin, the printed upper end for a moving surface, is within it (marcorubber.com)."""
    assert ask(place={"surface_finish_running": "16 uin"}).of("finish_running").status is FITS


@pytest.mark.parametrize(
    ("text", "expected"), [("0.2..0.4 mm", FITS), ("0.5..0.9 mm", NOT), ("0 +0.2/0 mm", FITS)]
)
def test_a_corner_radius_is_judged_by_its_table(ask: Ask, text: str, expected: Status) -> None:
    """.030 in (0.762 mm) is the largest printed radius for .139 in (Apple Rubber)."""
    assert ask(place={"corner_radius": text}).of("corner_radius").status is expected


@pytest.mark.parametrize(("text", "expected"), [("0.1 mm", FITS), ("0.2 mm", NOT)])
def test_run_out_is_judged_by_its_table(ask: Ask, text: str, expected: Status) -> None:
    """.004 in (0.1016 mm) is the printed eccentricity for .139 in reciprocating (Apple Rubber)."""
    assert ask(place={"runout": text}).of("runout").status is expected


def test_run_out_is_no_question_of_a_face_gland(ask: Ask) -> None:
    """A face gland does not turn."""
    assert ask("face", place={"runout": "0.1 mm"}).of("runout") is None


@pytest.mark.parametrize(("text", "expected"), [("3 mm", FITS), ("0.5 mm", NOT)])
def test_a_short_lead_in_is_not_proven(ask: Ask, text: str, expected: Status) -> None:
    """A short chamfer may cut the ring in assembly; it does not refuse it in service."""
    assert ask(place={"lead_in_length": text}).of("lead_in").status is expected


@pytest.mark.parametrize(
    ("material", "fluid", "expected"),
    [
        ("NBR", "mineral_oil", FITS),
        ("EPDM", "mineral_oil", OUT),
        ("NBR", "nitrogen", FITS),
        ("NBR", "ester_oil", FITS),
        ("VMQ", "mineral_oil", NOT),
        ("FKM", "mineral_oil", FITS),
    ],
)
def test_a_material_is_judged_in_each_fluid(ask: Ask, material: str, fluid: str, expected: Status) -> None:
    """Rating 1 and 2 fit, 3 is not proven, 4 is refused."""
    medium = "gas" if fluid == "nitrogen" else "liquid"
    verdict = ask(part={"material": material}, service={"fluid": fluid, "medium": medium})
    assert verdict.of("material_fluid").status is expected


def test_every_fluid_has_a_finding(ask: Ask) -> None:
    """Oil and gas on the two sides of a ring are two findings."""
    verdict = ask(service={"fluid": "mineral_oil; nitrogen", "medium": "gas"})
    assert len([one for one in verdict.findings if one.rule == "material_fluid"]) == 2


@pytest.mark.parametrize(("temperature", "apart"), [("-60..-55 degC", OUT), ("-54..60 degC", NOT)])
def test_one_end_of_a_temperature_range_refuses_it(ask: Ask, temperature: str, apart: Status) -> None:
    """The whole range is needed: one end beyond every source refuses, beyond some leaves open."""
    assert ask(service={"temperature": temperature}).of("material_temperature").status is apart
