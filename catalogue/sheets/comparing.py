"""Holds typed rows against the catalogue: new, changed, the same, doubtful, or at odds with it.

A row is matched to a part by what is exact: the number that a person or the sheet tells, the maker's own
code, then kind, sizes, material and hardness together. What is only near is proposed (``proposals``).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from collections.abc import Mapping as ByName
from types import MappingProxyType
from typing import NamedTuple

from catalogue.sheets.answers import option
from catalogue.sheets.codes import core, folded, how_spelt
from catalogue.sheets.doubts import Doubt, doubts_of_article, doubts_of_first_price, doubts_of_terms
from catalogue.sheets.known import Known, KnownOffer, KnownPart, sheet_source
from catalogue.sheets.mapping import Mapping
from catalogue.sheets.own_export import carried
from catalogue.sheets.problems import Problem, Refused
from catalogue.sheets.rows import Row
from catalogue.sheets.successors import Successors
from catalogue.sheets.terms import COMPARED
from catalogue.texts import Texts

TOLD = "the number told"
OWN = ""  # the supplier of a sheet of the workshop's own parts


class FieldChange(NamedTuple):
    """One field that is another than before; "" where it was not told, or is not told now."""

    field: str
    before: str
    now: str


class New(NamedTuple):
    """A row whose code the supplier did not have: the part it is, and whether that part is made by it.

    ``how`` says by what the part was found; "" where it is made. ``others`` are parts that are as alike, so
    that none of them was taken. ``doubts`` keep it from being taken unasked. ``was`` is an offer that is gone
    from the sheet and had nearly this code.
    """

    row: Row
    part_number: str
    makes_part: bool
    how: str
    others: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    was: KnownOffer | None = None


class Changed(NamedTuple):
    """A row that says something else than the catalogue; ``changes`` is () where only the spelling differs.

    ``offer`` is the offer as it stood, ``part`` the texts of the part as they stood where the sheet may
    change it, ``texts`` what the sheet says of it now. ``doubts`` keep it from being taken unasked.
    """

    row: Row
    part_number: str
    offer: KnownOffer | None
    part: Texts | None
    texts: Texts
    changes: tuple[FieldChange, ...]
    doubts: tuple[Doubt, ...]
    back: bool = False  # the offer was gone from the list and is on it again


Compared = New | Changed | Refused


class Comparing:
    """Holds the rows of one load against the catalogue as it was before.

    ``successors`` must be set before rows of own parts are compared. ``gone`` has the offers that are not on
    the sheet, by what is left of their codes when what gets lost on the way is taken off.
    """

    successors: Successors | None = None
    gone: ByName[str, KnownOffer] = MappingProxyType({})

    def __init__(self, known: Known, mapping: Mapping) -> None:
        self.known = known
        self.supplier = known.supplier
        self.source = sheet_source(known.supplier)
        self._as_kept = mapping.texts == "as_kept"
        self._headers = {column.field: header for header, column in mapping.columns.items()}
        self._tells_numbers = "part_number" in mapping.fields()
        self._told = {folded(code): number for code, number in mapping.same_part.items()}

    def compare(self, rows: Sequence[Row]) -> list[Compared]:
        """What each row is; the rows have different codes."""
        if self.supplier == OWN:
            return self._own(rows)
        known = self.known.offers([row.terms.code for row in rows])
        fresh, seen = list(rows), list[Row]()
        if known:
            fresh = [row for row in rows if folded(row.terms.code) not in known]
            seen = [row for row in rows if folded(row.terms.code) in known]
        new = list(self._new(fresh))
        if self.gone or self.known.has_offers or any(row.article.doubts for row in fresh):
            new = self._doubted(new)
        return self._with_successors(rows, [*new, *self._seen(seen, known)])

    def _doubted(self, found: list[Compared]) -> list[Compared]:
        """New codes with what is doubtful: spelt otherwise, inches under mm, a price far from others'."""
        others = self.known.offers_of_parts(
            {one.part_number for one in found if isinstance(one, New) and not one.makes_part}
        )
        judged: list[Compared] = []
        for one in found:
            if isinstance(one, New):
                doubts = list(one.row.article.doubts)
                code = one.row.terms.code
                was = self.gone.get(core(code)) if self.gone else None
                if was is not None and one.how != TOLD:
                    reason = f"{how_spelt(code, was.code)}; say --same {code}={was.part_number}"
                    doubts.append(Doubt("code", reason))
                doubts += doubts_of_first_price(one.row.terms, others.get(folded(one.part_number), ()))
                if doubts or was is not None:
                    one = one._replace(doubts=tuple(doubts), was=was)
            judged.append(one)
        return judged

    def _with_successors(self, rows: Sequence[Row], found: list[Compared]) -> list[Compared]:
        """The same, with rows refused whose successor is not in the catalogue and not made beside them."""
        if not any(row.beside[0] for row in rows):
            return found
        header = self._headers.get("superseded_by", "superseded_by")
        known = self.known.parts([row.beside[0] for row in rows])
        while True:
            made = {folded(one.part_number) for one in found if isinstance(one, New) and one.makes_part}
            judged = [_with_successor(one, known.keys() | made, header) for one in found]
            if judged == found:
                return found
            found = judged  # what was refused makes no part that others could be replaced by

    # -- codes that are new -------------------------------------------------------------------------

    def _new(self, rows: Sequence[Row]) -> Iterable[Compared]:
        if not rows:
            return
        told = {}
        if self._told or self._tells_numbers:
            told = {row.terms.code: number for row in rows if (number := self._told_number(row))}
        by_number = self.known.parts(list(told.values()))
        by_key = self.known.parts_of_key({row.article.typed_key for row in rows})
        by_maker: ByName[str, list[tuple[str, str | None]]] = {}
        if self.known.has_offers:
            by_maker = self.known.parts_of_maker_code({row.terms.maker_code or "" for row in rows} - {""})
        of_maker = self.known.parts({number for found in by_maker.values() for number, _ in found})
        made = (
            self.known.parts([made_number(self.supplier, row.terms.code) for row in rows])
            if self.known.has_parts_of
            else {}
        )
        if not (told or by_key or by_maker or made):  # a range that is all new
            for row in rows:
                yield New(row, made_number(self.supplier, row.terms.code), True, "")
            return
        for row in rows:
            if own := told.get(row.terms.code):
                yield self._to_told(row, own, by_number.get(folded(own)))
                continue
            found = [
                of_maker[folded(number)]
                for number, maker in by_maker.get(folded(row.terms.maker_code or ""), ())
                if not _differ(maker, row.terms.maker)
            ]
            how = "the maker's code"
            candidates = [part for part in found if not self._at_odds(row, part)]
            if len(candidates) != 1:
                how = "kind, sizes and material"
                candidates = [
                    part
                    for part in by_key.get(row.article.typed_key, ())
                    if not self._ours(part) and not _differ(part.maker, row.terms.maker)
                ]
                # one that came with a unit is that unit's own: the workshop's goes before it
                candidates = [part for part in candidates if not part.of_unit] or candidates
            if len(candidates) == 1:
                yield New(row, candidates[0].part_number, False, how)
                continue
            number = made_number(self.supplier, row.terms.code)
            if existing := made.get(folded(number)):  # its offer was taken back, the part stayed
                yield New(row, existing.part_number, False, "its own number")
                continue
            yield New(row, number, True, "", tuple(part.part_number for part in candidates))

    def _to_told(self, row: Row, number: str, part: KnownPart | None) -> Compared:
        if part is None:
            return _refused(
                row,
                "part_number",
                number,
                "the catalogue has no such part",
                "a number of the catalogue (borebook parts), or an empty cell",
            )
        if reason := self._at_odds(row, part):
            return _refused(row, "", number, reason, "correct the row, or the number of the part")
        return New(row, part.part_number, False, TOLD)

    def _told_number(self, row: Row) -> str:
        return self._told.get(folded(row.terms.code), "") or row.part_number

    def _at_odds(self, row: Row, part: KnownPart) -> str:
        """Why a row cannot be this part; "" where nothing speaks against it."""
        if part.kind != row.article.kind:
            return f"the row is {row.article.kind}, {part.part_number} is {part.kind}"
        if part.typed_key and row.article.typed_key and part.typed_key != row.article.typed_key:
            return (
                f"the row is {_key_words(row.article.typed_key)}, "
                f"{part.part_number} is {_key_words(part.typed_key)}"
            )
        return ""

    def _ours(self, part: KnownPart) -> bool:
        """Whether a part is known from the sheets of this supplier alone."""
        return folded(part.source) == folded(self.source)

    def _made_by(self, code: str, part: KnownPart | None) -> bool:
        """Whether a part was made by this code; its rows, and no other code's, say what it is."""
        return (
            part is not None
            and self._ours(part)
            and folded(part.part_number) == folded(made_number(self.supplier, code))
        )

    # -- codes that are known -----------------------------------------------------------------------

    def _seen(self, rows: Sequence[Row], known: dict[str, KnownOffer]) -> Iterable[Compared]:
        if not rows:
            return
        offers = [known[folded(row.terms.code)] for row in rows]
        parts = self.known.parts({offer.part_number for offer in offers})
        own = {
            number
            for number, row in zip((folded(offer.part_number) for offer in offers), rows, strict=True)
            if self._made_by(row.terms.code, parts.get(number))
        }
        texts = self.known.texts(own)
        told = self.known.parts([number for row in rows if (number := self._told_number(row))])
        for row, offer in zip(rows, offers, strict=True):
            number = offer.part_number
            wanted = self._told_number(row)
            if wanted and folded(wanted) != folded(number):
                new = self._to_told(row, wanted, told.get(folded(wanted)))
                if isinstance(new, Refused):
                    yield new
                    continue
                number = new.part_number
            is_own = number == offer.part_number and self._made_by(row.terms.code, parts.get(folded(number)))
            if not is_own and (
                reason := self._at_odds(row, parts.get(folded(number)) or told[folded(number)])
            ):
                yield _refused(
                    row,
                    "",
                    offer.code,
                    f"the catalogue knows this code as another article: {reason}",
                    "correct the row; where the supplier gave the code to another article, tell its part: "
                    + option("--same", f"{offer.code}=PART"),
                )
                continue
            before = texts.get(folded(number)) if is_own else None
            now = part_texts_of(row) if is_own else {}
            changes = [*_term_changes(row, offer, number), *(_text_changes(before, now) if before else ())]
            doubts = (
                *doubts_of_terms(row.terms, offer),
                *(doubts_of_article(before, now) if before else ()),
            )
            back = not offer.listed
            # a sheet that borebook wrote says nothing new in how it spells the same
            respelt = row.digest != offer.row_digest and not self._as_kept
            if changes or back or respelt:
                yield Changed(row, number, offer, before, now, tuple(changes), doubts, back)

    # -- the workshop's own parts -------------------------------------------------------------------

    def _own(self, rows: Sequence[Row]) -> list[Compared]:
        assert self.successors is not None
        known = self.known.texts([row.part_number for row in rows])
        spelt = self.known.parts([row.part_number for row in rows])
        found: list[Compared] = []
        for row in rows:
            number = row.part_number
            before, now = known.get(folded(number)), part_texts_of(row)
            if problem := self.successors.problem(row, self._headers.get("superseded_by", "superseded_by")):
                found.append(Refused(row.sheet, row.number, row.cells, (problem,), number))
            elif before is None:
                found.append(New(row, number, True, ""))
            elif changes := tuple(_text_changes(_carried(before), now)):
                doubts = doubts_of_article(before, now)
                own = spelt[folded(number)].part_number
                found.append(Changed(row, own, None, before, now, changes, doubts))
        return found


