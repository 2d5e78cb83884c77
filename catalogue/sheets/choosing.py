"""Which mapping a file is loaded by: the one that is kept, with what a person says over it, or a proposal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from collections.abc import Mapping as Texts
from pathlib import Path
from typing import NamedTuple

from catalogue.sheets.answers import column_told, option
from catalogue.sheets.decimal_signs import combined, decimal_evidence
from catalogue.sheets.holding import held_against, retold
from catalogue.sheets.kept import mapping_of, mappings_folder, read_kept
from catalogue.sheets.mapping import Column, Mapping, column_names, placed
from catalogue.sheets.opening import SheetFile, Table
from catalogue.sheets.own_export import is_export, sheet_name
from catalogue.sheets.proposing import WITH_SIGNS, ColumnProposal, Proposal, Question, propose
from catalogue.sheets.rejected_rows import OURS
from catalogue.sheets.sheet_fields import NAMES_ONE_ROW, fields
from catalogue.sheets.trying import nothing_to_be_made
from schema.errors import InputError


class Said(NamedTuple):
    """What a person says of a sheet on the command line or a page; "" and () where they say nothing."""

    columns: tuple[str, ...] = ()  # HEADER=FIELD [UNIT]
    every: Texts[str, str] = {}
    same: Texts[str, str] = {}
    words: Texts[str, Texts[str, str]] = {}
    decimal: str = ""
    covers: str = ""
    sheets: tuple[str, ...] = ()
    encoding: str = ""
    delimiter: str = ""


class Choice(NamedTuple):
    """The mapping, or the questions that stand before it.

    ``columns`` are the proposed columns, table by table, where the mapping is a proposal; ``told`` are things
    a person should see (new columns). ``keep`` says whether the mapping is another than the kept one, so that
    it is to be kept once its load is in the catalogue.
    """

    mapping: Mapping | None
    columns: tuple[tuple[str, tuple[ColumnProposal, ...]], ...]
    decimal: str
    questions: tuple[Question, ...]
    hints: tuple[Question, ...]
    told: tuple[str, ...]
    keep: bool


def choose(
    file: SheetFile,
    supplier: str,
    catalogue: Path,
    said: Said,
    *,
    mapping_file: Path | None = None,
    own_parts: bool = False,
) -> Choice:
    """The mapping for a file. Raises InputErrors, KeptErrors for what was said or kept and cannot be.

    A sheet that borebook wrote has its mapping in its headers, unless a person says what its columns are.
    """
    plain = mapping_file is None and not (said.columns or said.every or said.decimal)
    if plain and any(is_export(table.header) for table in tables_of(file, said.sheets)):
        return _exported(file, supplier, said, own_parts)
    if mapping_file is not None:
        kept: Mapping | None = mapping_of(mapping_file.read_bytes(), mapping_file.name)
    else:
        kept = read_kept(mappings_folder(catalogue), supplier)
    if kept is None:
        return _proposed(file, supplier, said)
    return _kept(file, kept, said, named=mapping_file is not None)


def tables_of(file: SheetFile, sheets: Sequence[str]) -> tuple[Table, ...]:
    """The tables that may be loaded: those that are named, or all that are not hidden. Raises InputError."""
    known = [table.sheet for table in file.tables]
    for name in sheets:
        if name not in known:
            raise InputError(
                field="--sheet",
                given=name,
                problem="this file has no such table",
                allowed=", ".join(filter(None, known)) or "none: it is a text file",
            )
    if sheets:
        return tuple(table for table in file.tables if table.sheet in sheets)
    return tuple(table for table in file.tables if not table.hidden)


def _exported(file: SheetFile, supplier: str, said: Said, own_parts: bool) -> Choice:
    """The mapping for a file that borebook wrote; that of a supplier's other sheets is left as it is."""
    tables = [table for table in tables_of(file, said.sheets) if is_export(table.header)]
    fitting = [table for table in tables if ("code" in table.header) is not own_parts]
    if len(fitting) > 1:
        named = [table for table in fitting if table.sheet.lower() == sheet_name(supplier).lower()]
        fitting = named or fitting
    if len(fitting) != 1:
        offers = not own_parts
        raise InputError(
            field=file.name,
            given="",
            problem=f"borebook wrote this file, and {'several sheets' if fitting else 'no sheet'} of it "
            f"{'have' if fitting else 'has'} {'offers' if offers else 'parts alone'}",
            allowed=f"one of them, by --sheet: {', '.join(table.sheet for table in fitting)}"
            if fitting
            else "--own-parts for a sheet of parts, --supplier NAME for one of offers",
        )
    sheets = tuple(table.sheet for table in fitting if table.sheet)
    return _proposed(file, supplier, said._replace(sheets=sheets))._replace(keep=False)


