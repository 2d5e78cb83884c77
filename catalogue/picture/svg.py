"""Elements of an SVG document, escaped text, stable numbers, and how wide a text comes out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from html import escape
from typing import Literal

Anchor = Literal["start", "middle", "end"]

# Characters that XML 1.0 does not allow (production 2, Char), lone surrogates among them.
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

# Widths in em, on the safe side of the usual system faces.
_NARROW = frozenset("ijltfrI.,:;'|!()[]/ \u00a0·°")
_WIDE = frozenset("mwMWQGO@%±—…ø")


@dataclass
class Element:
    """One element; attribute names are as SVG has them, children in the order of drawing."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: list[Element | str] = field(default_factory=list)

    def add(self, *children: Element | str) -> Element:
        """Append children; returns the element itself."""
        self.children.extend(children)
        return self

    def lines(self, indent: str = "") -> Iterable[str]:
        """The element as lines of text."""
        attributes = "".join(f' {name}="{escape(clean(text))}"' for name, text in self.attributes.items())
        if not self.children:
            yield f"{indent}<{self.tag}{attributes}/>"
        elif all(isinstance(child, str) for child in self.children):
            inside = "".join(escape(clean(str(child)), quote=False) for child in self.children)
            yield f"{indent}<{self.tag}{attributes}>{inside}</{self.tag}>"
        else:
            yield f"{indent}<{self.tag}{attributes}>"
            for child in self.children:
                if isinstance(child, Element):
                    yield from child.lines(indent + " ")
            yield f"{indent}</{self.tag}>"


def clean(text: str) -> str:
    """Text without what XML does not allow and without line breaks."""
    return _NOT_XML.sub("\ufffd", text).replace("\n", " ").replace("\r", " ").replace("\t", " ")


def number(value: float) -> str:
    """A coordinate: three decimals at most, the same text for the same value, never ``-0``."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def group(name: str, *children: Element) -> Element:
    """A group with a class."""
    return Element("g", {"class": name}, list(children))


def line(name: str, x1: float, y1: float, x2: float, y2: float) -> Element:
    """A straight line."""
    return Element(
        "line", {"class": name, "x1": number(x1), "y1": number(y1), "x2": number(x2), "y2": number(y2)}
    )


def path(name: str, data: str) -> Element:
    """A path from its data."""
    return Element("path", {"class": name, "d": data})


def polyline_data(points: Iterable[tuple[float, float]], *, closed: bool = False) -> str:
    """Path data through points."""
    steps = [f"{number(x)} {number(y)}" for x, y in points]
    return "M" + " L".join(steps) + (" Z" if closed else "")


def circle(name: str, x: float, y: float, radius: float) -> Element:
    """A circle."""
    return Element("circle", {"class": name, "cx": number(x), "cy": number(y), "r": number(radius)})


def rectangle(name: str, x: float, y: float, width: float, height: float) -> Element:
    """A rectangle."""
    return Element(
        "rect",
        {"class": name, "x": number(x), "y": number(y), "width": number(width), "height": number(height)},
    )


def label(
    text: str,
    x: float,
    y: float,
    *,
    size: Literal["verdict", "head", "body", "small"] = "body",
    anchor: Anchor = "start",
    upright: bool = False,
    tone: str = "",
) -> Element:
    """A line of text on its base line; ``upright`` turns it to be read from the right."""
    names = " ".join(one for one in ("text", size, anchor, tone) if one)
    attributes = {"class": names, "x": number(x), "y": number(y)}
    if upright:
        attributes["transform"] = f"rotate(-90 {number(x)} {number(y)})"
    return Element("text", attributes, [text])


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of a text, estimated on the safe side."""
    em = 0.0
    for sign in text:
        if sign in _NARROW:
            em += 0.40
        elif sign in _WIDE:
            em += 1.0
        elif sign.isupper():
            em += 0.75
        elif ord(sign) > 0x2E7F:
            em += 1.3
        else:
            em += 0.64
    return em * size * (1.13 if bold else 1.0)


def wrapped(text: str, size: float, width: float, *, most: int = 99, bold: bool = False) -> list[str]:
    """Text in lines no wider than ``width``; what does not fit into ``most`` lines ends in an ellipsis."""
    lines: list[str] = []
    current = ""
    for word in _pieces(_words(text), size, width, bold=bold):
        tried = f"{current} {word}".strip()
        if current and text_width(tried, size, bold=bold) > width:
            lines.append(current)
            current = word
        else:
            current = tried
    lines.append(current)
    if len(lines) > most:
        last = lines[most - 1]
        while last and text_width(last + "…", size, bold=bold) > width:
            last = last[:-1]
        lines = [*lines[: most - 1], last.rstrip() + "…"]
    return lines


def _words(text: str) -> list[str]:
    """Words of a text, each number kept with its unit."""
    for unit in ("%", "mm", "MPa"):
        text = text.replace(f" {unit}", f"\u00a0{unit}")
    return [word for word in clean(text).split(" ") if word]


def _pieces(words: list[str], size: float, width: float, *, bold: bool) -> Iterable[str]:
    """Words, those too wide for a line cut to fit."""
    for word in words:
        rest = word
        while text_width(rest, size, bold=bold) > width and len(rest) > 1:
            end = len(rest)
            while end > 1 and text_width(rest[:end], size, bold=bold) > width:
                end -= 1
            yield rest[:end]
            rest = rest[end:]
        yield rest
