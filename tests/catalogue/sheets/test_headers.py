"""What the header of a column says of its field, its unit and its currency."""

from __future__ import annotations

import csv

import pytest

from catalogue.sheets.headers import WORDS, read_header
from catalogue.sheets.sheet_fields import fields


@pytest.mark.parametrize(
    ("header", "field"),
    [
        ("ID", "inside_diameter"),
        ("I.D.", "inside_diameter"),
        ("d1", "inside_diameter"),
        ("Innen-Ø", "inside_diameter"),
        ("INNENDURCHMESSER", "inside_diameter"),
        ("Innendurchmesser (d1)", "inside_diameter"),
        ("Ø int.", "inside_diameter"),
        ("diámetro interior", "inside_diameter"),
        ("diametro interno", "inside_diameter"),
        ("binnendiameter", "inside_diameter"),
        ("C/S", "cross_section"),
        ("Schnurstärke", "cross_section"),
        ("Schnurstaerke d2", "cross_section"),
        ("tore", "cross_section"),
        ("Außen-Ø", "outside_diameter"),
        ("Art.-Nr.", "code"),
        ("ArtNr", "code"),
        ("N° article", "code"),
        ("Nº artículo", "code"),
        ("Codice articolo", "code"),
        ("Item #", "code"),
        ("Bestelnummer", "code"),
        ("Bezeichnung / Description", "description"),
        ("Libellé", "description"),
        ("PE", "price_per"),
        ("VPE", "pack_size"),
        ("MOQ", "minimum"),
        ("Lieferzeit", "lead_time_days"),
        ("Voorraad", "stock"),
        ("Hersteller", "maker"),
        ("Hersteller-Teilenummer", "maker_code"),
        ("Warengruppe", "kind"),
        ("Dash #", "size"),
        ("Matière", "material"),
        ("Härte Shore A", "hardness_shore_a"),
        ("Gewinde", "thread"),
        ("ersetzt durch", "superseded_by"),
        ("Bemerkung", "notes"),
    ],
)
def test_words_of_six_languages_are_known_in_any_spelling(header: str, field: str) -> None:
    """Case, accents, dots, hyphens and Nr./No./N° do not count."""
    found = read_header(header)
    assert (found.options, found.sure) == ((field,), True)


@pytest.mark.parametrize("name", sorted(name for name in fields() if "_" in name))
def test_the_names_of_the_fields_are_known(name: str) -> None:
    """A sheet that the project wrote itself is read back."""
    found = read_header(name)
    assert (found.options, found.sure) == ((name,), True)


@pytest.mark.parametrize("name", sorted(name for name in fields() if "_" not in name))
def test_the_short_names_of_the_fields_are_known_for_their_kind(name: str) -> None:
    """Where the trade uses one word for two things, the kind of part settles it: hardness of a shaft."""
    assert name in read_header(name, kind=(*fields()[name].kinds, "")[0]).options


@pytest.mark.parametrize(
    ("header", "unit", "currency", "per"),
    [
        ("ID (mm)", "mm", "", ""),
        ("C/S in.", "in", "", ""),
        ('ID"', "in", "", ""),
        ("d1 [mm]", "mm", "", ""),
        ("ID in mm", "mm", "", ""),
        ("Schnurstärke [Zoll]", "in", "", ""),
        ("Preis €", "", "EUR", ""),
        ("Price EUR", "", "EUR", ""),
        ("Preis in CHF", "", "CHF", ""),
        ("Price ($)", "", "$", ""),
        ("Preis/100 Stk (EUR)", "", "EUR", "100"),
        ("Price per 1,000", "", "", "1000"),
        ("Preis je 100 Stück", "", "", "100"),
        ("Price/pc (€)", "", "EUR", "1"),
        ("Lead time (weeks)", "weeks", "", ""),
        ("Lieferzeit Tage", "days", "", ""),
        ("Härte [ShA]", "", "", ""),
        ("Torque [Nm]", "Nm", "", ""),
    ],
)
def test_units_currencies_and_quantities_are_read_beside_the_words(
    header: str, unit: str, currency: str, per: str
) -> None:
    """The field is sure all the same."""
    found = read_header(header)
    assert found.sure
    assert (found.unit, found.currency, found.per) == (unit, currency, per)


@pytest.mark.parametrize(
    "header",
    ["Colour", "Wt", "EAN", "Foto", "Rabatt", "Made in", "Codex", "Katalogseite", "", "-", "(mm)", "Gewicht"],
)
def test_what_is_no_field_stays_unknown(header: str) -> None:
    """A short or foreign word is not pressed into a field that is spelt a little like it."""
    assert read_header(header).options == ()


def test_a_word_spelt_almost_right_is_only_a_suggestion() -> None:
    """A slip in a header is seen, and never sure."""
    found = read_header("Discription")
    assert (found.options, found.sure) == (("description",), False)


@pytest.mark.parametrize(
    ("header", "kind", "field"),
    [
        ("d", "bearing", "inside_diameter"),
        ("D", "bearing", "outside_diameter"),
        ("B", "plain_bushing", "length"),
    ],
)
def test_a_letter_is_settled_by_the_kind_of_part(header: str, kind: str, field: str) -> None:
    """d and D are two things, B of a bushing is its length; without the kind it is not sure."""
    settled = read_header(header, kind=kind)
    assert (settled.options, settled.sure) == ((field,), True)
    assert not read_header(header).sure


def test_a_supplier_part_number_is_not_ours() -> None:
    """``Part No.`` on a supplier's sheet is first his own code; only our own spelling is our number."""
    assert read_header("Part No.").options[0] == "code"
    assert read_header("part_number").options == ("part_number",)


def test_words_in_brackets_that_are_not_understood_make_it_unsure() -> None:
    """An old price is not the price."""
    found = read_header("Preis (alt)")
    assert (found.options, found.sure) == (("price",), False)


def test_the_table_of_words_names_fields_that_exist() -> None:
    """No row of the table points to nothing, and each says where it comes from."""
    with WORDS.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    assert {row["field"] for row in rows} <= set(fields())
    assert {row["source"] for row in rows} == {"common practice, no source"}
