"""The catalogue file: where it is, how it is opened, what it refuses, what survives a crash."""

from __future__ import annotations

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from catalogue.resolve import open_catalogue
from catalogue.seed import load_seed
from catalogue.store import (
    APPLICATION_ID,
    SCHEMA_VERSION,
    all_or_nothing,
    default_location,
    location,
    open_store,
)
from catalogue.unit_files.stock import stock_at
from schema.errors import StoreError
from tests.command import UNIT_PATHS

ROOT = Path(__file__).parents[2]
posix_only = pytest.mark.skipif(os.name != "posix", reason="permissions and signals of POSIX")


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A catalogue with the demo data; tests that change it take a copy."""
    path = tmp_path_factory.mktemp("store") / "catalogue.sqlite"
    with closing(open_store(path, write=True)) as db:
        load_seed(db)
    return path


@pytest.fixture
def own(loaded: Path, tmp_path: Path) -> Path:
    """A copy of the loaded catalogue that a test may change."""
    return Path(shutil.copy(loaded, tmp_path / "own.sqlite"))


@contextmanager
def unwritable(folder: Path) -> Iterator[None]:
    """The folder as a person sees it who may read it only; root steps down to nobody, since root may all."""
    before = folder.stat().st_mode
    folder.chmod(0o555)
    if was_root := os.geteuid() == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        if was_root:
            os.seteuid(0)
        folder.chmod(before)


@pytest.fixture
def shared() -> Iterator[Path]:
    """A folder that every user may look into; pytest's own may not be."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o755)
        yield folder


def dump(path: Path) -> list[str]:
    """All tables and rows as SQL."""
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def test_named_by_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The environment variable names the file."""
    monkeypatch.setenv("BOREBOOK_CATALOGUE", str(tmp_path / "van.sqlite"))
    assert default_location() == tmp_path / "van.sqlite"


@pytest.mark.parametrize(
    ("platform", "variable", "value", "expected"),
    [
        pytest.param("linux", "XDG_DATA_HOME", "/data", "/data/borebook", id="linux data home"),
        pytest.param("linux", "XDG_DATA_HOME", "", "/home/ann/.local/share/borebook", id="linux"),
        pytest.param("linux", "XDG_DATA_HOME", "data", "/home/ann/.local/share/borebook", id="relative"),
        pytest.param(
            "darwin", "HOME", "/home/ann", "/home/ann/Library/Application Support/borebook", id="mac"
        ),
        pytest.param("win32", "LOCALAPPDATA", "/local", "/local/borebook", id="windows"),
        pytest.param("win32", "LOCALAPPDATA", "", "/home/ann/AppData/Local/borebook", id="windows bare"),
    ],
)
def test_default_folder(
    monkeypatch: pytest.MonkeyPatch, platform: str, variable: str, value: str, expected: str
) -> None:
    """Without a name the file lies in the person's data folder of the platform."""
    monkeypatch.delenv("BOREBOOK_CATALOGUE", raising=False)
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(Path, "home", classmethod(lambda cls: Path("/home/ann")))
    monkeypatch.setenv(variable, value)
    assert default_location() == Path(expected) / "catalogue.sqlite"


def test_default_is_opened(monkeypatch: pytest.MonkeyPatch, loaded: Path) -> None:
    """Without a path the default catalogue is opened."""
    monkeypatch.setenv("BOREBOOK_CATALOGUE", str(loaded))
    with closing(open_store()) as connection:
        assert connection.execute("SELECT count(*) FROM unit").fetchone()[0] == len(UNIT_PATHS)


def test_missing_file_refused(tmp_path: Path) -> None:
    """Reading does not make a file; it says where it looked and how to make one."""
    with pytest.raises(StoreError, match=r"no catalogue at .*none\.sqlite; make the demo one with: borebook"):
        open_store(tmp_path / "none.sqlite")
    assert not (tmp_path / "none.sqlite").exists()


@pytest.mark.parametrize("write", [False, True], ids=["read", "write"])
def test_folder_refused(tmp_path: Path, write: bool) -> None:
    """A folder is not a catalogue."""
    with pytest.raises(StoreError, match="is a folder, not a catalogue file"):
        open_store(tmp_path, write=write)


@pytest.mark.parametrize("write", [False, True], ids=["read", "write"])
def test_other_file_refused(tmp_path: Path, write: bool) -> None:
    """A file that is not SQLite is refused and left as it is."""
    path = tmp_path / "list.csv"
    path.write_text("part_number,kind\n" * 100)
    with pytest.raises(StoreError, match=r"list\.csv is not a catalogue file"):
        open_store(path, write=write)
    assert path.read_text() == "part_number,kind\n" * 100


