"""Elastomers and fluids: ISO 1629 codes, temperature ranges, expansion, hardness, fluid ratings.

Ranges and ratings are of the family, not of a compound: the maker's data sheet leads. Where sources
differ, both ends are kept (narrow and wide range) and the difference ends in ``not proven``.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from schema.errors import UnknownName
from schema.nearest import nearest
from schema.tables import rows


class Material(NamedTuple):
    """A family of elastomers (ISO 1629) or a plastic (ISO 1043).

    Temperatures in degC; ``narrow`` is the range that every source read allows, ``wide`` the range that
    at least one allows. ``linear_expansion_per_k`` in 1/K near room temperature.
    """

    code: str
    name: str
    kind: str
    narrow_deg_c: tuple[float, float]
    wide_deg_c: tuple[float, float]
    temperature_source: str
    temperature_grade: str
    hardness: tuple[float, float]
    hardness_scale: str
    linear_expansion_per_k: float

    @property
    def in_words(self) -> str:
        """Name, temperatures that every source allows, usual hardness, linear expansion."""
        (cold, hot), (soft, hard) = self.narrow_deg_c, self.hardness
        return (
            f"{self.name}; {cold:g} to {hot:g} degC, {soft:g} to {hard:g} {self.hardness_scale}, "
            f"{self.linear_expansion_per_k:.2g} per K"
        )


class FluidRating(NamedTuple):
    """How a material stands a fluid: 1 suitable, 2 usually suitable, 3 short contact only, 4 unsuitable.

    ``use`` narrows it: static_only, or not_for_gas where the gas permeates. ``highest_deg_c`` is where the
    fluid's name, and so the rating, ends.
    """

    material: str
    fluid: str
    rating: int
    use: str
    grade: str
    source: str
    note: str
    highest_deg_c: float | None = None


@cache
def materials() -> dict[str, Material]:
    """All materials by code."""
    return {
        row["material"]: Material(
            code=row["material"],
            name=row["name"],
            kind=row["kind"],
            narrow_deg_c=(float(row["low_narrow_deg_c"]), float(row["high_narrow_deg_c"])),
            wide_deg_c=(float(row["low_wide_deg_c"]), float(row["high_wide_deg_c"])),
            temperature_source=row["temperature_source"],
            temperature_grade=row["temperature_grade"],
            hardness=(float(row["hardness_low"]), float(row["hardness_high"])),
            hardness_scale=row["hardness_scale"],
            linear_expansion_per_k=float(row["linear_expansion_per_k"]),
        )
        for row in rows("materials")
    }


@cache
def fluid_ratings() -> dict[tuple[str, str], FluidRating]:
    """All ratings by material and fluid."""
    ends = {row["fluid"]: float(row["highest_deg_c"]) for row in rows("fluids") if row["highest_deg_c"]}
    return {
        (row["material"], row["fluid"]): FluidRating(
            row["material"],
            row["fluid"],
            int(row["rating"]),
            row["use"],
            row["grade"],
            row["source"],
            row["note"],
            ends.get(row["fluid"]),
        )
        for row in rows("fluid_ratings")
    }


def is_gas(fluid: str) -> bool:
    """Whether a fluid, by its code, is a gas."""
    return any(row["fluid"] == fluid and row["state"] == "gas" for row in rows("fluids"))


def fluids() -> dict[str, str]:
    """All fluids: code to name."""
    return {row["fluid"]: row["name"] for row in rows("fluids")}


def fluids_in_words() -> dict[str, str]:
    """All fluids: code to name, with the other words that are understood."""
    found = {}
    for row in rows("fluids"):
        others = [one for one in row["spellings"].split(";") if one and "_" not in one]
        found[row["fluid"]] = row["name"] + (f"; also {', '.join(others)}" if others else "")
    return found


@cache
def _spellings(table: str, key: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for row in rows(table):
        for spelling in (row[key], row["name"], *row["spellings"].split(";")):
            if spelling:
                found[_plain(spelling)] = row[key]
    return found


def _plain(text: str) -> str:
    return " ".join(text.lower().replace("_", " ").replace("-", " ").split())


def material_code(text: str, *, field: str = "material") -> str:
    """The code of a material from any of its trade names.

    >>> material_code("nitrile")
    'NBR'
    """
    return _code(text, field, "materials", "material", "NBR")


def fluid_code(text: str, *, field: str = "fluid") -> str:
    """The code of a fluid from any of its trade names.

    >>> fluid_code("suspension oil")
    'mineral_oil'
    """
    return _code(text, field, "fluids", "fluid", "mineral_oil")


def _code(text: str, field: str, table: str, key: str, example: str) -> str:
    known = _spellings(table, key)
    found = known.get(_plain(text))
    if found is None:
        raise UnknownName(
            field=field,
            given=text,
            problem=f"this {key} is not known",
            allowed=", ".join(row[key] for row in rows(table)),
            example=example,
            nearest=nearest(_plain(text), known),
        )
    return found
