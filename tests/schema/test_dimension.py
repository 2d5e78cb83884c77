"""Lengths with limits: what the notation means, to 0.1 um and exactly, and what is refused."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from schema.dimension import COVERAGE_FACTOR, Dimension, Origin, between, exactly, parse_dimension
from schema.errors import DimensionError, InputError, UnknownName

D = Decimal


def limits(text: str) -> tuple[Decimal, Decimal, Decimal]:
    found = parse_dimension(text)
    return found.nominal, found.lower, found.upper


DRAWN = {
    "12.70 mm": ("12.70", "12.70", "12.70"),
    "12,70 mm": ("12.70", "12.70", "12.70"),
    "ø12.70 mm": ("12.70", "12.70", "12.70"),
    "Ø 12.70 mm": ("12.70", "12.70", "12.70"),
    "⌀12.70 mm": ("12.70", "12.70", "12.70"),
    "dia 12.70 mm": ("12.70", "12.70", "12.70"),
    "12.70mm": ("12.70", "12.70", "12.70"),
    "12.70 MM": ("12.70", "12.70", "12.70"),
    "1.27 cm": ("12.70", "12.70", "12.70"),
    "12700 um": ("12.70", "12.70", "12.70"),
    "12700 µm": ("12.70", "12.70", "12.70"),
    "500 thou": ("12.70", "12.70", "12.70"),
    ".5 in": ("12.70", "12.70", "12.70"),
    "1/2 in": ("12.70", "12.70", "12.70"),
    "½ in": ("12.70", "12.70", "12.70"),
    "½″": ("12.70", "12.70", "12.70"),
    "½''": ("12.70", "12.70", "12.70"),
    "1 1/4 in": ("31.75", "31.75", "31.75"),
    "1-1/4 in": ("31.75", "31.75", "31.75"),
    "1¼ inch": ("31.75", "31.75", "31.75"),
    '63/64"': ("25.003125", "25.003125", "25.003125"),
    "1/128 in": ("0.1984375", "0.1984375", "0.1984375"),
    "12.70 ±0.05 mm": ("12.70", "12.65", "12.75"),
    "12.70 +/-0.05 mm": ("12.70", "12.65", "12.75"),
    "12.70 +-0.05 mm": ("12.70", "12.65", "12.75"),
    "12.70mm ±0,05": ("12.70", "12.65", "12.75"),
    "12.70 +0.05/-0.02 mm": ("12.70", "12.68", "12.75"),
    "12.70 +0.05 -0.02 mm": ("12.70", "12.68", "12.75"),
    "12.70 -0.02/+0.05 mm": ("12.70", "12.68", "12.75"),
    "12.70 +0.05/+0.02 mm": ("12.70", "12.72", "12.75"),
    "12.70 -0.02/-0.05 mm": ("12.70", "12.65", "12.68"),
    "20 +0.021/0 mm": ("20", "20", "20.021"),
    "20 0/-0.021 mm": ("20", "19.979", "20"),
    "20 0 −0.021 mm": ("20", "19.979", "20"),
    "0.500 +0/-0.0005 in": ("12.70", "12.6873", "12.70"),
    "20 H7": ("20", "20", "20.021"),
    "20H7 mm": ("20", "20", "20.021"),
    "20 f7": ("20", "19.959", "19.980"),
    "0.5 in H8": ("12.70", "12.70", "12.727"),
    "12.68..12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68...12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68…12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68 to 12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68 - 12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68-12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68–12.70 mm": ("12.69", "12.68", "12.70"),
    "12.68 mm..12.70": ("12.69", "12.68", "12.70"),
    "0.1234567 mm": ("0.1234567", "0.1234567", "0.1234567"),
    "3000 mm": ("3000", "3000", "3000"),
    "3 m": ("3000", "3000", "3000"),
}


@pytest.mark.parametrize(("text", "expected"), DRAWN.items(), ids=DRAWN)
def test_drawing_notation_is_read_exactly(text: str, expected: tuple[str, str, str]) -> None:
    """Each way to write a size gives exactly its nominal, lower and upper limit in mm."""
    assert limits(text) == tuple(D(value) for value in expected)


@pytest.mark.parametrize("sixty_fourths", range(1, 64, 7))
def test_printed_fractions_of_an_inch_are_exact(sixty_fourths: int) -> None:
    """A sixty-fourth of an inch is 25.4/64 mm without a rounding, far below 0.1 um."""
    found = parse_dimension(f"1 {sixty_fourths}/64 in").nominal
    assert Fraction(found) == (1 + Fraction(sixty_fourths, 64)) * Fraction(254, 10)


@pytest.mark.parametrize("tenths_of_um", [1, 9, 10_001, 126_999, 253_999])
def test_a_tenth_of_a_micrometre_survives(tenths_of_um: int) -> None:
    """No step of 0.1 um is lost between the text and the limits."""
    size = D(tenths_of_um) / 10_000
    assert parse_dimension(f"{size} mm").upper == size


def test_a_dimension_keeps_what_was_written() -> None:
    """The text of a dimension is what the person wrote, sign for sign."""
    assert str(parse_dimension("  ø12,70 ±0.05 mm ")) == "  ø12,70 ±0.05 mm "


def test_an_implied_unit_serves_a_text_without_one() -> None:
    """A column headed in gives inches to a bare number."""
    assert parse_dimension("0.5", implied_unit="in").nominal == D("12.70")


def test_a_written_unit_leads_over_the_implied_one() -> None:
    """A text that says mm is in mm, whatever its column says."""
    assert parse_dimension("12.7 mm", implied_unit="in").nominal == D("12.7")


def test_zero_is_read_where_the_place_allows_it() -> None:
    """A corner radius may be zero, with its tolerance above it."""
    found = parse_dimension("0 +0.2/0 mm", allow_zero=True)
    assert (found.lower, found.upper) == (0, D("0.2"))


# -- measured --------------------------------------------------------------------------------------


def test_an_expanded_uncertainty_is_halved() -> None:
    """U = 0.02 with k = 2 is a standard uncertainty of 0.01 mm (JCGM 100:2008, 6.3.3)."""
    found = parse_dimension("12.672 ±U0.02 mm")
    assert (found.origin, found.lower, found.upper) == (Origin.MEASURED, D("12.672"), D("12.672"))
    assert found.standard_uncertainty * COVERAGE_FACTOR == D("0.02")


@pytest.mark.parametrize("text", ["12.7 U0.02 mm", "12.7 ±U=0.02 mm", "12.7 ±U 0.02 mm", "12.7 U = 0.02 mm"])
def test_an_expanded_uncertainty_may_be_written_four_ways(text: str) -> None:
    """U stands with or without its sign and its equals mark."""
    assert parse_dimension(text).standard_uncertainty == D("0.01")


def test_an_uncertainty_in_inches_is_converted() -> None:
    """The unit of a measured text holds for the size and its uncertainty."""
    assert parse_dimension("0.5 ±U0.002 in").standard_uncertainty == D("0.0254")


def test_readings_give_their_mean_and_their_scatter() -> None:
    """Mean, spread and u = sqrt(u0^2 + s^2/n) of three readings (JCGM 100:2008, 4.2.3)."""
    found = parse_dimension("12.672; 12.675; 12.671 mm ±U0.004")
    variance = (D("0.000667") ** 2 + D("0.002333") ** 2 + D("0.001667") ** 2) / 2
    assert float(found.nominal) == pytest.approx((12.672 + 12.675 + 12.671) / 3, abs=1e-12)
    assert found.spread == D("0.004")
    assert float(found.standard_uncertainty) == pytest.approx(
        float(D("0.002") ** 2 + variance / 3) ** 0.5, rel=1e-3
    )


def test_equal_readings_add_nothing_to_the_instrument() -> None:
    """Three equal readings leave the uncertainty of one."""
    one, three = parse_dimension("12.7 ±U0.02 mm"), parse_dimension("12.7; 12.7; 12.7 ±U0.02 mm")
    assert three.standard_uncertainty == one.standard_uncertainty
    assert three.spread == 0


def test_an_instrument_stands_for_its_usual_error() -> None:
    """A calliper's 0.02 mm as a rectangular distribution is u = 0.02/sqrt 3."""
    found = parse_dimension("12.69 mm by calliper")
    assert found.instrument == "calliper"
    assert float(found.standard_uncertainty) == pytest.approx(0.02 / 3**0.5, rel=1e-12)


