"""What the command line asks of the catalogue: parts, places, the question they make, near names."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from catalogue.lookup import (
    back_up_ring,
    part,
    part_record,
    parts,
    place,
    places,
    question_dict,
    rebuild_list,
    units,
)
from catalogue.seed import load_seed
from catalogue.store import open_store
from fitcheck.check import check
from schema.errors import InputError, InputErrors, UnknownName
from schema.finding import Status
from schema.question import question_from
from schema.reference import published_reference
from tests.catalogue.sheets.small_loads import load
from tests.command import Ran, part_numbers, sheet, unit_files


def listed_rings() -> list[tuple[str, str]]:
    """Every gland of the demo data with the ring on its list of parts."""
    listed = {row["part_number"]: row["kind"] for row in sheet("parts.csv")}
    found = []
    for unit, file in unit_files().items():
        own = file.texts.get("parts", {})
        kinds = {**listed, **{number: told["kind"] for number, told in own.items()}}
        for name, told in file.texts["places"].items():
            if told["kind"].endswith("_gland"):
                numbers = [one if isinstance(one, str) else one["part"] for one in told["parts"]]
                rings = [one for one in numbers if kinds[one] in ("o_ring", "four_lobed_ring")]
                found += [(one, f"{unit}/{name}") for one in rings]
    return found


LISTED = listed_rings()
NOT_PROVEN_ON_PURPOSE = ("dunlin-165/main-piston", "fieldfare-150/foot-stud", "wryneck-185/main-piston")
MEASURED = {
    "bore_diameter": "25.43 ±U0.01 mm",
    "groove_diameter": "22.56 ±U0.01 mm",
    "land_diameter": "25.31 ±U0.01 mm",
}


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo catalogue."""
    made = tmp_path_factory.mktemp("lookup") / "catalogue.sqlite"
    with closing(open_store(made, write=True)) as db:
        load_seed(db)
    return made


@pytest.fixture(scope="module")
def connection(path: Path) -> Iterator[sqlite3.Connection]:
    """The demo catalogue, opened for reading."""
    with closing(open_store(path)) as opened:
        yield opened


def verdict(connection: sqlite3.Connection, number: str, name: str, overrides: object = None) -> Status:
    """The verdict on a part in a place, by the shipped tables."""
    asked = question_dict(connection, number, name, overrides)  # type: ignore[arg-type]
    return check(question_from(asked), published_reference()).status


def test_every_gland_has_its_ring() -> None:
    """Each of the 37 glands of the demo data has exactly one ring on its list."""
    assert len(LISTED) == len({name for _, name in LISTED}) == 37


@pytest.mark.parametrize(("number", "name"), LISTED, ids=[name for _, name in LISTED])
def test_listed_ring_is_checkable(connection: sqlite3.Connection, number: str, name: str) -> None:
    """The usual ring of a gland fits as drawn, save in the three glands that are not proven on purpose."""
    expected = Status.NOT_PROVEN if name in NOT_PROVEN_ON_PURPOSE else Status.FITS
    assert verdict(connection, number, name) is expected


@pytest.mark.parametrize(
    ("number", "name", "overrides", "expected"),
    [
        pytest.param("QV-1207", "whinchat-216/end-cap", None, Status.FITS, id="usual ring"),
        pytest.param("QV-1112", "whinchat-216/end-cap", None, Status.DOES_NOT_FIT, id="thinner ring"),
        pytest.param("QV-1504", "whinchat-216/end-cap", None, Status.DOES_NOT_FIT, id="wrong rubber"),
        pytest.param("QV-1011", "dunlin-165/main-piston", None, Status.NOT_PROVEN, id="as drawn"),
        pytest.param("QV-1011", "dunlin-165/main-piston", {"place": MEASURED}, Status.FITS, id="as measured"),
        pytest.param(
            "HMR-106",
            "wryneck-185/main-piston",
            {"place": {"groove_diameter": "21.17 mm by micrometer"}},
            Status.FITS,
            id="one reading",
        ),
    ],
)
def test_demo_readme_is_true(
    connection: sqlite3.Connection, number: str, name: str, overrides: object, expected: Status
) -> None:
    """What the demo data's README says to try comes out as it says."""
    assert verdict(connection, number, name, overrides) is expected


def test_part_texts(connection: sqlite3.Connection) -> None:
    """A part by its code is handed out with the code, so that the size keeps its evidence."""
    assert part(connection, "QV-1207") == {
        "kind": "o_ring",
        "part_number": "QV-1207",
        "description": "Nitrile O-ring, 29.74 x 3.53 mm",
        "material": "NBR",
        "hardness_shore_a": "70",
        "size": "AS568-217",
    }


