"""How a bore closes in when its sleeve is pressed into a hub; what roughness takes of the interference."""

from __future__ import annotations

from fitcheck.bushings.press_fit import LAME, bore_close_in, interface_pressure
from fitcheck.numbers import Real, larger, root
from fitcheck.rule import rule

_POISSON = (0.2, 0.4)
_MODULUS = (2_000.0, 215_000.0)


@rule(
    unit="mm",
    equation="delta_w = delta - s (Rz_h + Rz_s) / 1000, not below 0",
    symbols={
        "delta_w": "interference left after the peaks are flattened [mm]",
        "delta": "interference_mm",
        "s": "share",
        "Rz_h": "hub_rz_um",
        "Rz_s": "sleeve_rz_um",
    },
    source="share 0.2 printed (tribology-abc.com, interference fits), 0.8 from memory (DIN 7190)",
    rises_with=("interference_mm",),
    falls_with=("share", "hub_rz_um", "sleeve_rz_um"),
    valid={
        "interference_mm": (0.0, 0.3),
        "share": (0.0, 1.0),
        "hub_rz_um": (0.0, 25.0),
        "sleeve_rz_um": (0.0, 25.0),
    },
)
def flattened_interference(
    *, interference_mm: Real, share: Real, hub_rz_um: Real, sleeve_rz_um: Real
) -> Real:
    """Interference left once pressing has flattened the peaks of both surfaces.

    Equation   delta_w = delta - s (Rz_h + Rz_s) / 1000, not below 0
    Symbols    delta_w  returned         [mm]
               delta    interference_mm  [mm]
               s        share            [-]   0.2 in one source, 0.8 in another
               Rz_h     hub_rz_um        [um]
               Rz_s     sleeve_rz_um     [um]
    Valid      metal on metal; told beside, never a proof
    Source     tribology-abc.com, notes on interference fits: Rz = 6 Ra, loss printed 1.8 um for Ra 0.5 and
               1.0 um; DIN 7190 from memory has four times as much

    >>> 1000 * (0.030 - flattened_interference(interference_mm=0.030, share=0.2, hub_rz_um=6.0,
    ...                                        sleeve_rz_um=3.0))
    1.8
    """
    return larger(interference_mm - share * (hub_rz_um + sleeve_rz_um) / 1000.0, 0.0)


@rule(
    unit="1",
    equation="k = bore_close_in / interference, both by Lamé; at most 1 / sqrt(1 - nu_s^2), in a rigid hub",
    symbols={
        "k": "close-in of the bore over the interference [-]",
        "d": "interface_diameter_mm",
        "D_h": "hub_outside_mm",
        "E_h": "hub_modulus_mpa",
        "nu_h": "hub_poisson",
        "b": "sleeve_bore_mm",
        "E_s": "sleeve_modulus_mpa",
        "nu_s": "sleeve_poisson",
    },
    source=LAME,
    rises_with=("hub_outside_mm", "hub_modulus_mpa", "sleeve_poisson"),
    falls_with=("hub_poisson", "sleeve_modulus_mpa"),
    valid={
        "interface_diameter_mm": (20.1, 24.0),
        "hub_outside_mm": (26.0, 60.0),
        "hub_modulus_mpa": _MODULUS,
        "hub_poisson": _POISSON,
        "sleeve_bore_mm": (12.1, 19.0),
        "sleeve_modulus_mpa": _MODULUS,
        "sleeve_poisson": _POISSON,
    },
)
def close_in_share(
    *,
    interface_diameter_mm: Real,
    hub_outside_mm: Real,
    hub_modulus_mpa: Real,
    hub_poisson: Real,
    sleeve_bore_mm: Real,
    sleeve_modulus_mpa: Real,
    sleeve_poisson: Real,
) -> Real:
    """How much of the interference the bore of a sleeve closes in by.

    Equation   k = bore_close_in / interference, both by Lamé
    Symbols    k     returned               [-]
               d     interface_diameter_mm  [mm]
               D_h   hub_outside_mm         [mm]
               E_h   hub_modulus_mpa        [MPa]
               nu_h  hub_poisson            [-]
               b     sleeve_bore_mm         [mm]
               E_s   sleeve_modulus_mpa     [MPa]
               nu_s  sleeve_poisson         [-]
    Valid      elastic; above 1 for a thick plastic sleeve in a stiff hub, never above 1 / sqrt(1 - nu_s^2)
    Source     Lamé as above; the example is own arithmetic: bronze 12 x 16 in a steel housing of 24 mm

    >>> close_in_share(interface_diameter_mm=16.0, hub_outside_mm=24.0, hub_modulus_mpa=210e3,
    ...                hub_poisson=0.3, sleeve_bore_mm=12.0, sleeve_modulus_mpa=110e3, sleeve_poisson=0.34)
    0.72
    """
    pressure = interface_pressure.function(
        interference_mm=1.0,
        hub_bore_mm=interface_diameter_mm,
        hub_outside_mm=hub_outside_mm,
        hub_modulus_mpa=hub_modulus_mpa,
        hub_poisson=hub_poisson,
        sleeve_outside_mm=interface_diameter_mm,
        sleeve_bore_mm=sleeve_bore_mm,
        sleeve_modulus_mpa=sleeve_modulus_mpa,
        sleeve_poisson=sleeve_poisson,
    )
    return bore_close_in.function(
        pressure_mpa=pressure,
        sleeve_outside_mm=interface_diameter_mm,
        sleeve_bore_mm=sleeve_bore_mm,
        sleeve_modulus_mpa=sleeve_modulus_mpa,
    )


@rule(
    unit="1",
    equation="k_most = 1 / sqrt(1 - nu^2)",
    symbols={"k_most": "most a bore closes in by, over the interference [-]", "nu": "poisson"},
    source="Lamé in a rigid hub, at the thickness of wall where it is greatest",
    rises_with=("poisson",),
    valid={"poisson": (0.0, 0.49)},
)
def most_close_in_share(*, poisson: Real) -> Real:
    """The most of the interference that any elastic hub can hand on to the bore.

    Equation   k_most = 1 / sqrt(1 - nu^2)
    Symbols    k_most  returned  [-]
               nu      poisson   [-]  of the sleeve
    Valid      elastic; greatest over all thicknesses of wall, in a rigid hub
    Source     from Lamé: k = 2 x / (1 + x^2 - nu (1 - x^2)) for a rigid hub, x bore over outside diameter, is
               greatest at x^2 = (1 - nu) / (1 + nu). Shops take 1 for it (common practice)

    >>> most_close_in_share(poisson=0.34)
    1.063
    """
    return 1.0 / root(1.0 - poisson**2)


@rule(
    unit="mm",
    equation="c = k delta, 0 where there is no interference",
    symbols={"c": "close-in of the bore, diametral [mm]", "k": "share", "delta": "interference_mm"},
    source="definition of the share",
    rises_with=("share", "interference_mm"),
    valid={"share": (0.0, 1.1), "interference_mm": (-0.3, 0.3)},
)
def shared_close_in(*, share: Real, interference_mm: Real) -> Real:
    """Close-in of a bore from the share of the interference it takes.

    Equation   c = k delta, 0 where there is no interference
    Symbols    c      returned         [mm]  diametral
               k      share            [-]
               delta  interference_mm  [mm]
    Valid      elastic
    Source     definition of the share; 0.72 of 0.046 mm (sintered 12 x 16 at the largest interference of
               ISO 2795 in H7), own arithmetic

    >>> shared_close_in(share=0.72, interference_mm=0.046)
    0.0331
    """
    return share * larger(interference_mm, 0.0)
