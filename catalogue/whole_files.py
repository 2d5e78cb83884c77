"""Files that are written whole or not at all: what stood there before stays until the new one is complete."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from schema.errors import StoreError


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


def _replace(path: Path, text: str) -> None:
    if path.exists() and not os.access(path, os.W_OK):  # replacing it would write over what is protected
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    draft = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        draft.write_text(text, encoding="utf-8")
        if path.exists():
            draft.chmod(path.stat().st_mode)
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)
