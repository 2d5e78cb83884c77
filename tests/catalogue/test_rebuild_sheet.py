"""The rebuild sheet: complete, traceable, safe, the same bytes, readable, honest about what is missing."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import time
from datetime import date
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest

from catalogue.rebuild_sheet.look import PAPER, SCREEN_DARK, SCREEN_LIGHT, Surface
from catalogue.rebuild_sheet.sheet import FOLDER
from schema.finding import Finding, Status
from tests.rebuild_unit import BUSHING, HOSTILE, checked, hostile_texts, sheet, texts, with_bushing
from tests.sheet_page import by_id, classes, text_of, tree_of, untraced, with_class

ROOT = Path(__file__).parent.parent.parent
NO_PLACES = {"unit": "bare", "kind": "damper"}
NO_PARTS = texts(
    places={"fill-plug": {"kind": "face_gland", "groove_depth": "2.65 ±0.05 mm"}}, parts={}, tools=""
)
CASES: dict[str, dict[str, Any]] = {
    "invented": {},
    "inches": {"unit_of_length": "in"},
    "without sheet number": {"sheet_number": ""},
    "hostile": {"given": hostile_texts(), "sheet_number": HOSTILE},
    "working": {"extent": "working"},
    "no places": {"given": NO_PLACES},
    "no parts": {"given": NO_PARTS},
}


@pytest.fixture(scope="module", name="html")
def _html() -> str:
    return sheet()


@pytest.fixture(scope="module", name="tree")
def _tree(html: str) -> Element:
    return tree_of(html)


@pytest.mark.parametrize("options", CASES.values(), ids=CASES)
def test_the_sheet_is_well_formed(options: dict[str, Any]) -> None:
    """Every sheet parses as HTML without one error, and encodes as UTF-8."""
    html = sheet(**options)
    assert tree_of(html).find(".//h1") is not None
    assert html.encode("utf-8").decode("utf-8") == html


@pytest.mark.parametrize("options", CASES.values(), ids=CASES)
def test_ids_are_unique_and_links_resolve(options: dict[str, Any]) -> None:
    """No id stands twice; every link, label and reference names an id of the page."""
    tree = tree_of(sheet(**options))
    ids = [one.get("id") for one in tree.iter() if one.get("id")]
    assert len(ids) == len(set(ids))
    links = [one.get("href", "") for one in tree.iter() if one.get("href") is not None]
    assert {link[:1] for link in links} == {"#"}
    named = {link[1:] for link in links}
    named |= {name for one in tree.iter() for name in (one.get("aria-labelledby") or "").split()}
    named |= set(re.findall(r"url\(#([^)]+)\)", " ".join(str(one.attrib) for one in tree.iter())))
    assert named <= set(ids)


@pytest.mark.parametrize("options", CASES.values(), ids=CASES)
def test_the_sheet_asks_for_nothing_outside(options: dict[str, Any]) -> None:
    """No script, frame, image, font, import or link leads out of the file, and a policy forbids it."""
    html = sheet(**options)
    tree = tree_of(html)
    tags = {str(one.tag).rpartition("}")[2] for one in tree.iter()}
    assert not tags & {"script", "link", "img", "iframe", "object", "embed", "base", "form", "video", "audio"}
    assert not [one for one in tree.iter() for name in one.attrib if name.lower().startswith("on")]
    assert not [one.attrib for one in tree.iter() if one.get("src") or one.get("srcset")]
    style = text_of(next(tree.iter("style")))
    assert "@import" not in style and "url(" not in style and "@font-face" not in style
    assert "content=\"default-src 'none'" in html.replace("&#39;", "'")


@pytest.mark.parametrize("options", CASES.values(), ids=CASES)
def test_every_number_names_its_source(options: dict[str, Any]) -> None:
    """Each number of a place, table, caution or drawing has a mention of a source beside it."""
    assert untraced(tree_of(sheet(**options))) == []


def test_a_number_without_a_source_is_found(html: str) -> None:
    """The test above is one: a sheet whose mentions of sources are taken away fails it."""
    stripped = re.sub(r'class="cite"', 'class="gone"', html)
    assert len(untraced(tree_of(stripped))) > 100


def test_every_finding_appears_at_its_place(tree: Element) -> None:
    """Each finding of the verdict stands in the article of its place, with its numbers."""
    _, verdict = checked()
    verdict = with_bushing(verdict)
    for number, place in enumerate(verdict.places, start=1):
        article = by_id(tree, f"place-{number}")
        told = text_of(article)
        assert place.name in text_of(article.find(".//h3"))
        for finding in place.verdict.findings:
            assert finding.quantity in told, (place.name, finding.rule)
            assert printed(finding) in told, (place.name, finding.rule)
    whole = text_of(next(one for one in tree.iter("section") if one.get("aria-labelledby") == "whole"))
    assert all(finding.quantity in whole for finding in verdict.findings)


def test_a_working_sheet_tells_what_fits_in_a_row_and_the_rest_in_full() -> None:
    """A place that fits has its parts and its tightest finding with its source; any other its article."""
    tree = tree_of(sheet(extent="working"))
    _, verdict = checked()
    for number, place in enumerate(with_bushing(verdict).places, start=1):
        told = by_id(tree, f"place-{number}")
        first = place.verdict.findings[0]
        assert place.name in text_of(told) and first.quantity in text_of(told)
        assert "cite" in {name for one in told.iter() for name in classes(one)}
        in_a_row = place.verdict.status is Status.FITS and place.kind != "gas_chamber"
        assert str(told.tag).endswith("tr" if in_a_row else "article")
        for finding in place.verdict.findings:
            assert (finding.quantity in text_of(told)) or finding.status is Status.FITS
    assert len(sheet(extent="working")) < 0.8 * len(sheet())


def printed(finding: Finding) -> str:
    """The worst case of a finding as it must be readable; "" where it has no number."""
    if finding.low is None or finding.high is None or finding.low != finding.low:
        return ""
    decimals = {"mm": 3, "%": 1}.get(finding.unit)
    if decimals is None or finding.low == finding.high:
        return ""
    return f"{finding.low:.{decimals}f} to {finding.high:.{decimals}f} {finding.unit}".replace("-", "−")


def test_places_have_one_number_everywhere(tree: Element) -> None:
    """Index, article, kit and links give a place the number of its turn in the work."""
    _, verdict = checked()
    names = [one.name for one in with_bushing(verdict).places]
    index = [text_of(one) for one in tree.find(".//nav").iter("li")]
    for number, name in enumerate(names, start=1):
        assert index[number - 1].startswith(f"{number} {name}")
        assert text_of(by_id(tree, f"place-{number}").find(".//h3")) == f"{number} {name}"
    kit = [text_of(row) for row in with_class(tree, "kit", "table")[0].iter("tr")]
    assert any("R-217" in row and row.endswith("place 1") for row in kit)
    assert any("P-1" in row and row.endswith("place 8") for row in kit)


def test_what_comes_first(tree: Element) -> None:
    """Question, verdict, next step and cautions come before tools, kit and places; the maker leads."""
    heads = [text_of(one) for one in tree.iter() if one.tag in ("h1", "h2")]
    order = [
        "Can lapwing-190",
        "Places, in",
        "Before anything",
        "Tools",
        "Kit",
        "The unit as a whole",
        "Place by place",
        "Does not fit",
        "Not proven",
        "Fits",
        "To measure",
        "Gas charge",
        "Signed",
        "What was not",
        "Sources",
        "Equations",
        "Made by",
    ]
    assert [head[: len(start)] for head, start in zip(heads, order, strict=True)] == order
    first = next(with_class(tree, "cautions")[0].iter("li"))
    assert "The maker's service instructions and limits come first" in text_of(first)


def test_the_verdict_is_word_sign_and_shape(tree: Element) -> None:
    """Each status is told by its word and by a sign of its own, which no colour is needed for."""
    (verdict,) = with_class(tree, "verdict")
    assert text_of(verdict) == "Does not fit"
    signs = {one.get("id"): one for one in tree.iter() if (one.get("id") or "").startswith("sign-")}
    shapes = {
        name: tuple(str(one.tag).rpartition("}")[2] for one in sign.iter())[2:]
        for name, sign in signs.items()
    }
    assert shapes == {
        "sign-fits": ("circle",),
        "sign-does-not-fit": ("line", "line"),
        "sign-not-proven": ("path", "path"),
    }


def test_what_is_weak_says_so_beside_its_value(tree: Element) -> None:
    """A figure from memory is called that where it stands, not only in the list of sources."""
    article = text_of(by_id(tree, "place-8"))
    assert "By source 25 from memory" in re.sub(r"source \d+", "source 25", article)
    sources = [text_of(one) for one in with_class(tree, "sources")[0].iter("li")]
    assert any("a table recalled by a fitter (from memory)" in one for one in sources)


def test_what_is_not_judged_stands_apart(tree: Element) -> None:
    """Values worked out beside the findings have a heading that says that they decide nothing."""
    article = text_of(by_id(tree, "place-8"))
    beside = article.partition("Worked out beside, not judged")[2]
    assert "press force: 212.4 to 733.9 N" in beside
    assert "bare value without a source: 1 mm" in beside
    assert BUSHING.verdict.findings[0].quantity not in beside


def test_every_size_that_an_open_finding_waits_for_has_a_box(tree: Element) -> None:
    """The list to measure has each size of each open finding, what was told of it, and boxes for a pen."""
    _, verdict = checked()
    rows = {text_of(row): row for row in with_class(tree, "measure", "table")[0].find("tbody").iter("tr")}
    wanted = {
        (one.dimension.replace("_", " "), finding.inputs[one.dimension])
        for place in verdict.places
        if place.verdict.status is Status.NOT_PROVEN
        for finding in place.verdict.findings
        if finding.status is Status.NOT_PROVEN
        for one in finding.influences
    }
    assert ("groove diameter", "31.50 ±0.30 mm") in wanted
    for words, told in wanted:
        found = [row for text, row in rows.items() if told in text and words.split()[-1] in text]
        assert found, (words, told)
        assert all(len(with_class(row, "pen")) == 2 for row in found)
    assert any(text.startswith("place 6 Ring: not told") for text in rows)
    assert any("Stroke: 55 +0.5/0 mm" in text and text.startswith("unit") for text in rows)


def test_what_settles_a_place_has_a_box_there(tree: Element) -> None:
    """Where a measurement would settle a place, the reading and the instrument are written beside it."""
    article = by_id(tree, "place-3")
    assert "Measure the groove diameter" in text_of(article)
    assert len(with_class(article, "pen")) == 2


def test_a_shaft_that_places_share_is_measured_once() -> None:
    """Two open places on one shaft have one line for its diameter, with both their numbers."""
    given = texts()
    for name in ("shaft-seal", "shaft-end"):
        given["places"][name]["groove_diameter"] = "31.50 ±0.30 mm"
    table = with_class(tree_of(sheet(given)), "measure", "table")[0]
    shaft = [text_of(row) for row in table.iter("tr") if "Shaft diameter (damper shaft)" in text_of(row)]
    assert len(shaft) == 1
    assert shaft[0].startswith("place 3, place 7")


def test_hostile_texts_stay_texts() -> None:
    """Markup, template marks and controls in any text of a unit come out as plain text."""
    html = sheet(hostile_texts(), sheet_number=HOSTILE)
    tree = tree_of(html)
    assert "alert(1)</script>" in text_of(by_id(tree, "question"))
    assert "{{ 7*7 }}" in html
    assert not set(html) & set("\x00\x85\u202e")
    (style,) = (one for one in tree.iter() if one.tag == "style")
    assert len(html.split("</style>")) == 2
    assert "<" not in (style.text or "")


def test_the_same_input_gives_the_same_bytes(html: str) -> None:
    """Twice in one process and in processes of other hash seeds."""
    code = (
        "import sys; from tests.rebuild_unit import sheet; sys.stdout.buffer.write(sheet().encode('utf-8'))"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", code],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1] == html.encode("utf-8") == sheet().encode("utf-8")


def test_another_date_is_another_sheet(html: str) -> None:
    """Date and number are told at the head of the page, on the screen and in print."""
    other = sheet(made_on=date(2027, 1, 2), sheet_number="7")
    assert '@top-center { content: "2027-01-02" }' in other
    assert '@top-right { content: "Sheet 7" }' in other
    assert '@top-left { content: "lapwing-190" }' in html
    assert "Rebuild sheet 2026-041" in text_of(next(tree_of(html).iter("header")))


def test_inches() -> None:
    """Results and what is to be measured are in inches; sizes stand as they were written."""
    tree = tree_of(sheet(unit_of_length="in"))
    article = text_of(by_id(tree, "place-3"))
    assert re.search(r"Measure the groove diameter by calliper inside jaws: 1\.\d{4} to 1\.\d{4} in", article)
    assert "groove diameter 31.50 ±0.30 mm" in article.replace("\u00a0", " ")
    assert re.search(r"side room in the groove: 0\.\d{4} to 0\.\d{4} in", article)


def test_a_unit_without_places_says_what_to_do() -> None:
    """Nothing is said to fit; index, kit and tools say that they are empty."""
    tree = tree_of(sheet(NO_PLACES))
    assert text_of(with_class(tree, "verdict")[0]) == "Not proven"
    assert with_class(tree, "next") == []
    missing = [text_of(one) for one in with_class(tree, "missing")]
    assert [one.partition(":")[0].partition(".")[0] for one in missing] == [
        "No place is described",
        "No tools are told of this unit",
        "No part is on the list of this unit",
        "No finding waits for a measurement",
    ]


def test_a_place_without_its_ring_is_told(tree: Element) -> None:
    """It is not proven, and says which part is missing and what to do."""
    article = text_of(by_id(tree, "place-6"))
    assert "No part is listed for this place." in article
    assert "Give the ring that goes in, by its part number." in article


def test_gas_without_a_described_chamber_still_has_its_record(tree: Element) -> None:
    """A unit whose places hold gas gets a charge record with boxes; one without gas gets none."""
    gas = with_class(tree, "gas", "table")[0]
    rows = [text_of(row) for row in gas.find("tbody").iter("tr")]
    assert [row.partition(":")[0] for row in rows] == [
        "Gas",
        "Charge, gauge",
        "Temperature of the unit when charged",
        "Piston depth",
        "Gauge used, its number or range",
    ]
    assert len(with_class(gas, "pen")) == 10
    assert with_class(tree_of(sheet(NO_PARTS)), "gas", "table") == []


def test_what_was_not_asked_and_what_was_taken_are_told(tree: Element) -> None:
    """Of the unit and of each place."""
    section = next(one for one in tree.iter("section") if one.get("aria-labelledby") == "not-asked")
    assert "wear of the bushing, at place 8" in text_of(section)
    assert "gas chamber" in text_of(section)
    assert "Taken: a friction of 0.08 to 0.15." in text_of(by_id(tree, "place-8"))


def test_tables_have_captions_and_scopes(tree: Element) -> None:
    """Each table has a caption, and each of its headings says what it heads."""
    tables = list(tree.iter("table"))
    assert len(tables) == 4
    for table in tables:
        assert text_of(table.find("caption"))
        assert {one.get("scope") for one in table.iter("th")} <= {"col", "row", "rowgroup"}


def test_headings_leave_out_no_level(tree: Element) -> None:
    """A heading is at most one level below the one before it."""
    levels = [int(str(one.tag)[1]) for one in tree.iter() if re.fullmatch(r"h[1-6]", str(one.tag))]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("surface", [SCREEN_LIGHT, SCREEN_DARK, PAPER], ids=["light", "dark", "print"])
def test_text_stands_out_by_seven_to_one(surface: Surface) -> None:
    """All text has a contrast of 7:1 on both papers; lines have 3:1."""
    palette = surface.palette
    inks = (palette.ink, palette.fits, palette.not_proven, palette.does_not_fit, surface.link)
    for paper in (palette.paper, surface.second):
        assert min(contrast(ink, paper) for ink in inks) >= 7
        assert contrast(surface.rule, paper) >= 3


def test_the_style_names_no_colour_of_its_own() -> None:
    """Every colour comes from the surfaces whose contrast is tested."""
    style = (FOLDER / "sheet.css").read_text(encoding="utf-8")
    assert not re.search(r"#[0-9a-fA-F]{3}\b|#[0-9a-fA-F]{6}\b|rgba?\(|hsl", style)
    assert "opacity" not in style


def contrast(one: str, other: str) -> float:
    """Contrast of two colours, WCAG 2.2, relative luminance."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_contrast_is_computed_as_the_guideline_has_it() -> None:
    """Black on white is 21:1; #767676 on white is the grey that just keeps 4.5:1."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


def test_jinja_is_loaded_only_when_a_sheet_is_made() -> None:
    """Importing the package costs no template engine."""
    code = "import sys, catalogue.rebuild_sheet; print('jinja2' in sys.modules)"
    result = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert result.stdout.strip() == "False"


def test_thirty_places_take_less_than_a_third_of_a_second() -> None:
    """Processor time of making the sheet of a unit of 30 places, the best of three."""
    given = texts()
    names = list(given["places"])
    for number in range(30 - len(names)):
        given["places"][f"more-{number}"] = given["places"][names[number % len(names)]]
    from catalogue.rebuild_sheet import rebuild_sheet
    from schema.reference import published_reference

    unit, verdict = checked(given)
    assert len(verdict.places) == 30
    times = []
    for _ in range(3):
        start = time.process_time()
        rebuild_sheet(unit, verdict, published_reference(), made_on=date(2026, 11, 25))
        times.append(time.process_time() - start)
    assert min(times) < 0.3


def test_classes_are_styled(tree: Element) -> None:
    """Every status class that the page uses has a rule in the style."""
    style = (FOLDER / "sheet.css").read_text(encoding="utf-8")
    used = {name for one in tree.iter() for name in classes(one)} & {"fits", "not-proven", "does-not-fit"}
    assert used == {"fits", "not-proven", "does-not-fit"}
    assert all(f".{name} {{" in style for name in used)
