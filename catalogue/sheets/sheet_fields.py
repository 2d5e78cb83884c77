"""The fields that a column of a supplier sheet can be: those of an offer, and those of every kind of part.

The fields of parts come from the models themselves (``schema.kinds``), so that a new kind of part can be
loaded from sheets at once. ``code`` is always the supplier's order code; the size code of a ring, which its
model calls ``code``, is the column ``size``.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from schema.amounts import UNITS
from schema.errors import InputError
from schema.fields import meaning_of
from schema.kinds import PARTS, model_of
from schema.nearest import not_among
from schema.units import LENGTH_SPELLINGS


class SheetField(NamedTuple):
    """A field: its name, what a cell of it holds (``text``, ``money``, ``length`` ...), words, an example.

    ``kinds`` are the kinds of parts that have it; () for a field of an offer or of any part.
    """

    name: str
    holds: str
    doc: str
    example: str
    kinds: tuple[str, ...] = ()


_OFFER = (
    SheetField("code", "text", "the supplier's order code", "KV-2140"),
    SheetField("price", "money", "price without tax", "12.50"),
    SheetField("currency", "currency", "currency of the price, ISO 4217", "EUR"),
    SheetField("price_per", "count", "the price is for so many pieces", "100"),
    SheetField("pack_size", "count", "pieces in one pack", "10"),
    SheetField("minimum", "count", "least number of pieces in an order", "50"),
    SheetField("lead_time_days", "days", "days until the supplier sends it", "14"),
    SheetField("stock", "count", "pieces the supplier has in stock", "250"),
    SheetField("maker", "text", "who makes it", "Maker's name"),
    SheetField("maker_code", "text", "the maker's own number for it", "R 214-70"),
)
_PART = (
    SheetField("part_number", "text", "number of the part in our catalogue", "OR-214-N70"),
    SheetField("kind", "kind", "kind of part", "o_ring"),
    SheetField("description", "text", "what it is, in words", "O-ring 25 x 3.5 NBR 70"),
    SheetField("size", "size", "size code of a standard", "AS568-214"),
    SheetField("material", "text", "what it is made of", "NBR"),
    SheetField("hardness_shore_a", "number", "nominal hardness, Shore A", "70"),
    SheetField("superseded_by", "text", "number of the part that replaces it", "OR-214-N90"),
    SheetField("notes", "text", "anything worth knowing", "keep dry"),
)
OFFER_FIELDS = tuple(field.name for field in _OFFER)
NAMES_ONE_ROW = ("code", "part_number")  # so no field that is the same for every row
_ELSEWHERE = ("code", "size_grade", "size_source")  # fields of ring models that no column is

TOLERANCE = "_tolerance"  # of a length, in a column of its own: inside_diameter_tolerance
_PER_UNIT = {"days": ("days", "weeks", "months"), "roughness": ("um", "uin")}


@cache
def fields() -> Mapping[str, SheetField]:
    """Every field by its name, in the order in which they are listed to people."""
    found = {field.name: field for field in (*_OFFER, *_PART)}
    own: dict[str, SheetField] = {}
    for kind in PARTS:
        for name, declared in model_of(kind).declared.items():
            if name in _ELSEWHERE or name in OFFER_FIELDS:
                continue
            meaning = meaning_of(declared)
            known = found.get(name) or own.get(name)
            if known is None:
                own[name] = SheetField(name, meaning.kind, meaning.doc, meaning.example, (kind,))
            elif name in own:
                own[name] = known._replace(kinds=(*known.kinds, kind))
    tolerances = {
        name + TOLERANCE: SheetField(
            name + TOLERANCE, "tolerance", f"tolerance of {one.doc}", "±0.25", one.kinds
        )
        for name, one in own.items()
        if one.holds == "length"
    }
    return MappingProxyType(found | own | tolerances)


def field_named(name: str, *, path: str = "field") -> SheetField:
    """The field of a name, written with dashes, spaces or capitals as people like. Raises UnknownName."""
    plain = "_".join(name.strip().lower().replace("-", " ").replace("_", " ").split())
    found = fields().get(plain)
    if found is None:
        refusal = not_among(tuple(fields()), field=path, given=name, problem="there is no such field")
        offer = ", ".join(OFFER_FIELDS)
        refusal.allowed = "" if refusal.nearest else f"{offer}, or a field of a part such as inside_diameter"
        raise refusal
    return found


def unit_named(field: SheetField, unit: str, *, path: str = "unit") -> str:
    """The unit of a column in one spelling; "" where none is told. Raises InputError for a wrong one.

    >>> unit_named(fields()["inside_diameter"], "Inch")
    'in'
    """
    plain = " ".join(unit.split())
    if not plain:
        return ""
    if field.holds in ("length", "tolerance"):
        allowed: tuple[str, ...] = ("mm", "cm", "in", "um", "thou")
        known = LENGTH_SPELLINGS.get(plain.lower(), "") if plain != "M" else ""
    elif field.holds in _PER_UNIT:
        allowed = _PER_UNIT[field.holds]
        known = next((one for one in allowed if plain.lower() in (one, one.removesuffix("s"))), "")
    elif field.holds in UNITS:
        allowed = {
            "pressure": ("MPa", "kPa", "bar", "psi"),
            "temperature": ("degC", "degF", "K"),
        }.get(field.holds, tuple(UNITS[field.holds][1]))
        plain = plain.replace("²", "2").replace("³", "3")
        known = plain if plain.lower() in (one.lower() for one in allowed) else ""
    else:
        raise InputError(
            field=path, given=unit, problem=f"{field.name} has no unit", allowed="nothing after the field"
        )
    if not known:
        raise InputError(
            field=path,
            given=unit,
            problem=f"this is not a unit that {field.name} may have",
            allowed=", ".join(allowed),
            example=allowed[0],
        )
    return known
