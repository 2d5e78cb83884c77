"""Behaviour of the ISO 286-1 module: classes, limits, fits, refusals, and the tables it reads."""

from __future__ import annotations

from decimal import Decimal

import pytest

from schema.errors import ToleranceClassError
from schema.iso286 import (
    fit,
    looks_like_tolerance_class,
    split_designation,
    standard_tolerance_um,
    tolerance_zone,
)


def limits(designation: str, size_mm: str) -> tuple[Decimal, Decimal]:
    zone = tolerance_zone(designation, Decimal(size_mm))
    return zone.lower_um, zone.upper_um


def test_a_hole_carries_its_class_size_and_side() -> None:
    """A capital letter gives a hole that remembers its class, size and exact limits of size."""
    zone = tolerance_zone("H7", Decimal("25.40"))
    assert (zone.designation, zone.size_mm, zone.is_hole) == ("H7", Decimal("25.40"), True)
    assert (zone.lower_limit_mm, zone.upper_limit_mm) == (Decimal("25.40"), Decimal("25.421"))


def test_a_shaft_carries_its_class_size_and_side() -> None:
    """A small letter gives a shaft, and half micrometres reach its limits of size unrounded."""
    zone = tolerance_zone("js7", Decimal(8))
    assert (zone.designation, zone.is_hole) == ("js7", False)
    assert (zone.lower_limit_mm, zone.upper_limit_mm) == (Decimal("7.9925"), Decimal("8.0075"))


def test_limits_keep_twenty_decimals() -> None:
    """A size with twenty decimals is added to without losing its last place."""
    zone = tolerance_zone("H7", Decimal("400.00000000000000000001"))
    assert str(zone.upper_limit_mm) == "400.06300000000000000001"


def test_space_around_a_class_is_dropped() -> None:
    """Blanks around a class, as copied from a sheet, do not become part of its name."""
    assert tolerance_zone(" H7 ", Decimal(25)).designation == "H7"


def test_a_zone_cannot_be_changed() -> None:
    """A zone handed out once cannot be altered by whoever holds it."""
    zone = tolerance_zone("H7", Decimal(25))
    with pytest.raises(AttributeError, match="can't set attribute"):
        zone.lower_um = Decimal(1)  # type: ignore[misc]


@pytest.mark.parametrize(
    ("designation", "size_mm", "lower_um", "upper_um"),
    [
        ("h7", "25", "-21", "0"),
        ("H7", "25", "0", "21"),
        ("js6", "25", "-6.5", "6.5"),
        ("JS9", "2", "-12.5", "12.5"),
        ("js01", "2", "-0.15", "0.15"),
        ("j5", "25", "-4", "5"),
        ("j6", "25", "-4", "9"),
        ("j7", "25", "-8", "13"),
        ("j8", "3", "-6", "8"),
        ("k3", "25", "0", "4"),
        ("k4", "25", "2", "8"),
        ("k7", "25", "2", "23"),
        ("k8", "25", "0", "33"),
        ("K8", "25", "-23", "10"),
        ("K9", "3", "-25", "0"),
        ("M8", "16", "-25", "2"),
        ("M9", "16", "-50", "-7"),
        ("M6", "250", "-37", "-8"),
        ("M6", "250.001", "-41", "-9"),
        ("M6", "315", "-41", "-9"),
        ("M6", "315.001", "-46", "-10"),
        ("M5", "280", "-36", "-13"),
        ("N8", "25", "-36", "-3"),
        ("N8", "1", "-18", "-4"),
        ("N4", "5", "-10.5", "-6.5"),
        ("P3", "25", "-24.5", "-20.5"),
        ("P7", "3", "-16", "-6"),
        ("P2", "3", "-7.2", "-6"),
        ("P8", "25", "-55", "-22"),
        ("zc10", "500", "2600", "2850"),
        ("a11", "1.001", "-330", "-270"),
        ("t6", "24.001", "41", "54"),
        ("ef7", "10", "-33", "-18"),
    ],
)
def test_each_rule_of_the_tables_holds_at_its_edge(
    designation: str, size_mm: str, lower_um: str, upper_um: str
) -> None:
    """Deviations on both sides of every exception come from the printed column that serves them."""
    assert limits(designation, size_mm) == (Decimal(lower_um), Decimal(upper_um))


