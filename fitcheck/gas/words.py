"""Words of the findings on a gas chamber, and of the values told beside them."""

from __future__ import annotations

from fitcheck.inquiry import Beside
from fitcheck.words import Words

_TRAVEL_NEEDS = ("shaft_diameter", "stroke", "floating_piston_bore", "set_depth", "tube_length")

WORDS: dict[str, Words] = {
    "travel_left_as_set": Words(
        "travel of the floating piston left at full stroke, as set",
        "travel_left",
        _TRAVEL_NEEDS,
        "the piston stays clear of the gas end at the temperature of setting",
        too_low="hydraulic lock where the piston meets the gas end before the stroke is done: oil does not "
        "give way, and no pressure can be told",
        raise_it="Set the piston by the maker's depth: it has to stand farther from the gas end.",
    ),
    "travel_left_hot": Words(
        "travel of the floating piston left at full stroke, hot",
        "travel_left",
        (*_TRAVEL_NEEDS, "oil_volume"),
        "the piston stays clear of the gas end when oil and gas are hot",
        too_low="hydraulic lock where the oil that has grown drives the piston onto the gas end: oil does "
        "not give way, and no pressure can be told",
        raise_it="Set the piston by the maker's depth: it has to stand farther from the gas end.",
    ),
    "oil_side_clearance": Words(
        "way of the floating piston to its stop on the oil side, cold",
        "oil_side_clearance",
        ("oil_side_room", "oil_volume", "floating_piston_bore"),
        "the piston can follow the oil that has shrunk in the cold",
        too_low="where the piston meets its stop in the cold the oil goes to vacuum and cavitates",
        raise_it="Set the piston by the maker's depth: it has to stand nearer to the gas end.",
    ),
    "bladder_room_left": Words(
        "gas in the bladder above its least volume at full stroke, hot",
        "bladder_room_left",
        ("bladder_volume", "bladder_least_volume", "shaft_diameter", "stroke", "oil_volume"),
        "the bladder takes stroke and heat without being squeezed too far",
        too_low="a bladder squeezed beyond its least volume locks the oil in or bursts, and no pressure can "
        "be told",
        raise_it="The bladder, the charge and the oil level that the maker gives.",
    ),
    "low_side_pressure": Words(
        "pressure behind the damping piston (gauge) at its largest force, cold",
        "low_side_pressure",
        ("piston_force", "main_bore_diameter", "shaft_diameter", "charge"),
        "the charge keeps the oil behind the damping piston above the air around",
        too_low="oil below the air around gives off its gas, and near vacuum it cavitates",
        raise_it="A charge high enough within the maker's range, or the base valve that belongs there.",
    ),
    "charge": Words(
        "gas charge (gauge)",
        "gauge_pressure",
        ("charge",),
        "within what the maker allows",
        too_low="below what the maker allows: the damper may cavitate",
        too_high="above what the maker allows: harsh, and more on every ring and cap",
        raise_it="Charge it to the maker's figure, at full extension and at the temperature it names.",
        lower_it="Charge it to the maker's figure, at full extension and at the temperature it names.",
    ),
    "full_stroke_hot_fast": Words(
        "gas pressure at full stroke (gauge), fast, hot",
        "nitrogen_fast_pressure",
        ("charge", *_TRAVEL_NEEDS, "oil_volume"),
        "below what the maker allows",
        too_high="above what the maker allows",
        lower_it="A lower charge within the maker's range, or the piston at the maker's depth.",
    ),
}

_HOW = {"slow": "at one temperature", "fast": "no heat lost; what happens lies between slow and fast"}
_STATES = (("cold", "cold"), ("as_set", "as set"), ("hot", "hot"))
_GAUGE = "MPa"
_ADDS = "geometry"


def beside_of(source: str) -> tuple[Beside, ...]:
    """Everything that may be told beside the findings, in its order; ``source`` is that of the gas."""

    def gas(name: str, quantity: str, note: str = "") -> Beside:
        return Beside(name, quantity, _GAUGE, source, "derived", note)

    pressures = [
        gas(f"full_stroke_{name}_{how}", f"gas pressure at full stroke (gauge), {how}, {words}", _HOW[how])
        for name, words in _STATES
        for how in ("slow", "fast")
    ]
    needed = [
        Beside(
            f"gas_needed_{which}_base_valve",
            f"gas pressure needed in the cold against cavitation (gauge), {which} base valve",
            _GAUGE,
            "pressures along the oil's way add up",
            "derived",
            "compression stroke; keeps the low side at the air around",
        )
        for which in ("without", "with")
    ] + [
        gas(
            f"charge_needed_{which}_base_valve",
            f"smallest charge as set for it (gauge), {which} base valve",
        )
        for which in ("without", "with")
    ]
    return (
        Beside("displaced_volume", "oil displaced over the stroke", "ml", _ADDS, "derived"),
        Beside("piston_travel", "way of the floating piston over the stroke", "mm", _ADDS, "derived"),
        Beside("gas_length", "length of the gas column as set", "mm", _ADDS, "derived"),
        Beside("gas_volume", "gas volume as set, at full extension", "ml", _ADDS, "derived"),
        Beside(
            "bladder_gas", "gas in the bladder, at full extension", "ml", "as told for this place", "given"
        ),
        Beside("charge_absolute", "gas charge (absolute)", _GAUGE, "gauge and the air around", "derived"),
        gas("charge_cold", "gas charge at top-out (gauge), cold", "gas colder, oil shrunk"),
        gas("charge_hot", "gas charge at top-out (gauge), hot", "gas hotter, oil grown"),
        *pressures,
        gas(
            "highest_absolute", "highest gas pressure (absolute)", "at full stroke, fast, at the hottest told"
        ),
        Beside("shaft_force_top_out", "force of the charge on the shaft, top-out", "N", _ADDS, "derived"),
        Beside(
            "shaft_force_full_stroke", "force on the shaft at full stroke, highest", "N", _ADDS, "derived"
        ),
        Beside("cap_thrust_top_out", "thrust on the end cap, top-out", "N", _ADDS, "derived"),
        Beside(
            "cap_thrust_full_stroke", "thrust on the end cap at full stroke, highest", "N", _ADDS, "derived"
        ),
        Beside(
            "charge_after_gauge",
            "charge left once the gauge is connected (gauge)",
            _GAUGE,
            "two rooms of gas joined, ideal",
            "derived",
            "hose and gauge empty before",
        ),
        *needed,
        Beside("shortest_gas_length", "shortest gas length for the pressure limit", "mm", source, "derived"),
        Beside(
            "oil_compression_travel",
            "travel that the oil's own compression adds",
            "mm",
            "bulk modulus 1.5 to 2.0 GPa (engineerfix.com; scribd 276067729)",
            "published_twice",
            "left out of the travel left: it only adds to it",
        ),
        Beside(
            "bladder_pressure_ratio",
            "highest pressure over charge, absolute",
            "1",
            "hydrospeichertechnik.de, sizing page",
            "published_once",
            "industrial bladder accumulators keep to 4 at most, and work above 1.1 times their charge; "
            "told for comparison, no rule for a damper",
        ),
    )
