"""Seals that pass over a thread on their way: what is sharper or larger than the seal cuts it."""

from __future__ import annotations

from schema.dimension import Dimension
from schema.errors import InputError
from schema.finding import Finding, Status
from schema.model import Model
from schema.places import least
from schema.threads import parse_thread
from schema.unit import Entry, Unit

SEALED_ON_A_SHAFT = ("rod_gland", "wiper_seat", "guide_ring_groove")
_SOURCE = (
    "crest of the thread against the inside of the seal: geometry; a sleeve over threads is common practice"
)


def threads_passed(unit: Unit) -> list[Finding]:
    """A finding for every seal on a shaft whose end has a thread; [] where no shaft tells one."""
    findings = []
    for label, shaft in unit.shafts.items():
        sealed = [
            entry
            for entry in unit.entries
            if entry.place.runs_on == label and entry.place.kind in SEALED_ON_A_SHAFT
        ]
        for thread, crest in _threads(shaft):
            if crest is None:
                findings += [_unknown(label, thread)] if any(map(_passing, sealed)) else []
                continue
            for entry in sealed:
                findings += _over(entry, label, thread, crest)
    return findings


def _threads(shaft: Model) -> list[tuple[str, float | None]]:
    """The threads of a shaft's ends with their largest crests [mm]; None where no print tells them."""
    found: list[tuple[str, float | None]] = []
    for name in str(getattr(shaft, "thread", "") or "").replace(",", ";").split(";"):
        if not name.strip():
            continue
        try:
            thread = parse_thread(name.strip(), field="thread")
        except InputError:
            found.append((name.strip(), None))
            continue
        found.append((str(thread), thread.largest_major_mm))
    return found


def _unknown(label: str, thread: str) -> Finding:
    """A thread of which no crest is known: what passes over it may be cut."""
    return Finding(
        rule="passes_thread",
        quantity=f"what passes over the thread {thread} of the {label}",
        status=Status.NOT_PROVEN,
        unit="mm",
        meaning="how far its crests stand out is not known: it may cut a seal",
        action=f"Give the thread of the {label} by its designation (M10x1, 1/4-28 UNF), or put a smooth, "
        "greased sleeve over it, and look at the seal after.",
        reason=f"{thread} cannot be read as a thread, or no page read prints its outside diameter",
        source=_SOURCE,
        grade="derived",
        lacks=(f"designation of the thread {thread}",),
    )


def _passing(entry: Entry) -> bool:
    """Whether anything with a bore of its own passes over the shaft's end on its way to this place."""
    return any(_inside(fitted.part) is not None for fitted in entry.parts)


def _inside(part: object) -> Dimension | None:
    """The bore by which a part is held against a thread; None for what is cut open or has none told."""
    inside = getattr(part, "inside_diameter", None)
    if not isinstance(inside, Dimension) or getattr(part, "kind", "") == "back_up_ring":
        return None
    return inside


def _over(entry: Entry, label: str, thread: str, crest_mm: float) -> list[Finding]:
    found = []
    for fitted in entry.parts:
        inside = _inside(fitted.part)
        if inside is None:
            continue
        name = str(getattr(fitted.part, "part_number", "")) or entry.name
        free = float(least(inside))
        clear = crest_mm <= free
        found.append(
            Finding(
                rule="passes_thread",
                quantity=f"{name} over the thread of the {label}",
                status=Status.FITS if clear else Status.NOT_PROVEN,
                unit="mm",
                low=free - crest_mm,
                middle=inside.middle - crest_mm,
                high=float(inside.upper) - crest_mm,
                meaning="passes clear of the crests"
                if clear
                else "meets the crests of the thread: it can be cut",
                action=""
                if clear
                else "Put a smooth, greased sleeve over the thread, and look at the seal after.",
                reason="" if clear else f"{thread} is up to {crest_mm:.2f} mm, the seal {free:.2f} mm inside",
                source=_SOURCE,
                grade="derived",
            )
        )
    return found
