"""Rings, grooves and loads against printed tables, and worked examples of makers' sheets and textbooks."""

from __future__ import annotations

import csv
import math
import re
from collections import Counter
from pathlib import Path

import numpy as np
import pytest

from fitcheck.eyelets.stack import bolt_clearance, side_gap, stack_with
from fitcheck.numbers import Span
from fitcheck.retaining_rings.loads import groove_area_load
from fitcheck.rule import span
from fitcheck.setting import drawn_span
from schema.dimension import parse_dimension
from schema.retaining_tables import FlatRing, flat_ring, sizes

HERE = Path(__file__).parent
LBF_N, PSI_MPA, IN_MM = 4.4482216152605, 0.006894757293168, 25.4


def read(name: str) -> list[dict[str, str]]:
    """The rows of a table of printed values."""
    with (HERE / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


CELLS = read("retaining_ring_cells.csv")
EXAMPLES = read("hardware_examples.csv")
FLAT = [flat_ring(table, size) for table in ("din471", "din472") for size in sizes(table)]


def nominal(ring: FlatRing, field: str) -> float:
    """The value of a printed column, from the shipped row."""
    end = 1 if ring.is_bore else 0
    loads = {
        "groove_load": ring.groove_load_n,
        "ring_load": ring.ring_load_n,
        "chamfered_load": ring.chamfered_load_n,
    }
    if field in loads:
        return (loads[field] or math.nan) / 1000.0
    values = {
        "thickness": ring.thickness[1],
        "width": ring.width[0],
        "depth": ring.depth,
        "land": ring.land,
        "chamfer": ring.chamfer or math.nan,
        "groove": ring.groove[1 - end],
    }
    return values.get(field, math.nan)


def test_there_are_as_many_cells_as_were_read() -> None:
    """531 cells of five lists that the shipped rows were not copied from."""
    assert len(CELLS) == 531
    assert len({row["source"] for row in CELLS}) == 5


@pytest.mark.parametrize("source", sorted({row["source"] for row in CELLS}))
def test_a_list_prints_what_is_shipped(source: str) -> None:
    """Every cell of a list is the shipped one but for those that say why they differ, which still do."""
    wrong = []
    for row in CELLS:
        if row["source"] != source or row["field"] == "free":
            continue
        ring = flat_ring(row["table"], float(row["size_mm"]))
        assert ring is not None
        same = nominal(ring, row["field"]) == pytest.approx(float(row["printed"]), abs=1e-9)
        if same is bool(row["differs"]):
            wrong.append(row)
    assert wrong == []


def test_free_diameters_lie_within_the_shipped_limits() -> None:
    """The nominal free diameter of every list lies between the shipped limits."""
    checked = 0
    for row in CELLS:
        if row["field"] != "free":
            continue
        ring = flat_ring(row["table"], float(row["size_mm"]))
        assert ring is not None
        assert ring.free[0] < float(row["printed"]) < ring.free[1], row
        checked += 1
    assert checked == 82


def test_the_printed_load_of_a_groove_is_its_area_at_200_mpa_over_one_point_two() -> None:
    """110 of 111 printed loads follow from the groove's own area within 3 %; the odd one is DIN 472 - 38."""
    odd, counted = [], 0
    for ring in FLAT:
        assert ring is not None
        if ring.groove_load_n is None:
            continue
        counted += 1
        groove = ring.groove[0] if ring.is_bore else ring.groove[1]
        outer, inner = max(groove, ring.size), min(groove, ring.size)
        found = groove_area_load(yield_mpa=200.0, outer_mm=outer, inner_mm=inner)
        if abs(found / ring.groove_load_n - 1.0) > 0.03:
            odd.append((ring.name, ring.groove_load_n, round(found)))
    assert counted == 111
    assert odd == [("DIN 472 - 38", 22500.0, 20420)]


def test_the_chamfered_corner_governs_most_rings() -> None:
    """With a sharp corner the groove is the weaker in 109 sizes of 111, with the chamfer g the ring in 92."""
    loads = [
        (ring.groove_load_n, ring.ring_load_n, ring.chamfered_load_n)
        for ring in FLAT
        if ring and ring.groove_load_n and ring.ring_load_n and ring.chamfered_load_n
    ]
    shares = sorted(chamfered / sharp for _, sharp, chamfered in loads)
    assert sum(groove <= sharp for groove, sharp, _ in loads) == 109
    assert sum(chamfered < groove for groove, _, chamfered in loads) == 92
    assert (round(shares[0], 2), round(shares[55], 2), round(shares[-1], 2)) == (0.14, 0.21, 0.80)


def test_every_ring_enters_every_groove_of_its_row() -> None:
    """Over all 150 rows the thickest ring has 0.10 to 0.15 mm of play in the narrowest groove."""
    plays = [round(ring.width[0] - ring.thickness[1], 3) for ring in FLAT if ring]
    assert len(plays) == 150
    assert (min(plays), max(plays)) == (0.1, 0.15)


@pytest.mark.parametrize("ring", FLAT, ids=lambda ring: ring.name)
def test_groove_tolerances_are_those_of_their_grade(ring: FlatRing) -> None:
    """DIN 471 has h10, h11, h12 and DIN 472 H11, H12 by size; DIN 471 - 10 is wider than its grade."""
    if ring.is_bore:
        grade = "H11" if ring.size <= 22 else "H12"
    else:
        grade = "h10" if ring.size <= 9 else "h11" if ring.size <= 22 else "h12"
    at = ring.groove[0] if ring.is_bore else ring.groove[1]
    size = parse_dimension(f"{at:g} {grade} mm")
    same = (float(size.lower), float(size.upper)) == pytest.approx(ring.groove, abs=0.0051)
    assert same is (ring.name != "DIN 471 - 10")


def numbers(text: str) -> dict[str, float]:
    """The named numbers of an example's inputs."""
    return {name: float(value) for name, value in re.findall(r"(\w+)=(\d+\.?\d*)", text)}


INCH = [row for row in EXAMPLES if row["kind"] == "groove_thrust_inch"]


@pytest.mark.parametrize("row", INCH, ids=lambda row: row["source"])
def test_thrust_of_a_groove_on_a_makers_sheet(row: dict[str, str]) -> None:
    """Makers' sheets work out Cf B d Ys pi / 2; our own area over one gives that within the depth over B.

    The sheets take pi B d for the area of the groove; the ring between the two diameters is pi d (B -/+ d).
    """
    given = numbers(row["inputs"])
    share = 0.01 if row["unit"] == "N" else 0.002
    own = given.get("Cf", 1.0) * given["B"] * given["d"] * given["Ys"] * math.pi / given["K"]
    assert own == pytest.approx(float(row["printed"]), rel=share)
    to_mm = IN_MM if row["unit"] == "lbf" else 1.0
    bore, depth = given["B"] * to_mm, given["d"] * to_mm
    metal = given["Ys"] * (PSI_MPA if row["unit"] == "lbf" else 1.0)
    outer = bore + 2 * depth
    ours = groove_area_load(yield_mpa=metal, outer_mm=outer, inner_mm=bore) * 1.2 / given["K"]
    ours *= given.get("Cf", 1.0) / (LBF_N if row["unit"] == "lbf" else 1.0)
    assert ours == pytest.approx(own * (1.0 + depth / bore), rel=1e-6)


GROOVES = [row for row in EXAMPLES if row["kind"] == "groove_load"]


@pytest.mark.parametrize("row", GROOVES, ids=lambda row: row["inputs"])
def test_printed_loads_of_grooves(row: dict[str, str]) -> None:
    """W06, W07, W09: FN in print, at 200 MPa."""
    given = numbers(row["inputs"])
    outer, inner = max(given["d1"], given["d2"]), min(given["d1"], given["d2"])
    share = float(row["tolerance"].split()[0]) / 100
    found = groove_area_load(yield_mpa=200.0, outer_mm=outer, inner_mm=inner)
    assert found == pytest.approx(float(row["printed"]), rel=share)


def test_printed_groove_tolerances_land_and_class() -> None:
    """DIN 471 - 30: 28.6 0/-0.21; DIN 472 - 40: 42.5 +0.25/0; DIN 471 - 20: land 1.5; DIN 472 - 35: 37.0."""
    rings = {ring.name: ring for ring in FLAT if ring}
    assert rings["DIN 471 - 30"].groove == (28.39, 28.6)
    assert rings["DIN 472 - 40"].groove == (42.5, 42.75)
    assert rings["DIN 471 - 20"].land == 1.5
    assert (rings["DIN 472 - 35"].groove[0], rings["DIN 472 - 35"].width[0]) == (37.0, 1.6)


BEARING_ASSEMBLY = ((25.0, 0.025, 1), (25.05, 0.013, -1), (10.0, 0.1, 1))


def test_the_worked_bearing_assembly() -> None:
    """Worst case 9.8120 to 10.0880, three sigma 9.8461 to 10.0539, as a public worked sample prints."""
    plus = [Span(size - t, size, size + t) for size, t, way in BEARING_ASSEMBLY if way > 0]
    minus = Span(25.05 - 0.013, 25.05, 25.05 + 0.013)
    gap = span(side_gap, mount_width_mm=span(stack_with, stack_mm=plus[0], width_mm=plus[1]), stack_mm=minus)
    assert gap == pytest.approx((9.8120, 9.9500, 10.0880), abs=5e-5)
    sigma3 = math.sqrt(sum(t * t for _, t, _ in BEARING_ASSEMBLY))
    assert (gap.middle - sigma3, gap.middle + sigma3) == pytest.approx((9.8461, 10.0539), abs=5e-5)


def test_the_sign_of_a_one_sided_tolerance() -> None:
    """A part that may only be thinner widens the gap: middle 0.40, worst case 0.017 to 0.783, not 0.10.

    Read the other way (a tolerance entered negative as if it thickened the part) the same stack gives 0.10
    and a gap that may close: -0.283 to 0.483.
    """
    thinner, thicker = _motor_gap("0/-0.06", "0/-0.12"), _motor_gap("+0.06/0", "+0.12/0")
    assert thinner == pytest.approx((0.017, 0.400, 0.783), abs=5e-4)
    assert thicker == pytest.approx((-0.283, 0.100, 0.483), abs=5e-4)
    halves = (0.036, 0.026, 0.026, 0.03, 0.06, 0.06, 0.145)
    sigma3 = math.sqrt(sum(half * half for half in halves))
    assert (thinner.middle - sigma3, thinner.middle + sigma3) == pytest.approx((0.2218, 0.5782), abs=5e-4)


def _motor_gap(ring: str, race: str) -> Span:
    """Shaft and two sleeves less ring, two bearings and case, each at its limits."""
    outside = _added("208 ±0.036 mm", "20 ±0.026 mm", "20 ±0.026 mm")
    inside = _added(f"1.75 {ring} mm", f"23 {race} mm", f"23 {race} mm", "200 ±0.145 mm")
    return span(side_gap, mount_width_mm=outside, stack_mm=inside)


def _added(first: str, *others: str) -> Span:
    """Several drawn widths one after the other."""
    total = drawn_span(parse_dimension(first))
    for text in others:
        total = span(stack_with, stack_mm=total, width_mm=drawn_span(parse_dimension(text)))
    return total


def test_two_bolts_may_lie_apart_by_their_least_clearance() -> None:
    """Bhandari, Ex. 3.4: two 12 mm bolts H11/d11 at 50 mm go in from 49.950 to 50.050."""
    hole, bolt = parse_dimension("12 H11 mm"), parse_dimension("12 d11 mm")
    least = bolt_clearance(hole_mm=float(hole.lower), bolt_mm=float(bolt.upper))
    assert (50.0 - least, 50.0 + least) == pytest.approx((49.950, 50.050), abs=5e-4)


def test_a_transition_fit_has_the_probability_of_its_distribution() -> None:
    """25 H7/k6: worst case -15 to +19 um; interference in 31.4 % of normal and 40.5 % of uniform sizes."""
    hole, shaft = parse_dimension("25 H7 mm"), parse_dimension("25 k6 mm")
    worst = (float(hole.lower - shaft.upper) * 1000, float(hole.upper - shaft.lower) * 1000)
    assert worst == pytest.approx((-15.0, 19.0))
    drawn = np.random.default_rng(286).uniform(size=(2, 400_000))
    clearance = 21.0 * drawn[0] - (2.0 + 13.0 * drawn[1])
    assert float((clearance < 0).mean()) == pytest.approx(8.5 / 21, abs=0.003)


def test_every_example_is_held() -> None:
    """No printed example lies unused: each kind has a test above."""
    # What the tests above write out by hand is what the file prints.
    assert [row["printed"] for row in EXAMPLES[7:]] == [
        "-0.21",
        "0.25",
        "1.5",
        "37.0",
        "9.8120..10.0880",
        "9.8461..10.0539",
        "0.017..0.783",
        "49.950..50.050",
    ]
    assert Counter(row["kind"] for row in EXAMPLES) == {
        "groove_thrust_inch": 4,
        "groove_load": 3,
        "groove_tolerance": 2,
        "land": 1,
        "groove": 1,
        "stack": 2,
        "stack_one_sided": 1,
        "two_bolts": 1,
    }
