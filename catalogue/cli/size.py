"""``borebook size``: a standard ring from its size code."""

from __future__ import annotations

import json
from typing import Any

import click

from catalogue.cli.arguments import RingCommand
from catalogue.cli.page import KEPT, say
from catalogue.resolve import standard_size
from catalogue.values import GRADE_WORDS
from schema.dimension import Dimension
from schema.ring_sizes import RingSize


@click.command("size", cls=RingCommand)
@click.argument("codes", nargs=-1, required=True)
@click.option("--json", "as_json", is_flag=True, help="print as JSON")
def command(codes: tuple[str, ...], as_json: bool) -> int:
    """Print standard rings from their size CODES.

    \b
    borebook size 214
    borebook size 20x2.65 JIS-G25 BS4518-0545-30
    """
    sizes = [standard_size(code) for code in codes]
    if as_json:
        found = [_json(size) for size in sizes]
        click.echo(json.dumps(found[0] if len(found) == 1 else found, indent=2, ensure_ascii=False))
        return 0
    for size in sizes:
        say(f"{size.code} ({size.standard})")
        say(f"  inside diameter  {_told(size.inside_diameter)}   {_graded(size.inside_diameter_grade)}", 19)
        say(f"  its tolerance    {_tolerance(size.inside_diameter)}   {_graded(size.tolerance_grade)}", 19)
        say(f"  section          {_told(size.cross_section)}", 19)
        say(f"  Source: {size.source}")
    return 0


def _told(size: Dimension) -> str:
    text = f"{size.nominal:.3f} mm, {size.lower:.3f} to {size.upper:.3f} mm"
    return f"{text} ({size.text})" if "in" in size.text else text


def _tolerance(size: Dimension) -> str:
    half = (size.upper - size.lower) / 2
    return f"±{half:.3f} mm" if half else "none printed"


def _graded(grade: str) -> str:
    return f"[{GRADE_WORDS.get(grade, grade)}]".replace(" ", KEPT)


def _json(size: RingSize) -> dict[str, Any]:
    return {
        "schema": 1,
        "code": size.code,
        "standard": size.standard,
        "inside_diameter": _dimension_json(size.inside_diameter, size.inside_diameter_grade),
        "cross_section": _dimension_json(size.cross_section, size.inside_diameter_grade),
        "tolerance_grade": size.tolerance_grade,
        "grade": size.grade,
        "source": size.source,
    }


def _dimension_json(size: Dimension, grade: str) -> dict[str, Any]:
    return {
        "nominal_mm": float(size.nominal),
        "lower_mm": float(size.lower),
        "upper_mm": float(size.upper),
        "text": size.text,
        "grade": grade,
    }
