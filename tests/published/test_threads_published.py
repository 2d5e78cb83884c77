"""Threads against print: limits of size, stress areas, loads, torques, engaged lengths."""

from __future__ import annotations

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

import fitcheck.threads.engagement
import fitcheck.threads.preload
from fitcheck.rule import RULES
from fitcheck.threads.engagement import normal_engagement_mm
from schema.amounts import parse_amount
from schema.thread_limits import limits_of_size
from schema.thread_tables import (
    PrintedLimits,
    metric_sizes,
    property_class,
    range_start_mm,
    tolerance_cell,
    unified_sizes,
)
from schema.threads import parse_thread

assert fitcheck.threads.engagement
assert fitcheck.threads.preload

Row = dict[str, str]


def read(name: str) -> list[Row]:
    with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


EXAMPLES, LISTED = read("threads.csv"), read("thread_limits_list.csv")
EXTERNAL = ("d_max", "d_min", "d2_max", "d2_min")


@pytest.mark.parametrize("row", [pytest.param(row, id=row["case"]) for row in EXAMPLES])
def test_a_worked_example_is_met(row: Row) -> None:
    """The printed result follows from the printed inputs within the tolerance that the row gives."""
    inputs = {name: float(value) for name, value in (pair.split("=") for pair in row["inputs"].split(";"))}
    tolerance = float(row["tolerance"]) + 1e-9
    assert RULES[row["rule"]](**inputs) == pytest.approx(float(row["expected"]), abs=tolerance, rel=0)


def test_every_example_cites_its_page_and_says_why_its_tolerance() -> None:
    """No example is without source, locator and the reason of its tolerance; their names differ."""
    assert all(row[name] for row in EXAMPLES for name in ("source", "locator", "tolerance_reason"))
    assert len({row["case"] for row in EXAMPLES}) == len(EXAMPLES)


def cells(row: Row) -> dict[str, tuple[Decimal | None, Decimal]]:
    """Our limit and the printed one of every column of a row of the list."""
    thread = parse_thread(row["thread"])
    outside, inside = limits_of_size(thread, "external"), limits_of_size(thread, "internal")
    ours: dict[str, PrintedLimits | None] = {
        "d": outside.major,
        "d2": outside.pitch,
        "D1": inside.minor,
        "D2": inside.pitch,
    }
    found = {}
    for column in ("d", "d2", "D1", "D2"):
        limits = ours[column]
        found[f"{column}_min"] = (limits.low_mm if limits else None, Decimal(row[f"{column}_min"]))
        found[f"{column}_max"] = (limits.high_mm if limits else None, Decimal(row[f"{column}_max"]))
    return found


def half_a_digit(column: str, printed: Decimal) -> Decimal:
    """The list prints external sizes with four digits, internal ones with three places."""
    return Decimal("0.005") if column in EXTERNAL and printed >= 10 else Decimal("0.0005")


def different(row: Row) -> list[str]:
    return [
        column
        for column, (ours, printed) in cells(row).items()
        if ours is None or abs(ours - printed) > half_a_digit(column, printed)
    ]


@pytest.mark.parametrize("row", [pytest.param(row, id=row["thread"]) for row in LISTED])
def test_limits_of_size_are_those_of_the_list(row: Row) -> None:
    """All eight limits of 6g and 6H agree with a list of another origin, but for its known errors."""
    assert bool(different(row)) == bool(row["differs"])


def test_the_list_still_differs_in_the_cells_that_were_noted() -> None:
    """Each noted error is still there, cell for cell, so that a mended list would be noticed."""
    noted = {row["thread"]: tuple(different(row)) for row in LISTED if row["differs"]}
    assert noted == {
        "M2x0.25": ("D1_min", "D1_max", "D2_min", "D2_max"),
        "M14x1.25": ("D2_max",),
        "M18x2.5": ("D2_max",),
        "M33x3.5": ("d_min", "d_max", "d2_min", "d2_max"),
        "M52x5": ("d2_min", "D2_max"),
    }
    assert len(LISTED) == 139


