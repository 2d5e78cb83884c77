"""Words that a person tells, and what a refused row says to tell."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.sheets.articles import NO_KIND
from catalogue.sheets.told_kinds import ToldKinds, word_to_tell
from tests.catalogue.sheets.small_loads import load, rows

HEADER = "Code,Words,Price"
VOUCHER = "V-1,Gift voucher 50,50.00"
RING = "A-1,O-ring 20x3 NBR 70,1.00"
LEAVE_OUT = {"kind": {"gift VOUCHER": "leave_out"}}


def _problems(catalogue: Path, *lines: str, header: str = HEADER, **told: object) -> list[str]:
    """What is wrong with the refused rows, in words."""
    report = load(catalogue, header, *lines, apply=False, **told)  # type: ignore[arg-type]
    return [str(problem) for row in report.refused for problem in row.problems]


# -- kinds by told words ----------------------------------------------------------------------------------


@pytest.mark.parametrize("every", [{}, {"kind": "o_ring"}])
def test_a_told_word_of_a_description_leaves_its_row_out(blank: Path, every: dict[str, str]) -> None:
    """Also where every other row is of one kind: the voucher is no O-ring."""
    counts = load(blank, HEADER, VOUCHER, RING, words=LEAVE_OUT, every=every).counts
    assert (counts.left_out, counts.new, counts.refused) == (1, 1, 0)


def test_a_told_word_goes_before_the_words_of_the_trade(blank: Path) -> None:
    """Here the supplier's O-ring is lobed."""
    load(blank, HEADER, RING, words={"kind": {"o-ring": "four_lobed_ring"}})
    assert rows(blank, "SELECT kind FROM part") == [("four_lobed_ring",)]


def test_a_column_of_kinds_goes_before_a_told_word_of_a_description(blank: Path) -> None:
    """The description may name what a part is for."""
    lines = ["A-1,O-ring for oil 20x3 NBR 70,o_ring,1.00", "A-2,Oil,,1.00"]
    counts = load(blank, "Code,Words,Kind,Price", *lines, words={"kind": {"Oil": "leave_out"}}).counts
    assert (counts.new, counts.left_out) == (1, 1)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("OIL  SEAL 16x24x5", "lip_seal"),
        ("fork oil 5W", "leave_out"),
        ("oily rag", ""),
        ("foil", ""),
    ],
)
def test_the_longest_whole_word_wins(text: str, kind: str) -> None:
    """Without regard to capitals and spaces; a part of a word is none."""
    assert ToldKinds({"Oil": "leave_out", "oil seal": "lip_seal"}).kind(text) == kind


def test_a_row_of_an_unknown_kind_says_what_to_tell(blank: Path) -> None:
    """The option has the words of the row."""
    (told,) = _problems(blank, VOUCHER)
    assert '--word "kind: Gift voucher=leave_out"' in told


@pytest.mark.parametrize(
    "words",
    ["O-Ring-Sortiment 404tlg.", "O-ring kit 20x3", "Kit O-ring", "O-Ringe, Sortiment", "Satz O-Ringe"],
)
@pytest.mark.parametrize("header", ["Code,Words,Price", "Code,Kind,Price"])
def test_a_kit_is_never_proposed_as_a_ring(blank: Path, words: str, header: str) -> None:
    """Not by its description, nor by its word in a column of kinds."""
    (told,) = _problems(blank, f'S-1,"{words}",9.00', header=header)
    assert "leave_out" in told
    assert "o_ring" not in told


@pytest.mark.parametrize(
    ("text", "word"),
    [("1/2 x 1/16 NBR 70", ""), ("50 Gift voucher", "Gift voucher"), ("", ""), ("T-shirt, M", "T-shirt")],
)
def test_sizes_and_materials_are_no_words_to_tell(text: str, word: str) -> None:
    """They say nothing of what a row is."""
    assert word_to_tell(text) == word


def test_a_kind_that_is_not_known_is_told_once(blank: Path) -> None:
    """The word in the column is what is wrong, and not that nothing tells the kind."""
    told = _problems(blank, "A-1,Schraubglas,x,1.00", header="Code,Kind,Words,Price")
    assert len(told) == 1
    assert '--word "kind: Schraubglas=leave_out"' in told[0]
    assert NO_KIND[0].reason not in told[0]


# -- materials --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rubber", "said"),
    [
        ("KZR", '--word "material: KZR=NBR"'),
        ("KZR 70", '--word "material: KZR 70=NBR 70"'),
        ("EPDN", '--word "material: EPDN=EPDM"'),
    ],
)
def test_an_unknown_rubber_says_how_to_tell_it(blank: Path, rubber: str, said: str) -> None:
    """One of the known, or what the word means: the nearest, or a plain example; a hardness stays."""
    (told,) = _problems(blank, f"A-1,O-ring,20,3,{rubber}", header="Code,Kind,ID,CS,Rubber")
    assert "To do: one of NBR, HNBR" in told
    assert said in told


def test_a_rubber_without_figures_is_never_proposed_as_another(blank: Path) -> None:
    """FFKM is no FKM, however near its name is."""
    (told,) = _problems(blank, "A-1,O-ring,20,3,FFKM", header="Code,Kind,ID,CS,Rubber")
    assert "--word" not in told


@pytest.mark.parametrize("metal", ["Federstahl", "acier à ressort", "acciaio per molle", "spring steel"])
def test_a_metal_in_another_language_is_the_same_part(shop: Path, metal: str) -> None:
    """DIN 472 - 36 of Federstahl is QV-5401 of the demo, of spring steel."""
    report = load(shop, "Code,Words,Rubber,Price", f"A-1,Sicherungsring DIN 472 - 36,{metal},0.50")
    assert [one.part_number for one in report.new] == ["QV-5401"]


# -- sizes that could not be read --------------------------------------------------------------------------


@pytest.mark.parametrize("sizes", ["0.489x0.070", "1/2 x 1/16"])
def test_sizes_without_a_unit_are_what_is_told(blank: Path, sizes: str) -> None:
    """The sheet has no field inside_diameter, and the sizes are there."""
    (told,) = _problems(blank, f"A-1,O-Ring {sizes} NBR 70,1.00")
    assert f"the description has {sizes}, and no unit is told: is it mm or in" in told
    assert "is missing" not in told


def test_sizes_that_are_not_there_are_missing(blank: Path) -> None:
    """Where the description has no size, the field is named."""
    told = _problems(blank, "A-1,O-Ring NBR 70,1.00")
    assert [one.partition(":")[0] for one in told] == ["inside_diameter", "cross_section"]


# -- codes of other articles, currencies -------------------------------------------------------------------


def test_a_code_of_another_article_is_told_by_an_option(blank: Path) -> None:
    """``--same`` with the code of the row."""
    header = "Code,Words,Kind,ID,CS,Rubber,Shore,Price"
    known = "K-1,O-ring,o_ring,30,3.5,NBR,70,1.00"
    load(blank, header, known, supplier="Dornet")
    load(blank, header, known.replace("K-1", "A-1"), supplier="Kolbring", same_part={"A-1": "Dornet:K-1"})
    (told,) = _problems(blank, "A-1,O-ring,o_ring,40,3.5,NBR,70,1.00", header=header)
    assert "--same A-1=PART" in told


def test_a_sign_against_the_told_currency_says_what_to_do(blank: Path) -> None:
    """Not: write it as in EUR."""
    (told,) = _problems(blank, "A-1,O-ring 20x3 NBR 70,$1.00")
    assert told.endswith("correct the cell, or leave out --every currency=EUR")
