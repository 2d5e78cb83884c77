"""Two oils held against each other by viscosity, and one oil against what is printed of it.

A label's weight says nothing: two makers' 5 wt differ. A data sheet prints typical values, rounded; a value
without limits is taken to half of its last printed digit, which knows nothing of the batch.
"""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import product

from fitcheck.decision import DecisionRule
from fitcheck.fluids.index import LEAST, viscosity_index
from fitcheck.fluids.viscosity import through
from fitcheck.numbers import Span
from fitcheck.single import lacking, single
from schema.amounts import Amount
from schema.finding import Finding, Limits, Status
from schema.fluids import Fluid
from schema.viscosity_tables import viscosity_grade

TEMPERATURES_DEG_C = (20.0, 40.0, 60.0)  # the grading temperature, and riding temperatures about it
_HALF_BAND = 10.0  # percent: a grade of ISO 3448 reaches 10 % to either side of its middle
_SAME = Limits(
    -_HALF_BAND,
    _HALF_BAND,
    "%",
    "worst_case",
    "within half a grade",
    "ISO 3448, as four tables print it: a viscosity grade reaches 10 % either way; as a bound for changing "
    "an oil own judgement",
    "own_judgement",
)


def printed_span(value: Amount) -> Span:
    """A viscosity with its limits; of a bare printed value, half of its last digit either way."""
    if value.toleranced or value.measured:
        u = 2.0 * float(value.standard_uncertainty)
        return Span(float(value.lower) - u, value.middle, float(value.upper) + u)
    digits = re.search(r"\d+(?:[.,](\d+))?", value.text)
    places = len(digits[1] or "") if digits else 0
    half = float(Decimal(1).scaleb(-places) / 2)
    return Span(value.middle - half, value.middle, value.middle + half)


def viscosity_span(fluid: Fluid, temperature_deg_c: float) -> Span | None:
    """Viscosity of an oil [mm2/s] at a temperature, over what is known of it; None without two values."""
    if fluid.viscosity_40 is not None and temperature_deg_c == 40.0:
        return printed_span(fluid.viscosity_40)
    if fluid.viscosity_40 is None or fluid.viscosity_100 is None:
        return None
    thick, thin = printed_span(fluid.viscosity_40), printed_span(fluid.viscosity_100)
    corners = [
        through((40.0, one), (100.0, other)).at(temperature_deg_c)
        for one, other in product((thick.low, thick.high), (thin.low, thin.high))
    ]
    middle = through((40.0, thick.middle), (100.0, thin.middle)).at(temperature_deg_c)
    return Span(min(corners), middle, max(corners))


def oils_alike(
    old: Fluid, new: Fluid, by: DecisionRule, *, temperatures: tuple[float, ...] = TEMPERATURES_DEG_C
) -> list[Finding]:
    """Whether one oil may stand in for another: their viscosities at 40 and at riding temperatures.

    Percent is of the old oil. Beyond 10 % the damper is another one; that is no harm, but it is told.
    """
    found = []
    for temperature in temperatures:
        words = f"{new.name} against {old.name} at {temperature:g} degC"
        first, second = viscosity_span(old, temperature), viscosity_span(new, temperature)
        if first is None or second is None:
            which = [
                f"viscosity of {one.name} at 40 and 100 degC"
                for one, span in ((old, first), (new, second))
                if span is None
            ]
            found.append(_without_viscosity(words, which, old, new))
            continue
        change = Span(
            100.0 * (second.low / first.high - 1.0),
            100.0 * (second.middle / first.middle - 1.0),
            100.0 * (second.high / first.low - 1.0),
        )
        found.append(
            single(
                by,
                "oil_viscosity",
                words,
                change,
                _SAME,
                good="as thick as the oil it stands in for",
                bad="another viscosity: the damper will be slower or faster at every click",
                action="Choose by mm2/s at 40 and 100 degC, or set the clickers anew.",
            )
        )
    return found


def _without_viscosity(words: str, which: list[str], old: Fluid, new: Fluid) -> Finding:
    labels = [one.label for one in (old, new) if one.label]
    found = lacking("oil_viscosity", words, *which)
    if not labels:
        return found
    return found._replace(
        reason=f"{found.reason}; {' and '.join(labels)} on a label is no viscosity",
        meaning="weights on labels follow no standard: two makers' oils of one weight differ",
    )


def printed_values(fluid: Fluid, by: DecisionRule) -> list[Finding]:
    """What is printed of an oil, held together: its index against its two viscosities."""
    if fluid.viscosity_40 is None or fluid.viscosity_100 is None or fluid.viscosity_index is None:
        return []
    thick, thin = printed_span(fluid.viscosity_40), printed_span(fluid.viscosity_100)
    words = "printed viscosity index against the two viscosities"
    if thin.low < LEAST:
        return [
            Finding(
                rule="viscosity_index",
                quantity=words,
                status=Status.NOT_PROVEN,
                meaning="for so thin an oil no viscosity index is defined",
                reason=f"{fluid.viscosity_100.text} at 100 degC is below {LEAST:g} mm2/s",
                action="Compare such oils by their viscosities alone.",
                source="ASTM D2270, scope",
                grade="standard",
            )
        ]
    low, middle, high = (
        viscosity_index(*pair) or 0.0
        for pair in ((thick.high, thin.low), (thick.middle, thin.middle), (thick.low, thin.high))
    )
    limits = Limits(
        low - 0.5,
        high + 0.5,
        "VI",
        "worst_case",
        "index of the printed viscosities",
        "ASTM D2270, procedures A and B",
        "standard",
        note=f"worked out: {middle:.1f}",
    )
    return [
        single(
            by,
            "viscosity_index",
            words,
            Span.point(fluid.viscosity_index),
            limits,
            good="index and viscosities agree",
            bad="index and viscosities do not belong to one oil: one of the three is misprinted",
            action="Look into the maker's data sheet.",
        )
    ]


def grade_in_words(fluid: Fluid) -> str:
    """The ISO 3448 grade of an oil in words; many damper oils lie between two."""
    if fluid.viscosity_40 is None:
        return "no ISO VG without the viscosity at 40 degC"
    span = printed_span(fluid.viscosity_40)
    ends = {viscosity_grade(span.low), viscosity_grade(span.high)}
    grade = ends.pop()
    if ends or grade is None:
        return "between two ISO VG grades, or of a grade that is not listed"
    return f"ISO VG {grade.vg}"
