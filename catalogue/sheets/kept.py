"""The mappings of suppliers that are kept: one readable YAML file for each, beside the catalogue.

A file is read by its texts and not by its values: 0.50 stays 0.50, no stays no. It may be edited by hand;
what is wrong in it is told with its line. It is written whole or not at all.
"""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path
from typing import Any

import yaml

from catalogue.faults import START, Fault, Mark, UnitFileErrors, fault_of
from catalogue.sheets.mapping import LEAVE_OUT, Column, Mapping, checked
from catalogue.whole_files import write_whole
from schema.errors import InputError, InputErrors

LARGEST_BYTES = 1_000_000  # ten thousand told codes have about 300 000
LONGEST_NAME = 60
# Names that some systems keep for devices, in small letters.
_RESERVED = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)))
)
_TAB = r"'\t'"  # as the reader of YAML tells a tab that it met
_HEAD = """\
# What the columns of this supplier's sheets are. borebook reads it each time one of them is loaded.
# Edit it by hand if you like:
#   columns  header as it stands in the sheet: field, and the unit where the cells have none
#            (leave_out for a column that is not loaded)
#   every    fields that are the same for every row, such as kind: o_ring or currency: EUR
#   words    the supplier's words, by field; under kind, leave_out for rows that are no parts
#   same_part  the supplier's code and the number of the part here
#   covers   whole_range where a sheet lists all that is offered, else some
#   decimal  the decimal sign of the sheet, "." or ","
"""


class KeptErrors(UnitFileErrors):
    """The file of a supplier with faults; nothing was loaded."""


def mappings_folder(catalogue: Path) -> Path:
    """The folder of the suppliers' files, beside the catalogue's file.

    >>> mappings_folder(Path("shop/parts.sqlite")).as_posix()
    'shop/parts.suppliers'
    """
    return catalogue.with_name(f"{catalogue.stem}.suppliers")


def kept_path(folder: Path, supplier: str) -> Path:
    """The file of a supplier, also where its name is written in other capitals. Raises InputError."""
    name = supplier_name(supplier)
    if folder.is_dir():
        for path in sorted(folder.glob("*.yaml")):
            if unicodedata.normalize("NFC", path.stem).casefold() == name.casefold():
                return path
    return folder / f"{name}.yaml"


def supplier_name(supplier: str) -> str:
    """The name of a supplier, if it can be the name of a file everywhere. Raises InputError."""
    name = unicodedata.normalize("NFC", " ".join(supplier.split()))
    if (
        not re.fullmatch(r"[^\W_](?:[\w -]*[\w-])?", name)
        or len(name) > LONGEST_NAME
        or name.casefold() in _RESERVED
    ):
        plain = " ".join(re.sub(r"[^\w -]", " ", name).split())[:LONGEST_NAME]
        raise InputError(
            field="supplier",
            given=supplier,
            problem="this cannot be the name of a file everywhere",
            allowed=f"letters, digits, - _ and spaces, {LONGEST_NAME} at most",
            example=plain if plain and plain.casefold() not in _RESERVED else "Kolbring",
        )
    return name


def kept_suppliers(folder: Path) -> tuple[str, ...]:
    """The suppliers whose mapping is kept."""
    return tuple(sorted(path.stem for path in folder.glob("*.yaml"))) if folder.is_dir() else ()


def read_kept(folder: Path, supplier: str) -> Mapping | None:
    """The kept mapping of a supplier; None where none is kept. Raises KeptErrors, InputError."""
    path = kept_path(folder, supplier)
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise KeptErrors(
            [Fault(path.name, *START, "", "", f"cannot be read: {error.strerror}", "")]
        ) from error
    found = mapping_of(content, path.name)
    if found.supplier.casefold() != path.stem.casefold():
        problem = "the file is named for another supplier"
        mend = f"name the file {found.supplier}.yaml, or correct the supplier"
        raise KeptErrors([Fault(path.name, *START, "supplier", found.supplier, problem, mend)])
    return found


def mapping_of(content: bytes, name: str) -> Mapping:
    """The mapping that a file holds; ``name`` is told in messages. Raises KeptErrors."""
    reading = _Reading(name)
    values = reading.values(content)
    if reading.faults:
        raise KeptErrors(reading.faults)
    try:
        return checked(**values)
    except InputErrors as several:
        raise KeptErrors(
            fault_of(one, file=name, mark=reading.mark(one.field)) for one in several.errors
        ) from None


def write_kept(folder: Path, mapping: Mapping) -> Path:
    """Keep a mapping, over the one that was kept before. Raises StoreError, InputError."""
    path = kept_path(folder, mapping.supplier)
    folder.mkdir(parents=True, exist_ok=True)
    write_whole(str(path), kept_text(mapping), option=f"the mapping of {mapping.supplier}")
    return path


def kept_text(mapping: Mapping) -> str:
    """A mapping as it is kept."""
    values: dict[str, Any] = {
        "supplier": mapping.supplier,
        "covers": mapping.covers,
        "sheets": list(mapping.sheets),
        "encoding": mapping.encoding,
        "delimiter": mapping.delimiter,
        "decimal": mapping.decimal,
        "columns": {name: _column_text(column) for name, column in mapping.columns.items()},
        "every": mapping.every,
        "words": mapping.words,
        "same_part": mapping.same_part,
        "texts": mapping.texts if mapping.texts != "read" else "",
    }
    told = {name: value for name, value in values.items() if value or name == "columns"}
    body = yaml.dump(
        told, Dumper=_Dumper, sort_keys=False, allow_unicode=True, default_flow_style=False, width=1000
    )
    return f"{_HEAD}{body}"


