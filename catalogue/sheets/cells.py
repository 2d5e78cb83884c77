"""One cell of a sheet as a text, with a mark where the file says more than a text can.

A text file has texts only. A workbook has numbers (which have no decimal sign of their own), dates (often
what was left of a size such as 3/8) and faults. Their cells are texts too, with a mark in front that no
real cell has, since control signs are taken out as a file is read; so one column stays one list of texts.
"""

from __future__ import annotations

NUMBER = "\x01"  # a number of a workbook, written with a decimal point
DATE = "\x02"  # a date or time of a workbook, ISO 8601
FAULT = "\x03"  # a cell that holds an error (#N/A, #REF!) or a formula without a value
MARKS = (NUMBER, DATE, FAULT)
BETWEEN = "\x1f"  # unit separator: stands between cells where they are joined, and in none


def plain(cell: str) -> str:
    """The text of a cell as a person sees it, without its mark.

    >>> plain(NUMBER + "12.5"), plain("12,5")
    ('12.5', '12,5')
    """
    return cell[1:] if cell[:1] in MARKS else cell


def mark_of(cell: str) -> str:
    """The mark of a cell, "" where it is a text."""
    return cell[:1] if cell[:1] in MARKS else ""
