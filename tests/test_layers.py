"""The layers: catalogue asks fitcheck, fitcheck speaks schema, and never back."""

from __future__ import annotations

import ast
import importlib
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LAYERS = {"schema": set(), "fitcheck": {"schema"}, "catalogue": {"schema", "fitcheck", "seed_data"}}
NOT_IN_FITCHECK = {
    "sqlite3",
    "sqlite_utils",
    "pathlib",
    "os",
    "io",
    "time",
    "datetime",
    "random",
    "click",
    "csv",
}
MODULES = sorted(path for layer in LAYERS for path in (ROOT / layer).rglob("*.py"))


def imports(path: Path) -> Iterator[str]:
    """The top-level package of every import of a module, those inside functions too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            yield node.module.partition(".")[0]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_imports_only_layers_below_it(path: Path) -> None:
    """No module of a layer imports a layer above it."""
    layer = path.relative_to(ROOT).parts[0]
    ours = {*LAYERS, "seed_data"}
    assert {name for name in imports(path) if name in ours} <= LAYERS[layer] | {layer}


@pytest.mark.parametrize(
    "path",
    [path for path in MODULES if path.relative_to(ROOT).parts[0] == "fitcheck"],
    ids=lambda path: str(path.relative_to(ROOT)),
)
def test_fitcheck_is_pure(path: Path) -> None:
    """No module of fitcheck imports what touches files, clocks, chance, databases or screens."""
    assert set(imports(path)) & NOT_IN_FITCHECK == set()


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_modules_stay_small(path: Path) -> None:
    """A module that grows beyond 400 lines is to be split by subject."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("name", [*LAYERS, "seed_data"])
def test_the_packages_come_from_this_project(name: str) -> None:
    """schema, fitcheck, catalogue and seed_data are this project's, not a namesake's that is installed."""
    assert Path(importlib.import_module(name).__file__ or "").parent == ROOT / name


def test_a_check_starts_without_the_heavy_libraries() -> None:
    """numpy, pint, pydantic, PyYAML and sqlite-utils cost more to load than a whole check may take."""
    code = (
        "import sys, catalogue.cli.main, catalogue.cli.check, catalogue.report, catalogue.resolve, "
        "catalogue.lookup, fitcheck.check, schema.question, schema.reference; "
        "print(sorted({'numpy', 'pint', 'pydantic', 'sqlite_utils', 'yaml'} & set(sys.modules)))"
    )
    result = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert result.stdout.strip() == "[]"
