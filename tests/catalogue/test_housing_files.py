"""Where a workshop's table of housings is looked for, and how it is read from its file."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.housing_tables import VARIABLE, housings_file, read_housings, with_housings
from schema.errors import InputError, InputErrors
from schema.housing_tables import COLUMNS, template
from schema.reference import published_reference

TEXT = """# our copy, bought 2024
standard,type,place,side,diameter_from_mm,diameter_to_mm,housing_bore,source,locator
ISO 0000,B,wiper_seat,rod,32,32,42 H8,"the workshop's copy, edition 2021","table 2, row 4"

ISO 0000,B,wiper_seat,rod,36,36,46 H8,the workshop's copy,"table 2, row 5"
"""


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "housings.csv"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_no_housing_is_shipped() -> None:
    """The reference of the project has none: ISO 5597, 6195, 7425 and 10766 could not be read."""
    assert published_reference().housings == ()


def test_a_table_is_read_past_comments_and_empty_lines(table: Path) -> None:
    """Lines with # and empty lines count as lines and hold no row."""
    assert [row.diameter_from_mm for row in read_housings(table)] == [32, 36]


def test_the_table_is_found_by_name_by_variable_and_beside_the_catalogue(
    table: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A name leads, then the variable, then the file beside the catalogue; else there is none."""
    monkeypatch.delenv(VARIABLE, raising=False)
    catalogue = tmp_path / "catalogue.sqlite"
    assert housings_file(None, catalogue) == table
    assert housings_file(None, tmp_path / "elsewhere" / "catalogue.sqlite") is None
    other = tmp_path / "other.csv"
    other.write_text(TEXT, encoding="utf-8")
    monkeypatch.setenv(VARIABLE, str(other))
    assert housings_file(None, catalogue) == other
    assert housings_file(table, catalogue) == table


def test_a_named_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    """Nobody is left to think that their table was used."""
    with pytest.raises(InputError, match="there is no such file"):
        housings_file(tmp_path / "gone.csv", None)


def test_the_rows_join_the_reference(table: Path) -> None:
    """The published tables stay as they are."""
    found = with_housings(published_reference(), table)
    assert len(found.housings) == 2
    assert found.materials is published_reference().materials


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "has no header row"),
        (b"# only a comment\n", "has no header row"),
        ("standard,Maß".encode("latin-1"), "is not UTF-8 text"),
    ],
)
def test_a_file_that_is_no_table_is_told(tmp_path: Path, content: bytes, told: str) -> None:
    """Empty files and files of another encoding are refused in words."""
    path = tmp_path / "housings.csv"
    path.write_bytes(content)
    with pytest.raises(InputError, match=told):
        read_housings(path)


def test_a_line_with_too_few_cells_is_told_by_its_number(table: Path) -> None:
    """The line number is that of the file, comments and empty lines counted."""
    table.write_text(TEXT.replace(',"table 2, row 5"', ""), encoding="utf-8")
    with pytest.raises(InputErrors, match="line 5: has 8 cells where the header has 9"):
        read_housings(table)


def test_bad_cells_are_told_by_the_line_of_the_file(table: Path) -> None:
    """A bad cell in the last row is told as line 5."""
    table.write_text(TEXT.replace("46 H8", "46"), encoding="utf-8")
    with pytest.raises(InputErrors, match="line 5, column housing_bore: has no tolerance"):
        read_housings(table)


def test_the_template_is_a_table_without_rows(tmp_path: Path) -> None:
    """It is read as it is, holds every column, and no figure."""
    path = tmp_path / "housings.csv"
    path.write_text(template(), encoding="utf-8")
    assert read_housings(path) == ()
    assert sorted(template().splitlines()[-1].split(",")) == sorted(COLUMNS)
