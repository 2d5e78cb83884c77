"""The chemicals library (MIT) answers the same questions on the viscosity index.

It lives in an environment of its own. If it cannot be installed the tests fail.
"""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

import pytest

from fitcheck.fluids.index import viscosity_index
from schema.tables import rows

pytestmark = pytest.mark.slow

DUMP = """
import json, sys
from chemicals.viscosity import VI_Hs, VI_Ls, VI_nus, viscosity_index
pairs = json.loads(sys.argv[1])
found = [viscosity_index(a * 1e-6, b * 1e-6) for a, b in pairs]
table = [[float(one) for one in column] for column in (VI_nus, VI_Ls, VI_Hs)]
json.dump({"index": found, "table": table}, sys.stdout)
"""
PAIRS = [
    (thick, thick / ratio)
    for thick in (3.0, 8.0, 10.0, 14.2, 15.0, 22.0, 26.1, 32.0, 46.0, 68.0, 100.0, 220.0, 460.0, 1000.0)
    for ratio in (1.5, 2.5, 3.0, 3.7, 4.0, 4.8, 5.5, 6.5, 8.0, 10.0, 12.0)
]


@pytest.fixture(scope="module")
def oracle(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    home = tmp_path_factory.mktemp("viscosity oracle")
    python = home / "venv" / ("Scripts" if sys.platform == "win32" else "bin") / "python"
    subprocess.run([sys.executable, "-m", "venv", str(home / "venv")], check=True)
    install = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*install, "chemicals==1.5.2"], check=True)
    script = home / "dump.py"
    script.write_text(DUMP, encoding="utf-8")
    command = [str(python), str(script), json.dumps(PAIRS)]
    done = subprocess.run(command, cwd=home, check=True, capture_output=True, text=True)
    answers: dict[str, Any] = json.loads(done.stdout)
    return answers


def test_all_rows_of_table_1_are_those_of_the_library(oracle: dict[str, Any]) -> None:
    """All 311 rows of L and H, digit by digit."""
    ours = [
        [float(row[column]) for row in rows("viscosity_index")]
        for column in ("viscosity_100c_mm2_s", "l_mm2_s", "h_mm2_s")
    ]
    assert len(ours[0]) == 311
    assert ours == oracle["table"]


def test_the_index_is_that_of_the_library_over_all_grades(oracle: dict[str, Any]) -> None:
    """154 oils from 3 to 1000 mm2/s, on both procedures, above the table and below its end, agree."""
    different = []
    for (thick, thin), theirs in zip(PAIRS, oracle["index"], strict=True):
        ours = viscosity_index(thick, thin)
        if (ours is None) != (theirs is None) or (ours is not None and abs(ours - theirs) > 1e-6):
            different.append((thick, thin, ours, theirs))
    assert different == []
    assert sum(one is None for one in oracle["index"]) == sum(thin < 2.0 for _, thin in PAIRS) > 10
