"""What one view is drawn from, and where its parts stand on the sheet."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.picture.frame import AXIS_ROOM, COLUMN, TIER, Frame, Map
from catalogue.picture.sizes import RIGHT, GlandSizes, Unit, View

CAPTION = 30.0
PART_NAMES = {"rod": ("housing", "shaft"), "piston": ("piston", "bore"), "face": ("body", "lid")}


@dataclass(frozen=True)
class Drawing:
    """Everything a view is drawn from, and where its upper left corner stands."""

    prefix: str
    sizes: GlandSizes
    frame: Frame
    view: View
    unit: Unit
    pressure: str
    mark: str
    left: float
    top: float

    @property
    def round_section(self) -> bool:
        """Whether the free section is a circle."""
        return len(self.view.free.arcs) == 4

    @property
    def place(self) -> Map:
        """Places of this view."""
        frame, up = self.frame, 1 if self.sizes.kind == "rod" else -1
        left = self.left + frame.axis_left + frame.slack + COLUMN
        left += frame.chamber_left + frame.land * frame.units_per_mm
        start = self.top + CAPTION + TIER
        beyond = (frame.body + frame.deepest) if up > 0 else frame.mate
        return Map(frame.units_per_mm, left, start + beyond * frame.units_per_mm, up)

    @property
    def bottom(self) -> float:
        """Lower edge of the parts."""
        return self.top + CAPTION + TIER + self.frame.height

    @property
    def columns(self) -> tuple[float, float]:
        """Where the vertical dimension lines stand, left and right."""
        first = self.left + self.frame.axis_left + self.frame.slack + 38.0
        return first, self.right_edge + 20.0

    @property
    def right_edge(self) -> float:
        """Right end of the mating part."""
        return self.place.x(self.view.width + self.frame.land) + self.frame.chamber_right


def view_height(sizes: GlandSizes, frame: Frame) -> float:
    """Height of one view, caption to axis."""
    if not frame.known:
        return CAPTION + frame.height + 40.0
    return CAPTION + 2 * TIER + frame.height + (0.0 if sizes.kind == "face" else AXIS_ROOM)


def detail_at(sizes: GlandSizes, view: View) -> float:
    """The corner whose clearance the pressure pushes into: on the low-pressure side."""
    return 0.0 if sizes.pressure_from == RIGHT else view.width
