"""Holds typed rows against the catalogue: new, changed, the same, doubtful, or at odds with it.

A row is matched to a part by what is exact: the number that a person or the sheet tells, the maker's own
code, then kind, sizes, material and hardness together. What is only near is proposed (``proposals``).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from catalogue.sheets.doubts import Doubt, doubts_of_article, doubts_of_terms
from catalogue.sheets.known import Known, KnownOffer, KnownPart
from catalogue.sheets.mapping import Mapping
from catalogue.sheets.problems import Problem, Refused
from catalogue.sheets.rows import Row
from catalogue.sheets.terms import COMPARED
from catalogue.texts import Texts

OWN = ""  # the supplier of a sheet of the workshop's own parts


class FieldChange(NamedTuple):
    """One field that is another than before; "" where it was not told, or is not told now."""

    field: str
    before: str
    now: str


class New(NamedTuple):
    """A row whose code the supplier did not have: the part it is, and whether that part is made by it.

    ``how`` says by what the part was found; "" where it is made. ``others`` are parts that are as alike, so
    that none of them was taken.
    """

    row: Row
    part_number: str
    makes_part: bool
    how: str
    others: tuple[str, ...] = ()


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


def sheet_source(supplier: str) -> str:
    """The source of a part that is known from a supplier's sheet alone, as it is kept with the part."""
    return f"sheet of {supplier}" if supplier else "sheet of own parts"


class Comparing:
    """Holds the rows of one load against the catalogue as it was before."""

    def __init__(self, known: Known, mapping: Mapping) -> None:
        self.known = known
        self.supplier = known.supplier
        self.source = sheet_source(known.supplier)
        self._told = {code.lower(): number for code, number in mapping.same_part.items()}

    def compare(self, rows: Sequence[Row]) -> list[Compared]:
        """What each row is; the rows have different codes."""
        if self.supplier == OWN:
            return self._own(rows)
        known = self.known.offers([row.terms.code for row in rows])
        fresh = [row for row in rows if row.terms.code.lower() not in known]
        seen = [row for row in rows if row.terms.code.lower() in known]
        return [*self._new(fresh), *self._seen(seen, known)]

    # -- codes that are new -------------------------------------------------------------------------

    def _new(self, rows: Sequence[Row]) -> Iterable[Compared]:
        if not rows:
            return
        told = {row.terms.code: self._told_number(row) for row in rows}
        by_number = self.known.parts([number for number in told.values() if number])
        by_key = self.known.parts_of_key({row.article.typed_key for row in rows if row.article.typed_key})
        maker_codes = {row.terms.maker_code for row in rows if row.terms.maker_code}
        by_maker = self.known.parts_of_maker_code(maker_codes) if maker_codes else {}
        of_maker = self.known.parts({number for found in by_maker.values() for number, _ in found})
        made = self.known.parts([made_number(self.supplier, row.terms.code) for row in rows])
        for row in rows:
            if number := told[row.terms.code]:
                part = by_number.get(number.lower())
                yield self._to_told(row, number, part)
                continue
            found = [
                of_maker[number.lower()]
                for number, maker in by_maker.get((row.terms.maker_code or "").lower(), ())
                if not _differ(maker, row.terms.maker)
            ]
            how = "the maker's code"
            candidates = [part for part in found if not self._at_odds(row, part)]
            if len(candidates) != 1:
                how = "kind, sizes and material"
                candidates = [
                    part
                    for part in by_key.get(row.article.typed_key, ())
                    if part.source != self.source and not _differ(part.maker, row.terms.maker)
                ]
                # one that came with a unit is that unit's own: the workshop's goes before it
                candidates = [part for part in candidates if not part.of_unit] or candidates
            if len(candidates) == 1:
                yield New(row, candidates[0].part_number, False, how)
                continue
            number = made_number(self.supplier, row.terms.code)
            if existing := made.get(number.lower()):  # its offer was taken back, the part stayed
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
        return New(row, part.part_number, False, "the number told")

    def _told_number(self, row: Row) -> str:
        return self._told.get(row.terms.code.lower(), "") or row.part_number

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

    # -- codes that are known -----------------------------------------------------------------------

    def _seen(self, rows: Sequence[Row], known: dict[str, KnownOffer]) -> Iterable[Compared]:
        if not rows:
            return
        offers = [known[row.terms.code.lower()] for row in rows]
        parts = self.known.parts({offer.part_number for offer in offers})
        own = {number for number, part in parts.items() if part.source == self.source}
        texts = self.known.texts(own)
        told = self.known.parts([number for row in rows if (number := self._told_number(row))])
        for row, offer in zip(rows, offers, strict=True):
            number = offer.part_number
            wanted = self._told_number(row)
            if wanted and wanted.lower() != number.lower():
                new = self._to_told(row, wanted, told.get(wanted.lower()))
                if isinstance(new, Refused):
                    yield new
                    continue
                number = new.part_number
            is_own = number.lower() in own and number == offer.part_number
            if not is_own and (
                reason := self._at_odds(row, parts.get(number.lower()) or told[number.lower()])
            ):
                yield _refused(
                    row,
                    "",
                    offer.code,
                    f"the catalogue knows this code as another article: {reason}",
                    "correct the row; where the supplier gave the code to another article, tell its part "
                    f"in the mapping, under same_part: {offer.code}",
                )
                continue
            before = texts.get(number.lower()) if is_own else None
            now = part_texts_of(row) if is_own else {}
            changes = [*_term_changes(row, offer, number), *(_text_changes(before, now) if before else ())]
            doubts = (
                *doubts_of_terms(row.terms, offer),
                *(doubts_of_article(before, now) if before else ()),
            )
            back = not offer.listed
            if changes or back or row.digest != offer.row_digest:
                yield Changed(row, number, offer, before, now, tuple(changes), doubts, back)

    # -- the workshop's own parts -------------------------------------------------------------------

    def _own(self, rows: Sequence[Row]) -> list[Compared]:
        known = self.known.texts([row.part_number for row in rows])
        spelt = self.known.parts([row.part_number for row in rows])
        found: list[Compared] = []
        for row in rows:
            number = row.part_number
            before, now = known.get(number.lower()), part_texts_of(row)
            if before is None:
                found.append(New(row, number, True, ""))
            elif changes := tuple(_text_changes(before, now)):
                doubts = doubts_of_article(before, now)
                own = spelt[number.lower()].part_number
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


def _term_changes(row: Row, offer: KnownOffer, number: str) -> Iterable[FieldChange]:
    if number.lower() != offer.part_number.lower():
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


def _differ(one: str | None, other: str | None) -> bool:
    """Whether two makers are told and are not the same."""
    return bool(one and other and " ".join(one.lower().split()) != " ".join(other.lower().split()))


def _key_words(key: str) -> str:
    return " ".join(key.split("|"))


def _refused(row: Row, column: str, value: str, reason: str, mend: str) -> Refused:
    return Refused(row.sheet, row.number, row.cells, (Problem(column, value, reason, mend),), row.terms.code)
