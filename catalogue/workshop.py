"""Turns the sheets of a workshop into rows of the catalogue's tables, every text read by ``schema``.

Nothing is written here. A part or place whose kind has a model in ``schema`` is built from its texts,
so that what is stored can be checked; for the other kinds each length is read by itself and a thread is
kept as it stands. Every cell that cannot be used is collected; nothing stops at the first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from pathlib import Path
from typing import Any

from catalogue.records import (
    Keys,
    Line,
    PartDimensionRow,
    PartRow,
    PlaceDimensionRow,
    PlaceRow,
    RebuildRow,
    UnitRow,
    folded,
    read_sheet,
)
from catalogue.sheet_errors import CellError, SheetErrors
from catalogue.words import PART_LENGTHS, PLACE_LENGTHS, ROUGHNESS, THREADS
from schema.dimension import Dimension, Origin, parse_dimension
from schema.errors import InputError, InputErrors, UnknownName
from schema.fields import meaning_of, read_model
from schema.model import Model
from schema.nearest import nearest
from schema.parts import PART_MODELS, BackUpRing
from schema.places import PLACE_MODELS
from schema.question import gland_from, ring_from
from schema.service import Service

Record = dict[str, Any]
Tables = dict[str, list[Record]]
SHEETS = ("parts", "part_dimensions", "units", "places", "place_dimensions", "rebuild_list")


def read_workshop(folder: Path) -> Tables:
    """Read the six sheets of a folder into rows by table. Raises SheetErrors with every unusable cell."""
    reading = _Reading(folder)
    if not any(error.line == 1 or error.column == "all" for error in reading.errors):
        reading.parts()
        reading.units()
        reading.places()
        reading.rebuild_list()
    if reading.errors:
        raise SheetErrors(reading.errors)
    return reading.tables


class _Reading:
    """One pass over the six sheets."""

    def __init__(self, folder: Path) -> None:
        self.errors: list[CellError] = []
        self.folder = folder
        self.tables: Tables = {
            name: []
            for name in (
                "part",
                "part_dimension",
                "unit",
                "place",
                "place_fluid",
                "place_dimension",
                "rebuild_list",
            )
        }
        errors = self.errors
        by_part, by_place = ("part_number",), ("unit", "place")
        self.part_sheet = read_sheet(folder / "parts.csv", PartRow, key=by_part, errors=errors)
        self.unit_sheet = read_sheet(folder / "units.csv", UnitRow, key=("unit",), errors=errors)
        self.place_sheet = read_sheet(folder / "places.csv", PlaceRow, key=by_place, errors=errors)
        self.part_sizes = read_sheet(
            folder / "part_dimensions.csv", PartDimensionRow, key=(*by_part, "dimension"), errors=errors
        )
        self.place_sizes = read_sheet(
            folder / "place_dimensions.csv", PlaceDimensionRow, key=(*by_place, "dimension"), errors=errors
        )
        self.rebuild_sheet = read_sheet(
            folder / "rebuild_list.csv", RebuildRow, key=(*by_place, "part_number"), errors=errors
        )

    # -- the sheets --------------------------------------------------------------------------------

    def parts(self) -> None:
        known = self.part_sheet.keys
        sizes = self._grouped(self.part_sizes.lines, ("part_number",), known, "parts.csv")
        for line in self.part_sheet.lines:
            row = line.row
            if row.superseded_by:
                self._refer(line, "superseded_by", folded([row.superseded_by]), known, "parts.csv")
                if row.superseded_by.lower() == row.part_number.lower():
                    self._add(
                        line.error("superseded_by", "a part does not supersede itself", "leave it empty")
                    )
            model = PART_MODELS.get(row.kind)
            known_names = _dimensions_of(model) if model else (*PART_LENGTHS, *THREADS)
            self._part(line, self._known(sizes.get(folded([row.part_number]), {}), known_names))

    def _part(self, line: Line[PartRow], own: dict[str, Line[Any]]) -> None:
        row = line.row
        record: Record = {
            "part_number": row.part_number,
            "kind": row.kind,
            "description": row.description,
            "maker": row.maker or None,
            "material": row.material or None,
            "hardness_shore_a": row.hardness_shore_a,
            "size_code": row.size_code or None,
            "size_grade": None,
            "size_source": None,
            "superseded_by": row.superseded_by or None,
            "notes": row.notes or None,
            "source": f"{self.folder.name}/parts.csv",
        }
        texts = {name: one.row.text for name, one in own.items()}
        head = {"part_number": row.part_number, "description": row.description, "material": row.material}
        found: Mapping[str, Any] | None
        if row.kind == BackUpRing.kind:
            found = self._built(partial(read_model, BackUpRing, {**head, **texts}, path="part"), line, own)
        elif row.kind in PART_MODELS:
            hardness = "" if row.hardness_shore_a is None else f"{row.hardness_shore_a:g}"
            given = {
                **head,
                "kind": row.kind,
                "size": row.size_code,
                "hardness_shore_a": hardness,
                **texts,
            }
            found = self._built(partial(ring_from, given), line, own)
            if found is not None:
                record["material"] = found["material"] if row.material else None
                record["size_code"] = found["code"] or None
                record["size_grade"] = found["size_grade"]
                record["size_source"] = found["size_source"]
        else:
            found = self._lengths(own)
            if row.size_code:
                self._add(line.error("size_code", f"a {row.kind} has no size code", "leave it empty"))
        if found is None:
            return
        self.tables["part"].append(record)
        for name, value in found.items():
            if name in own or isinstance(value, Dimension):
                size = _dimension_record(name, texts.get(name) or value.text, value)
                if name not in own:
                    size["origin"] = Origin.STANDARD.value  # it follows from the size code
                self.tables["part_dimension"].append({"part_number": row.part_number} | size)

    def units(self) -> None:
        for line in self.unit_sheet.lines:
            row = line.row
            given = {"fluid": row.fluid, "temperature": row.temperature}
            service = self._built(partial(read_model, Service, given, path="unit"), line, {})
            if service is None:
                continue
            range_ = service["temperature"]
            self.tables["unit"].append(
                {
                    "unit": row.unit,
                    "kind": row.kind,
                    "description": row.description,
                    "maker": row.maker or None,
                    "fluid": "; ".join(service["fluid"]) or None,
                    "temperature": range_.text if range_ else None,
                    "temperature_low_deg_c": range_.low_deg_c if range_ else None,
                    "temperature_high_deg_c": range_.high_deg_c if range_ else None,
                    "notes": row.notes or None,
                    "source": f"{self.folder.name}/units.csv",
                }
            )

    def places(self) -> None:
        key = ("unit", "place")
        sizes = self._grouped(self.place_sizes.lines, key, self.place_sheet.keys, "places.csv")
        for line in self.place_sheet.lines:
            row = line.row
            self._refer(line, "unit", folded([row.unit]), self.unit_sheet.keys, "units.csv")
            model = PLACE_MODELS.get(row.kind)
            known_names = _dimensions_of(model) if model else (*PLACE_LENGTHS, *THREADS)
            own = self._known(sizes.get(folded([row.unit, row.place]), {}), known_names)
            texts = {name: one.row.text for name, one in own.items()}
            asked = {
                "motion": row.motion,
                "medium": row.medium,
                "pressure": row.pressure,
                "pressure_from": row.pressure_from,
                "fluid": row.fluid,
            }
            service = self._built(partial(read_model, Service, asked, path="place"), line, own)
            found: Mapping[str, Any] | None
            if model:
                count = "" if row.back_up_rings is None else str(row.back_up_rings)
                given = {"kind": row.kind, "back_up_rings": count, "metal": row.metal, **texts}
                found = self._built(partial(gland_from, given), line, own)
            else:
                found = self._lengths(own)
            if service is not None and found is not None:
                self._place(row, texts, service, found)

    def _place(
        self, row: PlaceRow, texts: Mapping[str, str], service: Mapping[str, Any], found: Mapping[str, Any]
    ) -> None:
        key = {"unit": row.unit, "place": row.place}
        pressure = service["pressure"]
        self.tables["place"].append(
            {
                **key,
                "kind": row.kind,
                "description": row.description,
                "motion": row.motion or None,
                "medium": row.medium or None,
                "pressure": pressure.text if pressure else None,
                "gauge_pressure_mpa": pressure.gauge_mpa if pressure else None,
                "pressure_from": row.pressure_from or None,
                "back_up_rings": row.back_up_rings,
                "metal": row.metal or None,
                "notes": row.notes or None,
            }
        )
        for position, fluid in enumerate(dict.fromkeys(service["fluid"]), start=1):
            self.tables["place_fluid"].append({**key, "fluid": fluid, "position": position})
        for name, text in texts.items():
            self.tables["place_dimension"].append(key | _dimension_record(name, text, found[name]))

    def rebuild_list(self) -> None:
        for line in self.rebuild_sheet.lines:
            row = line.row
            self._refer(line, "place", folded([row.unit, row.place]), self.place_sheet.keys, "places.csv")
            self._refer(line, "part_number", folded([row.part_number]), self.part_sheet.keys, "parts.csv")
            self.tables["rebuild_list"].append(row.model_dump())

    # -- what they share ---------------------------------------------------------------------------

    def _grouped(
        self,
        lines: Iterable[Line[Any]],
        key: tuple[str, ...],
        known: Keys,
        sheet: str,
    ) -> dict[tuple[str, ...], dict[str, Line[Any]]]:
        """Dimension lines by the part or place they belong to, then by the dimension's name."""
        groups: dict[tuple[str, ...], dict[str, Line[Any]]] = {}
        for line in lines:
            owner = folded(getattr(line.row, column) for column in key)
            if self._refer(line, key[-1], owner, known, sheet):
                groups.setdefault(owner, {})[line.row.dimension] = line
        return groups

    def _refer(
        self,
        line: Line[Any],
        column: str,
        key: tuple[str, ...],
        known: Keys,
        sheet: str,
    ) -> bool:
        """Whether what this cell names is a row of the other sheet."""
        if key in known:
            return True
        row = line.row
        name = f"{row.unit}/{row.place}" if column == "place" else str(getattr(row, column))
        near = nearest(name, known.values())
        told = f"; near: {', '.join(near)}" if near else ""
        self._add(line.error(column, f"{name} is not in {sheet}", f"add it there, or correct it{told}"))
        return False

    def _built(
        self, build: Callable[[], object], line: Line[Any], own: Mapping[str, Line[Any]]
    ) -> Mapping[str, Any] | None:
        """What ``schema`` builds from the texts; None, with every error at its own cell, if it refuses."""
        try:
            return vars(build())
        except InputErrors as several:
            errors = several.errors
        except InputError as error:
            errors = [error]
        for one in errors:
            field = one.field.rpartition(".")[2]
            at, column = (own[field], "text") if field in own else (line, _COLUMN_OF.get(field, field))
            if column not in type(at.row).model_fields:
                # a dimension that is missing altogether is told at its part or place
                ring = isinstance(at.row, PartRow) and at.row.kind != BackUpRing.kind
                column = "size_code" if ring else str(next(iter(type(at.row).model_fields)))
                one = InputError(
                    field=field,
                    given="",
                    problem=f"{field} {one.problem}",
                    allowed="a row for it in the sheet of dimensions" + (", or a size code" if ring else ""),
                    example=one.example,
                )
            self._add(_cell(at, column, one))
        return None

    def _lengths(self, own: Mapping[str, Line[Any]]) -> Mapping[str, Any] | None:
        """The dimensions of a kind that has no model yet, each read by itself."""
        found: dict[str, Dimension | str] = {}
        for name, line in own.items():
            try:
                text = line.row.text
                found[name] = text if name in THREADS else parse_dimension(text, field=name)
            except InputError as error:
                self._add(_cell(line, "text", error))
        return found if len(found) == len(own) else None

    def _known(self, own: Mapping[str, Line[Any]], known: tuple[str, ...]) -> dict[str, Line[Any]]:
        """The dimension lines whose names this kind of part or place has; the others are errors."""
        for name, line in own.items():
            if name not in known:
                near = nearest(name, known)
                told = f"one of {', '.join(known)}" + (f"; near: {', '.join(near)}" if near else "")
                self._add(line.error("dimension", "there is no such dimension here", told))
        return {name: line for name, line in own.items() if name in known}

    def _add(self, error: CellError) -> None:
        self.errors.append(error)


