"""What an external and an internal thread make together: play, engaged length, what they hold."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitcheck.inquiry import Judged, KnownSizes
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from fitcheck.threads.engagement import (
    PITCHES_LOST_AT_EACH_END,
    engaged_length,
    engagement_in_diameters,
    external_shear_area,
    internal_shear_area,
    normal_engagement_mm,
    pitch_clearance,
    room_below,
    stripping_load,
)
from fitcheck.threads.words import WORDS
from schema.dimension import Dimension
from schema.finding import Limits
from schema.thread_limits import EXTERNAL, INTERNAL, limits_of_size, pitch_diameter
from schema.thread_tables import PrintedLimits, core_rules, range_start_mm, thread_limits
from schema.threads import METRIC, Thread

_HALF_THE_OVERLAP = 0.5413  # of the pitch: half of d - D1 of the basic profile (ISO 68-1)


class Joint(NamedTuple):
    """Two threads of one designation, screwed together. ``gauged`` tells that one of them was measured."""

    thread: Thread
    outside: Thread
    external_pitch: Dimension | None
    internal_pitch: Dimension | None
    gauged: bool
    classes_told: bool
    external_major: Span | None
    internal_minor: Span | None

    @property
    def pitch_mm(self) -> float:
        """Pitch [mm]."""
        return self.thread.pitch_mm or 0.0

    @property
    def major_mm(self) -> float:
        """Basic major diameter [mm]."""
        return self.thread.major_mm or 0.0

    @property
    def sizes(self) -> KnownSizes:
        """The pitch diameters under their names in an inquiry, where they are asked about."""
        if not (self.gauged or self.classes_told):
            return KnownSizes({}, {})
        both = {
            "internal_pitch_diameter": self.internal_pitch,
            "external_pitch_diameter": self.external_pitch,
        }
        known = {name: one for name, one in both.items() if one is not None}
        return KnownSizes(dict(known), dict.fromkeys(known, "indirect"))


def joint_of(
    inside: Thread, outside: Thread, measured_inside: Dimension | None, measured_outside: Dimension | None
) -> Joint:
    """The joint of an internal and an external thread that are one; measured pitch diameters lead."""
    external, internal = limits_of_size(outside, EXTERNAL), limits_of_size(inside, INTERNAL)
    return Joint(
        inside,
        outside,
        measured_outside or pitch_diameter(outside, EXTERNAL),
        measured_inside or pitch_diameter(inside, INTERNAL),
        measured_inside is not None or measured_outside is not None,
        bool(inside.internal_class and outside.external_class),
        _span(external.major),
        _span(internal.minor),
    )


def _span(limits: PrintedLimits | None) -> Span | None:
    if limits is None or limits.low_mm is None or limits.high_mm is None:
        return None
    low, high = float(limits.low_mm), float(limits.high_mm)
    return Span(low, (low + high) / 2.0, high)


def engagement(
    joint: Joint,
    sizes: Mapping[str, Span],
    evaluate: Evaluate,
    *,
    clamped: Span | None,
    blind: bool,
) -> dict[str, Span]:
    """Engaged length, the same in diameters, and the room below the tip of a blind thread."""
    length, depth = sizes.get("length_under_the_head"), sizes.get("thread_depth")
    if length is None or depth is None or clamped is None:
        return {}
    lost = PITCHES_LOST_AT_EACH_END * joint.pitch_mm
    found = {
        "engaged_length": evaluate(
            engaged_length,
            length_mm=length,
            clamped_mm=clamped,
            thread_depth_mm=depth,
            lost_at_tip_mm=Span.point(lost),
            lost_at_mouth_mm=sizes.get("mouth_chamfer", Span.point(lost)),
        )
    }
    found["engagement_in_diameters"] = evaluate(
        engagement_in_diameters, engaged_mm=found["engaged_length"], major_diameter_mm=joint.major_mm
    )
    if blind:
        found["room_below"] = evaluate(room_below, depth_mm=depth, length_mm=length, clamped_mm=clamped)
    return found


def nothing_between(clamped: Dimension | None) -> frozenset[str]:
    """The name of a clamped thickness of 0 mm, which needs no tolerance: the head bears on the face."""
    nothing = clamped is not None and clamped.upper == 0 and clamped.standard_uncertainty == 0
    return frozenset({"clamped_thickness"}) if nothing else frozenset()


def play(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
    """Play between the pitch diameters, where both are asked about."""
    internal, external = sizes.get("internal_pitch_diameter"), sizes.get("external_pitch_diameter")
    if internal is None or external is None:
        return {}
    return {"pitch_clearance": evaluate(pitch_clearance, internal_mm=internal, external_mm=external)}


def strips_at(
    joint: Joint,
    sizes: Mapping[str, Span],
    evaluate: Evaluate,
    engaged: Span,
    *,
    internal_strength: Span,
    external_strength: Span,
) -> Span | None:
    """Load that strips the weaker thread; None where the limits of this thread are not printed."""
    d2 = sizes.get("external_pitch_diameter") or _of(joint.external_pitch)
    big_d2 = sizes.get("internal_pitch_diameter") or _of(joint.internal_pitch)
    if joint.external_major is None or joint.internal_minor is None or d2 is None or big_d2 is None:
        return None
    return evaluate(
        stripping_load,
        engaged_mm=engaged,
        internal_area=evaluate(
            internal_shear_area,
            major_diameter_mm=joint.external_major,
            pitch_diameter_mm=big_d2,
            pitch_mm=joint.pitch_mm,
        ),
        external_area=evaluate(
            external_shear_area,
            minor_diameter_mm=joint.internal_minor,
            pitch_diameter_mm=d2,
            pitch_mm=joint.pitch_mm,
        ),
        internal_strength_mpa=internal_strength,
        external_strength_mpa=external_strength,
    )


def limits_printed(joint: Joint) -> bool:
    """Whether all limits of size that a stripping load needs are printed or measured."""
    return None not in (
        joint.external_major,
        joint.internal_minor,
        joint.external_pitch,
        joint.internal_pitch,
    )


def _of(size: Dimension | None) -> Span | None:
    return None if size is None else Span(float(size.lower), size.middle, float(size.upper))


def judged_play(joint: Joint) -> tuple[Judged, ...]:
    """The play of the pitch diameters, judged where it is asked about."""
    if not joint.sizes.sizes:
        return ()
    return (
        Judged(
            "pitch_clearance",
            WORDS["pitch_clearance"],
            _play_limits(joint),
            ("internal_pitch_diameter", "external_pitch_diameter"),
            why_open="no limits of these threads were found in print",
        ),
    )


def _play_limits(joint: Joint) -> Limits:
    """From no play to the most that the two classes make; refused where half the overlap is gone."""
    limits = thread_limits("pitch_clearance")
    internal = limits_of_size(joint.thread, INTERNAL).pitch
    external = limits_of_size(joint.outside, EXTERNAL).pitch
    if internal is None or external is None or internal.high_mm is None or external.low_mm is None:
        return limits._replace(scale=0.1)
    most = float(internal.high_mm - external.low_mm)
    return limits._replace(
        high=most,
        source=f"{limits.source}; most play of the classes: {internal.source}; {external.source}",
        grade="derived",
        refuse_high=most + _HALF_THE_OVERLAP * joint.pitch_mm,
        refuse_source="own judgement, no source: half of the overlap of the flanks is gone",
        refuse_grade="own_judgement",
    )


def beyond_normal(joint: Joint, engaged: Span | None) -> tuple[str, ...]:
    """What is told where the engaged length is not one that classes 6g and 6H are meant for."""
    if engaged is None or joint.thread.family != METRIC:
        return ()
    start = range_start_mm(joint.major_mm)
    low, high = normal_engagement_mm(pitch_mm=joint.pitch_mm, range_start_mm=start)
    if not float(engaged.middle) > high:
        return ()
    return (
        f"classes 6g and 6H are meant for {low:.1f} to {high:.1f} mm engaged; {float(engaged.middle):.1f} mm "
        f"may bind if the pitches differ ({core_rules()['normal_engagement'].source})",
    )
