"""Descriptions of suppliers: sizes, kind, material and hardness are read, doubts are told."""

from __future__ import annotations

import random
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schema.dimension import parse_dimension
from schema.kinds import PARTS, model_of
from schema.ring_sizes import ring_size
from schema.size_words import _read, size_words

RINGS = [
    ("O-RING 214 NBR70", "AS568-214", {}, "NBR", 70.0),
    ("-214 viton 75", "AS568-214", {}, "FKM", 75.0),
    ("AS568-214", "AS568-214", {}, "", None),
    ("AS 568 A 214", "AS568-214", {}, "", None),
    ("AS 568 45 NBR", "AS568-045", {}, "NBR", None),
    ("O-RING 214-NBR70", "AS568-214", {}, "NBR", 70.0),
    ("AS568-14 NBR 90", "AS568-014", {}, "NBR", 90.0),
    ("O-Ring 012, EPDM 70", "AS568-012", {}, "EPDM", 70.0),
    ("OR 20x3 NBR70", "", {"inside_diameter": "20 mm", "cross_section": "3 mm"}, "NBR", 70.0),
    ("OR20x3", "", {"inside_diameter": "20 mm", "cross_section": "3 mm"}, "", None),
    (
        "O-Ring 20 x 2,65 NBR 70 Sh A",
        "",
        {"inside_diameter": "20 mm", "cross_section": "2,65 mm"},
        "NBR",
        70.0,
    ),
    ("12.7 x 2.62 FKM", "", {"inside_diameter": "12.7 mm", "cross_section": "2.62 mm"}, "FKM", None),
    ("70 NBR O-Ring Ø20 × 3 mm", "", {"inside_diameter": "20 mm", "cross_section": "3 mm"}, "NBR", 70.0),
    ("1/2 x 1/16 in EPDM", "", {"inside_diameter": "1/2 in", "cross_section": "1/16 in"}, "EPDM", None),
    ('O-ring 0.500" x 0.070"', "", {"inside_diameter": "0.500 in", "cross_section": "0.070 in"}, "", None),
    ("O-ring ID 20 mm CS 3 mm", "", {"inside_diameter": "20 mm", "cross_section": "3 mm"}, "", None),
    ("O-ring 20mm ID x 3mm CS", "", {"inside_diameter": "20 mm", "cross_section": "3 mm"}, "", None),
    ("O-ring 20x26x3", "", {"inside_diameter": "20 mm", "cross_section": "3 mm"}, "", None),
    ("BS4518-0545-30", "BS4518-0545-30", {}, "", None),
    ("JIS P 22 NBR", "JIS-P22", {}, "NBR", None),
    (
        "ISO3601-B 20x2.65",
        "ISO3601-B 20x2.65",
        {"inside_diameter": "20 mm", "cross_section": "2.65 mm"},
        "",
        None,
    ),
    (
        "O-Ring DIN 3771 20x2.65",
        "",
        {"inside_diameter": "20 mm", "cross_section": "2.65 mm"},
        "",
        None,
    ),
    ("NBR70 O-RING AS568-214 lot 4711", "AS568-214", {}, "NBR", 70.0),
]


@pytest.mark.parametrize(("text", "size", "fields", "material", "hardness"), RINGS)
def test_a_ring_in_words(
    text: str, size: str, fields: dict[str, str], material: str, hardness: float | None
) -> None:
    """What a buyer reads in the description of a ring is what is read here, and nothing is in doubt."""
    found = size_words(text)
    assert (found.size, found.fields, found.material, found.hardness_shore_a, found.doubts) == (
        size,
        fields,
        material,
        hardness,
        (),
    )


