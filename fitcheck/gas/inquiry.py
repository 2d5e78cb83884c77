"""A gas chamber as an inquiry: what is judged, by which limits, what is told, what is missing."""

from __future__ import annotations

import math
from collections.abc import Mapping

from fitcheck.decision import decision_rule
from fitcheck.gas.case import EXEMPT, MAY_LOCK, Case, case_of
from fitcheck.gas.pressures import RULES_OF
from fitcheck.gas.quantities import judged_of, room_is_bounded, room_of_another_depth, rooms_of
from fitcheck.gas.told import Unlocked, pressures_at, told_of
from fitcheck.gas.words import WORDS, beside_of
from fitcheck.inquiry import Inquiry, Judged, guarded_spans
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate, span
from fitcheck.setting import Setting
from fitcheck.single import lacking
from schema.chambers import GasChamber
from schema.finding import Finding, Limits, Status
from schema.fit import Fit
from schema.oils import gas_limits
from schema.reference import Reference
from schema.units import STANDARD_ATMOSPHERE_MPA

# Pressures are told only where the piston stays clear with at least this much of the uncertainty of
# what was measured, whatever rule decides.
_LEAST_GUARD = 2.0
# A gas squeezed by less than this, from any charge of a damper, is within the range of its equation.
_FEW_TIMES = 3.0
# What is set at every service comes before what another body or piston would change.
SET_ANEW = frozenset({"set_depth", "charge"})
_MAKER = "as given by the maker"


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """What is asked about a gas chamber."""
    del reference  # its tables are none of a gas chamber's
    case = case_of(fit)
    free = unlocked(case, fit)
    limited = case.place.pressure_limit is not None and free.hot

    def quantities(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
        found = judged_of(case, sizes, evaluate)
        if limited and "charge" in sizes:
            rooms = rooms_of(case, sizes, evaluate)
            if "gas_volume" in rooms:
                found |= pressures_at("hot", case, sizes, rooms, evaluate, free, kinds=("fast",))
        return found

    def telling(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
        return told_of(case, sizes, evaluate, free)

    return Inquiry(
        question=f"Does the gas side of {fit.place.name} bear the whole stroke, cold and hot?",
        sizes=dict(case.known.sizes),
        quantities=quantities,
        judged=tuple(_judged(case, limited)),
        surfaces=case.known.surfaces,
        of_part=SET_ANEW,
        exempt=EXEMPT,
        findings=tuple(_findings(case)),
        beside=beside_of(RULES_OF[case.gas].source if case.gas else ""),
        not_asked=tuple(_not_asked(case, free, fit)),
        taken=case.taken,
        cautions=tuple(_cautions(case)),
        telling=telling,
    )


def unlocked(case: Case, fit: Fit) -> Unlocked:
    """At which temperatures the piston, or bladder, is proven to stay clear at full stroke.

    A size without tolerance proves nothing, so that it excludes no lock.
    """
    if any(not case.known.sizes[name].toleranced for name in MAY_LOCK if name in case.known.sizes):
        return Unlocked(False, False)
    found = judged_of(case, guarded(case, fit), span)
    if case.bladder:
        free = _clear(found.get("bladder_room_left"))
        return Unlocked(free, free)
    as_set = _clear(found.get("travel_left_as_set"))
    return Unlocked(as_set, as_set and _clear(found.get("travel_left_hot")))


def _clear(left: Span | None) -> bool:
    return left is not None and left.low > 0.0


def guarded(case: Case, fit: Fit) -> dict[str, Span]:
    """The worst case of every size, what was measured widened by the guard of the decision rule."""
    setting = Setting(case.known.sizes, decision_rule(fit.choices.decision_rule), _asks_nothing)
    return guarded_spans(setting, _LEAST_GUARD)


def _asks_nothing(spans: Mapping[str, Span]) -> dict[str, Span]:
    return dict(spans)


def _judged(case: Case, limited: bool) -> list[Judged]:
    place = case.place
    heat = () if case.hot is not None else ("temperature range",)
    oil = () if case.oil_expansion is not None else ("oil_expansion_per_k by the oil's data sheet",)
    if case.bladder:
        words = WORDS["bladder_room_left"]
        judged = [
            Judged("bladder_room_left", words, gas_limits("bladder_room_left"), words.needs, (*heat, *oil))
        ]
    elif place.separator == "floating_piston":
        judged = _of_piston(case, heat, oil)
    else:
        judged = []
    if place.charge_range is not None and place.charge is not None:
        low, high = float(place.charge_range.lower), float(place.charge_range.upper)
        limits = Limits(low, high, "MPa", "worst_case", "maker's charge", _MAKER, "given", scale=1.0)
        judged.append(Judged("charge", WORDS["charge"], limits, ("charge",)))
    if place.piston_force is not None or place.main_bore_diameter is not None:
        words = WORDS["low_side_pressure"]
        gas = () if case.gas else ("gas",)
        # No page read prints what such a seal rubs with, and it only takes from the oil's pressure.
        rubs = place.separator == "floating_piston" and place.piston_friction is None
        friction = ("friction of the floating piston's seal",) if rubs else ()
        limits, wants = _low_side_limits(case), (*heat, *oil, *gas, *friction)
        judged.append(Judged("low_side_pressure", words, limits, words.needs, wants, bound=rubs))
    if limited and place.pressure_limit is not None:
        high = float(place.pressure_limit.lower)
        limits = Limits(None, high, "MPa", "worst_case", "maker's limit", _MAKER, "given", scale=high)
        words = WORDS["full_stroke_hot_fast"]
        judged.append(Judged("full_stroke_hot_fast", words, limits, words.needs))
    return judged


def _of_piston(case: Case, heat: tuple[str, ...], oil: tuple[str, ...]) -> list[Judged]:
    place = case.place
    told = [(name, value) for name, value in (("depth_from", place.depth_from), ("depth_to", place.depth_to))]
    from_to = tuple(name for name, value in told if value is None)
    piston = ("piston_length",) if place.piston_counts or from_to else ()
    as_set, hot, cold = (
        WORDS[name] for name in ("travel_left_as_set", "travel_left_hot", "oil_side_clearance")
    )
    limits = gas_limits("travel_left_as_set")
    least = place.least_travel_left
    if least is not None:
        limits = limits._replace(
            low=float(least.upper),
            guidance="maker's least travel left",
            source=f"{_MAKER}: {least.text}",
            grade="given",
            refuse_source=limits.source,
            refuse_grade=limits.grade,
        )
    return [
        Judged("travel_left_as_set", as_set, limits, (*as_set.needs, *piston), from_to),
        Judged(
            "travel_left_hot",
            hot,
            gas_limits("travel_left_hot"),
            (*hot.needs, *piston),
            (*from_to, *heat, *oil),
        ),
        Judged(
            "oil_side_clearance",
            cold,
            gas_limits("oil_side_clearance"),
            cold.needs,
            (*_room_of_that_depth(place), *heat, *oil),
            bound=room_is_bounded(place),
        ),
    ]


def _room_of_that_depth(place: GasChamber) -> tuple[str, ...]:
    """A drawn room belongs to the drawn depth: where the depth was read, the room has to be read as well."""
    if not room_of_another_depth(place):
        return ()
    return ("oil side room, measured with the piston at that depth",)


def _low_side_limits(case: Case) -> Limits:
    """Below the air around it is open, below vacuum refused."""
    air = case.known.sizes.get("ambient_pressure")
    around = float(STANDARD_ATMOSPHERE_MPA) if air is None else air.middle
    return gas_limits("low_side_pressure")._replace(refuse_low=-around)


def _findings(case: Case) -> list[Finding]:
    """What stands on its own: the separator, the gas, the charge."""
    findings = []
    if case.place.separator is None:
        findings.append(lacking("separator", "what parts gas from oil", "separator"))
    if case.place.charge is None:
        findings.append(lacking("charge_told", "gas charge (gauge)", "charge"))
    if case.gas is None:
        findings.append(lacking("gas_told", "gas of the charge", "gas"))
    if case.gases_differ:
        findings.append(
            Finding(
                rule="gas_told",
                quantity="gas of the charge",
                status=Status.NOT_PROVEN,
                meaning=f"the place says {case.gas}, its service another gas",
                reason="two gases are told",
                action="Give the gas that the maker names, in both.",
            )
        )
    return findings


def _not_asked(case: Case, free: Unlocked, fit: Fit) -> list[str]:
    place = case.place
    wanted = [
        ("charge against the maker's range: give charge_range", place.charge_range is None),
        ("what connecting a gauge takes: give gauge_volume", place.gauge_volume is None),
        ("thrust on the end cap: give seal_diameter", place.seal_diameter is None),
        (
            "cavitation: give piston_force and main_bore_diameter",
            place.piston_force is None and place.main_bore_diameter is None,
        ),
    ]
    told = [words for words, missing in wanted if missing]
    if not (free.hot or (case.hot is None and free.as_set)):
        told.insert(0, "pressure at full stroke: not told while hydraulic lock is not excluded")
    elif free.hot and _beyond_range(case, free, fit):
        told.insert(0, "highest pressure at full stroke: beyond the range of the equation of the gas")
    return told


def _beyond_range(case: Case, free: Unlocked, fit: Fit) -> bool:
    """Whether so little gas is left in the worst case that the equation of the gas does not reach."""
    sizes = guarded(case, fit)
    rooms = rooms_of(case, sizes, span)
    if "charge" not in sizes or not {"gas_volume", "displaced", "hot_growth"} <= rooms.keys():
        return False
    left = rooms["gas_volume"].low - rooms["displaced"].high - rooms["hot_growth"].high
    if rooms["gas_volume"].low < _FEW_TIMES * left:
        return False
    fast = pressures_at("hot", case, sizes, rooms, span, free, kinds=("fast",)).get("full_stroke_hot_fast")
    return fast is not None and math.isnan(fast.high)


def _cautions(case: Case) -> list[str]:
    """Short, in the order of the work; the maker's word comes first."""
    cautions = [
        "the maker's specification, local rules and trained practice come first; this is arithmetic",
        "charged until shown to be empty: release it by the maker's valve and method, slowly, pointed away, "
        "shaft fully out, and confirm zero before a ring or cap is touched",
        "never stand in line with a cap, a floating piston, a bladder or a shaft; a ring that will not "
        "free is loaded",
        "reading the charge changes it: a small chamber loses much to a hose",
        "no flame, oven or hot car for a charged unit: gas and oil both grow",
    ]
    if case.gas == "nitrogen":
        cautions.append(
            "nitrogen: regulator rated for the cylinder, cylinder chained, room aired; never oxygen"
        )
    if case.gas == "air":
        cautions.append(
            "air over oil only where the maker says so, by hand pump and at low pressure; never oxygen"
        )
    return cautions


def nothing(left: Span | None) -> bool:
    """Whether a travel or room cannot be told."""
    return left is None or any(map(math.isnan, left))
