"""The rebuild sheet as a person meets it: on a phone, a tablet, a desktop, and on two sizes of paper."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from schema.finding import Status
from tests.demo_units import NAMES, demo
from tests.rebuild_unit import checked, hostile_texts, sheet, with_bushing

pytestmark = pytest.mark.browser

WIDTHS = (360, 768, 1280)
SHEETS = ("invented", "hostile", "no-places", *NAMES)
PRINTED = (
    *(("invented", paper) for paper in ("A4", "Letter")),
    *((name, "A4") for name in NAMES[:-1]),
    (NAMES[-1], "Letter"),
)
HEADS = {
    "invented": r"lapwing-190\s*2026-11-25\s*Sheet 2026-041",
    **{name: rf"{name}\s*2026-11-25\s*Sheet 2026-042" for name in NAMES},
}
MOST_PAGES = 20  # of a working sheet: what a person takes to the bench
FOOT = re.compile(r"Page (\d+) of (\d+)\s*Rebuild sheet: (?:does not fit|not proven|fits)")


class Opened(NamedTuple):
    """A page with what it asked for and what it complained of."""

    page: Page
    requests: list[str]
    complaints: list[str]


@pytest.fixture(scope="module", name="files")
def _files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The sheets as files: whole ones of three invented units, working ones of the demo units."""
    folder = tmp_path_factory.mktemp("sheets")
    made = {
        "invented": sheet(),
        "hostile": sheet(hostile_texts()),
        "no-places": sheet({"unit": "bare", "kind": "damper"}),
        **{name: demo(name).working for name in NAMES},
    }
    for name, html in made.items():
        (folder / f"{name}.html").write_text(html, encoding="utf-8")
    return {name: folder / f"{name}.html" for name in made}


def opened(chromium: Browser, path: Path, width: int, scheme: Any = "light") -> Iterator[Opened]:
    """The file opened in a window of a width, in a context of its own."""
    context = chromium.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme)
    page = context.new_page()
    found = Opened(page, [], [])
    page.on("request", lambda request: found.requests.append(request.url))
    page.on("console", lambda message: found.complaints.append(message.text))
    page.on("pageerror", lambda error: found.complaints.append(str(error)))
    page.on("requestfailed", lambda request: found.complaints.append(request.url))
    page.goto(path.as_uri())
    yield found
    context.close()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", SHEETS)
def test_the_page_fits_its_window(chromium: Browser, files: dict[str, Path], name: str, width: int) -> None:
    """Nothing is wider than the window, nothing is asked of the network, nothing is complained of."""
    for found in opened(chromium, files[name], width):
        assert found.page.evaluate("document.documentElement.scrollWidth") <= width
        too_wide = found.page.evaluate(
            """width => [...document.querySelectorAll('body *')]
            .filter(one => !one.closest('svg') && !one.closest('.unseen'))
            .filter(one => one.getBoundingClientRect().right > width + 0.5)
            .map(one => one.outerHTML.slice(0, 120))""",
            width,
        )
        assert too_wide == []
        assert found.requests == [files[name].as_uri()]
        assert found.complaints == []


@pytest.mark.parametrize("width", WIDTHS)
def test_text_is_large_enough_to_read(chromium: Browser, files: dict[str, Path], width: int) -> None:
    """Body text is at least 16 px on the screen, the verdict at least 32 px, links to press 44 px tall."""
    for found in opened(chromium, files["invented"], width):
        sizes = found.page.evaluate(
            """() => [...document.querySelectorAll('p, li, td, th, dd, dt, caption, figcaption')]
            .map(one => parseFloat(getComputedStyle(one).fontSize))"""
        )
        assert min(sizes) >= 16
        verdict = found.page.locator(".verdict")
        assert float(verdict.evaluate("one => parseFloat(getComputedStyle(one).fontSize)")) >= 32
        heights = found.page.evaluate(
            "() => [...document.querySelectorAll('.index li a')].map(a => a.getBoundingClientRect().height)"
        )
        assert min(heights) >= 44


