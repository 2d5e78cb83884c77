"""Loads beside each other, and on a disk that is full: nothing half, and a person is told."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from catalogue.sheets.kept import kept_text
from tests.faults.killed import (
    Workbench,
    command,
    faults_of,
    in_one_file,
    is_same,
    load_command,
    start,
    the_mapping,
)

resource = pytest.importorskip("resource", reason="limits of a process are those of POSIX")
pytestmark = pytest.mark.slow
OTHER = "Dornet"


@pytest.fixture(scope="module", name="bench")
def _bench(tmp_path_factory: pytest.TempPathFactory) -> Workbench:
    made = Workbench(tmp_path_factory.mktemp("beside"))
    (made.folder / "other.yaml").write_text(kept_text(the_mapping(OTHER)), encoding="utf-8")
    return made


def _offers(catalogue: Path, supplier: str) -> int:
    with closing(sqlite3.connect(catalogue)) as connection:
        sql = "SELECT count(*) FROM offer WHERE supplier = ?"
        return int(connection.execute(sql, (supplier,)).fetchone()[0])


def test_two_loads_at_once_both_end_well(bench: Workbench) -> None:
    """One waits for the other, or tells that another program writes; what was loaded is all there."""
    catalogue = bench.copy("beside")
    told = {"Kolbring": bench.told, OTHER: bench.folder / "other.yaml"}
    # the very same file for two suppliers would be taken for a mistake
    own = bench.folder / "other.csv"
    own.write_bytes(bench.sheet.read_bytes() + b"\n")
    sheets = {"Kolbring": bench.sheet, OTHER: own}
    running = {one: start(load_command(catalogue, sheets[one], told[one], one)) for one in told}
    ended = {one: process.communicate(timeout=60) for one, process in running.items()}
    loaded = [one for one, process in running.items() if process.returncode == 0]
    assert loaded
    for one, process in running.items():
        if one in loaded:
            assert _offers(catalogue, one) == 15_000
        else:
            assert _offers(catalogue, one) == 0
            assert "is being written by another program" in ended[one][1]
            assert process.returncode == 1
    assert faults_of(catalogue) == []


def test_a_load_can_be_asked_for_while_another_is_written(bench: Workbench) -> None:
    """A dry run beside a load reads the catalogue as it is before or after, and does not stop it."""
    catalogue = bench.copy("looking")
    writing = start(load_command(catalogue, bench.sheet, bench.told))
    looking = load_command(catalogue, bench.sheet, bench.folder / "other.yaml", OTHER)
    looked = subprocess.run(
        [*looking, "--dry-run"],
        capture_output=True,
        text=True,
        check=False,
    )
    _, told = writing.communicate(timeout=60)
    assert writing.returncode == 0, told
    assert looked.returncode == 0, looked.stderr
    assert "New (15000)" in looked.stdout
    assert (_offers(catalogue, "Kolbring"), _offers(catalogue, OTHER)) == (15_000, 0)


def _with_no_file_over(most: int, arguments: list[str]) -> subprocess.CompletedProcess[str]:
    """The command where no file may grow beyond so many bytes."""
    return subprocess.run(
        arguments,
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (most, most)),
    )


@pytest.mark.parametrize("room", [200_000, 1_000_000, 3_000_000])
def test_a_disk_that_takes_no_more_leaves_the_catalogue_as_it_was(bench: Workbench, room: int) -> None:
    """Where the log cannot grow, nothing is loaded, and a person is told that it is the disk."""
    catalogue = bench.copy(f"full-{room}")
    most = catalogue.stat().st_size + room
    ran = _with_no_file_over(most, load_command(catalogue, bench.sheet, bench.told))
    assert ran.returncode == 1
    assert "Traceback" not in ran.stderr
    assert "disk" in ran.stderr
    assert faults_of(catalogue) == []
    assert is_same(catalogue, bench.before)
    assert not catalogue.with_name("c.suppliers").exists()


def test_a_load_that_cannot_be_taken_back_for_want_of_room_stays(bench: Workbench) -> None:
    """Nothing of it is gone, and a person is told that it is the disk."""
    catalogue = bench.copy("full-undo")
    bench.whole_run(load_command(catalogue, bench.sheet, bench.told))
    in_one_file(catalogue)
    before = bench.copy("full-undo-before", catalogue)
    ran = _with_no_file_over(300_000, command("loads", "undo", "1", "--catalogue", str(catalogue)))
    assert ran.returncode == 1
    assert "disk" in ran.stderr
    assert faults_of(catalogue) == []
    assert is_same(catalogue, before)


FULL = """
import sys
import catalogue.store as store
connected = store._connected
def small(uri):
    connection = connected(uri)
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages + int(sys.argv[1])}")
    return connection
store._connected = small
from catalogue.cli.main import main
main(sys.argv[2:])
"""


def test_a_full_disk_is_told_as_such(bench: Workbench) -> None:
    """Where SQLite finds the disk full, the message says so, that nothing was changed, and what to do."""
    catalogue = bench.copy("pages")
    load = load_command(catalogue, bench.sheet, bench.told)[3:]
    ran = subprocess.run(
        [sys.executable, "-c", FULL, "50", *load], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 1
    assert "the disk is full, nothing was changed; make room and try again" in ran.stderr
    assert faults_of(catalogue) == []
    assert is_same(catalogue, bench.before)
