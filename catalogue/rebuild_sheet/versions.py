"""What made a sheet: the version of the tool, and digests of the data it was made from."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from typing import NamedTuple

from catalogue.digests import DIGITS, digest_of
from fitcheck.decision import decision_rule
from schema.tables import FOLDER
from schema.unit import Unit


class Version(NamedTuple):
    """One line of the versions: what, and which."""

    words: str
    text: str


def versions(unit: Unit, rule: str, data: Mapping[str, str]) -> list[Version]:
    """Tool, decision rule and digests; ``data`` are versions of the catalogue by subject."""
    from catalogue.version import VERSION

    decided = decision_rule(rule)
    return [
        Version("Tool", f"borebook {VERSION}"),
        Version("Decision rule", f"{decided.name}: {decided.words} ({decided.source})"),
        Version("Published tables", f"SHA-256 {published_digest()}"),
        Version("Unit and measured values", f"SHA-256 {unit_digest(unit)}"),
        *(Version(f"Catalogue, {subject.replace('_', ' ')}", text) for subject, text in data.items()),
    ]


@cache
def published_digest() -> str:
    """The digest of all published tables, as a catalogue keeps it too."""
    return digest_of(sorted(FOLDER.glob("*.csv")))


def unit_digest(unit: Unit) -> str:
    """The digest of everything that was told of a unit, what was measured included."""
    return sha256(repr(unit).encode("utf-8", "replace")).hexdigest()[:DIGITS]