@pytest.mark.parametrize(
    ("name", "scheme"), [*((name, "light") for name in SHEETS), ("invented", "dark"), ("hostile", "dark")]
)
def test_axe_finds_no_barrier(chromium: Browser, files: dict[str, Path], name: str, scheme: str) -> None:
    """axe-core, all its rules and 7:1 contrast, finds nothing to mend."""
    options = {"rules": {"color-contrast-enhanced": {"enabled": True}}}
    for found in opened(chromium, files[name], 1280, scheme):
        results = Axe().run(found.page, options=options)
        told = [
            f"{one['id']}: {node['html'][:160]}"
            for one in results.response["violations"]
            for node in one["nodes"]
        ]
        assert told == []
        passed = {one["id"] for one in results.response["passes"]}
        assert {"color-contrast-enhanced", "document-title", "heading-order"} <= passed


def test_axe_would_find_a_barrier(chromium: Browser, files: dict[str, Path]) -> None:
    """The test above is one: text of 5:1 on the page is found."""
    for found in opened(chromium, files["invented"], 1280):
        found.page.evaluate("document.querySelector('.next').style.color = '#6b6b6b'")
        options = {"rules": {"color-contrast-enhanced": {"enabled": True}}}
        results = Axe().run(found.page, options=options)
        assert "color-contrast-enhanced" in {one["id"] for one in results.response["violations"]}


def test_an_index_entry_leads_to_its_place(chromium: Browser, files: dict[str, Path]) -> None:
    """A press on a number brings its place to the top of the window."""
    for found in opened(chromium, files["invented"], 360):
        found.page.locator(".index a[href='#place-4']").click()
        top = found.page.locator("#place-4").evaluate("one => one.getBoundingClientRect().top")
        assert 0 <= top < 100
        assert found.page.url.endswith("#place-4")


class Printed(NamedTuple):
    """A printed sheet: the text of each page without its head and foot, and the raw text of each."""

    name: str
    bodies: list[str]
    raw: list[str]
    size: tuple[int, int]


@pytest.fixture(scope="module", name="printed", params=PRINTED, ids=" on ".join)
def _printed(request: pytest.FixtureRequest, chromium: Browser, files: dict[str, Path]) -> Printed:
    """A sheet printed on one size of paper, as the print dialogue does it."""
    name, paper = request.param
    for found in opened(chromium, files[name], 1280):
        pdf = found.page.pdf(format=paper)
    reader = PdfReader(io.BytesIO(pdf))
    raw = [page.extract_text() for page in reader.pages]
    box = reader.pages[0].mediabox
    bodies = [FOOT.sub("", re.sub(HEADS[name], "", text, count=1)) for text in raw]
    return Printed(name, bodies, raw, (round(box.width), round(box.height)))


def test_every_page_says_whose_it_is(printed: Printed) -> None:
    """Unit, date and sheet number stand at the head of each page, its number and their count at the foot."""
    assert printed.size in {(596, 843), (595, 842), (612, 792)}
    count = len(printed.raw)
    for number, text in enumerate(printed.raw, start=1):
        assert re.match(rf"\s*{HEADS[printed.name]}", text), f"page {number}"
        assert FOOT.findall(text) == [(str(number), str(count))]


def test_no_page_is_blank_or_nearly(printed: Printed) -> None:
    """Each page carries something, and all but the last a good part of a page."""
    assert all(len(squeezed(body)) > 350 for body in printed.bodies[:-1])
    assert len(squeezed(printed.bodies[-1])) > 20
    assert len(printed.bodies) <= (35 if printed.name == "invented" else MOST_PAGES)


def squeezed(text: str) -> str:
    """A text without spaces and without the brackets that the style sets round mentions of sources."""
    return re.sub(r"[\s\[\]\u00b7]", "", text)


@pytest.fixture(scope="module", name="told")
def _told(printed: Printed, chromium: Browser, files: dict[str, Path]) -> dict[str, list[str]]:
    """Texts of the page as the style of print shows them: rows, headings, and every block that holds text."""
    for found in opened(chromium, files[printed.name], 700):
        found.page.emulate_media(media="print")
        texts: dict[str, list[str]] = found.page.evaluate(
            """() => Object.fromEntries(Object.entries({
                rows: 'tr', headings: 'h2, h3, h4, .keep, thead tr',
                blocks: 'main p, main li, main th, main td, main h1, '
                + 'main h2, main h3, main h4, main caption, main figcaption, main dt, main dd'
            }).map(([name, wanted]) => [name, [...document.querySelectorAll(wanted)]
                .filter(one => !one.querySelector('p, li, h3, h4')).map(one => one.innerText.trim())
                .filter(text => text)]))"""
        )
    return texts


