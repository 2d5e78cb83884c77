"""Brings together what the columns and the description of a row say of its article.

Columns lead; the description fills what no column tells, and must not contradict one. What a part is made
of (material and hardness) is merged apart from everything else.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from catalogue.row_words import kind_words
from catalogue.sheets.answers import option
from catalogue.sheets.doubts import looks_like_inches
from catalogue.sheets.lengths import with_tolerance
from catalogue.sheets.sheet_fields import TOLERANCE
from schema.dimension import Dimension, parse_dimension
from schema.errors import InputError, InputErrors
from schema.kinds import model_of
from schema.material_words import material_and_hardness, material_in
from schema.materials import materials
from schema.metals import metal_named
from schema.nearest import nearest
from schema.ring_sizes import ring_size
from schema.same_part import size_contradiction
from schema.size_words import SizeWords, size_words
from schema.trade_names import named_material

RINGS = ("o_ring", "four_lobed_ring")
STUFF = ("material", "hardness_shore_a")  # what a part is made of
_RING_SIZES = ("inside_diameter", "cross_section")
_WORD = re.compile(r"[^\W\d_]+")
_NO_FIGURES = "names a material for which no figures"
_SLIP = " in another: "  # stands before the likely slip
_SAME_MM = 0.05  # two texts of one size on one row may differ by the rounding of catalogues


class Merged(NamedTuple):
    """Texts by field, and remarks on what was left out or taken."""

    texts: dict[str, str]
    remarks: tuple[str, ...]


def merged_stuff(kind: str, texts: Mapping[str, str], words: SizeWords) -> Merged:
    """Material by its code, and hardness. Raises InputErrors where columns and description contradict."""
    merging = _Merging(kind, texts)
    merging.read_material()
    if words.material:
        own = merging.texts.get("material")
        code = material_and_hardness(own)[0].code if own else ""
        if not own:
            merging.texts["material"] = words.material
        elif code and code != words.material:
            merging.conflict("material", own, words.material)
    if words.hardness_shore_a is not None and "hardness_shore_a" in merging.declared:
        merging.add("hardness_shore_a", f"{words.hardness_shore_a:g}")
    return merging.done()


def merged_fields(kind: str, texts: Mapping[str, str], words: SizeWords) -> Merged:
    """Sizes and all other fields. Raises InputErrors where they contradict each other, or a size code."""
    merging = _Merging(kind, texts)
    merging.read_size()
    merging.lay_under(words)
    if kind in RINGS and merging.size:
        merging.hold_against_code()
    return merging.done()


class _Merging:
    """The texts of one article while they are brought together."""

    def __init__(self, kind: str, texts: Mapping[str, str]) -> None:
        self.kind = kind
        self.declared = model_of(kind).declared
        self.texts: dict[str, str] = {}
        self.errors: list[InputError] = []
        self.remarks: list[str] = []
        self.size = texts.get("size", "")
        for field, text in texts.items():
            if field.endswith(TOLERANCE) and field.removesuffix(TOLERANCE) in self.declared:
                self._add_tolerance(field.removesuffix(TOLERANCE), texts, text)
            elif f"{field}{TOLERANCE}" in texts and field in self.declared:
                continue  # comes with its tolerance
            elif field in self.declared:
                self.texts[field] = text
            elif field != "size":
                self.remarks.append(f"{kind} has no field {field}: left out")

    def _add_tolerance(self, field: str, texts: Mapping[str, str], tolerance: str) -> None:
        size = texts.get(field, "")
        if not size:
            self.remarks.append(f"a tolerance of {field} stands where no size does: left out")
            return
        try:
            self.texts[field] = with_tolerance(size, tolerance, field=field)
        except InputError as error:
            self.errors.append(error)

    def done(self) -> Merged:
        """What came of it. Raises InputErrors with everything that contradicts."""
        if self.errors:
            raise InputErrors(_told_once(self.errors))
        return Merged(self.texts, tuple(self.remarks))

    def read_material(self) -> None:
        """The material by its code; a hardness that stands beside it goes to its own field."""
        told = self.texts.get("material", "")
        if not told:
            return
        named, hardness, remark = material_and_hardness(told)
        if self.kind in RINGS and not named.code:
            # a half name must not reach the ring's own reader, which would take one of two rubbers for it
            raise InputError(
                field="material",
                given=told,
                problem=remark or "this material is not known",
                allowed=_how_to_name(told),
            )
        if metal := "" if named.code else metal_named(told):
            self.texts["material"] = metal
        elif named.code and (self.kind in RINGS or (not named.remark and _is_all(told))):
            self.texts["material"] = named.code
        elif hardness is not None and not named.code:
            self.texts["material"] = named.text
        if remark:
            self.remarks.append(remark)
        if hardness is not None and "hardness_shore_a" in self.declared:
            self.add("hardness_shore_a", f"{hardness:g}")

    def read_size(self) -> None:
        """The column of sizes: a code of a standard, or sizes with × between them."""
        if not self.size:
            return
        found = size_words(self.size, kind=self.kind)
        if found.size:
            self.size = found.size
        elif found.fields:
            self.size = ""
            self._add_fields(found.fields)
        elif self.kind in RINGS:
            ring_size(self.size, field="size")  # raises what is wrong with it
        else:
            doubts = f" ({'; '.join(found.doubts)})" if found.doubts else ""
            self.errors.append(
                InputError(
                    field="size",
                    given=self.size,
                    problem=f"no size of this kind can be read here{doubts}",
                    allowed="sizes in columns of their own, or with x between them",
                    example="15x17x15",
                )
            )

    def lay_under(self, words: SizeWords) -> None:
        """What the description says: it fills what no column tells, and must not contradict one."""
        if words.kind and words.kind != self.kind:
            if not _near_kinds(words.kind, self.kind):
                self.errors.append(
                    InputError(
                        field="kind",
                        given=self.kind,
                        problem=f"the description says {kind_words(words.kind)}, the row is "
                        f"{kind_words(self.kind)}",
                        allowed="correct one of the two, or do not tell one kind for every row",
                    )
                )
            return
        if words.size and self.kind in RINGS:
            if not self.size:
                self.size = words.size
            elif not _same_code(self.size, words.size):
                self.conflict("size", self.size, words.size)
        self._add_fields(words.fields)

    def hold_against_code(self) -> None:
        """Hold a ring's sizes against its code, and keep the code's where they only repeat it."""
        code = ring_size(self.size, field="size")
        self.texts = {"size": self.size, **self.texts}
        given = {
            name: parse_dimension(self.texts[name], field=name) for name in _RING_SIZES if name in self.texts
        }
        wrong = size_contradiction(code, given.get(_RING_SIZES[0]), given.get(_RING_SIZES[1]))
        if wrong:
            # what the code says of the sizes says more than that they differ from the description
            self.errors = [one for one in self.errors if one.field not in _RING_SIZES]
            printed = f"{code.inside_diameter.text} x {code.cross_section.text}"
            self.errors.append(
                InputError(
                    field=next(iter(given)),
                    given=" x ".join(size.text for size in given.values()),
                    problem=wrong,
                    allowed=f"{code.code} is {printed}: correct the code or the sizes",
                )
            )
            return
        for name, size in given.items():
            if not size.toleranced:
                del self.texts[name]

    def add(self, field: str, text: str) -> None:
        """A text from another place of the row: it fills a gap, or must say the same."""
        own = self.texts.get(field)
        if own is None:
            self.texts[field] = text
        elif not _same(own, text):
            self.conflict(field, own, text)

    def conflict(self, field: str, own: str, other: str) -> None:
        """The row says two things."""
        self.errors.append(
            InputError(
                field=field,
                given=own,
                problem=f"the row contradicts itself: {own} in one place, {other}"
                + (_SLIP + slip if (slip := self._slip(field, own, other)) else " in another"),
                allowed="make both the same; the drawing or the supplier tells which is right",
            )
        )

    def _slip(self, field: str, own: str, other: str) -> str:
        """The likely slip behind two sizes that differ, in words; "" where none is seen."""
        one, two = _size(own), _size(other)
        if one is None or two is None:
            return ""
        ratio = float(one.nominal / two.nominal)
        if looks_like_inches(ratio):
            return "inches taken for millimetres, or the reverse?"
        if field in _RING_SIZES and _same(self.texts.get(_RING_SIZES[field == _RING_SIZES[0]], ""), other):
            return "inside diameter and cross section look exchanged"
        return ""

    def _add_fields(self, found: Mapping[str, str]) -> None:
        for field, text in found.items():
            if field in self.declared:
                self.add(field, text)


def _how_to_name(told: str) -> str:
    """What to do about a rubber by an unknown name: a known one, or what its word means."""
    known = tuple(materials())
    allowed = f"one of {', '.join(known)}"
    word, before, after = _first_word(told)
    if named_material(word).remark.startswith(_NO_FIGURES):  # never to be taken for another
        return f"{allowed}: no other can be a ring here"
    likely = (*nearest(word, known), "NBR")[0]
    beside = f"{before}{after}"
    meant = likely if any(map(str.isalpha, beside)) else f"{before}{likely}{after}"
    return f"{allowed}; or say what the word means: {option('--word', f'material: {told}={meant}')}"


def _first_word(text: str) -> tuple[str, str, str]:
    """The first word of letters, and what stands before and after it: KZR of KZR 70."""
    found = _WORD.search(text)
    return (found[0], text[: found.start()], text[found.end() :]) if found else (text, "", "")


def _is_all(material: str) -> bool:
    """Whether a code and a hardness are all that a material says: PTFE-lined steel is no PTFE.

    Words beside a rubber (black, with a case of steel) do not make it another one.
    """
    found = material_in(material)
    left = list(material)
    for start, end in filter(None, (*found.where, found.hardness_where)):
        left[start:end] = " " * (end - start)
    return found.elastomer or not any(map(str.isalnum, left))


def _told_once(errors: list[InputError]) -> list[InputError]:
    """A slip that both sizes of a ring show (inches, exchanged) is one fault, told of both together."""
    of_ring = [one for one in errors if one.field in _RING_SIZES]
    slips = {str(one.problem).partition(_SLIP)[2] for one in of_ring}
    if len(of_ring) != len(_RING_SIZES) or len(slips) != 1 or slips == {""}:
        return errors
    given = " x ".join(str(one.given) for one in of_ring)
    other = " x ".join(str(one.problem).partition(_SLIP)[0].rpartition(", ")[2] for one in of_ring)
    both = InputError(
        field=of_ring[0].field,
        given=given,
        problem=f"the row contradicts itself: {given} in one place, {other}{_SLIP}{slips.pop()}",
        allowed=of_ring[0].allowed,
    )
    return [both, *(one for one in errors if one not in of_ring)]


def _same_code(one: str, other: str) -> bool:
    return ring_size(one, field="size").code == ring_size(other, field="size").code


def _near_kinds(one: str, other: str) -> bool:
    """Kinds whose words the trade uses for each other."""
    return {one, other} <= {"lip_seal", "wiper"}


def _same(one: str, other: str) -> bool:
    """Whether two texts of one field say the same, up to the rounding of catalogues."""
    if one == other:
        return True
    sizes = [_size(text) for text in (one, other)]
    if sizes[0] is not None and sizes[1] is not None:
        return abs(float(sizes[0].nominal - sizes[1].nominal)) <= _SAME_MM
    plain = ["".join(text.lower().split()).replace(",", ".") for text in (one, other)]
    return plain[0] == plain[1]


def _size(text: str) -> Dimension | None:
    try:
        return parse_dimension(text)
    except InputError:
        return None
