"""How cells are parted is told by the rows, not by the name of the file."""

from __future__ import annotations

import pytest

from catalogue.sheets.dialects import find_dialect
from catalogue.sheets.opening import SheetFileError
from tests.catalogue.sheets.opened import only_table, whole

ROWS = [["Code", "Text", "Price"], ["A-1", "ring, small", "1,20"], ["A-2", "seal, large", "12,90"]]


@pytest.mark.parametrize("delimiter", [";", "\t", "|"])
def test_a_decimal_comma_does_not_make_a_comma_file(delimiter: str) -> None:
    """Commas in every row, as many as columns, and still the other sign parts the cells."""
    text = "\n".join(delimiter.join(row) for row in ROWS)
    assert find_dialect(text).delimiter == delimiter


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [
        ('Code,Text,Price\nA-1,ring; small,1.20\nA-2,"seal, big",2.40\n', ","),
        ("Northmoor Seals, Leeds, England\nPrices, all net\n\nCode;Size;Price\nA;3;1,2\nB;4;2,4\n", ";"),
        ("Code;Price\nA;1,20\nB;2,40\nC;3,60\nall prices, net, without tax, ex works\n", ";"),
        ("Code;Size;Price\nA;3,5;1,20\nB;4,5;2,40\n", ";"),
        ("Code\nA-1\nA-2\n", ","),
        ("Code|Price\nA|1,20\n", "|"),
        ("a;b\n1,5;2,5\n", ";"),
    ],
    ids=["comma", "titles", "footer", "decimals", "one column", "pipe", "two columns"],
)
def test_the_delimiter_gives_row_after_row_the_same_number_of_cells(text: str, delimiter: str) -> None:
    """Titles and footers do not count against it."""
    assert find_dialect(text).delimiter == delimiter


def test_a_told_delimiter_overrides() -> None:
    """What the person says is taken, also written as backslash t."""
    assert only_table("a;b\tc\n1;2\t3\n", delimiter="\\t").header == ("a;b", "c")


@pytest.mark.parametrize("delimiter", ["ab", '"', "x", "\n"])
def test_a_delimiter_that_cannot_be_one_is_refused(delimiter: str) -> None:
    """The message shows one that works."""
    with pytest.raises(SheetFileError, match=r"cells cannot be parted by .*give a single sign such as ;"):
        only_table("a;b\n1;2\n", delimiter=delimiter)


def test_the_line_sep_tells_the_delimiter_and_is_no_row() -> None:
    """Row numbers count it all the same, as an editor does."""
    table = only_table("sep=;\r\nCode;Price\r\nA;1,20\r\n")
    assert (table.header, table.header_row) == (("Code", "Price"), 2)
    assert whole(table).numbers == [3]


def test_cells_between_single_quotes() -> None:
    """Single quotes are taken for quotes only where they stand around cells again and again."""
    table = only_table("'Code';'Text'\n'A';'x; y'\n'B';'z'\n")
    assert whole(table).rows == [["A", "x; y"], ["B", "z"]]


def test_a_sign_of_feet_or_minutes_is_no_quote() -> None:
    """A lone ' in a text stays what it is."""
    assert whole(only_table("Code;Text\nA;5' hose\nB;6' hose\n")).rows == [["A", "5' hose"], ["B", "6' hose"]]
