"""What a supplier offers: the terms of one row, as a pydantic model, and each of its fields by itself.

A sheet of a million rows has a few thousand different prices, packs and makers, so the loader holds each
different cell against its field once (``field_adapters``) instead of making a million models. Both ways are
the same declarations; a test holds them against each other.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import Annotated, Any, NamedTuple, Protocol

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, model_validator

from catalogue.sheets.numbers import LONGEST_LEAD_TIME

LONGEST_CODE = 60
LONGEST_WORDS = 400
MOST_PIECES = 100_000_000

Code = Annotated[str, Field(min_length=1, max_length=LONGEST_CODE)]
Words = Annotated[str, Field(max_length=LONGEST_WORDS)]
Pieces = Annotated[int, Field(ge=1, le=MOST_PIECES)]


class Terms(BaseModel):
    """What a supplier asks for a part: price and its currency, packs, least order, days, stock."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)

    code: Code
    description: Words = ""
    maker: Words | None = None
    maker_code: Annotated[str, Field(max_length=LONGEST_CODE)] | None = None
    price: Annotated[Decimal, Field(gt=0, max_digits=13, decimal_places=4)] | None = None
    price_text: str | None = None
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")] | None = None
    price_per: Pieces | None = None
    pack_size: Pieces | None = None
    minimum: Pieces | None = None
    lead_time_days: Annotated[int, Field(ge=0, le=LONGEST_LEAD_TIME)] | None = None
    stock: Annotated[int, Field(ge=0, le=MOST_PIECES)] | None = None

    @model_validator(mode="after")
    def _priced(self) -> Terms:
        if (self.price is None) != (self.currency is None) or (self.price is None) != (
            self.price_per is None
        ):
            raise ValueError("a price has a currency and is for a number of pieces")
        return self


FIELDS = tuple(Terms.model_fields)
COMPARED = tuple(name for name in FIELDS if name not in ("code", "price_text"))


class Offered(NamedTuple):
    """The terms of one row as they are stored; the fields are those of Terms, a price as exact text."""

    code: str
    description: str
    maker: str | None
    maker_code: str | None
    price: str | None
    price_text: str | None
    currency: str | None
    price_per: int | None
    pack_size: int | None
    minimum: int | None
    lead_time_days: int | None
    stock: int | None


class Priced(Protocol):
    """What has a price: a row's terms, or an offer of the catalogue."""

    @property
    def price(self) -> str | None: ...
    @property
    def currency(self) -> str | None: ...
    @property
    def price_per(self) -> int | None: ...


def unit_price(terms: Priced) -> Decimal | None:
    """Price of one piece, exact; None where there is no price."""
    return None if terms.price is None else Decimal(terms.price) / (terms.price_per or 1)


@cache
def field_adapters() -> dict[str, TypeAdapter[Any]]:
    """A validator for each field of Terms by itself."""
    found: dict[str, TypeAdapter[Any]] = {}
    for name, field in Terms.model_fields.items():
        kind: Any = field.annotation
        for one in field.metadata:
            kind = Annotated[kind, one]
        found[name] = TypeAdapter(kind)
    return found


def stored_price(price: Decimal) -> str:
    """An exact price as it is stored: no exponent, no zeros at the end of a fraction.

    >>> stored_price(Decimal("12.50")), stored_price(Decimal("1E+2"))
    ('12.5', '100')
    """
    text = format(price, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
