"""What a load does to the catalogue, told on small sheets."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from catalogue.sheets.loading import load_sheet
from catalogue.sheets.outcome import LoadReport
from catalogue.store import open_store
from schema.errors import InputError, StoreError
from tests.catalogue.sheets.small_loads import (
    RING,
    content,
    load,
    mapping,
    offer,
    rows,
    sheet_of,
    whole,
)

A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1.00"
B = "B-2,O-ring middle,o_ring,302,3.5,NBR,70,2.00"
C = "C-3,O-ring big,o_ring,303,3.5,NBR,70,3.00"
TEN = [f"T-{one},O-ring,o_ring,{310 + one},3.5,NBR,70,1.00" for one in range(1, 21)]


def _reasons(report: LoadReport) -> str:
    return " ".join(str(problem) for row in report.refused for problem in row.problems)


# -- looking, and loading twice -------------------------------------------------------------------------


def test_a_dry_run_writes_nothing(shop: Path) -> None:
    """It tells what would change; the catalogue, byte for byte, is as it was."""
    load(shop, RING, A, B)
    before, content_before = shop.read_bytes(), whole(shop)
    report = load(shop, RING, A.replace("1.00", "1.10"), C, covers="whole_range", apply=False)
    assert (report.counts.changed, report.counts.new, report.counts.withdrawn) == (1, 1, 1)
    assert (report.load, report.applied) == (0, False)
    assert whole(shop) == content_before
    assert shop.read_bytes() == before


def test_a_dry_run_needs_no_catalogue(tmp_path: Path) -> None:
    """Where there is none, it tells what an empty one would get, and makes none."""
    report = load(tmp_path / "none.sqlite", RING, A, B, apply=False)
    assert (report.counts.new, report.counts.new_parts) == (2, 2)
    assert list(tmp_path.iterdir()) == []


def test_a_dry_run_counts_what_the_load_then_does(shop: Path) -> None:
    """Both are one piece of code."""
    load(shop, RING, A, B)
    lines = (RING, A.replace("1.00", "1.10"), C, "D-4,O-ring,o_ring,304,3.5,NBR,70,free")
    looked = load(shop, *lines, covers="whole_range", apply=False)
    assert load(shop, *lines, covers="whole_range").counts == looked.counts


def test_the_same_sheet_again_changes_nothing(blank: Path) -> None:
    """No change is made, and no load is recorded."""
    first = load(blank, RING, A, B, covers="whole_range")
    before = whole(blank)
    again = load(blank, RING, A, B, covers="whole_range")
    assert (again.counts.unchanged, again.counts.changes) == (2, False)
    assert (again.applied, again.same_as) == (False, first.load)
    assert whole(blank) == before


def test_another_file_that_says_the_same_is_a_load_without_changes(blank: Path) -> None:
    """It is recorded that it was looked at; the offers stay as they were."""
    load(blank, RING, A, B)
    before = content(blank)
    report = load(blank, RING, B, A)
    assert report.counts.unchanged == 2
    assert (report.load, report.counts.changes) == (2, False)
    assert content(blank) == before


def test_columns_that_were_moved_change_nothing(blank: Path) -> None:
    """A row is told from others by what its fields say, not by where they stand."""
    load(blank, RING, A)
    moved = "Price,Shore,Rubber,CS,ID,Kind,Words,Code"
    report = load(blank, moved, ",".join(reversed(A.split(","))))
    assert (report.counts.unchanged, report.counts.respelt) == (1, 0)


def test_columns_that_were_renamed_or_left_out_change_nothing(blank: Path) -> None:
    """A new header for the same field, and a new column that is left out."""
    load(blank, RING, A)
    with sheet_of("Photo," + RING.replace("Words", "Text"), f"a.jpg,{A}") as file:
        header = "Photo," + RING
        known = mapping(header, "Kolbring")
        columns = {
            ("Text" if name == "Words" else name): column._replace(header="Text" if name == "Words" else name)
            for name, column in known.columns.items()
        }
        report = load_sheet(blank, file, known.changed(columns=columns), apply=True)
    assert (report.counts.unchanged, report.counts.respelt) == (1, 0)


def test_the_same_in_other_signs_is_no_change(blank: Path) -> None:
    """1.0 is 1.00; the row is counted as written otherwise, and the price is as it was."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("1.00", "1.0"))
    assert (report.counts.respelt, report.counts.changed) == (1, 0)
    assert offer(blank, "A-1", "price", "price_text") == ("1", "1.0")


