"""What stands in the parts of an .xlsx file that the reader of workbooks does not tell.

The reader (calamine) makes a grid from the first to the last filled cell before it gives a single row, so
one stray cell at XFD1048576 would ask for half a terabyte; it gives an error cell and a formula without a
value as nothing at all; and it does not know that ``000000`` shows 42 as 000042. So every worksheet part is
walked through once, by quick searches in its bytes, and read closely only where these find something.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from typing import NamedTuple

from catalogue.sheets import limits
from catalogue.sheets.refusals import SheetFileError

BLOCK = 1 << 20
_REFERENCE_LENGTH = 24  # bytes of <c r="XFD1048576" and a little
_OVERLAP = 64  # bytes carried over to the next block, so that no sign is cut in two
_UNUSUAL = re.compile(rb'<c(?=[\s>/])(?! r="[A-Z]{1,3}\d)')  # a cell not written as all programs do
_TWO_LETTERS = re.compile(rb' r="[A-Z]{2}')
_THREE_LETTERS = re.compile(rb' r="[A-Z]{3}')
_REFERENCE = re.compile(rb'r="[A-Za-z]*(\d+)"')
_PLACE = re.compile(rb'\br="([A-Za-z]+)(\d+)"')
_STYLE = re.compile(rb'\bs="(\d+)"')
_VALUE = re.compile(rb"<v>([^<]+)</v>")
_FORMULA = re.compile(rb"<f\b[^>]*>([^<]*)")
_SHEET = re.compile(rb"<(?:\w+:)?sheet\b([^>]*)>")
_ATTRIBUTE = re.compile(rb'([\w:]+)\s*=\s*"([^"]*)"')
_ONE_LETTER, _TWO = 26, 702  # columns up to Z, up to ZZ
WAYS_OF_XML = (b"<!DOCTYPE", b"<!ENTITY")


class Walk(NamedTuple):
    """What the quick searches tell of one worksheet part."""

    last_row: int  # of the last reference; 0 where that is not sure
    columns: int  # none stands beyond this one
    faults: bool  # error cells or formulas may be there


class Details(NamedTuple):
    """Cells that need more than their value, by row from 1 and column from 0."""

    faults: dict[tuple[int, int], str]  # "#N/A", or the formula that has no value
    zeros: dict[tuple[int, int], int]  # how many digits a number shows


class Parts:
    """The worksheet parts of an .xlsx file, by the names of their sheets."""

    def __init__(self, archive: zipfile.ZipFile, name: str) -> None:
        self._archive = archive
        self._name = name
        self._paths = self._sheet_paths()
        self._zero_styles = self._find_zero_styles()

    @property
    def sheets(self) -> tuple[str, ...]:
        """The names of the sheets whose parts were found."""
        return tuple(self._paths)

    def walk(self, sheet: str) -> Walk:
        """Look through one sheet. Raises SheetFileError."""
        path = self._paths[sheet]
        last_row, columns, faults, is_usual = 0, _ONE_LETTER, False, True
        tail = b""
        for block in self._blocks(path):
            window = tail + block
            if columns == _ONE_LETTER and _TWO_LETTERS.search(window):
                columns = _TWO
            if columns == _TWO and _THREE_LETTERS.search(window):
                columns = limits.MOST_COLUMNS
            is_usual = is_usual and b":c" not in window and not _is_unusual(window)
            faults = faults or b't="e"' in window or b"<f" in window
            at = window.rfind(b'<c r="', 0, -_REFERENCE_LENGTH)
            if at >= 0 and (found := _REFERENCE.match(window, at + 3)):
                last_row = max(last_row, int(found[1]))
            tail = window[-_OVERLAP:]
        return Walk(last_row if is_usual else 0, columns, faults)

    def check_others(self) -> bool:
        """Read the shared texts through, for their true size and entities; whether all sheets were seen."""
        for _ in self._blocks("xl/sharedStrings.xml") if self._has("xl/sharedStrings.xml") else ():
            pass
        seen = set(self._paths.values())
        return all(
            path in seen for path in self._archive.namelist() if path.startswith("xl/worksheets/sheet")
        )

    def _has(self, path: str) -> bool:
        return path in self._archive.namelist()

    def details(self, sheet: str, walk: Walk) -> Details:
        """Error cells, formulas without a value, and numbers that show leading zeros."""
        found = Details({}, {})
        if not (walk.faults or self._zero_styles):
            return found
        path = self._paths[sheet]
        tail = b""
        for block in self._blocks(path):
            window = tail + block
            cut = window.rfind(b"</row>") + 6
            if cut < 6:
                if len(window) > 16 * BLOCK:
                    return found
                tail = window
                continue
            self._note(window[:cut], found)
            tail = window[cut:]
        self._note(tail, found)
        return found

    def _note(self, text: bytes, found: Details) -> None:
        # Cells with content end in </c>; an empty one before it ends in />, so the last <c is the one meant.
        for piece in text.split(b"</c>")[:-1]:
            head, _, body = piece[piece.rfind(b"<c ") :].partition(b">")
            place = _PLACE.search(head)
            if place is None:
                continue
            style = _STYLE.search(head)
            value = _VALUE.search(body)
            where = (int(place[2]), column_number(place[1].decode()))
            if b't="e"' in head:
                found.faults[where] = _told(value[1]) if value else "#ERROR"
            elif value is None and b't="str"' not in head and (formula := _FORMULA.search(body)):
                found.faults[where] = f"={_told(formula[1])[:60]}"
            elif style and value and (zeros := self._zero_styles.get(int(style[1]))):
                found.zeros[where] = zeros

    def _blocks(self, path: str) -> Iterator[bytes]:
        with self._archive.open(path) as part:
            first = True
            while block := part.read(BLOCK):
                if first and any(sign in block for sign in WAYS_OF_XML):
                    raise SheetFileError(
                        "the workbook defines entities of its own, which no honest one does",
                        "ask the supplier for another file",
                        file=self._name,
                    )
                first = False
                yield block

    def _small(self, path: str) -> bytes:
        """A small part, whole. Workbooks without it are read without what it tells."""
        try:
            return b"".join(self._blocks(path))
        except KeyError:
            return b""

    def _sheet_paths(self) -> dict[str, str]:
        targets = {}
        for tag in re.findall(rb"<Relationship\b([^>]*)>", self._small("xl/_rels/workbook.xml.rels")):
            told = dict(_ATTRIBUTE.findall(tag))
            target = told.get(b"Target", b"").decode("utf-8", "replace")
            targets[told.get(b"Id", b"")] = (
                target.lstrip("/") if target.startswith("/") else "xl/" + target.removeprefix("./")
            )
        names = set(self._archive.namelist())
        found = {}
        for tag in _SHEET.findall(self._small("xl/workbook.xml")):
            told = dict(_ATTRIBUTE.findall(tag))
            identity = next((value for key, value in told.items() if key.endswith(b":id")), b"")
            if (path := targets.get(identity, "")) in names:
                found[_told(told.get(b"name", b""))] = path
        return found

    def _find_zero_styles(self) -> dict[int, int]:
        """Styles whose number format is made of zeros only, and how many."""
        styles = self._small("xl/styles.xml")
        formats = {}
        for tag in re.findall(rb"<numFmt\b([^>]*)>", styles):
            told = dict(_ATTRIBUTE.findall(tag))
            code = told.get(b"formatCode", b"")
            if re.fullmatch(rb"0{2,}", code):
                formats[told.get(b"numFmtId", b"")] = len(code)
        if not formats:
            return {}
        cells = re.search(rb"<cellXfs\b.*?</cellXfs>", styles, re.DOTALL)
        tags = re.findall(rb"<xf\b([^>]*)>", cells[0]) if cells else []
        found = {}
        for at, tag in enumerate(tags):
            if zeros := formats.get(dict(_ATTRIBUTE.findall(tag)).get(b"numFmtId", b"")):
                found[at] = zeros
        return found


def _is_unusual(window: bytes) -> bool:
    """Whether a cell is not written in the usual way; one cut by the window's end is seen in the next."""
    found = _UNUSUAL.search(window)
    return found is not None and found.start() < len(window) - _REFERENCE_LENGTH


def is_sure(walk: Walk) -> bool:
    """Whether the grid of a sheet is certainly small enough to be made."""
    return 0 < walk.last_row * walk.columns <= limits.MOST_CELLS


def column_number(letters: str) -> int:
    """The number of a column, from 0.

    >>> column_number("A"), column_number("AA"), column_number("XFD")
    (0, 26, 16383)
    """
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number - 1


def _told(raw: bytes) -> str:
    return _unescaped(raw.decode("utf-8", "replace"))


def _unescaped(text: str) -> str:
    for sign, means in (("&lt;", "<"), ("&gt;", ">"), ("&quot;", '"'), ("&apos;", "'"), ("&amp;", "&")):
        text = text.replace(sign, means)
    return text
