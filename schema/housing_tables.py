"""A workshop's own copy of a table of housings: seats, grooves and glands of a standard or a maker.

The housing tables of ISO 5597, 6195, 7425 and 10766 are not shipped, since none could be read. A workshop
that owns one writes its rows into a CSV file of this shape, each with its source; a seat or groove that names
the standard is then judged against its row. Columns, in any order; those marked * are required:

    standard*          ISO 6195
    type               B, or the maker's series; "" where the standard has one type only
    edition            2021
    place*             wiper_seat, guide_ring_groove, rod_gland or piston_gland
    side*              rod or piston: which of the two the diameters are of
    diameter_from_mm*  smallest rod or bore of the row, inclusive
    diameter_to_mm*    largest; the same again for a row of one size
    housing_bore, seat_depth, groove_diameter, groove_width, land_diameter
                       drawing notation in mm (22 H11; 4.0 +0.2/0), or from the rod d or the bore D with
                       its tolerance (d+6 H11; D-5 h8); at least one
    gap_max_mm         largest radial gap beside a guide ring
    radius_max_mm, lead_in_min_mm
    source*, locator*  the document as bought, and its table and row
    note

Lines that begin with # are left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from schema.dimension import Dimension, parse_dimension
from schema.errors import InputError, InputErrors
from schema.nearest import not_among

PLACES = ("wiper_seat", "guide_ring_groove", "rod_gland", "piston_gland")
SIDES = ("rod", "piston")
_LETTERS = {"rod": "d", "piston": "D"}  # rod, and bore that a piston runs in
SIZES = ("housing_bore", "seat_depth", "groove_diameter", "groove_width", "land_diameter")
NUMBERS = ("gap_max_mm", "radius_max_mm", "lead_in_min_mm")
REQUIRED = ("standard", "place", "side", "diameter_from_mm", "diameter_to_mm", "source", "locator")
COLUMNS = (*REQUIRED, "type", "edition", *SIZES, *NUMBERS, "note")

_RELATIVE = re.compile(r"([dD])\s*([+-])\s*(\d+(?:[.,]\d+)?)\s*(.*)")


class SizeRule(NamedTuple):
    """One size of a row: as drawn, or at an offset from the rod or bore, with its tolerance."""

    text: str
    offset_mm: Decimal | None = None
    tolerance: str = ""

    def at(self, diameter_mm: Decimal) -> Dimension:
        """The size for a rod or bore of this nominal diameter.

        >>> SizeRule("D-5 h8", Decimal(-5), "h8").at(Decimal(36)).lower
        Decimal('30.961')
        """
        text = self.text
        if self.offset_mm is not None:
            text = f"{(diameter_mm + self.offset_mm).normalize():f} {self.tolerance}".strip()
        return parse_dimension(text, field="size", implied_unit="mm")


class HousingRow(NamedTuple):
    """One row of a table of housings; ``sizes`` by the field of the place."""

    standard: str
    type: str
    edition: str
    place: str
    side: str
    diameter_from_mm: Decimal
    diameter_to_mm: Decimal
    sizes: Mapping[str, SizeRule]
    numbers: Mapping[str, float]
    source: str
    locator: str

    @property
    def name(self) -> str:
        """Standard, type and edition as one name."""
        return " ".join(one for one in (self.standard, self.type) if one)

    def covers(self, place: str, side: str, named: str, diameter_mm: Decimal) -> bool:
        """Whether the row is of this place and side, of the standard that is named, and of this diameter."""
        return (
            (self.place, self.side) == (place, side)
            and plain(named) == plain(self.name)
            and self.diameter_from_mm <= diameter_mm <= self.diameter_to_mm
        )


def template() -> str:
    """An empty table to fill in: what each column means as comments, then the header row.

    >>> template().splitlines()[-1].split(",")[:3]
    ['standard', 'type', 'edition']
    """
    told = (__doc__ or "").strip().splitlines()
    comments = [f"# {line}".rstrip() for line in told]
    order = ("standard", "type", "edition", *REQUIRED[1:5], *SIZES, *NUMBERS, *REQUIRED[5:], "note")
    return "\n".join([*comments, ",".join(order)]) + "\n"


def plain(name: str) -> str:
    """A standard's name without the marks people write differently: ``ISO 6195:2021, type B``."""
    text = re.sub(r":\s*(19|20)\d\d", "", name.lower()).replace("type", " ")
    return " ".join(re.sub(r"[^a-z0-9]+", " ", text).split())