# -- changes, and doubts --------------------------------------------------------------------------------


def test_a_changed_price_is_told_and_kept(blank: Path) -> None:
    """The report has before and now; the catalogue has the price, exactly, and what it was."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("1.00", "1.0501"))
    (changed,) = report.changed
    assert [tuple(one) for one in changed.changes] == [("price", "1", "1.0501")]
    assert offer(blank, "A-1", "price", "currency", "price_per", "load") == ("1.0501", "EUR", 1, 2)
    assert rows(blank, "SELECT price, load, until_load FROM earlier_offer") == [("1", 1, 2)]


@pytest.mark.parametrize(
    ("price", "told"), [("2.01", "2.01 times"), ("0.49", "0.49 times"), ("10", "slipped")]
)
def test_a_price_that_jumps_is_kept_back(blank: Path, price: str, told: str) -> None:
    """Beyond twice, or below half: doubtful, told why, and not taken."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("1.00", price))
    assert (report.counts.doubtful, report.counts.changed) == (1, 0)
    assert told in report.doubtful[0].doubts[0].reason
    assert offer(blank, "A-1", "price") == ("1",)


@pytest.mark.parametrize("price", ["2.00", "0.50"])
def test_a_price_within_the_bounds_is_taken(blank: Path, price: str) -> None:
    """Twice and half are no jump."""
    load(blank, RING, A)
    assert load(blank, RING, A.replace("1.00", price)).counts.changed == 1


