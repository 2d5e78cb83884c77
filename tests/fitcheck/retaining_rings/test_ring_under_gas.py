"""A ring that a gas chamber of the unit pushes on is held against the highest pressure of that chamber."""

from __future__ import annotations

import math

import pytest

from fitcheck.check import check
from fitcheck.gas.highest import highest_pressure
from schema.chambers import GasChamber
from schema.fields import read_model
from schema.finding import Status, Verdict
from schema.fit import Fit
from schema.reference import published_reference
from schema.service import Service
from tests.fitcheck.gas.chambers import RESERVOIR, SERVICE, SHORT
from tests.fitcheck.retaining_rings.conftest import fit_of


def chamber(texts: dict[str, str]) -> Fit:
    """A gas chamber with its service."""
    return Fit(
        place=read_model(GasChamber, {**texts, "place": "reservoir"}, path="place"),
        service=read_model(Service, SERVICE, path="service"),
    )


def under(gas: Fit) -> Verdict:
    """The fitting ring, told a pressure of 0.1 MPa, under that gas."""
    fit = fit_of({"loaded_by": "reservoir"}, None, {"pressure": "0.1 MPa"})
    return check(fit.changed(neighbours={"reservoir": gas}), published_reference())


def test_the_pressure_of_the_chamber_leads_over_the_one_told() -> None:
    """Thrust and factor follow from the chamber at full stroke and hot, not from the 0.1 MPa told."""
    gas = chamber(RESERVOIR)
    highest = highest_pressure(gas, published_reference())
    assert highest is not None
    verdict = under(gas)
    told = {one.rule: one.high for one in verdict.told}
    assert told["ring_thrust"] == pytest.approx(highest.high * math.pi * 36.025**2 / 4, rel=1e-6)
    found = verdict.of("ring_load_factor")
    assert found is not None
    assert found.low == pytest.approx(6400.0 / told["ring_thrust"], rel=1e-6)
    assert any("reservoir at full stroke and hot" in one for one in verdict.taken)


def test_full_stroke_and_heat_are_several_times_the_charge() -> None:
    """A charge of 1.0 MPa reaches more than twice that, and the ring is judged by it."""
    highest = highest_pressure(chamber(RESERVOIR), published_reference())
    assert highest is not None
    assert highest.high > 2.0


def test_a_chamber_that_may_lock_leaves_the_ring_not_proven() -> None:
    """Hydraulic lock has no pressure: the ring is open, and the pressure told does not step in for it."""
    gas = chamber(SHORT)
    assert highest_pressure(gas, published_reference()) is None
    verdict = under(gas)
    found = verdict.of("ring_load_factor")
    assert verdict.status is Status.NOT_PROVEN
    assert found is not None
    assert any("may lock" in one for one in found.lacks)
