"""Choices of guidance: named in the findings, refused when they do not exist."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from schema.errors import UnknownName
from schema.finding import Finding, Status, Verdict

Ask = Callable[..., Verdict]

FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def of(verdict: Verdict, rule: str) -> Finding:
    found = verdict.of(rule)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("choice", "rule", "expected"),
    [
        ({"squeeze": "percent-general"}, "squeeze", "percent-general"),
        ({"gap": "by-section"}, "extrusion_gap", "by-section"),
        ({"limits": {"fill": "eighty-five"}}, "fill", "eighty-five"),
        ({"limits": {"stretch": "one-to-five"}}, "stretch", "one-to-five"),
    ],
)
def test_the_guidance_chosen_is_named_in_the_finding(
    ask: Ask, choice: dict, rule: str, expected: str
) -> None:  # type: ignore[type-arg]
    """A finding names the guidance it was judged by, and its source."""
    finding = of(ask(choices=choice), rule)
    assert finding.limits.guidance == expected
    assert finding.source


@pytest.mark.parametrize(
    ("choice", "told"),
    [
        ({"squeeze": "inch-handbok"}, "choices.squeeze: .*Near: inch-handbook"),
        ({"gap": "by-sectoin"}, "choices.gap: .*Near: by-section"),
        ({"limits": {"fill": "ninty"}}, "choices.limits.fill: .*Near: ninety"),
        ({"limits": {"fil": "ninety"}}, "fil"),
        ({"decision_rule": "iso14253"}, "decision_rule: .*Near: iso14253"),
        ({"thinning": "empiric"}, "thinning: .*empirical"),
        ({"thickening": "some"}, "thickening: .*constant-volume"),
        ({"layers_off": "sretch"}, "layers_off: .*stretch"),
    ],
    ids=str,
)
def test_a_choice_that_does_not_exist_is_refused(ask: Ask, choice: dict, told: str) -> None:  # type: ignore[type-arg]
    """A misspelt choice is refused with those that exist, never ignored."""
    with pytest.raises(UnknownName, match=told):
        ask(choices=choice)


@pytest.mark.parametrize(
    ("choice", "leave_out"), [({"squeeze": "nonsense"}, "medium"), ({"gap": "nonsense"}, "pressure")], ids=str
)
def test_a_misspelt_choice_is_refused_though_its_limits_are_not_reached(
    ask: Ask, choice: dict, leave_out: str
) -> None:  # type: ignore[type-arg]
    """Missing data does not hide a choice that does not exist."""
    with pytest.raises(UnknownName, match="there is no such guidance"):
        ask(service={leave_out: None}, choices=choice)
