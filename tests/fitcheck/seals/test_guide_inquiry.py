"""Guide rings in their grooves: free, guiding, metal kept apart, in the cold and in the heat."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitcheck.numbers import Span
from fitcheck.rule import span
from fitcheck.seals.guide import guide_play
from schema.finding import Status
from schema.housing_tables import housing_rows
from tests.fitcheck.seals.examples import Texts, finding, groove

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT
ROD: Texts = {
    "bore_diameter": None,
    "shaft_diameter": "19.05 +0/-0.02 mm",
    "groove_diameter": "25.40 +0.03/0 mm",
    "groove_width": "6.60 +0.25/0 mm",
    "land_diameter": "19.60 +0.02/0 mm",
}
ROD_RING: Texts = {
    "outside_diameter": None,
    "inside_diameter": "19.05 mm",
    "thickness": "3.145 ±0.005 mm",
    "width": "6.50 ±0.05 mm",
}


def test_a_printed_piston_groove_with_its_ring_fits() -> None:
    """36 mm bore, floor 31 mm, strip 2.5 mm: series GP65 of the printed sheet."""
    verdict = groove()
    assert verdict.status is FITS
    limits = finding(verdict, "guide_radial_gap").limits
    assert limits is not None
    assert (limits.high, limits.guidance) == (0.9, "printed groove GP65")


def test_a_printed_rod_groove_with_its_ring_fits() -> None:
    """3/4 in rod, groove rod + 1/4 in, throat rod + .023 in: the printed inch row."""
    assert groove(ROD, ROD_RING).status is FITS


def test_the_misprinted_row_never_proves() -> None:
    """The 13/16 in row is disputed: a gap of a rod guide of that size is not proven by it."""
    rod = {
        **ROD,
        "shaft_diameter": "20.6375 +0/-0.02 mm",
        "groove_diameter": "26.34 +0.03/0 mm",
        "land_diameter": "21.20 +0.02/0 mm",
    }
    found = finding(groove(rod, {**ROD_RING, "thickness": "2.84 ±0.005 mm"}), "guide_radial_gap")
    assert found.status is NOT
    assert found.limits is not None
    assert found.limits.grade == "disputed"


@pytest.mark.parametrize(
    ("thickness", "rule", "expected"),
    [
        ("2.485 ±0.005 mm", "guide_play", FITS),
        ("2.400 ±0.005 mm", "guide_play", NOT),  # worn: more play than printed grooves allow
        ("2.530 ±0.005 mm", "guide_play", OUT),  # thicker than its room
        ("2.498 ±0.002 mm", "guide_play_hot", NOT),  # free when cold, may jam at 50 degC
        ("2.150 ±0.005 mm", "guide_metal_gap", OUT),  # metal runs on metal
        ("2.210 ±0.030 mm", "guide_metal_gap", NOT),
    ],
)
def test_the_thickness_of_the_strip_decides(thickness: str, rule: str, expected: Status) -> None:
    """Too thick jams, too thin rattles, and far too thin lets metal touch metal."""
    assert finding(groove(part={"thickness": thickness}), rule).status is expected


@pytest.mark.parametrize(
    ("land", "expected"), [("35.40 ±0.05 mm", FITS), ("34.00 ±0.05 mm", NOT), ("34.16 ±0.05 mm", NOT)]
)
def test_the_gap_beside_the_ring_is_held_against_the_printed_one(land: str, expected: Status) -> None:
    """At most 0.9 mm radial for a 2.5 mm strip; beyond it the sheet is silent, so nothing is refused."""
    assert finding(groove({"land_diameter": land}), "guide_radial_gap").status is expected


def test_a_strip_that_is_not_printed_leaves_its_gap_open() -> None:
    """A 1.5 mm strip has no printed groove: the finding names ISO 10766 as what would settle it."""
    found = finding(
        groove({"groove_diameter": "33 h8 mm"}, {"thickness": "1.48 ±0.01 mm", "joint_gap": "2.5 ±0.3 mm"}),
        "guide_radial_gap",
    )
    assert found.status is NOT
    assert "ISO 10766" in found.reason


def test_a_workshops_row_settles_the_gap() -> None:
    """With a row of the workshop's own table (here an invented one) the gap is judged by it."""
    header = (
        "standard",
        "place",
        "side",
        "diameter_from_mm",
        "diameter_to_mm",
        "groove_diameter",
        "gap_max_mm",
        "source",
        "locator",
    )
    cells = ("Test 2", "guide_ring_groove", "piston", "30", "40", "D-3 h8", "0.4", "this test", "row 1")
    table = housing_rows([(2, dict(zip(header, cells, strict=True)))], header, name="housings.csv")
    place = {"groove_diameter": "33 h8 mm", "housing_standard": "Test 2"}
    verdict = groove(place, {"thickness": "1.48 ±0.01 mm"}, housings=table)
    assert finding(verdict, "guide_radial_gap").status is FITS
    assert finding(verdict, "table_groove_diameter").status is FITS
    assert groove(place, {"thickness": "1.48 ±0.01 mm"}).status is NOT


