"""The file of rows that were not taken: each as it was, with why and how to mend it.

It is a sheet itself: the header is that of the sheet it came from, with three columns of ours behind it that
the loader leaves out. Mend the rows, and load the file by itself for the same supplier.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from catalogue.sheets.cells import NUMBER, mark_of, plain
from catalogue.sheets.harmless import harmless
from catalogue.sheets.past_loads import KeptRejection
from catalogue.sheets.problems import Problem, Refused

OURS = ("borebook: row", "borebook: why not", "borebook: to do")


def rejected_text(header: Sequence[str], rows: Iterable[Refused], *, decimal: str) -> str:
    """The rows as a CSV text; cells that a spreadsheet would run as formulas are made harmless.

    A number of a workbook has no decimal sign of its own: it is written with that of the sheet.
    """
    return _text(
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


def kept_rejected_text(header: Sequence[str], rows: Iterable[KeptRejection]) -> str:
    """The same of rows that the catalogue keeps with their load."""
    return _text(
        header,
        (
            (f"{row.sheet} {row.row}".strip(), row.cells, [Problem(**one) for one in row.problems])
            for row in rows
        ),
    )


def _text(header: Sequence[str], rows: Iterable[tuple[str, list[str], Sequence[Problem]]]) -> str:
    file = io.StringIO(newline="")
    writer = csv.writer(file)
    writer.writerow(map(harmless, [*header, *OURS]))
    for where, cells, problems in rows:
        full = [*cells, *[""] * (len(header) - len(cells))][: len(header)]
        why = "; ".join(f"{one.column}: {one.reason}" if one.column else one.reason for one in problems)
        mend = "; ".join(dict.fromkeys(one.mend for one in problems if one.mend))
        writer.writerow(map(harmless, [*full, where, why, mend]))
    return file.getvalue()


def as_text(cell: str, decimal: str) -> str:
    """A cell as a text file of the same sheet would have it."""
    return plain(cell).replace(".", decimal) if mark_of(cell) == NUMBER else plain(cell)