@pytest.mark.parametrize(
    ("text", "kind", "fields"),
    [
        ("M8x1", "", {"thread": "M8x1"}),
        ("M8x1x20", "", {"thread": "M8x1", "length": "20 mm"}),
        ("Zylinderschraube M5 x 12", "screw", {"thread": "M5", "length": "12 mm"}),
        ("1/4-28 UNF", "", {"thread": "1/4-28 UNF"}),
        ("valve core 5V1", "valve_core", {"thread": "5V1"}),
        (
            "bushing 15x17x15",
            "plain_bushing",
            {"inside_diameter": "15 mm", "outside_diameter": "17 mm", "length": "15 mm"},
        ),
        ("DU bush 15x17", "plain_bushing", {"inside_diameter": "15 mm", "outside_diameter": "17 mm"}),
        ("bearing 6900 2RS", "bearing", {"designation": "6900-2RS"}),
        ("6900 2RS", "bearing", {"designation": "6900-2RS"}),
        (
            "Kugellager 10x19x5",
            "bearing",
            {"inside_diameter": "10 mm", "outside_diameter": "19 mm", "width": "5 mm"},
        ),
        (
            "TC 16x24x5",
            "lip_seal",
            {"made_for_shaft": "16 mm", "made_for_bore": "24 mm", "width": "5 mm"},
        ),
        (
            "16-24-5 oil seal",
            "lip_seal",
            {"made_for_shaft": "16 mm", "made_for_bore": "24 mm", "width": "5 mm"},
        ),
        (
            "Simmerring DIN 3760 A 25x40x7 NBR",
            "lip_seal",
            {"made_for_shaft": "25 mm", "made_for_bore": "40 mm", "width": "7 mm"},
        ),
        ("DIN 472 - 36 x 1.5", "retaining_ring", {"standard": "DIN 472 - 36 x 1.5"}),
        ("Seegerring DIN 471 12x1", "retaining_ring", {"standard": "DIN 471 - 12 x 1"}),
        ("external circlip 12x1", "retaining_ring", {"shaft_diameter": "12 mm", "thickness": "1 mm"}),
    ],
)
def test_other_parts_in_words(text: str, kind: str, fields: dict[str, str]) -> None:
    """Three sizes, threads and numbers go to the fields of the kind that the words name."""
    found = size_words(text)
    assert (found.kind, found.fields, found.doubts) == (kind, fields, ())


@pytest.mark.parametrize(
    ("text", "doubt"),
    [
        ("15x17x15", "no kind is told"),
        ("1/2 x 1/16 EPDM", "no unit is told"),
        ("O-ring 0.500 x 0.070", "no unit is told"),
        ("O-ring 3x20", "not the inside diameter and the section"),
        ("O-ring 20x3 in 5.33x2 NBR", "which of them is the size"),
        ("O-ring 700 NBR", "AS568 has no such size"),
        ("O-ring NBR 214 210", "which of them is the size code"),
        ("O-ring 24.99 x 3.53 x 2", "not the inside diameter"),
        ("O-ring 40 x 3.53 in", "is the unit right"),
        ("screw AS568-214", "a size of an O-ring"),
        ("O-ring DIN 472 20x3", "this is a retaining ring"),
        ("circlip 12x1", "for a bore or for a shaft"),
        ("oil seal 24x16x5", "in this order"),
        ("spacer 22x8", "which size is which"),
        ("screw 1/4-28 UNF x 1/2", "has no unit"),
        ("O-ring NBR/FKM", "several materials"),
        ("JIS P23", "was not found in print"),
    ],
)
def test_what_can_be_read_in_two_ways_is_told_and_not_taken(text: str, doubt: str) -> None:
    """A doubt names what is unclear, and no size that was only guessed stands beside it."""
    found = size_words(text)
    assert doubt in " ".join(found.doubts)
    assert (found.size, set(found.fields) - {"thread"}) == ("", set())


@pytest.mark.parametrize(
    "text", ["214", "Widget 214", "P22", "4210", "circlip pliers 12x1", "pack of 10", "seal kit 214", ""]
)
def test_a_number_beside_no_ring_is_no_size(text: str) -> None:
    """A bare number, a maker's code, a pack or a tool has no size."""
    found = size_words(text)
    assert (found.size, found.fields) == ("", {})