class _Dumper(yaml.SafeDumper):
    """Writes texts that hold line breaks of any script between double quotes; YAML would fold them."""


def _text_node(dumper: _Dumper, text: str) -> yaml.ScalarNode:
    style = '"' if re.search("[\\x00-\\x1f\\x7f-\\x9f\u2028\u2029]", text) else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=style)


_Dumper.add_representer(str, _text_node)


def _column_text(column: Column) -> str:
    return f"{column.field} {column.unit}".strip() if column.field else LEAVE_OUT


def _column_of(header: str, text: str) -> Column:
    field, _, unit = " ".join(text.split()).partition(" ")
    return Column(header, "" if field == LEAVE_OUT else field, unit)


class _Reading:
    """One pass over one file: its texts, and where each stands."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.faults: list[Fault] = []
        self.marks: dict[str, Mark] = {}

    def mark(self, path: str) -> Mark:
        """Where a path stands; of one that is missing, the innermost that holds it."""
        while path and path not in self.marks:
            path = path.rpartition(".")[0]
        return self.marks.get(path, START)

    def values(self, content: bytes) -> dict[str, Any]:
        node = self._tree(content)
        found: dict[str, Any] = {}
        for name, value in self._entries(node, ""):
            if name == "sheets":
                found[name] = self._list(value, name)
            elif name == "columns":
                texts = self._texts(value, name)
                found[name] = {header: _column_of(header, text) for header, text in texts.items()}
            elif name in ("every", "same_part"):
                found[name] = self._texts(value, name)
            elif name == "words":
                found[name] = {
                    field: self._texts(pairs, f"words.{field}") for field, pairs in self._entries(value, name)
                }
            elif name in Mapping.model_fields:
                found[name] = self._text(value, name)
            else:
                found[name] = ""  # refused as the mapping is checked
        return found

    def _tree(self, content: bytes) -> yaml.Node | None:
        if len(content) > LARGEST_BYTES:
            self._add(START, "", "", f"more than {LARGEST_BYTES} bytes", "is it the right file?")
            return None
        try:
            text = content.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            line = error.object[: error.start].count(b"\n") + 1
            self._add(Mark(line, 1), "", "", "this is not UTF-8 text", "save the file as UTF-8")
            return None
        try:
            for event in yaml.parse(text, Loader=yaml.BaseLoader):
                if isinstance(event, yaml.AliasEvent):
                    mark = _at(event)
                    self._add(mark, "", f"*{event.anchor}", "an alias is not read here", "write the text")
                    return None
            node: yaml.Node | None = yaml.compose(text, Loader=yaml.BaseLoader)
        except yaml.MarkedYAMLError as error:
            at = error.problem_mark or error.context_mark
            mark = Mark(at.line + 1, at.column + 1) if at else START
            problem = f"this is not YAML: {error.problem or error.context}"
            cure = 'put texts that hold : or # between quotes: "a: b"'
            if _TAB in problem:
                cure = "use spaces instead of the tab"
            self._add(mark, "", "", problem, cure)
            return None
        except (yaml.YAMLError, RecursionError) as error:
            self._add(
                START, "", "", f"this is not YAML: {str(error).splitlines()[0]}", "save it as plain text"
            )
            return None
        if node is None:
            self._add(START, "", "", "the file is empty", "delete it, and the columns are proposed anew")
        return node

    def _entries(self, node: yaml.Node | None, path: str) -> list[tuple[str, yaml.Node]]:
        if node is None or (isinstance(node, yaml.ScalarNode) and not node.value):
            return []
        if not isinstance(node, yaml.MappingNode):
            self._add(_at(node), path, "", "named entries are expected here", "name: text")
            return []
        found: dict[str, yaml.Node] = {}
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode):
                self._add(_at(key), path, "", "a name is a text", "name: text")
                continue
            at = f"{path}.{key.value}" if path else key.value
            if key.value in found:
                line = self.marks[at].line
                self._add(_at(key), at, "", f"is given twice, first in line {line}", "keep one of the two")
                continue
            found[key.value] = value
            self.marks[at] = _at(key)
        return list(found.items())

    def _texts(self, node: yaml.Node, path: str) -> dict[str, str]:
        return {name: self._text(value, f"{path}.{name}") for name, value in self._entries(node, path)}

    def _text(self, node: yaml.Node, path: str) -> str:
        if isinstance(node, yaml.ScalarNode):
            return str(node.value)
        self._add(_at(node), path, "", "a text is expected here", "name: text")
        return ""

    def _list(self, node: yaml.Node, path: str) -> tuple[str, ...]:
        if isinstance(node, yaml.SequenceNode):
            return tuple(self._text(one, path) for one in node.value)
        text = self._text(node, path)
        return (text,) if text else ()

    def _add(self, mark: Mark, path: str, given: str, problem: str, mend: str) -> None:
        self.faults.append(Fault(self.name, *mark, path, given, problem, mend))


def _at(node: yaml.Node | yaml.Event) -> Mark:
    at = node.start_mark
    return Mark(at.line + 1, at.column + 1) if at else START


__all__ = [
    "KeptErrors",
    "kept_path",
    "kept_suppliers",
    "kept_text",
    "mapping_of",
    "mappings_folder",
    "read_kept",
    "supplier_name",
    "write_kept",
]
