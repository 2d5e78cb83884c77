"""What pushes on a retaining ring, and what its groove and the ring itself bear.

Capacities are loads at which something yields; no safety is in them. The pressure is the highest gauge
pressure, and it acts on the area the part seals on, not on the ring.
"""

from __future__ import annotations

import math

from fitcheck.numbers import Real, positive, smaller
from fitcheck.rule import rule

TABLE_YIELD_MPA = 200.0  # FN is printed for this yield (gandini.it, definitions)
LAND_FACTOR = 1.2  # q; fits 110 of 111 printed FN within 3 %, with a land of three depths

_FORCE = (100.0, 200_000.0)
_YIELD = (50.0, 1000.0)


@rule(
    unit="N",
    equation="F = p pi D^2 / 4",
    symbols={"F": "thrust [N]", "p": "pressure_mpa", "D": "seal_diameter_mm"},
    source="pressure times area",
    rises_with=("pressure_mpa", "seal_diameter_mm"),
    valid={"pressure_mpa": (0.0, 30.0), "seal_diameter_mm": (3.0, 100.0)},
)
def ring_thrust(*, pressure_mpa: Real, seal_diameter_mm: Real) -> Real:
    """Thrust of a gauge pressure on the part that the ring holds.

    Equation   F = p pi D^2 / 4
    Symbols    F   returned          [N]
               p   pressure_mpa      [MPa]  gauge, the highest it reaches
               D   seal_diameter_mm  [mm]   diameter the part seals on, not the ring's size
    Valid      one side at ambient pressure
    Source     pressure times area; 200 psi (1.379 MPa) on a bore of 30 mm

    >>> ring_thrust(pressure_mpa=1.379, seal_diameter_mm=30.0)
    974.8
    """
    return pressure_mpa * math.pi * seal_diameter_mm * seal_diameter_mm / 4.0


@rule(
    unit="N",
    equation="F_N = S pi (D^2 - d^2) / (4 q), q = 1.2",
    symbols={"F_N": "load of the groove [N]", "S": "yield_mpa", "D": "outer_mm", "d": "inner_mm"},
    source="groove area as in gandini.it, definitions; q = 1.2 found from 110 of 111 printed FN",
    rises_with=("yield_mpa", "outer_mm"),
    falls_with=("inner_mm",),
    valid={"yield_mpa": _YIELD, "outer_mm": (51.0, 60.0), "inner_mm": (40.0, 50.0)},
)
def groove_area_load(*, yield_mpa: Real, outer_mm: Real, inner_mm: Real) -> Real:
    """Load at which the groove yields, from its own area.

    Equation   F_N = S A / q,  A = pi (D^2 - d^2) / 4,  q = 1.2
    Symbols    F_N  returned   [N]
               S    yield_mpa  [MPa]  of the groove's metal
               D    outer_mm   [mm]   groove floor in a bore, shaft on a shaft
               d    inner_mm   [mm]   bore, or groove floor on a shaft
    Valid      land of three depths or more, a wall that does not give way
    Source     gandini.it, definitions: A_N and the yield of 200 N/mm2; q by 110 of 111 printed FN of DIN 471
               and DIN 472 within 3 %. Printed: DIN 471 size 25 with groove 23.9, 7.05 kN

    >>> groove_area_load(yield_mpa=200.0, outer_mm=25.0, inner_mm=23.9)
    7041
    """
    return yield_mpa * math.pi * (outer_mm * outer_mm - inner_mm * inner_mm) / (4.0 * LAND_FACTOR)


