"""A catalogue of the test's own: the demo workshop, or nothing at all."""

from __future__ import annotations

import shutil
from contextlib import closing
from pathlib import Path

import pytest

from catalogue.seed import load_seed
from catalogue.store import open_store
from tests.catalogue.sheets.small_loads import in_one_file


@pytest.fixture(scope="session", name="demo")
def _demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo catalogue, made once; tests copy it."""
    path = tmp_path_factory.mktemp("demo") / "demo.sqlite"
    with closing(open_store(path, write=True)) as db:
        load_seed(db)
    in_one_file(path)
    return path


@pytest.fixture(scope="session", name="empty")
def _empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty catalogue, made once; tests copy it."""
    path = tmp_path_factory.mktemp("empty") / "empty.sqlite"
    open_store(path, write=True).close()
    in_one_file(path)
    return path


@pytest.fixture(name="shop")
def _shop(demo: Path, tmp_path: Path) -> Path:
    """A demo catalogue of the test's own."""
    return Path(shutil.copy(demo, tmp_path / "shop.sqlite"))


@pytest.fixture(name="blank")
def _blank(empty: Path, tmp_path: Path) -> Path:
    """An empty catalogue of the test's own."""
    return Path(shutil.copy(empty, tmp_path / "blank.sqlite"))
