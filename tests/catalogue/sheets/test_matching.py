"""Which part a row is: one that is known, by what is exact, or a new one; own parts of the workshop."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.sheets.outcome import LoadReport
from tests.catalogue.sheets.small_loads import (
    RING,
    content,
    load,
    rows,
    undo,
)

A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1.00"
B = "B-2,O-ring middle,o_ring,302,3.5,NBR,70,2.00"
C = "C-3,O-ring big,o_ring,303,3.5,NBR,70,3.00"


def _reasons(report: LoadReport) -> str:
    return " ".join(str(problem) for row in report.refused for problem in row.problems)


# -- the same part --------------------------------------------------------------------------------------

QV = "A-1,O-ring,o_ring,24.99,3.53,NBR,70,1.00"  # QV-1205 in the demo: AS568-214 in NBR 70


def _key(catalogue: Path, number: str) -> str:
    ((key,),) = rows(catalogue, "SELECT typed_key FROM part WHERE part_number = ?", number)
    return str(key)


def test_an_article_is_a_known_part_by_kind_sizes_and_material(shop: Path) -> None:
    """No part is made; the offer is for the part of the workshop."""
    report = load(shop, RING, QV)
    (new,) = report.new
    assert (new.makes_part, new.how) == (False, "kind, sizes and material")
    assert _key(shop, new.part_number) == "o_ring|24.99|3.53|NBR|70"
    assert new.part_number.startswith("QV-")


@pytest.mark.parametrize(("field", "other"), [("NBR", "FKM"), (",70,", ",90,"), ("24.99", "25.50")])
def test_an_article_that_differs_is_another_part(shop: Path, field: str, other: str) -> None:
    """Another rubber, hardness or size is not the part."""
    known = load(shop, RING, QV, apply=False).new[0].part_number
    assert load(shop, RING, QV.replace(field, other)).new[0].part_number != known


def test_an_article_of_two_suppliers_is_one_part(blank: Path) -> None:
    """The part that the first one's row made has both offers."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("A-1", "X-9"), supplier="Dornet")
    assert (report.new[0].part_number, report.new[0].makes_part) == ("Kolbring:A-1", False)


def test_another_maker_is_another_article(blank: Path) -> None:
    """Of the same sizes, where both sheets tell a maker and these differ."""
    load(blank, f"{RING},Maker", f"{A},Perrin")
    report = load(blank, f"{RING},Maker", f"{A.replace('A-1', 'X-9')},Other", supplier="Dornet")
    assert report.new[0].makes_part


def test_a_makers_code_finds_the_part(blank: Path) -> None:
    """Where the maker's own number is the same, and neither kind nor sizes speak against it."""
    header = "Code,Words,Kind,Price,Maker,Maker's code"
    load(blank, header, "A-1,Seal,lip_seal,4.00,Perrin,SC-16", take_doubtful=True)
    report = load(blank, header, "X-9,Seal,lip_seal,4.20,perrin,sc-16", supplier="Dornet")
    assert (report.new[0].part_number, report.new[0].how) == ("Kolbring:A-1", "the maker's code")


def test_a_makers_code_that_contradicts_the_sizes_finds_nothing(blank: Path) -> None:
    """Another size under the same maker's code is not taken for the part."""
    header = f"{RING},Maker's code"
    load(blank, header, f"{A},SC-16")
    report = load(blank, header, f"{B},SC-16", supplier="Dornet")
    assert report.new[0].makes_part


def test_two_codes_of_a_supplier_for_one_part_do_not_fight_over_it(blank: Path) -> None:
    """The row of the code that made the part says what it is; the other code's words are its offer's."""
    header = f"{RING},Maker's code"
    load(blank, header, f"{A},SC-16")
    load(blank, header, f"{A.replace('A-1', 'A-2').replace('small', 'tiny')},SC-16")
    changed = load(
        blank,
        header,
        f"{A.replace('small', 'smaller')},SC-16",
        f"{A.replace('A-1', 'A-2').replace('small', 'tiniest')},SC-16",
    )
    assert changed.counts.changed == 2
    assert rows(blank, "SELECT part_number, description FROM part") == [("Kolbring:A-1", "O-ring smaller")]


@pytest.mark.parametrize("how", ["mapping", "column"])
def test_the_number_that_is_told_goes_before_all(shop: Path, how: str) -> None:
    """In the mapping, or in a column of our numbers; in any capitals."""
    if how == "mapping":
        report = load(shop, RING, QV, same_part={"a-1": "qv-1205"})
    else:
        report = load(shop, f"{RING},Our number", f"{QV},qv-1205")
    assert (report.new[0].part_number, report.new[0].how) == ("QV-1205", "the number told")


def test_a_number_that_is_not_there_is_refused(shop: Path) -> None:
    """A wrong number is told, and no part is made."""
    report = load(shop, f"{RING},Our number", f"{QV},QV-9999")
    assert "the catalogue has no such part (given: 'QV-9999')" in _reasons(report)


