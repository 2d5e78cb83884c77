"""Reads a workshop's own table of housings from a CSV file (its shape: ``schema.housing_tables``).

The file is the one that is named, else that in BOREBOOK_HOUSINGS, else ``housings.csv`` beside the catalogue.
"""

from __future__ import annotations

import csv
import os
from pathlib import Path
from typing import TYPE_CHECKING

from schema.errors import InputError

if TYPE_CHECKING:
    from schema.housing_tables import HousingRow
    from schema.reference import Reference

VARIABLE = "BOREBOOK_HOUSINGS"
FILE_NAME = "housings.csv"
LARGEST_BYTES = 5_000_000  # a table of housings has some hundred rows


def housings_file(named: str | Path | None, catalogue: Path | None) -> Path | None:
    """Where the workshop's table is; None where there is none. A file that is named must exist."""
    wanted = str(named or os.environ.get(VARIABLE, "")).strip()
    if wanted:
        path = Path(wanted)
        if not path.is_file():
            raise InputError(
                field="housings",
                given=wanted,
                problem="there is no such file",
                allowed=f"a CSV file, by option, by {VARIABLE}, or {FILE_NAME} beside the catalogue",
            )
        return path
    beside = catalogue.parent / FILE_NAME if catalogue is not None else None
    return beside if beside is not None and beside.is_file() else None


def read_housings(path: Path) -> tuple[HousingRow, ...]:
    """The rows of a workshop's table; raises InputErrors that lists every bad cell with line and column."""
    from schema.housing_tables import housing_rows

    if path.stat().st_size > LARGEST_BYTES:
        problem = f"is larger than {LARGEST_BYTES // 1_000_000} MB, which no table of housings is"
        raise InputError(field="housings", given=path.name, problem=problem)
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            field="housings",
            given=path.name,
            problem=f"is not UTF-8 text (byte {error.start + 1})",
            allowed="CSV, UTF-8, comma, decimal point",
        ) from error
    lines = [
        (number, line) for number, line in enumerate(text.splitlines(), 1) if line.strip() and line[0] != "#"
    ]
    if not lines:
        raise InputError(field="housings", given=path.name, problem="has no header row")
    cells = [next(csv.reader([line])) for _, line in lines]
    header = [one.strip() for one in cells[0]]
    uneven = [
        InputError(
            field=f"{path.name}, line {number}",
            given="",
            problem=f"has {len(row)} cells where the header has {len(header)}",
            allowed="a comma for each empty cell; text with a comma in double quotes",
        )
        for (number, _), row in zip(lines[1:], cells[1:], strict=True)
        if len(row) != len(header)
    ]
    if uneven:
        from schema.errors import InputErrors

        raise InputErrors(uneven)
    rows = [
        (number, dict(zip(header, row, strict=True)))
        for (number, _), row in zip(lines[1:], cells[1:], strict=True)
    ]
    return housing_rows(rows, header, name=path.name)


def with_housings(
    reference: Reference, named: str | Path | None = None, *, catalogue: Path | None = None
) -> Reference:
    """The reference with the workshop's housings in it, where there are any."""
    path = housings_file(named, catalogue)
    return reference if path is None else reference._replace(housings=read_housings(path))
