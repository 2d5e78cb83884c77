"""All quantities of one ring in one gland: what each gland asks, and what each layer does."""

from __future__ import annotations

import pytest

from fitcheck.numbers import Span
from fitcheck.rings.conditions import Conditions, check_layers
from fitcheck.rings.glands import quantities
from schema.errors import UnknownName

P = Span.point
RING = {"inside_diameter": P(24.99), "cross_section": P(3.53)}
PISTON = {
    **RING,
    "bore_diameter": P(31.5),
    "groove_diameter": P(25.5),
    "land_diameter": P(31.4),
    "groove_width": P(4.8),
}
ROD = {
    **RING,
    "shaft_diameter": P(25.4),
    "groove_diameter": P(31.5),
    "throat_diameter": P(25.5),
    "groove_width": P(4.8),
}
FACE = {
    **RING,
    "groove_depth": P(2.7),
    "groove_outer_diameter": P(31.8),
    "groove_inner_diameter": P(25.5),
    "groove_width": P(4.8),
}


def middle(sizes: dict[str, Span], **conditions: object) -> dict[str, float]:
    return {name: span.middle for name, span in quantities(sizes, Conditions(**conditions)).items()}  # type: ignore[arg-type]


def test_a_piston_gland_stretches_its_ring() -> None:
    """On a piston the ring is stretched over the groove floor; nothing is compressed."""
    found = middle(PISTON, gland="piston")
    assert found["stretch"] == pytest.approx(100 * (25.5 - 24.99) / 24.99)
    assert "peripheral_compression" not in found


def test_a_rod_gland_compresses_its_ring() -> None:
    """In a housing the outside of the ring counts against the groove; not the stretch on the shaft."""
    found = middle(ROD, gland="rod")
    outside = 24.99 + 2 * 3.53
    assert found["peripheral_compression"] == pytest.approx(100 * (outside - 31.5) / outside)
    assert "stretch" not in found


@pytest.mark.parametrize(
    ("outward", "asked", "other"),
    [(True, "peripheral_compression", "stretch"), (False, "stretch", "peripheral_compression")],
)
def test_a_face_gland_depends_on_the_pressure_side(outward: bool, asked: str, other: str) -> None:
    """Pressure from inside presses the ring on its outer wall, from outside on its inner one."""
    found = middle(FACE, gland="face", outward=outward)
    assert asked in found
    assert other not in found


def test_the_side_of_a_face_groove_sets_its_fill() -> None:
    """The groove lies inside its outer wall or outside its inner wall: two volumes."""
    inside, outside = (middle(FACE, gland="face", outward=outward)["fill"] for outward in (True, False))
    assert inside == pytest.approx(outside * (25.5 + 4.8) / (31.8 - 4.8))


def test_a_face_gland_without_a_gap_has_no_clearance() -> None:
    """Faces that touch leave nothing to extrude into."""
    assert middle(FACE, gland="face")["extrusion_gap"] == 0


@pytest.mark.parametrize("missing", ["bore_diameter", "groove_diameter", "land_diameter", "groove_width"])
def test_what_lacks_a_size_is_left_out(missing: str) -> None:
    """A missing size leaves out what it enters and nothing else."""
    needs = {
        "bore_diameter": {"squeeze", "least_squeeze", "greatest_squeeze", "fill", "extrusion_gap"},
        "groove_diameter": {
            "squeeze",
            "stretch",
            "least_squeeze",
            "greatest_squeeze",
            "fill",
            "section_in_groove",
        },
        "land_diameter": {
            "assembly_stretch",
            "extrusion_gap",
            "section_in_groove",
            "least_squeeze",
            "greatest_squeeze",
        },
        "groove_width": {"fill", "side_room"},
    }
    whole = set(middle(PISTON, gland="piston"))
    found = set(middle({name: size for name, size in PISTON.items() if name != missing}, gland="piston"))
    assert whole - found == needs[missing]


def test_all_layers_off_leave_the_handbook_squeeze() -> None:
    """Without stretch and eccentricity least and greatest squeeze are the plain one."""
    found = middle(PISTON, gland="piston", layers_off=("stretch", "eccentricity"))
    assert found["least_squeeze"] == found["greatest_squeeze"] == found["squeeze"]


