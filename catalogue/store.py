"""Opens the catalogue: one SQLite file, read-only unless asked, checked to be ours and not newer.

Reading uses the standard library only, since every command waits for it. Writing goes through
sqlite-utils: missing steps of ``catalogue.migrations`` are applied first, and a change is made within
``all_or_nothing``, so that a fault or a power cut leaves the file as it was.
"""

from __future__ import annotations

import os
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Literal, overload

from schema.errors import StoreError

if TYPE_CHECKING:
    from sqlite_utils import Database

LOCATION_VARIABLE = "BOREBOOK_CATALOGUE"
APPLICATION_ID = 1112494658  # the letters BORB, in the header of the file (SQLite: PRAGMA application_id)
SCHEMA_VERSION = 3  # number of the last step in catalogue.migrations
WAIT_SECONDS = 5.0  # for another program that is writing
OLDEST_SQLITE = (3, 37, 0)  # STRICT tables

_ELSEWHERE = f"or name another file ({LOCATION_VARIABLE})"


def default_location() -> Path:
    """Where the catalogue is: ``BOREBOOK_CATALOGUE``, else this person's data folder."""
    if named := os.environ.get(LOCATION_VARIABLE, "").strip():
        return Path(named).expanduser()
    if sys.platform == "win32":
        own = os.environ.get("LOCALAPPDATA", "")
        folder = Path(own) if own else Path.home() / "AppData" / "Local"
    elif sys.platform == "darwin":
        folder = Path.home() / "Library" / "Application Support"
    else:
        own = os.environ.get("XDG_DATA_HOME", "")
        # a relative path in it is to be ignored (XDG Base Directory Specification)
        folder = Path(own) if own.startswith("/") else Path.home() / ".local" / "share"
    return folder / "borebook" / "catalogue.sqlite"


def location(named: Path | str | None = None) -> Path:
    """The catalogue that was named, its ``~`` written out; without a name the default one."""
    return Path(named).expanduser() if named else default_location()


@overload
def open_store(
    path: Path | str | None = None, *, write: Literal[False] = False, older: bool = False
) -> sqlite3.Connection: ...


@overload
def open_store(path: Path | str | None = None, *, write: Literal[True]) -> Database: ...


@overload
def open_store(path: Path | str | None = None, *, write: bool) -> sqlite3.Connection | Database: ...


def open_store(
    path: Path | str | None = None, *, write: bool = False, older: bool = False
) -> sqlite3.Connection | Database:
    """Open the catalogue at ``path`` or at its default location.

    Read-only: a connection of the standard ``sqlite3`` module; the file must exist, and be of this version
    unless ``older`` says that what is asked of it was there from the first version on. With ``write`` a
    sqlite-utils Database; the file is made if it is missing and brought up to date. The caller closes
    either. Raises StoreError, which says what is wrong, where, and what to do.
    """
    place = location(path)
    if sqlite3.sqlite_version_info < OLDEST_SQLITE:
        raise StoreError(
            f"SQLite {sqlite3.sqlite_version} is too old for the catalogue; "
            f"it needs {'.'.join(map(str, OLDEST_SQLITE))} or newer, so use a newer Python"
        )
    if place.is_dir():
        raise StoreError(
            f"{place} is a folder, not a catalogue file; name a file in it ({LOCATION_VARIABLE})"
        )
    try:
        return _for_writing(place) if write else _for_reading(place, older)
    except (sqlite3.Error, OSError) as error:
        raise _told(error, place) from error


def memory_store() -> sqlite3.Connection:
    """An empty catalogue in memory, for asking what would be if there were one. The caller closes it."""
    from sqlite_utils import Database

    from catalogue.migrations import STEPS

    connection = _connected("file::memory:")
    STEPS.apply(Database(connection))
    return connection


@contextmanager
def all_or_nothing(db: Database) -> Iterator[Database]:
    """One change: everything in the block is kept, or nothing of it.

    Takes the write lock at once, so that two programs wait for each other instead of failing half way.
    """
    try:
        if db.conn.in_transaction:
            with db.atomic():
                yield db
            return
        db.execute("BEGIN IMMEDIATE")
        try:
            yield db
            db.execute("COMMIT")
        except BaseException:
            db.rollback()
            raise
    except sqlite3.Error as error:
        raise _told(error, None) from error


