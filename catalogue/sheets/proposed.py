"""What is proposed for the columns of a table, and the questions that stand before it."""

from __future__ import annotations

from collections.abc import Mapping as Texts
from typing import Any, Literal, NamedTuple

from catalogue.sheets.mapping import Column, Mapping, checked
from schema.errors import InputError, InputErrors

SURE, UNSURE, UNKNOWN, TOLD = "sure", "unsure", "not known", "told"


class ColumnProposal(NamedTuple):
    """What one column may be: ``how_sure`` is sure, unsure, not known or told; up to three examples."""

    header: str
    field: str = ""
    unit: str = ""
    how_sure: str = UNKNOWN
    why: str = ""
    examples: tuple[str, ...] = ()
    others: tuple[str, ...] = ()

    @property
    def column(self) -> Column:
        return Column(self.header, self.field, self.unit)


class Question(NamedTuple):
    """What has to be said before loading: ``answers`` are options as typed, the most likely first.

    ``about`` is a header, or ``code``, ``decimal``, ``currency``, ``kind``.
    """

    about: str
    text: str
    answers: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.text}: {' or '.join(self.answers)}"


class Proposal(NamedTuple):
    """A mapping as far as it is known; ``open`` must be answered, ``hints`` may be."""

    supplier: str
    columns: tuple[ColumnProposal, ...]
    every: Texts[str, str]
    decimal: str
    open: tuple[Question, ...]
    hints: tuple[Question, ...]
    texts: Literal["read", "as_kept"] = "read"
    shown: str = ""  # the decimal signs that its numbers show: none, one or both

    def mapping(self, **more: Any) -> Mapping:
        """The mapping when nothing is open; ``more`` as in ``checked`` (covers, sheets, encoding ...).

        Raises InputErrors with every open question, or with what the mapping does not keep to.
        """
        if self.open:
            raise InputErrors(
                [
                    InputError(field=one.about, given="", problem=one.text, allowed=" or ".join(one.answers))
                    for one in self.open
                ]
            )
        taken = (SURE, TOLD)
        columns = {
            one.header: one.column if one.how_sure in taken else Column(one.header, "")
            for one in self.columns
        }
        values = {
            "supplier": self.supplier,
            "decimal": self.decimal,
            "columns": columns,
            "every": dict(self.every),
            "texts": self.texts,
        }
        return checked(**{**values, **more})