def test_an_instrument_on_rubber_is_worth_less() -> None:
    """The same calliper pressed on a ring has the larger error of a soft part."""
    hard, soft = (
        parse_dimension("3.53 mm by calliper"),
        parse_dimension("3.53 mm by calliper", measured_on="rubber"),
    )
    assert soft.instrument == "calliper_on_rubber"
    assert soft.standard_uncertainty > 2 * hard.standard_uncertainty


def test_the_error_of_an_instrument_is_in_mm_whatever_the_unit() -> None:
    """A size read in inches by micrometer has the micrometer's millimetres of error."""
    inch, metric = parse_dimension("0.5 in by micrometer"), parse_dimension("12.7 mm by micrometer")
    assert inch.standard_uncertainty == metric.standard_uncertainty


@pytest.mark.parametrize(
    ("text", "toleranced", "measured"),
    [
        ("12.7 mm", False, False),
        ("12.7 ±0 mm", False, False),
        ("12.7 ±0.01 mm", True, False),
        ("12.7 H7", True, False),
        ("12.6..12.8 mm", True, False),
        ("12.7 ±U0.01 mm", True, True),
        ("12.7 mm by micrometer", True, True),
    ],
)
def test_what_is_known_of_a_size(text: str, toleranced: bool, measured: bool) -> None:
    """A size is toleranced when limits that differ, or a measurement, stand behind it."""
    found = parse_dimension(text)
    assert (found.toleranced, found.measured) == (toleranced, measured)