def test_part_with_own_sizes(connection: sqlite3.Connection) -> None:
    """A part with sizes of its own is handed out with their texts."""
    found = part(connection, " qv-2603 ")
    assert (found["part_number"], found["cross_section"]) == ("QV-2603", "2,40 ±0,09 mm")
    assert "size" not in found


def test_place_texts(connection: sqlite3.Connection) -> None:
    """A place is found without regard to case, with its dimensions and its service."""
    found, service = place(connection, "Dunlin-165 / FLOATING-piston")
    assert (found["unit"], found["place"], found["kind"]) == ("dunlin-165", "floating-piston", "piston_gland")
    assert found["groove_width"] == "0.145 +0.005/0 in"
    assert service == {
        "motion": "reciprocating",
        "medium": "gas",
        "pressure": "300 psi",
        "pressure_from": "both_sides",
        "temperature": "-10..60 degC",
        "fluid": "pao_oil; nitrogen",
    }


def test_back_up_ring_comes_with_its_place(connection: sqlite3.Connection) -> None:
    """The back-up ring on the rebuild list is part of the question, with its texts."""
    asked = question_dict(connection, "QV-1202", "whinchat-216/shaft-seal")
    assert asked["back_up_ring"]["width"] == "1.25 +0/-0.10 mm"
    assert question_from(asked).back_up is not None


def test_place_without_back_up_ring(connection: sqlite3.Connection) -> None:
    """A place whose list has no back-up ring gives none."""
    assert back_up_ring(connection, "whinchat-216/end-cap") is None
    assert "back_up_ring" not in question_dict(connection, "QV-1207", "whinchat-216/end-cap")


def test_several_back_up_rings(path: Path, tmp_path: Path) -> None:
    """Where the list has several back-up rings none is guessed, unless the person gives one."""
    own = tmp_path / "own.sqlite"
    own.write_bytes(path.read_bytes())
    with closing(open_store(own, write=True)) as db:
        db.execute(
            "INSERT INTO rebuild_list VALUES ('whinchat-216', 'shaft-seal', 'QV-4008', 9, 1, 'always')"
        )
        with pytest.raises(InputError, match=r"has several back-up rings \(QV-4001, QV-4008\)"):
            question_dict(db.conn, "QV-1202", "whinchat-216/shaft-seal")
        given = {"back_up_ring": {"width": "1.2 mm"}}
        asked = question_dict(db.conn, "QV-1202", "whinchat-216/shaft-seal", given)
    assert asked["back_up_ring"] == {"width": "1.2 mm"}


def test_measured_replaces_drawn(connection: sqlite3.Connection) -> None:
    """A measured size takes the place of the drawn one; names with dashes are the same names."""
    given = {"place": {"bore-diameter": "36.01 ±U0.01 mm"}, "service": {"pressure": "3 MPa", "fluid": ""}}
    asked = question_dict(connection, "QV-1207", "whinchat-216/end-cap", given)
    assert asked["place"]["bore_diameter"] == "36.01 ±U0.01 mm"
    assert asked["place"]["groove_diameter"] == "30.36 ±0.01 mm"
    assert "bore-diameter" not in asked["place"]
    assert (asked["service"]["pressure"], asked["service"]["fluid"]) == ("3 MPa", "mineral_oil")


def test_measured_ring_replaces_its_code(connection: sqlite3.Connection) -> None:
    """A measured section leads over the section of the part's code."""
    given = {"part": {"cross_section": "3.50 ±U0.02 mm"}}
    ring = question_from(question_dict(connection, "QV-1207", "whinchat-216/end-cap", given)).ring
    assert (ring.cross_section.text, ring.code) == ("3.50 ±U0.02 mm", "AS568-217")


def test_given_size_replaces_own_sizes(connection: sqlite3.Connection) -> None:
    """A size code given by the person replaces the part's own sizes, which would lead over it."""
    asked = question_dict(
        connection, "QV-2601", "garganey-190/shaft-seal", {"part": {"size": "AS568-112", "material": "FKM"}}
    )
    ring = question_from(asked).ring
    assert (ring.code, ring.material, ring.part_number) == ("AS568-112", "FKM", "QV-2601")


def test_other_sections_pass_through(connection: sqlite3.Connection) -> None:
    """Choices, and sections that do not exist, reach the reader of questions as they were given."""
    given = {"choices": {"decision_rule": "guarded"}, "palce": {"x": "1"}}
    asked = question_dict(connection, "QV-1207", "whinchat-216/end-cap", given)
    assert asked["choices"] == {"decision_rule": "guarded"}
    with pytest.raises(InputErrors, match="palce: there is no such section"):
        question_from(asked)


