"""``borebook names``: kinds of places and parts, and their fields, for who writes a unit file."""

from __future__ import annotations

from typing import Any

import pytest

from catalogue.unit_files.shape import part_fields, place_fields
from schema.kinds import PARTS, PLACES
from schema.unit import SECTIONS, UnitHead


@pytest.mark.parametrize("kind", PLACES)
def test_every_field_of_a_place_is_told(run: Any, kind: str) -> None:
    """Whoever writes a unit file finds each field, its service and what goes in without a JSON Schema."""
    told = {line.split()[0] for line in run("names", kind).out.splitlines() if line.startswith("  ")}
    assert set(place_fields(kind)) - {"kind"} <= told
    assert "parts" in told


@pytest.mark.parametrize("kind", PARTS)
def test_every_field_of_a_part_is_told(run: Any, kind: str) -> None:
    """The size code of a ring is among them, though it is no field of its model."""
    told = {line.split()[0] for line in run("names", kind).out.splitlines() if line.startswith("  ")}
    assert set(part_fields(kind)) - {"kind"} <= told


def test_the_unit_itself_and_the_kinds_are_told(run: Any) -> None:
    """The head with its sections; the lists of kinds; a kind as people write it."""
    unit = run("names", "unit").out
    assert all(f"  {name} " in unit for name in (*UnitHead.declared, *SECTIONS))
    assert "  rod_gland " in run("names", "places").out
    assert "  plain_bushing " in run("names", "parts").out
    assert run("names", "Rod gland").out == run("names", "rod_gland").out


def test_an_example_and_the_words_of_a_choice_are_told(run: Any) -> None:
    """A field says how its text is written."""
    told = " ".join(run("names", "retaining_ring").out.split())
    assert "thickness thickness along the axis, such as 1.50 +0/-0.06 mm" in told
    assert "what kind of ring it is: bore_ring, shaft_ring" in told
