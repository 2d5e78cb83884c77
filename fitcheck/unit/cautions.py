"""Which cautions a unit gives reason for, in the order of the work."""

from __future__ import annotations

from schema.cautions import Caution, cautions
from schema.materials import is_gas
from schema.unit import Unit

SPRUNG = ("coil_shock", "air_shock", "fork_leg")
PRESSED = ("bushing_seat", "eyelet", "wiper_seat", "threaded_port")


def cautions_of(unit: Unit) -> tuple[Caution, ...]:
    """The cautions of a unit; those that it gives no reason for are left out, so that the rest are read."""
    kinds = {one.place.kind for one in unit.entries}
    gas = "gas_chamber" in kinds or any(
        one.service.medium == "gas" or any(map(is_gas, one.service.fluid)) for one in unit.entries
    )
    given = {
        "always": True,
        "springs": unit.head.kind in SPRUNG,
        "gas": gas,
        "retaining_rings": "retaining_ring_groove" in kinds,
        "pressed": bool(kinds & set(PRESSED)),
    }
    return tuple(one for one in cautions() if given[one.where])
