"""The words of findings on threads, screws and valves."""

from __future__ import annotations

from fitcheck.words import Words

_ENGAGED = ("length_under_the_head", "thread_depth")

WORDS = {
    "pitch_clearance": Words(
        "play between the pitch diameters",
        "pitch_clearance",
        ("internal_pitch_diameter", "external_pitch_diameter"),
        good="the threads go together with the play of their classes",
        too_low="the threads bind: the external one is larger than the internal one",
        too_high="the threads are worn or stretched: more play than their classes allow",
        raise_it="Clean and gauge both threads.",
        lower_it="Gauge both threads; renew the worn one.",
    ),
    "engagement_in_diameters": Words(
        "engaged length in diameters",
        "engagement_in_diameters",
        _ENGAGED,
        good="enough full threads meet, by the practice of the trade",
        too_low="few full threads meet: it may strip",
        raise_it="A longer one, or give the strength of both metals so that the thread is worked out.",
    ),
    "thread_hold": Words(
        "load that strips the thread, over its load",
        "stripping_load",
        _ENGAGED,
        good="the thread holds more than it is loaded with",
        too_low="the thread strips before it carries its load",
        raise_it="More engaged length, or a lower torque from the maker.",
    ),
    "room_below": Words(
        "thread left below the tip",
        "room_below",
        _ENGAGED,
        good="it seats before it reaches the end of the thread",
        too_low="it reaches the end of the thread before it seats",
        raise_it="A shorter one, or one washer as the maker has it.",
    ),
    "torque_plausible": Words(
        "least preload of the torque, over the proof load",
        "load_share",
        (),
        good="the torque is one this screw can take",
        too_high="even with the most friction this torque stretches the screw for good",
        lower_it="Read the maker's torque again: is the unit right (N m, in-lb, ft-lb)?",
    ),
    "core_pressure": Words(
        "highest pressure on the core",
        "pressure",
        (),
        good="within the rating of the core",
        too_low="what it is rated for, or what it must bear, is not known",
        too_high="more than the core is rated for",
        lower_it="A core that its maker rates for this pressure.",
    ),
    "body_pressure": Words(
        "highest pressure on the valve body",
        "pressure",
        (),
        good="within the rating of the valve body",
        too_low="what it is rated for, or what it must bear, is not known",
        too_high="more than the valve body is rated for",
        lower_it="A valve body that its maker rates for this pressure.",
    ),
    "collar_clearance": Words(
        "room of the collar in its counterbore",
        "diametral_clearance",
        ("counterbore", "collar_diameter"),
        good="the collar enters the counterbore",
        too_low="the collar does not enter the counterbore: it cannot seat",
        raise_it="A valve body with a smaller collar.",
    ),
    "core_room": Words(
        "room below the core",
        "room_below",
        ("core_depth", "core_length"),
        good="the core seats before it touches the floor",
        too_low="the core is too long for its chamber: it does not seat",
        raise_it="The core that belongs to this chamber.",
    ),
    "pin_depth": Words(
        "pin end below the mouth",
        "pin",
        ("pin_below_the_mouth",),
        good="pump and gauge meet the pin as they should",
        too_low="the pin stands proud: a cap or gauge lets gas out",
        too_high="the pin lies too deep: pump and gauge do not open it",
        raise_it="Tighten the core to its torque; else renew it.",
        lower_it="The core that belongs to this chamber.",
    ),
}
