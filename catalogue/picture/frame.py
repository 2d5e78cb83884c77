"""From sizes in mm to places on the sheet: one scale for both views, and room for every text."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.picture.shapes import Arc, Section
from catalogue.picture.sizes import BOTH, LEFT, RIGHT, GlandSizes, View
from catalogue.picture.style import SMALL
from catalogue.picture.svg import number, text_width

UNITS_PER_MM = 1000 / 180  # the wide sheet is 1000 units, 180 mm on A4 with margins
VIEW_WIDTH = 488.0
COLUMN, RIGHT_COLUMN = 46.0, 56.0  # for a vertical dimension
TIER = 60.0  # for a horizontal dimension
AXIS_ROOM = 34.0
LARGEST_HEIGHT = 340.0
ARROW_ROOM = 64.0

# ISO 5455 prefers 2, 5 and 10; whole-number scales between them are taken where they use the sheet better.
SCALES = (0.1, 0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200)
SCALES_OF_DETAILS = (*SCALES, 250, 300, 400, 500, 600, 800, 1000, 1500, 2000)


@dataclass(frozen=True)
class Frame:
    """What both views share: scale, lengths shown of the lands [mm], room beside them [units]."""

    scale: float
    land: float
    body: float
    mate: float
    chamber_left: float
    chamber_right: float
    height: float
    deepest: float
    axis_left: float
    slack: float
    known: bool

    @property
    def units_per_mm(self) -> float:
        """Units of the sheet for one mm of the part."""
        return self.scale * UNITS_PER_MM


@dataclass(frozen=True)
class Map:
    """Places of one drawing: ``up`` is 1 where the groove opens downward, -1 where it opens upward."""

    units_per_mm: float
    left: float
    surface: float
    up: int

    def x(self, u: float) -> float:
        """Along the groove."""
        return self.left + u * self.units_per_mm

    def y(self, v: float) -> float:
        """Across the gland."""
        return self.surface - self.up * v * self.units_per_mm

    def point(self, u: float, v: float) -> str:
        """A point in path data."""
        return f"{number(self.x(u))} {number(self.y(v))}"

    def arc(self, arc: Arc) -> str:
        """Path data from the start of an arc to its end."""
        turn = arc.end - arc.start
        sweep = int((turn > 0) != (self.up > 0))
        radius = number(arc.radius * self.units_per_mm)
        far = int(abs(turn) > 3.14159265)
        return f"A{radius} {radius} 0 {far} {sweep} {self.point(*arc.at(arc.end))}"

    def outline(self, section: Section, centre: tuple[float, float]) -> str:
        """Path data of a ring's section."""
        steps: list[str] = []
        for arc in section.arcs:
            moved = Arc(arc.u + centre[0], arc.v + centre[1], arc.radius, arc.start, arc.end)
            start = self.point(*moved.at(moved.start))
            if not steps:
                steps.append("M" + start)
            elif not steps[-1].endswith(" " + start):
                steps.append("L" + start)
            if arc.radius > 1e-9:
                steps.append(self.arc(moved))
        return " ".join(steps) + " Z"


def scale_words(scale: float) -> str:
    """A scale as it is written on a drawing.

    >>> scale_words(12), scale_words(0.5)
    ('12:1', '1:2')
    """
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"


def frame_of(sizes: GlandSizes, views: tuple[View, View], pressure: str) -> Frame:
    """The largest scale at which both views have room."""
    section = max(view.section for view in views)
    deepest = max(view.depth or view.section for view in views)
    width = max(view.width for view in views)
    over = max(view.free.width / 2 - min(view.centre[0], view.width - view.centre[0]) for view in views)
    land = 0.26 * section + max(over, 0.0)
    chambers = [_chamber(side, sizes.pressure_from, pressure) for side in (LEFT, RIGHT)]
    axis_left = AXIS_ROOM if sizes.kind == "face" else 0.0
    along = VIEW_WIDTH - COLUMN - RIGHT_COLUMN - sum(chambers) - axis_left
    part = 0.42 * section
    fitting = [
        scale
        for scale in SCALES
        if (width + 2 * land) * scale * UNITS_PER_MM <= along
        and (deepest + 2 * part) * scale * UNITS_PER_MM <= LARGEST_HEIGHT
    ]
    scale = fitting[-1] if fitting else SCALES[0]
    least = 42.0 / (scale * UNITS_PER_MM)
    known = any(view.depth is not None for view in views)
    body = mate = max(part, least) if known else 0.0
    height = (deepest + body + mate) * scale * UNITS_PER_MM
    slack = max(along - (width + 2 * land) * scale * UNITS_PER_MM, 0.0) / 2
    return Frame(scale, land, body, mate, chambers[0], chambers[1], height, deepest, axis_left, slack, known)


def _chamber(side: str, pressure_from: str, pressure: str) -> float:
    if pressure_from in (side, BOTH):
        return max(ARROW_ROOM, min(text_width(pressure, SMALL) + 14.0, 110.0))
    return ARROW_ROOM if pressure_from else 26.0


def detail_scale(clearance: float, view_scale: float) -> float | None:
    """Scale at which a clearance [mm] is plain to see; None where the view itself shows it."""
    if clearance <= 0.0:
        return None
    fitting = [scale for scale in SCALES_OF_DETAILS if clearance * scale * UNITS_PER_MM <= 34.0]
    return fitting[-1] if fitting and fitting[-1] > view_scale else None
