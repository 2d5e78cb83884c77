"""Faults that a hostile reader of the loader found: rows taken for others, tables taken for one another."""

from __future__ import annotations

import io
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path

import pytest
from openpyxl import Workbook

from catalogue.cli.screen import on_screen
from catalogue.sheets.choosing import Choice, Said, choose
from catalogue.sheets.codes import folded
from catalogue.sheets.kept import mappings_folder, write_kept
from catalogue.sheets.opening import open_sheet_file
from catalogue.sheets.undoing import undo_load
from catalogue.store import open_store
from tests.catalogue.sheets.small_loads import RING, load, mapping, offer, rows, sheet_of, undo
from tests.command import Ran

A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1"
WORDS = "O-ring NBR70 20x3"


# -- rows taken for others --------------------------------------------------------------------------------


def test_a_comma_that_makes_a_row_longer_is_no_unchanged_row(blank: Path) -> None:
    """1 became 1,25 without quotes: the cells under the header are as they were, the row is not."""
    load(blank, RING, A)
    report = load(blank, RING, f"{A},25")
    assert (report.counts.unchanged, report.counts.refused) == (0, 1)


def test_a_longer_row_does_not_repeat_a_shorter_one(blank: Path) -> None:
    """The same code with 1 and with 1,25 is at odds with itself; neither is taken."""
    report = load(blank, RING, A, f"{A},25")
    assert (report.counts.new, report.counts.repeated, report.counts.refused) == (0, 0, 2)


def test_a_repeat_of_a_row_kept_back_does_not_outlive_the_load_that_is_taken_back(blank: Path) -> None:
    """The third sheet has the row twice and took neither, so nothing says it once the first is taken back."""
    dear = A.removesuffix("1") + "100"
    load(blank, RING, dear)
    load(blank, RING, A, take_doubtful=True)
    third = load(blank, RING, dear, dear, "B-2,O-ring,o_ring,302,3.5,NBR,70,2")
    assert (third.counts.doubtful, third.counts.repeated, third.counts.new) == (1, 1, 1)
    undo(blank, 2)
    undo(blank, 1)
    assert rows(blank, "SELECT code FROM offer") == [("B-2",)]


@pytest.mark.parametrize(("one", "other"), [("ÄB-1", "äb-1"), ("\u212aB-1", "KB-1"), ("ΣX-1", "σx-1")])
def test_capitals_beyond_a_to_z_make_another_code(blank: Path, one: str, other: str) -> None:
    """Two offers that the catalogue keeps apart are two on a sheet too, each with its own price."""
    lines = [A.replace("A-1", code).removesuffix("1") + price for code, price in ((one, "1"), (other, "2"))]
    report = load(blank, RING, *lines)
    assert (report.counts.new, report.counts.refused) == (2, 0)
    assert offer(blank, one, "price") == ("1",)
    assert offer(blank, other, "price") == ("2",)
    undo(blank, 1)
    assert rows(blank, "SELECT code FROM offer") == []


def test_a_code_in_other_capitals_replaces_none_of_a_whole_range(blank: Path) -> None:
    """It may be the known one, spelt otherwise: it is kept back, and the known one stays listed."""
    load(blank, RING, A.replace("A-1", "ÄB-1"), covers="whole_range")
    report = load(blank, RING, A.replace("A-1", "äb-1"), covers="whole_range")
    assert (report.counts.new, report.counts.doubtful, report.counts.withdrawn) == (0, 1, 0)


@pytest.mark.parametrize(("text", "small"), [("QV-1", "qv-1"), ("QV-Ä", "qv-Ä"), ("\u212a", "\u212a")])
def test_folding_is_that_of_the_catalogue(blank: Path, text: str, small: str) -> None:
    """SQLite's NOCASE is the outside measure."""
    assert folded(text) == small
    assert rows(blank, "SELECT lower(?)", text) == [(small,)]


