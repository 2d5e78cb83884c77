"""The pressure that a place was judged at, against the highest of its gas."""

from __future__ import annotations

import re

import pytest

from fitcheck.unit.pressures import _finding
from schema.finding import Status


@pytest.mark.parametrize("highest", [2.6835, 2.68, 2.6801, 11.999])
def test_the_pressure_that_is_advised_is_enough(highest: float) -> None:
    """Rounded upwards: whoever gives what is asked for has settled it."""
    open_one = _finding("res", "gas", 1.0, "1 MPa", highest)
    assert open_one.status is Status.NOT_PROVEN
    told = re.search(r"([\d.]+) MPa", open_one.action)
    assert told
    assert _finding("res", "gas", float(told[1]), f"{told[1]} MPa", highest).status is Status.FITS
    assert float(told[1]) - highest < 0.01