@pytest.mark.parametrize(
    ("number", "name", "section"),
    [
        pytest.param(None, "whinchat-216/end-cap", "place", id="place only"),
        pytest.param("QV-1207", None, "part", id="part only"),
    ],
)
def test_one_side_from_the_catalogue(
    connection: sqlite3.Connection, number: str | None, name: str | None, section: str
) -> None:
    """A part or a place that is not asked for is left to what the person gives."""
    asked = question_dict(connection, number, name, {"choices": {"fill": "x"}})
    assert section in asked
    assert len({"part", "place"} & set(asked)) == 1


@pytest.mark.parametrize(
    ("number", "name", "told"),
    [
        pytest.param("QV-1270", "whinchat-216/end-cap", "not in the catalogue.*QV-1210", id="part"),
        pytest.param("qv1207", "whinchat-216/end-cap", "not in the catalogue.*Near: QV-1207", id="no dash"),
        pytest.param("XX-1207", "whinchat-216/end-cap", "not in the catalogue.*QV-1207", id="other drawer"),
        pytest.param(
            "QV-1207", "whinchat-216/endcap", "place is not in the .*Near: whinchat-216/end-cap", id="place"
        ),
        pytest.param(
            "QV-1207", "whinchat/end-cap", "place is not in the .*Near: whinchat-216/end-cap", id="unit"
        ),
        pytest.param(
            "QV-1207", "end-cap", "named by unit/place.*Near: whinchat-216/end-cap", id="place alone"
        ),
    ],
)
def test_unknown_names_come_with_near_ones(
    connection: sqlite3.Connection, number: str, name: str, told: str
) -> None:
    """A name that is not known is told with the nearest ones that are."""
    with pytest.raises(UnknownName, match=told):
        question_dict(connection, number, name)


def test_both_names_unknown(connection: sqlite3.Connection) -> None:
    """A part and a place that are both not known are told together."""
    with pytest.raises(InputErrors, match=r"(?s)part: this part number is not.*place: this place is not"):
        question_dict(connection, "QV-0000", "whinchat-216/nothing")


@pytest.mark.parametrize(
    ("number", "name", "told"),
    [
        pytest.param(
            "QV-5101", "whinchat-216/end-cap", r"part: not checked yet: kind wiper.*o_ring", id="wiper"
        ),
        pytest.param("QV-4001", "whinchat-216/end-cap", r"not checked yet: kind back_up_ring", id="back-up"),
        pytest.param("QV-1207", "whinchat-216/bleed-port", r"not checked yet: kind threaded_port", id="port"),
    ],
)
def test_kinds_that_are_not_checked(
    connection: sqlite3.Connection, number: str, name: str, told: str
) -> None:
    """A part that is no ring, or a place that is no gland, is told as not checked yet."""
    with pytest.raises(InputError, match=told):
        question_dict(connection, number, name)


@pytest.mark.parametrize(
    ("kind", "text", "expected"),
    [
        pytest.param("back-up ring", "POM", ["QV-4008", "QV-4009"], id="kind and word"),
        pytest.param(None, "as568-217", ["QV-1207", "QV-1304", "QV-1504"], id="size code"),
        pytest.param(None, "hard 29.74", ["QV-1304"], id="two words"),
        pytest.param(None, "100%", [], id="wildcard sign"),
        pytest.param("valve_core", None, ["HMR-500", "QV-5601", "QV-5602", "QV-5603"], id="kind"),
    ],
)
def test_parts_are_found(
    connection: sqlite3.Connection, kind: str | None, text: str | None, expected: list[str]
) -> None:
    """Parts are found by kind and by the words of their texts, in order of their numbers."""
    assert [row["part_number"] for row in parts(connection, kind, text)] == expected


def test_all_parts(connection: sqlite3.Connection) -> None:
    """Without a condition every part is listed."""
    assert {row["part_number"] for row in parts(connection)} == part_numbers()


def test_unknown_kind(connection: sqlite3.Connection) -> None:
    """A kind that does not exist is told with near ones, not answered by an empty list."""
    with pytest.raises(UnknownName, match=r"no such kind of part.*Near: wiper"):
        parts(connection, kind="wipper")


def test_units_and_places(connection: sqlite3.Connection) -> None:
    """Units are listed by name with the number of their places, places in the order of the work."""
    counts = {row["unit"]: row["places"] for row in units(connection)}
    assert list(counts) == ["dunlin-165", "fieldfare-150", "garganey-190", "whinchat-216", "wryneck-185"]
    told = list(unit_files()["dunlin-165"].texts["places"])
    assert [row["place"] for row in places(connection, "DUNLIN-165")] == told
    assert counts["dunlin-165"] == len(told)


