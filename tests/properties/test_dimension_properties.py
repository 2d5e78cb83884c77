"""Laws of dimensions, tried on generated ones."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import assume, example, given
from hypothesis import strategies as st

from schema.dimension import parse_dimension
from schema.errors import BorebookError, InputError
from schema.fields import read_model
from schema.ring_sizes import ring_size
from schema.service import Service

SIZE = st.decimals(min_value="1.0000", max_value="2000", places=4)
DEVIATION = st.decimals(min_value="0", max_value="0.9", places=4)
MARKS = st.sampled_from(
    [
        "12.7",
        "1/2",
        "63/64",
        "9",
        "0",
        "H7",
        "f7",
        "mm",
        "in",
        "thou",
        '"',
        "±",
        "+/-",
        "+",
        "-",
        "/",
        "..",
        "to",
        ";",
        "U",
        "=",
        "by",
        "calliper",
        "micrometer",
        ",",
        ".",
        "ø",
        " ",
        "e5",
        "M8x1",
        "½",
        "−",
        "NaN",
        "😀",
        "\x00",
        "\u200f",
    ]
)


@given(SIZE, DEVIATION, DEVIATION)
def test_limits_enclose_what_was_written(size: Decimal, up: Decimal, down: Decimal) -> None:
    """Lower, nominal and upper stand in order, exactly as far apart as written."""
    found = parse_dimension(f"{size} +{up}/-{down} mm")
    assert found.lower <= found.nominal <= found.upper
    assert (found.upper - found.nominal, found.nominal - found.lower) == (up, down)


@given(SIZE, DEVIATION)
def test_plus_minus_is_both_deviations(size: Decimal, deviation: Decimal) -> None:
    """±t and +t/-t are the same limits."""
    one, two = (
        parse_dimension(f"{size} ±{deviation} mm"),
        parse_dimension(f"{size} +{deviation}/-{deviation} mm"),
    )
    assert (one.lower, one.upper) == (two.lower, two.upper)


@given(SIZE, SIZE)
def test_a_range_is_its_two_ends(first: Decimal, second: Decimal) -> None:
    """A range from low to high has these limits and its nominal in the middle."""
    low, high = sorted((first, second))
    found = parse_dimension(f"{low}..{high} mm")
    assert (found.lower, found.upper, found.nominal) == (low, high, (low + high) / 2)


@given(SIZE, DEVIATION)
def test_a_decimal_comma_is_a_decimal_point(size: Decimal, deviation: Decimal) -> None:
    """12,70 ±0,02 and 12.70 ±0.02 are one size."""
    point = f"{size} ±{deviation} mm"
    one, two = parse_dimension(point), parse_dimension(point.replace(".", ","))
    assert (one.nominal, one.lower, one.upper) == (two.nominal, two.lower, two.upper)


@given(
    st.decimals(min_value="0.0500", max_value="100", places=4),
    st.decimals(min_value="0", max_value="0.01", places=4),
)
def test_inches_are_25_4_times_millimetres(size: Decimal, deviation: Decimal) -> None:
    """A size in inches and the same in mm have exactly equal limits."""
    inch = parse_dimension(f"{size} ±{deviation} in")
    metric = parse_dimension(f"{size * Decimal('25.4')} ±{deviation * Decimal('25.4')} mm")
    assert (inch.nominal, inch.lower, inch.upper) == (metric.nominal, metric.lower, metric.upper)


@given(st.lists(SIZE, min_size=1, max_size=6), st.decimals(min_value="0.001", max_value="0.5", places=3))
def test_the_mean_lies_among_its_readings(readings: list[Decimal], expanded: Decimal) -> None:
    """The value of readings lies between the smallest and the largest; u is at least that of one reading."""
    spread, mean = max(readings) - min(readings), sum(readings) / len(readings)
    assume(spread <= max(Decimal("0.3"), mean / 100))  # more is refused as a slip
    assume(expanded < min(readings) / 4)  # as large as the size is refused too
    found = parse_dimension("; ".join(str(one) for one in readings) + f" ±U{expanded} mm")
    slack = Decimal("1e-20")
    assert min(readings) - slack <= found.nominal <= max(readings) + slack
    assert found.spread == max(readings) - min(readings)
    assert found.standard_uncertainty >= expanded / 2 - slack


@given(
    st.one_of(
        st.text(max_size=60),
        st.lists(MARKS, max_size=12).map("".join),
        st.lists(MARKS, max_size=12).map(" ".join),
    )
)
@example("²")
@example("1²/64 in")
@example("٣ mm")
@example("1/٤ in")
@example("5 ㎜")
@example("½½ in")
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text raises anything but an error of input, and what is read has limits in order."""
    try:
        found = parse_dimension(text, allow_zero=True)
    except InputError as error:
        assert str(error)
    else:
        assert 0 <= found.lower <= found.upper <= 3000


@given(st.text(max_size=40))
@example("²x2")
@example("jis-p²")
def test_any_size_code_is_found_or_refused(text: str) -> None:
    """No text of a size code raises anything but an error of input."""
    try:
        assert ring_size(text).cross_section.lower > 0
    except InputError as error:
        assert str(error)


@given(
    st.sampled_from(
        [
            "motion",
            "medium",
            "pressure",
            "pressure_from",
            "temperature",
            "fluid",
            "swell_low_percent",
            "nonsense",
        ]
    ),
    st.one_of(
        st.text(max_size=30),
        st.floats(),
        st.integers(),
        st.booleans(),
        st.none(),
        st.lists(st.text(max_size=5)),
        st.binary(),
    ),
)
@example("pressure", "²bar")
@example("temperature", "²..³ degC")
def test_any_service_is_read_or_refused(field: str, value: object) -> None:
    """No value of a service field raises anything but an error of this project."""
    try:
        read_model(Service, {field: value}, path="service")
    except BorebookError as error:
        assert str(error)