@pytest.mark.parametrize(
    "text",
    [
        "pack of 10 O-rings 20x3",
        "10 x O-ring 20x3",
        "O-ring 20x3 10 pcs",
        "O-Ring 20x3 10er Pack",
        "OR 20x3 (10)",
    ],
)
def test_the_size_of_a_pack_is_no_size_of_the_part(text: str) -> None:
    """How many are in a bag is never taken for a size, and leaves the size alone."""
    found = size_words(text)
    assert found.fields == {"inside_diameter": "20 mm", "cross_section": "3 mm"}
    assert found.doubts == ()


def test_a_known_kind_decides_and_a_contradicting_word_is_told() -> None:
    """The kind given reads three sizes that no word explains; another kind in the words is a doubt."""
    assert size_words("15x17x15", kind="plain_bushing").fields["length"] == "15 mm"
    found = size_words("oil seal 16x24x5", kind="o_ring")
    assert (found.kind, found.fields) == ("o_ring", {})
    assert "the words say oil seal" in found.doubts[0]


def test_another_scale_of_hardness_is_told_and_not_converted() -> None:
    """IRHD and Shore D are in the remarks, without a value in Shore A."""
    found = size_words("O-ring 20x3 NBR 90 IRHD")
    assert found.hardness_shore_a is None
    assert found.remarks == ("90 IRHD is another scale than Shore A",)


def test_where_tells_the_place_in_the_text() -> None:
    """Every thing found can be shown in the text as it was written."""
    text = "O-Ring 20 x 2,65 Viton 75"
    where = {name: text[slice(*span)] for name, span in size_words(text).where.items()}
    assert where == {
        "inside_diameter": "20",
        "cross_section": "2,65",
        "material": "Viton",
        "hardness_shore_a": "75",
        "kind": "O-Ring",
    }


TEXTS = [
    *(row[0] for row in RINGS),
    *(
        "oil seal 16x24x5",
        "bushing 15x17x15",
        "bearing 6900 2RS 10x19x5",
        "PA66 ring 20x3",
        "Widget 12 ABC-214",
    ),
    *("valve 0.305-32", "6900 2RS", "clip 471 12x1", "DIN 471 12x1", "1/4-28", "NBR 700", "O-ring kit 214"),
    *("pack of 10", "O-ring 20x3x26", "M8x1 NBR", "O-Ring 20x3 FFKM 75", "O-ring 20x3 PU 72 Sh D"),
]


@settings(max_examples=400, deadline=None)
@given(st.sampled_from(TEXTS), st.integers(0, 2**32), st.sampled_from(["", "o_ring", "lip_seal"]))
def test_a_text_read_by_its_shape_is_read_as_in_full(text: str, seed: int, kind: str) -> None:
    """With any other digits in its place, the quick reading says what the full one says."""
    choose = random.Random(seed)
    changed = "".join(choose.choice(string.digits) if one.isdigit() else one for one in text)
    size_words(text, kind=kind)
    assert size_words(changed, kind=kind) == _read(changed, kind)[0]


PIECES = ["O-ring", "bush", "TC", "NBR70", "20x3", "20 x 2,65", "214", "-214", "AS568", "DIN", "472", "M8x1"]
PIECES += ["1/2", "in", "mm", "16x24x5", "2RS", "6900", "UNF", "1/4-28", "ID", "CS", "x", "10", "pcs"]


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=8), st.sampled_from(["", *PARTS]))
def test_what_is_found_can_be_read_by_the_models(words: list[str], kind: str) -> None:
    """Whatever stands in a text: a size code found exists, a length found is a length of the kind's model."""
    found = size_words(" ".join(words), kind=kind)
    assert not found.size or ring_size(found.size).code == found.size
    lengths = {name: text for name, text in found.fields.items() if text.endswith((" mm", " in"))}
    assert all(parse_dimension(text).nominal > 0 for text in lengths.values())
    assert not found.kind or set(found.fields) <= set(model_of(found.kind).declared)
