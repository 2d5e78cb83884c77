"""Every rule: its declared directions, held against the function itself, and its data sheet."""

from __future__ import annotations

import doctest
import importlib
import inspect
import math
import pkgutil
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import fitcheck
from fitcheck.numbers import Span
from fitcheck.rings.squeeze import plain_squeeze
from fitcheck.rule import RULES, Rule, rule, span

for one in pkgutil.walk_packages(fitcheck.__path__, "fitcheck."):
    importlib.import_module(one.name)  # enters every rule

# Where rules of rings are valid: outer diameters above inner ones, offsets below the depth, width to D / 4.
# The rules of the other families say it themselves.
DOMAIN = {
    "outer_diameter_mm": (30.0, 60.0),
    "inner_diameter_mm": (5.0, 29.0),
    "wall_diameter_mm": (40.0, 60.0),
    "groove_width_mm": (1.0, 10.0),
    "groove_depth_mm": (0.5, 8.0),
    "gland_depth_mm": (0.5, 8.0),
    "cross_section_mm": (0.5, 8.5),
    "section_mm": (0.5, 8.5),
    "inside_diameter_mm": (1.0, 660.0),
    "seat_diameter_mm": (1.0, 700.0),
    "shaft_diameter_mm": (1.0, 660.0),
    "groove_diameter_mm": (1.0, 700.0),
    "wall_height_mm": (0.1, 8.0),
    "back_up_width_mm": (0.0, 5.0),
    "offset_mm": (0.0, 0.5),
    "diametral_clearance_mm": (0.0, 1.0),
    "runout_mm": (0.0, 0.5),
    "land_clearance_mm": (0.0, 1.0),
    "guide_clearance_mm": (0.0, 1.0),
    "stretch_percent": (-20.0, 25.0),
    "compression_percent": (0.0, 20.0),
    "section_loss_percent": (-10.0, 20.0),
    "swell_percent": (-30.0, 100.0),
    "rubber_expansion_per_k": (1e-4, 3e-4),
    "metal_expansion_per_k": (1e-5, 3e-5),
    "temperature_rise_k": (-80.0, 250.0),
    "area_factor": (0.7, 0.9),
    "volume_growth": (0.7, 2.2),
    "wall_side": (-1.0, 1.0),
    "face_gap_mm": (0.0, 5.0),
    "value": (0.0, 100.0),
    "factor": (0.5, 2.0),
}
DIRECTIONS = [
    pytest.param(one, name, sign, id=f"{one.name} {word} {name}")
    for one in RULES.values()
    for word, names, sign in (("rises with", one.rises_with, 1), ("falls with", one.falls_with, -1))
    for name in names
]
EACH = [pytest.param(one, id=one.name) for one in RULES.values()]


def domain(of: Rule, name: str) -> tuple[float, float]:
    """The range an argument is drawn from."""
    return of.valid.get(name) or DOMAIN[name]


def arguments(of: Rule) -> list[str]:
    return list(inspect.signature(of.function).parameters)


