"""The limits of eyelet hardware, each with its source, read as they are judged by."""

from __future__ import annotations

from functools import cache

from schema.finding import Limits
from schema.tables import rows


@cache
def eyelet_limits() -> dict[str, Limits]:
    """The limits of ``published/eyelet_limits.csv`` by rule."""
    return {
        row["rule"]: Limits(
            _number(row["low"]),
            _number(row["high"]),
            row["unit"],
            "worst_case",
            "geometry" if row["grade"] == "derived" else "usual play",
            f"{row['source']} ({row['locator']})",
            row["grade"],
            _number(row["refuse_low"]),
            _number(row["refuse_high"]),
            scale=0.2,
            note=row["note"],
            refuse_source=row["refuse_source"],
            refuse_grade=row["refuse_grade"],
        )
        for row in rows("eyelet_limits")
    }


def _number(text: str) -> float | None:
    return float(text) if text else None
