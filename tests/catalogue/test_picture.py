"""The gland picture: true to scale, the same bytes, readable, safe."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator

import pytest

from catalogue.picture import gland_picture, gland_picture_bytes
from catalogue.picture.frame import UNITS_PER_MM, Map, frame_of
from catalogue.picture.shapes import free_section, squeezed_section
from catalogue.picture.sizes import gland_sizes, length_text, view_at
from catalogue.picture.strips import status_shape
from catalogue.picture.style import DARK, LIGHT, PRINT, Palette
from fitcheck.check import check
from schema.finding import Status, Verdict
from schema.question import Question, question_from
from schema.reference import published_reference

SVG = "{http://www.w3.org/2000/svg}"
SERVICE = {
    "motion": "static",
    "medium": "liquid",
    "pressure": "2.5 MPa",
    "pressure_from": "one_side",
    "temperature": "-10..60 degC",
    "fluid": "mineral_oil",
}
RING = {"kind": "o_ring", "size": "AS568-214", "material": "NBR", "hardness_shore_a": "70"}
LOBED = {**RING, "kind": "four_lobed_ring"}
ROD = {
    "kind": "rod_gland",
    "shaft_diameter": "25.4 f7 mm",
    "groove_diameter": "31.2 +0.05/0 mm",
    "throat_diameter": "25.5 +0.05/0 mm",
    "groove_width": "4.8 +0.2/0 mm",
    "corner_radius": "0.3 mm",
}
PISTON = {
    "kind": "piston_gland",
    "bore_diameter": "31.5 H8 mm",
    "groove_diameter": "25.6 0/-0.05 mm",
    "land_diameter": "31.4 0/-0.05 mm",
    "groove_width": "4.8 +0.2/0 mm",
}
FACE = {
    "kind": "face_gland",
    "groove_depth": "2.70 ±0.05 mm",
    "groove_width": "4.9 ±0.1 mm",
    "groove_outer_diameter": "32 ±0.1 mm",
}
TINY = {
    "kind": "face_gland",
    "groove_depth": "0.38 ±0.02 mm",
    "groove_width": "0.9 ±0.05 mm",
    "groove_outer_diameter": "3.2 ±0.05 mm",
}
HUGE = {
    "kind": "piston_gland",
    "bore_diameter": "350 H8 mm",
    "groove_diameter": "303 0/-0.2 mm",
    "land_diameter": "349 ±0.2 mm",
    "groove_width": "36 ±0.5 mm",
}
HOSTILE = "</title><script>alert(1)</script>&\"'\x00\ud800"


def asked(part: dict[str, str], place: dict[str, str], **service: str) -> Question:
    """A question from texts."""
    return question_from({"part": part, "place": place, "service": {**SERVICE, **service}})


QUESTIONS: dict[str, Question] = {
    "rod": asked(RING, ROD),
    "rod-back-up": asked(RING, {**ROD, "groove_width": "6.3 +0.2/0 mm", "back_up_rings": "1"}),
    "rod-two-back-ups": asked(
        RING, {**ROD, "groove_width": "8 +0.2/0 mm", "back_up_rings": "2"}, pressure_from="both_sides"
    ),
    "piston": asked(RING, PISTON),
    "piston-both-sides": asked(RING, PISTON, pressure_from="both_sides"),
    "piston-wide-gap": asked(RING, {**PISTON, "land_diameter": "29 ±0.1 mm"}),
    "face-inside": asked(RING, FACE, pressure_from="inside"),
    "face-outside": asked(RING, {**FACE, "groove_inner_diameter": "22.1 mm"}, pressure_from="outside"),
    "face-apart": asked(RING, {**FACE, "face_gap": "0.05 ±0.02 mm"}, pressure_from="inside"),
    "four-lobed": asked(LOBED, {**PISTON, "groove_diameter": "25 0/-0.05 mm"}),
    "loose": asked(RING, {**PISTON, "groove_diameter": "24 0/-0.05 mm"}),
    "measured": asked(RING, {**ROD, "groove_diameter": "31.22 ±U0.02 mm"}),
    "tight": asked(RING, {**PISTON, "groove_width": "3.4 ±0.05 mm"}),
    "no-depth": asked(RING, {"kind": "rod_gland", "shaft_diameter": "25.4 f7 mm"}),
    "no-width": asked(RING, {name: value for name, value in ROD.items() if name != "groove_width"}),
    "no-clearance": asked(RING, {name: value for name, value in ROD.items() if name != "throat_diameter"}),
    "no-service": question_from({"part": RING, "place": ROD}),
    "tiny": asked(
        {"inside_diameter": "2 ±0.1 mm", "cross_section": "0.5 ±0.05 mm"}, TINY, pressure_from="inside"
    ),
    "huge": asked({"inside_diameter": "300 ±2 mm", "cross_section": "28 ±0.5 mm"}, HUGE),
    "hostile": asked({**RING, "part_number": HOSTILE}, {**ROD, "description": HOSTILE + "W" * 400}),
}
EVERY = pytest.mark.parametrize("name", QUESTIONS)
SQUEEZED = pytest.mark.parametrize("name", ["rod", "piston", "face-inside", "measured", "tiny", "huge"])
LAYOUTS = pytest.mark.parametrize("layout", ["wide", "narrow"])


def answered(question: Question) -> Verdict:
    """The verdict by the published tables."""
    return check(question, published_reference())


def drawn(name: str, layout: str = "wide", unit: str = "mm") -> ET.Element:
    """The picture of a question, read back."""
    text = gland_picture(QUESTIONS[name], answered(QUESTIONS[name]), layout=layout, unit=unit)  # type: ignore[arg-type]
    return ET.fromstring(text)  # noqa: S314 - our own text


def view_of(root: ET.Element, which: str) -> ET.Element:
    """The group of one view."""
    return next(one for one in root.iter(f"{SVG}g") if one.get("class") == f"view {which}-squeeze")


def first(root: ET.Element, tag: str, name: str) -> ET.Element:
    """The first element of a tag whose classes hold a name."""
    return next(one for one in root.iter(f"{SVG}{tag}") if name in (one.get("class") or "").split())


def arrow_span(view: ET.Element, name: str, axis: str) -> float:
    """Distance between the extension lines of one dimension."""
    dimension = next(one for one in view.iter(f"{SVG}g") if one.get("class") == f"dimension {name}")
    ends = [float(one.get(axis, "nan")) for one in dimension if "extension" in (one.get("class") or "")]
    return abs(ends[1] - ends[0])


@EVERY
@LAYOUTS
def test_is_well_formed_and_the_same_twice(name: str, layout: str) -> None:
    """Every picture is XML, begins anew with the same bytes, and names itself to a reader aloud."""
    question = QUESTIONS[name]
    verdict = answered(question)
    once = gland_picture_bytes(question, verdict, layout=layout)  # type: ignore[arg-type]
    assert once == gland_picture_bytes(question, verdict, layout=layout)  # type: ignore[arg-type]
    root = ET.fromstring(once)  # noqa: S314 - our own text
    ids = {one.get("id") for one in root.iter() if one.get("id")}
    assert root.get("role") == "img"
    assert set((root.get("aria-labelledby") or "").split()) <= ids


@EVERY
def test_holds_nothing_but_classes(name: str) -> None:
    """No style attribute, no script, no reference outside the document, one style sheet."""
    root = drawn(name)
    tags = [one.tag.removeprefix(SVG) for one in root.iter()]
    values = [value for one in root.iter() for value in one.attrib.values()]
    assert tags.count("style") == 1
    assert not {"script", "image", "foreignObject", "a", "use"} & set(tags)
    assert not [key for one in root.iter() for key in one.attrib if key == "style" or key.startswith("on")]
    assert not [one for one in values if "href" in one or ("url(" in one and "url(#" not in one)]
    assert "http" not in first_text(root, "style") and "@import" not in first_text(root, "style")


def first_text(root: ET.Element, tag: str) -> str:
    """Text of the first element of a tag."""
    return next(root.iter(f"{SVG}{tag}")).text or ""


@SQUEEZED
def test_title_and_description_say_the_squeeze(name: str) -> None:
    """Title and description hold both squeezes in the figures that the views show."""
    sizes = gland_sizes(QUESTIONS[name])
    root = drawn(name)
    for largest in (False, True):
        said = f"{view_at(sizes, largest=largest).squeeze_percent:.1f} %"
        assert said in first_text(root, "title")
        assert said in first_text(root, "desc")


@pytest.mark.parametrize("name", ["rod", "piston", "face-inside"])
def test_squeezes_are_those_of_the_finding(name: str) -> None:
    """The two views are the ends of the worst case of the finding on squeeze."""
    finding = answered(QUESTIONS[name]).of("squeeze")
    sizes = gland_sizes(QUESTIONS[name])
    assert finding is not None
    assert view_at(sizes, largest=False).squeeze_percent == pytest.approx(finding.low)
    assert view_at(sizes, largest=True).squeeze_percent == pytest.approx(finding.high)


@SQUEEZED
@pytest.mark.parametrize("which", ["smallest", "largest"])
def test_is_true_to_the_scale_it_states(name: str, which: str) -> None:
    """Depth, section, width and the free circle have the lengths that the written scale gives them."""
    root = drawn(name)
    sizes = gland_sizes(QUESTIONS[name])
    view = view_at(sizes, largest=which == "largest")
    words = " ".join(one.text or "" for one in root.iter(f"{SVG}text"))
    found = re.search(r"Scale (\d+):(\d+)", words)
    assert found and view.depth is not None
    per_mm = int(found[1]) / int(found[2]) * UNITS_PER_MM
    shown = view_of(root, which)
    assert arrow_span(shown, "depth", "y1") == pytest.approx(view.depth * per_mm, abs=0.01)
    assert arrow_span(shown, "section", "y1") == pytest.approx(view.section * per_mm, abs=0.01)
    assert arrow_span(shown, "width", "x1") == pytest.approx(view.width * per_mm, abs=0.01)
    free = first(shown, "circle", "free")
    assert float(free.get("r", "nan")) == pytest.approx(view.section / 2 * per_mm, abs=0.01)


@pytest.mark.parametrize("name", ["rod", "piston", "huge"])
def test_ring_touches_both_surfaces(name: str) -> None:
    """The flats of the squeezed ring lie on the mating surface and on the groove floor."""
    shown = view_of(drawn(name), "largest")
    surface = float(first(shown, "line", "mating").get("y1", "nan"))
    flats = [float(one.get("y1", "nan")) for one in shown.iter(f"{SVG}line") if one.get("class") == "contact"]
    assert min(abs(y - surface) for y in flats) == pytest.approx(0.0, abs=0.01)
    assert max(flats) - min(flats) == pytest.approx(arrow_span(shown, "depth", "y1"), abs=0.01)


@pytest.mark.parametrize("factor", [math.pi / 4, 0.8215], ids=["round", "four-lobed"])
@pytest.mark.parametrize("depth", [3.4, 3.2, 3.0, 2.7, 2.4])
@pytest.mark.parametrize("room", [None, 8.0, 4.6], ids=["free", "wide", "narrow"])
def test_squeezed_section_keeps_its_area(factor: float, depth: float, room: float | None) -> None:
    """Rubber keeps its volume: squeezed and free section have one area, and the thickness is the depth."""
    squeezed = squeezed_section(3.53, factor, depth, room)
    assert squeezed.area == pytest.approx(factor * 3.53**2, rel=0.01)
    assert squeezed.area == pytest.approx(free_section(3.53, factor).area, rel=0.01)
    assert squeezed.height == pytest.approx(depth)
    assert room is None or squeezed.width <= room + 1e-9


def test_outline_encloses_the_area_it_claims() -> None:
    """The path in the document encloses the section's area, traced point by point."""
    section = squeezed_section(3.53, math.pi / 4, 2.9, 4.8)
    points = [
        arc.at(arc.start + (arc.end - arc.start) * step / 200) for arc in section.arcs for step in range(201)
    ]
    traced = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, points[1:] + points[:1], strict=True))
    assert traced / 2 == pytest.approx(section.area, rel=1e-3)
    path = Map(10.0, 0.0, 0.0, 1).outline(section, (0.0, 0.0))
    assert path.startswith("M") and path.endswith("Z")
    assert path.count("A") == len(section.arcs)


