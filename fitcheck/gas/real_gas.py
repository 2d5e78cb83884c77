"""Nitrogen and air as real gases: pressure, density and entropy, slow and fast compression.

Inside: K, mol/L, MPa absolute, J/(mol K). Plain numbers only: what is solved by steps is no array.
The terms of the critical region are left out: from 200 K up none of them reaches 1e-20 of the sum.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from schema.gases import gas_equation

LOWEST_K, HIGHEST_K = 200.0, 700.0
MOST_DENSE = 1.5  # over the reducing density; about 75 MPa of nitrogen at 20 degC
_STEPS = 25
_ENOUGH = 1e-11
ICE_POINT_K = 273.15


class _Isotherm(NamedTuple):
    """What does not depend on density, worked out once per temperature; polynomials, highest power first.

    p = rho rt (1 + sum exp(-delta^l) pressure_l(delta)) and
    s / R = ideal - ln delta + sum exp(-delta^l) entropy_l(delta).
    """

    rt: float
    reducing_density: float
    pressure: tuple[tuple[int, tuple[float, ...]], ...]
    entropy: tuple[tuple[int, tuple[float, ...]], ...]
    ideal: float


@lru_cache(maxsize=256)
def _isotherm(gas: str, temperature_k: float) -> _Isotherm:
    equation = gas_equation(gas)
    tau = equation.reducing_temperature / temperature_k
    pressure: dict[int, list[float]] = {}
    entropy: dict[int, list[float]] = {}
    for n, t, d, l in equation.residual:  # noqa: E741
        a = n * tau**t
        powers = pressure.setdefault(l, [0.0] * 16)
        powers[d] += d * a
        if l:
            powers[d + l] -= l * a
        entropy.setdefault(l, [0.0] * 16)[d] += a * (t - 1.0)
    alpha, first, _ = _ideal(gas, tau)
    return _Isotherm(
        equation.gas_constant * temperature_k / 1000.0,
        equation.reducing_density,
        _cut(pressure),
        _cut(entropy),
        first - alpha,
    )


def _cut(groups: dict[int, list[float]]) -> tuple[tuple[int, tuple[float, ...]], ...]:
    """Polynomials without their empty powers, highest first."""
    found = []
    for l, powers in groups.items():  # noqa: E741
        most = max(power for power, value in enumerate(powers) if value)
        found.append((l, tuple(reversed(powers[: most + 1]))))
    return tuple(found)


def _summed(groups: tuple[tuple[int, tuple[float, ...]], ...], delta: float) -> float:
    total = 0.0
    for l, powers in groups:  # noqa: E741
        value = 0.0
        for one in powers:
            value = value * delta + one
        total += value * math.exp(-(delta**l)) if l else value
    return total


def _ideal(gas: str, tau: float) -> tuple[float, float, float]:
    """Sums of alpha, tau alpha' and tau^2 alpha'' over the ideal part, ln delta left out."""
    equation = gas_equation(gas)
    alpha, first, second = equation.log * math.log(tau), equation.log, -equation.log
    for n, t in equation.powers:
        a = n * tau**t
        alpha, first, second = alpha + a, first + t * a, second + t * (t - 1.0) * a
    for n, t in equation.oscillators:
        x = t * tau
        e = math.exp(-x)
        part = n * x * e / (1.0 - e)
        alpha, first, second = alpha + n * math.log1p(-e), first + part, second - part * x / (1.0 - e)
    for n, t in equation.two_thirds:
        x = t * tau
        e = 2.0 / 3.0 * math.exp(-x)
        share = 1.0 / (1.0 + e)
        alpha += n * (x + math.log1p(e))
        first, second = first + n * x * share, second + n * x * x * e * share * share
    return alpha, first, second


def _within(gas: str, temperature_k: float, density: float) -> bool:
    most = MOST_DENSE * gas_equation(gas).reducing_density
    return LOWEST_K <= temperature_k <= HIGHEST_K and 0.0 <= density <= most