def test_half_width_of_a_drawn_size_is_half_its_tolerance() -> None:
    """A drawn size lies within half its tolerance, whatever the decision rule."""
    assert parse_dimension("12.70 +0.05/-0.02 mm").half_width(2.0) == pytest.approx(0.035)


def test_half_width_of_a_measured_size_follows_the_guard_factor() -> None:
    """A measured size lies within the guard factor times u."""
    assert parse_dimension("12.70 ±U0.02 mm").half_width(1.645) == pytest.approx(0.01645)


# -- refusals --------------------------------------------------------------------------------------

REFUSED = {
    "": "nothing is given",
    "   ": "nothing is given",
    "mm": "cannot use|a number is missing",
    "12.7": "the unit is missing",
    "NaN mm": "cannot use 'NaN'",
    "nan": "cannot use|unit is missing",
    "inf mm": "cannot use 'inf'",
    "-inf mm": "not negative",
    "1e400 mm": "cannot use 'e'",
    "-12.7 mm": "a length is not negative",
    "−12.7 mm": "a length is not negative",
    "+12.7 mm": "a length is not negative",
    "0 mm": "zero is not a length",
    "0.0 in": "zero is not a length",
    "0/64 in": "zero is not a length",
    "3001 mm": "beyond any part of a damper",
    "3.001 m": "beyond any part of a damper",
    "119 in": "beyond any part of a damper",
    "0.1 ±0.1 mm": "the lower limit is not above zero",
    "0.1 ±0.2 mm": "the lower limit is not above zero",
    "12.70..12.68 mm": "the limits are reversed",
    "12.70 - 12.68 mm": "the limits are reversed",
    "12.70-12.68 mm": "the limits are reversed",
    "12..7 mm": "the limits are reversed",
    "12.7 mm in": "two units in one dimension, mm and in",
    "1/2 in ±0.05 mm": "two units",
    "1,234.5 mm": "more than one decimal sign",
    "1.234,5 mm": "more than one decimal sign",
    "1,234,567 um": "more than one decimal sign",
    "12.7.0 mm": "more than one decimal sign",
    "1 234 mm": "a limit deviation needs its sign",
    "1\u00a0234 mm": "a limit deviation needs its sign",
    "3/2 in": "the fraction 3/2 is not smaller than one",
    "64/64 in": "is not smaller than one",
    "1/3 in": "part.inside_diameter: .",
    "1/0 in": "part.inside_diameter: .",
    "M8x1": "part.inside_diameter: .",
    "M8x1 mm": "part.inside_diameter: .",
    "12.7 ±0.02 +0.1 mm": r"cannot use '\+'",
    "12.7 +0.1 ±0.02 mm": "part.inside_diameter: .",
    "12.7 +0.02 mm": "only one limit deviation is given",
    "12.7 -0.02 mm": "only one limit deviation is given",
    "12.7 0.02/0.01 mm": "a limit deviation needs its sign",
    "12.7 ± mm": "a number is missing",
    "± 0.1 mm": "cannot use '±'",
    "12.7 ±-0.1 mm": "a length is not negative",
    "12.7 ±U-0.1 mm": "cannot use 'U'",
    "12.7; 12.8 mm": "readings need their uncertainty",
    "12.7; mm by micrometer": "part.inside_diameter: .",
    "12.7 ±0.02 mm by micrometer": "cannot use 'by'",
    "H7": "cannot use 'H7'",
    "20 ZZ7": "ZZ is not a fundamental deviation",
    "20 H19": "part.inside_diameter: .",
    "600 H7": "outside the tables",
    "20 in H7": "outside the tables",
    "20 H7 ±0.1": "cannot use",
    "5. mm": "cannot read",
    "12.7 mm\x00": "cannot read",
    "12.7\x1b[31m mm": "cannot read",
    "12.7 mm 😀": "cannot read '😀'",
    "\u200f12.7 mm": "cannot read",
    "\u202e7.21 mm": "cannot read",
    "12.7 m\u200bm": "part.inside_diameter: .",
    "12.7 furlong": "cannot use 'furlong'|unit",
    "12.7'; DROP TABLE parts;-- mm": "cannot read",
    "12.7 mm OR 1=1": "part.inside_diameter: .",
    "<script>12.7</script> mm": "cannot read",
    "{{12.7}} mm": "cannot read",
    "../12.7 mm": "part.inside_diameter: .",
    "12.7 mm" * 5000: "the text is 35000 characters long",
    "9" * 4000 + " mm": "the text is 4003 characters long",
    "9" * 110 + " mm": "beyond any part of a damper",
    "9" * 5000 + "/64 in": "part.inside_diameter: .",
    "1 " + "9" * 5000 + "/64 in": "part.inside_diameter: .",
    "±" * 20000: "part.inside_diameter: .",
    " " * 20000 + "x": "part.inside_diameter: .",
}


