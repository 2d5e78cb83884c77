"""The words of a bushing's findings: what each is called, what it means, what to do about it."""

from __future__ import annotations

from fitcheck.words import Words

_TIGHTER = "A bushing of larger outside diameter, or a housing brought back to size."
_LOOSER = "Measure housing and bushing before pressing; never ream a porous bushing to size."

WORDS: dict[str, Words] = {
    "housing_size": Words(
        "housing bore for a wrapped bushing",
        "",
        ("housing_bore",),
        "the housing is of the class the bushing is made for",
        "a tight housing closes the bore in: the shaft may not enter",
        "a wide housing holds the bushing too little: it walks out or turns",
        "Measure the housing by bore gauge, bushing out.",
        "Repair the housing, or ask the maker for an oversize bushing.",
    ),
    "seat_interference": Words(
        "interference in the seat as assembled",
        "seat_interference",
        ("bushing_outside_diameter", "housing_bore"),
        "the bushing is held",
        "the bushing may be loose in its seat: it walks out or turns",
        "more interference than the maker allows",
        _TIGHTER,
        _LOOSER,
    ),
    "cold_interference": Words(
        "interference in the seat at the cold end",
        "seat_interference",
        ("bushing_outside_diameter", "housing_bore"),
        "the bushing stays held in the cold",
        "the bushing may shrink loose in the cold",
        raise_it=_TIGHTER + " A service that ends less cold helps too.",
    ),
    "hot_interference": Words(
        "interference in the seat at the hot end",
        "seat_interference",
        ("bushing_outside_diameter", "housing_bore"),
        "the bushing stays held in the heat",
        "the housing may grow away from the bushing in the heat",
        raise_it=_TIGHTER + " A service that ends less hot helps too.",
    ),
    "seat_stress": Words(
        "stress in the housing at its bore, at the most of the service",
        "hub_yield_stress",
        ("housing_bore", "housing_outside_diameter"),
        "the housing stays elastic",
        too_high="the housing may yield at its bore: it holds less the next time",
        lower_it="Less interference, or a housing with more metal around the seat.",
    ),
    "fitted_bore": Words(
        "bore after fitting",
        "pressed_bore",
        ("bushing_bore",),
        "the bore is of the class that the standard has after fitting",
        "the bore is closer than the standard has after fitting",
        "the bore is wider than the standard has after fitting",
        "Size it with a pin of the maker's; never ream a porous bushing.",
        "Measure the bore after pressing.",
    ),
    "running_clearance": Words(
        "running clearance as fitted",
        "running_clearance",
        ("fitted_bore", "shaft_diameter"),
        "the shaft runs with the clearance its maker allows",
        "too close: it drags, or the shaft does not enter",
        "too loose: it knocks, and the seal beside it works off centre",
        "Measure the bore after pressing, in two planes and three directions.",
        "Renew the bushing; measure the shaft too.",
    ),
    "cold_clearance": Words(
        "running clearance at the cold end",
        "running_clearance",
        ("fitted_bore", "shaft_diameter"),
        "the shaft runs free in the cold",
        "the housing may close on the shaft in the cold: it drags or seizes",
        raise_it="More clearance, or a service that ends less cold.",
    ),
    "hot_clearance": Words(
        "running clearance at the hot end",
        "running_clearance",
        ("fitted_bore", "shaft_diameter"),
        "the shaft runs free in the heat",
        "the bushing may close on the shaft in the heat: it drags or seizes",
        raise_it="More clearance, or a service that ends less hot.",
    ),
    "seat_room": Words(
        "room for the bushing along its seat",
        "seat_room",
        ("seat_length", "bushing_length"),
        "the bushing lies within its seat",
        "the bushing may stand proud of its seat",
        raise_it="A shorter bushing; compare with the maker's drawing.",
    ),
    "shaft_wear": Words(
        "shaft against its wear limit",
        "",
        ("shaft_diameter",),
        "the shaft is above the maker's wear limit",
        "the shaft is worn out",
        raise_it="Renew the shaft.",
    ),
    "bore_wear": Words(
        "fitted bore against its wear limit",
        "",
        ("fitted_bore",),
        "the bore is below the maker's wear limit",
        too_high="the bushing is worn out",
        lower_it="Renew the bushing.",
    ),
}
