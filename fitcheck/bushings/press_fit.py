"""A sleeve pressed into a hub: pressure, stress, press force and how far the bore closes in.

Both are thick-walled cylinders, elastic, as long as each other, open at the ends (Lamé). The diameters of
hub and sleeve at the joint are two sizes, since each is made and measured by itself; in the one-diameter
form of textbooks both are the interface diameter. Interference is always diametral, never radial.
"""

from __future__ import annotations

from fitcheck.numbers import Real, larger, positive
from fitcheck.rule import rule

LAME = (
    "Lamé thick-walled cylinders: Shigley, press and shrink fits, and DIN 7190 guides, the same equation "
    "in every copy read"
)
_HUB = (20.1, 24.0)  # domain of a joint of about 20 mm
_HUB_OUTSIDE = (26.0, 60.0)
_SLEEVE = (20.1, 24.0)
_SLEEVE_BORE = (12.1, 19.0)  # above 0.486 of the outside: see the note of interface_pressure
_MODULUS = (2_000.0, 215_000.0)
_POISSON = (0.2, 0.4)


@rule(
    unit="mm",
    equation="delta = D - H",
    symbols={"delta": "diametral interference [mm]", "D": "outside_diameter_mm", "H": "housing_bore_mm"},
    source="ISO 286-1, definition of interference",
    rises_with=("outside_diameter_mm",),
    falls_with=("housing_bore_mm",),
    valid={"outside_diameter_mm": (1.0, 100.0), "housing_bore_mm": (1.0, 100.0)},
)
def seat_interference(*, outside_diameter_mm: Real, housing_bore_mm: Real) -> Real:
    """Diametral interference of a bushing in its housing; negative where it is loose.

    Equation   delta = D - H
    Symbols    delta  returned             [mm]
               D      outside_diameter_mm  [mm]  a wrapped bushing: as checked in its ring gauge, never free
               H      housing_bore_mm      [mm]
    Valid      both at one temperature
    Source     ISO 286-1, definition of interference; printed: 100 H7/p6, 2 to 59 um (Machine Drawing, p. 225)

    >>> seat_interference(outside_diameter_mm=100.059, housing_bore_mm=100.000)
    0.059
    """
    return outside_diameter_mm - housing_bore_mm


@rule(
    unit="MPa",
    equation="p = delta / (d_h / E_h ((D_h^2 + d_h^2) / (D_h^2 - d_h^2) + nu_h) "
    "+ d_s / E_s ((d_s^2 + b^2) / (d_s^2 - b^2) - nu_s))",
    symbols={
        "p": "pressure in the joint [MPa]",
        "delta": "interference_mm",
        "d_h": "hub_bore_mm",
        "D_h": "hub_outside_mm",
        "E_h": "hub_modulus_mpa",
        "nu_h": "hub_poisson",
        "d_s": "sleeve_outside_mm",
        "b": "sleeve_bore_mm",
        "E_s": "sleeve_modulus_mpa",
        "nu_s": "sleeve_poisson",
    },
    source=LAME,
    rises_with=(
        "interference_mm",
        "hub_outside_mm",
        "hub_modulus_mpa",
        "sleeve_outside_mm",
        "sleeve_modulus_mpa",
        "sleeve_poisson",
    ),
    falls_with=("hub_bore_mm", "hub_poisson", "sleeve_bore_mm"),
    valid={
        "interference_mm": (0.0, 0.3),
        "hub_bore_mm": _HUB,
        "hub_outside_mm": _HUB_OUTSIDE,
        "hub_modulus_mpa": _MODULUS,
        "hub_poisson": _POISSON,
        "sleeve_outside_mm": _SLEEVE,
        "sleeve_bore_mm": _SLEEVE_BORE,
        "sleeve_modulus_mpa": _MODULUS,
        "sleeve_poisson": _POISSON,
    },
)
def interface_pressure(
    *,
    interference_mm: Real,
    hub_bore_mm: Real,
    hub_outside_mm: Real,
    hub_modulus_mpa: Real,
    hub_poisson: Real,
    sleeve_outside_mm: Real,
    sleeve_bore_mm: Real,
    sleeve_modulus_mpa: Real,
    sleeve_poisson: Real,
) -> Real:
    """Pressure between a hub and a sleeve (or pin) pressed into it; 0 where there is no interference.

    Equation   p = delta / (c_h + c_s)
               c_h = d_h / E_h ((D_h^2 + d_h^2) / (D_h^2 - d_h^2) + nu_h)
               c_s = d_s / E_s ((d_s^2 + b^2) / (d_s^2 - b^2) - nu_s)
    Symbols    p      returned            [MPa]
               delta  interference_mm     [mm]   diametral; the radial one is half of it
               d_h    hub_bore_mm         [mm]
               D_h    hub_outside_mm      [mm]
               E_h    hub_modulus_mpa     [MPa]
               nu_h   hub_poisson         [-]
               d_s    sleeve_outside_mm   [mm]
               b      sleeve_bore_mm      [mm]   0 for a solid pin
               E_s    sleeve_modulus_mpa  [MPa]
               nu_s   sleeve_poisson      [-]
    Valid      elastic; D_h above d_h, d_s above b. The direction of d_s holds for a bore above 0.486 d_s,
               as every bushing has; a solid pin is asked with its diameter as one number
    Source     Shigley, press and shrink fits; DIN 7190 guides (one equation in all copies). Printed 48.75 MPa
               in a public worked sample: 50 mm shaft, hub 80 mm, interference 0.040 mm, 200 GPa (its inputs
               inferred, its four answers met)

    >>> interface_pressure(interference_mm=0.040, hub_bore_mm=50.0, hub_outside_mm=80.0, hub_poisson=0.3,
    ...                    hub_modulus_mpa=200e3, sleeve_outside_mm=50.0, sleeve_bore_mm=0.0,
    ...                    sleeve_modulus_mpa=200e3, sleeve_poisson=0.3)
    48.75
    """
    hub = _hub_factor(hub_bore_mm, hub_outside_mm) + hub_poisson
    sleeve = (sleeve_outside_mm**2 + sleeve_bore_mm**2) / positive(
        sleeve_outside_mm**2 - sleeve_bore_mm**2
    ) - sleeve_poisson
    give = hub_bore_mm / hub_modulus_mpa * hub + sleeve_outside_mm / sleeve_modulus_mpa * sleeve
    return larger(interference_mm, 0.0) / give


