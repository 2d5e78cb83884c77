"""The size a table is read by is the one a part was made for."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.dimension import parse_dimension
from schema.made_for import made_in, named, step_size


@pytest.mark.parametrize(
    ("text", "name", "step", "units"),
    [
        ("50 H8 mm", "50", "50", ("mm",)),
        ("50.02 mm by bore gauge", None, "50", ("mm",)),
        ("50.00..50.039 mm", None, "50", ("mm",)),
        ("12.05 +0.02/0 mm", None, "12", ("mm",)),
        ("38.1 mm", "38.1", "38.1", ("in",)),
        ("1 1/2 in", "38.1", "38.1", ("in",)),
        ("0.5625 in", "14.2875", "14.2875", ("in",)),
        ("38.12 mm by bore gauge", None, "38.1", ("mm", "in")),
        ("45.80 +0.04/0 mm", None, "45.80", ("mm", "in")),
        ("25.43 mm by bore gauge", None, "25.4", ("mm", "in")),
    ],
)
def test_a_reading_keeps_the_step_of_what_it_was_made_for(
    text: str, name: str | None, step: str, units: tuple[str, ...]
) -> None:
    """Whole and half millimetres and sixteenths are sizes; a reading or a range names none."""
    size = parse_dimension(text, measured_on="bore")
    assert named(size) == (None if name is None else Decimal(name))
    assert step_size(size) == Decimal(step)
    assert made_in(size) == units
