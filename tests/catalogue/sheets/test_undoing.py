"""Taking one load back: what is told of it, and what stands in the way."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

import pytest

from catalogue.sheets.undoing import InTheWay, undo_load
from catalogue.store import open_store
from schema.errors import UnknownName
from tests.catalogue.sheets.small_loads import RING, content, load, offer, rows, undo, whole, words_are_right

A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1.00"
B = "B-2,O-ring middle,o_ring,302,3.5,NBR,70,2.00"
DEARER = A.replace("1.00", "1.50")
OWN = "Our number,Words,Kind,ID,CS,Rubber,Shore"
W = "W-1,Ring,o_ring,305,3.5,NBR,70"


def _in_the_way(catalogue: Path, number: int) -> str:
    """The message; nothing is changed."""
    before = whole(catalogue)
    with pytest.raises(InTheWay, match=f"load {number} cannot be taken back; nothing was changed") as stands:
        undo(catalogue, number)
    assert whole(catalogue) == before
    return str(stands.value)


def test_the_first_load_taken_back_leaves_the_catalogue_as_it_was(shop: Path) -> None:
    """Offers, parts and the index of words are gone; the load is kept, marked."""
    before = content(shop)
    load(shop, RING, A, B)
    done = undo(shop, 1)
    assert (done.offers_removed, done.parts_removed) == (2, 2)
    assert content(shop) == before
    assert rows(shop, "SELECT load, undone_at IS NOT NULL FROM load") == [(1, 1)]
    words_are_right(shop, ["small", "middle"])


def test_what_a_change_replaced_comes_back(blank: Path) -> None:
    """Price and words are as before the load."""
    load(blank, RING, A)
    before = content(blank)
    load(blank, RING, DEARER.replace("small", "tiny"))
    done = undo(blank, 2)
    assert (done.offers_restored, done.parts_restored) == (1, 1)
    assert content(blank) == before
    words_are_right(blank, ["small", "tiny"])


def test_what_a_later_sheet_says_too_stays(blank: Path) -> None:
    """The offer is from the later sheet now: load and row are those of its row there."""
    load(blank, RING, A)
    load(blank, RING, B, A)
    done = undo(blank, 1)
    assert (done.offers_passed_on, done.offers_removed, done.parts_removed) == (1, 0, 0)
    assert offer(blank, "A-1", "load", "row", "price") == (2, 3, "1")
    assert rows(blank, "SELECT load, row FROM part WHERE part_number = 'Kolbring:A-1'") == [(2, 3)]


def test_what_was_withdrawn_is_listed_again(blank: Path) -> None:
    """As it was, from the sheet that it was on."""
    load(blank, RING, A, B)
    before = content(blank)
    load(blank, RING, B, covers="whole_range")
    undo(blank, 2)
    assert content(blank) == before


def test_what_a_later_sheet_withdraws_too_stays_withdrawn(blank: Path) -> None:
    """The newest sheet of the whole range does not have it either: it is not listed."""
    load(blank, RING, A, B)
    load(blank, RING, B, covers="whole_range")
    load(blank, RING, B.replace("2.00", "2.10"), covers="whole_range")
    undo(blank, 2)
    assert offer(blank, "A-1", "listed", "load") == (0, 3)


def test_loads_can_be_taken_back_in_any_order(blank: Path) -> None:
    """The middle one first, then the others: nothing is left."""
    before = content(blank)
    for line in (A, DEARER, A.replace("1.00", "1.80")):
        load(blank, RING, line)
    undo(blank, 2)
    assert offer(blank, "A-1", "price") == ("1.8",)
    assert rows(blank, "SELECT price, load, until_load FROM earlier_offer") == [("1", 1, 3)]
    undo(blank, 1)
    undo(blank, 3)
    assert content(blank) == before


def test_a_load_that_was_taken_back_can_be_loaded_again(blank: Path) -> None:
    """The same file is a new load then, with the same outcome."""
    load(blank, RING, A)
    before = content(blank)
    undo(blank, 1)
    report = load(blank, RING, A)
    assert (report.load, report.applied, report.same_as) == (2, True, 0)
    assert content(blank, loads={2: 1}) == before


def test_a_load_is_taken_back_once(blank: Path) -> None:
    """The second time it is told when that was done."""
    load(blank, RING, A)
    undo(blank, 1)
    assert "it was taken back already, on 20" in _in_the_way(blank, 1)


def test_a_load_that_is_not_there(blank: Path) -> None:
    """The loads that are there are named."""
    load(blank, RING, A)
    with pytest.raises(UnknownName, match="there is no such load") as told:
        undo(blank, 7)
    assert told.value.allowed == "1"


# -- what stands in the way -----------------------------------------------------------------------------


def test_a_part_that_another_supplier_offers_is_in_the_way(blank: Path) -> None:
    """The offer is named with its load; without it, the load can be taken back."""
    load(blank, RING, A)
    load(blank, RING, A.replace("A-1", "X-9"), supplier="Dornet")
    assert "part Kolbring:A-1 is needed by the offer X-9 of Dornet (load 2)" in _in_the_way(blank, 1)
    undo(blank, 2)
    assert undo(blank, 1).parts_removed == 1


def test_a_part_that_a_withdrawn_offer_had_is_in_the_way(blank: Path) -> None:
    """What an offer was before counts too: it could not be given back."""
    own = "W-1,Ring,o_ring,301,3.5,NBR,70"
    load(blank, RING, A)
    load(blank, RING, A.replace("A-1", "X-9"), supplier="Dornet")
    load(blank, OWN, own, own_parts=True)
    load(blank, RING, A.replace("A-1", "X-9"), supplier="Dornet", same_part={"X-9": "W-1"})
    assert "needed by what offer X-9 of Dornet (load 2) was before load 4" in _in_the_way(blank, 1)


def test_a_part_in_a_rebuild_list_is_in_the_way(shop: Path) -> None:
    """A place that names the part needs it."""
    load(shop, RING, A)
    from contextlib import closing

    from catalogue.store import open_store

    with closing(open_store(shop, write=True)) as db:
        ((unit, place),) = db.execute("SELECT unit, place FROM place LIMIT 1").fetchall()
        db.execute(
            "INSERT INTO rebuild_list (unit, place, part_number, position, quantity, renew)"
            " VALUES (?, ?, 'Kolbring:A-1', 9, 1, 'always')",
            (unit, place),
        )
        db.conn.commit()
    assert f"part Kolbring:A-1 is needed by the place {unit}/{place}" in _in_the_way(shop, 1)


def test_a_part_that_replaces_another_is_in_the_way(blank: Path) -> None:
    """A part that names it as its successor needs it."""
    load(blank, RING, A)
    load(blank, f"{OWN},Instead", f"{W},Kolbring:A-1", own_parts=True)
    assert "is needed by the part W-1, which it replaces" in _in_the_way(blank, 1)


def test_a_part_that_something_else_wrote_over_is_in_the_way(shop: Path) -> None:
    """A part of the workshop that a sheet changed and the workshop's own file changed again."""
    from contextlib import closing

    from catalogue.seed import load_seed
    from catalogue.store import open_store

    load(shop, OWN, "QV-1205,Ring of ours,o_ring,24.99,3.53,NBR,70", own_parts=True, take_doubtful=True)
    with closing(open_store(shop, write=True)) as db:
        load_seed(db)
    assert "part QV-1205 was written over since by" in _in_the_way(shop, 1)