def made_number(supplier: str, code: str) -> str:
    """The number of a part that is made from a supplier's row: theirs, so that it meets no number of ours.

    >>> made_number("Kestle", "20-3N")
    'Kestle:20-3N'
    """
    return f"{supplier}:{code}"


def part_texts_of(row: Row) -> Texts:
    """The texts of a part as a row tells them, in the shape of ``catalogue.texts``."""
    successor, notes = row.beside
    found: Texts = {"kind": row.article.kind, "description": row.terms.description, **dict(row.article.texts)}
    found |= {"maker": row.terms.maker, "superseded_by": successor, "notes": notes}
    return {name: text for name, text in found.items() if text}


def _with_successor(one: Compared, parts: Set[str], header: str) -> Compared:
    """The same row, or refused if it makes or changes a part whose successor is none of these parts."""
    if isinstance(one, Refused) or not (one.makes_part if isinstance(one, New) else one.part is not None):
        return one
    successor = one.row.beside[0]
    if not successor or (folded(successor) in parts and folded(successor) != folded(one.part_number)):
        return one
    same = folded(successor) == folded(one.part_number)
    reason = "a part cannot replace itself" if same else "the catalogue has no such part"
    return _refused(one.row, header, successor, reason, "the number of another part, or an empty cell")


def _term_changes(row: Row, offer: KnownOffer, number: str) -> Iterable[FieldChange]:
    if folded(number) != folded(offer.part_number):
        yield FieldChange("part_number", offer.part_number, number)
    for name in COMPARED:
        before, now = getattr(offer, name), getattr(row.terms, name)
        if before != now:
            yield FieldChange(name, *("" if one is None else str(one) for one in (before, now)))


def _text_changes(before: Texts, now: Texts) -> Iterable[FieldChange]:
    for name in dict.fromkeys((*before, *now)):
        if before.get(name, "") != now.get(name, "") and name not in ("description", "maker"):
            yield FieldChange(name, before.get(name, ""), now.get(name, ""))
    for name in ("description", "maker"):
        if before.get(name, "") != now.get(name, ""):
            yield FieldChange(f"part's {name}", before.get(name, ""), now.get(name, ""))


def _carried(texts: Texts) -> Texts:
    """Texts as a sheet can tell them: a line end in one is no change."""
    return {name: carried(text) for name, text in texts.items()}


def _differ(one: str | None, other: str | None) -> bool:
    """Whether two makers are told and are not the same."""
    return bool(one and other and " ".join(one.lower().split()) != " ".join(other.lower().split()))


def _key_words(key: str) -> str:
    return " ".join(key.split("|"))


def _refused(row: Row, column: str, value: str, reason: str, mend: str) -> Refused:
    return Refused(row.sheet, row.number, row.cells, (Problem(column, value, reason, mend),), row.terms.code)
