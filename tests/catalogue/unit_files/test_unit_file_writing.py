"""Unit files as they are written: the same bytes each time, bare texts where they may be, all read back."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.unit_files.reading import read_unit_file, read_unit_text
from catalogue.unit_files.shape import normal
from catalogue.unit_files.writing import unit_yaml
from tests.command import UNIT_PATHS


@pytest.mark.parametrize("path", UNIT_PATHS, ids=lambda path: path.stem)
def test_demo_units_are_read_back_as_they_were(path: Path) -> None:
    """Reading what was written gives the same texts, and writing them again the same bytes."""
    texts = read_unit_file(path).texts
    written = unit_yaml(texts)
    again = read_unit_text(written)
    assert (again.faults, again.texts, list(again.texts["places"])) == ((), texts, list(texts["places"]))
    assert unit_yaml(again.texts) == written


def test_order_does_not_depend_on_how_the_texts_came() -> None:
    """Fields stand in the order of the models, whatever order they were told in; places keep theirs."""
    texts = read_unit_file(UNIT_PATHS[0]).texts
    shuffled: dict[str, Any] = {
        name: {place: _shuffled(told) for place, told in one.items()} if name == "places" else one
        for name, one in _shuffled(texts).items()
    }
    assert unit_yaml(shuffled) == unit_yaml(texts)


def _shuffled(texts: dict[str, Any]) -> dict[str, Any]:
    names = sorted(texts)
    random.Random(7).shuffle(names)
    return {name: texts[name] for name in names}


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("-10..60 degC", "-10..60 degC"),
        ("36 H7 mm", "36 H7 mm"),
        ("±0.05 mm", "±0.05 mm"),
        ("a, b [c]", "a, b [c]"),
        ("1:30", '"1:30"'),
        ("no", '"no"'),
        ("1.60", '"1.60"'),
        ("2026-01-31", '"2026-01-31"'),
        ("~", '"~"'),
        ("- a", '"- a"'),
        ("a: b", '"a: b"'),
        ("a #b", '"a #b"'),
        ("a#b", "a#b"),
        ("ends:", '"ends:"'),
        ('5/8"', '5/8"'),
        ('"a"', '"\\"a\\""'),
        ("*x", '"*x"'),
        ("---", '"---"'),
        ("two\nlines", '"two\\nlines"'),
        ("back\\slash: x", '"back\\\\slash: x"'),
    ],
)
def test_quotes_only_where_they_are_needed(text: str, written: str) -> None:
    """A text stands bare unless YAML, or another reader of YAML, would make something else of it."""
    assert unit_yaml({"notes": text}) == f"notes: {written}\n"
    assert yaml.safe_load(f"notes: {written}") == {"notes": text}


def test_numbers_of_number_fields_stand_bare() -> None:
    """A count is a number for every reader of YAML."""
    place = {"kind": "rod_gland", "back_up_rings": "1", "parts": [{"part": "A, B", "quantity": "2"}]}
    written = unit_yaml({"unit": "u", "places": {"p": place}})
    assert "back_up_rings: 1\n" in written
    assert '- {part: "A, B", quantity: 2}\n' in written


TEXT = st.text(
    st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp"), exclude_characters="\u2028\u2029")
    | st.sampled_from(": #-'\"{}[],&*!|>%@`\n?=~0123456789"),
    min_size=1,
    max_size=30,
).filter(lambda text: text == text.strip() and _printable(text))
NAME = TEXT.filter(lambda text: "\n" not in text and "/" not in text)


def _printable(text: str) -> bool:
    return yaml.reader.Reader.NON_PRINTABLE.search(text) is None


def _named(value: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.lists(st.tuples(NAME, value), max_size=4, unique_by=lambda one: one[0].lower()).map(dict)


FIELDS = st.dictionaries(
    st.sampled_from(["description", "shaft_diameter", "metal", "notes", "motion", "made_up"]),
    TEXT,
    max_size=5,
)
LISTED = st.lists(
    st.tuples(NAME, st.integers(1, 1000), st.sampled_from(["always", "inspect"])),
    max_size=3,
    unique_by=lambda one: one[0].lower(),
).map(lambda several: [{"part": a, "quantity": str(b), "renew": c} for a, b, c in several])
PLACE = st.builds(
    lambda kind, fields, parts: {"kind": kind, **fields, "parts": parts},
    st.sampled_from(["rod_gland", "bushing_seat", "gas_chamber", "nothing_known"]),
    FIELDS,
    LISTED,
)
UNIT = st.fixed_dictionaries(
    {"unit": NAME, "kind": st.just("damper")},
    optional={
        "notes": TEXT,
        "stroke": TEXT,
        "made_up": TEXT,
        "shafts": _named(NAME),
        "places": _named(PLACE),
        "parts": _named(FIELDS),
    },
)


@settings(max_examples=300, deadline=None)
@given(UNIT)
def test_any_texts_are_read_back(texts: dict[str, Any]) -> None:
    """Whatever signs a name or a text is made of, the file says it and reading gives it back."""
    read = read_unit_text(unit_yaml(texts))
    assert read.faults == ()
    assert read.texts == normal(texts)
    assert list(read.texts.get("places", {})) == list(texts.get("places", {}))


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=200) | st.text("ab: \n-{}[]'\"#&*!?|>\t%@", max_size=80))
def test_no_text_makes_the_reader_fail(text: str) -> None:
    """Reading ends with texts or with faults that have a line, never with another error."""
    for fault in read_unit_text(text).faults:
        assert fault.line >= 1
        assert fault.problem
