"""Every published table is described, counted and sourced."""

from __future__ import annotations

import csv
import re
from decimal import Decimal
from pathlib import Path

import pytest

from schema.tables import FOLDER

TABLES = sorted(path.name for path in FOLDER.glob("*.csv"))
NOTES = {path.name: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.md"))}
KEYS = ("document", "edition", "tables_read", "by_whom", "when", "grade", "rows")
GRADES = {
    "published_twice",
    "published_once",
    "standard",
    "derived",
    "common_practice",
    "disputed",
    "from_memory",
    "no_tolerance",
    "own_judgement",
}


def rows_of(name: str) -> list[dict[str, str]]:
    """The rows of a table on disk."""
    with (FOLDER / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


@pytest.mark.parametrize("name", TABLES)
def test_a_table_has_as_many_rows_as_its_note_says(name: str) -> None:
    """Exactly one note describes a table, and its row count is the table's."""
    counts = [
        int(found[1]) for text in NOTES.values() for found in re.finditer(rf"^  {name}: (\d+)$", text, re.M)
    ]
    assert counts == [len(rows_of(name))]


@pytest.mark.parametrize("name", NOTES)
def test_a_note_has_its_front_matter(name: str) -> None:
    """A note says which document and edition, what was read, by whom, when, and how well it is confirmed."""
    front = NOTES[name].split("---")[1]
    assert [key for key in KEYS if not re.search(rf"^{key}:", front, re.M)] == []


@pytest.mark.parametrize("name", [name for name in TABLES if name not in ("sources.csv", "fluids.csv")])
def test_every_row_has_a_source_and_a_known_grade(name: str) -> None:
    """No row stands without a source; every grade is one of the known ones."""
    for row in rows_of(name):
        assert any(row[key] for key in row if "source" in key), row
        grades = {row[key] for key in row if key == "grade" or key.endswith("_grade")}
        if not row.get("refuse_grade", "none"):
            grades.discard("")  # refusal by the limits themselves
        assert grades <= GRADES, row


@pytest.mark.parametrize("column", ["inside_diameter_in", "inside_diameter_tolerance_in"])
def test_as568_columns_have_the_sums_of_the_note(column: str) -> None:
    """A slip of one digit anywhere in AS568 changes the pinned sum."""
    total = sum((Decimal(row[column]) for row in rows_of("as568.csv")), Decimal(0))
    assert f"{column} {total}" in NOTES["as568.md"]


def test_no_table_names_a_path_of_a_machine() -> None:
    """Sources are citations, never a place on somebody's disk."""
    named = [
        path.name
        for path in Path(FOLDER).iterdir()
        if re.search(r"(^|[ \"'])/(home|work|root|tmp)/", path.read_text())
    ]
    assert named == []
