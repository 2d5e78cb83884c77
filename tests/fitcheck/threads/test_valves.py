"""Valves in their seats: thread, core family, chamber, rating, rubber, torque."""

from __future__ import annotations

from types import MappingProxyType

import pytest

import fitcheck.threads.pressure
from fitcheck.check import check
from schema.fields import read_model
from schema.finding import Status, Verdict
from schema.fit import Fit, Fitted
from schema.reference import published_reference
from schema.valves import ValveCore, ValveFitting, ValveSeat
from tests.fitcheck.threads.questions import BODY, CORE, SEAT, Texts, of, valve

assert fitcheck.threads.pressure
FITS, NOT, OUT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def test_a_valve_that_is_told_whole_fits() -> None:
    """Body, core and seat that belong together fit by every rule, and say so."""
    found = valve()
    assert found.status is FITS
    assert {one.status for one in found.findings} == {FITS}


def test_a_tyre_core_fits_the_thread_and_does_not_belong() -> None:
    """A tyre core screws into a high-pressure valve: the thread fits, the core does not."""
    found = valve(core={"core_family": "tyre"})
    assert of(found, "core_match").status is FITS
    assert found.status is OUT
    assert found.findings[0].rule == "core_family"
    assert "does not belong there" in found.next_step
    assert "TM 1-1500-204-23-2" in found.findings[0].source


def test_a_tyre_core_belongs_in_a_tyre_valve() -> None:
    """An air spring whose maker takes tyre cores is not refused one."""
    tyre: Texts = {"core_family": "tyre"}
    assert of(valve(seat=tyre, body=tyre, core=tyre), "core_family").status is FITS


def test_a_high_pressure_core_in_a_tyre_valve_is_not_proven() -> None:
    """No source read covers a high-pressure core in a tyre valve."""
    tyre: Texts = {"core_family": "tyre"}
    assert of(valve(seat=tyre, body=tyre), "core_family").status is NOT


def test_a_body_for_another_core_than_the_unit_needs_does_not_fit() -> None:
    """Unit and valve body must agree on the family of the core."""
    assert of(valve(body={"core_family": "tyre"}), "core_family").status is OUT


@pytest.mark.parametrize(
    ("changes", "rule", "lacks"),
    [
        ({"core": {"pressure_rating": None}}, "core_pressure", "pressure rating of the valve core"),
        ({"body": {"pressure_rating": None}}, "body_pressure", "pressure rating of the valve fitting"),
        ({"core": {"core_family": None}}, "core_family", "core family of the core"),
        (
            {"seat": {"core_family": None}, "body": {"core_family": None}},
            "core_family",
            "the valve must have",
        ),
        ({"service": {"pressure": None}}, "core_pressure", "highest pressure"),
        ({"core": {"core_chamber": None}}, "core_fits_chamber", "core chamber number of the core"),
        ({"seat": {"depth": None}}, "engagement_in_diameters", "thread depth"),
        ({"core": {"thread": None}}, "core_match", "thread of the core"),
        ({"seat": {"seals_by": None}}, "port_seal", "how the hole is made"),
        ({"service": {"temperature": None}}, "body_material_temperature", "temperature"),
    ],
    ids=lambda one: one if isinstance(one, str) else "",
)
def test_what_is_not_told_is_not_proven(changes: dict[str, Texts], rule: str, lacks: str) -> None:
    """Nothing is said to fit for want of a word, and the answer names what to give."""
    found = valve(**changes)
    assert found.status is NOT
    finding = of(found, rule)
    assert finding.status is NOT
    assert lacks in f"{finding.lacks} {finding.reason}"


@pytest.mark.parametrize(
    ("rating", "status"), [("20 MPa", FITS), ("2.5 MPa", FITS), ("2.4 MPa", OUT), ("300 psi", OUT)]
)
def test_the_rating_is_held_against_the_highest_pressure(rating: str, status: Status) -> None:
    """A core rated below the highest pressure does not fit; a rating just met is met."""
    assert of(valve(core={"pressure_rating": rating}), "core_pressure").status is status


def test_a_toleranced_rating_counts_at_its_least() -> None:
    """Of a rating with limits the lower one counts."""
    assert of(valve(core={"pressure_rating": "2.6 ±0.2 MPa"}), "core_pressure").status is OUT


