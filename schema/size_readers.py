"""Reads the sizes of one description, step by step; what was understood is blanked out of the text.

How two or three bare sizes are read depends on the kind of part: 20x3 of an O-ring is d1 x d2, 16x24x5 of an
oil seal is shaft x bore x width. Without a kind three sizes are a doubt.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

from schema import size_marks as marks
from schema.dimension import parse_dimension
from schema.errors import InputError
from schema.kinds import PARTS, model_of
from schema.ring_sizes import as568_codes, ring_size
from schema.size_fields import IN_ORDER, LARGEST, RING_FIELDS, RING_KINDS, THINNEST, Size, assigned, in_words
from schema.thread_tables import coarse_pitches
from schema.threads import parse_thread

Span = tuple[int, int]
_LABELS = {"id": "inside_diameter", "od": "outside_diameter", "w": "width", "l": "length"}
_RING_LABELS = {
    "id": "inside_diameter",
    "d1": "inside_diameter",
    "cs": "cross_section",
    "d2": "cross_section",
    "w": "cross_section",
}


class Reading:
    """One pass over one text."""

    def __init__(self, text: str, kind: str, *, no_part: bool = False) -> None:
        self.given = self.text = text
        self.kind = kind
        self.kind_word = ""
        self.elastomer = False
        self.no_part = no_part
        self.size = ""
        self.fields: dict[str, str] = {}
        self.doubts: list[str] = []
        self.where: dict[str, Span] = {}
        # For the plan of its shape: digits that must stay as they are, and whether others decide as well.
        self.literal: tuple[int, int, str] | None = None
        self.digits_decide = kind == "bearing"  # 2RS
        for one in marks.PACK.finditer(text):
            self.blank(*one.span())

    @property
    def of_ring(self) -> bool:
        """Whether bare sizes are those of a ring."""
        return self.kind in RING_KINDS or (not self.kind and self.elastomer)

    def blank(self, start: int, end: int) -> None:
        """Take what was understood out of the text; every other mark keeps its place."""
        self.text = self.text[:start] + " " * (end - start) + self.text[end:]

    def read(self) -> None:
        """Read the bare sizes, the surest first; standards and materials are read and blanked before."""
        if self.no_part:
            return
        self._threads()
        if not self.of_ring:
            self._bearing()
        if not self._labelled():
            self._groups()
        if self.of_ring and not self.size and not self.fields:
            self._bare_code()

    def _blank_all(self, pattern: re.Pattern[str]) -> bool:
        spans = [one.span() for one in pattern.finditer(self.text)]
        for span in spans:
            self.blank(*span)
        return bool(spans)

    def _set(self, field: str, text: str, start: int, end: int) -> None:
        if self.digits_decide and text.endswith((" mm", " in")):
            problem = _no_length(text)
            if problem:
                self._doubt(text, problem)
                return
        self.fields[field] = text
        self.where[field] = (start, end)

    # -- standards ---------------------------------------------------------------------------------

    def read_standards(self) -> None:
        """Read codes of standards; their numbers are then neither hardness nor sizes."""
        if self.no_part or not marks.STANDARD.search(self.text):
            return
        if one := marks.AS568.search(self.text):
            at = one.start() + one.group().index("568")
            self.literal = (at, at + 3, "568")
            self._code(f"AS568-{one[1].zfill(3)}", one, one.span(1))
        if one := marks.BS4518.search(self.text):
            self._code(f"BS4518-{one[1]}-{one[2]}", one, one.span())
        if one := marks.JIS.search(self.text):
            self._code(f"JIS-{one[1].upper()}{one[2].upper()}", one, one.span())
        if one := marks.ISO3601.search(self.text):
            inside, section = one[2].replace(",", "."), one[3].replace(",", ".")
            if (one[1] or "B").upper() == "B":
                self._code(f"ISO3601-B {inside}x{section}", one, one.span())
            self.digits_decide = True
            if self.kind in ("", *RING_KINDS):
                self._set("inside_diameter", f"{one[2]} mm", *one.span(2))
                self._set("cross_section", f"{one[3]} mm", *one.span(3))
            self.blank(*one.span())
        if one := marks.RETAINING.search(self.text):
            thickness = f" x {one[4]}" if one[4] else ""
            self.digits_decide = True
            if self._may_be("retaining_ring"):
                self._becomes("retaining_ring", one.group())
                self._set("standard", f"{one[1].upper()} {one[2]} - {one[3]}{thickness}", *one.span())
            else:
                self._doubt(one.group(), f"this is a retaining ring, the rest is of {in_words(self.kind)}")
            self.blank(*one.span())
        if self._blank_all(marks.OTHER_STANDARD):
            self.digits_decide = True

    def _code(self, code: str, one: re.Match[str], where: Span) -> None:
        self.blank(*one.span())
        self.digits_decide = self.digits_decide or not code.startswith("AS568")
        problem = _refused(code)
        if self.kind not in ("", *RING_KINDS):
            self._doubt(one.group().strip(), f"this is a size of an O-ring, and the kind is {self.kind}")
        elif problem:
            self.doubts.append(f"{one.group().strip()}: {problem}")
        elif self.size and self.size != code:
            self.doubts.append(f"two size codes: {self.size} and {code}")
        else:
            self.size = code
            self.where["size"] = where

    def _may_be(self, kind: str) -> bool:
        """Whether nothing told so far is of another kind."""
        return self.kind == kind or not (self.kind or self.size or self.fields)

    def _becomes(self, kind: str, word: str) -> None:
        """A mark that belongs to one kind says the kind where nothing else does."""
        self.digits_decide = True
        if not self.kind:
            self.kind, self.kind_word = kind, word

    # -- threads, bearings -------------------------------------------------------------------------

    def _threads(self) -> None:
        takes = not self.of_ring and (not self.kind or "thread" in _declared(self.kind))
        for pattern, read in (
            (marks.METRIC_THREAD, self._metric),
            (marks.UNIFIED_THREAD, self._unified),
            (marks.VALVE_THREAD, self._valve),
        ):
            one = pattern.search(self.text)
            if one is None or (not takes and pattern is not marks.METRIC_THREAD):
                continue
            self.digits_decide = True
            if takes and "thread" not in self.fields:
                read(one)
            elif not takes:
                self.blank(*one.span())

    def _metric(self, one: re.Match[str]) -> None:
        major, second, length = one[1], one[2], one[3]
        if second and not length and not _is_pitch(major, second):
            second, length = "", second
        thread = f"M{major}" + (f"x{second}" if second else "") + (f"-{one[4]}" if one[4] else "")
        self._thread(thread.replace(",", "."), one, f"{length} mm" if length else "")

    def _unified(self, one: re.Match[str]) -> None:
        if not (one[3] or one[1][0] in "#nN" or self.kind == "screw"):
            return
        length = ""
        if one[5]:
            unit = _unit(one[6])
            length = f"{one[5]} {unit}"
            if not unit:
                self.doubts.append(f"{one.group().strip()}: the length {one[5]} has no unit")
                length = ""
        thread = f"{one[1]}-{one[2]} {one[3] or ''}".strip() + (one[4] or "")
        self._thread(thread, one, length)

    def _valve(self, one: re.Match[str]) -> None:
        self._thread(one[1], one, "")

    def _thread(self, thread: str, one: re.Match[str], length: str) -> None:
        problem = _no_thread(thread)
        if problem:
            self.doubts.append(f"{one.group().strip()}: {problem}")
        else:
            self._set("thread", thread, *one.span())
            if length and "length" in (_declared(self.kind) if self.kind else ("length",)):
                self._set("length", length, *one.span())
        self.blank(*one.span())

    def _bearing(self) -> None:
        one = marks.BEARING_WITH_SHIELD.search(self.text) if self._may_be("bearing") else None
        if one is not None:
            self._set("designation", f"{one[1]}-{one[2].upper()}", *one.span())
            self._becomes("bearing", one.group())
            self.blank(*one.span())
        elif self.kind == "bearing" and not marks.GROUP.search(self.text):
            one = marks.BEARING_NUMBER.search(self.text)
            if one is not None:
                self.digits_decide = True
                self._set("designation", one[1].upper(), *one.span())
                self.blank(*one.span())

    # -- bare sizes --------------------------------------------------------------------------------

    def _labelled(self) -> bool:
        found = list(marks.LABELLED.finditer(self.text))
        if len(found) < 2:
            return False
        self.digits_decide = True
        names = _RING_LABELS if self.of_ring else _LABELS
        told = [(one["label"] or one["label_"], one["number"] or one["number_"]) for one in found]
        units = {_unit(one["unit"] or one["unit_"]) for one in found} - {""}
        unit = units.pop() if len(units) == 1 else "" if units or any("/" in one[1] for one in told) else "mm"
        fields = [names.get(label.lower(), "") for label, _ in told]
        allowed = _declared(self.kind) if self.kind else tuple(_LABELS.values()) + RING_FIELDS
        if not unit or len(set(fields)) < len(fields) or any(one not in allowed for one in fields):
            words = " ".join(one.group().strip() for one in found)
            self.doubts.append(f"{words}: these cannot be taken as sizes of {in_words(self.kind)}")
            return True
        for field, one, (_, number) in zip(fields, found, told, strict=True):
            self._set(field, f"{number} {unit}", *one.span())
        return True

    def _groups(self) -> None:
        groups = []
        for one in marks.GROUP.finditer(self.text):
            sizes = [
                Size(one[at], _unit(one[at + 1]), *one.span(at)) for at in (1, 3, 5, 7) if one[at] is not None
            ]
            groups.append((one.group().strip(), sizes))
        if not groups and self.kind in IN_ORDER and self.kind not in RING_KINDS:
            for one in marks.DASHED.finditer(self.text):
                groups.append((one.group(), [Size(one[at], "", *one.span(at)) for at in (1, 3, 4)]))
        if len(groups) > 1:
            self.doubts.append(f"{' and '.join(text for text, _ in groups)}: which of them is the size?")
        elif groups:
            self._group(*groups[0])

    def _group(self, text: str, sizes: list[Size]) -> None:
        units = {one.unit for one in sizes} - {""}
        unit = units.pop() if len(units) == 1 else ""
        if units:
            self._doubt(text, "two units, and which size has which is not told")
            return
        if any("/" in one.number for one in sizes):
            self.digits_decide = True
            if not unit:
                self._doubt(text, "fractions of an inch, or two heights? no unit is told")
                return
        if not unit and any(one.value < THINNEST for one in sizes):
            self._doubt(text, "no unit is told; in millimetres this is too small, in inches it may be right")
            return
        self.digits_decide = self.digits_decide or unit == "in"
        if max(one.value for one in sizes) * (25.4 if unit == "in" else 1) > LARGEST:
            self._doubt(text, f"beyond {LARGEST:g} mm; is the unit right?")
            return
        found = assigned(self.kind, sizes, of_ring=self.of_ring, text=self.given)
        self.digits_decide = self.digits_decide or found.by_digits
        if found.doubt:
            self._doubt(text, found.doubt)
        for field, one in found.fields.items():
            self._set(field, f"{one.number} {unit or 'mm'}", one.start, one.end)

    def _doubt(self, text: str, problem: str) -> None:
        self.doubts.append(f"{text}: {problem}")

    def _bare_code(self) -> None:
        """``-214`` or ``214`` beside the word for a ring or an elastomer."""
        found = list(marks.DASH_CODE.finditer(self.text)) or list(marks.BARE_CODE.finditer(self.text))
        known = [one for one in found if one[1] in as568_codes_set()]
        if len(known) == 1:
            self.size = f"AS568-{known[0][1]}"
            self.where["size"] = known[0].span(1)
            # Which of several numbers is a code is decided by the digits.
            self.digits_decide = self.digits_decide or len(found) > 1
        elif known:
            self.doubts.append(f"{' and '.join(one[1] for one in known)}: which of them is the size code?")
        elif found:
            self.digits_decide = True
            if self.kind in RING_KINDS:
                self.doubts.append(f"{found[0][1]}: AS568 has no such size")


@cache
def as568_codes_set() -> frozenset[str]:
    """The codes of AS568 for a quick look."""
    return frozenset(as568_codes())


def _unit(text: str | None) -> str:
    return "" if not text else "mm" if text.lower() == "mm" else "in"


def _is_pitch(major: str, second: str) -> bool:
    """Whether the second number of M8x1 is a pitch; no pitch is larger than the coarse one."""
    size, pitch = float(major.replace(",", ".")), float(second.replace(",", "."))
    coarse = next((float(value) for key, value in coarse_pitches().items() if float(key) == size), size / 4)
    return pitch <= coarse


@cache
def _declared(kind: str) -> frozenset[str]:
    return frozenset(model_of(kind).declared) if kind in PARTS else frozenset()


@lru_cache(maxsize=4096)
def _refused(code: str) -> str:
    """Why a size code cannot be taken; "" where it can."""
    try:
        ring_size(code)
    except InputError as error:
        return error.problem
    return ""


@lru_cache(maxsize=4096)
def _no_length(text: str) -> str:
    """Why a text is no length of a part; "" where it is one."""
    try:
        size = parse_dimension(text)
    except InputError as error:
        return error.problem
    return "" if size.nominal <= LARGEST else f"beyond {LARGEST:g} mm; is the unit right?"


@lru_cache(maxsize=4096)
def _no_thread(text: str) -> str:
    """Why a text is no thread; "" where it is one."""
    try:
        parse_thread(text)
    except InputError as error:
        return error.problem
    return ""
