"""The rows of the two sheets of a workshop's parts, validated cell by cell with pydantic at the file's edge.

Only reading sheets imports this module: pydantic costs more than a whole check.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Generic, TypeVar

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    TypeAdapter,
    ValidationError,
)
from pydantic_core import PydanticCustomError

from catalogue.sheet_errors import CellError
from schema.kinds import PARTS
from schema.nearest import nearest


def _one_of(words: tuple[str, ...]) -> AfterValidator:
    def read(text: str) -> str:
        if text in words:
            return text
        near = nearest(text, words)
        raise PydanticCustomError(
            "word",
            "this is not one of the words it may be",
            {"action": f"one of {', '.join(words)}" + (f"; near: {', '.join(near)}" if near else "")},
        )

    return AfterValidator(read)


def _given(text: str) -> str:
    if not text:
        raise PydanticCustomError("empty", "nothing is given", {"action": "give it, or take the row out"})
    return text


Given = Annotated[str, AfterValidator(_given)]
DimensionName = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]


class SheetRow(BaseModel):
    """What every row of a sheet keeps to: the columns it names, no others, no spaces around."""

    model_config = ConfigDict(extra="forbid", frozen=True, str_strip_whitespace=True, allow_inf_nan=False)


class PartRow(SheetRow):
    """One part."""

    part_number: Given
    kind: Annotated[str, _one_of(tuple(PARTS))]
    description: str
    maker: str
    material: str
    hardness_shore_a: str
    size_code: str
    superseded_by: str
    notes: str


class PartDimensionRow(SheetRow):
    """One field of a part, by its name in the part's model, as its drawing or maker writes it."""

    part_number: Given
    dimension: DimensionName
    text: Given


Row = TypeVar("Row", bound=SheetRow)
Keys = Mapping[tuple[str, ...], str]  # the key of a row as the catalogue compares it, and as it is written


@dataclass(frozen=True, slots=True)
class Line(Generic[Row]):
    """A valid row and where it stands in its file."""

    file: str
    number: int
    row: Row

    def error(self, column: str, reason: str, action: str = "", *, value: object = None) -> CellError:
        """What is wrong with one cell of this row; its own value, unless another is told."""
        own = getattr(self.row, column, "") if value is None else value
        return CellError(self.file, self.number, column, "" if own is None else str(own), reason, action)


@dataclass(frozen=True, slots=True)
class Sheet(Generic[Row]):
    """The valid rows of one file, and the keys of all its rows, also of those that are not valid."""

    lines: tuple[Line[Row], ...]
    keys: Keys


def read_sheet(path: Path, model: type[Row], *, key: tuple[str, ...], errors: list[CellError]) -> Sheet[Row]:
    """Read one CSV file (UTF-8, comma, header row); what cannot be used goes to ``errors``.

    ``key`` names the columns that together name a row; a second row with the same key is an error.
    """
    columns = tuple(model.model_fields)
    text = _text(path, columns, errors)
    adapter = TypeAdapter(model)
    lines: list[Line[Row]] = []
    seen: dict[tuple[str, ...], int] = {}
    keys: dict[tuple[str, ...], str] = {}
    for number, cells in text:
        if len(cells) != len(columns):
            errors.append(
                CellError(
                    path.name,
                    number,
                    columns[min(len(cells), len(columns) - 1)],
                    "",
                    f"{len(columns)} columns are expected, {len(cells)} are here",
                    'put texts that hold a comma between quotes: "12,68 mm"',
                )
            )
            continue
        values = dict(zip(columns, cells, strict=True))
        name = folded(values[column].strip() for column in key)
        if first := seen.get(name):
            told = f"line {first} has the same {' and '.join(key)}"
            errors.append(
                CellError(path.name, number, key[-1], values[key[-1]], told, "keep one of the two rows")
            )
            continue
        seen[name] = number
        keys[name] = "/".join(values[column].strip() for column in key)
        try:
            lines.append(Line(path.name, number, adapter.validate_python(values)))
        except ValidationError as error:
            errors.extend(_cell_errors(error, path.name, number, values))
    return Sheet(tuple(lines), keys)


def folded(names: Iterable[str]) -> tuple[str, ...]:
    """Names as the catalogue compares them: without regard to case."""
    return tuple(name.lower() for name in names)


def _text(path: Path, columns: tuple[str, ...], errors: list[CellError]) -> list[tuple[int, list[str]]]:
    """Line number and cells of every row below the header; [] when the file cannot be read at all."""

    def refuse(column: str, value: str, reason: str, action: str, *, line: int = 1) -> None:
        errors.append(CellError(path.name, line, column, value, reason, action))

    try:
        content = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        refuse(
            "all", "", f"the file cannot be read: {error.strerror}", "put it into the folder with the others"
        )
        return []
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        refuse("all", "", "this is not UTF-8 text", "save the sheet as CSV UTF-8", line=line)
        return []
    reader = csv.reader(io.StringIO(content, newline=""), strict=True)
    found: list[tuple[int, list[str]]] = []
    try:
        header = [name.strip() for name in next(reader, [])]
        for name in header:
            if name not in columns:
                near = nearest(name, columns)
                told = f"; near: {', '.join(near)}" if near else ""
                refuse(name, "", "there is no such column", f"one of {', '.join(columns)}{told}")
        for name in columns:
            if header.count(name) != 1:
                refuse(name, "", "this column must be there once", f"header: {','.join(columns)}")
        if sorted(header) != sorted(columns):
            return []
        order = [header.index(name) for name in columns]
        start = reader.line_num + 1
        for cells in reader:
            if any(cell.strip() for cell in cells):
                full = len(cells) == len(columns)
                found.append((start, [cells[at] for at in order] if full else cells))
            start = reader.line_num + 1
    except csv.Error as error:
        refuse(
            "all", "", f"this is not CSV: {error}", "close every quote that is opened", line=reader.line_num
        )
        return []
    return found


# pydantic's kinds of error in the words of a person at a sheet: what is wrong, what to do.
_WORDS = {
    "string_pattern_mismatch": (
        "a field is not named so",
        "small letters with _ between words, such as groove_width",
    ),
}


def _cell_errors(error: ValidationError, file: str, line: int, values: Mapping[str, str]) -> list[CellError]:
    found = []
    for one in error.errors(include_url=False, include_input=False):
        column = str(one["loc"][0])
        reason, advice = _WORDS.get(one["type"], (one["msg"], "{action}"))
        action = advice.format_map({"action": "", **one.get("ctx", {})})
        found.append(CellError(file, line, column, values.get(column, ""), reason, action))
    return found
