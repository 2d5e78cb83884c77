"""Lip seals and wipers in their seats: proven, refuted, and what the evidence does not tell."""

from __future__ import annotations

import pytest

from schema.finding import Status
from schema.housing_tables import housing_rows
from schema.seals import LipSeal, Wiper
from tests.fitcheck.seals.examples import SEAL, Texts, finding, seat

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT
FOAM: Texts = {"material": "polyurethane foam", "case": "foam", "width": "10 mm"}


def test_the_seal_that_is_listed_for_its_seat_fits() -> None:
    """Marked for the shaft, pressed in as printed, deep enough, of a rubber that stands the oil."""
    verdict = seat()
    assert verdict.status is FITS
    assert any("h11 is not asked of a rod that slides" in text for text in verdict.taken)


@pytest.mark.parametrize(
    ("outside", "case", "expected"),
    [
        ("42.22 ±0.05 mm", "rubber_covered", FITS),
        ("42.22 ±0.05 mm", "metal", NOT),  # metal is made 0.10 to 0.20 over nominal
        ("42.14 ±0.02 mm", "metal", FITS),
        ("42.15 ±0.08 mm", "rubber_covered", NOT),
        ("41.95 ±0.03 mm", "rubber_covered", OUT),  # smaller than its bore: falls out
        ("42.70 ±0.02 mm", "rubber_covered", OUT),  # above twice the printed press-in
        ("42.22 ±0.05 mm", None, NOT),
    ],
)
def test_the_press_in_is_judged_by_the_printed_band_of_its_case(
    outside: str, case: str | None, expected: Status
) -> None:
    """42 H8: rubber covered 0.111 to 0.300 mm, metal 0.061 to 0.200 mm; not larger than the bore refutes."""
    verdict = seat(part={"outside_diameter": outside, "case": case})
    assert finding(verdict, "press_in").status is expected


def test_without_the_case_the_band_is_not_guessed() -> None:
    """Rubber-covered and metal seals have different bands: the case is asked for."""
    verdict = seat(part={"case": None})
    assert verdict.status is NOT
    assert "case of the seal (rubber_covered, metal or none)" in finding(verdict, "press_in").lacks


def test_the_figure_of_the_unit_maker_leads() -> None:
    """A press-in wanted by the maker replaces the printed band, in both directions."""
    wanted = {"wanted_press": "0.05..0.20 mm"}
    assert finding(seat(wanted, {"outside_diameter": "42.14 ±0.04 mm"}), "press_in").status is FITS
    printed = finding(seat(None, {"outside_diameter": "42.14 ±0.04 mm"}), "press_in")
    assert printed.status is NOT
    told = finding(seat(wanted, {"outside_diameter": "42.28 ±0.02 mm"}), "press_in")
    assert told.status is NOT
    assert told.limits is not None
    assert (told.limits.grade, told.limits.source) == ("given", "as the maker gives it: 0.05..0.20 mm")


def test_a_seal_in_inches_is_judged_by_the_inch_table() -> None:
    """A 1.000 in bore: +0.003 to +0.009 in over nominal, bore +/-0.001 in."""
    inch = {
        "housing_bore": "1.000 +0.001/-0.001 in",
        "seat_depth": "0.190 +0.005/0 in",
        "shaft_diameter": "0.7495 +0/-0.0005 in",
    }
    part = {
        "outside_diameter": "1.006 ±0.002 in",
        "inside_diameter": "0.735 ±0.004 in",
        "width": "0.150 ±0.004 in",
        "made_for_shaft": "3/4 in",
    }
    verdict = seat(inch, part)
    assert verdict.status is FITS
    band = finding(verdict, "press_in").limits
    assert band is not None
    assert (band.low, band.high) == pytest.approx((0.002 * 25.4, 0.010 * 25.4))


# -- the lip -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shaft", "expected"),
    [
        ("32 h8 mm", FITS),
        ("32 f7 mm", FITS),
        ("32 f8 mm", FITS),
        ("32 h11 mm", NOT),  # the loosest that even a rotary seal allows
        ("31.70 ±0.02 mm", OUT),
        ("32.20 ±0.02 mm", OUT),
        ("32.02 ±U0.005 mm", NOT),
    ],
)
def test_the_shaft_is_the_one_the_seal_is_marked_for(shaft: str, expected: Status) -> None:
    """Rods from h to f8 prove; beyond the printed h11 of rotary seals it is another shaft."""
    assert finding(seat({"shaft_diameter": shaft}), "shaft_over_mark").status is expected


