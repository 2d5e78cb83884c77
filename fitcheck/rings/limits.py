"""Chooses the published limits that a quantity of this ring, gland and service is judged by.

Where sources differ the default is named here once; any other can be chosen by its name, and the
limits carry the row they came from.
"""

from __future__ import annotations

from fitcheck.rings.squeeze import plain_squeeze
from schema.finding import Limits
from schema.guidance import Choices, GapRow, GlandDetailRow, Guidance, LimitRow, SqueezeRow
from schema.nearest import not_among

# A section this near to a tabled one uses its row: 1.80 and 1.78, 2.65 and 2.62, 3.55 and 3.53 mm
# (orings.co.uk gives both the same housing).
SAME_SECTION = 0.015

# Silicone tears easily: halve the clearance (Parker handbook, section IV).
HALVED_CLEARANCE = ("VMQ", "FVMQ")

SQUEEZE_SCALE = 10.0  # a margin against one limit of squeeze counts in steps of ten points of squeeze


def squeeze_limits(
    guidance: Guidance,
    choices: Choices,
    *,
    ring: str,
    gland: str,
    motion: str,
    medium: str,
    cross_section_mm: float,
) -> Limits | None:
    """The band of handbook squeeze [%] for a section; None where nothing published covers it.

    Between two tabled sections the band is interpolated and graded ``derived``.
    """
    name = choices.squeeze_guidance or default_squeeze_guidance(ring, motion, medium)
    rows = [
        row
        for row in guidance.squeeze
        if row.guidance == name
        and row.ring == ring
        and row.gland
        in (gland, "radial" if gland in ("rod", "piston") or ring == "four_lobed_ring" else gland)
        and row.motion == motion
        and row.medium in (medium, "any")
    ]
    if not rows:
        return None
    if rows[0].basis == "nominal":
        row = rows[0]
        return _squeeze(row, (row.low_percent, row.high_percent), row.grade, row.locator)
    return _by_section(rows, cross_section_mm)


def default_squeeze_guidance(ring: str, motion: str, medium: str) -> str:
    """The guidance that is used when none is chosen.

    A moving seal against gas gets its own: air glands are deeper than oil glands of the same section, and
    a floating piston is not refused for the low squeeze of an oil table.
    """
    if ring == "four_lobed_ring":
        return "four-lobed"
    if motion == "reciprocating" and medium == "gas":
        return "gas-two-tables"
    return "inch-handbook"


def squeeze_band(row: SqueezeRow) -> tuple[float | None, float | None]:
    """Smallest and largest squeeze [%] that a gland table row implies, by the handbook sum."""
    low = high = None
    if row.depth_max_mm is not None:
        smallest = row.cross_section_mm - row.cross_section_tolerance_mm
        low = float(plain_squeeze(cross_section_mm=smallest, gland_depth_mm=row.depth_max_mm))
    if row.depth_min_mm is not None:
        largest = row.cross_section_mm + row.cross_section_tolerance_mm
        high = float(plain_squeeze(cross_section_mm=largest, gland_depth_mm=row.depth_min_mm))
    return low, high


def _by_section(rows: list[SqueezeRow], section: float) -> Limits | None:
    ordered = sorted(rows, key=lambda row: row.cross_section_mm)
    closest = min(ordered, key=lambda row: abs(row.cross_section_mm - section))
    if abs(closest.cross_section_mm - section) <= SAME_SECTION * section:
        return _squeeze(closest, squeeze_band(closest), closest.grade, closest.locator)
    below = [row for row in ordered if row.cross_section_mm < section]
    above = [row for row in ordered if row.cross_section_mm > section]
    if not below or not above:
        return None
    first, second = below[-1], above[0]
    share = (section - first.cross_section_mm) / (second.cross_section_mm - first.cross_section_mm)
    bands = zip(squeeze_band(first), squeeze_band(second), strict=True)
    band = tuple(None if a is None or b is None else a + share * (b - a) for a, b in bands)
    locator = f"between {first.locator} and {second.locator}"
    return _squeeze(first, (band[0], band[1]), "derived", locator)


def _squeeze(row: SqueezeRow, band: tuple[float | None, float | None], grade: str, locator: str) -> Limits:
    return Limits(
        low=band[0],
        high=band[1],
        unit="%",
        basis=row.basis,
        guidance=row.guidance,
        source=f"{row.source}: {locator}",
        grade=grade,
        scale=SQUEEZE_SCALE,
    )


def rule_limits(
    guidance: Guidance,
    choices: Choices,
    rule: str,
    *,
    gland: str,
    motion: str,
    medium: str,
    scale: float,
) -> Limits | None:
    """The limits of a rule for a gland and service; None where nothing published covers it."""
    wanted = choices.limit_guidance.get(rule, "")
    for row in guidance.limits:
        if row.rule != rule:
            continue
        named = row.guidance == wanted if wanted else row.default
        if named and _covers(row, gland, motion, medium):
            return Limits(
                low=row.low,
                high=row.high,
                refuse_low=row.refuse_low,
                refuse_high=row.refuse_high,
                unit=row.unit,
                basis=row.basis,
                guidance=row.guidance,
                source=f"{row.source}: {row.locator}",
                grade=row.grade,
                scale=scale,
                note=row.note,
                refuse_source=row.refuse_source,
                refuse_grade=row.refuse_grade,
            )
    return None


def _covers(row: LimitRow, gland: str, motion: str, medium: str) -> bool:
    return row.gland in (gland, "any") and row.motion in (motion, "any") and row.medium in (medium, "any")


