"""Gas valves: the core, the body or cap it belongs to, and the seat the body goes into.

A tyre core fits the thread of a high-pressure valve and does not belong there, so family, chamber and
length of a core are fields of their own.
"""

from __future__ import annotations

from typing import Any, ClassVar

from schema.amounts import Amount, amount
from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import Meaning, choice, field_of, number, words
from schema.fields import length as size  # a model's own field is called length
from schema.fit import Part, Place
from schema.materials import material_code
from schema.places import METALS, largest
from schema.screws import SEALS_BY, external_thread, internal_thread
from schema.threads import Thread
from schema.threads import thread as screwed  # a model's own field is called thread

CORE_FAMILIES = ("high_pressure", "tyre")
HEAT_FAMILIES = ("general", "heat_resistant")
_RATING = "highest gauge pressure that its maker rates it for"


def _elastomer(doc: str) -> Any:
    def read(value: Any, path: str) -> str:
        return material_code(str(value), field=path)

    return field_of(Meaning(doc, "NBR", "text", read), "")


class ValveCore(Part):
    """The core: pin, spring and seal that screw into a valve body."""

    thread: Thread | None = screwed("thread of the core", "5V1")
    length: Dimension | None = size("length of the core", "18.5 ±0.3 mm", largest_mm=100)
    core_family: str | None = choice("what kind of valve it is made for", CORE_FAMILIES, default=None)
    core_chamber: int | None = number(
        "number of the core chamber it fits, ISO 20562", "1", low=1, high=3, whole=True
    )
    pressure_rating: Amount | None = amount("pressure", _RATING, "20 MPa", low=0, high=100, limit=True)
    rating_source: str = words("where the rating comes from", "maker's sheet")
    heat_family: str | None = choice("general or heat resistant", HEAT_FAMILIES, default=None)
    seat: str | None = choice("what it seals with", ("rubber", "lead", "plastic"), default=None)
    seal_material: str = _elastomer("elastomer it seals with, ISO 1629 code")
    pin_below: Dimension | None = size(
        "how far the pin ends below the mouth, core tightened",
        "0.3 mm",
        allow_zero=True,
        measured_on="depth",
        largest_mm=20,
    )
    pin_proud: Dimension | None = size(
        "how far the pin stands above the mouth, core tightened",
        "0.05 mm",
        allow_zero=True,
        measured_on="depth",
        largest_mm=20,
    )
    torque: Amount | None = amount("torque", "torque that its maker gives", "0.3 N m", low=1, high=20_000)
    torque_source: str = words("where the torque comes from", "maker's sheet")

    kind: ClassVar[str] = "valve_core"
    words_for: ClassVar[str] = "valve core"

    def __post_init__(self) -> None:
        external_thread(self.thread, "part.thread")
        if self.pin_below is not None and self.pin_proud is not None:
            raise InputError(
                field="part.pin_proud",
                given=self.pin_proud.text,
                problem="the pin is also told to end below the mouth (pin_below)",
                allowed="one of the two",
            )
        # The largest figure known for a core is 0.4 N m; those for the nut of a stem are 4 to 12.
        if self.torque is not None and self.torque.upper > _LARGEST_CORE_TORQUE:
            raise InputError(
                field="part.torque",
                given=self.torque.text,
                problem="this is the torque of a stem nut, 10 to 40 times what a core takes",
                allowed="up to 2 N m; printed for cores: 0.29 and 0.39 N m (JIS D 4211-1994)",
                example="0.29 N m",
            )


_LARGEST_CORE_TORQUE = 2000  # N mm, own judgement: between the printed core and stem-nut figures


