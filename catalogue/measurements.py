"""What was measured at the bench, in a small text file (YAML), by place and field.

    shaft-bushing:
      shaft_diameter: 15.968; 15.971 mm by micrometer
    shaft-seal:
      QV-1202:                       a part of that place, by its number or its kind
        cross_section: 3.49 mm by calliper on rubber
    damper shaft:                    a shaft or bore that several places run on
      shaft_diameter: 15.968 mm by micrometer

Texts are read as a unit file's are: as written, with the line of each.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from catalogue.faults import UnitFileErrors
from catalogue.unit_files.reading import Reading, UnitFile, read_unit_file
from catalogue.unit_files.shape import Texts
from catalogue.unit_files.writing import plain_text
from catalogue.whole_files import write_whole
from schema.errors import InputError, InputErrors

Built = TypeVar("Built")


class _Measured(Reading):
    """The same reading of texts; names of places, then fields or parts with fields."""

    def file(self) -> UnitFile:
        """The measured texts by place, with where each stands."""
        node = self._tree()
        texts: Texts = {}
        if node is not None and not self.is_mapping(node):
            self._add(node.mark, "", "", "named places are expected", "shaft-seal: and below it field: text")
        elif node is not None:
            for name, path, value in self._entries(node, "", names=True):
                texts[name] = self._place(value, path)
        return UnitFile(self.name, texts, self.marks, self.key_marks, tuple(self.faults))

    def _place(self, node: Any, path: str) -> Texts:
        found: Texts = {}
        if not self.is_mapping(node):
            self._add(node.mark, path, "", "what was measured is told by named fields", "field: text")
            return found
        for name, at, value in self._entries(node, path, names=True):
            if self.is_mapping(value):
                inner: Texts = {}
                for field, where, text in self._entries(value, at):
                    self._keep(inner, field, self._field(text, where))
                found[name] = inner
            else:
                self._keep(found, name.replace("-", "_"), self._field(value, at))
        return found


class MeasuredFile:
    """A file of measurements: its texts, and what an error of a unit is in it."""

    def __init__(self, file: UnitFile) -> None:
        self.file = file
        self.texts: dict[str, dict[str, Any]] = dict(file.texts)

    def told(self, build: Callable[[], Built]) -> Built:
        """Run what builds a unit of these texts; errors that stand in this file are told by their line."""
        try:
            return build()
        except InputErrors as several:
            paths = [self._path(error) for error in several.errors]
            if "" in paths:
                raise
            told = zip(several.errors, paths, strict=True)
            faults = [self.file.fault(error.for_field(path)) for error, path in told]
            raise UnitFileErrors(dict.fromkeys(faults)) from several  # of a shared shaft each place tells it

    def _path(self, error: InputError) -> str:
        """Where in this file the text of an error stands; "" where it is not of this file.

        A text of a shared shaft or bore is told under the name of each place that runs on it, and a name
        written with dashes under the name of the field.
        """
        path = error.field.removeprefix("measured.").removeprefix("places.")
        if path in self.file.marks:
            return path
        place, _, field = path.rpartition(".")
        for whose in (place, *self.texts):
            texts = self.texts.get(whose) or {}
            for written in (one for one in self.file.marks if one.rpartition(".")[0] == whose):
                name = written.rpartition(".")[2].replace("-", "_")
                if name == field and name in texts and str(error.given) in (str(texts[name]), name):
                    return written
        return ""


def read_measured(name: str) -> MeasuredFile:
    """Read a file of measurements. Raises UnitFileErrors with every fault and its line."""
    file = read_unit_file(Path(name), _Measured)
    if file.faults:
        raise UnitFileErrors(file.faults)
    return MeasuredFile(file)


def write_measured(name: str, measured: Mapping[str, Mapping[str, Any]]) -> None:
    """Write measurements so that they can be read again. Raises StoreError."""
    lines = []
    for place, texts in measured.items():
        lines.append(f"{plain_text(place)}:")
        for field, text in texts.items():
            if isinstance(text, Mapping):
                lines.append(f"  {plain_text(field)}:")
                lines += [f"    {plain_text(one)}: {plain_text(value)}" for one, value in text.items()]
            else:
                lines.append(f"  {plain_text(field)}: {plain_text(text)}")
    write_whole(name, "".join(f"{line}\n" for line in lines), option="--keep")
