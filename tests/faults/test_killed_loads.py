"""A load or its taking back that is killed, at any moment: the catalogue has all of it or nothing of it."""

from __future__ import annotations

import random
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

import pytest

from catalogue.sheets.kept import kept_text
from tests.faults.killed import (
    Left,
    Workbench,
    at_once,
    command,
    committing,
    digest_of,
    in_one_file,
    kill_when,
    load_command,
    the_mapping,
)

pytestmark = pytest.mark.slow

LOADS, LOADS_AT_COMMIT = 40, 8
UNDOS, UNDOS_AT_COMMIT = 10, 4
COMMIT_SECONDS = 0.25  # writing the log, and what is done after it


class Killed(NamedTuple):
    """What every killed run left, and the two states that are right."""

    before: str
    after: str
    left: list[Left]


def _moments(count: int, seconds: float, at_commit: int) -> list[tuple[Callable[[Path], bool], float]]:
    """When to kill: all over the run, a random moment in each part of it, and while it commits."""
    chance = random.Random(20260405)
    spread = [(at_once, (part + chance.random()) / count * seconds) for part in range(count)]
    aimed = [(committing, chance.random() * COMMIT_SECONDS) for _ in range(at_commit)]
    return [*spread, *aimed]


def _all(jobs: list[Callable[[], Left]]) -> list[Left]:
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(lambda job: job(), jobs))


@pytest.fixture(scope="module", name="bench")
def _bench(tmp_path_factory: pytest.TempPathFactory) -> Workbench:
    return Workbench(tmp_path_factory.mktemp("killed"))


@pytest.fixture(scope="module", name="loaded")
def _loaded(bench: Workbench) -> tuple[Path, float]:
    """A catalogue into which the sheet was loaded undisturbed, and how many seconds that took."""
    catalogue = bench.copy("whole")
    seconds = bench.whole_run(load_command(catalogue, bench.sheet, bench.told))
    in_one_file(catalogue)
    return catalogue, seconds


@pytest.fixture(scope="module", name="loads")
def _loads(bench: Workbench, loaded: tuple[Path, float]) -> Killed:
    """Loads, each killed at another moment."""
    after, seconds = loaded

    def job(number: int, ready: Callable[[Path], bool], delay: float) -> Left:
        catalogue = bench.copy(f"load-{number}")
        return kill_when(load_command(catalogue, bench.sheet, bench.told), catalogue, ready, delay)

    # two run at once, which makes each of them slower
    moments = enumerate(_moments(LOADS, seconds * 1.3, LOADS_AT_COMMIT))
    jobs = [lambda number=number, when=when: job(number, *when) for number, when in moments]
    return Killed(digest_of(bench.before), digest_of(after), _all(jobs))


@pytest.fixture(scope="module", name="undos")
def _undos(bench: Workbench, loaded: tuple[Path, float]) -> Killed:
    """Loads that are taken back, each killed at another moment."""
    before, _ = loaded
    after = bench.copy("undone", before)
    seconds = bench.whole_run(command("loads", "undo", "1", "--catalogue", str(after)))

    def job(number: int, ready: Callable[[Path], bool], delay: float) -> Left:
        catalogue = bench.copy(f"undo-{number}", before)
        arguments = command("loads", "undo", "1", "--catalogue", str(catalogue))
        return kill_when(arguments, catalogue, ready, delay)

    moments = enumerate(_moments(UNDOS, seconds * 1.3, UNDOS_AT_COMMIT))
    jobs = [lambda number=number, when=when: job(number, *when) for number, when in moments]
    return Killed(digest_of(before), digest_of(after), _all(jobs))


@pytest.mark.parametrize("number", range(LOADS + LOADS_AT_COMMIT))
def test_a_killed_load_is_there_wholly_or_not_at_all(loads: Killed, number: int) -> None:
    """The catalogue opens without a fault, and says what it said before, or all that the load says."""
    left = loads.left[number]
    assert left.faults == ()
    assert left.digest in (loads.before, loads.after)


@pytest.mark.parametrize("number", range(UNDOS + UNDOS_AT_COMMIT))
def test_a_load_is_taken_back_wholly_or_not_at_all(undos: Killed, number: int) -> None:
    """Killed while it is taken back, a load is there as it was, or is gone."""
    left = undos.left[number]
    assert left.faults == ()
    assert left.digest in (undos.before, undos.after)


def test_the_kept_mapping_is_whole_or_absent(loads: Killed) -> None:
    """No kill left half a mapping, and none a mapping without its load."""
    text = kept_text(the_mapping())
    assert {left.kept for left in loads.left} <= {None, text}
    assert {left.digest for left in loads.left if left.kept} <= {loads.after}


@pytest.mark.parametrize("name", ["loads", "undos"])
def test_the_kills_struck_before_and_after_the_commit(name: str, request: pytest.FixtureRequest) -> None:
    """Most runs were killed while they ran, and both states were met: the moments were well chosen."""
    found: Killed = request.getfixturevalue(name)
    killed = [left for left in found.left if left.ended_by < 0]
    assert len(killed) > len(found.left) / 2
    assert found.before != found.after
    assert {left.digest for left in found.left} == {found.before, found.after}