def _hub_factor(bore_mm: Real, outside_mm: Real) -> Real:
    return (outside_mm**2 + bore_mm**2) / positive(outside_mm**2 - bore_mm**2)


@rule(
    unit="MPa",
    equation="sigma = p (D_h^2 + d_h^2) / (D_h^2 - d_h^2)",
    symbols={
        "sigma": "hoop stress [MPa]",
        "p": "pressure_mpa",
        "d_h": "hub_bore_mm",
        "D_h": "hub_outside_mm",
    },
    source=LAME,
    rises_with=("pressure_mpa", "hub_bore_mm"),
    falls_with=("hub_outside_mm",),
    valid={"pressure_mpa": (0.0, 200.0), "hub_bore_mm": _HUB, "hub_outside_mm": _HUB_OUTSIDE},
)
def hub_hoop_stress(*, pressure_mpa: Real, hub_bore_mm: Real, hub_outside_mm: Real) -> Real:
    """Tension around the hub at its bore, where it is greatest.

    Equation   sigma = p (D_h^2 + d_h^2) / (D_h^2 - d_h^2)
    Symbols    sigma  returned        [MPa]
               p      pressure_mpa    [MPa]
               d_h    hub_bore_mm     [mm]
               D_h    hub_outside_mm  [mm]
    Valid      elastic; D_h above d_h
    Source     Shigley, press and shrink fits; printed 111.3 MPa in the worked sample of interface_pressure

    >>> hub_hoop_stress(pressure_mpa=48.75, hub_bore_mm=50.0, hub_outside_mm=80.0)
    111.25
    """
    return pressure_mpa * _hub_factor(hub_bore_mm, hub_outside_mm)


@rule(
    unit="MPa",
    equation="sigma_e = 2 p D_h^2 / (D_h^2 - d_h^2)",
    symbols={
        "sigma_e": "hoop tension less the pressure across it [MPa]",
        "p": "pressure_mpa",
        "d_h": "hub_bore_mm",
        "D_h": "hub_outside_mm",
    },
    source="Lamé, with the greatest shear stress as the measure of yield (Tresca): hoop stress plus pressure",
    rises_with=("pressure_mpa", "hub_bore_mm"),
    falls_with=("hub_outside_mm",),
    valid={"pressure_mpa": (0.0, 200.0), "hub_bore_mm": _HUB, "hub_outside_mm": _HUB_OUTSIDE},
)
def hub_yield_stress(*, pressure_mpa: Real, hub_bore_mm: Real, hub_outside_mm: Real) -> Real:
    """Stress at the hub's bore that is held against its yield strength: hoop tension and pressure together.

    Equation   sigma_e = sigma + p = 2 p D_h^2 / (D_h^2 - d_h^2)
    Symbols    sigma_e  returned        [MPa]
               p        pressure_mpa    [MPa]
               d_h      hub_bore_mm     [mm]
               D_h      hub_outside_mm  [mm]
    Valid      elastic; D_h above d_h
    Source     sum of the hoop stress above and the pressure (greatest shear stress, Tresca); the example is
               48.75 + 111.25 of the worked sample

    >>> hub_yield_stress(pressure_mpa=48.75, hub_bore_mm=50.0, hub_outside_mm=80.0)
    160.0
    """
    return pressure_mpa * (_hub_factor(hub_bore_mm, hub_outside_mm) + 1.0)


