"""Runs the real command as a process of its own, kills it at a moment, and tells what it left behind."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from catalogue.seed import load_seed
from catalogue.sheets.kept import kept_text
from catalogue.sheets.mapping import Mapping as SheetMapping
from catalogue.store import open_store
from tests.catalogue.sheets.small_loads import mapping

HEADER = "Code,Words,Kind,ID,CS,Rubber,Shore,Price,Stock"
SUPPLIER = "Kolbring"
ROWS = 15_000
_RUBBERS = (("NBR", "70"), ("FKM", "75"), ("EPDM", "70"))
_MOMENTS = "loaded_at", "undone_at"  # differ from run to run


def big_sheet(path: Path, *, seed: int = 4) -> None:
    """A price list of so many rings, the same for the same seed."""
    chance = random.Random(seed)
    lines = [HEADER]
    for row in range(ROWS):
        rubber, shore = _RUBBERS[row % 3]
        inside, section = f"{3 + row // 15 * 0.1:.1f}", f"{1 + row // 3 % 5 * 0.5:.1f}"
        price, stock = f"{chance.uniform(0.1, 9):.2f}", chance.randrange(500)
        lines.append(
            f"R-{row:05},ring {inside} x {section},o_ring,{inside},{section},{rubber},{shore},{price},{stock}"
        )
    path.write_text("\n".join([*lines, ""]), encoding="utf-8")


def the_mapping(supplier: str = SUPPLIER) -> SheetMapping:
    """What the columns of the big sheet are."""
    return mapping(HEADER, supplier)


def demo_catalogue(path: Path) -> None:
    """A catalogue with the demo workshop, in one file."""
    with closing(open_store(path, write=True)) as db:
        load_seed(db)
    in_one_file(path)


def in_one_file(path: Path) -> None:
    """Merge the log of changes into the catalogue, so that the file alone can be copied."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def command(*arguments: str) -> list[str]:
    """The command as a person runs it."""
    return [sys.executable, "-m", "catalogue", *arguments]


def load_command(catalogue: Path, sheet: Path, told: Path, supplier: str = SUPPLIER) -> list[str]:
    """Load a sheet by a mapping file without asking."""
    named = ("--catalogue", str(catalogue), "--mapping", str(told))
    return command("load", str(sheet), "--supplier", supplier, "--yes", *named)


def start(arguments: Sequence[str]) -> subprocess.Popen[str]:
    """The command, running."""
    return subprocess.Popen(
        arguments, stdout=subprocess.PIPE, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL, text=True
    )


class Left(NamedTuple):
    """What a killed command left behind: how it ended, faults of the catalogue, its state, the kept mapping.

    ``state`` is the name of the catalogue that it is the same as, "" where it is neither.
    """

    ended_by: int  # negative: by this signal
    faults: tuple[str, ...]
    state: str
    kept: str | None


def kill_when(arguments: Sequence[str], catalogue: Path, ready: Callable[[Path], bool], delay: float) -> int:
    """Start the command, and kill it so many seconds after ``ready`` says so; how it ended."""
    running = start(arguments)
    try:
        while running.poll() is None and not ready(catalogue):
            time.sleep(0.0005)
        running.wait(timeout=delay)
    except subprocess.TimeoutExpired:
        running.kill()
    running.communicate()
    return running.returncode


def at_once(_: Path) -> bool:
    """The clock runs from the start of the command."""
    return True


def committing(catalogue: Path) -> bool:
    """The command is writing its changes into the log."""
    log = catalogue.with_name(catalogue.name + "-wal")
    try:
        return log.stat().st_size > 200_000  # more than opening the catalogue writes
    except FileNotFoundError:
        return False


def left_by(status: int, catalogue: Path, known: Mapping[str, Path]) -> Left:
    """Open the catalogue as the next command would, and look at all of it."""
    kept = catalogue.with_name(f"{catalogue.stem}.suppliers") / f"{SUPPLIER}.yaml"
    return Left(
        status,
        tuple(faults_of(catalogue)),
        next((name for name, path in known.items() if is_same(catalogue, path)), ""),
        kept.read_text(encoding="utf-8") if kept.exists() else None,
    )


def faults_of(catalogue: Path) -> list[str]:
    """Everything that SQLite finds wrong: pages and indexes, references, the index of words."""
    with closing(open_store(catalogue, write=True)) as db:
        found = [str(row[0]) for row in db.execute("PRAGMA integrity_check") if row[0] != "ok"]
        found += [f"reference: {tuple(row)}" for row in db.execute("PRAGMA foreign_key_check")]
        try:
            db.execute("INSERT INTO offer_words (offer_words, rank) VALUES ('integrity-check', 1)")
        except sqlite3.DatabaseError as error:
            found.append(f"words: {error}")
    return found


def is_same(catalogue: Path, other: Path) -> bool:
    """Whether two catalogues have the same rows in every table, moments at which things were done apart."""
    with closing(open_store(catalogue)) as connection:
        connection.execute("ATTACH ? AS other", (f"{other.resolve().as_uri()}?mode=ro",))
        tables = _names(connection, "main")
        if tables != _names(connection, "other"):
            return False
        for name in tables:
            ours, theirs = (
                connection.execute(f"SELECT count(*) FROM {one}.{name}").fetchone()[0]  # noqa: S608
                for one in ("main", "other")
            )
            columns = [row["name"] for row in connection.execute(f"PRAGMA table_xinfo({name})")]
            told = ", ".join(f'"{one}"' for one in columns if one not in _MOMENTS)
            differ = connection.execute(
                f"SELECT {told} FROM main.{name} EXCEPT SELECT {told} FROM other.{name} LIMIT 1"  # noqa: S608
            ).fetchone()
            if ours != theirs or differ is not None:
                return False
    return True


def _names(connection: sqlite3.Connection, schema: str) -> list[str]:
    """The tables; the index of words has its own check, and may be laid out otherwise each time."""
    found = connection.execute(
        f"SELECT name FROM {schema}.sqlite_master WHERE type = 'table'"  # noqa: S608
        " AND name NOT GLOB 'offer_words*' ORDER BY name"
    )
    return [row["name"] for row in found]


class Workbench:
    """A folder with a sheet, a mapping and a catalogue as it was, from which each run gets a copy."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.sheet, self.told = folder / "rings.csv", folder / "told.yaml"
        self.before = folder / "before.sqlite"
        big_sheet(self.sheet)
        self.told.write_text(kept_text(the_mapping()), encoding="utf-8")
        demo_catalogue(self.before)

    def copy(self, name: str, of: Path | None = None) -> Path:
        """A catalogue of one run, in a folder of its own."""
        folder = self.folder / name
        folder.mkdir()
        return Path(shutil.copy(of or self.before, folder / "c.sqlite"))

    def whole_run(self, arguments: Sequence[str]) -> float:
        """Let the command run to its end; how many seconds it took."""
        begun = time.perf_counter()
        done = subprocess.run(arguments, capture_output=True, text=True, check=False, env=os.environ)
        assert done.returncode == 0, done.stderr
        return time.perf_counter() - begun
