"""Below each view: the clearance enlarged in a circle, and the sizes the view is drawn with."""

from __future__ import annotations

from catalogue.picture.dimensions import arrow, width_of
from catalogue.picture.drawing import Drawing, detail_at, view_height
from catalogue.picture.frame import UNITS_PER_MM, VIEW_WIDTH, Map, scale_words
from catalogue.picture.parts import back_up_rings, grooved_part, mating_part, squeezed_ring
from catalogue.picture.sizes import View, length_text, tolerance_text
from catalogue.picture.style import SMALL
from catalogue.picture.svg import Element, circle, group, label, line, wrapped

RADIUS = 58.0
HEIGHT = 2 * RADIUS + 40.0


def enlarged_clearance(drawing: Drawing, scale: float) -> Element:
    """The corner beside the low-pressure land, cut out by a circle at its own scale."""
    view, sizes = drawing.view, drawing.sizes
    clearance = view.clearance or 0.0
    top = detail_top(drawing)
    x, y = drawing.left + 12 + RADIUS, top + 26 + RADIUS
    per_mm = scale * UNITS_PER_MM
    u = detail_at(sizes, view)
    up = drawing.place.up
    place = Map(per_mm, x - u * per_mm, y + up * clearance / 2 * per_mm, up)
    clip = f"{drawing.prefix}-{drawing.mark}"
    window = Element("clipPath", {"id": clip}).add(circle("window", x, y, RADIUS))
    inside = group("inside")
    inside.attributes["clip-path"] = f"url(#{clip})"
    inside.add(
        mating_part(drawing.prefix, view, drawing.frame, place, None, cut=sizes.kind != "rod"),
        grooved_part(drawing.prefix, view, drawing.frame, place, None),
        *back_up_rings(drawing.prefix, view, place),
        squeezed_ring(view, place),
    )
    low, high = sorted((place.y(0.0), place.y(clearance)))
    at = x + RADIUS + 14
    made = group("detail", window, inside, circle("mark", x, y, RADIUS))
    made.add(label(f"{drawing.mark} ({scale_words(scale)})", x, top + 16, anchor="middle"))
    for end in (low, high):
        made.add(line("thin extension", x + RADIUS - 2, end, at + 6, end))
    made.add(
        line("thin", at, low - 20, at, high + 20),
        arrow(at, low, 0, 1),
        arrow(at, high, 0, -1),
    )
    for index, text in enumerate(_clearance_texts(drawing)):
        made.add(label(text, at + 10, (low + high) / 2 - 3 + 17 * index, size="small"))
    return made


def _clearance_texts(drawing: Drawing) -> list[str]:
    size, clearance = drawing.sizes.clearance, drawing.view.clearance or 0.0
    side = "min." if drawing.view.name == "largest" else "max."
    known = size is not None and size.toleranced and size.span.high > size.span.low
    texts = [length_text(clearance, drawing.unit) + (f" {side}" if known else "")]
    if size is not None and known:
        texts.append(tolerance_text(size, drawing.unit))
    return texts


def _words_left(drawing: Drawing) -> float:
    """How far the words stand from the left edge of the view."""
    if not drawing.mark:
        return 8.0
    return 2 * RADIUS + 12 + 24 + max(width_of(text) for text in _clearance_texts(drawing)) + 16


def detail_top(drawing: Drawing) -> float:
    """Upper edge of what stands below a view."""
    return drawing.top + view_height(drawing.sizes, drawing.frame) + 6


def sizes_in_words(drawing: Drawing, notes: list[str]) -> list[Element]:
    """The sizes of the view as text, to the right of the enlarged clearance."""
    shift = _words_left(drawing)
    x, y = drawing.left + shift, detail_top(drawing) + 22
    made: list[Element] = []
    for note in notes:
        for text in wrapped(note, SMALL, VIEW_WIDTH - shift - 8):
            made.append(label(text, x, y, size="small"))
            y += 18
    return made


def words_height(drawing: Drawing, notes: list[str]) -> float:
    """Height that ``sizes_in_words`` takes."""
    shift = _words_left(drawing)
    return 26.0 + 18.0 * sum(len(wrapped(note, SMALL, VIEW_WIDTH - shift - 8)) for note in notes)


def view_notes(view: View, drawing: Drawing, judged: str) -> list[str]:
    """What the drawing cannot say by itself."""
    sizes, unit = drawing.sizes, drawing.unit
    notes = [judged] if judged else []
    if view.depth is None:
        return notes
    pair = f"{length_text(view.section, unit)} ring in {length_text(view.depth, unit)} {unit} of depth"
    if view.gap > 0:
        notes.append(f"{pair}: nothing squeezes it")
    else:
        notes.append(f"{pair}: {view.squeeze_percent:.1f} % as handbooks count it")
    if view.clearance is None:
        notes.append("Clearance not given: lands drawn without it")
    elif sizes.kind == "face" and view.clearance <= 0:
        notes.append("The faces touch: no clearance")
    elif view.clearance <= 0:
        notes.append("No clearance left at this limit: the parts touch")
    elif sizes.kind != "face":
        notes.append(f"Clearance drawn centred: {length_text(view.clearance, unit)} {unit} on each side")
    if view.pressed and view.pressed.overfilled:
        notes.append("Drawn full: the free section is larger than this groove; the fill below counts")
    if view.width_given and sum(end - start for start, end in view.back_ups) >= view.width:
        notes.append("The back-up rings leave the ring no room in this groove")
    if view.back_ups and not view.back_up_given:
        notes.append("Back-up ring dashed: its width is not given")
    if not view.width_given:
        notes.append("Walls dashed: the groove width is not given")
    if not sizes.pressure_from:
        notes.append("Pressure side not given")
    return notes
