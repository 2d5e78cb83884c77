"""By which printed band the outside of a seal is judged, and the shaft it is marked for."""

from __future__ import annotations

from fitcheck.grades import weakest
from schema.dimension import Dimension
from schema.finding import Limits
from schema.made_for import made_in, step_size
from schema.seal_tables import press_band, shaft_band

TWICE = 2.0  # a press-in above twice the printed one is refused; own judgement, no source


def press_limits(bore: Dimension, case: str) -> Limits | None:
    """The printed band of a case in a bore; where metric or inch is not told, what both allow proves."""
    size = float(step_size(bore))
    found = [band for unit in made_in(bore) if (band := press_band(unit, case, size)) is not None]
    if not found:
        return None
    return Limits(
        max(band.low for band in found),
        min(band.high for band in found),
        "mm",
        "worst_case",
        f"press-in of a seal, {case.replace('_', ' ')}",
        "; ".join(dict.fromkeys(band.source for band in found)),
        weakest(*(band.grade for band in found)),
        0.0,
        TWICE * max(band.high for band in found),
        note="a figure of rotary seals; used for the press-in alone",
        refuse_source="geometry below 0; above twice the printed band own judgement, no source",
        refuse_grade="own_judgement",
    )


def mark_limits(marked: Dimension) -> Limits | None:
    """Rods f8 to h prove; a shaft beyond what even rotary seals allow refutes."""
    size = float(step_size(marked))
    found = [band for unit in made_in(marked) if (band := shaft_band(unit, size)) is not None]
    if not found:
        return None
    loosest = min(found, key=lambda band: band.rotary_low_mm)
    return Limits(
        loosest.rod_low_mm,
        0.0,
        "mm",
        "worst_case",
        "rods from h to f8",
        "common practice, no source: rods and stanchions are ground f7, f8 or h8; deviations of ISO 286-2",
        "common_practice",
        loosest.rotary_low_mm,
        -loosest.rotary_low_mm,
        refuse_source=f"{loosest.source}; above the mark by as much, own judgement",
        refuse_grade=loosest.grade,
    )
