"""What is exported loads back to the same catalogue, text by text; nothing in it is run or retyped."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.rows_written import apply_rows
from catalogue.sheets.choosing import Said, choose
from catalogue.sheets.exporting import MARK, offers_sheet, parts_sheet, write_csv
from catalogue.sheets.loading import load_sheet
from catalogue.sheets.opening import open_sheet_file
from catalogue.sheets.outcome import LoadReport
from catalogue.sheets.own_export import carried
from catalogue.sheets.workbook_writing import write_workbook
from catalogue.store import all_or_nothing, open_store
from catalogue.table_rows import add_part, no_rows
from catalogue.texts import texts_of_parts
from schema.errors import InputError
from schema.kinds import PARTS
from schema.unit_parts import part_from
from tests.command import Ran

Run = Callable[..., Ran]
Texts = Mapping[str, str]
RING = {"kind": "o_ring", "inside_diameter": "12.7 mm", "cross_section": "2.62 mm"}
WIDE = {"code": "C-1", "part_number": "R-1", "price": "0.5", "currency": "EUR", "price_per": 1}
FORMS = ("csv", "xlsx")


def _stored(path: Path, parts: Mapping[str, Texts], offers: Sequence[Mapping[str, object]] = ()) -> Path:
    """A catalogue with these parts, and with these offers of Kolbring."""
    tables = no_rows()
    for number, texts in parts.items():
        add_part(tables, texts, part_from(texts, number=number), number=number, source="the test")
    with closing(open_store(path, write=True)) as db, all_or_nothing(db):
        apply_rows(db, tables)
        db.execute(
            "INSERT INTO load (load, supplier, file, file_sha256, loaded_at, covers, mapping, context,"
            " version, counts) VALUES (1, 'Kolbring', 'f', '', '', 'some', '', '', '', '{}')"
        )
        for row, offer in enumerate(offers, start=1):
            told = {"supplier": "Kolbring", "listed": 1, "load": 1, "sheet": "", "row": row, **offer}
            db["offer"].insert(told)
        db.execute(
            "INSERT INTO offer_words (rowid, code, maker_code, description)"
            " SELECT offer, code, maker_code, description FROM offer"
        )
    return path


def _exported(catalogue: Path, form: str = "csv", supplier: str = "") -> bytes:
    file = io.BytesIO()
    with closing(open_store(catalogue)) as connection:
        sheet = offers_sheet(connection, supplier) if supplier else parts_sheet(connection)
        if form == "csv":
            write_csv(file, sheet)
        else:
            write_workbook(file, [sheet])
    return file.getvalue()


def _loaded(catalogue: Path, content: bytes, supplier: str = "") -> LoadReport:
    """Load a file without a word about it."""
    with open_sheet_file(io.BytesIO(content), name="given") as file:
        choice = choose(file, supplier or "own parts", catalogue, Said(), own_parts=not supplier)
        assert choice.questions == ()
        assert choice.mapping is not None
        return load_sheet(catalogue, file, choice.mapping, own_parts=not supplier, apply=True)


def _texts(catalogue: Path) -> dict[str, dict[str, str]]:
    with closing(open_store(catalogue)) as connection:
        numbers = [row[0] for row in connection.execute("SELECT part_number FROM part")]
        return texts_of_parts(connection, numbers)


def _sheet(*rows: Sequence[str]) -> bytes:
    file = io.StringIO()
    csv.writer(file).writerows(rows)
    return file.getvalue().encode()


def _changes(report: LoadReport) -> tuple[int, int]:
    """Rows that changed nothing, and all others."""
    counts = report.counts
    return counts.unchanged, counts.rows - counts.unchanged


# -- the demo workshop ---------------------------------------------------------------------------------


@pytest.mark.parametrize("form", FORMS)
def test_the_demo_parts_load_into_an_empty_catalogue(catalogue: Path, tmp_path: Path, form: str) -> None:
    """What comes out of the new catalogue is byte for byte what went in."""
    report = _loaded(tmp_path / "new.sqlite", _exported(catalogue, form))
    assert (report.counts.new, report.counts.rows) == (205, 205)
    assert _exported(tmp_path / "new.sqlite") == _exported(catalogue)


@pytest.mark.parametrize("form", FORMS)
def test_the_demo_parts_change_nothing_where_they_come_from(db: object, tmp_path: Path, form: str) -> None:
    """All 205 rows are unchanged, and so is every text."""
    before = _texts(tmp_path / "c.sqlite")
    report = _loaded(tmp_path / "c.sqlite", _exported(tmp_path / "c.sqlite", form))
    assert _changes(report) == (205, 0)
    assert _texts(tmp_path / "c.sqlite") == before


def _of_kind(catalogue: Path, kind: str) -> dict[str, dict[str, str]]:
    return {number: texts for number, texts in _texts(catalogue).items() if texts["kind"] == kind}


@pytest.fixture(scope="module", name="all_kinds")
def _all_kinds(catalogue: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The parts of the demo workshop, and a piston, which it has none of."""
    piston = {"kind": "piston", "outside_diameter": "31.92 -0,02/-0,04 mm", "surface_finish": "0.8 um Ra"}
    parts = {**_texts(catalogue), "P-1": piston}
    return _stored(tmp_path_factory.mktemp("kinds") / "home.sqlite", parts)