def test_a_doubtful_row_is_taken_when_it_is_meant(blank: Path) -> None:
    """--take-doubtful."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace("1.00", "9.00"), take_doubtful=True)
    assert (report.counts.doubtful, report.counts.changed) == (0, 1)
    assert offer(blank, "A-1", "price") == ("9",)


def test_a_price_for_more_pieces_is_compared_by_the_piece(blank: Path) -> None:
    """1.00 each and 90.00 for a hundred are near each other; 1.00 for a hundred is not."""
    load(blank, f"{RING},Per", f"{A},1")
    assert load(blank, f"{RING},Per", f"{A.replace('1.00', '90')},100").counts.changed == 1
    report = load(blank, f"{RING},Per", f"{A},100")
    assert report.counts.doubtful == 1
    assert "it was for 100" not in report.doubtful[0].doubts[0].reason


def test_another_currency_is_kept_back(blank: Path) -> None:
    """The number alone says nothing."""
    load(blank, f"{RING},Currency", f"{A},EUR")
    report = load(blank, f"{RING},Currency", f"{A},GBP")
    assert "from EUR to GBP" in report.doubtful[0].doubts[0].reason
    assert offer(blank, "A-1", "currency") == ("EUR",)


@pytest.mark.parametrize(
    ("before", "now", "told"),
    [
        ("301", "302", "the article itself changed"),
        ("301", "11.85", "inches"),
        ("NBR", "FKM", "NBR, now FKM"),
    ],
)
def test_an_article_that_changes_under_its_code_is_kept_back(
    blank: Path, before: str, now: str, told: str
) -> None:
    """Another size or rubber is another part: the old code does not become it unasked."""
    load(blank, RING, A)
    report = load(blank, RING, A.replace(before, now))
    assert report.counts.doubtful == 1
    assert any(told in doubt.reason for doubt in report.doubtful[0].doubts)
    assert report.doubtful[0].part_number == "Kolbring:A-1"


def test_an_article_that_changes_and_is_meant_changes_the_part(blank: Path) -> None:
    """The part that was made from the code has the new size, in mm, and its key with it."""
    load(blank, RING, A)
    load(blank, RING, A.replace("301", "309"), take_doubtful=True)
    sql = "SELECT nominal_mm FROM part_dimension WHERE part_number = ? AND dimension = 'inside_diameter'"
    assert rows(blank, sql, "Kolbring:A-1") == [(309.0,)]
    assert rows(blank, "SELECT typed_key FROM part") == [("o_ring|309.00|3.50|NBR|70",)]


def test_a_new_code_that_lost_its_zero_is_kept_back(blank: Path) -> None:
    """007 that comes as 7 is not a new article, and 007 is not gone."""
    load(blank, RING, A.replace("A-1", "007"), B)
    report = load(blank, RING, A.replace("A-1", "7"), B, covers="whole_range")
    assert (report.counts.new, report.counts.doubtful, report.counts.missing) == (0, 1, 0)
    assert offer(blank, "007", "listed") == (1,)


# -- what is not on a sheet -----------------------------------------------------------------------------


def test_what_is_gone_from_a_whole_range_is_not_listed(blank: Path) -> None:
    """It is kept with what it was, and comes back when it is on a sheet again."""
    load(blank, RING, A, B)
    gone = load(blank, RING, B, covers="whole_range")
    assert [one.code for one in gone.missing] == ["A-1"]
    assert offer(blank, "A-1", "listed", "price", "part_number") == (0, "1", "Kolbring:A-1")
    assert load(blank, RING, A, B, covers="whole_range").counts.back == 1
    assert offer(blank, "A-1", "listed", "load") == (1, 3)


def test_a_sheet_of_some_articles_withdraws_nothing(blank: Path) -> None:
    """What is not on it is offered still, and not told as missing."""
    load(blank, RING, A, B)
    report = load(blank, RING, C, covers="some")
    assert (report.counts.missing, report.counts.withdrawn) == (0, 0)
    assert offer(blank, "A-1", "listed") == (1,)


def test_too_many_gone_at_once_stay_listed(blank: Path) -> None:
    """More than ten and a fifth of the range: it may be the wrong file, so nothing goes."""
    load(blank, RING, *TEN)
    report = load(blank, RING, *TEN[:9], covers="whole_range")
    assert (report.counts.missing, report.counts.withdrawn) == (11, 0)
    assert "11 of 20 offers are not on this sheet" in report.kept_listed
    assert offer(blank, "T-20", "listed") == (1,)


def test_many_gone_at_once_go_when_it_is_meant(blank: Path) -> None:
    """--take-doubtful."""
    load(blank, RING, *TEN)
    report = load(blank, RING, *TEN[:9], covers="whole_range", take_doubtful=True)
    assert (report.counts.withdrawn, report.kept_listed) == (11, "")
    assert offer(blank, "T-20", "listed") == (0,)


def test_a_refused_row_keeps_its_offer_on_the_list(blank: Path) -> None:
    """A row that cannot be read is on the sheet all the same: its code is not gone."""
    load(blank, RING, A, B)
    report = load(blank, RING, A.replace("1.00", "free"), B, covers="whole_range")
    assert (report.counts.refused, report.counts.missing) == (1, 0)
    assert offer(blank, "A-1", "listed", "price") == (1, "1")


# -- duplicates, rows that cannot be taken --------------------------------------------------------------


def test_a_row_that_stands_twice_is_taken_once(blank: Path) -> None:
    """Repeated rows are counted."""
    report = load(blank, RING, A, B, A)
    assert (report.counts.new, report.counts.repeated) == (2, 1)


def test_one_code_with_two_contents_is_taken_neither_way(blank: Path) -> None:
    """Nobody knows which row is right: each is refused and names the other, in other capitals too."""
    report = load(blank, RING, A, B, A.replace("1.00", "1.20").replace("A-1", "a-1"))
    assert (report.counts.new, report.counts.refused) == (1, 2)
    assert [row.number for row in report.refused] == [2, 4]
    assert "row 4" in str(report.refused[0].problems[0])
    assert "row 2" in str(report.refused[1].problems[0])


def test_a_row_without_a_code_is_refused(blank: Path) -> None:
    """Each by itself, though they have the same code, none."""
    report = load(blank, RING, A.replace("A-1", ""), B.replace("B-2", ""), C)
    assert (report.counts.new, report.counts.refused) == (1, 2)
    assert "Code: nothing is given" in _reasons(report)


def test_refused_rows_are_kept_with_their_reasons(blank: Path) -> None:
    """The load has each as it stood, with every reason and how to mend it."""
    load(blank, RING, A, "B-2,O-ring,o_ring,-5,3.5,NBR,70,free")
    ((row, cells, reasons),) = rows(blank, "SELECT row, cells, reasons FROM load_rejection")
    assert row == 3
    assert '"-5"' in cells
    assert "ID" in reasons
    assert "Price" in reasons


def test_a_successor_that_is_nowhere_is_refused(blank: Path) -> None:
    """The row says which number is missing; rows beside it are taken."""
    header = f"{RING},Instead"
    report = load(blank, header, f"{A},NO-SUCH", f"{B},Kolbring:C-3", f"{C},")
    assert [row.code for row in report.refused] == ["A-1"]
    assert "the catalogue has no such part (given: 'NO-SUCH')" in _reasons(report)
    assert rows(blank, "SELECT superseded_by FROM part WHERE part_number = 'Kolbring:B-2'") == [
        ("Kolbring:C-3",)
    ]


def test_a_successor_whose_own_row_is_refused_is_nowhere(blank: Path) -> None:
    """Then the row above is refused too, and nothing fails at the end."""
    header = f"{RING},Instead"
    report = load(blank, header, f"{A},Kolbring:B-2", f"{B},NO-SUCH", f"{C},")
    assert [row.code for row in report.refused] == ["A-1", "B-2"]


# -- agreed counts, sheets that do not fit ---------------------------------------------------------------


def test_a_load_that_counts_otherwise_than_agreed_writes_nothing(blank: Path) -> None:
    """The catalogue changed between looking and loading: a person looks again."""
    looked = load(blank, RING, A, B, apply=False)
    load(blank, RING, A)
    before = whole(blank)
    with pytest.raises(StoreError, match="changed in the meantime; nothing was loaded, look again"):
        load(blank, RING, A, B, expected=looked.counts)
    assert whole(blank) == before


def test_a_load_that_counts_as_agreed_is_written(blank: Path) -> None:
    """Looked at, agreed to, loaded."""
    looked = load(blank, RING, A, B, apply=False)
    assert load(blank, RING, A, B, expected=looked.counts).applied


def test_a_sheet_without_the_column_of_codes_is_told(blank: Path) -> None:
    """No table fits the mapping: an error that names what is missing, and nothing is written."""
    before = whole(blank)
    with (
        sheet_of("Words,Price", "Ring,1.00") as file,
        pytest.raises(InputError, match="no table of this file can be loaded"),
    ):
        load_sheet(blank, file, mapping(RING, "Kolbring"), apply=True)
    assert whole(blank) == before


def test_a_dry_run_works_where_nothing_may_be_written(blank: Path) -> None:
    """A catalogue that is kept read-only can be asked what a sheet would change."""
    load(blank, RING, A)
    blank.chmod(0o444)
    opened: list[bool] = []

    def watched(path: Path, *, write: bool = False, older: bool = False) -> Any:
        opened.append(write)
        return open_store(path, write=True) if write else open_store(path, older=older)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("catalogue.sheets.typed_keys.open_store", watched)
        patch.setattr("catalogue.sheets.loading.open_store", watched)
        report = load(blank, RING, A.replace("1.00", "1.10"), apply=False)
    assert report.counts.changed == 1
    assert opened == [False, False]
