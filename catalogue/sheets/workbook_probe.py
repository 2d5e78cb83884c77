"""Try a workbook in a process of its own, with little memory, before it is read in this one.

The reader of workbooks ends the whole process when a file asks for more memory than there is; no exception
can be caught. So what might do that is tried apart first: files of kinds whose parts we do not look into
(xls, xlsb, ods), and .xlsx sheets that are very large or not written in the usual way.
"""

from __future__ import annotations

import os
import subprocess
import sys
from typing import BinaryIO

from catalogue.sheets import limits
from catalogue.sheets.refusals import SheetFileError

_CODE = """
import io, sys
try:
    import resource
    limit = int(sys.argv[1])
    resource.setrlimit(resource.RLIMIT_AS, (limit, limit))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
except (ImportError, ValueError, OSError):
    pass
from python_calamine import CalamineError, CalamineWorkbook
try:
    book = CalamineWorkbook.from_filelike(io.BytesIO(sys.stdin.buffer.read()))
    for at in range(len(book.sheet_names)):
        sheet = book.get_sheet_by_index(at)
        if sheet.end and (sheet.end[0] + 1) * (sheet.end[1] + 1) > int(sys.argv[2]):
            sys.exit(3)
except CalamineError:
    pass  # told properly when the file is read in earnest
"""


def probe(file: BinaryIO, *, name: str) -> None:
    """Raises SheetFileError where the workbook asks for more memory or time than an honest one."""
    file.seek(0)
    content = file.read()
    try:
        done = subprocess.run(  # noqa: S603 - our own interpreter and our own words
            [sys.executable, "-I", "-c", _CODE, str(limits.PROBE_BYTES), str(limits.MOST_CELLS)],
            input=content,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=limits.PROBE_SECONDS,
            env={**os.environ, "RUST_BACKTRACE": "0"},
            check=False,
        )
        fits = done.returncode == 0
    except subprocess.TimeoutExpired:
        fits = False
    if not fits:
        raise SheetFileError(
            f"a worksheet spans more than {limits.MOST_CELLS:,} cells, or asks for more memory or time than "
            "any honest one; often a single cell stands far outside the table",
            "delete the rows and columns outside the table (Ctrl+End goes to the last cell) and save it, or "
            "save the sheet as CSV",
            file=name,
        )
