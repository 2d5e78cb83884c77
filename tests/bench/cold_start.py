"""One check from the command line, cold, against importing pydantic, click and sqlite3.

Target: at most 2 times. Pairs are run in turn, so that a drift of the machine hits both alike.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.examples import END_CAP

PAIRS = 15
FLOOR = [sys.executable, "-c", "import pydantic, click, sqlite3"]


def wall_seconds(command: list[str], **environment: str) -> float:
    """Wall time of a whole process."""
    start = time.perf_counter()
    subprocess.run(command, env={**os.environ, **environment}, capture_output=True, check=False)
    return time.perf_counter() - start


def report() -> None:
    """Print the ratio for a question file, for catalogue names and for the JSON answer."""
    borebook = str(Path(sys.executable).parent / "borebook")
    with tempfile.TemporaryDirectory() as folder:
        question = Path(folder) / "question.json"
        question.write_text(json.dumps(END_CAP), encoding="utf-8")
        where = {"BOREBOOK_CATALOGUE": str(Path(folder) / "demo.sqlite")}
        subprocess.run([borebook, "demo"], env={**os.environ, **where}, capture_output=True, check=True)
        for name, command in (
            ("question file", [borebook, "check", "--question", str(question)]),
            ("catalogue names", [borebook, "check", "QV-1207", "whinchat-216/end-cap"]),
            ("as JSON", [borebook, "check", "--question", str(question), "--json"]),
            ("limits 25 H7 g6", [borebook, "limits", "25", "H7", "g6"]),
        ):
            wall_seconds(command, **where), wall_seconds(FLOOR)
            pairs = [(wall_seconds(command, **where), wall_seconds(FLOOR)) for _ in range(PAIRS)]
            ratios = [ours / floor for ours, floor in pairs]
            ours, floor = (statistics.median(side) * 1e3 for side in zip(*pairs, strict=True))
            print(
                f"cold start, {name}: {ours:.0f} ms against {floor:.0f} ms, "
                f"ratio {statistics.median(ratios):.2f} ({min(ratios):.2f} to {max(ratios):.2f}); target 2"
            )
