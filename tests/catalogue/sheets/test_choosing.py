"""What is asked before a first load, and what is told when a kept mapping changes."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from catalogue.sheets.choosing import Choice, Said, choose
from catalogue.sheets.kept import mappings_folder, write_kept
from catalogue.sheets.mapping import Column, checked
from catalogue.sheets.opening import open_sheet_file
from catalogue.sheets.rejected_rows import OURS
from tests.catalogue.sheets.small_loads import mapping, sheet_of

KINDS = ["A-1,O-ring,20.0,3.0,NBR 70,1.00", "A-2,O-ring,24.0,3.0,NBR 70,1.00"]


def chosen(catalogue: Path, *lines: str, **said: object) -> Choice:
    """The choice for a sheet of these lines."""
    with sheet_of(*lines) as file:
        return choose(file, "Kolbring", catalogue, Said(**said))  # type: ignore[arg-type]


@pytest.mark.parametrize("inside", ["Innen mm", "Int. mm", "intérieur (mm)", "Inside mm"])
def test_a_short_word_for_the_inside_diameter_is_read(blank: Path, inside: str) -> None:
    """Innen beside Schnur is the diameter of a ring."""
    found = chosen(blank, f"Code,Kind,{inside},Schnur mm,Material,Price EUR", *KINDS)
    assert found.mapping is not None
    assert found.mapping.columns[inside].field == "inside_diameter"


def test_what_every_row_lacks_is_asked_before_loading(blank: Path) -> None:
    """Loch mm is left out, and without it there is no ring: nothing is loaded, and no mapping kept."""
    found = chosen(blank, "Code,Kind,Loch mm,Schnur mm,Material,Price EUR", *KINDS)
    assert (found.mapping, found.keep) == (None, False)
    (asked,) = found.questions
    assert "no column is the inside diameter" in asked.text
    assert asked.answers == ('--column "Loch mm=inside_diameter mm"',)


@pytest.mark.parametrize("told", ["20x3 NBR 70", "AS568-214 NBR 70"])
def test_sizes_in_one_description_are_enough(blank: Path, told: str) -> None:
    """Where a row can become an article, the others are refused one by one."""
    lines = [f"A-1,O-ring {told},1.00", "A-2,O-ring NBR 70,1.00"]
    assert chosen(blank, "Code,Description,Price EUR", *lines).questions == ()


def test_a_column_that_names_kinds_is_asked_for_as_that(blank: Path) -> None:
    """Item is a word for the code, and here the code stands elsewhere; no kind of every row is offered."""
    lines = ["A-1,O Ring,20,3,1.00", "A-2,Back up ring,20,3,1.00", "A-3,Quad ring,20,3,1.00"]
    (asked,) = chosen(blank, "Code,Item,ID mm,CS mm,Price EUR", *lines).questions
    assert asked.answers == ("--column Item=kind", "--column Item=")


def test_a_column_of_kinds_under_an_unknown_header_is_asked_where_nothing_else_tells_them(
    blank: Path,
) -> None:
    """As a mere hint it would be left out, and every row refused."""
    lines = ["A-1,O-ring,20,3", "A-2,O-ring,24,3"]
    (asked,) = chosen(blank, "Code,Ausf.,ID mm,CS mm", *lines).questions
    assert asked.answers[0] == "--column Ausf.=kind"


def test_a_column_of_codes_stays_that(blank: Path) -> None:
    """Kinds with sizes are the words of a description, and Item is the code."""
    found = chosen(blank, "Item,Description,Price EUR", "A-1,O-ring 20x3 NBR 70,1.00")
    assert found.mapping is not None
    assert found.mapping.columns["Item"].field == "code"


# -- a kept mapping ---------------------------------------------------------------------------------------


def _keep(catalogue: Path, header: str) -> None:
    write_kept(mappings_folder(catalogue), mapping(header, "Kolbring"))


def test_what_the_mapping_covers_from_now_on_is_told(blank: Path) -> None:
    """Said once, it stays: that must be seen."""
    _keep(blank, "Code,Words,Price")
    lines = ("Code,Words,Price", "A-1,O-ring 20x3 NBR 70,1.00")
    assert "the mapping says whole_range from now on" in chosen(blank, *lines, covers="whole_range").told
    assert chosen(blank, *lines, covers="some").told == ()


def test_a_renamed_column_leaves_last_months_sheet_readable(blank: Path) -> None:
    """Both headers stand in the mapping, and neither sheet is asked about."""
    _keep(blank, "Code,Words,Price")
    old, new = ("Code,Words,Price", "A-1,O-ring,1.00"), ("Code,Text,Price", "A-1,O-ring,1.00")
    answered = chosen(blank, *new, columns=("Text=description",)).mapping
    assert answered is not None
    write_kept(mappings_folder(blank), answered)
    assert [chosen(blank, *one).questions for one in (old, new)] == [(), ()]


def test_a_price_that_was_for_another_number_of_pieces_does_not_stay(blank: Path) -> None:
    """Last month's Price/100 would be read as that of one piece."""
    first = mapping("Code,Price", "Kolbring", every={"price_per": "100"})
    columns = {
        "Code": first.columns["Code"],
        "Price/100": first.columns["Price"]._replace(header="Price/100"),
    }
    write_kept(mappings_folder(blank), first.changed(columns=columns))
    answered = chosen(blank, "Code,Price/pc", "A-1,1.00", columns=("Price/pc=price",)).mapping
    assert answered is not None
    assert "Price/100" not in answered.columns


def test_mended_rows_change_nothing_of_what_is_kept(tmp_path: Path) -> None:
    """They are never the whole range, stand in a sheet of their own, and their mapping is kept by none."""
    kept = checked(
        supplier="Kolbring",
        covers="whole_range",
        sheets=("Prices",),
        columns={"Code": Column("Code", "code"), "Price": Column("Price", "price")},
        every={"kind": "o_ring"},
    )
    write_kept(mappings_folder(tmp_path / "shop.sqlite"), kept)
    header = ",".join(("Code", "Price", *OURS))
    text = f"{header}\nA-1,1.20,Prices 3,no currency,tell it\n"
    with open_sheet_file(io.BytesIO(text.encode()), name="mended.csv") as file:
        found = choose(file, "Kolbring", tmp_path / "shop.sqlite", Said(every={"currency": "EUR"}))
    assert found.mapping is not None
    assert (found.mapping.covers, found.mapping.sheets, found.keep) == ("some", (), False)