def test_no_text_is_cut_in_print(printed: Printed, told: dict[str, list[str]]) -> None:
    """Each text of the page stands whole in the printed pages: in one page, or from one to the next."""
    whole = squeezed("".join(printed.bodies))
    assert len(told["blocks"]) > 150
    assert [text for text in told["blocks"] if squeezed(text) not in whole] == []


def test_no_row_is_cut(printed: Printed, told: dict[str, list[str]]) -> None:
    """Each row of a table stands on one page."""
    pages = [squeezed(body) for body in printed.bodies]
    assert len(told["rows"]) > 20
    assert [text for text in told["rows"] if not any(squeezed(text) in page for page in pages)] == []


def test_no_heading_is_left_alone_at_the_foot(printed: Printed, told: dict[str, list[str]]) -> None:
    """No page ends with a heading, nor with the head of a table."""
    headings = {squeezed(text) for text in told["headings"]}
    for number, body in enumerate(printed.bodies, start=1):
        last = [line for line in body.splitlines() if line.strip()][-1]
        assert squeezed(last) not in headings, f"page {number} ends with {last!r}"


def test_all_verdicts_are_printed(printed: Printed) -> None:
    """The word of each verdict stands at each place, in print as on the screen."""
    if printed.name == "invented":
        verdict = with_bushing(checked()[1])
        assert {one.verdict.status for one in verdict.places} == set(Status)
    else:
        verdict = demo(printed.name).verdict
    whole = squeezed("".join(printed.bodies))
    for number, place in enumerate(verdict.places, start=1):
        assert squeezed(f"{number} {place.name} {place.verdict.status.value}") in whole


def test_print_is_black_on_white_and_large_enough(chromium: Browser, files: dict[str, Path]) -> None:
    """In print no text is below 10.5 pt, and it is black on white even where the screen is dark."""
    for found in opened(chromium, files["invented"], 700, "dark"):
        found.page.emulate_media(media="print")
        seen = found.page.evaluate(
            """() => [...document.querySelectorAll('p, li, td, th, caption, h1, h2, h3, h4')].map(one => {
                const style = getComputedStyle(one); return [parseFloat(style.fontSize), style.color] })"""
        )
        assert min(size for size, _ in seen) >= 14  # px: 10.5 pt
        assert {colour for _, colour in seen} <= {"rgb(0, 0, 0)", "rgb(61, 61, 61)", "rgb(38, 38, 38)"}
        paper = found.page.evaluate("getComputedStyle(document.body).backgroundColor")
        assert paper == "rgb(255, 255, 255)"


def test_boxes_are_big_enough_for_a_pen(chromium: Browser, files: dict[str, Path]) -> None:
    """In print a box to write in is at least 22 mm by 9 mm, a box to tick 5 mm."""
    per_mm = 96 / 25.4
    for found in opened(chromium, files["invented"], 672):  # A4 between its margins
        found.page.emulate_media(media="print")
        boxes = found.page.evaluate(
            """() => Object.fromEntries(['.pen', '.tick'].map(name => [name,
                [...document.querySelectorAll(name)].map(one => one.getBoundingClientRect())
                .map(box => [box.width, box.height])]))"""
        )
        assert len(boxes[".pen"]) > 20
        assert all(width >= 22 * per_mm and height >= 9 * per_mm for width, height in boxes[".pen"])
        assert all(width >= 4.9 * per_mm and height >= 4.9 * per_mm for width, height in boxes[".tick"])


def test_a_hostile_name_does_not_break_the_head_of_the_pages(
    chromium: Browser, files: dict[str, Path]
) -> None:
    """The head of each page has the start of the name as text, and the date still stands beside it."""
    for found in opened(chromium, files["hostile"], 1280):
        reader = PdfReader(io.BytesIO(found.page.pdf(format="A4")))
    for page in reader.pages:
        head = squeezed(page.extract_text())[:400]
        assert "</style></title><script>alert(1)</script>" in squeezed(head)
        assert "2026-11-25" in head