@pytest.fixture(scope="module", name="from_workbook")
def _from_workbook(all_kinds: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("workbook") / "new.sqlite"
    _loaded(path, _exported(all_kinds, "xlsx"))
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
    _loaded(other, _exported(home))
    offers = _exported(home, form, "Wexenholme")
    assert _loaded(other, offers, "Wexenholme").counts.new == 596
    assert _exported(other, "csv", "Wexenholme") == _exported(home, "csv", "Wexenholme")
    assert _changes(_loaded(home, offers, "Wexenholme")) == (596, 0)


def test_a_workbook_of_all_has_a_sheet_for_the_parts_and_one_for_each_supplier(
    run: Run, tmp_path: Path
) -> None:
    """Each sheet is found by who is asked for, and the parts by asking for own parts."""
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE, {**WIDE, "supplier": "Ost: Nord"}])
    told = run("export", "--to", str(tmp_path / "all.xlsx"), "--catalogue", str(home))
    assert (told.status, told.err) == (0, "1 part\n1 offer of Kolbring\n1 offer of Ost: Nord\n")
    content = (tmp_path / "all.xlsx").read_bytes()
    assert openpyxl.load_workbook(io.BytesIO(content)).sheetnames == ["parts", "Kolbring", "Ost Nord"]
    assert _changes(_loaded(home, content)) == (1, 0)
    assert _changes(_loaded(home, content, "Ost: Nord")) == (1, 0)


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
    home = _stored(folder / "home.sqlite", {**parts, "R-1": RING}, offers)
    sheets = [_exported(home, request.param, supplier) for supplier in ("", "Kolbring")]
    own = (_loaded(home, sheets[0]), _loaded(home, sheets[1], "Kolbring"))
    other = folder / "other.sqlite"
    _loaded(other, sheets[0])
    _loaded(other, sheets[1], "Kolbring")
    return _Journey(home, own, other)


def _offer(catalogue: Path, code: str) -> list[tuple[object, ...]]:
    with closing(open_store(catalogue)) as connection:
        columns = "code, part_number, description, maker, maker_code, price, currency, price_per, pack_size"
        found = connection.execute(f"SELECT {columns} FROM offer WHERE code = ?", (code,))  # noqa: S608
        return [tuple(row) for row in found]


def test_awkward_texts_change_nothing_at_home(journey: _Journey) -> None:
    """All parts and all offers are as they were."""
    assert [_changes(report) for report in journey.own] == [(len(AWKWARD) + 1, 0), (len(AWKWARD), 0)]


@pytest.mark.parametrize("text", AWKWARD, ids=_named)
def test_a_text_of_a_part_comes_back_as_it_was(journey: _Journey, text: str) -> None:
    """As its number, description, maker and notes."""
    told = {**RING, "description": text, "maker": text, "notes": text, "superseded_by": "R-1"}
    assert _texts(journey.other)[text[:40]] == told


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
    home = _stored(tmp_path / "home.sqlite", {number: {**RING, "notes": notes} for number in "ABC"})
    assert _changes(_loaded(home, _exported(home))) == (3, 0)


