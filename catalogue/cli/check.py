"""``borebook check``: one place, a gland with its ring or any other with what goes into it."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any, Literal

import click

from catalogue.cli.arguments import RingCommand
from catalogue.cli.asked import (
    merged,
    plain_kinds,
    read_question,
    resolved,
    typed_fields,
    with_own_housings,
)
from catalogue.cli.main import EXIT_DOES_NOT_FIT, EXIT_FITS, EXIT_NOT_PROVEN
from catalogue.options import FIELDS, untold
from schema.errors import InputError, InputErrors
from schema.finding import Status
from schema.fit import Fit
from schema.question import Question

EXIT_OF = {
    Status.FITS: EXIT_FITS,
    Status.DOES_NOT_FIT: EXIT_DOES_NOT_FIT,
    Status.NOT_PROVEN: EXIT_NOT_PROVEN,
}

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
The strip in the report:
  [ ] limits   / room inside them   o middle of the sizes
  = worst case   x worst case outside the limits
  ~ worst case beside limits that hold for nominal sizes only (o counts)

\b
Exit status: 0 fits, 3 does not fit, 4 not proven, 2 bad input, 1 failure.
"""


def _options(function: Any) -> Any:
    for field in reversed(FIELDS):
        named = f"{field.section}__{field.name}"
        listed = f" [names {field.word_list}]" if field.word_list else ""
        function = click.option(field.option, named, metavar="TEXT", help=field.help + listed)(function)
    return function


@click.command("check", cls=RingCommand, epilog=_EXAMPLES)
@click.argument("ring", required=False)
@click.argument("place", required=False)
@click.option(
    "--question", "question_file", metavar="FILE", help="question file (JSON); - for standard input"
)
@_options
@click.option(
    "--set",
    "sets",
    multiple=True,
    metavar="NAME=TEXT",
    help="any other field of the place or, as NUMBER.field, of a part",
)
@click.option(
    "--limit", "limits", multiple=True, metavar="RULE=NAME", help="guidance for the limits of one rule"
)
@click.option("--json", "as_json", is_flag=True, help="print the answer as JSON")
@click.option(
    "--explain", is_flag=True, help="show the equations with the numbers in them (mm), and all sources"
)
@click.option("--all", "unfolded", is_flag=True, help="show the findings far inside their limits too")
@click.option(
    "--in",
    "unit",
    type=click.Choice(["mm", "in"]),
    default="mm",
    help="unit of lengths in the report and the picture; equations of --explain stay in mm",
)
@click.option("--picture", metavar="FILE.svg", help="draw the gland to scale")
@click.option("--narrow", is_flag=True, help="make the picture tall, for the screen of a phone")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
@click.option("--housings", metavar="FILE", help="the workshop's own table of seal housings (CSV)")
def command(
    ring: str | None,
    place: str | None,
    question_file: str | None,
    sets: tuple[str, ...],
    limits: tuple[str, ...],
    as_json: bool,
    explain: bool,
    unfolded: bool,
    unit: str,
    picture: str | None,
    narrow: bool,
    catalogue: str | None,
    housings: str | None,
    **fields: str | None,
) -> int:
    """Does RING fit PLACE?

    RING is a part number of the catalogue or a standard size code (214, 20x2.65). PLACE is unit/place of
    the catalogue; without it the gland is given by options. Options lead over the catalogue and the file.
    A place alone is checked with the parts on its list; a part number given takes the stead of the one of
    its kind. Words in [names LIST] are listed by
    borebook names LIST.
    """
    from fitcheck.check import check
    from schema.fit_question import any_question_from
    from schema.reference import published_reference

    if picture:
        _check_picture_name(picture)
    elif narrow:
        raise InputError(
            field="--narrow",
            given="",
            problem="there is no picture to make narrow",
            example="--picture gland.svg",
        )
    if ring is not None and place is None and "/" in ring:
        ring, place = None, ring
    typed = typed_fields(fields, limits, sets)
    given = typed if question_file is None else merged(read_question(question_file), typed)
    asked = given = plain_kinds(given)
    reference = with_own_housings(published_reference(), housings, catalogue)
    try:
        found = resolved(ring, place, given, catalogue)
        if isinstance(found, Fit):
            question: Question | Fit = found
        else:
            asked = found
            question = any_question_from(asked)
        verdict = check(question, reference)
    except (InputError, InputErrors) as error:
        from catalogue.cli.told import by_option

        paths = {f"{section}.{field}" for section, values in typed.items() for field in values}
        raise by_option(error, question=asked, typed=paths, from_file=question_file is not None) from error
    if picture:
        _draw(picture, question, verdict, unit, narrow)
    if as_json:
        from catalogue.answer import answer

        click.echo(json.dumps(answer(verdict), indent=2, ensure_ascii=False))
    else:
        from catalogue.report import report

        steps = None
        if explain:
            from fitcheck.explain import explained

            steps = explained(question, reference)
        wanted = untold(question) if isinstance(question, Question) else ()
        click.echo(report(verdict, style(unit, unfolded), steps, wanted), nl=False)
    if picture:
        click.echo(f"borebook: the picture is in {picture}", err=True)
    return EXIT_OF[verdict.status]


def style(unit: str = "mm", unfolded: bool = False) -> Any:
    """Width and colour of the terminal; no colour in a pipe or under NO_COLOR."""
    from catalogue.cli.page import width
    from catalogue.report import Style

    colour = sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Style(width=width(), colour=colour, inches=unit == "in", unfolded=unfolded)


def _picture(
    question: Question | Fit, verdict: Any, unit: Literal["mm", "in"], layout: Literal["wide", "narrow"]
) -> str:
    """The picture of a gland, or the curves of a gas chamber."""
    if isinstance(question, Question):
        from catalogue.picture import gland_picture

        return gland_picture(question, verdict, unit=unit, layout=layout)
    if question.place.kind == "gas_chamber":
        from catalogue.picture.gas_curves import gas_curves
        from schema.reference import published_reference

        return gas_curves(question, published_reference(), unit=unit, layout=layout)
    raise InputError(
        field="--picture",
        given=question.place.name,
        problem=f"there is no picture of a {question.place.words_for}",
        allowed="a gland or a gas chamber",
    )


def _check_picture_name(name: str) -> None:
    path = Path(name)
    if path.suffix.lower() != ".svg":
        raise InputError(
            field="--picture", given=name, problem="the picture is an SVG file", example="gland.svg"
        )
    if not path.parent.is_dir():
        raise InputError(
            field="--picture",
            given=name,
            problem=f"there is no folder {str(path.parent)!r}: make it first, or name a file in another one",
            example="gland.svg",
        )


def _draw(name: str, question: Question | Fit, verdict: Any, unit: str, narrow: bool) -> None:
    from catalogue.whole_files import write_whole

    text = _picture(question, verdict, "in" if unit == "in" else "mm", "narrow" if narrow else "wide")
    write_whole(name, text, option="--picture")
