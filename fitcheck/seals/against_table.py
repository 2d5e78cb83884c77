"""A seat or groove against the row of a workshop's own table of the standard it is made to."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from fitcheck.decision import DecisionRule
from fitcheck.setting import drawn_span
from fitcheck.single import lacking, single
from fitcheck.words import dimension_words
from schema.dimension import Dimension
from schema.finding import NO_TOLERANCE, Finding, Limits, Status
from schema.fit import Place

if TYPE_CHECKING:
    from schema.housing_tables import HousingRow

GRADE = "given"


def row_for(
    housings: tuple[HousingRow, ...], place: Place, side: str, named: str, diameter: Dimension | None
) -> HousingRow | None:
    """The row of the standard that a place names, for its rod or bore; None where the table has none."""
    if not named or diameter is None:
        return None
    size = Decimal(diameter.nominal)
    return next((one for one in housings if one.covers(place.kind, side, named, size)), None)


def table_findings(place: Place, row: HousingRow, diameter: Dimension, by: DecisionRule) -> list[Finding]:
    """Every size of a place that the row prints, against it."""
    found = []
    for field, rule in row.sizes.items():
        words = f"{dimension_words(field)} against {row.name}"
        size = getattr(place, field, None)
        if size is None:
            found.append(lacking(f"table_{field}", words, dimension_words(field)))
            continue
        printed = rule.at(Decimal(diameter.nominal))
        limits = Limits(
            float(printed.lower),
            float(printed.upper),
            "mm",
            "worst_case",
            f"the workshop's copy of {row.name}",
            f"{row.source}: {row.locator}",
            GRADE,
        )
        held = single(
            by,
            f"table_{field}",
            words,
            drawn_span(size),
            limits,
            good="as the table has it",
            bad="not as the table has it: a seal of this standard is not made for it",
            action="Compare with the drawing of the unit; the seal must be made for this housing.",
            standard_uncertainty=float(size.standard_uncertainty),
        )
        found.append(as_known(held, size))
    return found


def as_known(found: Finding, size: Dimension) -> Finding:
    """A finding on one size: what has no tolerance proves nothing."""
    if found.status is not Status.FITS or size.toleranced:
        return found
    return found._replace(
        status=Status.NOT_PROVEN,
        reason=f"{NO_TOLERANCE}{size.text}",
        action="Give its tolerance, or how it was measured.",
    )


def no_table(named: str, standard: str) -> Finding:
    """What a table would settle, where the workshop has none or no row of it."""
    wanted = named or standard
    return Finding(
        rule="housing_table",
        quantity="housing against the table of its standard",
        status=Status.NOT_PROVEN,
        meaning="which seal a housing takes is told by the table of its standard, and none was readable",
        reason=f"no row of {wanted} for this size in the workshop's own table of housings",
        action=f"Add the row of {wanted} to the workshop's table of housings, with its source, or compare "
        "with the maker's drawing.",
        source=f"{standard}: title and scope read, its tables not",
        grade="no_tolerance",
    )
