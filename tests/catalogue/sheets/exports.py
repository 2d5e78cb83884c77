"""Catalogues for the tests of exports, and the way out and back."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from pathlib import Path

from catalogue.rows_written import apply_rows
from catalogue.sheets.choosing import Said, choose
from catalogue.sheets.exporting import offers_sheet, parts_sheet, write_csv
from catalogue.sheets.loading import load_sheet
from catalogue.sheets.opening import open_sheet_file
from catalogue.sheets.outcome import LoadReport
from catalogue.sheets.workbook_writing import write_workbook
from catalogue.store import all_or_nothing, open_store
from catalogue.table_rows import add_part, no_rows
from catalogue.texts import texts_of_parts
from schema.unit_parts import part_from
from tests.command import Ran

Run = Callable[..., Ran]
Texts = Mapping[str, str]
RING = {"kind": "o_ring", "inside_diameter": "12.7 mm", "cross_section": "2.62 mm"}
WIDE = {"code": "C-1", "part_number": "R-1", "price": "0.5", "currency": "EUR", "price_per": 1}
FORMS = ("csv", "xlsx")


def stored(path: Path, parts: Mapping[str, Texts], offers: Sequence[Mapping[str, object]] = ()) -> Path:
    """A catalogue with these parts, and with these offers of Kolbring."""
    tables = no_rows()
    for number, texts in parts.items():
        add_part(tables, texts, part_from(texts, number=number), number=number, source="the test")
    with closing(open_store(path, write=True)) as db, all_or_nothing(db):
        apply_rows(db, tables)
        db.execute(
            "INSERT INTO load (load, supplier, file, file_sha256, loaded_at, covers, mapping, context,"
            " version, counts) VALUES (1, 'Kolbring', 'f', '', '', 'some', '', '', '', '{}')"
        )
        for row, offer in enumerate(offers, start=1):
            told = {"supplier": "Kolbring", "listed": 1, "load": 1, "sheet": "", "row": row, **offer}
            db["offer"].insert(told)
        db.execute(
            "INSERT INTO offer_words (rowid, code, maker_code, description)"
            " SELECT offer, code, maker_code, description FROM offer"
        )
    return path


def exported_here(catalogue: Path, form: str = "csv", supplier: str = "") -> bytes:
    file = io.BytesIO()
    with closing(open_store(catalogue)) as connection:
        sheet = offers_sheet(connection, supplier) if supplier else parts_sheet(connection)
        if form == "csv":
            write_csv(file, sheet)
        else:
            write_workbook(file, [sheet])
    return file.getvalue()


def loaded_here(catalogue: Path, content: bytes, supplier: str = "") -> LoadReport:
    """Load a file without a word about it."""
    with open_sheet_file(io.BytesIO(content), name="given") as file:
        choice = choose(file, supplier or "own parts", catalogue, Said(), own_parts=not supplier)
        assert choice.questions == ()
        assert choice.mapping is not None
        return load_sheet(catalogue, file, choice.mapping, own_parts=not supplier, apply=True)


def texts_here(catalogue: Path) -> dict[str, dict[str, str]]:
    with closing(open_store(catalogue)) as connection:
        numbers = [row[0] for row in connection.execute("SELECT part_number FROM part")]
        return texts_of_parts(connection, numbers)


def sheet_here(*rows: Sequence[str]) -> bytes:
    file = io.StringIO()
    csv.writer(file).writerows(rows)
    return file.getvalue().encode()


def changes_here(report: LoadReport) -> tuple[int, int]:
    """Rows that changed nothing, and all others."""
    counts = report.counts
    return counts.unchanged, counts.rows - counts.unchanged
