"""An eyelet that turns on bearings: their seat, their widths, and sizes that a designation does not tell."""

from __future__ import annotations

import pytest

from fitcheck.check import check
from schema.finding import Status
from schema.reference import published_reference
from tests.fitcheck.eyelets.conftest import BEARING_PLACE, BEARINGS, fit_of

FITS, NOT_PROVEN, DOES_NOT_FIT = Status.FITS, Status.NOT_PROVEN, Status.DOES_NOT_FIT


def test_two_bearings_with_sleeve_and_spacers_fit() -> None:
    """6800 in an eyelet 19 H7 on a bolt 10 h6, a sleeve between them and a spacer each side."""
    verdict = check(fit_of(BEARING_PLACE, BEARINGS), published_reference())
    assert verdict.status is FITS
    seat, gap = verdict.of("bearing_seat"), verdict.of("side_gap")
    assert seat is not None
    assert (seat.low, seat.high) == pytest.approx((0.0, 0.030))
    assert gap is not None
    # 20.2 to 20.4 less 2 x 5 0/-0.12, 2 +-0.05 and 2 x 4 +-0.05
    assert (gap.low, gap.high) == pytest.approx((0.05, 0.79))


def test_688_does_not_say_how_wide_it_is() -> None:
    """688 is sold 4, 5 and 6 mm wide: without its width the stack is open, with it all fits."""
    place = {**BEARING_PLACE, "bore": "16 H7 mm", "bolt_diameter": "8 h6 mm", "mount_width": "9.3 ±0.1 mm"}
    sleeves = [
        {
            "kind": "eyelet_hardware",
            "style": "spacer",
            "inside_diameter": "8.1 +0.1/0 mm",
            "width": "2.0 ±0.05 mm",
            "quantity": 2,
        }
    ]
    place["width"] = "6.0 ±0.1 mm"
    untold = check(
        fit_of(place, [{"kind": "bearing", "designation": "688"}, *sleeves]), published_reference()
    )
    told = check(
        fit_of(place, [{"kind": "bearing", "designation": "688", "width": "5 mm"}, *sleeves]),
        published_reference(),
    )
    gap = untold.of("side_gap")
    assert gap is not None
    assert gap.lacks == ("width of the bearing (688 is sold 4 or 5 or 6 mm wide)",)
    assert told.status is FITS


def test_a_bearing_in_a_worn_eyelet_does_not_fit() -> None:
    """An eyelet worn to 19.15 mm is looser than any class that trade pages name, by more than 0.05 mm."""
    verdict = check(fit_of({**BEARING_PLACE, "bore": "19.15 ±U0.01 mm"}, BEARINGS), published_reference())
    seat = verdict.of("bearing_seat")
    assert seat is not None
    assert seat.status is DOES_NOT_FIT


def test_the_seat_of_a_spherical_bearing_goes_by_the_metal_of_the_eyelet() -> None:
    """Light-alloy housings are asked for M7 or N7: H7 that serves in steel is not proven in aluminium."""
    place = {
        "bore": "22 H7 mm",
        "width": "10.5 ±0.1 mm",
        "bolt_diameter": "12 h6 mm",
    }
    bearing = [
        {
            "kind": "bearing",
            "style": "spherical",
            "designation": "GE 12 E",
            "inside_diameter": "12 mm",
            "outside_diameter": "22 mm",
            "width": "10 mm",
        }
    ]
    seats = [
        check(fit_of({**place, "metal": metal}, bearing), published_reference()).of("bearing_seat")
        for metal in ("steel", "aluminium")
    ]
    assert [one and one.status for one in seats] == [FITS, NOT_PROVEN]


