"""Retaining rings and grooves as models, and the tables behind them."""

from __future__ import annotations

import csv
from collections import Counter

import pytest

from schema.errors import InputError, InputErrors
from schema.fields import read_model
from schema.retaining import RetainingRing, RetainingRingGroove, designation
from schema.retaining_tables import (
    cited,
    e_clip,
    flat_ring,
    impossible,
    ring_limits,
    sizes,
    wire_ring,
)
from schema.tables import FOLDER

FLAT = [(table, size) for table in ("din471", "din472") for size in sizes(table)]


def ring(**texts: str) -> RetainingRing:
    return read_model(RetainingRing, texts, path="part")


def groove(**texts: str) -> RetainingRingGroove:
    return read_model(RetainingRingGroove, texts, path="place")


@pytest.mark.parametrize(
    ("text", "standard", "size", "thickness"),
    [
        ("DIN 472 - 36", "DIN 472", 36.0, None),
        ("din 472 - 36 x 1,5", "DIN 472", 36.0, 1.5),
        ("DIN 471-25x1.2", "DIN 471", 25.0, 1.2),
        ("DIN 472:2011 - 36", "DIN 472", 36.0, None),
        ("GB 895.1-86 - 50", "GB 895.1", 50.0, None),
        ("IS 3075 - 25", "IS 3075", 25.0, None),
        ("DIN 6799 - 2.3", "DIN 6799", 2.3, None),
    ],
)
def test_a_designation_is_read(text: str, standard: str, size: float, thickness: float | None) -> None:
    """Standard, size and thickness, in the spellings that catalogues use."""
    assert designation(text) == (standard, size, thickness)


@pytest.mark.parametrize("text", ["circlip 36", "DIN 5417 - 36", "DIN 472", "472 - 36"])
def test_what_is_no_designation_is_refused_with_an_example(text: str) -> None:
    """A text that names no known standard says which are known."""
    with pytest.raises(InputError, match="DIN 472 - 36"):
        designation(text)


@pytest.mark.parametrize(
    ("texts", "style"),
    [
        ({"standard": "DIN 472 - 36"}, "bore_ring"),
        ({"standard": "DIN 6799 - 10"}, "e_clip"),
        ({"standard": "GB 895.2 - 20"}, "round_wire_shaft"),
        ({"bore_diameter": "36 mm", "thickness": "1.5 mm"}, "bore_ring"),
        ({"shaft_diameter": "20 mm", "wire_diameter": "2 mm"}, "round_wire_shaft"),
        ({"style": "round_wire_bore"}, "round_wire_bore"),
        ({}, ""),
    ],
)
def test_the_style_follows_from_what_is_told(texts: dict[str, str], style: str) -> None:
    """A standard or the sizes say what kind of ring it is."""
    assert ring(**texts).found_style == style


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        ({"bore_diameter": "36 mm", "shaft_diameter": "36 mm"}, "made for a bore or for a shaft"),
        ({"bore_diameter": "36 mm", "thickness": "1.5 mm", "wire_diameter": "2 mm"}, "both are given"),
        ({"standard": "DIN 472 - 36", "shaft_diameter": "36 mm"}, "belongs to a ring for a shaft"),
        ({"standard": "DIN 472 - 36", "style": "shaft_ring"}, "is a bore_ring"),
        ({"standard": "DIN 472 - 36", "bore_diameter": "38 mm"}, "names size 36"),
        ({"standard": "DIN 472 - 36.5"}, "not in the table of DIN 472.*35, 36, 37"),
        ({"standard": "DIN 472 - 36 x 2.5"}, "a heavier or another ring"),
        ({"standard": "DIN 472 - 36", "thickness": "2.0 mm"}, "a heavier or another ring"),
        ({"standard": "GB 895.1 - 36"}, "not in the table of GB 895.1"),
        ({"style": "round_wire_bore", "thickness": "1.5 mm"}, "has a wire_diameter"),
    ],
)
def test_a_ring_that_contradicts_itself_is_refused(texts: dict[str, str], message: str) -> None:
    """Each refusal names its field and what contradicts what."""
    with pytest.raises(InputErrors, match=message):
        ring(**texts)


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        ({"bore_diameter": "36 mm", "shaft_diameter": "36 mm"}, "in a bore or on a shaft"),
        ({"bore_diameter": "36 mm", "groove_diameter": "34 mm"}, "larger than the bore"),
        ({"shaft_diameter": "25 mm", "groove_diameter": "26 mm"}, "smaller than the shaft"),
        ({"corner": "sharp", "chamfer": "0.5 mm"}, "a sharp corner has no chamfer"),
        ({"safety_factor": "0.5"}, "1 to 20"),
        ({"groove_yield": "240"}, "the unit is missing"),
        ({"groove_yield": "240 N"}, "not a unit of stress"),
    ],
)
def test_a_groove_that_contradicts_itself_is_refused(texts: dict[str, str], message: str) -> None:
    """Each refusal names its field and what contradicts what."""
    with pytest.raises(InputErrors, match=message):
        groove(**texts)