def _dimensions_of(model: type[Model]) -> tuple[str, ...]:
    """The fields of a model that are lengths or finishes."""
    fields = model.declared.items()
    return tuple(name for name, one in fields if meaning_of(one).kind in ("length", "roughness"))


# Fields of the models whose column has another name.
_COLUMN_OF = {"size": "size_code", "code": "size_code"}


def _cell(line: Line[Any], column: str, error: InputError) -> CellError:
    action = error.allowed + (f", for example {error.example}" if error.example else "")
    if isinstance(error, UnknownName) and error.nearest:
        action += f"; near: {', '.join(error.nearest)}"
    return line.error(column, error.problem, action.removeprefix(", "))


def _dimension_record(name: str, text: str, value: object) -> Record:
    """The columns of a dimension: a length has its limits in mm, any other text stands alone."""
    size = value if isinstance(value, Dimension) else None
    other = "thread" if name in THREADS else "roughness"
    assert size is not None or name in (*THREADS, *ROUGHNESS), name
    return {
        "dimension": name,
        "text": text,
        "quantity": "length" if size else other,
        "nominal_mm": float(size.nominal) if size else None,
        "lower_mm": float(size.lower) if size else None,
        "upper_mm": float(size.upper) if size else None,
        "origin": size.origin.value if size else "drawn",
        "standard_uncertainty_mm": float(size.standard_uncertainty) if size and size.measured else None,
        "tolerance_class": (size.tolerance_class or None) if size else None,
    }
