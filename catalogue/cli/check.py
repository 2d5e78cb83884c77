"""``borebook check``: one ring in one gland."""

from __future__ import annotations

import json
import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from catalogue.cli.main import EXIT_DOES_NOT_FIT, EXIT_FITS, EXIT_NOT_PROVEN
from schema.errors import InputError
from schema.finding import Status

if TYPE_CHECKING:
    from schema.question import Question

EXIT_OF = {
    Status.FITS: EXIT_FITS,
    Status.DOES_NOT_FIT: EXIT_DOES_NOT_FIT,
    Status.NOT_PROVEN: EXIT_NOT_PROVEN,
}

# option, section of the question, field in it, help
FIELDS = (
    ("--kind", "part", "kind", "o_ring or four_lobed_ring"),
    ("--inside-diameter", "part", "inside_diameter", "ring's inside diameter"),
    ("--section", "part", "cross_section", "ring's section"),
    ("--material", "part", "material", "elastomer: NBR, FKM, EPDM ..."),
    ("--hardness", "part", "hardness_shore_a", "Shore A"),
    ("--gland", "place", "kind", "rod, piston or face"),
    ("--shaft", "place", "shaft_diameter", "shaft diameter (rod)"),
    ("--bore", "place", "bore_diameter", "bore diameter (piston)"),
    ("--groove", "place", "groove_diameter", "diameter of the groove floor (rod, piston)"),
    ("--throat", "place", "throat_diameter", "housing bore beside the groove (rod)"),
    ("--land", "place", "land_diameter", "piston diameter beside the groove (piston)"),
    ("--depth", "place", "groove_depth", "groove depth (face)"),
    ("--outer-wall", "place", "groove_outer_diameter", "outer wall of the groove (face, pressure inside)"),
    ("--inner-wall", "place", "groove_inner_diameter", "inner wall of the groove (face, pressure outside)"),
    ("--face-gap", "place", "face_gap", "gap between faces that do not touch"),
    ("--width", "place", "groove_width", "groove width"),
    ("--corner-radius", "place", "corner_radius", "radius at the groove floor"),
    ("--lead-in", "place", "lead_in_length", "length of the lead-in chamfer"),
    ("--passes-over", "place", "passes_over", "largest diameter passed in assembly"),
    ("--runout", "place", "runout", "run-out, groove to guide (TIR)"),
    ("--guide-clearance", "place", "guide_clearance", "diametral clearance of the guide"),
    ("--finish-running", "place", "surface_finish_running", "Ra of the running surface"),
    ("--finish-groove", "place", "surface_finish_groove", "Ra of the groove"),
    ("--back-ups", "place", "back_up_rings", "number of back-up rings, 0 to 2"),
    ("--metal", "place", "metal", "aluminium or steel"),
    ("--back-up-width", "back_up_ring", "width", "width of one back-up ring"),
    ("--motion", "service", "motion", "static or reciprocating"),
    ("--medium", "service", "medium", "liquid or gas"),
    ("--pressure", "service", "pressure", "highest gauge pressure"),
    ("--from", "service", "pressure_from", "one_side, both_sides, inside or outside"),
    ("--temperature", "service", "temperature", "lowest..highest temperature"),
    ("--fluid", "service", "fluid", "fluids, ; between them"),
    ("--swell-low", "service", "swell_low_percent", "least volume swell, percent"),
    ("--swell-high", "service", "swell_high_percent", "greatest volume swell, percent"),
    ("--decide-by", "choices", "decision_rule", "decision rule for measured sizes"),
    ("--squeeze-by", "choices", "squeeze", "squeeze guidance"),
    ("--gap-by", "choices", "gap", "clearance guidance"),
    ("--thinning", "choices", "thinning", "thinning law for the least squeeze"),
    ("--thickening", "choices", "thickening", "law for the greatest squeeze"),
    ("--without", "choices", "layers_off", "layers left out: stretch, eccentricity, temperature, swell"),
)
_EXAMPLES = """
\b
Sizes are in the notation of drawings:
  '12.70 f7 mm'   '17.9 +0.05/0 mm'   '1/2 in'   '12.68..12.70 mm'
  '12.672; 12.675; 12.671 mm by micrometer'   '12.69 ±U0.02 mm'

\b
Examples:
  borebook check QV-1207 whinchat-216/end-cap
  borebook check 208 --material NBR --hardness 70 --gland rod --shaft '16 f7 mm' ...
  borebook check --question question.json --json

\b
Exit status: 0 fits, 3 does not fit, 4 not proven, 2 bad input, 1 failure.
"""


def _options(function: Any) -> Any:
    for option, section, field, text in reversed(FIELDS):
        function = click.option(option, f"{section}__{field}", metavar="TEXT", help=text)(function)
    return function


