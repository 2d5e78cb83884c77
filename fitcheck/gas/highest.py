"""The highest gas pressure of a chamber, for whatever has to hold it, and whether it locks before that."""

from __future__ import annotations

import math
from enum import StrEnum

from fitcheck.gas.case import MOVES_PRESSURE, Case, case_of
from fitcheck.gas.inquiry import guarded, nothing, unlocked
from fitcheck.gas.quantities import judged_of, rooms_of
from fitcheck.gas.told import pressures_at
from fitcheck.numbers import Span
from fitcheck.rule import span
from schema.fit import Fit
from schema.reference import Reference


class Lock(StrEnum):
    """Whether the oil is locked in at full stroke, hot: then no pressure bounds what a cap has to hold."""

    EXCLUDED = "excluded"
    POSSIBLE = "possible"
    CERTAIN = "certain"
    UNKNOWN = "unknown"


def locks(fit: Fit, reference: Reference) -> Lock:
    """Does the floating piston meet the gas end, or the bladder its least volume, in the worst case?"""
    del reference
    case = case_of(fit)
    found = judged_of(case, guarded(case, fit), span)
    as_set = found.get("travel_left_as_set")
    left = found.get("bladder_room_left" if case.bladder else "travel_left_hot")
    if as_set is not None and as_set.high < 0.0:
        return Lock.CERTAIN  # heat only makes it worse
    if left is None or nothing(left):
        return Lock.UNKNOWN
    if left.high < 0.0:
        return Lock.CERTAIN
    return Lock.EXCLUDED if unlocked(case, fit).hot else Lock.POSSIBLE


def _told_whole(case: Case) -> bool:
    """Whether separator and gas are told, and every size that moves the pressure with its tolerance."""
    sizes = case.known.sizes
    bare = any(not sizes[name].toleranced for name in MOVES_PRESSURE if name in sizes)
    return case.place.separator is not None and not case.gases_differ and not bare


def highest_pressure(fit: Fit, reference: Reference) -> Span | None:
    """Gas pressure [MPa, gauge] at full stroke, hottest: slow at its least to fast at its most.

    The upper end is that of the real gas without loss of heat, with every size at its worst and what was
    measured widened by the guard of the decision rule; the middle is that of the middle sizes, fast. None
    where it cannot be worked out, where a size that moves it has no tolerance, or where hydraulic lock is
    not excluded: see ``locks``. What it is a load of would else be proven by what itself is not.
    """
    del reference
    case = case_of(fit)
    if not _told_whole(case):
        return None
    free = unlocked(case, fit)
    sizes = guarded(case, fit)
    if case.hot is None or not free.hot or "charge" not in sizes:
        return None
    rooms = rooms_of(case, sizes, span)
    if "gas_volume" not in rooms:
        return None
    found = pressures_at("hot", case, sizes, rooms, span, free, kinds=("slow", "fast"))
    slow, fast = found.get("full_stroke_hot_slow"), found.get("full_stroke_hot_fast")
    if slow is None or fast is None or any(map(math.isnan, (*slow, *fast))):
        return None
    return Span(slow.low, fast.middle, fast.high)
