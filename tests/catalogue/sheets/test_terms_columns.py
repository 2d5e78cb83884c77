"""Column by column, cells give what the pydantic model of a row accepts, and nothing else."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from hypothesis import example, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from catalogue.sheets.mapping import Column, checked
from catalogue.sheets.rows import RowReader, Rows
from catalogue.sheets.terms import FIELDS, MOST_PIECES, Terms
from tests.catalogue.sheets.small_loads import FIELDS as HEADERS

SENT = (
    "Code",
    "Words",
    "Maker",
    "Maker's code",
    "Price",
    "Currency",
    "Per",
    "Pack",
    "Least",
    "Days",
    "Stock",
)
HEADER = (*SENT, "Kind", "ID", "CS", "Rubber", "Shore")
ARTICLE = ["o_ring", "25", "3.5", "NBR", "70"]

# Cells that say plainly what they are, so that their value is known without reading them as the loader does.
TEXTS = st.one_of(
    st.sampled_from(["", "A 1", "x" * 60, "x" * 61, "y" * 400, "y" * 401, "Ø 25 ±0,1", "007", "<b>", '"']),
    st.text(st.characters(codec="ascii", categories=["L", "N"]), max_size=8),
)
# Of a description the article takes its share; these say nothing of one.
WORDS = st.sampled_from(["", "black", "<b>new</b>", '"', "y" * 400, "y" * 401])
COUNTS = st.one_of(
    st.just(""),
    st.integers(0, 20).map(str),
    st.sampled_from(["100000000", "100000001", "-1", "1100", "1101"]),
)
PRICES = st.one_of(
    st.just(""),
    st.decimals(0, 2000, places=2).map(str),
    st.sampled_from(["0.0001", "0.00001", "0", "-1.50", "999999999.9999", "9999999999.99", "1.2345"]),
)
CURRENCIES = st.sampled_from(["", "EUR", "GBP", "CHF"])
# Words that the loader takes for an empty cell ("n/a", "none", "-") are tested with the readers of cells.
CELLS = st.tuples(
    TEXTS, WORDS, TEXTS, TEXTS, PRICES, CURRENCIES, COUNTS, COUNTS, COUNTS, COUNTS, COUNTS
).filter(lambda cells: not {one.lower() for one in cells} & {"na", "nan", "null", "none", "nd", "tba", "tbd"})


def _read(rows: list[list[str]]) -> Rows:
    columns = {}
    for name in HEADER:
        field, _, unit = HEADERS[name].partition(" ")
        columns[name] = Column(name, field, unit)
    reader = RowReader(checked(supplier="Kolbring", columns=columns), "", HEADER)
    return reader.read(range(2, len(rows) + 2), rows, [0] * len(rows))


def _value(field: str, cell: str) -> Any:
    """What a plain cell says."""
    if field in ("code", "description"):
        return cell
    if not cell or field in ("maker", "maker_code", "currency"):
        return cell or None
    return Decimal(cell) if field == "price" else int(cell)


def _by_model(cells: tuple[str, ...]) -> Terms | None:
    """The terms by the model alone; None where it refuses them."""
    values = {HEADERS[name]: _value(HEADERS[name], cell) for name, cell in zip(SENT, cells, strict=True)}
    if values["price"] is None:  # a currency alone says nothing, nor does a number of pieces that can be one
        if not 1 <= (1 if values["price_per"] is None else values["price_per"]) <= MOST_PIECES:
            return None
        values |= {"currency": None, "price_per": None}
    else:
        values["price_text"] = cells[SENT.index("Price")]
        if values["price_per"] is None:
            values["price_per"] = 1
    try:
        return Terms.model_validate(values)
    except ValidationError:
        return None


@example([("A", "", "", "", "1.50", "", "", "", "", "", "")])
@example([("A", "", "", "", "1.50", "EUR", "0", "", "", "", "")])
@example([("A", "", "", "", "", "EUR", "100", "", "", "", "")])
@given(st.lists(CELLS, min_size=1, max_size=4))
@settings(deadline=None, max_examples=300)
def test_columns_and_model_agree(rows: list[tuple[str, ...]]) -> None:
    """A row is taken by its columns if the model takes it, and with the model's values."""
    read = _read([[*cells, *ARTICLE] for cells in rows])
    expected = [_by_model(cells) for cells in rows]
    assert list(read.places) == [at for at, terms in enumerate(expected) if terms is not None]
    assert sorted(read.refused) == [at for at, terms in enumerate(expected) if terms is None]
    for row, at in zip(read.taken, read.places, strict=True):
        terms = expected[at]
        assert terms is not None
        price = None if row.terms.price is None else Decimal(row.terms.price)
        assert row.terms._replace(price=price)._asdict() == {name: getattr(terms, name) for name in FIELDS}
