"""Proposes what the columns of a table are, how sure that is, and what a person still has to say.

What a person told goes first, then what the headers say, then what the values look like. Nothing that would
change a figure is taken silently: a unit that no header and no cell tells, a decimal sign that no number
shows, a currency that nothing names are questions, each with the option that answers it.
"""

from __future__ import annotations

from collections.abc import Mapping as Texts
from collections.abc import Sequence

from catalogue.sheets.answers import column_option, column_told, option
from catalogue.sheets.currencies import currency_named, may_be
from catalogue.sheets.decimal_signs import combined, decimal_evidence
from catalogue.sheets.headers import HeaderReading, read_header
from catalogue.sheets.looks import DIFFERENT, MOST, bears, likely_unit, looks_of
from catalogue.sheets.mapping import Column, column_names
from catalogue.sheets.own_export import is_export
from catalogue.sheets.proposed import SURE, TOLD, UNKNOWN, UNSURE, ColumnProposal, Proposal, Question
from catalogue.sheets.sheet_fields import NAMES_ONE_ROW, fields
from schema.errors import InputError, InputErrors

# Fields that a header may say where the values name kinds of parts: Item, Part, Size.
_NO_KINDS = ("code", "part_number", "maker_code", "maker", "size")
MOST_OWN_UNITS = 0.5  # the share of cells above which a column is one of cells with their own unit
USUAL_CURRENCIES = ("EUR", "USD", "GBP", "CHF")
WITH_SIGNS = (
    "money",
    "count",
    "days",
    "length",
    "tolerance",
    "number",
)  # what numbers with a decimal sign are read for


def propose(
    header: Sequence[str],
    rows: Sequence[Sequence[str]],
    supplier: str,
    *,
    sheet: str = "",
    given: Sequence[str] = (),
    every: Texts[str, str] | None = None,
    decimal: str = "",
) -> Proposal:
    """Propose a mapping for one table: its header, a sample of its rows, the name of its sheet or title.

    ``given`` are the person's columns (``HEADER=FIELD [UNIT]``), ``every`` and ``decimal`` what they told of
    the whole sheet. Raises InputErrors for what was given and cannot be.
    """
    if is_export(header) and not (given or every or decimal):
        return _of_export(header, rows, supplier)
    work = _Proposing(header, rows, sheet, dict(every or {}))
    work.told(given)
    work.by_kinds()
    work.by_header()
    work.by_values()
    work.units()
    work.money()
    sign = work.decimal_sign(decimal)
    work.kind_of_part()
    work.row_names()
    return Proposal(
        supplier,
        tuple(work.found),
        work.every,
        sign,
        tuple(work.open),
        tuple(work.hints),
        shown=work.shown,
    )


def _of_export(header: Sequence[str], rows: Sequence[Sequence[str]], supplier: str) -> Proposal:
    """A sheet that borebook wrote: its headers are fields, its texts have their units."""
    columns = tuple(
        ColumnProposal(
            name, name, "", SURE, "", looks_of([row[at] for row in rows if at < len(row)]).examples
        )
        for at, name in enumerate(header)
    )
    return Proposal(supplier, columns, {}, ".", (), (), "as_kept")


