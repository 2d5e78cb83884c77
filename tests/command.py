"""What a run of the command gives, and where the demo sheets are."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import NamedTuple

from sqlite_utils import Database

from catalogue.unit_files.reading import UnitFile, read_unit_file

SEED = Path(__file__).parents[1] / "seed_data"
UNIT_PATHS = sorted((SEED / "units").glob("*.yaml"))


class Ran(NamedTuple):
    """What a run printed and how it ended."""

    status: int
    out: str
    err: str


def edit(sheets: Path, name: str, old: str, new: str) -> None:
    """Replace a text that stands once in a sheet."""
    text = (sheets / name).read_text("utf-8")
    assert text.count(old) == 1
    (sheets / name).write_text(text.replace(old, new), "utf-8")


def dump(db: Database) -> list[str]:
    """All tables and rows as SQL."""
    return list(db.conn.iterdump())


def sheet(name: str) -> list[dict[str, str]]:
    """The rows of a demo sheet as they stand."""
    with (SEED / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def unit_files() -> dict[str, UnitFile]:
    """The unit files of the demo, by unit."""
    files = [read_unit_file(path) for path in UNIT_PATHS]
    return {file.texts["unit"]: file for file in files}


def part_numbers() -> set[str]:
    """The numbers of all parts of the demo: rows of the sheet, and parts that a unit file brings."""
    brought = {number for file in unit_files().values() for number in file.texts.get("parts", {})}
    return brought | {row["part_number"] for row in sheet("parts.csv")}
