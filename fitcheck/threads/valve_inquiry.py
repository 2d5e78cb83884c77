"""What is asked of a gas valve in its seat: body, core and cap."""

from __future__ import annotations

from collections.abc import Mapping

from fitcheck.compatibility import compatibility
from fitcheck.decision import decision_rule
from fitcheck.inquiry import Beside, Inquiry, Judged, KnownSizes, Quantities, known, together
from fitcheck.listed_rings import ring_findings, rings_not_asked
from fitcheck.numbers import Span
from fitcheck.rings.groove import diametral_clearance
from fitcheck.rule import Evaluate
from fitcheck.single import lacking, more_than_one
from fitcheck.threads.compare import Relation, compare, taken_classes, thread_finding
from fitcheck.threads.cores import (
    chamber_findings,
    core_cautions,
    family_finding,
    printed_torque,
    seat_finding,
)
from fitcheck.threads.engagement import room_below
from fitcheck.threads.joint import Joint, engagement, joint_of, judged_play, nothing_between, play
from fitcheck.threads.port_inquiry import seal_finding
from fitcheck.threads.pressure import highest_on
from fitcheck.threads.words import WORDS
from fitcheck.verdict import STORED_ENERGY
from schema.amounts import Amount
from schema.dimension import COVERAGE_FACTOR
from schema.finding import Finding, Limits
from schema.fit import Fit, Part
from schema.reference import Reference
from schema.thread_tables import thread_limits
from schema.valves import ValveCore, ValveFitting, ValveSeat

_SEAT = {
    "counterbore": "counterbore",
    "depth": "thread_depth",
    "clamped_thickness": "clamped_thickness",
    "mouth_chamfer": "mouth_chamfer",
}
_BODY = {
    "length": "length_under_the_head",
    "outside_diameter": "collar_diameter",
    "core_depth": "core_depth",
}
_CORE = {"length": "core_length", "pin_below": "pin_below_the_mouth", "pin_proud": "pin_above_the_mouth"}
_MILLI = 0.001


def inquire(fit: Fit, reference: Reference) -> Inquiry:
    """All that is asked of one valve seat with body, core and cap."""
    place = fit.place
    assert isinstance(place, ValveSeat)
    case = _Case(fit, place, reference)
    named = [one.name for one in (case.body, case.core) if one is not None]
    return Inquiry(
        question=f"{' with '.join(named) or 'a valve'} in {place.name}: does it belong there and hold?",
        sizes=case.known.sizes,
        surfaces=case.known.surfaces,
        of_part=frozenset({*_BODY.values(), *_CORE.values()}),
        exempt=frozenset({"highest_pressure"}) | nothing_between(place.clamped_thickness),
        quantities=case.quantities,
        judged=case.judged(),
        beside=case.beside(),
        findings=tuple(case.findings()),
        not_asked=case.not_asked(),
        taken=case.taken(),
        cautions=(STORED_ENERGY, *core_cautions(case.core, case.body)),
    )


