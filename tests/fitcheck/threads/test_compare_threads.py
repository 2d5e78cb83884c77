"""Same, near, different, or not settled: the pairs that a workshop confuses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitcheck.threads.compare import Relation, compare, thread_finding
from schema.finding import Status
from schema.thread_tables import metric_sizes, unified_sizes, valve_threads
from schema.threads import parse_thread

SAME, NEAR, DIFFERENT, UNKNOWN = Relation.SAME, Relation.NEAR, Relation.DIFFERENT, Relation.UNKNOWN


@pytest.mark.parametrize(
    ("first", "second", "relation", "told"),
    [
        ("M8", "M8x1.25", SAME, "M8x1.25"),
        ("0.305-32", "8V1", SAME, "8V1"),
        ("M10x1-6H", "M10x1-6g", SAME, "M10x1"),
        ("#10-32", "M5x0.8", NEAR, "0.0063 mm off with every turn"),  # 32 turns per inch against 0.8 mm
        ("6V1", "M6", NEAR, "0.2 mm off"),
        ("6V1", "M6x0.75", NEAR, "0.05 mm off"),
        ("0.305-32", "M8x0.75", NEAR, "8V1"),
        ("5/16-24", "M8x1", NEAR, "0.058 mm off"),  # 24 turns per inch against 1.0 mm
        ("CTV8-32", "8V1", NEAR, "0.15 mm on the diameter"),
        ("CTV8-32", "CTV8-30", NEAR, "0.053 mm off"),
        ("5V2", "#12-24", NEAR, "on the diameter"),
        ("1/4-28", "M6x1", NEAR, "1/4-28"),
        ("M10x1", "M10x1.25", NEAR, "0.25 mm off"),
        ("M8x1", "M10x1", DIFFERENT, "against"),
        ("8V1", "5V1", DIFFERENT, "against"),
        ("M8x1", "M8x1-LH", DIFFERENT, "left-hand"),
        ("VG 8 x 32", "CTV8-30", UNKNOWN, "disputed"),
        ("Vg 8", "8V1", UNKNOWN, "disputed"),
        ("Vg 8", "Vg 8", UNKNOWN, "30 turns per inch"),
        ("Vg 12", "Vg 12", UNKNOWN, "no size of Vg 12"),
        ("Vg 8", "M20", DIFFERENT, "against"),  # whatever is disputed, it is not 20 mm
    ],
)
def test_two_threads_stand_as_they_should(first: str, second: str, relation: Relation, told: str) -> None:
    """The pairs that look alike are told apart, with the words why."""
    found = compare(parse_thread(first), parse_thread(second))
    assert found.relation is relation
    assert told in found.words


def test_sizes_that_agree_under_two_names_are_not_taken_for_one() -> None:
    """5V1 and CTV5-36 agree within a gauge, but their limits were not read side by side: not proven."""
    found = compare(parse_thread("5V1"), parse_thread("CTV5-36"))
    assert found.alike
    assert finding("5V1", "CTV5-36").status is Status.NOT_PROVEN


def finding(inside: str, outside: str):  # type: ignore[no-untyped-def]
    return thread_finding(
        parse_thread(inside),
        parse_thread(outside),
        rule="thread_match",
        quantity="thread",
        inside_of="seat",
        outside_of="valve body",
    )


@pytest.mark.parametrize(
    ("inside", "outside", "status"),
    [
        ("M8x1", "M8x1", Status.FITS),
        ("M6", "6V1", Status.DOES_NOT_FIT),
        ("M8x1", "5/16-24", Status.DOES_NOT_FIT),
        ("Vg 8", "8V1", Status.NOT_PROVEN),
        ("12V1", "12V1", Status.FITS),
    ],
)
def test_same_fits_near_does_not_and_what_is_unverified_is_not_proven(
    inside: str, outside: str, status: Status
) -> None:
    """A thread that is near starts and strips, so it does not fit; one without verified size is open."""
    assert finding(inside, outside).status is status


def test_a_refusal_tells_both_differences_and_forbids_force() -> None:
    """A mechanic is told by how much they differ, which thread it must be, and not to force it."""
    told = finding("M8x1", "5/16-24")
    assert "pitch differs by 5.8 %, diameter by 0.8 %" in told.reason
    assert told.action.startswith("A valve body with M8x1.")
    assert "Do not force it" in told.action


ALL = [f"M{one.major_mm}x{one.pitch_mm}" for one in metric_sizes().values()]
ALL += [f"{size}-{tpi}" for size, tpi in unified_sizes()]
ALL += sorted({one.name for one in valve_threads().values()})


@given(st.sampled_from(ALL), st.sampled_from(ALL))
def test_what_one_thread_is_to_another_the_other_is_to_it(first: str, second: str) -> None:
    """Comparing is symmetrical between same, different and not settled, near the limits of near aside."""
    there = compare(parse_thread(first), parse_thread(second))
    back = compare(parse_thread(second), parse_thread(first))
    assert (there.relation is SAME) == (back.relation is SAME)
    assert there.alike == back.alike or there.relation is not SAME


@given(st.sampled_from(ALL), st.sampled_from(ALL))
def test_only_one_name_makes_one_thread(first: str, second: str) -> None:
    """No pair of two names is ever told to be the same thread."""
    one, other = parse_thread(first), parse_thread(second)
    if compare(one, other).relation is SAME:
        assert one.label == other.label