@pytest.mark.parametrize(
    ("lip", "model", "expected"),
    [
        ("31.65 ±0.10 mm", LipSeal, FITS),
        ("31.40 ±0.15 mm", LipSeal, NOT),  # up to 0.75 mm, above what is printed
        ("32.20 ±0.10 mm", LipSeal, OUT),
        ("29.40 ±0.15 mm", LipSeal, OUT),
        ("31.65 ±0.10 mm", Wiper, NOT),
    ],
)
def test_a_lip_that_is_not_marked_is_judged_by_its_grip(
    lip: str, model: type[LipSeal] | type[Wiper], expected: Status
) -> None:
    """0.15 to 0.60 mm is printed for rotary oil seals; for a wiper nothing is."""
    verdict = seat(part={"made_for_shaft": None, "inside_diameter": lip}, model=model)
    assert finding(verdict, "lip_grip").status is expected
    assert verdict.of("shaft_over_mark") is None


def test_a_lip_larger_than_its_shaft_is_refuted_whatever_is_marked() -> None:
    """No mark makes a lip touch a shaft that is smaller than it."""
    verdict = seat(part={"inside_diameter": "32.30 ±0.10 mm"})
    assert finding(verdict, "lip_grip").status is OUT
    assert verdict.status is OUT


def test_a_caliper_on_a_loose_seal_reads_neither_nominal() -> None:
    """A seal marked 32 x 42 read by calliper as 31.4 and 42.2 is no seal for 31.4 in 42.2."""
    read = {"inside_diameter": "31.4 mm by calliper", "outside_diameter": "42.2 mm by calliper"}
    assert seat(part=read).of("shaft_over_mark") == seat().of("shaft_over_mark")
    as_nominal = seat({"housing_bore": "42.2 H8 mm", "shaft_diameter": "31.4 h8 mm"}, read)
    assert finding(as_nominal, "press_in").status is not FITS
    assert finding(as_nominal, "shaft_over_mark").status is OUT


def test_a_calliper_reads_rubber_with_the_error_it_has_on_rubber() -> None:
    """The error on rubber is 0.05 mm: u = 0.029, and U widens the press-in by twice that."""
    found = finding(seat(part={"outside_diameter": "42.20 mm by calliper"}), "press_in")
    assert found.standard_uncertainty == pytest.approx(0.05 / 3**0.5, abs=1e-6)


# -- height --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("depth", "expected"),
    [("5.5 +0.2/0 mm", FITS), ("5.1 +0.1/0 mm", NOT), ("4.6 +0.1/0 mm", OUT)],
)
def test_a_seat_is_three_tenths_deeper_than_its_seal(depth: str, expected: Status) -> None:
    """SKF: 0.3 mm more than the nominal width; a seat that is too shallow for any seal refutes."""
    assert finding(seat({"seat_depth": depth}), "height_room").status is expected


def test_what_stands_out_must_clear_the_crown() -> None:
    """The total height is held against the room above, where it is told."""
    part = {"total_height": "9.0 ±0.2 mm"}
    assert finding(seat({"clear_height": "10 mm"}, part), "stand_out").status is FITS
    assert finding(seat({"clear_height": "8.5 mm"}, part), "stand_out").status is OUT
    assert "total height" in " ".join(finding(seat({"clear_height": "10 mm"}), "stand_out").lacks)


def test_seal_and_wiper_in_one_seat_share_its_depth() -> None:
    """Two parts stack: 5.0 and 4.0 mm do not go into 5.5 mm, and go into 9.6 mm."""
    wiper = (Wiper, {**_wiper(), "width": "4.0 ±0.1 mm"})
    assert finding(seat(more=(wiper,)), "height_room").status is OUT
    deep = seat({"seat_depth": "9.6 +0.2/0 mm"}, more=(wiper,))
    assert finding(deep, "height_room").status is FITS
    assert finding(deep, "press_in_of_wiper").status is FITS
    assert deep.status is FITS


def _wiper() -> Texts:
    return {
        "material": "NBR",
        "case": "rubber_covered",
        "inside_diameter": "31.30 ±0.10 mm",
        "outside_diameter": "42.22 ±0.05 mm",
        "made_for_shaft": "32 mm",
    }


def test_two_seals_of_one_kind_in_one_seat_are_not_judged_as_one() -> None:
    """Nothing would be known of the second: it is told, and not proven."""
    second = (LipSeal, {"material": "NBR", "case": "rubber_covered", "width": "5 ±0.1 mm"})
    assert finding(seat(more=(second,)), "one_of_each").status is NOT


# -- materials -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("material", "expected"), [("NBR", FITS), ("nitrile", FITS), ("EPDM", OUT), ("rubber", NOT), (None, NOT)]
)
def test_the_lip_must_stand_the_oil(material: str | None, expected: Status) -> None:
    """By code or trade name; a name that tells no rubber is not proven."""
    assert finding(seat(part={"material": material}), "material_fluid").status is expected


