"""The closed word lists of the catalogue, as the tables' CHECK constraints have them.

Kinds name what a shop stocks and what a unit consists of, also those that no rule checks yet.
Standard library only: the reading path of the command line uses them.
"""

from __future__ import annotations

PART_KINDS = (
    "o_ring",
    "four_lobed_ring",
    "back_up_ring",
    "lip_seal",
    "wiper",
    "guide_ring",
    "plain_bushing",
    "retaining_ring",
    "eyelet_hardware",
    "valve_core",
    "valve_fitting",
    "screw",
    "bearing",
    "shaft",
    "piston",
    "fluid",
)
PLACE_KINDS = (
    "rod_gland",
    "piston_gland",
    "face_gland",
    "wiper_seat",
    "guide_ring_groove",
    "bushing_seat",
    "eyelet",
    "retaining_ring_groove",
    "threaded_port",
    "valve_seat",
    "gas_chamber",
)
UNIT_KINDS = ("coil_shock", "air_shock", "fork_leg", "fork_damper", "damper")
RENEW = ("always", "inspect")

# Dimensions whose text is not a length; it is kept as it stands.
THREADS = ("thread", "inside_thread")
ROUGHNESS = ("surface_finish_running", "surface_finish_groove")

# Dimensions of the kinds that have no model in schema yet; the models name their own.
PART_LENGTHS = (
    "inside_diameter",
    "outside_diameter",
    "cross_section",
    "width",
    "radial_thickness",
    "thickness",
    "length",
    "bore_diameter",
    "shaft_diameter",
    "wire_diameter",
    "bolt_diameter",
)
PLACE_LENGTHS = (
    "bore",
    "bore_diameter",
    "counterbore",
    "depth",
    "groove_diameter",
    "groove_width",
    "housing_bore",
    "seat_depth",
    "seat_length",
    "shaft_diameter",
    "width",
)
