"""Headers are found where they stand, and no row goes without a reason."""

from __future__ import annotations

import pytest

from tests.catalogue.sheets.opened import only_table, opened, whole

HEAD = "Code;Description;Size;Price\n"


def reasons(text: str) -> list[tuple[int, str]]:
    """Rows that were left out, and why."""
    return [(one.row, one.why) for one in whole(only_table(text)).left_out]


def test_a_header_below_titles() -> None:
    """Titles are told as such; the header keeps its row number."""
    table = only_table(
        "Northmoor Seals\nPrice list;Stand: 01.11.2026\n\n" + HEAD + "A1;ring;3;1,20\nA2;seal;4;2,40\n"
    )
    assert table.header == ("Code", "Description", "Size", "Price")
    assert table.header_row == 4
    read = whole(table)
    assert [row[0] for row in read.rows] == ["A1", "A2"]
    assert [(one.row, one.why) for one in read.left_out] == [(1, "title"), (2, "title")]


def test_a_second_header_row_of_units_is_joined() -> None:
    """The unit stands under its name and belongs to it."""
    table = only_table("Code;Inside;Cord;Price\n;mm;mm;EUR / 100\nA1;12;3;1,20\nA2;13;4;2,40\n")
    assert table.header == ("Code", "Inside mm", "Cord mm", "Price EUR / 100")
    assert whole(table).numbers == [3, 4]


def test_a_row_of_groups_above_double_names_is_joined() -> None:
    """Without the group the two columns would have the same name."""
    table = only_table("Code;Seal;Rod;Price\n;Width;Width;EUR\nA1;12;3;1,20\nA2;13;4;2,40\n")
    assert table.header == ("Code", "Seal Width", "Rod Width", "Price EUR")


def test_a_row_of_groups_with_other_names_below_is_joined() -> None:
    """Three cells or more directly above the header are no title."""
    header = "Order;Size;;Price;;Stock\ncode;inside;section;list;trade;pcs\n"
    table = only_table(header + "A1;12;3;1,2;1,1;5\nA2;13;4;2;1;6\n")
    assert table.header == ("Order code", "Size inside", "section", "Price list", "trade", "Stock pcs")


def test_a_first_row_of_data_with_a_text_for_its_price_is_data() -> None:
    """A price on request is no second header row."""
    table = only_table(HEAD + "A1;ring;3;auf Anfrage\nA2;seal;4;2,40\nA3;seal;5;2,60\n")
    assert whole(table).numbers == [2, 3, 4]


@pytest.mark.parametrize("text", ["A1;12;3;1,20\nA2;13;4;2,40\n", "1001;12;3;1,20\n1002;13;4;2,40\n"])
def test_without_a_header_no_row_is_taken_for_one(text: str) -> None:
    """The columns get numbers, and all rows are data."""
    table = only_table(text)
    assert (table.header_row, table.header) == (0, ("column 1", "column 2", "column 3", "column 4"))
    assert whole(table).numbers == [1, 2]


def test_a_header_of_one_column() -> None:
    """A list of codes alone is a table too."""
    table = only_table("Code\nA-1\nA-2\n")
    assert table.header == ("Code",)
    assert [row[0] for row in whole(table).rows] == ["A-1", "A-2"]


@pytest.mark.parametrize("rows", [5, 59, 60, 61, 200])
def test_codes_alone_without_a_header_are_all_data(rows: int) -> None:
    """Nothing stands above them, so none of them is a header or a title."""
    table = only_table("".join(f"AB-{at}\n" for at in range(rows)))
    assert table.header == ("column 1",)
    assert whole(table).numbers == list(range(1, rows + 1))


def test_a_header_in_words_nobody_knows() -> None:
    """Names without digits above codes with digits are enough."""
    table = only_table("Vervielia;Zenelo\nAB-1;ruber\nAB-2;molel\n")
    assert table.header == ("Vervielia", "Zenelo")


