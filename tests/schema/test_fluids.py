"""Oils and greases are read from texts; a label is never a viscosity."""

from __future__ import annotations

from typing import Any

import pytest

from schema.errors import InputErrors
from schema.fields import read_model
from schema.fluids import Fluid
from schema.viscosity_tables import index_reference, viscosity_grade


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"base": "mineral"}, "mineral_oil"),
        ({"base": "mineral", "thickener": "lithium soap"}, "mineral_grease"),
        ({"base": "PAO", "thickener": "PTFE"}, "pao_oil"),
        ({"base": "silicone", "thickener": "silica"}, "silicone_oil_or_grease"),
        ({"base": "glycol"}, "glycol_brake_fluid"),
        ({"material": "PAO oil"}, "pao_oil"),
        ({"base": "unknown", "material": "mineral oil"}, "mineral_oil"),
        ({"base": "pfpe"}, ""),
        ({"material": "PTFE grease"}, ""),
        ({}, ""),
    ],
)
def test_the_base_oil_decides_by_which_fluid_it_is_judged(given: dict[str, Any], code: str) -> None:
    """The thickener of a grease never does; without a base the name does, as far as it tells one."""
    found = read_model(Fluid, given, path="part").trade_name
    assert found.code == code
    assert code or found.remark


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"viscosity_40": "5 wt"}, "part.viscosity_40"),
        ({"viscosity_40": "15"}, "part.viscosity_40: the unit is missing"),
        ({"viscosity_40": "15 SUS"}, "'SUS' is not a unit of viscosity known here"),
        (
            {"viscosity_40": "3.7 cSt", "viscosity_100": "14.2 cSt"},
            "part.viscosity_100: is not below viscosity_40 (3.7 cSt): oil thins when warm",
        ),
        ({"base": "fish"}, "part.base: this is not one of the words it may be"),
        ({"density_15": "0.85 kg/m3"}, "is absurd here; is the unit right?"),
    ],
)
def test_what_is_no_viscosity_is_refused(given: dict[str, Any], told: str) -> None:
    """A weight, a bare number, another unit and exchanged values each get their own words."""
    with pytest.raises(InputErrors) as caught:
        read_model(Fluid, given, path="part")
    assert told in str(caught.value)


@pytest.mark.parametrize(
    ("viscosity_40", "vg"), [(9.0, 10), (11.0, 10), (11.01, None), (17.0, None), (22.0, 22), (500.0, None)]
)
def test_between_two_grades_lies_a_gap(viscosity_40: float, vg: int | None) -> None:
    """Limits are inclusive; many damper oils belong to no grade."""
    found = viscosity_grade(viscosity_40)
    assert (found.vg if found else None) == vg


@pytest.mark.parametrize("outside", [1.99, 70.1])
def test_table_1_is_not_stretched(outside: float) -> None:
    """Beyond 2 to 70 mm2/s the table gives nothing."""
    with pytest.raises(ValueError, match="runs from 2 to 70"):
        index_reference(outside)
