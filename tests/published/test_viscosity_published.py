"""Viscosity and its index as standards and worksheets print them."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from fitcheck.fluids.index import printed_index, viscosity_index
from fitcheck.fluids.viscosity import SHORT, Walther, through
from schema.viscosity_tables import index_reference, viscosity_grades

Row = dict[str, str]
with Path(__file__).with_name("viscosity.csv").open(encoding="utf-8", newline="") as stream:
    ROWS: list[Row] = list(csv.DictReader(stream))
IDS = [f"{row['what']} {row['inputs']}" for row in ROWS]


def _index(viscosity_40: float, viscosity_100: float) -> float:
    found = viscosity_index(viscosity_40, viscosity_100)
    assert found is not None
    return printed_index(found)


def _line(zero: float, viscosity_40: float, viscosity_100: float) -> Walther:
    return through((40.0, viscosity_40), (100.0, viscosity_100), form=SHORT, zero=zero)


WORKED = {
    "viscosity_index": _index,
    "l_reference": lambda y: index_reference(y)[0],
    "h_reference": lambda y: index_reference(y)[1],
    "walther_a": lambda *given: _line(*given).a,
    "walther_b": lambda *given: _line(*given).b,
    "walther_80": lambda *given: _line(*given).at(80.0),
    "chart_30": lambda *given: _line(273.15, *given).at(30.0),
    "chart_75": lambda *given: _line(273.15, *given).at(75.0),
    "vg_low": lambda vg: next(one.low for one in viscosity_grades() if one.vg == vg),
    "vg_high": lambda vg: next(one.high for one in viscosity_grades() if one.vg == vg),
}


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_a_printed_value_is_met(row: Row) -> None:
    """Every printed answer follows from its inputs within its own digits."""
    found = WORKED[row["what"]](*map(float, row["inputs"].split(";")))
    assert found == pytest.approx(float(row["printed"]), abs=float(row["tolerance"]) + 1e-9), row["source"]


def test_procedure_a_above_100_would_print_another_index() -> None:
    """The second printed example by procedure A is 150.6, not 156: the switch at 100 counts."""
    low, high = index_reference(5.05)
    assert 100 * (low - 22.83) / (low - high) == pytest.approx(150.6, abs=0.05)
    assert _index(22.83, 5.05) == 156


def test_constants_of_two_zeros_are_not_mixed() -> None:
    """A and B differ in the third digit by the zero of temperature; each line keeps its own."""
    old, new = _line(273.0, 32.0, 5.4), _line(273.15, 32.0, 5.4)
    assert (round(old.a, 4), round(new.a, 4)) == (9.5259, 9.5308)
    mixed = old._replace(zero=273.15)
    assert abs(new.at(80.0) - old.at(80.0)) < 0.001
    assert abs(mixed.at(80.0) - old.at(80.0)) > 0.01
