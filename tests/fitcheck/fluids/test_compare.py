"""Two oils held against each other, and an oil against its own data sheet."""

from __future__ import annotations

from typing import Any

import pytest

from fitcheck.decision import decision_rule
from fitcheck.fluids.compare import grade_in_words, oils_alike, printed_span, printed_values, viscosity_span
from schema.amounts import parse_amount
from schema.fields import read_model
from schema.finding import Status
from schema.fluids import Fluid

BY = decision_rule("iso14253-1-u2")
FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def oil(viscosity_40: str = "14.2 mm2/s", viscosity_100: str = "3.70 mm2/s", **more: Any) -> Fluid:
    given = {"base": "mineral", "viscosity_40": viscosity_40, "viscosity_100": viscosity_100, **more}
    return read_model(Fluid, {name: text for name, text in given.items() if text}, path="part")


@pytest.mark.parametrize(
    ("new", "expected"),
    [
        (("14.2 mm2/s", "3.70 mm2/s"), FITS),
        (("14.9 mm2/s", "3.85 mm2/s"), FITS),
        (("15.8 mm2/s", "3.95 mm2/s"), OUT),
        (("26.1 mm2/s", "5.60 mm2/s"), OUT),
        (("15.6 ±0.3 mm2/s", "3.95 ±0.1 mm2/s"), NOT),
    ],
)
def test_oils_that_differ_by_more_than_ten_percent_are_told(new: tuple[str, str], expected: Status) -> None:
    """At 40 degC: within 10 % of the old oil it may stand in, beyond it is another oil."""
    found = {one.quantity: one for one in oils_alike(oil(), oil(*new), BY)}
    (at_40,) = [one for words, one in found.items() if "at 40 degC" in words]
    assert at_40.status is expected


def test_oils_alike_at_40_may_differ_in_the_cold() -> None:
    """The same viscosity at 40 degC and another index: alike there, apart at -20 degC."""
    low, high = oil("15.0 mm2/s", "3.30 mm2/s"), oil("15.0 mm2/s", "4.20 mm2/s")
    warm, cold = oils_alike(low, high, BY, temperatures=(40.0, -20.0))
    assert (warm.status, cold.status) == (FITS, OUT)
    assert cold.high is not None
    assert cold.high < -10.0


def test_two_oils_of_one_label_need_not_be_alike() -> None:
    """5 wt against 5 wt: 14.2 and 17.6 mm2/s at 40 degC; the label decides nothing."""
    found = oils_alike(oil(label="5 wt"), oil("17.6 mm2/s", "4.00 mm2/s", label="5 wt"), BY)
    assert {one.status for one in found} == {OUT}


def test_a_label_is_no_viscosity() -> None:
    """An oil of which only the weight is known is compared with nothing, and the reason says why."""
    found = oils_alike(oil(), oil("", "", label="5 wt"), BY)
    assert {one.status for one in found} == {NOT}
    assert all("5 wt on a label is no viscosity" in one.reason for one in found)


def test_a_bare_printed_value_is_known_to_half_of_its_last_digit() -> None:
    """14.2 is 14.15 to 14.25; 14 is 13.5 to 14.5; limits and uncertainties that are given lead."""
    for text, low, high in (
        ("14.2 mm2/s", 14.15, 14.25),
        ("14 cSt", 13.5, 14.5),
        ("14,20 cSt", 14.195, 14.205),
        ("14.2 ±0.5 cSt", 13.7, 14.7),
        ("14.2 ±U0.4 cSt", 13.8, 14.6),
    ):
        span = printed_span(parse_amount(text, "viscosity"))
        assert (span.low, span.high) == pytest.approx((low, high)), text


def test_a_viscosity_between_needs_two_values() -> None:
    """At 40 degC one printed value is enough, elsewhere it is not."""
    one = oil(viscosity_100="")
    assert viscosity_span(one, 40.0) is not None
    assert viscosity_span(one, 20.0) is None


@pytest.mark.parametrize(("index", "expected"), [("156", FITS), ("155", FITS), ("130", OUT), ("170", OUT)])
def test_a_printed_index_is_held_against_the_viscosities(index: str, expected: Status) -> None:
    """14.2 and 3.70 mm2/s make an index of 155.9, give or take their last digits."""
    (found,) = printed_values(oil(viscosity_index=index), BY)
    assert found.status is expected


def test_the_index_of_a_very_thin_oil_is_not_judged() -> None:
    """Below 2 mm2/s at 100 degC the index is not defined, whatever a label prints."""
    (found,) = printed_values(oil("5.0 mm2/s", "1.80 mm2/s", viscosity_index="180"), BY)
    assert found.status is NOT
    assert "below 2 mm2/s" in found.reason


def test_without_an_index_nothing_is_held() -> None:
    """No index, no finding."""
    assert printed_values(oil(), BY) == []


@pytest.mark.parametrize(
    ("viscosity", "words"),
    [
        ("15.2 mm2/s", "ISO VG 15"),
        ("26.1 mm2/s", "between two"),
        ("16.5 mm2/s", "between two"),
        ("", "no ISO VG"),
    ],
)
def test_the_grade_in_words(viscosity: str, words: str) -> None:
    """A value on the edge of a grade is not in it for certain; many damper oils are in none."""
    assert words in grade_in_words(oil(viscosity, ""))
