"""A gas chamber read from texts: what it refuses, and how."""

from __future__ import annotations

import pytest

from schema.chambers import GasChamber
from schema.errors import InputErrors
from schema.fields import meaning_of, read_model

PISTON = {
    "separator": "floating piston",
    "gas": "nitrogen",
    "set_depth": "51 ±0.5 mm",
    "depth_from": "oil end",
    "depth_to": "near face",
    "tube_length": "95 ±0.1 mm",
    "piston_length": "14 ±0.05 mm",
}


def read(**fields: str) -> GasChamber:
    return read_model(GasChamber, {**PISTON, **fields}, path="place")


def refusal(**fields: str) -> str:
    with pytest.raises(InputErrors) as caught:
        read(**fields)
    return str(caught.value)


@pytest.mark.parametrize("name", [name for name, field in GasChamber.declared.items() if field.meaning])
def test_every_field_reads_its_own_example(name: str) -> None:
    """The example of a field is a text that the field takes."""
    meaning = meaning_of(GasChamber.declared[name])
    assert meaning.doc
    if meaning.example:
        meaning.read(meaning.example, f"place.{name}")


def test_quantities_are_stored_in_their_units() -> None:
    """Volumes in mm3, pressures in MPa gauge, the air around in MPa absolute, temperatures in degC."""
    place = read(oil_volume="62 ml", charge="200 psi", ambient_pressure="95 kPa")
    assert place.oil_volume is not None
    assert place.oil_volume.middle == 62_000.0
    assert place.charge is not None
    assert place.charge.middle == pytest.approx(1.37895, abs=5e-6)
    assert place.ambient_pressure is not None
    assert place.ambient_pressure.middle == pytest.approx(0.095)


@pytest.mark.parametrize("text", ["95 kPa", "95 kPaa", "0.95 bar", "13.78 psia"])
def test_the_air_around_is_always_absolute(text: str) -> None:
    """With and without the mark for absolute it is the same pressure, never a gauge one."""
    place = read(ambient_pressure=text)
    assert place.ambient_pressure is not None
    assert place.ambient_pressure.middle == pytest.approx(0.095, abs=2e-5)


def test_gauge_and_absolute_are_not_mixed() -> None:
    """An absolute charge was made gauge by the standard atmosphere; with another one told it is refused."""
    told = refusal(charge="15 bara", ambient_pressure="80 kPa")
    assert "place.charge" in told
    assert "absolute" in told
    assert read(charge="15 bara").charge is not None


def test_a_bladder_has_no_depth_and_a_piston_no_collapsed_volume() -> None:
    """Sizes of the other separator are refused by name."""
    assert "place.set_depth" in refusal(separator="bladder")
    assert "place.bladder_least_volume" in refusal(bladder_least_volume="12 ml")


@pytest.mark.parametrize(
    "fields",
    [
        {"set_depth": "90 mm"},
        {"tube_length": "60 mm"},
        {"depth_from": "gas end", "set_depth": "10 mm", "tube_length": "12 mm"},
    ],
)
def test_a_piston_beyond_its_gas_end_is_refused(fields: dict[str, str]) -> None:
    """A depth that leaves no gas room at the most favourable sizes is a slip, or a wrong datum."""
    told = refusal(**fields)
    assert "place.set_depth" in told
    assert "depth_to" in told


def test_a_bladder_is_larger_than_its_least_volume() -> None:
    """The least volume lies below the charged one."""
    fields = {"separator": "bladder", "bladder_volume": "20 ml", "bladder_least_volume": "25 ml"}
    with pytest.raises(InputErrors, match="bladder_least_volume"):
        read_model(GasChamber, fields, path="place")


def test_a_damping_piston_is_larger_than_its_shaft() -> None:
    """The ring of area between bore and shaft has to be there."""
    assert "main_bore_diameter" in refusal(main_bore_diameter="12 mm", shaft_diameter="12.7 mm")


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("charge", "1.4"),
        ("charge", "9000 bar"),
        ("oil_volume", "62"),
        ("oil_volume", "9 l"),
        ("set_temperature", "20"),
        ("set_temperature", "200 degC"),
        ("ambient_pressure", "5 bar"),
        ("oil_expansion_per_k", "7"),
        ("gas", "argon"),
        ("depth_to", "top"),
        ("metal", "magnesium"),
        ("piston_force", "1500"),
    ],
)
def test_bad_texts_are_refused_at_their_field(field: str, text: str) -> None:
    """No unit, absurd sizes and unknown words are refused, with the field, what is allowed and an example."""
    told = refusal(**{field: text})
    assert f"place.{field}" in told
    assert "Allowed" in told


def test_all_errors_are_told_at_once() -> None:
    """Three slips, three messages."""
    told = refusal(charge="1.4", oil_volume="62", stroke="long")
    assert all(f"place.{name}" in told for name in ("charge", "oil_volume", "stroke"))
