"""Bushings and press fits against what was read in print: wrapped sizes, ISO 2795, worked press fits."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest

import fitcheck.bushings.inquiry  # enters the rules
from fitcheck.bushings.clearance import running_clearance, wrapped_bore
from fitcheck.bushings.press_fit import seat_interference
from fitcheck.numbers import Span
from fitcheck.rule import RULES, span
from schema.bushing_tables import fit_row, published_wall, wrapped_clearance
from schema.iso286 import tolerance_zone
from schema.tables import rows

assert fitcheck.bushings.inquiry

Row = dict[str, str]
with Path(__file__).with_name("press_fits.csv").open(encoding="utf-8", newline="") as stream:
    PRESS_FITS: list[Row] = list(csv.DictReader(stream))
WRAPPED = rows("wrapped_bushings")
PRINTED = [row for row in WRAPPED if row["grade"] == "published_once"]


def answer(row: Row) -> float:
    """The rule of a row with its inputs, in the unit that is printed."""
    inputs = {name: float(value) for name, value in (one.split("=") for one in row["inputs"].split(";"))}
    return float(row["factor"]) * RULES[row["rule"]](**inputs)


@pytest.mark.parametrize("row", PRESS_FITS, ids=[row["case"] for row in PRESS_FITS])
def test_a_printed_press_fit_is_met_or_its_slip_is_known(row: Row) -> None:
    """Every worked answer is met to half of its last digit; the one that has a slip is still missed."""
    near = answer(row) == pytest.approx(float(row["printed"]), abs=float(row["tolerance"]))
    assert near is (row["agrees"] == "yes")


def test_the_slip_is_a_factor_of_one_less_nu_squared() -> None:
    """The answer that differs is Lamé's divided by 1 - nu^2, as for a long tube (nu 0.29 inferred)."""
    slip = next(row for row in PRESS_FITS if row["agrees"] == "no")
    assert answer(slip) / (1 - 0.29**2) == pytest.approx(float(slip["printed"]), abs=0.05)


def size(row: Row, name: str) -> Span:
    return Span(*(float(row[f"{name}_{end}_mm"]) for end in ("min", "min", "max")))


@pytest.mark.parametrize("row", PRINTED, ids=[f"{row['inside_mm']} x {row['outside_mm']}" for row in PRINTED])
def test_a_printed_wrapped_row_follows_from_its_classes_and_wall(row: Row) -> None:
    """Housing and shaft of the printed classes and the printed wall give the printed bore and clearance."""
    inside, outside = Decimal(row["inside_mm"]), Decimal(row["outside_mm"])
    housing = tolerance_zone(row["housing_class"], outside)
    assert [housing.lower_limit_mm, housing.upper_limit_mm] == [
        Decimal(row["housing_min_mm"]),
        Decimal(row["housing_max_mm"]),
    ]
    shaft = tolerance_zone(row["shaft_class"], inside)
    assert [shaft.lower_limit_mm, shaft.upper_limit_mm] == [
        Decimal(row["shaft_min_mm"]),
        Decimal(row["shaft_max_mm"]),
    ]
    bore = span(wrapped_bore, housing_bore_mm=size(row, "housing"), wall_mm=size(row, "wall"))
    assert bore.low == pytest.approx(float(row["bore_min_mm"]), abs=1e-9)
    assert bore.high == pytest.approx(float(row["bore_max_mm"]), abs=1e-9)
    clearance = span(running_clearance, fitted_bore_mm=bore, shaft_diameter_mm=size(row, "shaft"))
    assert 1000 * clearance.low == pytest.approx(float(row["clearance_min_um"]), abs=1e-6)
    assert 1000 * clearance.high == pytest.approx(float(row["clearance_max_um"]), abs=1e-6)


@pytest.mark.parametrize("row", WRAPPED, ids=[f"{row['inside_mm']} x {row['outside_mm']}" for row in WRAPPED])
def test_the_band_of_a_size_is_that_of_its_row(row: Row) -> None:
    """The band a check is made by is the row's own, with the row's grade."""
    band = wrapped_clearance(Decimal(row["inside_mm"]), Decimal(row["outside_mm"]))
    assert band is not None
    assert 1000 * band.low == pytest.approx(float(row["clearance_min_um"]), abs=1e-6)
    assert 1000 * band.high == pytest.approx(float(row["clearance_max_um"]), abs=1e-6)
    assert band.grade == row["grade"]


@pytest.mark.parametrize("row", PRINTED[1:-1], ids=[row["inside_mm"] for row in PRINTED[1:-1]])
def test_a_printed_row_would_be_found_from_its_neighbours(row: Row, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a row taken out, its wall comes from the printed size beside it, where that has the same wall."""
    inside, outside = Decimal(row["inside_mm"]), Decimal(row["outside_mm"])
    others = tuple(one for one in WRAPPED if one is not row)
    monkeypatch.setattr("schema.bushing_tables.rows", lambda _: others)
    wall = published_wall.__wrapped__(inside, outside)
    at = PRINTED.index(row)
    beside = {(one["wall_min_mm"], one["wall_max_mm"]) for one in (PRINTED[at - 1], PRINTED[at + 1])}
    if (row["wall_min_mm"], row["wall_max_mm"]) in beside:
        assert wall is not None
        assert (wall.low, wall.high) == (Decimal(row["wall_min_mm"]), Decimal(row["wall_max_mm"]))
        assert wall.grade == "derived"
    else:
        assert wall is None


def test_the_step_between_18_and_19_mm_is_seen() -> None:
    """An outside diameter of 18 belongs to 10 to 18 (H7 +18), one of 19 to 18 to 30 (+21)."""
    at_18, at_19 = wrapped_clearance(Decimal(16), Decimal(18)), wrapped_clearance(Decimal(17), Decimal(19))
    assert at_18 is not None
    assert at_19 is not None
    assert (at_18.high, at_19.high) == (0.092, 0.095)


def test_iso_2795_of_a_12_by_16_bushing() -> None:
    """Outside r6 to s7 in H7: 5 to 46 um; bore as delivered F7 to G7: +6 to +34 um; after fitting H7."""
    row = fit_row("sintered", Decimal(12), Decimal(16))
    assert row is not None
    assert (row.housing, row.bore_fitted, row.grade) == ("H7", "H7", "published_twice")
    housing = tolerance_zone(row.housing, Decimal(16))
    loosest, tightest = tolerance_zone("r6", Decimal(16)), tolerance_zone("s7", Decimal(16))
    least = seat_interference(
        outside_diameter_mm=float(loosest.lower_limit_mm), housing_bore_mm=float(housing.upper_limit_mm)
    )
    most = seat_interference(
        outside_diameter_mm=float(tightest.upper_limit_mm), housing_bore_mm=float(housing.lower_limit_mm)
    )
    assert 1000 * least == pytest.approx(5)
    assert 1000 * most == pytest.approx(46)
    assert tolerance_zone("G7", Decimal(12)).lower_um == 6
    assert tolerance_zone("F7", Decimal(12)).upper_um == 34


@pytest.mark.parametrize(("outside", "fitted"), [("50", "H7"), ("50.001", "H8")])
def test_iso_2795_changes_above_50_mm(outside: str, fitted: str) -> None:
    """Up to and including 50 mm outside the fitted bore is H7, above it H8."""
    row = fit_row("sintered", Decimal(40), Decimal(outside))
    assert row is not None
    assert row.bore_fitted == fitted
