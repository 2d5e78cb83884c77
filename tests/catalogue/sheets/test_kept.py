"""The mappings that are kept, and how they are held against a new sheet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.sheets.holding import held_against, retold
from catalogue.sheets.kept import (
    KeptErrors,
    kept_suppliers,
    kept_text,
    mapping_of,
    mappings_folder,
    read_kept,
    supplier_name,
    write_kept,
)
from catalogue.sheets.mapping import Column, Mapping, checked
from schema.errors import InputError, InputErrors


def mapping(**given: Any) -> Mapping:
    """A mapping of a price list."""
    columns = {
        "Art.-Nr.": Column("Art.-Nr.", "code"),
        "ID (mm)": Column("ID (mm)", "inside_diameter", "mm"),
        "Preis/100 (EUR)": Column("Preis/100 (EUR)", "price"),
        "Foto": Column("Foto", ""),
    }
    values = {"supplier": "Kolbring", "columns": columns, "every": {"currency": "EUR", "price_per": "100"}}
    return checked(**{**values, **given})


_TEXT = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
_NAMES = _TEXT.filter(bool)


@st.composite
def _mappings(draw: st.DrawFn) -> Mapping:
    headers = draw(st.lists(_NAMES, min_size=1, max_size=5, unique=True))
    fields = [("code", ""), ("inside_diameter", "in"), ("lead_time_days", "weeks"), ("price", ""), ("", "")]
    return checked(
        supplier=draw(st.sampled_from(["Kolbring", "no", "0.50", "Dichtungen Süd", "1e3"])),
        covers=draw(st.sampled_from(["whole_range", "some"])),
        sheets=tuple(draw(st.lists(_TEXT, max_size=3))),
        encoding=draw(st.sampled_from(["", "cp1252"])),
        delimiter=draw(st.sampled_from(["", "\t", ";", "|"])),
        decimal=draw(st.sampled_from([".", ","])),
        columns={name: Column(name, *field) for name, field in zip(headers, fields, strict=False)},
        every=draw(st.sampled_from([{}, {"kind": "o_ring", "currency": "NOK", "price_per": "100"}])),
        words={"material": draw(st.dictionaries(_NAMES, _TEXT, min_size=1, max_size=3))},
        same_part=draw(st.dictionaries(_NAMES, _TEXT.filter(str.strip), max_size=3)),
    )


@given(_mappings())
def test_what_is_kept_reads_back_the_same(one: Mapping) -> None:
    """Whatever a header holds: no, 0.50, colons, quotes, tabs, signs of any script."""
    assert mapping_of(kept_text(one).encode(), "x.yaml") == one


def test_a_mapping_is_kept_in_a_file_beside_the_catalogue(tmp_path: Path) -> None:
    """One file for each supplier, found in any capitals."""
    folder = mappings_folder(tmp_path / "parts.sqlite")
    path = write_kept(folder, mapping())
    assert path == tmp_path / "parts.suppliers" / "Kolbring.yaml"
    assert read_kept(folder, "KOLBRING") == mapping()
    assert kept_suppliers(folder) == ("Kolbring",)


def test_a_supplier_in_other_capitals_is_the_same_one(tmp_path: Path) -> None:
    """No second file is made."""
    write_kept(tmp_path, mapping())
    write_kept(tmp_path, mapping(supplier="kolbring", decimal=","))
    found = read_kept(tmp_path, "Kolbring")
    assert [one.name for one in tmp_path.iterdir()] == ["Kolbring.yaml"]
    assert found is not None
    assert found.decimal == ","


def test_nothing_is_kept_of_a_new_supplier(tmp_path: Path) -> None:
    """None, and no folder is needed."""
    assert read_kept(tmp_path / "none", "Kolbring") is None


def test_the_file_is_one_that_a_person_can_edit() -> None:
    """It says what it is, and a column is one line: header, field, unit."""
    text = kept_text(mapping())
    assert text.startswith("# What the columns of this supplier's sheets are.")
    assert "\n  ID (mm): inside_diameter mm\n" in text
    assert "\n  Foto: leave_out\n" in text


def test_texts_stay_as_they_are_written_by_hand() -> None:
    """no is a word and not false, 0100 is not 64, an empty field leaves a column out."""
    content = b"supplier: no\ncolumns:\n  Nr: code\n  Foto:\nsame_part:\n  0100: 1.50\n"
    found = mapping_of(content, "no.yaml")
    assert (found.supplier, found.same_part) == ("no", {"0100": "1.50"})
    assert found.columns["Foto"] == Column("Foto", "")


@pytest.mark.parametrize(
    ("content", "message"),
    [
        ("supplier: A\ncolumns:\n  Nr: code\n  ID: inside_diametre mm\n", r"line 4, .*no such field"),
        (
            "supplier: A\ncolumns:\n  Nr: code\n  ID: width weeks\n",
            r"line 4, .*not a unit that width may have",
        ),
        ("supplier: A\ncolumns:\n  Nr: code\nevery:\n  kind: ring\n", r"line 5, .*no such kind of part"),
        ("supplier: A\ncolumns:\n  Nr: code\n  Nr: price\n", r"line 4, .*given twice, first in line 3"),
        ("supplier: A\ncolumns:\n  Nr: code\ndecimal: ;\n", r"line 4, .*not one of the words"),
        ("supplier: A\ncolumns: code\n", r"line 2, .*named entries are expected"),
        ("supplier: A\ncolumns:\n  Nr: [code]\n", r"line 3, .*a text is expected"),
        ("supplier: A\ncolumns:\n  Nr: code\nevry: {}\n", r"line 4, .*no such entry.*every"),
        ("supplier: A\ncolumns:\n  Preis: EUR: price\n", r"line 3, .*not YAML"),
        ("supplier: &a A\ncolumns:\n  Nr: *a\n", r"line 3, .*an alias is not read"),
        ("supplier: A\n", r"columns: is missing"),
        ("", "the file is empty"),
        ("a: \x00", "not YAML"),
        ("[" * 3000, "not YAML"),
    ],
)
def test_faults_of_a_file_edited_by_hand_are_told_with_their_line(content: str, message: str) -> None:
    """Where it stands, what is wrong, what would be right."""
    with pytest.raises(KeptErrors, match=message):
        mapping_of(content.encode(), "A.yaml")


def test_a_file_that_is_no_utf8_is_told() -> None:
    """With the line of the first byte that is none."""
    with pytest.raises(KeptErrors, match=r"line 2, .*not UTF-8"):
        mapping_of("supplier: A\n# Größe\n".encode("cp1252"), "A.yaml")


def test_a_file_named_for_another_supplier_is_refused(tmp_path: Path) -> None:
    """A copied file does not load one supplier's sheet by the words of another."""
    (tmp_path / "Nordring.yaml").write_text(kept_text(mapping()), encoding="utf-8")
    with pytest.raises(KeptErrors, match="named for another supplier"):
        read_kept(tmp_path, "Nordring")


