"""What is proposed for the columns of a table, and what is asked."""

from __future__ import annotations

import pytest

from catalogue.sheets.answers import column_option, column_told
from catalogue.sheets.cells import NUMBER
from catalogue.sheets.looks import likely_unit
from catalogue.sheets.mapping import Column
from catalogue.sheets.proposing import Proposal, propose
from schema.errors import InputError, InputErrors, UnknownName

GERMAN = (
    ["Art.-Nr.", "Bezeichnung", "d1", "d2 [mm]", "Werkstoff", "Härte", "Preis/100 Stk (EUR)", "Foto"],
    [
        ["KV-1", "O-Ring 25x3,5", "24,99", "3,53", "NBR", "70", "12,50", "a.jpg"],
        ["KV-2", "O-Ring 12x1,8", "12,42", "1,78", "FKM", "75", "1.234,00", "b.jpg"],
        ["KV-3", "O-Ring 9x1,8", "9,25", "1,78", "NBR", "70", "auf Anfrage", ""],
    ],
)


def fields_of(proposal: Proposal) -> dict[str, tuple[str, str, str]]:
    """Field, unit and how sure, by header."""
    return {one.header: (one.field, one.unit, one.how_sure) for one in proposal.columns}


def answers_of(proposal: Proposal) -> dict[str, tuple[str, ...]]:
    """The answers of the open questions by what they are about."""
    return {one.about: one.answers for one in proposal.open}


def test_a_german_price_list_needs_one_answer() -> None:
    """All is clear from its headers and numbers but the unit of d1, which nothing tells."""
    found = propose(*GERMAN, "Demo")
    assert fields_of(found) == {
        "Art.-Nr.": ("code", "", "sure"),
        "Bezeichnung": ("description", "", "sure"),
        "d1": ("inside_diameter", "", "unsure"),
        "d2 [mm]": ("cross_section", "mm", "sure"),
        "Werkstoff": ("material", "", "sure"),
        "Härte": ("hardness_shore_a", "", "sure"),
        "Preis/100 Stk (EUR)": ("price", "", "sure"),
        "Foto": ("", "", "not known"),
    }
    assert (found.every, found.decimal) == ({"price_per": "100", "currency": "EUR"}, ",")
    assert answers_of(found) == {
        "d1": ('--column "d1=inside_diameter mm"', '--column "d1=inside_diameter in"')
    }


def test_the_answer_as_it_is_printed_closes_the_question() -> None:
    """What is asked can be answered by the text that stands beside it; then there is a mapping."""
    asked = propose(*GERMAN, "Demo").open[0].answers[0]
    given = asked.removeprefix("--column ").strip('"')
    mapping = propose(*GERMAN, "Demo", given=[given]).mapping()
    assert mapping.columns["d1"] == Column("d1", "inside_diameter", "mm")
    assert mapping.columns["Foto"] == Column("Foto", "")


def test_no_mapping_is_made_while_a_question_is_open() -> None:
    """It tells the question and its answers instead."""
    with pytest.raises(InputErrors, match=r"d1: .*without a unit.*--column"):
        propose(*GERMAN, "Demo").mapping()


@pytest.mark.parametrize(
    ("cells", "first"),
    [
        (["1.78", "2.62", "3.53"], "mm"),
        ([".070", ".103", ".139"], "in"),
        (["1/16", "3/32"], "in"),
        ([NUMBER + "24.99", NUMBER + "12.42"], "mm"),
    ],
)
def test_the_likely_unit_is_named_first_and_never_taken(cells: list[str], first: str) -> None:
    """Sections of AS568 give the unit away, and still a person confirms it."""
    rows = [[f"A-{at}", cell] for at, cell in enumerate(cells)]
    found = propose(["Code", "Section"], rows, "Demo", every={"kind": "o_ring"})
    assert found.columns[1].unit == ""
    assert answers_of(found)["Section"][0] == f'--column "Section=cross_section {first}"'


