"""The command run in this process, on a demo catalogue; a store with the demo workshop; a sheet."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from xml.etree.ElementTree import Element

import pytest
from sqlite_utils import Database

from catalogue.cli.main import main
from catalogue.seed import load_seed
from catalogue.store import open_store
from tests.command import SEED, Ran
from tests.rebuild_unit import sheet
from tests.sheet_page import tree_of


@pytest.fixture(scope="module", name="catalogue")
def _catalogue(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A demo catalogue made by the command itself."""
    path = tmp_path_factory.mktemp("catalogue") / "demo.sqlite"
    with pytest.raises(SystemExit) as ended:
        main(["demo", "--catalogue", str(path)])
    assert ended.value.code == 0
    return path


@pytest.fixture(name="run")
def _run(
    capsys: pytest.CaptureFixture[str], catalogue: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Ran]:
    """Runs the command in this process."""
    monkeypatch.setenv("BOREBOOK_CATALOGUE", str(catalogue))
    monkeypatch.setenv("COLUMNS", "80")
    capsys.readouterr()

    def run(*arguments: str) -> Ran:
        with pytest.raises(SystemExit) as ended:
            main(list(arguments))
        printed = capsys.readouterr()
        return Ran(int(ended.value.code or 0), printed.out, printed.err)

    return run


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Database]:
    """A catalogue with the demo data, of the test's own."""
    with closing(open_store(tmp_path / "c.sqlite", write=True)) as made:
        load_seed(made)
        yield made


@pytest.fixture
def sheets(tmp_path: Path) -> Path:
    """A copy of the demo sheets, to be changed."""
    return Path(shutil.copytree(SEED, tmp_path / "seed_data", ignore=shutil.ignore_patterns("__pycache__")))


@pytest.fixture(scope="module", name="html")
def _html() -> str:
    """The rebuild sheet of the invented unit."""
    return sheet()


@pytest.fixture(scope="module", name="tree")
def _tree(html: str) -> Element:
    """The same sheet, parsed."""
    return tree_of(html)
