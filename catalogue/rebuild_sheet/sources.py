"""Sources and equations of a sheet, each numbered once in the order in which the sheet first names it."""

from __future__ import annotations

from typing import NamedTuple

from catalogue.values import GRADE_WORDS
from fitcheck.rule import RULES
from fitcheck.words import dimension_words

# What is no published figure; it is said beside the value, not only in the list of sources.
WEAK = ("common_practice", "disputed", "from_memory", "no_tolerance", "own_judgement")
GIVEN, MEASURED, WORKED_OUT = "given", "measured", "worked_out"
_OWN_WORDS = {
    GIVEN: "as given to this check",
    MEASURED: "as measured on this unit",
    WORKED_OUT: "worked out here",
}
UNITS = ("mm3", "mm2", "mm", "mpa", "n", "deg_c", "percent", "kg_m3", "um", "k", "nmm")


class Cite(NamedTuple):
    """A mention of a source: its number, how well it is confirmed, and whether that is to be said at once."""

    number: int
    grade: str
    weak: bool


class Source(NamedTuple):
    """A source as the sheet lists it, with the numbers of the places that name it."""

    number: int
    citation: str
    grade: str
    places: tuple[int, ...]


class Equation(NamedTuple):
    """An equation as the sheet lists it: its symbols in words, and where it comes from."""

    number: int
    name: str
    equation: str
    symbols: str
    source: Cite


class Sources:
    """All sources of one sheet."""

    def __init__(self) -> None:
        self._numbers: dict[tuple[str, str], int] = {}
        self._places: dict[int, dict[int, None]] = {}
        self._equations: dict[str, int] = {}

    def cite(self, citation: str, grade: str, place: int = 0) -> Cite:
        """The mention of a source, at a place by its number or at none."""
        key = (citation, grade)
        number = self._numbers.setdefault(key, len(self._numbers) + 1)
        used = self._places.setdefault(number, {})
        if place:
            used[place] = None
        return Cite(number, grade_words(grade), grade in WEAK)

    def equation(self, rule: str) -> int:
        """The number of an equation; 0 where the rule is not in the list of rules."""
        if rule not in RULES:
            return 0
        return self._equations.setdefault(rule, len(self._equations) + 1)

    def equations(self) -> list[Equation]:
        """The equations named so far. Ask before ``listed``: equations have sources too."""
        found = []
        for name, number in self._equations.items():
            rule = RULES[name]
            symbols = "; ".join(f"{sign} {_symbol(text)}" for sign, text in rule.symbols.items())
            cite = self.cite(rule.source, "")
            found.append(Equation(number, dimension_words(name), rule.equation, symbols, cite))
        return found

    def listed(self) -> list[Source]:
        """Every source that was named."""
        return [
            Source(number, citation, grade_words(grade), tuple(sorted(self._places[number])))
            for (citation, grade), number in self._numbers.items()
        ]


def grade_words(grade: str) -> str:
    """A grade as a person reads it."""
    return _OWN_WORDS.get(grade) or GRADE_WORDS.get(grade, grade.replace("_", " ")).lower()


def _symbol(text: str) -> str:
    """A symbol in words: an argument's name without its unit, and the unit in brackets.

    >>> _symbol("travel_to_metal_mm"), _symbol("room left [mm]")
    ('travel to metal [mm]', 'room left [mm]')
    """
    for unit in UNITS:
        if text.endswith(f"_{unit}"):
            shown = {"mpa": "MPa", "n": "N", "deg_c": "degC", "percent": "%", "k": "K", "nmm": "N mm"}
            return f"{text.removesuffix(f'_{unit}').replace('_', ' ')} [{shown.get(unit, unit)}]"
    return text.replace("_", " ")
