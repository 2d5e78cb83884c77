"""Drawings of a sheet: signs, margin strips, glands to scale, gas curves; all as SVG within the page."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from catalogue.picture.pair import gland_pair
from catalogue.picture.parts import hatch_patterns
from catalogue.picture.sheet import Layout
from catalogue.picture.sizes import Unit as UnitOfLength
from catalogue.picture.strips import KINDS, TONES, kind_of, scales_of, status_shape, strip_alone
from catalogue.picture.svg import Element
from schema.finding import Finding, Status, Verdict
from schema.fit import Fit
from schema.question import Question
from schema.reference import Reference

PREFIX = "sheet"  # of the hatching that all strips share
STRIP_WIDTH = 320.0  # what a phone of 360 px has room for
SIGN = 24.0
LAYOUTS: tuple[Layout, ...] = ("wide", "narrow")
Scales = Mapping[str, tuple[float, float]]


class Figure(NamedTuple):
    """Drawings that stand together: SVG elements, and what is said below them."""

    drawings: tuple[str, ...]
    caption: str


def shared() -> str:
    """What every drawing of the page refers to: the hatching of the strips, and the three signs."""
    root = Element(
        "svg", {"class": "gland-picture shared", "width": "0", "height": "0", "aria-hidden": "true"}
    )
    root.add(Element("defs").add(*hatch_patterns(PREFIX)))
    for status in Status:
        # The class stands on the symbol itself: where it is used, no rule sees beyond it.
        names = {"id": f"sign-{TONES[status]}", "class": "gland-picture"}
        sign = Element("symbol", {**names, "viewBox": f"0 0 {SIGN:g} {SIGN:g}"})
        root.add(sign.add(status_shape(status, SIGN / 2, SIGN / 2, SIGN / 2 - 2)))
    return "\n".join(root.lines())


def common_scales(findings: Sequence[Finding]) -> Scales:
    """The scales of the kinds of finding that compare over all places: squeeze, fill, stretch, rating."""
    return {kind: scale for kind, scale in scales_of(findings).items() if kind in KINDS}


def strip(finding: Finding, common: Scales, unit: UnitOfLength) -> str:
    """The margin strip of a finding; "" where it has no number to draw."""
    if finding.low is None or finding.high is None or finding.limits is None:
        return ""
    if not math.isfinite(finding.low + finding.high):
        return ""
    own = scales_of([finding])
    kind = kind_of(finding.rule)
    scale = common.get(kind) or own.get(kind)
    if scale is None or not scale[0] < scale[1]:
        return ""
    return "\n".join(strip_alone(finding, scale, prefix=PREFIX, unit=unit, width=STRIP_WIDTH).lines())


def figure(
    question: Question | Fit | None,
    verdict: Verdict,
    reference: Reference,
    *,
    unit: UnitOfLength,
    identifier: str,
) -> Figure | None:
    """The drawing that helps at a place: its gland to scale, or what its gas does; else None."""
    if isinstance(question, Question):
        pair = gland_pair(question, verdict, unit=unit, identifier=identifier)
        return Figure(pair.views, pair.legend)
    if question is not None and question.place.kind == "gas_chamber":
        return _gas(question, reference, unit, identifier)
    return None


def _gas(fit: Fit, reference: Reference, unit: UnitOfLength, identifier: str) -> Figure:
    """Both layouts of the curves; the style shows the one that the page has room for."""
    from catalogue.picture.gas_curves import gas_curves

    drawn = "\n".join(
        embedded(gas_curves(fit, reference, unit=unit, layout=layout, identifier=f"{identifier}-{layout}"))
        for layout in LAYOUTS
    )
    return Figure((drawn,), "Pressure of the gas and way of its piston over the stroke.")


def embedded(document: str) -> str:
    """An SVG document as an element of a page: without declaration and style, which are the page's affair."""
    body = re.sub(r"<\?xml[^>]*\?>\s*", "", document)
    return re.sub(r"<style>.*?</style>\s*", "", body, flags=re.DOTALL).strip()