def test_a_part_that_stayed_is_found_by_the_supplier_in_other_capitals(blank: Path) -> None:
    """A supplier is one in any capitals: its part is taken up again, and not made a second time."""
    load(blank, RING, A)
    load(blank, f"{RING},Our number", f"{A.replace('A-1', 'Z-9')},Kolbring:A-1", supplier="Marrow")
    with closing(open_store(blank, write=True)) as db:
        undo_load(db, 1, keep_parts=True)
    report = load(blank, RING, A, supplier="KOLBRING")
    assert (report.counts.new, report.counts.new_parts) == (1, 0)
    assert rows(blank, "SELECT part_number FROM part") == [("Kolbring:A-1",)]


def test_a_code_on_very_many_rows_is_told_in_few_words(blank: Path) -> None:
    """Thirty thousand rows of one code are refused, each naming some of the others, in seconds."""
    lines = [f"A-1,O-ring,o_ring,301,3.5,NBR,70,{1 + at}" for at in range(30_000)]
    start = time.monotonic()
    report = load(blank, RING, *lines, apply=False)
    assert report.counts.refused == 30_000
    assert len(str(report.refused[0].problems[0])) < 400
    assert "and 29989 more" in str(report.refused[0].problems[0])
    assert time.monotonic() - start < 30


# -- what cells say ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("cell", "code"), [("EUR", "EUR"), ("usd", "USD"), ("€", "EUR"), ("£", "GBP")])
def test_a_column_of_currencies_is_read_by_codes_and_signs(blank: Path, cell: str, code: str) -> None:
    """As they stand beside prices."""
    load(blank, f"{RING},Currency", f"{A},{cell}")
    assert offer(blank, "A-1", "currency") == (code,)


@pytest.mark.parametrize("cell", ["XXQ", "$", "kr", "EURO-ZONE"])
def test_what_is_no_currency_is_refused(blank: Path, cell: str) -> None:
    """Three letters are no currency, and a sign of several is none."""
    report = load(blank, f"{RING},Currency", f"{A},{cell}")
    assert (report.counts.new, report.counts.refused) == (0, 1)


@pytest.mark.parametrize("header", ["Per", "Pack"])
@pytest.mark.parametrize("cell", [">500", "500+", "from 500", "ab 500", "min. 500"])
def test_a_price_is_for_so_many_pieces_and_not_for_at_least_so_many(
    blank: Path, header: str, cell: str
) -> None:
    """1.20 each from 500 on is not 1.20 for 500."""
    report = load(blank, f"{RING},{header}", f"{A},{cell}")
    assert (report.counts.new, report.counts.refused) == (0, 1)


# -- tables of one file, and next month's file ------------------------------------------------------------


def _choice(tmp_path: Path, said: Said | None = None, **sheets: Sequence[Sequence[object]]) -> Choice:
    """What is chosen for a workbook of these sheets."""
    book = Workbook()
    book.remove(book.active)
    for name, lines in sheets.items():
        page = book.create_sheet(name)
        for line in lines:
            page.append(list(line))
    content = io.BytesIO()
    book.save(content)
    content.seek(0)
    with open_sheet_file(content, name="book.xlsx") as file:
        return choose(file, "Kolbring", tmp_path / "none.sqlite", said or Said())


@pytest.mark.parametrize(
    ("first", "second", "about"),
    [
        (("Price EUR", 1.5), ("Price USD", 1.5), "currency"),
        (("Price EUR per 100", 150), ("Price EUR", 1.5), "price_per"),
        (("Price EUR", "1.50"), ("Price EUR", "12,50"), "decimal"),
    ],
)
def test_tables_that_do_not_agree_are_loaded_one_by_one(
    tmp_path: Path, first: tuple[str, object], second: tuple[str, object], about: str
) -> None:
    """A mapping has one currency, one number of pieces, one decimal sign for every row of a file."""
    sheets = {
        name: [["Code", "Description", header], [f"{name}1", WORDS, price]]
        for name, (header, price) in (("One", first), ("Two", second))
    }
    choice = _choice(tmp_path, **sheets)
    assert choice.mapping is None
    assert [(one.about, one.answers) for one in choice.questions] == [
        (about, ('--sheet "One"', '--sheet "Two"'))
    ]
    assert _choice(tmp_path, Said(sheets=("Two",)), **sheets).mapping is not None