class _Proposing:
    """One pass over one table, step by step."""

    def __init__(
        self, header: Sequence[str], rows: Sequence[Sequence[str]], sheet: str, every: dict[str, str]
    ) -> None:
        self.names = column_names(header)
        self.cells = [[row[at] for row in rows if at < len(row)] for at in range(len(self.names))]
        self.looks = [looks_of(cells) for cells in self.cells]
        self.sheet = sheet
        self.every = every
        texts = [name if written else "" for name, written in zip(self.names, header, strict=True)]
        self.readings = [read_header(text, kind=every.get("kind", "")) for text in texts]
        self.found = [
            ColumnProposal(name, examples=look.examples, why="nothing says what it is")
            for name, look in zip(self.names, self.looks, strict=True)
        ]
        self.open: list[Question] = []
        self.hints: list[Question] = []
        self.taken: dict[str, int] = {}
        self.shown = ""

    # -- columns -----------------------------------------------------------------------------------

    def told(self, given: Sequence[str]) -> None:
        errors: list[InputError] = []
        for text in given:
            try:
                column = column_told(text, self.names)
            except InputError as error:
                errors.append(error)
                continue
            at = self.names.index(column.header)
            if column.field and self.taken.get(column.field, at) != at:
                other = self.names[self.taken[column.field]]
                problem = f"the column {other!r} is told to be {column.field} too"
                errors.append(InputError(field="--column", given=text, problem=problem))
                continue
            self._set(at, column.field, TOLD, "told" if column.field else "told to be left out", column.unit)
        if errors:
            raise InputErrors(errors)

    def by_kinds(self) -> None:
        """A column whose values name kinds is asked for as that, where another one can be what it is headed.

        Item is a word for the code, and stands over O-ring, back-up ring, lobed ring all the same.
        """
        headed_so = any(one.sure and one.options == ("kind",) for one in self.readings)
        if headed_so or "kind" in self.taken or "kind" in self.every:
            return
        for at, (look, reading) in enumerate(zip(self.looks, self.readings, strict=True)):
            headed = reading.options[0] if reading.options else ""
            if self.found[at].how_sure == TOLD or headed not in _NO_KINDS or not look.names_kinds:
                continue
            if headed == "code" and not any(map(self._may_be_code, set(range(len(self.names))) - {at})):
                continue
            self._set(at, "kind", UNSURE, "values name kinds of parts, against the header word")
            self._ask(at)
            return

    def _may_be_code(self, at: int) -> bool:
        look = self.looks[at]
        return self.found[at].field == "code" or (
            self.found[at].how_sure != TOLD
            and ("code" in self.readings[at].options or look.codes >= MOST)
            and look.different >= DIFFERENT
        )

    def by_header(self) -> None:
        """Clear headers first, then those that may be several things; a field goes to one column only."""
        for sure in (True, False):
            for at, reading in enumerate(self.readings):
                unknown = self.found[at].how_sure == UNKNOWN
                if unknown and reading.sure is sure and reading.options and not self._no_pieces(at, reading):
                    self._by_reading(at, reading)

    def _no_pieces(self, at: int, reading: HeaderReading) -> bool:
        """Whether a header like Unit stands where no price is, or over what tells no pieces of one."""
        if reading.sure or reading.options != ("price_per",):
            return False
        priced = "price" in self.taken or any(one.options[:1] == ("price",) for one in self.readings)
        return not (priced and self.looks[at].unit_words >= MOST)

    def _by_reading(self, at: int, reading: HeaderReading) -> None:
        free = [one for one in reading.options if one not in self.taken and one not in self.every]
        if not free:
            field = reading.options[0]
            other = f"the column {self.names[self.taken[field]]!r}" if field in self.taken else "every row"
            self.found[at] = self.found[at]._replace(why=f"{reading.why}: {field}, but {other} is that")
            if field in self.taken:
                self._doubt(at, field)
            return
        sure, why = reading.sure, reading.why
        if free[0] == "code" and not reading.sure and free == list(reading.options):
            sure, why = self.looks[at].different >= DIFFERENT, "header word, and no other column is a code"
        if free == ["price_per"] and not sure:
            why = "the price may be for what stands there"
        if sure and not bears(self.looks[at], free[0]):
            sure, why = False, f"{why}, but the values do not look like it"
        unit = reading.unit if _takes_unit(free[0]) else ""
        self._set(at, free[0], SURE if sure else UNSURE, why, unit, tuple(free[1:]))
        if not sure:
            self._ask(at)

    def _doubt(self, at: int, field: str) -> None:
        """A second column that says it is the same: a question, unless a person told the first."""
        first = self.taken[field]
        if self.found[first].how_sure == TOLD or not self.readings[at].sure:
            return
        both = (self.found[first], self.found[at]._replace(field=field, unit=self.readings[at].unit))
        self.open.append(
            Question(
                self.names[at],
                f"{both[0].header!r} and {both[1].header!r} both look like {field}; which one is it",
                tuple(column_option(one.column) for one in both),
            )
        )

    def by_values(self) -> None:
        """What no header says; only ever a hint, for a wrong guess would load wrong figures."""
        for at, one in enumerate(self.found):
            field, why = self.looks[at].field
            if one.how_sure != UNKNOWN or not field or field in self.taken or field in self.every:
                continue
            if self.readings[at].options and not self._no_pieces(at, self.readings[at]):
                continue
            self._set(at, field, UNSURE, why)
            if field == "code" or not self.names[at].strip():
                self._ask(at)
            else:
                taken = self.found[at].column
                self.hints.append(
                    Question(
                        self.names[at], f"{self.names[at]!r} may be {field} ({why})", (column_option(taken),)
                    )
                )

    def _set(
        self, at: int, field: str, how_sure: str, why: str, unit: str = "", others: tuple[str, ...] = ()
    ) -> None:
        self.found[at] = self.found[at]._replace(
            field=field, unit=unit, how_sure=how_sure, why=why, others=others
        )
        if field:
            self.taken[field] = at

    def _ask(self, at: int) -> None:
        one = self.found[at]
        columns = [one.column, *(Column(one.header, other, one.unit) for other in one.others)]
        answers = (*map(column_option, columns), column_option(Column(one.header, "")))
        seen = f" ({', '.join(one.examples)})" if one.examples else ""
        self.open.append(Question(one.header, f"is {one.header!r}{seen} {one.field}; {one.why}", answers))

    # -- units, money, decimal sign ----------------------------------------------------------------

    def units(self) -> None:
        """A length without a unit in its header and in some cell is a question, with the likely unit."""
        for at, one in enumerate(self.found):
            if not one.field or fields()[one.field].holds not in ("length", "tolerance") or one.unit:
                continue
            if not self.looks[at].filled or self.looks[at].own_units == 1.0:
                continue
            likely, why = likely_unit(self.cells[at])
            own = round(self.looks[at].own_units * self.looks[at].filled)
            some = self.looks[at].own_units > MOST_OWN_UNITS
            units = ("in", "mm") if likely == "in" else ("mm", "in")
            answers = tuple(column_option(Column(one.header, one.field, unit)) for unit in units)
            hint = f"; likely {likely}: {why}" if likely else ""
            self.open = [ask for ask in self.open if ask.about != one.header]
            if one.how_sure == UNSURE:
                answers = (*answers, column_option(Column(one.header, "")))
            if some:
                hint = f"; those are likely {likely}" if likely else ""
                of_all = f"{own} of {self.looks[at].filled} cells have their own unit, the others have none"
                text, untold = f"{one.header!r} is {one.field}: {of_all}{hint}", of_all
            else:
                text, untold = f"{one.header!r} is {one.field} without a unit{hint}", "no unit is told"
            self.open.append(Question(one.header, text, answers))
            self.found[at] = one._replace(how_sure=UNSURE, why=f"{one.why}; {untold}{hint}")

    def money(self) -> None:
        at = self.taken.get("price")
        if at is None:
            return
        reading, signs = self.readings[at], self._currencies(at)
        if reading.per not in ("", "1") and "price_per" not in self.taken and "price_per" not in self.every:
            self.every["price_per"] = reading.per
        named = currency_named(reading.currency) if reading.currency else None
        for field, said in (("currency", named), ("price_per", reading.per)):
            told = self.every.get(field, said)
            if said and told != said:
                text = f"{self.names[at]!r} says {said}, and {field} is told to be {told}"
                self.hints.append(Question(field, text, (option("--every", f"{field}={said}"),)))
        if "currency" in self.taken or "currency" in self.every:
            return
        if named:
            self.every["currency"] = named
        elif not (signs and self.looks[at].currency_signs == 1.0 and all(signs.values())):
            sign = reading.currency or next((one for one, code in signs.items() if not code), "")
            likely = [code for code in signs.values() if code]
            codes = tuple(dict.fromkeys([*likely, *may_be(sign)])) or USUAL_CURRENCIES
            text = f"{sign} may be several currencies" if sign else "no currency is told for the price"
            if likely and sign:  # prices in several currencies: only what the sign stands for is to be told
                answers = tuple(option("--word", f"currency: {sign}={one}") for one in may_be(sign))
            else:
                answers = tuple(option("--every", f"currency={one}") for one in codes)
            self.open.append(Question("currency", text, answers))

    def _currencies(self, at: int) -> dict[str, str]:
        """The signs and codes beside the prices of a column, with the currency that each names."""
        found: dict[str, str] = {}
        for cell in dict.fromkeys(self.cells[at]):
            for word in "".join(" " if sign in "0123456789.,'’-\u00a0" else sign for sign in cell).split():
                named = currency_named(word)
                if named is not None:
                    found[word] = named
        return found

    def decimal_sign(self, told: str) -> str:
        if told:
            return told
        numeric = [
            at for at, one in enumerate(self.found) if one.field and fields()[one.field].holds in WITH_SIGNS
        ]
        each = [(self.names[at], decimal_evidence(self.cells[at])) for at in numeric]
        whole = combined(evidence for _, evidence in each)
        self.shown = "." * bool(whole.points) + "," * bool(whole.commas)
        if whole.open:
            seen = "; ".join(f"{name!r}: {one.in_words}" for name, one in each if any(one[:3]))
            signs = (",", ".") if whole.commas > whole.points else (".", ",")
            text = "both decimal signs are used" if whole.mixed else "the decimal sign is not clear"
            answers = tuple(option("--decimal", sign) for sign in signs)
            self.open.append(Question("decimal", f"{text}: {seen}", answers))
        return whole.says or "."

    # -- the whole table ---------------------------------------------------------------------------

    def kind_of_part(self) -> None:
        """The name of a sheet may tell the kind; without it, a kind or a description is needed."""
        from schema.kind_words import kind_word

        if {"kind", "part_number"} & {*self.taken, *self.every}:
            at = self.taken.get("kind")
            if at is not None and "description" not in self.taken and self._only_hinted(at):
                self._ask(at)
            return
        words = self.cells[self.taken["description"]] if "description" in self.taken else ()
        named = {word[0] for text in words if (word := kind_word(text))}
        if len(named) > 1:  # one kind for every row would be wrong of most
            return
        word = kind_word(self.sheet) if self.sheet else None
        if word is not None:
            text = f"the sheet is called {self.sheet!r}: is every row a {word[0]}"
            asked = Question("kind", text, (option("--every", f"kind={word[0]}"),))
        elif {"inside_diameter", "cross_section"} <= set(self.taken):
            text = "no column tells the kind of part; inside diameter and section are those of rings"
            asked = Question("kind", text, (option("--every", "kind=o_ring"),))
        else:
            text = "no column tells the kind of part"
            asked = Question("kind", text, (option("--every", "kind=KIND"), '--column "HEADER=kind"'))
        (self.hints if "description" in self.taken else self.open).append(asked)

    def _only_hinted(self, at: int) -> bool:
        asked = any(one.about == self.names[at] for one in self.open)
        return self.found[at].how_sure == UNSURE and not asked

    def row_names(self) -> None:
        if any(name in self.taken for name in NAMES_ONE_ROW):
            return
        answers = tuple(
            column_option(Column(one.header, "code"))
            for at, one in enumerate(self.found)
            if self.looks[at].different >= DIFFERENT and self.looks[at].codes >= MOST
        )
        self.open.insert(
            0,
            Question("code", "which column is the supplier's code", answers or ('--column "HEADER=code"',)),
        )


def _takes_unit(field: str) -> bool:
    return fields()[field].holds not in ("text", "money", "count", "number", "kind", "currency", "size")


__all__ = ["WITH_SIGNS", "ColumnProposal", "Proposal", "Question", "propose"]