@pytest.mark.parametrize(("table", "size"), FLAT)
def test_every_row_passes_its_own_geometry(table: str, size: float) -> None:
    """Each of 150 rows is read, which holds it to thickness, depth, side, land and grip."""
    found = flat_ring(table, size)
    assert found is not None
    assert found.size == size


ROW = flat_ring("din472", 36.0)


@pytest.mark.parametrize(
    ("changes", "groove_mm", "message"),
    [
        ({"thickness": (1.94, 2.0)}, 38.0, "does not enter a 1.6 mm groove"),
        ({}, 34.0, "wrong side of 36 mm"),
        ({}, 38.4, "not half the difference"),
        ({"land": 1.0}, 38.0, "not about three depths"),
        ({"free": (38.0, 38.3)}, 38.0, "loose in its groove"),
        ({}, 38.0, ""),
    ],
)
def test_a_row_that_cannot_be_is_caught(changes: dict[str, object], groove_mm: float, message: str) -> None:
    """The slips of public tables (a ring thicker than its groove, a groove inside the bore) are caught."""
    assert ROW is not None
    found = impossible(ROW._replace(**changes), groove_mm)  # type: ignore[arg-type]
    assert message in found if message else found == ""


def test_sizes_that_are_not_listed_have_no_row() -> None:
    """36.5 mm, and a wire ring of 36 mm, are in no table."""
    assert flat_ring("din472", 36.5) is None
    assert wire_ring("round_wire_bore", 36.0) is None
    assert e_clip(11.0) is None


def test_grades_count_lineages_and_not_lists() -> None:
    """18 rows rest on one lineage for thickness or groove; two lists that share slips count as one."""
    single = [
        size
        for table, size in FLAT
        if (row := flat_ring(table, size))
        and "published_once" in (row.grades["thickness"], row.grades["groove"])
    ]
    assert len(single) == 18
    row = flat_ring("din471", 52.0)
    assert row is not None
    assert (row.sources["groove"], row.grades["groove"]) == ("BC", "published_once")
    assert "FreeCAD" in cited("A")


def test_wire_rings_are_counted() -> None:
    """30 rings for bores and 31 for shafts, of which four grooves are not half the wire deep."""
    with (FOLDER / "gb895.csv").open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    assert Counter(row["style"] for row in rows) == {"round_wire_bore": 30, "round_wire_shaft": 31}
    odd = [
        (row["style"], row["size_mm"])
        for row in rows
        if abs(abs(float(row["groove_mm"]) - float(row["size_mm"])) - float(row["wire_mm"])) > 1e-9
    ]
    assert odd == [
        ("round_wire_bore", "35"),
        ("round_wire_bore", "38"),
        ("round_wire_bore", "40"),
        ("round_wire_shaft", "55"),
    ]


@pytest.mark.parametrize("style", ["round_wire_bore", "round_wire_shaft"])
def test_every_wire_ring_is_tight_in_its_groove(style: str) -> None:
    """At worst the free ring is larger than its groove in a bore, smaller on a shaft."""
    with (FOLDER / "gb895.csv").open(encoding="utf-8", newline="") as lines:
        rows = [row for row in csv.DictReader(lines) if row["style"] == style]
    for row in rows:
        found = wire_ring(style, float(row["size_mm"]))
        assert found is not None
        if style == "round_wire_bore":
            assert found.free[0] > found.groove[1], found
        else:
            assert found.free[1] < found.groove[0], found


def test_the_default_factor_is_the_published_one() -> None:
    """Two makers ask for a factor of 2 on the groove; for the ring no page does, and the row says so."""
    limits = ring_limits()
    assert (limits["groove_load_factor"].low, limits["groove_load_factor"].grade) == (2.0, "published_twice")
    assert (limits["ring_load_factor"].low, limits["ring_load_factor"].grade) == (2.0, "common_practice")


def test_a_thickness_just_within_a_tenth_of_its_table_is_the_ring() -> None:
    """1.32 mm is 1.2 mm and a tenth: rounding of binary numbers refuses nothing."""
    ring = read_model(RetainingRing, {"standard": "DIN 471 - 25", "thickness": "1.32 ±U0.06 mm"}, path="part")
    assert ring.flat_row is not None