def gas_pressure(gas: str, temperature_k: float, density: float) -> float:
    """Absolute pressure [MPa] of a gas at a temperature [K] and a density [mol/L].

    Equation   p = rho R T (1 + delta d(alpha_r)/d(delta))
    Symbols    p        returned     [MPa]
               rho      density      [mol/L]
               T        temperature_k [K]
               alpha_r  residual Helmholtz energy over R T, of ``schema.gases``
    Valid      200 to 700 K, up to 1.5 times the critical density; else nan
    Source     Span et al. 2000 (nitrogen), Lemmon et al. 2000 (air); table of Span, p. 1410: 350 K, 20 MPa,
               6.3552 mol/L

    >>> gas_pressure("nitrogen", 350.0, 6.3552)
    20.00
    """
    if not _within(gas, temperature_k, density):
        return math.nan
    isotherm = _isotherm(gas, temperature_k)
    return density * isotherm.rt * (1.0 + _summed(isotherm.pressure, density / isotherm.reducing_density))


@lru_cache(maxsize=1024)
def gas_density(gas: str, temperature_k: float, pressure_mpa: float) -> float:
    """Density [mol/L] of a gas at a temperature [K] and an absolute pressure [MPa].

    Equation   gas_pressure(T, rho) = p, solved by secants from the ideal gas rho = p / (R T)
    Symbols    rho  returned       [mol/L]
               T    temperature_k  [K]
               p    pressure_mpa   [MPa]  absolute
    Valid      200 to 700 K, above 0 and up to 1.5 times the critical density; else nan
    Source     Span et al. 2000, Lemmon et al. 2000

    >>> gas_density("nitrogen", 300.0, 10.0) * 28.01348
    111.725
    >>> gas_density("air", 300.0, 10.0) * 28.96546
    116.933
    """
    if not (LOWEST_K <= temperature_k <= HIGHEST_K and 0.0 < pressure_mpa < 200.0):
        return math.nan
    isotherm = _isotherm(gas, temperature_k)
    most = MOST_DENSE * isotherm.reducing_density
    before = min(pressure_mpa / isotherm.rt, most)
    missed = gas_pressure(gas, temperature_k, before) - pressure_mpa
    density = min(before * pressure_mpa / (missed + pressure_mpa), most)
    for _ in range(_STEPS):
        miss = gas_pressure(gas, temperature_k, density) - pressure_mpa
        if abs(miss) <= _ENOUGH * pressure_mpa or miss == missed:
            break
        step = miss * (density - before) / (miss - missed)
        before, missed = density, miss
        density = min(max(density - step, 0.5 * density), most)
    if abs(gas_pressure(gas, temperature_k, density) - pressure_mpa) > 1e-8 * pressure_mpa:
        return math.nan  # denser than the range
    return density


@lru_cache(maxsize=1024)
def gas_entropy(gas: str, temperature_k: float, density: float) -> float:
    """Molar entropy [J/(mol K)] of a gas; only differences mean something.

    Equation   s = R (tau d(alpha)/d(tau) - alpha), alpha the whole Helmholtz energy over R T
    Symbols    s    returned       [J/(mol K)]
               T    temperature_k  [K]
               rho  density        [mol/L]
    Valid      200 to 700 K, up to 1.5 times the critical density; else nan
    Source     Span et al. 2000, Lemmon et al. 2000; table of Span, p. 1410: 350 K, 20 MPa, 150.07 J/(mol K)

    >>> gas_entropy("nitrogen", 350.0, 6.3552)
    150.07
    """
    if not _within(gas, temperature_k, density) or density == 0.0:
        return math.nan
    return gas_equation(gas).gas_constant * _entropy(gas, temperature_k, density)


def _entropy(gas: str, temperature_k: float, density: float) -> float:
    """Entropy over R."""
    isotherm = _isotherm(gas, temperature_k)
    delta = density / isotherm.reducing_density
    return isotherm.ideal - math.log(delta) + _summed(isotherm.entropy, delta)


class State(NamedTuple):
    """A gas after a change: temperature [K] and absolute pressure [MPa]."""

    temperature_k: float
    pressure_mpa: float


