"""What a catalogue calls a material or a fluid, and which code it is judged by; or why by none.

A name that says only half (filled PTFE, PTFE grease, brake fluid, 5 wt) is kept with the reason, so that a
check ends in ``not proven`` with words instead of in a guess. What stands inside a longer text (a supplier's
description) is found by ``schema.material_words``.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from schema.errors import UnknownName
from schema.materials import fluid_code, material_code
from schema.tables import rows

# A label's weight follows no standard: two makers' 5 wt differ, and orders even invert (measured lists).
_WEIGHT = re.compile(r"\d+([.,]\d+)?\s*(wt|w|weight)\b\.?", re.IGNORECASE)


class TradeName(NamedTuple):
    """``code`` is "" where none may be taken; ``remark`` says why, or what was taken."""

    text: str
    code: str
    remark: str = ""
    source: str = ""
    grade: str = ""


def named_material(text: str) -> TradeName:
    """The code of a material by its name in a catalogue.

    >>> named_material("nitrile").code
    'NBR'
    >>> named_material("filled PTFE").code
    'PTFE'
    >>> named_material("polyurethane foam").code
    ''
    """
    return _named(text, "material")


def named_fluid(text: str) -> TradeName:
    """The code of a fluid or grease by its name in a catalogue.

    >>> named_fluid("PAO oil").code
    'pao_oil'
    >>> named_fluid("PTFE grease").code
    ''
    """
    if _WEIGHT.fullmatch(text.strip()):
        return TradeName(text, "", "a weight on a label names neither a fluid nor a viscosity")
    return _named(text, "fluid")


def _named(text: str, kind: str) -> TradeName:
    if not text.strip():
        return TradeName(text, "", "not told")
    found = _names(kind).get(_plain(text))
    if found is not None:
        return found._replace(text=text)
    try:
        code = material_code(text) if kind == "material" else fluid_code(text)
    except UnknownName:
        return TradeName(text, "", f"this name of a {kind} is not known")
    return TradeName(text, code)


@cache
def _names(kind: str) -> dict[str, TradeName]:
    return {
        _plain(row["name"]): TradeName(row["name"], row[kind], row["remark"], row["source"], row["grade"])
        for row in rows(f"{kind}_names")
    }


def _plain(text: str) -> str:
    return " ".join(text.lower().replace("_", " ").replace("-", " ").split())
