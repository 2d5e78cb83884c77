"""Kinematic viscosity of an oil at any temperature from that at two (ASTM D341, the equation of Walther).

The constants A and B depend on the form of the ordinate and on the zero of temperature that made them, so
they are kept together in ``Walther`` and never taken from elsewhere.
"""

from __future__ import annotations

import math
from typing import NamedTuple

KELVIN = 273.15
SHORT, FULL = "short", "full"


def ordinate(viscosity: float, *, form: str = FULL) -> float:
    """Z of the Walther equation.

    Equation   Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2); the short form leaves the last term out
    Symbols    Z  returned    [mm2/s]
               v  viscosity   [mm2/s]
    Valid      short: above 2 mm2/s; full: above 0.2 mm2/s
    Source     ASTM D341 as several copies give it

    >>> ordinate(1.0, form="full") - ordinate(1.0, form="short")
    0.022
    """
    extra = 0.0 if form == SHORT else math.exp(-1.47 - 1.84 * viscosity - 0.51 * viscosity**2)
    return viscosity + 0.7 + extra


def viscosity_of(ordinate_z: float, *, form: str = FULL) -> float:
    """Viscosity from Z: what ``ordinate`` undoes.

    Equation   v = (Z - 0.7) - exp(-0.7487 - 3.295 (Z - 0.7) + 0.6119 (Z - 0.7)^2 - 0.3193 (Z - 0.7)^3)
    Symbols    v  returned    [mm2/s]
               Z  ordinate_z  [mm2/s]
    Valid      as ordinate; the round trip is within 0.0003 mm2/s
    Source     ASTM D341 as several copies give it; one web copy drops the square

    >>> viscosity_of(ordinate(0.5))
    0.500
    """
    less = ordinate_z - 0.7
    if form == SHORT:
        return less
    return less - math.exp(-0.7487 - 3.295 * less + 0.6119 * less**2 - 0.3193 * less**3)


class Walther(NamedTuple):
    """A line on the Walther chart with the form and the zero that its constants belong to."""

    a: float
    b: float
    form: str
    zero: float

    def at(self, temperature_deg_c: float) -> float:
        """Viscosity [mm2/s] at a temperature.

        Equation   log10 log10 Z = A - B log10 (t + zero)
        Symbols    t  temperature_deg_c  [degC]
        Valid      between and near the two temperatures of the data; not below the pour point
        Source     ASTM D341

        >>> line = through((40.0, 32.0), (100.0, 5.4), form="short", zero=273.0)
        >>> line.a, line.b, line.at(80.0)
        (9.5259, 3.7449, 8.53)
        """
        doubled = 10.0 ** (self.a - self.b * math.log10(temperature_deg_c + self.zero))
        return viscosity_of(10.0**doubled, form=self.form)


def through(
    first: tuple[float, float], second: tuple[float, float], *, form: str = FULL, zero: float = KELVIN
) -> Walther:
    """The line through two points (temperature [degC], viscosity [mm2/s]).

    Equation   B = (f(v1) - f(v2)) / (log10 T2 - log10 T1); A = f(v1) + B log10 T1; f = log10 log10 Z
    Symbols    v1, v2  viscosities of first and second   [mm2/s]
               T1, T2  their temperatures plus zero      [K]
    Valid      two temperatures; the colder is the thicker
    Source     ASTM D341; worksheet (scribd 361017004): 32 at 40, 5.4 at 100 degC

    >>> through((40.0, 32.0), (100.0, 5.4)).at(80.0)
    8.53
    """
    (t1, v1), (t2, v2) = first, second
    f1, f2 = (math.log10(math.log10(ordinate(one, form=form))) for one in (v1, v2))
    b = (f1 - f2) / (math.log10(t2 + zero) - math.log10(t1 + zero))
    return Walther(f1 + b * math.log10(t1 + zero), b, form, zero)
