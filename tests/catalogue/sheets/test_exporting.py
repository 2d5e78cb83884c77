"""What is exported loads back to the same catalogue, text by text; nothing in it is run or retyped."""

from __future__ import annotations

import io
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.sheets.choosing import Said, choose
from catalogue.sheets.loading import load_sheet
from catalogue.sheets.opening import open_sheet_file
from catalogue.sheets.outcome import LoadReport
from catalogue.sheets.own_export import carried
from catalogue.store import open_store
from schema.kinds import PARTS
from tests.catalogue.sheets.exports import (
    FORMS,
    RING,
    WIDE,
    Run,
    changes_here,
    exported_here,
    loaded_here,
    stored,
    texts_here,
)

# -- the demo workshop ---------------------------------------------------------------------------------


@pytest.mark.parametrize("form", FORMS)
def test_the_demo_parts_load_into_an_empty_catalogue(catalogue: Path, tmp_path: Path, form: str) -> None:
    """What comes out of the new catalogue is byte for byte what went in."""
    report = loaded_here(tmp_path / "new.sqlite", exported_here(catalogue, form))
    assert (report.counts.new, report.counts.rows) == (205, 205)
    assert exported_here(tmp_path / "new.sqlite") == exported_here(catalogue)


@pytest.mark.parametrize("form", FORMS)
def test_the_demo_parts_change_nothing_where_they_come_from(db: object, tmp_path: Path, form: str) -> None:
    """All 205 rows are unchanged, and so is every text."""
    before = texts_here(tmp_path / "c.sqlite")
    report = loaded_here(tmp_path / "c.sqlite", exported_here(tmp_path / "c.sqlite", form))
    assert changes_here(report) == (205, 0)
    assert texts_here(tmp_path / "c.sqlite") == before


def _of_kind(catalogue: Path, kind: str) -> dict[str, dict[str, str]]:
    return {number: texts for number, texts in texts_here(catalogue).items() if texts["kind"] == kind}


@pytest.fixture(scope="module", name="all_kinds")
def _all_kinds(catalogue: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The parts of the demo workshop, and a piston, which it has none of."""
    piston = {"kind": "piston", "outside_diameter": "31.92 -0,02/-0,04 mm", "surface_finish": "0.8 um Ra"}
    parts = {**texts_here(catalogue), "P-1": piston}
    return stored(tmp_path_factory.mktemp("kinds") / "home.sqlite", parts)


@pytest.fixture(scope="module", name="from_workbook")
def _from_workbook(all_kinds: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("workbook") / "new.sqlite"
    loaded_here(path, exported_here(all_kinds, "xlsx"))
    return path


@pytest.mark.parametrize("kind", PARTS)
def test_a_workbook_keeps_the_texts_of_every_kind(all_kinds: Path, from_workbook: Path, kind: str) -> None:
    """Each part of the kind has the same texts after the journey."""
    before = _of_kind(all_kinds, kind)
    assert before
    assert _of_kind(from_workbook, kind) == before


@pytest.mark.parametrize("form", FORMS)
def test_offers_load_into_another_catalogue_and_into_their_own(db: object, tmp_path: Path, form: str) -> None:
    """A distributor's range of the demo: 596 offers, with the parts loaded first; then once more at home."""
    home, other = tmp_path / "c.sqlite", tmp_path / "other.sqlite"
    range_file = Path("seed_data/sheets/wexenholme-2026-04.csv.gz")
    with open_sheet_file(range_file) as file:
        mapping = choose(file, "Wexenholme", home, Said()).mapping
        assert mapping is not None
        load_sheet(home, file, mapping, apply=True)
    loaded_here(other, exported_here(home))
    offers = exported_here(home, form, "Wexenholme")
    assert loaded_here(other, offers, "Wexenholme").counts.new == 596
    assert exported_here(other, "csv", "Wexenholme") == exported_here(home, "csv", "Wexenholme")
    assert changes_here(loaded_here(home, offers, "Wexenholme")) == (596, 0)


def test_a_workbook_of_all_has_a_sheet_for_the_parts_and_one_for_each_supplier(
    run: Run, tmp_path: Path
) -> None:
    """Each sheet is found by who is asked for, and the parts by asking for own parts."""
    home = stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE, {**WIDE, "supplier": "Ost: Nord"}])
    told = run("export", "--to", str(tmp_path / "all.xlsx"), "--catalogue", str(home))
    assert (told.status, told.err) == (0, "1 part\n1 offer of Kolbring\n1 offer of Ost: Nord\n")
    content = (tmp_path / "all.xlsx").read_bytes()
    assert openpyxl.load_workbook(io.BytesIO(content)).sheetnames == ["parts", "Kolbring", "Ost Nord"]
    assert changes_here(loaded_here(home, content)) == (1, 0)
    assert changes_here(loaded_here(home, content, "Ost: Nord")) == (1, 0)