def housing_rows(
    lines: Iterable[tuple[int, Mapping[str, str]]], header: Sequence[str], *, name: str
) -> tuple[HousingRow, ...]:
    """Rows of a table from its cells; every cell that cannot be used is told in one InputErrors.

    ``lines`` are the numbers of lines in the file with their cells by column; ``name`` names the file.
    """
    errors: list[InputError] = []
    for column in header:
        if column not in COLUMNS:
            where = f"{name}, line 1, column {column}"
            errors.append(not_among(COLUMNS, field=where, given=column, problem="there is no such column"))
    for column in REQUIRED:
        if column not in header:
            errors.append(
                InputError(field=f"{name}, line 1", given="", problem=f"the column {column} is missing")
            )
    if errors:
        raise InputErrors(errors)
    found: list[tuple[int, HousingRow]] = []
    for line, cells in lines:
        row = _row(_Cells(cells, f"{name}, line {line}", errors))
        if row is not None:
            errors.extend(_overlaps(row, found, f"{name}, line {line}"))
            found.append((line, row))
    if errors:
        raise InputErrors(errors)
    return tuple(row for _, row in found)


class _Cells:
    """The cells of one line; what cannot be used is kept in the list of errors."""

    def __init__(self, cells: Mapping[str, str], where: str, errors: list[InputError]) -> None:
        self.cells = cells
        self.where = where
        self.errors = errors

    def text(self, column: str) -> str:
        found = (self.cells.get(column) or "").strip()
        if not found and column in REQUIRED:
            self.refuse(column, "", "is empty")
        return found

    def word(self, column: str, allowed: tuple[str, ...]) -> str:
        found = self.text(column)
        if found and found not in allowed:
            where = f"{self.where}, column {column}"
            self.errors.append(
                not_among(allowed, field=where, given=found, problem="this is not one of its words")
            )
        return found

    def number(self, column: str) -> Decimal | None:
        found = self.text(column)
        if not found:
            return None
        if not re.fullmatch(r"\d{1,4}(?:[.,]\d{1,6})?", found):
            self.refuse(column, found, "is not a plain number of millimetres", example="22.5")
            return None
        return Decimal(found.replace(",", "."))

    def size(self, column: str, ends: tuple[Decimal, ...], side: str) -> SizeRule | None:
        found = self.text(column)
        if not found:
            return None
        matched = _RELATIVE.fullmatch(found)
        rule = SizeRule(found)
        if matched is not None:
            if side in SIDES and matched[1] != _LETTERS[side]:
                self.refuse(
                    column,
                    found,
                    f"{matched[1]} is the diameter of the other side: of a {side} it is {_LETTERS[side]}",
                    example=_LETTERS[side] + found[1:],
                )
                return None
            offset = Decimal(matched[3].replace(",", "."))
            rule = SizeRule(found, offset if matched[2] == "+" else -offset, matched[4])
        for diameter in ends:
            try:
                read = rule.at(diameter)
            except InputError as error:
                self.refuse(column, found, error.problem, example="22 H11, 4.0 +0.2/0, d+6 H11")
                return None
            if not read.toleranced:
                self.refuse(
                    column, found, "has no tolerance: nothing can be judged by it", example="4.0 +0.2/0"
                )
                return None
        return rule

    def refuse(self, column: str, given: str, problem: str, *, example: str = "") -> None:
        where = f"{self.where}, column {column}"
        self.errors.append(InputError(field=where, given=given, problem=problem, example=example))


def _row(cells: _Cells) -> HousingRow | None:
    """One row; None where a cell of it cannot be used, which the list of errors then tells."""
    before = len(cells.errors)
    start, end = cells.number("diameter_from_mm"), cells.number("diameter_to_mm")
    if start is not None and end is not None and start > end:
        cells.refuse("diameter_to_mm", str(end), f"is below diameter_from_mm ({start})")
    ends = tuple(dict.fromkeys(one for one in (start, end) if one is not None))
    side = cells.word("side", SIDES)
    sizes = {column: rule for column in SIZES if (rule := cells.size(column, ends, side)) is not None}
    numbers = {column: float(found) for column in NUMBERS if (found := cells.number(column)) is not None}
    if not sizes and len(cells.errors) == before:
        cells.refuse(SIZES[0], "", f"the row has no size: one of {', '.join(SIZES)} is needed")
    made = HousingRow(
        standard=cells.text("standard"),
        type=cells.text("type"),
        edition=cells.text("edition"),
        place=cells.word("place", PLACES),
        side=side,
        diameter_from_mm=start or Decimal(0),
        diameter_to_mm=end or Decimal(0),
        sizes=sizes,
        numbers=numbers,
        source=cells.text("source"),
        locator=cells.text("locator"),
    )
    return made if len(cells.errors) == before else None


def _overlaps(row: HousingRow, found: list[tuple[int, HousingRow]], where: str) -> list[InputError]:
    """Two rows that claim one diameter: neither could be taken without a guess."""
    return [
        InputError(
            field=where,
            given=f"{row.name}, {row.diameter_from_mm} to {row.diameter_to_mm} mm",
            problem=f"claims the same diameters as line {line}; give the rows different types",
        )
        for line, other in found
        if (plain(row.name), row.place, row.side) == (plain(other.name), other.place, other.side)
        and row.diameter_from_mm <= other.diameter_to_mm
        and other.diameter_from_mm <= row.diameter_to_mm
    ]
