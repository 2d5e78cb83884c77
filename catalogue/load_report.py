"""What a load found, in lines for the terminal: what changes, what is doubtful, what was not taken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import TypeVar

from catalogue import row_words
from catalogue.row_words import article_words, counted, cut, described
from catalogue.sheets.codes import OWN_PARTS, folded
from catalogue.sheets.comparing import Changed, FieldChange, New
from catalogue.sheets.known import KnownOffer
from catalogue.sheets.outcome import Counts, LoadReport, TableNote
from catalogue.sheets.problems import Refused
from catalogue.sheets.terms import COMPARED, Offered, unit_price
from catalogue.texts import Texts

Anything = TypeVar("Anything")
SHOWN = 12  # rows of a kind, unless all are asked for
NO_TEXTS: Mapping[str, Texts] = MappingProxyType({})
_OWN_NAMES = {"lead_time_days": "lead time, days", "hardness_shore_a": "hardness"}


def load_lines(
    report: LoadReport, *, every: bool = False, gone: Mapping[str, Texts] = NO_TEXTS
) -> Iterator[str]:
    """The lines of a report, without line ends; a line that begins with spaces belongs to the one above.

    ``gone`` are the texts of the parts of offers that are gone from the sheet, by number in small letters.
    """
    most = 10**9 if every else SHOWN
    yield from _head(report)
    yield from report.notes
    counts = report.counts
    if not counts.changes and not counts.refused and not counts.doubtful:
        yield _nothing_new(report)
    yield from _changed(report.changed, counts, most)
    yield from _new(report.new, counts, most)
    yield from _missing(report.missing, report, most, gone)
    yield from _doubtful(report.doubtful, counts, most)
    yield from _refused(report.refused, counts, most)
    if report.proposals:
        yield f"Perhaps the same article ({len(report.proposals)}); nothing is done unless you say so:"
        for one in _some(report.proposals, most):
            yield f"  row {one.row}, {one.code}: {one.why} (part {one.part_number})"
        yield "  To say so: --same CODE=PART, kept in the mapping under same_part."
    yield from _rest(report)


def _head(report: LoadReport) -> Iterator[str]:
    whose = report.supplier or OWN_PARTS
    read = f", {report.encoding} ({report.encoding_why})" if report.encoding else ""
    yield f"{report.file}, {whose}: {counted(report.counts.rows, 'row')}{read}"
    for table in report.tables:
        yield from _table(table, len(report.tables) > 1)


def _table(table: TableNote, several: bool) -> Iterator[str]:
    name = f"table {table.sheet!r}" if table.sheet else "the table"
    if table.skipped:
        yield f"  {name} was not loaded: {table.skipped}"
        return
    if several or table.header_row > 1:
        yield f"  {name}: header in row {table.header_row}, {counted(table.rows, 'row')}"
    for row, why, text in table.left_out[:SHOWN]:
        yield f"  row {row} is no article ({why}): {_short(text)}"
    if (more := len(table.left_out) - SHOWN) > 0:
        yield f"  and {counted(more, 'more row is no article', 'more rows are no articles')}"
    if table.blank:
        yield f"  {counted(table.blank, 'blank row')}"


def _nothing_new(report: LoadReport) -> str:
    if report.same_as:
        return f"This file was loaded already (load {report.same_as}); nothing changes."
    if took_nothing(report.counts):
        return "No row of this sheet is an article that could be taken; nothing changes."
    return "The catalogue says all of this already; nothing changes."


def took_nothing(counts: Counts) -> bool:
    """Whether no row of the sheet stands in the catalogue, by this load or before it."""
    return not (counts.new or counts.changed or counts.back or counts.respelt or counts.unchanged)


def _changed(rows: list[Changed], counts: Counts, most: int) -> Iterator[str]:
    total = counts.changed + counts.back
    if not total:
        return
    yield f"Changed ({total}):"
    for one in _some(rows, most):
        article = f"; now {_article(one)}" if _changes_article(one) else ""
        yield f"  row {one.row.number}, {one.row.terms.code}: {'; '.join(_changes(one))}{article}"
    yield from _more(total, min(len(rows), most))


def _changes(row: Changed) -> Iterator[str]:
    if row.back:
        yield "is on the list again"
    for change in row.changes:
        if change.field == "currency" and any(one.field == "price" for one in row.changes):
            continue
        yield _change(change, row)


def _changes_article(row: Changed) -> bool:
    return any(change.field not in COMPARED for change in row.changes)


def _article(row: New | Changed) -> str:
    """What was read of an article."""
    return article_words(row.row.article.kind, dict(row.row.article.texts))


def _change(change: FieldChange, row: Changed) -> str:
    name = _OWN_NAMES.get(change.field, change.field.replace("_", " "))
    before, now = change.before or "nothing", change.now or "nothing"
    if change.field == "price" and row.offer is not None:
        before, now = price_words(row.offer), price_words(row.row.terms)
        return f"price {before} -> {now}{_percent(row.offer, row.row.terms)}"
    if change.field == "price_per":
        return f"price is for {now}, was for {before}"
    return f"{name} {_short(before)} -> {_short(now)}"


def price_words(terms: Offered | KnownOffer) -> str:
    """A price as people say it: 1.85 EUR, 12.50 EUR for 100; "nothing" where there is none."""
    return row_words.price_words(terms.price, terms.currency, terms.price_per) or "nothing"


def _percent(before: KnownOffer, now: Offered) -> str:
    own, last = unit_price(now), unit_price(before)
    if own is None or last is None or before.currency != now.currency:
        return ""
    return f" ({(own / last - 1) * 100:+.1f} %)"


def _new(rows: list[New], counts: Counts, most: int) -> Iterator[str]:
    if not counts.new:
        return
    known = counts.new - counts.new_parts
    made = counted(counts.new_parts, "new part")
    yield f"New ({counts.new}): {known} of them parts that the catalogue has, {made}"
    for one in _some(rows, most):
        terms = one.row.terms
        part = f"is {one.part_number}, by {one.how}" if not one.makes_part else f"new part {one.part_number}"
        priced = f", {price_words(terms)}" if terms.price else ""
        words = described(terms.description, one.row.article.kind, dict(one.row.article.texts))
        yield f"  row {one.row.number}, {terms.code}: {words}{priced}; {part}"
    yield from _more(counts.new, min(len(rows), most))


def _missing(
    rows: list[KnownOffer], report: LoadReport, most: int, texts: Mapping[str, Texts]
) -> Iterator[str]:
    counts = report.counts
    if report.absent:
        offers = counted(report.absent, "offer")
        stay = "they stay listed, since the sheet covers some of the range (or say --covers whole_range)"
        yield f"Not on the sheet: {offers} of {report.supplier}; {stay}"
    if not counts.missing:
        return
    if report.kept_listed:
        yield f"Gone from the sheet: {report.kept_listed}"
    else:
        yield f"Gone from the sheet ({counts.missing}), so not listed any more; what they were is kept:"
    for one in _some(rows, most):
        told = texts.get(folded(one.part_number), {})
        words = described(one.description, told["kind"], told) if told else _short(one.description)
        yield f"  {one.code}: {words} (part {one.part_number})"
    yield from _more(counts.missing, min(len(rows), most))


def _doubtful(rows: Sequence[New | Changed], counts: Counts, most: int) -> Iterator[str]:
    if not counts.doubtful:
        return
    how = "--take CODE, or --take-doubtful for all"
    yield f"Doubtful ({counts.doubtful}), kept back until you say that they are meant ({how}):"
    for one in _some(rows, most):
        why = "; ".join(dict.fromkeys(doubt.reason for doubt in one.doubts))
        what = "; ".join(_changes(one)) if isinstance(one, Changed) else f"a new code, {_article(one)}"
        if isinstance(one, Changed) and _changes_article(one):
            what += f"; now {_article(one)}"
        yield f"  row {one.row.number}, {one.row.terms.code}: {what}: {why}"
    yield from _more(counts.doubtful, min(len(rows), most))


def _refused(rows: list[Refused], counts: Counts, most: int) -> Iterator[str]:
    if not counts.refused:
        return
    yield f"Not taken ({counts.refused}); --rejected FILE writes these rows, to mend and load:"
    for one in _some(rows, most):
        sheet = f" of {one.sheet}" if one.sheet else ""
        code = f", {one.code}" if one.code else ""
        yield f"  row {one.number}{sheet}{code}: {'; '.join(map(str, one.problems))}"
    yield from _more(counts.refused, min(len(rows), most))


def _rest(report: LoadReport) -> Iterator[str]:
    counts = report.counts
    said = [
        (counts.unchanged, "unchanged"),
        (counts.respelt, "written otherwise, meaning the same"),
        (counts.repeated, "standing in the sheet twice, taken once"),
        (counts.left_out, "left out by the mapping"),
    ]
    told = ", ".join(f"{count} {words}" for count, words in said if count)
    if told:
        yield f"The rest: {told}"
    if report.remarks:
        yield "Noted of rows that were taken:"
    for remark, count in report.remarks.most_common(SHOWN):
        yield f"  {remark} ({counted(count, 'row')})"


def _some(rows: Sequence[Anything], most: int) -> Sequence[Anything]:
    return rows[:most]


def _more(total: int, shown: int) -> Iterator[str]:
    if total > shown:
        yield f"  and {total - shown} more"


def _short(text: str) -> str:
    return cut(text, 60)


def load_json(report: LoadReport, *, gone: Mapping[str, Texts] = NO_TEXTS) -> dict[str, object]:
    """The report for programs: counts, and the rows of each kind, the first thousand of each."""
    return {
        "supplier": report.supplier,
        "file": report.file,
        "sha256": report.sha256,
        "load": report.load or None,
        "same_file_as_load": report.same_as or None,
        "encoding": report.encoding,
        "counts": report.counts._asdict(),
        "tables": [one._asdict() for one in report.tables],
        "new": [
            {
                **_new_json(one),
                "part_number": one.part_number,
                "new_part": one.makes_part,
                "found_by": one.how,
            }
            for one in report.new
        ],
        "changed": [_change_json(one) for one in report.changed],
        "doubtful": [
            {
                **(_change_json(one) if isinstance(one, Changed) else _new_json(one)),
                "doubts": [doubt._asdict() for doubt in one.doubts],
            }
            for one in report.doubtful
        ],
        "not_taken": [
            {
                "sheet": one.sheet,
                "row": one.number,
                "code": one.code,
                "problems": [problem._asdict() for problem in one.problems],
            }
            for one in report.refused
        ],
        "gone": [
            {
                "code": one.code,
                "part_number": one.part_number,
                "article": gone.get(folded(one.part_number), {}),
            }
            for one in report.missing
        ],
        "kept_listed": report.kept_listed,
        "absent": report.absent,
        "perhaps": [one._asdict() for one in report.proposals],
        "notes": report.notes,
        "remarks": dict(report.remarks),
    }


def _place(one: New | Changed) -> dict[str, object]:
    return {"sheet": one.row.sheet, "row": one.row.number, "code": one.row.terms.code}


def _new_json(one: New) -> dict[str, object]:
    article = one.row.article
    return {
        **_place(one),
        "terms": one.row.terms._asdict(),
        "article": {"kind": article.kind, **dict(article.texts)},
    }


def _change_json(one: Changed) -> dict[str, object]:
    return {
        **_place(one),
        "part_number": one.part_number,
        "listed_again": one.back,
        "changes": [change._asdict() for change in one.changes],
    }
