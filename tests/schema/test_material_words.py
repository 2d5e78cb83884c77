"""Material and hardness inside a description."""

from __future__ import annotations

import pytest

from schema.material_words import material_and_hardness


@pytest.mark.parametrize(
    ("text", "code", "hardness"),
    [
        ("NBR70", "NBR", 70.0),
        ("FKM-75", "FKM", 75.0),
        ("NBR 70 Shore A", "NBR", 70.0),
        ("70 NBR", "NBR", 70.0),
        ("EPDM Shore A 60", "EPDM", 60.0),
        ("Silikon 60°", "VMQ", 60.0),
        ("Viton 75", "FKM", 75.0),
        ("FPM 80", "FKM", 80.0),
        ("Buna-N", "NBR", None),
        ("Perbunan", "NBR", None),
        ("caoutchouc nitrile 70", "NBR", 70.0),
        ("Fluorkautschuk", "FKM", None),
        ("H-NBR 80", "HNBR", 80.0),
        ("MVQ", "VMQ", None),
        ("fluorosilicone", "FVMQ", None),
        ("neoprene", "CR", None),
        ("AU90", "AU", 90.0),
        ("Teflon", "PTFE", None),
        ("Delrin", "POM", None),
        ("PA66", "PA", None),
        ("nitrile rubber ring 70 Sh A", "NBR", 70.0),
        ("NBR 20x3", "NBR", None),
        ("20x70 NBR", "NBR", None),
        ("NBR 214", "NBR", None),
        ("NBR 20 mm", "NBR", None),
        ("NBR for 25 shaft", "NBR", None),
        ("70 durometer nitrile", "NBR", 70.0),
        ("70A nitrile", "NBR", 70.0),
        ("NBR 70 +/-5 Shore A", "NBR", 70.0),
    ],
)
def test_a_material_and_its_hardness(text: str, code: str, hardness: float | None) -> None:
    """Trade names lead to codes; two digits beside a rubber are its hardness unless they are a size."""
    name, value, remark = material_and_hardness(text)
    assert (name.code, value, remark) == (code, hardness, "")


@pytest.mark.parametrize(
    ("text", "hardness", "remark"),
    [
        ("FFKM 75", 75.0, "no figures are known here"),
        ("ACM 70", 70.0, "no figures are known here"),
        ("XNBR 85", 85.0, "no figures are known here"),
        ("PU 95 ShA", 95.0, "may be a polyester (AU) or a polyether urethane (EU)"),
        ("Polyurethan 72 Sh D", None, "72 Shore D is another scale"),
        ("TPU", None, "may be a polyester"),
        ("rubber", None, "names no kind of rubber"),
        ("NBR/PTFE", None, "several materials are named"),
    ],
)
def test_a_material_that_is_not_sure_has_no_code(text: str, hardness: float | None, remark: str) -> None:
    """A material without figures here, half a name or two names never become a neighbour's code."""
    name, value, told = material_and_hardness(text)
    assert (name.code, value) == ("", hardness)
    assert remark in told


@pytest.mark.parametrize(
    "text", ["silicone grease", "EU stock", "ECO pack", "silicone-free", "Nr 5", "sí", ""]
)
def test_a_word_of_something_else_is_no_material(text: str) -> None:
    """Grease, a market or a number sign is not what the part is made of."""
    assert material_and_hardness(text)[0].code == ""


@pytest.mark.parametrize(
    ("text", "remark"),
    [("NBR 90 IRHD", "90 IRHD is another scale"), ("NBR 10 Shore A", "a hardness of 10 Shore A is not made")],
)
def test_a_hardness_that_is_no_shore_a_is_told(text: str, remark: str) -> None:
    """Another scale or an impossible value is told in words; the material is kept."""
    name, value, told = material_and_hardness(text)
    assert (name.code, value) == ("NBR", None)
    assert remark in told