class ValveFitting(Part):
    """A valve body, a banjo, or a cap: ``inside_thread`` takes the core (a cap's goes on the body)."""

    thread: Thread | None = screwed("thread that goes into the seat", "M8x1")
    inside_thread: Thread | None = screwed("thread inside: of the core, or of a cap", "5V1")
    cap_thread: Thread | None = screwed("thread that takes cap and pump", "8V1")
    length: Dimension | None = size("length under the collar", "14 ±0.1 mm", largest_mm=100)
    outside_diameter: Dimension | None = size("diameter of the collar", "8.9 mm", largest_mm=100)
    core_family: str | None = choice("core it must have", CORE_FAMILIES, default=None)
    core_chamber: int | None = number("number of its core chamber, ISO 20562", "1", low=1, high=3, whole=True)
    core_depth: Dimension | None = size(
        "room for the core, from the mouth to the floor of the chamber",
        "21 mm",
        measured_on="depth",
        largest_mm=100,
    )
    pressure_rating: Amount | None = amount("pressure", _RATING, "20 MPa", low=0, high=100, limit=True)
    rating_source: str = words("where the rating comes from", "maker's sheet")
    pitch_diameter: Dimension | None = size(
        "pitch diameter, measured over wires", "7.25 ±U0.02 mm", measured_on="indirect", largest_mm=100
    )
    torque: Amount | None = amount("torque", "torque that its maker gives", "6 N m", low=1, high=100_000)
    torque_source: str = words("where the torque comes from", "maker's sheet")
    seals_by: str | None = choice("how it seals on its seat", SEALS_BY, default=None)
    seal_material: str = _elastomer("elastomer of its seal, ISO 1629 code")

    kind: ClassVar[str] = "valve_fitting"
    words_for: ClassVar[str] = "valve fitting"

    def __post_init__(self) -> None:
        external_thread(self.thread, "part.thread")
        internal_thread(self.inside_thread, "part.inside_thread")

    @property
    def is_cap(self) -> bool:
        """A cap has a thread inside and none to go into a seat."""
        return self.thread is None and self.inside_thread is not None


class ValveSeat(Place):
    """The threaded hole that a valve body goes into."""

    thread: Thread | None = screwed("its thread", "M8x1")
    counterbore: Dimension | None = size(
        "diameter of the counterbore at the mouth", "9.0 +0.1/0 mm", measured_on="bore", largest_mm=100
    )
    depth: Dimension | None = size(
        "depth of full thread, from where the collar bears", "15 mm", measured_on="depth", largest_mm=200
    )
    clamped_thickness: Dimension | None = size(
        "what lies between collar and seat: a washer; 0 mm where the collar bears on it",
        "1.5 mm",
        allow_zero=True,
        largest_mm=20,
    )
    mouth_chamfer: Dimension | None = size(
        "depth of the chamfer at the thread's mouth; about one pitch where not given",
        "0.5 mm",
        allow_zero=True,
        measured_on="depth",
        largest_mm=20,
    )
    pitch_diameter: Dimension | None = size(
        "pitch diameter, by thread gauge or comparator",
        "7.40 ±U0.02 mm",
        measured_on="indirect",
        largest_mm=100,
    )
    core_family: str | None = choice("core that the unit must have", CORE_FAMILIES, default=None)
    core_chamber: int | None = number("number of the core chamber, ISO 20562", "1", low=1, high=3, whole=True)
    end: str = choice(
        "whether the thread ends in the hole or goes through", ("blind", "through"), default="through"
    )
    metal: str = choice("metal of the seat", METALS, default="aluminium")
    torque: Amount | None = amount(
        "torque", "torque of the valve body that the maker of the unit gives", "6 N m", low=1, high=100_000
    )
    torque_source: str = words("where the torque comes from", "maker's manual")
    seals_by: str | None = choice("how the body seals on it", SEALS_BY, default=None)

    kind: ClassVar[str] = "valve_seat"
    words_for: ClassVar[str] = "valve seat"

    def __post_init__(self) -> None:
        internal_thread(self.thread, "place.thread")
        bore, inside = self.counterbore, self.thread
        if bore is None or inside is None or inside.major_mm is None:
            return
        if float(largest(bore)) < inside.major_mm:
            raise InputError(
                field="place.counterbore",
                given=bore.text,
                problem=f"is smaller than the thread below it ({inside.in_words})",
                allowed=f"{inside.major_mm:g} mm or more",
            )
