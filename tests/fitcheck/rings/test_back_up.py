"""A back-up ring's own material and thickness."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from fitcheck.check import check
from schema.finding import Finding, Status, Verdict
from schema.question import question_from
from schema.reference import published_reference
from tests.examples import PISTON

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def asked(**back_up: Any) -> Verdict:
    """The moving piston gland of the examples with a back-up ring in it."""
    given = copy.deepcopy(PISTON)
    given["place"]["back_up_rings"] = 1
    given["back_up_ring"] = {"width": "1.25 ±0.05 mm", **back_up}
    return check(question_from(given), published_reference())


def finding(verdict: Verdict, rule: str) -> Finding:
    found = verdict.of(rule)
    assert found is not None, rule
    return found


@pytest.mark.parametrize(
    ("material", "rule", "expected"),
    [
        ("PTFE", "back_up_fluid", FITS),
        ("POM", "back_up_fluid", FITS),
        ("EPDM", "back_up_fluid", OUT),
        ("PTFE", "back_up_temperature", FITS),
        ("plastic", "back_up_fluid", NOT),
    ],
)
def test_a_back_up_ring_must_stand_fluid_and_heat(material: str, rule: str, expected: Status) -> None:
    """It is judged by its own material, not by that of the ring beside it."""
    assert finding(asked(material=material), rule).status is expected


def test_a_hard_back_up_ring_is_not_refused_for_being_hard() -> None:
    """A back-up ring is not squeezed: that a hard plastic does not seal is no fault of it."""
    verdict = asked(material="PTFE")
    assert verdict.of("material_kind") is None


@pytest.mark.parametrize(("share", "expected"), [(0.97, FITS), (0.85, NOT), (0.50, OUT), (1.08, OUT)])
def test_a_back_up_ring_fills_its_gland(share: float, expected: Status) -> None:
    """Up to a tenth of the depth may stay open (shop rule); half of it is no back-up, more than all of it
    does not go in."""
    question = question_from(PISTON)
    gland = question.gland
    depth = (gland.bore_diameter.middle - gland.groove_diameter.middle) / 2  # type: ignore[union-attr]
    verdict = asked(radial_thickness=f"{share * depth:.3f} ±0.01 mm")
    found = finding(verdict, "back_up_room")
    assert found.status is expected
    assert found.limits is not None
    assert found.limits.guidance == "shop rule"


def test_without_its_thickness_the_room_is_not_asked() -> None:
    """The thickness is optional; a plain ring is asked nothing of a back-up ring at all."""
    assert asked().of("back_up_room") is None
    plain = check(question_from(PISTON), published_reference())
    assert not [one for one in plain.findings if one.rule.startswith("back_up_")]
