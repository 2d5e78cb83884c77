"""The size a part was made for, where a table is read by that and not by what a reading gives.

A bore of 50 H8 reads 50.02 mm: a table that steps at 50 is read at 50. Nominal sizes are taken to be whole
and half millimetres and sixteenths of an inch, as drawings have them (common practice, no source).
"""

from __future__ import annotations

from decimal import Decimal

from schema.dimension import Dimension

_GRIDS = {"mm": Decimal("0.5"), "in": Decimal("25.4") / 16}
# How far a reading, or the middle of limits, may lie from the size it was made for; own judgement: the
# widest bore of the tables here, H11 at 50 mm, reaches 0.16 mm, its middle 0.08 mm.
_NEAR_MM = Decimal("0.15")
_EXACT_MM = Decimal("0.0005")  # a sixteenth as it is written in millimetres or in thousandths


def named(size: Dimension) -> Decimal | None:
    """The nominal size [mm] where the text tells it; None for a reading, a range, an odd number.

    >>> from schema.dimension import parse_dimension
    >>> named(parse_dimension("12 F7")), named(parse_dimension("12.016..12.034 mm"))
    (Decimal('12'), None)
    """
    if size.tolerance_class:
        return size.nominal
    off = min(_off(size.nominal, unit) for unit in _GRIDS)
    return None if size.measured or off > _EXACT_MM else size.nominal


def step_size(size: Dimension) -> Decimal:
    """The size [mm] by which a step of a table is chosen: as named, else the nominal size nearest to it.

    >>> from schema.dimension import parse_dimension
    >>> step_size(parse_dimension("50.02 mm by bore gauge"))
    Decimal('50.0')
    """
    told = named(size)
    if told is not None:
        return told
    unit = min(_GRIDS, key=lambda one: _off(size.nominal, one))
    return size.nominal if _off(size.nominal, unit) > _NEAR_MM else _nearest(size.nominal, unit)


def made_in(size: Dimension) -> tuple[str, ...]:
    """Whether a part was made to millimetres or to inches, by its size and not by how it was written.

    Both where the size does not tell: then what holds by both tables is proven.

    >>> from schema.dimension import parse_dimension
    >>> made_in(parse_dimension("38.1 mm")), made_in(parse_dimension("38.12 mm by calliper"))
    (('in',), ('mm', 'in'))
    """
    if size.tolerance_class:
        return ("mm",)
    near = _EXACT_MM if named(size) is not None else _NEAR_MM
    return tuple(unit for unit in _GRIDS if _off(size.nominal, unit) <= near) or tuple(_GRIDS)


def _nearest(value: Decimal, unit: str) -> Decimal:
    grid = _GRIDS[unit]
    return (value / grid).quantize(Decimal(1)) * grid


def _off(value: Decimal, unit: str) -> Decimal:
    return abs(value - _nearest(value, unit))
