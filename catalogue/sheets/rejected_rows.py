"""The file of rows that were not taken: each as it was, with why and how to mend it.

It is a sheet itself: the header is that of the sheet it came from, with three columns of ours behind it that
the loader leaves out. Mend the rows, and load the file by itself for the same supplier; of what is still not
taken comes such a file again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from catalogue.sheets.cells import NUMBER, mark_of, plain
from catalogue.sheets.named_files import NamedTable
from catalogue.sheets.past_loads import KeptRejection
from catalogue.sheets.problems import Problem, Refused

OURS = ("borebook: row", "borebook: why not", "borebook: to do")


def rejected_table(sheet: str, header: Sequence[str], rows: Iterable[Refused], *, decimal: str) -> NamedTable:
    """The rows of one table that were not taken, to be written.

    A number of a workbook has no decimal sign of its own: it is written with that of the sheet.
    """
    return _table(
        sheet,
        header,
        (
            (
                f"{row.sheet} {row.number}".strip(),
                [as_text(cell, decimal) for cell in row.cells],
                row.problems,
            )
            for row in rows
        ),
    )


def kept_rejected_table(sheet: str, header: Sequence[str], rows: Iterable[KeptRejection]) -> NamedTable:
    """The same of rows that the catalogue keeps with their load."""
    return _table(
        sheet,
        header,
        (
            (f"{row.sheet} {row.row}".strip(), row.cells, [Problem(**one) for one in row.problems])
            for row in rows
        ),
    )


def _table(
    sheet: str, header: Sequence[str], rows: Iterable[tuple[str, list[str], Sequence[Problem]]]
) -> NamedTable:
    # a file of rejected rows that is loaded in turn has our columns already, told of the first time
    own = [at for at, name in enumerate(header) if name not in OURS]

    def written() -> Iterator[list[str]]:
        for where, cells, problems in rows:
            full = [*cells, *[""] * (len(header) - len(cells))]
            why = "; ".join(f"{one.column}: {one.reason}" if one.column else one.reason for one in problems)
            mend = "; ".join(dict.fromkeys(one.mend for one in problems if one.mend))
            yield [*(full[at] for at in own), where, why, mend]

    return NamedTable(sheet or "rejected", [*(header[at] for at in own), *OURS], written())


def as_text(cell: str, decimal: str) -> str:
    """A cell as a text file of the same sheet would have it."""
    return plain(cell).replace(".", decimal) if mark_of(cell) == NUMBER else plain(cell)
