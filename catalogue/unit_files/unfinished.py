"""Sets aside what no model reads yet, while the families of parts are being written.

The demo is loaded all the same: texts of such a kind are stored as they stand, and told in ``unread``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalogue.unit_files.building import Stock
from catalogue.unit_files.reading import UnitFile
from catalogue.unit_files.shape import Texts
from schema.errors import InputErrors
from schema.unit import unit_from
from schema.unit_parts import part_from

FINISHED = (
    *("o_ring", "four_lobed_ring", "back_up_ring"),
    *("rod_gland", "piston_gland", "face_gland"),
)


def set_aside(file: UnitFile, stock: Stock, unread: list[str]) -> UnitFile:
    """The file without places and parts of unfinished kinds that cannot be read."""
    kept: set[str] = set()

    def readable(number: str) -> bool:
        texts = file.texts.get("parts", {}).get(number) or stock.texts(number)
        return texts is None or number in kept or part_is_read(texts, number, unread)

    places: Texts = {}
    for name, place in file.texts.get("places", {}).items():
        fitted = [one for one in place.get("parts", ()) if readable(_number(one))]
        if place.get("kind") in FINISHED or _place_is_read(name, place, unread):
            places[name] = {**place, "parts": fitted}
    for place in places.values():
        if place.get("loaded_by") not in places:
            place.pop("loaded_by", None)
    texts = {
        **file.texts,
        "places": places,
        "shafts": {label: one for label, one in file.texts.get("shafts", {}).items() if readable(one)},
        "parts": {number: one for number, one in file.texts.get("parts", {}).items() if readable(number)},
    }
    if "oil" in texts and not readable(texts["oil"]):
        texts.pop("oil")
    return file._replace(texts=texts)


def part_is_read(texts: Mapping[str, Any], number: str, unread: list[str]) -> bool:
    """Whether a part can be read, or is to be told as unreadable since its kind is finished."""
    if texts.get("kind") in FINISHED:
        return True
    return _is_read(lambda: part_from(texts, number=number), f"part {number}", unread)


def _place_is_read(name: str, place: Mapping[str, Any], unread: list[str]) -> bool:
    own = {field: text for field, text in place.items() if field not in ("parts", "loaded_by")}
    return _is_read(lambda: unit_from({"unit": "u", "places": {name: own}}), f"place {name}", unread)


def _is_read(build: Any, what: str, unread: list[str]) -> bool:
    try:
        build()
    except (InputErrors, ImportError, AttributeError) as error:
        unread.append(f"{what}: {error}")
        return False
    return True


def _number(fitted: Any) -> str:
    return fitted if isinstance(fitted, str) else str(fitted.get("part", ""))
