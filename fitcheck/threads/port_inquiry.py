"""What is asked of a screw, a plug or a fitting in a tapped hole."""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import Decimal

from fitcheck.inquiry import Beside, Inquiry, Judged, KnownSizes, Quantities, known, together
from fitcheck.listed_rings import ring_findings, rings_not_asked
from fitcheck.numbers import Span
from fitcheck.rule import Evaluate
from fitcheck.setting import Known
from fitcheck.single import lacking, more_than_one
from fitcheck.threads.compare import Relation, compare, taken_classes, thread_finding
from fitcheck.threads.engagement import stress_area
from fitcheck.threads.joint import (
    Joint,
    beyond_normal,
    engagement,
    joint_of,
    judged_play,
    limits_printed,
    nothing_between,
    play,
    strips_at,
)
from fitcheck.threads.preload import load_at, load_share, preload_long, preload_short
from fitcheck.threads.words import WORDS
from fitcheck.verdict import cautions_for
from schema.amounts import Amount
from schema.finding import Finding, Status
from schema.fit import Fit
from schema.reference import Reference
from schema.screws import Screw, ThreadedPort
from schema.thread_limits import basic_pitch_diameter_mm
from schema.thread_tables import PropertyClass, core_rules, friction, property_class, thread_limits
from schema.threads import Thread
from schema.valves import ValveFitting

