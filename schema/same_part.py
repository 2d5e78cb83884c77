"""When two parts of different suppliers are the same article, and when a size given is not that of its code.

The key of a part is made of what identifies it: kind, nominal sizes in hundredths of a millimetre, material,
hardness. Where one of these is not known there is no key, and nothing is matched.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import Any

from schema.dimension import Dimension
from schema.model import Model
from schema.ring_sizes import RingSize
from schema.tables import rows
from schema.threads import Thread
from schema.trade_names import named_material

_HUNDREDTH = Decimal("0.01")
_INCH = Decimal("25.4")
# Half of the last digit a catalogue prints, and never more than this [mm].
_LARGEST_ROUNDING_MM = Decimal("0.05")
_MOST_CODES = 3  # more names help nobody

_RING = ("inside_diameter", "cross_section", "material", "hardness_shore_a")
_SEAL_KIND = ("?hardness_shore_a", "?lips", "?case")
_WIPER_KIND = ("?hardness_shore_a", "?total_height", "?case")
_MARKED = ("made_for_shaft", "made_for_bore", "width", "material")
_LOOSE = ("inside_diameter", "outside_diameter", "width", "material")
# Fields that identify a part, by kind; the first list of which all are known counts. A field with "?" need
# not be known, but then must be unknown of both: a seal with two lips is not matched with an untold one.
IDENTIFYING: dict[str, tuple[tuple[str, ...], ...]] = {
    "o_ring": (_RING,),
    "four_lobed_ring": (_RING,),
    "back_up_ring": (("width", "radial_thickness", "inside_diameter", "material"),),
    "lip_seal": ((*_MARKED, *_SEAL_KIND), (*_LOOSE, *_SEAL_KIND)),
    "wiper": ((*_MARKED, *_WIPER_KIND), (*_LOOSE, *_WIPER_KIND)),
    "guide_ring": (
        ("outside_diameter", "thickness", "width", "material", "?joint"),
        ("inside_diameter", "thickness", "width", "material", "?joint"),
    ),
    "plain_bushing": (
        ("inside_diameter", "outside_diameter", "length", "style", "material", "?flange_diameter"),
    ),
    "retaining_ring": (
        ("standard", "?material"),
        ("style", "size", "thickness", "?material"),
    ),
    "bearing": (
        ("designation",),
        ("inside_diameter", "outside_diameter", "width", "?style", "?outer_width"),
    ),
    "screw": (("thread", "length", "form", "?property_class", "?head_diameter", "?material"),),
    "valve_core": (("thread", "length", "?core_family", "?core_chamber", "?heat_family", "?seal_material"),),
}
# A name that tells only the family of a material does not identify one.
_HALF_A_NAME = ("names no kind of", "may be ", "an open foam of a kind")
_UNDECIDED = frozenset(("polyurethane", "urethane", "pu", "pur"))


def typed_key(part: Model) -> str:
    """The key of a part; "" for a kind that sizes do not identify, or where one of its fields is missing.

    >>> from schema.unit_parts import part_from
    >>> ring = {"kind": "o_ring", "material": "nitrile", "hardness_shore_a": "70"}
    >>> by_code = part_from({**ring, "size": "214"}, number="A")
    >>> by_size = part_from({**ring, "inside_diameter": "24.99 mm", "cross_section": "3.53 mm"}, number="B")
    >>> typed_key(by_code), typed_key(by_code) == typed_key(by_size)
    ('o_ring|24.99|3.53|NBR|70', True)
    """
    kind: str = getattr(part, "kind", "")
    for at, fields in enumerate(IDENTIFYING.get(kind, ())):
        words = [_word(part, field) for field in fields]
        if all(word or field[0] == "?" for word, field in zip(words, fields, strict=True)):
            way = f"#{at}" if at else ""
            return "|".join((kind + way, *words))
    return ""


def _word(part: Model, field: str) -> str:
    """One field as it stands in a key; "" where it is not known."""
    field = field.removeprefix("?")
    if field == "material":
        return _material(str(getattr(part, field, "")))
    if getattr(part, "kind", "") == "retaining_ring" and field in _OF_RETAINING_RING:
        value = _OF_RETAINING_RING[field](part)
    else:
        value = getattr(part, field, None)
    if value is None or value == "":
        return ""
    if isinstance(value, Dimension):  # a reading is no nominal size
        return "" if value.measured else _hundredths(value.nominal)
    if isinstance(value, Thread):
        return value.label + (" LH" if value.left_hand else "")
    if field == "designation":
        return "".join(one for one in str(value).upper() if one.isalnum())
    if isinstance(value, float):
        return f"{value:g}"
    return str(value).lower()


@cache
def _material(text: str) -> str:
    """A material's code where its name says no more than that, else the name itself; "" for half a name."""
    name = named_material(text)
    plain = " ".join(text.lower().replace("_", " ").replace("-", " ").split())
    if plain in _UNDECIDED or name.remark.startswith(_HALF_A_NAME):
        return ""
    return plain if name.remark or not name.code else name.code


