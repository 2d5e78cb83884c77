"""Thread designations: what is read, what is refused and with which words."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schema.errors import InputError, UnknownName
from schema.thread_limits import limits_of_size
from schema.thread_tables import metric_sizes
from schema.threads import parse_thread


@pytest.mark.parametrize(
    ("text", "label", "family", "classes"),
    [
        ("M8x1", "M8x1", "metric", ("", "")),
        ("M8", "M8x1.25", "metric", ("", "")),
        ("M8x1-6g", "M8x1", "metric", ("6g", "")),
        ("M10x1.5-6H/6g", "M10x1.5", "metric", ("6g", "6H")),
        ("M10 × 1,25 - 5g6g", "M10x1.25", "metric", ("5g6g", "")),
        ("m8 X 1", "M8x1", "metric", ("", "")),
        ("1/4-28 UNF", "1/4-28 UNF", "unified", ("", "")),
        ("7/16-20 UNF-2B", "7/16-20 UNF", "unified", ("", "2B")),
        ("No. 10-32", "#10-32 UNF", "unified", ("", "")),
        ("10-32", "#10-32 UNF", "unified", ("", "")),
        ("0.190-32", "#10-32 UNF", "unified", ("", "")),
        ("5V1", "5V1", "valve", ("", "")),
        ("8v1", "8V1", "valve", ("", "")),
        ("0.305-32", "8V1", "valve", ("", "")),
        ("0.209-36", "5V1", "valve", ("", "")),
        ("Vg 8", "Vg 8", "valve", ("", "")),
        ("VG 8 x 32", "Vg 8", "valve", ("", "")),
        ("CTV8-32", "CTV8-32", "valve", ("", "")),
    ],
)
def test_a_designation_is_read(text: str, label: str, family: str, classes: tuple[str, str]) -> None:
    """Every way a drawing, a box or a workshop writes a thread gives the thread."""
    found = parse_thread(text)
    assert (found.label, found.family) == (label, family)
    assert (found.external_class, found.internal_class) == classes
    assert found.text == text


def test_a_left_hand_thread_is_another_thread() -> None:
    """LH is read, kept and told."""
    assert parse_thread("M10x1-LH").left_hand
    assert parse_thread("M10x1-6g-LH").external_class == "6g"
    assert parse_thread("M10x1 LH").in_words == "M10x1 left hand"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("M6x0.8", "6V1 has that size, another profile"),
        ("M15", "no coarse pitch"),
        ("M8x4", "no size of a metric thread"),
        ("M8x1-6q", "'6q' is no tolerance class"),
        ("M8x1-6g/6g", "one internal and one external class"),
        ("M8x1-6gH", "is no tolerance class"),
        ("8x1", "which family of threads"),
        ("MJ6x1", "root radius"),
        ("G1/4", "pipe threads are not covered"),
        ("1/4 NPT", "pipe threads are not covered"),
        ("1/4-28 UNC", "is UNF, not UNC"),
        ("1/4-27", "not in the list read"),
        ("", "nothing is given"),
        ("x" * 500, "too long"),
    ],
)
def test_what_is_no_thread_is_refused_with_the_way_to_mend_it(text: str, told: str) -> None:
    """The refusal names the field, says what is wrong and gives an example that works."""
    with pytest.raises(InputError, match=told) as refused:
        parse_thread(text, field="place.thread")
    assert refused.value.field == "place.thread"
    assert refused.value.example


def test_a_slip_in_a_valve_name_is_told_the_near_names() -> None:
    """6V2 does not exist; 6V1 is near."""
    with pytest.raises(UnknownName, match=r"Near: .*6V1"):
        parse_thread("6V2")


@pytest.mark.parametrize("text", ["M45x1", "M50x0.75"])
def test_a_fine_thread_of_a_damper_body_is_read(text: str) -> None:
    """Sizes that the lists lack are read by the profile of ISO 68-1 and marked, listed ones are not."""
    found = parse_thread(text)
    assert found.grade == ("published_once" if text == "M45x1" else "derived")


def test_an_inch_fraction_is_exact() -> None:
    """5/16 in is 7.9375 mm, and 7/8-14 has the pitch 25.4 / 14."""
    assert parse_thread("5/16-18").major_mm == 7.9375
    assert parse_thread("7/8-14 UNF").pitch_mm == pytest.approx(25.4 / 14)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text makes the reader fail otherwise than by its own refusal."""
    try:
        parse_thread(text)
    except InputError:
        return


@given(st.sampled_from(sorted(metric_sizes())), st.sampled_from(["6g", "6h", "4g6g", "8g"]))
def test_an_external_thread_never_exceeds_its_basic_size(size: tuple[Decimal, Decimal], name: str) -> None:
    """Limits are ordered, and the largest external thread lies at or below the basic profile."""
    limits = limits_of_size(parse_thread(f"M{size[0]}x{size[1]}"), "external", name)
    for one in (limits.major, limits.pitch):
        if one is not None:
            assert one.low_mm is not None
            assert one.high_mm is not None
            assert one.low_mm < one.high_mm
    if limits.major is not None and limits.major.high_mm is not None:
        assert limits.major.high_mm <= size[0]


@given(st.sampled_from(sorted(metric_sizes())))
def test_threads_of_the_medium_classes_always_go_together(size: tuple[Decimal, Decimal]) -> None:
    """The largest 6g is smaller than the smallest 6H in pitch diameter, for every listed size."""
    thread = parse_thread(f"M{size[0]}x{size[1]}")
    outside, inside = limits_of_size(thread, "external").pitch, limits_of_size(thread, "internal").pitch
    if outside is not None and inside is not None:
        assert outside.high_mm is not None
        assert inside.low_mm is not None
        assert outside.high_mm < inside.low_mm


@pytest.mark.parametrize(
    ("text", "crest_mm"), [("M10x1", 10.0), ("6V1", 6.03), ("8V1", 7.747), ("Vg 12", None)]
)
def test_the_largest_crest_is_what_a_seal_must_pass(text: str, crest_mm: float | None) -> None:
    """No external thread of deviation g or h stands above its basic size; 6V1 may be 6.03 mm."""
    assert parse_thread(text).largest_major_mm == crest_mm


def test_unified_threads_have_no_limits_here() -> None:
    """Limits of 2A and 2B were not read, so none are given."""
    limits = limits_of_size(parse_thread("1/4-28 UNF-2A"), "external")
    assert (limits.major, limits.pitch, limits.minor) == (None, None, None)