_PLACE = {
    "depth": "thread_depth",
    "clamped_thickness": "clamped_thickness",
    "mouth_chamfer": "mouth_chamfer",
    "tensile_strength": "strength_of_the_tapped_metal",
}
_PART = {"length": "length_under_the_head", "tensile_strength": "strength_of_the_screw"}
_SCREW = {**_PART, "head_diameter": "head_diameter", "hollow_diameter": "bore_of_the_screw"}
# Strengths are told as the least there is, a torque as the maker's figure: none needs a tolerance.
_EXEMPT = frozenset(
    ("strength_of_the_tapped_metal", "strength_of_the_screw", "torque", "head_diameter", "bore_of_the_screw")
)
_LEAST_STRENGTH_ONLY = "strengths are told as the least there is"


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked of one tapped hole with what is screwed into it."""
    place = fit.place
    assert isinstance(place, ThreadedPort)
    case = _Case(fit, place)
    part = case.part
    return Inquiry(
        question=f"{part.name if part else 'a screw'} in {place.name}: does it fit and hold?",
        sizes=case.known.sizes,
        surfaces=case.known.surfaces,
        of_part=frozenset(_SCREW.values()),
        exempt=_EXEMPT | nothing_between(place.clamped_thickness),
        quantities=case.quantities,
        judged=case.judged(),
        beside=case.beside(),
        findings=(*case.findings(), *ring_findings(fit, reference)),
        not_asked=(*case.not_asked(), *rings_not_asked(fit)),
        taken=case.taken(),
        cautions=(*cautions_for(fit.service), *case.cautions()),
    )


class _Case:
    """One tapped hole and what goes into it: what is known of both, and what follows."""

    def __init__(self, fit: Fit, place: ThreadedPort) -> None:
        self.fit, self.place = fit, place
        screws = (one.part for one in fit.parts if isinstance(one.part, Screw))
        self.screw = next((one for one in screws if one.form != "nut"), None)  # a nut enters no hole
        self.part: Screw | ValveFitting | None = self.screw or fit.first(ValveFitting)
        part, screw = self.part, self.screw
        self.outside: Thread | None = part.thread if part else None
        self.joint = self._joint()
        self.torque, self.torque_told = _leading_torque(place, part)
        self.strengths = _class_of(screw)
        self.known = together(
            known(place, _PLACE),
            known(part, _SCREW if screw else {"length": "length_under_the_head"}),
            self.joint.sizes if self.joint else KnownSizes({}, {}),
        )
        sizes: dict[str, Known] = self.known.sizes
        if self.torque is not None:
            sizes["torque"] = self.torque

    def _joint(self) -> Joint | None:
        inside, outside, part = self.place.thread, self.outside, self.part
        if inside is None or outside is None or part is None:
            return None
        if compare(inside, outside).relation is not Relation.SAME:
            return None
        return joint_of(inside, outside, self.place.pitch_diameter, part.pitch_diameter)

    # -- quantities --------------------------------------------------------------------------------

    @property
    def by_strength(self) -> bool:
        """Whether strengths and limits are known, so that what the thread holds can be worked out."""
        return (
            self.joint is not None
            and self.place.tensile_strength is not None
            and (self.strengths is not None or "strength_of_the_screw" in self.known.sizes)
            and limits_printed(self.joint)
        )

    @property
    def quantities(self) -> Quantities:
        """Every quantity that the sizes allow, as a function of them."""
        joint, place, by_strength = self.joint, self.place, self.by_strength
        strengths = self.strengths
        rests_on_face = place.clamped_thickness is None and place.seals_by in ("face", "chamfer")

        def ask(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
            if joint is None:
                return {}
            clamped = sizes.get("clamped_thickness", Span.point(0.0) if rests_on_face else None)
            found = engagement(joint, sizes, evaluate, clamped=clamped, blind=place.end == "blind")
            found |= play(sizes, evaluate)
            area = _area(joint, sizes, evaluate)
            torque = sizes.get("torque")
            if torque is not None:
                found["preload"] = _preload(joint, sizes, evaluate, torque)
            if torque is not None and strengths is not None and "bore_of_the_screw" not in sizes:
                proof = evaluate(load_at, stress_mpa=strengths.proof_mpa, area_mm2=area)
                found["proof_share"] = evaluate(load_share, load_n=found["preload"], reference_n=proof)
                least = Span.point(found["preload"].low)
                found["torque_plausible"] = evaluate(load_share, load_n=least, reference_n=proof)
            if by_strength and "engaged_length" in found:
                of_screw = Span.point(strengths.tensile_mpa) if strengths else sizes["strength_of_the_screw"]
                strips = strips_at(
                    joint,
                    sizes,
                    evaluate,
                    found["engaged_length"],
                    internal_strength=sizes["strength_of_the_tapped_metal"],
                    external_strength=of_screw,
                )
                load = found.get("preload") or evaluate(load_at, stress_mpa=of_screw, area_mm2=area)
                if strips is not None:
                    found["stripping_load"] = strips
                    found["thread_hold"] = evaluate(load_share, load_n=strips, reference_n=load)
            return found

        return ask

    def judged(self) -> tuple[Judged, ...]:
        """What is judged: by strength where strengths are known, else by the practice of the trade."""
        place, joint = self.place, self.joint
        if joint is None:
            return ()
        wants = ["length_under_the_head", "thread_depth"]
        if place.clamped_thickness is None and place.seals_by not in ("face", "chamfer"):
            wants.append("clamped_thickness")
        needs = tuple(wants)
        found = [*judged_play(joint)]
        if self.by_strength:
            case = "torque" if self.torque is not None else "breaks_first"
            limits = thread_limits("thread_hold", case)
            found.append(Judged("thread_hold", WORDS["thread_hold"], limits, needs))
        else:
            limits = thread_limits("engagement_in_diameters", place.metal)
            found.append(Judged("engagement_in_diameters", WORDS["engagement_in_diameters"], limits, needs))
        if place.end == "blind":
            found.append(Judged("room_below", WORDS["room_below"], thread_limits("room_below"), needs))
        if self.torque is not None and self.strengths is not None:
            found.append(
                Judged(
                    "torque_plausible",
                    WORDS["torque_plausible"],
                    thread_limits("torque_plausible"),
                    required=False,
                )
            )
        return tuple(found)

    def beside(self) -> tuple[Beside, ...]:
        """What is told and not judged: engaged length, preload band, share of the proof load."""
        of_friction = friction()["friction" if "head_diameter" in self.known.sizes else "nut_factor"]
        band = f"a band, for friction is one ({of_friction.note}); no tightening instruction"
        return (
            Beside("engaged_length", "full threads engaged", "mm", "geometry", "derived"),
            Beside(
                "preload",
                "preload of the maker's torque",
                "N",
                of_friction.source,
                of_friction.grade,
                band,
            ),
            Beside(
                "proof_share",
                "preload over the proof load of the screw",
                "x",
                self.strengths.source if self.strengths else "",
                self.strengths.grade if self.strengths else "",
                "twist while tightening comes on top",
            ),
            Beside("stripping_load", "load that strips the thread", "N", _LEAST_STRENGTH_ONLY, "derived"),
        )

    # -- findings ----------------------------------------------------------------------------------

    def findings(self) -> list[Finding]:
        """Thread against thread, and how each seals."""
        if self.part is None:
            return [lacking("thread_match", "thread of the part in that of the hole", "screw or plug")]
        found = [
            thread_finding(
                self.place.thread,
                self.outside,
                rule="thread_match",
                quantity="thread of the part in that of the hole",
                inside_of="hole",
                outside_of="screw" if self.screw else "fitting",
            )
        ]
        sealing = seal_finding(self.place.seals_by, self.part.seals_by)
        return [*found, *([sealing] if sealing else []), *self._several()]

    def _several(self) -> list[Finding]:
        """A hole takes one screw or fitting; of two different ones only one can be meant."""
        parts = dict.fromkeys(one.part for one in self.fit.parts)
        names = [part.name for part in parts if isinstance(part, Screw) and part.form != "nut"]
        names += [part.name for part in parts if isinstance(part, ValveFitting) and part.thread is not None]
        return [more_than_one("one_screw", "one thread in the hole", names)] if len(names) > 1 else []

    def taken(self) -> tuple[str, ...]:
        """What was taken without being told."""
        told = list(taken_classes(self.place.thread, self.outside)) if self.joint else []
        if "mouth_chamfer" not in self.known.sizes and self.joint:
            told.append("one pitch at each end carries nothing: common practice, no source")
        if self.torque is not None:
            told.append(self.torque_told)
        if self.joint and self.joint.thread.family == "metric":
            engaged = _engaged(self)
            told += beyond_normal(self.joint, engaged)
        return tuple(told)

    def not_asked(self) -> tuple[str, ...]:
        """What was left out, and why."""
        left = []
        if self.torque is None:
            left.append("torque: the maker gives none here, and none is worked out; ask the maker")
        if self.fit.service.pressure is not None:
            left.append("whether the preload holds against the pressure: what area it seals is not told")
        return tuple(left)

    def cautions(self) -> tuple[str, ...]:
        """A screw that was locked is locked again."""
        if self.screw is None or not self.screw.locking:
            return ()
        return (f"{self.screw.name} is kept from turning by {self.screw.locking}: do so again.",)


def _engaged(case: _Case) -> Span | None:
    from fitcheck.rule import span
    from fitcheck.setting import drawn_span

    spans = {name: drawn_span(size) for name, size in case.known.sizes.items()}
    return case.quantities(spans, span).get("engaged_length")


def _leading_torque(place: ThreadedPort, part: Screw | ValveFitting | None) -> tuple[Amount | None, str]:
    """The torque of the unit's maker, else that of the part's; never one from a table."""
    of_part = part.torque if part else None
    if place.torque is not None:
        told = f"torque {place.torque.text} by the maker of the unit"
        if place.torque_source:
            told += f" ({place.torque_source})"
        if of_part is not None and of_part.nominal != place.torque.nominal:
            told += f"; the maker of the part gives {of_part.text}, and the unit's maker leads"
        return place.torque, told
    if part is None or of_part is None:
        return None, ""
    told = f"torque {of_part.text} by the maker of the part"
    return of_part, told + (f" ({part.torque_source})" if part.torque_source else "")


def _class_of(screw: Screw | None) -> PropertyClass | None:
    if screw is None or not screw.property_class or screw.thread is None or not screw.thread.major_mm:
        return None
    return property_class(screw.property_class, screw.thread.major_mm)


def _area(joint: Joint, sizes: Mapping[str, Span], evaluate: Evaluate) -> Span:
    """Stress area; of a hollow screw less the bore."""
    area = evaluate(stress_area, major_diameter_mm=joint.major_mm, pitch_mm=joint.pitch_mm)
    bore = sizes.get("bore_of_the_screw")
    if bore is None:
        return area
    quarter = math.pi / 4.0
    return Span(
        area.low - quarter * bore.high * bore.high,
        area.middle - quarter * bore.middle * bore.middle,
        area.high - quarter * bore.low * bore.low,
    )


def _preload(joint: Joint, sizes: Mapping[str, Span], evaluate: Evaluate, torque: Span) -> Span:
    """Preload of a torque over the band of friction; with the head's diameter by the long equation."""
    head = sizes.get("head_diameter")
    if head is None:
        k = friction()["nut_factor"]
        return evaluate(
            preload_short,
            torque_nmm=torque,
            nut_factor=Span(k.low, k.middle, k.high),
            major_diameter_mm=joint.major_mm,
        )
    mu = friction()["friction"]
    basic = basic_pitch_diameter_mm(Decimal(str(joint.major_mm)), Decimal(str(joint.pitch_mm)))
    return evaluate(
        preload_long,
        torque_nmm=torque,
        pitch_mm=joint.pitch_mm,
        pitch_diameter_mm=float(basic),
        head_mean_diameter_mm=head,
        friction=Span(mu.low, mu.middle, mu.high),
    )


def seal_finding(of_place: str | None, of_part: str | None) -> Finding | None:
    """A ring in a chamfer and a washer on the face have one thread and do not go together."""
    quantity = "how the part seals, against how the hole is made"
    printed = core_rules()["port_seal"]
    if of_place is None and of_part is None:
        return None
    if of_place is None or of_part is None:
        absent = "how the part seals (seals_by)" if of_part is None else "how the hole is made (seals_by)"
        return lacking("port_seal", quantity, absent)
    same = of_place == of_part
    return Finding(
        rule="port_seal",
        quantity=quantity,
        status=Status.FITS if same else Status.DOES_NOT_FIT,
        meaning=f"both seal by {of_place}"
        if same
        else f"the hole seals by {of_place}, the part by {of_part}: the thread goes in and it leaks",
        action="" if same else f"A part that seals by {of_place}.",
        source=printed.source,
        grade=printed.grade,
        inputs={"hole": of_place, "part": of_part},
    )
