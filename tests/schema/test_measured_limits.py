"""A limit is what somebody allows: a measured value is refused wherever one is read."""

from __future__ import annotations

import pytest

from schema.bushings import BushingSeat
from schema.chambers import GasChamber
from schema.errors import InputErrors
from schema.eyelets import Eyelet
from schema.fields import meaning_of, read_model
from schema.model import Model
from schema.seals import WiperSeat
from schema.shafts import Shaft
from schema.valves import ValveCore, ValveFitting

LENGTHS: list[tuple[type[Model], str]] = [
    (BushingSeat, "allowed_clearance"),
    (BushingSeat, "allowed_interference"),
    (BushingSeat, "largest_clearance"),
    (BushingSeat, "least_shaft_diameter"),
    (BushingSeat, "largest_bore"),
    (Eyelet, "side_play"),
    (Eyelet, "allowed_clearance"),
    (Eyelet, "allowed_interference"),
    (Eyelet, "largest_clearance"),
    (Shaft, "least_diameter"),
    (WiperSeat, "wanted_press"),
    (GasChamber, "least_travel_left"),
]
AMOUNTS: list[tuple[type[Model], str]] = [
    (GasChamber, "charge_range"),
    (GasChamber, "pressure_limit"),
    (GasChamber, "bladder_least_volume"),
    (ValveCore, "pressure_rating"),
    (ValveFitting, "pressure_rating"),
]


@pytest.mark.parametrize(
    ("model", "field", "text"),
    [
        *(
            (model, field, text)
            for model, field in LENGTHS
            for text in ("0.2 ±U0.01 mm", "0.2 mm by micrometer")
        ),
        *((model, field, "8 ±U1 ml" if "volume" in field else "8 ±U1 MPa") for model, field in AMOUNTS),
    ],
)
def test_a_measured_value_is_no_limit(model: type[Model], field: str, text: str) -> None:
    """The message says what a limit is, names the field, and gives an example that is read."""
    with pytest.raises(InputErrors) as refused:
        read_model(model, {field: text}, path="place")
    told = [one for one in refused.value.errors if one.field == f"place.{field}"]
    assert [one.problem for one in told] == ["a limit is a number or a range, not a measured value"]
    example = meaning_of(model.declared[field]).example
    assert not meaning_of(model.declared[field]).read(example, field).measured
