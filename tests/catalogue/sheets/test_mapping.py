"""A mapping is checked as a whole when it is made."""

from __future__ import annotations

import re
from typing import Any

import pytest

from catalogue.sheets.mapping import Column, Mapping, checked, column_names, placed
from catalogue.sheets.sheet_fields import OFFER_FIELDS, field_named, fields, unit_named
from schema.errors import InputError, InputErrors, UnknownName
from schema.kinds import PARTS, model_of


def columns(**given: str) -> dict[str, Column]:
    """Columns by header: their field, and the unit after it."""
    return {name: Column(name, *text.split(" ", 1)) for name, text in given.items()}


def refused(**values: Any) -> str:
    """What is told of a mapping that cannot be."""
    with pytest.raises(InputErrors) as raised:
        checked(**{"supplier": "Demo", "columns": columns(Code="code"), **values})
    return str(raised.value)


def test_every_field_of_every_kind_of_part_can_be_a_column() -> None:
    """A new field of a model is a field of sheets at once; a ring's own code is the column size."""
    own = {name for kind in PARTS for name in model_of(kind).declared}
    assert own - {"code", "size_grade", "size_source"} <= set(fields())
    assert set(OFFER_FIELDS) <= set(fields())


@pytest.mark.parametrize(
    "written", ["inside_diameter", "Inside diameter", "inside-diameter", " INSIDE  Diameter "]
)
def test_a_field_is_found_as_people_write_it(written: str) -> None:
    """Dashes, spaces and capitals do not count."""
    assert field_named(written).name == "inside_diameter"


def test_an_unknown_field_tells_the_near_ones() -> None:
    """A slip is met with what may have been meant."""
    with pytest.raises(UnknownName, match="inside_diameter"):
        field_named("inside_diametre")


@pytest.mark.parametrize(
    ("field", "unit", "known"),
    [
        ("inside_diameter", "Inches", "in"),
        ("inside_diameter", "", ""),
        ("lead_time_days", "week", "weeks"),
        ("torque", "Nm", "Nm"),
    ],
)
def test_units_are_brought_to_one_spelling(field: str, unit: str, known: str) -> None:
    """As they are kept."""
    assert unit_named(fields()[field], unit) == known


@pytest.mark.parametrize(("field", "unit"), [("inside_diameter", "weeks"), ("price", "mm"), ("torque", "mm")])
def test_a_unit_of_something_else_is_refused(field: str, unit: str) -> None:
    """A price has no millimetres."""
    with pytest.raises(InputError):
        unit_named(fields()[field], unit)


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({"columns": columns(A="price")}, "no column tells the rows apart"),
        ({"columns": columns(A="code", B="cod")}, r"columns.B: there is no such field.*Near: code"),
        ({"columns": columns(A="code", B="width weeks")}, "not a unit that width may have"),
        ({"columns": {"A": Column("B", "code")}}, "another header than its name"),
        ({"columns": columns(Code="code", P="price"), "every": {"price_per": "0"}}, "whole number it may be"),
        ({"every": {"kind": "oring"}}, "every.kind: there is no such kind of part.*o_ring"),
        ({"every": {"currency": "EURO"}}, "no currency has this code.*EUR"),
        ({"every": {"code": "A"}}, "a number names one part"),
        ({"columns": columns(C="code", M="material"), "every": {"material": "NBR"}}, "'M' is material too"),
        ({"every": {"width": "3"}}, "the unit is missing"),
        ({"every": {"kind": "o_ring", "width": "3 mm"}}, "o_ring has no such field"),
        ({"every": {"price": "3"}}, "one price for every row"),
        ({"words": {"kind": {"Ring": "ring"}}}, r"words.kind.Ring: there is no such kind of part"),
        ({"words": {"kin": {}}}, "words.kin: there is no such field"),
        ({"same_part": {"A": " "}}, "no part number is given"),
        ({"decimal": ";"}, r"decimal: this is not one of the words"),
        ({"covers": "all"}, "covers: this is not one of the words"),
        ({"colums": {}}, "colums: there is no such entry.*Near: columns"),
        ({"supplier": ""}, "supplier: nothing is given"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(values: dict[str, Any], message: str) -> None:
    """Each fault names where it stands and what would be right."""
    assert re.search(message, refused(**values), re.DOTALL)


def test_all_faults_are_told_at_once() -> None:
    """Nothing stops at the first."""
    told = refused(columns=columns(A="cod", B="code"), every={"kind": "x", "currency": "y"})
    assert len(told.splitlines()) == 3


def test_a_sheet_of_our_own_parts_needs_no_code_of_a_supplier() -> None:
    """The number of the part tells the rows apart too."""
    assert checked(supplier="Demo", columns=columns(Nr="part_number")).fields() == {"part_number"}


def test_a_word_may_say_that_a_row_is_no_part() -> None:
    """Tools are left out, told once."""
    words = {"kind": {"Werkzeug": "leave_out", "Dichtring": "o_ring"}}
    assert checked(supplier="Demo", columns=columns(C="code"), words=words).words == words


def test_a_mapping_does_not_change_in_place() -> None:
    """A change makes a new mapping, checked anew."""
    mapping = checked(supplier="Demo", columns=columns(C="code"))
    assert isinstance(mapping.changed(decimal=","), Mapping)
    with pytest.raises(InputErrors):
        mapping.changed(decimal=";")


@pytest.mark.parametrize(
    ("header", "names"),
    [
        (["A", "B"], ("A", "B")),
        (["A", "", ""], ("A", "column 2", "column 3")),
        (["A", "A", "A #2"], ("A", "A #3", "A #2")),
        (["column 2", ""], ("column 2", "column 2 #2")),
    ],
)
def test_no_two_columns_have_one_name(header: list[str], names: tuple[str, ...]) -> None:
    """An empty header is named by its place, a second one of a name by its number."""
    assert column_names(header) == names


def test_columns_are_found_wherever_they_stand() -> None:
    """Order, capitals and spaces do not count; what is left out has no place."""
    mapping = checked(
        supplier="Demo",
        columns={
            "Art. Nr.": Column("Art. Nr.", "code"),
            "ID": Column("ID", "width", "mm"),
            "X": Column("X", ""),
        },
    )
    found = placed(mapping, ["X", "ID", "ART.NR."])
    assert {name: one.at for name, one in found.items()} == {"code": 2, "width": 1}


def test_two_columns_of_one_table_are_not_one_field() -> None:
    """Tables of one file may name a field differently; within one table it stands once."""
    mapping = checked(supplier="Demo", columns=columns(A="code", B="width mm", C="width mm"))
    assert placed(mapping, ["A", "C"])["width"].at == 1
    with pytest.raises(InputError, match="the column 'B' of this table is width too"):
        placed(mapping, ["A", "B", "C"])