@click.command("check", epilog=_EXAMPLES)
@click.argument("ring", required=False)
@click.argument("place", required=False)
@click.option(
    "--question", "question_file", metavar="FILE", help="question file (JSON); - for standard input"
)
@_options
@click.option(
    "--limit", "limits", multiple=True, metavar="RULE=NAME", help="guidance for the limits of one rule"
)
@click.option("--json", "as_json", is_flag=True, help="print the answer as JSON")
@click.option("--explain", is_flag=True, help="show the equations with the numbers in them")
@click.option("--all", "unfolded", is_flag=True, help="show the findings far inside their limits too")
@click.option(
    "--in", "unit", type=click.Choice(["mm", "in"]), default="mm", help="unit of lengths in the report"
)
@click.option("--picture", metavar="FILE.svg", help="draw the gland to scale")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
def command(
    ring: str | None,
    place: str | None,
    question_file: str | None,
    limits: tuple[str, ...],
    as_json: bool,
    explain: bool,
    unfolded: bool,
    unit: str,
    picture: str | None,
    catalogue: str | None,
    **fields: str | None,
) -> int:
    """Does RING fit PLACE?

    RING is a part number of the catalogue or a standard size code (214, 20x2.65). PLACE is unit/place of
    the catalogue; without it the gland is given by options. Options lead over the catalogue and the file.
    """
    from fitcheck.check import check
    from schema.question import question_from
    from schema.reference import published_reference

    given = _given(fields, limits)
    if question_file is not None:
        given = _merged(_read_question(question_file), given)
    question = question_from(_resolved(ring, place, given, catalogue))
    reference = published_reference()
    verdict = check(question, reference)
    if picture:
        _draw(picture, question, verdict, unit)
    if as_json:
        from catalogue.answer import answer

        click.echo(json.dumps(answer(verdict), indent=2, ensure_ascii=False))
    else:
        from catalogue.report import report

        steps = None
        if explain:
            from fitcheck.explain import explained

            steps = explained(question, reference)
        click.echo(report(verdict, style(unit, unfolded), steps), nl=False)
    return EXIT_OF[verdict.status]


def style(unit: str = "mm", unfolded: bool = False) -> Any:
    """Width and colour of the terminal; no colour in a pipe or under NO_COLOR."""
    from catalogue.report import Style

    colour = sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    width = max(40, min(100, shutil.get_terminal_size((80, 24)).columns))
    return Style(width=width, colour=colour, inches=unit == "in", unfolded=unfolded)


def _given(fields: dict[str, str | None], limits: tuple[str, ...]) -> dict[str, dict[str, Any]]:
    given: dict[str, dict[str, Any]] = {}
    for name, value in fields.items():
        if value is not None:
            section, _, field = name.partition("__")
            given.setdefault(section, {})[field] = value
    for one in limits:
        rule, equals, name = one.partition("=")
        if not equals:
            raise InputError(
                field="--limit", given=one, problem="a rule and a name are needed", example="fill=eighty-five"
            )
        given.setdefault("choices", {}).setdefault("limits", {})[rule.strip()] = name.strip()
    return given


def _merged(base: dict[str, Any], over: dict[str, dict[str, Any]]) -> dict[str, Any]:
    merged = dict(base)
    for section, values in over.items():
        inner = merged.get(section)
        merged[section] = {**inner, **values} if isinstance(inner, dict) else values
    return merged


def _read_question(name: str) -> dict[str, Any]:
    try:
        text = sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8-sig")
        found = json.loads(text)
    except OSError as error:
        raise InputError(
            field="--question",
            given=name,
            problem=f"cannot be read: {error.strerror}",
            example="question.json",
        ) from error
    except UnicodeDecodeError as error:
        raise InputError(
            field="--question", given=name, problem=f"is not UTF-8 text (byte {error.start})"
        ) from error
    except (json.JSONDecodeError, RecursionError) as error:
        where = (
            f", line {error.lineno}, column {error.colno}" if isinstance(error, json.JSONDecodeError) else ""
        )
        raise InputError(
            field="--question",
            given=name,
            problem=f"is not JSON{where}",
            example='{"part": {...}, "place": {...}, "service": {...}}; see borebook schema question',
        ) from error
    if not isinstance(found, dict):
        raise InputError(
            field="--question",
            given=name,
            problem="holds no object at its top",
            example='{"part": {...}, "place": {...}, "service": {...}}',
        )
    return found


def _resolved(
    ring: str | None, place: str | None, given: dict[str, Any], catalogue: str | None
) -> dict[str, Any]:
    """Fill part and place from the catalogue or from a standard size."""
    part = given.get("part") if isinstance(given.get("part"), dict) else {}
    where = given.get("place") if isinstance(given.get("place"), dict) else {}
    ring = ring or (part or {}).get("part_number")
    place = place or _place_name(where or {})
    if ring is None and place is None:
        return given
    from catalogue.resolve import resolved

    return resolved(ring, place, given, Path(catalogue) if catalogue else None)


def _place_name(where: dict[str, Any]) -> str | None:
    if "kind" in where or not (where.get("unit") and where.get("place")):
        return None
    return f"{where['unit']}/{where['place']}"


def _draw(name: str, question: Question, verdict: Any, unit: str) -> None:
    from catalogue.picture import gland_picture

    path = Path(name)
    if path.suffix.lower() != ".svg":
        raise InputError(
            field="--picture", given=name, problem="the picture is an SVG file", example="gland.svg"
        )
    path.write_text(gland_picture(question, verdict, unit="in" if unit == "in" else "mm"), encoding="utf-8")
