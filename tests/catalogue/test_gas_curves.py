"""The curves of a gas chamber: the same bytes, readable, inside their frame, no pressure when locked."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest

from catalogue.picture.gas_curves import gas_curves
from catalogue.picture.plot import Axis, apart, round_step
from catalogue.picture.sheet import WIDTHS, Layout
from catalogue.picture.sizes import Unit
from catalogue.picture.style import SMALL, style_sheet
from catalogue.picture.svg import text_width
from fitcheck.gas.curves import gas_curves_of
from fitcheck.gas.highest import Lock
from fitcheck.places import check_place
from schema.fit import Fit
from schema.reference import published_reference
from tests.fitcheck.gas.chambers import BLADDER, RESERVOIR, SERVICE, SHORT, chamber

SVG = "{http://www.w3.org/2000/svg}"
REFERENCE = published_reference()
FITS: dict[str, Fit] = {
    "reservoir": chamber(RESERVOIR, charge="1.0 ±U0.05 MPa"),
    "bladder": chamber(BLADDER),
    "lock possible": chamber(SHORT),
    "lock certain": chamber(SHORT, {**SERVICE, "temperature": "-10..90 degC"}),
    "no temperature": chamber(RESERVOIR, {}),
    "nothing": chamber({}, {}),
    "hostile": chamber(RESERVOIR, description="</title><script>alert(1)</script>&\"'"),
}
LAYOUTS: tuple[Layout, ...] = ("wide", "narrow")
UNITS: tuple[Unit, ...] = ("mm", "in")


def drawn(name: str, layout: Layout = "wide", unit: Unit = "mm") -> str:
    return gas_curves(FITS[name], REFERENCE, layout=layout, unit=unit)


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314


def texts(svg: str) -> list[str]:
    return [one.text or "" for one in parsed(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("name", FITS)
def test_a_picture_is_sound_and_always_the_same(name: str, layout: Layout, unit: Unit) -> None:
    """Well-formed, titled and described, classes only, no script, the same bytes for the same input."""
    svg = drawn(name, layout, unit)
    assert svg == drawn(name, layout, unit)
    root = parsed(svg)
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert desc is not None
    assert title.text
    assert desc.text
    for element in root.iter():
        assert "style" not in element.attrib
        assert element.tag != f"{SVG}script"
        assert not any(name.startswith("on") for name in element.attrib)
    assert "nan" not in svg
    assert "inf" not in re.sub(r"<desc.*?</desc>|<text.*?</text>", "", svg)


@pytest.mark.parametrize("name", FITS)
def test_every_class_is_in_the_one_style_sheet(name: str) -> None:
    """A page that brings the style sheet once shows every line."""
    classes = {one for found in re.findall(r'class="([^"]*)"', drawn(name)) for one in found.split()}
    unstyled = {"gland-picture", "wide-layout", "narrow-layout"}
    unstyled |= {f"area-{one}" for one in ("metal", "mate", "plastic", "band")}
    styled = set(re.findall(r"\.([a-z][a-z-]*)[ ,{]", style_sheet()))
    assert classes - unstyled <= styled


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("name", FITS)
def test_no_text_leaves_the_sheet(name: str, layout: Layout) -> None:
    """Every text ends inside the width, estimated on the safe side; none begins before it."""
    root = parsed(drawn(name, layout, "in"))
    for one in root.iter(f"{SVG}text"):
        classes = one.attrib["class"].split()
        if "head" in classes:
            continue
        width = text_width(one.text or "", SMALL)
        x = float(one.attrib["x"])
        left = x - (width if "end" in classes else width / 2 if "middle" in classes else 0.0)
        assert left >= -2.0, one.text
        assert left + width <= WIDTHS[layout] + 2.0, one.text


def test_the_numbers_are_those_of_the_verdict() -> None:
    """Values beside the curves are the middles and worst cases that the check tells."""
    fit = FITS["reservoir"]
    told = {one.rule: one for one in check_place(fit, REFERENCE).told}
    found = texts(drawn("reservoir"))
    assert f"hot, fast {told['full_stroke_hot_fast'].middle:.2f}" in found
    assert f"most {told['full_stroke_hot_fast'].high:.2f}" in found
    assert f"least {told['full_stroke_cold_slow'].low:.2f}" in found
    assert f"as set, slow {told['full_stroke_as_set_slow'].middle:.2f}" in found


@pytest.mark.parametrize(
    ("name", "words"),
    [("lock possible", "hydraulic lock is not excluded"), ("lock certain", "hydraulic lock.")],
)
def test_no_pressure_is_drawn_while_the_oil_may_be_locked_in(name: str, words: str) -> None:
    """In place of the curves stands why; the way of the piston is drawn into the metal."""
    svg = drawn(name)
    found = texts(svg)
    assert words in " ".join(found)
    assert not [one for one in found if "fast" in one]
    assert [one for one in found if one.startswith("least −")]
    assert "MPa gauge" not in svg


def test_what_is_missing_is_asked_for_in_its_place() -> None:
    """An empty chamber draws two plots' worth of what to give."""
    words = " ".join(texts(drawn("nothing")))
    for one in ("stroke", "charge", "set depth"):
        assert one in words


