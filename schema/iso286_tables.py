"""The four printed tables of ISO 286-1 limits and fits, read from ``published`` when first asked for.

Only the file a question needs is opened, once per process, and every cell becomes an exact Decimal:
several printed values are half micrometres, and a size decides its step by comparison without rounding.
Sources, editions and disagreements stand in ``published/iso286.md``.
"""

from __future__ import annotations

import csv
from decimal import Decimal, InvalidOperation
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from schema.errors import TableError

TOLERANCE_GRADES: Final = "iso286_tolerance_grades.csv"
SHAFT_DEVIATIONS: Final = "iso286_shaft_deviations.csv"
HOLE_DEVIATIONS: Final = "iso286_hole_deviations.csv"
DELTA: Final = "iso286_delta.csv"

LARGEST_SIZE_MM: Final = Decimal(500)
"""Upper end of the last step of every table here."""

_FOLDER: Final = Path(__file__).with_name("published")
_STEP_COLUMNS: Final = ("over_mm", "up_to_and_including_mm")
_TEXT_COLUMNS: Final = frozenset({"source", "locator"})


class Step(NamedTuple):
    """One row: the sizes it serves and its values in µm; a column the page leaves blank is absent."""

    over_mm: Decimal
    up_to_and_including_mm: Decimal
    values_um: dict[str, Decimal]


def _number(text: str, *, file: str, line: int, column: str) -> Decimal:
    try:
        number = Decimal(text)
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite():
        raise TableError(f"{file}: line {line}, column {column}: {text!r} is not a number")
    return number


@cache
def steps(file: str) -> tuple[Step, ...]:
    """All rows of a table in order of size.

    >>> len(steps(TOLERANCE_GRADES)), len(steps(SHAFT_DEVIATIONS))
    (13, 25)
    """
    path = _FOLDER / file
    try:
        with path.open(encoding="utf-8", newline="") as stream:
            header, *rows = csv.reader(stream)
    except (OSError, ValueError, csv.Error) as error:
        raise TableError(f"{file}: cannot be read ({error}); install the program again") from error
    found: list[Step] = []
    for line, row in enumerate(rows, start=2):
        if len(row) != len(header):
            raise TableError(f"{file}: line {line}: {len(row)} columns instead of {len(header)}")
        cells = {
            column: _number(text, file=file, line=line, column=column)
            for column, text in zip(header, row, strict=True)
            if text and column not in _TEXT_COLUMNS
        }
        if not cells.keys() >= set(_STEP_COLUMNS):
            raise TableError(f"{file}: line {line}: the step needs the columns {' and '.join(_STEP_COLUMNS)}")
        over, up_to = (cells.pop(column) for column in _STEP_COLUMNS)
        if over != (found[-1].up_to_and_including_mm if found else 0) or up_to <= over:
            raise TableError(f"{file}: line {line}: the step does not follow the row above")
        found.append(Step(over, up_to, cells))
    if not found or found[-1].up_to_and_including_mm != LARGEST_SIZE_MM:
        raise TableError(f"{file}: the rows do not end at {LARGEST_SIZE_MM} mm")
    return tuple(found)


def value_um(file: str, column: str, size_mm: Decimal) -> Decimal | None:
    """Value of a column at a size over 0 up to and including 500 mm; None where the page prints a dash.

    A step is "over ... up to and including ...", so 30 mm still belongs to the step that ends at 30.

    >>> [value_um(TOLERANCE_GRADES, "IT7_um", size) for size in (Decimal(30), Decimal("30.001"))]
    [Decimal('21'), Decimal('25')]
    """
    for step in steps(file):
        if step.over_mm < size_mm <= step.up_to_and_including_mm:
            return step.values_um.get(column)
    raise TableError(f"{file}: no step for {size_mm} mm")


def sizes_covered(file: str, column: str) -> str:
    """The sizes a column has values for, in words, or "" for a column that is empty or not there.

    >>> sizes_covered(SHAFT_DEVIATIONS, "t_lower_um")
    'over 24 up to and including 500 mm'
    """
    having = [step for step in steps(file) if column in step.values_um]
    if not having:
        return ""
    return f"over {having[0].over_mm} up to and including {having[-1].up_to_and_including_mm} mm"