@pytest.mark.parametrize("name", ["Kolbring", "Dichtungen Süd", "A-1_b", "3 Ringe"])
def test_names_that_can_be_files_are_taken(name: str) -> None:
    """Letters of any script, digits, - _ and spaces."""
    assert supplier_name(name) == name


@pytest.mark.parametrize(
    "name", ["", "../x", "a/b", "a.b", "A & B", "-x", "NUL", "com1", "x" * 61, "a\x00b", "~"]
)
def test_names_that_cannot_be_files_everywhere_are_refused(name: str) -> None:
    """No path, no device, no sign that a system forbids."""
    with pytest.raises(InputError, match="cannot be the name of a file"):
        supplier_name(name)


# -- held against a new sheet ---------------------------------------------------------------------------


def test_columns_that_moved_fit() -> None:
    """Order, capitals and spaces do not count, and a column that was left out may be gone."""
    found = held_against(mapping(), ["preis/100 (EUR)", "ID  (mm)", "ART.-NR."])
    assert (found.fits, found.new, found.questions) == (True, (), ())


def test_a_column_that_is_gone_is_a_question_with_its_answer() -> None:
    """The new column that looks like it is named, and not taken."""
    found = held_against(mapping(), ["Art.-Nr.", "ID (mm)", "VK-Preis"], [["A", "1", "2,50"]])
    assert not found.fits
    assert [one.header for one in found.missing] == ["Preis/100 (EUR)"]
    assert "'Preis/100 (EUR)' is gone; 'VK-Preis' is new and looks like price" in found.questions[0].text
    assert found.questions[0].answers == ("--column VK-Preis=price", '--column "Preis/100 (EUR)="')


