"""How the fields of parts, places and services are read from texts, each described once.

A model is a standard frozen dataclass; each field carries in its metadata what it means, an example
and the function that reads it. The same description serves the command's options, a question file,
the catalogue and the published JSON Schema, so that no two of them can disagree.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any, NamedTuple, TypeVar

from schema.dimension import Dimension, parse_dimension
from schema.errors import BorebookError, InputError, InputErrors
from schema.model import REQUIRED, Field, Model
from schema.nearest import not_among
from schema.notation import LONGEST_TEXT, normalised
from schema.units import gauge_pressure_mpa, temperature_deg_c

Anything = TypeVar("Anything")
AnyModel = TypeVar("AnyModel", bound=Model)
Reader = Callable[[Any, str], Any]


class Meaning(NamedTuple):
    """What a field is: words for people, an example text, its kind for the JSON Schema, its reader."""

    doc: str
    example: str
    kind: str
    read: Reader
    allowed: tuple[str, ...] = ()
    measured_on: str = ""


def meaning_of(field: Field) -> Meaning:
    """The meaning a model's field was declared with."""
    meaning: Meaning = field.meaning
    return meaning


def field_of(meaning: Meaning, default: Any) -> Any:
    return Field(default, meaning)


def length(
    doc: str,
    example: str,
    *,
    required: bool = False,
    allow_zero: bool = False,
    measured_on: str = "outside",
    largest_mm: float = 700.0,
    limit: bool = False,
) -> Any:
    """A field that holds a Dimension, read in the notation of drawings.

    ``largest_mm`` refuses the absurd: AS568 ends at an inside diameter of 659 mm. A ``limit`` is what
    somebody allows, so that no measured value is one.
    """

    def read(value: Any, path: str) -> Dimension:
        if isinstance(value, Dimension):
            return value
        if not isinstance(value, str):
            raise InputError(
                field=path,
                given=value,
                problem="a length is given as a text with its unit",
                allowed="drawing notation",
                example=f'"{example}"',
            )
        found = parse_dimension(value, field=path, measured_on=measured_on, allow_zero=allow_zero)
        if limit:
            refuse_measured_limit(found.measured, value, path, example)
        if found.upper > Decimal(largest_mm):
            raise InputError(
                field=path,
                given=value,
                problem=f"{float(found.upper):g} mm is absurd here; is the unit right?",
                allowed=f"up to {largest_mm:g} mm",
                example=example,
            )
        return found

    meaning = Meaning(doc, example, "length", read, measured_on=measured_on)
    return field_of(meaning, REQUIRED if required else None)


def refuse_measured_limit(measured: bool, given: object, path: str, example: str) -> None:
    """Refuse a measured value where a limit is read: its uncertainty would be none of the limit's."""
    if measured:
        raise InputError(
            field=path,
            given=given,
            problem="a limit is a number or a range, not a measured value",
            allowed="what the maker allows, without ±U and without an instrument",
            example=example,
        )


def choice(doc: str, allowed: tuple[str, ...], *, default: str | None = REQUIRED) -> Any:
    """A field that holds one of a closed list of words."""

    def read(value: Any, path: str) -> str:
        word = str(value).strip().lower().replace("-", "_").replace(" ", "_")
        if word in allowed:
            return word
        raise not_among(allowed, field=path, given=value, problem="this is not one of the words it may be")

    return field_of(Meaning(doc, allowed[0], "choice", read, allowed), default)


def number(
    doc: str, example: str, *, low: float, high: float, default: Any = None, whole: bool = False
) -> Any:
    """A field that holds a plain number between two bounds, inclusive."""

    def read(value: Any, path: str) -> float | int:
        try:
            found = float(str(value).replace(",", ".").removesuffix("%").strip())
        except ValueError:
            found = math.nan
        if isinstance(value, bool) or not low <= found <= high or (whole and found != int(found)):
            raise InputError(
                field=path,
                given=value,
                problem="this is not a number it may be",
                allowed=f"{low:g} to {high:g}" + (", whole" if whole else ""),
                example=example,
            )
        return int(found) if whole else found

    return field_of(Meaning(doc, example, "whole number" if whole else "number", read), default)


def words(doc: str, example: str, *, default: str = "") -> Any:
    """A field that holds free text."""

    def read(value: Any, path: str) -> str:
        if isinstance(value, (dict, list)):
            raise InputError(field=path, given=value, problem="a text is expected", example=example)
        return str(value).strip()

    return field_of(Meaning(doc, example, "text", read), default)


def _as_written(value: str, path: str) -> str:
    return value


def listed(doc: str, example: str, read_one: Callable[[str, str], str] = _as_written) -> Any:
    """A field that holds several names, given as a list or as a text with ; or , between them."""

    def read(value: Any, path: str) -> tuple[str, ...]:
        parts = value if isinstance(value, (list, tuple)) else str(value).replace(",", ";").split(";")
        return tuple(read_one(str(part).strip(), path) for part in parts if str(part).strip())

    return field_of(Meaning(doc, example, "names", read), ())


class Pressure(NamedTuple):
    """A gauge pressure [MPa] and the text it was read from."""

    gauge_mpa: float
    text: str


class TemperatureRange(NamedTuple):
    """Lowest and highest temperature [degC] and the text they were read from."""

    low_deg_c: float
    high_deg_c: float
    text: str


