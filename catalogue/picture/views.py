"""One sectional view: the parts, their dimensions, the pressure, the axis."""

from __future__ import annotations

from catalogue.picture.dimensions import across, arrow, upright
from catalogue.picture.drawing import CAPTION, PART_NAMES, Drawing
from catalogue.picture.frame import COLUMN, TIER, VIEW_WIDTH, Map
from catalogue.picture.marks import axis_line, detail_mark, pressure_arrows
from catalogue.picture.parts import (
    Box,
    back_up_rings,
    free_ring,
    grooved_part,
    mating_part,
    squeezed_ring,
)
from catalogue.picture.sizes import (
    Size,
    Unit,
    View,
    length_text,
    tolerance_text,
)
from catalogue.picture.style import BODY
from catalogue.picture.svg import Element, group, label, line, text_width, wrapped


def sectional_view(drawing: Drawing) -> Element:
    """The view with everything on it."""
    view, place = drawing.view, drawing.place
    made = group(f"view {view.name}-squeeze")
    made.add(label(caption(view, drawing.unit), drawing.left + 8, drawing.top + 20, size="head"))
    if view.depth is None:
        made.add(*_ring_alone(drawing))
        return made
    names = PART_NAMES[drawing.sizes.kind]
    body_box, mate_box = _name_boxes(drawing, names)
    made.add(
        mating_part(drawing.prefix, view, drawing.frame, place, mate_box, cut=drawing.sizes.kind != "rod"),
        grooved_part(drawing.prefix, view, drawing.frame, place, body_box),
        *back_up_rings(drawing.prefix, view, place),
        squeezed_ring(view, place),
        free_ring(view, place, round_section=drawing.round_section),
    )
    for text, box in zip(names, (body_box, mate_box), strict=True):
        made.add(label(text, box[0] + box[2] / 2, box[1] + box[3] - 6, anchor="middle"))
    made.add(*_dimensions(drawing, view.depth), *pressure_arrows(drawing), *axis_line(drawing))
    if drawing.mark:
        made.add(*detail_mark(drawing, view.depth))
    return made


def caption(view: View, unit: Unit) -> str:
    """The heading of a view."""
    head = f"{view.name.capitalize()} squeeze"
    if view.squeeze_percent is None or view.depth is None:
        return f"{head}: not known"
    if view.gap > 0:
        return f"{head}: none, gap {length_text(view.gap, unit)} {unit}"
    return f"{head} {view.squeeze_percent:.1f} %"


def _name_boxes(drawing: Drawing, names: tuple[str, str]) -> tuple[Box, Box]:
    """Where the hatching is interrupted for the names of the parts."""
    place, frame, view = drawing.place, drawing.frame, drawing.view
    middle = place.x(view.width / 2)
    deep = max(view.depth or 0.0, view.centre[1] + view.section / 2)
    height = place.y((deep + frame.deepest + frame.body) / 2)
    wide = text_width(names[0], BODY) + 8
    body = (middle - wide / 2, height - 11, wide, 22.0)
    wide = text_width(names[1], BODY) + 8
    right = drawing.right_edge - 12
    return body, (right - wide, place.y(-frame.mate * 0.55) - 11, wide, 22.0)


def _stated(size: Size, value: float, unit: Unit, side: str) -> tuple[str, str]:
    """Value above the line and tolerance below it."""
    known = size.toleranced and size.span.high > size.span.low
    return length_text(value, unit) + (f" {side}" if known else ""), tolerance_text(size, unit)