@pytest.mark.parametrize(
    "size",
    ["12,7 mm", '1/2"', "Ø 12.70 +0,05/-0,02 mm", "12.68; 12.70 mm by caliper", "12.7 H7 mm", "0.5 in"],
)
def test_a_length_stays_in_the_notation_of_its_drawing(tmp_path: Path, size: str) -> None:
    """Decimal commas, fractions, tolerances and readings stand in one column and none is asked about."""
    parts = {"A": {**RING, "inside_diameter": size}, "B": RING}
    home = _stored(tmp_path / "home.sqlite", parts)
    _loaded(tmp_path / "other.sqlite", _exported(home))
    assert _texts(tmp_path / "other.sqlite") == parts


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
    home = _stored(tmp_path / "home.sqlite", parts)
    _loaded(tmp_path / "other.sqlite", _exported(home))
    assert _texts(tmp_path / "other.sqlite") == parts


@pytest.mark.parametrize("number", ["Total", "P. 12", "www.", "part_number"])
def test_no_row_is_taken_for_a_total_or_a_note(tmp_path: Path, number: str) -> None:
    """A fluid of which nothing else is told looks like the foot of a list, and is a part."""
    home = _stored(tmp_path / "home.sqlite", {number: {"kind": "fluid"}, "Z": {**RING, "notes": "70"}})
    assert _changes(_loaded(home, _exported(home))) == (2, 0)


def test_no_row_is_taken_for_a_second_row_of_the_header(tmp_path: Path) -> None:
    """Words above numbers are what headers are made of, and here they are a part with a note."""
    fluid = {"kind": "fluid", "description": "damping oil"}
    parts = {
        "(A)": {**fluid, "notes": "keep dry"},
        **{f"B{at}": {**fluid, "notes": str(at)} for at in range(9)},
    }
    home = _stored(tmp_path / "home.sqlite", parts)
    assert _changes(_loaded(home, _exported(home))) == (10, 0)


def test_a_line_end_in_a_text_becomes_a_space_and_is_no_change(tmp_path: Path) -> None:
    """No sheet carries it; the note at home keeps its two lines."""
    home = _stored(tmp_path / "home.sqlite", {"A": {**RING, "notes": "one\n two"}})
    assert _changes(_loaded(home, _exported(home))) == (1, 0)
    assert _texts(home)["A"]["notes"] == "one\n two"
    _loaded(tmp_path / "other.sqlite", _exported(home))
    assert _texts(tmp_path / "other.sqlite")["A"]["notes"] == "one two"


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
        home, other = _stored(Path(folder) / "home.sqlite", parts, told), Path(folder) / "other.sqlite"
        own = _exported(home)
        assert _changes(_loaded(home, own)) == (len(parts), 0)
        _loaded(other, own)
        assert _exported(other) == own
        if told:
            theirs = _exported(home, "csv", "Kolbring")
            assert _changes(_loaded(home, theirs, "Kolbring")) == (len(told), 0)
            _loaded(other, theirs, "Kolbring")
            assert _exported(other, "csv", "Kolbring") == theirs


# -- the files -------------------------------------------------------------------------------------------


def test_every_cell_of_a_workbook_is_a_text(tmp_path: Path) -> None:
    """A spreadsheet program runs none of them as a formula and makes no number or date of any."""
    number = "=1+1"
    home = _stored(tmp_path / "home.sqlite", {number: {**RING, "notes": "3-8", "maker": "007"}})
    page = openpyxl.load_workbook(io.BytesIO(_exported(home, "xlsx"))).active
    assert page is not None
    cells = [cell for cell in page[2] if cell.value is not None]
    assert {(cell.data_type, cell.number_format) for cell in cells} == {("s", "@")}
    assert [cell.value for cell in cells if cell.quotePrefix] == [number]


def test_a_cell_of_a_csv_file_is_no_formula(tmp_path: Path) -> None:
    """An apostrophe stands before it, as it does before one of the text's own."""
    home = _stored(tmp_path / "home.sqlite", {"=1+1": {**RING, "notes": "'=2"}})
    row = list(csv.reader(io.StringIO(_exported(home).decode("utf-8-sig"))))[1]
    assert (row[0], row[-1]) == ("'=1+1", "''=2")


@pytest.mark.parametrize("form", FORMS)
def test_the_same_catalogue_gives_the_same_bytes(catalogue: Path, form: str) -> None:
    """Also at another time: no date of making is in the file."""
    first = _exported(catalogue, form)
    if form == "xlsx":
        made = openpyxl.load_workbook(io.BytesIO(first)).properties
        assert made.created == made.modified
        assert made.created.year == 1980
    assert _exported(catalogue, form) == first


