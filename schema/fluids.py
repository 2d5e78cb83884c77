"""Oils and greases: what they are made on, and how thick they are.

What counts is the base oil and the kinematic viscosity at 40 and 100 degC. A weight on a label (5 wt)
follows no standard; it is kept in ``label`` and nothing is worked out from it.
"""

from __future__ import annotations

from typing import ClassVar

from schema.amounts import Amount, amount
from schema.errors import InputError
from schema.fields import choice, number, words
from schema.fit import Part
from schema.trade_names import TradeName, named_fluid

BASES = ("mineral", "pao", "ester", "silicone", "glycol", "pfpe", "unknown")
_CODE_OF = {
    "mineral": "mineral_oil",
    "pao": "pao_oil",
    "ester": "ester_oil",
    "silicone": "silicone_oil_or_grease",
    "glycol": "glycol_brake_fluid",
}


class Fluid(Part):
    """An oil, a grease or a brake fluid."""

    base: str | None = choice("base oil", BASES, default=None)
    thickener: str = words("thickener of a grease; it does not decide what rubber stands it", "lithium soap")
    viscosity_40: Amount | None = amount(
        "viscosity", "kinematic viscosity at 40 degC", "15.0 mm2/s", low=0.2, high=2_000_000
    )
    viscosity_100: Amount | None = amount(
        "viscosity", "kinematic viscosity at 100 degC", "3.8 mm2/s", low=0.2, high=100_000
    )
    viscosity_index: float | None = number(
        "viscosity index as printed", "150", low=-200, high=1000, default=None
    )
    density_15: Amount | None = amount("density", "density at 15 degC", "0.85 g/ml", low=500, high=2500)
    label: str = words("what the label calls it; a weight is no viscosity", "5 wt")

    kind: ClassVar[str] = "fluid"
    words_for: ClassVar[str] = "fluid"

    def __post_init__(self) -> None:
        thick, thin = self.viscosity_40, self.viscosity_100
        if thick is not None and thin is not None and thin.lower >= thick.upper:
            raise InputError(
                field="part.viscosity_100",
                given=thin.text,
                problem=f"is not below viscosity_40 ({thick.text}): oil thins when warm; are they exchanged?",
            )

    @property
    def trade_name(self) -> TradeName:
        """The code its ratings are looked up by, of its base or else of its name; or why there is none."""
        if self.base in (None, "unknown"):
            return named_fluid(self.material or self.description)
        code = _CODE_OF.get(self.base or "", "")
        if self.base == "mineral" and self.thickener:
            code = "mineral_grease"
        remark = "judged by its base oil" if self.thickener and code else ""
        return TradeName(self.name, code, remark or ("" if code else f"no rating was found for {self.base}"))
