"""One load, from the first pass over the file to the last count."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from catalogue.digests import digest_of
from catalogue.sheets.beforehand import seen_before, tables_to_load
from catalogue.sheets.cells import plain
from catalogue.sheets.codes import core, folded
from catalogue.sheets.collecting import no_collecting
from catalogue.sheets.comparing import OWN, Changed, Comparing, New
from catalogue.sheets.keeping import begin_load, end_load
from catalogue.sheets.kept import kept_text
from catalogue.sheets.known import Known, KnownOffer
from catalogue.sheets.mapping import Mapping
from catalogue.sheets.opening import SheetFile
from catalogue.sheets.outcome import MOST_SHOWN, Counts, LoadReport, TableNote, doubtful_problems
from catalogue.sheets.problems import Problem, Refused
from catalogue.sheets.proposals import proposals
from catalogue.sheets.row_digests import context_of
from catalogue.sheets.rows import Row, RowReader, Rows
from catalogue.sheets.scanning import Marks, Scanned, Standing, scan, standing
from catalogue.sheets.successors import Successors
from catalogue.sheets.tables import Batch
from catalogue.sheets.writing import Writer
from schema.errors import InputError, StoreError
from schema.tables import FOLDER as PUBLISHED

_SIZES = re.compile(r"\d\s*[x×/]\s*\d")
BATCH = 2000  # rows that are read, judged and written at a time
# So large a share of a whole range may go at once; a wrong file would take it all. Own judgement, no source.
MOST_GONE = 0.2
FEW = 3
MOST_LOOKED_FOR = (
    50_000  # offers that a sheet of some does not have, among which a misspelt code is looked for
)


class Listener:
    """Is told what happens while a load runs; the methods do nothing unless they are replaced."""

    wants_changes = False  # whether ``changes`` is to be called, for every row of a first sheet

    def progress(self, step: str, share: float) -> None:
        """How far a step is, 0 to 1."""

    def refused(self, row: Refused) -> None:
        """A row that was refused or kept back."""

    def changes(self, row: New | Changed) -> None:
        """A row that changes something."""


class Take(NamedTuple):
    """What a person says is meant though it is doubtful: rows of some codes, what is gone, everything."""

    codes: frozenset[str] = frozenset()  # in small letters
    gone: bool = False
    all: bool = False


NOTHING = Take()


class _Judged(NamedTuple):
    """The rows of one batch by what they are; refused ones by their place in the batch."""

    new: list[New]
    changed: list[Changed]
    refused: dict[int, Refused]


class OneLoad:
    """Reads, judges and compares every row of a file; ``look`` writes nothing, ``apply`` what it found."""

    known: Known
    comparing: Comparing
    writer: Writer | None = None

    def __init__(
        self,
        file: SheetFile,
        mapping: Mapping,
        supplier: str,
        *,
        take: Take,
        listener: Listener,
    ) -> None:
        self.file, self.mapping, self.supplier = file, mapping, supplier
        self.take, self.listener = take, listener
        self.mapping_text = kept_text(mapping)
        self.published = digest_of(sorted(PUBLISHED.glob("*.csv")))
        self.context = context_of(self.mapping_text, self.published)
        self.counts = dict.fromkeys(Counts._fields, 0)
        self._perhaps_on_it: set[str] = set()  # codes that the sheet may have in another spelling
        self.report = LoadReport(
            supplier, file.name, file.sha256, file.encoding, file.encoding_why, mapping.covers
        )

    def look(self, reader: sqlite3.Connection) -> LoadReport:
        """Tell what the load would do."""
        self._open(reader)
        with no_collecting():
            self._pass(self._scans())
        return self.report

    def apply(
        self, reader: sqlite3.Connection, connection: sqlite3.Connection, expected: Counts | None
    ) -> LoadReport:
        """Write what the load brings, within the caller's transaction; ``applied`` tells whether anything."""
        self._open(reader)
        scans = self._scans()
        self.writer = Writer(
            connection,
            load=begin_load(connection, self.report, mapping=self.mapping_text, context=self.context),
            supplier=self.supplier,
            decimal=self.mapping.decimal,
        )
        todo = sum(int(one.fresh.sum()) for one in scans)
        with self.writer.many(todo), no_collecting():
            taken = self._pass(scans)
        report = self.report
        if expected is not None and expected != report.counts:
            raise StoreError("the catalogue was changed in the meantime; nothing was loaded, look again")
        if report.counts.changes or not report.same_as:
            self.writer.finish()
            end_load(connection, self.writer.load, report.counts, zip(scans, taken, strict=True))
            report.load, report.applied = self.writer.load, True
        return report

    def _open(self, reader: sqlite3.Connection) -> None:
        self.known = Known(reader, self.supplier)
        self.comparing = Comparing(self.known, self.mapping)
        same = self.known.rows(
            "SELECT max(load) FROM load"
            " WHERE file_sha256 = ? AND context = ? AND coalesce(supplier, '') = ? COLLATE NOCASE"
            " AND undone_at IS NULL",
            self.file.sha256,
            self.context,
            self.supplier,
        )
        self.report.same_as = same[0][0] or 0
        # a workbook that borebook wrote holds the sheets of several suppliers
        whatever = self.take.all or self.mapping.texts == "as_kept"
        self.report.notes += seen_before(self.known, self.file.sha256, self.supplier, whatever=whatever)

    # -- the passes ---------------------------------------------------------------------------------

    def _scans(self) -> list[Standing]:
        offers, digests = self.known.digests()
        known = np.array(digests, dtype=np.int64)
        self._offers = np.array(offers, dtype=np.int64)
        self._digests = known
        scans: list[Scanned] = []
        fitting, skipped = tables_to_load(self.file, self.mapping, own_parts=self.supplier == OWN)
        self.report.tables += skipped
        for table in fitting:
            reader = RowReader(self.mapping, table.sheet, table.header)
            scans.append(
                scan(
                    table,
                    reader,
                    self.published,
                    lambda share: self.listener.progress("looking through", share),
                )
            )
        if not any(len(one.numbers) for one in scans):
            raise InputError(
                field=self.file.name,
                given="",
                problem="the sheet has a header and no row of data",
                allowed="a sheet with articles; nothing is withdrawn because of an empty one",
            )
        return standing(scans, known)

    def _pass(self, scans: list[Standing]) -> list[Marks]:
        """Judge the rows of every table; which of them the catalogue agrees with afterwards."""
        if self.supplier == OWN:
            self.comparing.successors = Successors(self.known, self._readable(scans))
        self._codes_not_there(scans)
        gone = self._not_on_sheet(scans)
        self.comparing.gone = {core(one.code): one for one in gone}
        taken = [self._table(one) for one in scans]
        _forget_repeats(scans, taken)
        if self.mapping.covers == "whole_range":
            self._withdraw([one for one in gone if one.code not in self._perhaps_on_it])
        self.report.counts = Counts(**self.counts)
        self.report.proposals = proposals(self.report.new, self.report.missing)
        return taken

    def _readable(self, scans: list[Standing]) -> Iterator[Row]:
        """The rows of every table that can be read, whatever is judged of them afterwards."""
        for table in scans:
            start = 0
            for batch in table.table.batches(BATCH):
                fresh = np.flatnonzero(table.fresh[start : start + len(batch.numbers)]).tolist()
                start += len(batch.numbers)
                if fresh:
                    yield from table.reader.read(
                        [batch.numbers[at] for at in fresh],
                        [batch.rows[at] for at in fresh],
                        [0] * len(fresh),
                    ).taken

    def _table(self, table: Standing) -> Marks:
        taken = np.ones(len(table.digests), dtype=bool)
        left_out: list[tuple[int, str, str]] = []
        start = blank = 0
        for batch in table.table.batches(BATCH):
            left_out += [
                (one.row, one.why, " | ".join(filter(None, map(plain, one.cells)))) for one in batch.left_out
            ]
            for row, one in sorted(self._batch(table, batch, start).items()):
                taken[start + row] = False
                self._refuse(one)
            start += len(batch.numbers)
            blank += batch.blank
            self.listener.progress("reading", batch.done)
        note = TableNote(table.table.sheet, table.table.header_row, start, blank, tuple(left_out))
        self.report.tables.append(note)
        return taken

    def _batch(self, table: Standing, batch: Batch, start: int) -> dict[int, Refused]:
        """Judge and take the rows of one batch; the refused ones by their place in it."""
        counts, count = self.counts, len(batch.numbers)
        part = slice(start, start + count)
        refused = {
            row: Refused(
                table.table.sheet, batch.numbers[row], batch.rows[row], _at_odds(table.at_odds[start + row])
            )
            for row in np.flatnonzero(table.odd[part]).tolist()
        }
        wanted = np.flatnonzero(table.fresh[part]).tolist()
        repeated = int(table.repeat[part].sum())
        counts["rows"] += count
        counts["repeated"] += repeated
        counts["unchanged"] += count - len(wanted) - repeated - len(refused)
        if wanted:
            digests = table.digests[part]
            whole = len(wanted) == count
            judged = self._judge(
                table.reader.read(
                    batch.numbers if whole else [batch.numbers[row] for row in wanted],
                    batch.rows if whole else [batch.rows[row] for row in wanted],
                    digests[wanted].tolist(),
                ),
                wanted,
            )
            refused |= judged.refused
            self._take(judged.new, judged.changed)
        return refused

    def _judge(self, read: Rows, wanted: list[int]) -> _Judged:
        """Hold the rows that were read against the catalogue; ``wanted`` are their places in the batch."""
        judged = _Judged([], [], {wanted[at]: one for at, one in read.refused.items()})
        self.counts["left_out"] += len(read.left_out)
        for row in read.taken:
            if row.article.remarks:
                self.report.remarks.update(row.article.remarks)
            if not row.article.dimensions and _SIZES.search(row.terms.description):
                self.report.remarks["sizes in the description were not read; look at what was"] += 1
            if row.terms.price is None and row.terms.price_text:
                self.report.remarks[f"no price, the sheet says: {row.terms.price_text}"] += 1
        compared = self.comparing.compare(read.taken)
        self.counts["unchanged"] += len(read.taken) - len(compared)
        judged.new.extend(
            [one for one in compared if type(one) is New and not (one.doubts and self._kept_back(one))]
        )
        if len(judged.new) == len(compared):
            return judged
        places = {row.number: wanted[at] for row, at in zip(read.taken, read.places, strict=True)}
        for found in compared:
            if isinstance(found, Refused):
                judged.refused[places[found.number]] = found
            elif found.doubts and self._kept_back(found):
                row = found.row
                _keep(self.report.doubtful, found)
                if isinstance(found, New) and found.was is not None:
                    self._perhaps_on_it.add(found.was.code)
                judged.refused[places[row.number]] = Refused(
                    row.sheet, row.number, row.cells, doubtful_problems(found), row.terms.code, doubtful=True
                )
            elif isinstance(found, Changed):
                judged.changed.append(found)
        return judged

    def _kept_back(self, found: New | Changed) -> bool:
        """Whether a doubtful row is kept back: nobody said that it is meant."""
        return not (self.take.all or folded(found.row.terms.code) in self.take.codes)

    def _take(self, new: list[New], changed: list[Changed]) -> None:
        counts, report = self.counts, self.report
        counts["new"] += len(new)
        counts["new_parts"] += sum([one.makes_part for one in new])
        report.new += new[: MOST_SHOWN - len(report.new)]
        if self.listener.wants_changes:
            for one in new:
                self.listener.changes(one)
        for change in changed:
            if not change.changes and not change.back:
                counts["respelt"] += 1
                continue
            counts["back" if change.back else "changed"] += 1
            counts["changed_parts"] += change.part is not None and change.part != change.texts
            _keep(report.changed, change)
            if self.listener.wants_changes:
                self.listener.changes(change)
        if self.writer is not None:
            self.writer.add(new)
            self.writer.change(changed)

    def _refuse(self, row: Refused) -> None:
        self.counts["doubtful" if row.doubtful else "refused"] += 1
        if not row.doubtful:
            _keep(self.report.refused, row)
        self.listener.refused(row)
        if self.writer is not None:
            self.writer.refuse(row)

    def _codes_not_there(self, scans: list[Standing]) -> None:
        """Codes that a person said are meant, and that no row has."""
        codes = {int(code) for one in scans for code in one.codes.tolist()} if self.take.codes else set()
        for code in sorted(self.take.codes):
            if hash(code) not in codes:
                self.report.notes.append(
                    f"No row of this sheet has the code {code}; --take goes by whole codes."
                )

    # -- offers that are not on the sheet -----------------------------------------------------------

    def _not_on_sheet(self, scans: list[Standing]) -> list[KnownOffer]:
        """Offers whose code the sheet does not have; [] where it lists some and many are not on it."""
        if not len(self._offers):
            return []
        seen = np.concatenate([one.digests for one in scans])
        unseen = self._offers[~np.isin(self._digests, seen)]
        if self.mapping.covers == "some" and len(unseen) > MOST_LOOKED_FOR:
            return []
        codes = {int(code) for one in scans for code in one.codes[one.fresh | one.odd].tolist()}
        offers = self.known.offers_numbered(unseen.tolist())
        absent = [one for one in offers if hash(folded(one.code)) not in codes]
        if self.mapping.covers == "some":
            self.report.absent = len(absent)
        return absent

    def _withdraw(self, gone: list[KnownOffer]) -> None:
        """What a whole range does not list any more is told, and is not offered any more."""
        self.counts["missing"] = len(gone)
        self.report.missing = gone[:MOST_SHOWN]
        total = len(self._offers)
        many = len(gone) > max(FEW, MOST_GONE * total) or 2 * len(gone) > total
        if many and not (self.take.all or self.take.gone):
            self.report.kept_listed = (
                f"{len(gone)} of {total} offers are not on this sheet, more than a price list usually "
                "drops: they stay listed; if that is meant, load it with --take-gone"
            )
            return
        self.counts["withdrawn"] = len(gone)
        if self.writer is not None and gone:
            self.writer.withdraw(gone)


def _forget_repeats(scans: list[Standing], taken: list[Marks]) -> None:
    """A row that repeats one that was not taken is not taken either."""
    refused = np.concatenate([one.digests[~marks] for one, marks in zip(scans, taken, strict=True)])
    for one, marks in zip(scans, taken, strict=True):
        marks[one.repeat & np.isin(one.digests, refused)] = False


def _keep(shown: list[Any], one: object) -> None:
    if len(shown) < MOST_SHOWN:
        shown.append(one)


def _at_odds(others: str) -> tuple[Problem, ...]:
    return (
        Problem(
            "",
            "",
            f"the same code stands on {others} with something else beside it",
            "keep the one that is right and take the others out",
        ),
    )