def _dimensions(drawing: Drawing, depth: float) -> list[Element]:
    sizes, view, place, unit = drawing.sizes, drawing.view, drawing.place, drawing.unit
    tight = view.name == "largest"
    least, most = ("min.", "max.") if tight else ("max.", "min.")
    left, right = drawing.columns
    u, v = view.centre
    ends = (place.y(v - view.section / 2), place.y(v + view.section / 2))
    made = [
        upright(
            "section", ends, left, (place.x(u), place.x(u)), *_stated(sizes.section, view.section, unit, most)
        )
    ]
    if sizes.depth:
        ends = (place.y(0.0), place.y(depth))
        origins = (drawing.right_edge, place.x(view.width))
        made.append(upright("depth", ends, right, origins, *_stated(sizes.depth, depth, unit, least)))
    outer, inner = drawing.bottom + 30.0, drawing.top + CAPTION + TIER - 30.0
    groove_at, contact_at = (inner, outer) if place.up > 0 else (outer, inner)
    ends = (place.x(0.0), place.x(view.width))
    if sizes.width:
        stated = _stated(sizes.width, view.width, unit, least)
        made.append(across("width", ends, groove_at, place.y(depth), *stated))
    else:
        made.append(label("groove width not given", sum(ends) / 2, groove_at, size="small", anchor="middle"))
    made += _contacts(drawing, contact_at)
    if not drawing.mark and view.clearance:
        made.append(_plain_clearance(drawing, view.clearance, least))
    return made


def _contacts(drawing: Drawing, at: float) -> list[Element]:
    view, place = drawing.view, drawing.place
    shape = view.pressed
    if shape is None or not shape.contacts:
        words = "line contact"
        if view.gap > 0:
            words = f"no contact, gap {length_text(view.gap, drawing.unit)}"
        return [label(words, place.x(view.centre[0]), at, size="small", anchor="middle")]
    start, end = shape.contacts[0]
    ends = (place.x(view.centre[0] + start), place.x(view.centre[0] + end))
    count = f"{len(shape.contacts)}× " if len(shape.contacts) > 1 else ""
    words = f"contact {count}≈ {length_text(shape.contact_width, drawing.unit)}"
    return [across("contact-width", ends, at, place.y(0.0), words)]


def _plain_clearance(drawing: Drawing, clearance: float, side: str) -> Element:
    """The clearance where it can be seen at the scale of the view."""
    view, place = drawing.view, drawing.place
    x = place.x(view.width + drawing.frame.land)
    low, high = place.y(0.0), place.y(clearance)
    made = group("dimension clearance")
    made.add(line("thin extension", x + 2, high, x + 16, high))
    size = drawing.sizes.clearance
    text = length_text(clearance, drawing.unit) + (f" {side}" if size and size.toleranced else "")
    top, bottom = min(low, high), max(low, high)
    made.add(
        line("thin", x + 10, top, x + 10, bottom), arrow(x + 10, top, 0, -1), arrow(x + 10, bottom, 0, 1)
    )
    made.add(label(text, x + 15, top - 6, size="small"))
    return made


def _ring_alone(drawing: Drawing) -> list[Element]:
    """What can be drawn without a gland depth: the free section, and what is missing in words."""
    frame, view = drawing.frame, drawing.view
    radius = view.section / 2 * frame.units_per_mm
    middle_y = drawing.top + CAPTION + (TIER if frame.known else 20.0) + radius
    x = drawing.left + frame.axis_left + COLUMN + 20 + radius
    u, v = view.centre
    place = Map(frame.units_per_mm, x - u * frame.units_per_mm, middle_y - v * frame.units_per_mm, -1)
    rubber = group("ring", Element("path", {"class": "rubber", "d": place.outline(view.free, view.centre)}))
    ends = (middle_y - radius, middle_y + radius)
    stated = _stated(
        drawing.sizes.section, view.section, drawing.unit, "max." if view.name == "largest" else "min."
    )
    made = [
        rubber,
        free_ring(view, place, round_section=drawing.round_section),
        upright("section", ends, drawing.columns[0], (x, x), *stated),
    ]
    words = "Free section only: at this limit no gland depth is left."
    if drawing.sizes.depth is None:
        lost = ", ".join(drawing.sizes.missing)
        words = f"Free section only: the gland depth is not known. Not given: {lost}."
    room = drawing.left + VIEW_WIDTH - 10 - (x + radius + 16)
    for index, text in enumerate(wrapped(words, BODY, room)):
        made.append(label(text, x + radius + 16, middle_y - radius + 16 + 20 * index))
    return made
