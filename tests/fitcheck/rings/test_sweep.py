"""The sweep over columns gives what a single check gives, whatever the chunk and the order."""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
from numpy.typing import NDArray

from fitcheck.check import check
from fitcheck.rings.case import case_of
from fitcheck.rings.sweep import DOES_NOT_FIT, FITS, NOT_PROVEN, Judged, limit_sets, sweep, verdicts
from schema.dimension import Dimension
from schema.finding import Status
from schema.guidance import Choices, published_guidance
from schema.question import Question
from schema.reference import published_reference
from tests.examples import PISTON_RULES

STATUS = {Status.FITS: FITS, Status.NOT_PROVEN: NOT_PROVEN, Status.DOES_NOT_FIT: DOES_NOT_FIT}
SIZES = (
    "inside_diameter",
    "cross_section",
    "bore_diameter",
    "groove_diameter",
    "land_diameter",
    "groove_width",
)
COUNT = 60


def drawn(middle: float, half: float) -> Dimension:
    """A drawn dimension from plain numbers [mm]."""
    low, high = Decimal(f"{middle - half:.6f}"), Decimal(f"{middle + half:.6f}")
    return Dimension((low + high) / 2, low, high, f"{middle} ±{half} mm")


def random_questions(asked: Question) -> list[Question]:
    """Questions around one piston gland: some fit, some do not."""
    chance = np.random.default_rng(7)
    made = []
    for section in chance.choice([1.78, 2.62, 3.53], COUNT):
        inside = chance.uniform(10, 60)
        groove = inside * chance.uniform(0.98, 1.10)
        bore = groove + 2 * section * chance.uniform(0.7, 1.0)
        ring = asked.ring.changed(
            inside_diameter=drawn(inside, 0.2), cross_section=drawn(float(section), 0.08)
        )
        gland = asked.gland.changed(
            bore_diameter=drawn(bore, 0.01),
            groove_diameter=drawn(groove, 0.02),
            land_diameter=drawn(bore - chance.uniform(0.03, 0.3), 0.01),
            groove_width=drawn(float(section) * 1.4, 0.05),
        )
        service = asked.service.changed(motion="reciprocating")
        made.append(asked.changed(ring=ring, gland=gland, service=service))
    return made


@pytest.fixture(name="questions")
def _questions(fitting: Question) -> list[Question]:
    """Random questions made from the one that fits."""
    return random_questions(fitting)


def swept(questions: list[Question], order: NDArray[np.intp], chunk_rows: int) -> dict[str, Judged]:
    """All pairs in a given order, the chunks joined."""
    cases = [case_of(questions[index], published_reference()) for index in order]
    each = sorted({case.circumstances for case in cases})
    of_pair = np.array([each.index(case.circumstances) for case in cases])
    sizes = {
        name: (
            np.array([case.spans[name].low for case in cases]),
            np.array([case.spans[name].high for case in cases]),
        )
        for name in SIZES
    }
    limits = limit_sets(PISTON_RULES, each, published_guidance(), Choices())
    parts = [found for _, found in sweep(sizes, cases[0].conditions, limits, of_pair, chunk_rows=chunk_rows)]
    return {
        name: Judged(
            *(
                np.concatenate([getattr(part[name], field) for part in parts])
                for field in ("low", "high", "margin", "status")
            )
        )
        for name in PISTON_RULES
    }


@pytest.mark.parametrize("chunk_rows", [1, 7, 60, 1000])
def test_a_sweep_equals_single_checks(questions: list[Question], chunk_rows: int) -> None:
    """Low, high, margin and status of every rule are those of ``check`` for the same drawn sizes."""
    found = swept(questions, np.arange(COUNT), chunk_rows)
    single = [check(question, published_reference()) for question in questions]
    for name in PISTON_RULES:
        findings = [verdict.of(name) for verdict in single]
        assert [STATUS[one.status] for one in findings] == found[name].status.tolist(), name
        np.testing.assert_allclose(found[name].low, [one.low for one in findings], rtol=1e-12)
        np.testing.assert_allclose(found[name].high, [one.high for one in findings], rtol=1e-12)
        margins = [np.nan if one.margin is None else one.margin for one in findings]
        np.testing.assert_allclose(found[name].margin, margins, rtol=1e-9, atol=1e-12)


def test_the_order_of_pairs_does_not_matter(questions: list[Question]) -> None:
    """Pairs that lie together and pairs in any order are judged alike."""
    shuffled = np.random.default_rng(3).permutation(COUNT)
    straight, mixed = swept(questions, np.arange(COUNT), 16), swept(questions, shuffled, 16)
    for name in PISTON_RULES:
        np.testing.assert_array_equal(straight[name].status[shuffled], mixed[name].status)
        np.testing.assert_array_equal(straight[name].margin[shuffled], mixed[name].margin)


def test_the_random_questions_have_every_status(questions: list[Question]) -> None:
    """The comparison above is worth something only when all three answers occur in it."""
    found = swept(questions, np.arange(COUNT), 1000)
    assert set(np.concatenate([one.status for one in found.values()])) == {FITS, NOT_PROVEN, DOES_NOT_FIT}
    assert set(verdicts(found)) <= {FITS, NOT_PROVEN, DOES_NOT_FIT}


def test_the_verdict_of_a_pair_is_its_worst_status() -> None:
    """One finding that does not fit outweighs the others."""
    column = np.zeros(3)
    found = {
        "a": Judged(column, column, column, np.array([FITS, FITS, FITS], dtype=np.int8)),
        "b": Judged(column, column, column, np.array([FITS, NOT_PROVEN, DOES_NOT_FIT], dtype=np.int8)),
    }
    assert verdicts(found).tolist() == [FITS, NOT_PROVEN, DOES_NOT_FIT]


def test_pairs_without_limits_are_not_proven(questions: list[Question]) -> None:
    """Where no published limit covers the pair, nothing fits and nothing is refused."""
    case = case_of(questions[0], published_reference())
    nowhere = case.circumstances._replace(cross_section_mm=20.0)
    limits = limit_sets(["squeeze"], [nowhere], published_guidance(), Choices())
    sizes = {name: (np.array([case.spans[name].low]), np.array([case.spans[name].high])) for name in SIZES}
    ((_, found),) = sweep(sizes, case.conditions, limits, np.array([0]))
    assert found["squeeze"].status.tolist() == [NOT_PROVEN]
    assert np.isnan(found["squeeze"].margin).all()
