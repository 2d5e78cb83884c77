"""A file is told by its bytes, unpacked where it is packed, and known by its fingerprint."""

from __future__ import annotations

import gzip
import hashlib
import io
import zipfile
from pathlib import Path

import openpyxl
import pytest

from catalogue.sheets.opening import SheetFileError, open_sheet_file
from tests.catalogue.sheets.opened import only_table, opened, saved, whole, workbook

LIST = b"Code;Price\nA;1,20\nB;2,40\n"
ROWS = [["A", "1,20"], ["B", "2,40"]]


def zipped(**files: bytes) -> bytes:
    """A zip file; ``__`` in a name stands for a dot."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name.replace("__", ".").replace(".MACOSX", "__MACOSX"), content)
    return out.getvalue()


def test_a_file_tells_what_it_is(tmp_path: Path) -> None:
    """Name, size and fingerprint are those of the file on disk."""
    path = tmp_path / "northmoor.csv"
    path.write_bytes(LIST)
    with open_sheet_file(path) as file:
        assert (file.name, file.size, file.format) == ("northmoor.csv", len(LIST), "text")
        assert file.sha256 == hashlib.sha256(LIST).hexdigest()
        assert (file.encoding, file.delimiter) == ("utf-8", ";")


@pytest.mark.parametrize(
    "packed", [gzip.compress(LIST), zipped(list__csv=LIST), zipped(a__csv=LIST, **{".MACOSX/a": b"x"})]
)
def test_a_packed_list_is_read(packed: bytes) -> None:
    """The fingerprint is that of the packed file as it was given."""
    file = opened(packed)
    assert whole(file.tables[0]).rows == ROWS
    assert file.sha256 == hashlib.sha256(packed).hexdigest()


def test_a_packed_workbook_is_read() -> None:
    """A workbook is itself a zip, but one that is meant to be read."""
    assert opened(zipped(a__xlsx=workbook([["Code", "Price"], ["A", 1]]))).format == "xlsx"


@pytest.mark.parametrize("name", ["list.xlsx", "list.pdf", "list"])
def test_the_name_of_a_file_tells_nothing(name: str, tmp_path: Path) -> None:
    """A text file named as a workbook is read as the text it is."""
    path = tmp_path / name
    path.write_bytes(LIST)
    with open_sheet_file(path) as file:
        assert (file.format, whole(file.tables[0]).rows) == ("text", ROWS)


def test_a_workbook_named_csv_is_read_as_a_workbook(tmp_path: Path) -> None:
    """And the other way round."""
    path = tmp_path / "list.csv"
    path.write_bytes(workbook([["Code", "Price"], ["A", 1]]))
    with open_sheet_file(path) as file:
        assert file.format == "xlsx"


def document() -> bytes:
    """A zip that looks like a text document of an office program."""
    return zipped(**{"[Content_Types]__xml": b"<Types/>", "word/document__xml": b"<w/>"})


def ole(part: str) -> bytes:
    """The beginning of an older office file with a part of this name."""
    return bytes.fromhex("d0cf11e0a1b11ae1") + bytes(1024) + part.encode("utf-16-le") + bytes(1024)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"%PDF-1.7\n%\xe2\xe3", "a PDF document.*ask the supplier"),
        (b"\x89PNG\r\n\x1a\n" + bytes(50), "a picture"),
        (b"SQLite format 3\x00" + bytes(50), "a SQLite database.*export the table as CSV"),
        (document(), "an office document, not a sheet"),
        (ole("EncryptedPackage"), "protected by a password.*save it without one"),
        (ole("WordDocument"), "an office document, not a sheet"),
        (b"<html><body><table><tr><td>Code</td></tr></table>", "a web page.*save it as a workbook"),
        (b"\xef\xbb\xbf\n<!DOCTYPE html><html>", "a web page"),
        ("<html><table>".encode("utf-16"), "a web page"),
        (b'<?xml version="1.0"?><?mso-application progid="x"?>', "a workbook in an old XML form.*save it"),
        (b'<?xml version="1.0"?><list/>', "an XML file, not a sheet"),
        (zipped(a__csv=LIST, b__csv=LIST), r"holds 2 files \(a.csv, b.csv\).*one by one"),
        (zipped(), "the archive is empty"),
        (zipped(a__zip=zipped(b__csv=LIST)), "an archive inside the archive.*unpack it first"),
        (zipped(a__gz=gzip.compress(LIST)), "an archive inside the archive"),
        (gzip.compress(gzip.compress(LIST)), "an archive inside the archive"),
        (gzip.compress(zipped(b__csv=LIST)), "an archive inside the archive"),
        (gzip.compress(b""), "the packed file is empty"),
    ],
)
def test_what_is_no_sheet_is_named(content: bytes, said: str) -> None:
    """The message says what the file is and what to do instead."""
    with pytest.raises(SheetFileError, match=said):
        opened(content)


def test_a_web_page_saved_as_a_workbook_is_told_so() -> None:
    """Web shops name their tables .xls."""
    with pytest.raises(
        SheetFileError, match=r"shop\.xls: this is a web page \(HTML\) that was saved as \.xls"
    ):
        open_sheet_file(io.BytesIO(b"<table><tr><td>Code"), name="shop.xls")


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """Its name and the reason are told."""
    with pytest.raises(SheetFileError, match=r"gone\.csv: the file cannot be read: No such file"):
        open_sheet_file(tmp_path / "gone.csv")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    """The system's own reason is told."""
    with pytest.raises(SheetFileError, match="cannot be read: Is a directory"):
        open_sheet_file(tmp_path)


def test_a_file_that_was_given_open_stays_open() -> None:
    """Who opened it closes it."""
    given = io.BytesIO(LIST)
    open_sheet_file(given).close()
    assert not given.closed


def test_sheets_that_hold_nothing_give_no_table() -> None:
    """A hidden one is marked, an empty one left out, and a workbook of nothing refused."""
    book = openpyxl.Workbook()
    first = book.active
    assert first is not None
    first.title = "Empty"
    hidden = book.create_sheet("Old prices")
    hidden.sheet_state = "hidden"
    hidden.append(["Code", "Price"])
    hidden.append(["A", 1])
    (table,) = opened(saved(book)).tables
    assert (table.sheet, table.hidden) == ("Old prices", True)
    with pytest.raises(SheetFileError, match="nothing but blank rows"):
        opened(saved(openpyxl.Workbook()))


def test_a_list_of_one_table_is_not_hidden() -> None:
    """A text file has no sheets that could be."""
    assert not only_table(LIST).hidden
