"""Laws of ISO 286-1 that hold for every class and size, tried on generated ones."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from schema.errors import ToleranceClassError
from schema.iso286 import (
    GRADES,
    SHAFT_LETTERS,
    fit,
    looks_like_tolerance_class,
    split_designation,
    standard_tolerance_um,
    tolerance_zone,
)

MAIN_STEPS = [0, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500]
EVERY_STEP = sorted({*MAIN_STEPS, 1, 14, 24, 40, 65, 100, 140, 160, 200, 225, 280, 355, 450})
EARLY = ("a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js")
LATE = ("p", "r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc")
LETTERS = st.sampled_from([*SHAFT_LETTERS, *(letters.upper() for letters in SHAFT_LETTERS)])
GRADE = st.sampled_from(GRADES)
SIZE = st.decimals(min_value="0.0001", max_value="500", places=4)
LARGER_THAN_1 = st.decimals(min_value="1.0001", max_value="500", places=4)
LARGER_THAN_3 = st.decimals(min_value="3.0001", max_value="500", places=4)


def between(over: str, up_to: str) -> st.SearchStrategy[Decimal]:
    return st.decimals(min_value=Decimal(over) + Decimal("0.0001"), max_value=up_to, places=4)


def both_cases(*letters: str) -> st.SearchStrategy[str]:
    return st.sampled_from([*letters, *(text.upper() for text in letters)])


WITH_A_VALUE = st.one_of(
    st.tuples(both_cases("a", "b", "c", "d", "e", "f", "g", "h", "js"), GRADE, between("1", "500")),
    st.tuples(
        both_cases("c", "d", "e", "f", "g", "h", "js"), st.sampled_from(GRADES[:15]), between("0", "1")
    ),
    st.tuples(both_cases("cd", "ef", "fg"), GRADE, between("1", "10")),
    st.tuples(st.sampled_from(("k", "m", "n", "p", "r", "s", "u", "x", "z")), GRADE, between("1", "500")),
    st.tuples(st.just("j"), st.sampled_from(("5", "6", "7")), between("0", "500")),
    st.tuples(st.just("j"), st.just("8"), between("0", "3")),
    st.tuples(st.just("J"), st.sampled_from(("6", "7", "8")), between("0", "500")),
    st.tuples(st.just("K"), st.sampled_from(GRADES[4:10]), between("0", "500")),
    st.tuples(st.just("K"), GRADE, between("1", "3")),
    st.tuples(st.sampled_from(("M", "N", "P", "R", "ZC")), st.sampled_from(GRADES[4:]), between("1", "500")),
    st.tuples(both_cases("t"), st.sampled_from(GRADES[4:]), between("24", "500")),
    st.tuples(both_cases("v"), st.sampled_from(GRADES[4:]), between("14", "500")),
    st.tuples(both_cases("y"), st.sampled_from(GRADES[4:]), between("18", "500")),
)
"""Classes and sizes that the tables print a value for, refused ones left out."""


def answer(designation: str, size_mm: Decimal) -> tuple[Decimal, Decimal] | None:
    """The two deviations, or None for a class that is refused at this size."""
    try:
        zone = tolerance_zone(designation, size_mm)
    except ToleranceClassError:
        return None
    return zone.lower_um, zone.upper_um


@given(case=WITH_A_VALUE)
def test_limits_are_ordered_and_as_far_apart_as_the_grade(case: tuple[str, str, Decimal]) -> None:
    """The lower limit is below the upper one by exactly the standard tolerance of the grade."""
    letters, grade, size_mm = case
    zone = tolerance_zone(letters + grade, size_mm)
    width = standard_tolerance_um(grade, size_mm)
    assert zone.lower_um < zone.upper_um
    assert zone.upper_um - zone.lower_um == width
    assert (zone.upper_limit_mm - zone.lower_limit_mm) * 1000 == width
    assert (zone.lower_limit_mm - size_mm) * 1000 == zone.lower_um


@given(case=WITH_A_VALUE)
def test_the_side_of_a_class_is_told_by_its_capitals(case: tuple[str, str, Decimal]) -> None:
    """Capitals are a hole and small letters a shaft, and the class is returned as it was asked."""
    letters, grade, size_mm = case
    zone = tolerance_zone(letters + grade, size_mm)
    assert zone.is_hole == (letters == letters.upper())
    assert (zone.designation, zone.size_mm) == (letters + grade, size_mm)


@given(letters=st.sampled_from(EARLY), grade=GRADE, size_mm=SIZE)
@example(letters="a", grade="11", size_mm=Decimal(1))
@example(letters="fg", grade="7", size_mm=Decimal("10.001"))
def test_holes_a_to_h_mirror_the_shafts(letters: str, grade: str, size_mm: Decimal) -> None:
    """Holes A to H and JS are the shafts a to h and js turned about the nominal size, refusals included."""
    shaft = answer(letters + grade, size_mm)
    mirrored = None if shaft is None else (-shaft[1], -shaft[0])
    assert answer(letters.upper() + grade, size_mm) == mirrored


@given(
    letters=st.sampled_from(LATE),
    grade=st.sampled_from(GRADES[GRADES.index("8") :]),
    size_mm=SIZE,
)
@example(letters="t", grade="8", size_mm=Decimal(24))
def test_holes_p_to_zc_above_it7_mirror_the_shafts(letters: str, grade: str, size_mm: Decimal) -> None:
    """Holes P to ZC above IT7 carry no delta and are the shafts turned about the nominal size."""
    shaft = answer(letters + grade, size_mm)
    mirrored = None if shaft is None else (-shaft[1], -shaft[0])
    assert answer(letters.upper() + grade, size_mm) == mirrored


@given(
    case=st.sampled_from(
        [("k", n) for n in range(5, 9)]
        + [(letters, n) for letters in ("m", "n") for n in range(3, 9)]
        + [(letters, n) for letters in LATE for n in range(3, 8)]
    ),
    size_mm=LARGER_THAN_3,
)
@example(case=("n", 8), size_mm=Decimal(30))
@example(case=("m", 6), size_mm=Decimal(250))
def test_hole_basis_and_shaft_basis_give_the_same_fit(case: tuple[str, int], size_mm: Decimal) -> None:
    """Delta makes P7/h6 fit as H7/p6 does, for K, M, N to IT8 and P to ZC to IT7, except M6 at 250 to 315."""
    letters, grade = case
    assume(not (letters == "m" and grade == 6 and 250 < size_mm <= 315))
    assume(answer(f"{letters}{grade - 1}", size_mm) is not None)
    hole_basis = fit(tolerance_zone(f"H{grade}", size_mm), tolerance_zone(f"{letters}{grade - 1}", size_mm))
    shaft_basis = fit(
        tolerance_zone(f"{letters.upper()}{grade}", size_mm), tolerance_zone(f"h{grade - 1}", size_mm)
    )
    assert shaft_basis.clearance_min_um == hole_basis.clearance_min_um
    assert shaft_basis.clearance_max_um == hole_basis.clearance_max_um
    assert shaft_basis.kind == hole_basis.kind


@given(size_mm=st.decimals(min_value="250.0001", max_value="315", places=4))
def test_m6_from_250_to_315_is_the_one_exception_to_delta(size_mm: Decimal) -> None:
    """M6 over 250 up to 315 lies two micrometres above what delta would give."""
    by_delta = tolerance_zone("M8", size_mm).upper_um - Decimal(29) + Decimal(9)
    assert tolerance_zone("M6", size_mm).upper_um - by_delta == 2


@given(size_mm=LARGER_THAN_1, finer=st.integers(0, len(GRADES) - 2))
def test_a_coarser_grade_is_wider(size_mm: Decimal, finer: int) -> None:
    """Every grade is strictly wider than the one before it, IT0 than IT01 included."""
    coarser = GRADES[finer + 1]
    assert standard_tolerance_um(GRADES[finer], size_mm) < standard_tolerance_um(coarser, size_mm)


@given(grade=GRADE, sizes=st.tuples(LARGER_THAN_1, LARGER_THAN_1))
def test_a_larger_size_never_has_a_smaller_tolerance(grade: str, sizes: tuple[Decimal, Decimal]) -> None:
    """Within a grade the standard tolerance does not fall as the size grows."""
    smaller, larger = sorted(sizes)
    assert standard_tolerance_um(grade, smaller) <= standard_tolerance_um(grade, larger)


@given(size_mm=SIZE, grade=st.sampled_from(["5", "6", "7", "8"]))
def test_interference_letters_grow_along_the_alphabet(size_mm: Decimal, grade: str) -> None:
    """From m to zc each later shaft letter that has a value starts higher than the one before."""
    found = [answer(letters + grade, size_mm) for letters in ("m", "n", *LATE)]
    starts = [pair[0] for pair in found if pair is not None]
    assert starts == sorted(set(starts))
    assert len(starts) >= 11


@given(letters=LETTERS, grade=GRADE, step=st.integers(1, len(EVERY_STEP) - 1), data=st.data())
def test_a_step_has_one_answer_up_to_and_including_its_end(
    letters: str, grade: str, step: int, data: st.DataObject
) -> None:
    """Just above a step's start and exactly at its end a class has one value, or is refused at both."""
    over, up_to = Decimal(EVERY_STEP[step - 1]), Decimal(EVERY_STEP[step])
    inside = data.draw(st.decimals(min_value=over + Decimal("0.0001"), max_value=up_to, places=4))
    just_above = over + Decimal("1E-12")
    assert answer(letters + grade, inside) == answer(letters + grade, up_to)
    assert answer(letters + grade, just_above) == answer(letters + grade, up_to)


@pytest.mark.parametrize("end", MAIN_STEPS[2:-1])
def test_the_step_changes_just_above_its_end(end: int) -> None:
    """One billionth of a millimetre above a main step's end the next, wider H7 begins."""
    at_end = tolerance_zone("H7", Decimal(end)).upper_um
    assert tolerance_zone("H7", Decimal(end) + Decimal("1E-9")).upper_um > at_end


@given(text=st.text(max_size=6))
@example(text="H7")
@example(text="IT7")
def test_any_text_is_a_class_or_refused(text: str) -> None:
    """Whatever is typed is either split into parts that make it up again, or refused as no class."""
    try:
        letters, grade = split_designation(text)
    except ToleranceClassError as error:
        assert error.given == text
    else:
        assert letters + grade == text.strip()
        assert looks_like_tolerance_class(text)
