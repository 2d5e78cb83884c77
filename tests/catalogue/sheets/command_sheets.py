"""Sheets for the tests of the command line, and where their loads leave what."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.catalogue.sheets.small_loads import rows
from tests.command import Ran

Run = Callable[..., Ran]
HEADER = "Code,Description,Kind,ID (mm),CS (mm),Material,Shore A,Price EUR"
A = "A-1,O-ring small,o_ring,301,3.5,NBR,70,1.00"
B = "B-2,O-ring middle,o_ring,302,3.5,NBR,70,2.00"
BAD = "C-3,O-ring big,o_ring,303,3.5,NBR,70,free"
KOLBRING = ("--supplier", "Kolbring")


@pytest.fixture(name="run")
def run_on_shop(shop: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> Run:
    """The command on a demo catalogue of the test's own."""
    monkeypatch.setenv("BOREBOOK_CATALOGUE", str(shop))
    return run


@pytest.fixture(name="sheet")
def sheet_of_lines(tmp_path: Path) -> Callable[..., str]:
    """Writes a sheet of these lines; its name."""

    def write(*lines: str, name: str = "prices.csv", header: str = HEADER) -> str:
        path = tmp_path / name
        path.write_text("\n".join([header, *lines, ""]), encoding="utf-8")
        return str(path)

    return write


def kept_mapping(shop: Path) -> Path:
    """The file of what the supplier's columns are."""
    return shop.with_name("shop.suppliers") / "Kolbring.yaml"


def offered_codes(shop: Path) -> list[str]:
    """The codes of all offers."""
    return [code for (code,) in rows(shop, "SELECT code FROM offer ORDER BY code")]
