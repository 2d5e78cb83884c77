"""``borebook rebuild``: every place of a unit at once, before it is opened."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from catalogue.cli.arguments import Command
from catalogue.cli.asked import with_own_housings
from catalogue.cli.check import EXIT_OF, style
from schema.errors import InputError, InputErrors
from schema.unit import Unit

_EXAMPLES = """
\b
What was measured comes from a file (YAML), by place and field:
  shaft-bushing:
    shaft_diameter: 15.968; 15.971 mm by micrometer
  damper shaft:                # a shaft or bore that several places run on
    shaft_diameter: 15.968 mm by micrometer
  shaft-seal:
    QV-1202:                   # a part of that place
      cross_section: 3.49 mm by calliper on rubber

\b
Examples:
  borebook rebuild whinchat-216
  borebook rebuild my-unit.yaml --measured today.yaml --sheet sheet.html
  borebook rebuild whinchat-216 --ask --keep today.yaml

\b
Exit status: 0 all fits, 3 something does not fit, 4 something is not proven, 2 bad input, 1 failure.
"""


@click.command("rebuild", cls=Command, epilog=_EXAMPLES)
@click.argument("unit")
@click.option("--measured", "measured_file", metavar="FILE", help="what was measured, by place and field")
@click.option("--ask", is_flag=True, help="ask for the sizes that leave something not proven, and for wear")
@click.option("--keep", metavar="FILE", help="write what was measured to a file, to use it again")
@click.option("--sheet", metavar="FILE.html", help="write the rebuild sheet, for the screen and for print")
@click.option("--number", "sheet_number", metavar="TEXT", default="", help="number of the sheet")
@click.option("--json", "as_json", is_flag=True, help="print the answer as JSON")
@click.option("--all", "unfolded", is_flag=True, help="show every finding of every place, also on the sheet")
@click.option("--in", "inches", type=click.Choice(["mm", "in"]), default="mm", help="unit of lengths")
@click.option("--decide-by", metavar="TEXT", help="decision rule [names decision-rules]")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
@click.option("--housings", metavar="FILE", help="the workshop's own table of seal housings (CSV)")
def command(
    unit: str,
    measured_file: str | None,
    ask: bool,
    keep: str | None,
    sheet: str | None,
    sheet_number: str,
    as_json: bool,
    unfolded: bool,
    inches: str,
    decide_by: str | None,
    catalogue: str | None,
    housings: str | None,
) -> int:
    """Check every place of UNIT: does each part fit, what may stay, what will the gas do?

    UNIT is a unit of the catalogue or a unit file (.yaml). Words in [names LIST] are listed by borebook
    names LIST.
    """
    from fitcheck.unit.check import check_unit
    from schema.guidance import Choices
    from schema.reference import published_reference

    for name, option in ((sheet, "--sheet"), (keep, "--keep")):
        _check_folder(name, option)
    _refuse_to_lose(keep, measured_file)
    if sheet and Path(sheet).suffix.lower() not in (".html", ".htm"):
        raise InputError(
            field="--sheet", given=sheet, problem="the sheet is an HTML file", example="sheet.html"
        )
    choices = Choices(decision_rule=decide_by) if decide_by else Choices()
    texts = _texts(unit, catalogue)
    reference = with_own_housings(published_reference(), housings, catalogue)
    measured: dict[str, dict[str, Any]] = {}
    if measured_file is None:
        built = _built(texts, measured, choices)
    else:
        from catalogue.measurements import read_measured

        file = read_measured(measured_file)
        measured = file.texts
        built = file.told(lambda: _built(texts, measured, choices))
    verdict = check_unit(built, reference, choices)
    if ask:
        from catalogue.cli.prompts import asked_for

        measured = asked_for(built, verdict, measured, lambda told: _built(texts, told, choices))
        built = _built(texts, measured, choices)
    if keep and not measured:
        click.echo(f"borebook: nothing was measured, so {keep} was not written", err=True)
    elif keep:  # before it is judged: what was typed in is not to be typed again
        from catalogue.measurements import write_measured

        write_measured(keep, measured)
        click.echo(f"borebook: what was measured is in {keep}", err=True)
    if ask:
        verdict = check_unit(built, reference, choices)
    if sheet:
        from datetime import date

        from catalogue.rebuild_sheet import rebuild_sheet
        from catalogue.whole_files import write_whole

        page = rebuild_sheet(
            built,
            verdict,
            reference,
            unit_of_length="in" if inches == "in" else "mm",
            made_on=date.today(),
            sheet_number=sheet_number,
            extent="whole" if unfolded else "working",
            data_versions=_data_versions(unit, catalogue),
        )
        write_whole(sheet, page, option="--sheet")
        click.echo(f"borebook: the rebuild sheet is in {sheet}", err=True)
    if as_json:
        from catalogue.unit_answer import unit_answer

        click.echo(json.dumps(unit_answer(verdict), indent=2, ensure_ascii=False))
    else:
        from catalogue.unit_report import unit_report

        click.echo(unit_report(verdict, style(inches, unfolded)), nl=False)
    return EXIT_OF[verdict.status]


def _data_versions(unit: str, catalogue: str | None) -> dict[str, str]:
    """What the catalogue says it was made from; {} for a unit of a file."""
    if _is_file(unit):
        return {}
    from catalogue.resolve import open_catalogue

    connection = open_catalogue(Path(catalogue) if catalogue else None, wanted=unit)
    try:
        return dict(
            connection.execute("SELECT subject, version FROM data_version ORDER BY subject").fetchall()
        )
    finally:
        connection.close()


def _is_file(unit: str) -> bool:
    return unit.lower().endswith((".yaml", ".yml"))


def _texts(unit: str, catalogue: str | None) -> Mapping[str, Any]:
    """The texts of a unit, from its file or from the catalogue."""
    if _is_file(unit):
        from catalogue.unit_files.building import unit_file_texts

        return unit_file_texts(Path(unit), Path(catalogue) if catalogue else None)
    from catalogue.resolve import open_catalogue
    from catalogue.texts import unit_texts

    connection = open_catalogue(Path(catalogue) if catalogue else None, wanted=unit)
    try:
        return unit_texts(connection, unit)
    finally:
        connection.close()


def _built(texts: Mapping[str, Any], measured: Mapping[str, Any], choices: Any) -> Unit:
    from schema.unit import unit_from

    try:
        return unit_from(texts, measured=measured, choices=choices)
    except InputErrors as several:
        raise InputErrors([_told(error) for error in several.errors]) from several


def _told(error: InputError) -> InputError:
    return error.for_field(error.field.removeprefix("places.").removeprefix("measured."))


def _check_folder(name: str | None, option: str) -> None:
    if name is not None and not Path(name).parent.is_dir():
        raise InputError(
            field=option,
            given=name,
            problem=f"there is no folder {str(Path(name).parent)!r}: make it first, or name another one",
        )


def _refuse_to_lose(keep: str | None, measured_file: str | None) -> None:
    """Measurements that are in a file already are not written over, unless they were read from it."""
    if keep is None or not Path(keep).is_file():
        return
    if measured_file is None or not Path(measured_file).exists() or not Path(keep).samefile(measured_file):
        raise InputError(
            field="--keep",
            given=keep,
            problem="this file is there already, and what was measured in it would be lost",
            allowed=f"another name, or --measured {keep} as well, to add to it",
        )