def test_a_foam_ring_is_not_pressed_and_its_foam_not_rated() -> None:
    """The foam takes no part in press-in and height; what it is made of has no rating."""
    verdict = seat(more=((Wiper, FOAM),))
    assert finding(verdict, "height_room").status is FITS
    assert verdict.of("press_in_of_wiper") is None
    assert verdict.status is NOT
    assert "an open foam" in finding(verdict, "material_fluid").reason


# -- shaft and mouth -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("field", "text", "rule", "expected"),
    [
        ("surface_finish_running", "0.2 um Ra", "shaft_finish", FITS),
        ("surface_finish_running", "0.4 um Ra", "shaft_finish", NOT),
        ("surface_finish_running", "1.2 um Ra", "shaft_finish", OUT),
        ("surface_finish_running", "0.02 um Ra", "shaft_finish", NOT),
        ("shaft_hardness_hrc", "58", "shaft_hardness", FITS),
        ("shaft_hardness_hrc", "20", "shaft_hardness", NOT),
        ("shaft_out_of_round", "0..0.004 mm", "shaft_out_of_round", FITS),
        ("shaft_out_of_round", "0.004 mm", "shaft_out_of_round", NOT),
        ("shaft_out_of_round", "0.02 mm", "shaft_out_of_round", NOT),
        ("lead_in_angle", "20", "lead_in_angle", FITS),
        ("lead_in_angle", "45", "lead_in_angle", NOT),
    ],
)
def test_shaft_and_mouth_are_judged_when_given(field: str, text: str, rule: str, expected: Status) -> None:
    """Rods at most Ra 0.3 um (two makers), 45 HRC, 0.005 mm, 10 to 30 degrees; only 0.8 um refutes."""
    assert finding(seat({field: text}), rule).status is expected


def test_under_a_plastic_lip_the_shaft_is_smoother() -> None:
    """Against PTFE at most Ra 0.2 um (SKF)."""
    rough = {"surface_finish_running": "0.3 um Ra"}
    assert finding(seat(rough), "shaft_finish").status is FITS
    assert finding(seat(rough, {"material": "filled PTFE"}), "shaft_finish").status is NOT


def test_what_was_not_given_is_named() -> None:
    """Finish, hardness, roundness, chamfer and room above are told as not asked."""
    asked = seat({"surface_finish_running": "0.2 um Ra"})
    assert "finish of the shaft" in seat().not_asked
    assert "finish of the shaft" not in asked.not_asked
    assert any("direction of the lips" in text for text in asked.not_asked)


# -- the table of the standard -------------------------------------------------------------------------

HEADER = (
    "standard",
    "type",
    "place",
    "side",
    "diameter_from_mm",
    "diameter_to_mm",
    "housing_bore",
    "seat_depth",
    "source",
    "locator",
)
INVENTED = dict(  # for the test alone
    zip(
        HEADER,
        ("Test 1", "B", "wiper_seat", "rod", "30", "40", "d+10 H8", "5.5 +0.2/0", "this test", "row 1"),
        strict=True,
    )
)
TABLE = housing_rows([(2, INVENTED)], HEADER, name="housings.csv")


def test_without_a_table_a_seat_made_to_a_standard_is_not_proven() -> None:
    """Which table of which standard would settle it is named; nothing is invented."""
    verdict = seat({"housing_standard": "ISO 6195 B"})
    open_one = finding(verdict, "housing_table")
    assert verdict.status is NOT
    assert "ISO 6195 B" in open_one.action


def test_a_seal_that_is_not_pressed_needs_a_table() -> None:
    """A snapped-in wiper or U-ring has no printed press-in: ISO 6195 or ISO 5597 would tell its groove."""
    wiper = finding(seat(part={"case": "none"}, model=Wiper), "housing_table")
    ring = finding(seat(part={"case": "none"}), "housing_table")
    assert "ISO 6195" in wiper.action
    assert "ISO 5597" in ring.action
    assert seat(part={"case": "none"}).of("press_in") is None


@pytest.mark.parametrize(
    ("place", "expected"),
    [
        ({}, FITS),
        ({"housing_bore": "42.1 +0.02/0 mm"}, OUT),
        ({"housing_bore": "42 H9 mm"}, NOT),
        ({"seat_depth": None}, NOT),
    ],
)
def test_a_seat_is_held_against_its_row(place: Texts, expected: Status) -> None:
    """Within the row it fits, wholly outside it is another housing, in between it is to be measured."""
    verdict = seat({"housing_standard": "Test 1 B", **place}, housings=TABLE)
    found = [one for one in verdict.findings if one.rule.startswith("table_")]
    assert [one for one in found if one.status is not FITS][:1] == (
        [] if expected is FITS else [next(one for one in found if one.status is expected)]
    )