@pytest.mark.parametrize(
    ("bore", "status"), [("22 H7 mm", NOT_PROVEN), ("22 M7 mm", FITS), ("22.15 ±U0.01 mm", DOES_NOT_FIT)]
)
def test_an_eyelet_of_untold_metal_must_suit_its_bearing_in_both(bore: str, status: Status) -> None:
    """M7 is asked for in steel and in light alloy, H7 in steel alone; what is loose in both is refused."""
    place = {"bore": bore, "width": "10.5 ±0.1 mm", "bolt_diameter": "12 h6 mm"}
    bearing = {
        "kind": "bearing",
        "style": "spherical",
        "designation": "GE 12 E",
        "inside_diameter": "12 mm",
        "outside_diameter": "22 mm",
        "width": "10 mm",
    }
    seat = check(fit_of(place, [bearing]), published_reference()).of("bearing_seat")
    assert seat is not None
    assert seat.status is status


def test_bare_sizes_are_asked_for_before_another_part() -> None:
    """While the tolerance of a bearing is not told, nobody is sent for another bearing or eyelet."""
    place = {"bore": "16 H7 mm", "width": "5.0 ±0.1 mm", "bolt_diameter": "8 h6 mm", "metal": "aluminium"}
    bearing = {
        "kind": "bearing",
        "style": "spherical",
        "inside_diameter": "8 mm",
        "outside_diameter": "16 mm",
        "width": "8 mm",
        "outer_width": "5 mm",
    }
    verdict = check(fit_of(place, [bearing]), published_reference())
    assert verdict.status is NOT_PROVEN
    assert "tolerance of the bearing" in verdict.next_step
    assert "another part" not in verdict.next_step
    seat = verdict.of("bearing_seat")
    assert seat is not None
    assert "It would need an eyelet bore of" in seat.action


def test_a_drawn_cup_has_no_size_until_it_is_seated() -> None:
    """A needle bearing's outside is not judged, and the disputed HK1210 is not taken from its table."""
    place = {**BEARING_PLACE, "bore": "18 N6 mm", "bolt_diameter": "12 h6 mm"}
    verdict = check(fit_of(place, [{"kind": "bearing", "designation": "HK1210"}]), published_reference())
    assert verdict.status is NOT_PROVEN
    seat = verdict.of("bearing_seat")
    assert seat is not None
    assert "bearing outside diameter" in seat.lacks
    assert any("disputed" in one for one in verdict.taken)


@pytest.mark.parametrize("outside", ["18.92 ±0.005 mm", "19.05 ±0.005 mm"])
def test_a_second_bearing_of_another_size_is_not_passed_over(outside: str) -> None:
    """A worn or a wrong bearing beside a right one is not judged by the right one."""
    right = {**BEARINGS[0], "quantity": 1}
    worn = {**right, "part_number": "B2", "outside_diameter": outside}
    verdict = check(fit_of(BEARING_PLACE, [right, worn, *BEARINGS[1:]]), published_reference())
    assert verdict.status is not Status.FITS
    assert verdict.of("bearings_alike") is not None


def test_bearings_of_two_widths_add_up_each_by_its_own() -> None:
    """Two of 5 mm and one of 7 fill 17 mm, less 0.12 each, whatever their order on the list."""
    narrow = {"kind": "bearing", "designation": "6800", "quantity": 2}
    wide = {
        "kind": "bearing",
        "style": "deep_groove",
        "inside_diameter": "10 mm",
        "outside_diameter": "19 mm",
    }
    wide |= {"width": "7.00 +0/-0.12 mm", "part_number": "W"}
    for parts in ([narrow, wide], [wide, narrow]):
        verdict = check(fit_of({**BEARING_PLACE, "width": "18 ±0.1 mm"}, parts), published_reference())
        stack = next(one for one in verdict.told if one.rule == "stack_width")
        assert (stack.low, stack.high) == pytest.approx((16.64, 17.0))
        room = verdict.of("bearing_room")
        assert room is not None
        assert (room.low, room.high) == pytest.approx((0.9, 1.46))


def test_every_hole_the_bolt_passes_must_be_told() -> None:
    """A spacer without its bore is not covered by the bore of the sleeve beside it."""
    for at in (1, 2):
        parts = [*BEARINGS]
        parts[at] = {name: text for name, text in parts[at].items() if name != "inside_diameter"}
        found = check(fit_of(BEARING_PLACE, parts), published_reference()).of("bolt_clearance")
        assert found is not None
        assert (found.status, len(found.lacks)) == (NOT_PROVEN, 1)
