"""Checks a unit file without taking it in: its faults, and what cannot be proven for want of data."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from catalogue.faults import Fault, Mark
from catalogue.unit_files.building import Built, built
from catalogue.unit_files.reading import UnitFile, read_unit_file
from catalogue.unit_files.stock import stock_at
from schema.finding import NO_TOLERANCE, Finding, Status


class Lacking(NamedTuple):
    """Something that will be ``not proven``: of what place, where it stands, and what is not told."""

    line: int
    path: str
    lacks: tuple[str, ...]
    kind: str = ""

    def __str__(self) -> str:
        return f"line {self.line}, {self.path}: not proven for want of {'; '.join(self.lacks)}"


class CheckedFile(NamedTuple):
    """What was found in a unit file. ``lacking`` and ``not_asked`` are worked out where nothing is faulty."""

    file: UnitFile
    faults: tuple[Fault, ...]
    lacking: tuple[Lacking, ...] = ()
    not_asked: tuple[str, ...] = ()


def check_unit_file(path: Path, catalogue: Path | None = None) -> CheckedFile:
    """Check a unit file; parts that it only names are looked up in the catalogue."""
    file = read_unit_file(path)
    with stock_at(catalogue) as stock:
        found = built(file, stock)
    faults = tuple(sorted({*found.faults, *found.faults_of_stock}))
    if found.unit is None or faults:
        return CheckedFile(file, faults)
    return CheckedFile(file, (), *_wanting(file, found))


def _wanting(file: UnitFile, found: Built) -> tuple[tuple[Lacking, ...], tuple[str, ...]]:
    from fitcheck.unit.check import check_unit
    from schema.reference import published_reference

    assert found.unit is not None
    verdict = check_unit(found.unit, published_reference())
    lacking = [
        Lacking(_line(file, f"places.{place.name}"), f"places.{place.name}", lacks, place.kind)
        for place in verdict.places
        if (lacks := _lacks(place.verdict.findings))
    ]
    if lacks := _lacks(verdict.findings):
        lacking.append(Lacking(_line(file, "unit"), "the unit as a whole", lacks))
    return tuple(lacking), verdict.not_asked


def _lacks(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """What is not told, and what is told without a tolerance: that proves as little."""
    open_ones = [one for one in findings if one.status is Status.NOT_PROVEN]
    bare = [
        f"tolerance of the {one.reason.removeprefix(NO_TOLERANCE)}"
        for one in open_ones
        if one.reason.startswith(NO_TOLERANCE)
    ]
    return tuple(dict.fromkeys([*(lack for one in open_ones for lack in one.lacks), *bare]))


def _line(file: UnitFile, path: str) -> int:
    mark: Mark = file.key_marks.get(path) or file.mark(path)
    return mark.line