@lru_cache(maxsize=4096)
def squeezed_fast(gas: str, temperature_k: float, density: float, ratio: float) -> State:
    """A gas squeezed so fast that no heat leaves it: to ``ratio`` times its density at the same entropy.

    Equation   s(T1, r rho0) = s(T0, rho0), solved by Newton's steps; p1 = p(T1, r rho0)
    Symbols    T1, p1  returned       [K, MPa]
               T0      temperature_k  [K]
               rho0    density        [mol/L]
               r       ratio          [1]
    Valid      both states within 200 to 700 K and 1.5 times the critical density; else nan
    Source     reversible adiabatic change; Span et al. 2000, Lemmon et al. 2000

    >>> squeezed_fast("nitrogen", 293.15, gas_density("nitrogen", 293.15, 1.5), 1.5).pressure_mpa
    2.67857
    """
    nowhere = State(math.nan, math.nan)
    end = ratio * density
    if not (_within(gas, temperature_k, density) and _within(gas, temperature_k, end) and density > 0.0):
        return nowhere
    wanted = _entropy(gas, temperature_k, density)
    terms = _terms_at(gas, end)
    hot = temperature_k * ratio**0.41
    for _ in range(_STEPS):
        if not 100.0 <= hot <= 1500.0:
            return nowhere
        entropy, heat = _entropy_and_heat(gas, hot, terms)
        step = hot * (entropy - wanted) / heat
        hot -= step
        if abs(step) <= 2e-4 * hot:  # what Newton's next step would add is below 1e-7
            break
    if not LOWEST_K <= hot <= HIGHEST_K:
        return nowhere
    equation = gas_equation(gas)
    tau = equation.reducing_temperature / hot
    total = 1.0 + math.fsum(a * tau**t * w for a, t, w in zip(terms.a, terms.t, terms.w, strict=True))
    return State(hot, end * equation.gas_constant * hot / 1000.0 * total)


class _Terms(NamedTuple):
    """The residual terms at one density: a = n delta^d exp(-delta^l), t, and w = d - l delta^l."""

    a: list[float]
    t: tuple[float, ...]
    w: list[float]
    log_delta: float


def _terms_at(gas: str, density: float) -> _Terms:
    """What does not depend on temperature, where that is to be found."""
    equation = gas_equation(gas)
    delta = density / equation.reducing_density
    powers = [1.0]
    for _ in range(15):
        powers.append(powers[-1] * delta)
    damping = [1.0, *(math.exp(-powers[l]) for l in range(1, 5))]  # noqa: E741
    return _Terms(
        [n * powers[d] * damping[l] for n, _, d, l in equation.residual],  # noqa: E741
        _exponents(gas),
        [d - l * powers[l] for _, _, d, l in equation.residual],  # noqa: E741
        math.log(delta),
    )


@lru_cache(maxsize=4)
def _exponents(gas: str) -> tuple[float, ...]:
    return tuple(one.t for one in gas_equation(gas).residual)


def _entropy_and_heat(gas: str, temperature_k: float, terms: _Terms) -> tuple[float, float]:
    """Entropy and heat capacity at constant volume, both over R, at the density of the terms."""
    tau = gas_equation(gas).reducing_temperature / temperature_k
    alpha, first, second = _ideal(gas, tau)
    alpha += terms.log_delta
    for a, t in zip(terms.a, terms.t, strict=True):
        a *= tau**t
        alpha += a
        a *= t
        first += a
        second += a * (t - 1.0)
    return first - alpha, -second


def squeezed_slowly(gas: str, temperature_k: float, density: float, ratio: float) -> State:
    """A gas squeezed so slowly that its temperature stays: to ``ratio`` times its density.

    Equation   p1 = p(T0, r rho0)
    Symbols    p1    returned       [MPa]
               T0    temperature_k  [K]
               rho0  density        [mol/L]
               r     ratio          [1]
    Valid      200 to 700 K, up to 1.5 times the critical density; else nan
    Source     Span et al. 2000, Lemmon et al. 2000

    >>> squeezed_slowly("air", 293.15, gas_density("air", 293.15, 1.5), 1.5).pressure_mpa
    2.24542
    """
    return State(temperature_k, gas_pressure(gas, temperature_k, ratio * density))


def heated(gas: str, temperature_k: float, density: float, to_temperature_k: float) -> State:
    """A gas heated or cooled in a room that does not change.

    Equation   p1 = p(T1, rho0)
    Symbols    p1    returned          [MPa]
               T0    temperature_k     [K]
               T1    to_temperature_k  [K]
               rho0  density           [mol/L]
    Valid      200 to 700 K, up to 1.5 times the critical density; else nan
    Source     Span et al. 2000, Lemmon et al. 2000; 20 MPa of nitrogen from 20 to 80 degC: the ideal gas
               is 6.4 % low

    >>> heated("nitrogen", 293.15, gas_density("nitrogen", 293.15, 20.0), 353.15).pressure_mpa
    25.7
    """
    return State(to_temperature_k, gas_pressure(gas, to_temperature_k, density))
