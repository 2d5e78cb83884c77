"""The door of reading: a file of any kind opened, its tables found, its rows ready to be streamed."""

from __future__ import annotations

from pathlib import Path
from typing import BinaryIO

from catalogue.sheets.delimited import TextSource, first_text
from catalogue.sheets.dialects import find_dialect
from catalogue.sheets.encodings import find_encoding
from catalogue.sheets.refusals import SheetFileError
from catalogue.sheets.tables import Batch, LeftOut, Table, find_tables, hold_any
from catalogue.sheets.unwrapping import Unwrapped, unwrap

__all__ = ["Batch", "LeftOut", "SheetFile", "SheetFileError", "Table", "open_sheet_file"]


class SheetFile:
    """One opened file. Close it, or use it in a ``with``.

    ``format`` is "text", "xlsx", "xlsb", "xls" or "ods"; ``encoding``, ``encoding_why`` and ``delimiter``
    are "" for workbooks. ``sha256`` and ``size`` are those of the bytes as given, packed or not.
    """

    def __init__(self, unwrapped: Unwrapped, *, encoding: str, delimiter: str) -> None:
        self._unwrapped = unwrapped
        self.name = unwrapped.name
        self.sha256 = unwrapped.sha256
        self.size = unwrapped.size
        self.format = unwrapped.format
        self.encoding = self.encoding_why = self.delimiter = ""
        if self.format == "text":
            self.tables = self._text_tables(encoding, delimiter)
        else:
            self.tables = self._workbook_tables()
        hold_any(self.tables, file=self.name)

    def _text_tables(self, encoding: str, delimiter: str) -> tuple[Table, ...]:
        file = self._unwrapped.file
        found = find_encoding(file, given=encoding, name=self.name)
        self.encoding, self.encoding_why = found.name, found.why
        dialect = find_dialect(first_text(file, found.name), given=delimiter, name=self.name)
        self.delimiter = dialect.delimiter
        file.seek(0, 2)
        source = TextSource(
            file,
            name=self.name,
            encoding=found.name,
            dialect=dialect,
            length=file.tell(),
            has_controls=found.has_controls,
        )
        return find_tables(source, sheet="", hidden=False)

    def _workbook_tables(self) -> tuple[Table, ...]:
        from catalogue.sheets.workbooks import open_workbook  # loads a library that text files do not need

        return tuple(
            table
            for sheet in open_workbook(self._unwrapped.file, format=self.format, name=self.name)
            for table in find_tables(sheet.source, sheet=sheet.name, hidden=sheet.hidden)
        )

    def close(self) -> None:
        """Close the file, unless it was given open."""
        if self._unwrapped.owned:
            self._unwrapped.file.close()

    def __enter__(self) -> SheetFile:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def open_sheet_file(
    path: Path | BinaryIO, *, name: str = "", encoding: str = "", delimiter: str = ""
) -> SheetFile:
    """Open a supplier's file of any kind; ``encoding`` and ``delimiter`` override what would be guessed.

    ``path`` may be an open binary file such as standard input. Raises SheetFileError, whose text says what
    is wrong, where and how to mend it.
    """
    unwrapped = unwrap(path, name=name)
    try:
        return SheetFile(unwrapped, encoding=encoding, delimiter=delimiter)
    except BaseException:
        if unwrapped.owned:
            unwrapped.file.close()
        raise
