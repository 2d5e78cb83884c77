"""The door of the loader: loads one file into the catalogue, or tells what loading it would do.

Both are one piece of code: a dry run reads, judges and compares just the same, and writes nothing. Loading
writes in one transaction, so that a load is in the catalogue wholly or not at all, whatever happens to the
program or the machine.
"""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from catalogue.sheets.comparing import OWN
from catalogue.sheets.mapping import Mapping
from catalogue.sheets.one_load import NOTHING, Listener, OneLoad, Take
from catalogue.sheets.opening import SheetFile
from catalogue.sheets.outcome import Counts, LoadReport
from catalogue.sheets.typed_keys import fill_typed_keys
from catalogue.store import all_or_nothing, location, memory_store, open_store


class _NothingToKeep(Exception):
    """Ends the transaction of a load that changes nothing, so that it leaves no trace."""


def load_sheet(
    catalogue: Path | str | None,
    file: SheetFile,
    mapping: Mapping,
    *,
    own_parts: bool = False,
    apply: bool = False,
    take: Take = NOTHING,
    expected: Counts | None = None,
    listener: Listener | None = None,
) -> LoadReport:
    """Load a sheet by a mapping, or without ``apply`` tell what that would do.

    ``own_parts`` loads a list of the workshop's own parts, without offers. ``take`` names what would be kept
    back and is meant. ``expected`` are the counts that a person agreed to: if the same load counts otherwise
    now, since the catalogue changed in the meantime, nothing is written. Raises InputError for a sheet that
    the mapping does not fit, StoreError where the catalogue refuses; in both cases nothing was changed.
    """
    load = OneLoad(
        file,
        mapping,
        OWN if own_parts else mapping.supplier,
        take=take,
        listener=listener or Listener(),
    )
    path = location(catalogue)
    if not apply and not path.exists():
        with closing(memory_store()) as empty:
            return load.look(empty)
    fill_typed_keys(path)
    if not apply:
        with closing(open_store(path)) as reader:
            return load.look(reader)
    try:
        with (
            closing(open_store(path, write=True)) as db,
            all_or_nothing(db),
            closing(open_store(path)) as reader,
        ):
            report = load.apply(reader, db.conn, expected)
            if not report.applied:
                raise _NothingToKeep
    except _NothingToKeep:
        pass
    return report
