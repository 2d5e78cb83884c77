"""The equations shown with numbers give the numbers shown."""

from __future__ import annotations

import math
import re

import pytest

from fitcheck.check import check
from fitcheck.explain import Step, explained
from schema.question import Question
from schema.reference import published_reference


def steps_of(question: Question) -> dict[str, tuple[Step, ...]]:
    """The steps of every finding."""
    return explained(question, published_reference())


def worked(text: str) -> tuple[float, float] | None:
    """The written sum worked out anew, and the result printed behind it; None where no sum is written."""
    if " gives " in text:
        return None
    sum_text, _, result = text.rpartition(" = ")
    code = sum_text.replace("×", "*").replace("^", "**").replace("sqrt", "math.sqrt")
    code = re.sub(r"\bpi\b", "math.pi", code)
    return eval(code, {"math": math}), float(result.split()[0])  # noqa: S307


def test_every_written_sum_gives_the_result_printed_behind_it(fitting: Question) -> None:
    """Worked out anew from its own digits, each sum meets its printed result to the digits shown."""
    sums = [
        pair
        for steps in steps_of(fitting).values()
        for step in steps
        for text in (step.at_low, step.at_high)
        if (pair := worked(text)) is not None
    ]
    assert len(sums) > 20
    for found, printed in sums:
        assert found == pytest.approx(printed, rel=5e-3, abs=2e-3)


def test_the_last_step_is_the_finding(fitting: Question) -> None:
    """The last step of a finding ends in the finding's own two ends."""
    verdict = check(fitting, published_reference())
    for name, steps in steps_of(fitting).items():
        finding = verdict.of(name)
        assert finding is not None
        ends = [
            float(re.split(r" = | gives ", text)[-1].split()[0])
            for text in (steps[-1].at_low, steps[-1].at_high)
        ]
        assert ends == pytest.approx([finding.low, finding.high], rel=1e-4, abs=1e-4)


def test_a_cold_squeeze_is_explained_from_its_layers(fitting: Question) -> None:
    """Stretch, thinning, growth by temperature, depth and offset come before the squeeze they lead to."""
    rules = [step.rule for step in steps_of(fitting)["cold_squeeze"]]
    assert rules[-1] == "open_side_squeeze"
    assert {"stretch", "section_loss_empirical", "fitted_section", "section_growth", "gland_depth"} <= set(
        rules
    )


def test_every_step_names_its_source(fitting: Question) -> None:
    """No equation is shown without where it comes from."""
    assert [step.rule for steps in steps_of(fitting).values() for step in steps if not step.source] == []
