"""The units of the demo as built from a catalogue, and the rebuild sheet of each."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from catalogue.rebuild_sheet.places import Extent
from catalogue.seed import load_seed
from catalogue.store import open_store
from catalogue.texts import unit_texts
from fitcheck.unit.check import check_unit
from schema.reference import published_reference
from schema.unit import Unit, unit_from
from schema.unit_verdict import UnitVerdict
from tests.command import UNIT_PATHS

NAMES = tuple(path.stem for path in UNIT_PATHS)
MADE_ON = date(2026, 11, 25)
SHEET_NUMBER = "2026-042"
EXTENTS: tuple[Extent, ...] = ("whole", "working")


class Demo(NamedTuple):
    """A unit of the demo with its verdict, its whole sheet and its working sheet."""

    unit: Unit
    verdict: UnitVerdict
    html: str
    working: str


@cache
def demo(name: str) -> Demo:
    """A unit of the demo, checked as drawn."""
    from catalogue.rebuild_sheet import rebuild_sheet

    unit = unit_from(_texts()[name])
    verdict = check_unit(unit, published_reference())
    whole, working = (
        rebuild_sheet(
            unit,
            verdict,
            published_reference(),
            made_on=MADE_ON,
            sheet_number=SHEET_NUMBER,
            extent=extent,
        )
        for extent in EXTENTS
    )
    return Demo(unit, verdict, whole, working)


@cache
def _texts() -> dict[str, dict[str, object]]:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "demo.sqlite"
        with closing(open_store(path, write=True)) as made:
            load_seed(made)
        with closing(sqlite3.connect(path)) as connection:
            return {name: dict(unit_texts(connection, name)) for name in NAMES}