def pressure(doc: str, example: str) -> Any:
    """A field that holds a gauge pressure."""

    def read(value: Any, path: str) -> Pressure:
        if isinstance(value, Pressure):
            return value
        text = normalised(str(value))
        size, unit = _number_and_unit(text)
        if re.match(r"\d{1,3}(,\d{3})+(?![\d,])", text):
            raise InputError(
                field=path,
                given=value,
                problem="the comma may be a decimal sign or may part thousands",
                allowed="a number without a comma",
                example="1000 psi",
            )
        if size is None or not unit:
            raise InputError(
                field=path,
                given=value,
                problem="a pressure is a number and its unit",
                allowed="MPa, kPa, bar, psi; gauge unless written bara or psia",
                example=example,
            )
        try:
            gauge = float(gauge_pressure_mpa(size, unit))
        except InputError as error:
            raise error.for_field(path) from None
        if not 0 <= gauge <= 100:
            raise InputError(
                field=path,
                given=value,
                problem=f"{gauge:g} MPa gauge is not a pressure a seal of a damper meets",
                allowed="0 to 100 MPa gauge",
                example=example,
            )
        return Pressure(gauge, str(value))

    return field_of(Meaning(doc, example, "pressure", read), None)


def temperature_range(doc: str, example: str) -> Any:
    """A field that holds a lowest and a highest temperature."""

    def read(value: Any, path: str) -> TemperatureRange:
        if isinstance(value, TemperatureRange):
            return value
        text = re.sub(r"\s+to\s+|\s*\.{2,}\s*", "..", normalised(str(value)))
        low_text, _, high_text = text.partition("..")
        high, unit = _number_and_unit(high_text or low_text)
        low, own_unit = _number_and_unit(low_text)
        if low is None or high is None or not unit:
            raise InputError(
                field=path,
                given=value,
                problem="a temperature range is two numbers and a unit",
                allowed="degC, degF, K",
                example=example,
            )
        try:
            ends = float(temperature_deg_c(low, own_unit or unit)), float(temperature_deg_c(high, unit))
        except InputError as error:
            raise error.for_field(path) from None
        if not -100 <= ends[0] <= ends[1] <= 350:
            reason = "the range is reversed" if ends[0] > ends[1] else "outside what any elastomer meets"
            raise InputError(
                field=path,
                given=value,
                problem=reason,
                allowed="-100 to 350 degC, low first",
                example=example,
            )
        return TemperatureRange(*ends, str(value))

    return field_of(Meaning(doc, example, "temperature range", read), None)


def roughness(doc: str, example: str) -> Any:
    """A field that holds a surface roughness Ra [um]."""
    factor = {"um": Decimal(1), "uin": Decimal("0.0254"), "nm": Decimal("0.001")}

    def read(value: Any, path: str) -> float:
        text = normalised(str(value)).replace("Ra", "").replace("ra", "").replace('u"', "uin").strip()
        size, unit = _number_and_unit(text)
        found = float(size * factor[unit]) if size is not None and unit in factor else -1.0
        if not 0 < found <= 50:
            raise InputError(
                field=path,
                given=value,
                problem="a roughness is a number and its unit",
                allowed="um or uin, Ra, up to 50 um",
                example=example,
            )
        return found

    return field_of(Meaning(doc, example, "roughness", read), None)


def _number_and_unit(text: str) -> tuple[Decimal | None, str]:
    """Split ``-10 degC`` into its number and its unit; (None, "") when there is no number."""
    body = text.strip()
    if len(body) > LONGEST_TEXT:
        return None, ""
    found = re.match(r"([+-]?\s?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(?![\d.,])(.*)", body, re.DOTALL)
    if found is None:
        return None, ""
    return Decimal(found[1].replace(",", ".").replace(" ", "")), found[2].strip()


def read_model(model: type[AnyModel], given: Mapping[str, Any], *, path: str) -> AnyModel:
    """Build a model from texts; every unusable or unknown field is told in one InputErrors."""
    fields = model.declared
    errors: list[InputError] = []
    values: dict[str, Any] = {}
    for written, value in given.items():
        name = written.replace("-", "_")
        if name not in fields:
            where = f"{path}.{written}"
            errors.append(not_among(fields, field=where, given=written, problem="there is no such field"))
        elif name in values:
            errors.append(InputError(field=f"{path}.{name}", given=value, problem="is given twice"))
        elif value is not None and value != "":
            try:
                values[name] = meaning_of(fields[name]).read(value, f"{path}.{name}")
            except InputErrors as several:
                errors.extend(several.errors)
            except InputError as error:
                errors.append(error)
    for name, field in fields.items():
        if field.default is REQUIRED and name not in values and not _complained(errors, path, name):
            meaning = meaning_of(field)
            problem = f"is missing ({meaning.doc})"
            errors.append(
                InputError(field=f"{path}.{name}", given="", problem=problem, example=meaning.example)
            )
    if errors:
        raise InputErrors(errors)
    try:
        return model(**values)
    except InputError as error:
        raise InputErrors([error]) from error


def _complained(errors: list[InputError], path: str, name: str) -> bool:
    return any(error.field == f"{path}.{name}" for error in errors)


def collect(action: Callable[[], Anything], errors: list[InputError]) -> Anything | None:
    """Run one reading; keep its errors in the list instead of raising, so that all are told at once."""
    try:
        return action()
    except InputErrors as several:
        errors.extend(several.errors)
    except InputError as error:
        errors.append(error)
    except BorebookError:
        raise
    return None
