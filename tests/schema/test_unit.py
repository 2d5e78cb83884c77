"""A whole unit from nested texts: what is built, and every error at its path."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from schema.errors import InputErrors
from schema.fields import meaning_of
from schema.fit import Fit
from schema.parts import ORing
from schema.question import Question
from schema.unit import UnitHead, unit_from

TEXTS: dict[str, Any] = {
    "unit": "curlew-140",
    "kind": "coil_shock",
    "fluid": "mineral_oil",
    "temperature": "-10..60 degC",
    "stroke": "40 mm",
    "places": {
        "end-cap": {
            "kind": "piston_gland",
            "motion": "static",
            "medium": "liquid",
            "pressure": "2.5 MPa",
            "pressure_from": "one_side",
            "bore_diameter": "36 H7 mm",
            "groove_diameter": "30.36 ±0.01 mm",
            "land_diameter": "36 g6 mm",
            "groove_width": "5.0 +0.2/0 mm",
            "runs_on": "body bore",
            "parts": ["LV-1"],
        },
        "main-piston": {
            "kind": "piston_gland",
            "motion": "reciprocating",
            "medium": "liquid",
            "bore_diameter": "36 H7 mm",
            "runs_on": "body bore",
            "parts": [{"part": "LV-1", "quantity": "2", "renew": "inspect"}],
        },
    },
    "parts": {"LV-1": {"kind": "o_ring", "size": "AS568-217", "material": "NBR", "hardness_shore_a": "70"}},
}


def texts(**changes: Any) -> dict[str, Any]:
    """The unit above with some entries changed; a key with dots goes into the nesting."""
    found = copy.deepcopy(TEXTS)
    for path, value in changes.items():
        *way, last = path.split("__")
        inner = found
        for name in way:
            inner = inner[name.replace("_", "-")] if name.replace("_", "-") in inner else inner[name]
        dashed = last.replace("_", "-")
        inner[dashed if dashed in inner else last] = value
    return found


def refusals(given: Any, **more: Any) -> dict[str, str]:
    """Path and problem of every error that a unit is refused for."""
    with pytest.raises(InputErrors) as caught:
        unit_from(given, **more)
    return {error.field: error.problem for error in caught.value.errors}


def test_a_unit_keeps_its_places_in_order_and_asks_a_question_of_each() -> None:
    """Places come in the order given, each with its question, its parts and how they are renewed."""
    unit = unit_from(TEXTS)
    assert [entry.name for entry in unit.entries] == ["end-cap", "main-piston"]
    first, second = unit.entries
    assert isinstance(first.question, Question) and isinstance(first.question.ring, ORing)
    assert first.question.gland.name == "curlew-140/end-cap"
    assert [(one.quantity, one.renew) for one in second.parts] == [(2, "inspect")]


def test_the_head_lends_temperature_and_oil_to_places_that_tell_none() -> None:
    """A gland that tells no fluid and no temperature of its own is taken to meet those of the unit."""
    service = unit_from(TEXTS).entries[0].service
    assert service.temperature is not None and service.temperature.low_deg_c == -10
    assert service.fluid == ("mineral_oil",)


def test_a_gland_without_a_ring_is_kept_without_a_question() -> None:
    """A gland with no ring on its list is no error: it is judged as far as can be said."""
    unit = unit_from(texts(places__end_cap__parts=[]))
    assert unit.entries[0].question is None
    assert unit.entries[0].place.kind == "piston_gland"


def test_what_was_measured_leads_over_what_was_drawn() -> None:
    """Measured texts are laid over the fields of the place, and under a part's number over that part."""
    unit = unit_from(
        TEXTS,
        measured={
            "end-cap": {
                "bore-diameter": "36.01 mm by bore gauge",
                "pressure": "3 MPa",
                "LV-1": {"cross_section": "3.50 mm by calliper"},
            }
        },
    )
    question = unit.entries[0].question
    assert isinstance(question, Question)
    assert question.gland.bore_diameter.measured and question.ring.cross_section.measured  # type: ignore[union-attr]
    assert question.service.pressure is not None and question.service.pressure.gauge_mpa == 3
    other = unit.entries[1].question
    assert isinstance(other, Question) and not other.measured


def test_a_part_is_also_named_by_its_kind_where_the_place_takes_one_of_it() -> None:
    """Instead of the number the kind names the part that was measured."""
    unit = unit_from(TEXTS, measured={"end-cap": {"o_ring": {"cross_section": "3.50 mm by calliper"}}})
    question = unit.entries[0].question
    assert isinstance(question, Question) and question.ring.cross_section.measured


def test_a_shared_bore_is_measured_once_for_all_places() -> None:
    """Under the name that places share, a diameter is laid over each of them."""
    unit = unit_from(TEXTS, measured={"body bore": {"bore_diameter": "36.012 mm by bore gauge"}})
    assert [entry.place.bore_diameter.measured for entry in unit.entries] == [True, True]  # type: ignore[union-attr]