def test_a_row_that_contradicts_the_part_that_is_told_is_refused(shop: Path) -> None:
    """Both are named with what they are."""
    report = load(shop, RING, QV.replace("24.99", "30"), same_part={"A-1": "QV-1205"})
    assert "the row is o_ring 30.00 3.53 NBR 70, QV-1205 is o_ring 24.99 3.53 NBR 70" in _reasons(report)


def test_a_code_that_comes_as_another_article_than_its_part_is_refused(shop: Path) -> None:
    """A known code whose part is the workshop's: the part is not changed by a sheet."""
    load(shop, RING, QV)
    before = content(shop)
    report = load(shop, RING, QV.replace("24.99", "30"))
    assert "the catalogue knows this code as another article" in _reasons(report)
    assert content(shop) == before


def test_parts_that_are_as_alike_are_only_proposed(blank: Path) -> None:
    """Two parts of the same sizes: neither is taken, both are told."""
    own = "Our number,Words,Kind,ID,CS,Rubber,Shore"
    ring = A.rpartition(",")[0]
    load(blank, own, ring.replace("A-1", "W-1"), ring.replace("A-1", "W-2"), own_parts=True)
    report = load(blank, RING, A)
    assert (report.new[0].makes_part, report.new[0].part_number) == (True, "Kolbring:A-1")
    assert {one.part_number for one in report.proposals} == {"W-1", "W-2"}


def test_a_part_that_came_with_a_unit_goes_second(shop: Path) -> None:
    """Of a part of the workshop and one of a unit that are alike, the workshop's is taken."""
    alike = rows(
        shop,
        "SELECT one.part_number, two.part_number FROM part AS one JOIN part AS two USING (typed_key)"
        " WHERE typed_key GLOB 'o_ring|*' AND one.part_number GLOB 'QV-*'"
        " AND two.part_number IN (SELECT part_number FROM unit_part)",
    )
    assert alike, "the demo has no such pair any more: choose another"
    workshop, of_unit = alike[0]
    _, inside, section, rubber, shore = _key(shop, of_unit).split("|")
    report = load(shop, RING, f"A-1,O-ring,o_ring,{inside},{section},{rubber},{shore},1.00")
    assert report.new[0].part_number == workshop


def test_words_that_are_alike_are_only_proposed(blank: Path) -> None:
    """A code that is gone and a new one with the same words: told, and nothing is done."""
    kind = "Code,Words,Kind,Price"
    load(blank, kind, "A-1,Fork seal with two lips and a case,lip_seal,4.00", "Z-1,Wiper,wiper,1.00")
    report = load(
        blank, kind, "N-7,Fork seal with two lips and a case,lip_seal,4.00", "Z-1,Wiper,wiper,1.00",
        covers="whole_range",
    )  # fmt: skip
    assert [(one.code, one.part_number) for one in report.proposals] == [("N-7", "Kolbring:A-1")]
    assert report.new[0].makes_part


# -- own parts ------------------------------------------------------------------------------------------

OWN = "Our number,Words,Kind,ID,CS,Rubber,Shore,Instead,Notes"


def test_own_parts_are_loaded_without_offers(blank: Path) -> None:
    """Parts under their own numbers; no supplier, no price; a successor may stand further down."""
    report = load(
        blank,
        OWN,
        "W-1,Ring,o_ring,301,3.5,NBR,70,W-2,old",
        "W-2,Ring,o_ring,302,3.5,NBR,70,,",
        own_parts=True,
    )
    assert (report.counts.new, report.counts.new_parts) == (2, 2)
    told = rows(blank, "SELECT part_number, superseded_by, notes, source, load, row FROM part")
    assert told == [
        ("W-1", "W-2", "old", "sheet of own parts", 1, 2),
        ("W-2", None, None, "sheet of own parts", 1, 3),
    ]
    assert rows(blank, "SELECT count(*) FROM offer") == [(0,)]


def test_own_parts_change_and_come_back(shop: Path) -> None:
    """A part of the workshop that the sheet tells otherwise is changed, and is given back after."""
    before = content(shop)
    ((words,),) = rows(shop, "SELECT description FROM part WHERE part_number = 'QV-1205'")
    report = load(
        shop, "Our number,Words,Kind,ID,CS,Rubber,Shore", "qv-1205,Ring of ours,o_ring,24.99,3.53,NBR,70",
        own_parts=True, take_doubtful=True,
    )  # fmt: skip
    assert report.counts.changed == 1
    assert rows(shop, "SELECT description FROM part WHERE part_number = 'QV-1205'") == [("Ring of ours",)]
    undo(shop, report.load)
    assert rows(shop, "SELECT description FROM part WHERE part_number = 'QV-1205'") == [(words,)]
    assert content(shop) == before
