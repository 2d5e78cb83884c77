"""What a file is, told by its bytes and never by its name; only a lock file is known by both."""

from __future__ import annotations

import re
from typing import BinaryIO

from catalogue.sheets.refusals import SheetFileError

HEAD = 4096  # bytes that tell most kinds
LARGEST_LOCK = 4096  # bytes; a lock file holds the name of who has the sheet open
OLE = bytes.fromhex("d0cf11e0a1b11ae1")  # the container of the older office programs

SAVE_AS = "open it and save it as CSV or as a workbook (.xlsx), then load that"
_ASK = "ask the supplier for the list as CSV or as a workbook"
_UNPACK = "unpack it and load the file inside"

# First bytes, what it is, what to do.
_OTHERS: tuple[tuple[bytes, str, str], ...] = (
    (b"%PDF", "a PDF document", _ASK),
    (b"\x89PNG", "a picture (PNG)", _ASK),
    (b"\xff\xd8\xff", "a picture (JPEG)", _ASK),
    (b"GIF8", "a picture (GIF)", _ASK),
    (b"II*\x00", "a picture (TIFF)", _ASK),
    (b"MM\x00*", "a picture (TIFF)", _ASK),
    (b"SQLite format 3\x00", "a SQLite database", "export the table as CSV and load that"),
    (b"{\\rtf", "a text document (RTF)", SAVE_AS),
    (b"Rar!", "a RAR archive", _UNPACK),
    (b"7z\xbc\xaf", "a 7z archive", _UNPACK),
    (b"BZh", "packed with bzip2", _UNPACK),
    (b"\xfd7zXZ", "packed with xz", _UNPACK),
    (b"\x28\xb5\x2f\xfd", "packed with zstd", _UNPACK),
    (b"MZ\x90", "a program", _ASK),
    (b"\x7fELF", "a program", _ASK),
)
_HTML = re.compile(rb"<(!doctype html|html|head|meta|body|table|style|script|div)\b", re.I)
_XML_SPREADSHEET = re.compile(rb"urn:schemas-microsoft-com:office:spreadsheet|mso-application", re.I)
_HTML_ACTION = (
    "open it in a spreadsheet program, save it as a workbook (.xlsx) or CSV and load that; "
    "or look for another download in the shop"
)


def kind_of(file: BinaryIO, *, name: str) -> str:
    """ "gzip", "zip", "xls" or "text". Raises SheetFileError for what is known to be no sheet."""
    file.seek(0)
    head = file.read(HEAD)
    for start, what, action in _OTHERS:
        if head.startswith(start):
            raise SheetFileError(f"this is no sheet but {what}", action, file=name)
    if head.startswith(b"\x1f\x8b"):
        return "gzip"
    if head.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return "zip"
    if head.startswith(OLE):
        return _kind_of_ole(file, name)
    _refuse_markup(head, name)
    return "text"


def refuse_lock(name: str, size: int) -> None:
    """Refuse the small file that a spreadsheet program lays beside a sheet while it is open there.

    Raises SheetFileError.
    """
    own = re.split(r"[/\\]", name)[-1]
    if size > LARGEST_LOCK:
        return
    if own.startswith("~$"):
        sheet = f"the file without the ~$ before its name ({own[2:]})"
    elif own.startswith(".~lock.") and own.endswith("#"):
        sheet = own[len(".~lock.") : -1]
    else:
        return
    raise SheetFileError(
        "this is a lock file: the sheet beside it is open in a spreadsheet program",
        f"save and close the sheet there, then load {sheet}",
        file=name,
    )


def _refuse_markup(head: bytes, name: str) -> None:
    """Web pages and XML saved under the name of a workbook."""
    bare = head.replace(b"\x00", b"").lstrip(b"\xff\xfe\xef\xbb\xbf \t\r\n")
    if not bare.startswith(b"<"):
        return
    if _XML_SPREADSHEET.search(bare) and bare.startswith(b"<?xml"):
        raise SheetFileError("this is a workbook in an old XML form", SAVE_AS, file=name)
    if _HTML.match(bare) or (bare.startswith((b"<?xml", b"<!--")) and _HTML.search(bare)):
        said = "this is a web page (HTML)"
        if name.lower().endswith((".xls", ".xlsx", ".csv")):
            said += f" that was saved as {name[name.rindex('.') :]}"
        raise SheetFileError(said, _HTML_ACTION, file=name)
    if bare.startswith(b"<?xml"):
        raise SheetFileError("this is an XML file, not a sheet", SAVE_AS, file=name)


def _kind_of_ole(file: BinaryIO, name: str) -> str:
    """Which of the older office files it is; the names of its parts are written in UTF-16."""
    names = {
        one: one.encode("utf-16-le")
        for one in ("EncryptedPackage", "WordDocument", "PowerPoint Document", "Workbook", "Book")
    }
    found = set()
    file.seek(0)
    tail = b""
    while block := file.read(1 << 20):
        window = tail + block
        found |= {one for one, raw in names.items() if raw in window}
        tail = window[-64:]
    if "EncryptedPackage" in found:
        raise SheetFileError(
            "this workbook is protected by a password",
            "open it with the password, save it without one, and load that",
            file=name,
        )
    if "WordDocument" in found or "PowerPoint Document" in found:
        raise SheetFileError("this is an office document, not a sheet", SAVE_AS, file=name)
    if not found:
        raise SheetFileError("this is an office file without a worksheet", SAVE_AS, file=name)
    return "xls"
