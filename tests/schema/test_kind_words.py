"""Words that name a kind of part, in the languages of the trade."""

from __future__ import annotations

import pytest

from schema.kind_words import kind_word
from schema.kinds import PARTS
from schema.tables import rows


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("O-RING 214", "o_ring"),
        ("o ring", "o_ring"),
        ("Orings", "o_ring"),
        ("Rundringe", "o_ring"),
        ("joints toriques", "o_ring"),
        ("junta torica", "o_ring"),
        ("guarnizione OR 20x3", "o_ring"),
        ("X-Ring", "four_lobed_ring"),
        ("quad-ring", "four_lobed_ring"),
        ("Stützring", "back_up_ring"),
        ("Stuetzringe", "back_up_ring"),
        ("bague anti-extrusion", "back_up_ring"),
        ("Wellendichtring", "lip_seal"),
        ("joint à lèvre", "lip_seal"),
        ("shaft seal", "lip_seal"),
        ("Abstreifer", "wiper"),
        ("bande de guidage", "guide_ring"),
        ("DU bush", "plain_bushing"),
        ("bague", "plain_bushing"),
        ("circlips", "retaining_ring"),
        ("E-clip", "retaining_ring"),
        ("Distanzhülse", "eyelet_hardware"),
        ("Ventileinsatz", "valve_core"),
        ("Ventil", "valve_fitting"),
        ("vis", "screw"),
        ("roulement à billes", "bearing"),
        ("Welle", "shaft"),
        ("Öl", "fluid"),
    ],
)
def test_a_word_of_the_trade_names_its_kind(text: str, kind: str) -> None:
    """Case, hyphens, plurals, accents and the language do not matter."""
    found = kind_word(text)
    assert found is not None
    assert found[0] == kind


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("bearing spacer 8 mm", "eyelet_hardware"),
        ("valve core O-ring", "o_ring"),
        ("spacer for bearing", "eyelet_hardware"),
        ("O-Ring für Welle", "o_ring"),
        ("O-ring NBR70, damper shaft", "o_ring"),
        ("O-ring grease", "fluid"),
        ("vis roulement", "screw"),
        ("O-ring piston 40 x 3", "o_ring"),
        ("Circlip shaft 16 DIN 471", "retaining_ring"),
        ("Nutring Kolbenstange 12x18x4", "lip_seal"),
        ("Piston O-ring 40 x 3", "o_ring"),
    ],
)
def test_the_head_of_a_name_decides(text: str, kind: str) -> None:
    """Of words that touch the last one decides (in Romance languages the first); what it is for does not."""
    found = kind_word(text)
    assert found is not None
    assert found[0] == kind


@pytest.mark.parametrize(
    "text",
    [
        "circlip pliers",
        "O-ring valve 4 x 1.5",
        "O-Ring Dämpferstange Abstreifer 40 x 3",
        "O-ring cord 3 mm",
        "O-Ring-Set",
        "piston seal",
        "this or that 5",
        "tc",
        "seal kit with O-ring",
        "washer",
        "",
    ],
)
def test_what_is_no_part_known_here_has_no_kind(text: str) -> None:
    """A tool, a kit, another seal or a small word is not taken for a part."""
    assert kind_word(text) is None


def test_every_row_names_a_known_kind_or_none_and_no_word_stands_twice() -> None:
    """The table cannot contradict itself."""
    words = [row["word"].lower() for row in rows("kind_words")]
    assert len(words) == len(set(words))
    assert {row["kind"] for row in rows("kind_words")} - {""} <= set(PARTS)
    assert {row["language"] for row in rows("kind_words")} == {"en", "de", "fr", "es", "it", "nl"}


@pytest.mark.parametrize(
    "text", ["Kit O-ring", "O-ring kit", "O-Ringe, Sortiment", "Sortiment O-Ringe", "coffret joints toriques"]
)
def test_many_parts_in_one_are_no_single_part(text: str) -> None:
    """On whichever side of the name the word stands."""
    assert kind_word(text) is None


@pytest.mark.parametrize("text", ["O-ring 20x3, set of 10", "O-ring for seal kit 12"])
def test_a_part_that_is_packed_in_a_set_or_goes_into_a_kit_is_that_part(text: str) -> None:
    """The word says how it is sold, or what it is for."""
    assert kind_word(text) == ("o_ring", "O-ring")