def test_a_table_that_shows_no_sign_decides_none(tmp_path: Path) -> None:
    """Whole prices on the first sheet say nothing of 12,50 on the second."""
    one = [["Code", "Description", "Price EUR"], ["A1", WORDS, "12"]]
    two = [["Code", "Description", "Price EUR"], ["B1", WORDS, "12,50"], ["B2", WORDS, "1,250"]]
    choice = _choice(tmp_path, One=one, Two=two)
    assert choice.mapping is not None
    assert choice.mapping.decimal == ","


@pytest.mark.parametrize(("sign", "asked"), [("", True), (".", False), (",", False)])
def test_a_kept_decimal_sign_is_held_against_the_new_sheet(tmp_path: Path, sign: str, asked: bool) -> None:
    """Prices that turned from 12.50 to 12,50: 1,250 beside them is not taken for a thousand and more."""
    catalogue = tmp_path / "none.sqlite"
    write_kept(mappings_folder(catalogue), mapping(RING, "Kolbring"))
    lines = (RING, 'A-1,O-ring,o_ring,301,3,NBR,70,"12,50"', 'A-2,O-ring,o_ring,302,3,NBR,70,"1,250"')
    with sheet_of(*lines) as file:
        choice = choose(file, "Kolbring", catalogue, Said(decimal=sign))
    assert [one.about for one in choice.questions] == ["decimal"] * asked
    assert (choice.mapping is None) is asked


# -- what the terminal is sent ----------------------------------------------------------------------------


@pytest.mark.parametrize("sign", ["\x1b", "\x9b", "\x07", "\x08", "\u202e", "\u2066", "\u200f", "\u2028"])
def test_a_sign_that_steers_the_terminal_is_not_sent(sign: str) -> None:
    """It is shown as a replacement sign, in its place."""
    assert on_screen(f"20{sign}x3 µ") == "20\ufffdx3 µ"


def test_cells_do_not_steer_the_terminal(
    run: Callable[..., Ran], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nor do headers, refused cells and codes on their way through the command."""
    monkeypatch.setenv("BOREBOOK_CATALOGUE", str(tmp_path / "shop.sqlite"))
    header = "Code,De\u202esc,Kind,ID (mm),CS (mm),Material,Shore A,Price EUR"
    sheet = tmp_path / "prices.csv"
    bad = "C\u202e-1,a\u009b2Jb,o_ring,301,3.5,NBR,70,fr\u2066ee"
    sheet.write_text("\n".join([header, A.replace("small", "\u009b31m"), bad, ""]), encoding="utf-8")
    ran = run("load", str(sheet), "--supplier", "Kolbring", "--dry-run")
    assert ran.status == 0
    assert not {"\u202e", "\u009b", "\u2066"} & {*ran.out, *ran.err}


# -- what is the same part --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("double lip", "double lip", True),
        ("double lip", "single lip", False),
        ("double lip", "", False),
        ("with dust lip", "without dust lip", False),
    ],
)
def test_seals_with_other_lips_are_two_parts(blank: Path, one: str, other: str, same: bool) -> None:
    """Size and material are alike; by the lips one of them leaks or drags."""
    header, words = "Code,Words,Kind,Price", "oil seal 20x30x7 NBR"
    load(blank, header, f"A-1,{words} {one},,1", supplier="Kolbring")
    report = load(blank, header, f"Z-9,{words} {other},,1", supplier="Marrow")
    assert report.counts.new == 1
    assert report.counts.new_parts == (0 if same else 1)
