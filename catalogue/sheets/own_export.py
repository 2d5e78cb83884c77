"""How a sheet that borebook wrote itself is known again, and what a cell of a sheet can carry of a text.

The names of fields are its headers. Whoever has ``superseded_by`` for a header has it from here, so such a
sheet is read otherwise than a supplier's: its texts are taken as they stand, nothing is left out of its rows.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from catalogue.sheets.sheet_fields import fields

# Every export has these; a person may take other columns out of it, move them and add more of them.
ALWAYS = frozenset(("part_number", "kind", "description", "superseded_by", "notes"))
# Control signs and line ends, and the two code points that no XML may hold.
_NOT_CARRIED = re.compile("[ \t]*[\x00-\x1f\x7f\ufffe\uffff]+[ \t]*")
LONGEST_SHEET_NAME = 31  # of a workbook
_NO_SHEET_NAME = re.compile(r"[\[\]:*?/\\']")


def is_export(header: Sequence[str]) -> bool:
    """Whether this is the header of a sheet that borebook wrote.

    >>> is_export(["kind", "part_number", "description", "superseded_by", "notes"])
    True
    >>> is_export(["part_number", "kind", "description", "notes"])
    False
    """
    if not ALWAYS.issubset(header):
        return False
    known = fields()
    return all(name in known for name in header) and len(set(header)) == len(header)


def carried(text: str) -> str:
    """What comes back of a text that a sheet has carried: one line, no spaces around it.

    >>> carried(" first line\\n  second ")
    'first line second'
    """
    return _NOT_CARRIED.sub(" ", text).strip()


def sheet_name(supplier: str) -> str:
    """The name of a supplier's worksheet, in signs and length that a workbook allows.

    >>> sheet_name("Seals [North/South]")
    'Seals North South'
    """
    plain = " ".join(_NO_SHEET_NAME.sub(" ", supplier).split())
    return plain[:LONGEST_SHEET_NAME].strip() or "supplier"