def test_the_columns_of_parts(catalogue: Path) -> None:
    """Names of fields: the common ones first, what replaces it and notes last."""
    header = _exported(catalogue).removeprefix(MARK).decode().splitlines()[0].split(",")
    common = ["part_number", "kind", "description", "maker", "size", "material", "hardness_shore_a"]
    assert header[:7] == common
    assert header[-2:] == ["superseded_by", "notes"]
    assert {"inside_diameter", "thread"} <= set(header)


def test_the_columns_of_offers(tmp_path: Path) -> None:
    """The terms, then the fields of its part that occur, so that the sheet can be read by itself."""
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [{**WIDE, "stock": 0, "maker": "Lindqvern"}])
    header, row = csv.reader(io.StringIO(_exported(home, "csv", "Kolbring").decode("utf-8-sig")))
    told = {name: text for name, text in zip(header, row, strict=True) if text}
    assert told == {
        "code": "C-1",
        "part_number": "R-1",
        "maker": "Lindqvern",
        "price": "0.5",
        "currency": "EUR",
        "price_per": "1",
        "stock": "0",
        "kind": "o_ring",
        "inside_diameter": "12.7 mm",
        "cross_section": "2.62 mm",
    }


def test_a_sheet_that_was_saved_with_semicolons_is_still_known(catalogue: Path, tmp_path: Path) -> None:
    """So a spreadsheet program writes CSV in half of Europe."""
    rows = csv.reader(io.StringIO(_exported(catalogue).decode("utf-8-sig")))
    file = io.StringIO()
    csv.writer(file, delimiter=";").writerows(rows)
    _loaded(tmp_path / "new.sqlite", file.getvalue().encode())
    assert _exported(tmp_path / "new.sqlite") == _exported(catalogue)


def test_offers_that_are_gone_are_left_out_and_counted(run: Run, tmp_path: Path) -> None:
    """A row cannot say that it is gone."""
    gone = {**WIDE, "code": "C-2", "listed": 0}
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE, gone])
    told = run("export", "--to", "-", "--supplier", "kolbring", "--catalogue", str(home))
    assert [line.split(",")[0] for line in told.out.splitlines()] == ["code", "C-1"]
    assert told.err == "1 offer of Kolbring; 1 more that was offered once and was left out\n"


# -- loading back ----------------------------------------------------------------------------------------

_HEADER = (*RING, "part_number", "description", "superseded_by", "notes")


def _ring(number: str, successor: str = "", size: str = "12.7 mm") -> tuple[str, ...]:
    return ("o_ring", size, "2.62 mm", number, "", successor, "")


def test_a_successor_may_stand_further_down(tmp_path: Path) -> None:
    """The rows of a list are in the order of numbers, not of time."""
    new = tmp_path / "new.sqlite"
    report = _loaded(new, _sheet(_HEADER, _ring("A", "B"), _ring("B")))
    assert report.counts.new == 2
    assert _texts(new)["A"]["superseded_by"] == "B"


@pytest.mark.parametrize(
    ("rows", "refused"),
    [
        ([_ring("A", "X"), _ring("B")], [2]),
        ([_ring("A", "B"), _ring("B", "C"), _ring("C", "X"), _ring("D")], [2, 3, 4]),
        ([_ring("A", "B"), _ring("B", size="wide"), _ring("C")], [2, 3]),
        ([_ring("A", "a"), _ring("B")], [2]),
    ],
    ids=["nowhere", "after one that is refused", "a row that cannot be read", "itself"],
)
def test_a_successor_that_will_not_be_there_refuses_its_row(
    tmp_path: Path, rows: list[tuple[str, ...]], refused: list[int]
) -> None:
    """With the row's number; the other rows are taken."""
    report = _loaded(tmp_path / "new.sqlite", _sheet(_HEADER, *rows))
    assert [row.number for row in report.refused] == refused
    assert report.counts.new == len(rows) - len(refused)


def test_a_known_part_with_a_successor_that_is_nowhere_stays_as_it_was(tmp_path: Path) -> None:
    """And is itself a successor still."""
    home = _stored(tmp_path / "home.sqlite", {"A": RING, "B": RING})
    report = _loaded(home, _sheet(_HEADER, _ring("A", "B"), _ring("B", "X")))
    assert [(row.number, row.problems[0].column) for row in report.refused] == [(3, "superseded_by")]
    assert _texts(home) == {"A": {**RING, "superseded_by": "B"}, "B": RING}


