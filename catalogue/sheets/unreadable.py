"""Cells that hold nothing, or what no reader may use: a date that was typed as something else, a fault."""

from __future__ import annotations

from datetime import date

from catalogue.sheets.cell_words import NOTHING
from catalogue.sheets.cells import DATE, FAULT, mark_of, plain
from schema.errors import InputError


def is_nothing(cell: str) -> bool:
    """Whether a cell says that there is no value: empty, a dash, n/a, k. A.

    >>> is_nothing(" - "), is_nothing("0")
    (True, False)
    """
    return mark_of(cell) != FAULT and plain(cell).strip().lower() in NOTHING


def refuse_date(cell: str, *, field: str) -> InputError:
    """The refusal of a DATE cell: what it became, what may have been typed, how to mend the sheet."""
    shown = plain(cell)
    typed = _may_have_been(shown)
    guess = f"; typed may have been {', '.join(typed)}" if typed else ""
    return InputError(
        field=field,
        given=shown,
        problem=f"the spreadsheet turned what was typed into a date{guess}",
        allowed="format the column as text, then type it again",
    )


def refuse_marked(cell: str, *, field: str) -> None:
    """Raise InputError for a date and for a fault of the spreadsheet; any other cell may be read."""
    mark = mark_of(cell)
    if mark == DATE:
        raise refuse_date(cell, field=field)
    if mark == FAULT:
        raise InputError(
            field=field,
            given=plain(cell),
            problem="this cell holds a fault of the spreadsheet, or a formula without its value",
            allowed="type the value itself into the cell",
        )


def _may_have_been(shown: str) -> tuple[str, ...]:
    """The texts that a spreadsheet makes this date of: a fraction, a range, a month with a year or a day."""
    try:
        day = date.fromisoformat(shown[:10])
    except ValueError:
        return ()
    found = [f"{day.month}/{day.day}", f"{day.day}/{day.month}", f"{day.month}-{day.day}"]
    if day.day == 1:  # 1-26 becomes the first of January 2026
        found += [f"{day.month}-{day.year % 100:02d}", f"{day.month}/{day.year % 100:02d}"]
    found.append(f"{day.day}.{day.month}")
    return tuple(dict.fromkeys(found))
