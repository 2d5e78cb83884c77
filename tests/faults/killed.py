"""Runs the real command as a process of its own, kills it at a moment, and tells what it left behind."""

from __future__ import annotations

import hashlib
import os
import random
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from catalogue.seed import load_seed
from catalogue.sheets.kept import kept_text
from catalogue.sheets.mapping import Mapping
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


def the_mapping(supplier: str = SUPPLIER) -> Mapping:
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
    """What a killed command left behind: faults of the catalogue, its contents' digest, the kept mapping."""

    ended_by: int  # negative: by this signal
    faults: tuple[str, ...]
    digest: str
    kept: str | None


def kill_when(arguments: Sequence[str], catalogue: Path, ready: Callable[[Path], bool], delay: float) -> Left:
    """Start the command, and kill it so many seconds after ``ready`` says so of the catalogue."""
    running = start(arguments)
    try:
        while running.poll() is None and not ready(catalogue):
            time.sleep(0.0005)
        time.sleep(delay)
    finally:
        running.kill()
        running.communicate()
    return left_by(running.returncode, catalogue)


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


def left_by(status: int, catalogue: Path) -> Left:
    """Open the catalogue as the next command would, and look at all of it."""
    kept = catalogue.with_name(f"{catalogue.stem}.suppliers") / f"{SUPPLIER}.yaml"
    return Left(
        status,
        tuple(faults_of(catalogue)),
        digest_of(catalogue),
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


def digest_of(catalogue: Path) -> str:
    """One digest of every row of every table, apart from the moments at which things were done."""
    digest = hashlib.sha256()
    with closing(open_store(catalogue)) as connection:
        tables = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table'"
            " AND name NOT GLOB 'offer_words_*' ORDER BY name"
        ).fetchall()
        for (name,) in map(tuple, tables):
            digest.update(name.encode())
            rows = connection.execute(f"SELECT * FROM {name}")  # noqa: S608
            columns = [at for at, one in enumerate(rows.description) if one[0] not in _MOMENTS]
            told = sorted(repr([row[at] for at in columns]) for row in rows)
            digest.update("\n".join(told).encode())
    return digest.hexdigest()


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