def test_cells_with_their_own_unit_need_none_of_the_column() -> None:
    """Nothing is asked where every cell tells it."""
    found = propose(["Code", "ID"], [["A-1", "24.99 mm"], ["A-2", '0.5"']], "Demo", every={"kind": "o_ring"})
    assert found.open == ()


def test_one_cell_without_a_unit_is_enough_to_ask() -> None:
    """It would be refused later, or be read in the wrong unit."""
    found = propose(["Code", "ID"], [["A-1", "24.99 mm"], ["A-2", "0.5"]], "Demo", every={"kind": "o_ring"})
    assert list(answers_of(found)) == ["ID"]


def test_a_price_for_one_piece_needs_no_word() -> None:
    """Each, per piece and /pc are what a price is anyway."""
    found = propose(["Code", "Price/pc (EUR)"], [["A-1", "2.50"]], "Demo", every={"kind": "o_ring"})
    assert found.mapping().every == {"kind": "o_ring", "currency": "EUR"}


@pytest.mark.parametrize(
    ("prices", "answers"),
    [
        (["1,234", "2,500"], ("--decimal .", "--decimal ,")),
        (["12,5", "7,25", "12.5"], ("--decimal ,", "--decimal .")),
    ],
)
def test_a_decimal_sign_that_is_not_clear_is_asked(prices: list[str], answers: tuple[str, ...]) -> None:
    """Both signs, or only signs that may be either."""
    rows = [[f"A-{at}", price] for at, price in enumerate(prices)]
    every = {"kind": "o_ring", "currency": "EUR"}
    assert answers_of(propose(["Code", "Price"], rows, "Demo", every=every)) == {"decimal": answers}
    assert propose(["Code", "Price"], rows, "Demo", every=every, decimal=",").mapping().decimal == ","


@pytest.mark.parametrize(
    ("header", "cell", "first"),
    [
        ("Price", "12.50", "--every currency=EUR"),
        ("Price", "$12.50", "--every currency=USD"),
        ("Price (kr)", "12.50", "--every currency=SEK"),
    ],
)
def test_a_currency_that_nothing_names_is_asked(header: str, cell: str, first: str) -> None:
    """A sign that several countries use names none."""
    found = propose(["Code", header], [["A-1", cell]], "Demo", every={"kind": "o_ring"})
    assert answers_of(found)["currency"][0] == first


def test_a_told_currency_that_the_header_contradicts_is_told() -> None:
    """The person's word stands, and the difference is seen."""
    every = {"kind": "o_ring", "currency": "EUR"}
    found = propose(["Code", "Price CHF"], [["A-1", "12.50"]], "Demo", every=every)
    assert (found.open, found.every["currency"]) == ((), "EUR")
    assert [one.text for one in found.hints] == ["'Price CHF' says CHF, and currency is told to be EUR"]


def test_a_currency_in_every_cell_is_enough() -> None:
    """Each price brings its own."""
    rows = [["A-1", "12.50 EUR"], ["A-2", "9.00 GBP"]]
    found = propose(["Code", "Price"], rows, "Demo", every={"kind": "o_ring"})
    assert (found.open, found.every) == ((), {"kind": "o_ring"})


def test_two_prices_are_a_question() -> None:
    """Which price is paid is not guessed; a person's word for either closes it."""
    table = (["Code", "List price EUR", "Net price EUR"], [["A-1", "2.00", "1.50"]])
    every = {"kind": "o_ring"}
    asked = answers_of(propose(*table, "Demo", every=every))["Net price EUR"]
    assert asked == ('--column "List price EUR=price"', '--column "Net price EUR=price"')
    told = propose(*table, "Demo", every=every, given=["Net price EUR=price"])
    assert (told.open, told.columns[1].field) == ((), "")


