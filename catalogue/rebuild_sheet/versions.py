"""What made a sheet: the version of the tool, and digests of the data it was made from."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from typing import NamedTuple

from fitcheck.decision import decision_rule
from schema.tables import FOLDER
from schema.unit import Unit

DIGITS = 12


class Version(NamedTuple):
    """One line of the versions: what, and which."""

    words: str
    text: str


def versions(unit: Unit, rule: str, data: Mapping[str, str]) -> list[Version]:
    """Tool, decision rule and digests; ``data`` are versions of the catalogue by subject."""
    from catalogue.cli.main import VERSION

    decided = decision_rule(rule)
    return [
        Version("Tool", f"borebook {VERSION}"),
        Version("Decision rule", f"{decided.name}: {decided.words} ({decided.source})"),
        Version("Published tables", f"SHA-256 {published_digest()}"),
        Version("Unit and measured values", f"SHA-256 {_digest(repr(unit).encode('utf-8', 'replace'))}"),
        *(Version(f"Catalogue, {subject.replace('_', ' ')}", text) for subject, text in data.items()),
    ]


@cache
def published_digest() -> str:
    """The digest of all published tables, names and bytes, in the order of their names."""
    found = sha256()
    for path in sorted(FOLDER.glob("*.csv")):
        found.update(path.name.encode())
        found.update(path.read_bytes())
    return found.hexdigest()[:DIGITS]


def _digest(data: bytes) -> str:
    return sha256(data).hexdigest()[:DIGITS]
