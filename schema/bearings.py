"""Bearings of eyelets: deep-groove ball bearings, spherical plain bearings, drawn-cup needle bearings.

A number fixes the bore and the outside diameter; of some it does not fix the width, so the width is
asked for. A drawn cup and a split outer ring have no true size until they are in their seat.
"""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from schema.bearing_tables import BearingRow, bearing_row, deviation
from schema.dimension import Dimension, between
from schema.errors import InputError
from schema.fields import choice, length, words
from schema.fit import Part

STYLES = ("deep_groove", "spherical", "needle")
_SAME_MM = 0.1  # a size that is further from its table belongs to another bearing


class Bearing(Part):
    """A bearing that is pressed or slid into an eyelet. ``width`` is that of its inner ring."""

    style: str | None = choice("what kind of bearing it is", STYLES, default=None)
    designation: str = words("its number", "6800-2RS")
    inside_diameter: Dimension | None = length("bore of its inner ring", "10 mm", measured_on="bore")
    outside_diameter: Dimension | None = length("outside diameter of its outer ring", "19 mm")
    width: Dimension | None = length("width of its inner ring", "5 mm", largest_mm=100)
    outer_width: Dimension | None = length(
        "width of its outer ring, where it is another", "7 mm", largest_mm=100
    )

    kind: ClassVar[str] = "bearing"
    words_for: ClassVar[str] = "bearing"

    def __post_init__(self) -> None:
        inner, outer = self.inside_diameter, self.outside_diameter
        if inner is not None and outer is not None and inner.lower >= outer.upper:
            raise InputError(
                field="part.outside_diameter",
                given=outer,
                problem=f"is not larger than inside_diameter ({inner.text})",
            )
        row = self.row
        if row is not None and row.grade != "disputed":
            self._hold_to(row)

    @property
    def row(self) -> BearingRow | None:
        """Its row of the table; None where it names no number that is listed."""
        return bearing_row(self.designation) if self.designation else None

    @property
    def found_style(self) -> str:
        """Its style as told or as its number says; "" where neither does."""
        row = self.row
        return self.style or (row.style if row else "")

    def _hold_to(self, row: BearingRow) -> None:
        if self.style is not None and self.style != row.style:
            raise self._contradiction("style", self.style, f"is a {row.style} bearing")
        told = f"{row.bore:g} x {row.outside:g} mm"
        for name, size in (("inside_diameter", row.bore), ("outside_diameter", row.outside)):
            own: Dimension | None = getattr(self, name)
            if own is not None and abs(own.middle - size) > _SAME_MM:
                raise self._contradiction(name, own.text, f"is {told}")
        width = self.width
        if width is not None and all(abs(width.middle - one) > 2 * _SAME_MM for one in row.widths):
            listed = " or ".join(f"{one:g}" for one in row.widths)
            raise self._contradiction("width", width.text, f"is {told} and {listed} mm wide")

    def _contradiction(self, name: str, given: str, told: str) -> InputError:
        return InputError(
            field=f"part.{name}",
            given=given,
            problem=f"contradicts the number: {self.designation} {told}",
            allowed="the sizes of that number, or no designation",
        )

    def known_sizes(self) -> dict[str, Dimension]:
        """Its sizes by field: as told, else by its number; a bare nominal gets the limits of class Normal.

        What is from memory or disputed is not taken, nor is a width that the number does not fix.
        """
        found = {
            name: size
            for name in ("inside_diameter", "outside_diameter", "width", "outer_width")
            if (size := getattr(self, name)) is not None
        }
        row = self.row
        if row is not None and row.grade not in ("from_memory", "disputed"):
            tabled = {"inside_diameter": row.bore, "outside_diameter": row.outside}
            if row.width_is_fixed:
                tabled["width"] = row.widths[0]
            if row.outer_width is not None:
                tabled["outer_width"] = row.outer_width
            for name, mm in tabled.items():
                found.setdefault(name, _bare(mm, f"{row.designation}, {row.source}"))
        if self.designation and self.found_style:
            return {name: self._with_limits(name, size, found) for name, size in found.items()}
        return found

    def _with_limits(self, name: str, size: Dimension, found: dict[str, Dimension]) -> Dimension:
        if size.toleranced:
            return size
        by = "outside_diameter" if name in ("outside_diameter", "outer_width") else "inside_diameter"
        at = found.get(by)
        of = {"inside_diameter": "bore", "outside_diameter": "outside"}.get(name, name)
        normal = deviation(self.found_style, of, float(at.nominal)) if at is not None else None
        if normal is None:
            return size
        least = size.nominal + Decimal(str(normal.lower_um)) / 1000
        return between(
            least, size.nominal, nominal=size.nominal, text=f"{size.text} class Normal", source=normal.source
        )


def _bare(mm: float, source: str) -> Dimension:
    size = Decimal(str(mm))
    return Dimension(size, size, size, f"{mm:g} mm by {source}", source=source)
