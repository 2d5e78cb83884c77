"""Turns the files of a workshop into rows of the catalogue's tables, every text read by ``schema``.

A folder holds two sheets of parts (``parts.csv``, ``part_dimensions.csv``) and a unit file for each unit
(``units/*.yaml``). Nothing is written here. Every text that cannot be used is collected; nothing stops at
the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from catalogue.faults import Fault, Mark
from catalogue.records import Line, PartDimensionRow, PartRow, folded, read_sheet
from catalogue.sheet_errors import CellError, WorkshopErrors
from catalogue.table_rows import Tables, add_part, add_unit, no_rows
from catalogue.unit_files.building import built
from catalogue.unit_files.reading import read_unit_file
from catalogue.unit_files.shape import Texts, part_fields
from schema.errors import InputError, InputErrors, UnknownName
from schema.model import Model
from schema.nearest import nearest
from schema.unit_parts import part_from

SHEETS = ("parts.csv", "part_dimensions.csv")
UNITS = "units"


def read_workshop(folder: Path) -> Tables:
    """Read the sheets and unit files of a folder into rows by table.

    Raises WorkshopErrors with every text that cannot be used.
    """
    reading = _Reading(folder)
    if not any(error.line == 1 or error.column == "all" for error in reading.errors):
        reading.parts()
        reading.units()
    if reading.errors:
        raise WorkshopErrors(reading.errors)
    return reading.tables


def workshop_files(folder: Path) -> list[Path]:
    """The files of a workshop, in a fixed order."""
    return [*(folder / name for name in SHEETS), *sorted((folder / UNITS).glob("*.yaml"))]


class _Stock:
    """The parts of the sheets, for the units that name them."""

    words = "parts.csv"

    def __init__(self) -> None:
        self.parts: dict[str, Texts] = {}
        self.numbers: list[str] = []

    def texts(self, number: str) -> Texts | None:
        return self.parts.get(number.lower())

    def nearest(self, number: str) -> tuple[str, ...]:
        return nearest(number, self.numbers)


class _Reading:
    """One pass over the files of a folder."""

    def __init__(self, folder: Path) -> None:
        self.errors: list[CellError | Fault] = []
        self.folder = folder
        self.tables = no_rows()
        self.stock = _Stock()
        cells: list[CellError] = []
        key = ("part_number",)
        self.part_sheet = read_sheet(folder / SHEETS[0], PartRow, key=key, errors=cells)
        self.field_sheet = read_sheet(
            folder / SHEETS[1], PartDimensionRow, key=(*key, "dimension"), errors=cells
        )
        self.errors += cells

    # -- parts -------------------------------------------------------------------------------------

    def parts(self) -> None:
        fields = self._fields()
        self.stock.numbers = list(self.part_sheet.keys.values())
        for line in self.part_sheet.lines:
            row = line.row
            if row.superseded_by:
                self._refer(line, "superseded_by")
                if row.superseded_by.lower() == row.part_number.lower():
                    self._add(
                        line.error("superseded_by", "a part does not supersede itself", "leave it empty")
                    )
            own = fields.get(row.part_number.lower(), {})
            texts: Texts = {
                "kind": row.kind,
                "description": row.description,
                "size": row.size_code,
                "material": row.material,
                "hardness_shore_a": row.hardness_shore_a,
                "maker": row.maker,
                "superseded_by": row.superseded_by,
                "notes": row.notes,
            }
            texts = {name: text for name, text in texts.items() if text}
            texts |= {name: one.row.text for name, one in own.items()}
            self.stock.parts[row.part_number.lower()] = texts
            if part := self._part(texts, line, own):
                add_part(
                    self.tables,
                    texts,
                    part,
                    number=row.part_number,
                    source=f"{self.folder.name}/{SHEETS[0]}",
                )

    def _fields(self) -> dict[str, dict[str, Line[PartDimensionRow]]]:
        """Lines of the sheet of fields by part and name."""
        found: dict[str, dict[str, Line[PartDimensionRow]]] = {}
        for line in self.field_sheet.lines:
            if self._refer(line, "part_number"):
                found.setdefault(line.row.part_number.lower(), {})[line.row.dimension] = line
        return found

    def _refer(self, line: Line[Any], column: str) -> bool:
        """Whether the part that a cell names is a row of the sheet of parts."""
        name = getattr(line.row, column)
        if folded([name]) in self.part_sheet.keys:
            return True
        near = nearest(name, self.part_sheet.keys.values())
        told = f"; near: {', '.join(near)}" if near else ""
        self._add(line.error(column, f"{name} is not in parts.csv", f"add it there, or correct it{told}"))
        return False

    def _part(
        self, texts: Texts, line: Line[PartRow], own: Mapping[str, Line[PartDimensionRow]]
    ) -> Model | None:
        """The part of its texts; None, with every error at its own cell, where it cannot be built."""
        try:
            return part_from(texts, number=line.row.part_number)
        except InputErrors as several:
            for error in several.errors:
                self._add(_cell(error, line, own))
        return None

    # -- units -------------------------------------------------------------------------------------

    def units(self) -> None:
        names: dict[str, str] = {}
        for path in sorted((self.folder / UNITS).glob("*.yaml")):
            file = read_unit_file(path)
            found = built(file, self.stock)
            faults = [one._replace(file=f"{UNITS}/{one.file}") for one in found.faults]
            unit = file.texts.get("unit", "").lower()
            if unit in names:
                mark = file.mark("unit")
                faults.append(_twice(f"{UNITS}/{file.name}", mark, file.texts["unit"], names[unit]))
            names.setdefault(unit, file.name)
            self.errors += faults
            if found.unit is None or faults:
                continue
            source = f"{self.folder.name}/{UNITS}/{file.name}"
            add_unit(self.tables, file.texts, found.unit, loaded_from=source)
            for number, texts in file.texts.get("parts", {}).items():
                model = found.unit.parts[number]
                add_part(self.tables, texts, model, number=number, source=source)
                self.tables["unit_part"].append({"unit": file.texts["unit"], "part_number": number})

    def _add(self, error: CellError | Fault) -> None:
        self.errors.append(error)


def _twice(file: str, mark: Mark, unit: str, first: str) -> Fault:
    return Fault(file, *mark, "unit", unit, f"{first} has the same unit", "keep one of the two")


# Fields of the models whose column has another name.
_COLUMN_OF = {"size": "size_code", "code": "size_code"}


def _cell(error: InputError, line: Line[PartRow], own: Mapping[str, Line[PartDimensionRow]]) -> CellError:
    """The cell that an error of a part is told at."""
    field = error.field.rpartition(".")[2]
    action = error.allowed + (f", for example {error.example}" if error.example else "")
    if isinstance(error, UnknownName) and error.nearest:
        action += f"; near: {', '.join(error.nearest)}"
    action = action.lstrip(",; ")
    if field in own:
        if error.problem == "there is no such field":
            return own[field].error("dimension", "there is no such field here", action)
        return own[field].error("text", error.problem, action)
    column = _COLUMN_OF.get(field, field)
    if column in PartRow.model_fields:
        return line.error(column, error.problem, action)
    # a field that is missing altogether is told at its part
    ring = "size" in part_fields(line.row.kind)
    mend = "a row for it in part_dimensions.csv" + (", or a size code" if ring else "")
    example = f", for example {error.example}" if error.example else ""
    return line.error(
        "size_code" if ring else "part_number", f"{field} {error.problem}", mend + example, value=""
    )