@pytest.mark.parametrize("layer", ["stretch", "eccentricity"])
def test_each_layer_takes_squeeze_away(layer: str) -> None:
    """Thinning and eccentricity each make the least squeeze smaller."""
    on = middle(PISTON, gland="piston")["least_squeeze"]
    assert middle(PISTON, gland="piston", layers_off=(layer,))["least_squeeze"] > on


def test_the_cold_takes_squeeze_away_and_heat_and_swell_add_it() -> None:
    """At -30 K the least squeeze falls, at +60 K with 10 % swell the greatest rises."""
    found = middle(
        PISTON,
        gland="piston",
        rubber_expansion_per_k=1.6e-4,
        metal_expansion_per_k=2.3e-5,
        cold_rise_k=-30.0,
        hot_rise_k=60.0,
        swell_high_percent=10.0,
    )
    assert found["cold_squeeze"] < found["least_squeeze"]
    assert found["hot_squeeze"] > found["greatest_squeeze"]
    assert found["hot_fill"] > found["fill"]


def test_without_a_temperature_its_ends_are_not_asked() -> None:
    """No cold and no hot finding without a temperature range."""
    assert {"cold_squeeze", "hot_squeeze", "hot_fill"}.isdisjoint(middle(PISTON, gland="piston"))


def test_a_closer_guide_holds_the_groove_centred() -> None:
    """A guide closer than the land limits the offset; a looser one does not widen it."""
    alone = middle(PISTON, gland="piston")["least_squeeze"]
    close = middle({**PISTON, "guide_clearance": P(0.02)}, gland="piston")["least_squeeze"]
    loose = middle({**PISTON, "guide_clearance": P(0.5)}, gland="piston")["least_squeeze"]
    assert close > alone == loose


def test_run_out_adds_to_the_offset() -> None:
    """A run-out takes squeeze on one side and adds it on the other."""
    alone, bent = (middle(sizes, gland="piston") for sizes in (PISTON, {**PISTON, "runout": P(0.1)}))
    assert bent["least_squeeze"] < alone["least_squeeze"]
    assert bent["greatest_squeeze"] > alone["greatest_squeeze"]


def test_back_up_rings_take_width() -> None:
    """Back-up rings take side room and leave less volume for the ring."""
    none, one = (
        middle({**PISTON, "back_up_width": P(1.0)}, gland="piston", back_up_rings=count) for count in (0, 1)
    )
    assert one["side_room"] == pytest.approx(none["side_room"] - 1.0)
    assert one["fill"] == pytest.approx(none["fill"] * 4.8 / 3.8)


def test_back_up_rings_as_wide_as_the_groove_leave_no_proof_of_fill() -> None:
    """With no width left for the ring its fill is not a number below zero and nothing breaks."""
    sizes = {**PISTON, "back_up_width": P(4.8)}
    found = quantities(sizes, Conditions(gland="piston", back_up_rings=1)).get("fill")
    assert found is None or not found.high <= 100


def test_back_up_rings_wider_than_the_groove_leave_no_proof_of_fill() -> None:
    """A groove narrower than its back-up rings is not filled by less than nothing."""
    sizes = {**PISTON, "back_up_width": P(2.9)}
    found = quantities(sizes, Conditions(gland="piston", back_up_rings=2)).get("fill")
    assert found is None or not found.high <= 100


@pytest.mark.parametrize("wall_mm", [4.0, 4.8])
def test_a_face_groove_wider_than_its_wall_leaves_no_proof_of_fill(wall_mm: float) -> None:
    """A groove that reaches beyond the centre of its outer wall has no volume to be filled."""
    found = quantities({**FACE, "groove_outer_diameter": P(wall_mm)}, Conditions(gland="face")).get("fill")
    assert found is None or not found.high <= 100


def test_assembly_stretch_is_asked_when_its_size_is_given() -> None:
    """Pushed over 30 mm a 24.99 mm ring is stretched by 20 %."""
    found = middle({**PISTON, "passes_over": P(30.0)}, gland="piston")
    assert found["assembly_stretch"] == pytest.approx(100 * (30 - 24.99) / 24.99)


@pytest.mark.parametrize(
    ("field", "value"), [("thinning", "linear"), ("thickening", "linear"), ("layers_off", ("friction",))]
)
def test_a_law_or_layer_that_does_not_exist_is_refused(field: str, value: object) -> None:
    """An unknown law or layer is refused with the known ones."""
    with pytest.raises(UnknownName, match=f"{field}: there is no such name"):
        check_layers(Conditions(gland="piston", **{field: value}))  # type: ignore[arg-type]
