"""What a view carries besides parts and dimensions: pressure, axis, the mark of the enlarged detail."""

from __future__ import annotations

from catalogue.picture.dimensions import arrow
from catalogue.picture.drawing import CAPTION, PART_NAMES, Drawing, detail_at
from catalogue.picture.frame import TIER, VIEW_WIDTH
from catalogue.picture.sizes import BOTH, LEFT, RIGHT, length_text
from catalogue.picture.style import SMALL
from catalogue.picture.svg import Element, circle, group, label, line, text_width


def pressure_arrows(drawing: Drawing) -> list[Element]:
    """Arrows from the side(s) the pressure comes from, the value beside them."""
    frame, place, view, side = drawing.frame, drawing.place, drawing.view, drawing.sizes.pressure_from
    made = []
    at = place.surface - place.up * max(17.0, (view.clearance or 0.0) * place.units_per_mm / 2)
    text_at = at - 10 if place.up > 0 else at + 21
    for one, chamber, edge, turn in (
        (LEFT, frame.chamber_left, place.x(-frame.land), 1),
        (RIGHT, frame.chamber_right, place.x(view.width + frame.land), -1),
    ):
        outside = edge - turn * chamber
        middle = (edge + outside) / 2
        if side in (one, BOTH):
            tip, tail = edge - turn * 5, outside + turn * 8
            made.append(
                group(
                    "pressure", line("wide", tail, at, tip - turn * 9, at), arrow(tip, at, turn, 0, size=1.5)
                )
            )
            words = drawing.pressure or "pressure"
            if text_width(words, SMALL) > chamber - 4:
                words = "pressure"
            made.append(label(words, middle, text_at, size="small", anchor="middle"))
        elif side:
            made.append(label("low side", middle, text_at, size="small", anchor="middle"))
    return made


def axis_line(drawing: Drawing) -> list[Element]:
    """The axis of the unit, brought near; its real distance is in the words."""
    sizes, unit, view = drawing.sizes, drawing.unit, drawing.view
    if sizes.kind == "face":
        x, top, bottom = drawing.left + 20, drawing.top + CAPTION + 8, drawing.bottom + TIER
        beside = label(
            "axis of the seal, not at its distance",
            x - 6,
            (top + bottom) / 2,
            size="small",
            anchor="middle",
            upright=True,
        )
        return [line("chain axis", x, top, x, bottom), beside]
    y = drawing.bottom + TIER + 8
    words = "axis, not at its distance"
    if sizes.surface is not None:
        tight = view.name == "largest"
        ends = sizes.surface.span
        value = ends.high if tight == (sizes.kind == "rod") else ends.low
        words = f"axis, not at its distance: {PART_NAMES[sizes.kind][1]} ø{length_text(value, unit)} {unit}"
    return [
        line("chain axis", drawing.left + 20, y, drawing.left + VIEW_WIDTH - 8, y),
        label(words, drawing.left + VIEW_WIDTH / 2, y + 18, size="small", anchor="middle"),
    ]


def detail_mark(drawing: Drawing, depth: float) -> list[Element]:
    """The thin circle round what is enlarged, and its letter."""
    view, place = drawing.view, drawing.place
    u = detail_at(drawing.sizes, view)
    x, y = place.x(u), place.y((view.clearance or 0.0) / 2)
    outward = 1 if u > 0 else -1
    end = view.width + drawing.frame.land if u > 0 else -drawing.frame.land
    letter_x = place.x(end) + outward * 14
    letter_y = place.surface - place.up * max(depth * place.units_per_mm - 8, 56.0)
    start_x, start_y = x + outward * 8, y - place.up * 8
    return [
        circle("mark", x, y, 11.0),
        line("thin", start_x, start_y, letter_x - outward * 7, letter_y),
        label(drawing.mark, letter_x, letter_y + 6, size="head", anchor="middle"),
    ]
