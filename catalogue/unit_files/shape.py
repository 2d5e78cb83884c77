"""The normal form of a unit's texts, and the order of their fields: what reading, writing and storing share.

Texts stand as they were written. Only what is structure is brought to one form, so that two files that
say the same are equal: kinds are spelt as the models spell them, a list of names is one text with ``; ``
between them, and an entry of a parts list is a bare part number where one is renewed always.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from schema.fields import meaning_of
from schema.kinds import PARTS, PLACES, model_of
from schema.model import Field
from schema.service import Service
from schema.unit import SECTIONS, UnitHead
from schema.unit_parts import BESIDE_PART, BESIDE_PLACE, MOST_OF_ONE_PART, RENEW

Texts = dict[str, Any]

HEAD = tuple(UnitHead.declared)
NOT_WRITTEN = ("unit", "place", "part_number")  # fields of the models that the shape of the file tells


def plain(given: object) -> str:
    """A word as the models spell it: ``Rod gland`` is rod_gland."""
    return str(given or "").strip().lower().replace("-", "_").replace(" ", "_")


def declared_of(kind: str) -> Mapping[str, Field]:
    """The fields of a kind of part or place that a file may give; {} where the kind is not known."""
    if kind not in PARTS and kind not in PLACES:
        return {}
    return {name: one for name, one in model_of(kind).declared.items() if name not in NOT_WRITTEN}


def place_fields(kind: str) -> tuple[str, ...]:
    """The fields of a place in the order in which they are written, without its parts."""
    own = declared_of(kind)
    return tuple(dict.fromkeys(("kind", "description", *Service.declared, *own, *BESIDE_PLACE)))


def part_fields(kind: str) -> tuple[str, ...]:
    """The fields of a part in the order in which they are written."""
    size = ("size",) if "size_grade" in declared_of(kind) else ()
    return tuple(dict.fromkeys(("kind", "description", *size, *declared_of(kind), *BESIDE_PART)))


def in_order(texts: Mapping[str, Any], order: Iterable[str]) -> Texts:
    """The texts in an order; those it does not name follow by name."""
    names = [name for name in order if name in texts]
    return {name: texts[name] for name in (*names, *sorted(set(texts) - set(names)))}


def fitted_texts(part: str, quantity: str, renew: str) -> str | Texts:
    """An entry of a parts list in normal form: only what is not the usual is told."""
    told = {"part": part}
    if quantity != "1":
        told["quantity"] = quantity
    if renew != RENEW[0]:
        told["renew"] = renew
    return part if len(told) == 1 else told


def normal(texts: Mapping[str, Any]) -> Texts:
    """The texts of a unit in normal form; what has a wrong shape stays, for the reader to refuse."""
    found = {name: text for name, text in texts.items() if name not in SECTIONS and text != ""}
    if "kind" in found:
        found["kind"] = plain(found["kind"])
    for section, inner in (("shafts", None), ("places", _place), ("parts", _part)):
        given = texts.get(section)
        if isinstance(given, Mapping) and given:
            found[section] = {name: inner(one) if inner else one for name, one in given.items()}
        elif given:
            found[section] = given
    return found


def _place(given: Any) -> Any:
    if not isinstance(given, Mapping):
        return given
    found = _part(given)
    if isinstance(found.get("parts"), list):
        found["parts"] = [_fitted(one) for one in found["parts"]]
    return {name: text for name, text in found.items() if text != []}


def _part(given: Any) -> Any:
    if not isinstance(given, Mapping):
        return given
    found = {name: text for name, text in given.items() if text != ""}
    if "kind" in found:
        found["kind"] = plain(found["kind"])
    return found


def _fitted(given: Any) -> Any:
    if not isinstance(given, Mapping) or set(given) - {"part", "quantity", "renew"} or not given.get("part"):
        return given
    quantity, renew = str(given.get("quantity") or "1"), plain(given.get("renew") or RENEW[0])
    if not quantity.isdecimal() or not 1 <= int(quantity) <= MOST_OF_ONE_PART or renew not in RENEW:
        return given
    return fitted_texts(given["part"], str(int(quantity)), renew)


def is_number(kind: str, field: str) -> bool:
    """Whether a field of a kind of part or place holds a plain number."""
    fields = {**Service.declared, **declared_of(kind)}
    return field in fields and meaning_of(fields[field]).kind in ("number", "whole number")