@pytest.mark.parametrize(
    ("exported", "loaded_as", "problem"),
    [("", "Kolbring", "no sheet of it has offers"), ("Kolbring", "", "no sheet of it has parts alone")],
)
def test_parts_are_not_taken_for_offers_nor_offers_for_parts(
    tmp_path: Path, exported: str, loaded_as: str, problem: str
) -> None:
    """The refusal says how each is loaded."""
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE])
    with pytest.raises(InputError, match=f"{problem}.*--own-parts for a sheet of parts"):
        _loaded(home, _exported(home, "csv", exported), loaded_as)


def test_an_edited_price_is_the_only_change(tmp_path: Path) -> None:
    """The sheet is there to be edited."""
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE, {**WIDE, "code": "C-2"}])
    edited = _exported(home, "csv", "Kolbring").replace(b"C-2,R-1,,,,0.5,", b"C-2,R-1,,,,0.6,")
    report = _loaded(home, edited, "Kolbring")
    assert [(one.row.terms.code, one.changes) for one in report.changed] == [
        ("C-2", (("price", "0.5", "0.6"),))
    ]
    assert _changes(report) == (1, 1)


def test_the_mapping_of_the_suppliers_own_sheets_is_left_alone(run: Run, tmp_path: Path) -> None:
    """An export is no new form of the supplier's list."""
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE])
    kept = tmp_path / "home.suppliers" / "Kolbring.yaml"
    kept.parent.mkdir()
    kept.write_text("supplier: Kolbring\ncolumns:\n  Art.Nr.: code\n", encoding="utf-8")
    before = kept.read_text(encoding="utf-8")
    (tmp_path / "offers.csv").write_bytes(_exported(home, "csv", "Kolbring"))
    args = ("--supplier", "Kolbring", "--yes", "--catalogue", str(home))
    assert run("load", str(tmp_path / "offers.csv"), *args).status == 0
    assert kept.read_text(encoding="utf-8") == before


# -- the command -----------------------------------------------------------------------------------------


def test_a_file_that_is_there_is_kept_unless_told(run: Run, tmp_path: Path) -> None:
    """It may be the one that was edited all afternoon."""
    path = tmp_path / "parts.csv"
    path.write_text("mine", encoding="utf-8")
    refused = run("export", "--to", str(path))
    assert refused.status == 2
    assert "a file of this name is there already" in refused.err
    assert "--replace" in refused.err
    assert path.read_text(encoding="utf-8") == "mine"
    assert run("export", "--to", str(path), "--replace").status == 0
    assert path.read_bytes().startswith(MARK + b"part_number,")


def test_standard_output_has_the_rows_and_nothing_else(run: Run) -> None:
    """Ready for the next program; what is said goes to standard error."""
    told = run("export", "--to", "-")
    assert told.out.startswith("part_number,kind,")
    assert len(list(csv.reader(io.StringIO(told.out)))) == 206
    assert told.err == "205 parts\n"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "--to: is missing"),
        (("--to", "parts.txt"), "the name does not tell the form of the file"),
        (("--to", "-", "--supplier", "Kolbring"), "the catalogue has no offers yet"),
    ],
)
def test_what_cannot_be_exported_is_told(run: Run, arguments: tuple[str, ...], said: str) -> None:
    """With what to do."""
    told = run("export", *arguments)
    assert told.status == 2
    assert said in " ".join(told.err.split())


def test_a_supplier_that_is_spelt_wrong_is_told_with_those_that_are_there(run: Run, tmp_path: Path) -> None:
    """The nearest is named."""
    home = _stored(tmp_path / "home.sqlite", {"R-1": RING}, [WIDE])
    told = run("export", "--to", "-", "--supplier", "Kolbrin", "--catalogue", str(home))
    assert (told.status, told.out) == (2, "")
    assert "Kolbring" in told.err


@pytest.mark.parametrize(("form", "length"), [("csv", 100_001), ("xlsx", 32_768)])
def test_a_text_that_no_cell_holds_leaves_no_file(run: Run, tmp_path: Path, form: str, length: int) -> None:
    """The refusal names the part and the field."""
    home = _stored(tmp_path / "home.sqlite", {"A": RING, "B": {**RING, "notes": "x" * length}})
    told = run("export", "--to", str(tmp_path / f"parts.{form}"), "--catalogue", str(home))
    assert told.status == 2
    assert "B: notes" in told.err
    assert not list(tmp_path.glob("*parts*"))
