"""Reads a unit file into the texts of a unit, each as it is written, with the line where it stands.

YAML is read by its events and not by its values: 0.50 stays 0.50, no stays no, and what YAML allows beyond
plain nested names and texts (anchors, tags, tabs, several documents) is refused with its line. Reading goes
on after a fault as far as it can, so that all are told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple, TypeGuard

import yaml

from catalogue.faults import START, Fault, Mark, fault_of
from catalogue.unit_files.shape import Texts, normal
from schema.errors import InputError
from schema.unit import SECTIONS

LARGEST_BYTES = 1_000_000  # a unit of 30 places has about 20 000
DEEPEST = 8  # a part in the list of a place stands five deep
TAB = "a tab stands here"
_UNPRINTABLE = yaml.reader.Reader.NON_PRINTABLE
_CONTROL = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")


class UnitFile(NamedTuple):
    """What a file says: its texts in normal form, where each stands, and what of it could not be used."""

    name: str
    texts: Texts
    marks: Mapping[str, Mark]
    key_marks: Mapping[str, Mark]
    faults: tuple[Fault, ...]

    def mark(self, path: str, given: object = "") -> Mark:
        """Where a path stands; of a path that is missing, the innermost that holds it."""
        named = path.rpartition(".")[2]
        marks = self.key_marks if given == named and path in self.key_marks else self.marks
        while path and path not in marks:
            path = path.rpartition(".")[0]
            marks = self.key_marks if path in self.key_marks else self.marks
        return marks.get(path, START)

    def fault(self, error: InputError) -> Fault:
        """The fault that an error of ``schema.unit`` is, told where its path stands."""
        return fault_of(error, file=self.name, mark=self.mark(error.field, error.given))


def read_unit_file(path: Path, reading: type[Reading] | None = None) -> UnitFile:
    """Read a unit file from disk. Faults are kept in it, also those of a file that cannot be read at all.

    ``reading`` is how the texts are understood, where the file is of another shape than a unit.
    """
    try:
        content = path.read_bytes()
    except OSError as error:
        return _nothing(path.name, START, f"the file cannot be read: {error.strerror}", "name another file")
    if len(content) > LARGEST_BYTES:
        problem = f"{len(content)} bytes are more than a unit has"
        return _nothing(path.name, START, problem, f"a file of at most {LARGEST_BYTES} bytes")
    try:
        return (reading or Reading)(content.decode("utf-8-sig"), path.name).file()
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        return _nothing(path.name, Mark(line, 1), "this is not UTF-8 text", "save the file as UTF-8")


def read_unit_text(text: str, *, name: str = "unit file") -> UnitFile:
    """Read a unit file from its text.

    >>> read_unit_text("unit: wren-1\\nkind: damper\\nstroke: 50.0 mm\\n").texts["stroke"]
    '50.0 mm'
    >>> print(read_unit_text("unit: wren-1\\nunit: wren-2\\n").faults[0])
    unit file, line 2, column 1: unit: is given twice, first in line 1. To do: keep one of the two
    """
    return Reading(text, name).file()


def _nothing(name: str, mark: Mark, problem: str, mend: str) -> UnitFile:
    return UnitFile(name, {}, {}, {}, (Fault(name, *mark, "", "", problem, mend),))


class _Scalar(NamedTuple):
    text: str
    mark: Mark


class _Mapping(NamedTuple):
    entries: list[tuple[_Scalar, _Node]]
    mark: Mark


class _Sequence(NamedTuple):
    entries: list[_Node]
    mark: Mark


_Node = _Scalar | _Mapping | _Sequence


class Reading:
    """One pass over one file; what it makes of the tree of texts is ``file``."""

    def __init__(self, text: str, name: str) -> None:
        self.name = name
        self.text = text
        self.faults: list[Fault] = []
        self.marks: dict[str, Mark] = {}
        self.key_marks: dict[str, Mark] = {}

    def file(self) -> UnitFile:
        node = self._tree()
        texts: Texts = {}
        if isinstance(node, _Mapping):
            texts = self._unit(node)
        elif not self.faults:
            at = node.mark if node else START
            self._add(at, "", "", "a unit file holds named entries", "unit: its-name in the first line")
        return UnitFile(self.name, normal(texts), self.marks, self.key_marks, tuple(self.faults))

    @staticmethod
    def is_mapping(node: object) -> TypeGuard[_Mapping]:
        """Whether a node holds named entries."""
        return isinstance(node, _Mapping)

    # -- from text to a tree -----------------------------------------------------------------------

    def _tree(self) -> _Node | None:
        """The file as a tree; a line whose text should stand between quotes is passed over and told."""
        lines = self._readable().splitlines()
        before = self.faults
        while True:
            self.faults = [*before]
            try:
                return self._document("\n".join(lines) + "\n")
            except _TooDeep as error:
                self._add(error.mark, "", "", "this stands too deep", "unit, places, place, parts, part")
                return None
            except yaml.MarkedYAMLError as error:
                known = self.faults
                self.faults = before
                at = self._add_syntax(error)
                name, colon, value = lines[at - 1].partition(": ") if at <= len(lines) else ("", "", "")
                if not (at and colon and value.strip('" ')):
                    self.faults = [*known, *(one for one in before if one not in known)]
                    return None
                lines[at - 1] = f'{name}: ""'

    def _document(self, text: str) -> _Node | None:
        events = yaml.parse(text, Loader=yaml.BaseLoader)
        found: _Node | None = None
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent) and found is not None:
                self._add(_at(event), "", "", "a second document begins here", "one unit in each file")
                break
            if isinstance(event, yaml.NodeEvent):
                found = self._node(event, events, 0)
        return found

    def _readable(self) -> str:
        """The text with what YAML may not have put as spaces, each told where it stands."""
        for found in [*re.finditer("\t", self.text), *_UNPRINTABLE.finditer(self.text)]:
            before = self.text[: found.start()]
            mark = Mark(before.count("\n") + 1, found.start() - (before.rfind("\n") + 1) + 1)
            if found[0] == "\t":
                self._add(mark, "", "", TAB, "use spaces")
            else:
                self._add(mark, "", "", f"the sign {found[0]!a} cannot be printed", "take it out")
        return _UNPRINTABLE.sub(" ", self.text.replace("\t", " "))

    def _node(self, event: yaml.NodeEvent, events: Iterator[yaml.Event], depth: int) -> _Node:
        mark = _at(event)
        if depth > DEEPEST:
            raise _TooDeep(mark)
        if isinstance(event, yaml.AliasEvent):
            self._add(mark, "", f"*{event.anchor}", "an alias is not read here", "write the text itself")
            return _Scalar("", mark)
        if event.anchor is not None:
            self._add(mark, "", f"&{event.anchor}", "an anchor is not read here", "take it out")
        if isinstance(event, (yaml.ScalarEvent, yaml.CollectionStartEvent)) and event.tag is not None:
            self._add(mark, "", str(event.tag), "a tag is not read here", "take it out: all is text")
        if isinstance(event, yaml.ScalarEvent):
            return _Scalar(self._plain(str(event.value), mark), mark)
        if isinstance(event, yaml.SequenceStartEvent):
            return _Sequence(list(self._inner(events, depth)), mark)
        inner = list(self._inner(events, depth))
        entries = []
        for key, value in zip(inner[::2], inner[1::2], strict=True):
            if isinstance(key, _Scalar) and key.text and "\n" not in key.text:
                entries.append((key, value))
            else:
                self._add(key.mark, "", "", "a name is one line of text", "name: text")
        return _Mapping(entries, mark)

    def _inner(self, events: Iterator[yaml.Event], depth: int) -> Iterator[_Node]:
        for event in events:
            if isinstance(event, yaml.CollectionEndEvent):
                return
            assert isinstance(event, yaml.NodeEvent)
            yield self._node(event, events, depth + 1)

    def _plain(self, text: str, mark: Mark) -> str:
        if bad := _CONTROL.search(text):
            self._add(mark, "", "", f"the sign {bad[0]!a} cannot be printed", "take it out")
            return _CONTROL.sub(" ", text).strip()
        return text.strip()

    def _add_syntax(self, error: yaml.MarkedYAMLError) -> int:
        """Tell what is no YAML; the line where its text alone is at fault, 0 where more than that is."""
        at = error.problem_mark or error.context_mark
        mark = Mark(at.line + 1, at.column + 1) if at else START
        problem = str(error.problem or error.context)
        mend = "begin what belongs to a name two spaces further in than the name"
        line = 0
        if "mapping values are not allowed" in problem:
            problem, mend, line = "a second colon", 'put the text between quotes: "first: second"', mark.line
        elif "cannot start any token" in problem:
            problem, mend, line = "no text begins with this sign", "put it between quotes", mark.line
        elif "quoted scalar" in str(error.context):
            problem, mend = "a quote is opened and not closed", "close it"
            opened = error.context_mark or error.problem_mark
            mark = Mark(opened.line + 1, opened.column + 1) if opened else mark
        elif any(one.line == mark.line and one.problem == TAB for one in self.faults):
            return 0  # the tab breaks the line, and is told
        else:
            problem = f"this is not YAML: {problem}"
        self._add(mark, "", "", problem, mend)
        return line

    def _add(self, mark: Mark, path: str, given: str, problem: str, mend: str) -> None:
        self.faults.append(Fault(self.name, *mark, path, given, problem, mend))

    # -- from the tree to the texts ----------------------------------------------------------------

    def _unit(self, node: _Mapping) -> Texts:
        texts: Texts = {}
        for name, _, value in self._entries(node, ""):
            if name not in SECTIONS:
                self._keep(texts, name, self._field(value, name))
            elif isinstance(value, _Mapping):
                texts[name] = self._section(value, name)
            elif not _empty(value):
                self._add(
                    value.mark,
                    name,
                    "",
                    "this section holds named entries",
                    f"{name}: and below it name: ...",
                )
        return texts

    def _section(self, node: _Mapping, section: str) -> Texts:
        found: Texts = {}
        for name, path, value in self._entries(node, section, names=True):
            if section == "shafts":
                self._keep(found, name, self._field(value, path))
            elif isinstance(value, _Mapping):
                found[name] = self._named(value, path, with_parts=section == "places")
            elif _empty(value):
                found[name] = {}
            else:
                self._add(value.mark, path, "", "this holds named fields", "kind: and below it the others")
        return found

    def _named(self, node: _Mapping, path: str, *, with_parts: bool) -> Texts:
        found: Texts = {}
        for name, at, value in self._entries(node, path):
            if name == "parts" and with_parts:
                if isinstance(value, _Sequence):
                    found[name] = self._parts(value, at)
                elif not _empty(value):
                    self._add(
                        value.mark, at, "", "parts are told as a list", "- and a part number in each line"
                    )
            else:
                self._keep(found, name, self._field(value, at))
        return found

    def _parts(self, node: _Sequence, path: str) -> list[Any]:
        found: list[Any] = []
        numbers: dict[str, Mark] = {}
        for at, one in enumerate(node.entries):
            where = f"{path}.{at}"
            self.marks[where] = one.mark
            told: Any = {}
            if isinstance(one, _Mapping):
                for name, inner, value in self._entries(one, where):
                    self._keep(told, name, self._field(value, inner))
            elif isinstance(one, _Scalar):
                told = one.text
            else:
                self._add(one.mark, where, "", "a part is told by its number", "- QV-1202")
                continue
            found.append(told)
            number = (told if isinstance(told, str) else str(told.get("part", ""))).lower()
            if number and number in numbers:
                first = numbers[number].line
                self._add(
                    one.mark,
                    where,
                    number,
                    f"is listed twice, first in line {first}",
                    "tell the quantity once",
                )
            numbers.setdefault(number, one.mark)
        return found

    def _entries(self, node: _Mapping, path: str, *, names: bool = False) -> Iterator[tuple[str, str, _Node]]:
        """Names, paths and values of a mapping; a name that comes again is told and passed over.

        ``names`` of places, parts and shafts stand as they are written and are compared without regard to
        case; the name of a field may be written with dashes.
        """
        seen: dict[str, Mark] = {}
        for key, value in node.entries:
            name = key.text if names else key.text.replace("-", "_")
            at = f"{path}.{name}" if path else name
            folded = name.lower() if names else name
            if first := seen.get(folded):
                self._add(
                    key.mark, at, "", f"is given twice, first in line {first.line}", "keep one of the two"
                )
                continue
            seen[folded] = key.mark
            self.key_marks[at], self.marks[at] = key.mark, value.mark
            if path == "places" and "/" in name:
                mend = "use a dash; unit/place is how a place is asked for"
                self._add(key.mark, at, name, "a name has no / in it", mend)
            yield name, at, value

    def _field(self, node: _Node, path: str) -> str | None:
        """The text of a field; a list of texts is one text with ; between them."""
        if isinstance(node, _Scalar):
            return node.text
        if isinstance(node, _Sequence) and all(isinstance(one, _Scalar) for one in node.entries):
            texts = [one.text for one in node.entries if isinstance(one, _Scalar)]
            if not any(mark in text for text in texts for mark in ";,\n"):
                return "; ".join(text for text in texts if text)
            self._add(node.mark, path, "", "an entry of this list has a , or ; in it", "an entry for each")
            return None
        self._add(node.mark, path, "", "a text is expected here", "name: text")
        return None

    @staticmethod
    def _keep(texts: Texts, name: str, text: str | None) -> None:
        if text is not None:
            texts[name] = text


class _TooDeep(Exception):
    def __init__(self, mark: Mark) -> None:
        self.mark = mark


def _at(event: yaml.Event) -> Mark:
    at = event.start_mark
    return Mark(at.line + 1, at.column + 1) if at else START


def _empty(node: _Node) -> bool:
    return isinstance(node, _Scalar) and not node.text