@pytest.mark.parametrize(
    ("designation", "side", "diameter", "end", "printed"),
    [
        # obliczenia.icad.pl, sample page M10 - 6g
        ("M10", "external", "major", "low_mm", "9.732"),
        ("M10", "external", "major", "high_mm", "9.968"),
        ("M10", "external", "pitch", "low_mm", "8.862"),
        ("M10", "external", "pitch", "high_mm", "8.994"),
        # amesweb.info, external limits by ASME B1.13M
        ("M5-6h", "external", "major", "low_mm", "4.850"),
        ("M5-6h", "external", "pitch", "low_mm", "4.385"),
        ("M4-4g6g", "external", "pitch", "low_mm", "3.467"),
        ("M4-4g6g", "external", "major", "low_mm", "3.838"),
        ("M2.5-4g6g", "external", "pitch", "low_mm", "2.143"),
        # Iscar tap guide 2022 p. 56, 6H nuts
        ("M6", "internal", "pitch", "high_mm", "5.500"),
        ("M10", "internal", "pitch", "high_mm", "9.206"),
        ("M11", "internal", "pitch", "high_mm", "10.206"),
        ("M12", "internal", "pitch", "high_mm", "11.063"),
        ("M16", "internal", "pitch", "high_mm", "14.913"),
        ("M18", "internal", "pitch", "high_mm", "16.600"),
        ("M1.6", "internal", "pitch", "high_mm", "1.458"),
        # Yamawa catalogue 2021 p. 646: 4H and 5H of M3 (63 and 80 um on 2.675)
        ("M3-4H", "internal", "pitch", "high_mm", "2.738"),
        ("M3-5H", "internal", "pitch", "high_mm", "2.755"),
        # Yamawa catalogue 2016 p. 722 and 2022 p. 999: minor diameters of JIS 6H
        ("M10", "internal", "minor", "high_mm", "8.676"),
        ("M12", "internal", "minor", "high_mm", "10.441"),
    ],
)
def test_a_limit_is_the_one_that_other_pages_print(
    designation: str, side: str, diameter: str, end: str, printed: str
) -> None:
    """Limits agree with four more pages: a calculator's sample, a table, a guide and a catalogue."""
    limits = getattr(limits_of_size(parse_thread(designation), side), diameter)
    assert getattr(limits, end) == Decimal(printed)


@pytest.mark.parametrize(
    ("quantity", "pitch", "major", "um", "formula_um"),
    [
        ("Td", "0.75", "8", 140, 150),
        ("Td", "4", "36", 475, 450),
        ("TD1", "0.5", "3", 140, 132),
        ("TD1", "2.5", "20", 450, 425),
        ("Td2", "0.5", "4", 75, 80),
        ("Td2", "5", "48", 250, 265),
        ("TD2", "1.5", "10", 180, 170),
        ("TD2", "0.45", "2.5", 95, 90),
        ("TD2", "1.25", "12", 180, 170),
        ("TD2", "1.5", "16", 190, 180),
        ("TD2", "4.5", "42", 315, 300),
        ("TD2", "0.5", "4", 100, 106),
    ],
)
def test_a_tolerance_is_the_cell_and_not_the_rounded_formula(
    quantity: str, pitch: str, major: str, um: int, formula_um: int
) -> None:
    """Where the printed table and the rounded formula of ISO 965-1 part, the printed cell is kept."""
    cell = tolerance_cell(quantity, "6", Decimal(pitch), Decimal(major))
    assert cell is not None
    assert cell.um == um != formula_um


def test_a_class_without_printed_factor_has_no_pitch_diameter() -> None:
    """Grade 5 of M8x1 has no printed cell and no printed factor, so it is not made up."""
    limits = limits_of_size(parse_thread("M8x1-5g6g"), "external")
    assert limits.pitch is None
    assert limits.major is not None


def test_a_factor_gives_a_limit_that_is_marked_as_derived() -> None:
    """Grade 8 of the major diameter is 1.6 times grade 6 by a printed factor, and says so."""
    limits = limits_of_size(parse_thread("M8x1-6g8g"), "external")
    assert limits.major is not None
    assert limits.major.low_mm == Decimal("7.974") - Decimal("0.180") * Decimal("1.6")
    assert limits.major.grade == "derived"


@pytest.mark.parametrize(
    ("name", "major_mm", "tensile", "yield_mpa", "proof"),
    [
        ("8.8", 8.0, 800, 640, 580),
        ("8.8", 20.0, 830, 660, 600),
        ("10.9", 8.0, 1040, 940, 830),
        ("12.9", 8.0, 1220, 1100, 970),
    ],
)
def test_a_class_has_the_strengths_that_are_printed(
    name: str, major_mm: float, tensile: float, yield_mpa: float, proof: float
) -> None:
    """10.9 is 1040 and 940 MPa, not 1000 and 900 as its name says (roymech.org, mem50212)."""
    found = property_class(name, major_mm)
    assert found is not None
    assert (found.tensile_mpa, found.yield_mpa, found.proof_mpa) == (tensile, yield_mpa, proof)


def test_the_ultimate_load_with_a_digit_too_many_is_not_met() -> None:
    """One table prints 91130 N for M4 10.9; the other prints 9130 N, which its own area gives."""
    load = RULES["load_at"](stress_mpa=1040.0, area_mm2=8.78)
    assert load == pytest.approx(9130, abs=5)
    assert load < 91130 / 9