def _proposed(file: SheetFile, supplier: str, said: Said) -> Choice:
    found = []
    every: dict[str, str] = {}
    tables = tables_of(file, said.sheets)
    names = [name for table in tables for name in column_names(table.header)]
    told = [column_told(text, names) for text in said.columns]
    for table in tables:
        own = set(column_names(table.header))
        given = [text for text, column in zip(said.columns, told, strict=True) if column.header in own]
        found.append(
            (
                table,
                propose(
                    table.header,
                    [cells for _, cells in table.sample],
                    supplier,
                    sheet=table.sheet,
                    given=given,
                    every=said.every,
                    decimal=said.decimal,
                ),
            )
        )
    if len(found) > 1:  # a table without anything that tells its rows apart is no list of articles
        found = [
            (table, one)
            for table, one in found
            if any(column.field in NAMES_ONE_ROW for column in one.columns)
        ] or found
    signs_told = bool(said.words.get("currency"))
    questions = _once(
        question
        for _, one in found
        for question in one.open
        if not (question.about == "currency" and signs_told)
    )
    hints = _once(hint for _, one in found for hint in one.hints)
    shown = tuple((table.sheet, one.columns) for table, one in found)
    # a table of plain numbers shows no decimal sign; another one of the same file may
    signs = {sign for _, one in found for sign in one.shown}
    decimal = said.decimal or (next(iter(signs)) if len(signs) == 1 else found[0][1].decimal)
    if len(signs) == 1:
        questions = tuple(question for question in questions if question.about != "decimal")
    questions += tuple(_at_odds([(table.sheet, one) for table, one in found], said))
    if questions:
        return Choice(None, shown, decimal, questions, hints, (), keep=False)
    columns: dict[str, Column] = {}
    for _, one in found:
        every |= one.every
        for name, column in one._replace(open=()).mapping().columns.items():
            if name not in columns or not columns[name].field:
                columns[name] = column
    mapping = (
        found[0][1]
        ._replace(open=())
        .mapping(
            columns=columns,
            every={name: text for name, text in every.items() if not _mapped(columns, name)},
            decimal=decimal,
            texts="as_kept" if all(one.texts == "as_kept" for _, one in found) else "read",
            **_said(said),
        )
    )
    if questions := nothing_to_be_made(mapping, [table for table, _ in found]):
        return Choice(None, shown, decimal, questions, hints, (), keep=False)
    return Choice(mapping, shown, decimal, (), hints, (), keep=True)


def _kept(file: SheetFile, kept: Mapping, said: Said, *, named: bool) -> Choice:
    mapping = kept.changed(**_said(said, kept)) if _said(said, kept) else kept
    # rows that were not taken, mended: never the whole range, and in a sheet of our own
    mended = any(set(OURS) <= set(table.header) for table in file.tables)
    if mended:
        mapping = mapping.changed(covers="some", sheets=())
    tables = tables_of(file, mapping.sheets)
    # a column that several tables have is one
    header = list(dict.fromkeys(name for table in tables for name in column_names(table.header)))
    rows = tables[0].sample if len(tables) == 1 else ()
    if said.columns:
        mapping = retold(mapping, header, said.columns)
    if said.every or said.decimal:
        mapping = mapping.changed(
            every={**mapping.every, **said.every}, decimal=said.decimal or mapping.decimal
        )
    of_tables = [table.header for table in tables]
    fit = held_against(mapping, header, [cells for _, cells in rows], tables=of_tables)
    told = [f"{_where(one.header, tables)}{one}" for one in fit.new if one.header not in OURS]
    if said.covers and said.covers != kept.covers:
        told.append(f"the mapping says {said.covers} from now on")
    keep = (named or mapping != kept) and not mended
    questions = (*fit.questions, *(() if said.decimal else _other_sign(mapping, tables)))
    if questions:
        return Choice(None, (), mapping.decimal, questions, (), tuple(told), keep=False)
    return Choice(mapping, (), mapping.decimal, (), (), tuple(told), keep)


