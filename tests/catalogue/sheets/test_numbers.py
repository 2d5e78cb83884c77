"""Numbers, prices, pieces, days and lengths of cells, with the decimal sign that is declared."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.sheets.cells import DATE, FAULT, NUMBER
from catalogue.sheets.decimal_signs import decimal_evidence
from catalogue.sheets.numbers import (
    is_nothing,
    length_text,
    read_count,
    read_days,
    read_money,
    read_number,
)
from schema.dimension import parse_dimension
from schema.errors import InputError


@pytest.mark.parametrize(
    ("values", "says", "mixed", "is_open"),
    [
        (["1.234,56"], ",", False, False),
        (["1,234.56"], ".", False, False),
        (["12,5", "1.234"], ",", False, False),
        (["1,234"], "", False, True),
        (["1.234.567"], ",", False, False),
        (["0.070"], ".", False, False),
        ([".139"], ".", False, False),
        (["12,5", "12.5"], "", True, True),
        (["12", "1'234"], "", False, False),
        ([NUMBER + "12.5"], "", False, False),
        (["12,50 €", "EUR 8,00"], ",", False, False),
        (["12.68..12.70"], ".", False, False),
    ],
)
def test_the_decimal_sign_follows_from_what_is_seen(
    values: list[str], says: str, mixed: bool, is_open: bool
) -> None:
    """One clear number decides; a thousand that may be one and a bit does not; both signs are told."""
    found = decimal_evidence(values)
    assert (found.says, found.mixed, found.open) == (says, mixed, is_open)


@pytest.mark.parametrize(
    ("cell", "decimal", "price", "currency"),
    [
        ("12,50 €", ",", "12.50", "EUR"),
        ("€ 12.50", ".", "12.50", "EUR"),
        ("1'234.50 CHF", ".", "1234.50", "CHF"),
        ("1\u202f234,50", ",", "1234.50", ""),
        ("1\u00a0234,50 EUR", ",", "1234.50", "EUR"),
        ("1.234,56", ",", "1234.56", ""),
        ("1.234", ",", "1234", ""),
        ("1.234", ".", "1.234", ""),
        ("12,-", ",", "12", ""),
        ("US$ 5", ".", "5", "USD"),
        (NUMBER + "12.5", ",", "12.5", ""),
    ],
)
def test_prices_are_read_with_their_currency(cell: str, decimal: str, price: str, currency: str) -> None:
    """Signs, codes and the gaps of thousands of several countries."""
    assert read_money(cell, decimal=decimal) == (Decimal(price), currency)


@pytest.mark.parametrize("cell", ["", "-", "n/a", "auf Anfrage", "POA", "sur demande", "k. A."])
def test_a_price_on_request_is_no_price(cell: str) -> None:
    """None, with the currency that the sheet tells."""
    assert read_money(cell, decimal=",", currency="EUR") == (None, "EUR")


@pytest.mark.parametrize(
    ("cell", "decimal", "currency", "message"),
    [
        ("1,234.56", ",", "", "decimal comma that the sheet is declared by"),
        ("12,5", ".", "", "decimal point that the sheet is declared by"),
        ("-5,00", ",", "", "not negative"),
        ("12,34567", ",", "", "no more than 4 decimals"),
        (NUMBER + "3.33333333", ".", "", "no more than 4 decimals"),
        ("$5", ".", "", "sign of several currencies"),
        ("$5", ".", "EUR", "does not stand for EUR"),
        ("5 GBP", ".", "EUR", "is in GBP, the sheet says EUR"),
        ("12.50 / 100", ".", "", "not a price"),
        ("from 12.50", ".", "", "not a price"),
        (FAULT + "#N/A", ".", "", "fault of the spreadsheet"),
    ],
)
def test_prices_that_may_mean_two_things_are_refused(
    cell: str, decimal: str, currency: str, message: str
) -> None:
    """Nothing about money is guessed."""
    with pytest.raises(InputError, match=message):
        read_money(cell, decimal=decimal, currency=currency)


def test_an_ambiguous_sign_is_settled_by_the_told_currency() -> None:
    """$ is that of the sheet, or that of a currency column."""
    assert read_money("$5", decimal=".", currency="CAD") == (Decimal(5), "CAD")
    assert read_money("$5", decimal=".", told_elsewhere=True) == (Decimal(5), "")


@pytest.mark.parametrize(
    ("cell", "decimal", "count"),
    [
        ("250 pcs", ".", 250),
        ("> 500", ".", 500),
        ("10+", ".", 10),
        ("1.000", ",", 1000),
        ("1,000", ".", 1000),
        ("1 000 Stk.", ",", 1000),
        (NUMBER + "12.0", ",", 12),
        ("auf Lager", ",", None),
        ("ausverkauft", ",", 0),
        ("", ",", None),
    ],
)
def test_pieces_are_whole_numbers(cell: str, decimal: str, count: int | None) -> None:
    """At least so many is taken as so many; in stock tells no number."""
    assert read_count(cell, decimal=decimal, field="stock") == count


@pytest.mark.parametrize("cell", ["1.5", "1.000", "<5", "-3", "some", NUMBER + "1.5"])
def test_what_is_no_number_of_pieces_is_refused(cell: str) -> None:
    """1.000 under the decimal point may be one or a thousand."""
    with pytest.raises(InputError):
        read_count(cell, decimal=".", field="stock")


def test_in_stock_says_nothing_of_the_size_of_a_pack() -> None:
    """Words of stock are read in a column of stock only."""
    with pytest.raises(InputError, match="no number of pieces"):
        read_count("in stock", decimal=".", field="pack_size")


@pytest.mark.parametrize(
    ("cell", "unit", "days"),
    [
        ("3 weeks", "days", 21),
        ("2 Wo.", "days", 14),
        ("5 Tage", "weeks", 5),
        ("5-7 days", "days", 7),
        ("2 - 3", "weeks", 21),
        ("4", "", 4),
        (NUMBER + "14", "days", 14),
        ("10 Arbeitstage", "days", 14),
        ("1,5 Wochen", "days", 11),
        ("ca. 3 Wochen", "days", 21),
        ("sofort", "days", 0),
        ("-", "days", None),
    ],
)
def test_lead_times_are_days(cell: str, unit: str, days: int | None) -> None:
    """Of a range the longer; a cell's own unit goes before that of its column."""
    assert read_days(cell, decimal=",", unit=unit) == days