def test_the_gas_chamber_leads_over_the_pressure_that_was_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the chamber reaches at full stroke is judged, not the charge that was told for the place."""
    highest = pytest.importorskip("fitcheck.gas.highest")
    from fitcheck.numbers import Span

    monkeypatch.setattr(highest, "highest_pressure", lambda chamber, reference: Span(7.0, 8.0, 9.0))
    place = read_model(ValveSeat, {**SEAT, "loaded_by": "reservoir"}, path="place")
    parts = (
        Fitted(read_model(ValveCore, {**CORE, "pressure_rating": "8 MPa"}, path="part")),
        Fitted(read_model(ValveFitting, BODY, path="part")),
    )
    chamber = Fit(place=place)
    fit = Fit(place=place, parts=parts, neighbours=MappingProxyType({"reservoir": chamber}))
    found = check(fit, published_reference())
    assert of(found, "core_pressure").status is NOT
    assert of(found, "core_pressure").high == pytest.approx(9.0)
    assert any("reservoir at full stroke" in one for one in found.taken)


def test_a_chamber_that_may_lock_leaves_the_rating_open(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no highest pressure of the chamber is known, nothing is proven, and the answer says why."""
    highest = pytest.importorskip("fitcheck.gas.highest")
    monkeypatch.setattr(highest, "highest_pressure", lambda chamber, reference: None)
    place = read_model(ValveSeat, {**SEAT, "loaded_by": "reservoir"}, path="place")
    parts = (
        Fitted(read_model(ValveCore, CORE, path="part")),
        Fitted(read_model(ValveFitting, BODY, path="part")),
    )
    neighbours = MappingProxyType({"reservoir": Fit(place=place)})
    found = check(Fit(place=place, parts=parts, neighbours=neighbours), published_reference())
    assert of(found, "core_pressure").lacks == ("highest pressure",)
    assert any("its oil may lock" in one for one in found.taken)


def test_another_chamber_number_does_not_fit() -> None:
    """A core for chamber 2 does not belong in chamber 1."""
    assert of(valve(core={"core_chamber": "2"}), "core_fits_chamber").status is OUT


@pytest.mark.parametrize(
    ("depth", "status"), [("19.5 ±0.1 mm", FITS), ("18.5 ±0.1 mm", NOT), ("17.5 ±0.1 mm", OUT)]
)
def test_without_chamber_numbers_the_lengths_decide(depth: str, status: Status) -> None:
    """A core longer than its chamber does not seat; where limits overlap it is not proven."""
    untold: Texts = {"core_chamber": None}
    found = valve(seat=untold, core=untold, body={**untold, "core_depth": depth})
    assert of(found, "core_room").status is status
    assert found.of("core_fits_chamber") is None


def test_a_lead_seat_does_not_belong_in_a_high_pressure_valve() -> None:
    """The manual read takes rubber seats only."""
    assert of(valve(core={"seat": "lead"}), "core_seat").status is OUT


@pytest.mark.parametrize(
    ("rubber", "status"), [("NBR", FITS), ("VMQ", NOT)], ids=["nitrile", "silicone lets gas through"]
)
def test_the_rubber_of_the_seal_is_held_against_gas_and_temperature(rubber: str, status: Status) -> None:
    """Where the polymer is told it is judged; silicone is not taken to hold a charge."""
    assert of(valve(core={"seal_material": rubber}), "core_material_fluid").status is status


def test_a_core_whose_rubber_is_not_told_says_so() -> None:
    """What was not asked is told."""
    assert any("polymer is not told" in one for one in valve().not_asked)


@pytest.mark.parametrize(
    ("core", "low", "high"),
    [({}, 0.28, 0.30), ({"core_chamber": "2"}, 0.38, 0.40), ({"torque": "0.35 N m"}, 0.35, 0.35)],
    ids=["form 1", "form 2", "its maker"],
)
def test_the_torque_of_the_core_is_told_with_its_source(core: Texts, low: float, high: float) -> None:
    """0.29 N m for chamber 1, 0.39 for chamber 2 (JIS D 4211); a maker's figure leads."""
    number = core.get("core_chamber", "1")
    seat = body = {"core_chamber": number}
    torque = next(one for one in valve(seat, body, core).told if one.rule == "core_torque")
    assert (torque.low, torque.high) == pytest.approx((low, high))
    assert torque.unit == "N m"
    assert ("JIS D 4211" in torque.source) == (not core.get("torque"))


def test_the_trap_of_the_stem_nut_is_told() -> None:
    """Whoever reads the torque of the core is told that nuts take 30 to 40 times as much."""
    assert any("30 to 40 times" in one for one in valve().cautions)
    assert any("before the core is loosened" in one for one in valve().cautions)


def test_brass_in_aluminium_is_told() -> None:
    """A brass core in an aluminium body is a caution, not a refusal."""
    found = valve(body={"material": "aluminium"})
    assert found.status is FITS
    assert any("brass core in an aluminium body" in one for one in found.cautions)


@pytest.mark.parametrize(
    ("collar", "status"), [("8.9 ±0.05 mm", FITS), ("9.05 ±0.1 mm", NOT), ("9.3 ±0.1 mm", OUT)]
)
def test_the_collar_must_enter_its_counterbore(collar: str, status: Status) -> None:
    """A collar wider than the counterbore keeps the body from seating."""
    assert of(valve(body={"outside_diameter": collar}), "collar_clearance").status is status


