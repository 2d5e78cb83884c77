"""Colours of a sheet for light, dark and print, and the lines that each printed page repeats."""

from __future__ import annotations

import re
from typing import NamedTuple

from catalogue.picture.style import DARK, LIGHT, PRINT, Palette


class Surface(NamedTuple):
    """Colours of one surface beside those of the drawings: a second paper, thin lines, links."""

    palette: Palette
    second: str
    rule: str
    link: str


SCREEN_LIGHT = Surface(LIGHT, "#f7f8f5", "#6b7075", "#0a3c82")
SCREEN_DARK = Surface(DARK, "#1f2429", "#8b9298", "#a8cdff")
PAPER = Surface(PRINT, "#ffffff", "#555555", "#000000")

LONGEST_LINE = 60  # characters of a name at the head of a page; the sheet itself has all of it
_PLAIN = re.compile(r"[^0-9A-Za-zÀ-ɏ ,.;:()+/±ø×°–-]")


def colours() -> str:
    """The custom properties of every surface, and the style that the drawings need."""
    dark = f"@media (prefers-color-scheme: dark) {{\n{_properties(SCREEN_DARK)}}}\n"
    return f"{_properties(SCREEN_LIGHT)}{dark}@media print {{\n{_properties(PAPER)}}}\n"


def _properties(surface: Surface) -> str:
    palette = surface.palette
    named = {
        "paper": palette.paper,
        "second": surface.second,
        "ink": palette.ink,
        "rule": surface.rule,
        "link": surface.link,
        "fits": palette.fits,
        "not-proven": palette.not_proven,
        "does-not-fit": palette.does_not_fit,
    }
    lines = "".join(f"  --{name}: {colour};\n" for name, colour in named.items())
    return f":root {{\n{lines}}}\n"


def page_lines(*, left: str, middle: str, right: str, below: str) -> str:
    """The head and foot of every printed page."""
    return (
        "@page {\n"
        f"  @top-left {{ content: {css_string(left)} }}\n"
        f"  @top-center {{ content: {css_string(middle)} }}\n"
        f"  @top-right {{ content: {css_string(right)} }}\n"
        f"  @bottom-left {{ content: {css_string(below)} }}\n"
        '  @bottom-right { content: "Page " counter(page) " of " counter(pages) }\n'
        "}\n"
    )


def css_string(text: str) -> str:
    r"""A text as a CSS string that cannot end early, neither the string nor the style element.

    >>> css_string('a "b" </style>')
    '"a \\22 b\\22  \\3c /style\\3e "'
    """
    short = text if len(text) <= LONGEST_LINE else text[: LONGEST_LINE - 1].rstrip() + "…"
    return '"' + _PLAIN.sub(lambda found: f"\\{ord(found[0]):x} ", short) + '"'