@pytest.mark.parametrize("write", [False, True], ids=["read", "write"])
def test_other_database_refused(tmp_path: Path, write: bool) -> None:
    """The database of another program is refused and left as it is."""
    path = tmp_path / "other.sqlite"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE part (x)")
    before = path.read_bytes()
    with pytest.raises(StoreError, match=r"other\.sqlite is not a borebook catalogue and is left alone"):
        open_store(path, write=write)
    assert path.read_bytes() == before


@pytest.mark.parametrize("write", [False, True], ids=["read", "write"])
def test_newer_file_refused(own: Path, write: bool) -> None:
    """A file of a newer program is refused, with both versions told."""
    with closing(sqlite3.connect(own)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION + 1}")
    with pytest.raises(StoreError, match=f"newer version .*tables {SCHEMA_VERSION + 1}, this program has"):
        open_store(own, write=write)


def test_older_file_told(own: Path) -> None:
    """A file of an older program is not read with tables it may lack."""
    with closing(sqlite3.connect(own)) as connection:
        connection.execute("PRAGMA user_version = 0")
    with pytest.raises(StoreError, match="made by an older version"):
        open_store(own)


def test_damaged_file_told(own: Path) -> None:
    """A damaged file is told as damaged, not read."""
    content = bytearray(own.read_bytes())
    content[100:200] = bytes(100)
    own.write_bytes(content)
    with pytest.raises(StoreError, match="is damaged"):
        open_store(own, write=True)


def test_reading_cannot_write(loaded: Path) -> None:
    """A connection for reading refuses every change."""
    with (
        closing(open_store(loaded)) as connection,
        pytest.raises(sqlite3.OperationalError, match="readonly database"),
    ):
        connection.execute("DELETE FROM rebuild_list")


def test_marks_and_modes(own: Path) -> None:
    """A catalogue carries our mark, keeps a write-ahead log and enforces its references."""
    with closing(open_store(own, write=True)) as db:
        marks = [
            db.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("application_id", "user_version", "journal_mode", "foreign_keys", "busy_timeout")
        ]
    assert marks == [APPLICATION_ID, SCHEMA_VERSION, "wal", 1, 5000]


@pytest.mark.parametrize("name", ["a b.sqlite", "ø?x=1#y.sqlite", "100%41.sqlite"])
@posix_only
def test_any_file_name(tmp_path: Path, name: str) -> None:
    """Signs that mean something in an address are plain signs in a file name."""
    with closing(open_store(tmp_path / name, write=True)):
        pass
    with closing(open_store(tmp_path / name)) as connection:
        assert connection.execute("SELECT count(*) FROM part").fetchone()[0] == 0
    assert (tmp_path / name).exists()


@posix_only
def test_reads_in_unwritable_folder(loaded: Path, shared: Path) -> None:
    """A catalogue is read where nothing can be written beside it."""
    path = Path(shutil.copy(loaded, shared / "c.sqlite"))
    path.chmod(0o444)
    with unwritable(shared), closing(open_store(path)) as connection:
        assert connection.execute("SELECT count(*) FROM part").fetchone()[0] > 150
    assert [one.name for one in shared.iterdir()] == ["c.sqlite"]


@posix_only
def test_unmerged_changes_are_not_passed_over(loaded: Path, shared: Path) -> None:
    """Where changes still wait in the log and cannot be read, the file is refused, not read without them."""
    path = Path(shutil.copy(loaded, shared / "c.sqlite"))
    with closing(open_store(path, write=True)) as db:
        db.execute("PRAGMA wal_autocheckpoint = 0")
        db.execute("UPDATE part SET notes = 'later'")
        log = (shared / "c.sqlite-wal").read_bytes()
    path.write_bytes(loaded.read_bytes())
    (shared / "c.sqlite-wal").write_bytes(log)
    with (
        unwritable(shared),
        pytest.raises(StoreError, match="changes that are not merged into it yet"),
    ):
        open_store(path)


@posix_only
def test_write_refused_in_unwritable_folder(shared: Path) -> None:
    """A catalogue that cannot be made is told with its path."""
    with unwritable(shared), pytest.raises(StoreError, match=r"new\.sqlite cannot be used: .*permissions"):
        open_store(shared / "new.sqlite", write=True)


def test_reading_beside_a_writer(own: Path) -> None:
    """A reader sees the old state while another program writes, and the new one after."""
    with closing(open_store(own, write=True)) as db:
        before = db.table("rebuild_list").count
        with all_or_nothing(db):
            db.execute("DELETE FROM rebuild_list")
            with closing(open_store(own)) as connection:
                during = connection.execute("SELECT count(*) FROM rebuild_list").fetchone()[0]
        with closing(open_store(own)) as connection:
            after = connection.execute("SELECT count(*) FROM rebuild_list").fetchone()[0]
    assert (during > 50, during, after) == (True, before, 0)