@pytest.mark.parametrize(("of", "name", "sign"), DIRECTIONS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_a_declared_direction_holds(of: Rule, name: str, sign: int, data: st.DataObject) -> None:
    """Raising one input never moves a rule against the direction it declares."""
    inputs = {one: data.draw(st.floats(*domain(of, one)), label=one) for one in arguments(of)}
    low, high = sorted((inputs[name], data.draw(st.floats(*domain(of, name)), label=f"other {name}")))
    at_low, at_high = of(**{**inputs, name: low}), of(**{**inputs, name: high})
    assert sign * (at_high - at_low) >= -1e-12 * max(1.0, abs(at_low), abs(at_high))


@pytest.mark.parametrize("of", EACH)
def test_the_data_sheet_is_whole(of: Rule) -> None:
    """Each rule states its equation, symbols, range and source, and names every argument with its unit."""
    sheet = of.__doc__
    for heading in ("Equation", "Symbols", "Valid", "Source"):
        assert re.search(rf"^\s*{heading}\s+\S", sheet, re.MULTILINE), heading
    symbols = sheet[sheet.index("Symbols") : sheet.index("Valid")]
    for name in arguments(of):
        assert re.search(rf"\b{name}\b", symbols), name


@pytest.mark.parametrize("of", EACH)
def test_lengths_and_percents_in_a_data_sheet_have_the_unit_of_their_suffix(of: Rule) -> None:
    """An argument called _mm is stated in mm, _percent in percent, _per_k in 1/K, _k in K."""
    symbols = of.__doc__[of.__doc__.index("Symbols") : of.__doc__.index("Valid")]
    units = {"_mm": "[mm]", "_percent": "[%]", "_per_k": "[1/K]", "_rise_k": "[K]"}
    stated = [
        (name, unit) for name in arguments(of) for suffix, unit in units.items() if name.endswith(suffix)
    ]
    lines = {
        name: line for name, _ in stated for line in symbols.splitlines() if re.search(rf"\b{name}\b", line)
    }
    assert [name for name, unit in stated if unit not in lines[name]] == []


@pytest.mark.parametrize("of", EACH)
def test_what_explain_shows_is_complete(of: Rule) -> None:
    """The equation and its symbols cover every argument that moves the rule, and a source stands beside."""
    assert of.equation
    assert of.source
    assert set(of.rises_with) | set(of.falls_with) <= set(of.symbols.values())
    assert set(of.rises_with).isdisjoint(of.falls_with)
    assert set(of.rises_with) | set(of.falls_with) <= set(arguments(of))


def test_span_takes_each_input_at_its_worst_end() -> None:
    """The smallest result comes from the smallest rising and the largest falling input."""

    @rule(unit="mm", equation="", symbols={}, source="", rises_with=("up",), falls_with=("down",))
    def difference(*, up: float, down: float, plain: float = 0.0) -> float:
        return up - down + plain

    del RULES["difference"]
    assert span(difference, up=Span(1, 2, 4), down=Span(10, 20, 40), plain=100.0) == (61, 82, 94)


def test_span_refuses_an_input_of_unknown_direction() -> None:
    """An interval for an input without a declared direction has no worst end."""
    with pytest.raises(TypeError, match="section_growth does not say which way temperature_rise_k moves it"):
        span(
            RULES["section_growth"],
            swell_percent=0.0,
            rubber_expansion_per_k=0.0,
            metal_expansion_per_k=0.0,
            temperature_rise_k=Span(-1, 0, 1),
        )


def test_a_rule_is_entered_under_its_own_name() -> None:
    """The list of rules holds each rule by the name of its function."""
    assert all(name == one.name == one.function.__name__ for name, one in RULES.items())
    assert len(RULES) > 15


def test_a_size_known_exactly_has_no_width() -> None:
    """A point is a span whose three values are one."""
    assert Span.point(3.5) == (3.5, 3.5, 3.5)
    assert math.isnan(Span.point(math.nan).low)


def test_an_offset_beyond_the_depth_squeezes_wholly() -> None:
    """With more offset than depth the metal meets, and more than all of the section is not taken."""
    tight = RULES["tight_side_squeeze"]
    worst = span(
        tight, section_mm=Span(0.91, 1.0, 1.09), gland_depth_mm=Span.point(0.8), offset_mm=Span.point(1.5)
    )
    assert worst == Span(100.0, 100.0, 100.0)


@pytest.mark.parametrize("of", EACH)
def test_the_worked_example_of_a_data_sheet_gives_what_it_prints(of: Rule) -> None:
    """Every example in a rule's docstring is worked out and meets its digits."""
    examples = doctest.DocTestParser().get_examples(of.__doc__ or "")
    assert examples
    for example in examples:
        found = eval(example.source, {**RULES})  # noqa: S307
        digits = len(example.want.strip().partition(".")[2])
        assert found == pytest.approx(float(example.want), abs=0.5 * 10**-digits + 1e-12), example.source


def test_a_size_whose_reach_comes_down_to_nothing_leaves_the_quantity_undefined() -> None:
    """No section of zero has a squeeze: that end is nan, which nothing proves; the others stand."""
    found = span(plain_squeeze, cross_section_mm=Span(0.0, 2.0, 4.0), gland_depth_mm=Span.point(1.5))
    assert math.isnan(found.low)
    assert (found.middle, found.high) == (25.0, 62.5)
