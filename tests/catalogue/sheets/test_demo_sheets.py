"""The demo sheets, loaded into the demo catalogue, against what was told of them while they were made."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import closing
from decimal import Decimal
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

from catalogue.load_report import load_lines
from catalogue.sheets.loading import load_sheet
from catalogue.sheets.mapping import Column, Mapping, checked
from catalogue.sheets.one_load import Listener
from catalogue.sheets.opening import open_sheet_file
from catalogue.sheets.outcome import LoadReport
from catalogue.sheets.problems import Refused
from catalogue.store import open_store
from tests.catalogue.sheets.small_loads import in_one_file, rows
from tests.command import SEED

# every scalar as a text, so that 004500 and 1.20 stay what they are
TRUTH: dict[str, dict[str, Any]] = yaml.load(
    Path(__file__).with_name("demo_sheets.yaml").read_text(encoding="utf-8"),
    yaml.BaseLoader,  # noqa: S506  (makes nothing but texts)
)
LENGTHS = ("inside_diameter", "cross_section", "outside_diameter", "length", "width")
TERMS = ("price", "currency", "price_per", "pack_size", "minimum", "lead_time_days", "stock")
UPDATE = "wexenholme-2026-05.csv.gz"
BEFORE = TRUTH[UPDATE]["update_of"]


class Done(NamedTuple):
    """One sheet loaded: its truth, the report, the rows that were not taken, the catalogue after it."""

    truth: dict[str, Any]
    report: LoadReport
    not_taken: dict[int, Refused]
    catalogue: Path


class _NotTaken(Listener):
    def __init__(self) -> None:
        self.rows: dict[int, Refused] = {}

    def refused(self, row: Refused) -> None:
        self.rows[row.number] = row


def mapping_of(truth: dict[str, Any]) -> Mapping:
    """The mapping that the truth tells."""
    columns: dict[str, Column] = {}
    every: dict[str, str] = {}
    for table in truth.get("tables", [truth]):
        every |= table.get("every", {})
        for header, told in table["columns"].items():
            columns[header] = Column(header, told["field"], told.get("unit", ""))
    return checked(
        supplier=truth["supplier"],
        covers=truth["covers"],
        decimal=truth["decimal"],
        columns=columns,
        every=every,
        words=truth.get("words", {}),
    )


def load_into(catalogue: Path, name: str) -> Done:
    """Load a demo sheet."""
    listener = _NotTaken()
    with open_sheet_file(SEED / "sheets" / name) as file:
        report = load_sheet(catalogue, file, mapping_of(TRUTH[name]), apply=True, listener=listener)
    return Done(TRUTH[name], report, listener.rows, catalogue)


@pytest.fixture(scope="session", name="all_done")
def _all_done(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Done]:
    """Every sheet, each loaded into a demo catalogue of its own; the update on top of the month before."""
    found = {}
    for name in TRUTH:
        path = Path(shutil.copy(demo, tmp_path_factory.mktemp("sheet") / "c.sqlite"))
        if name == UPDATE:
            load_into(path, BEFORE)
        found[name] = load_into(path, name)
    return found


@pytest.fixture(name="done", params=TRUTH)
def _done(all_done: dict[str, Done], request: pytest.FixtureRequest) -> Done:
    return all_done[request.param]


@pytest.fixture(name="update")
def _update(all_done: dict[str, Done]) -> Done:
    return all_done[UPDATE]


def _numbered(truth: list[dict[str, Any]]) -> dict[int, dict[str, Any]]:
    return {int(one["row"]): one for one in truth}


def test_every_row_of_data_is_counted(done: Done) -> None:
    """The rows are those of the truth; each is counted once, by what became of it."""
    kept_out = len(done.truth.get("leave_out_by_kind", ()))
    assert done.report.counts.rows == int(done.truth["data_rows"]) + kept_out
    assert sum(done.report.counts[:9]) == done.report.counts.rows
    assert done.report.counts.left_out == kept_out


def test_rows_that_are_no_data_are_told_with_why(done: Done) -> None:
    """Titles, headings, repeated headers and footers are where the truth has them; blank rows are counted."""
    told = {row: why for table in done.report.tables for row, why, _ in table.left_out}
    blank = done.truth["left_out"].get("blank", []) if done.truth["left_out"] else []
    expected = {
        int(row): why
        for why, numbers in (done.truth["left_out"] or {}).items()
        for row in numbers
        if why != "blank"
    }
    assert told == expected
    # blank rows above the header are no rows of the table
    headers = [one.header_row for one in done.report.tables if not one.skipped]
    below = [row for row in blank if int(row) > min(headers)]
    assert sum(table.blank for table in done.report.tables) == len(below)


def test_the_rows_that_are_refused_are_those_that_must_be(done: Done) -> None:
    """Every row that must not be loaded is refused, and no other but the doubtful ones."""
    must, may = (set(_numbered(done.truth[name])) for name in ("refused", "doubtful"))
    held_back = {one.row.number for one in done.report.doubtful}
    assert must <= set(done.not_taken)
    assert set(done.not_taken) - held_back <= must | may


def _reasons(row: Refused) -> str:
    return " ".join(str(one) for one in row.problems).lower()


def test_a_refused_row_says_what_is_wrong(done: Done) -> None:
    """The reason has one of the words of the truth, and stands with the code and the cell of the row."""
    missing = {
        row: _reasons(done.not_taken[row])
        for row, one in _numbered(done.truth["refused"]).items()
        if not any(word.lower() in _reasons(done.not_taken[row]) for word in one["words"])
        or one["cell"] not in " ".join(done.not_taken[row].cells)
    }
    assert missing == {}


def test_every_refused_row_says_how_to_mend_it(done: Done) -> None:
    """No reason stands without what to do."""
    assert [row for row, one in done.not_taken.items() if not all(two.mend for two in one.problems)] == []


@pytest.mark.parametrize(
    ("name", "row"), [(name, int(one["row"])) for name, truth in TRUTH.items() for one in truth["doubtful"]]
)
def test_a_doubtful_row_is_shown_to_a_person(all_done: dict[str, Done], name: str, row: int) -> None:
    """It is refused, or a remark has one of the words of the truth; of an unchanged row, the month before."""
    done = all_done[name]
    reports = [done.report, all_done[BEFORE].report] if name == UPDATE else [done.report]
    told = " ".join(line for report in reports for line in load_lines(report, every=True)).lower()
    if row in done.not_taken:
        told = _reasons(done.not_taken[row])
    assert any(word.lower() in told for word in _numbered(done.truth["doubtful"])[row]["words"])


def test_rows_that_stand_twice_are_taken_once(done: Done) -> None:
    """A repeated row is counted, and its code is offered once."""
    assert done.report.counts.repeated == len(done.truth.get("repeats", ()))


def _offers(done: Done) -> dict[str, dict[str, Any]]:
    with closing(open_store(done.catalogue)) as connection:
        return {
            row["code"]: dict(row)
            for row in connection.execute("SELECT * FROM offer WHERE supplier = ?", (done.truth["supplier"],))
        }


def _spot(done: Done, code: str) -> dict[str, Any]:
    """What the catalogue says of an offer and its part, under the names of the truth."""
    offer = _offers(done)[code]
    with closing(open_store(done.catalogue)) as connection:
        (part,) = connection.execute("SELECT * FROM part WHERE part_number = ?", (offer["part_number"],))
        sizes = connection.execute(
            "SELECT dimension, nominal_mm FROM part_dimension WHERE part_number = ?", (offer["part_number"],)
        ).fetchall()
        values = connection.execute(
            "SELECT field, text FROM part_value WHERE part_number = ?", (offer["part_number"],)
        ).fetchall()
    return {
        **dict(map(tuple, values)),
        **dict(map(tuple, sizes)),
        "kind": part["kind"],
        "material": part["material"] or dict(map(tuple, values)).get("material"),
        "hardness_shore_a": part["hardness_shore_a"],
        "size": part["size_code"],
        **{name: offer[name] for name in TERMS},
        "price": Decimal(offer["price"]),
    }


def _as_told(name: str, text: str) -> object:
    if name == "price":
        return Decimal(text)
    if name in LENGTHS:
        return pytest.approx(
            float(text), abs=0.006
        )  # the rounding of a catalogue, or of a size code in inches
    if name == "hardness_shore_a":
        return float(text)
    return int(text) if name in TERMS and name != "currency" else text


SPOTS = [(name, spot["row"]) for name, truth in TRUTH.items() for spot in truth["spot"]]


@pytest.mark.parametrize(("name", "row"), SPOTS)
def test_the_values_of_a_row_are_those_of_the_sheet(all_done: dict[str, Done], name: str, row: str) -> None:
    """Kind, sizes in mm, material, hardness, price and terms are exactly what the sheet says."""
    done = all_done[name]
    truth = _numbered(done.truth["spot"])[int(row)]
    expected = {key: _as_told(key, text) for key, text in truth.items() if key not in ("row", "code")}
    found = _spot(done, truth["code"])
    assert {key: found.get(key) for key in expected} == expected
    assert _offers(done)[truth["code"]]["row"] == int(row) or name == UPDATE


def test_codes_keep_their_zeros(done: Done) -> None:
    """Every code of the truth is in the catalogue as it is written there."""
    told = {spot["code"] for spot in (*done.truth["spot"], *done.truth["same_part"])}
    assert told <= set(_offers(done))


def test_rows_that_are_a_part_of_the_workshop_are_that_part(done: Done) -> None:
    """The ten that were looked up by hand are offers for the very part."""
    offers = _offers(done)
    expected = {one["code"]: one["part"] for one in done.truth["same_part"]}
    assert {code: offers[code]["part_number"] for code in expected} == expected


def test_as_many_rows_are_parts_of_the_workshop_as_there_are(done: Done, demo: Path) -> None:
    """None is missed, and none is taken for a part that it is not."""
    sold = {one["part_number"] for one in _offers(done).values() if one["listed"]}
    own = {number for (number,) in rows(demo, "SELECT part_number FROM part WHERE part_number GLOB 'QV-*'")}
    assert len(sold & own) == int(done.truth["same_part_count"])


def test_rows_that_do_not_tell_enough_are_not_taken_for_a_part(done: Done) -> None:
    """A bushing of an untold style may be another one: it is a part of its own until a person says so."""
    offers = _offers(done)
    taken = [one for one in done.truth.get("untold", ()) if offers[one["code"]]["part_number"] == one["part"]]
    assert taken == []


def test_odd_texts_are_kept_as_they_are(done: Done) -> None:
    """Formulas, tags and quotes in a description are a text like any other."""
    offers = _offers(done)
    expected = {one["code"]: one["description"] for one in done.truth["odd_but_good"]}
    assert {code: offers[code]["description"] for code in expected} == expected


# -- the month after -----------------------------------------------------------------------------------


def test_an_update_changes_what_changed(update: Done) -> None:
    """Each changed field is told as it was and as it is, and nothing else is a change."""
    told = {
        (one.row.number, one.row.terms.code): {
            change.field: (Decimal(change.before), Decimal(change.now)) for change in one.changes
        }
        for one in update.report.changed
    }
    expected = {
        (int(one["row"]), one["code"]): {
            field: (Decimal(told["was"]), Decimal(told["now"]))
            for field, told in one.items()
            if field not in ("row", "code")
        }
        for one in update.truth["update"]["changed"]
    }
    assert told == expected


def test_an_update_withdraws_what_is_gone(update: Done) -> None:
    """What is not on the sheet any more is not listed, and is kept; a code that lost its zero is not gone."""
    gone = {one.code for one in update.report.missing}
    assert gone == set(update.truth["update"]["gone"])
    assert {code for code, one in _offers(update).items() if not one["listed"]} == gone


def test_an_update_adds_what_is_new(update: Done) -> None:
    """New codes, and rows that were put right; a code that lost its zero is not new."""
    right = {one["code"] for one in update.truth["update"]["put_right"]}
    new = {one.row.terms.code for one in update.report.new}
    assert new == {*update.truth["update"]["new"], *right}


@pytest.mark.parametrize("code", [one["code"] for one in TRUTH[UPDATE]["update"]["called_out"]])
def test_what_went_wrong_in_an_update_is_called_out(update: Done, code: str) -> None:
    """A slipped decimal sign, inches under mm, a zero that was lost: told, and not taken unasked."""
    (truth,) = [one for one in update.truth["update"]["called_out"] if one["code"] == code]
    told = [line for line in load_lines(update.report, every=True) if code in line]
    assert any(word in line for line in told for word in truth["words"])
    assert int(truth["row"]) in update.not_taken
    assert _offers(update)[code]["listed"]
    if truth["field"] != "code":
        assert _spot(update, code)[truth["field"]] == _as_told(truth["field"], truth["was"])


def test_the_rest_of_an_update_is_unchanged(update: Done) -> None:
    """Columns that were moved and renamed change nothing: all other rows are the same."""
    told = update.truth["update"]
    other = sum(len(told[name]) for name in ("changed", "new", "put_right"))
    assert update.report.counts.unchanged == int(update.truth["data_rows"]) - other - len(update.not_taken)


@pytest.fixture(scope="session", name="twice")
def _twice(all_done: dict[str, Done], tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, Done]]:
    """Every sheet loaded a second time."""
    found = {}
    for name, done in all_done.items():
        in_one_file(done.catalogue)
        copy = shutil.copy(done.catalogue, tmp_path_factory.mktemp("twice") / "c.sqlite")
        found[name] = load_into(Path(copy), name)
    yield found


@pytest.mark.parametrize("name", TRUTH)
def test_loading_a_sheet_again_changes_nothing(twice: dict[str, Done], name: str) -> None:
    """No change, and no load is recorded."""
    report = twice[name].report
    assert not report.counts.changes
    assert not report.applied
    assert report.same_as
