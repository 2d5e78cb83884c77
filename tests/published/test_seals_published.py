"""Lip seals and guide rings as sellers' pages and makers' sheets print them."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest

from schema.iso286 import tolerance_zone
from schema.seal_tables import PressBand, guide_rows, press_band, shaft_band
from schema.tables import rows

Row = dict[str, str]
with Path(__file__).with_name("seals.csv").open(encoding="utf-8", newline="") as stream:
    ROWS: list[Row] = list(csv.DictReader(stream))
IDS = [f"{row['what']} {row['inputs']}" for row in ROWS]
UM_IN_MM = Decimal(1000)


def _band(unit: str, case: str, bore: float) -> PressBand:
    found = press_band(unit, case, bore)
    assert found is not None
    return found


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_a_printed_band_is_met(row: Row) -> None:
    """Outside over bore, bore, shaft and the press-in that follows, as printed."""
    unit, *more = row["inputs"].split(";")
    if row["what"] == "shaft":
        shaft = shaft_band(unit, float(more[0]))
        assert shaft is not None
        found = shaft.rotary_low_mm, shaft.rotary_high_mm
    elif row["what"] == "bore":
        band = _band(unit, "metal", float(more[0]))
        found = band.bore_low_mm, band.bore_high_mm
    else:
        band = _band(unit, more[0], float(more[1]))
        found = (
            (band.low, band.high)
            if row["what"] == "press_in"
            else (band.outside_low_mm, band.outside_high_mm)
        )
    assert found == pytest.approx((float(row["low"]), float(row["high"])), abs=1e-9), row["source"]


@pytest.mark.parametrize("row", [row for row in rows("lip_seal_fits") if row["unit"] == "mm"], ids=str)
def test_seal_shafts_and_bores_are_those_of_iso_286(row: Row) -> None:
    """The printed shaft is h11, the printed bore H8, the rod f8, all the way up a step."""
    up_to = Decimal(row["up_to"])
    assert tolerance_zone("h11", up_to).lower_um == Decimal(row["shaft_low_um"])
    assert tolerance_zone("H8", up_to).upper_um == Decimal(row["bore_high_um"])
    first = Decimal(row["over"]) + Decimal("0.5")
    assert tolerance_zone("f8", first).lower_um == Decimal(row["rod_f8_low_um"])


def test_a_piston_groove_is_two_strips_below_its_bore() -> None:
    """In all five piston rows of the sheet, bore less groove is twice the strip (no play at nominal)."""
    piston = [row for row in guide_rows() if row.side == "piston"]
    assert len(piston) == 5
    assert [row.groove_offset_mm for row in piston] == [-2 * row.ring_thickness_mm for row in piston]
    assert {(row.ring_thickness_mm, row.radial_gap_max_mm) for row in piston} == {(1.55, 0.5), (2.5, 0.9)}


def test_an_inch_rod_groove_follows_its_pattern_but_for_the_misprint() -> None:
    """Nine rod rows have groove = rod + 1/4 in, throat = rod + .023 to .026 in; 13/16 does not."""
    rod = [row for row in guide_rows() if row.side == "rod"]
    odd = [row for row in rod if abs(row.groove_offset_mm - 6.35) > 0.001]
    assert (len(rod), [row.diameter_from_mm for row in odd]) == (10, [20.6375])
    assert [row.grade for row in odd] == ["disputed"]
    assert "throat 0.810" in odd[0].locator
    assert odd[0].diameter_from_mm > 0.810 * 25.4, "the throat would be smaller than its rod"
    straight = [row.radial_gap_max_mm for row in rod if row not in odd]
    assert straight == pytest.approx([(0.023 + 0.003) / 2 * 25.4] * 9, abs=1e-4)
