"""One fluid against every material of a unit."""

from __future__ import annotations

from typing import Any

import pytest

from fitcheck.decision import decision_rule
from fitcheck.fluids.against import fluid_findings
from schema.fields import read_model
from schema.finding import Finding, Status
from schema.fluids import Fluid
from schema.reference import published_reference
from schema.service import Service

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def against(fluid: dict[str, Any], **materials: str) -> dict[str, Finding]:
    """Findings by part."""
    service = read_model(
        Service,
        {"motion": "reciprocating", "medium": "liquid", "temperature": "-10..60 degC"},
        path="service",
    )
    found = fluid_findings(
        read_model(Fluid, fluid, path="part"),
        materials,
        service,
        published_reference(),
        decision_rule("iso14253-1-u2"),
    )
    return {one.quantity.partition(":")[0]: one for one in found}


def test_each_part_has_its_own_answer() -> None:
    """Nitrile and PTFE stand mineral oil, EPDM does not, fluorosilicone only where nothing moves."""
    found = against({"base": "mineral"}, seal="NBR", brake="EPDM", band="filled PTFE", cold="FVMQ")
    assert {part: one.status for part, one in found.items()} == {
        "seal": FITS,
        "brake": OUT,
        "band": FITS,
        "cold": NOT,
    }


def test_a_rating_from_memory_proves_nothing() -> None:
    """Polyether urethane in PAO is from memory: not proven, where nitrile in PAO is in print."""
    found = against({"base": "pao"}, wiper="EU", seal="NBR")
    assert (found["wiper"].status, found["seal"].status) == (NOT, FITS)
    assert "from memory" in found["wiper"].reason


@pytest.mark.parametrize("name", ["PTFE grease", "brake fluid", "5 wt", "", "magic potion"])
def test_a_fluid_that_is_half_a_name_leaves_one_open_finding(name: str) -> None:
    """The base oil is asked for; nothing is judged part by part."""
    found = list(against({"material": name}, seal="NBR", band="POM").values())
    assert [one.status for one in found] == [NOT]
    assert found[0].lacks == ("base oil",)
    assert "mineral, pao, ester, silicone or glycol" in found[0].action


def test_the_base_of_a_grease_decides_and_not_its_thickener() -> None:
    """PTFE-thickened silicone attacks silicone rubber, PTFE-thickened mineral grease attacks EPDM."""
    silicone = against({"base": "silicone", "thickener": "PTFE"}, cap="VMQ", boot="EPDM")
    mineral = against({"base": "mineral", "thickener": "PTFE"}, cap="VMQ", boot="EPDM")
    assert (silicone["cap"].status, silicone["boot"].status) == (OUT, FITS)
    assert (mineral["cap"].status, mineral["boot"].status) == (NOT, OUT)


def test_a_part_of_unknown_material_is_told_by_its_name() -> None:
    """Foam, and a material nobody told, are not proven each for itself."""
    found = against({"base": "mineral"}, foam="polyurethane foam", mystery="", seal="NBR")
    texts = {one.reason for one in found.values() if one.status is NOT}
    assert any("open foam" in text for text in texts)
    assert any("not told" in text for text in texts)
    assert len(found) == 3


def test_no_parts_no_findings() -> None:
    """A unit without elastomers has nothing to say of its oil."""
    assert against({"base": "mineral"}) == {}
