"""Whether a core belongs to its valve: family, chamber, seat, and the torque it takes.

That a core screws in says nothing: a tyre core has the thread of a high-pressure core.
"""

from __future__ import annotations

from fitcheck.single import lacking
from fitcheck.words import joined
from schema.finding import Finding, Status
from schema.thread_tables import Printed, Range, core_rules, core_torques
from schema.valves import ValveCore, ValveFitting, ValveSeat

_FAMILY = "family of the core against that of the valve"
_CHAMBER = "core against its chamber"


def family_finding(core: ValveCore, body: ValveFitting | None, seat: ValveSeat) -> Finding:
    """A core of another family does not belong in the valve, though it screws in."""
    of_body = body.core_family if body else None
    needed = seat.core_family or of_body
    absent = []
    if needed is None:
        absent.append("core family that the valve must have")
    if core.core_family is None:
        absent.append("core family of the core (tyre or high_pressure)")
    if needed is None or core.core_family is None:
        return lacking("core_family", _FAMILY, *absent)
    if of_body is not None and of_body != needed:
        return _core_finding(
            "core_family",
            _FAMILY,
            Status.DOES_NOT_FIT,
            f"the valve body is made for a {_told(of_body)} core, the unit must have a {_told(needed)} one",
            "A valve body that the maker of the unit names.",
            core_rules()["core_family"],
        )
    if core.core_family == needed:
        meaning = f"a {_told(needed)} core, as the valve must have"
        return _core_finding("core_family", _FAMILY, Status.FITS, meaning, "", core_rules()["core_family"])
    if needed == "high_pressure":
        meaning = "a tyre core screws into a high-pressure valve and does not belong there"
        action = "A high-pressure core that its maker approves for this valve."
        rule = core_rules()["core_family"]
        return _core_finding("core_family", _FAMILY, Status.DOES_NOT_FIT, meaning, action, rule)
    return Finding(
        rule="core_family",
        quantity=_FAMILY,
        status=Status.NOT_PROVEN,
        meaning="a high-pressure core in a tyre valve: its spring and pin are not made for a tyre pump",
        action="A tyre core, or the word of the maker of the valve.",
        reason="no source read covers this pair",
    )


def chamber_findings(core: ValveCore, body: ValveFitting | None, seat: ValveSeat) -> list[Finding]:
    """Chamber number against chamber number; where none is told, the length must do."""
    of_body = body.core_chamber if body else None
    needed = of_body or seat.core_chamber
    if of_body is not None and seat.core_chamber not in (None, of_body):
        return [
            _core_finding(
                "core_fits_chamber",
                _CHAMBER,
                Status.DOES_NOT_FIT,
                f"the valve body has chamber No. {of_body}, the unit must have No. {seat.core_chamber}",
                "A valve body that the maker of the unit names.",
                core_rules()["core_chamber"],
            )
        ]
    if needed is not None and core.core_chamber is not None:
        same = needed == core.core_chamber
        return [
            _core_finding(
                "core_fits_chamber",
                _CHAMBER,
                Status.FITS if same else Status.DOES_NOT_FIT,
                f"core and chamber are both No. {needed}"
                if same
                else f"a core for chamber No. {core.core_chamber} in chamber No. {needed}",
                "" if same else f"A core for chamber No. {needed}.",
                core_rules()["core_chamber"],
            )
        ]
    if body is not None and body.core_depth is not None and core.length is not None:
        return []
    absent = [
        told
        for told, given in (
            ("core chamber number of the core", core.core_chamber),
            ("core chamber number of the valve", needed),
        )
        if given is None
    ]
    return [lacking("core_fits_chamber", _CHAMBER, joined(absent) + ", or lengths of core and chamber")]


def seat_finding(core: ValveCore) -> Finding | None:
    """Lead seats are not to be used in high-pressure valves."""
    if core.seat is None or core.core_family == "tyre":
        return None
    rule, quantity = "core_seat", "what the core seals with"
    if core.seat == "lead":
        meaning = "lead seats do not keep a high-pressure valve tight"
        action = "A core with a rubber seat."
        return _core_finding(rule, quantity, Status.DOES_NOT_FIT, meaning, action, core_rules()["core_seat"])
    if core.seat == "rubber":
        return _core_finding(rule, quantity, Status.FITS, "a rubber seat", "", core_rules()["core_seat"])
    return Finding(
        rule=rule,
        quantity=quantity,
        status=Status.NOT_PROVEN,
        meaning=f"a {core.seat} seat",
        reason="the source read names rubber and lead only",
        action="Ask the maker of the core.",
    )


def printed_torque(core: ValveCore, body: ValveFitting | None, seat: ValveSeat) -> tuple[Range | None, str]:
    """Torque of the core [N mm] and where it comes from: its maker's, else the standard's for its chamber."""
    if core.torque is not None:
        low, high = float(core.torque.lower), float(core.torque.upper)
        source = core.torque_source or "the maker of the core"
        return Range(low, core.torque.middle, high, source, "given", ""), "its maker's figure"
    number = (body.core_chamber if body else None) or seat.core_chamber or core.core_chamber
    found = core_torques().get(number) if number else None
    if found is None:
        return None, ""
    return found, "printed for tyre cores; the maker's figure leads where there is one"


def core_cautions(core: ValveCore | None, body: ValveFitting | None) -> tuple[str, ...]:
    """What hurts, and what is confused: gas behind the core, the torque of a nut on a core, two metals."""
    if core is None:
        return ()
    rules = core_rules()
    found = [
        f"let the gas out before the core is loosened ({rules['core_release'].source})",
        "a core takes a fraction of a newton metre: body and stem nuts take 30 to 40 times as much "
        f"({rules['stem_torque'].source})",
    ]
    if body is not None and "brass" in core.material.lower() and "alumin" in body.material.lower():
        found.append(
            f"brass core in an aluminium body: they corrode together; renew it ({rules['core_reuse'].source})"
        )
    return tuple(found)


def _told(family: str) -> str:
    return family.replace("high_pressure", "high-pressure")


def _core_finding(
    rule: str, quantity: str, status: Status, meaning: str, action: str, printed: Printed
) -> Finding:
    return Finding(
        rule=rule,
        quantity=quantity,
        status=status,
        meaning=meaning,
        action=action,
        source=printed.source,
        grade=printed.grade,
    )
