"""Questions about places that are no gland, from nested texts of any shape."""

from __future__ import annotations

from typing import Any

import pytest

from schema.errors import InputErrors
from schema.fit import Fit
from schema.fit_question import any_question_from
from schema.question import Question

PLACE = {"kind": "threaded_port", "thread": "M5x0.8", "depth": "8.0 ±0.2 mm"}
SCREW = {"kind": "screw", "thread": "M5x0.8", "length": "6 ±0.1 mm"}
ASKED: dict[str, Any] = {"part": SCREW, "place": PLACE, "service": {"temperature": "-10..60 degC"}}


def test_a_place_of_any_kind_is_a_question() -> None:
    """A port with its screw becomes a Fit, a gland with its ring a Question."""
    found = any_question_from(ASKED)
    assert isinstance(found, Fit)
    assert (found.place.kind, len(found.parts)) == ("threaded_port", 1)
    ring = {"size": "AS568-217", "material": "NBR", "hardness_shore_a": 70}
    assert isinstance(any_question_from({"part": ring, "place": {"kind": "piston_gland"}}), Question)


@pytest.mark.parametrize("section", ["service", "choices", "neighbours"])
@pytest.mark.parametrize("given", ["x", ["a"], 5, 1.5, True])
def test_a_section_of_another_shape_is_refused(section: str, given: object) -> None:
    """A text, a list or a number where named entries are expected is told by the section."""
    with pytest.raises(InputErrors, match=f"{section}.*named entries"):
        any_question_from({**ASKED, section: given})


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"service": {"depth": "40 mm"}}, r"service\.depth.*no such field"),
        (
            {"place": {**PLACE, "temperature": "0..20 degC"}},
            r"service\.temperature.*in the section place too",
        ),
        ({"neighbours": {"place": {"kind": "gas_chamber"}}}, r"neighbours\.place.*the place itself"),
        ({"service": {"temperature": "warm"}}, r"service\.temperature.*two numbers"),
        ({"parts": "x"}, "parts.*as a list"),
        ({"part": ["x"]}, r"parts\.0.*named fields"),
    ],
)
def test_nothing_silently_takes_the_place_of_another(more: dict[str, Any], told: str) -> None:
    """A field of the place told as service, a field told twice, a neighbour named as the place itself."""
    with pytest.raises(InputErrors, match=told):
        any_question_from({**ASKED, **more})