def _said(said: Said, kept: Mapping | None = None) -> dict[str, object]:
    """The entries of a mapping that are told outright."""
    found: dict[str, object] = {
        name: value
        for name, value in (
            ("covers", said.covers),
            ("sheets", said.sheets),
            ("encoding", said.encoding),
            ("delimiter", said.delimiter),
        )
        if value
    }
    if said.words:
        words = {field: dict(own) for field, own in (kept.words if kept else {}).items()}
        for field, told in said.words.items():
            words.setdefault(field, {}).update(told)
        found["words"] = words
    if said.same:
        found["same_part"] = {**(kept.same_part if kept else {}), **said.same}
    return found


def _at_odds(found: Sequence[tuple[str, Proposal]], said: Said) -> Iterable[Question]:
    """What the tables of one file say of all their rows and do not say alike: a mapping has it once."""
    alone = tuple(f'--sheet "{sheet}"' for sheet, _ in found)
    if not said.decimal and not any(len(one.shown) > 1 for _, one in found):
        signs = {sheet: one.shown for sheet, one in found if one.shown}
        if len(set(signs.values())) > 1:
            yield Question("decimal", f"the tables have different decimal signs ({_told(signs)})", alone)
    priced = [(sheet, one) for sheet, one in found if any(column.field == "price" for column in one.columns)]
    for field, usual in (("currency", ""), ("price_per", "1")):
        if field in said.every:
            continue
        told = {
            sheet: one.every.get(field, usual)
            for sheet, one in priced
            if not any(column.field == field for column in one.columns)
        }
        if len({*filter(None, told.values())}) > 1:
            yield Question(
                field, f"the tables have different {field} ({_told(told)}): load one by one", alone
            )


def _other_sign(mapping: Mapping, tables: Sequence[Table]) -> Iterable[Question]:
    """A sheet whose numbers all show the other decimal sign than the kept one: 1,250 would be read wrong."""
    shown = combined(
        decimal_evidence([cells[place.at] for _, cells in table.sample if place.at < len(cells)])
        for table in tables
        for place in placed(mapping, table.header).values()
        if fields()[place.column.field].holds in WITH_SIGNS
    )
    if shown.says and shown.says != mapping.decimal:
        text = f"the mapping has {mapping.decimal} for the decimal sign, this sheet shows {shown.in_words}"
        yield Question(
            "decimal", text, tuple(option("--decimal", one) for one in (shown.says, mapping.decimal))
        )


def _told(by_sheet: Texts[str, str]) -> str:
    return ", ".join(f"{sheet or 'the first'}: {text or 'none'}" for sheet, text in by_sheet.items())


def _where(header: str, tables: Sequence[Table]) -> str:
    """The worksheets that have a column, to be told before it; "" where the file has one table alone."""
    having = [table.sheet for table in tables if header in column_names(table.header)]
    return f"{', '.join(filter(None, having))}: " if len(tables) > 1 and any(having) else ""


def _mapped(columns: Texts[str, Column], field: str) -> bool:
    return any(column.field == field for column in columns.values())


def _once(questions: Iterable[Question]) -> tuple[Question, ...]:
    return tuple(dict.fromkeys(questions))


__all__ = ["Choice", "Said", "choose", "tables_of"]
