"""What a seal is asked to do: pressure, temperature, fluid, motion, liquid or gas."""

from __future__ import annotations

from schema.errors import InputError
from schema.fields import Pressure, TemperatureRange, choice, listed, number, pressure, temperature_range
from schema.materials import fluid_code, is_gas
from schema.model import Model

MOTIONS = ("static", "reciprocating")
MEDIA = ("liquid", "gas")
PRESSURE_SIDES = ("one_side", "both_sides", "inside", "outside")


def _fluid(value: str, path: str) -> str:
    return fluid_code(value, field=path)


class Service(Model):
    """The service of one place. What is not known stays None and ends in ``not proven``."""

    motion: str | None = choice("does anything move over the ring", MOTIONS, default=None)
    medium: str | None = choice("what it seals; gas where either side is gas", MEDIA, default=None)
    pressure: Pressure | None = pressure("highest pressure across the seal, gauge", "2.5 MPa")
    pressure_from: str | None = choice("the side the pressure comes from", PRESSURE_SIDES, default=None)
    temperature: TemperatureRange | None = temperature_range("lowest and highest temperature", "-10..60 degC")
    fluid: tuple[str, ...] = listed("every fluid and grease that touches it", "mineral_oil; nitrogen", _fluid)
    swell_low_percent: float | None = number(
        "least volume swell in the fluid, percent (negative: shrinks)", "0", low=-30, high=100
    )
    swell_high_percent: float | None = number(
        "greatest volume swell in the fluid, percent", "5", low=-30, high=100
    )

    def __post_init__(self) -> None:
        low, high = self.swell_low_percent, self.swell_high_percent
        if low is not None and high is not None and low > high:
            raise InputError(
                field="service.swell_low_percent",
                given=low,
                problem=f"is above swell_high_percent ({high:g})",
                allowed="the least swell first",
                example="0",
            )
        gases = [fluid for fluid in self.fluid if is_gas(fluid)]
        if self.medium == "liquid" and gases:
            raise InputError(
                field="service.medium",
                given=self.medium,
                problem=f"{gases[0]} is a gas",
                allowed="gas, where either side of the seal is gas",
                example="gas",
            )

    @property
    def swell_percent(self) -> tuple[float, float]:
        """Least and greatest volume swell; where one is not told, the other or none, whichever is worse."""
        low, high = self.swell_low_percent, self.swell_high_percent
        if low is None:
            low = min(0.0, high or 0.0)
        return low, max(0.0, low) if high is None else high
