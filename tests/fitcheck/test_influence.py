"""What moves a finding, how drawn and measured sizes add up, and what would settle it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

import pytest

from fitcheck.influence import influences, shares
from fitcheck.numbers import Span
from fitcheck.rings.conditions import Conditions
from fitcheck.rings.glands import quantities
from schema.dimension import parse_dimension
from schema.finding import Influence, Limits, Status, Verdict

Ask = Callable[..., Verdict]

SIZES = {
    name: parse_dimension(text)
    for name, text in {
        "inside_diameter": "24.99 ±0.25 mm",
        "cross_section": "3.53 ±0.10 mm",
        "bore_diameter": "31.50 ±U0.02 mm",
        "groove_diameter": "25.40 mm",
        "land_diameter": "31.45 ±0.01 mm",
    }.items()
}


def ask(spans: Mapping[str, Span]) -> dict[str, Span]:
    return quantities(spans, Conditions(gland="piston"))


def test_the_effect_of_a_size_by_hand() -> None:
    """±0.25 mm on 24.99 mm moves the stretch by half of X(24.74) - X(25.24)."""
    found = influences(SIZES, ask)["stretch"]["inside_diameter"]
    by_hand = (100 * (25.4 / 25.24 - 1) - 100 * (25.4 / 24.74 - 1)) / 2
    assert found.half_effect == pytest.approx(by_hand)
    assert not found.measured


def test_a_measured_size_counts_with_one_standard_uncertainty() -> None:
    """U = 0.02 on the bore moves the clearance by u = 0.01."""
    found = influences(SIZES, ask)["extrusion_gap"]["bore_diameter"]
    assert found == Influence("bore_diameter", pytest.approx(0.01), True)


def test_a_size_known_exactly_moves_nothing() -> None:
    """What has no interval has no effect; what does not enter a quantity neither."""
    found = influences(SIZES, ask)
    assert all("groove_diameter" not in moves for moves in found.values())
    assert set(found["extrusion_gap"]) == {"bore_diameter", "land_diameter"}


def band(low: float | None, high: float | None) -> Limits:
    return Limits(low, high, "mm", "worst_case", "own", "none", "published_once")


def test_statistics_never_reach_beyond_the_worst_case() -> None:
    """The root of squares of several drawn effects is less than their sum."""
    moves = {name: Influence(name, half, False) for name, half in (("a", 0.1), ("b", 0.2), ("c", 0.2))}
    found = shares(Span(-0.5, 0.0, 0.5), moves, band(None, None))
    assert (found.low, found.high) == (pytest.approx(-0.3), pytest.approx(0.3))


def test_one_drawn_size_alone_is_its_worst_case() -> None:
    """With one term the statistical interval is the tolerance itself."""
    found = shares(Span(-0.1, 0.0, 0.1), {"a": Influence("a", 0.1, False)}, band(None, None))
    assert (found.low, found.high) == (pytest.approx(-0.1), pytest.approx(0.1))


@pytest.mark.parametrize(
    ("low", "high", "outside"), [(None, 0.0, 0.5), (0.0, None, 0.5), (None, None, 0.0), (-9.0, 9.0, 0.0)]
)
def test_the_share_outside(low: float | None, high: float | None, outside: float) -> None:
    """A limit in the middle cuts off half, limits far away nothing."""
    found = shares(Span(-0.1, 0.0, 0.1), {"a": Influence("a", 0.1, False)}, band(low, high))
    assert found.outside == pytest.approx(outside)


@pytest.mark.parametrize(("value", "outside"), [(0.5, 0.0), (1.5, 1.0), (-0.5, 1.0)])
def test_without_spread_all_or_nothing_is_outside(value: float, outside: float) -> None:
    """A quantity known exactly lies within its limits or not."""
    assert shares(Span.point(value), {}, band(0.0, 1.0)).outside == outside


def test_the_size_that_moves_a_finding_most_stands_first(ask: Ask) -> None:
    """Influences are listed by the size of their effect."""
    effects = [abs(one.half_effect) for one in ask().of("squeeze").influences]
    assert effects == sorted(effects, reverse=True)
    assert len(effects) == 3


def test_the_driver_names_the_first_of_the_tightest_finding(ask: Ask) -> None:
    """The verdict names the one dimension that moves its tightest finding most."""
    verdict = ask()
    assert verdict.driver.startswith("ring's section moves squeeze as handbooks count it most")


def test_what_would_settle_a_finding_does(ask: Ask) -> None:
    """A finding left open by a wide drawing says which reading settles it, and such a reading does."""
    wide = {"bore_diameter": "31.50 +0.5/0 mm", "land_diameter": "31.45 0/-0.01 mm"}
    finding = ask(place=wide, choices={"gap": "radial-by-section"}).of("extrusion_gap")
    assert finding.status is Status.NOT_PROVEN
    ends = re.search(
        r"Measure the bore diameter by calliper inside jaws: [\d.]+ to ([\d.]+) mm", finding.action
    )
    assert ends, finding.action
    upper = float(ends[1])
    for reading, fits in ((upper, True), (upper + 0.011, False)):
        place = {**wide, "bore_diameter": f"{reading:.3f} mm by calliper"}
        read = ask(place=place, choices={"gap": "radial-by-section"}).of("extrusion_gap")
        assert (read.status is Status.FITS) is fits