def test_inches_bring_psi() -> None:
    """Strokes and ways in inches, pressures in psi; the bladder's room stays in ml."""
    words = " ".join(texts(drawn("reservoir", unit="in")))
    assert "psi" in words
    assert "stroke of the shaft, in" in words
    assert "MPa" not in words
    assert "least volume, ml" in " ".join(texts(drawn("bladder", unit="in")))


def test_a_name_cannot_break_out() -> None:
    """Markup in a name is text."""
    svg = drawn("hostile")
    assert "<script" not in svg
    assert "&lt;script&gt;" in svg


def test_curves_begin_at_the_charge_and_rise() -> None:
    """At no stroke slow and fast are the charge; both rise, and the way to the gas end falls."""
    found = gas_curves_of(FITS["reservoir"], REFERENCE)
    assert found.lock is Lock.EXCLUDED
    as_set = next(one for one in found.curves if one.state == "as_set")
    assert as_set.slow[0].middle == pytest.approx(1.0)
    assert as_set.fast[0].middle == pytest.approx(1.0)
    for values in (as_set.slow, as_set.fast):
        middles = [one.middle for one in values]
        assert middles == sorted(middles)
    ways = [one.middle for one in as_set.left]
    assert ways == sorted(ways, reverse=True)
    assert ways[0] == pytest.approx(30.0)
    assert found.oil_stop is not None
    assert found.oil_stop.middle == pytest.approx(36.0)


def test_values_beside_a_plot_keep_apart() -> None:
    """However close they lie, values stand a line apart and inside the frame, in order."""
    places = apart([5.0, 5.0, 6.0, 99.0, 100.0], 0.0, 100.0)
    assert places == sorted(places)
    assert all(second - first >= 15.99 for first, second in pairwise(places))
    assert places[0] >= 0.0
    assert places[-1] <= 100.0


@pytest.mark.parametrize(
    ("least", "step"), [(0.031, 0.05), (1.0, 1.0), (1.01, 2.0), (2.2, 2.5), (60.0, 100.0)]
)
def test_ticks_are_round(least: float, step: float) -> None:
    """Ticks come in 1, 2, 2.5 and 5 of a power of ten."""
    assert round_step(least) == pytest.approx(step)


def test_an_axis_ends_on_its_ticks() -> None:
    """Rounded outwards; an exact axis ends where its values do."""
    assert Axis(0.0, 2.09, 400.0, 0.0).ends == pytest.approx((0.0, 2.5))
    assert Axis(0.0, 63.0, 0.0, 300.0, exact=True).ends == (0.0, 63.0)
    assert Axis(0.0, 63.0, 0.0, 300.0, exact=True).ticks() == pytest.approx([0, 10, 20, 30, 40, 50, 60])