def gap_limits(
    guidance: Guidance,
    choices: Choices,
    *,
    hardness_shore_a: float,
    pressure_mpa: float,
    cross_section_mm: float,
    material: str,
) -> Limits | None:
    """Limits of the diametral clearance [mm] without back-up rings; None where no table covers it.

    By default the tightest of the tables that cover the case decides for ``fits`` and the loosest for
    ``does not fit``: between them the sources disagree. A radial gap F/2 is doubled.
    """
    proving: list[tuple[float, GapRow]] = []
    refuting: list[GapRow] = []
    tabled = {row.hardness_shore_a for row in guidance.gaps}
    for level in sorted(level for level in tabled if level <= hardness_shore_a):
        rows = _rows_at(guidance.gaps, choices.gap_guidance, level, pressure_mpa, cross_section_mm)
        if any(pressure_mpa <= row.pressure_up_to_mpa for row in rows):
            tightest = min(rows, key=_diametral)
            proving.append((_diametral(tightest), tightest))
            refuting += [row for row in rows if pressure_mpa <= row.pressure_up_to_mpa]
    if not proving:
        return None
    # A harder ring bears at least what a softer one does, so the level that allows most decides.
    high, proof = max(proving, key=lambda one: one[0])
    loosest = max(refuting, key=_diametral)
    factor = clearance_factor(material)
    note = "; ".join(
        f"{row.guidance} {row.hardness_shore_a:g} Shore A {_diametral(row) * factor:.3g} mm"
        for row in refuting
    )
    return Limits(
        low=None,
        high=high * factor,
        refuse_high=_diametral(loosest) * factor,
        unit="mm",
        basis="worst_case",
        guidance=proof.guidance,
        source=f"{proof.source}: {proof.locator}",
        grade=proof.grade,
        scale=high * factor,
        note=f"{note}; halved for silicone" if factor != 1.0 else note,
        refuse_source=f"{loosest.source}: {loosest.locator}",
        refuse_grade=loosest.grade,
    )


def clearance_factor(material: str) -> float:
    """What a printed clearance is multiplied by for a material that tears easily."""
    return 0.5 if material in HALVED_CLEARANCE else 1.0


def _rows_at(
    gaps: tuple[GapRow, ...], chosen: str, hardness: float, pressure: float, section: float
) -> list[GapRow]:
    """The row of each table at a tabled hardness: for this pressure, or the last of a table that ends below.

    What a table allows at a lower pressure it does not allow at a higher one, so its last value still
    bounds what can be proven.
    """
    found = []
    for name in dict.fromkeys(row.guidance for row in gaps):
        if chosen in ("", name):
            rows = [row for row in gaps if row.guidance == name and row.hardness_shore_a == hardness]
            row = _gap_row(rows, pressure, section)
            if row is not None:
                found.append(row)
    return found


def _diametral(row: GapRow) -> float:
    return row.gap_max_mm * (2.0 if row.gap == "radial" else 1.0)


def _gap_row(rows: list[GapRow], pressure: float, section: float) -> GapRow | None:
    """The row of one table and hardness: its section, the next higher pressure or else its last."""
    sections = sorted({row.cross_section_mm for row in rows if row.cross_section_mm is not None})
    wanted = None
    if sections and rows[0].gap == "radial":
        fitting = [one for one in sections if section <= one]
        wanted = fitting[0] if fitting else None
    elif sections:
        fitting = [one for one in sections if one <= section * (1 + SAME_SECTION)]
        wanted = fitting[-1] if fitting else None
    of_section = [row for row in rows if row.cross_section_mm == wanted]
    above = [row for row in of_section if pressure <= row.pressure_up_to_mpa]
    if above:
        return min(above, key=lambda row: row.pressure_up_to_mpa)
    return max(of_section, key=lambda row: row.pressure_up_to_mpa, default=None)


def detail_row(
    guidance: Guidance, *, gland: str, motion: str, cross_section_mm: float
) -> GlandDetailRow | None:
    """Radius, run-out, clearance and widths printed for the nearest section not larger than this one."""
    wanted = "face" if gland == "face" else "radial"
    rows = [row for row in guidance.details if row.gland == wanted and row.motion == motion]
    fitting = [row for row in rows if row.cross_section_mm <= cross_section_mm * (1 + SAME_SECTION)]
    return max(fitting, key=lambda row: row.cross_section_mm) if fitting else None


def back_up_width_mm(row: GlandDetailRow | None) -> float | None:
    """Width of one back-up ring as the printed grooves for one and for two differ [mm].

    The step from none to one is smaller, since those grooves share the room to spread; it would let a
    ring in that has no place.
    """
    if row is None or row.width_one_back_up_mm is None or row.width_two_back_ups_mm is None:
        return None
    return row.width_two_back_ups_mm - row.width_one_back_up_mm


def check_choices(guidance: Guidance, choices: Choices) -> None:
    """Refuse names of guidance that do not exist, whether or not this question would use them."""
    named: list[tuple[str, str, set[str]]] = [
        ("choices.squeeze", choices.squeeze_guidance, {row.guidance for row in guidance.squeeze}),
        ("choices.gap", choices.gap_guidance, {row.guidance for row in guidance.gaps}),
    ]
    rules = {row.rule for row in guidance.limits}
    for rule, name in choices.limit_guidance.items():
        named.append(("choices.limits", rule, rules))
        if rule in rules:
            of_rule = {row.guidance for row in guidance.limits if row.rule == rule}
            named.append((f"choices.limits.{rule}", name, of_rule))
    for field, given, known in named:
        if given and given not in known:
            problem = "there is no such guidance" if field != "choices.limits" else "there is no such rule"
            raise not_among(sorted(known), field=field, given=given, problem=problem)
