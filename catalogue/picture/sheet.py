"""The whole sheet: heading, the two views, what stands below them, the margin strips."""

from __future__ import annotations

from typing import Literal

from catalogue.picture.details import (
    HEIGHT,
    detail_top,
    enlarged_clearance,
    sizes_in_words,
    view_notes,
    words_height,
)
from catalogue.picture.drawing import Drawing
from catalogue.picture.frame import UNITS_PER_MM, detail_scale, frame_of, scale_words
from catalogue.picture.parts import hatch_patterns
from catalogue.picture.sizes import MM_PER_INCH, GlandSizes, Unit, View, gland_sizes, length_text, view_at
from catalogue.picture.strips import (
    MOST,
    TONES,
    key,
    kind_of,
    row_height,
    scales_of,
    status_shape,
    strip_row,
    values_in_words,
)
from catalogue.picture.style import BODY, HEAD, SMALL, style_sheet
from catalogue.picture.svg import Element, group, label, line, number, wrapped
from catalogue.picture.views import caption, sectional_view
from schema.finding import Verdict
from schema.question import Question

Layout = Literal["wide", "narrow"]
WIDTHS = {"wide": 1000.0, "narrow": 500.0}


def gland_picture(
    question: Question,
    verdict: Verdict,
    *,
    unit: Unit = "mm",
    layout: Layout = "wide",
    identifier: str = "gland-picture",
) -> str:
    """A complete SVG document: the gland at least and most squeeze, to scale, and its margins.

    ``layout`` narrow puts the two views one below the other, for a phone. ``identifier`` begins every id
    in the document; two pictures on one page need two of them. The same input gives the same text.
    """
    sizes = gland_sizes(question)
    views = (view_at(sizes, largest=False), view_at(sizes, largest=True))
    width = WIDTHS[layout]
    root = Element("svg", {})
    y = _heading(root, verdict, width)
    y = _views(root, question, verdict, sizes, views, unit, layout, identifier, y)
    y = _margins(root, verdict, unit, layout, identifier, y)
    title = f"{verdict.status.value.capitalize()}: {verdict.question}"
    described = description(verdict, sizes, views, unit)
    definitions = Element("defs").add(*hatch_patterns(identifier))
    root.attributes = {
        "xmlns": "http://www.w3.org/2000/svg",
        "class": f"gland-picture {layout}-layout",
        "viewBox": f"0 0 {number(width)} {number(y)}",
        "width": "100%",
        "role": "img",
        "aria-labelledby": f"{identifier}-title {identifier}-desc",
    }
    root.children = [
        Element("title", {"id": f"{identifier}-title"}, [f"{title}. {_squeezes(views, unit)}."]),
        Element("desc", {"id": f"{identifier}-desc"}, [described]),
        Element("style", {}, [style_sheet()]),
        definitions,
        *root.children,
    ]
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + "\n".join(root.lines()) + "\n"


def gland_picture_bytes(
    question: Question, verdict: Verdict, *, unit: Unit = "mm", layout: Layout = "wide"
) -> bytes:
    """The picture as a file holds it: UTF-8, LF, the same bytes for the same input."""
    return gland_picture(question, verdict, unit=unit, layout=layout).encode("utf-8")


def _squeezes(views: tuple[View, View], unit: Unit) -> str:
    return "; ".join(caption(view, unit) for view in views)


def description(verdict: Verdict, sizes: GlandSizes, views: tuple[View, View], unit: Unit) -> str:
    """The drawing in words, with the same numbers."""
    said = [f"Verdict: {verdict.status.value}.", verdict.next_step]
    for view in views:
        parts = [f"section {length_text(view.section, unit)}"]
        parts.append(f"gland depth {'not given' if view.depth is None else length_text(view.depth, unit)}")
        parts.append(f"groove width {length_text(view.width, unit) if view.width_given else 'not given'}")
        gap = "not given" if view.clearance is None else length_text(view.clearance, unit)
        parts.append(f"clearance on each side {gap}" if sizes.kind != "face" else f"gap of the faces {gap}")
        if view.pressed and view.pressed.contacts:
            parts.append(f"contact about {length_text(view.pressed.contact_width, unit)}")
        said.append(f"{caption(view, unit)}: {', '.join(parts)} ({unit}).")
    if sizes.back_up_count:
        said.append(f"Back-up rings: {sizes.back_up_count}.")
    for finding in verdict.findings[:MOST]:
        said.append(
            f"{finding.quantity}: {finding.status.value}, {', '.join(values_in_words(finding, unit))}."
        )
    return " ".join(one for one in said if one)


def _heading(root: Element, verdict: Verdict, width: float) -> float:
    root.add(
        status_shape(verdict.status, 30, 34, 17),
        label(verdict.status.value.capitalize(), 58, 46, size="verdict", tone=TONES[verdict.status]),
    )
    y = 76.0
    for text in wrapped(verdict.question, BODY, width - 32, most=4):
        root.add(label(text, 16, y))
        y += 20
    y += 4
    for text in wrapped(verdict.next_step, HEAD, width - 32, most=4 if width > 500 else 8, bold=True):
        root.add(label(text, 16, y + 2, size="head"))
        y += 25
    return y + 2


