"""A measured size that cannot be one of the part or place it is told for: a wrong unit, digit or place.

Wear takes tenths from a diameter, never a third. What is read in inches and written as mm, or belongs to
another part, would else be judged as if it were worn.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from schema.dimension import Dimension
from schema.errors import InputError, InputErrors
from schema.fields import meaning_of
from schema.kinds import PARTS, PLACES, model_of
from schema.places import largest, least
from schema.unit_parts import part_from

Texts = Mapping[str, Any]

FARTHEST = Decimal(
    "1.5"
)  # times as large or as small as drawn: shop rule, no source; 25.4 and 10 lie far beyond it
LEAST_MM = 1  # below it wear itself may be half of a size: clearances, linings
_NEAR_ITS_DRAWING = (
    "outside",
    "bore",
    "recess",
    "slot",
    "rubber",
)  # a depth or a volume may be found anywhere


def far_from_drawn(measured: Texts, places: Texts, parts: Texts) -> Iterator[InputError]:
    """An error for every measured diameter, width or section that is far from what is drawn.

    ``measured`` is by place, or by the name of what several places run on, as a file of measurements is.
    """
    for name, told in measured.items():
        if not isinstance(told, Mapping):
            continue
        at = [name] if name in places else [one for one in places if _of(places[one], "runs_on") == name]
        for place in at:
            yield from _of_place(f"measured.{name}", told, places[place], parts)


def _of_place(path: str, told: Texts, place: Any, parts: Texts) -> Iterator[InputError]:
    for field, text in told.items():
        if isinstance(text, Mapping):
            part = next((one for number, one in parts.items() if number.lower() == str(field).lower()), None)
            for inner, read in text.items():
                yield from _far(f"{path}.{field}.{inner}", part, str(inner), read)
        else:
            yield from _far(f"{path}.{field}", place, str(field), text)


def _far(path: str, drawn: Any, field: str, text: Any) -> Iterator[InputError]:
    """What was read against what is drawn; nothing where one of them is no size, which others tell."""
    kind, field = str(_of(drawn, "kind")).strip().lower(), field.replace("-", "_")
    declared = model_of(kind).declared.get(field) if kind in PARTS or kind in PLACES else None
    if declared is None or meaning_of(declared).measured_on not in _NEAR_ITS_DRAWING:
        return
    try:
        size = meaning_of(declared).read(text, path)
        if kind in PARTS:
            new = getattr(part_from(drawn, number="drawn"), field)  # a ring may be told by its size code
        else:
            new = meaning_of(declared).read(_of(drawn, field), path)
    except (InputError, InputErrors):
        return
    if not isinstance(size, Dimension) or not isinstance(new, Dimension) or least(new) < LEAST_MM:
        return
    if least(size) > FARTHEST * largest(new) or FARTHEST * largest(size) < least(new):
        yield InputError(
            field=path,
            given=text,
            problem=f"cannot be the size that is drawn ({new.text}): is the unit right, and is it this one?",
            allowed="measure it again; where the drawn size is wrong, correct that first",
        )


def _of(texts: Any, field: str) -> Any:
    return texts.get(field, "") if isinstance(texts, Mapping) else ""