def test_a_rod_beyond_the_rows_is_not_proven() -> None:
    """A table without a row for this rod says nothing of it."""
    big = {"housing_bore": "62 H8 mm", "shaft_diameter": "50 h8 mm", "housing_standard": "Test 1 B"}
    assert finding(seat(big, housings=TABLE), "housing_table").status is NOT


# -- missing evidence ----------------------------------------------------------------------------------


@pytest.mark.parametrize("missing", ["housing_bore", "seat_depth", "shaft_diameter"])
def test_a_missing_size_of_the_seat_is_asked_for(missing: str) -> None:
    """Nothing fits while a size is missing, and the size is named."""
    verdict = seat({missing: None})
    assert verdict.status is NOT
    assert missing.replace("_", " ") in verdict.next_step


@pytest.mark.parametrize("missing", ["inside_diameter", "outside_diameter", "width", "material"])
def test_a_missing_size_of_the_seal_is_asked_for(missing: str) -> None:
    """The same for the part."""
    verdict = seat(part={missing: None})
    assert verdict.status is NOT
    assert missing.split("_")[0] in verdict.next_step


def test_sizes_without_tolerance_prove_nothing() -> None:
    """A bare 42.2 mm is taken as exact, which no rubber is; the mark alone needs none."""
    verdict = seat(part={"outside_diameter": "42.2 mm"})
    assert finding(verdict, "sizes_known").status is NOT
    assert "made for shaft" not in finding(verdict, "sizes_known").reason


def test_an_open_press_in_names_the_measurement_that_settles_it() -> None:
    """The advised reading is tried first, and with it the seal fits."""
    verdict = seat(part={"outside_diameter": "42.20 ±0.12 mm"})
    assert "Measure the seal outside diameter" in verdict.next_step
    assert seat(part={"outside_diameter": "42.21 ±U0.02 mm"}).status is FITS


@pytest.mark.parametrize("bore", ["50.02 mm by bore gauge", "50.00..50.039 mm", "50 H8 mm"])
def test_a_bore_that_reads_above_a_step_keeps_the_band_of_its_step(bore: str) -> None:
    """A bore of 50 is pressed by 0.111 to 0.300 mm, also where it reads 50.02."""
    sizes = {"housing_bore": bore, "shaft_diameter": "40 h8 mm"}
    part = {
        "inside_diameter": "39.4 ±0.1 mm",
        "made_for_shaft": "40 mm",
        "outside_diameter": "50.34 ±0.005 mm",
    }
    found = finding(seat(sizes, part), "press_in")
    assert found.limits is not None
    assert (found.limits.low, found.limits.high) == (0.111, 0.3)
    assert found.status is Status.NOT_PROVEN


@pytest.mark.parametrize(
    ("metric", "inch"),
    [("38.1 ±0.0254 mm", "1.5 ±0.001 in"), ("41.9989 ±U0.00508 mm", "1.6535 ±U0.0002 in")],
)
def test_a_bore_is_judged_alike_however_it_is_written(metric: str, inch: str) -> None:
    """Whether the metric or the inch table holds is told by the size, not by the unit of a reading."""
    by_mm, by_in = (finding(seat({"housing_bore": text}), "press_in") for text in (metric, inch))
    assert by_mm.limits == by_in.limits
    assert by_mm.status is by_in.status


def test_a_bare_size_is_not_proven_against_a_table() -> None:
    """A size without tolerance is no size of a real seat, in the row of a table either."""
    verdict = seat({"housing_standard": "Test 1 B", "housing_bore": "42.02 mm"}, housings=TABLE)
    found = finding(verdict, "table_housing_bore")
    assert found.status is NOT
    assert found.reason == "no tolerance: 42.02 mm"
    assert finding(verdict, "table_seat_depth").status is FITS


def test_the_order_in_which_seal_and_wiper_are_listed_says_nothing() -> None:
    """The seal's numbers are the seal's, also where the wiper stands first in the list."""
    wiper = {**SEAL, "outside_diameter": "45.0 ±0.05 mm"}
    seal_first = seat(more=((Wiper, wiper),))
    wiper_first = seat(part=wiper, model=Wiper, more=((LipSeal, SEAL),))
    for rule in ("press_in", "press_in_of_wiper"):
        assert finding(wiper_first, rule) == finding(seal_first, rule)
    assert finding(wiper_first, "press_in").status is FITS
