"""What is kept back until a person says that it is meant, and what is said of a file as a whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.sheets.one_load import Take
from schema.errors import InputError
from tests.catalogue.sheets.small_loads import RING, load, offer, rows

A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1.00"
B = "B-2,O-ring middle,o_ring,302,3.5,NBR,70,2.00"
C = "C-3,O-ring large,o_ring,303,3.5,NBR,70,3.00"
JUMPS = (A.replace("1.00", "9.00"), B.replace("2.00", "19.00"))


def test_a_sheet_without_rows_is_refused(blank: Path) -> None:
    """A header alone withdraws nothing, and is no load."""
    load(blank, RING, A, B, covers="whole_range")
    with pytest.raises(InputError, match="a header and no row of data"):
        load(blank, RING, covers="whole_range")
    assert rows(blank, "SELECT count(*), min(listed) FROM offer") == [(2, 1)]
    assert rows(blank, "SELECT count(*) FROM load") == [(1,)]


@pytest.mark.parametrize("left", [(A,), (A, B)])
def test_a_small_range_does_not_go_unasked(blank: Path, left: tuple[str, ...]) -> None:
    """More than half of a small range, or more than a fifth of a larger one, stays listed."""
    others = [f"K-{one},O-ring,o_ring,{310 + one},3.5,NBR,70,1.00" for one in range(4)]
    load(blank, RING, A, B, *others, covers="whole_range")
    report = load(blank, RING, *left, covers="whole_range")
    assert "--take-gone" in report.kept_listed
    assert rows(blank, "SELECT min(listed) FROM offer") == [(1,)]


def test_what_is_gone_is_taken_by_itself(blank: Path) -> None:
    """A person may mean that much is gone, and not mean a price that jumps."""
    load(blank, RING, A, B, C, covers="whole_range")
    report = load(blank, RING, JUMPS[0], covers="whole_range", take=Take(gone=True))
    assert (report.counts.withdrawn, report.counts.doubtful) == (2, 1)
    assert offer(blank, "A-1", "price", "listed") == ("1", 1)


def test_one_code_is_taken_and_the_other_kept_back(blank: Path) -> None:
    """The code is told in any capitals."""
    load(blank, RING, A, B)
    report = load(blank, RING, *JUMPS, take=Take(codes=frozenset(["a-1"])))
    assert (report.counts.changed, report.counts.doubtful) == (1, 1)
    assert offer(blank, "A-1", "price") == ("9",)
    assert offer(blank, "B-2", "price") == ("2",)


def test_a_new_ring_in_inches_under_mm_is_kept_back(blank: Path) -> None:
    """No ring has a section of 0.118 mm; 0.118 in is a ring of 3 mm."""
    report = load(blank, RING, "Q-8,,o_ring,2.480,0.118,NBR,70,3.00", A)
    assert (report.counts.new, report.counts.doubtful) == (1, 1)
    assert [one.reason for one in report.doubtful[0].doubts] == [
        "0.118 mm is no cross section; 0.118 in is 3 mm"
    ]


def test_a_small_ring_is_no_slip(blank: Path) -> None:
    """The smallest ring of AS568 (001: 0.029 in by 0.040 in) is taken."""
    report = load(blank, RING, "S-1,,o_ring,0.74,1.02,NBR,70,3.00")
    assert (report.counts.new, report.counts.doubtful) == (1, 0)


@pytest.mark.parametrize(("price", "doubtful"), [("95.00", 1), ("7.50", 0), ("0.10", 1)])
def test_a_first_price_far_from_what_others_ask_is_kept_back(blank: Path, price: str, doubtful: int) -> None:
    """The same ring from another supplier at a hundred times the price is one priced by the hundred."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("A-1", "D-1").replace("1.00", price), supplier="Dornet")
    assert report.counts.doubtful == doubtful


def test_the_file_of_another_supplier_is_noticed(blank: Path) -> None:
    """The very same bytes under another name are a mistake, unless a person says otherwise."""
    load(blank, RING, A)
    with pytest.raises(InputError, match=r"this very file was loaded for Kolbring \(load 1\)"):
        load(blank, RING, A, supplier="Dornet")
    assert load(blank, RING, A, supplier="Dornet", take_doubtful=True).applied


def test_an_older_file_is_told(blank: Path) -> None:
    """Loading May after June takes the catalogue back to May, and says so."""
    load(blank, RING, A)
    load(blank, RING, A.replace("1.00", "1.10"))
    report = load(blank, RING, A, apply=False)
    assert report.notes == [
        "This very file was loaded before, as load 1, and another of this supplier since: it takes the "
        "catalogue back to it."
    ]


def test_a_name_like_a_known_supplier_is_told(blank: Path) -> None:
    """A misspelt name would make a second supplier."""
    load(blank, RING, A)
    report = load(blank, RING, B, supplier="Kolbrin", apply=False)
    assert report.notes == ["Kolbrin is a new supplier; near: Kolbring."]


def test_a_told_code_says_what_it_was(blank: Path) -> None:
    """A code that lost its zeros and whose part is told is new, and comes with the offer that it was."""
    zeros = "00412,O-ring,o_ring,304,3.5,NBR,70,18.50"
    load(blank, RING, zeros, A, B, C, covers="whole_range")
    now = zeros.replace("00412", "412").replace("18.50", "18.90")
    told = {"412": "Kolbring:00412"}
    report = load(blank, RING, now, A, B, C, covers="whole_range", same_part=told)
    assert [(one.part_number, one.was and one.was.code, one.doubts) for one in report.new] == [
        ("Kolbring:00412", "00412", ())
    ]
    assert report.proposals == []


@pytest.mark.parametrize(
    "words", ["X-ring 301 x 3.5", "Stützring 301 x 3.5", "Back-up ring", "Wiper 301 x 310 x 7"]
)
def test_one_kind_for_every_row_is_held_against_the_description(blank: Path, words: str) -> None:
    """A row whose description names another kind is refused, and made into nothing."""
    report = load(
        blank, RING.replace("Kind,", ""), f"A-1,{words},301,3.5,NBR,70,1.00", every={"kind": "o_ring"}
    )
    assert report.counts.refused == 1
    assert "the row is O-ring" in report.refused[0].problems[0].reason
    assert rows(blank, "SELECT count(*) FROM part") == [(0,)]


def test_a_code_that_no_row_has_is_told(blank: Path) -> None:
    """A person who takes 412 where the sheet has 00412 takes nothing, and is told."""
    report = load(blank, RING, A, take=Take(codes=frozenset(["a-1", "412"])))
    assert report.notes == ["No row of this sheet has the code 412; --take goes by whole codes."]


def test_sizes_that_were_not_read_are_noted(blank: Path) -> None:
    """A wiper can be kept without sizes; that its description has some that nobody could read is said."""
    report = load(blank, "Code,Words,Price", "A-1,Abstreifer 32 x 42 x 5/7 NBR 85,1.00")
    assert report.counts.new == 1
    assert report.remarks["sizes in the description were not read; look at what was"] == 1