def test_the_engaged_length_of_the_worked_example_is_met() -> None:
    """M10x1.5 8.8 (830 MPa, 58 mm2) in 310 MPa metal needs 9.4 mm, as a public worked example prints."""
    area = RULES["internal_shear_area"](major_diameter_mm=10.0, pitch_diameter_mm=9.026, pitch_mm=1.5)
    per_mm = RULES["stripping_load"](
        engaged_mm=1.0,
        internal_area=area,
        external_area=19.74,
        internal_strength_mpa=310.0,
        external_strength_mpa=830.0,
    )
    assert RULES["load_at"](stress_mpa=830.0, area_mm2=58.0) / per_mm == pytest.approx(9.4, abs=0.05)


@pytest.mark.parametrize(
    ("pitch_mm", "major_mm", "low", "high"),
    [(0.8, 5.0, 2.5, 7.5), (1.0, 8.0, 3, 9), (1.25, 8.0, 4, 12), (1.5, 10.0, 5, 15), (1.0, 12.0, 3.8, 11)],
)
def test_normal_engagement_is_near_the_printed_range(
    pitch_mm: float, major_mm: float, low: float, high: float
) -> None:
    """The formulas meet the rounded table of engineersedge.com within the step of its rounding, 20 %."""
    found = normal_engagement_mm(pitch_mm=pitch_mm, range_start_mm=range_start_mm(major_mm))
    assert found == pytest.approx((low, high), rel=0.2)


@pytest.mark.parametrize(
    ("text", "newton_metre"),
    [("1 lbf in", 0.112985), ("1 in-lb", 0.112985), ("1 lbf ft", 1.355818), ("1 kgf cm", 0.0980665)],
)
def test_units_of_torque_are_the_printed_ones(text: str, newton_metre: float) -> None:
    """Trade spellings of torque have the printed factors; in-lb and ft-lb differ by twelve."""
    found = parse_amount(text, "torque")
    assert float(found.nominal) / 1000 == pytest.approx(newton_metre, abs=5e-7)


@pytest.mark.parametrize(
    ("newton_metre", "pound_inch"), [(4, 35), (7, 62), (12, 106)], ids=["4 N m", "7 N m", "12 N m"]
)
def test_printed_pairs_of_torque_agree_to_their_rounding(newton_metre: int, pound_inch: int) -> None:
    """Service pages print 4, 7 and 12 N m as 35, 62 and 106 lbf in."""
    inch = parse_amount("1 lbf in", "torque").nominal
    assert round(parse_amount(f"{newton_metre} N m", "torque").nominal / inch) == pound_inch


@pytest.mark.parametrize(
    ("designation", "major_mm", "pitch_mm"),
    [
        ("8V1", 7.747, 0.79375),  # printable valve-cap project: 0.305 in, 25.4/32
        ("5V1", 5.309, 0.706),  # yoshiokasyd: 0.209 in, pitch 0.706
        ("5V2", 5.2, 1.058),  # HandWiki, citing ISO 4570
        ("6V1", 6.0, 0.80),  # HandWiki, citing ISO 4570
        ("CTV8-32", 7.9, 0.7938),  # JIS D 9422 annex A, as quoted
        ("CTV8-30", 8.1, 0.8466),
        ("CTV5-24", 5.1, 1.0583),
        ("#12-24", 5.486, 1.0583),  # threadlib list of UN sizes
        ("#10-32", 4.826, 0.7937),
        ("5/16-24", 7.938, 1.0583),
        ("7/8-14", 22.225, 1.8143),
    ],
)
def test_inch_and_valve_threads_have_the_printed_sizes(
    designation: str, major_mm: float, pitch_mm: float
) -> None:
    """Major diameter and pitch are those of the pages read, to half of their last digit."""
    thread = parse_thread(designation)
    assert thread.major_mm == pytest.approx(major_mm, abs=0.0005)
    assert thread.pitch_mm == pytest.approx(pitch_mm, abs=0.0005)


def test_the_limits_of_a_valve_thread_are_printed_and_not_worked_out() -> None:
    """6V1 has its pitch diameter 0.19 mm above the metric profile of 6 x 0.8 (5.480)."""
    limits = limits_of_size(parse_thread("6V1"), "external").pitch
    assert limits is not None
    assert (limits.low_mm, limits.high_mm) == (Decimal("5.52"), Decimal("5.67"))
    assert limits_of_size(parse_thread("8V1"), "external").pitch is None


def test_the_tables_are_the_ones_that_were_read() -> None:
    """The files are pinned by counts: sizes, worked examples by source."""
    assert (len(metric_sizes()), len(unified_sizes())) == (151, 16)
    assert Counter(row["source"] for row in EXAMPLES) == {
        "usefastener.com": 28,
        "slsbearings.com": 21,
        "public worked example, bolt torque": 3,
        "threadlib (general CAD thread library)": 1,
    }