def _for_reading(path: Path, older: bool) -> sqlite3.Connection:
    if not path.exists():
        raise StoreError(
            f"there is no catalogue at {path}; make the demo one with: borebook demo, {_ELSEWHERE}"
        )
    address = path.resolve().as_uri()
    try:
        connection = _connected(f"{address}?mode=ro")
        return _checked(connection, path, older)
    except sqlite3.OperationalError as error:
        if error.sqlite_errorcode & 0xFF not in (sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY):
            raise
        # In WAL mode SQLite wants to make or use two files beside this one. Where the folder does not let
        # it, the file can be read as it stands, but only if no change still waits in the log.
        if _waiting_changes(path):
            raise StoreError(
                f"{path} has changes that are not merged into it yet, and its folder cannot be written; "
                "open it once where the folder can be written, or copy all its files together"
            ) from error
        return _checked(_connected(f"{address}?mode=ro&immutable=1"), path, older)


def _for_writing(path: Path) -> Database:
    path.parent.mkdir(parents=True, exist_ok=True)
    connection = _connected(f"{path.resolve().as_uri()}?mode=rwc")
    try:
        if not _is_empty(connection):
            _known(connection, path)
        from sqlite_utils import Database  # costs more than all of a command's reading

        from catalogue.migrations import STEPS

        connection.execute("PRAGMA journal_mode = WAL")
        db = Database(connection)
        if STEPS.pending(db):
            with all_or_nothing(db):
                STEPS.apply(db)
        return db
    except BaseException:
        connection.close()
        raise


def _connected(uri: str) -> sqlite3.Connection:
    connection = sqlite3.connect(uri, uri=True, timeout=WAIT_SECONDS)
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = ON")
    return connection


def _checked(connection: sqlite3.Connection, path: Path, older: bool) -> sqlite3.Connection:
    """The same connection, once its file is known to be a catalogue that can be read as it is."""
    try:
        version = _known(connection, path)
        if version < SCHEMA_VERSION and not older:
            raise StoreError(
                f"{path} was made by an older version (tables {version}, this program has {SCHEMA_VERSION}); "
                "it is brought up to date by what writes to it: borebook demo, or borebook unit add FILE"
            )
    except BaseException:
        connection.close()
        raise
    return connection


def _known(connection: sqlite3.Connection, path: Path) -> int:
    """The version of the tables; refuses a file that is not a catalogue, or is newer."""
    if _number(connection, "application_id") != APPLICATION_ID:
        raise StoreError(
            f"{path} is not a borebook catalogue and is left alone; name another file ({LOCATION_VARIABLE})"
        )
    version = _number(connection, "user_version")
    if version > SCHEMA_VERSION:
        raise StoreError(
            f"{path} was written by a newer version of borebook (tables {version}, this program has "
            f"{SCHEMA_VERSION}); update borebook, {_ELSEWHERE}"
        )
    return version


def _is_empty(connection: sqlite3.Connection) -> bool:
    return connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0] == 0 and (
        _number(connection, "application_id") == 0
    )


def _number(connection: sqlite3.Connection, pragma: str) -> int:
    return int(connection.execute(f"PRAGMA {pragma}").fetchone()[0])


def _waiting_changes(path: Path) -> bool:
    log = path.with_name(path.name + "-wal")
    return log.exists() and log.stat().st_size > 0


def _told(error: sqlite3.Error | OSError, path: Path | None) -> StoreError:
    """The same fault in words: what, where, how to mend it."""
    where = str(path) if path else "the catalogue"
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    match code:
        case sqlite3.SQLITE_NOTADB:
            return StoreError(
                f"{where} is not a catalogue file (not SQLite); name another file ({LOCATION_VARIABLE})"
            )
        case sqlite3.SQLITE_CORRUPT:
            return StoreError(f"{where} is damaged ({error}); put back your last copy of it")
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return StoreError(f"{where} is being written by another program; try again when it is done")
        case sqlite3.SQLITE_FULL:
            return StoreError(f"{where}: the disk is full, nothing was changed; make room and try again")
        case sqlite3.SQLITE_IOERR:
            return StoreError(
                f"{where} could not be written or read ({error}), nothing was changed; make room on the "
                "disk, or look whether it is still there, and try again"
            )
        case sqlite3.SQLITE_READONLY:
            return StoreError(f"{where} cannot be written; change its permissions, {_ELSEWHERE}")
        case sqlite3.SQLITE_CONSTRAINT:
            return StoreError(f"{where} refuses this change, nothing was changed: {error}")
    return StoreError(f"{where} cannot be used: {error}; check the path and its permissions, {_ELSEWHERE}")
