"""The file as given, unpacked where it came packed: one seekable file and what kind it is.

Nothing is ever written under a name that stands inside an archive; what is unpacked goes to a nameless
temporary file, block by block, and stops at the limits.
"""

from __future__ import annotations

import gzip
import hashlib
import io
import lzma
import struct
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO, NamedTuple, cast

from catalogue.sheets import limits
from catalogue.sheets.kinds import SAVE_AS, kind_of, refuse_lock
from catalogue.sheets.refusals import SheetFileError

BLOCK = 1 << 18
# What the libraries of packed files raise for damaged ones: found by changing bytes of honest files.
DAMAGED = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    EOFError,
    KeyError,
    NotImplementedError,
    OSError,
    RuntimeError,
    ValueError,
)
_AGAIN = "fetch the file once more; it was cut short or damaged on its way"
_BOMB = "the file was made to fill a computer; ask the supplier for another"


class Unwrapped(NamedTuple):
    """One file to read: ``format`` is "text", "xlsx", "xlsb", "xls" or "ods"."""

    file: BinaryIO
    owned: bool  # closed by us; a file that was given open stays open
    name: str
    sha256: str
    size: int
    format: str


def unwrap(given: Path | BinaryIO, *, name: str = "") -> Unwrapped:
    """Open a file or take an open one, unpack it, tell its kind. Raises SheetFileError."""
    name = name or (given.name if isinstance(given, Path) else "-")
    file, owned = _seekable(given, name)
    try:
        sha256, size = _digest(file, name)
        refuse_lock(name, size)
        if not size:
            raise SheetFileError("the file is empty", "check the download; it should hold rows", file=name)
        inside, format_ = _unpacked(file, name, size)
    except BaseException:
        if owned:
            file.close()
        raise
    if inside is not file:
        if owned:
            file.close()
        owned = True
    return Unwrapped(inside, owned, name, sha256, size, format_)


def _seekable(given: Path | BinaryIO, name: str) -> tuple[BinaryIO, bool]:
    if isinstance(given, Path):
        try:
            file = given.open("rb")
        except OSError as error:
            raise SheetFileError(
                f"the file cannot be read: {error.strerror}", "check its name and who may read it", file=name
            ) from error
        if file.seekable():
            return file, True
        with file:
            return _copied(file, name), True
    return (given, False) if given.seekable() else (_copied(given, name), True)


def _copied(file: BinaryIO, name: str) -> BinaryIO:
    """Standard input or a pipe, copied to a temporary file so that it can be read twice."""
    with _closed_on_error(name) as copy:
        size = 0
        while block := file.read(BLOCK):
            size += len(block)
            _hold_size(size, name)
            copy.write(block)
        return copy


def _hold_size(size: int, name: str) -> None:
    if size > limits.LARGEST_FILE:
        raise SheetFileError(
            f"the file is larger than {limits.LARGEST_FILE >> 20:,} MB",
            "split it into smaller files",
            file=name,
        )


def _digest(file: BinaryIO, name: str) -> tuple[str, int]:
    file.seek(0, io.SEEK_END)
    size = file.tell()
    _hold_size(size, name)
    file.seek(0)
    digest = hashlib.sha256()
    while block := file.read(BLOCK):
        digest.update(block)
    return digest.hexdigest(), size


@contextmanager
def _closed_on_error(name: str) -> Iterator[BinaryIO]:
    """A temporary file that stays open only if all went well."""
    copy = cast(BinaryIO, tempfile.TemporaryFile())  # noqa: SIM115 - handed on open
    try:
        yield copy
    except OSError as error:
        copy.close()
        raise SheetFileError(f"the file cannot be unpacked: {error}", _AGAIN, file=name) from error
    except BaseException:
        copy.close()
        raise


def _unpacked(file: BinaryIO, name: str, size: int) -> tuple[BinaryIO, str]:
    kind = kind_of(file, name=name)
    if kind == "gzip":
        file.seek(0)
        return _inside(_copy_limited(cast(BinaryIO, gzip.GzipFile(fileobj=file)), size, name), name)
    if kind == "zip":
        return _zip(file, name)
    return file, kind