# -- texts that sheets are known to spoil ----------------------------------------------------------------

AWKWARD = (
    "=1+1",
    "'=1+1",
    "@SUM(A1)",
    "+0.05/-0.02 mm",
    "-12.5",
    '\'t Veer, "Noord"',
    "''",
    "a;b|c;d|e",
    "0070",
    "1E5",
    "3-8",
    "1,234.50",
    "TRUE",
    "#N/A",
    "n/a",
    "-",
    "_x0041_",
    "O-ring 99 x 9.9 mm FKM 90",
    "Дамп密封\u0301",
    "\u202eabc\u202c  \u200bd",
    "a\u2028b\x85c",
    "z" * 5000,
)


def _named(text: object) -> str:
    return ascii(text)[:20]


class _Journey(NamedTuple):
    """A catalogue of awkward texts, what loading its export did to it, and the one made from that export."""

    home: Path
    own: tuple[LoadReport, LoadReport]
    other: Path


@pytest.fixture(scope="module", params=FORMS, name="journey")
def _journey(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> _Journey:
    folder = tmp_path_factory.mktemp("awkward")
    parts = {
        text[:40]: {**RING, "description": text, "maker": text, "notes": text, "superseded_by": "R-1"}
        for text in AWKWARD
    }
    offers = [
        {
            **WIDE,
            "code": text[:40],
            "part_number": text[:40],
            "maker": text[:40],
            "maker_code": text[:40],
            "description": text[:300],
        }
        for text in AWKWARD
    ]
    home = stored(folder / "home.sqlite", {**parts, "R-1": RING}, offers)
    sheets = [exported_here(home, request.param, supplier) for supplier in ("", "Kolbring")]
    own = (loaded_here(home, sheets[0]), loaded_here(home, sheets[1], "Kolbring"))
    other = folder / "other.sqlite"
    loaded_here(other, sheets[0])
    loaded_here(other, sheets[1], "Kolbring")
    return _Journey(home, own, other)


def _offer(catalogue: Path, code: str) -> list[tuple[object, ...]]:
    with closing(open_store(catalogue)) as connection:
        columns = "code, part_number, description, maker, maker_code, price, currency, price_per, pack_size"
        found = connection.execute(f"SELECT {columns} FROM offer WHERE code = ?", (code,))  # noqa: S608
        return [tuple(row) for row in found]


def test_awkward_texts_change_nothing_at_home(journey: _Journey) -> None:
    """All parts and all offers are as they were."""
    assert [changes_here(report) for report in journey.own] == [(len(AWKWARD) + 1, 0), (len(AWKWARD), 0)]


@pytest.mark.parametrize("text", AWKWARD, ids=_named)
def test_a_text_of_a_part_comes_back_as_it_was(journey: _Journey, text: str) -> None:
    """As its number, description, maker and notes."""
    told = {**RING, "description": text, "maker": text, "notes": text, "superseded_by": "R-1"}
    assert texts_here(journey.other)[text[:40]] == told


@pytest.mark.parametrize("text", AWKWARD, ids=_named)
def test_a_text_of_an_offer_comes_back_as_it_was(journey: _Journey, text: str) -> None:
    """As its code, its part's number, its maker and the maker's code, and its description."""
    short = text[:40]
    told = (short, short, text[:300], short, short, "0.5", "EUR", 1, None)
    assert _offer(journey.other, short) == [told]


@pytest.mark.parametrize("sign", [";", "|", "\t"], ids=["semicolon", "bar", "tab"])
def test_signs_in_every_text_do_not_part_the_cells(tmp_path: Path, sign: str) -> None:
    """A list whose notes are full of semicolons looks like one that is parted by them."""
    notes = sign.join("abcdefghijklmnopqrstuvwxyz")
    home = stored(tmp_path / "home.sqlite", {number: {**RING, "notes": notes} for number in "ABC"})
    assert changes_here(loaded_here(home, exported_here(home))) == (3, 0)


@pytest.mark.parametrize(
    "size",
    ["12,7 mm", '1/2"', "Ø 12.70 +0,05/-0,02 mm", "12.68; 12.70 mm by caliper", "12.7 H7 mm", "0.5 in"],
)
def test_a_length_stays_in_the_notation_of_its_drawing(tmp_path: Path, size: str) -> None:
    """Decimal commas, fractions, tolerances and readings stand in one column and none is asked about."""
    parts = {"A": {**RING, "inside_diameter": size}, "B": RING}
    home = stored(tmp_path / "home.sqlite", parts)
    loaded_here(tmp_path / "other.sqlite", exported_here(home))
    assert texts_here(tmp_path / "other.sqlite") == parts


def test_sizes_told_beside_their_size_code_are_kept(tmp_path: Path) -> None:
    """A supplier's sheet drops them as mere repetition; what the workshop keeps is not for us to drop."""
    parts = {
        "A": {
            "kind": "o_ring",
            "size": "AS568-214",
            "inside_diameter": "24.99 mm",
            "cross_section": "3.53 mm",
        }
    }
    home = stored(tmp_path / "home.sqlite", parts)
    loaded_here(tmp_path / "other.sqlite", exported_here(home))
    assert texts_here(tmp_path / "other.sqlite") == parts


@pytest.mark.parametrize("number", ["Total", "P. 12", "www.", "part_number"])
def test_no_row_is_taken_for_a_total_or_a_note(tmp_path: Path, number: str) -> None:
    """A fluid of which nothing else is told looks like the foot of a list, and is a part."""
    home = stored(tmp_path / "home.sqlite", {number: {"kind": "fluid"}, "Z": {**RING, "notes": "70"}})
    assert changes_here(loaded_here(home, exported_here(home))) == (2, 0)


def test_no_row_is_taken_for_a_second_row_of_the_header(tmp_path: Path) -> None:
    """Words above numbers are what headers are made of, and here they are a part with a note."""
    fluid = {"kind": "fluid", "description": "damping oil"}
    parts = {
        "(A)": {**fluid, "notes": "keep dry"},
        **{f"B{at}": {**fluid, "notes": str(at)} for at in range(9)},
    }
    home = stored(tmp_path / "home.sqlite", parts)
    assert changes_here(loaded_here(home, exported_here(home))) == (10, 0)


def test_a_line_end_in_a_text_becomes_a_space_and_is_no_change(tmp_path: Path) -> None:
    """No sheet carries it; the note at home keeps its two lines."""
    home = stored(tmp_path / "home.sqlite", {"A": {**RING, "notes": "one\n two"}})
    assert changes_here(loaded_here(home, exported_here(home))) == (1, 0)
    assert texts_here(home)["A"]["notes"] == "one\n two"
    loaded_here(tmp_path / "other.sqlite", exported_here(home))
    assert texts_here(tmp_path / "other.sqlite")["A"]["notes"] == "one two"


_SIGNS = st.characters(codec="utf-8", exclude_categories=["Cs"])
_WORDS = st.text(_SIGNS, max_size=40).map(str.strip)
_SEEN = st.characters(codec="utf-8", exclude_categories=["C", "Z"])
_NUMBERS = st.text(_SEEN, min_size=1, max_size=20)
_PARTS = st.lists(
    st.tuples(_NUMBERS, _WORDS, _WORDS, _WORDS), min_size=1, max_size=8, unique_by=lambda row: row[0].lower()
)


@settings(max_examples=40, deadline=None)
@given(
    _PARTS,
    st.lists(st.tuples(_NUMBERS, _WORDS.map(carried)), max_size=8, unique_by=lambda row: row[0].lower()),
)
def test_any_texts_make_the_journey(
    rows: list[tuple[str, str, str, str]], offers: list[tuple[str, str]]
) -> None:
    """Parts and offers of any words: the second catalogue's sheets are those of the first, byte for byte."""
    parts = {
        number: {**RING, "description": words, "maker": maker, "notes": notes}
        for number, words, maker, notes in rows
    }
    told = [
        {**WIDE, "code": code, "description": words, "part_number": rows[at % len(rows)][0]}
        for at, (code, words) in enumerate(offers)
    ]
    with TemporaryDirectory() as folder:
        home, other = stored(Path(folder) / "home.sqlite", parts, told), Path(folder) / "other.sqlite"
        own = exported_here(home)
        assert changes_here(loaded_here(home, own)) == (len(parts), 0)
        loaded_here(other, own)
        assert exported_here(other) == own
        if told:
            theirs = exported_here(home, "csv", "Kolbring")
            assert changes_here(loaded_here(home, theirs, "Kolbring")) == (len(told), 0)
            loaded_here(other, theirs, "Kolbring")
            assert exported_here(other, "csv", "Kolbring") == theirs