def test_unknown_unit(connection: sqlite3.Connection) -> None:
    """A unit that is not known is told with near ones."""
    with pytest.raises(UnknownName, match=r"unit is not in the catalogue.*Near: dunlin-165"):
        places(connection, "dunlin-156")


def test_rebuild_list(connection: sqlite3.Connection) -> None:
    """The rebuild list of a unit names for each place its parts, how many, and whether always."""
    rows = rebuild_list(connection, "Dunlin-165")
    seals = [(r["part_number"], r["quantity"], r["renew"]) for r in rows if r["place"] == "shaft-seal"]
    assert seals == [("QV-1203", 1, "always"), ("QV-4004", 2, "always")]


def test_part_record(connection: sqlite3.Connection) -> None:
    """All that is known of a part comes with its sizes in mm and the places that take it."""
    found = part_record(connection, "qv-1003")
    assert (found["part_number"], found["size_grade"]) == ("QV-1003", "published_twice")
    assert [row["dimension"] for row in found["dimensions"]] == ["cross_section", "inside_diameter"]
    assert found["values"] == []
    assert [(row["unit"], row["place"]) for row in found["places"]] == [("whinchat-216", "adjuster-spindle")]


def _offered(tmp_path: Path) -> Path:
    """A demo catalogue in which two suppliers offered QV-1205, and one does not any more."""
    catalogue = tmp_path / "offered.sqlite"
    with closing(open_store(catalogue, write=True)) as db:
        load_seed(db)
    header = "Code,Words,Kind,ID,CS,Rubber,Shore,Price,Per,Pack,Least,Days,Stock,Our number"
    ring = "O-ring,o_ring,24.99,3.53,NBR,70"
    other = "X-9,O-ring,o_ring,401,3.5,NBR,70,1.00,,,,,,"
    load(catalogue, header, f"K-1,{ring},12.5,100,10,50,14,250,qv-1205", supplier="Kolbring")
    more = [other.replace("X-9", f"X-{one}").replace("401", f"40{one}") for one in (1, 2)]
    load(catalogue, header, f"D-1,{ring},0.2,,,,,,QV-1205", *more, supplier="Dornet")
    load(catalogue, header, *more, supplier="Dornet", covers="whole_range")
    return catalogue


def test_the_offers_of_a_part(tmp_path: Path) -> None:
    """Who sells it, at what terms, from which row of which sheet; those that list it come first."""
    with closing(open_store(_offered(tmp_path))) as connection:
        first, second = part_record(connection, "QV-1205")["offers"]
    terms = ("code", "price", "currency", "price_per", "pack_size", "minimum", "lead_time_days", "stock")
    assert (first["supplier"], first["listed"]) == ("Kolbring", True)
    assert tuple(first[name] for name in terms) == ("K-1", "12.5", "EUR", 100, 10, 50, 14, 250)
    assert re.fullmatch(r"load 1 \(\d{4}-\d\d-\d\d\), row 2 of sheet\.csv", first["loaded_from"])
    assert (second["supplier"], second["code"], second["listed"]) == ("Dornet", "D-1", False)


def test_a_part_from_a_sheet_says_from_which_row(tmp_path: Path) -> None:
    """A part of the seed comes from none."""
    with closing(open_store(_offered(tmp_path))) as connection:
        assert part_record(connection, "Dornet:X-1")["loaded_from"].endswith("row 3 of sheet.csv")
        assert part_record(connection, "QV-1205")["loaded_from"] is None


def test_the_offers_of_a_part_are_printed(tmp_path: Path, run: Callable[..., Ran]) -> None:
    """In words: what the program keeps for itself is left out."""
    ran = run("parts", "--number", "QV-1205", "--catalogue", str(_offered(tmp_path)))
    told = " ".join(ran.out.split())
    assert (
        "offered by Kolbring as K-1: 12.50 EUR for 100; packs of 10; at least 50; sent in 14 days; stock 250;"
        " from load 1 (" in told
    )
    assert "offered by Dornet as D-1: 0.20 EUR; not listed any more since load " in told
    assert "size confirmed by: two published sources" in told
    assert "typed key" not in told
    assert "published_twice" not in told


def test_the_offers_of_a_part_as_json(tmp_path: Path, run: Callable[..., Ran]) -> None:
    """The same as the record has."""
    ran = run("parts", "--number", "QV-1205", "--json", "--catalogue", str(_offered(tmp_path)))
    told = json.loads(ran.out)["offers"]
    assert [(one["supplier"], one["listed"]) for one in told] == [("Kolbring", True), ("Dornet", False)]