def test_too_full_groove_is_said() -> None:
    """A ring with more area than the groove is drawn full, and the words say so."""
    assert squeezed_section(3.53, math.pi / 4, 2.6, 3.5).overfilled
    words = " ".join(one.text or "" for one in drawn("tight").iter(f"{SVG}text"))
    assert "larger than this groove" in words


def test_gap_is_shown_as_a_gap() -> None:
    """Where nothing squeezes the ring the picture says so and draws the free section off the surface."""
    root = drawn("loose")
    view = view_at(gland_sizes(QUESTIONS["loose"]), largest=False)
    shown = view_of(root, "smallest")
    circle = first(shown, "circle", "free")
    surface = float(first(shown, "line", "mating").get("y1", "nan"))
    top = float(circle.get("cy", "nan")) - float(circle.get("r", "nan"))
    per_mm = 2 * float(circle.get("r", "nan")) / view.section
    assert top - surface == pytest.approx(view.gap * per_mm, abs=0.01)
    assert f"none, gap {length_text(view.gap, 'mm')} mm" in first_text(root, "title")


def test_missing_depth_is_told_in_words() -> None:
    """Without a gland depth the free section is drawn and what is missing is named."""
    words = " ".join(one.text or "" for one in drawn("no-depth").iter(f"{SVG}text"))
    assert "not known" in words
    assert "groove diameter" in words


