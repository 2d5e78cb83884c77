"""What a thread is, read from its designation: ISO metric, Unified, and the threads of tyre valves.

    M8x1   M8   M8x1-6g   M10x1.5-6H/6g      ISO 261 sizes, ISO 965-1 classes; -LH for left hand
    1/4-28 UNF   #10-32   7/16-20 UNF-2B     Unified sizes, ASME B1.1 classes
    5V1   8V1   0.305-32   CTV8-32   Vg 8    tyre-valve threads, by print only

A valve thread is neither metric nor Unified, so its diameters are never worked out from those profiles.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any, NamedTuple

from schema.errors import InputError, UnknownName
from schema.fields import Meaning, field_of
from schema.model import REQUIRED
from schema.nearest import nearest
from schema.notation import LONGEST_TEXT, normalised
from schema.thread_tables import (
    INCH,
    coarse_pitches,
    metric_sizes,
    plain_spelling,
    unified_sizes,
    valve_limits,
    valve_threads,
)

EXAMPLES = "M8x1, M10x1.5-6H, 1/4-28 UNF, #10-32, 5V1, 0.305-32"
METRIC, UNIFIED, VALVE = "metric", "unified", "valve"


class Thread(NamedTuple):
    """A thread. ``major_mm`` and ``pitch_mm`` are basic sizes, None where no print was found.

    ``external_class`` and ``internal_class`` are as written (6g, 6H, 2A, 2B), "" where not told. ``grade``
    says how well its size is confirmed. ``side`` is the thread whose major diameter a valve thread's print
    gives: external, internal or both.
    """

    label: str
    family: str
    major_mm: float | None
    pitch_mm: float | None
    tpi: float | None
    external_class: str
    internal_class: str
    side: str
    grade: str
    source: str
    text: str
    note: str = ""
    left_hand: bool = False

    @property
    def largest_major_mm(self) -> float | None:
        """The most its crests may measure as an external thread [mm]: what a seal must pass over."""
        printed = valve_limits().get((self.label, "external", "major")) if self.family == VALVE else None
        if printed is not None and printed.high_mm is not None:
            return float(printed.high_mm)
        return self.major_mm

    @property
    def in_words(self) -> str:
        """Its name with its size: 8V1 (7.747 mm, 32 turns per inch)."""
        hand = " left hand" if self.left_hand else ""
        if self.family == METRIC or self.major_mm is None or self.pitch_mm is None:
            return self.label + hand
        turns = f"{self.tpi:g} turns per inch" if self.tpi else f"pitch {self.pitch_mm:g} mm"
        return f"{self.label} ({self.major_mm:.4g} mm, {turns}){hand}"

    def __str__(self) -> str:
        return self.text


def parse_thread(text: str, *, field: str = "thread") -> Thread:
    """Read a thread designation. Raises InputError naming ``field``.

    >>> parse_thread("M8").pitch_mm
    1.25
    >>> parse_thread("0.305-32").label
    '8V1'
    >>> parse_thread("1/4-28 UNF").major_mm
    6.35
    """
    if len(text) > LONGEST_TEXT:
        raise _refuse(field, text[:LONGEST_TEXT], "this is too long for a thread")
    plain = " ".join(normalised(text).replace("×", "x").replace("*", "x").split())
    if not plain:
        raise _refuse(field, text, "nothing is given")
    if _LEFT_HAND.search(plain):
        return parse_thread(_LEFT_HAND.sub("", plain), field=field)._replace(text=text, left_hand=True)
    valve = valve_threads().get(plain_spelling(plain))
    if valve is not None:
        return Thread(
            valve.name,
            VALVE,
            None if valve.major_mm is None else float(valve.major_mm),
            None if valve.pitch_mm is None else float(valve.pitch_mm),
            None if valve.tpi is None else float(valve.tpi),
            "",
            "",
            valve.side,
            valve.grade,
            valve.source,
            text,
            valve.note,
        )
    metric = _METRIC.fullmatch(plain)
    if metric is not None:
        return _metric(metric, text, field)
    unified = _UNIFIED.fullmatch(plain)
    if unified is not None:
        return _unified(unified, text, field)
    raise _unread(field, text, plain)


_LEFT_HAND = re.compile(r"\s?-?\s?\bLH$", re.IGNORECASE)

# -- ISO metric ------------------------------------------------------------------------------------

_METRIC = re.compile(
    r"M\s?(?P<major>\d+(?:[.,]\d+)?)(?:\s?x\s?(?P<pitch>\d*[.,]?\d+))?(?:\s?-\s?(?P<class>[\w/]+))?",
    re.IGNORECASE,
)
_CLASS = re.compile(r"(?:[3-9][a-hG-H]){1,2}")


def _metric(found: re.Match[str], text: str, field: str) -> Thread:
    major = Decimal(found["major"].replace(",", ".")).normalize()
    if found["pitch"]:
        pitch = Decimal(found["pitch"].replace(",", ".")).normalize()
    else:
        coarse = coarse_pitches().get(major)
        if coarse is None:
            raise _refuse(
                field, text, f"M{major:f} has no coarse pitch in the lists read", "the pitch as well", "M15x1"
            )
        pitch = coarse
    if not (Decimal(1) <= major <= Decimal(300) and Decimal("0.2") <= pitch <= major / 4):
        raise _refuse(
            field, text, "this is no size of a metric thread", "M1 to M300, pitch to a quarter of it"
        )
    size = metric_sizes().get((major, pitch))
    if size is None:
        _refuse_valve_size(field, text, major, pitch)
    external, internal = _classes(found["class"] or "", text, field)
    return Thread(
        f"M{major:f}x{pitch:f}",
        METRIC,
        float(major),
        float(pitch),
        None,
        external,
        internal,
        "both",
        size.grade if size else "derived",
        size.source if size else "not in the lists of ISO 261 sizes read; profile of ISO 68-1",
        text,
    )


def _classes(written: str, text: str, field: str) -> tuple[str, str]:
    """External and internal class of ``6H/6g``; a small letter is external, a capital internal."""
    external = internal = ""
    for one in written.split("/") if written else ():
        if not _CLASS.fullmatch(one) or len({letter.isupper() for letter in one if letter.isalpha()}) > 1:
            raise _refuse(
                field,
                text,
                f"{one!r} is no tolerance class of ISO 965-1",
                "6g (external), 6H (internal), 6H/6g",
                "M8x1-6g",
            )
        if one[1].isupper():
            internal = one
        else:
            external = one
    if written.count("/") > 1 or ("/" in written and not (external and internal)):
        raise _refuse(field, text, "a fit is one internal and one external class", "6H/6g", "M8x1-6H/6g")
    return external, internal


def _refuse_valve_size(field: str, text: str, major: Decimal, pitch: Decimal) -> None:
    """M6x0.8 is no metric size, but a valve thread has just that diameter and pitch."""
    for valve in valve_threads().values():
        if valve.major_mm is None or valve.pitch_mm is None:
            continue
        if abs(valve.major_mm / major - 1) < Decimal("0.01") and abs(valve.pitch_mm / pitch - 1) < Decimal(
            "0.005"
        ):
            raise _refuse(
                field,
                text,
                f"M{major:f} is not made with pitch {pitch:f}; {valve.name} has that size, another profile",
                f"{valve.name}, or a metric size",
                valve.name,
            )


# -- Unified ---------------------------------------------------------------------------------------

_UNIFIED = re.compile(
    r"(?P<size>(?:#|No\.?\s?)?\d+(?:\s\d+/\d+|/\d+)?|\d*\.\d+)\s?(?:in|\")?\s?-\s?(?P<tpi>\d+)"
    r"(?:\s?-?\s?(?P<series>UN[A-Z]*))?(?:\s?-\s?(?P<class>[1-3][AB]))?",
    re.IGNORECASE,
)


def _unified(found: re.Match[str], text: str, field: str) -> Thread:
    written, tpi = found["size"], int(found["tpi"])
    size_name = re.sub(r"^no\.?\s?", "#", written, flags=re.IGNORECASE)
    if size_name.isdigit() and int(size_name) <= 12:
        size_name = f"#{size_name}"
    size = unified_sizes().get((size_name, tpi))
    if size is None and "." in written:
        size_name, size = next(
            (
                (name, one)
                for (name, turns), one in unified_sizes().items()
                if turns == tpi and one.major_mm == Decimal(written) * INCH
            ),
            (written, None),
        )
    series = (found["series"] or "").upper()
    if size is None:
        known = ", ".join(f"{name}-{turns}" for name, turns in unified_sizes())
        raise _refuse(field, text, "this Unified size is not in the list read", known, "1/4-28 UNF")
    if series and series not in ("UN", "UNS", size.series):
        raise _refuse(
            field,
            text,
            f"{size_name}-{tpi} is {size.series}, not {series}",
            "",
            f"{size_name}-{tpi} {size.series}",
        )
    grade = (found["class"] or "").upper()
    return Thread(
        f"{size_name}-{tpi} {size.series}",
        UNIFIED,
        float(size.major_mm),
        float(size.pitch_mm),
        float(tpi),
        grade if grade.endswith("A") else "",
        grade if grade.endswith("B") else "",
        "both",
        size.grade,
        size.source,
        text,
    )


# -- refusals --------------------------------------------------------------------------------------


def _refuse(
    field: str, given: str, problem: str, allowed: str = EXAMPLES, example: str = "M8x1"
) -> InputError:
    return InputError(field=field, given=given, problem=problem, allowed=allowed, example=example)


_PIPE = re.compile(r"(?:G|R|Rc|Rp|NPT|NPTF|BSPP?|BSPT|PG)\b.*|.*\b(?:NPTF?|BSP[PT]?|PG)", re.IGNORECASE)


def _unread(field: str, text: str, plain: str) -> InputError:
    if re.match(r"(?:MJ|UNJ)\s?\d", plain, re.IGNORECASE) or "UNJ" in plain.upper():
        return _refuse(field, text, "MJ and UNJ threads have a larger root radius and are not covered")
    if _PIPE.fullmatch(plain) or re.match(r"G\s?\d", plain, re.IGNORECASE):
        return _refuse(field, text, "pipe threads are not covered")
    names = {one.name for one in valve_threads().values()}
    if re.fullmatch(r"\d+(?:[.,]\d+)?\s?x\s?\d*[.,]?\d+", plain):
        return _refuse(
            field, text, "which family of threads is this?", EXAMPLES, f"M{plain.replace(' ', '')}"
        )
    return UnknownName(
        field=field,
        given=text,
        problem="this thread is not known",
        allowed=EXAMPLES,
        nearest=nearest(plain, names),
    )


def thread(doc: str, example: str, *, required: bool = False) -> Any:
    """A field that holds a Thread, read from its designation."""

    def read(value: Any, path: str) -> Thread:
        if isinstance(value, Thread):
            return value
        if not isinstance(value, str):
            raise _refuse(path, str(value), "a thread is given as a text", example=example)
        return parse_thread(value, field=path)

    return field_of(Meaning(doc, example, "thread", read), REQUIRED if required else None)
