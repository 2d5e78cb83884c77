"""When parts of two suppliers are the same article, and when a size is not that of its code."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.dimension import parse_dimension
from schema.kinds import PARTS, model_of
from schema.ring_sizes import ring_size
from schema.same_part import IDENTIFYING, size_contradiction, typed_key
from schema.unit_parts import part_from

RING = {"kind": "o_ring", "material": "NBR", "hardness_shore_a": "70"}
SEAL = {
    "kind": "lip_seal",
    "made_for_shaft": "16 mm",
    "made_for_bore": "24 mm",
    "width": "5 mm",
    "material": "NBR",
}
BUSH = {
    "kind": "plain_bushing",
    "inside_diameter": "15 mm",
    "outside_diameter": "17 mm",
    "length": "15 mm",
    "style": "wrapped",
    "material": "steel",
}
CIRCLIP = {"kind": "retaining_ring", "standard": "DIN 472 - 36 x 1.5"}
SCREW = {"kind": "screw", "thread": "M5x0.8", "length": "12 mm"}
CORE = {"kind": "valve_core", "thread": "5V1", "length": "18.5 mm"}


def key(**texts: str) -> str:
    """The key of a part told in texts."""
    return typed_key(part_from(texts, number="A-1"))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ({**RING, "size": "214"}, {**RING, "inside_diameter": "24.99 mm", "cross_section": "3.53 mm"}),
        (
            {**RING, "inside_diameter": "0.984 in", "cross_section": "0.139 in"},
            {**RING, "inside_diameter": "24.99 mm", "cross_section": "3.53 mm", "material": "nitrile"},
        ),
        ({**RING, "size": "214"}, {**RING, "size": "AS568-214", "description": "black"}),
        (SEAL, {**SEAL, "width": "5.0 mm", "material": "Buna-N"}),
        (BUSH, {**BUSH, "length": "15 ±0.25 mm"}),
        (CIRCLIP, {**CIRCLIP, "standard": "DIN 472 36"}),
        ({"kind": "bearing", "designation": "6800-2RS"}, {"kind": "bearing", "designation": "6800 2rs"}),
        (SCREW, {**SCREW, "thread": "M5"}),
        (CORE, {**CORE, "length": "18.50 mm"}),
    ],
)
def test_the_same_article_has_the_same_key(one: dict[str, str], other: dict[str, str]) -> None:
    """Another way to write sizes, material or number does not make another article."""
    assert key(**one) == key(**other) != ""


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (
            {**RING, "inside_diameter": "24.99 mm", "cross_section": "3.53 mm"},
            {**RING, "inside_diameter": "24.99 mm", "cross_section": "3.55 mm"},
        ),
        ({**RING, "size": "214"}, {**RING, "size": "214", "hardness_shore_a": "90"}),
        ({**RING, "size": "214"}, {**RING, "size": "214", "material": "FKM"}),
        ({**RING, "size": "214"}, {**RING, "size": "214", "kind": "four_lobed_ring"}),
        (SEAL, {**SEAL, "lips": "dual"}),
        ({**SEAL, "material": "PTFE"}, {**SEAL, "material": "bronze filled PTFE"}),
        (
            SEAL,
            {
                "kind": "lip_seal",
                "inside_diameter": "16 mm",
                "outside_diameter": "24 mm",
                "width": "5 mm",
                "material": "NBR",
            },
        ),
        (BUSH, {**BUSH, "flange_diameter": "23 mm"}),
        (CIRCLIP, {**CIRCLIP, "standard": "DIN 471 - 36"}),
        ({"kind": "bearing", "designation": "6800-2RS"}, {"kind": "bearing", "designation": "6800"}),
        (SCREW, {**SCREW, "thread": "M5 LH"}),
        (SCREW, {**SCREW, "form": "stud"}),
    ],
)
def test_another_article_has_another_key(one: dict[str, str], other: dict[str, str]) -> None:
    """Whatever makes two parts differ in use keeps their keys apart."""
    assert key(**one) != key(**other)


@pytest.mark.parametrize(
    ("texts", "missing"),
    [
        ({**RING, "size": "214"}, "hardness_shore_a"),
        ({**RING, "size": "214"}, "material"),
        (SEAL, "width"),
        (SEAL, "material"),
        (BUSH, "style"),
        (CIRCLIP, "standard"),
        (SCREW, "length"),
        (CORE, "thread"),
    ],
)
def test_a_part_that_is_not_fully_told_has_no_key(texts: dict[str, str], missing: str) -> None:
    """Where something that identifies it is missing, nothing is matched."""
    assert key(**{name: text for name, text in texts.items() if name != missing}) == ""


@pytest.mark.parametrize("material", ["polyurethane", "rubber", "TPU"])
def test_half_a_name_of_a_material_gives_no_key(material: str) -> None:
    """Two seals of some urethane need not be of the same one."""
    assert key(**{**SEAL, "material": material}) == ""


def test_a_measured_size_gives_no_key() -> None:
    """A reading of one ring is not the nominal size of an article."""
    assert key(**{**RING, "inside_diameter": "24.99 mm by calliper", "cross_section": "3.53 mm"}) == ""


def test_a_kind_without_identifying_sizes_has_no_key() -> None:
    """A fluid is not the same because two labels say the same."""
    assert key(kind="fluid", base="mineral", label="5 wt") == ""


def test_the_table_names_fields_of_the_models() -> None:
    """No kind and no field of the table is misspelt."""
    assert set(IDENTIFYING) <= set(PARTS)
    unknown = {
        (kind, field)
        for kind, lists in IDENTIFYING.items()
        for fields in lists
        for field in fields
        if not hasattr(model_of(kind), field.removeprefix("?"))
        and field.removeprefix("?") not in model_of(kind).declared
    }
    assert unknown == set()


@pytest.mark.parametrize(
    ("code", "inside", "section"),
    [
        ("214", "24.99 mm", "3.53 mm"),
        ("214", "25 mm", "3.5 mm"),
        ("214", "0.984 in", "0.139 in"),
        ("214", "63/64 in", None),
        ("214", None, "3.53 mm"),
        ("214", None, None),
        ("BS4518-0545-30", "54.5 mm", "3.0 mm"),
        ("20x2.65", "20,0 mm", "2,65 mm"),
    ],
)
def test_a_size_of_its_code_is_no_contradiction(code: str, inside: str | None, section: str | None) -> None:
    """Nominal sizes and catalogue roundings of them (S9, S11 of the AS568 table) pass."""
    assert contradiction(code, inside, section) == ""


@pytest.mark.parametrize(
    ("code", "inside", "section", "words"),
    [
        ("214", "20 mm", "3.53 mm", "inside diameter 24.74 to 25.25 mm; 20 mm is given"),
        ("214", "24.99 mm", "2.62 mm", "cross section"),
        ("214", "0.984 mm", "0.139 mm", "it looks like inches taken for millimetres"),
        ("214", "24.99 in", "3.53 in", "it looks like millimetres taken for inches"),
        ("214", "3.53 mm", "24.99 mm", "look exchanged"),
        ("215", "24.99 mm", "3.53 mm", "these are the sizes of AS568-214"),
        ("214", "26.58 mm", None, "26.58 mm is given"),
    ],
)
def test_a_size_that_is_not_of_its_code_is_told(
    code: str, inside: str | None, section: str | None, words: str
) -> None:
    """The words say what the standard has, what is given, and which slip it looks like.

    AS568-214 is 0.984 ±0.010 by 0.139 ±0.004 in, AS568-215 has 1.046 in (sources S1 to S11 of as568.csv).
    """
    assert words in contradiction(code, inside, section)


def test_the_rounding_of_a_catalogue_widens_the_limits_by_half_a_digit_and_no_more() -> None:
    """The limit is 25.2476 mm: 25.25 may be it rounded, 25.28 may not; 26 gets 0.05, not 0.5."""
    assert ring_size("214").inside_diameter.upper == Decimal("25.2476")
    assert contradiction("214", "25.25 mm", None) == ""
    assert contradiction("214", "25.28 mm", None) != ""
    assert contradiction("214", "26 mm", None) != ""


def contradiction(code: str, inside: str | None, section: str | None) -> str:
    """What is said of sizes beside a code."""
    given = [None if text is None else parse_dimension(text) for text in (inside, section)]
    return size_contradiction(ring_size(code), *given)
