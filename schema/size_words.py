"""Sizes, kind, material and hardness inside a description: ``O-Ring 20 x 2,65 NBR 70 Sh A``.

What can be read in two ways is told in ``doubts`` and not taken. A description is first read in full; then
how it was read is kept by its shape (its text with a 0 for every digit), so that the next
``O-RING 000 NBR00`` costs two slices. What depends on the digits themselves is checked again each time.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import NamedTuple

from schema import size_marks as marks
from schema.kind_words import found_kind
from schema.lip_words import lips_in
from schema.material_words import HARDEST, SOFTEST, Span, material_in
from schema.ring_sizes import as568_codes
from schema.size_fields import ring_like, rising
from schema.size_readers import Reading

Where = dict[str, Span]
Fields = tuple[tuple[str, str], ...]
ToldWords = tuple[str, str, Fields, str, float | None]  # kind, size, fields, material, hardness
_SHAPES_KEPT = 20_000  # per kind; a sheet of a million rows has some hundreds
_DIGITS = str.maketrans("123456789", "000000000")


class SizeWords(NamedTuple):
    """What a description tells.

    ``size`` is a size code as ``schema.ring_sizes.ring_size`` takes it. ``fields`` are sizes by the field of
    the model, in drawing notation with their unit. ``material`` is a code of ISO 1629 or 1043, ``kind`` one
    of ``schema.kinds.PARTS``; the word that said so stands beside each (alone for a material without a code).
    ``remarks`` tell what was seen and is no value here (Shore D); ``doubts`` what can be read in several
    ways. ``where`` has the place of each in the text.
    """

    size: str = ""
    fields: dict[str, str] = {}  # noqa: RUF012 - never written to
    material: str = ""
    material_word: str = ""
    hardness_shore_a: float | None = None
    kind: str = ""
    kind_word: str = ""
    remarks: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    where: Where = {}  # noqa: RUF012 - never written to
    named_kind: str = ""  # that the words name, where it is another than the kind that was told


class _Plan(NamedTuple):
    """How texts of one shape are read: the slices, and what their digits must satisfy."""

    size: Span | None
    fields: tuple[tuple[str, int, int, str], ...]
    check: Callable[[list[float]], bool] | None
    hardness: Span | None
    literal: tuple[int, int, str] | None
    material: str
    material_word: str
    kind: str
    kind_word: str
    remarks: tuple[str, ...]
    where: Where


def size_words(text: str, *, kind: str = "") -> SizeWords:
    """Read a description; ``kind`` is the kind of part where it is known already.

    >>> found = size_words("O-Ring 20 x 2,65 NBR 70 Sh A")
    >>> found.kind, found.fields, found.material, found.hardness_shore_a
    ('o_ring', {'inside_diameter': '20 mm', 'cross_section': '2,65 mm'}, 'NBR', 70.0)
    >>> size_words("O-RING 214 NBR70").size
    'AS568-214'
    >>> size_words("15x17x15").doubts
    ('15x17x15: three sizes mean different things by kind of part, and no kind is told',)
    """
    shape = text.translate(_DIGITS)
    plan = _plans(kind).get(shape)
    if plan is not None and (found := _by(plan, text)):
        size, fields, hardness = found
        return SizeWords(
            size,
            dict(fields),
            plan.material,
            plan.material_word,
            hardness,
            plan.kind,
            plan.kind_word,
            plan.remarks,
            (),
            plan.where,
        )
    return _read_and_kept(text, kind, shape)


def told_words(text: str, *, kind: str = "") -> ToldWords:
    """The same as a plain tuple that can be looked up: what is told, without where and by which words.

    How many lips a shaft seal has is told besides: by it alone two seals of one size may differ.
    """
    told = _told_words(text, kind)
    if (kind or told[0]) == "lip_seal" and (lips := lips_in(text)):
        return told[0], told[1], (*told[2], ("lips", lips)), *told[3:]
    return told


def _told_words(text: str, kind: str) -> ToldWords:
    shape = text.translate(_DIGITS)
    plan = _plans(kind).get(shape)
    if plan is not None and (found := _by(plan, text)):
        size, fields, hardness = found
        return plan.kind, size, fields, plan.material, hardness
    one = _read_and_kept(text, kind, shape)
    kind = one.named_kind or one.kind
    return kind, one.size, tuple(one.fields.items()), one.material, one.hardness_shore_a


def words_told(told: ToldWords) -> SizeWords:
    """The words that ``told_words`` tells."""
    kind, size, fields, material, hardness = told
    return SizeWords(kind=kind, size=size, fields=dict(fields), material=material, hardness_shore_a=hardness)


def _read_and_kept(text: str, kind: str, shape: str) -> SizeWords:
    found, plan = _read(text, kind)
    if plan is not None:
        plans = _plans(kind)
        if len(plans) >= _SHAPES_KEPT:
            plans.clear()
        plans[shape] = plan
    return found


@cache
def _plans(kind: str) -> dict[str, _Plan]:
    return {}


def _by(plan: _Plan, text: str) -> tuple[str, Fields, float | None] | None:
    """Size, fields and hardness by the plan of the text's shape; None where its digits need a closer look."""
    span, fields, check, hard, literal = plan[:5]
    if literal is not None and text[literal[0] : literal[1]] != literal[2]:
        return None
    size, hardness = "", None
    if span is not None:
        size = _codes().get(text[span[0] : span[1]], "")
        if not size:
            return None
    numbers = [text[start:end] for _, start, end, _ in fields]
    if check is not None:
        try:
            values = list(map(float, numbers))
        except ValueError:  # a decimal comma
            values = [float(number.replace(",", ".")) for number in numbers]
        if not check(values):
            return None
    if hard is not None:
        hardness = float(text[hard[0] : hard[0] + 2])
        if not SOFTEST <= hardness <= HARDEST:
            return None
    told = tuple([(one[0], number + one[3]) for one, number in zip(fields, numbers, strict=True)])
    return size, told, hardness


