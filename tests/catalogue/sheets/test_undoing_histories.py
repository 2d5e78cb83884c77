"""Any history of loads, and any of them taken back: the catalogue is as if those had never been loaded."""

from __future__ import annotations

import shutil
from itertools import count
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from catalogue.sheets.undoing import InTheWay
from tests.catalogue.sheets.small_loads import content, load, rows, undo, whole, words_are_right

HEADER = "Code,Words,Kind,ID,CS,Rubber,Shore,Price,Stock"
OWN_HEADER = "Our number,Words,Kind,ID,CS,Rubber,Shore,Notes"
# No size of one supplier is one of another, so that no code is matched with another supplier's part.
SIZES = {"Kolbring": ("311", "312"), "Dornet": ("411", "412"), "": ("511", "512")}


class Sheet(NamedTuple):
    """One sheet: whose it is ("" for own parts), what it covers, its lines."""

    supplier: str
    covers: str
    lines: tuple[str, ...]


class Back(NamedTuple):
    """Taking back one of the loads that hold, by its place among them."""

    place: int


def _line(supplier: str, code: str, words: str, size: str, price: str, stock: str) -> str:
    tail = f"{price},{stock}" if supplier else words.replace("ring", "note")
    return f"{code},{words},o_ring,{size},3.5,NBR,70,{tail}"


@st.composite
def _sheets(draw: st.DrawFn) -> Sheet:
    supplier = draw(st.sampled_from(("Kolbring", "Kolbring", "Dornet", "")))
    line = st.builds(
        _line,
        st.just(supplier),
        st.sampled_from(("A1", "B2")),
        st.sampled_from(("ring plain", "ring new")),
        st.sampled_from((SIZES[supplier][0], *SIZES[supplier])),
        st.sampled_from(("1.00", "1.00", "1.00", "40.00", "nothing much")),
        st.sampled_from(("", "", "7")),
    )
    lines = draw(st.lists(line, min_size=1, max_size=3))
    return Sheet(supplier, draw(st.sampled_from(("whole_range", "some"))), tuple(lines))


HISTORIES = st.builds(
    lambda first, rest: [*first, *rest],
    st.lists(_sheets(), min_size=2, max_size=4),
    st.lists(st.one_of(_sheets(), st.builds(Back, st.integers(0, 5))), min_size=1, max_size=6),
)


