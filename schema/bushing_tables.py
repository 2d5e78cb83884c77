"""Published figures for bushings: wrapped sizes, classes of fit, expansion and stiffness of materials."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import NamedTuple

from schema.errors import ToleranceClassError
from schema.iso286 import tolerance_zone
from schema.tables import rows


class Figure(NamedTuple):
    """A published figure with its range and where it comes from."""

    low: float
    middle: float
    high: float
    unit: str
    source: str
    grade: str
    note: str = ""


class Expansion(NamedTuple):
    """Linear expansion of a family of materials [1/K], over the sources read."""

    family: str
    name: str
    low: float
    middle: float
    high: float
    source: str
    grade: str


class Elastic(NamedTuple):
    """Young's modulus [MPa] and Poisson's ratio of a family: smallest, usual, largest in print."""

    modulus: tuple[float, float, float]
    poisson: tuple[float, float, float]
    source: str
    grade: str


class FitRow(NamedTuple):
    """Classes of fit for a kind of bushing: housing, shaft from tightest to loosest, bore as fitted."""

    housing: str
    shaft_tightest: str
    shaft_loosest: str
    bore_fitted: str
    source: str
    grade: str


class Band(NamedTuple):
    """A published band of a length [mm] with its source."""

    low: float
    high: float
    name: str
    source: str
    grade: str


@cache
def figure(name: str) -> Figure:
    """One figure by name."""
    row = next(row for row in rows("bushing_figures") if row["figure"] == name)
    ends = float(row["low"]), float(row["middle"]), float(row["high"])
    return Figure(*ends, row["unit"], f"{row['source']}: {row['locator']}", row["grade"], row["note"])


@cache
def expansions() -> dict[str, Expansion]:
    """Expansion of every family."""
    return {
        row["family"]: Expansion(
            row["family"],
            row["name"],
            float(row["expansion_low_per_k"]),
            float(row["expansion_per_k"]),
            float(row["expansion_high_per_k"]),
            row["source"],
            row["grade"],
        )
        for row in rows("bushing_materials")
    }


@cache
def elastic_constants() -> dict[str, Elastic]:
    """Stiffness of the families for which it was read."""
    return {
        row["family"]: Elastic(
            (float(row["modulus_low_mpa"]), float(row["modulus_mpa"]), float(row["modulus_high_mpa"])),
            (float(row["poisson_low"]), float(row["poisson"]), float(row["poisson_high"])),
            f"{row['source']}, {row['locator']}",
            row["grade"],
        )
        for row in rows("elastic_constants")
    }


@cache
def family_of_material(text: str) -> str:
    """The family of a material told in words, "" where none is named; the longest spelling decides.

    >>> [family_of_material(text) for text in ("sintered bronze, oil filled", "POM", "oak")]
    ['sintered_bronze', 'POM', '']
    """
    told = f" {' '.join(text.lower().replace('-', ' ').replace('_', ' ').replace(',', ' ').split())} "
    found = ("", "")
    for row in rows("bushing_materials"):
        for spelling in row["spellings"].split(";"):
            if f" {spelling} " in told and len(spelling) > len(found[0]):
                found = (spelling, row["family"])
    return found[1]


@cache
def fit_row(series: str, inside_mm: Decimal, outside_mm: Decimal) -> FitRow | None:
    """The classes of fit of a series at a size, a step including its end; None where there are none.

    ``series`` is wrapped, wrapped_metal, sintered or solid.
    """
    for row in rows("bushing_fits"):
        size = inside_mm if row["diameter"] == "inside" else outside_mm
        if row["series"] == series and Decimal(row["over_mm"]) < size <= Decimal(row["up_to_mm"]):
            return FitRow(
                row["housing"],
                row["shaft_tightest"],
                row["shaft_loosest"],
                row["bore_fitted"],
                f"{row['source']}: {row['locator']}",
                row["grade"],
            )
    return None


class Wall(NamedTuple):
    """Limits of the wall of a wrapped bushing [mm]."""

    low: Decimal
    high: Decimal
    source: str
    grade: str


@cache
def published_wall(inside_mm: Decimal, outside_mm: Decimal) -> Wall | None:
    """The wall of a wrapped bushing of a nominal size: its row, or that of the printed sizes beside it.

    A wall taken from a neighbour is graded derived: the next printed size above or below has the same wall,
    and no other outside diameter is printed for this bore.
    """
    table = rows("wrapped_bushings")
    for row in table:
        if Decimal(row["inside_mm"]) == inside_mm:
            same = Decimal(row["outside_mm"]) == outside_mm
            return _wall(row, row["grade"]) if same else None
    printed = {Decimal(row["inside_mm"]): row for row in table if row["grade"] != "from_memory"}
    below = max((size for size in printed if size < inside_mm), default=None)
    above = min((size for size in printed if size > inside_mm), default=None)
    if below is None or above is None:
        return None
    for row in (printed[below], printed[above]):
        if Decimal(row["outside_mm"]) - Decimal(row["inside_mm"]) == outside_mm - inside_mm:
            return _wall(row, "derived")
    return None


def _wall(row: dict[str, str], grade: str) -> Wall:
    source = f"{row['source']}: {row['locator']}"
    return Wall(Decimal(row["wall_min_mm"]), Decimal(row["wall_max_mm"]), source, grade)


@cache
def wrapped_clearance(inside_mm: Decimal, outside_mm: Decimal) -> Band | None:
    """Running clearance of a wrapped bushing as its maker's table has it; None where no row leads to it.

    Equation   low = H_min - 2 w_max - d_max, high = H_max - 2 w_min - d_min
    Symbols    H  housing of its class; w  wall; d  shaft of its class  [mm]
    Source     reproduces every printed row from ISO 286-1 and the wall limits

    >>> band = wrapped_clearance(Decimal(12), Decimal(14))
    >>> band.low, band.high
    (0.006, 0.092)
    """
    wall = published_wall(inside_mm, outside_mm)
    row = fit_row("wrapped", inside_mm, outside_mm)
    if wall is None or row is None:
        return None
    housing = tolerance_zone(row.housing, outside_mm)
    shaft = tolerance_zone(row.shaft_tightest, inside_mm)
    return Band(
        float(housing.lower_limit_mm - 2 * wall.high - shaft.upper_limit_mm),
        float(housing.upper_limit_mm - 2 * wall.low - shaft.lower_limit_mm),
        f"{inside_mm.normalize():f} x {outside_mm.normalize():f} wrapped, {row.housing}/{row.shaft_tightest}",
        wall.source,
        wall.grade,
    )


@cache
def fitted_clearance(series: str, inside_mm: Decimal, outside_mm: Decimal) -> Band | None:
    """Running clearance from the classes of bore as fitted and shaft; None where a class is not given."""
    row = fit_row(series, inside_mm, outside_mm)
    if row is None or not (row.bore_fitted and row.shaft_tightest):
        return None
    try:
        bore = tolerance_zone(row.bore_fitted, inside_mm)
        tight = tolerance_zone(row.shaft_tightest, inside_mm)
        loose = tolerance_zone(row.shaft_loosest, inside_mm)
    except ToleranceClassError:
        return None
    return Band(
        float(bore.lower_um - tight.upper_um) / 1000.0,
        float(bore.upper_um - loose.lower_um) / 1000.0,
        f"{row.bore_fitted} as fitted, {row.shaft_loosest} to {row.shaft_tightest}",
        row.source,
        row.grade,
    )


@cache
def class_band(designation: str, size_mm: Decimal, source: str, grade: str) -> Band:
    """Limits of size of a tolerance class, with the source that asks for it."""
    zone = tolerance_zone(designation, size_mm)
    name = f"{size_mm.normalize():f} {designation}"
    return Band(float(zone.lower_limit_mm), float(zone.upper_limit_mm), name, source, grade)


@cache
def largest_wrapped_outside(outside_mm: Decimal) -> Band | None:
    """The printed limits of the outside diameter of a wrapped bushing, as sizes; None beyond the table."""
    for row in rows("wrapped_outside_diameters"):
        if Decimal(row["over_mm"]) < outside_mm <= Decimal(row["up_to_mm"]):
            low, high = (float(outside_mm) + float(row[end]) / 1000.0 for end in ("lower_um", "upper_um"))
            return Band(low, high, "outside diameter", f"{row['source']}: {row['locator']}", row["grade"])
    return None
