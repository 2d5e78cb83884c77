"""The cut parts of a gland: metal with its hatching, back-up rings, the ring."""

from __future__ import annotations

from catalogue.picture.frame import Frame, Map
from catalogue.picture.sizes import View
from catalogue.picture.svg import Element, circle, group, line, number, path, polyline_data, rectangle

Box = tuple[float, float, float, float]  # x, y, width, height
HATCHES = (("metal", 45, 9.0), ("mate", -45, 9.0), ("plastic", -45, 4.5), ("band", 45, 6.0))


def hatch_patterns(prefix: str) -> list[Element]:
    """Hatching at 45 degrees; parts that touch lean to opposite sides (ISO 128-50)."""
    made = []
    for name, angle, pitch in HATCHES:
        pattern = Element(
            "pattern",
            {
                "id": f"{prefix}-{name}",
                "width": number(pitch),
                "height": number(pitch),
                "patternUnits": "userSpaceOnUse",
                "patternTransform": f"rotate({angle})",
            },
        )
        made.append(pattern.add(line("hatch", pitch / 2, 0, pitch / 2, pitch)))
    return made


def hatched(prefix: str, name: str, data: str, spare: Box | None = None) -> Element:
    """A hatched area; the hatching is interrupted at ``spare``, where a text stands."""
    if spare:
        x, y, width, height = spare
        corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
        data = f"{data} {polyline_data(corners, closed=True)}"
    area = path(f"area-{name}", data)
    area.attributes["fill"] = f"url(#{prefix}-{name})"
    area.attributes["fill-rule"] = "evenodd"
    return area


def body_corners(view: View, frame: Frame, place: Map) -> tuple[str, str]:
    """Path data of the grooved part: its outline from land to land, and the closed area."""
    depth, clearance = view.depth or view.section, view.clearance or 0.0
    width, radius = view.width, view.corner_radius
    top = frame.deepest + frame.body
    sweep = int(place.up > 0)
    bend = f"A{number(radius * place.units_per_mm)} {number(radius * place.units_per_mm)} 0 0 {sweep} "
    steps = [
        "M" + place.point(-frame.land, top),
        "L" + place.point(-frame.land, clearance),
        "L" + place.point(0.0, clearance),
        "L" + place.point(0.0, depth - radius),
        bend + place.point(radius, depth) if radius > 0 else "",
        "L" + place.point(width - radius, depth),
        bend + place.point(width, depth - radius) if radius > 0 else "",
        "L" + place.point(width, clearance),
        "L" + place.point(width + frame.land, clearance),
        "L" + place.point(width + frame.land, top),
    ]
    outline = " ".join(step for step in steps if step)
    return outline, outline + " Z"


def grooved_part(prefix: str, view: View, frame: Frame, place: Map, spare: Box | None) -> Element:
    """Piston, housing or body with its groove, cut; walls of a width not given are dashed."""
    outline, area = body_corners(view, frame, place)
    edge = path("wide groove" if view.width_given else "hidden groove", outline)
    top = place.y(frame.deepest + frame.body)
    ends = place.x(-frame.land), place.x(view.width + frame.land)
    return group("grooved-part", hatched(prefix, "metal", area, spare), edge, break_line(ends, top))


def mating_part(
    prefix: str, view: View, frame: Frame, place: Map, spare: Box | None, *, cut: bool
) -> Element:
    """Bore, lid or shaft. A shaft is not cut along its axis (ISO 128-40), so it has no hatching."""
    left = place.x(-frame.land) - frame.chamber_left
    right = place.x(view.width + frame.land) + frame.chamber_right
    surface, far = place.y(0.0), place.y(-frame.mate)
    made = group("mating-part")
    if cut:
        corners = [(left, surface), (right, surface), (right, far), (left, far)]
        made.add(hatched(prefix, "mate", polyline_data(corners, closed=True), spare))
    made.add(line("wide mating", left, surface, right, surface), break_line((left, right), far))
    turn = 1 if far > surface else -1
    middle = (surface + far) / 2
    for x in (left, right):
        zigzag = [(x, middle - turn * 6), (x - 6, middle - turn * 2), (x + 6, middle + turn * 2)]
        made.add(path("thin", polyline_data([(x, surface), *zigzag, (x, middle + turn * 6), (x, far)])))
    return made


def break_line(ends: tuple[float, float], y: float) -> Element:
    """A thin line with zigzags: the part goes on (ISO 128-2, line type 01.1 with zigzags)."""
    left, right = ends
    points = [(left, y)]
    for share in (0.22, 0.78):
        x = left + share * (right - left)
        points += [(x - 6, y), (x - 2, y - 6), (x + 2, y + 6), (x + 6, y)]
    return path("thin", polyline_data([*points, (right, y)]))


def back_up_rings(prefix: str, view: View, place: Map) -> list[Element]:
    """Back-up rings against their walls, resting on the mating surface."""
    made = []
    for start, end in view.back_ups:
        bottom, top = sorted((place.y(0.0), place.y(view.back_up_thickness)))
        box = (place.x(start), bottom, (end - start) * place.units_per_mm, top - bottom)
        corners = [(box[0], box[1]), (box[0] + box[2], box[1])]
        corners += [(box[0] + box[2], box[1] + box[3]), (box[0], box[1] + box[3])]
        name = "wide" if view.back_up_given else "hidden"
        made.append(hatched(prefix, "plastic", polyline_data(corners, closed=True)))
        made.append(rectangle(f"{name} back-up", *box))
    return made


def squeezed_ring(view: View, place: Map) -> Element:
    """The rubber as it lies between its surfaces, its flats drawn heavy."""
    shape = view.pressed or view.free
    made = group("ring", path("rubber", place.outline(shape, view.centre)))
    if view.pressed and view.depth is not None:
        for start, end in shape.contacts:
            for v in (0.0, view.depth):
                y = place.y(v)
                made.add(
                    line("contact", place.x(view.centre[0] + start), y, place.x(view.centre[0] + end), y)
                )
    return made


def free_ring(view: View, place: Map, *, round_section: bool) -> Element:
    """The free section, a thin outline over the squeezed one."""
    x, y = place.x(view.centre[0]), place.y(view.centre[1])
    if round_section:
        return circle("free", x, y, view.section / 2 * place.units_per_mm)
    return path("free", place.outline(view.free, view.centre))
