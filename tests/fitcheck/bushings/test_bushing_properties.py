"""What holds for every bushing: directions of rules, worst cases that bound every sample, no way round."""

from __future__ import annotations

import doctest
import inspect
import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import fitcheck.bushings.inquiry  # enters the rules
from fitcheck.bushings.quantities import quantities_of
from fitcheck.bushings.seat import Seat, seat_of
from fitcheck.numbers import Span
from fitcheck.rule import RULES, Rule, span
from fitcheck.setting import drawn_span
from schema.bushing_tables import expansions
from schema.bushings import BushingSeat, PlainBushing
from schema.fields import read_model
from schema.places import METALS
from schema.service import Service
from tests.fitcheck.bushings.questions import (
    ALLOY_SEAT,
    BRONZE,
    BRONZE_SEAT,
    GAUGED,
    PLASTIC,
    PLASTIC_SEAT,
    SERVICE,
    finding,
    verdict_on,
    without,
)

assert fitcheck.bushings.inquiry

OWN = [one for one in RULES.values() if one.function.__module__.startswith("fitcheck.bushings.")]
DIRECTIONS = [
    pytest.param(one, name, sign, id=f"{one.name} {word} {name}")
    for one in OWN
    for word, names, sign in (("rises with", one.rises_with, 1), ("falls with", one.falls_with, -1))
    for name in names
]


@pytest.mark.parametrize(("of", "name", "sign"), DIRECTIONS)
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_a_direction_holds_over_the_domain_it_states(
    of: Rule, name: str, sign: int, data: st.DataObject
) -> None:
    """Raising one input never moves a rule against the direction it declares."""
    inputs = {
        one: data.draw(st.floats(*of.valid[one]), label=one)
        for one in inspect.signature(of.function).parameters
    }
    low, high = sorted((inputs[name], data.draw(st.floats(*of.valid[name]), label=f"other {name}")))
    at_low, at_high = of(**{**inputs, name: low}), of(**{**inputs, name: high})
    assert sign * (at_high - at_low) >= -1e-12 * max(1.0, abs(at_low), abs(at_high))


@pytest.mark.parametrize("of", OWN, ids=[one.name for one in OWN])
def test_a_data_sheet_names_every_argument_and_its_domain(of: Rule) -> None:
    """Equation, symbols, range and source stand in the docstring, and every argument has a domain."""
    for heading in ("Equation", "Symbols", "Valid", "Source"):
        assert re.search(rf"^\s*{heading}\s+\S", of.__doc__, re.MULTILINE), heading
    assert set(of.valid) == set(inspect.signature(of.function).parameters)


@pytest.mark.parametrize("of", OWN, ids=[one.name for one in OWN])
def test_a_worked_example_gives_what_it_prints(of: Rule) -> None:
    """Every example in a data sheet is worked out and meets its digits."""
    examples = doctest.DocTestParser().get_examples(of.__doc__)
    assert examples
    for example in examples:
        found = eval(example.source, {**RULES})  # noqa: S307
        digits = len(example.want.strip().partition(".")[2])
        assert found == pytest.approx(float(example.want), abs=0.5 * 10**-digits + 1e-12), example.source


SEATS = {
    "wrapped in aluminium": (ALLOY_SEAT, GAUGED),
    "bronze by Lamé": ({**BRONZE_SEAT, "housing_outside_diameter": "28 ±0.1 mm"}, BRONZE),
    "bronze in an unknown housing": (without(BRONZE_SEAT, "housing_outside_diameter"), BRONZE),
    "plastic": (PLASTIC_SEAT, PLASTIC),
    "wrapped in any metal": (without(ALLOY_SEAT, "metal", "shaft_metal"), GAUGED),
    "bronze in any metal": (without(BRONZE_SEAT, "metal", "shaft_metal"), BRONZE),
}
SEAT_FIELDS = {
    "housing_bore": "housing_bore",
    "shaft_diameter": "shaft_diameter",
    "housing_outside_diameter": "housing_outside_diameter",
}
PART_FIELDS = {
    "wrapped": {"ring_gauge_diameter": "ring_gauge_diameter", "wall": "bushing_wall"},
    "other": {"outside_diameter": "bushing_outside_diameter", "inside_diameter": "bushing_bore"},
}


def spans_of(place: BushingSeat, part: PlainBushing) -> dict[str, Span]:
    """The sizes of a seat and its bushing, as an inquiry names them."""
    of_part = PART_FIELDS["wrapped" if part.style == "wrapped" else "other"]
    found = {}
    for model, names in ((place, SEAT_FIELDS), (part, of_part)):
        for field, name in names.items():
            if getattr(model, field) is not None:
                found[name] = drawn_span(getattr(model, field))
    return found


