"""Rings and grooves of DIN 471, DIN 472, DIN 6799 and GB 895-86, each row held to its own geometry.

A public table may hold a ring that is thicker than its groove; so every row is tried when it is asked for,
and a row that contradicts itself is a TableError, never an answer.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from schema.errors import TableError
from schema.tables import rows

BORE_TABLE, SHAFT_TABLE = "din472", "din471"
LAND_PER_DEPTH = 3.0  # n is 3 t rounded to 0.1 mm in every row read
_STEP = 0.1 + 1e-9


class FlatRing(NamedTuple):
    """One size of DIN 471 (shaft) or DIN 472 (bore) with its groove [mm]; loads [N] without any factor.

    ``groove_load_n`` is FN at a yield of 200 MPa; ``ring_load_n`` is FR against a sharp corner and
    ``chamfered_load_n`` FRg against a corner broken by ``chamfer``. None where nothing is printed.
    """

    table: str
    size: float
    thickness: tuple[float, float]
    free: tuple[float, float]
    groove: tuple[float, float]
    width: tuple[float, float]
    depth: float
    land: float
    groove_load_n: float | None
    ring_load_n: float | None
    chamfer: float | None
    chamfered_load_n: float | None
    sources: dict[str, str]
    grades: dict[str, str]
    note: str

    @property
    def is_bore(self) -> bool:
        """Whether the ring sits in a bore."""
        return self.table == BORE_TABLE

    @property
    def name(self) -> str:
        """How the standard names it."""
        return f"{STANDARD_NAMES[self.table]} - {self.size:g}"


class EClip(NamedTuple):
    """One size of DIN 6799 [mm]; its size is the diameter of its groove."""

    size: float
    shaft: tuple[float, float]
    thickness: float
    source: str
    grade: str


class WireRing(NamedTuple):
    """One size of GB 895.1 (bores) or GB 895.2 (shafts) of 1986 with its groove [mm]; no load is printed."""

    style: str
    size: float
    wire: float
    free: tuple[float, float]
    groove: tuple[float, float]
    groove_radius: float
    source: str
    grade: str
    note: str


STANDARD_NAMES = {SHAFT_TABLE: "DIN 471", BORE_TABLE: "DIN 472"}
_GROUPS = ("thickness", "free", "groove", "width", "load")


@cache
def flat_ring(table: str, size: float) -> FlatRing | None:
    """The row of a size; None where the table has none. Raises TableError for a row that cannot be."""
    row = _by_size(table).get(size)
    return None if row is None else _flat_ring(table, row)


def sizes(table: str) -> tuple[float, ...]:
    """All sizes of a table [mm], ascending."""
    return tuple(sorted(_by_size(table)))


@cache
def sizes_of(style: str) -> tuple[float, ...]:
    """All listed sizes [mm] of rings of a style, ascending; () for a style of no list."""
    table = {"bore_ring": BORE_TABLE, "shaft_ring": SHAFT_TABLE, "e_clip": "din6799"}.get(style)
    if table is not None:
        return sizes(table)
    return tuple(sorted(float(row["size_mm"]) for row in rows("gb895") if row["style"] == style))


@cache
def e_clip(size: float) -> EClip | None:
    """The E-clip of a size; None where there is none."""
    row = _by_size("din6799").get(size)
    if row is None:
        return None
    return EClip(
        size,
        (float(row["shaft_min_mm"]), float(row["shaft_max_mm"])),
        float(row["thickness_mm"]),
        f"DIN 6799, size {size:g}: {cited(row['sources'])}",
        row["grade"],
    )


@cache
def wire_ring(style: str, size: float) -> WireRing | None:
    """The round-wire ring of a style and size; None where there is none."""
    for row in rows("gb895"):
        if row["style"] == style and float(row["size_mm"]) == size:
            return _wire_ring(row)
    return None


@cache
def cited(keys: str) -> str:
    """The lists behind the keys of a cell group, in words."""
    known = {row["key"]: row["source"] for row in rows("ring_table_keys")}
    return "; ".join(known[key] for key in keys)


@cache
def _by_size(table: str) -> dict[float, dict[str, str]]:
    return {float(row["size_mm"]): row for row in rows(table)}


def _flat_ring(table: str, row: dict[str, str]) -> FlatRing:
    value = {name: float(text) for name, text in row.items() if name.endswith("_mm") and text}
    load = {name: 1000.0 * float(text) for name, text in row.items() if name.endswith("_kn") and text}
    made = FlatRing(
        table,
        value["size_mm"],
        (_sum(value, "thickness", "lower"), value["thickness_mm"]),
        (_sum(value, "free", "lower"), _sum(value, "free", "upper")),
        (_sum(value, "groove", "lower"), _sum(value, "groove", "upper")),
        (value["width_mm"], _sum(value, "width", "upper")),
        value["depth_mm"],
        value["land_mm"],
        load.get("groove_load_kn"),
        load.get("ring_load_kn"),
        value.get("chamfer_mm"),
        load.get("chamfered_load_kn"),
        {group: row[f"{group}_sources"] for group in _GROUPS},
        {group: row[f"{group}_grade"] for group in (*_GROUPS, "land")},
        row["note"],
    )
    problem = impossible(made, value["groove_mm"])
    if problem:
        raise TableError(f"{table}.csv, size {made.size:g}: {problem}")
    return made


def _sum(value: dict[str, float], name: str, end: str) -> float:
    return round(value[f"{name}_mm"] + value[f"{name}_{end}_mm"], 6)


def impossible(ring: FlatRing, groove_mm: float) -> str:
    """Why a row cannot be right by its own numbers; "" where it can. ``groove_mm`` is the nominal groove."""
    if ring.thickness[1] >= ring.width[0]:
        return f"a ring up to {ring.thickness[1]:g} mm thick does not enter a {ring.width[0]:g} mm groove"
    if (groove_mm > ring.size) is not ring.is_bore:
        return f"a groove of {groove_mm:g} mm lies on the wrong side of {ring.size:g} mm"
    depth = abs(groove_mm - ring.size) / 2
    if abs(depth - ring.depth) > 1e-6:
        return f"depth {ring.depth:g} mm is not half the difference of the diameters ({depth:g} mm)"
    if abs(ring.land - LAND_PER_DEPTH * ring.depth) > _STEP:
        return f"land {ring.land:g} mm is not about three depths of {ring.depth:g} mm"
    tight = ring.free[0] - ring.groove[1] if ring.is_bore else ring.groove[0] - ring.free[1]
    return "" if tight > 0 else f"the free ring is loose in its groove by {-tight:.3f} mm"


def _wire_ring(row: dict[str, str]) -> WireRing:
    value = {name: float(text) for name, text in row.items() if name.endswith("_mm") and text}
    return WireRing(
        row["style"],
        value["size_mm"],
        value["wire_mm"],
        (_sum(value, "free", "lower"), _sum(value, "free", "upper")),
        (_sum(value, "groove", "lower"), _sum(value, "groove", "upper")),
        value["groove_radius_mm"],
        f"{row['source']}: {row['locator']}",
        row["grade"],
        row["note"],
    )


class RingLimit(NamedTuple):
    """A limit that holds for every ring, with the limit of refusal where one is known."""

    low: float
    refuse_low: float | None
    unit: str
    source: str
    grade: str
    refuse_source: str
    refuse_grade: str
    note: str


@cache
def ring_limits() -> dict[str, RingLimit]:
    """The limits of ``published/retaining_ring_limits.csv`` by rule."""
    return {
        row["rule"]: RingLimit(
            float(row["low"]),
            float(row["refuse_low"]) if row["refuse_low"] else None,
            row["unit"],
            f"{row['source']} ({row['locator']})",
            row["grade"],
            row["refuse_source"],
            row["refuse_grade"],
            row["note"],
        )
        for row in rows("retaining_ring_limits")
    }
