"""The page of the rebuild sheet: well formed, traceable, safe, the same bytes, readable, soon made."""

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
from tests.rebuild_unit import HOSTILE, NO_PARTS, NO_PLACES, checked, hostile_texts, sheet, texts
from tests.sheet_page import by_id, classes, text_of, tree_of, untraced, with_class

ROOT = Path(__file__).parent.parent.parent
CASES: dict[str, dict[str, Any]] = {
    "invented": {},
    "inches": {"unit_of_length": "in"},
    "without sheet number": {"sheet_number": ""},
    "hostile": {"given": hostile_texts(), "sheet_number": HOSTILE},
    "working": {"extent": "working"},
    "no places": {"given": NO_PLACES},
    "no parts": {"given": NO_PARTS},
}


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
