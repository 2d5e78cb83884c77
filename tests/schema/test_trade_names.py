"""Names of catalogues: what they are judged by, or why by nothing."""

from __future__ import annotations

import pytest

from schema.materials import fluids, materials
from schema.tables import rows
from schema.trade_names import named_fluid, named_material


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("nitrile", "NBR"),
        ("Filled PTFE", "PTFE"),
        ("bronze-filled PTFE", "PTFE"),
        ("polyurethane", "AU"),
        ("polyurethane foam", ""),
        ("TPU", ""),
        ("Buna-N", "NBR"),
        ("Perbunan", "NBR"),
        ("caoutchouc nitrile", "NBR"),
        ("FPM", "FKM"),
        ("Fluorkautschuk", "FKM"),
        ("H-NBR", "HNBR"),
        ("MVQ", "VMQ"),
        ("Silikon", "VMQ"),
        ("FMQ", "FVMQ"),
        ("neoprene", "CR"),
        ("Teflon", "PTFE"),
        ("Delrin", "POM"),
        ("PA 66", "PA"),
        ("FFKM", ""),
        ("ACM", ""),
        ("FEPM", ""),
        ("XNBR", ""),
        ("unobtainium", ""),
        ("", ""),
    ],
)
def test_a_material_by_its_name(text: str, code: str) -> None:
    """A name that tells the material has its code; one that does not has a reason instead."""
    found = named_material(text)
    assert found.code == code
    assert bool(found.remark) == (not code or "PTFE" in text)


@pytest.mark.parametrize(
    ("text", "code", "why"),
    [
        ("PAO oil", "pao_oil", ""),
        ("mineral oil", "mineral_oil", ""),
        ("DOT 5", "silicone_oil_or_grease", ""),
        ("PTFE grease", "", "names only the thickener"),
        ("brake fluid", "", "may be glycol, silicone or mineral oil"),
        ("5 wt", "", "a weight on a label names neither a fluid nor a viscosity"),
        ("10W", "", "a weight on a label"),
        ("2.5 weight", "", "a weight on a label"),
        ("PFPE grease", "", "no rating was found"),
    ],
)
def test_a_fluid_by_its_name(text: str, code: str, why: str) -> None:
    """Half a name (a thickener, a weight, brake fluid) is never turned into a fluid."""
    found = named_fluid(text)
    assert found.code == code
    assert why in found.remark


@pytest.mark.parametrize(("table", "key"), [("material_names", "material"), ("fluid_names", "fluid")])
def test_every_listed_name_leads_to_a_known_code_or_says_why_not(table: str, key: str) -> None:
    """No row points at a code that does not exist, and none without a code is without a reason."""
    known = materials() if key == "material" else fluids()
    for row in rows(table):
        assert row[key] in known or (row[key] == "" and row["remark"]), row
