"""The one question: built from nested texts, with every unusable field told at once."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from schema.errors import BorebookError, InputErrors
from schema.places import RodGland
from schema.question import choices_from, gland_from, question_from, ring_from

GIVEN: dict[str, Any] = {
    "part": {"size": "AS568-214", "material": "nitrile", "hardness_shore_a": "70"},
    "place": {
        "kind": "piston_gland",
        "bore_diameter": "31.50 +0.03/0 mm",
        "groove_diameter": "25.40 0/-0.05 mm",
        "land_diameter": "31.45 0/-0.02 mm",
        "groove_width": "4.80 +0.2/0 mm",
    },
    "service": {"motion": "reciprocating", "medium": "liquid", "pressure": "2.5 MPa", "fluid": "oil"},
}


def given(**sections: dict[str, Any]) -> dict[str, Any]:
    made = copy.deepcopy(GIVEN)
    for name, section in sections.items():
        made.setdefault(name, {}).update(section)
    return made


def test_a_question_says_what_it_asks() -> None:
    """The words of a question name ring, gland, service and how the sizes are known."""
    assert str(question_from(GIVEN)) == (
        "O-ring AS568-214 NBR 70 in piston gland as given (piston gland), reciprocating, against liquid, "
        "at 2.5 MPa, in mineral oil, as drawn"
    )


def test_a_measured_size_makes_the_question_measured() -> None:
    """One measured size is enough to say as measured."""
    question = question_from(given(place={"bore_diameter": "31.51 ±U0.01 mm"}))
    assert question.measured
    assert str(question).endswith("as measured")


def test_a_ring_from_a_code_takes_the_sizes_of_the_standard() -> None:
    """A size code brings both sizes, their source and their grade."""
    ring = ring_from({"size": "214"})
    assert (ring.code, ring.size_grade) == ("AS568-214", "published_twice")
    assert ring.inside_diameter.toleranced and ring.cross_section.toleranced


def test_a_given_size_leads_over_that_of_the_code() -> None:
    """A measured section replaces the standard's; the grade stays that of the code."""
    ring = ring_from({"size": "214", "cross_section": "3.50 ±U0.02 mm"})
    assert ring.cross_section.measured
    assert ring.size_grade == "published_twice"


def test_both_sizes_given_no_longer_rest_on_the_code() -> None:
    """With both sizes given the grade of the code plays no part."""
    ring = ring_from(
        {"size": "BS4518-0545-30", "inside_diameter": "54.5 ±0.4 mm", "cross_section": "3 ±0.09 mm"}
    )
    assert ring.size_grade == "given"


@pytest.mark.parametrize("tool", ["calliper", "micrometer", "calliper on rubber"])
def test_a_ring_may_be_measured_by_an_instrument(tool: str) -> None:
    """A ring read by an instrument has the instrument's error on a soft part, u = 0.05/sqrt 3 mm."""
    ring = ring_from({"inside_diameter": f"24.99 mm by {tool}", "cross_section": f"3.53 mm by {tool}"})
    assert float(ring.cross_section.standard_uncertainty) == pytest.approx(0.05 / 3**0.5)


@pytest.mark.parametrize("kind", ["rod_gland", "rod-gland", "ROD_GLAND", "rod"])
def test_a_gland_is_found_by_its_kind(kind: str) -> None:
    """The kind of a gland may be written in short."""
    assert isinstance(gland_from({"kind": kind}), RodGland)


