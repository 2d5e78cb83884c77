"""By what the hardware of an eyelet is judged: its own geometry, and the play that the maker allows."""

from __future__ import annotations

from schema.eyelet_tables import eyelet_limits
from schema.eyelets import Eyelet
from schema.finding import Limits


def gap_limits(place: Eyelet) -> Limits:
    """Side play as the maker allows it; else what the trade does, which proves nothing."""
    if place.side_play is None:
        return eyelet_limits()["side_gap"]
    return Limits(
        float(place.side_play.lower),
        float(place.side_play.upper),
        "mm",
        "worst_case",
        "as given",
        f"side play as given for this place: {place.side_play.text}",
        "given",
        refuse_low=0.0,
    )
