"""The wheel, installed into a clean environment, is the same working tool with all its data files."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.command import UNIT_PATHS

ROOT = Path(__file__).parent.parent
pytestmark = pytest.mark.slow


@pytest.fixture(scope="module", name="clean")
def _clean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The bin folder of a new environment into which the built wheel was installed."""
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--outdir", str(folder), str(ROOT))
    run(sys.executable, "-m", "venv", str(folder / "venv"))
    bin_folder = folder / "venv" / ("Scripts" if os.name == "nt" else "bin")
    (wheel,) = folder.glob("borebook-*.whl")
    run(str(bin_folder / "python"), "-m", "pip", "install", "--quiet", str(wheel))
    return bin_folder


def run(*command: str, cwd: Path | None = None, status: int = 0, **extra: str) -> str:
    """Run a command that must end with a status; its output."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    result = subprocess.run(
        command,
        cwd=cwd,
        env={**environment, **extra},
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert result.returncode == status, result.stdout + result.stderr
    return result.stdout


def test_the_wheel_makes_the_demo_and_checks(clean: Path, tmp_path: Path) -> None:
    """From an empty folder the installed command makes its catalogue and answers all three verdicts."""
    where = {"BOREBOOK_CATALOGUE": str(tmp_path / "demo.sqlite"), "NO_COLOR": "1"}
    borebook = str(clean / "borebook")
    assert f"{len(UNIT_PATHS)} units" in run(borebook, "demo", cwd=tmp_path, **where)
    assert "FITS" in run(borebook, "check", "QV-1207", "whinchat-216/end-cap", cwd=tmp_path, **where)
    run(borebook, "check", "QV-1112", "whinchat-216/end-cap", cwd=tmp_path, status=3, **where)
    run(borebook, "check", "QV-1011", "dunlin-165/main-piston", cwd=tmp_path, status=4, **where)
    assert "AS568-214" in run(borebook, "size", "214", cwd=tmp_path, **where)
    assert "+7 to +41" in run(borebook, "limits", "25", "H7", "g6", cwd=tmp_path, **where)


def test_the_wheel_checks_a_whole_unit(clean: Path, tmp_path: Path) -> None:
    """The installed command checks a unit of the demo and writes its sheet."""
    where = {"BOREBOOK_CATALOGUE": str(tmp_path / "demo.sqlite"), "NO_COLOR": "1"}
    borebook = str(clean / "borebook")
    run(borebook, "demo", cwd=tmp_path, **where)
    told = run(borebook, "rebuild", "whinchat-216", "--sheet", "sheet.html", cwd=tmp_path, **where)
    assert "Kit:" in told
    assert "whinchat-216" in (tmp_path / "sheet.html").read_text(encoding="utf-8")


def test_the_wheel_draws(clean: Path, tmp_path: Path) -> None:
    """The installed command writes a picture."""
    where = {"BOREBOOK_CATALOGUE": str(tmp_path / "demo.sqlite")}
    borebook = str(clean / "borebook")
    run(borebook, "demo", cwd=tmp_path, **where)
    run(borebook, "check", "QV-1207", "whinchat-216/end-cap", "--picture", "gland.svg", cwd=tmp_path, **where)
    assert (tmp_path / "gland.svg").read_text(encoding="utf-8").lstrip().startswith(("<svg", "<?xml"))


def test_the_wheel_holds_the_rebuild_sheet(clean: Path, tmp_path: Path) -> None:
    """Template and style are in the installed package, and the engine that fills them comes with it."""
    code = (
        "from datetime import date; from catalogue.rebuild_sheet import rebuild_sheet; "
        "from fitcheck.unit.check import check_unit; from schema.reference import published_reference; "
        "from schema.unit import unit_from; unit = unit_from({'unit': 'bare'}); "
        "tables = published_reference(); "
        "print(rebuild_sheet(unit, check_unit(unit, tables), tables, made_on=date(2026, 11, 25)))"
    )
    made = run(str(clean / "python"), "-c", code, cwd=tmp_path)
    assert made.startswith("<!DOCTYPE html>")
    assert "@top-left" in made


def test_the_wheel_holds_every_published_table(clean: Path, tmp_path: Path) -> None:
    """No table of the source tree is missing from the installed package."""
    code = (
        "import pathlib, schema; folder = pathlib.Path(schema.__file__).parent / 'published'; "
        "print(*sorted(path.name for path in folder.glob('*.csv')))"
    )
    installed = run(str(clean / "python"), "-c", code, cwd=tmp_path).split()
    assert installed == sorted(path.name for path in (ROOT / "schema" / "published").glob("*.csv"))


def test_the_packages_belong_to_the_wheel(clean: Path, tmp_path: Path) -> None:
    """In a clean environment schema, fitcheck, catalogue and seed_data come from this distribution alone."""
    code = (
        "import importlib.metadata as m; found = m.packages_distributions(); "
        "print([found[name] for name in ('schema', 'fitcheck', 'catalogue', 'seed_data')])"
    )
    assert run(str(clean / "python"), "-c", code, cwd=tmp_path).strip() == str([["borebook"]] * 4)
