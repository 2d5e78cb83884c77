"""Writes a unit as a unit file: the same texts give the same bytes, and are read back letter for letter.

Comments of a file that was read are not kept. A text stands between quotes only where YAML would else read
it otherwise, or where other YAML readers would make a number, a date or a truth value of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

import yaml

from catalogue.unit_files.shape import HEAD, in_order, is_number, normal, part_fields, place_fields
from schema.unit import SECTIONS

_RESOLVER = yaml.SafeLoader("")  # what a text may be taken for by other readers
_TEXT = "tag:yaml.org,2002:str"
_NUMBERS = ("tag:yaml.org,2002:int", "tag:yaml.org,2002:float")
_FIRST = "-?:,[]{}#&*!|>'\"%@`= \u2060"
_IN_FLOW = re.compile(r"[\w][\w ./+-]*")  # what may stand bare between braces
_ESCAPES = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t"}


def unit_yaml(texts: Mapping[str, Any]) -> str:
    """The unit file of a unit's texts.

    >>> print(unit_yaml({"unit": "wren-1", "kind": "damper", "places": {"cap": {"kind": "face_gland",
    ...     "groove_depth": "2.70 ±0.05 mm", "parts": ["QV-1", {"part": "QV-2", "quantity": "2"}]}}}), end="")
    unit: wren-1
    kind: damper
    <BLANKLINE>
    places:
      cap:
        kind: face_gland
        groove_depth: 2.70 ±0.05 mm
        parts:
          - QV-1
          - {part: QV-2, quantity: 2}
    """
    return "".join(f"{line}\n" for line in _lines(normal(texts)))


def _lines(texts: Mapping[str, Any]) -> Iterator[str]:
    head = {name: text for name, text in texts.items() if name not in SECTIONS}
    for name, text in in_order(head, HEAD).items():
        yield f"{plain_text(name)}: {plain_text(text)}"
    if shafts := texts.get("shafts"):
        yield from ("", "shafts:")
        for label in sorted(shafts):
            yield f"  {plain_text(label)}: {plain_text(shafts[label])}"
    if places := texts.get("places"):
        yield from ("", "places:")
        for at, (name, place) in enumerate(places.items()):
            yield from _entry(name, place, place_fields(place.get("kind", "")), first=at == 0)
    if parts := texts.get("parts"):
        yield from ("", "parts:")
        for at, number in enumerate(sorted(parts)):
            part = parts[number]
            yield from _entry(number, part, part_fields(part.get("kind", "")), first=at == 0)


def _entry(name: str, texts: Mapping[str, Any], order: tuple[str, ...], *, first: bool) -> Iterator[str]:
    if not first:
        yield ""
    yield f"  {plain_text(name)}:" + ("" if texts else " {}")
    kind = texts.get("kind", "")
    own = {field: text for field, text in texts.items() if field != "parts"}
    for field, text in in_order(own, order).items():
        yield f"    {plain_text(field)}: {plain_text(text, number=is_number(kind, field))}"
    if parts := texts.get("parts"):
        yield "    parts:"
        for one in parts:
            yield f"      - {plain_text(one) if isinstance(one, str) else _flow(one)}"


def _flow(fitted: Mapping[str, str]) -> str:
    told = (
        f"{name}: {plain_text(text, flow=True, number=name == 'quantity')}" for name, text in fitted.items()
    )
    return "{" + ", ".join(told) + "}"


def plain_text(text: str, *, flow: bool = False, number: bool = False) -> str:
    """A text as YAML, bare where it may stand so."""
    return text if _bare(text, flow=flow, number=number) else f'"{"".join(map(_escaped, text))}"'


def _bare(text: str, *, flow: bool, number: bool) -> bool:
    if not text or text != text.strip() or not text.isprintable():
        return False
    # a sign in front is no mark of YAML where something follows it at once: -10..60 degC
    begins = text[0] in _FIRST and not (text[0] == "-" and len(text) > 1 and text[1] != " ")
    if begins or text.startswith(("---", "...")) or ": " in text or " #" in text or text.endswith(":"):
        return False
    if flow and _IN_FLOW.fullmatch(text) is None:
        return False
    taken_for = _RESOLVER.resolve(yaml.ScalarNode, text, (True, False))  # type: ignore[no-untyped-call]
    return taken_for == _TEXT or (number and taken_for in _NUMBERS)


def _escaped(sign: str) -> str:
    if sign in _ESCAPES:
        return _ESCAPES[sign]
    if sign == " " or sign.isprintable():
        return sign
    return f"\\U{ord(sign):08x}"