def _read(text: str, kind: str) -> tuple[SizeWords, _Plan | None]:
    """Read a text in full, and how its shape can be read again (None where digits decide too much)."""
    named = found_kind(text)
    named_kind = named.value if named is not None else ""
    reading = Reading(text, kind or named_kind, no_part=named is not None and not (named_kind or kind))
    if named is not None:
        reading.blank(named.start, named.end)
    reading.read_standards()
    stuff = material_in(reading.text)
    reading.elastomer = stuff.elastomer
    word = named.word if named is not None and named_kind else ""
    doubts: list[str] = []
    remarks: list[str] = []
    if named is not None and named_kind and kind and named_kind != kind:
        doubts.append(f"the words say {named.word}, and the kind is {kind}")
    if stuff.remark:
        (doubts if "several materials" in stuff.remark else remarks).append(stuff.remark)
    for span in (*stuff.where, *([stuff.hardness_where] if stuff.hardness_where else [])):
        reading.blank(*span)
    reading.read()
    where = reading.where
    if stuff.name.code:
        where["material"] = stuff.where[0]
    if stuff.hardness_shore_a is not None and stuff.hardness_where:
        where["hardness_shore_a"] = stuff.hardness_where
    if word and named is not None:
        where["kind"] = (named.start, named.end)
    found = SizeWords(
        reading.size,
        reading.fields,
        stuff.name.code,
        stuff.name.text,
        stuff.hardness_shore_a,
        reading.kind,
        word or reading.kind_word,
        tuple(remarks),
        (*doubts, *reading.doubts),
        where,
        named_kind if kind and named_kind != kind else "",
    )
    return found, _plan(found, reading)


def _plan(found: SizeWords, reading: Reading) -> _Plan | None:
    """Only what its shape decides is kept: an AS568 code, sizes of a ring, rising sizes, or nothing."""
    if found.doubts or reading.digits_decide or any(one.isdigit() for one in "".join(found.remarks)):
        return None
    if found.size and not found.size.startswith("AS568-"):
        return None
    given = reading.given
    if not (found.size or found.fields) and (marks.STANDARD.search(given) or marks.MAYBE_NAMED.search(given)):
        return None
    where = found.where
    check = None
    if found.fields:
        check = ring_like if "cross_section" in found.fields else rising
    fields = tuple((name, *where[name], text[text.rindex(" ") :]) for name, text in found.fields.items())
    return _Plan(
        where.get("size"),
        fields,
        check,
        where.get("hardness_shore_a"),
        reading.literal,
        found.material,
        found.material_word,
        found.kind,
        found.kind_word,
        found.remarks,
        where,
    )


@cache
def _codes() -> dict[str, str]:
    """A code as it may be written (14, 014) and its full name; a plan asks for nothing else."""
    found = {}
    for code in as568_codes():
        for spelling in {code, code[-2:] if code[0] == "0" else code, code.lstrip("0")}:
            found[spelling] = f"AS568-{code}"
    return found
