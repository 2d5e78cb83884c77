"""What damper oil and body metal do in the heat and under pressure, and the limits of a gas chamber."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from schema.finding import Limits
from schema.tables import rows


class Spread(NamedTuple):
    """A published figure with both ends of its spread."""

    low: float
    high: float
    unit: str
    source: str
    grade: str


@cache
def spread(quantity: str, of: str) -> Spread | None:
    """The spread of a quantity of a fluid or metal; None where no figure was found.

    >>> spread("expansion", "mineral_oil").high
    0.0009
    """
    for row in rows("damper_oil"):
        if (row["quantity"], row["of"]) == (quantity, of):
            return Spread(float(row["low"]), float(row["high"]), row["unit"], row["source"], row["grade"])
    return None


@cache
def gas_limits(rule: str) -> Limits:
    """The limits of a quantity of a gas chamber.

    >>> gas_limits("travel_left_hot").low
    1.0
    """
    row = next(row for row in rows("gas_limits") if row["rule"] == rule)

    def value(name: str) -> float | None:
        return float(row[name]) if row[name] else None

    return Limits(
        value("low"),
        value("high"),
        row["unit"],
        "worst_case",
        row["guidance"],
        f"{row['source']}, {row['locator']}" if row["locator"] else row["source"],
        row["grade"],
        value("refuse_low"),
        value("refuse_high"),
        scale=float(row["scale"]),
        note=row["note"],
        refuse_source=row["refuse_source"],
        refuse_grade=row["refuse_grade"],
    )