@rule(
    unit="MPa",
    equation="sigma = 2 p d_s^2 / (d_s^2 - b^2)",
    symbols={
        "sigma": "hoop compression at the sleeve's bore [MPa]",
        "p": "pressure_mpa",
        "d_s": "sleeve_outside_mm",
        "b": "sleeve_bore_mm",
    },
    source=LAME,
    rises_with=("pressure_mpa", "sleeve_bore_mm"),
    falls_with=("sleeve_outside_mm",),
    valid={"pressure_mpa": (0.0, 200.0), "sleeve_outside_mm": _SLEEVE, "sleeve_bore_mm": _SLEEVE_BORE},
)
def sleeve_hoop_stress(*, pressure_mpa: Real, sleeve_outside_mm: Real, sleeve_bore_mm: Real) -> Real:
    """Compression around the sleeve at its bore, as a positive number; a thin sleeve yields first.

    Equation   sigma = 2 p d_s^2 / (d_s^2 - b^2)
    Symbols    sigma  returned           [MPa]
               p      pressure_mpa       [MPa]
               d_s    sleeve_outside_mm  [mm]
               b      sleeve_bore_mm     [mm]
    Valid      elastic; d_s above b, b above 0
    Source     Lamé, as interface_pressure; the example is arithmetic

    >>> sleeve_hoop_stress(pressure_mpa=10.0, sleeve_outside_mm=16.0, sleeve_bore_mm=12.0)
    45.71
    """
    outside = sleeve_outside_mm**2
    return 2.0 * pressure_mpa * outside / positive(outside - sleeve_bore_mm**2)


@rule(
    unit="N",
    equation="F = pi d L p mu",
    symbols={
        "F": "axial force [N]",
        "d": "interface_diameter_mm",
        "L": "length_mm",
        "p": "pressure_mpa",
        "mu": "friction",
    },
    source="Shigley, press and shrink fits; the same equation in every copy read",
    rises_with=("interface_diameter_mm", "length_mm", "pressure_mpa", "friction"),
    valid={
        "interface_diameter_mm": (1.0, 100.0),
        "length_mm": (1.0, 100.0),
        "pressure_mpa": (0.0, 200.0),
        "friction": (0.0, 0.5),
    },
)
def press_force(*, interface_diameter_mm: Real, length_mm: Real, pressure_mpa: Real, friction: Real) -> Real:
    """Force that presses the sleeve in at the end of its way, or that would move it again.

    Equation   F = pi d L p mu
    Symbols    F   returned               [N]
               d   interface_diameter_mm  [mm]
               L   length_mm              [mm]
               p   pressure_mpa           [MPa]
               mu  friction               [-]
    Valid      the whole length in contact
    Source     Shigley, press and shrink fits; printed 45 950 N in the worked sample of interface_pressure,
               with mu L = 6 mm (inferred)

    >>> press_force(interface_diameter_mm=50.0, length_mm=50.0, pressure_mpa=48.75, friction=0.12) / 10
    4595
    """
    return 3.141592653589793 * interface_diameter_mm * length_mm * pressure_mpa * friction


@rule(
    unit="mm",
    equation="Delta b = 2 p d_s^2 b / (E_s (d_s^2 - b^2))",
    symbols={
        "Delta b": "close-in of the bore, diametral [mm]",
        "p": "pressure_mpa",
        "d_s": "sleeve_outside_mm",
        "b": "sleeve_bore_mm",
        "E_s": "sleeve_modulus_mpa",
    },
    source=LAME,
    rises_with=("pressure_mpa", "sleeve_bore_mm"),
    falls_with=("sleeve_outside_mm", "sleeve_modulus_mpa"),
    valid={
        "pressure_mpa": (0.0, 200.0),
        "sleeve_outside_mm": _SLEEVE,
        "sleeve_bore_mm": _SLEEVE_BORE,
        "sleeve_modulus_mpa": _MODULUS,
    },
)
def bore_close_in(
    *, pressure_mpa: Real, sleeve_outside_mm: Real, sleeve_bore_mm: Real, sleeve_modulus_mpa: Real
) -> Real:
    """How much smaller the bore of a sleeve is once it is pressed in.

    Equation   Delta b = 2 p d_s^2 b / (E_s (d_s^2 - b^2))
    Symbols    Delta b  returned            [mm]  diametral
               p        pressure_mpa        [MPa]
               d_s      sleeve_outside_mm   [mm]
               b        sleeve_bore_mm      [mm]
               E_s      sleeve_modulus_mpa  [MPa]
    Valid      elastic; d_s above b
    Source     Lamé, hoop strain at the bore of a sleeve under outside pressure; the example is arithmetic

    >>> bore_close_in(pressure_mpa=50.0, sleeve_outside_mm=16.0, sleeve_bore_mm=12.0,
    ...               sleeve_modulus_mpa=110e3)
    0.0249
    """
    outside = sleeve_outside_mm**2
    return (
        2.0 * pressure_mpa * outside * sleeve_bore_mm
        / (sleeve_modulus_mpa * positive(outside - sleeve_bore_mm**2))
    )  # fmt: skip
