"""One question that fits by every rule, for tests to change in one place."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from fitcheck.check import check
from schema.finding import Verdict
from schema.question import Question, question_from
from schema.reference import published_reference
from tests.examples import GLANDS, PISTON


@pytest.fixture
def ask() -> Callable[..., Verdict]:
    """Ask a gland's question with some of its fields changed; None leaves a field out."""

    def asked(gland: str = "piston", **sections: dict[str, Any]) -> Verdict:
        given = copy.deepcopy(GLANDS[gland])
        for section, fields in sections.items():
            given.setdefault(section, {}).update(fields)
        return check(question_from(given), published_reference())

    return asked


@pytest.fixture
def fitting() -> Question:
    """The moving piston gland that fits by every rule."""
    return question_from(PISTON)
