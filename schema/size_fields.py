"""Which field each of two or three bare sizes is, by the kind of part they belong to.

20x3 of an O-ring is d1 x d2, 16x24x5 of an oil seal is shaft x bore x width (common practice, no source).
Where the kind does not settle it, or the numbers cannot be those fields, there is a doubt and no field.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from schema.kinds import PARTS, model_of

RING_KINDS = ("o_ring", "four_lobed_ring")
RING_FIELDS = ("inside_diameter", "cross_section")
_PRESSED = ("made_for_shaft", "made_for_bore", "width")
IN_ORDER = {
    "o_ring": RING_FIELDS,
    "four_lobed_ring": RING_FIELDS,
    "lip_seal": _PRESSED,
    "wiper": _PRESSED,
    "plain_bushing": ("inside_diameter", "outside_diameter", "length"),
    "bearing": ("inside_diameter", "outside_diameter", "width"),
}
_SIDE = (
    ("bore_diameter", re.compile(r"\b(?:internal|innen|bore|bohrung|intérieurs?|interno)\b", re.I)),
    ("shaft_diameter", re.compile(r"\b(?:external|außen|aussen|shaft|welle|extérieurs?|esterno)\b", re.I)),
)
THINNEST = 0.5  # mm: no ring, seal or bushing is thinner; a smaller number without a unit is inches
LARGEST = 700.0  # mm, as the models of parts take it
_SAME_MM = 0.051  # how far printed inside, section and outside may miss each other by rounding


class Size(NamedTuple):
    """One number of a group: as written, its unit (mm, in or ""), its place."""

    number: str
    unit: str
    start: int
    end: int

    @property
    def value(self) -> float:
        """The bare number, in its own unit."""
        whole, _, fraction = self.number.replace("-", " ").rpartition(" ")
        above, stroke, below = fraction.partition("/")
        if stroke:
            return float(whole or 0) + float(above) / float(below)
        return float(self.number.replace(",", "."))


def ring_like(values: list[float]) -> bool:
    """Whether two sizes [mm] can be d1 and d2 of a ring in this order.

    >>> ring_like([20.0, 3.0]), ring_like([3.0, 20.0])
    (True, False)
    """
    inside, section = values
    return min(values) >= THINNEST and section <= 1.5 * inside and inside <= LARGEST


def rising(values: list[float]) -> bool:
    """Whether sizes [mm] can be inside, outside and width in this order."""
    return values[0] < values[1] and min(values) >= THINNEST and max(values) <= LARGEST


class Assigned(NamedTuple):
    """Sizes by field, or a doubt. ``by_digits`` where other digits could have led to other fields."""

    fields: dict[str, Size]
    doubt: str = ""
    by_digits: bool = False


def assigned(kind: str, sizes: Sequence[Size], *, of_ring: bool, text: str) -> Assigned:
    """Which field each size is. ``text`` is the whole description, for its words for bore and shaft.

    >>> found = assigned("wiper", [Size("16", "", 0, 2), Size("24", "", 3, 5)], of_ring=False, text="16x24")
    >>> list(found.fields)
    ['made_for_shaft', 'made_for_bore']
    """
    if of_ring:
        return _of_ring(sizes)
    if kind == "retaining_ring":
        return _of_retaining_ring(sizes, text)
    names = IN_ORDER.get(kind)
    if names is None and not kind:
        count = {2: "two", 3: "three"}.get(len(sizes), "so many")
        return Assigned({}, f"{count} sizes mean different things by kind of part, and no kind is told")
    if names is None:
        return Assigned({}, f"which size is which is not told for {in_words(kind)}")
    if len(sizes) > len(names) or sizes[0].value >= sizes[1].value:
        return Assigned({}, f"these are not {' x '.join(names).replace('_', ' ')} in this order")
    return Assigned(dict(zip(names, sizes, strict=False)))


def _of_ring(sizes: Sequence[Size]) -> Assigned:
    values = [one.value for one in sizes]
    if len(sizes) == 3:  # inside, section and outside agree in one order only
        inside, second, third = values
        if abs(inside + 2 * third - second) < _SAME_MM:
            return Assigned(dict(zip(RING_FIELDS, (sizes[0], sizes[2]), strict=True)), by_digits=True)
        if abs(inside + 2 * second - third) < _SAME_MM:
            return Assigned(dict(zip(RING_FIELDS, sizes[:2], strict=True)), by_digits=True)
    if sizes[-1].unit == "in":
        values = [25.4 * one for one in values]
    if len(sizes) != 2 or not ring_like(values):
        return Assigned({}, "these are not the inside diameter and the section of a ring")
    return Assigned(dict(zip(RING_FIELDS, sizes, strict=True)))


def _of_retaining_ring(sizes: Sequence[Size], text: str) -> Assigned:
    sides = [field for field, words in _SIDE if words.search(text)]
    if len(sizes) != 2 or len(sides) != 1 or sizes[0].value <= sizes[1].value:
        return Assigned({}, "is this ring for a bore or for a shaft?")
    return Assigned(dict(zip((sides[0], "thickness"), sizes, strict=True)), by_digits=True)


@cache
def in_words(kind: str) -> str:
    """A kind as a person says it."""
    if not kind:
        return "this part"
    words: str = getattr(model_of(kind), "words_for", kind) if kind in PARTS else kind
    return words