@pytest.mark.parametrize(
    ("sections", "told"),
    [
        pytest.param({"part": {"kind": "gasket"}}, "part.kind: this is not a ring", id="kind of part"),
        pytest.param(
            {"part": {"kind": "back_up_ring"}}, "part.kind: this is not a ring", id="back-up ring alone"
        ),
        pytest.param({"part": {"size": "999"}}, "part.size: AS568 has no such size", id="size"),
        pytest.param(
            {"part": {"material": "cheese"}}, "part.material: this material is not known", id="material"
        ),
        pytest.param({"place": {"kind": "hole"}}, "place.kind: this is not a gland", id="kind of place"),
        pytest.param({"place": {"kind": ""}}, "place.kind: the kind of gland is missing", id="no kind"),
        pytest.param(
            {"place": {"bore_diameter": "20 mm"}}, "is not larger than groove_diameter", id="bore in groove"
        ),
        pytest.param(
            {"place": {"land_diameter": "25 mm"}}, "shallower than the clearance", id="land below groove"
        ),
        pytest.param(
            {"place": {"land_diameter": "32 mm"}}, "is not larger than land_diameter", id="land in bore"
        ),
        pytest.param({"service": {"fluid": "custard"}}, "service.fluid: this fluid is not known", id="fluid"),
        pytest.param({"choices": {"squeze": "x"}}, "choices.squeze: there is no such choice", id="choice"),
        pytest.param({"choices": {"limits": "x"}}, "choices.limits: limits are given as", id="limits"),
        pytest.param({"choices": {"layers_off": 5}}, "choices.layers_off", id="layers that are no list"),
        pytest.param(
            {"back_up_ring": {"width": "0 mm"}}, "back_up_ring.width: zero is not", id="back-up width"
        ),
        pytest.param({"back_up_ring": {"material": "PTFE"}}, "back_up_ring.width: is missing", id="no width"),
        pytest.param({"servise": {}}, "servise: there is no such section.*Near: service", id="section"),
    ],
)
def test_what_cannot_be_used_is_told_by_its_field(sections: dict[str, Any], told: str) -> None:
    """Each unusable field is told by section and name, with what is wrong."""
    with pytest.raises(InputErrors, match=told):
        question_from(given(**sections))


@pytest.mark.parametrize("section", ["part", "place", "service", "choices", "back_up_ring"])
@pytest.mark.parametrize("value", [5, "text", ["a"], True], ids=repr)
def test_a_section_holds_named_fields(section: str, value: object) -> None:
    """A section that is no mapping is refused."""
    with pytest.raises(InputErrors, match=f"{section}: a section holds named fields"):
        question_from({**GIVEN, section: value})


def test_errors_of_all_sections_are_told_at_once() -> None:
    """A question with a fault in each section tells all of them."""
    with pytest.raises(InputErrors, match=r"part.size") as caught:
        question_from(
            given(
                part={"size": "999"},
                place={"bore_diameter": "x"},
                service={"pressure": "5"},
                choices={"x": "y"},
            )
        )
    sections = [error.field.split(".")[0] for error in caught.value.errors]
    assert sections == ["part", "place", "service", "choices"]


def test_an_empty_question_says_what_is_needed() -> None:
    """Nothing given: both sizes of the ring and the kind of gland are asked for."""
    with pytest.raises(InputErrors, match=r"part.inside_diameter: is missing") as caught:
        question_from({})
    assert {error.field for error in caught.value.errors} == {
        "part.inside_diameter",
        "part.cross_section",
        "place.kind",
    }


def test_exchanged_sizes_are_refused() -> None:
    """A section of more than four times the inside diameter is a slip."""
    with pytest.raises(InputErrors, match="are they exchanged"):
        ring_from({"inside_diameter": "3 mm", "cross_section": "24 mm"})


def test_choices_read_a_list_of_layers_from_a_text() -> None:
    """Layers may be given as a list or as a text."""
    assert choices_from({"layers_off": "stretch, swell"}).layers_off == ("stretch", "swell")
    assert choices_from({"layers_off": ["stretch"]}).layers_off == ("stretch",)


@pytest.mark.parametrize("section", ["part", "place", "service", "back_up_ring", "choices"])
@pytest.mark.parametrize(
    "value",
    ["😀", "\x00", "'; DROP TABLE x", "9" * 5000, None, 1e400, float("nan"), [], {}, [[]]],
    ids=lambda v: repr(v)[:20],
)
def test_hostile_values_end_in_an_error_of_this_project_or_none(section: str, value: object) -> None:
    """No value in any field of any section raises anything but this project's errors."""
    fields = {
        "part": "size",
        "place": "groove_width",
        "service": "fluid",
        "back_up_ring": "width",
        "choices": "squeeze",
    }
    try:
        question = question_from(given(**{section: {fields[section]: value}}))
    except BorebookError as error:
        assert str(error)
    else:
        assert str(question)


def test_a_ring_without_a_code_is_named_by_its_two_sizes() -> None:
    """Its tolerances and how it was measured do not belong in its name; inches are told in mm."""
    ring = ring_from({"inside_diameter": "0.362 in", "cross_section": "2.61 mm by calliper on rubber"})
    assert ring.name == "9.195 x 2.61 mm"