def test_an_offer_of_what_the_part_became_is_in_the_way(blank: Path) -> None:
    """Another supplier's article is the part as the load made it, not as it was before."""
    load(blank, RING, A)
    load(blank, RING, A.replace("301", "309"), take_doubtful=True)
    load(blank, RING, A.replace("301", "309").replace("A-1", "X-9"), supplier="Dornet")
    told = _in_the_way(blank, 2)
    assert "part Kolbring:A-1 is another article without it" in told
    assert "the offer X-9 of Dornet (load 3) was taken for what it is now" in told


def test_a_part_that_was_told_and_then_taken_over_is_in_the_way(blank: Path) -> None:
    """A later sheet has the code as that part only because this load told it."""
    load(blank, OWN, "W-1,Ring,o_ring,301,3.5,NBR,70", own_parts=True)
    load(blank, RING, A, same_part={"A-1": "W-1"})
    load(blank, RING, DEARER)
    assert "load 3 has A-1 as part W-1 only because this load told it" in _in_the_way(blank, 2)


def test_a_part_that_is_told_again_is_not_in_the_way(blank: Path) -> None:
    """The later sheet tells the part by itself."""
    load(blank, OWN, "W-1,Ring,o_ring,301,3.5,NBR,70", own_parts=True)
    load(blank, RING, A, same_part={"A-1": "W-1"})
    load(blank, RING, DEARER, same_part={"A-1": "W-1"})
    undo(blank, 2)
    assert offer(blank, "A-1", "part_number", "price", "load") == ("W-1", "1.5", 3)


