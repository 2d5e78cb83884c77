"""What the ends of a service do to a bushing: sizes are drawn at 20 degC (ISO 1), metals grow unequally.

An aluminium housing grows away from a bushing of steel or bronze in the heat, and closes on the shaft in
the cold. A plastic bushing does the opposite: it is loosest in its seat in the cold.
"""

from __future__ import annotations

from fitcheck.numbers import Real, Span
from fitcheck.rule import rule
from schema.bushing_tables import Expansion

REFERENCE_TEMPERATURE_DEG_C = 20.0  # ISO 1


@rule(
    unit="mm",
    equation="s_T = s (1 + e)",
    symbols={"s_T": "size at temperature [mm]", "s": "size_mm", "e": "strain"},
    source="linear expansion from 20 degC (ISO 1)",
    rises_with=("size_mm", "strain"),
    valid={"size_mm": (0.5, 100.0), "strain": (-0.01, 0.02)},
)
def size_at_temperature(*, size_mm: Real, strain: Real) -> Real:
    """A size at another temperature than 20 degC.

    Equation   s_T = s (1 + e), e = alpha (T - 20)
    Symbols    s_T  returned  [mm]
               s    size_mm   [mm]  at 20 degC
               e    strain    [-]
    Valid      evenly warm, free to grow
    Source     linear expansion, ISO 1 for the 20 degC; own arithmetic: 40 mm of aluminium, 23e-6 per K, 10 K

    >>> size_at_temperature(size_mm=40.0, strain=23e-5)
    40.0092
    """
    return size_mm * (1.0 + strain)


@rule(
    unit="mm",
    equation="B_T = B + g",
    symbols={"B_T": "bore at temperature [mm]", "B": "fitted_bore_mm", "g": "growth_mm"},
    source="the bore follows its housing, its bushing or both; see growth of each kind",
    rises_with=("fitted_bore_mm", "growth_mm"),
    valid={"fitted_bore_mm": (5.0, 60.0), "growth_mm": (-0.3, 0.3)},
)
def bore_at_temperature(*, fitted_bore_mm: Real, growth_mm: Real) -> Real:
    """A fitted bore at another temperature than 20 degC.

    Equation   B_T = B + g
    Symbols    B_T  returned        [mm]
               B    fitted_bore_mm  [mm]  at 20 degC
               g    growth_mm       [mm]
    Valid      pressed all round
    Source     addition; glycodur.de: a lined bushing in steel closes by 0.0016 mm per 20 K

    >>> bore_at_temperature(fitted_bore_mm=12.0600, growth_mm=-0.0016)
    12.0584
    """
    return fitted_bore_mm + growth_mm


def strain_of(expansion: Expansion, rise_k: float) -> Span:
    """Thermal strain over the range of a published expansion; the ends change places below 20 degC."""
    ends = sorted((expansion.low * rise_k, expansion.high * rise_k))
    return Span(ends[0], expansion.middle * rise_k, ends[1])


def wrapped_growth(
    *, outside_mm: float, inside_mm: float, housing: Span, body: Span, lining_mm: tuple[float, float]
) -> Span:
    """Growth of the bore of a wrapped bushing: the housing grows, the wall grows inwards, the lining swells.

    Equation   g = D e_h - (D - d) e_b - l
    Symbols    D, d      outside_mm, inside_mm  [mm]  nominal
               e_h, e_b  housing, body          [-]   strains
               l         lining_mm              [mm]  least and most that the lining takes of the clearance
    Source     rigid housing as for the fitted bore; glycodur.de for the lining
    """
    wall = outside_mm - inside_mm
    return Span(
        outside_mm * housing.low - wall * body.high - lining_mm[1],
        outside_mm * housing.middle - wall * body.middle - sum(lining_mm) / 2.0,
        outside_mm * housing.high - wall * body.low - lining_mm[0],
    )


def pressed_growth(*, outside_mm: float, inside_mm: float, housing: Span, body: Span, share: Span) -> Span:
    """Growth of the bore of a solid bushing: its own, and what the changing interference lets go or takes.

    Equation   g = d e_b + k D (e_h - e_b)
    Symbols    D, d      outside_mm, inside_mm  [mm]  as delivered
               e_h, e_b  housing, body          [-]   strains
               k         share                  [-]   of the interference that closes the bore in
    Source     Lamé is linear in the interference
    """

    def at(e_h: float, e_b: float, k: float) -> float:
        return inside_mm * e_b + k * outside_mm * (e_h - e_b)

    corners = [at(h, b, k) for h in housing[::2] for b in body[::2] for k in share[::2]]
    return Span(min(corners), at(housing.middle, body.middle, share.middle), max(corners))
