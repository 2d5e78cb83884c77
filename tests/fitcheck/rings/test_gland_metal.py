"""A gland whose metal is not told grows as aluminium or as steel, and both count."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitcheck.explain import explained
from schema.finding import Finding, Status, Verdict
from schema.places import METALS
from schema.question import question_from
from schema.reference import published_reference
from tests.examples import GLANDS, PISTON

Ask = Callable[..., Verdict]
LINE = "gland of aluminium or steel, since no metal is told: both count"


def of(verdict: Verdict, rule: str) -> Finding:
    """A finding that must be there."""
    found = verdict.of(rule)
    assert found is not None
    return found


@pytest.mark.parametrize("gland", sorted(GLANDS))
@pytest.mark.parametrize("name", ["cold_squeeze", "hot_squeeze", "hot_fill"])
def test_a_gland_of_untold_metal_counts_as_both(ask: Ask, gland: str, name: str) -> None:
    """In cold and heat a quantity spans what it is in aluminium and in steel, and no more."""
    both, *told = (of(ask(gland, place={"metal": metal}), name) for metal in (None, *METALS))
    assert both.low == pytest.approx(min(one.low or 0.0 for one in told))
    assert both.high == pytest.approx(max(one.high or 0.0 for one in told))
    assert told[0].low != told[1].low


def test_that_no_metal_is_told_is_said_where_it_counts(ask: Ask) -> None:
    """It is among what was taken, unless the metal is told or no temperature is asked."""
    assert LINE in ask("piston").taken
    assert LINE not in ask("piston", place={"metal": "steel"}).taken
    assert LINE not in ask("piston", service={"temperature": None}).taken


def test_a_gland_that_fits_in_one_metal_only_is_not_proven_without_its_metal(ask: Ask) -> None:
    """Aluminium closes on the ring in the cold as steel does not: 0.03 % of squeeze are left, or none."""
    place = {
        "groove_diameter": "25.40 0/-0.001 mm",
        "bore_diameter": "32.026 +0.001/0 mm",
        "land_diameter": "31.986 0/-0.001 mm",
    }
    statuses = [
        of(ask("piston", place={**place, "metal": metal}), "cold_squeeze").status for metal in (*METALS, None)
    ]
    assert statuses == [Status.FITS, Status.NOT_PROVEN, Status.NOT_PROVEN]


def test_the_steps_show_the_growth_in_both_metals() -> None:
    """Equations with numbers name both metals' growth, and that either counts."""
    steps = [one.rule for one in explained(question_from(PISTON), published_reference())["cold_squeeze"]]
    assert steps.count("section_growth") == 2
    assert "between_metals" in steps
