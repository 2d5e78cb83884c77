"""Rows of a text file: what a cell says, the line it stands in, and nothing swallowed."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.sheets.opening import SheetFileError, open_sheet_file
from tests.catalogue.sheets.opened import only_table, opened, whole


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_quotes_and_line_ends_inside_cells(end: str) -> None:
    """A doubled quote is one, a line end becomes a space, and rows are numbered by the line they start at."""
    text = end.join(
        ["Code;Text;Price", 'A;"3/8"" ring";1,20', f'B;"first{end}second";2,40', "", "C;x;3,60", ""]
    )
    read = whole(only_table(text))
    assert read.rows == [["A", '3/8" ring', "1,20"], ["B", "first second", "2,40"], ["C", "x", "3,60"]]
    assert read.numbers == [2, 3, 6]
    assert read.blank == 1


@pytest.mark.parametrize(
    "row",
    [" A ;x;1", "A; x ;1", "A;x;1 ", "\xa0A;x\xa0;1", "A\t;\tx;1", '" A";"x ";1', "A ;x;1\r", 'A;x; "1"'],
)
def test_outer_spaces_go(row: str) -> None:
    """Also spaces that do not break, tabs and spaces inside quotes; in the first rows or the last."""
    for rows in (1, 3000):
        text = "Code;Text;Price\n" + "B;y;2\n" * rows + row
        assert whole(only_table(text)).rows[-1] == ["A", "x", "1"]


def test_control_signs_become_spaces() -> None:
    """No cell of a text file can begin with the mark of a workbook's cell; an old end sign goes too."""
    text = "Code;Text;Price\n\x01A;x\x0by;1\nB;\x02z;2\n\x1a"
    assert whole(only_table(text)).rows == [["A", "x y", "1"], ["B", "z", "2"]]


def test_short_rows_are_padded_and_only_empty_cells_cut() -> None:
    """A row that says more than the header is kept as it is, to be told to the person."""
    text = "Code;Text;Price\nA;x\nB;y;1;;\nC;z;1;20\n"
    assert whole(only_table(text)).rows == [["A", "x", ""], ["B", "y", "1"], ["C", "z", "1", "20"]]


CELLS = st.text(st.sampled_from('ab1 ,;"ö'), max_size=6).map(str.strip)


@given(
    st.lists(st.lists(CELLS, min_size=3, max_size=3), min_size=1, max_size=30),
    st.sampled_from(["\n", "\r\n"]),
)
def test_what_a_csv_writer_writes_is_read_back(cells: list[list[str]], end: str) -> None:
    """Every row that is no blank one and no row of note comes back, cell by cell, in order."""
    rows = [[f"K{at}", *row] for at, row in enumerate(cells)]
    out = io.StringIO()
    csv.writer(out, lineterminator=end).writerows([["Code", "Text", "Size", "Note"], *rows])
    table = only_table(out.getvalue(), delimiter=",")
    read = whole(table, 7)
    told = {row: list(cells) for row, _, cells in read.left_out}
    assert sorted([*zip(read.numbers, read.rows, strict=True), *told.items()]) == list(enumerate(rows, 2))


@pytest.mark.parametrize("rows", [1, 2, 3, 1000])
def test_batches_may_be_read_again_and_two_at_a_time(rows: int) -> None:
    """Each reader keeps its own place in the file, whatever the size of its batches."""
    table = only_table("Code;Text;Price\n" + "".join(f"A{at};x;{at}\n" for at in range(50)))
    first, second = table.batches(rows), table.batches(7)
    seen = [[row[2] for row in next(first).rows], [row[2] for row in next(second).rows]]
    for batch in first:
        seen[0] += [row[2] for row in batch.rows]
    for batch in second:
        seen[1] += [row[2] for row in batch.rows]
    assert seen == [[str(at) for at in range(50)]] * 2


def test_done_grows_to_one() -> None:
    """The share of the file read never goes back, and ends at the whole."""
    table = only_table("Code;Text;Price\n" + "".join(f"A{at};x;{at}\n" for at in range(200_000)))
    done = [batch.done for batch in table.batches(5_000)]
    assert done == sorted(done)
    assert done[0] < 0.5
    assert done[-1] == 1.0


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ('Code;Text;Price\nA;x;1\nB;"y;2\nC;z;3\n', 3),
        ('Code;Text;Price\nA;x;1\nB;"y;2', 3),
        ('Code;Text;Price\nA;x;1\nB;"y;2\n' + "C;z;3\n" * 50_000, 3),
    ],
)
def test_a_quote_that_is_never_closed_is_told_with_its_line(text: str, row: int) -> None:
    """At the end of the file or long before it: nothing is swallowed, the opening line is named."""
    with pytest.raises(SheetFileError, match=f"row {row}: a quote .* opens in this row and is never"):
        whole(opened(text).tables[0])


def test_a_quote_closed_by_a_later_row_does_not_swallow_rows() -> None:
    """Two inch signs, three rows apart, would make one cell of all between."""
    text = 'Code;Text;Price\nA;x;1\nB;"y;2\nC;z;3\nD;w";4\nE;v;5\n'
    with pytest.raises(SheetFileError, match=r"row 3: a quote .* closes only in a later row"):
        whole(opened(text).tables[0])


def test_standard_input_is_read_though_it_cannot_seek() -> None:
    """A pipe is copied; its name in messages is the one that was told."""

    class Pipe(io.BytesIO):
        def seekable(self) -> bool:
            return False

        def seek(self, *_: int) -> int:
            raise OSError("a pipe does not seek")

    with open_sheet_file(Pipe(b"Code;Price\nA;1\n")) as file:
        assert file.name == "-"
        assert whole(file.tables[0]).rows == [["A", "1"]]