def _hundredths(size: Decimal) -> str:
    return str(size.quantize(_HUNDREDTH, ROUND_HALF_UP))


def _standard(part: Any) -> str:
    """Standard and size of a retaining ring, however they are written: DIN 472 36."""
    named = part.designation
    return f"{named.standard} {named.size:g}" if named is not None else ""


# Of a retaining ring the model works these out from what it was told.
_OF_RETAINING_RING: dict[str, Callable[[Any], Any]] = {
    "standard": _standard,
    "style": lambda part: part.found_style,
    "thickness": lambda part: part.thickness or part.wire_diameter,
}


# -- a code and the sizes beside it --------------------------------------------------------------------


def size_contradiction(
    size: RingSize, inside_diameter: Dimension | None, cross_section: Dimension | None
) -> str:
    """Why the sizes given beside a size code are not that code's; "" where they can be.

    A size may lie anywhere within the limits of the standard, widened by the rounding of catalogues: half of
    its last digit, at most 0.05 mm. The words name the likely slip: inches under millimetres, d1 and d2
    exchanged, another code.

    >>> from schema.dimension import parse_dimension
    >>> from schema.ring_sizes import ring_size
    >>> given = [parse_dimension(text) for text in ("24.99 mm", "3.53 mm")]
    >>> size_contradiction(ring_size("214"), *given)
    ''
    >>> size_contradiction(ring_size("215"), *given)
    'AS568-215 has inside diameter 26.31 to 26.82 mm; 24.99 mm is given: these are the sizes of AS568-214'
    """
    pairs = (
        ("inside diameter", size.inside_diameter, inside_diameter),
        ("cross section", size.cross_section, cross_section),
    )
    wrong = [
        (name, own, given) for name, own, given in pairs if given is not None and not _within(given, own)
    ]
    if not wrong:
        return ""
    told = ", ".join(
        f"{name} {_hundredths(own.lower)} to {_hundredths(own.upper)} mm" for name, own, _ in wrong
    )
    written = " x ".join(given.text for _, _, given in wrong if given is not None)
    slip = _slip(size, inside_diameter, cross_section, [(own, given) for _, own, given in wrong])
    return f"{size.code} has {told}; {written} is given{slip}"


def _slip(
    size: RingSize,
    inside: Dimension | None,
    section: Dimension | None,
    wrong: list[tuple[Dimension, Dimension | None]],
) -> str:
    """The likely slip, in words; "" where none is seen."""
    if all(given is not None and _within(given, own, _INCH) for own, given in wrong):
        return ": it looks like inches taken for millimetres"
    if all(given is not None and _within(given, own, 1 / _INCH) for own, given in wrong):
        return ": it looks like millimetres taken for inches"
    if inside is None or section is None:
        return ""
    if _within(inside, size.cross_section) and _within(section, size.inside_diameter):
        return ": inside diameter and cross section look exchanged"
    codes = _codes_of(inside, section)
    return f": these are the sizes of {' or '.join(codes)}" if codes else ""


def _within(given: Dimension, own: Dimension, factor: Decimal = Decimal(1)) -> bool:
    """Whether a nominal size, times a factor, can be one of a standard."""
    rounding, size = _rounding(given) * factor, given.nominal * factor
    return own.lower - rounding <= size <= own.upper + rounding


def _rounding(given: Dimension) -> Decimal:
    """Half of the last digit written [mm], at most 0.05 mm; of a fraction of an inch the most."""
    found = _FIRST_NUMBER.search(given.text)
    if found is None or "/" in given.text:
        return _LARGEST_ROUNDING_MM
    written = Decimal(found[0].replace(",", "."))
    half = Decimal(5).scaleb(-len(found[1] or "") - 1)
    inches = abs(written * _INCH - given.nominal) < abs(written - given.nominal)
    return min(half * _INCH if inches else half, _LARGEST_ROUNDING_MM)


_FIRST_NUMBER = re.compile(r"\d*(?:[.,](\d+))?(?<=\d)")


def _codes_of(inside: Dimension, section: Dimension) -> list[str]:
    """Codes of the standards whose nominal sizes are just these, as far as they are written."""
    near_inside, near_section = _rounding(inside), _rounding(section)
    return [
        code
        for code, d1, d2 in _printed_sizes()
        if abs(d1 - inside.nominal) <= near_inside and abs(d2 - section.nominal) <= near_section
    ][:_MOST_CODES]


@cache
def _printed_sizes() -> tuple[tuple[str, Decimal, Decimal], ...]:
    """Code, d1 and d2 [mm] of every size in the tables."""
    inch = [
        (
            f"AS568-{row['code']}",
            Decimal(row["inside_diameter_in"]) * _INCH,
            Decimal(row["cross_section_in"]) * _INCH,
        )
        for row in rows("as568")
    ]
    metric = [
        (
            f"{row['standard']}-{row['code']}",
            Decimal(row["inside_diameter_mm"]),
            Decimal(row["cross_section_mm"]),
        )
        for row in rows("other_ring_sizes")
    ]
    return tuple(inch + metric)