def test_a_header_that_is_gone_is_missed_where_one_table_has_nothing_in_its_place() -> None:
    """Its prices would be lost in silence."""
    columns = {**mapping().columns, "Price": Column("Price", "price")}
    kept = mapping(columns=columns)
    here, other = ["Art.-Nr.", "ID (mm)", "Price"], ["Art.-Nr.", "ID (mm)"]
    assert held_against(kept, here).fits
    found = held_against(kept, here, tables=[here, other])
    assert [one.header for one in found.missing] == ["Preis/100 (EUR)"]


def test_new_columns_are_told_with_what_they_look_like() -> None:
    """By their header, or else by their values."""
    header = ["Art.-Nr.", "ID (mm)", "Preis/100 (EUR)", "Lieferzeit (Wochen)", "Ausf."]
    found = held_against(mapping(), header, [["A", "1", "2", "3", "NBR"]])
    assert found.fits
    assert [(one.header, one.field, one.unit) for one in found.new] == [
        ("Lieferzeit (Wochen)", "lead_time_days", "weeks"),
        ("Ausf.", "material", ""),
    ]


def test_an_answer_moves_the_field_and_what_the_header_said_of_every_row() -> None:
    """The price per 100 went with its header; the new one is in Swiss francs for one piece."""
    header = ["Art.-Nr.", "ID (mm)", "Preis CHF"]
    found = retold(mapping(), header, ["Preis CHF=price"])
    assert found.every == {"currency": "CHF"}
    assert "Preis/100 (EUR)" not in found.columns
    assert held_against(found, header).fits


def test_a_column_that_is_gone_can_be_let_go() -> None:
    """HEADER= takes it out of the mapping."""
    header = ["Art.-Nr.", "ID (mm)"]
    found = retold(mapping(), header, ["Preis/100 (EUR)="])
    assert held_against(found, header).fits
    assert found.columns["Art.-Nr."].field == "code"


def test_a_field_told_of_another_column_leaves_the_one_that_had_it() -> None:
    """The first column stays, left out."""
    header = ["Art.-Nr.", "ID (mm)", "Preis/100 (EUR)", "Code"]
    found = retold(mapping(), header, ["Code=code"])
    assert (found.columns["Art.-Nr."].field, found.columns["Code"].field) == ("", "code")


def test_told_columns_that_cannot_be_are_refused() -> None:
    """All of them at once."""
    with pytest.raises(InputErrors) as raised:
        retold(mapping(), ["Art.-Nr."], ["Nix=code", "Art.-Nr.=cod"])
    assert len(raised.value.errors) == 2


# -- faults of the file ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text", ["supplier: A\ncolumns:\n\tX: code\n", "supplier: A\ncolumns:\n  X:\tcode\n\tY: price\n"]
)
def test_a_tab_in_the_file_has_its_own_cure(text: str) -> None:
    """Quotes would not mend it."""
    with pytest.raises(KeptErrors, match="use spaces instead of the tab"):
        mapping_of(text.encode(), "Kolbring.yaml")
