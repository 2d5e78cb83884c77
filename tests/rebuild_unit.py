"""An invented unit for the rebuild sheet: all three verdicts, a gland without its ring, hostile texts.

Its names are no real brands. What no family of places gives by itself yet, a value told beside and
a kind of place other than a gland, is laid into the verdict by hand.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from fitcheck.unit.check import check_unit
from schema.finding import Finding, Limits, Status, Told, Verdict
from schema.reference import published_reference
from schema.unit import Unit, unit_from
from schema.unit_verdict import KitLine, PlaceVerdict, UnitVerdict
from tests.examples import END_CAP, FACE, PISTON, ROD

MADE_ON = date(2026, 11, 25)
SHEET_NUMBER = "2026-041"
HOSTILE = "</style></title><script>alert(1)</script>&amp;\"'`{{ 7*7 }}\x00\x85\u202e\ud800<img src=http://example.invalid/x>"


def place(question: dict[str, Any], *parts: Any, **changes: str) -> dict[str, Any]:
    """A place of a unit from one of the example questions."""
    return {**question["place"], **question["service"], "parts": list(parts), **changes}


def texts(**changes: Any) -> dict[str, Any]:
    """The unit as nested texts."""
    ring = {"kind": "o_ring", "size": "AS568-214", "material": "NBR", "hardness_shore_a": "70"}
    return {
        "unit": "lapwing-190",
        "kind": "coil_shock",
        "description": "Coil shock with a 25.4 mm shaft and a reservoir",
        "maker": "Ollerthwaite Works",
        "fluid": "mineral_oil",
        "temperature": "-5..50 degC",
        "stroke": "55 +0.5/0 mm",
        "travel_to_metal": "60 ±0.5 mm",
        "bumper_solid_length": "5 ±0.5 mm",
        "tools": "soft jaws; drain tray",
        "source": "invented for the tests, drawing of an unknown hand",
        "places": {
            "end-cap": place(
                END_CAP,
                "R-217",
                description="Cap of the reservoir",
                tools="pick; pin spanner 4 mm",
                runs_on="reservoir tube",
            ),
            "main-piston": place(PISTON, "R-214", description="Ring on the damping piston"),
            "shaft-seal": place(
                ROD,
                "R-214",
                "B-1",
                description="Main seal of the shaft",
                runs_on="damper shaft",
                loaded_by="",
                groove_width="6.3 +0.2/0 mm",
                back_up_rings="1",
                groove_diameter="31.50 ±0.30 mm",
            ),
            "floating-piston": place(
                PISTON,
                {"part": "R-214", "renew": "inspect"},
                description="Parts oil from nitrogen",
                medium="gas",
                fluid="mineral_oil; nitrogen",
                pressure="3 MPa",
                bore_diameter="31.52 mm by bore gauge",
                groove_diameter="25.43 mm by micrometer",
                land_diameter="31.44 mm by micrometer",
            ),
            "fill-plug": place(FACE, {"part": "R-124", "renew": "inspect"}, description="Under the plug"),
            "hose-banjo": place(FACE, description="Face ring under the banjo, not on the list"),
            "shaft-end": place(ROD, "R-214", description="Second shaft seal", runs_on="damper shaft"),
        },
        "parts": {
            "R-214": {**ring, "description": "O-ring 214"},
            "R-217": {**ring, "size": "AS568-217", "description": "O-ring 217"},
            "R-124": {**ring, "size": "AS568-110", "description": "O-ring of thin section"},
            "B-1": {"kind": "back_up_ring", "width": "1.40 ±0.05 mm", "description": "Back-up ring"},
        },
        **changes,
    }


NO_PLACES = {"unit": "bare", "kind": "damper"}
NO_PARTS = texts(
    places={"fill-plug": {"kind": "face_gland", "groove_depth": "2.65 ±0.05 mm"}}, parts={}, tools=""
)


def hostile_texts() -> dict[str, Any]:
    """The unit with hostile text wherever a person may write."""
    given = texts(description=HOSTILE, maker=HOSTILE, tools=[HOSTILE], source=HOSTILE, unit=HOSTILE)
    name = 'a <b>place</b> & "more"'
    given["places"][name] = {**given["places"].pop("end-cap"), "description": HOSTILE, "tools": [HOSTILE]}
    given["places"][name]["runs_on"] = HOSTILE
    given["parts"]["R-217"]["description"] = HOSTILE
    return given


BUSHING = PlaceVerdict(
    name="shaft-bushing",
    kind="bushing_seat",
    words="bushing seat",
    description="Guides the shaft",
    parts=(),
    verdict=Verdict(
        status=Status.NOT_PROVEN,
        question="plain bushing in lapwing-190/shaft-bushing, as drawn",
        decision_rule="iso14253-1-u2",
        findings=(
            Finding(
                rule="made_up_clearance",
                quantity="running clearance as fitted",
                status=Status.NOT_PROVEN,
                unit="mm",
                low=0.0123,
                middle=0.0301,
                high=0.0511,
                limits=Limits(
                    0.02, 0.06, "mm", "worst_case", "recalled", "a table recalled by a fitter", "from_memory"
                ),
                margin=-0.19,
                meaning="it may bind",
                action="Ask the maker of the unit.",
                reason="its limit is from memory",
                source="a table recalled by a fitter",
                grade="from_memory",
            ),
        ),
        next_step="Ask the maker of the unit.",
        told=(
            Told(
                "made_up_force",
                "press force",
                "N",
                212.4,
                480.0,
                733.9,
                "thick-cylinder equations",
                "derived",
            ),
            Told("made_up_preload", "bare value without a source", "mm", 1.0, 1.0, 1.0),
        ),
        cautions=("stored energy: release it first.",),
        not_asked=("wear of the bushing",),
        taken=("a friction of 0.08 to 0.15",),
    ),
    tools=("bushing driver 12 mm",),
)


def checked(given: dict[str, Any] | None = None) -> tuple[Unit, UnitVerdict]:
    """A unit and the verdict on it."""
    unit = unit_from(texts() if given is None else given)
    return unit, check_unit(unit, published_reference())


def with_bushing(verdict: UnitVerdict) -> UnitVerdict:
    """The verdict with a place of another family laid in."""
    line = KitLine("P-1", "bushing", 1, ("shaft-bushing",), "look and measure", "not proven")
    return verdict._replace(
        places=(*verdict.places, BUSHING),
        kit=(*verdict.kit, line),
        tools=(*verdict.tools, ("bushing driver 12 mm", ("shaft-bushing",))),
    )


def sheet(given: dict[str, Any] | None = None, **options: Any) -> str:
    """The rebuild sheet of the invented unit, or of another."""
    from catalogue.rebuild_sheet import rebuild_sheet

    unit, verdict = checked(given)
    if given is None:
        verdict = with_bushing(verdict)
    options = {"made_on": MADE_ON, "sheet_number": SHEET_NUMBER, **options}
    return rebuild_sheet(unit, verdict, published_reference(), **options)


__all__ = ["BUSHING", "checked", "hostile_texts", "sheet", "texts", "with_bushing"]
