"""A whole unit of 30 places from the command line, cold, against one check by catalogue names.

Target: at most 1.5 times. The unit is put together from the demo units; pairs are run in turn.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from catalogue.unit_files.reading import read_unit_file
from catalogue.unit_files.writing import unit_yaml
from tests.bench.cold_start import PAIRS, wall_seconds
from tests.command import SEED

PLACES = 30


def thirty_places() -> dict[str, Any]:
    """The first thirty places of two demo units as one unit, those left out that name a place beyond."""
    first, second = (
        read_unit_file(SEED / "units" / f"{name}.yaml").texts for name in ("whinchat-216", "garganey-190")
    )
    places = dict(first["places"])
    for name, place in second["places"].items():
        if len(places) < PLACES:
            own = {field: text for field, text in place.items() if field not in ("loaded_by", "runs_on")}
            places[name if name not in places else f"{name}-2"] = own
    return {**first, "unit": "thirty-places", "places": places}


def report() -> None:
    """Print the ratio of a rebuild of thirty places to one check, and what the places came to."""
    borebook = str(Path(sys.executable).parent / "borebook")
    with tempfile.TemporaryDirectory() as folder:
        where = {"BOREBOOK_CATALOGUE": str(Path(folder) / "demo.sqlite")}
        environment = {**os.environ, **where}
        unit = Path(folder) / "thirty.yaml"
        unit.write_text(unit_yaml(thirty_places()), encoding="utf-8")
        subprocess.run([borebook, "demo"], env=environment, capture_output=True, check=True)
        subprocess.run([borebook, "unit", "add", str(unit)], env=environment, capture_output=True, check=True)
        rebuild = [borebook, "rebuild", "thirty-places"]
        one = [borebook, "check", "QV-1207", "whinchat-216/end-cap"]
        told = subprocess.run(rebuild, env=environment, capture_output=True, text=True, check=False).stdout
        wall_seconds(rebuild, **where), wall_seconds(one, **where)
        pairs = [(wall_seconds(rebuild, **where), wall_seconds(one, **where)) for _ in range(PAIRS)]
        whole, single = (statistics.median(times) * 1000 for times in zip(*pairs, strict=True))
        ratio = statistics.median(a / b for a, b in pairs)
        groups = [
            line for line in told.splitlines() if line.startswith(("[X]", "<?>", "(+)")) and ":" in line
        ]
        print(f"whole unit, {PLACES} places: {whole:.0f} ms, one check {single:.0f} ms")
        print(f"  ratio {ratio:.2f} (target 1.5)")
        print(f"  {'; '.join(groups)}")