@pytest.mark.parametrize(
    ("gap", "rule", "expected"),
    [
        ("2.6 ±0.4 mm", "guide_joint_gap_hot", FITS),
        ("0.10 ±0.05 mm", "guide_joint_gap_hot", OUT),
        ("0.4 ±0.2 mm", "guide_joint_gap_hot", NOT),
        ("1.0 ±0.4 mm", "guide_joint_gap", NOT),  # printed 2 to 6 mm
        ("8.0 ±0.4 mm", "guide_joint_gap", NOT),
    ],
)
def test_the_joint_stays_open_in_the_heat(gap: str, rule: str, expected: Status) -> None:
    """36 mm of PTFE strip grows 0.28 mm more round than its bore from 20 to 50 degC."""
    assert finding(groove(part={"joint_gap": gap}), rule).status is expected


def test_a_hotter_service_closes_the_joint() -> None:
    """The same gap that holds at 50 degC closes at 160 degC."""
    part = {"joint_gap": "0.8 ±0.1 mm"}
    assert finding(groove(part=part), "guide_joint_gap_hot").status is FITS
    hot = groove(part=part, service={"temperature": "-20..160 degC"})
    assert finding(hot, "guide_joint_gap_hot").status is OUT


@pytest.mark.parametrize(
    ("width", "expected"), [("5.45 ±0.05 mm", FITS), ("5.75 ±0.02 mm", NOT), ("5.90 ±0.05 mm", OUT)]
)
def test_the_strip_goes_into_the_width_of_its_groove(width: str, expected: Status) -> None:
    """Room from 0 to 0.40 mm; a strip wider than every groove refutes."""
    assert finding(groove(part={"width": width}), "guide_side_room").status is expected


def test_a_ring_for_another_bore_is_refused() -> None:
    """A ring cut for 40 mm has another joint in 36 mm, whatever its strip."""
    verdict = groove(part={"outside_diameter": "40 mm"})
    assert finding(verdict, "guide_ring_for_size").status is OUT


@pytest.mark.parametrize(
    ("place", "part", "asked"),
    [
        ({"land_diameter": None}, {}, "land diameter"),
        ({"groove_diameter": None}, {}, "groove diameter"),
        ({"bore_diameter": None}, {}, "bore diameter (piston) or shaft diameter (rod)"),
        ({}, {"thickness": None}, "ring thickness"),
        ({}, {"joint_gap": None}, "joint gap"),
        ({}, {"material": None}, "material"),
    ],
)
def test_what_is_missing_is_asked_for(place: Texts, part: Texts, asked: str) -> None:
    """Nothing fits for want of a word; the word is named."""
    verdict = groove(place, part)
    assert verdict.status is NOT
    assert asked in verdict.next_step


def test_without_a_temperature_the_hot_end_is_open() -> None:
    """The joint in the heat needs the heat."""
    found = finding(groove(service={"temperature": None}), "guide_joint_gap_hot")
    assert found.status is NOT
    assert "temperature range" in found.lacks


def test_a_filled_plastic_is_judged_by_its_base_and_says_so() -> None:
    """Filled PTFE counts as PTFE; that its filler was not judged is told as taken."""
    verdict = groove(part={"material": "filled PTFE"})
    assert verdict.status is FITS
    assert any("filler is not judged" in text for text in verdict.taken)