def _inside(inner: BinaryIO, name: str) -> tuple[BinaryIO, str]:
    """The file that was packed; it may be a workbook, but no archive again."""
    try:
        kind = kind_of(inner, name=name)
        if kind == "zip":
            with zipfile.ZipFile(inner) as archive:
                kind = workbook_format(archive, name)
        if kind in ("gzip", ""):
            raise SheetFileError("there is an archive inside the archive", "unpack it first", file=name)
    except DAMAGED as error:
        inner.close()
        raise SheetFileError(f"the workbook inside is damaged: {error}", _AGAIN, file=name) from error
    except BaseException:
        inner.close()
        raise
    return inner, kind


def _zip(file: BinaryIO, name: str) -> tuple[BinaryIO, str]:
    try:
        with zipfile.ZipFile(file) as archive:
            format_ = workbook_format(archive, name)
            if format_:
                return file, format_
            parts = [one for one in archive.infolist() if not one.is_dir() and _counts(one.filename)]
            if len(parts) != 1:
                raise _not_one(parts, name)
            part = parts[0]
            if part.flag_bits & 1:
                raise SheetFileError(
                    "the archive is protected by a password", "unpack it with the password first", file=name
                )
            with archive.open(part) as packed:
                inner = _copy_limited(cast(BinaryIO, packed), part.compress_size, name)
    except DAMAGED as error:
        raise SheetFileError(f"the zip file or workbook is damaged: {error}", _AGAIN, file=name) from error
    return _inside(inner, name)


def _counts(path: str) -> bool:
    """Whether a file in an archive is one of the person's; some systems add their own."""
    return not path.startswith("__MACOSX/") and not path.endswith((".DS_Store", "Thumbs.db"))


def _not_one(parts: list[zipfile.ZipInfo], name: str) -> SheetFileError:
    if not parts:
        return SheetFileError("the archive is empty", "check the download", file=name)
    told = ", ".join(one.filename for one in parts[:8]) + (", ..." if len(parts) > 8 else "")
    return SheetFileError(
        f"the archive holds {len(parts)} files ({told})", "unpack it and load the files one by one", file=name
    )


def workbook_format(archive: zipfile.ZipFile, name: str) -> str:
    """ "xlsx", "xlsb" or "ods" for a workbook, "" for other archives. Raises SheetFileError for documents."""
    names = set(archive.namelist())
    if len(names) > limits.MOST_PARTS:
        raise SheetFileError(f"the archive holds {len(names):,} files", _BOMB, file=name)
    if "xl/workbook.xml" in names:
        return "xlsx"
    if "xl/workbook.bin" in names:
        return "xlsb"
    if "[Content_Types].xml" in names:
        if any(one.startswith("xl/") for one in names):
            raise SheetFileError("the workbook is damaged: its list of sheets is missing", _AGAIN, file=name)
        raise SheetFileError("this is an office document, not a sheet", SAVE_AS, file=name)
    if "mimetype" in names and "content.xml" in names:
        with archive.open("mimetype") as part:
            told = part.read(100).decode("ascii", "replace")
        if "spreadsheet" not in told:
            raise SheetFileError("this is an office document, not a sheet", SAVE_AS, file=name)
        return "ods"
    return ""


def hold_ratio(unpacked: int, packed: int, name: str) -> None:
    """Refuse what unpacks to far more than an honest file. Raises SheetFileError."""
    if unpacked > limits.LARGEST_UNPACKED:
        raise SheetFileError(
            f"the file unpacks to more than {limits.LARGEST_UNPACKED >> 20:,} MB", "split it", file=name
        )
    if unpacked > limits.SMALL_UNPACKED and unpacked > packed * limits.HIGHEST_RATIO:
        raise SheetFileError(
            f"the file unpacks to over {limits.HIGHEST_RATIO} times its size", _BOMB, file=name
        )


def _copy_limited(packed: BinaryIO, packed_size: int, name: str) -> BinaryIO:
    """Unpack into a temporary file, holding the limits on what really comes out."""
    with _closed_on_error(name) as copy:
        size = 0
        try:
            while block := packed.read(BLOCK):
                size += len(block)
                hold_ratio(size, packed_size, name)
                copy.write(block)
        except DAMAGED as error:
            raise SheetFileError(f"the packed file is damaged: {error}", _AGAIN, file=name) from error
        if not size:
            raise SheetFileError("the packed file is empty", "check the download", file=name)
        return copy
