"""A general CAD hardware library answers the same questions: every difference is listed with its reason.

Its rows of groove and load are one of the lists behind the shipped table, so this holds the transcription;
its thicknesses and free diameters were overruled in the cells below. Installed in an environment of its own.
"""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from typing import Any

import pytest

from schema.bearing_tables import bearing_row
from schema.retaining_tables import flat_ring, sizes

pytestmark = pytest.mark.slow

DUMP = """
import importlib.util, json, pathlib, sys
folder = pathlib.Path(importlib.util.find_spec("bd_warehouse").submodule_search_locations[0]) / "data"
names = ("din471", "din472", "single_row_deep_groove_ball_bearing_parameters")
json.dump({name: (folder / f"{name}.csv").read_text(encoding="utf-8") for name in names}, sys.stdout)
"""
# (table, size, column): what the library has; the shipped value differs, for the reason beside it.
SLIPS = {
    ("din471", 48.0, "s"): 2.0,  # thicker than its own groove of 1.85
    ("din472", 82.0, "s"): 3.0,  # thicker than its own groove of 2.65
    ("din472", 72.0, "d3"): 76.6,  # two lists and the neighbours give 76.5
    ("din472", 90.0, "d3"): 95.55,  # two lists and the neighbours give 95.5
}


@pytest.fixture(scope="module")
def oracle(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[dict[str, str]]]:
    home = tmp_path_factory.mktemp("ring_oracle")
    python = home / "venv" / ("Scripts" if sys.platform == "win32" else "bin") / "python"
    subprocess.run([sys.executable, "-m", "venv", str(home / "venv")], check=True)
    install = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-deps"]
    subprocess.run([*install, "bd_warehouse==0.4.0"], check=True)  # its tables alone, not the CAD kernel
    done = subprocess.run([str(python), "-c", DUMP], check=True, capture_output=True, text=True)
    texts: dict[str, str] = json.loads(done.stdout)
    return {name: list(csv.DictReader(io.StringIO(text))) for name, text in texts.items()}


def shipped(table: str, size: float) -> dict[str, Any]:
    """The shipped row under the library's names of columns."""
    ring = flat_ring(table, size)
    assert ring is not None
    return {
        "s": ring.thickness[1],
        "d2": ring.groove[0] if ring.is_bore else ring.groove[1],
        "m": ring.width[0],
        "t": ring.depth,
        "n": ring.land,
        "FN": (ring.groove_load_n or 0.0) / 1000,
        "FR": (ring.ring_load_n or 0.0) / 1000,
        "g": ring.chamfer,
        "FRg": (ring.chamfered_load_n or 0.0) / 1000,
    }


@pytest.mark.parametrize("table", ["din471", "din472"])
def test_rings_and_grooves_agree_but_for_known_slips(
    oracle: dict[str, list[dict[str, str]]], table: str
) -> None:
    """Thickness, groove, width, depth, land and loads of every size up to 100 mm, and the known slips."""
    different = {}
    checked = 0
    for row in oracle[table]:
        size = float(row["d1"])
        if size not in sizes(table):
            continue
        for column, own in shipped(table, size).items():
            checked += 1
            if own != pytest.approx(float(row[column]), abs=1e-9):
                different[table, size, column] = float(row[column])
    assert checked >= 9 * 50
    assert different == {cell: value for cell, value in SLIPS.items() if cell[0] == table and cell[2] != "d3"}


def test_free_diameters_agree_but_for_known_slips(oracle: dict[str, list[dict[str, str]]]) -> None:
    """Free diameters with their tolerances; two cells of the library are off by 0.05 and 0.1 mm."""
    different = {}
    for table in ("din471", "din472"):
        for row in oracle[table]:
            ring = flat_ring(table, float(row["d1"]))
            if ring is None:
                continue
            low = float(row["d3"]) + float(row["d3_tol-"])
            high = float(row["d3"]) + float(row["d3_tol+"])
            if ring.free != pytest.approx((low, high), abs=1e-6):
                different[table, ring.size, "d3"] = float(row["d3"])
    assert different == {cell: value for cell, value in SLIPS.items() if cell[2] == "d3"}


def test_boundary_dimensions_of_ball_bearings_agree(oracle: dict[str, list[dict[str, str]]]) -> None:
    """Every open bearing whose number both know has the same bore, outside diameter and width."""
    checked = []
    for row in oracle["single_row_deep_groove_ball_bearing_parameters"]:
        number = row["SKT:Designation"].replace("618/", "68").replace("619/", "69")
        ours = bearing_row(number) if number.isdigit() else None
        if ours is None:
            continue
        size = tuple(float(row[f"SKT:{one}"]) for one in "dDB")
        assert (ours.bore, ours.outside, ours.widths[0]) == size, number
        checked.append(number)
    assert len(checked) >= 8
