"""Digests of data files, by which a catalogue and a rebuild sheet name what they were made from."""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

DIGITS = 16


def digest_of(paths: Iterable[Path]) -> str:
    """The first digits of the SHA-256 of names, lengths and contents of files, in their order."""
    digest = sha256()
    for path in paths:
        content = path.read_bytes()
        digest.update(f"{path.name} {len(content)}\n".encode() + content)
    return digest.hexdigest()[:DIGITS]
