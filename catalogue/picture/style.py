"""The look of the picture: line types and weights, two palettes, one for grey print.

Wide and narrow lines stand 2:1 and the chain line is long-dash-dot, as ISO 128-2 has them. All lines
take ``currentColor``, so an embedded picture takes the ink of its page; the picture's own ink and paper
count only where it is a document by itself (``:root``).
"""

from __future__ import annotations

from dataclasses import dataclass

VERDICT, HEAD, BODY, SMALL = 34.0, 19.0, 15.0, 13.5


@dataclass(frozen=True)
class Palette:
    """Colours of one surface. ``rubber`` is one mid grey on both, so that ink shows on it."""

    paper: str
    ink: str
    rubber: str
    fits: str
    not_proven: str
    does_not_fit: str


LIGHT = Palette("#ffffff", "#16181b", "#85898d", "#00613b", "#5b4300", "#6b0a1e")
DARK = Palette("#14171a", "#f2f3f1", "#7b8085", "#74e0a8", "#ffe2a6", "#ff8f85")
PRINT = Palette("#ffffff", "#000000", "#909090", "#3d3d3d", "#262626", "#000000")

_SHAPE = """
.gland-picture { max-width: 100%; height: auto }
.gland-picture .text { fill: currentColor; font-family: system-ui, "Segoe UI", Roboto, "Helvetica Neue", \
Arial, sans-serif; font-variant-numeric: tabular-nums lining-nums }
.gland-picture .start { text-anchor: start }
.gland-picture .middle { text-anchor: middle }
.gland-picture .end { text-anchor: end }
.gland-picture .wide, .gland-picture .contact { fill: none; stroke: currentColor; stroke-width: 2.4; \
stroke-linejoin: round }
.gland-picture .contact { stroke-width: 4.4 }
.gland-picture .thin, .gland-picture .free, .gland-picture .mark { fill: none; stroke: currentColor; \
stroke-width: 1.1 }
.gland-picture .hidden { fill: none; stroke: currentColor; stroke-width: 1.2; stroke-dasharray: 7 4 }
.gland-picture .chain { fill: none; stroke: currentColor; stroke-width: 1.2; stroke-dasharray: 24 4 2 4 }
.gland-picture .hatch { fill: none; stroke: currentColor; stroke-width: 0.9 }
.gland-picture .solid { fill: currentColor; stroke: none }
.gland-picture .rule { fill: none; stroke: currentColor; stroke-width: 1.2 }
.gland-picture .limit { fill: none; stroke: currentColor; stroke-width: 2.4 }
.gland-picture .worst { fill: none; stroke: currentColor; stroke-width: 6 }
.gland-picture .likely { fill: none; stroke: currentColor; stroke-width: 2.4 }
"""


def style_sheet() -> str:
    """The one style sheet of the picture."""
    return (
        _SHAPE
        + _letters()
        + _surface(LIGHT)
        + "@media (prefers-color-scheme: dark) {"
        + _surface(DARK)
        + "}\n@media print {"
        + _surface(PRINT)
        + "}\n"
    )


def _letters() -> str:
    sizes = (("verdict", VERDICT, 700), ("head", HEAD, 700), ("body", BODY, 400), ("small", SMALL, 400))
    return "".join(
        f".gland-picture .{name} {{ font-size: {size:g}px; font-weight: {weight} }}\n"
        for name, size, weight in sizes
    )


def _surface(palette: Palette) -> str:
    tones = (
        ("fits", palette.fits),
        ("not-proven", palette.not_proven),
        ("does-not-fit", palette.does_not_fit),
    )
    rules = [
        "",
        f"svg:root.gland-picture {{ color: {palette.ink}; background: {palette.paper} }}",
        f".gland-picture .rubber {{ fill: {palette.rubber}; stroke: currentColor; stroke-width: 2.4 }}",
    ]
    for name, colour in tones:
        rules.append(f".gland-picture .{name} {{ fill: {colour} }}")
        rules.append(f".gland-picture .line-{name} {{ fill: none; stroke: {colour}; stroke-width: 2.4 }}")
        rules.append(f".gland-picture .cross-{name} {{ fill: none; stroke: {colour}; stroke-width: 5 }}")
    return "\n".join(rules) + "\n"
