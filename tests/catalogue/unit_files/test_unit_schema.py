"""The JSON Schema of a unit file, by a validator of its own: it takes what is right and nothing else."""

from __future__ import annotations

import copy
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from catalogue.unit_files.json_schema import unit_schema
from catalogue.unit_files.reading import read_unit_file
from catalogue.unit_files.shape import part_fields, place_fields
from catalogue.unit_files.writing import unit_yaml
from schema.kinds import PARTS, PLACES
from tests.command import UNIT_PATHS, sheet

VALIDATOR = Draft202012Validator(unit_schema())
UNIT: dict[str, Any] = {
    "unit": "wren-1",
    "kind": "damper",
    "shafts": {"rod": "LV-8"},
    "places": {
        "seal": {
            "kind": "rod_gland",
            "groove_diameter": "22.11 ±0.02 mm",
            "back_up_rings": 1,
            "motion": "static",
            "notes": "worn",
            "parts": ["LV-1", {"part": "LV-2", "quantity": 2, "renew": "inspect"}],
        }
    },
    "parts": {"LV-1": {"kind": "o_ring", "size": "AS568-214", "maker": "Someone"}},
}


def faults(unit: Any) -> list[str]:
    """Where a unit breaks the schema, as paths."""
    return sorted(".".join(map(str, one.absolute_path)) for one in VALIDATOR.iter_errors(unit))


def test_the_schema_is_one() -> None:
    """The schema itself is valid by the standard it names."""
    Draft202012Validator.check_schema(unit_schema())
    assert faults(UNIT) == []


@pytest.mark.parametrize("path", UNIT_PATHS, ids=lambda path: path.stem)
@pytest.mark.parametrize("loader", [yaml.BaseLoader, yaml.SafeLoader], ids=["as text", "as YAML sees it"])
def test_demo_units_keep_to_it(path: Path, loader: Any) -> None:
    """Every demo unit keeps to the schema, read by this program or by any other."""
    assert faults(yaml.load(path.read_text("utf-8"), Loader=loader)) == []  # noqa: S506
    assert faults(yaml.load(unit_yaml(read_unit_file(path).texts), Loader=loader)) == []  # noqa: S506


def _set(*path: Any) -> Callable[[dict[str, Any]], None]:
    def change(unit: dict[str, Any]) -> None:
        *inner, name, value = path
        at: Any = unit
        for one in inner:
            at = at[one]
        at[name] = value

    return change


@pytest.mark.parametrize(
    ("change", "at"),
    [
        pytest.param(lambda unit: unit.pop("unit"), "", id="no name"),
        pytest.param(lambda unit: unit.pop("kind"), "", id="no kind"),
        pytest.param(_set("kind", "bicycle"), "kind", id="kind of unit"),
        pytest.param(_set("unit", "wren/1"), "unit", id="slash in the unit"),
        pytest.param(_set("colour", "red"), "", id="field of the head"),
        pytest.param(_set("stroke", 55), "stroke", id="a length without its unit"),
        pytest.param(_set("shafts", "rod", 8), "shafts.rod", id="shaft"),
        pytest.param(_set("places", "a/b", {"kind": "rod_gland"}), "places", id="slash in a place"),
        pytest.param(_set("places", "seal", "kind", "hole"), "places.seal.kind", id="kind of place"),
        pytest.param(_set("places", "seal", {"motion": "static"}), "places.seal", id="place without a kind"),
        pytest.param(_set("places", "seal", "bore_diameter", "36 H7"), "places.seal", id="field of another"),
        pytest.param(_set("places", "seal", "unit", "wren-1"), "places.seal", id="told by the shape"),
        pytest.param(
            _set("places", "seal", "motion", "rotary"), "places.seal.motion", id="word of a service"
        ),
        pytest.param(_set("places", "seal", "parts", "LV-1"), "places.seal.parts", id="parts as a text"),
        pytest.param(_set("places", "seal", "parts", 1, "renew", "never"), "places.seal.parts.1", id="renew"),
        pytest.param(
            _set("places", "seal", "parts", 1, "quantity", 0), "places.seal.parts.1", id="none of a part"
        ),
        pytest.param(_set("parts", "LV-1", "kind", "rubber"), "parts.LV-1.kind", id="kind of part"),
        pytest.param(_set("parts", "LV-1", "part_number", "x"), "parts.LV-1", id="number told twice"),
        pytest.param(_set("parts", "LV-1", {"kind": "o_ring"}), "parts.LV-1", id="ring without a size"),
        pytest.param(_set("parts", "LV-3", {"kind": "back_up_ring"}), "parts.LV-3", id="width is required"),
    ],
)
def test_broken_units_are_refused(change: Callable[[dict[str, Any]], None], at: str) -> None:
    """Each fault is refused, at the entry that has it."""
    unit = copy.deepcopy(UNIT)
    change(unit)
    found = faults(unit)
    assert found
    assert set(found) == {at}


@pytest.mark.parametrize("kind", [*PLACES, *PARTS])
def test_schema_and_reader_know_the_same_fields(kind: str) -> None:
    """The schema names exactly the fields that are written and read of each kind."""
    definition = unit_schema()["$defs"][f"{'place' if kind in PLACES else 'part'}_{kind}"]
    fields = (*place_fields(kind), "parts") if kind in PLACES else part_fields(kind)
    assert set(definition["properties"]) == set(fields)


def test_every_kind_of_the_demo_has_its_fields() -> None:
    """Each field of a part in the sheets is one that a unit file may tell of that kind."""
    kinds = {row["part_number"]: row["kind"] for row in sheet("parts.csv")}
    for row in sheet("part_dimensions.csv"):
        assert row["dimension"] in part_fields(kinds[row["part_number"]]), row
