"""The pressure a place was judged at, against the highest that its gas chamber reaches."""

from __future__ import annotations

import math

from schema.finding import Finding, Status
from schema.fit import Fit
from schema.reference import Reference
from schema.unit import Unit


def told_pressures(unit: Unit, reference: Reference) -> list[Finding]:
    """Was every gland that names a gas chamber judged at the highest pressure of that chamber?"""
    findings = []
    chambers = {one.name: one.question for one in unit.entries if isinstance(one.question, Fit)}
    for entry in unit.entries:
        chamber = chambers.get(entry.place.loaded_by)
        told = entry.service.pressure
        if chamber is None or isinstance(entry.question, Fit) or told is None:
            continue
        from fitcheck.gas.highest import highest_pressure

        highest = highest_pressure(chamber, reference)
        if highest is None:
            continue
        findings.append(_finding(entry.name, entry.place.loaded_by, told.gauge_mpa, told.text, highest.high))
    return findings


def _finding(place: str, chamber: str, told_mpa: float, text: str, highest_mpa: float) -> Finding:
    enough = highest_mpa <= told_mpa
    shown = f"{math.ceil(highest_mpa * 100.0) / 100.0:.2f} MPa"  # upwards: what is advised must be enough
    return Finding(
        rule="pressure_told",
        quantity=f"pressure that {place} was judged at",
        status=Status.FITS if enough else Status.NOT_PROVEN,
        unit="MPa",
        low=told_mpa,
        middle=told_mpa,
        high=told_mpa,
        meaning="at least the highest that the gas reaches"
        if enough
        else "the gas reaches more than the place was judged at: its verdict does not cover that",
        action="" if enough else f"Give the place {shown} or more as its pressure.",
        reason="" if enough else f"{text} told, {chamber} reaches {shown} gauge at its worst",
        source="pressure of the gas at full stroke and at the hot end, worked out in this check",
        grade="derived",
    )