@pytest.mark.parametrize("cell", ["KW 32", "soon", "200 weeks", "1.5 weeks"])
def test_lead_times_that_cannot_be_read_are_refused(cell: str) -> None:
    """A week of the calendar is no length of time; four years are a slip."""
    with pytest.raises(InputError):
        read_days(cell, decimal=",")


@pytest.mark.parametrize("read", [read_number, read_count, read_money, length_text])
def test_a_date_is_told_with_what_may_have_been_typed(read: object) -> None:
    """3/8 of an inch became the eighth of March."""
    assert callable(read)
    with pytest.raises(
        InputError, match=r"turned what was typed into a date.* 3/8, 8/3.*format the column as text"
    ):
        read(DATE + "2026-03-08", decimal=".", field="size")


@pytest.mark.parametrize(
    ("cell", "unit", "decimal", "text", "nominal_mm"),
    [
        ("12,7", "mm", ",", "12,7 mm", "12.7"),
        ('1/2"', "", ".", '1/2"', "12.70"),
        (NUMBER + "12.7", "mm", ",", "12.7 mm", "12.7"),
        ("Ø 12.7", "mm", ".", "Ø 12.7 mm", "12.7"),
        ("12.7mm +/-0.1", "", ".", "12.7mm +/-0.1", "12.7"),
        ('0.139"', "mm", ".", '0.139"', "3.5306"),
        ("3/8 Zoll", "mm", ",", "3/8 in", "9.525"),
        ("0.5", "in", ".", "0.5 in", "12.70"),
        ("20 H7", "", ".", "20 H7", "20"),
        ("12,68..12,70", "mm", ",", "12,68..12,70 mm", "12.69"),
    ],
)
def test_a_length_keeps_its_own_unit_or_gets_that_of_its_column(
    cell: str, unit: str, decimal: str, text: str, nominal_mm: str
) -> None:
    """What comes back is read by the reader of drawings."""
    found = length_text(cell, unit=unit, decimal=decimal)
    assert found == text
    assert parse_dimension(found).nominal == Decimal(nominal_mm)


@pytest.mark.parametrize(
    ("cell", "unit", "decimal", "message"),
    [
        ("12.7", "", ".", "unit is missing: neither the cell nor the column"),
        ("1,234", "mm", ".", "1,234 is unclear"),
        ("12,7", "mm", ".", "12,7 is not written with the decimal point"),
        ("1.234,5", "mm", ",", "not written with the decimal comma"),
        ("3/8", "mm", ".", "a fraction stands in a column of mm"),
        ("25 x 3", "mm", ".", "cannot use 'x'"),
        (NUMBER + "1e300", "mm", ".", "no length"),
    ],
)
def test_lengths_that_may_mean_two_things_are_refused(
    cell: str, unit: str, decimal: str, message: str
) -> None:
    """No unit, no thousands and no decimal sign is guessed."""
    with pytest.raises(InputError, match=message):
        length_text(cell, unit=unit, decimal=decimal)


@pytest.mark.parametrize("cell", ["70", "70 ShA", "70 ±5 Shore A", "70°", NUMBER + "70"])
def test_a_hardness_is_its_nominal_number(cell: str) -> None:
    """With or without the name of its scale."""
    assert read_number(cell, decimal=",", field="hardness_shore_a") == 70


def test_another_scale_of_hardness_is_not_shore_a() -> None:
    """IRHD is near Shore A, and another scale."""
    with pytest.raises(InputError):
        read_number("70 IRHD", decimal=",", field="hardness_shore_a")


def test_zero_is_something() -> None:
    """0 pieces in stock is not an empty cell."""
    assert not is_nothing("0")


@given(
    st.decimals(min_value=0, max_value=10**8, places=2, allow_nan=False, allow_infinity=False),
    st.sampled_from([(".", ","), (".", "'"), (".", " "), (",", "."), (",", "\u202f"), (",", "’")]),
)
def test_a_price_written_with_any_signs_reads_back(price: Decimal, signs: tuple[str, str]) -> None:
    """Grouped by thousands with any gap and any decimal sign, the number is the same."""
    decimal, gap = signs
    text = f"{price:,.2f}".replace(",", "G").replace(".", decimal).replace("G", gap)
    assert read_money(text, decimal=decimal)[0] == price


@given(
    st.text(max_size=30) | st.text("0123456789.,'-+/ x±mMiIn€$ØH<>", max_size=20),
    st.sampled_from([".", ","]),
    st.sampled_from(["", NUMBER, DATE, FAULT]),
)
def test_any_text_is_read_or_refused_in_words(text: str, decimal: str, mark: str) -> None:
    """No cell ends in anything but a value or an InputError."""
    cell = mark + text
    for read in (
        lambda: read_money(cell, decimal=decimal),
        lambda: read_count(cell, decimal=decimal, field="stock"),
        lambda: read_days(cell, decimal=decimal),
        lambda: read_number(cell, decimal=decimal, field="price"),
        lambda: parse_dimension(length_text(cell, unit="mm", decimal=decimal), allow_zero=True),
    ):
        try:
            read()
        except InputError as error:
            assert str(error)