@pytest.fixture(scope="module", name="folder")
def _folder(empty: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with an empty catalogue."""
    return Path(shutil.copy(empty, tmp_path_factory.mktemp("histories") / "empty.sqlite")).parent


_numbers = count()


def _new(folder: Path) -> Path:
    path = folder / f"{next(_numbers)}.sqlite"
    shutil.copy(folder / "empty.sqlite", path)
    return path


def _put(catalogue: Path, sheet: Sheet) -> int:
    header = HEADER if sheet.supplier else OWN_HEADER
    return load(
        catalogue,
        header,
        *sheet.lines,
        supplier=sheet.supplier or "own parts",
        own_parts=not sheet.supplier,
        covers=sheet.covers,
        take_doubtful=True,
    ).load


def _afresh(folder: Path, held: dict[int, Sheet]) -> dict[str, list[dict[str, object]]]:
    """What a new catalogue says after these loads, with the numbers that they had."""
    catalogue = _new(folder)
    numbers = {_put(catalogue, sheet): number for number, sheet in held.items()}
    return content(catalogue, loads=numbers)


def _line_of(code: str, price: str, words: str = "ring plain") -> str:
    return _line("Kolbring", code, words, "311", price, "")


A, A_DEARER, A_WRONG = (_line_of("A1", price) for price in ("1.00", "1.50", "nothing much"))
B, B_DEARER = (_line_of("B2", price) for price in ("1.00", "1.50"))


WITHDRAWN_TWICE = [
    Sheet("Kolbring", "some", (A,)),
    Sheet("Kolbring", "whole_range", (B,)),
    Sheet("Kolbring", "whole_range", (B_DEARER,)),
    Back(1),
]
REFUSED_LATER = [
    Sheet("Kolbring", "some", (A,)),
    Sheet("Kolbring", "whole_range", (B,)),
    Sheet("Kolbring", "whole_range", (A_WRONG, B)),
    Back(1),
]
THERE_AND_BACK = [
    Sheet("Kolbring", "some", (A,)),
    Sheet("Kolbring", "some", (A_DEARER,)),
    Sheet("Kolbring", "some", (A,)),
    Back(1),
]
SAID_AGAIN = [
    Sheet("Kolbring", "some", (A,)),
    Sheet("Kolbring", "some", (A_DEARER,)),
    Sheet("Kolbring", "some", (B, A_DEARER)),
    Back(1),
    Back(0),
]


BACK_AND_GONE = [
    Sheet("Kolbring", "some", (A,)),
    Sheet("Kolbring", "whole_range", (B,)),
    Sheet("Kolbring", "whole_range", (A, B)),
    Sheet("Kolbring", "whole_range", (B_DEARER,)),
    Back(2),
]


@example(WITHDRAWN_TWICE)
@example(BACK_AND_GONE)
@example(REFUSED_LATER)
@example(THERE_AND_BACK)
@example(SAID_AGAIN)
@given(HISTORIES)
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_load_taken_back_leaves_no_trace(folder: Path, history: list[Sheet | Back]) -> None:
    """After a load is taken back, parts, offers and what they were are those of a catalogue without it."""
    catalogue = _new(folder)
    held: dict[int, Sheet] = {}
    for step in history:
        if isinstance(step, Sheet):
            if number := _put(catalogue, step):
                held[number] = step
        elif held:
            number = sorted(held)[step.place % len(held)]
            undo(catalogue, number)
            del held[number]
            assert content(catalogue) == _afresh(folder, held)
    words_are_right(catalogue, ("plain", "new"))


@st.composite
def _shared(draw: st.DrawFn) -> Sheet:
    """A sheet whose articles are those of the other supplier too, under other codes."""
    supplier = draw(st.sampled_from(("Kolbring", "Dornet")))
    line = st.builds(
        _line,
        st.just(supplier),
        st.sampled_from((f"{supplier[0]}1", f"{supplier[0]}2")),
        st.just("ring plain"),
        st.sampled_from(("311", "312")),
        st.sampled_from(("1.00", "1.50")),
        st.just(""),
    )
    return Sheet(supplier, "some", tuple(draw(st.lists(line, min_size=1, max_size=2))))


@given(st.lists(st.one_of(_shared(), _shared(), st.builds(Back, st.integers(0, 5))), max_size=9))
@settings(max_examples=100, deadline=None)
def test_parts_that_others_stand_on_are_in_the_way(folder: Path, history: list[Sheet | Back]) -> None:
    """Where suppliers share parts, a load goes without a trace of itself, or all stays and what is told."""
    catalogue = _new(folder)
    held: set[int] = set()
    for step in history:
        if isinstance(step, Sheet):
            if number := _put(catalogue, step):
                held.add(number)
            continue
        if not held:
            continue
        number = sorted(held)[step.place % len(held)]
        before = whole(catalogue)
        try:
            undo(catalogue, number)
        except InTheWay as stands:
            assert stands.reasons
            assert whole(catalogue) == before
        else:
            held.discard(number)
            used = "SELECT load FROM offer UNION SELECT load FROM earlier_offer UNION SELECT load FROM part"
            assert {load for (load,) in rows(catalogue, used)} <= held
        keys = "SELECT typed_key FROM offer JOIN part USING (part_number)"
        assert len(rows(catalogue, keys)) == len(rows(catalogue, "SELECT 1 FROM offer"))
    words_are_right(catalogue, ("plain",))
