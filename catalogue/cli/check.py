"""``borebook check``: one ring in one gland."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from catalogue.cli.arguments import RingCommand
from catalogue.cli.fields import FIELDS, untold
from catalogue.cli.main import EXIT_DOES_NOT_FIT, EXIT_FITS, EXIT_NOT_PROVEN
from schema.errors import InputError, InputErrors, StoreError
from schema.finding import Status

if TYPE_CHECKING:
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
    narrow: bool,
    catalogue: str | None,
    **fields: str | None,
) -> int:
    """Does RING fit PLACE?

    RING is a part number of the catalogue or a standard size code (214, 20x2.65). PLACE is unit/place of
    the catalogue; without it the gland is given by options. Options lead over the catalogue and the file.
    Words in [names LIST] are listed by borebook names LIST.
    """
    from fitcheck.check import check
    from schema.question import question_from
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
    typed = _given(fields, limits)
    given = typed if question_file is None else _merged(_read_question(question_file), typed)
    asked = given = _plain_kinds(given)
    reference = published_reference()
    try:
        asked = _resolved(ring, place, given, catalogue)
        question = question_from(asked)
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
        click.echo(report(verdict, style(unit, unfolded), steps, untold(question)), nl=False)
    if picture:
        click.echo(f"borebook: the picture is in {picture}", err=True)
    return EXIT_OF[verdict.status]


def style(unit: str = "mm", unfolded: bool = False) -> Any:
    """Width and colour of the terminal; no colour in a pipe or under NO_COLOR."""
    from catalogue.cli.page import width
    from catalogue.report import Style

    colour = sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Style(width=width(), colour=colour, inches=unit == "in", unfolded=unfolded)


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
        chosen = given.setdefault("choices", {}).setdefault("limits", {})
        if rule.strip() in chosen:
            raise InputError(
                field="--limit", given=one, problem=f"{rule.strip()} is given twice; give it once"
            )
        chosen[rule.strip()] = name.strip()
    return given


def _plain_kinds(given: dict[str, Any]) -> dict[str, Any]:
    """Kinds of ring and gland as the program itself writes them: "four-lobed ring", "O-ring", "rod gland"."""
    from schema.parts import PART_MODELS
    from schema.places import PLACE_MODELS

    for section, ending, known in (
        ("part", "_ring", set(PART_MODELS)),
        ("place", "_gland", set(PLACE_MODELS)),
    ):
        values = given.get(section)
        kind = values.get("kind") if isinstance(values, dict) else None
        if isinstance(values, dict) and isinstance(kind, str):
            plain = "_".join(kind.lower().replace("-", " ").replace("_", " ").split())
            plain = plain.removesuffix(ending).removesuffix(ending[1:]).removesuffix("_") + ending
            if plain in known:
                given = {**given, section: {**values, "kind": plain}}
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
        found = json.loads(text, object_pairs_hook=_no_key_twice)
        json.dumps(found, ensure_ascii=False).encode()  # a lone surrogate is no text
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
    except UnicodeEncodeError as error:
        raise InputError(
            field="--question", given=name, problem="has half of a character in it (a lone surrogate)"
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


def _no_key_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """A key that stands twice would silently lose one of its values."""
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise InputError(
                field="--question", given=key, problem="this key stands twice in one section; keep one"
            )
        found[key] = value
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


def _draw(name: str, question: Question, verdict: Any, unit: str, narrow: bool) -> None:
    from catalogue.picture import gland_picture

    text = gland_picture(
        question, verdict, unit="in" if unit == "in" else "mm", layout="narrow" if narrow else "wide"
    )
    try:
        Path(name).write_text(text, encoding="utf-8")
    except OSError as error:
        raise StoreError(f"--picture: {name} cannot be written: {error.strerror}") from error
