"""The encoding of a text file is told, and the reason with it."""

from __future__ import annotations

import io

import pytest

from catalogue.sheets.encodings import find_encoding
from catalogue.sheets.opening import SheetFileError
from tests.catalogue.sheets.opened import only_table, opened, whole

# Invented rows of price lists, one in each language.
GERMAN = "Artikelnr;Bezeichnung;Größe;Stück;Preis\nK-17;Öldichtring für Gehäuse Ø 12 ±0,1;M5;10;1,20\n"
FRENCH = (
    'Référence;Désignation;Qté;Prix unité\nK-17;Joint intérieur Ø 12 ½";10;1,20\nK-18;Pièce à côté;5;2,00\n'
)
SPANISH = "Código;Descripción;Tamaño;Precio\nK-17;Retén diámetro 12 año;M5;1,20\n"
ITALIAN = "Codice;Descrizione;Quantità;Prezzo\nK-17;Guarnizione qualità 1;10;1,20\nK-18;Unità;5;2,00\n"
DUTCH = "Artikel;Omschrijving;Prijs\nK-17;Geïsoleerde ring één stuk;1,20\n"
POLISH = "Kod;Nazwa;Ilość;Średnica\nK-17;Pierścień uszczelniający;10;12\nK-18;Część zamienna łożysko;5;9\n"
CZECH = "Kód;Název;Množství;Průměr\nK-17;Těsnění kroužek;10;12\nK-18;Těsnicí kroužek příruby;5;9\n"
RUSSIAN = "Артикул;Наименование;Цена;Размер\nK-17;Кольцо уплотнительное;1,20;12\n"
EURO = "Code;Price\nK-17;1,20 €\nK-18;2,40 €\n"
SIGNS = "Code;Size;Text\nK-17;Ø 12;±0,1\nK-18;Ø 9;½ in\nK-19;12 × 3;5 µm 90°\n"


@pytest.mark.parametrize(
    ("text", "encoding"),
    [
        *((text, "cp1252") for text in (GERMAN, FRENCH, SPANISH, ITALIAN, DUTCH, EURO, SIGNS)),
        *((text, "mac_roman") for text in (GERMAN, FRENCH, SPANISH, ITALIAN, EURO)),
        *((text, "cp850") for text in (GERMAN, FRENCH, SPANISH, ITALIAN)),
        *((text, encoding) for text in (POLISH, CZECH) for encoding in ("cp1250", "iso8859_2", "cp852")),
        *((RUSSIAN, encoding) for encoding in ("cp1251", "koi8_r", "cp866")),
        (EURO, "iso8859_15"),
    ],
)
def test_older_encodings_are_told_by_what_the_file_says(text: str, encoding: str) -> None:
    """Whichever code page is named in the end, the text reads as it was written."""
    raw = text.encode(encoding, "replace")
    found = find_encoding(io.BytesIO(raw))
    assert raw.decode(found.name) == raw.decode(encoding)
    assert found.why.startswith("guessed")


@pytest.mark.parametrize(
    "encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "utf-32-le", "utf-32-be"]
)
def test_unicode_is_known_with_and_without_a_mark(encoding: str) -> None:
    """The byte order mark is no part of the first name, and zero bytes tell the rest."""
    table = only_table(GERMAN.encode(encoding))
    assert table.header == ("Artikelnr", "Bezeichnung", "Größe", "Stück", "Preis")
    assert whole(table).rows == [["K-17", "Öldichtring für Gehäuse Ø 12 ±0,1", "M5", "10", "1,20"]]


def test_utf8_is_held_to_the_last_byte() -> None:
    """A file that is UTF-8 but for a byte at its end is not UTF-8."""
    rows = "".join(f"K-{at};Dichtung;1,20\n" for at in range(30_000))
    raw = ("Code;Text;Preis\n" + rows).encode() + "Z;Größe Ø 9;1\n".encode("cp1252")
    file = opened(raw)
    assert file.encoding == "cp1252"
    assert whole(file.tables[0]).rows[-1] == ["Z", "Größe Ø 9", "1"]


def test_the_reason_shows_what_the_file_says_when_read_so() -> None:
    """The person sees the words in question and can judge."""
    assert "Größe" in opened(GERMAN.encode("cp1252")).encoding_why


@pytest.mark.parametrize(
    ("raw", "why"), [(b"\xef\xbb\xbfa;b\n1;2\n", "byte order mark"), ("a;ö\n1;2\n".encode(), "valid UTF-8")]
)
def test_what_is_known_is_said_to_be_known(raw: bytes, why: str) -> None:
    """No guess is claimed where the bytes prove it."""
    assert opened(raw).encoding_why == why


def test_a_told_encoding_overrides_the_guess() -> None:
    """The person knows better, even where the bytes are valid otherwise."""
    assert only_table("Größe;Preis\nA;1\n".encode(), encoding="cp1252").header[0] == "GrÃ¶ÃŸe"


def test_an_unknown_encoding_is_refused_by_name() -> None:
    """The message names what was given and what would do."""
    with pytest.raises(SheetFileError, match=r"no encoding named 'klingon'.*To do: use a name such as utf-8"):
        opened(GERMAN, encoding="klingon")


def test_a_told_encoding_that_does_not_fit_is_refused_at_once() -> None:
    """The file is not loaded half: a bad byte is told when it is opened."""
    with pytest.raises(SheetFileError, match=r"this is not utf-8 text \(near byte 16\)"):
        opened("Artikelnr;Preis\nÖ;1\n".encode("cp1252"), encoding="utf-8")


def test_a_guess_holds_for_the_whole_file() -> None:
    """A byte that has no meaning in the likeliest encoding, far below, makes it another."""
    raw = GERMAN.encode("cp1252") + b"K-18;x;M5;10;1,20\n" * 50_000 + b"K-19;\x8f\x81;M5;1;1\n"
    file = opened(raw)
    assert raw.decode(file.encoding)  # cp1252 would raise
    assert whole(file.tables[0]).rows[-1][0] == "K-19"