@pytest.mark.parametrize(
    ("row", "why"),
    [
        (HEAD.strip(), "repeated header"),
        ("NITRILE 70;;;", "heading"),
        (";O-Ringe metrisch;;", "heading"),
        ("Summe;;;123,40", "footer"),
        ("Total;;;123,40", "footer"),
        ("Gesamtsumme:;;;123,40", "footer"),
        ("Totale;;;9", "footer"),
        ("Page 3 of 7;;;", "footer"),
        ("Seite 3;;;", "footer"),
        ("All prices excl. VAT;;;", "footer"),
        ("Alle Preise zzgl. MwSt.;;;", "footer"),
        ("Stand: 01.11.2026;;;", "footer"),
    ],
)
def test_rows_that_are_no_data_are_told_with_their_reason(row: str, why: str) -> None:
    """Between the rows and after them."""
    rows = "".join(f"A{at};ring;{at};1,20\n" for at in range(20))
    assert reasons(HEAD + rows + row + "\n" + rows + row + "\n") == [(22, why), (43, why)]


@pytest.mark.parametrize(
    "row",
    [
        "A99;;;",
        "AB-12;ring;;",
        "Total seal kit;for 38 mm;3;1,20",
        "Total-Dichtsatz;;;12,00;",
        "SUM-12;;;3,40",
        ";ring;3;1,20",
        "Page seal 3;x;3;1",
        "12345;;;",
    ],
)
def test_in_doubt_a_row_is_data(row: str) -> None:
    """What could be an article is kept and judged later, with a reason."""
    rows = "".join(f"A{at};ring;{at};1,20\n" for at in range(20))
    read = whole(only_table(HEAD + rows + row + "\n"))
    assert read.left_out == []
    assert read.rows[-1] == row.split(";")[:4]


def test_every_row_is_somewhere() -> None:
    """Data, left out, blank and header make up all the lines of the file."""
    text = "Title\n\n" + HEAD + "A1;x;1;1\n\nNITRILE 70;;;\nA2;x;1;1\n" + HEAD + "A3;x;1;1\nSumme;;;3\n"
    table = only_table(text)
    read = whole(table)
    lines = [*read.numbers, *(one.row for one in read.left_out), table.header_row]
    assert sorted(lines) == [1, 3, 4, 6, 7, 8, 9, 10]
    assert read.blank == 1  # line 5; the one above the header belongs to no table


def test_a_second_table_below_the_first() -> None:
    """Blank rows and a header of other columns begin a table of its own."""
    first = HEAD + "A1;ring;3;1,20\nA2;ring;4;1,30\n"
    second = "Tools\nTool No;Name;Weight kg;Price\nT1;press;3;120\nT2;drift;4;130\n"
    one, two = opened(first + "\n\n" + second).tables
    assert (one.sheet, two.sheet) == ("", "#2")
    assert two.header == ("Tool No", "Name", "Weight kg", "Price")
    assert two.header_row == 7
    assert whole(one).numbers == [2, 3]
    assert whole(two).numbers == [8, 9]
    assert [(left.row, left.why) for left in whole(two).left_out] == [(6, "title")]


def test_the_same_header_after_a_blank_row_begins_no_table() -> None:
    """A page break repeats it."""
    page = HEAD + "A1;ring;3;1,20\nA2;ring;4;1,30\n\n"
    read = whole(only_table(page + page))
    assert read.numbers == [2, 3, 6, 7]
    assert [(one.row, one.why) for one in read.left_out] == [(5, "repeated header")]


def test_blank_rows_between_groups_begin_no_table() -> None:
    """Headings and groups of rows stay in their table."""
    group = "\n{};;;\nA1;ring;3;1,20\nA2;ring;4;1,30\n"
    read = whole(only_table(HEAD + group.format("NITRILE 70") + group.format("FKM 75 brown")))
    assert read.numbers == [4, 5, 8, 9]
    assert read.blank == 2


def test_a_header_alone_is_a_table_without_rows() -> None:
    """It is for the next stage to say that there is nothing to load."""
    table = only_table(HEAD)
    assert table.header == ("Code", "Description", "Size", "Price")
    assert (whole(table).rows, table.sample) == ([], ())


def test_the_sample_is_the_first_rows_of_data() -> None:
    """With their row numbers, padded, without headings."""
    table = only_table(HEAD + "NBR;;;\nA1;ring\nA2;ring;4;1,30\n")
    assert table.sample == ((3, ["A1", "ring", "", ""]), (4, ["A2", "ring", "4", "1,30"]))
