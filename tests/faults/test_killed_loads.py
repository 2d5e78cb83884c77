"""A load or its taking back that is killed, at any moment: the catalogue has all of it or nothing of it."""

from __future__ import annotations

import random
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from catalogue.sheets.kept import kept_text
from tests.faults.killed import (
    Left,
    Workbench,
    at_once,
    command,
    committing,
    in_one_file,
    kill_when,
    left_by,
    load_command,
    the_mapping,
)

pytestmark = pytest.mark.slow

LOADS, LOADS_AT_COMMIT = 40, 8
UNDOS, UNDOS_AT_COMMIT = 10, 4
COMMIT_SECONDS = 0.25  # writing the log, and what is done after it


Moment = tuple[Callable[[Path], bool], float]


def _moments(count: int, seconds: float, at_commit: int) -> list[Moment]:
    """When to kill: all over the run, a random moment in each part of it; while it commits; and never."""
    chance = random.Random(20260405)
    # two run at once, which makes each of them slower
    spread = [(at_once, (part + chance.random()) / count * seconds * 1.3) for part in range(count)]
    aimed = [(committing, chance.random() * COMMIT_SECONDS) for _ in range(at_commit)]
    return [*spread, *aimed, (at_once, 60.0)]


def _killed(
    bench: Workbench,
    name: str,
    known: dict[str, Path],
    command_for: Callable[[Path], list[str]],
    moments: list[Moment],
) -> list[Left]:
    """What runs of the command on copies of the catalogue left, each killed at another moment."""

    def job(number: int, moment: Moment) -> Left:
        catalogue = bench.copy(f"{name}-{number}", known["before"])
        status = kill_when(command_for(catalogue), catalogue, *moment)
        return left_by(status, catalogue, known)

    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(job, range(len(moments)), moments))


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
def _loads(bench: Workbench, loaded: tuple[Path, float]) -> list[Left]:
    """Loads, each killed at another moment."""
    after, seconds = loaded
    return _killed(
        bench,
        "load",
        {"before": bench.before, "after": after},
        lambda catalogue: load_command(catalogue, bench.sheet, bench.told),
        _moments(LOADS, seconds, LOADS_AT_COMMIT),
    )


@pytest.fixture(scope="module", name="undos")
def _undos(bench: Workbench, loaded: tuple[Path, float]) -> list[Left]:
    """Loads that are taken back, each killed at another moment."""
    before, _ = loaded
    after = bench.copy("undone", before)
    seconds = bench.whole_run(command("loads", "undo", "1", "--catalogue", str(after)))
    in_one_file(after)
    return _killed(
        bench,
        "undo",
        {"before": before, "after": after},
        lambda catalogue: command("loads", "undo", "1", "--catalogue", str(catalogue)),
        _moments(UNDOS, seconds, UNDOS_AT_COMMIT),
    )


@pytest.mark.parametrize("number", range(LOADS + LOADS_AT_COMMIT))
def test_a_killed_load_is_there_wholly_or_not_at_all(loads: list[Left], number: int) -> None:
    """The catalogue opens without a fault, and says what it said before, or all that the load says."""
    assert loads[number].faults == ()
    assert loads[number].state in ("before", "after")


@pytest.mark.parametrize("number", range(UNDOS + UNDOS_AT_COMMIT))
def test_a_load_is_taken_back_wholly_or_not_at_all(undos: list[Left], number: int) -> None:
    """Killed while it is taken back, a load is there as it was, or is gone."""
    assert undos[number].faults == ()
    assert undos[number].state in ("before", "after")


def test_the_kept_mapping_is_whole_or_absent(loads: list[Left]) -> None:
    """No kill left half a mapping, and none a mapping without its load."""
    assert {left.kept for left in loads} <= {None, kept_text(the_mapping())}
    assert {left.state for left in loads if left.kept} <= {"after"}


@pytest.mark.parametrize("name", ["loads", "undos"])
def test_the_moments_were_well_chosen(name: str, request: pytest.FixtureRequest) -> None:
    """Most runs were killed while they ran, and the one that was not ended well, with another catalogue."""
    left: list[Left] = request.getfixturevalue(name)
    assert len([one for one in left if one.ended_by < 0]) > len(left) / 2
    assert (left[-1].ended_by, left[-1].state) == (0, "after")
    assert "before" in {one.state for one in left}