def test_failed_change_is_undone(own: Path) -> None:
    """A fault inside a change undoes all of it, and a refusal of the file is told in words."""
    before = dump(own)
    with (
        closing(open_store(own, write=True)) as db,
        pytest.raises(StoreError, match=r"refuses this change, nothing was changed: .*FOREIGN KEY"),
        all_or_nothing(db),
    ):
        db.execute("DELETE FROM rebuild_list WHERE unit = 'dunlin-165'")
        db.execute("DELETE FROM part WHERE part_number = 'QV-1207'")
    assert dump(own) == before


def test_inner_change_is_part_of_the_outer(own: Path) -> None:
    """A change within a change is undone with it."""
    before = dump(own)
    with (
        closing(open_store(own, write=True)) as db,
        pytest.raises(ZeroDivisionError, match="by zero"),
        all_or_nothing(db),
    ):
        with all_or_nothing(db):
            db.execute("DELETE FROM rebuild_list")
        _ = 1 / 0
    assert dump(own) == before


def test_second_writer_is_told(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A second writer waits, then is told that another program is writing."""
    monkeypatch.setattr("catalogue.store.WAIT_SECONDS", 0.05)
    with (
        closing(open_store(own, write=True)) as first,
        closing(open_store(own, write=True)) as second,
        all_or_nothing(first),
        pytest.raises(StoreError, match="being written by another program"),
        all_or_nothing(second),
    ):
        pass


KILLED_WHILE_LOADING = """
import sys, time
from pathlib import Path
from catalogue.seed import load_seed
from catalogue.store import open_store

def wait(sql):
    if sql.lstrip().upper().startswith("INSERT INTO") and "rebuild_list" in sql:
        print("in the middle", flush=True)
        time.sleep(120)

db = open_store(sys.argv[1], write=True)
db.execute("PRAGMA cache_size = 5")  # so that pages reach the disk before the end
db.conn.set_trace_callback(wait)
load_seed(db, Path(sys.argv[2]))
"""


@posix_only
def test_killed_writer_leaves_the_old_state(own: Path, tmp_path: Path) -> None:
    """A writer killed in the middle of a load leaves the catalogue as it was, and sound."""
    before = dump(own)
    sheets = Path(shutil.copytree(ROOT / "seed_data", tmp_path / "sheets"))
    parts = (sheets / "parts.csv").read_text("utf-8")
    (sheets / "parts.csv").write_text(parts.replace("Pellowgate", "Another"), "utf-8")
    unit = sheets / "units" / "whinchat-216.yaml"
    unit.write_text(unit.read_text("utf-8").replace("renew: inspect", "renew: always"), "utf-8")
    command = [sys.executable, "-c", KILLED_WHILE_LOADING, str(own), str(sheets)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout is not None
        said = writer.stdout.readline()
        writer.send_signal(signal.SIGKILL)
    assert said == "in the middle\n"
    with closing(open_store(own, write=True)) as db:
        assert db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        assert db.execute("PRAGMA foreign_key_check").fetchall() == []
    assert dump(own) == before


READING = """
import sys
from catalogue.lookup import part_record, parts, places, question_dict, unit_texts, units
from catalogue.store import open_store
from schema.question import question_from

connection = open_store(sys.argv[1])
question_from(question_dict(connection, "QV-1202", "whinchat-216/shaft-seal"))
units(connection), places(connection, "whinchat-216"), parts(connection, text="nitrile")
part_record(connection, "QV-1202"), unit_texts(connection, "whinchat-216")
heavy = {"sqlite_utils", "pydantic", "yaml", "numpy", "pint", "platformdirs", "click", "catalogue.migrations"}
print(sorted(heavy & set(sys.modules)))
"""


def test_reading_imports_little(loaded: Path) -> None:
    """Reading the catalogue loads none of the libraries that a command would have to wait for."""
    command = [sys.executable, "-c", READING, str(loaded)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


def test_a_catalogue_in_the_home_folder_is_found_by_every_command(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """``~`` is written out for what looks up one part as for what opens the whole."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    open_store("~/own.sqlite", write=True).close()
    assert location("~/own.sqlite") == tmp_path / "own.sqlite"
    open_catalogue(Path("~/own.sqlite"), wanted="QV-1202").close()
    with stock_at(Path("~/own.sqlite")) as stock:
        assert stock.texts("QV-1202") is None
