"""``borebook load``: a supplier's sheet into the catalogue, looked at first."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from catalogue.cli.arguments import Command
from catalogue.cli.page import say
from catalogue.cli.screen import on_screen
from schema.errors import InputError

if TYPE_CHECKING:
    from catalogue.cli.load_watch import Watch
    from catalogue.sheets.choosing import Choice, Said
    from catalogue.sheets.mapping import Mapping
    from catalogue.sheets.opening import SheetFile
    from catalogue.sheets.outcome import Counts, LoadReport
    from catalogue.sheets.proposing import ColumnProposal
    from catalogue.texts import Texts

EXIT_NOT_LOADED = 1
EXIT_QUESTIONS = 2


@click.command("load", cls=Command)
@click.argument("file", type=click.Path(path_type=Path, allow_dash=True))
@click.option("--supplier", metavar="NAME", help="whose sheet it is")
@click.option("--own-parts", is_flag=True, help="a list of the workshop's own parts, without prices")
@click.option("--dry-run", is_flag=True, help="tell what would change, and write nothing")
@click.option("--yes", "agreed", is_flag=True, help="load without asking")
@click.option("--take", multiple=True, metavar="CODE", help="take the row of this code though it is doubtful")
@click.option("--take-gone", is_flag=True, help="withdraw what is gone from the sheet, however much it is")
@click.option("--take-doubtful", is_flag=True, help="take rows too that would be kept back")
@click.option(
    "--column", "columns", multiple=True, metavar="HEADER=FIELD", help="what a column is, with a unit"
)
@click.option(
    "--every", multiple=True, metavar="FIELD=TEXT", help="what all rows have: kind=o_ring, currency=EUR"
)
@click.option(
    "--word",
    "words",
    multiple=True,
    metavar="FIELD:WORD=OURS",
    help='what a word of theirs means: "kind: Werkzeug=leave_out", "currency: $=USD"',
)
@click.option("--same", multiple=True, metavar="CODE=PART", help="a code of theirs that is a part of ours")
@click.option("--decimal", type=click.Choice([".", ","]), help="the decimal sign of the sheet")
@click.option(
    "--covers",
    type=click.Choice(["whole_range", "some"]),
    help="whole_range: what is not on the sheet is not offered any more",
)
@click.option("--sheet", "sheets", multiple=True, metavar="NAME", help="load only this worksheet")
@click.option("--encoding", metavar="NAME", help="the encoding of a text file, if it is guessed wrong")
@click.option("--delimiter", metavar="SIGN", help="what parts the cells of a text file: , ; tab |")
@click.option("--mapping", "mapping_file", type=click.Path(path_type=Path), help="load by this mapping file")
@click.option(
    "--rejected",
    metavar="FILE",
    help="write the rows that were not taken, with why, to mend and load: CSV, or a workbook (.xlsx)",
)
@click.option(
    "--changes",
    metavar="FILE",
    help="write every change as a row (code, field, before, now): CSV, or a workbook (.xlsx)",
)
@click.option("--replace", is_flag=True, help="write over files of --rejected and --changes that are there")
@click.option("--all", "every_row", is_flag=True, help="show every row, not the first of each kind")
@click.option("--json", "as_json", is_flag=True, help="print the report as JSON")
@click.option("--catalogue", metavar="FILE", envvar="BOREBOOK_CATALOGUE", help="catalogue file")
def command(file: Path, **options: Any) -> int:
    """Load FILE, a price or stock list, into the catalogue.

    Read are CSV and other delimited text, XLSX, XLS, ODS, and one of these packed by gzip or zip; - is
    standard input. The columns are proposed the first time; correct them with --column "ID=inside_diameter
    mm". What you agree to is kept for the supplier beside the catalogue, and used for the next sheet. A load
    is in the catalogue wholly or not at all, and can be taken back: borebook loads undo NUMBER.
    """
    from catalogue.cli.load_watch import Watch
    from catalogue.sheets.choosing import choose
    from catalogue.sheets.kept import supplier_name
    from catalogue.sheets.opening import open_sheet_file
    from catalogue.store import location

    _refuse_to_write_over(file, options)
    own = options["own_parts"]
    supplier = _supplier(options["supplier"], own, options["mapping_file"])
    supplier_name(supplier)
    said = _said(options)
    catalogue = location(options["catalogue"])
    source = sys.stdin.buffer if str(file) == "-" else file
    with open_sheet_file(
        source, name="-" if str(file) == "-" else "", encoding=said.encoding, delimiter=_sign(said.delimiter)
    ) as opened:
        choice = choose(
            opened, supplier, catalogue, said, mapping_file=options["mapping_file"], own_parts=own
        )
        quiet = options["as_json"]
        if not quiet:
            _say_choice(choice)
        if choice.mapping is None:
            _say_questions(choice, quiet)
            return EXIT_QUESTIONS
        watch = Watch(
            decimal=choice.mapping.decimal,
            wants_changes=options["changes"] is not None,
            wants_refused=options["rejected"] is not None,
        )
        try:
            return _load(opened, choice, choice.mapping, catalogue, options, watch)
        finally:
            watch.close()


def _load(
    file: SheetFile, choice: Choice, mapping: Mapping, catalogue: Path, options: dict[str, Any], watch: Watch
) -> int:
    from catalogue.load_report import took_nothing
    from catalogue.sheets.codes import folded
    from catalogue.sheets.kept import mappings_folder, write_kept
    from catalogue.sheets.loading import load_sheet
    from catalogue.sheets.one_load import Take

    own, dry = options["own_parts"], options["dry_run"]

    take = Take(
        codes=frozenset(map(folded, options["take"])),
        gone=options["take_gone"],
        all=options["take_doubtful"],
    )

    def load(*, apply: bool, expected: Counts | None = None) -> LoadReport:
        return load_sheet(
            catalogue,
            file,
            mapping,
            own_parts=own,
            apply=apply,
            take=take,
            expected=expected,
            listener=None if expected else watch,
        )

    agreed = options["agreed"] and not dry
    report = load(apply=agreed)
    watch.done()
    asked = not agreed and not dry and _worth_asking(report)
    if asked:
        _say_report(report, options, catalogue)
        if sys.stdin.isatty() and str(file.name) != "-":
            agreed = click.confirm("Load it?", default=False, err=True)
        if agreed:
            report = load(apply=True, expected=report.counts)
    kept = None
    if agreed and choice.keep and not own and not took_nothing(report.counts):
        kept = write_kept(mappings_folder(catalogue), mapping)
    watch.write(report, file, rejected=options["rejected"], changes=options["changes"])
    if not asked:
        _say_report(report, options, catalogue)
    if kept is not None:
        _note(f"What the columns are is kept in {kept}", options)
    if dry:
        _note("Nothing was written: this was a dry run.", options)
        return 0
    if not agreed and _worth_asking(report):
        _note("Nothing was written. To load it: the same command with --yes", options)
        return EXIT_NOT_LOADED
    if report.applied:
        _note(f"This is load {report.load}. To take it back: borebook loads undo {report.load}", options)
    if took_nothing(report.counts):
        _note("No row of this sheet was taken.", options)
        return EXIT_NOT_LOADED
    return 0


def _worth_asking(report: LoadReport) -> bool:
    return report.counts.changes or not report.same_as


def _refuse_to_write_over(file: Path, options: dict[str, Any]) -> None:
    """A file that is there is written over only when asked, and the sheet itself never."""
    for option in ("rejected", "changes"):
        name = options[option]
        if name is None or not Path(name).is_file():
            continue
        own = str(file) != "-" and file.exists() and Path(name).samefile(file)
        if own or not options["replace"]:
            raise InputError(
                field=f"--{option}",
                given=name,
                problem="this is the sheet that is to be loaded" if own else "this file is there already",
                allowed="another name" if own else "another name, or --replace",
            )


def _supplier(named: str | None, own: bool, mapping_file: Path | None) -> str:
    """Whose sheet it is, by name or by the mapping file; both must say the same."""
    if own:
        if named:
            raise InputError(
                field="--supplier",
                given=named,
                problem="a list of own parts has no supplier",
                allowed="one of --supplier and --own-parts",
            )
        from catalogue.sheets.codes import OWN_PARTS

        return OWN_PARTS
    told = " ".join((named or "").split())
    if mapping_file is not None:
        from catalogue.sheets.kept import mapping_of

        kept = mapping_of(mapping_file.read_bytes(), mapping_file.name).supplier
        if told and told.casefold() != kept.casefold():
            raise InputError(
                field="--supplier",
                given=told,
                problem=f"the mapping file is for {kept}",
                allowed="the same name, or no --supplier",
            )
        return kept
    if not told:
        raise InputError(
            field="--supplier",
            given="",
            problem="is missing: it tells whose sheet this is",
            allowed="a name, the same each month; or --own-parts for a list of your own",
            example="--supplier Kolbring",
        )
    return told


def _said(options: dict[str, Any]) -> Said:
    from catalogue.sheets.choosing import Said

    return Said(
        columns=tuple(options["columns"]),
        every=_pairs("--every", options["every"], "kind=o_ring"),
        words=_words(options["words"]),
        same=_pairs("--same", options["same"], "2140-70=QV-1205"),
        decimal=options["decimal"] or "",
        covers=options["covers"] or "",
        sheets=tuple(options["sheets"]),
        encoding=options["encoding"] or "",
        delimiter=options["delimiter"] or "",
    )


def _pairs(option: str, given: tuple[str, ...], example: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for text in given:
        name, equals, value = (part.strip() for part in text.partition("="))
        if not equals or not name or not value:
            raise InputError(field=option, given=text, problem="is told as NAME=TEXT", example=example)
        if found.get(name, value) != value:
            raise InputError(field=option, given=text, problem=f"{name} is told twice")
        found[name] = value
    return found


def _words(given: tuple[str, ...]) -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = {}
    for text in given:
        field, colon, rest = text.partition(":")
        word, equals, ours = rest.rpartition("=")
        if not colon or not equals or not word.strip() or not ours.strip():
            raise InputError(
                field="--word",
                given=text,
                problem="is told as FIELD:WORD=OURS",
                example="kind: Werkzeug=leave_out",
            )
        found.setdefault(field.strip(), {})[word.strip()] = ours.strip()
    return found


def _sign(text: str) -> str:
    return {"tab": "\t", "\\t": "\t"}.get(text, text)


# -- what is said --------------------------------------------------------------------------------------


def _say_choice(choice: Choice) -> None:
    from catalogue.cli.page import table

    for sheet, columns in choice.columns:
        say(f"Columns of {sheet}, as they are read:" if sheet else "Columns, as they are read:")
        table(((one.header, _read_as(one), _seen(one)) for one in columns), indent=2)
    if choice.columns:
        click.echo(f"Decimal sign: {choice.decimal}")
    for one in choice.told:
        say(one)
    for hint in choice.hints:
        say(f"Perhaps: {hint}")


def _read_as(column: ColumnProposal) -> str:
    taken = column.field and column.how_sure in ("sure", "told")
    return f"{column.field} {column.unit}".strip() if taken else "left out"


def _seen(column: ColumnProposal) -> str:
    """Examples; and why, where that is more than that the header says so."""
    examples = ", ".join(column.examples) or "empty"
    plain = column.how_sure in ("sure", "told") or not column.why
    return examples if plain else f"{examples} ({column.why})"


def _say_questions(choice: Choice, as_json: bool) -> None:
    if as_json:
        asked = [one._asdict() for one in choice.questions]
        click.echo(json.dumps({"questions": asked}, indent=2, ensure_ascii=False))
        return
    for one in choice.questions:
        say(f"To be told first: {one.text}", 2)
        for answer in one.answers:
            click.echo(f"  {on_screen(answer)}")
    click.echo("Nothing was written.")


def _say_report(report: LoadReport, options: dict[str, Any], catalogue: Path) -> None:
    from catalogue.load_report import load_json, load_lines

    gone = _texts_of_gone(report, catalogue)
    if options["as_json"]:
        click.echo(json.dumps(load_json(report, gone=gone), indent=2, ensure_ascii=False))
        return
    for line in load_lines(report, every=options["every_row"], gone=gone):
        say(line, 6 if line.startswith(" ") else 2)


def _texts_of_gone(report: LoadReport, catalogue: Path) -> dict[str, Texts]:
    """The texts of the parts of offers that are gone from the sheet, by number in small letters."""
    if not report.missing:
        return {}
    from catalogue.sheets.codes import folded
    from catalogue.store import open_store
    from catalogue.texts import texts_of_parts

    connection = open_store(catalogue)
    try:
        found = texts_of_parts(connection, [one.part_number for one in report.missing])
    finally:
        connection.close()
    return {folded(number): texts for number, texts in found.items()}


def _note(text: str, options: dict[str, Any]) -> None:
    click.echo(text, err=options["as_json"])
