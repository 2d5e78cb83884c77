"""Builds the unit that a file describes, with the parts it names from the catalogue; all faults at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from catalogue.faults import Fault, UnitFileErrors
from catalogue.unit_files.reading import UnitFile, read_unit_file
from catalogue.unit_files.shape import NOT_WRITTEN, Texts
from catalogue.unit_files.stock import Stock, stock_at
from schema.errors import InputError, InputErrors, UnknownName
from schema.unit import Unit, unit_from


class Built(NamedTuple):
    """A unit with the texts it was built of, those of the parts it names among them.

    ``unit`` is None where a fault stands in the way. ``faults_of_stock`` are those of parts that the file
    only names: told where it names them.
    """

    unit: Unit | None
    texts: Texts
    faults: tuple[Fault, ...]
    faults_of_stock: tuple[Fault, ...] = ()


def named_parts(texts: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Every part number that a unit names, with the path where it stands.

    >>> list(named_parts({"oil": "A", "places": {"cap": {"parts": ["B", {"part": "C", "quantity": "2"}]}}}))
    [('oil', 'A'), ('places.cap.parts.0', 'B'), ('places.cap.parts.1.part', 'C')]
    """
    if texts.get("oil"):
        yield "oil", texts["oil"]
    for label, number in texts.get("shafts", {}).items():
        yield f"shafts.{label}", number
    for name, place in texts.get("places", {}).items():
        for at, one in enumerate(place.get("parts", ())):
            path = f"places.{name}.parts.{at}"
            if isinstance(one, str):
                yield path, one
            elif "part" in one:
                yield f"{path}.part", one["part"]


def built(file: UnitFile, stock: Stock) -> Built:
    """Build the unit of a file; its faults are those of the file and those of every text in it."""
    if file.faults and not file.texts:  # nothing could be read: what else is missing is no news
        return Built(None, file.texts, file.faults)
    faults = [*file.faults]
    errors = [*_missing_names(file), *_told_by_shape(file)]
    own: Mapping[str, Any] = file.texts.get("parts", {})
    folded = {number.lower() for number in own}
    parts: Texts = dict(own)
    named: dict[str, str] = {}  # where a part of the stock is named first
    for path, number in named_parts(file.texts):
        if number.lower() in folded:
            continue
        found = stock.texts(number)
        if found is None:
            errors.append(_unknown(path, number, stock))
        else:
            folded.add(number.lower())
            parts[number] = found
            named[f"parts.{number}"] = path
    texts = {**file.texts, "parts": parts}
    unit: Unit | None = None
    of_stock: list[Fault] = []
    try:
        unit = unit_from(texts)
    except InputErrors as several:
        told = {error.field for error in errors}
        for error in several.errors:
            at = next((part for part in named if f"{error.field}.".startswith(f"{part}.")), "")
            if at:
                of_stock.append(file.fault(_of_stock(error, at, named[at], stock)))
            elif error.field not in told:
                errors.append(error)
    faults += [file.fault(error) for error in errors]
    return Built(None if faults or of_stock else unit, texts, tuple(faults), tuple(of_stock))


def unit_file_texts(path: Path, catalogue: Path | None = None) -> Texts:
    """The texts of a unit file with those of every part that it names, for ``schema.unit.unit_from``.

    Raises UnitFileErrors with every fault.
    """
    file = read_unit_file(path)
    with stock_at(catalogue) as stock:
        found = built(file, stock)
    if found.unit is None:
        raise UnitFileErrors([*found.faults, *found.faults_of_stock])
    return found.texts


def _of_stock(error: InputError, part: str, named_at: str, stock: Stock) -> InputError:
    """An error of a part that the file only names, told where it names it."""
    number, field = part.removeprefix("parts."), error.field.removeprefix(part).lstrip(".")
    return InputError(
        field=named_at,
        given=error.given,
        problem=f"{number} as {stock.words} has it cannot be used: {field} {error.problem}",
        allowed=f"mend it in {stock.words}, or describe it under parts",
    )


def _missing_names(file: UnitFile) -> Iterator[InputError]:
    texts = file.texts
    for name, meaning in (("unit", "name of the unit"), ("kind", "what kind of unit it is")):
        if name not in texts and not any(fault.path == name for fault in file.faults) and texts:
            example = "whinchat-216" if name == "unit" else "coil_shock"
            yield InputError(field=name, given="", problem=f"is missing ({meaning})", example=example)
    if "/" in texts.get("unit", ""):
        mend = "use a dash; unit/place is how a place is asked for"
        yield InputError(field="unit", given=texts["unit"], problem="a name has no / in it", allowed=mend)


def _told_by_shape(file: UnitFile) -> Iterator[InputError]:
    """Fields that the place of an entry in the file tells already."""
    for section in ("places", "parts"):
        for name, texts in file.texts.get(section, {}).items():
            for field in NOT_WRITTEN:
                if field in texts:
                    yield InputError(
                        field=f"{section}.{name}.{field}",
                        given=texts[field],
                        problem="there is no such field: the name above it tells it",
                        allowed="take it out",
                    )


def _unknown(path: str, number: str, stock: Stock) -> UnknownName:
    return UnknownName(
        field=path,
        given=number,
        problem=f"this part is not in {stock.words} and the file does not describe it",
        allowed="describe it under parts, or correct the number",
        nearest=stock.nearest(number),
    )
