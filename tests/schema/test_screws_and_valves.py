"""Models of screws, ports, cores, valve bodies and seats: what they read and what they refuse."""

from __future__ import annotations

from typing import Any

import pytest

from schema.errors import InputErrors
from schema.fields import meaning_of, read_model
from schema.kinds import model_of
from schema.screws import Screw, ThreadedPort
from schema.valves import ValveCore, ValveFitting, ValveSeat


@pytest.mark.parametrize(
    ("kind", "model"),
    [
        ("screw", Screw),
        ("threaded_port", ThreadedPort),
        ("valve_core", ValveCore),
        ("valve_fitting", ValveFitting),
        ("valve_seat", ValveSeat),
    ],
)
def test_each_kind_has_its_model_and_every_example_is_read(kind: str, model: type[Any]) -> None:
    """The example that a field shows is one that the field reads."""
    assert model_of(kind) is model
    for name, field in model.declared.items():
        meaning = meaning_of(field)
        if meaning.example:
            meaning.read(meaning.example, f"part.{name}")


@pytest.mark.parametrize(
    ("model", "texts", "told"),
    [
        (Screw, {"property_class": "8.8", "material": "titanium"}, "are of steel, not of titanium"),
        (Screw, {"property_class": "10.9", "material": "stainless steel A2"}, "not of stainless"),
        (Screw, {"property_class": "8.8", "material": "aluminium"}, "not of aluminium"),
        (Screw, {"property_class": "11.9"}, "Near: 10.9|8.8, 9.8, 10.9, 12.9"),
        (Screw, {"thread": "M5x0.8-6H"}, "class of an internal thread"),
        (Screw, {"torque": "5 kg"}, "is not a unit of torque"),
        (Screw, {"torque": "5"}, "the unit is missing"),
        (ThreadedPort, {"thread": "M5x0.8-6g"}, "class of an external thread"),
        (ThreadedPort, {"tensile_strength": "310"}, "the unit is missing"),
        (ValveCore, {"torque": "6 N m"}, "torque of a stem nut"),
        (ValveCore, {"pin_below": "0.3 mm", "pin_proud": "0.1 mm"}, "also told to end below"),
        (ValveCore, {"core_family": "schrader"}, "high_pressure, tyre"),
        (ValveCore, {"core_chamber": "4"}, "1 to 3"),
        (ValveCore, {"seal_material": "nitril"}, "Near: nitrile"),
        (ValveFitting, {"thread": "M8x1-6H"}, "class of an internal thread"),
        (ValveFitting, {"inside_thread": "5V3"}, "Near: "),
        (ValveSeat, {"thread": "M10x1", "counterbore": "9.0 +0.1/0 mm"}, "smaller than the thread below it"),
        (ValveSeat, {"thread": "1/4-28 UNF-2A"}, "class of an external thread"),
    ],
)
def test_what_contradicts_itself_is_refused(model: type[Any], texts: dict[str, str], told: str) -> None:
    """Each contradiction is told with its field and what would be right."""
    with pytest.raises(InputErrors, match=told):
        read_model(model, texts, path="part")


def test_in_lb_is_read_as_a_torque() -> None:
    """35 in-lb is 3954 N mm: no subtraction, no mass times length."""
    assert float(read_model(Screw, {"torque": "35 in-lb"}, path="part").torque.nominal) == pytest.approx(
        3954.5, abs=0.1
    )


def test_a_nut_has_an_internal_thread() -> None:
    """The thread of a nut may carry the class of an internal one."""
    nut = read_model(Screw, {"form": "nut", "thread": "M10x1-6H", "width": "8 mm"}, path="part")
    assert nut.thread is not None
    assert nut.thread.internal_class == "6H"


def test_the_rubber_of_a_seal_is_read_by_its_trade_name() -> None:
    """Nitrile is NBR."""
    assert read_model(ValveCore, {"seal_material": "nitrile"}, path="part").seal_material == "NBR"


def test_a_cap_is_told_from_a_body() -> None:
    """What has a thread inside and none for a seat is a cap."""
    assert read_model(ValveFitting, {"inside_thread": "8V1"}, path="part").is_cap
    assert not read_model(ValveFitting, {"inside_thread": "5V1", "thread": "M8x1"}, path="part").is_cap
