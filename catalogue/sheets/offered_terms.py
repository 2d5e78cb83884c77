"""The terms of a batch of rows, put together from its columns: price, currency, packs, days, stock."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import repeat
from typing import Any

from catalogue.sheets.problems import Problem
from catalogue.sheets.terms import Offered

_COUNTED = ("pack_size", "minimum", "lead_time_days", "stock")
NO_PRICE = (None, None, "")  # as a column of prices gives it: amount, text, currency of the cell


class TermsBuilder:
    """Puts terms together. ``every`` are the texts that all rows share, ``headers`` those of the columns."""

    def __init__(self, every: Mapping[str, str], headers: Mapping[str, str]) -> None:
        self._headers = headers
        self._every: dict[str, Any] = dict(every)
        for name in ("price_per", *_COUNTED):
            if name in every:
                self._every[name] = int(every[name])

    def terms(self, values: Mapping[str, list[Any]], count: int) -> list[Offered | Problem]:
        """The terms of each row; a Problem where its price cannot be taken."""
        prices = values.get("price") or [NO_PRICE] * count
        columns = [
            values.get("code") or values["part_number"],
            values.get("description") or [""] * count,
            self._column("maker", values, count),
            self._column("maker_code", values, count),
            *self._prices(prices, values, count),
            *(self._column(name, values, count) for name in _COUNTED),
        ]
        found: list[Offered | Problem] = list(map(Offered._make, zip(*columns, strict=True)))
        for at, problem in self._wrong(prices, values, count):
            found[at] = problem
        return found

    def _prices(
        self, prices: Sequence[Any], values: Mapping[str, list[Any]], count: int
    ) -> tuple[list[Any], ...]:
        """Amount, text, currency and number of pieces of each price; None where there is none."""
        told = self._column("currency", values, count)
        per = self._column("price_per", values, count)
        if prices and Problem not in set(map(type, prices)):
            amounts, written, own = map(list, zip(*prices, strict=True))
            if None not in amounts and None not in told and None not in per and not any(own):
                return amounts, written, told, per
        amounts = [None if type(one) is Problem else one[0] for one in prices]
        written = [None if type(one) is Problem else one[1] for one in prices]
        currencies = [
            None if amount is None else currency or one[2]
            for amount, currency, one in zip(amounts, told, prices, strict=True)
        ]
        per = [None if amount is None else pieces or 1 for amount, pieces in zip(amounts, per, strict=True)]
        return amounts, written, currencies, per

    def _wrong(
        self, prices: Sequence[Any], values: Mapping[str, list[Any]], count: int
    ) -> Iterator[tuple[int, Problem]]:
        told = self._column("currency", values, count)
        for at, (price, currency) in enumerate(zip(prices, told, strict=True)):
            if type(price) is Problem or price[0] is None:
                continue
            own = price[2]
            if not currency and not own:
                yield (
                    at,
                    self._problem(
                        price[1],
                        "the price has no currency",
                        "a column of currencies, or once for all: --every currency=EUR",
                    ),
                )
            elif own and currency and own != currency and type(currency) is str:
                yield (
                    at,
                    self._problem(
                        price[1], f"the price is in {own}, the row says {currency}", "make both the same"
                    ),
                )

    def _column(self, name: str, values: Mapping[str, list[Any]], count: int) -> list[Any]:
        return values.get(name) or list(repeat(self._every.get(name), count))

    def _problem(self, value: str, reason: str, mend: str) -> Problem:
        return Problem(self._headers.get("price", "price"), value, reason, mend)