def test_hostile_names_are_text() -> None:
    """Mark-up and characters that XML forbids in a name come out as text."""
    question = QUESTIONS["hostile"]
    text = gland_picture(question, answered(question), identifier='x"><script>')
    root = ET.fromstring(text)  # noqa: S314 - our own text
    assert "<script" not in text
    assert "<script>alert(1)</script>" in first_text(root, "title")


@EVERY
@LAYOUTS
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_no_text_is_cut_off(name: str, layout: str, unit: str) -> None:
    """Every text lies within the sheet, by an estimate of its width."""
    root = drawn(name, layout, unit)
    _, _, width, height = (float(one) for one in (root.get("viewBox") or "").split())
    cut = [text for text, box in boxes(root) if box[0] < 0 or box[1] < 0 or box[2] > width or box[3] > height]
    assert cut == []


@EVERY
@LAYOUTS
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_no_text_lies_on_another(name: str, layout: str, unit: str) -> None:
    """No two texts overlap, by an estimate of their widths."""
    found = list(boxes(drawn(name, layout, unit)))
    clashes = [
        (one, other)
        for index, (one, a) in enumerate(found)
        for other, b in found[index + 1 :]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]
    assert clashes == []


def boxes(root: ET.Element) -> Iterator[tuple[str, tuple[float, float, float, float]]]:
    """Every text with the box it takes."""
    heights = {"verdict": 34.0, "head": 19.0, "body": 15.0, "small": 13.5}
    for one in root.iter(f"{SVG}text"):
        names = (one.get("class") or "").split()
        size = next(height for name, height in heights.items() if name in names)
        text = one.text or ""
        wide = (
            sum(0.95 if sign in "mwMWØø%" else 0.3 if sign in "il.,:;'|! " else 0.58 for sign in text) * size
        )
        x, y = float(one.get("x", "nan")), float(one.get("y", "nan"))
        shift = {"start": 0.0, "middle": -wide / 2, "end": -wide}[
            next(name for name in names if name in ("start", "middle", "end"))
        ]
        up, down = 0.74 * size, 0.2 * size
        if one.get("transform"):
            yield text, (x - up, y - wide - shift, x + down, y - shift)
        else:
            yield text, (x + shift, y - up, x + shift + wide, y + down)


