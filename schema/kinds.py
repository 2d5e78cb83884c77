"""Where the model of each kind of part and place lives; a model is imported when its kind is met.

A check of one ring so never pays for the other families.
"""

from __future__ import annotations

from functools import cache
from importlib import import_module

from schema.model import Model

PARTS = {
    "o_ring": "schema.parts:ORing",
    "four_lobed_ring": "schema.parts:FourLobedRing",
    "back_up_ring": "schema.parts:BackUpRing",
    "lip_seal": "schema.seals:LipSeal",
    "wiper": "schema.seals:Wiper",
    "guide_ring": "schema.seals:GuideRing",
    "plain_bushing": "schema.bushings:PlainBushing",
    "retaining_ring": "schema.retaining:RetainingRing",
    "eyelet_hardware": "schema.eyelets:EyeletHardware",
    "valve_core": "schema.valves:ValveCore",
    "valve_fitting": "schema.valves:ValveFitting",
    "screw": "schema.screws:Screw",
    "bearing": "schema.bearings:Bearing",
    "shaft": "schema.shafts:Shaft",
    "piston": "schema.shafts:Piston",
    "fluid": "schema.fluids:Fluid",
}
PLACES = {
    "rod_gland": "schema.places:RodGland",
    "piston_gland": "schema.places:PistonGland",
    "face_gland": "schema.places:FaceGland",
    "wiper_seat": "schema.seals:WiperSeat",
    "guide_ring_groove": "schema.seals:GuideRingGroove",
    "bushing_seat": "schema.bushings:BushingSeat",
    "eyelet": "schema.eyelets:Eyelet",
    "retaining_ring_groove": "schema.retaining:RetainingRingGroove",
    "threaded_port": "schema.screws:ThreadedPort",
    "valve_seat": "schema.valves:ValveSeat",
    "gas_chamber": "schema.chambers:GasChamber",
}

_RINGS = ("o_ring", "four_lobed_ring", "back_up_ring")

# The kinds of parts each kind of place takes; what a place is closed by (a plug, a banjo) may be on its list.
TAKES = {
    "rod_gland": _RINGS,
    "piston_gland": _RINGS,
    "face_gland": (*_RINGS, "screw", "valve_fitting"),
    "wiper_seat": ("wiper", "lip_seal", *_RINGS),
    "guide_ring_groove": ("guide_ring",),
    "bushing_seat": ("plain_bushing",),
    "eyelet": ("eyelet_hardware", "plain_bushing", "bearing", "screw", "o_ring"),
    "retaining_ring_groove": ("retaining_ring",),
    "threaded_port": ("screw", "valve_fitting", *_RINGS),
    "valve_seat": ("valve_core", "valve_fitting", *_RINGS),
    "gas_chamber": ("piston", "fluid", *_RINGS),
}


@cache
def model_of(kind: str) -> type[Model]:
    """The model of a kind of part or place."""
    module, _, name = (PARTS.get(kind) or PLACES[kind]).partition(":")
    found: type[Model] = getattr(import_module(module), name)
    return found