@pytest.mark.parametrize(("text", "problem"), REFUSED.items(), ids=[repr(text[:32]) for text in REFUSED])
def test_what_is_no_length_is_refused(text: str, problem: str) -> None:
    """A text that is no length of a damper is refused with a DimensionError that says what is wrong."""
    with pytest.raises(DimensionError, match=problem) as caught:
        parse_dimension(text, field="part.inside_diameter")
    assert caught.value.field == "part.inside_diameter"
    assert caught.value.given == text


def test_a_million_digits_are_refused() -> None:
    """A number beyond the range of exact decimals is refused, not raised as an overflow."""
    with pytest.raises(InputError, match="dimension"):
        parse_dimension("9" * 1_000_001 + " mm")


@pytest.mark.parametrize("given", [None, 12.7, 12, b"12.7 mm", ["12.7 mm"], {"mm": 12.7}, True], ids=repr)
def test_what_is_no_text_is_refused(given: object) -> None:
    """A length is given as a text; anything else is refused without guessing its unit."""
    with pytest.raises(DimensionError, match="nothing is given"):
        parse_dimension(given)  # type: ignore[arg-type]


@pytest.mark.parametrize("text", ["12.7 mm by yardstick", "12.7 mm by", "12.7 mm by micrometre screw"])
def test_an_unknown_instrument_is_refused(text: str) -> None:
    """An instrument that is not known is refused with the ones that are."""
    with pytest.raises(UnknownName, match=r"this instrument is not known.*micrometer"):
        parse_dimension(text)


def test_a_near_instrument_is_named() -> None:
    """A misspelt instrument is refused with the nearest known name."""
    with pytest.raises(UnknownName, match=r"Near: .*micrometer"):
        parse_dimension("12.7 mm by micrometr")


def test_a_refusal_shows_an_example_that_works() -> None:
    """The example of a refusal can itself be read."""
    with pytest.raises(DimensionError, match="Example") as caught:
        parse_dimension("12.7")
    assert parse_dimension(caught.value.example).nominal == D("12.70")


def test_a_measurement_without_any_uncertainty_is_no_proof() -> None:
    """±U0 claims that nothing is uncertain, which is no better known than a size without tolerance."""
    assert not parse_dimension("12.70 ±U0 mm").toleranced


# -- made by code ----------------------------------------------------------------------------------


def test_exactly_takes_a_float_by_its_shortest_text() -> None:
    """0.1 is a tenth, not its binary neighbour."""
    assert exactly(0.1) == Dimension(D("0.1"), D("0.1"), D("0.1"), "0.1 mm")


def test_between_keeps_the_nominal_of_the_standard() -> None:
    """A nominal off the middle is kept; without one the middle stands for it."""
    off = between(D("3.43"), D("3.61"), nominal=D("3.53"), text="", source="")
    assert (off.nominal, off.middle) == (D("3.53"), pytest.approx(3.52))
    assert between(D(2), D(4), text="", source="").nominal == 3


def test_between_refuses_reversed_limits() -> None:
    """Limits of a table that are reversed are refused."""
    with pytest.raises(DimensionError, match="the limits are reversed"):
        between(D(4), D(2), text="4 to 2", source="")


def test_between_refuses_a_lower_limit_of_zero() -> None:
    """No ring of a standard reaches down to zero."""
    with pytest.raises(DimensionError, match="not above zero"):
        between(D(0), D(2), text="0 to 2", source="")
