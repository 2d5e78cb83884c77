"""The tables behind ISO 286: read when needed, refused when damaged, with their sums on record."""

from __future__ import annotations

import csv
import shutil
import subprocess
import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest

from schema import iso286, iso286_tables
from schema.errors import TableError
from schema.iso286 import (
    standard_tolerance_um,
    tolerance_zone,
)

PUBLISHED = Path(iso286_tables.__file__).with_name("published")
TABLES = (
    "iso286_tolerance_grades.csv",
    "iso286_shaft_deviations.csv",
    "iso286_hole_deviations.csv",
    "iso286_delta.csv",
)


def test_importing_the_module_stays_light() -> None:
    """A cold start reads no table and loads none of the slow libraries."""
    program = (
        "import sys; import schema.iso286, schema.iso286_tables as tables;"
        "slow = {'pydantic', 'numpy', 'pint', 'click', 'importlib.metadata'} & set(sys.modules);"
        "print(sorted(slow), tables.steps.cache_info().currsize)"
    )
    root = Path(iso286.__file__).parents[1]
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=root, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[] 0"


@pytest.fixture
def fresh_tables() -> Iterator[None]:
    iso286_tables.steps.cache_clear()
    yield
    iso286_tables.steps.cache_clear()


@pytest.mark.usefixtures("fresh_tables")
@pytest.mark.parametrize(
    ("designation", "files"), [("js7", 1), ("g6", 2), ("H7", 2), ("M8", 3), ("P8", 2), ("P7", 3)]
)
def test_only_the_tables_that_are_needed_are_read(designation: str, files: int) -> None:
    """A question opens the files it needs and no other."""
    tolerance_zone(designation, Decimal(280))
    assert iso286_tables.steps.cache_info().currsize == files


@pytest.mark.usefixtures("fresh_tables")
@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("0.5", "0,5", "line 2: 25 columns instead of 24"),
        ("0.5", "O.5", r"line 2, column IT0_um: 'O\.5' is not a number"),
        ("0.5", "NaN", r"line 2, column IT0_um: 'NaN' is not a number"),
        ("\n18,30,", "\n19,30,", "line 6: the step does not follow the row above"),
        ("\n18,30,", "\n18,18,", "line 6: the step does not follow the row above"),
        ("\n0,3,", "\n1,3,", "line 2: the step does not follow the row above"),
        ("400,500,", "400,499,", "the rows do not end at 500 mm"),
        ("over_mm", "above_mm", "line 2: the step needs the columns over_mm and up_to_and_including_mm"),
        ("0.5", "\udcff", "cannot be read"),
    ],
)
def test_a_damaged_table_is_told_by_file_and_line(
    old: str, new: str, message: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A damaged cell, row or step stops the reading and names where it is."""
    file = "iso286_tolerance_grades.csv"
    text = (PUBLISHED / file).read_text(encoding="utf-8")
    assert old in text
    damaged = text.replace(old, new, 1).encode("utf-8", "surrogateescape")
    (tmp_path / file).write_bytes(damaged)
    monkeypatch.setattr(iso286_tables, "_FOLDER", tmp_path)
    with pytest.raises(TableError, match=f"{file}: ({message})"):
        standard_tolerance_um("IT7", Decimal(25))


@pytest.mark.usefixtures("fresh_tables")
@pytest.mark.parametrize("content", [None, b""])
def test_a_missing_or_empty_table_is_told(
    content: bytes | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A table that is not there or holds nothing is an error of the installation, not of the question."""
    shutil.copytree(PUBLISHED, tmp_path / "published")
    (tmp_path / "published" / "iso286_delta.csv").unlink()
    if content is not None:
        (tmp_path / "published" / "iso286_delta.csv").write_bytes(content)
    monkeypatch.setattr(iso286_tables, "_FOLDER", tmp_path / "published")
    assert tolerance_zone("H7", Decimal(25)).upper_um == 21
    with pytest.raises(TableError, match=r"iso286_delta\.csv: cannot be read"):
        tolerance_zone("P7", Decimal(25))


def test_a_size_beyond_every_step_is_an_error_of_the_caller() -> None:
    """A size the steps do not reach is told, never answered from the last step."""
    with pytest.raises(TableError, match="no step for 501 mm"):
        iso286_tables.value_um("iso286_delta.csv", "IT7_um", Decimal(501))


def test_a_column_that_is_not_there_covers_nothing() -> None:
    """A column without values has no range of sizes to name."""
    assert iso286_tables.sizes_covered("iso286_delta.csv", "IT9_um") == ""


def recorded(heading: str, file: str) -> str:
    """What the front matter of iso286.md says about one file under one heading."""
    front = (PUBLISHED / "iso286.md").read_text(encoding="utf-8").split("---\n")[1]
    block = front.split(f"\n{heading}:\n")[1]
    return next(line.split(": ", 1)[1] for line in block.splitlines() if line.startswith(f"  {file}: "))


@pytest.mark.parametrize("file", TABLES)
def test_each_table_has_the_rows_and_sums_on_record(file: str) -> None:
    """Row count and column sums of every table are those written down when it was read."""
    with (PUBLISHED / file).open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    columns = [name for name in rows[0] if name.endswith("_um")]
    sums = {name: sum((Decimal(row[name]) for row in rows if row[name]), Decimal(0)) for name in columns}
    on_record = dict(entry.split(" ") for entry in recorded("column_sums", file).split(", "))
    assert len(rows) == int(recorded("rows", file))
    assert sums == {name: Decimal(value) for name, value in on_record.items()}


@pytest.mark.parametrize("file", TABLES)
def test_each_table_is_plain_and_every_row_names_its_source(file: str) -> None:
    """The files are UTF-8 with LF only, and no row is without source and locator."""
    raw = (PUBLISHED / file).read_bytes()
    rows = list(csv.DictReader(raw.decode("utf-8").splitlines()))
    assert b"\r" not in raw
    assert raw.endswith(b"\n")
    assert all(row["source"] and row["locator"] for row in rows)