def _views(
    root: Element,
    question: Question,
    verdict: Verdict,
    sizes: GlandSizes,
    views: tuple[View, View],
    unit: Unit,
    layout: Layout,
    identifier: str,
    top: float,
) -> float:
    """Both views and what stands below them; returns where the next thing may begin."""
    pressure = question.service.pressure.text if question.service.pressure else ""
    frame = frame_of(sizes, views, pressure)
    root.add(line("thin", 16, top, WIDTHS[layout] - 16, top))
    top = _scale_note(root, sizes, frame.units_per_mm, frame.scale, pressure, unit, layout, top + 24)
    gaps = [view.clearance or 0.0 for view in views]
    common = detail_scale(max(gaps), frame.scale)
    end = top
    for index, (view, gap, mark) in enumerate(zip(views, gaps, "AB", strict=True)):
        scale = common if common and gap * common * UNITS_PER_MM >= 5 else detail_scale(gap, frame.scale)
        if view.depth is None:
            scale = None
        left = 6.0 + 500.0 * index if layout == "wide" else 6.0
        drawing = Drawing(
            prefix=identifier,
            sizes=sizes,
            frame=frame,
            view=view,
            unit=unit,
            pressure=pressure,
            mark=mark if scale else "",
            left=left,
            top=top if layout == "wide" else end,
        )
        notes = view_notes(view, drawing, squeeze_as_judged(verdict, view, sizes.kind))
        root.add(sectional_view(drawing))
        if scale:
            root.add(enlarged_clearance(drawing, scale))
        root.add(*sizes_in_words(drawing, notes))
        below = max(words_height(drawing, notes), HEIGHT if scale else 0.0)
        end = max(end, detail_top(drawing) + below + 10)
    return end + 6


def squeeze_as_judged(verdict: Verdict, view: View, kind: str) -> str:
    """What the check finds beyond the handbook's sum: stretched and off centre."""
    off_centre = "" if kind == "face" else " and off centre"
    rule = "greatest_squeeze" if view.name == "largest" else "least_squeeze"
    finding = verdict.of(rule)
    value = None if finding is None else finding.high if view.name == "largest" else finding.low
    if value is None or value != value:
        return ""
    text = f"{value:.1f} %".replace("-", "−")
    return f"As fitted{off_centre}, at {'most' if view.name == 'largest' else 'least'}: {text}"


def _scale_note(
    root: Element,
    sizes: GlandSizes,
    per_mm: float,
    scale: float,
    pressure: str,
    unit: Unit,
    layout: Layout,
    y: float,
) -> float:
    """Scale in words and as a bar that stays true at any size of print, and what the lines mean."""
    width = WIDTHS[layout]
    length, bar = scale_bar(unit, per_mm)
    paper = number(width / UNITS_PER_MM)
    unit_words = "millimetres" if unit == "mm" else "inches"
    words = f"Scale {scale_words(scale)} (printed {paper} mm wide), sizes in {unit_words}"
    root.add(label(words, 16, y))
    x = width - 16 - bar - 64
    if layout == "narrow":
        y += 22
        x = 18.0
    root.add(
        line("wide", x, y - 5, x + bar, y - 5),
        line("wide", x, y - 10, x, y),
        line("wide", x + bar, y - 10, x + bar, y),
        label(f"{length:g} {unit}", x + bar + 8, y, size="small"),
    )
    legend = legend_of(sizes, pressure)
    for text in wrapped(legend, SMALL, width - 32, most=5):
        y += 20
        root.add(label(text, 16, y, size="small"))
    return y + 14


def scale_bar(unit: str, per_mm: float) -> tuple[float, float]:
    """A round length in the unit, and how long its bar comes out in units of the sheet."""
    one = 1.0 if unit == "mm" else MM_PER_INCH
    lengths = (0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
    length = next((value for value in lengths if value * one * per_mm >= 40), 50.0)
    return length, length * one * per_mm


def legend_of(sizes: GlandSizes, pressure: str) -> str:
    """What the lines of the views mean."""
    legend = "Thin outline: the ring before it is squeezed; grey: as squeezed, its area kept."
    if sizes.depth is None:
        legend = "Grey: the free section."
    if pressure:
        legend += f" Pressure: {pressure}, arrow from its side."
    if any(size and size.measured for size in (sizes.section, sizes.depth, sizes.width, sizes.clearance)):
        legend += " Measured sizes are drawn at the value read ± its expanded uncertainty U."
    if sizes.missing:
        legend += f" Not given: {', '.join(sizes.missing)}."
    return legend


def _margins(
    root: Element, verdict: Verdict, unit: Unit, layout: Layout, identifier: str, top: float
) -> float:
    width = WIDTHS[layout]
    shown = verdict.findings[:MOST]
    root.add(line("thin", 16, top, width - 16, top))
    root.add(label("Margins, tightest first", 16, top + 28, size="head"))
    root.add(key(identifier, 6, top + 54, width - 12))
    y = top + (94 if layout == "narrow" else 72)
    scales = scales_of(verdict.findings)
    for finding in shown:
        row = strip_row(
            finding,
            scales.get(kind_of(finding.rule)),
            prefix=identifier,
            unit=unit,
            left=16,
            top=y,
            width=width - 32,
            narrow=layout == "narrow",
        )
        root.add(group("row", row))
        y += row_height(finding, narrow=layout == "narrow")
    rest = len(verdict.findings) - len(shown)
    if rest > 0:
        root.add(label(f"{rest} more findings come after these in the answer.", 16, y + 16))
        y += 26
    return y + 14