def test_a_part_number_beside_a_code_is_asked() -> None:
    """Alone it is the supplier's code; beside one it may be ours or the maker's."""
    rows = [["A-1", "M 1"], ["A-2", "M 2"]]
    every = {"kind": "o_ring"}
    assert propose(["Part No.", "x"], rows, "Demo", every=every).columns[0].field == "code"
    found = propose(["Order code", "Part No."], rows, "Demo", every=every)
    assert [one.partition("=")[2].strip('"') for one in answers_of(found)["Part No."]] == [
        "part_number",
        "maker_code",
        "",
    ]


def test_values_that_are_not_what_the_header_says_make_it_unsure() -> None:
    """A column headed Price that holds words is asked."""
    rows = [["A-1", "list B"], ["A-2", "list C"]]
    found = propose(["Code", "Price"], rows, "Demo", every={"kind": "o_ring", "currency": "EUR"})
    assert found.columns[1].how_sure == "unsure"
    assert "Price" in answers_of(found)


def test_what_values_look_like_is_only_a_hint() -> None:
    """A column under a word that is not known is not loaded by its looks."""
    rows = [["A-1", "NBR"], ["A-2", "FKM"]]
    found = propose(["Code", "Ausf."], rows, "Demo", every={"kind": "o_ring"})
    assert [str(one.answers[0]) for one in found.hints] == ["--column Ausf.=material"]
    assert found.mapping().columns["Ausf."].field == ""


def test_a_table_without_a_code_is_asked_for_one() -> None:
    """The columns that could be one are named."""
    rows = [["KV-1", "1.00 EUR"], ["KV-2", "2.00 EUR"], ["KV-3", "3.00 EUR"]]
    found = propose(["X", "Price"], rows, "Demo", every={"kind": "o_ring"})
    assert "--column X=code" in [answer for one in found.open for answer in one.answers]


def test_the_name_of_a_sheet_suggests_the_kind() -> None:
    """Only a suggestion, and a question where no description may tell it."""
    found = propose(["Code"], [["A-1"]], "Demo", sheet="O-rings")
    assert answers_of(found) == {"kind": ("--every kind=o_ring",)}


@pytest.mark.parametrize(
    ("text", "column"),
    [
        ("ID=inside_diameter mm", Column("ID", "inside_diameter", "mm")),
        ("id = Inside-Diameter inch", Column("ID", "inside_diameter", "in")),
        ("A=B=code", Column("A=B", "code")),
        ("ID=", Column("ID", "")),
    ],
)
def test_a_person_tells_a_column_in_one_text(text: str, column: Column) -> None:
    """HEADER=FIELD UNIT; the last = parts them, for a header may hold one."""
    assert column_told(text, ["ID", "A=B"]) == column


@pytest.mark.parametrize(
    ("text", "error"),
    [("ID", InputError), ("XY=code", UnknownName), ("ID=cod", UnknownName), ("ID=price mm", InputError)],
)
def test_a_told_column_that_cannot_be_is_refused(text: str, error: type[Exception]) -> None:
    """An unknown header or field, or a unit where none is."""
    with pytest.raises(error):
        column_told(text, ["ID"])


def test_an_option_is_safe_in_a_shell() -> None:
    """A header with an inch mark or a dollar stands between single quotes."""
    assert column_option(Column('ID"', "width", "in")) == "--column 'ID\"=width in'"


def test_a_question_says_how_many_cells_have_their_own_unit() -> None:
    """That all are below 1 is not true of a column with 1-3/8 in it, nor that no unit is told."""
    rows = [["A-1", '1-3/8"'], ["A-2", '2 1/4"'], ["A-3", ".75"]]
    (asked,) = propose(["Code", "ID"], rows, "Demo", every={"kind": "o_ring"}).open
    assert "2 of 3 cells have their own unit, the others have none" in asked.text
    assert "all are below 1" not in asked.text


def test_all_are_below_1_is_said_only_of_plain_numbers() -> None:
    """A text that was not understood may be anything."""
    assert likely_unit([".75", ".5"]) == ("in", "all are below 1")
    assert likely_unit([".75", ".5", "1 3/8 oval"]) == ("", "")
