"""What each finding is called, what it means for the unit, and what to do about it, in plain words."""

from __future__ import annotations

from typing import NamedTuple

from schema.finding import Status


class Words(NamedTuple):
    """Words of one finding. ``needs`` names what it is worked out from, ``rule`` the equation behind it."""

    quantity: str
    rule: str
    needs: tuple[str, ...]
    good: str
    too_low: str = ""
    too_high: str = ""
    raise_it: str = ""
    lower_it: str = ""

    def meaning(self, status: Status, low_side: bool) -> str:
        """What the outcome means for the unit."""
        if status is Status.FITS:
            return self.good
        return (self.too_low if low_side else self.too_high) or self.too_high or self.too_low

    def action(self, low_side: bool) -> str:
        """What to do about an outcome that is not a fit."""
        return (self.raise_it if low_side else self.lower_it) or self.lower_it or self.raise_it


_THICKER = "A ring of larger section or a shallower gland."
_THINNER = "A ring of smaller section or a deeper gland."

WORDS: dict[str, Words] = {
    "squeeze": Words(
        "squeeze as handbooks count it",
        "plain_squeeze",
        ("depth",),
        "squeezed as the published gland tables have it",
        "too little squeeze: it may leak",
        "too much squeeze: it drags and takes a set",
        _THICKER,
        _THINNER,
    ),
    "least_squeeze": Words(
        "least squeeze, stretched and off centre",
        "open_side_squeeze",
        ("depth", "hoop", "clearance"),
        "contact remains on the open side",
        "contact may be lost on the open side: it leaks",
        "",
        _THICKER + " Less clearance or a closer guide helps too.",
    ),
    "greatest_squeeze": Words(
        "greatest squeeze, off centre",
        "tight_side_squeeze",
        ("depth", "hoop", "clearance"),
        "not overstrained on the tight side",
        "",
        "overstrained on the tight side: it drags, wears and takes a set",
        "",
        _THINNER,
    ),
    "cold_squeeze": Words(
        "least squeeze at the cold end",
        "open_side_squeeze",
        ("depth", "hoop", "clearance"),
        "contact remains in the cold",
        "shrinks away from the wall in the cold: it leaks",
        "",
        _THICKER + " A service that ends less cold helps too.",
    ),
    "hot_squeeze": Words(
        "greatest squeeze at the hot end",
        "tight_side_squeeze",
        ("depth", "hoop", "clearance"),
        "not overstrained in the heat",
        "",
        "overstrained in the heat: it drags and takes a set",
        "",
        _THINNER,
    ),
    "stretch": Words(
        "stretch on its seat",
        "stretch",
        ("hoop",),
        "sits snug on its seat",
        "loose on its seat: it can be pinched in assembly",
        "stretched too far: it thins and ages faster",
        "A ring of smaller inside diameter.",
        "A ring of larger inside diameter.",
    ),
    "peripheral_compression": Words(
        "peripheral compression in its groove",
        "peripheral_compression",
        ("hoop",),
        "held on its outside diameter",
        "smaller than its groove: it can lift and pump",
        "much larger than its groove: it can buckle in assembly",
        "A ring of larger inside diameter.",
        "A ring of smaller inside diameter.",
    ),
    "shaft_interference": Words(
        "interference with the shaft",
        "shaft_interference",
        ("hoop",),
        "the shaft meets the ring all round",
        "the ring may not reach the shaft",
        "",
        "A ring of smaller inside diameter.",
    ),
    "fill": Words(
        "fill of the gland",
        "radial_fill",
        ("depth", "width"),
        "room is left to swell and warm",
        "",
        "too full: no room to swell, it extrudes or locks",
        "",
        "A thinner ring, a wider groove, or fewer back-up rings.",
    ),
    "hot_fill": Words(
        "fill when hot and swollen",
        "radial_fill",
        ("depth", "width"),
        "still finds room when hot and swollen",
        "",
        "no room when hot and swollen: it extrudes or bursts the groove",
        "",
        "A thinner ring or a wider groove.",
    ),
    "side_room": Words(
        "side room in the groove",
        "side_room",
        ("width",),
        "ring and back-up rings enter the groove",
        "the groove is too narrow for ring and back-up rings",
        "",
        "A wider groove, a thinner ring, or fewer back-up rings.",
    ),
    "extrusion_gap": Words(
        "diametral clearance the pressure pushes into",
        "diametral_clearance",
        ("clearance",),
        "too small a gap to be forced into",
        "",
        "the pressure may force it into the gap: it is nibbled away",
        "",
        "Less clearance, a harder ring, or back-up rings on the sides the pressure pushes to.",
    ),
    "section_in_groove": Words(
        "section held by the groove walls",
        "section_in_groove",
        ("wall",),
        "the walls hold it",
        "the walls are low for this section: it can roll out",
        "",
        "A thinner ring or less clearance.",
    ),
    "assembly_stretch": Words(
        "stretch in assembly",
        "stretch",
        ("passes_over",),
        "bears being pushed over; let it recover before closing",
        "",
        "may tear when it is pushed over",
        "",
        "A split tool or a cone, warm and greased, or a softer, larger ring.",
    ),
}

_DIMENSIONS = {
    "inside_diameter": "ring's inside diameter",
    "cross_section": "ring's section",
    "shaft_diameter": "shaft diameter",
    "bore_diameter": "bore diameter",
    "groove_diameter": "groove diameter",
    "throat_diameter": "throat diameter",
    "land_diameter": "land diameter",
    "groove_outer_diameter": "outer wall of the groove",
    "groove_inner_diameter": "inner wall of the groove",
    "groove_depth": "groove depth",
    "groove_width": "groove width",
    "guide_clearance": "guide clearance",
    "runout": "run-out",
    "passes_over": "diameter passed over",
    "back_up_width": "back-up ring's width",
    "face_gap": "gap between the faces",
    "corner_radius": "corner radius",
    "lead_in_length": "lead-in length",
}


def dimension_words(name: str) -> str:
    """A dimension in the words of a job card."""
    return _DIMENSIONS.get(name, name.replace("_", " "))


def joined(words: list[str]) -> str:
    """Words as a list in a sentence: a, b and c."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)
