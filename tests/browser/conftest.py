"""Chromium for the tests that open a page: failed where CI is set and it is missing, skipped elsewhere."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

import pytest
from playwright.sync_api import Browser, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-quic",
]


def without_chromium() -> NoReturn:
    """End a test that cannot be run: failed where CI is set, skipped elsewhere."""
    problem = f"{CHROMIUM} is not there: install the package chromium to open the sheets"
    if os.environ.get("CI", "").lower() in ("1", "true", "yes"):
        pytest.fail(problem)
    pytest.skip(problem)


@pytest.fixture(scope="session", name="chromium")
def _chromium() -> Iterator[Browser]:
    """One browser for all tests."""
    if not CHROMIUM.exists():
        without_chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield browser
        browser.close()