def test_a_cap_is_held_against_the_thread_for_it() -> None:
    """A cap of 6V1 does not go on a body with 8V1."""
    cap = Fitted(read_model(ValveFitting, {"inside_thread": "6V1"}, path="part"))
    found = valve(None, None, None, None, cap)
    assert of(found, "cap_match").status is OUT
    same = Fitted(read_model(ValveFitting, {"inside_thread": "8V1"}, path="part"))
    assert of(valve(None, None, None, None, same), "cap_match").status is FITS


def test_another_thread_in_the_seat_does_not_fit_and_nothing_is_made_of_it() -> None:
    """A body with 5/16-24 in an M8x1 seat does not fit, and no engaged length is told for it."""
    found = valve(body={"thread": "5/16-24"})
    assert found.status is OUT
    assert of(found, "thread_match").status is OUT
    assert found.of("engagement_in_diameters") is None


def test_a_pin_of_a_tyre_core_has_printed_limits() -> None:
    """JIS D 4211 lets the pin end 0.05 mm above to 0.7 mm below the mouth; other cores have no limits."""
    tyre: Texts = {"core_family": "tyre"}

    def with_pin(pin: Texts, family: Texts = tyre) -> Verdict:
        return valve(seat=family, body=family, core={**family, **pin})

    assert of(with_pin({"pin_below": "0.3 ±0.1 mm"}), "pin_depth").status is FITS
    assert of(with_pin({"pin_proud": "0.5 ±0.1 mm"}), "pin_depth").status is OUT
    assert of(with_pin({"pin_below": "1.2 ±0.1 mm"}), "pin_depth").status is OUT
    assert of(valve(core={"pin_below": "0.3 ±0.1 mm"}), "pin_depth").status is NOT


def test_a_seat_without_parts_says_what_is_missing() -> None:
    """A seat with nothing in it is not proven and names body and core."""
    place = read_model(ValveSeat, SEAT, path="place")
    found = check(Fit(place=place), published_reference())
    assert found.status is NOT
    assert of(found, "thread_match").lacks == ("valve body",)
    assert of(found, "core_match").lacks == ("valve core",)


def test_a_body_with_another_chamber_than_the_unit_needs_does_not_fit() -> None:
    """A core for chamber No. 1 says nothing of a body with chamber No. 2."""
    verdict = valve(body={"core_chamber": "2"})
    assert of(verdict, "core_fits_chamber").status is Status.DOES_NOT_FIT
    assert of(valve({"core_chamber": None}, {"core_chamber": "2"}), "core_fits_chamber").status is (
        Status.DOES_NOT_FIT
    )


@pytest.mark.parametrize("part", ["body", "core"])
def test_a_rating_counts_at_the_least_it_may_be(part: str) -> None:
    """A rating of 3 MPa within 1 MPa may be 2, and 2.5 MPa push on it."""
    changes: dict[str, Texts] = {part: {"pressure_rating": "3 ±1 MPa"}}
    assert valve(**changes).status is not Status.FITS
    changes = {part: {"pressure_rating": "3 ±0.2 MPa"}}
    assert valve(**changes).status is Status.FITS


@pytest.mark.parametrize("sealing", ["washer", None])
def test_a_washer_under_the_collar_takes_from_the_thread(sealing: str | None) -> None:
    """What lies under the collar must be told where it may be a washer; the engaged length is less by it."""
    untold = valve({"seals_by": sealing}, {"seals_by": sealing})
    assert "clamped thickness" in of(untold, "engagement_in_diameters").lacks
    thin = valve({"seals_by": sealing, "clamped_thickness": "0.3 ±0.05 mm"}, {"seals_by": sealing})
    assert thin.status is Status.FITS
    thick = valve({"seals_by": sealing, "clamped_thickness": "1.5 ±0.1 mm"}, {"seals_by": sealing})
    assert of(thick, "engagement_in_diameters").status is Status.NOT_PROVEN


def test_two_different_cores_are_not_proven() -> None:
    """A tyre core beside the right one on the list of a valve is not passed over."""
    tyre = read_model(ValveCore, {**CORE, "core_family": "tyre"}, path="part")
    verdict = valve(None, None, None, None, Fitted(tyre))
    assert (verdict.status, of(verdict, "one_core").status) == (Status.NOT_PROVEN, Status.NOT_PROVEN)


def test_a_collar_in_a_counterbore_must_be_told() -> None:
    """Whether a body seats in its counterbore is not left out for want of its collar."""
    found = of(valve(body={"outside_diameter": None}), "collar_clearance")
    assert (found.status, found.lacks) == (Status.NOT_PROVEN, ("collar diameter",))
    assert valve({"counterbore": None}).status is Status.FITS


def test_a_seat_that_is_not_told_is_said() -> None:
    """A core that may have a lead seat is not passed over in silence."""
    assert any("lead" in one for one in valve(core={"seat": None}).not_asked)
    assert not any("lead" in one for one in valve().not_asked)