@rule(
    unit="N",
    equation="F_N' = F_N S / 200",
    symbols={"F_N'": "load of the groove [N]", "F_N": "tabled_n", "S": "yield_mpa"},
    source="gandini.it, definitions: FN is for a yield of 200 N/mm2",
    rises_with=("tabled_n", "yield_mpa"),
    valid={"tabled_n": _FORCE, "yield_mpa": _YIELD},
)
def groove_tabled_load(*, tabled_n: Real, yield_mpa: Real) -> Real:
    """The printed load of a groove for the yield of its own metal.

    Equation   F_N' = F_N S / 200
    Symbols    F_N'  returned   [N]
               F_N   tabled_n   [N]    as printed, for 200 MPa
               S     yield_mpa  [MPa]  of the groove's metal
    Valid      land of three depths or more, a wall that does not give way
    Source     gandini.it, definitions: FN is for a yield of 200 N/mm2; DIN 472 size 30 at 240 MPa

    >>> groove_tabled_load(tabled_n=11_300.0, yield_mpa=240.0)
    13560
    """
    return tabled_n * yield_mpa / TABLE_YIELD_MPA


@rule(
    unit="N",
    equation="F = min(F_N', F_A)",
    symbols={"F": "load of the groove [N]", "F_N'": "tabled_n", "F_A": "area_n"},
    source="of a printed load and the groove's own area the lower counts",
    rises_with=("tabled_n", "area_n"),
    valid={"tabled_n": _FORCE, "area_n": _FORCE},
)
def groove_capacity(*, tabled_n: Real, area_n: Real) -> Real:
    """Load of a groove: the printed one or that of its own area, whichever is lower.

    Equation   F = min(F_N', F_A)
    Symbols    F     returned  [N]
               F_N'  tabled_n  [N]  printed, for its own yield
               F_A   area_n    [N]  from its own area
    Valid      positive loads
    Source     DIN 472 size 38 prints 22.5 kN where the area gives 20.4: the lower

    >>> groove_capacity(tabled_n=22_500.0, area_n=20_420.0)
    20420
    """
    return smaller(tabled_n, area_n)


@rule(
    unit="N",
    equation="F_Rg' = F_Rg g / g'",
    symbols={
        "F_Rg'": "load of the ring [N]",
        "F_Rg": "tabled_n",
        "g": "tabled_chamfer_mm",
        "g'": "chamfer_mm",
    },
    source="from memory: the load of a ring falls with the chamfer that bears on it",
    rises_with=("tabled_n", "tabled_chamfer_mm"),
    falls_with=("chamfer_mm",),
    valid={"tabled_n": _FORCE, "tabled_chamfer_mm": (0.5, 3.5), "chamfer_mm": (0.5, 6.0)},
)
def wide_chamfer_load(*, tabled_n: Real, tabled_chamfer_mm: Real, chamfer_mm: Real) -> Real:
    """Load of a ring against a chamfer that is larger than the tabled one.

    Equation   F_Rg' = F_Rg g / g'
    Symbols    F_Rg'  returned           [N]
               F_Rg   tabled_n           [N]   printed, for the chamfer g
               g      tabled_chamfer_mm  [mm]
               g'     chamfer_mm         [mm]  chamfer of the part in hand
    Valid      g' above g
    Source     from memory: it never proves a fit

    >>> wide_chamfer_load(tabled_n=4600.0, tabled_chamfer_mm=1.0, chamfer_mm=2.0)
    2300
    """
    return tabled_n * tabled_chamfer_mm / chamfer_mm


@rule(
    unit="times",
    equation="f = F_C / F",
    symbols={"f": "capacity over thrust", "F_C": "capacity_n", "F": "thrust_n"},
    source="definition",
    rises_with=("capacity_n",),
    falls_with=("thrust_n",),
    valid={"capacity_n": _FORCE, "thrust_n": _FORCE},
)
def load_factor(*, capacity_n: Real, thrust_n: Real) -> Real:
    """How many times the thrust something bears before it yields.

    Equation   f = F_C / F
    Symbols    f    returned    [-]
               F_C  capacity_n  [N]
               F    thrust_n    [N]
    Valid      F above zero; nan else
    Source     definition; FRg of DIN 472 size 30, 4.6 kN, against 975 N

    >>> load_factor(capacity_n=4600.0, thrust_n=975.0)
    4.72
    """
    return capacity_n / positive(thrust_n)