class _Case:
    """One valve seat and what goes into it: what is known of all, and what follows."""

    def __init__(self, fit: Fit, place: ValveSeat, reference: Reference) -> None:
        self.fit, self.place, self.reference = fit, place, reference
        fittings = [one.part for one in fit.parts if isinstance(one.part, ValveFitting)]
        self.body = next((one for one in fittings if not one.is_cap), None)
        self.cap = next((one for one in fittings if one.is_cap), None)
        self.core = fit.first(ValveCore)
        self.joint = self._joint()
        self.pressure, self.pressure_told = highest_on(fit, reference)
        self.torque, self.torque_told = (
            printed_torque(self.core, self.body, place) if self.core else (None, "")
        )
        self.known = together(
            known(place, _SEAT),
            known(self.body, _BODY),
            known(self.core, _CORE),
            self.joint.sizes if self.joint else KnownSizes({}, {}),
        )
        if self.pressure is not None:
            self.known.sizes["highest_pressure"] = self.pressure

    def _joint(self) -> Joint | None:
        inside, body = self.place.thread, self.body
        if inside is None or body is None or body.thread is None:
            return None
        if compare(inside, body.thread).relation is not Relation.SAME:
            return None
        return joint_of(inside, body.thread, self.place.pitch_diameter, body.pitch_diameter)

    # -- quantities --------------------------------------------------------------------------------

    @property
    def bears_on_face(self) -> bool:
        """Whether nothing lies under the collar: told so, or sealed by a ring that leaves metal on metal."""
        return self.place.clamped_thickness is None and self.place.seals_by in ("face", "chamfer")

    @property
    def quantities(self) -> Quantities:
        """Every quantity that the sizes allow, as a function of them."""
        joint, blind, torque = self.joint, self.place.end == "blind", self.torque

        bears = Span.point(0.0) if self.bears_on_face else None

        def ask(sizes: Mapping[str, Span], evaluate: Evaluate) -> dict[str, Span]:
            found: dict[str, Span] = {}
            clamped = sizes.get("clamped_thickness", bears)
            if joint is not None:
                found |= engagement(joint, sizes, evaluate, clamped=clamped, blind=blind)
                found |= play(sizes, evaluate)
            if "highest_pressure" in sizes:
                found["core_pressure"] = found["body_pressure"] = sizes["highest_pressure"]
            if "counterbore" in sizes and "collar_diameter" in sizes:
                found["collar_clearance"] = evaluate(
                    diametral_clearance,
                    outer_diameter_mm=sizes["counterbore"],
                    inner_diameter_mm=sizes["collar_diameter"],
                )
            if "core_depth" in sizes and "core_length" in sizes:
                found["core_room"] = evaluate(
                    room_below,
                    depth_mm=sizes["core_depth"],
                    length_mm=sizes["core_length"],
                    clamped_mm=Span.point(0.0),
                )
            if "pin_below_the_mouth" in sizes:
                found["pin_depth"] = sizes["pin_below_the_mouth"]
            elif "pin_above_the_mouth" in sizes:
                proud = sizes["pin_above_the_mouth"]
                found["pin_depth"] = Span(-proud.high, -proud.middle, -proud.low)
            if torque is not None:
                found["core_torque"] = Span(torque.low * _MILLI, torque.middle * _MILLI, torque.high * _MILLI)
            return found

        return ask

    def judged(self) -> tuple[Judged, ...]:
        """Ratings against the pressure, engaged length, rooms, and the pin of a tyre core."""
        found: list[Judged] = []
        for part, rule in ((self.core, "core_pressure"), (self.body, "body_pressure")):
            if part is not None:
                found.append(self._rating(part, rule))
        if self.joint is not None:
            found += judged_play(self.joint)
            needs: tuple[str, ...] = ("length_under_the_head", "thread_depth")
            needs = needs if self.bears_on_face else (*needs, "clamped_thickness")
            limits = thread_limits("engagement_in_diameters", self.place.metal)
            words = WORDS["engagement_in_diameters"]
            found.append(Judged("engagement_in_diameters", words, limits, needs))
            if self.place.end == "blind":
                found.append(Judged("room_below", WORDS["room_below"], thread_limits("room_below"), needs))
        in_counterbore = self.place.counterbore is not None and self.body is not None
        needs = ("counterbore", "collar_diameter")
        for rule, required in (("collar_clearance", in_counterbore), ("core_room", False)):
            found.append(Judged(rule, WORDS[rule], thread_limits(rule), needs, required=required))
        if {"pin_below_the_mouth", "pin_above_the_mouth"} & self.known.sizes.keys():
            tyre = self.core is not None and self.core.core_family == "tyre"
            limits_of_pin = thread_limits("pin_depth", "tyre") if tyre else None
            why = "limits of the pin were found for tyre cores only"
            found.append(Judged("pin_depth", WORDS["pin_depth"], limits_of_pin, why_open=why))
        return tuple(found)

    def _rating(self, part: ValveCore | ValveFitting, rule: str) -> Judged:
        """The highest pressure against the rating as its maker gives it; without a rating not proven."""
        wants = () if part.pressure_rating else (f"pressure rating of the {part.words_for}, by its maker",)
        limits = _rating_limits(part.pressure_rating, part.rating_source, part.name)
        needs = () if self.pressure is not None else ("highest_pressure",)
        return Judged(rule, WORDS[rule], limits, needs, wants)

    def beside(self) -> tuple[Beside, ...]:
        """What is told and not judged: engaged length, torque of the core with its source."""
        told = [Beside("engaged_length", "full threads engaged", "mm", "geometry", "derived")]
        if self.torque is not None:
            torque = self.torque
            told.append(
                Beside(
                    "core_torque",
                    "torque of the core",
                    "N m",
                    torque.source,
                    torque.grade,
                    self.torque_told,
                )
            )
        return tuple(told)

    # -- findings ----------------------------------------------------------------------------------

    def findings(self) -> list[Finding]:
        """Threads, the core's family, chamber and seat, how the body seals, and the rubbers."""
        place, body, core = self.place, self.body, self.core
        found: list[Finding] = [*self._several(), *ring_findings(self.fit, self.reference)]
        if body is None:
            found.append(lacking("thread_match", "thread of the body in that of the seat", "valve body"))
        else:
            found.append(
                thread_finding(
                    place.thread,
                    body.thread,
                    rule="thread_match",
                    quantity="thread of the body in that of the seat",
                    inside_of="seat",
                    outside_of="valve body",
                )
            )
            sealing = seal_finding(place.seals_by, body.seals_by)
            found += [sealing] if sealing else []
        if core is None:
            found.append(lacking("core_match", "core in the valve body", "valve core"))
        else:
            found.append(self._core_thread(core))
            found.append(family_finding(core, body, place))
            found += chamber_findings(core, body, place)
            seat = seat_finding(core)
            found += [seat] if seat else []
            found += self._rubber(core, "core")
        if body is not None:
            found += self._rubber(body, "body")
        if self.cap is not None and body is not None and body.cap_thread is not None:
            found.append(
                thread_finding(
                    self.cap.inside_thread,
                    body.cap_thread,
                    rule="cap_match",
                    quantity="cap on the valve body",
                    inside_of="cap",
                    outside_of="valve body",
                )
            )
        return found

    def _several(self) -> list[Finding]:
        """A seat takes one body, one core, one cap; of two different ones only one can be meant."""
        fittings = [one.part for one in self.fit.parts if isinstance(one.part, ValveFitting)]
        told: tuple[tuple[str, list[Part]], ...] = (
            ("valve body", [part for part in fittings if not part.is_cap]),
            ("cap", [part for part in fittings if part.is_cap]),
            ("core", [one.part for one in self.fit.parts if isinstance(one.part, ValveCore)]),
        )
        return [
            more_than_one(f"one_{what.replace(' ', '_')}", f"one {what} in the seat", names)
            for what, parts in told
            if len(names := [part.name for part in dict.fromkeys(parts)]) > 1
        ]

    def _core_thread(self, core: ValveCore) -> Finding:
        return thread_finding(
            self.body.inside_thread if self.body else None,
            core.thread,
            rule="core_match",
            quantity="thread of the core in that of the valve body",
            inside_of="valve body",
            outside_of="core",
        )

    def _rubber(self, part: ValveCore | ValveFitting, prefix: str) -> list[Finding]:
        """Its rubber against gas and temperature, where told what it is."""
        if not part.seal_material:
            return []
        by = decision_rule(self.fit.choices.decision_rule)
        findings = compatibility(part.seal_material, self.fit.service, self.reference, by=by, squeezed=True)
        return [
            one._replace(rule=f"{prefix}_{one.rule}", quantity=f"{one.quantity}, {prefix} of the valve")
            for one in findings
        ]

    def taken(self) -> tuple[str, ...]:
        """What was taken without being told."""
        told = list(taken_classes(self.place.thread, self.body.thread if self.body else None))
        if "mouth_chamfer" not in self.known.sizes and self.joint:
            told.append("one pitch at each end carries nothing: common practice, no source")
        if self.pressure_told:
            told.append(self.pressure_told)
        for part in (self.place, self.body):
            if part is not None and part.torque is not None:
                whose = "unit" if part is self.place else "valve body"
                source = f" ({part.torque_source})" if part.torque_source else ""
                told.append(
                    f"torque of the valve body {part.torque.text} by the maker of the {whose}{source}"
                )
                break
        return tuple(told)

    def not_asked(self) -> tuple[str, ...]:
        """What was left out, and why."""
        left = list(rings_not_asked(self.fit))
        if self.core is not None and self.core.seat is None and self.core.core_family != "tyre":
            left.append(
                "what the core seals with (seat): rubber belongs in a high-pressure valve, lead does not"
            )
        if self.core is not None and not self.core.seal_material:
            left.append("rubber of the core against gas and temperature: its polymer is not told")
        if self.body is not None and not self.body.seal_material:
            left.append("seal of the valve body against gas and temperature: its polymer is not told")
        if self.cap is not None and (self.body is None or self.body.cap_thread is None):
            left.append("cap on the valve body: the thread of the body for it (cap_thread) is not told")
        return tuple(left)


def _rating_limits(rating: Amount | None, source: str, name: str) -> Limits | None:
    if rating is None:
        return None
    low = float(rating.lower - COVERAGE_FACTOR * rating.standard_uncertainty)
    return Limits(
        None,
        low,
        "MPa",
        "worst_case",
        "rating by the maker",
        f"{name}: {rating.text}, " + (source or "as its maker gives it"),
        "given",
        scale=max(low, 1e-6),
    )
