"""The options of a check, each with the field of a question it fills: one list for every command and text."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from schema.question import Question


class Field(NamedTuple):
    """One option: the section and field of a question it fills, its help, and its list in ``names``."""

    option: str
    section: str
    name: str
    help: str
    word_list: str = ""

    @property
    def path(self) -> str:
        """Where the value stands in a question file."""
        return f"{self.section}.{self.name}"


FIELDS = (
    Field("--kind", "part", "kind", "O-ring or four-lobed ring", "kinds"),
    Field("--inside-diameter", "part", "inside_diameter", "ring's inside diameter"),
    Field("--section", "part", "cross_section", "ring's section"),
    Field("--material", "part", "material", "elastomer: NBR, FKM, EPDM ...", "materials"),
    Field("--hardness", "part", "hardness_shore_a", "Shore A, such as 70"),
    Field("--gland", "place", "kind", "rod, piston or face", "glands"),
    Field("--shaft", "place", "shaft_diameter", "shaft diameter (rod)"),
    Field("--bore", "place", "bore_diameter", "bore diameter (piston)"),
    Field("--groove", "place", "groove_diameter", "diameter of the groove floor (rod, piston)"),
    Field("--throat", "place", "throat_diameter", "housing bore beside the groove (rod)"),
    Field("--land", "place", "land_diameter", "piston diameter beside the groove (piston)"),
    Field("--depth", "place", "groove_depth", "groove depth (face)"),
    Field(
        "--outer-wall", "place", "groove_outer_diameter", "outer wall of the groove (face, pressure inside)"
    ),
    Field(
        "--inner-wall", "place", "groove_inner_diameter", "inner wall of the groove (face, pressure outside)"
    ),
    Field("--face-gap", "place", "face_gap", "gap between faces that do not touch"),
    Field("--width", "place", "groove_width", "groove width"),
    Field("--corner-radius", "place", "corner_radius", "radius at the groove floor"),
    Field("--lead-in", "place", "lead_in_length", "length of the lead-in chamfer"),
    Field("--passes-over", "place", "passes_over", "largest diameter passed in assembly"),
    Field("--runout", "place", "runout", "run-out, groove to guide (TIR)"),
    Field("--guide-clearance", "place", "guide_clearance", "diametral clearance of the guide"),
    Field("--finish-running", "place", "surface_finish_running", "Ra of the running surface"),
    Field("--finish-groove", "place", "surface_finish_groove", "Ra of the groove"),
    Field("--back-ups", "place", "back_up_rings", "number of back-up rings, 0 to 2"),
    Field("--metal", "place", "metal", "aluminium or steel", "metals"),
    Field("--back-up-width", "back_up_ring", "width", "width of one back-up ring"),
    Field("--motion", "service", "motion", "static or reciprocating", "motion"),
    Field("--medium", "service", "medium", "liquid or gas; gas where either side is gas", "medium"),
    Field("--pressure", "service", "pressure", "highest gauge pressure, with its unit"),
    Field(
        "--from",
        "service",
        "pressure_from",
        "one_side or both_sides (rod, piston), inside or outside (face)",
        "from",
    ),
    Field("--temperature", "service", "temperature", "lowest..highest temperature, with its unit"),
    Field("--fluid", "service", "fluid", "fluids, ; between them", "fluids"),
    Field("--swell-low", "service", "swell_low_percent", "least volume swell, percent"),
    Field("--swell-high", "service", "swell_high_percent", "greatest volume swell, percent"),
    Field("--decide-by", "choices", "decision_rule", "decision rule for measured sizes", "decision-rules"),
    Field("--squeeze-by", "choices", "squeeze", "squeeze guidance", "squeeze"),
    Field("--gap-by", "choices", "gap", "clearance guidance", "gap"),
    Field("--thinning", "choices", "thinning", "thinning law for the least squeeze", "thinning"),
    Field("--thickening", "choices", "thickening", "law for the greatest squeeze", "thickening"),
    Field(
        "--without",
        "choices",
        "layers_off",
        "layers left out: stretch, eccentricity, temperature, swell",
        "layers",
    ),
)
BY_PATH = {field.path: field for field in FIELDS}

# Words of findings that are not simply the words of one dimension.
_OTHER_WORDS = {
    "motion": "service.motion",
    "liquid or gas": "service.medium",
    "medium": "service.medium",
    "pressure": "service.pressure",
    "hardness": "part.hardness_shore_a",
    "temperature range": "service.temperature",
    "temperature": "service.temperature",
    "material": "part.material",
    "material of the ring": "part.material",
    "fluid": "service.fluid",
    "width of the back-up rings": "back_up_ring.width",
    "number of back-up rings": "place.back_up_rings",
}


def field_called(words: str) -> Field | None:
    """The option that gives what a finding names in words; None where no option does."""
    from fitcheck.words import dimension_words

    plain = words.strip().removeprefix("the ")
    if plain in _OTHER_WORDS:
        return BY_PATH[_OTHER_WORDS[plain]]
    if "pressure" in plain and ("side" in plain or "from" in plain):
        return BY_PATH["service.pressure_from"]
    return next((field for field in FIELDS if dimension_words(field.name) == plain), None)


def untold(question: Question) -> list[Field]:
    """What every verdict of this gland needs and nobody told, whether or not a finding asks for it yet."""
    from schema.places import FaceGland

    service, gland = question.service, question.gland
    closed = isinstance(gland, FaceGland) and gland.face_gap is None  # nothing to be forced into
    known = {
        "part.hardness_shore_a": question.ring.hardness_shore_a is not None or closed,
        "service.motion": service.motion is not None,
        "service.medium": service.medium is not None,
        "service.pressure": service.pressure is not None or closed,
    }
    return [BY_PATH[path] for path, told in known.items() if not told]
