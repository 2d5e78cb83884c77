"""The highest pressure a valve or a port must bear, and where it is taken from."""

from __future__ import annotations

from decimal import Decimal

from schema.amounts import Amount
from schema.fit import Fit
from schema.reference import Reference


def highest_on(fit: Fit, reference: Reference) -> tuple[Amount | None, str]:
    """The highest gauge pressure on a place, with the words that tell its origin.

    That of the gas chamber it names, hot and at full stroke; else the pressure told for the place.
    """
    chamber = fit.neighbours.get(fit.place.loaded_by) if fit.place.loaded_by else None
    if chamber is not None:
        from fitcheck.gas.highest import highest_pressure

        found = highest_pressure(chamber, reference)
        if found is None:
            why = "it is not told whole, or its oil may lock"
            return None, f"no highest pressure of {fit.place.loaded_by} is known: {why}"
        low, middle, high = (Decimal(repr(float(one))) for one in found)
        told = f"highest pressure {float(high):.3g} MPa gauge: {fit.place.loaded_by} at full stroke and hot"
        text = f"{float(low):.3g}..{float(high):.3g} MPa"
        return Amount(middle, low, high, text, "MPa", source="gas chamber"), told
    service = fit.service.pressure
    if service is None:
        return None, ""
    value = Decimal(repr(service.gauge_mpa))
    told = f"{service.text} as the highest pressure, hot and at full stroke; a charge alone is less"
    return Amount(value, value, value, service.text, "MPa"), told