def luminance(colour: str) -> float:
    """Relative luminance by WCAG 2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio by WCAG 2."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("palette", [LIGHT, DARK, PRINT], ids=["light", "dark", "print"])
def test_contrasts(palette: Palette) -> None:
    """Text has 7:1 or more on paper; rubber has 3:1 to paper and to the lines drawn over it."""
    for text in (palette.ink, palette.fits, palette.not_proven, palette.does_not_fit):
        assert contrast(text, palette.paper) >= 7
    assert contrast(palette.rubber, palette.paper) >= 3
    assert contrast(palette.ink, palette.rubber) >= 3


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_verdict_tones_differ_in_lightness(palette: Palette) -> None:
    """The three verdict tones are told apart in grey."""
    tones = sorted(luminance(one) for one in (palette.fits, palette.not_proven, palette.does_not_fit))
    assert (tones[1] + 0.05) / (tones[0] + 0.05) >= 1.15
    assert (tones[2] + 0.05) / (tones[1] + 0.05) >= 1.15


def test_verdict_shapes_differ() -> None:
    """Disc, half-filled diamond and cross are made of different elements."""
    tags = {status: [one.tag for one in status_shape(status, 0, 0, 9).children] for status in Status}  # type: ignore[union-attr]
    assert len({tuple(one) for one in tags.values()}) == 3


def test_common_scale_of_both_views() -> None:
    """Both views stand at one scale, large enough to be read."""
    sizes = gland_sizes(QUESTIONS["rod"])
    views = (view_at(sizes, largest=False), view_at(sizes, largest=True))
    frame = frame_of(sizes, views, "2.5 MPa")
    assert frame.scale == int(frame.scale)
    assert frame.scale >= 5


def test_at_most_eight_strips_tightest_first() -> None:
    """The strips are the first eight findings in the order of the verdict."""
    verdict = answered(QUESTIONS["rod"])
    root = drawn("rod")
    rows = [one for one in root.iter(f"{SVG}g") if one.get("class") == "finding"]
    names = [one.text for row in rows for one in row.iter(f"{SVG}text") if "body" in (one.get("class") or "")]
    assert len(rows) == 8
    assert (names[0] or "") in verdict.findings[0].quantity


def test_a_verdict_without_findings_is_drawn() -> None:
    """A verdict that holds no finding still gives a picture."""
    verdict = answered(QUESTIONS["rod"])._replace(findings=())
    assert gland_picture(QUESTIONS["rod"], verdict).rstrip().endswith("</svg>")


def test_inches_are_shown_where_asked() -> None:
    """The unit of the texts follows the parameter, the drawing does not change."""
    in_mm, in_inches = drawn("piston"), drawn("piston", unit="in")
    assert "inches" in " ".join(one.text or "" for one in in_inches.iter(f"{SVG}text"))
    assert first(in_mm, "path", "groove").get("d") == first(in_inches, "path", "groove").get("d")
