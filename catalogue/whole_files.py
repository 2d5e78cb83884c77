"""Files that are written whole or not at all: what stood there before stays until the new one is complete."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from schema.errors import InputError, StoreError


def write_whole(name: str, text: str, *, option: str) -> None:
    """Write a text file; ``option`` is the one that named it, for the message. Raises StoreError.

    What is no regular file (a device, a pipe) is written straight.
    """
    try:
        if Path(name).exists() and not Path(name).is_file():
            Path(name).write_text(text, encoding="utf-8")
        else:
            _replace(Path(name).resolve(), text)
    except OSError as error:
        raise StoreError(f"{option}: {name} cannot be written: {error.strerror}") from error


@contextmanager
def whole_file(name: str, *, option: str, replace: bool) -> Iterator[BinaryIO]:
    """An open file for bytes; what is written stands under ``name`` once the block ends without an error.

    Raises InputError where a file of this name is there and ``replace`` is false, StoreError where it cannot
    be written.
    """
    path = Path(name)
    try:
        if path.exists() and not path.is_file():  # a device, a pipe
            with path.open("wb") as straight:
                yield straight
            return
        if path.exists() and not replace:
            raise InputError(
                field=option,
                given=name,
                problem="a file of this name is there already",
                allowed="another name, or --replace to write over it",
            )
        with _draft_of(path.resolve()) as draft, draft.open("wb") as file:
            yield file
    except OSError as error:
        raise StoreError(f"{option}: {name} cannot be written: {error.strerror}") from error


def _replace(path: Path, text: str) -> None:
    with _draft_of(path) as draft:
        draft.write_text(text, encoding="utf-8")


@contextmanager
def _draft_of(path: Path) -> Iterator[Path]:
    """A file beside ``path`` that takes its place once the block ends without an error."""
    if path.exists() and not os.access(path, os.W_OK):  # replacing it would write over what is protected
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    draft = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        yield draft
        if path.exists():
            draft.chmod(path.stat().st_mode)
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)
