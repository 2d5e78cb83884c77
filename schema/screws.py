"""Screws and the threaded holes they go into."""

from __future__ import annotations

from typing import ClassVar

from schema.amounts import Amount, amount
from schema.dimension import Dimension
from schema.errors import InputError
from schema.fields import choice, words
from schema.fields import length as size  # a model's own field is called length
from schema.fit import Part, Place
from schema.places import METALS, least
from schema.thread_tables import PROPERTY_CLASSES
from schema.threads import Thread
from schema.threads import thread as screwed  # a model's own field is called thread

SEALS_BY = ("face", "chamfer", "washer")
FORMS = ("screw", "plug", "stud", "nut", "grub_screw")
_SEALS_BY = (
    "how it seals: a ring in the face, a ring in a chamfer at the mouth (ISO 6149), a washer (ISO 9974)"
)


class Screw(Part):
    """A screw, plug, stud or nut. A torque is the maker's own figure."""

    thread: Thread | None = screwed("its thread", "M5x0.8")
    length: Dimension | None = size("length under the head", "6 ±0.1 mm", largest_mm=200)
    width: Dimension | None = size("width along the thread, of a nut", "8 mm", largest_mm=60)
    form: str = choice("what kind of screw it is", FORMS, default="screw")
    property_class: str | None = choice(
        "property class of ISO 898-1 as marked on the head", PROPERTY_CLASSES, default=None
    )
    tensile_strength: Amount | None = amount(
        "stress", "least tensile strength, where no property class is marked", "800 MPa", low=50, high=2500
    )
    strength_source: str = words("where its strength comes from", "maker's data sheet")
    head_diameter: Dimension | None = size("mean diameter of the face under the head", "7 mm", largest_mm=100)
    hollow_diameter: Dimension | None = size(
        "bore through the screw", "3 mm", measured_on="bore", largest_mm=60
    )
    pitch_diameter: Dimension | None = size(
        "pitch diameter, measured over wires", "4.40 ±U0.02 mm", measured_on="indirect", largest_mm=100
    )
    torque: Amount | None = amount("torque", "torque that its maker gives", "4 N m", low=1, high=500_000)
    torque_source: str = words("where the torque comes from", "maker's sheet")
    locking: str = words("how it is kept from turning", "thread lock, medium")
    seals_by: str | None = choice(_SEALS_BY, SEALS_BY, default=None)

    kind: ClassVar[str] = "screw"
    words_for: ClassVar[str] = "screw"

    def __post_init__(self) -> None:
        if self.property_class and _not_of_iso_898(self.material):
            raise InputError(
                field="part.property_class",
                given=self.property_class,
                problem=f"property classes of ISO 898-1 are of steel, not of {self.material}",
                allowed="tensile_strength, by the maker",
                example="tensile_strength: 900 MPa",
            )
        if self.property_class and self.tensile_strength is not None:
            raise InputError(
                field="part.tensile_strength",
                given=self.tensile_strength.text,
                problem=f"the property class {self.property_class} tells the strength already",
                allowed="one of property_class and tensile_strength",
            )
        bore = self.hollow_diameter
        if bore is not None and self.thread and self.thread.major_mm and least(bore) >= self.thread.major_mm:
            raise InputError(
                field="part.hollow_diameter",
                given=bore.text,
                problem=f"the bore is as wide as the screw ({self.thread.in_words})",
            )
        if self.form != "nut":
            external_thread(self.thread, "part.thread")


class ThreadedPort(Place):
    """A tapped hole that a screw, a plug or a fitting goes into. Its torque is the unit's maker's."""

    thread: Thread | None = screwed("its thread", "M5x0.8")
    depth: Dimension | None = size(
        "depth of full thread from the face", "7 mm", measured_on="depth", largest_mm=200
    )
    clamped_thickness: Dimension | None = size(
        "what lies between head and thread: a washer, a bracket; 0 mm where the head bears on the face",
        "1.5 mm",
        allow_zero=True,
        largest_mm=150,
    )
    mouth_chamfer: Dimension | None = size(
        "depth of the chamfer at the mouth; about one pitch where not given",
        "0.5 mm",
        allow_zero=True,
        measured_on="depth",
        largest_mm=20,
    )
    pitch_diameter: Dimension | None = size(
        "pitch diameter, by thread gauge or comparator",
        "4.55 ±U0.02 mm",
        measured_on="indirect",
        largest_mm=100,
    )
    metal: str = choice("metal that is tapped", METALS, default="aluminium")
    tensile_strength: Amount | None = amount(
        "stress", "least tensile strength of the tapped metal", "310 MPa", low=50, high=2500
    )
    strength_source: str = words("where the strength comes from", "maker's drawing")
    end: str = choice(
        "whether the thread ends in the hole or goes through", ("blind", "through"), default="blind"
    )
    torque: Amount | None = amount(
        "torque", "torque that the maker of the unit gives", "4 N m", low=1, high=500_000
    )
    torque_source: str = words("where the torque comes from", "maker's manual")
    seals_by: str | None = choice(_SEALS_BY, SEALS_BY, default=None)

    kind: ClassVar[str] = "threaded_port"
    words_for: ClassVar[str] = "threaded port"

    def __post_init__(self) -> None:
        internal_thread(self.thread, "place.thread")


def internal_thread(found: Thread | None, field: str) -> None:
    """Refuse a tapped hole that is given the class of an external thread only."""
    if found is not None and found.external_class and not found.internal_class:
        raise InputError(
            field=field,
            given=found.text,
            problem=f"{found.external_class} is the class of an external thread; this one is internal",
            allowed="6H, or 2B",
            example=f"{found.label}-6H" if found.family == "metric" else f"{found.label}-2B",
        )


def external_thread(found: Thread | None, field: str) -> None:
    """Refuse a screw that is given the class of an internal thread only."""
    if found is not None and found.internal_class and not found.external_class:
        raise InputError(
            field=field,
            given=found.text,
            problem=f"{found.internal_class} is the class of an internal thread; this one is external",
            allowed="6g, or 2A",
            example=f"{found.label}-6g" if found.family == "metric" else f"{found.label}-2A",
        )


_OTHER_METALS = ("titan", "stainless", "alumin", "brass", "bronze", "plastic", "nylon", "inox", "a2", "a4")


def _not_of_iso_898(material: str) -> bool:
    plain = material.lower()
    return any(plain.startswith(name) or f" {name}" in plain for name in _OTHER_METALS)