def test_every_error_is_told_at_its_path() -> None:
    """One reading tells the errors of head, places, parts and lists together."""
    given = texts(
        temperature="warm",
        places__end_cap__bore_diameter="36",
        places__end_cap__grove_width="5 mm",
        places__main_piston__kind="piston_glnd",
        parts__LV_1__size="AS568-9999",
    )
    found = refusals(given)
    assert set(found) >= {
        "temperature",
        "places.end-cap.bore_diameter",
        "places.end-cap.grove_width",
        "places.main-piston.kind",
        "parts.LV-1.size",
    }


@pytest.mark.parametrize(
    ("change", "path", "problem"),
    [
        pytest.param(
            {"places__end_cap__parts": ["LV-2"]}, "places.end-cap.parts.0", "no such part", id="part"
        ),
        pytest.param({"places__end_cap__parts": "LV-1"}, "places.end-cap.parts", "list", id="no list"),
        pytest.param(
            {"places__end_cap__parts": [{"part": "LV-1", "quantity": "0"}]},
            "places.end-cap.parts.0.quantity",
            "number of parts",
            id="quantity",
        ),
        pytest.param(
            {"places__end_cap__parts": [{"part": "LV-1", "renew": "never"}]},
            "places.end-cap.parts.0.renew",
            "words",
            id="renew",
        ),
        pytest.param(
            {"places__end_cap__loaded_by": "gas"}, "places.end-cap.loaded_by", "gas chamber", id="gas"
        ),
        pytest.param({"shafts": {"damper shaft": "LV-9"}}, "shafts.damper shaft", "no such part", id="shaft"),
        pytest.param({"unit": ""}, "unit", "missing", id="no name"),
        pytest.param(
            {"parts__LV_1": {"kind": "plain_bushing"}},
            "places.end-cap.parts.0",
            "does not go into a piston gland",
            id="a bushing in a gland",
        ),
        pytest.param({"places": ["a"]}, "places", "named entries", id="places as a list"),
        pytest.param({"colour": "red"}, "colour", "no such field", id="unknown head field"),
        pytest.param(
            {"places__end_cap__bore_diameter": "30 mm"},
            "places.end-cap.bore_diameter",
            "not larger",
            id="contradiction",
        ),
    ],
)
def test_what_cannot_be_used_is_told_at_its_path(change: dict[str, Any], path: str, problem: str) -> None:
    """The path says where, the problem what."""
    found = refusals(texts(**change))
    assert problem in found[path]


def test_measuring_a_place_that_is_not_there_is_refused() -> None:
    """A slip in the name of a place does not lose what was measured."""
    assert "measured.end-cup" in refusals(TEXTS, measured={"end-cup": {"bore_diameter": "36 mm"}})


@pytest.mark.parametrize("name", UnitHead.declared)
def test_every_field_of_the_head_says_what_it_is(name: str) -> None:
    """Each field has words for people, for the JSON Schema of a unit file is made of them."""
    assert meaning_of(UnitHead.declared[name]).doc


def test_a_place_that_is_no_gland_is_asked_with_all_that_goes_into_it() -> None:
    """Other families get the place with its parts and its service as one."""
    given = texts()
    given["places"]["seat"] = {"kind": "bushing_seat", "housing_bore": "18 H7 mm", "parts": []}
    entry = unit_from(given).entries[-1]
    assert isinstance(entry.question, Fit) and entry.question.place.name == "curlew-140/seat"


@pytest.mark.parametrize(
    ("change", "path", "problem"),
    [
        (
            {"places__main_piston__runs_on": "body boar"},
            "places.end-cap.runs_on",
            "no other place runs on it",
        ),
        ({"shafts": {"bdy bore": "LV-1"}}, "shafts.bdy bore", "no place runs on it"),
        ({"oil": "LV-1"}, "oil", "this part is an O-ring"),
    ],
    ids=["a label of one place", "a shaft that nothing runs on", "an oil that is none"],
)
def test_a_name_that_would_silently_join_nothing_is_refused(
    change: dict[str, Any], path: str, problem: str
) -> None:
    """A slip in a name that is not looked up anywhere would else leave a whole question unasked."""
    assert problem in refusals(texts(**change)).get(path, "")


@pytest.mark.parametrize(
    "change", [{"places__main_piston__runs_on": "tube"}, {"shafts": {"rod": "LV-1"}}], ids=["tube", "rod"]
)
def test_a_name_of_its_own_may_stand_alone(change: dict[str, Any]) -> None:
    """Only what is nearly another name is taken for a slip."""
    assert unit_from(texts(**change)).head.unit == "curlew-140"