@pytest.mark.parametrize(
    ("designation", "size_mm", "message"),
    [
        (
            "t6",
            "24",
            r"t has no value at 24 mm \(given: '24 t6'\)\. Allowed: over 24 up to and including 500",
        ),
        ("v6", "14", "v has no value at 14 mm"),
        ("Y8", "18", "Y has no value at 18 mm"),
        ("K9", "5", "K above IT8 has no value at 5 mm.*up to and including 3 mm"),
        ("a11", "0.8", "a is not used up to and including 1 mm"),
        ("a11", "1", "a is not used up to and including 1 mm"),
        ("B11", "1.000", "B is not used up to and including 1 mm"),
        ("H14", "0.8", "IT14 to IT18 are not used up to and including 1 mm"),
        ("js15", "1", "IT14 to IT18 are not used up to and including 1 mm"),
        ("N9", "0.8", "N above IT8 is not used up to and including 1 mm"),
        ("ef7", "12", "ef has no value at 12 mm.*up to and including 10 mm"),
        ("CD9", "10.001", "CD has no value at 10.001 mm"),
        ("j8", "20", "j8 has no value at 20 mm.*up to and including 3 mm"),
        ("j9", "2", "j9 does not exist.*Allowed: j5, j6, j7, j8"),
        ("j4", "20", "j4 does not exist.*Allowed: j5, j6, j7, j8"),
        ("J5", "20", "J5 does not exist.*Allowed: J6, J7, J8"),
        ("P2", "5", "P2 has no value above 3 mm.*grades 3 and coarser"),
        ("K01", "3.001", "K01 has no value above 3 mm"),
        ("H7", "500.001", "outside the tables.*over 0 up to and including 500 mm"),
        ("H7", "0", "outside the tables"),
        ("h7", "-25", "outside the tables"),
        ("H7", "NaN", r"outside the tables \(given: 'NaN H7'\)"),
        ("H7", "sNaN", "outside the tables"),
        ("H7", "Infinity", "outside the tables"),
        ("H7", "-Infinity", "outside the tables"),
        ("H7", "1E+999999", "outside the tables"),
        ("H7", "1E-999999", "more than 20 decimals"),
        ("H7", "25.000000000000000000001", "more than 20 decimals"),
    ],
)
def test_a_class_without_a_value_is_refused(designation: str, size_mm: str, message: str) -> None:
    """Where the tables print no value the class is refused with the reason, never given a zero."""
    with pytest.raises(ToleranceClassError, match=message) as caught:
        tolerance_zone(designation, Decimal(size_mm))
    assert (type(caught.value), caught.value.field) == (ToleranceClassError, "tolerance class")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("i7", "i is not a fundamental deviation.*easily misread"),
        ("L7", "L is not a fundamental deviation.*easily misread"),
        ("O7", "O is not a fundamental deviation.*easily misread"),
        ("Q7", "Q is not a fundamental deviation.*easily misread"),
        ("W7", "W is not a fundamental deviation.*easily misread"),
        ("zd7", r"zd is not a fundamental deviation \(given"),
        ("IT7", r"IT is not a fundamental deviation \(given"),
        ("Js6", "Js mixes capitals and small letters.*Example: JS9"),
        ("zC8", "zC mixes capitals and small letters"),
        ("H19", "grade IT19 does not exist.*01, 0, 1 to 18"),
        ("H00", "grade IT00 does not exist"),
        ("H07", "grade IT07 does not exist"),
        ("H7.5", "is not letters followed by a grade number"),
        ("H 7", "is not letters followed by a grade number"),
        ("7H", "is not letters followed by a grade number"),
        ("H", "is not letters followed by a grade number"),
        ("7", "is not letters followed by a grade number"),
        ("", "is not letters followed by a grade number"),
        ("H7/g6", "is not letters followed by a grade number"),
        ("H\N{ARABIC-INDIC DIGIT SEVEN}", "is not letters followed by a grade number"),
        ("\N{GREEK CAPITAL LETTER ETA}7", "is not letters followed by a grade number"),
    ],
)
def test_a_class_that_does_not_exist_is_refused(text: str, message: str) -> None:
    """A text that names no tolerance class is refused with what is wrong and what would be right."""
    with pytest.raises(ToleranceClassError, match=message):
        split_designation(text)


def test_a_float_size_is_refused() -> None:
    """A binary number never decides a step, so a float size is refused."""
    with pytest.raises(ToleranceClassError, match="must be given as an exact decimal"):
        tolerance_zone("H7", 30.0)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("H7", ("H", "7")),
        ("zc10", ("zc", "10")),
        ("JS9", ("JS", "9")),
        ("js01", ("js", "01")),
        ("h0", ("h", "0")),
    ],
)
def test_a_class_is_split_into_letters_and_grade(text: str, parts: tuple[str, str]) -> None:
    """Letters and grade come back as written, a leading zero of the grade included."""
    assert split_designation(text) == parts


@pytest.mark.parametrize(
    "text", ["H7", "f7", "js6", "JS9", "zc10", "K7", "h01", " H7", "i7", "H19", "Js6", "e5"]
)
def test_texts_in_the_form_of_a_class_are_recognised(text: str) -> None:
    """The form alone decides, so that a wrong class is refused as a class and not as a number."""
    assert looks_like_tolerance_class(text) is True


