"""The words of findings on eyelets and their bearings."""

from __future__ import annotations

from fitcheck.words import Words

_NARROWER, _WIDER = "Narrower hardware for this frame.", "Wider hardware for this frame."

WORDS: dict[str, Words] = {
    "side_gap": Words(
        "play between the hardware and the tabs",
        "side_gap",
        ("mount_width",),
        "the hardware goes between the tabs with the play wanted",
        "the hardware is wider than the gap leaves: the tabs are spread",
        "the eyelet can wander between the tabs, or the bolt bends them",
        _NARROWER,
        _WIDER + " Give the play that the maker allows (side_play), if this is right.",
    ),
    "eyelet_float": Words(
        "float of the eyelet between what the bolt clamps",
        "eyelet_float",
        ("eyelet_width",),
        "the eyelet turns: the bolt clamps the pin and not the eyelet",
        "the bolt clamps the eyelet: it does not turn freely",
        "",
        "A longer pin or thinner washers; never file the eyelet.",
    ),
    "spigot_room": Words(
        "room between the spigots of the reducers",
        "spigot_room",
        ("eyelet_width", "reducer_length"),
        "the flanges reach the eyelet before the spigots meet",
        "the spigots meet inside: the clamp goes through them and side play stays",
        "",
        "Reducers with shorter spigots.",
    ),
    "bolt_clearance": Words(
        "clearance of the bolt in its hardware",
        "bolt_clearance",
        ("bolt_diameter",),
        "the bolt goes through",
        "the bolt does not go through",
        "the hardware is made for a thicker bolt",
        "Hardware for this bolt.",
        "Hardware for this bolt.",
    ),
    "bearing_seat": Words(
        "clearance of the bearing in the eyelet",
        "bearing_clearance",
        ("eyelet_bore", "bearing_outside_diameter"),
        "a seat as the trade makes it for such a bearing",
        "tighter than the trade makes such a seat: the bearing may bind or break",
        "looser than the trade makes such a seat: the bearing knocks and wears the eyelet",
        "A bearing that measures smaller, or the eyelet's own; do not force it.",
        "Measure the eyelet: a worn seat is not mended by a new bearing.",
    ),
    "bearing_on_pin": Words(
        "clearance of the bearing on its pin or bolt",
        "bearing_clearance",
        ("bearing_inside_diameter",),
        "a seat as the trade makes it for such a bearing",
        "tighter than the trade makes such a seat: the bearing may bind",
        "looser than the trade makes such a seat: the joint knocks",
        "A pin that measures smaller.",
        "A pin that measures larger; a plain bolt may be too thin.",
    ),
    "washer_clearance": Words(
        "clearance of the washers on the pin",
        "bolt_clearance",
        (),
        "the washers go over the pin",
        "the washers do not go over the pin",
        "",
        "Washers for this pin.",
    ),
    "bush_room": Words(
        "room for the bushes along the eyelet",
        "eyelet_float",
        ("eyelet_width",),
        "the bushes go in between the faces of the eyelet",
        "the bushes stand out of the eyelet",
        "",
        "Shorter bushes.",
    ),
    "bearing_room": Words(
        "room for the bearings along the eyelet",
        "eyelet_float",
        ("eyelet_width",),
        "the bearings go in between the faces of the eyelet",
        "the bearings stand out of the eyelet",
        "",
        "Narrower bearings: the number of some does not fix their width.",
    ),
}
