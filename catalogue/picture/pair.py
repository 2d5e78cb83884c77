"""The two views of a gland as drawings of their own, for a page that says the rest in text."""

from __future__ import annotations

from typing import NamedTuple

from catalogue.picture.details import HEIGHT, detail_top, enlarged_clearance, view_notes, words_height
from catalogue.picture.details import sizes_in_words as size_lines
from catalogue.picture.drawing import Drawing
from catalogue.picture.frame import UNITS_PER_MM, Frame, detail_scale, frame_of, scale_words
from catalogue.picture.parts import hatch_patterns
from catalogue.picture.sheet import legend_of, scale_bar, squeeze_as_judged
from catalogue.picture.sizes import GlandSizes, Unit, View, gland_sizes, view_at
from catalogue.picture.svg import Element, label, line, number
from catalogue.picture.views import caption, sectional_view
from schema.finding import Verdict
from schema.question import Question

WIDTH = 500.0


class GlandPair(NamedTuple):
    """Two SVG elements of one scale, least and most squeeze, and what their lines mean."""

    views: tuple[str, str]
    legend: str


def gland_pair(question: Question, verdict: Verdict, *, unit: Unit, identifier: str) -> GlandPair:
    """Both views of a gland; ``identifier`` begins every id in them. Style is the page's affair.

    Each is 90 mm wide where it is printed at the scale that the legend names.
    """
    sizes = gland_sizes(question)
    views = (view_at(sizes, largest=False), view_at(sizes, largest=True))
    pressure = question.service.pressure.text if question.service.pressure else ""
    frame = frame_of(sizes, views, pressure)
    drawn = [
        _drawn(sizes, frame, view, verdict, unit, pressure, f"{identifier}-{view.name}", mark)
        for view, mark in zip(views, "AB", strict=True)
    ]
    height = max(low for _, low in drawn)
    scale = (
        f"Scale {scale_words(frame.scale)} where each view is printed {number(WIDTH / UNITS_PER_MM)} mm wide."
    )
    made = [_closed(one, height, frame, unit) for one, _ in drawn]
    return GlandPair((made[0], made[1]), f"{scale} {legend_of(sizes, pressure)}")


def _drawn(
    sizes: GlandSizes,
    frame: Frame,
    view: View,
    verdict: Verdict,
    unit: Unit,
    pressure: str,
    prefix: str,
    mark: str,
) -> tuple[Element, float]:
    """One view with what stands below it, and where it ends."""
    scale = None if view.depth is None else detail_scale(view.clearance or 0.0, frame.scale)
    drawing = Drawing(
        prefix=prefix,
        sizes=sizes,
        frame=frame,
        view=view,
        unit=unit,
        pressure=pressure,
        mark=mark if scale else "",
        left=6.0,
        top=0.0,
    )
    notes = view_notes(view, drawing, squeeze_as_judged(verdict, view, sizes.kind))
    title = Element("title", {}, [f"{caption(view, unit)}. {' '.join(notes)}".strip()])
    root = Element("svg", {"class": "gland-picture", "role": "img"}, [title])
    root.add(Element("defs").add(*hatch_patterns(prefix)), sectional_view(drawing))
    if scale:
        root.add(enlarged_clearance(drawing, scale))
    root.add(*size_lines(drawing, notes))
    below = max(words_height(drawing, notes), HEIGHT if scale else 0.0)
    return root, detail_top(drawing) + below + 10


def _closed(root: Element, height: float, frame: Frame, unit: Unit) -> str:
    """A view with its scale bar, cut to the height that both have."""
    length, bar = scale_bar(unit, frame.units_per_mm)
    y = height + 14
    root.add(
        line("wide", 18, y - 5, 18 + bar, y - 5),
        line("wide", 18, y - 10, 18, y),
        line("wide", 18 + bar, y - 10, 18 + bar, y),
        label(f"{length:g} {unit}", 18 + bar + 8, y, size="small"),
    )
    root.attributes |= {"viewBox": f"0 0 {number(WIDTH)} {number(y + 8)}", "width": number(WIDTH)}
    return "\n".join(root.lines())