def one_assembly(
    seat: Seat, place: BushingSeat, part: PlainBushing, sizes: dict[str, float], chance: random.Random
) -> dict[str, float]:
    """One bushing in one housing, worked out directly: Lamé, expansion and constants drawn at random."""

    def drawn(ends: tuple[float, float, float]) -> float:
        return chance.uniform(ends[0], ends[2])

    known = expansions()
    metals = [one or chance.choice(METALS) for one in (place.metal, place.shaft_metal)]
    alpha = {
        name: chance.uniform(known[family].low, known[family].high)
        for name, family in (
            ("housing", metals[0]),
            ("body", part.family),
            ("shaft", metals[1]),
        )
    }
    housing, shaft = sizes["housing_bore"], sizes["shaft_diameter"]
    outside = sizes.get("ring_gauge_diameter", sizes.get("bushing_outside_diameter", 0.0))
    assert seat.hub is not None
    assert seat.sleeve is not None
    e_h, nu_h = drawn(seat.hub.modulus), drawn(seat.hub.poisson)
    e_s, nu_s = drawn(seat.sleeve.modulus), drawn(seat.sleeve.poisson)
    around = sizes.get("housing_outside_diameter", chance.uniform(housing + 3.0, 80.0))

    def at(rise: float) -> dict[str, float]:
        """All sizes at one temperature; a wrapped bushing's lining takes 0.0016 mm per 20 K."""
        hot = {name: 1.0 + value * rise for name, value in alpha.items()}
        delta = outside * hot["body"] - housing * hot["housing"]
        if part.style == "wrapped":
            wall = sizes["bushing_wall"]
            bore = housing * hot["housing"] - 2.0 * wall * hot["body"] - 0.00008 * rise
        else:
            inside = sizes["bushing_bore"]
            hub = (around**2 + outside**2) / (around**2 - outside**2) + nu_h
            sleeve = (outside**2 + inside**2) / (outside**2 - inside**2) - nu_s
            pressure = max(delta, 0.0) / (outside * hub / e_h + outside * sleeve / e_s)
            closed = 2.0 * pressure * outside**2 * inside / (e_s * (outside**2 - inside**2))
            bore = inside * hot["body"] - closed
        return {"interference": delta, "bore": bore, "clearance": bore - shaft * hot["shaft"]}

    cold, mild, warm = at(-30.0), at(0.0), at(40.0)
    return {
        "seat_interference": mild["interference"],
        "cold_interference": cold["interference"],
        "hot_interference": warm["interference"],
        "fitted_bore": mild["bore"],
        "running_clearance": mild["clearance"],
        "cold_clearance": cold["clearance"],
        "hot_clearance": warm["clearance"],
    }


@pytest.mark.parametrize("name", SEATS)
def test_every_assembly_lies_within_the_worst_case(name: str) -> None:
    """Assemblies drawn at random, worked out directly, never leave the worst case at any temperature."""
    place_texts, part_texts = SEATS[name]
    place = read_model(BushingSeat, place_texts, path="place")
    part = read_model(PlainBushing, part_texts, path="part")
    seat = seat_of(place, part, read_model(Service, SERVICE, path="service"))
    spans = spans_of(place, part)
    worst = quantities_of(seat, telling=True, stress=True)(spans, span)
    chance = random.Random(3547)
    closest = dict.fromkeys(worst, 1.0)
    for _ in range(400):
        sizes = {
            one: chance.choice((at.low, at.high, chance.uniform(at.low, at.high)))
            for one, at in spans.items()
        }
        for quantity, value in one_assembly(seat, place, part, sizes, chance).items():
            low, _, high = worst[quantity]
            # Growth is taken of nominal sizes: a tolerance times a strain, below a micrometre's tenth.
            assert low - 1e-4 <= value <= high + 1e-4, (quantity, value, worst[quantity])
            closest[quantity] = min(closest[quantity], value - low, high - value)
    assert all(closest[one] < 0.02 for one in ("seat_interference", "running_clearance"))


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 40), st.integers(0, 40))
def test_a_wider_housing_never_holds_more(first: int, second: int) -> None:
    """More bore, never more interference."""
    narrow, wide = sorted((first, second))
    lows = []
    for excess in (narrow, wide):
        verdict = verdict_on(
            {**ALLOY_SEAT, "housing_bore": f"{18 + excess / 1000:.3f} mm by bore gauge"}, GAUGED
        )
        lows.append(finding(verdict, "seat_interference").low)
    assert lows[0] is not None and lows[1] is not None
    assert lows[1] <= lows[0]


@settings(max_examples=30, deadline=None)
@given(st.integers(20, 120), st.integers(20, 120))
def test_a_hotter_service_never_holds_a_steel_backed_bushing_better_in_aluminium(a: int, b: int) -> None:
    """The hotter the end of the service, the less interference is left there."""
    cool, hot = sorted((a, b))
    lows = []
    for end in (cool, hot):
        verdict = verdict_on(ALLOY_SEAT, GAUGED, {**SERVICE, "temperature": f"-10..{end} degC"})
        lows.append(finding(verdict, "hot_interference").low)
    assert lows[0] is not None and lows[1] is not None
    assert lows[1] <= lows[0] + 1e-12


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 200), st.integers(0, 200))
def test_more_wear_never_runs_closer(first: int, second: int) -> None:
    """A wider bore, never less clearance, and never a better verdict on it."""
    order = ["fits", "not proven", "does not fit"]
    close, wide = sorted((first, second))
    found = [
        finding(
            verdict_on(
                {**ALLOY_SEAT, "bore_as_fitted": f"{16.02 + worn / 1000:.3f} mm by bore gauge"}, GAUGED
            ),
            "running_clearance",
        )
        for worn in (close, wide)
    ]
    assert found[0].low is not None and found[1].low is not None
    assert found[0].low <= found[1].low
    assert order.index(found[0].status) <= order.index(found[1].status)
