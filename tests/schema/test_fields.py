"""Fields of parts, places and services: what each kind reads and refuses, and that all errors are told."""

from __future__ import annotations

from typing import Any

import pytest

from schema.errors import InputError, InputErrors, UnknownName
from schema.fields import Pressure, TemperatureRange, collect, meaning_of, read_model
from schema.model import Model
from schema.parts import BackUpRing, FourLobedRing, ORing
from schema.places import FaceGland, PistonGland, RodGland
from schema.service import Service

MODELS = (ORing, FourLobedRing, BackUpRing, RodGland, PistonGland, FaceGland, Service)
HOSTILE = [
    "😀",
    "\x00",
    "\u202e5",
    "'; DROP TABLE parts;--",
    "<script>",
    "x" * 20_000,
    "NaN",
    "inf",
    "1e400",
    "--",
    "{}",
]


def ids(value: object) -> str:
    return repr(value)[:24]


def service(**given: Any) -> Service:
    return read_model(Service, given, path="service")


def place(**given: Any) -> PistonGland:
    return read_model(PistonGland, given, path="place")


@pytest.mark.parametrize(
    ("model", "name"),
    [pytest.param(model, name, id=f"{model.__name__}.{name}") for model in MODELS for name in model.declared],
)
def test_every_field_is_described_and_reads_its_own_example(model: type[Model], name: str) -> None:
    """Each field says what it means, and where it gives an example its reader takes it."""
    meaning = meaning_of(model.declared[name])
    assert meaning.doc
    assert meaning.read(meaning.example or "x", name) not in (None, ())


@pytest.mark.parametrize(
    ("text", "mpa"),
    [
        ("2.5 MPa", 2.5),
        ("2,5 MPa", 2.5),
        ("25 bar", 2.5),
        ("25bar", 2.5),
        ("2500 kPa", 2.5),
        ("0 bar", 0.0),
        ("11.01325 bara", 1.0),
        ("1000 psi", 6.894757293168361),
        ("1000 psig", 6.894757293168361),
        ("100 MPa", 100.0),
    ],
)
def test_a_pressure_is_read_as_gauge(text: str, mpa: float) -> None:
    """A pressure becomes gauge MPa and keeps its text (psi: NIST SP 811)."""
    found = service(pressure=text).pressure
    assert found == Pressure(pytest.approx(mpa, rel=1e-12), text)


@pytest.mark.parametrize(
    "text",
    [
        "5",
        "bar",
        "-1 bar",
        "101 MPa",
        "0.5 bara",
        "5 atm",
        "5 a",
        "5 g",
        "5 bar bar",
        "1,000.5 psi",
        "5..6 bar",
        "9" * 5000 + " bar",
        5,
        5.0,
        True,
        [5],
        {"bar": 5},
        *HOSTILE,
    ],
    ids=ids,
)
def test_what_is_no_pressure_is_refused(text: object) -> None:
    """A pressure without a known unit, below zero or beyond 100 MPa is refused by name."""
    with pytest.raises(InputErrors, match=r"service.pressure: "):
        service(pressure=text)


def test_a_million_digits_are_no_pressure() -> None:
    """A number beyond the range of exact decimals is refused, not raised as an overflow."""
    with pytest.raises(InputErrors, match=r"service.pressure: "):
        service(pressure="9" * 1_000_001 + " bar")


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("-10..60 degC", -10, 60),
        ("-10 to 60 °C", -10, 60),
        ("-10…60 C", -10, 60),
        ("−10..60 degC", -10, 60),
        ("14..140 degF", -10, 60),
        ("263.15..333.15 K", -10, 60),
        ("-10 degC..140 degF", -10, 60),
        ("20 degC", 20, 20),
        ("-100..350 degC", -100, 350),
    ],
)
def test_a_temperature_range_is_read(text: str, low: float, high: float) -> None:
    """Two temperatures and a unit, or one temperature, become degrees Celsius."""
    found = service(temperature=text).temperature
    assert found == TemperatureRange(pytest.approx(low), pytest.approx(high), text)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("60..-10 degC", "the range is reversed"),
        ("-101..60 degC", "outside what any elastomer meets"),
        ("-10..351 degC", "outside what any elastomer meets"),
        ("-10..60", "two numbers and a unit"),
        ("..60 degC", "two numbers and a unit"),
        ("-10.. degC", "two numbers and a unit"),
        ("nan..60 degC", "two numbers and a unit"),
        ("-10..60 degX", "unit of temperature is not known"),
        ("9" * 5000 + " degC", "two numbers and a unit"),
        ("9" * 20 + " degC", "outside what any elastomer meets"),
    ],
    ids=ids,
)
def test_what_is_no_temperature_range_is_refused(text: str, problem: str) -> None:
    """A range that is reversed, absurd or without a known unit is refused with the reason."""
    with pytest.raises(InputErrors, match=problem):
        service(temperature=text)


@pytest.mark.parametrize("text", HOSTILE, ids=ids)
def test_hostile_text_is_no_temperature(text: str) -> None:
    """Hostile text is refused as any other that is no temperature."""
    with pytest.raises(InputErrors, match=r"service.temperature: "):
        service(temperature=text)


@pytest.mark.parametrize(
    ("text", "um"),
    [
        ("0.4 um Ra", 0.4),
        ("Ra 0.4 um", 0.4),
        ("0,4 µm", 0.4),
        ("16 uin", 0.4064),
        ('16 µ"', 0.4064),
        ("400 nm", 0.4),
    ],
)
def test_a_roughness_is_read(text: str, um: float) -> None:
    """A roughness in um, uin or nm becomes um; 1 uin is 0.0254 um."""
    assert place(surface_finish_running=text).surface_finish_running == pytest.approx(um, rel=1e-12)