def test_all_things_in_the_way_are_named(blank: Path) -> None:
    """A person has to look at each of them; how to go on is told as it is typed, with the load's number."""
    lines = [f"K-{one},O-ring,o_ring,{300 + one},3.5,NBR,70,1.00" for one in range(1, 31)]
    load(blank, RING, *lines)
    load(blank, RING, *(line.replace("K-", "D-") for line in lines), supplier="Dornet")
    told = _in_the_way(blank, 1)
    assert told.count("is needed by the offer") == 30
    assert told.endswith("borebook loads undo 1 --keep-parts")


def test_very_many_things_in_the_way_are_counted() -> None:
    """Two hundred are named, the rest counted."""
    told = str(InTheWay(7, [f"part K-{one} is needed by the unit U" for one in range(230)]))
    assert told.count("is needed by the unit U") == 200
    assert "and 30 more" in told


def test_parts_that_others_need_can_stay(blank: Path) -> None:
    """The offers go, and so do the parts that nothing needs; what another supplier offers stays."""
    load(blank, RING, A, B)
    load(blank, RING, A.replace("A-1", "D-1"), supplier="Dornet")
    with closing(open_store(blank, write=True)) as db:
        done = undo_load(db, 1, keep_parts=True)
    assert (done.offers_removed, done.parts_removed, done.parts_kept) == (2, 1, 1)
    assert rows(blank, "SELECT part_number FROM part") == [("Kolbring:A-1",)]
    assert rows(blank, "SELECT code, part_number FROM offer") == [("D-1", "Kolbring:A-1")]
    assert rows(blank, "PRAGMA foreign_key_check") == []


def test_a_part_that_stayed_is_found_again(blank: Path) -> None:
    """Its supplier's next sheet takes it for its own again, and makes no second one."""
    load(blank, RING, A)
    load(blank, RING, A.replace("A-1", "D-1"), supplier="Dornet")
    with closing(open_store(blank, write=True)) as db:
        undo_load(db, 1, keep_parts=True)
    load(blank, RING, DEARER)
    assert rows(blank, "SELECT part_number FROM part") == [("Kolbring:A-1",)]
    assert rows(blank, "SELECT code, part_number FROM offer ORDER BY code") == [
        ("A-1", "Kolbring:A-1"),
        ("D-1", "Kolbring:A-1"),
    ]


def test_the_successor_of_a_part_that_stays_stays_too(blank: Path) -> None:
    """What stays must not be superseded by a part that is gone."""
    load(blank, f"{RING},Instead", f"{A},Kolbring:B-2", f"{B},")
    load(blank, RING, A.replace("A-1", "D-1"), supplier="Dornet", same_part={"D-1": "Kolbring:A-1"})
    with closing(open_store(blank, write=True)) as db:
        done = undo_load(db, 1, keep_parts=True)
    assert (done.parts_removed, done.parts_kept) == (0, 2)
    assert rows(blank, "PRAGMA foreign_key_check") == []


# -- own parts ------------------------------------------------------------------------------------------


def test_an_own_part_that_a_later_sheet_has_too_stays(blank: Path) -> None:
    """It is from the later sheet now."""
    load(blank, OWN, W, own_parts=True)
    load(blank, OWN, W.replace("W-1", "W-2").replace("305", "306"), W, own_parts=True)
    undo(blank, 1)
    assert rows(blank, "SELECT part_number, load, row FROM part ORDER BY part_number") == [
        ("W-1", 2, 3),
        ("W-2", 2, 2),
    ]
