"""The equations of state of nitrogen and air, as published: coefficients of the Helmholtz energy."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from schema.tables import rows

GASES = ("nitrogen", "air")


class Residual(NamedTuple):
    """One term of the residual part: n tau^t delta^d exp(-delta^l), without the exponential where l is 0."""

    n: float
    t: float
    d: int
    l: int  # noqa: E741


class Gaussian(NamedTuple):
    """Near the critical point: n tau^t delta^d exp(-eta (delta - epsilon)^2 - beta (tau - gamma)^2)."""

    n: float
    t: float
    d: int
    eta: float
    epsilon: float
    beta: float
    gamma: float


class GasEquation(NamedTuple):
    """Helmholtz energy over R T as a function of delta = rho / rho_r and tau = T_r / T.

    The ideal part is ln delta + log ln tau + sum n tau^t + sum n ln(1 - exp(-t tau)) and, for air,
    sum n ln(2/3 + exp(t tau)). Temperatures in K, densities in mol/L, ``gas_constant`` in J/(mol K).
    """

    name: str
    gas_constant: float
    molar_mass: float
    reducing_temperature: float
    reducing_density: float
    log: float
    powers: tuple[tuple[float, float], ...]
    oscillators: tuple[tuple[float, float], ...]
    two_thirds: tuple[tuple[float, float], ...]
    residual: tuple[Residual, ...]
    gaussian: tuple[Gaussian, ...]
    source: str


@cache
def gas_equation(gas: str) -> GasEquation:
    """The equation of a gas of ``GASES``.

    >>> gas_equation("nitrogen").reducing_temperature
    126.192
    """
    own = [row for row in rows("gas_equations") if row["gas"] == gas]
    by_term: dict[str, list[dict[str, str]]] = {}
    for row in own:
        by_term.setdefault(row["term"], []).append(row)

    def single(term: str) -> float:
        return float(by_term[term][0]["n"])

    def pairs(term: str) -> tuple[tuple[float, float], ...]:
        return tuple((float(row["n"]), float(row["t"])) for row in by_term.get(term, ()))

    return GasEquation(
        name=gas,
        gas_constant=single("gas_constant"),
        molar_mass=single("molar_mass"),
        reducing_temperature=single("reducing_temperature"),
        reducing_density=single("reducing_density"),
        log=single("ideal_log"),
        powers=pairs("ideal_power"),
        oscillators=pairs("ideal_oscillator"),
        two_thirds=pairs("ideal_two_thirds"),
        residual=tuple(
            Residual(float(row["n"]), float(row["t"]), int(row["d"]), int(row["l"]))
            for row in by_term["residual"]
        ),
        gaussian=tuple(
            Gaussian(
                float(row["n"]),
                float(row["t"]),
                int(row["d"]),
                *(float(row[name]) for name in ("eta", "epsilon", "beta", "gamma")),
            )
            for row in by_term.get("residual_gaussian", ())
        ),
        source=own[0]["source"],
    )