@pytest.mark.parametrize("text", ["0.4", "0 um", "-1 um", "51 um", "0.4 mm", *HOSTILE], ids=ids)
def test_what_is_no_roughness_is_refused(text: str) -> None:
    """A roughness without its unit, of zero or beyond 50 um is refused."""
    with pytest.raises(InputErrors, match=r"place.surface_finish_running: a roughness is"):
        place(surface_finish_running=text)


@pytest.mark.parametrize(
    ("text", "value"), [("5", 5.0), ("5,5", 5.5), ("5 %", 5.0), (-30, -30.0), ("100", 100.0)]
)
def test_a_number_is_read(text: object, value: float) -> None:
    """A plain number may have a decimal comma or a percent sign; its bounds are inclusive."""
    assert service(swell_high_percent=text).swell_high_percent == value


@pytest.mark.parametrize("text", ["101", "-31", "5 mm", True, False, [5], {}, *HOSTILE], ids=ids)
def test_what_is_no_number_is_refused(text: object) -> None:
    """A number out of bounds, not finite, or no number at all is refused."""
    with pytest.raises(InputErrors, match=r"service.swell_high_percent: this is not a number it may be"):
        service(swell_high_percent=text)


def test_a_reversed_swell_is_refused() -> None:
    """A least swell above the greatest is a slip, as reversed limits of size are."""
    with pytest.raises(InputErrors, match="swell"):
        service(swell_low_percent="10", swell_high_percent="5")


@pytest.mark.parametrize("text", ["3", "-1", "1.5", "inf", "nan", "two", True], ids=ids)
def test_back_up_rings_are_none_one_or_two(text: object) -> None:
    """The number of back-up rings is a whole number from 0 to 2."""
    with pytest.raises(InputErrors, match=r"place.back_up_rings: .*0 to 2, whole"):
        place(back_up_rings=text)


@pytest.mark.parametrize("text", ["both_sides", "Both Sides", "both-sides", " BOTH SIDES "])
def test_a_word_is_found_in_any_spelling(text: str) -> None:
    """Case, spaces and hyphens do not matter in a word of a closed list."""
    assert service(pressure_from=text).pressure_from == "both_sides"


@pytest.mark.parametrize("text", ["rotary", 3, ["static"], *HOSTILE], ids=ids)
def test_a_word_outside_the_list_is_refused(text: object) -> None:
    """A word that is not in the list is refused with the list."""
    with pytest.raises(InputErrors, match=r"service.motion: .*static, reciprocating"):
        service(motion=text)


def test_a_near_word_is_named() -> None:
    """A slip in a word is answered with the nearest one."""
    with pytest.raises(InputErrors, match="Near: reciprocating"):
        service(motion="reciprocatng")


@pytest.mark.parametrize(
    "given", ["oil; nitrogen", "oil, nitrogen", ["oil", "nitrogen"], ("mineral_oil", "n2")], ids=ids
)
def test_several_fluids_may_be_given(given: object) -> None:
    """Fluids come as a list or as a text with marks between them, by any trade name."""
    assert service(fluid=given).fluid == ("mineral_oil", "nitrogen")


@pytest.mark.parametrize("given", [31.5, 31, True, ["31.5 mm"], {"mm": 31.5}, b"31.5 mm"], ids=ids)
def test_a_length_is_a_text_with_its_unit(given: object) -> None:
    """A bare number is refused as a length: nobody knows its unit."""
    with pytest.raises(InputErrors, match="a length is given as a text with its unit"):
        place(bore_diameter=given)


@pytest.mark.parametrize(
    ("field", "text"),
    [("bore_diameter", "701 mm"), ("groove_width", "61 mm"), ("runout", "6 mm"), ("corner_radius", "0.5 in")],
)
def test_an_absurd_length_is_refused(field: str, text: str) -> None:
    """A length far beyond what the field can be is refused: a unit slip."""
    with pytest.raises(InputErrors, match="absurd here; is the unit right"):
        place(**{field: text})


def test_all_errors_are_told_at_once() -> None:
    """Every unusable and unknown field of a model is told in one error."""
    with pytest.raises(InputErrors, match="bore_diameter") as caught:
        place(bore_diameter="x", groove_width="5", metal="lead", bore_diametre="5 mm")
    assert [error.field for error in caught.value.errors] == [
        "place.bore_diameter",
        "place.groove_width",
        "place.metal",
        "place.bore_diametre",
    ]


def test_an_unknown_field_is_told_with_near_ones() -> None:
    """A misspelt field is refused with the nearest known ones."""
    with pytest.raises(InputErrors, match="Near: bore_diameter"):
        place(bore_diametre="31.5 mm")


def test_a_missing_field_that_is_needed_is_told() -> None:
    """A ring without its section is refused with what is missing and an example."""
    with pytest.raises(InputErrors, match=r"part.cross_section: is missing .*Example: 3.53"):
        read_model(ORing, {"inside_diameter": "24.99 mm"}, path="part")


def test_empty_texts_count_as_not_given() -> None:
    """An empty cell of a sheet is no value, and not an error."""
    assert place(bore_diameter="", groove_width=None) == PistonGland()


def test_collect_keeps_errors_in_a_list() -> None:
    """An InputError raised by an action is kept, and None is returned for it."""
    errors: list[InputError] = []

    def refuse() -> object:
        raise UnknownName(field="a", given="b", problem="c")

    assert collect(refuse, errors) is None
    assert [error.field for error in errors] == ["a"]


def test_collect_lets_other_errors_pass() -> None:
    """What is no error of input is not swallowed."""

    def fail() -> object:
        raise ZeroDivisionError("told")

    with pytest.raises(ZeroDivisionError, match="told"):
        collect(fail, [])