def test_the_length_of_the_strip_is_told() -> None:
    """Pi times the mean diameter: 36 less 2.485 mm gives 105.3 mm."""
    (told,) = [one for one in groove().told if one.rule == "guide_ring_length"]
    assert told.low <= 105.3 <= told.high


@settings(max_examples=60, deadline=None)
@given(share=st.lists(st.floats(0.0, 1.0), min_size=3, max_size=3))
def test_the_worst_case_of_the_play_bounds_every_ring(share: list[float]) -> None:
    """No bore, floor and strip within their limits have more or less play than the worst case says."""
    limits = {
        "outer_diameter_mm": Span(36.0, 36.0125, 36.025),
        "inner_diameter_mm": Span(30.984, 30.992, 31.0),
        "thickness_mm": Span(2.48, 2.485, 2.49),
    }
    fixed = {"metal_expansion_per_k": 23.1e-6, "ring_expansion_per_k": 112e-6, "temperature_rise_k": 40.0}
    worst = span(guide_play, **limits, **fixed)
    one = {
        name: at.low + part * (at.high - at.low)
        for (name, at), part in zip(limits.items(), share, strict=True)
    }
    assert worst.low - 1e-9 <= guide_play(**one, **fixed) <= worst.high + 1e-9


@pytest.mark.parametrize(
    ("gap", "status"),
    [("0.32 ±0.05 mm", NOT), ("0.45 ±0.05 mm", FITS)],
)
def test_the_expansion_counts_over_all_its_sources(gap: str, status: Status) -> None:
    """PTFE is printed from 90 to 144e-6 per K: one figure out of it proves no joint in the heat."""
    assert finding(groove(part={"joint_gap": gap}), "guide_joint_gap_hot").status is status


CLOSE: Texts = {
    "bore_diameter": "60.0000 ±0.0005 mm",
    "groove_diameter": "55.0000 ±0.0005 mm",
    "land_diameter": "59.4 ±0.05 mm",
}
CLOSE_RING: Texts = {"thickness": "2.4890 ±0.0005 mm", "outside_diameter": "60 mm", "joint_gap": "4 ±0.4 mm"}


@pytest.mark.parametrize(
    ("metal", "groove_metal", "rule", "status"),
    [
        ("aluminium", "aluminium", "guide_play_hot", FITS),
        ("aluminium", None, "guide_play_hot", FITS),
        ("steel", "aluminium", "guide_play_hot", OUT),  # the piston grows into the strip
        ("aluminium", "steel", "guide_play_hot", FITS),
        ("aluminium", "steel", "guide_play_cold", NOT),  # the bore closes on the strip
        ("steel", "aluminium", "guide_play_cold", FITS),
    ],
)
def test_a_groove_of_another_metal_counts_in_heat_and_cold(
    metal: str, groove_metal: str | None, rule: str, status: Status
) -> None:
    """60 mm of one metal against 55 mm of the other, -30 to 50 degC: 0.022 mm of play may be gone."""
    service: Texts = {"temperature": "-30..50 degC"}
    verdict = groove({**CLOSE, "metal": metal, "groove_metal": groove_metal}, CLOSE_RING, service)
    assert finding(verdict, rule).status is status


def test_in_one_metal_the_cold_end_is_not_asked_of_the_play() -> None:
    """A strip shrinks more than the metal it lies in: it jams in the heat only."""
    assert groove().of("guide_play_cold") is None
    assert "the groove is in the same metal, since no other is told" in groove().taken


def test_a_bore_of_untold_metal_counts_as_both() -> None:
    """The least play in the heat is that in steel, the greatest that in aluminium, and it is told."""
    told = [finding(groove({"metal": metal}), "guide_play_hot") for metal in ("steel", "aluminium")]
    verdict = groove({"metal": None})
    both = finding(verdict, "guide_play_hot")
    assert (both.low, both.high) == (told[0].low, told[1].high)
    assert "bore or rod of aluminium or steel, since no metal is told: both count" in verdict.taken