@pytest.mark.parametrize(
    "text",
    ["", "H", "7", "25", "25 H7", "25H7", "H7/g6", "mm2", "in3", "+0.021", "1e5", "H7.0", "H007", "H٧"],
)
def test_other_texts_are_not_taken_for_a_class(text: str) -> None:
    """Numbers, units, fits and whole dimensions do not have the form of a tolerance class."""
    assert looks_like_tolerance_class(text) is False


@pytest.mark.parametrize(
    ("grade", "size_mm", "width_um"),
    [
        ("IT7", "30", "21"),
        ("7", "30.001", "25"),
        ("01", "3", "0.3"),
        ("IT0", "3", "0.5"),
        ("IT13", "1", "140"),
        ("IT14", "1.001", "250"),
        ("IT18", "500", "9700"),
        ("IT6", "18.000", "11"),
    ],
)
def test_a_standard_tolerance_is_the_printed_one(grade: str, size_mm: str, width_um: str) -> None:
    """Grades are read with or without IT, and a size on a step end belongs to the lower step."""
    assert standard_tolerance_um(grade, Decimal(size_mm)) == Decimal(width_um)


@pytest.mark.parametrize(
    ("grade", "size_mm", "message"),
    [
        ("IT19", "25", r"grade 'IT19' does not exist.*Allowed: IT01, IT0, IT1 to IT18"),
        ("it7", "25", "grade 'it7' does not exist"),
        ("", "25", "grade '' does not exist"),
        ("H7", "25", "grade 'H7' does not exist"),
        ("IT7", "0", "outside the tables"),
        ("IT7", "500.1", "outside the tables"),
        ("IT7", "NaN", "outside the tables"),
        ("IT16", "1", "IT14 to IT18 are not used up to and including 1 mm"),
    ],
)
def test_a_standard_tolerance_that_does_not_exist_is_refused(grade: str, size_mm: str, message: str) -> None:
    """A grade or size outside the printed table is refused with the reason."""
    with pytest.raises(ToleranceClassError, match=message):
        standard_tolerance_um(grade, Decimal(size_mm))


@pytest.mark.parametrize(
    ("hole", "shaft", "clearance_min_um", "clearance_max_um", "kind"),
    [
        ("H7", "g6", "7", "41", "clearance"),
        ("H7", "h6", "0", "34", "clearance"),
        ("H7", "k6", "-15", "19", "transition"),
        ("H7", "js6", "-6.5", "27.5", "transition"),
        ("H7", "p6", "-35", "-1", "interference"),
        ("H8", "p6", "-35", "11", "transition"),
    ],
)
def test_a_fit_is_named_by_its_clearances(
    hole: str, shaft: str, clearance_min_um: str, clearance_max_um: str, kind: str
) -> None:
    """A fit is clearance when it never binds, interference when it always does, else transition."""
    found = fit(tolerance_zone(hole, Decimal(25)), tolerance_zone(shaft, Decimal(25)))
    assert (found.clearance_min_um, found.clearance_max_um, found.kind) == (
        Decimal(clearance_min_um),
        Decimal(clearance_max_um),
        kind,
    )


def test_limits_that_just_touch_at_the_tight_end_are_interference() -> None:
    """A largest clearance of exactly zero is still an interference fit, as the standard words it."""
    found = fit(tolerance_zone("H7", Decimal(2)), tolerance_zone("s7", Decimal(2)))
    assert (found.clearance_max_um, found.kind) == (Decimal(-4), "interference")
    touching = fit(tolerance_zone("H6", Decimal(2)), tolerance_zone("p6", Decimal(2)))
    assert (touching.clearance_max_um, touching.kind) == (Decimal(0), "interference")


def test_the_order_of_hole_and_shaft_is_free() -> None:
    """The shaft may be given first: the fit still knows which part is the hole."""
    hole, shaft = tolerance_zone("H7", Decimal(25)), tolerance_zone("g6", Decimal("25.0"))
    assert fit(shaft, hole) == fit(hole, shaft)
    assert fit(shaft, hole).hole.is_hole


@pytest.mark.parametrize(
    ("first", "second", "message"),
    [
        (("H7", "25"), ("G7", "25"), "both are holes"),
        (("h6", "25"), ("g6", "25"), "both are shafts"),
        (("H7", "25"), ("g6", "25.001"), "the nominal sizes differ"),
    ],
)
def test_parts_that_make_no_fit_are_refused(
    first: tuple[str, str], second: tuple[str, str], message: str
) -> None:
    """Two holes, two shafts or two nominal sizes are no fit."""
    one, other = (tolerance_zone(name, Decimal(size)) for name, size in (first, second))
    with pytest.raises(ToleranceClassError, match=message):
        fit(one, other)
